//! Temperatures of parts and bushes.
//!
//! A part has the temperature of the air round it. What a motor or controller next to it adds by conduction is not worked
//! out, nor the sun: a part that stands `next_to` one of them is warmer than is said here, unless it was measured.

use crate::at::{At, Solve};
use machine::{Bearing, Found, ThingRef};
use quantity::*;

#[derive(Debug, Clone, PartialEq)]
pub struct Temperatures {
    /// In the order of the machine's parts: the air of the part's zone, the outside air where it names none.
    pub parts: Vec<Found<ThermodynamicTemperature>>,
    /// Of the air round each bearing, in the order of the machine's bearings; friction is the rule's affair.
    pub bearings: Vec<Found<ThermodynamicTemperature>>,
}

impl Solve for Temperatures {
    fn solve(at: &At) -> Found<Self> {
        solve(at)
    }
}

impl<'a> At<'a> {
    /// Temperatures of parts and bushes.
    ///
    /// # Errors
    /// As worked out: a gap, a range, or its own reason.
    pub fn temperatures(&self) -> Found<&'a Temperatures> {
        self.ask()
    }
}

/// Works the temperatures out.
///
/// # Errors
/// The surroundings are not known.
fn solve(at: &At) -> Found<Temperatures> {
    let machine = at.machine();
    let around = at.surroundings()?;
    let parts = machine.structure.parts.iter().map(|part| around.air(at, at.try_part(&part.zone))).collect();
    let bearings = machine.powertrain.bearings.iter().map(|bearing| {
        let zone = match &bearing.value {
            Bearing::Plain(plain) => match at.try_part(&plain.zone) {
                Some(zone) => Some(zone),
                None => at.try_part(&plain.runs_on).and_then(|thing| match machine.thing(thing) {
                    ThingRef::Part(part) => at.try_part(&part.zone),
                    _ => None,
                }),
            },
            Bearing::Rolling(rolling) => {
                at.try_part(&rolling.seat).and_then(|seat| at.try_part(&machine.follow(&seat.part).zone))
            }
        };
        around.air(at, zone)
    });
    Ok(Temperatures { parts, bearings: bearings.collect() })
}
