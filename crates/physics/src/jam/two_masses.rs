//! Rotor and output as two inertias with a slipping joint between them.

use quantity::*;

/// Rotor (times ratio squared), shaft with the joint in series, output, line, jam. Both turn alike and nothing is twisted when it
/// begins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoMasses {
    pub rotor: MomentOfInertia,
    pub output: MomentOfInertia,
    pub speed: AngularVelocity,
    /// Between rotor and output, torque per radian.
    pub shaft: Torque,
    /// Between output and jam, torque per radian.
    pub line: Torque,
    /// Of the motor on the rotor, which goes on pushing.
    pub motor: Torque,
    pub slips_at: Option<Torque>,
}

/// Highest torques in the direction in which the motor drives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Peaks {
    /// In the line, at the jam.
    pub line: Torque,
    /// In the shaft and its joint.
    pub shaft: Torque,
    pub slips: bool,
}

/// Twist of the shaft, speed of the rotor, twist of the line, speed of the output.
type State = [f64; 4];

#[derive(Debug, Clone, Copy, PartialEq)]
enum Joint {
    Holds,
    /// Slips, and hands on this torque.
    Slips(f64),
}

/// Steps in the shortest period of the two: enough that no turn of a torque is missed.
const STEPS: f64 = 200.0;

impl TwoMasses {
    /// Highest torques within a time.
    ///
    /// Inputs: as the fields say; how long to look (s).
    /// Returns: torques (N·m), and whether the joint slipped.
    /// Valid for: no losses beside the joint's, no backlash. The joint slips both ways with the same torque sliding as at rest, and
    /// holds again when both its sides turn alike. A joint protects what sits on the rotor's side of it; the output's own inertia
    /// still stops through the line.
    /// Source: two-mass oscillator, textbook; followed by fourth-order Runge–Kutta steps of 1/200 of the shortest period, slip and
    /// hold found inside a step.
    #[must_use]
    pub fn peaks(&self, within: Time) -> Peaks {
        let (k1, k2, j1, j2) = (self.shaft.si(), self.line.si(), self.rotor.si(), self.output.si());
        let limit = self.slips_at.map_or(f64::INFINITY, |t| t.si());
        let fastest = ((k1 + k2) / j2 + k1 / j1).sqrt();
        let end = within.si();
        let steps = (end * fastest * STEPS / std::f64::consts::TAU).ceil().clamp(200.0, 4e6);
        let dt = end / steps;
        let mut state: State = [0.0, self.speed.si(), 0.0, self.speed.si()];
        let mut joint = Joint::Holds;
        let mut peaks = Peaks { line: Torque::ZERO, shaft: Torque::ZERO, slips: false };
        let mut time = 0.0;
        while time < end {
            let mut h = dt.min(end - time);
            let mut next = self.step(state, joint, h);
            if let Some(event) = self.event(state, next, joint, h, limit) {
                h = event;
                next = self.step(state, joint, h);
            }
            self.note(&mut peaks, state, next, joint);
            state = next;
            time += h.max(1e-12 * end);
            let [twist, rotor, _, output] = state;
            joint = match joint {
                Joint::Holds if k1 * twist.abs() >= limit * (1.0 - 1e-12) && twist * (rotor - output) > 0.0 => {
                    peaks.slips = true;
                    Joint::Slips(limit.copysign(twist))
                }
                Joint::Slips(t) if (rotor - output) * t <= 1e-12 * self.speed.si() * limit => Joint::Holds,
                same => same,
            };
        }
        if peaks.slips {
            peaks.shaft = Torque::from_si(peaks.shaft.si().min(limit));
        }
        peaks
    }

    fn rates(&self, [twist, rotor, wound, output]: State, joint: Joint) -> State {
        let (through, twisting) = match joint {
            Joint::Holds => (self.shaft.si() * twist, rotor - output),
            Joint::Slips(t) => (t, 0.0),
        };
        let faster = (self.motor.si() - through) / self.rotor.si();
        [twisting, faster, output, (through - self.line.si() * wound) / self.output.si()]
    }

    fn step(&self, s: State, joint: Joint, h: f64) -> State {
        let go = |k: State, by: f64| add(s, k, by);
        let k1 = self.rates(s, joint);
        let k2 = self.rates(go(k1, h / 2.0), joint);
        let k3 = self.rates(go(k2, h / 2.0), joint);
        let k4 = self.rates(go(k3, h), joint);
        add(add(add(add(s, k1, h / 6.0), k2, h / 3.0), k3, h / 3.0), k4, h / 6.0)
    }

    /// When, within a step, the joint begins to slip or to hold.
    fn event(&self, from: State, to: State, joint: Joint, h: f64, limit: f64) -> Option<f64> {
        let over = |s: State| {
            let [twist, rotor, _, output] = s;
            match joint {
                Joint::Holds => self.shaft.si() * twist.abs() - limit,
                Joint::Slips(t) => (output - rotor) * t,
            }
        };
        if !(over(from) < 0.0 && over(to) >= 0.0) {
            return None;
        }
        Some(crate::root::rising(0.0, h, 0.0, |part| over(self.step(from, joint, part))))
    }

    /// A torque is highest where its rate passes through nothing: there a cubic through both ends tells it.
    fn note(&self, peaks: &mut Peaks, from: State, to: State, joint: Joint) {
        let [_, _, wound, output] = from;
        let [twist_to, _, wound_to, _] = to;
        let mut line = wound.max(wound_to);
        if output > 0.0 && to[3] <= 0.0 {
            line = line.max(turn(wound, output, wound_to, to[3], self.rates(from, joint)[3]));
        }
        let shaft = match joint {
            Joint::Holds => {
                let (rate, rate_to) = (from[1] - from[3], to[1] - to[3]);
                let [_, rotor, _, out] = self.rates(from, joint);
                let mut twist = from[0].max(twist_to);
                if rate > 0.0 && rate_to <= 0.0 {
                    twist = twist.max(turn(from[0], rate, twist_to, rate_to, rotor - out));
                }
                self.shaft.si() * twist
            }
            Joint::Slips(t) => t,
        };
        peaks.line = Torque::from_si(peaks.line.si().max(self.line.si() * line));
        peaks.shaft = Torque::from_si(peaks.shaft.si().max(shaft));
    }
}

fn add(s: State, k: State, by: f64) -> State {
    let ([a, b, c, d], [p, q, r, t]) = (s, k);
    [a + by * p, b + by * q, c + by * r, d + by * t]
}

/// Height of a turning point between two places whose rates have opposite signs: the speed is nearly straight over so short a step.
fn turn(from: f64, rate: f64, to: f64, rate_to: f64, bends: f64) -> f64 {
    if bends < 0.0 {
        let back = -rate * rate / (2.0 * bends);
        // From the nearer end, where the straight line errs least.
        if rate.abs() <= rate_to.abs() { from + back } else { to.max(from + back) }
    } else {
        from.max(to)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn masses(slips_at: Option<f64>) -> TwoMasses {
        TwoMasses {
            rotor: MomentOfInertia::from_si(0.04),
            output: MomentOfInertia::from_si(4e-7),
            speed: AngularVelocity::from_si(30.0),
            shaft: Torque::from_si(1800.0),
            line: Torque::from_si(1800.0),
            motor: Torque::from_si(2.0),
            slips_at: slips_at.map(Torque::from_si),
        }
    }

    #[test]
    fn with_next_to_no_output_it_is_one_mass_on_both_springs() {
        let peaks = masses(None).peaks(Time::from_si(0.02));
        let lumped = super::super::energy_peak(
            Torque::from_si(2.0),
            Torque::from_si(900.0),
            MomentOfInertia::from_si(0.04),
            AngularVelocity::from_si(30.0),
        );
        assert!((peaks.shaft.si() / lumped.si() - 1.0).abs() < 2e-3, "{peaks:?} {lumped:?}");
        assert!(!peaks.slips);
    }

    #[test]
    fn a_joint_spares_the_rotors_side_and_not_the_jams_side() {
        let heavy = |slips_at| TwoMasses { output: MomentOfInertia::from_si(0.02), ..masses(slips_at) };
        let (free, joint) = (heavy(None).peaks(Time::from_si(0.1)), heavy(Some(40.0)).peaks(Time::from_si(0.1)));
        assert!(joint.slips && joint.shaft.si() <= 40.0 && free.shaft.si() > 100.0);
        let own = 30.0 * (1800.0f64 * 0.02).sqrt();
        assert!(joint.line.si() > own, "{joint:?} {own}");
    }
}
