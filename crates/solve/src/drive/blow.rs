//! A landing under power: the track grips, and what the rotor had in it goes through the line.
//!
//! The rotor alone: what the motor goes on pushing meanwhile, and the turning wheels, come on top. The ground pushes back no
//! harder than the track grips under the load of that landing: beyond it the track slips, and the rotor takes longer to stop.
//! The load is the highest of all corners at once, which errs on the safe side; of a level landing the tracks have their share of
//! it, of any other all. Where the landing of a corner is not known nothing caps the blow. No stage takes its losses off a blow.

use crate::at::At;
use crate::drive::ground::footing;
use crate::drive::line::Line;
use machine::{Attitude, Found, NotJudged};
use quantity::*;

/// What a stopped rotor does to the line.
#[derive(Debug, Clone, PartialEq)]
pub struct Blow {
    /// Highest, at one motor's shaft.
    pub torque: Torque,
    /// Until the rotor stands.
    pub lasts: Time,
    /// `the line's stiffness`, `the stop time`, `the assumed stop time`, or `the track's grip`.
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
    let (torque, lasts, by) = match grip_at_motor(at, line)? {
        Some(most) if most < torque => {
            (most, physics::drive::slipping_stop_time(inertia, speed, most), "the track's grip")
        }
        _ => (torque, lasts, by),
    };
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

/// Torque at one motor's shaft at which the track begins to slip under the hardest moment of the landing; nothing where that
/// moment is not known.
fn grip_at_motor(at: &At, line: &Line) -> Found<Option<Torque>> {
    let Some(load) = highest_load(at)? else { return Ok(None) };
    let footing = footing(at)?;
    let level = at.or_word(&at.case()?.attitude, Attitude::Level, "level") == Attitude::Level;
    let grip = load * footing.adhesion * if level { footing.share } else { Ratio::from_si(1.0) };
    let at_sprocket = grip.si() * line.pitch_radius() / line.layout.lines;
    Ok(Some(Torque::from_si(at_sprocket / (line.ratio() * line.layout.motors_on_a_line))))
}

/// Of all wheels together on the ground.
fn highest_load(at: &At) -> Found<Option<Force>> {
    let machine = at.machine();
    let Ok(landing) = at.landing() else { return Ok(None) };
    if machine.suspension.is_empty() {
        return Ok(None);
    }
    let mut load = Force::ZERO;
    for (corner, landed) in machine.suspension.iter().zip(&landing.corners) {
        let Ok(landed) = landed else { return Ok(None) };
        let (count, unsprung) = (at.need(&corner.count)?, at.need(&corner.unsprung_mass_each)?);
        let wheel = physics::landing::force_at_wheel(landed.force, at.need(&corner.motion_ratio)?);
        load += (wheel + physics::drive::weight(unsprung)) * count;
    }
    Ok(Some(load))
}
