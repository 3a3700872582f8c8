//! The machine runs away downhill: nobody brakes, and the slope turns the motor until its own voltage is above the battery's
//! and the controller's switches let that current through, asked or not.

use crate::at::At;
use crate::drive::ground;
use crate::drive::line::{Charge, Line};
use crate::drive::ways::rising_zero;
use machine::{Found, NotJudged};
use quantity::*;

/// Where it settles, with a full battery.
#[derive(Debug, Clone, PartialEq)]
pub struct Overrun {
    pub motor_speed: AngularVelocity,
    /// Of one motor, negative: it charges.
    pub motor_current: ElectricCurrent,
    /// Negative: it is charged.
    pub battery_current: ElectricCurrent,
    /// At its terminals, above the open one.
    pub battery_voltage: ElectricPotential,
    pub track_speed: Velocity,
}

/// Works it out; nothing where the slope does not drive the machine.
///
/// # Errors
/// A gap.
pub(super) fn run_away(at: &At) -> Found<Option<Overrun>> {
    let ground = ground(at)?;
    let pull = ground.resistance.si().max(-ground.traction.si());
    if pull >= 0.0 {
        return Ok(None);
    }
    let line = Line::read(at, Charge::Full)?;
    // The speed of the free motor, and twice it while that is too slow: the braking current's voltage comes on top.
    let mut most = line.free_speed();
    for _ in 0..8 {
        if line.volts_short(most, pull) > 0.0 {
            break;
        }
        most *= 2.0;
    }
    let speed = rising_zero(most, |speed| line.volts_short(speed, pull))
        .filter(|speed| *speed < most)
        .ok_or_else(|| NotJudged::NoSolution("the motor never brakes what this slope pulls".into()))?;
    let drive = line.drive(speed, pull, "the slope")?;
    let Some(motor_current) = Some(drive.motor_current).filter(|current| current.si() < 0.0) else { return Ok(None) };
    Ok(Some(Overrun {
        motor_speed: drive.motor_speed,
        motor_current,
        battery_current: drive.battery_current,
        battery_voltage: drive.battery_voltage,
        track_speed: drive.track_speed,
    }))
}
