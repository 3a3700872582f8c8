//! A landing under power: the track grips, and what the rotor had in it goes through the line.
//!
//! The rotor alone: what the motor goes on pushing meanwhile, and the turning wheels, come on top; a track that slips on
//! landing takes some of it away. No stage takes its losses off a blow.

use crate::at::At;
use crate::drive::line::Line;
use machine::{Found, NotJudged};
use quantity::*;

/// What a stopped rotor does to the line.
#[derive(Debug, Clone, PartialEq)]
pub struct Blow {
    /// Highest, at one motor's shaft.
    pub torque: Torque,
    /// Until the rotor stands.
    pub lasts: Time,
    /// `the line's stiffness`, `the stop time`, or `the assumed stop time`.
    pub by: &'static str,
    /// Highest, into each stage of one line, in the order of the stages.
    pub stages: Vec<Torque>,
    /// Highest, out of the last stage of one line.
    pub sprocket: Torque,
}

/// A blow at a motor speed.
///
/// # Errors
/// The rotor's inertia is not given, or a line that stops it in no time.
pub(super) fn landed(at: &At, line: &Line, speed: AngularVelocity) -> Found<Blow> {
    let powertrain = &at.machine().powertrain;
    let inertia = at.need(&powertrain.motor.rotor_inertia)?;
    // All rotors of a line swing together on its one twist; each has its share of the torque.
    let motors = line.layout.motors_on_a_line;
    let (torque, lasts, by) = match at.try_get(&powertrain.line_stiffness) {
        Some(stiffness) => {
            let share = stiffness / motors;
            let torque = physics::drive::twist_stop_torque(inertia, speed, share);
            (torque, physics::drive::twist_stop_time(inertia, share), "the line's stiffness")
        }
        None => {
            let measured = at.try_get(&powertrain.motor.stop_time);
            let time = at.or(&powertrain.motor.stop_time, &at.assumed().rotor_stop_time)?;
            let by = if measured.is_some() { "the stop time" } else { "the assumed stop time" };
            (physics::drive::timed_stop_torque(inertia, speed, time), time, by)
        }
    };
    if !torque.si().is_finite() {
        return Err(NotJudged::NoSolution("a rotor that stops in no time at all has no finite torque".into()));
    }
    let mut through = torque * motors;
    let stages = line
        .reductions
        .iter()
        .map(|each| {
            let into = through;
            through = (through * each.stage.ratio).into();
            into
        })
        .collect();
    Ok(Blow { torque, lasts, by, stages, sprocket: through })
}
