//! What a tracked machine can do: how steep it climbs, how fast it goes, in what distance it stops, whether it stays there.
//!
//! No drag of the air, and no inertia while it goes steadily. The motor is its direct-current equivalent behind a lossless
//! step-down; what a whole drive line loses on top is worked out by whoever couples them.

use crate::landing::GRAVITY;
use crate::motor::{Motor, torque_constant};
use quantity::*;

/// What keeps a machine from pulling any harder.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Limit {
    Traction,
    MotorCurrent,
    BatteryCurrent,
    Voltage,
}

/// Motors that are alike, beside one another on one battery and one reduction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Puller {
    pub motors: Ratio,
    pub motor: Motor,
    /// Of each motor.
    pub motor_current_limit: ElectricCurrent,
    pub battery_voltage: ElectricPotential,
    pub battery_resistance: ElectricalResistance,
    /// Of all motors together.
    pub battery_current_limit: ElectricCurrent,
    pub ratio: Ratio,
    pub sprocket_radius: Length,
    /// Share of the power that gets from the motors to the track.
    pub efficiency: Ratio,
}

/// The hardest that a [`Puller`] pulls at a speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pull {
    pub force: Force,
    /// Of each motor.
    pub current: ElectricCurrent,
    pub limit: Limit,
}

impl Puller {
    /// Voltage of the turning motor at a track speed.
    fn back_voltage(&self, speed: f64) -> f64 {
        speed / self.sprocket_radius.si() * self.ratio.si() / self.motor.speed_constant.si()
    }

    fn power_at_limit(&self) -> f64 {
        let limit = self.battery_current_limit.si();
        limit * (self.battery_voltage.si() - limit * self.battery_resistance.si())
    }

    /// The hardest pull at a track speed, F = n·Kt·(I − I₀)·i·η/r with the least of three currents: that of the controller; what
    /// the sagging battery drives, (V − E)/(R + n·R_b); and what its current limit leaves, n·(E + I·R)·I = I_b·(V − I_b·R_b).
    ///
    /// Inputs: track speed (m/s).
    /// Returns: force (N, never below zero), current (A) and what limits it; a motor at its free speed or above it is limited by
    /// the voltage, and pulls nothing.
    /// Valid for: speeds from 0 on; below magnetic saturation.
    /// Source: direct-current machine and Kirchhoff's laws, textbook.
    #[must_use]
    pub fn pull(&self, speed: Velocity) -> Pull {
        let (n, r, e) = (self.motors.si(), self.motor.resistance.si(), self.back_voltage(speed.si()));
        let open = self.battery_voltage.si();
        if e >= open {
            return Pull { force: Force::ZERO, current: ElectricCurrent::ZERO, limit: Limit::Voltage };
        }
        let by_voltage = (open - e) / (r + n * self.battery_resistance.si());
        let by_battery = ((e * e + 4.0 * r * self.power_at_limit() / n).sqrt() - e) / (2.0 * r);
        let mut least = (self.motor_current_limit.si(), Limit::MotorCurrent);
        for other in [(by_voltage, Limit::Voltage), (by_battery, Limit::BatteryCurrent)] {
            if other.0 < least.0 {
                least = other;
            }
        }
        let (current, limit) = least;
        let torque = (current - self.motor.no_load_current.si()) * torque_constant(self.motor.speed_constant);
        let force = n * torque * self.ratio.si() * self.efficiency.si() / self.sprocket_radius.si();
        Pull { force: Force::from_si(force.max(0.0)), current: ElectricCurrent::from_si(current), limit }
    }

    /// The fastest at which it still pulls a force: the speed at which the current that the force takes is the least of the three.
    ///
    /// Inputs: force (N).
    /// Returns: m/s and what limits it; 0 where it does not even pull that at a standstill.
    /// Valid for: as [`Puller::pull`].
    /// Source: as [`Puller::pull`].
    #[must_use]
    pub fn fastest(&self, force: Force) -> (Velocity, Limit) {
        let n = self.motors.si();
        let through = self.ratio.si() * self.efficiency.si() * n * torque_constant(self.motor.speed_constant);
        let current = force.si() * self.sprocket_radius.si() / through + self.motor.no_load_current.si();
        let crawl = self.pull(Velocity::ZERO);
        if crawl.force < force {
            return (Velocity::ZERO, crawl.limit);
        }
        let r = self.motor.resistance.si();
        let by_voltage = self.battery_voltage.si() - current * (r + n * self.battery_resistance.si());
        let by_battery = self.power_at_limit() / (n * current) - current * r;
        let (volts, limit) =
            if by_battery < by_voltage { (by_battery, Limit::BatteryCurrent) } else { (by_voltage, Limit::Voltage) };
        let speed = volts * self.motor.speed_constant.si() / self.ratio.si() * self.sprocket_radius.si();
        (Velocity::from_si(speed.max(0.0)), limit)
    }
}

/// The steepest grade that a force moves a machine up, from sin θ + c·cos θ = F/(m·g).
///
/// Inputs: force F (N) at the track; coefficient c of rolling resistance; mass m (kg).
/// Returns: rad; 90° where the force lifts it straight up; nothing where it does not even move it on the level.
/// Valid for: steady slow running, and a track that grips.
/// Source: statics, textbook; solved as a sine of θ + atan c.
#[must_use]
pub fn steepest_for(force: Force, rolling: Ratio, mass: Mass) -> Option<Angle> {
    let (share, c) = (force.si() / (mass.si() * GRAVITY), rolling.si());
    if share.is_nan() || share < c {
        return None;
    }
    let sine = share / c.hypot(1.0);
    let most = std::f64::consts::FRAC_PI_2;
    Some(Angle::from_si(if sine >= 1.0 { most } else { (sine.asin() - c.atan()).clamp(0.0, most) }))
}

/// The steepest grade on which a track grips: tan θ = (µ·s − c)/(1 − µ·h), the weight that moves on to the track counted.
///
/// Inputs: adhesion µ, pull over load on the track; share s of the weight that stands on the track on the level; coefficient c of
/// rolling resistance; lever h, height of the centre of gravity over the distance between the track's middle and the other
/// support, 0 where the track carries all.
/// Returns: rad; 90° where the weight that moves on to the track makes up for any grade; nothing where it spins on the level.
/// Valid for: even ground, until the share comes to 1 (then the machine stands on its track alone, and s = 1, h = 0 holds).
/// Source: balance of moments, textbook.
#[must_use]
pub fn steepest_by_grip(adhesion: Ratio, share: Ratio, rolling: Ratio, lever: Ratio) -> Option<Angle> {
    let (mu, s, c, h) = (adhesion.si(), share.si(), rolling.si(), lever.si());
    let level = mu * s - c;
    if level.is_nan() || level < 0.0 {
        return None;
    }
    let alone = (mu - c).max(0.0);
    let shifted = if mu * h < 1.0 { level / (1.0 - mu * h) } else { f64::INFINITY };
    // Beyond this grade all of the weight is on the track.
    let all_at = if h > 0.0 { (1.0 - s).max(0.0) / h } else { f64::INFINITY };
    Some(Angle::from_si(if shifted > all_at { alone.max(all_at) } else { shifted }.atan()))
}

/// Share of the weight on the track on a grade, s + h·tan θ.
///
/// Inputs: share s on the level; lever h as in [`steepest_by_grip`]; grade θ (rad), negative downhill.
/// Returns: from 0 to 1.
/// Valid for: the track behind the other support.
/// Source: balance of moments, textbook.
#[must_use]
pub fn share_on_grade(share: Ratio, lever: Ratio, grade: Angle) -> Ratio {
    Ratio::from_si((share.si() + lever.si() * grade.si().tan()).clamp(0.0, 1.0))
}

/// Deceleration of a braked machine, (F_brake + F_roll − F_slope)/(k·m).
///
/// Inputs: brake force (N), as far as the track grips; rolling resistance (N); pull of the slope (N), positive downhill; mass m
/// (kg); factor k for what turns.
/// Returns: m/s²; not above zero where it does not stop.
/// Valid for: forces that stay the same while it stops.
/// Source: Newton, textbook.
#[must_use]
pub fn deceleration(brake: Force, rolling: Force, slope: Force, mass: Mass, turning: Ratio) -> Acceleration {
    Acceleration::from_si((brake.si() + rolling.si() - slope.si()) / (mass.si() * turning.si()))
}

/// Distance to a standstill, v·t + v²/(2·a).
///
/// Inputs: speed v (m/s); time t (s) until the brake works, the speed kept meanwhile; deceleration a (m/s²).
/// Returns: m; nothing where it does not stop.
/// Valid for: a steady deceleration.
/// Source: kinematics.
#[must_use]
pub fn stopping_distance(speed: Velocity, reaction: Time, deceleration: Acceleration) -> Option<Length> {
    let (v, a) = (speed.si(), deceleration.si());
    (a > 0.0).then(|| Length::from_si(v * reaction.si() + v * v / (2.0 * a)))
}

/// Factor by which turning rotors make a machine heavier to stop, 1 + n·J·i²/(m·r²).
///
/// Inputs: rotors n; inertia J (kg·m²) of each; ratio i; sprocket radius r (m); mass m (kg).
/// Returns: a plain number, at least 1; track and wheels come on top.
/// Valid for: no slip.
/// Source: equal kinetic energy, textbook.
#[must_use]
pub fn rotating_mass_factor(
    rotors: Ratio,
    inertia: MomentOfInertia,
    ratio: Ratio,
    radius: Length,
    mass: Mass,
) -> Ratio {
    let turned = rotors.si() * inertia.si() * ratio.si().powi(2) / radius.si().powi(2);
    Ratio::from_si(1.0 + turned / mass.si())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drive::{grade_resistance, rolling_resistance};

    fn ratio(x: f64) -> Ratio {
        Ratio::from_si(x)
    }

    #[test]
    fn the_steepest_grade_put_back_takes_the_force() {
        let mass = Mass::from_si(60.0);
        for c in [0.0, 0.05, 0.15, 0.3] {
            for degrees in [0.0, 3.0, 20.0, 45.0, 70.0] {
                let grade = Angle::from_si(f64::to_radians(degrees));
                let force = grade_resistance(mass, grade) + rolling_resistance(ratio(c), mass, grade);
                // Beyond the steepest of all the same force comes twice; the lower one is meant.
                let found = steepest_for(force, ratio(c), mass).unwrap().si().to_degrees();
                assert!((found - degrees).abs() < 1e-9 || found < degrees, "{c} {degrees} {found}");
            }
        }
        assert_eq!(steepest_for(Force::from_si(10.0), ratio(0.1), mass), None);
        assert_eq!(steepest_for(Force::from_si(1e4), ratio(0.1), mass).unwrap().si().to_degrees(), 90.0);
    }

    #[test]
    fn grip_by_hand_and_with_the_weight_that_moves() {
        // All on the track: tan θ = 0.9 − 0.1.
        let all = steepest_by_grip(ratio(0.9), ratio(1.0), ratio(0.1), ratio(0.0)).unwrap();
        assert!((all.si().tan() - 0.8).abs() < 1e-12);
        assert_eq!(steepest_by_grip(ratio(0.1), ratio(0.9), ratio(0.1), ratio(0.0)), None);
        // At the steepest grade the shifted share gives just what is needed.
        let (mu, s, c, h) = (0.8, 0.6, 0.12, 0.3);
        let grade = steepest_by_grip(ratio(mu), ratio(s), ratio(c), ratio(h)).unwrap();
        let share = share_on_grade(ratio(s), ratio(h), grade).si();
        assert!(share < 1.0 && (mu * share - c - grade.si().tan()).abs() < 1e-12);
        // A weight that moves on to the track never lowers the grade, and no more than all of it can.
        let top = steepest_by_grip(ratio(mu), ratio(s), ratio(c), ratio(0.7)).unwrap();
        assert!(top >= grade && top.si().tan() <= mu - c + 1e-12);
        assert_eq!(share_on_grade(ratio(0.6), ratio(0.5), Angle::from_si(-1.4)).si(), 0.0);
    }

    #[test]
    fn stopping_by_energy() {
        let (m, v) = (42.0, 2.5);
        let a = deceleration(
            Force::from_si(120.0),
            Force::from_si(50.0),
            Force::from_si(90.0),
            Mass::from_si(m),
            ratio(1.2),
        );
        let stops = stopping_distance(Velocity::from_si(v), Time::ZERO, a).unwrap().si();
        assert!((stops * (120.0 + 50.0 - 90.0) - 0.5 * 1.2 * m * v * v).abs() < 1e-9);
        let none = deceleration(Force::ZERO, Force::from_si(50.0), Force::from_si(50.0), Mass::from_si(m), ratio(1.0));
        assert_eq!(stopping_distance(Velocity::from_si(v), Time::ZERO, none), None);
        let turning = rotating_mass_factor(
            ratio(2.0),
            MomentOfInertia::from_si(1e-3),
            ratio(10.0),
            Length::from_si(0.1),
            Mass::from_si(40.0),
        );
        assert!((turning.si() - (1.0 + 2.0 * 1e-3 * 100.0 / 0.01 / 40.0)).abs() < 1e-12);
    }

    #[test]
    fn the_fastest_speed_put_back_is_the_pull() {
        let puller = Puller {
            motors: ratio(2.0),
            motor: Motor {
                speed_constant: SpeedConstant::from_si(118.0 * std::f64::consts::PI / 30.0),
                resistance: ElectricalResistance::from_si(0.05),
                no_load_current: ElectricCurrent::from_si(2.0),
            },
            motor_current_limit: ElectricCurrent::from_si(90.0),
            battery_voltage: ElectricPotential::from_si(50.0),
            battery_resistance: ElectricalResistance::from_si(0.08),
            battery_current_limit: ElectricCurrent::from_si(60.0),
            ratio: ratio(9.0),
            sprocket_radius: Length::from_si(0.07),
            efficiency: ratio(0.85),
        };
        let mut last = f64::INFINITY;
        for force in [1.0, 50.0, 300.0, 700.0, 1000.0] {
            let (speed, limit) = puller.fastest(Force::from_si(force));
            let pull = puller.pull(speed);
            assert!((pull.force.si() / force - 1.0).abs() < 1e-9 && pull.limit == limit, "{force} {pull:?}");
            assert!(speed.si() <= last);
            last = speed.si();
        }
        assert_eq!(puller.fastest(Force::from_si(1e5)), (Velocity::ZERO, Limit::MotorCurrent));
    }
}
