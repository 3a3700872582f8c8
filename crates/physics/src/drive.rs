//! The drive line from motor to ground: stages, inertia, blows, and what the ground takes and gives.

use crate::landing::GRAVITY;
use quantity::*;

/// One stage that turns speed into torque.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stage {
    /// Speed in over speed out: above 1 it slows down.
    pub ratio: Ratio,
    /// Share of the power that goes through, above 0 up to 1.
    pub efficiency: Ratio,
}

/// A shaft that turns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Turning {
    pub speed: AngularVelocity,
    /// Negative against the speed: the load drives the motor.
    pub torque: Torque,
}

impl Turning {
    /// Power through the shaft, positive from motor to load.
    #[must_use]
    pub fn power(&self) -> Power {
        Power::from_si(self.speed.si() * self.torque.si())
    }
}

/// What leaves a stage, and its heat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Passed {
    pub out: Turning,
    pub loss: Power,
}

impl Stage {
    /// From the motor's side to the load's: ω/i, and T·i·η when driving, T·i/η when the load drives.
    ///
    /// Inputs: the shaft that goes in.
    /// Returns: the shaft that comes out and the heat: power in − power out exactly.
    /// Valid for: efficiency above 0; a standing shaft counts as driving.
    /// Source: textbook.
    #[must_use]
    pub fn out_of(&self, into: Turning) -> Passed {
        let (i, eta) = (self.ratio.si(), self.efficiency.si());
        let through = if into.power().si() < 0.0 { 1.0 / eta } else { eta };
        let out = Turning {
            speed: AngularVelocity::from_si(into.speed.si() / i),
            torque: Torque::from_si(into.torque.si() * i * through),
        };
        Passed { out, loss: into.power() - out.power() }
    }

    /// From the load's side back to the motor's: the exact inverse of [`Stage::out_of`].
    ///
    /// Inputs: the shaft that has to come out.
    /// Returns: the shaft that has to go in.
    /// Valid for: as [`Stage::out_of`].
    /// Source: textbook.
    #[must_use]
    pub fn into_for(&self, out: Turning) -> Turning {
        let (i, eta) = (self.ratio.si(), self.efficiency.si());
        let through = if out.power().si() < 0.0 { 1.0 / eta } else { eta };
        Turning {
            speed: AngularVelocity::from_si(out.speed.si() * i),
            torque: Torque::from_si(out.torque.si() / (i * through)),
        }
    }
}

/// All stages in order from the motor: what each passes on, and its heat.
///
/// Inputs: stages; the motor's shaft.
/// Returns: one entry a stage; the last is the load's shaft.
/// Valid for: as [`Stage::out_of`].
/// Source: textbook.
#[must_use]
pub fn chain(stages: &[Stage], motor: Turning) -> Vec<Passed> {
    stages
        .iter()
        .scan(motor, |into, stage| {
            let passed = stage.out_of(*into);
            *into = passed.out;
            Some(passed)
        })
        .collect()
}

/// The motor's shaft that a load asks for.
///
/// Inputs: stages in order from the motor; the load's shaft.
/// Returns: the motor's shaft.
/// Valid for: as [`Stage::into_for`].
/// Source: textbook.
#[must_use]
pub fn motor_for(stages: &[Stage], load: Turning) -> Turning {
    stages.iter().rev().fold(load, |out, stage| stage.into_for(out))
}

/// Ratio of the whole line, motor speed over load speed.
///
/// Inputs: stages.
/// Returns: a plain number, 1 without stages.
/// Valid for: always.
/// Source: kinematics.
#[must_use]
pub fn total_ratio(stages: &[Stage]) -> Ratio {
    Ratio::from_si(stages.iter().map(|s| s.ratio.si()).product())
}

/// Inertia of a rotor as it is felt behind a ratio, J·i².
///
/// Inputs: inertia J (kg·m²) on the fast side; ratio i, fast speed over slow.
/// Returns: kg·m² on the slow side.
/// Valid for: stiff lines; from the slow side to the fast one, give 1/i.
/// Source: equal kinetic energy, textbook.
#[must_use]
pub fn reflected_inertia(inertia: MomentOfInertia, ratio: Ratio) -> MomentOfInertia {
    MomentOfInertia::from_si(inertia.si() * ratio.si() * ratio.si())
}

/// Mass that a turning inertia adds to the machine when it speeds up, J / r².
///
/// Inputs: inertia J (kg·m²) at the sprocket; pitch radius r (m).
/// Returns: kg.
/// Valid for: no slip.
/// Source: equal kinetic energy, textbook.
#[must_use]
pub fn inertia_as_mass(inertia: MomentOfInertia, pitch_radius: Length) -> Mass {
    Mass::from_si(inertia.si() / pitch_radius.si().powi(2))
}

/// Mean torque that stops a rotor in a time, J·ω/t.
///
/// Inputs: inertia J (kg·m²); speed ω (rad/s); time t (s).
/// Returns: N·m, mean: a half-sine blow peaks at π/2 of it.
/// Valid for: a time that is known, as of a track that grips on landing.
/// Source: impulse and momentum, textbook.
#[must_use]
pub fn stopping_torque(inertia: MomentOfInertia, speed: AngularVelocity, time: Time) -> Torque {
    Torque::from_si(inertia.si() * speed.si() / time.si())
}

/// Peak torque when a rotor's whole motion goes into the twist of the line, ω·√(J·k).
///
/// Inputs: inertia J (kg·m²); speed ω (rad/s) taken out of it; torsional stiffness k (N·m a radian) on the same shaft.
/// Returns: N·m.
/// Valid for: a load side that stops dead and nothing that slips: the upper bound.
/// Source: ½·J·ω² = ½·T²/k, textbook.
#[must_use]
pub fn twist_stop_torque(inertia: MomentOfInertia, speed: AngularVelocity, stiffness_per_radian: Torque) -> Torque {
    Torque::from_si(speed.si().abs() * (inertia.si() * stiffness_per_radian.si()).sqrt())
}

/// Time in which the twist of the line stops a rotor, a quarter of its swing, π/2·√(J/k).
///
/// Inputs: inertia J (kg·m²); torsional stiffness k (N·m a radian) on the same shaft.
/// Returns: s.
/// Valid for: as [`twist_stop_torque`].
/// Source: free swing of one inertia on one spring, textbook.
#[must_use]
pub fn twist_stop_time(inertia: MomentOfInertia, stiffness_per_radian: Torque) -> Time {
    Time::from_si(std::f64::consts::FRAC_PI_2 * (inertia.si() / stiffness_per_radian.si()).sqrt())
}

/// Peak torque of a rotor that stands after a time, π/2·J·ω/t: what [`twist_stop_torque`] gives for the line that takes this
/// time.
///
/// Inputs: inertia J (kg·m²); speed ω (rad/s) taken out of it; time t (s) from full speed to standing.
/// Returns: N·m.
/// Valid for: a line that gives like a spring; one that slips or hits a stop has another shape.
/// Source: as [`twist_stop_time`].
#[must_use]
pub fn timed_stop_torque(inertia: MomentOfInertia, speed: AngularVelocity, time: Time) -> Torque {
    stopping_torque(inertia, speed.abs(), time) * std::f64::consts::FRAC_PI_2
}

/// Time in which a rotor stops against a torque that stays, J·ω/T: a track that slips holds it back no harder than that.
///
/// Inputs: inertia J (kg·m²); speed ω (rad/s) taken out of it; torque T (N·m) on the same shaft.
/// Returns: s.
/// Valid for: a torque above zero.
/// Source: impulse and momentum, textbook.
#[must_use]
pub fn slipping_stop_time(inertia: MomentOfInertia, speed: AngularVelocity, torque: Torque) -> Time {
    Time::from_si(inertia.si() * speed.si().abs() / torque.si())
}

/// Weight of a mass, m·g.
///
/// Inputs: mass m (kg).
/// Returns: N.
/// Valid for: the surface of the earth.
/// Source: textbook.
#[must_use]
pub fn weight(mass: Mass) -> Force {
    Force::from_si(mass.si() * GRAVITY)
}

/// Pull along a slope, m·g·sin θ.
///
/// Inputs: mass m (kg); grade θ (rad), negative downhill.
/// Returns: N.
/// Valid for: any slope.
/// Source: textbook.
#[must_use]
pub fn grade_resistance(mass: Mass, grade: Angle) -> Force {
    Force::from_si(mass.si() * GRAVITY * grade.si().sin())
}

/// Rolling resistance on a slope, c·m·g·cos θ.
///
/// Inputs: coefficient c, pull over weight; mass m (kg); grade θ (rad).
/// Returns: N.
/// Valid for: steady slow running; tracks in soft snow cost 0.1 to 0.3 (common practice): pull it on a scale and measure.
/// Source: textbook.
#[must_use]
pub fn rolling_resistance(coefficient: Ratio, mass: Mass, grade: Angle) -> Force {
    Force::from_si(coefficient.si() * mass.si() * GRAVITY * grade.si().cos())
}

/// Coefficient of rolling resistance from a tow on the level, F/(m·g): what [`rolling_resistance`] gives back.
///
/// Inputs: pull F (N) to tow it steadily; mass m (kg).
/// Returns: a plain number.
/// Valid for: as [`rolling_resistance`].
/// Source: textbook.
#[must_use]
pub fn rolling_coefficient(pull: Force, mass: Mass) -> Ratio {
    Ratio::from_si(pull.si() / (mass.si() * GRAVITY))
}

/// Pull beyond which the track spins, µ·m·g·cos θ.
///
/// Inputs: grip coefficient µ; mass m (kg) that rests on the track; grade θ (rad).
/// Returns: N.
/// Valid for: even ground; lugs in soft ground shear it instead.
/// Source: Coulomb friction.
#[must_use]
pub fn traction_limit(grip: Ratio, mass_on_track: Mass, grade: Angle) -> Force {
    rolling_resistance(grip, mass_on_track, grade)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    fn stage(ratio: f64, efficiency: f64) -> Stage {
        Stage { ratio: Ratio::from_si(ratio), efficiency: Ratio::from_si(efficiency) }
    }
    fn turning(speed: f64, torque: f64) -> Turning {
        Turning { speed: AngularVelocity::from_si(speed), torque: Torque::from_si(torque) }
    }
    fn inertia(x: f64) -> MomentOfInertia {
        MomentOfInertia::from_si(x)
    }

    #[test]
    fn power_in_is_power_out_and_losses_both_ways() {
        let line = [stage(4.2, 0.96), stage(2.5, 0.9), stage(0.8, 0.97)];
        for torque in [3.0, -3.0, 0.0] {
            let motor = turning(700.0, torque);
            let passed = chain(&line, motor);
            let heat: f64 = passed.iter().map(|p| p.loss.si()).sum();
            let out = passed.last().unwrap().out;
            assert!((motor.power().si() - out.power().si() - heat).abs() < 1e-9);
            assert!(passed.iter().all(|p| p.loss.si() >= 0.0));
            let back = motor_for(&line, out);
            assert!((back.speed.si() - 700.0).abs() < 1e-9 && (back.torque.si() - torque).abs() < 1e-12);
        }
        assert!((total_ratio(&line).si() - 8.4).abs() < 1e-12);
        assert_eq!(total_ratio(&[]).si(), 1.0);
    }

    #[test]
    fn a_perfect_stage_only_swaps_speed_for_torque() {
        let passed = stage(5.0, 1.0).out_of(turning(100.0, 2.0));
        assert_eq!(passed.out, turning(20.0, 10.0));
        assert_eq!(passed.loss.si(), 0.0);
    }

    #[test]
    fn reflected_inertia_keeps_its_energy() {
        let j = reflected_inertia(inertia(1.9e-4), Ratio::from_si(6.0)).si();
        assert!((j * 100.0f64.powi(2) - 1.9e-4 * 600.0f64.powi(2)).abs() < 1e-9);
        let mass = inertia_as_mass(inertia(j), Length::from_si(0.05)).si();
        assert!((mass * (100.0f64 * 0.05).powi(2) - j * 1e4).abs() < 1e-9);
    }

    #[test]
    fn a_blow_through_a_spring_is_the_half_sine_of_its_own_time() {
        // A rotor on a torsion spring stops in a quarter swing t = π/2·√(J/k); peak is π/2 of the mean torque.
        let (j, k, w) = (3e-4, 40.0, 500.0);
        let time = PI / 2.0 * f64::sqrt(j / k);
        let mean = stopping_torque(inertia(j), AngularVelocity::from_si(w), Time::from_si(time)).si();
        let peak = twist_stop_torque(inertia(j), AngularVelocity::from_si(w), Torque::from_si(k)).si();
        assert!((peak / mean - PI / 2.0).abs() < 1e-12);
        let mean_stop = slipping_stop_time(inertia(j), AngularVelocity::from_si(w), Torque::from_si(mean));
        assert!((mean_stop.si() - time).abs() < 1e-15);
        let stiffness = Torque::from_si(k);
        assert!((twist_stop_time(inertia(j), stiffness).si() - time).abs() < 1e-15);
        let timed = timed_stop_torque(inertia(j), AngularVelocity::from_si(w), Time::from_si(time)).si();
        assert!((timed / peak - 1.0).abs() < 1e-12);
        // All that the rotor had is wound up in the line.
        assert!((peak * peak / k / 2.0 - j * w * w / 2.0).abs() < 1e-9);
    }

    #[test]
    fn on_the_flat_and_on_a_wall() {
        let (m, flat, wall) = (Mass::from_si(40.0), Angle::from_si(0.0), Angle::from_si(PI / 2.0));
        assert_eq!(grade_resistance(m, flat).si(), 0.0);
        assert!((grade_resistance(m, wall).si() - 40.0 * GRAVITY).abs() < 1e-9);
        assert!((traction_limit(Ratio::from_si(0.6), m, flat).si() - 24.0 * GRAVITY).abs() < 1e-9);
        assert!(rolling_resistance(Ratio::from_si(0.15), m, wall).si().abs() < 1e-9);
        let towed = rolling_resistance(Ratio::from_si(0.15), m, flat);
        assert!((rolling_coefficient(towed, m).si() - 0.15).abs() < 1e-12);
    }
}
