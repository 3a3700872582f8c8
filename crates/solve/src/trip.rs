//! The way there and back: what it takes out of the battery, driven as in one case.
//!
//! The way is taken in its parts: what climbs, as steep as the case or as the trip says, and what is level, there and back. Work
//! is the sum over the parts; where the slope alone moves the machine nothing is taken and nothing given back. What the
//! motor itself turns at, waiting on the way and snow that gets deeper come on top.

#[cfg(test)]
mod tests;

use crate::at::{At, Solve};
use crate::drive::{driven_mass, ground};
use machine::{Case, Found, NotJudged};
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
    /// By servos, lamp and radio, all the way.
    pub auxiliary: Energy,
    /// Of the part that climbs.
    pub grade: Angle,
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
    let (out_way, grade) = (way / 2.0, steep(at, way / 2.0, height)?);
    // Lengths on the map; what is level is as long as it is.
    let climbs = if height.si() > 0.0 { Length::from_si(height.si() / grade.si().tan()) } else { Length::ZERO };
    let along = Length::from_si(height.si().hypot(climbs.si()));
    let level = if out_way > along { out_way - along } else { Length::ZERO };
    let work = |mass, way, height| physics::battery::work_of_a_way(rolling, mass, way, height);
    let out = work(loaded, climbs, height) + work(loaded, level, Length::ZERO);
    let back = work(back_with, climbs, -height) + work(back_with, level, Length::ZERO);
    let lasts = way / drive.track_speed;
    let auxiliary = auxiliary(at)? * lasts;
    let pump = at.or_take(&machine.cooling.pump.power, Power::from_si(0.0), "0 W") * lasts;
    let charge = ((out + back) / share + pump + auxiliary) / open;
    if charge.si().is_finite() && back_with.si() > 0.0 {
        return Ok(Trip { out, back, share, pump, auxiliary, grade, lasts, charge });
    }
    Err(NotJudged::NoSolution("the trip comes to no number: one of its figures is zero or far off".into()))
}

/// How steep the part is that climbs: as the trip says; else as the case; else as the steepest climb of the spec; else even all
/// the way. What would be longer than the way is as steep as the way allows.
fn steep(at: &At, way: Length, height: Length) -> Found<Angle> {
    let trip = at.part(&at.machine().service.trip)?;
    let even = Angle::from_si((height.si() / way.si()).min(1.0).asin());
    let own = at.case()?;
    let climbs = |case: &Case| at.try_get(&case.grade).filter(|grade| grade.si() > 0.0);
    let steepest = || {
        let others =
            at.machine().cases.iter().filter(|case| case.kind.travels()).filter_map(|case| climbs(&case.value));
        others.reduce(|a, b| if b > a { b } else { a })
    };
    let said = at.try_get(&trip.grade).or_else(|| climbs(&own.value)).or_else(steepest);
    Ok(said.filter(|grade| *grade > even).unwrap_or(even))
}

/// Mean power of all consumers beside the pump: as measured, else a share of their peaks.
fn auxiliary(at: &At) -> Found<Power> {
    let supply = &at.machine().powertrain.auxiliary_supply;
    if let Some(mean) = at.try_get(&supply.mean_power) {
        return Ok(mean);
    }
    // The pump has its own power.
    let mut peaks = ElectricCurrent::ZERO;
    for load in supply.loads.iter().filter(|load| load.name() != "pump") {
        peaks += at.need(&load.value)?;
    }
    if peaks == ElectricCurrent::ZERO {
        return Ok(Power::ZERO);
    }
    let share = at.need(&at.assumed().auxiliary_share)?;
    Ok(at.need(&at.assumed().auxiliary_voltage)? * peaks * share)
}
