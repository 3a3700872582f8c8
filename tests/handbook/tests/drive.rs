//! Motor curve against its closed forms; planetary sets against worked examples.

use handbook::table;
use physics::motor::Motor;
use physics::planetary::{Member, Set};
use quantity::*;
use std::f64::consts::PI;

#[test]
fn a_motors_curve_is_the_closed_form() {
    let rows = table(include_str!("../data/motors.csv"));
    assert_eq!(rows.len(), 7);
    for row in &rows {
        let motor = Motor {
            speed_constant: SpeedConstant::from_si(row.f("Kv_rpm_per_V") * PI / 30.0),
            resistance: ElectricalResistance::from_si(row.f("R_ohm")),
            no_load_current: ElectricCurrent::from_si(row.f("I0_A")),
        };
        let (volts, speed) = (ElectricPotential::from_si(row.f("V")), AngularVelocity::from_si(row.f("speed_rad_s")));
        let point = motor.at_speed(volts, speed);
        row.prints("I_A", point.current.si(), 8);
        row.prints("torque_Nm", point.torque.si(), 8);
        row.prints("shaft_W", point.shaft_power.si(), 8);
        row.prints("efficiency", point.shaft_power.si() / point.electrical_power().si(), 8);
        let best = motor.at_current(volts, motor.thriftiest_current(volts));
        row.prints("best_efficiency", best.shaft_power.si() / best.electrical_power().si(), 10);
        row.prints("stall_A", motor.at_speed(volts, AngularVelocity::from_si(0.0)).current.si(), 10);
    }
}

#[test]
fn planetary_sets_turn_as_printed() {
    let rows = table(include_str!("../data/planetary.csv"));
    assert_eq!(rows.len(), 7);
    for row in &rows {
        let member = |name: &str| match row.s(name) {
            "sun" => Member::Sun,
            "ring" => Member::Ring,
            "carrier" => Member::Carrier,
            other => panic!("member {other}"),
        };
        let set =
            Set { sun_teeth: Ratio::from_si(row.f("sun_teeth")), ring_teeth: Ratio::from_si(row.f("ring_teeth")) };
        let rpm = |speed: AngularVelocity| speed.si() * 30.0 / PI;
        let driving = AngularVelocity::from_si(row.f(&format!("{}_rpm", row.s("driving"))) * PI / 30.0);
        let speeds = set.speeds(member("held"), member("driving"), driving).unwrap();
        for (name, speed) in [("sun_rpm", speeds.sun), ("ring_rpm", speeds.ring), ("carrier_rpm", speeds.carrier)] {
            // What stands is printed 0, and a rounding of the drawn speed is not a rotation.
            let turning = if rpm(speed).abs() < 1e-9 { 0.0 } else { rpm(speed) };
            row.prints(name, turning, 4);
        }
        let planet = set.planet_speed(speeds, Ratio::from_si(row.f("planet_teeth")));
        row.prints("planet_rpm", rpm(planet), 4);
    }
}
