//! The words of a machine that is opened or charged too soon.

use crate::{Side, Surface};
use rule::prelude::*;
use thermal::Pack;

pub(crate) fn shut(at: &At, surface: &Surface<'_>, zone: &Named<Zone>) -> Words {
    let mut words = Words::default();
    if at.tells() {
        let (name, room) = (surface.name, zone.name());
        words.happens =
            format!("{name} sits in {room}, which is tight: the room's air does not reach it while the lid stays shut");
    }
    words
}

/// The room, and how long it takes there.
pub(crate) struct Room {
    pub(crate) dew: ThermodynamicTemperature,
    pub(crate) room: ThermodynamicTemperature,
    pub(crate) waits: Time,
    pub(crate) takes: Time,
}

/// How many times as long as it takes, where so much is required. Between the points of a course a time is read off to a per mille.
pub(crate) fn wanted(required: &Required) -> f64 {
    required.value * 1.002
}

pub(crate) fn wet(at: &At, surface: &Surface<'_>, room: &Room, wanted: f64, w: &mut Telling<'_>) {
    let name = surface.name;
    let (waits, takes) = (shown::<m::Duration>(room.waits), shown::<m::Duration>(room.takes));
    let dew = shown::<m::Temperature>(room.dew);
    w.happens = format!(
        "water settles on {name} and may short it: opened in the room after {waits}, it is still colder than the dew point"
    );
    w.numbers.push(format!(
        "It comes in at {} and has the room's dew point of {dew} after {takes}.",
        shown::<m::Temperature>(surface.course.start())
    ));
    w.numbers.push(format!("The room is at {}.", shown::<m::Temperature>(room.room)));
    let case = at.case().map(|case| &case.value.wait);
    if let Ok(wait) = case {
        w.label(wait.id(), "opened then");
        w.at_least(wait, room.takes * wanted, |time| format!("wait {time} with lid and plugs shut"));
    }
    w.clears.push("close the cold parts into a bag before they come indoors, and open it when they are warm".into());
    w.clears.push("leave it in a dry, cool room first: the drier the air, the lower its dew point".into());
}

/// What is asked of the pack.
pub(crate) struct Charge<'m> {
    pub(crate) side: Side,
    pub(crate) limit: ThermodynamicTemperature,
    pub(crate) pack: &'m Pack,
    pub(crate) waits: Time,
}

fn danger(side: Side) -> &'static str {
    match side {
        Side::Cold => "metal plates inside the cells for good, and they may burn weeks later",
        Side::Hot => "the cells age fast and may gas or burn",
    }
}

pub(crate) fn charge(at: &At, asked: &Charge<'_>, takes: Time, wanted: f64, w: &mut Telling<'_>) {
    let Charge { side, limit, pack, waits } = asked;
    let (wait, limit_told) = (shown::<m::Duration>(*waits), shown::<m::Temperature>(*limit));
    let too = if *side == Side::Cold { "too cold" } else { "too hot" };
    w.happens = format!("{}: charged after {wait}, the middle of the pack is {too}", danger(*side));
    w.numbers.push(format!(
        "It comes in at {} and its middle has {limit_told} after {}.",
        shown::<m::Temperature>(pack.first),
        shown::<m::Duration>(takes)
    ));
    tell_causes(at, w);
    if let Ok(case) = at.case() {
        w.at_least(&case.value.wait, takes * wanted, |time| format!("wait {time} before charging"));
    }
    if let Some(bare) = bare(at, asked) {
        w.clears.push(format!(
            "take it out of its wrap and its box: bare in the room it is ready after {}",
            shown::<m::Duration>(bare)
        ));
    }
    if *side == Side::Cold {
        w.clears.push("carry the pack indoors with you and put it back warm".into());
    }
    w.clears.push("a probe between the middle cells, and a charger that reads it".into());
}

pub(crate) fn never(at: &At, asked: &Charge<'_>) -> Words {
    Words::told(at, |words| {
        let (air, limit) = (shown::<m::Temperature>(asked.pack.air), shown::<m::Temperature>(asked.limit));
        words.happens = format!("{}: in air of {air} the pack never gets to {limit}", danger(asked.side));
        tell_causes(at, words);
        words.clears.push(match asked.side {
            Side::Cold => "charge it in a warmer room".into(),
            Side::Hot => "charge it in a cooler room".into(),
        });
    })
}

fn tell_causes(at: &At, w: &mut Telling<'_>) {
    let battery = &at.machine().powertrain.battery;
    if let Ok(case) = at.case() {
        w.label(case.value.wait.id(), "charged then");
    }
    if at.is_given(&battery.foam) {
        w.label(battery.foam.id(), "keeps the warmth of the room out as long");
    }
}

/// Time without wrap and box, if that is shorter.
fn bare(at: &At, asked: &Charge<'_>) -> Option<Time> {
    let coefficient = at.need(&at.assumed().still_air).ok()?;
    let takes = asked.pack.middle_reaches(coefficient, asked.limit)?;
    let wrapped = asked.pack.middle_reaches(asked.pack.body.coefficient, asked.limit)?;
    (takes < wrapped * 0.8).then_some(takes)
}
