//! Braking by shorted windings: nothing goes back into the battery, so all that the slope puts into the motor stays there.

//!
//! Short and open in turn, as fast as the controller switches: the torque is that of the mean current, the heat all of the
//! power. Switches and stages take their share; iron is warmed as without braking. Left out: below the speed at which
//! the windings shorted for good give the torque, where the machine runs faster than asked.

use super::Drive;
use super::line::{Charge, Line};
use crate::at::At;
use machine::{BrakingKind, Found};
use quantity::*;

/// The working point of a machine that the slope drives, as its controller brakes.
///
/// # Errors
/// A gap.
pub(super) fn braked(at: &At, drive: Drive) -> Found<Drive> {
    let put_in = -drive.motor_torque.si() * drive.motor_speed.si() * drive.motors;
    if put_in <= 0.0 {
        return Ok(drive);
    }
    let braking = at.part_or(&at.machine().powertrain.controller.braking, "regenerative");
    if braking.and_then(|braking| braking.by) != Some(BrakingKind::ShortedWindings) {
        return Ok(drive);
    }
    let line = Line::read(at, Charge::Nominal)?;
    // What its own resistance did not take would have gone back; the switches take no more than there is.
    let current = drive.motor_current.si();
    let copper = drive.motors * current * current * at.need(&at.machine().powertrain.motor.resistance)?.si();
    let iron = (drive.motor_heat.si() - copper).max(0.0).min(put_in);
    let switches = line.switching_heat(drive.motor_current, put_in - iron).min(put_in - iron);
    let windings = put_in - iron - switches;
    Ok(Drive {
        motor_heat: Power::from_si(iron + windings),
        braking_heat: Power::from_si(windings),
        controller_heat: Power::from_si(switches),
        battery_current: ElectricCurrent::ZERO,
        peak_current: ElectricCurrent::ZERO,
        battery_heat: Power::ZERO,
        battery_voltage: line.sagged(ElectricCurrent::ZERO),
        wanted_power: Power::ZERO,
        ..drive
    })
}

#[cfg(test)]
mod tests {
    use crate::drive::Drive;
    use crate::drive::tests::{asked, carrier};
    use quantity::*;

    fn descent(by: &str) -> Drive {
        let braking = format!("efficiency: 95 %, braking: {{by: {by}}}");
        let machine = carrier(&[("efficiency: 95 %", &braking)]);
        asked(&machine, "descent", &[], |at| at.drive().cloned()).unwrap()
    }

    #[test]
    fn what_the_slope_puts_in_stays_in_the_windings() {
        let (fed_back, shorted) = (descent("regenerative"), descent("shorted_windings"));
        // 42 kg down 24° at 10 km/h, by hand; what the two stages lose on the way does not arrive.
        let slope = 24f64.to_radians();
        let braked = 42.0 * 9.80665 * (slope.sin() - 0.12 * slope.cos()) * 10.0 / 3.6 * 0.96 * 0.94;
        let heat = shorted.motor_heat.si() + shorted.controller_heat.si();
        assert!((heat / braked - 1.0).abs() < 1e-9, "{heat} {braked}");
        assert!(shorted.motor_heat.si() > 0.9 * braked && fed_back.motor_heat.si() < 0.4 * braked);
        assert_eq!((shorted.battery_current, shorted.battery_heat), (ElectricCurrent::ZERO, Power::ZERO));
        assert_eq!((shorted.motor_torque, shorted.pull), (fed_back.motor_torque, fed_back.pull));
    }
}
