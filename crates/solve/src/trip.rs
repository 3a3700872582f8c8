//! The way there and back: what it takes out of the battery, driven as in one case.
//!
//! What braking gives back is left out, and so are servos, lamp and radio, whose volts no spec says; waiting on the way and
//! snow that gets deeper come on top.

#[cfg(test)]
mod tests;

use crate::at::{At, Solve};
use crate::drive::{driven_mass, ground};
use machine::{Found, NotJudged};
use quantity::*;

#[derive(Debug, Clone, PartialEq)]
pub struct Trip {
    /// At the track, loaded, up to the highest place.
    pub out: Energy,
    /// At the track, on the way back.
    pub back: Energy,
    /// Work at the track over what the cells give for it, their own heat counted.
    pub share: Ratio,
    /// By the pump, all the way.
    pub pump: Energy,
    pub lasts: Time,
    /// What leaves the cells in all.
    pub charge: ElectricCharge,
}

impl Solve for Trip {
    fn solve(at: &At) -> Found<Self> {
        solve(at)
    }
}

impl<'a> At<'a> {
    /// What the way there and back takes out of the battery, driven as in this case.
    ///
    /// # Errors
    /// As worked out: a gap, a range, or its own reason.
    pub fn trip(&self) -> Found<&'a Trip> {
        self.ask()
    }
}

/// Works the trip out; the case says how fast, on what grade the line works, and how cold it is.
///
/// # Errors
/// A gap, or a case in which nothing pulls.
fn solve(at: &At) -> Found<Trip> {
    let machine = at.machine();
    let trip = at.part(&machine.service.trip)?;
    let (way, height) = (at.need(&trip.distance)?, at.need(&trip.ascent)?);
    let (drive, open) = (at.drive()?, at.battery()?.nominal.clone()?);
    let pulls = drive.pull * drive.track_speed;
    let taken = open * drive.battery_current;
    if !(pulls.si() > 0.0 && taken.si() > 0.0) {
        return Err(NotJudged::NoSolution("nothing pulls in this case, so that it says nothing of the trip".into()));
    }
    let share = pulls / taken;
    let (rolling, loaded) = (ground(at)?.rolling, driven_mass(at)?);
    let back_with =
        if trip.returns_empty == Some(true) { loaded - at.need(&machine.machine.payload.mass)? } else { loaded };
    let work = |mass, height| physics::battery::work_of_a_way(rolling, mass, way / 2.0, height);
    let (out, back) = (work(loaded, height), work(back_with, -height));
    let lasts = way / drive.track_speed;
    let pump = at.or_take(&machine.cooling.pump.power, Power::from_si(0.0), "0 W") * lasts;
    let charge = ((out + back) / share + pump) / open;
    if charge.si().is_finite() && back_with.si() > 0.0 {
        return Ok(Trip { out, back, share, pump, lasts, charge });
    }
    Err(NotJudged::NoSolution("the trip comes to no number: one of its figures is zero or far off".into()))
}
