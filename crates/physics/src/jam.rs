//! A track that jams while the rotor turns: what the rotor's energy does to the drive line, with and without a slipping joint.
//!
//! All figures stand at the output (sprocket) shaft.

mod two_masses;

pub use two_masses::{Peaks, TwoMasses};

use quantity::*;

/// One inertia turning against the twist of the line, which is fast at the jam and unloaded when it begins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OneMass {
    /// Rotor times ratio squared, and what turns with the output.
    pub inertia: MomentOfInertia,
    pub speed: AngularVelocity,
    /// Torque per radian.
    pub stiffness: Torque,
    /// Of the motor, which goes on pushing.
    pub motor: Torque,
    /// Torque at which a joint in the line slips; nothing where none does.
    pub slips_at: Option<Torque>,
}

/// What comes of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stopped {
    /// Highest torque of the line.
    pub peak: Torque,
    pub slips: bool,
    /// Until the inertia stands for the first time; nothing where the motor goes on turning the joint.
    pub stops: Option<Stop>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stop {
    pub after: Time,
    /// By which the joint has slipped.
    pub slipped: Angle,
    /// Heat in the joint.
    pub heat: Energy,
}

/// Highest torque of a line that stops a turning inertia, T + √(T² + k·J·ω²).
///
/// Inputs: motor torque T (N·m); stiffness k (N·m/rad); inertia J (kg·m²); speed ω (rad/s).
/// Returns: torque (N·m).
/// Valid for: one inertia, no losses, no backlash. With two inertias that beat against one another it is no bound.
/// Source: balance of energy, textbook.
#[must_use]
pub fn energy_peak(motor: Torque, stiffness: Torque, inertia: MomentOfInertia, speed: AngularVelocity) -> Torque {
    let (t, w) = (motor.si(), speed.si());
    Torque::from_si(t + (t * t + stiffness.si() * inertia.si() * w * w).sqrt())
}

impl OneMass {
    /// Peak, and how it comes to a stand.
    ///
    /// Inputs: as the fields say.
    /// Returns: peak torque (N·m), whether the joint slips, time (s), slip (rad) and heat (J) until it stands.
    /// Valid for: as [`energy_peak`]; a joint whose friction is the same sliding as at rest.
    /// Source: one-mass oscillator under a constant force, textbook.
    #[must_use]
    pub fn stop(&self) -> Stopped {
        let (j, w0, k, tm) = (self.inertia.si(), self.speed.si(), self.stiffness.si(), self.motor.si());
        let peak = energy_peak(self.motor, self.stiffness, self.inertia, self.speed).si();
        let own = (k / j).sqrt();
        let Some(limit) = self.slips_at.map(|t| t.si()).filter(|limit| *limit < peak) else {
            // θ = A·(1 − cos) + B·sin stands where its speed passes through nothing.
            let (a, b) = (tm / k, w0 / own);
            let after = (b.atan2(-a)) / own;
            let stop = Stop { after: Time::from_si(after), slipped: Angle::ZERO, heat: Energy::ZERO };
            return Stopped { peak: Torque::from_si(peak), slips: false, stops: Some(stop) };
        };
        let twist = limit / k;
        let left = w0 * w0 + 2.0 * tm * twist / j - k * twist * twist / j;
        let speed = left.max(0.0).sqrt();
        let stops = (limit > tm).then(|| {
            let (a, b) = (tm / k, w0 / own);
            // a·(1 − cos φ) + b·sin φ = twist, the first time.
            let reach = a.hypot(b);
            let begin = a.atan2(b);
            let to_slip = (((twist - a) / reach).clamp(-1.0, 1.0).asin() + begin) / own;
            let slows = (limit - tm) / j;
            let slipped = speed * speed / (2.0 * slows);
            Stop {
                after: Time::from_si(to_slip + speed / slows),
                slipped: Angle::from_si(slipped),
                heat: Energy::from_si(limit * slipped),
            }
        });
        Stopped { peak: Torque::from_si(limit), slips: true, stops }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mass(motor: f64, slips_at: Option<f64>) -> OneMass {
        OneMass {
            inertia: MomentOfInertia::from_si(0.04),
            speed: AngularVelocity::from_si(30.0),
            stiffness: Torque::from_si(900.0),
            motor: Torque::from_si(motor),
            slips_at: slips_at.map(Torque::from_si),
        }
    }

    #[test]
    fn without_motor_it_is_half_a_swing() {
        let stopped = mass(0.0, None).stop();
        assert!((stopped.peak.si() - 30.0 * (900.0f64 * 0.04).sqrt()).abs() < 1e-9);
        let quarter = std::f64::consts::FRAC_PI_2 * (0.04f64 / 900.0).sqrt();
        assert!((stopped.stops.unwrap().after.si() - quarter).abs() < 1e-12);
    }

    #[test]
    fn a_slipping_joint_turns_the_energy_into_heat() {
        let stopped = mass(0.0, Some(50.0)).stop();
        let stop = stopped.stops.unwrap();
        let spring = 50.0f64.powi(2) / (2.0 * 900.0);
        assert!((stop.heat.si() - (0.5 * 0.04 * 900.0 - spring)).abs() < 1e-9);
        assert_eq!(stopped.peak.si(), 50.0);
    }

    #[test]
    fn a_motor_stronger_than_the_joint_is_never_stopped() {
        assert_eq!(mass(60.0, Some(50.0)).stop().stops, None);
        assert!(!mass(0.0, Some(500.0)).stop().slips);
    }
}
