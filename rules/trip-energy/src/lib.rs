#![no_std]
//! Whether the charge reaches there and back on a cold day. It never knows: how a drive line or a trip is worked out, what
//! the voltage does under load, other rules.

use rule::prelude::*;

#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "trip-energy",
    area: Area::Powertrain,
    question: "Does the charge reach there and back on the coldest day?",
    explains: "What a trip takes is work against the slope and against the snow or mud, over what drive line, controller and \
               battery leave of it. In the cold the cells keep a good part of their charge to themselves. A machine that stops \
               half way back has to be carried.",
    formula: "the way in its parts, what climbs as steep as the case and what is level, there and back: m·g·(c·length + height) for \
              each, and nothing where it rolls by itself, which is given back to no other part; over work at the track / (open \
              voltage × battery current) of the case; + pump, servos, lamp and radio all the way; against charge × what the cells \
              give as cold as they are",
    source: "Work on a slope, textbook. Charge in the cold: table of the kind of cell, else an even loss from 20 °C to −20 °C; \
             common practice and from memory, as the catalogue says. Reserve: common practice, no source.",
    checked: "there and back by hand; without a slope both ways take the same. What braking gives back is not counted. Where nobody \
              measured the mean power of servos, lamp and radio it is a quarter of their peaks at 12 V. Waiting with the electronics on \
              comes on top. A towed pull beats a guessed share of the weight.",
    required: "1.3 (common practice)",
    caution: "A machine that stops on a slope has to be held: do not leave it there on its motor alone.",
};

#[derive(Debug)]
pub struct TripEnergy;

impl Rule for TripEnergy {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        let battery = machine.powertrain.battery.capacity.id();
        if machine.has_section_of(battery) {
            checks.about("trip", battery).check("charge there and back", reaches);
        }
    }
}

fn reaches(at: &At) -> Found<Outcome> {
    if at.case()?.kind.recorded() {
        return recorded(at);
    }
    if !at.case()?.kind.travels() {
        return Ok(Outcome::Aside("this case is no way to go"));
    }
    let charge = at.battery()?.charge.clone()?;
    let trip = at.trip()?;
    let required = Required { value: 1.3, why: "deeper snow, a detour, cells that have aged" };
    let margin = Margin::ratio::<m::Charge>(trip.charge, charge, required, Consequence::Stranded);
    let short = margin.required.value / margin.held.reserve();
    Ok(Outcome::Held(margin.tell(at, |w| says(at, short, w))))
}

/// The ride that was recorded, with this battery as cold as in this case.
fn recorded(at: &At) -> Found<Outcome> {
    let charge = at.battery()?.charge.clone()?;
    let Some(ridden) = &at.drive()?.ridden else { return Ok(Outcome::Aside("nothing was recorded")) };
    let required = Required { value: 1.3, why: "deeper snow, a detour, cells that have aged" };
    let margin = Margin::ratio::<m::Charge>(ridden.charge, charge, required, Consequence::Stranded);
    let short = margin.required.value / margin.held.reserve();
    Ok(Outcome::Held(margin.tell(at, |w| {
        w.happens =
            "the battery is empty before a ride like the recorded one is over: the machine stays out there".into();
        w.numbers.push(format!(
            "In {} the track went {} and did {} of work.",
            shown::<m::Duration>(ridden.time),
            shown::<m::Distance>(ridden.way),
            shown::<m::Energy>(ridden.energy)
        ));
        let battery = &at.machine().powertrain.battery;
        w.label(battery.capacity.id(), "too little charge");
        if let Ok(case) = at.case() {
            w.label(case.log.id(), "what was recorded");
        }
        if let Some(capacity) = at.try_get(&battery.capacity) {
            w.at_least(&battery.capacity, capacity * short, |charge| format!("a battery of {charge} or more"));
        }
        w.clears.push("change packs half way, or carry less".into());
    })))
}

fn says(at: &At, short: f64, w: &mut Telling<'_>) {
    let machine = at.machine();
    let (battery, track) = (&machine.powertrain.battery, &machine.powertrain.track);
    w.happens = "the battery is empty before the machine is back: it stays out there".into();
    if let Ok(trip) = at.trip() {
        w.numbers.push(format!(
            "There the track does {} of work and back {}; {:.0} % of what the cells give arrives at it.",
            shown::<m::Energy>(trip.out),
            shown::<m::Energy>(trip.back),
            100.0 * trip.share.si()
        ));
        w.numbers.push(format!(
            "The part that climbs is taken as {} steep, the rest as level.",
            shown::<m::Grade>(trip.grade)
        ));
        w.numbers.push(format!(
            "It is on the way for {}; pump, servos, lamp and radio take {} meanwhile.",
            shown::<m::Duration>(trip.lasts),
            shown::<m::Energy>(trip.pump + trip.auxiliary)
        ));
    }
    if let Ok(known) = at.battery() {
        w.numbers.push(format!("Its cells are at {}.", shown::<m::Temperature>(known.cells)));
    }
    w.label(battery.capacity.id(), "too little charge");
    if let Some(trip) = machine.service.trip.there() {
        w.label(trip.distance.id(), "how far");
        w.label(trip.ascent.id(), "how high");
    }
    w.label(
        if at.is_given(&track.tow_pull) { track.tow_pull.id() } else { track.rolling_resistance.id() },
        "what the ground takes",
    );
    if let Some(capacity) = at.try_get(&battery.capacity) {
        w.at_least(&battery.capacity, capacity * short, |charge| format!("a battery of {charge} or more"));
    }
    if !at.is_given(&battery.put_in_at) {
        w.clears.push("keep the pack in the warm until the start, in foam (put_in_at)".into());
    }
    w.clears.push("change packs half way, or carry less".into());
    if !at.is_given(&track.tow_pull) {
        w.clears.push("tow it on a scale: the ground may take less than assumed (tow_pull)".into());
    }
}
