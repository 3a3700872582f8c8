//! Battery → controller → motor → stages → sprocket → track.

use crate::at::At;
use machine::Found;
use quantity::*;

/// The drive line in one case point. A case without drive (soak, idle) has zeros throughout.
#[derive(Debug, Clone, PartialEq)]
pub struct Drive {
    pub motor_speed: AngularVelocity,
    pub motor_torque: Torque,
    pub motor_current: ElectricCurrent,
    pub battery_current: ElectricCurrent,
    /// Under load.
    pub battery_voltage: ElectricPotential,
    pub track_speed: Velocity,
    /// All tracks together.
    pub pull: Force,
    /// In the order of the machine's stages.
    pub stages: Vec<StageLoad>,
    pub sprocket_torque: Torque,
    pub motor_heat: Power,
    pub controller_heat: Power,
    pub battery_heat: Power,
    /// Torque at the motor when the track is stopped by a landing under power.
    pub stop_torque: Option<Torque>,
    /// What sets it: `the grade`, `the motor current limit`, `traction`, `the voltage`.
    pub set_by: &'static str,
}

/// One reduction stage under load.
#[derive(Debug, Clone, PartialEq)]
pub struct StageLoad {
    pub speed_in: AngularVelocity,
    pub torque_in: Torque,
    pub speed_out: AngularVelocity,
    pub torque_out: Torque,
    pub loss: Power,
}

/// Works the drive line out.
///
/// # Errors
/// A gap, or a battery or motor that cannot do what the case asks.
pub(crate) fn solve(at: &At) -> Found<Drive> {
    let _ = at.case()?;
    Err(machine::NotJudged::NoSolution("drive".into()))
}
