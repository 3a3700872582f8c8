//! Plain bearings, axles in wheels and sliders: pressure, rubbing speed, their product, and the heat of rubbing.

use quantity::*;
use std::f64::consts::PI;

/// Pressure on the projected area, p = F / (d·L).
///
/// Inputs: load F (N); bore d (m); length L (m).
/// Returns: pressure (Pa), the even one: the edge of a tilted shaft carries several times as much.
/// Valid for: L about 0.5 to 2 times d.
/// Source: Shigley, ch. 12; published.
#[must_use]
pub fn projected_pressure(load: Force, bore: Length, length: Length) -> Pressure {
    Pressure::from_si(load.si() / (bore.si() * length.si()))
}

/// Rubbing speed of a turning shaft, v = ω·d/2.
///
/// Inputs: rotational speed of one against the other ω (rad/s); bore d (m).
/// Returns: speed (m/s).
/// Valid for: steady turning.
/// Source: kinematics; Shigley, ch. 12.
#[must_use]
pub fn rubbing_speed(speed: AngularVelocity, bore: Length) -> Velocity {
    Velocity::from_si(speed.si() * bore.si() / 2.0)
}

/// Mean rubbing speed of a shaft that swings to and fro by ±θ, v = 2·θ·d·f.
///
/// Inputs: half angle θ (rad), to one side of the middle; bore d (m); full swings a second f (Hz).
/// Returns: mean speed (m/s); the peak of a sine swing is π/2 times as much.
/// Valid for: any swing; one cycle passes 4·θ on a radius of d/2.
/// Source: kinematics.
#[must_use]
pub fn swinging_speed(half_angle: Angle, bore: Length, frequency: Frequency) -> Velocity {
    Velocity::from_si(2.0 * half_angle.si() * bore.si() * frequency.si())
}

/// Pressure times rubbing speed, what a dry bearing is rated by.
///
/// Inputs: pressure (Pa); rubbing speed (m/s).
/// Returns: Pa·m/s.
/// Valid for: dry or boundary-lubricated rubbing.
/// Source: Shigley, ch. 12; published.
#[must_use]
pub fn pressure_speed(pressure: Pressure, speed: Velocity) -> PressureSpeed {
    PressureSpeed::from_si(pressure.si() * speed.si())
}

/// Heat of rubbing, P = µ·F·v.
///
/// Inputs: friction coefficient µ; load F (N); rubbing speed v (m/s).
/// Returns: power (W), all of it heat.
/// Valid for: dry friction.
/// Source: Coulomb friction.
#[must_use]
pub fn frictional_heat(friction: Ratio, load: Force, speed: Velocity) -> Power {
    Power::from_si(friction.si() * load.si() * speed.si())
}

/// Torque of rubbing against the shaft, T = µ·F·d/2.
///
/// Inputs: friction coefficient µ; load F (N); bore d (m).
/// Returns: torque (N·m).
/// Valid for: dry friction, load on one side.
/// Source: Coulomb friction.
#[must_use]
pub fn frictional_torque(friction: Ratio, load: Force, bore: Length) -> Torque {
    Torque::from_si(friction.si() * load.si() * bore.si() / 2.0)
}

/// Rubbing speed on a flat face that turns, at its mean radius: spacer rings, thrust washers, a wheel against a plate.
///
/// Inputs: rotational speed (rad/s); inner and outer diameter of the ring that rubs (m).
/// Returns: speed (m/s).
/// Valid for: pressure even over the face.
/// Source: kinematics.
#[must_use]
pub fn face_speed(speed: AngularVelocity, inner: Length, outer: Length) -> Velocity {
    Velocity::from_si(speed.si() * (inner.si() + outer.si()) / 4.0)
}

/// Pressure on a ring-shaped face.
///
/// Inputs: load (N); inner and outer diameter (m).
/// Returns: pressure (Pa).
/// Valid for: full contact.
/// Source: geometry.
#[must_use]
pub fn face_pressure(load: Force, inner: Length, outer: Length) -> Pressure {
    Pressure::from_si(load.si() / (PI / 4.0 * (outer.si().powi(2) - inner.si().powi(2))))
}

/// Share of a mass's weight that one bush carries on level ground, F = s·m·g.
///
/// Inputs: mass m (kg); share s (0…1).
/// Returns: force (N).
/// Valid for: standing or steady driving; a blow adds to it.
/// Source: statics, with the standard gravity of [`crate::landing::GRAVITY`].
#[must_use]
pub fn weight_share(mass: Mass, share: Ratio) -> Force {
    Force::from_si(share.si() * mass.si() * crate::landing::GRAVITY)
}

/// Force with which a track or belt presses the wheel that it lies round, F = 2·T·sin(φ/2).
///
/// Inputs: tension T (N), without the part m′·v² that only bends the track's own path; wrap φ (rad).
/// Returns: force (N) along the middle of the wrap.
/// Valid for: equal tension on both sides, wraps up to a full turn; on a driven wheel the tighter side is the safe one.
/// Source: statics; Shigley, ch. 17, published.
#[must_use]
pub fn wrap_load(tension: Force, wrap: Angle) -> Force {
    Force::from_si(2.0 * tension.si() * (wrap.si() / 2.0).sin().abs())
}

/// Rotational speed of a wheel that rolls along a track without slipping, ω = v/r.
///
/// Inputs: track speed v (m/s); radius r to the inner face of the track (m).
/// Returns: rotational speed (rad/s).
/// Valid for: no slip.
/// Source: kinematics.
#[must_use]
pub fn wheel_speed(track_speed: Velocity, radius: Length) -> AngularVelocity {
    AngularVelocity::from_si(track_speed.si() / radius.si())
}

/// How much warmer than its surroundings a bush gets by its own rubbing, ΔT = P·R.
///
/// Inputs: heat of rubbing P (W); thermal resistance from the bush to the air round it R (K/W).
/// Returns: temperature difference (K).
/// Valid for: steady running of some ten minutes and more; short runs stay below.
/// Source: steady conduction.
#[must_use]
pub fn bush_warming(heat: Power, to_surroundings: ThermalResistance) -> TemperatureInterval {
    TemperatureInterval::from_si(heat.si() * to_surroundings.si())
}

/// Share of a p·v limit stated at 23 °C that is left at a temperature: all of it up to 23 °C, nothing at the highest
/// temperature of the surface, straight between.
///
/// Inputs: temperature (K); highest temperature of the sliding surface (K).
/// Returns: share, 0…1.
/// Valid for: dry and greased polymers; what cold adds is not counted.
/// Source: common practice, no source; it is what steady conduction from a surface at its highest temperature gives.
#[must_use]
pub fn derating(temperature: ThermodynamicTemperature, highest: ThermodynamicTemperature) -> Ratio {
    const STATED_AT: f64 = 296.15;
    let (here, highest) = (temperature.si(), highest.si());
    Ratio::from_si(if here >= highest {
        0.0
    } else if here <= STATED_AT {
        1.0
    } else {
        (highest - here) / (highest - STATED_AT)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn m(x: f64) -> Length {
        Length::from_si(x)
    }

    #[test]
    fn a_swing_of_half_a_turn_each_way_is_two_turns_a_cycle() {
        // ±180° at 1 Hz rubs 2 circumferences a second: a shaft at 2 turns a second.
        let swing = swinging_speed(Angle::from_si(PI), m(0.01), Frequency::from_si(1.0));
        let turn = rubbing_speed(AngularVelocity::from_si(4.0 * PI), m(0.01));
        assert!((swing.si() - turn.si()).abs() < 1e-12);
    }

    #[test]
    fn heat_is_torque_times_speed_and_friction_times_pv_times_area() {
        let (mu, load, bore, speed) =
            (Ratio::from_si(0.2), Force::from_si(300.0), m(0.008), AngularVelocity::from_si(50.0));
        let v = rubbing_speed(speed, bore);
        let heat = frictional_heat(mu, load, v).si();
        assert!((heat - frictional_torque(mu, load, bore).si() * 50.0).abs() < 1e-12);
        let pv = pressure_speed(projected_pressure(load, bore, m(0.01)), v).si();
        assert!((heat - 0.2 * pv * 0.008 * 0.01).abs() < 1e-12);
    }

    #[test]
    fn a_narrow_face_rubs_like_a_shaft_of_its_diameter() {
        let speed = AngularVelocity::from_si(10.0);
        assert!((face_speed(speed, m(0.02), m(0.02)).si() - rubbing_speed(speed, m(0.02)).si()).abs() < 1e-15);
        assert!((face_pressure(Force::from_si(PI), m(0.0), m(2.0)).si() - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_wrapped_wheel_carries_both_strands_and_a_straight_one_none() {
        let t = Force::from_si(100.0);
        assert!((wrap_load(t, Angle::from_si(PI)).si() - 200.0).abs() < 1e-9);
        // At 60° both strands and their sum are an equilateral triangle.
        assert!((wrap_load(t, Angle::from_si(PI / 3.0)).si() - 100.0).abs() < 1e-9);
        assert_eq!(wrap_load(t, Angle::from_si(0.0)).si(), 0.0);
        // A wheel that rolls once round in a second passes its circumference.
        let turn = wheel_speed(Velocity::from_si(2.0 * PI * 0.04), m(0.04));
        assert!((turn.si() - 2.0 * PI).abs() < 1e-12);
        assert!((weight_share(Mass::from_si(50.0), Ratio::from_si(0.1)).si() - 49.03325).abs() < 1e-9);
    }

    #[test]
    fn derating_ends_at_the_highest_temperature() {
        let share = |here: f64, highest: f64| derating(celsius(here), celsius(highest)).si();
        assert_eq!((share(-30.0, 83.0), share(23.0, 83.0), share(83.0, 83.0)), (1.0, 1.0, 0.0));
        assert!((share(53.0, 83.0) - 0.5).abs() < 1e-12);
        assert_eq!((share(10.0, 15.0), share(18.0, 15.0)), (1.0, 0.0));
        assert!((bush_warming(Power::from_si(4.0), ThermalResistance::from_si(5.0)).si() - 20.0).abs() < 1e-12);
    }
}
