//! A brushless motor as its direct-current equivalent: three figures from the label give its whole curve.

use crate::range::{OutsideRange, within};
use quantity::*;

/// A motor between its controller's supply and its shaft.
///
/// The controller at part throttle is a lossless step-down: voltage means what the motor gets, current what flows in the motor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Motor {
    /// No-load speed for each volt, line to line.
    pub speed_constant: SpeedConstant,
    /// Terminal to terminal, at the winding's temperature, leads included.
    pub resistance: ElectricalResistance,
    /// What it draws with a free shaft, taken as constant: iron and bearing losses.
    pub no_load_current: ElectricCurrent,
}

/// One point of the curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    pub voltage: ElectricPotential,
    pub current: ElectricCurrent,
    pub speed: AngularVelocity,
    pub torque: Torque,
    pub shaft_power: Power,
    pub copper_loss: Power,
    pub no_load_loss: Power,
}

impl Point {
    /// Electrical power taken in; negative where the motor brakes into the battery.
    #[must_use]
    pub fn electrical_power(&self) -> Power {
        Power::from_si(self.voltage.si() * self.current.si())
    }
    /// Heat in the motor.
    #[must_use]
    pub fn loss(&self) -> Power {
        self.copper_loss + self.no_load_loss
    }
}

/// Torque for each ampere, Kt = 1/Kv, the same number in SI.
///
/// Inputs: speed constant Kv (rad/(V·s)), line to line.
/// Returns: N·m/A, as a plain number.
/// Valid for: the direct-current equivalent; with sine currents stated as peak or effective value of a line it is other by √3/2 or √6/2.
/// Source: power balance of an ideal machine, textbook.
#[must_use]
pub fn torque_constant(speed_constant: SpeedConstant) -> f64 {
    1.0 / speed_constant.si()
}

impl Motor {
    fn point(&self, voltage: f64, current: f64) -> Point {
        let (kv, r, i0) = (self.speed_constant.si(), self.resistance.si(), self.no_load_current.si());
        let speed = kv * (voltage - current * r);
        // Drag is against the motion, and a standing shaft has none to speak of.
        let drag = if speed == 0.0 { 0.0 } else { i0 * speed.signum() };
        let torque = (current - drag) / kv;
        Point {
            voltage: ElectricPotential::from_si(voltage),
            current: ElectricCurrent::from_si(current),
            speed: AngularVelocity::from_si(speed),
            torque: Torque::from_si(torque),
            shaft_power: Power::from_si(torque * speed),
            copper_loss: Power::from_si(current * current * r),
            no_load_loss: Power::from_si(drag * speed / kv),
        }
    }

    /// The point at a voltage and a current: ω = Kv·(V − I·R), T = (I − I₀)/Kv.
    ///
    /// Inputs: voltage (V); current (A), negative where it brakes.
    /// Returns: speed, torque and losses; V·I = shaft power + losses exactly.
    /// Valid for: below magnetic saturation, forward turning; losses at several times the no-load speed are higher than this.
    /// Source: direct-current machine, textbook.
    #[must_use]
    pub fn at_current(&self, voltage: ElectricPotential, current: ElectricCurrent) -> Point {
        self.point(voltage.si(), current.si())
    }

    /// The point at a voltage and a shaft torque.
    ///
    /// Inputs: voltage (V); torque (N·m), negative where it brakes.
    /// Returns: as [`Motor::at_current`].
    /// Valid for: forward turning.
    /// Source: as [`Motor::at_current`].
    #[must_use]
    pub fn at_torque(&self, voltage: ElectricPotential, torque: Torque) -> Point {
        self.point(voltage.si(), self.current_for(torque).si())
    }

    /// The point at a voltage and a speed.
    ///
    /// Inputs: voltage (V); speed (rad/s).
    /// Returns: as [`Motor::at_current`]; above the free speed the current turns negative: it brakes.
    /// Valid for: as [`Motor::at_current`].
    /// Source: as [`Motor::at_current`].
    #[must_use]
    pub fn at_speed(&self, voltage: ElectricPotential, speed: AngularVelocity) -> Point {
        let current = (voltage.si() - speed.si() / self.speed_constant.si()) / self.resistance.si();
        self.point(voltage.si(), current)
    }

    /// Current for a shaft torque while turning forward, I = T·Kv + I₀.
    ///
    /// Inputs: torque (N·m).
    /// Returns: current (A).
    /// Valid for: as [`Motor::at_current`].
    /// Source: as [`Motor::at_current`].
    #[must_use]
    pub fn current_for(&self, torque: Torque) -> ElectricCurrent {
        ElectricCurrent::from_si(torque.si() * self.speed_constant.si() + self.no_load_current.si())
    }

    /// Voltage that holds a speed under a torque: what part throttle has to give.
    ///
    /// Inputs: speed (rad/s); torque (N·m).
    /// Returns: voltage (V); above the sagged supply the point cannot be reached.
    /// Valid for: as [`Motor::at_current`].
    /// Source: as [`Motor::at_current`].
    #[must_use]
    pub fn voltage_for(&self, speed: AngularVelocity, torque: Torque) -> ElectricPotential {
        let drop = self.current_for(torque).si() * self.resistance.si();
        ElectricPotential::from_si(speed.si() / self.speed_constant.si() + drop)
    }

    /// Free speed, shaft loaded by nothing.
    ///
    /// Inputs: voltage (V).
    /// Returns: rad/s.
    /// Valid for: as [`Motor::at_current`].
    /// Source: as [`Motor::at_current`].
    #[must_use]
    pub fn free_speed(&self, voltage: ElectricPotential) -> AngularVelocity {
        self.at_current(voltage, self.no_load_current).speed
    }

    /// The same motor with its windings switched early by an electrical angle γ: faster by 1/cos γ and weaker by cos γ, for the
    /// windings meet that much less of the turning magnets' voltage.
    ///
    /// Inputs: angle γ (rad), electrical.
    /// Returns: the motor as its controller sees it.
    /// Valid for: sine-shaped voltage of the turning motor, 0 to 45°; beyond 30° the current falls behind and it gains less.
    /// Source: mean of a sine over the sixth of a turn in which two windings carry current; worked out here, no source.
    ///
    /// # Errors
    /// Less than none, or more than 45°.
    pub fn advanced(&self, angle: Angle) -> Result<Self, OutsideRange> {
        let degrees = within("timing advance", "°", 0.0, 45.0, angle.si().to_degrees())?;
        Ok(Self { speed_constant: self.speed_constant / degrees.to_radians().cos(), ..*self })
    }

    /// Current at which the least part of the power is lost, √(V·I₀/R).
    ///
    /// Inputs: voltage (V).
    /// Returns: current (A).
    /// Valid for: as [`Motor::at_current`].
    /// Source: derivative of the efficiency set to zero, textbook.
    #[must_use]
    pub fn thriftiest_current(&self, voltage: ElectricPotential) -> ElectricCurrent {
        ElectricCurrent::from_si((voltage.si() * self.no_load_current.si() / self.resistance.si()).sqrt())
    }
}

/// Effective current in each of the three leads of a brushless motor, √(2/3)·I.
///
/// Inputs: current I (A) of the direct-current equivalent.
/// Returns: A, effective: what warms a lead. The current flows through two of the three leads at a time.
/// Valid for: switched in blocks of a sixth of a turn; driven by sines the same torque takes within 5 % of it.
/// Source: mean square over a turn, textbook.
#[must_use]
pub fn lead_current(current: ElectricCurrent) -> ElectricCurrent {
    current.abs() * (2.0f64 / 3.0).sqrt()
}

/// Speed of the rotor's rim, ω·d/2.
///
/// Inputs: speed (rad/s); diameter d (m) over the magnets.
/// Returns: m/s.
/// Valid for: any.
/// Source: textbook.
#[must_use]
pub fn rim_speed(speed: AngularVelocity, diameter: Length) -> Velocity {
    Velocity::from_si(speed.si() * diameter.si() / 2.0)
}

/// Speed at which the rim has a speed, 2·v/d: the reverse of [`rim_speed`].
///
/// Inputs: rim speed v (m/s); diameter d (m).
/// Returns: rad/s.
/// Valid for: any.
/// Source: textbook.
#[must_use]
pub fn speed_at_rim(rim: Velocity, diameter: Length) -> AngularVelocity {
    AngularVelocity::from_si(2.0 * rim.si() / diameter.si())
}

/// Electrical speed, the shaft's times the pole pairs: how fast the controller has to switch.
///
/// Inputs: speed (rad/s) of the shaft; pole pairs.
/// Returns: rad/s, electrical.
/// Valid for: synchronous motors.
/// Source: textbook.
#[must_use]
pub fn electrical_speed(speed: AngularVelocity, pole_pairs: Ratio) -> AngularVelocity {
    AngularVelocity::from_si(speed.si() * pole_pairs.si())
}

/// Resistance of a copper winding at another temperature, R·(1 + 0.00393·ΔT) from 20 °C.
///
/// Inputs: resistance (Ω) at a temperature; the other temperature.
/// Returns: resistance (Ω).
/// Valid for: −50 °C to 200 °C.
/// Source: IEC 60028 (annealed copper, 0.00393 1/K at 20 °C), published.
#[must_use]
pub fn winding_resistance(
    known: ElectricalResistance,
    known_at: ThermodynamicTemperature,
    at: ThermodynamicTemperature,
) -> ElectricalResistance {
    let factor = |t: ThermodynamicTemperature| 1.0 + 0.00393 * (t.si() - 293.15);
    ElectricalResistance::from_si(known.si() * factor(at) / factor(known_at))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    fn motor() -> Motor {
        Motor {
            speed_constant: SpeedConstant::from_si(118.0 * PI / 30.0),
            resistance: ElectricalResistance::from_si(0.031),
            no_load_current: ElectricCurrent::from_si(2.4),
        }
    }
    fn v(x: f64) -> ElectricPotential {
        ElectricPotential::from_si(x)
    }
    fn a(x: f64) -> ElectricCurrent {
        ElectricCurrent::from_si(x)
    }

    #[test]
    fn power_in_is_power_out_and_heat_driving_and_braking() {
        for current in [-60.0, 0.0, 2.4, 90.0] {
            let p = motor().at_current(v(54.0), a(current));
            assert!((p.electrical_power().si() - p.shaft_power.si() - p.loss().si()).abs() < 1e-9);
            assert!(p.loss().si() > 0.0);
        }
    }

    #[test]
    fn the_three_ways_in_lead_to_the_same_point() {
        let p = motor().at_current(v(54.0), a(70.0));
        let by_torque = motor().at_torque(v(54.0), p.torque);
        let by_speed = motor().at_speed(v(54.0), p.speed);
        assert!((by_torque.speed.si() - p.speed.si()).abs() < 1e-9);
        assert!((by_speed.torque.si() - p.torque.si()).abs() < 1e-9);
        assert!((motor().voltage_for(p.speed, p.torque).si() - 54.0).abs() < 1e-9);
    }

    #[test]
    fn torque_constant_of_a_label_and_a_held_shaft() {
        // 118 rpm/V: 60/(2π·118) = 0.0809 N·m/A by the trade's 9.55/Kv.
        assert!((torque_constant(motor().speed_constant) - 9.5493 / 118.0).abs() < 1e-6);
        let held = motor().at_speed(v(1.0), AngularVelocity::from_si(0.0));
        assert!((held.current.si() - 1.0 / 0.031).abs() < 1e-9 && held.shaft_power.si() == 0.0);
        assert!((held.electrical_power().si() - held.copper_loss.si()).abs() < 1e-9);
        let free = motor().at_current(v(54.0), a(2.4));
        assert!(free.torque.si().abs() < 1e-15 && free.speed == motor().free_speed(v(54.0)));
    }

    #[test]
    fn the_thriftiest_current_is_better_than_its_neighbours() {
        let best = motor().thriftiest_current(v(54.0)).si();
        let share = |i: f64| {
            let p = motor().at_current(v(54.0), a(i));
            p.shaft_power.si() / p.electrical_power().si()
        };
        assert!(share(best) > share(best * 1.05) && share(best) > share(best * 0.95));
    }

    #[test]
    fn an_advance_is_the_mean_of_a_sine_over_its_window() {
        let mean = |shift: f64| {
            let steps = 20_000;
            let width = PI / 3.0;
            let angle = |i: i32| -width / 2.0 + width * (f64::from(i) + 0.5) / f64::from(steps) + shift;
            (0..steps).map(|i| angle(i).cos()).sum::<f64>() / f64::from(steps)
        };
        let advanced = |degrees: f64| motor().advanced(Angle::from_si(degrees.to_radians()));
        for degrees in [0.0, 7.5, 15.0, 30.0] {
            let faster = advanced(degrees).unwrap().speed_constant.si() / motor().speed_constant.si();
            assert!((faster - mean(0.0) / mean(f64::to_radians(degrees))).abs() < 1e-7, "{degrees}");
        }
        assert!(advanced(-1.0).is_err() && advanced(50.0).is_err() && advanced(f64::NAN).is_err());
    }

    #[test]
    fn leads_by_the_mean_square_of_two_of_three() {
        // Six blocks a turn: a lead carries +I, +I, 0, −I, −I, 0.
        let mean = [60.0, 60.0, 0.0, -60.0, -60.0, 0.0].iter().map(|i: &f64| i * i).sum::<f64>() / 6.0;
        assert!(
            (lead_current(a(60.0)).si() - mean.sqrt()).abs() < 1e-12 && lead_current(a(-60.0)) == lead_current(a(60.0))
        );
    }

    #[test]
    fn the_rim_there_and_back() {
        let speed = speed_at_rim(Velocity::from_si(100.0), Length::from_si(0.080));
        assert!((speed.si() - 2500.0).abs() < 1e-9);
        assert!((rim_speed(speed, Length::from_si(0.080)).si() - 100.0).abs() < 1e-12);
        assert_eq!(electrical_speed(speed, Ratio::from_si(7.0)).si(), 17_500.0);
    }

    #[test]
    fn copper_by_hand() {
        let warm = winding_resistance(ElectricalResistance::from_si(0.031), celsius(20.0), celsius(120.0));
        assert!((warm.si() - 0.031 * 1.393).abs() < 1e-12);
    }
}
