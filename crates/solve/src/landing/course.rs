//! What a drawing of the suspension is made from: a landing moment by moment, the lengths of a strut, an oil over temperature.

use super::falls::{Lock, falls};
use super::oil::kinematic;
use super::strut::{stops, to_coil_bind};
use super::{blow, no_end, sag};
use crate::at::At;
use machine::{Corner, Found, Named, Oil};
use quantity::*;

/// One instant of a landing, at the damper of one corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moment {
    /// From first contact.
    pub time: Time,
    /// From full extension.
    pub travel: Length,
    /// Of spring, stop and damper together.
    pub force: Force,
}

/// The way down of one corner until it rebounds.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    pub moments: Vec<Moment>,
    /// The damper's oil no longer flows: it was left out.
    pub damper_gelled: bool,
}

/// Lengths of one strut, each as travel of the damper from full extension.
#[derive(Debug, Clone, PartialEq)]
pub struct Room {
    /// By which the collar presses the spring together before that.
    pub preload: Length,
    /// Standing still on all corners.
    pub sag: Length,
    /// Where a bump stop is touched; at the end of the stroke without one.
    pub stop: Length,
    pub stroke: Length,
    /// Where the coils touch, if the spring's lengths are known.
    pub coil_bind: Option<Length>,
}

/// A landing moment by moment; nothing where its attitude spares the corner. A gelled damper is drawn as if it were not there.
///
/// # Errors
/// A gap, or a motion without an end.
pub fn course(at: &At, corner: &Named<Corner>) -> Found<Option<Course>> {
    let blow = blow(at)?;
    let falls = falls(at, &blow)?;
    let index = at.machine().suspension.iter().position(|other| other.id() == corner.id()).unwrap_or(usize::MAX);
    if let Some(Some(gap)) = falls.gaps.get(index) {
        return Err(gap.clone());
    }
    let told = falls.falls.iter().find_map(|fall| Some((fall, fall.tells.iter().find(|(of, _)| *of == index)?.1)));
    let Some((fall, leg)) = told else { return Ok(None) };
    let moments = fall.body.course(leg, fall.body.window()).map_err(|_| no_end(corner))?;
    let moment = |of: super::fall::Moment| Moment {
        time: Time::from_si(of.time),
        travel: Length::from_si(of.travel),
        force: Force::from_si(of.force),
    };
    let damper_gelled = fall.locks.get(leg).is_some_and(|(lock, _)| *lock == Lock::Gelled);
    Ok(Some(Course { moments: moments.into_iter().map(moment).collect(), damper_gelled }))
}

/// The lengths of a strut.
///
/// # Errors
/// A gap.
pub fn room(at: &At, corner: &Corner) -> Found<Room> {
    let spring = at.part(&corner.spring)?;
    let (collar, stroke) = (at.need(&corner.preload.collar)?, at.need(&corner.damper_travel)?);
    let mount = at.need(&at.assumed().mount_stiffness)?;
    let [stop, _] = stops(at, corner, spring, collar, mount.si())?;
    Ok(Room {
        preload: collar,
        sag: sag(at, corner)?,
        stop: stop.map_or(stroke, |stop| Length::from_si(stop.at)),
        stroke,
        coil_bind: to_coil_bind(at, spring, collar).map(Length::from_si),
    })
}

/// Of an oil at a temperature, by the law of its kind.
///
/// # Errors
/// A gap, or a temperature at which it no longer flows or the law ends.
pub fn viscosity(at: &At, oil: &Oil, temperature: ThermodynamicTemperature) -> Found<KinematicViscosity> {
    kinematic(at, oil, temperature, at.need(&oil.pour_point)?)
}
