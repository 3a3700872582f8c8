#![no_std]
//! How the torque gets from shafts into gears, inserts and sprockets. It never knows: teeth, what presses across the shaft, other
//! rules.

use gears::{Load, Pair, Side};
use rule::prelude::*;

mod holds;
mod says;
mod seat;
#[cfg(test)]
mod tests;

use seat::Seat;

static CARD: Card = Card {
    name: "hub-torque",
    area: Area::Powertrain,
    question: "Does each joint between shaft and hub hold the torque, blows included?",
    explains: "A set screw slips and scores the shaft, a key crushes its slot, a hexagon or a flat turns the hole in plastic round. \
               The motor then runs and the machine stands, or rolls back.",
    formula: "key T = p·(h − t)·l·d/2 and τ·b·l·d/2; pin τ·π·dp²/4·d and p·dp·(D² − d²)/4; hexagon p·s²·l/4; flat p·w²·l/8; spline \
              0.75·p·z·h·l·r; clamp n·F·µ·d; set screw F·d/2, half for each further one; glue τ·π·d²·l/2. Told in torque of the \
              motor; p by the softer of hub and shaft, in plastic over the peak at corners",
    source: "DIN 6892, DIN 6885-1, ISO 14, Shigley ch. 7 (table of set screws), Roloff/Matek ch. 9 and 12, published, sizes from \
             memory; halves of hexagon and flat, peaks, further screws: common practice, no source",
    checked: "keys by Shigley, example 7-6; hexagon by summing its halves; pins wall by wall. Plastic is as warm as the teeth of its \
              gear, elsewhere as the outside air. Blows that loosen screws, wear of splines and the fatigue of the shaft are not \
              judged here.",
    required: "1.5; set screws 3 (common practice)",
    caution: "A hub that lets go frees the machine on a slope: block the track before you work on it.",
};

#[derive(Debug)]
pub struct HubTorque;

impl Rule for HubTorque {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for pair in gears::pairs(machine) {
            let mut on = checks.about(&pair.stage.name, pair.stage.module.id());
            if !pair.drives_by_an_idler(machine) {
                on.check("pinion on its shaft", |at| on_shaft(&pair, Side::Pinion, at));
                on.check("pinion on its insert", |at| on_insert(&pair, Side::Pinion, at));
            }
            on.check("wheel on its shaft", |at| on_shaft(&pair, Side::Wheel, at));
            on.check("wheel on its insert", |at| on_insert(&pair, Side::Wheel, at));
        }
        for shaft in machine.powertrain.shafts.iter() {
            for (place, station) in shaft.value.stations.iter().enumerate() {
                let Some(joint) = station.held_by.there() else { continue };
                let carries = station.called();
                let name = format!("{carries} on {}", shaft.name());
                let nth = shaft.value.stations.iter().take(place).filter(|other| other.called() == carries).count();
                let name = if nth == 0 { name } else { format!("{name}, number {}", nth + 1) };
                let mut on = checks.about(&name, station.x.id());
                on.check("on its shaft", |at| at_station(shaft, joint, at));
            }
        }
    }
}

const STILL: Outcome = Outcome::Aside("nothing is driven in this case");

fn judged(at: &At<'_>, load: &Load, seat: &Seat<'_>) -> Found<Outcome> {
    let shock = load.shock(at)?.si();
    let held = match holds::holds(at, seat)? {
        holds::Holds::Torque(held) => held,
        holds::Holds::Nothing(why) => {
            return Ok(Outcome::Breach { consequence: Consequence::Stranded, words: says::nothing(at, seat, why) });
        }
    };
    let demand = load.motor * shock;
    let capacity = demand * (held.torque / (seat.torque * shock)).si();
    let guards = at.try_part(&seat.joint.guards) == Some(&true);
    let consequence = if guards { Consequence::CheapPart } else { Consequence::Stranded };
    let required = match seat.joint.by {
        ShaftJointKind::SetScrew => Required { value: 3.0, why: "set screws settle and slip" },
        _ => Required { value: 1.5, why: "joints settle" },
    };
    let margin = Margin::ratio::<m::Torque>(demand, capacity, required, consequence);
    Ok(Outcome::Held(says::joint(at, seat, &held, shock, margin)))
}

fn on_shaft(pair: &Pair<'_>, side: Side, at: &At<'_>) -> Found<Outcome> {
    let gear = pair.gear(side);
    let Some(joint) = at.try_part(&gear.held_by) else {
        let name = &pair.stage.name;
        let elsewhere = at.machine().powertrain.shafts.iter().any(|shaft| shaft.value.turned_by.there() == Some(name));
        if side == Side::Wheel && elsewhere {
            return Ok(Outcome::Aside("judged where the shaft carries it"));
        }
        return at.part(&gear.held_by).map(|_| STILL);
    };
    let Some(load) = pair.load(at)? else { return Ok(STILL) };
    judged(at, &load, &seat::of_gear(pair, side, at, joint, &load)?)
}

fn on_insert(pair: &Pair<'_>, side: Side, at: &At<'_>) -> Found<Outcome> {
    let insert = at.try_part(&pair.gear(side).hub).filter(|hub| hub.form == HubForm::Insert);
    let Some(insert) = insert else { return Ok(Outcome::Aside("it has no insert")) };
    let joint = at.part(&insert.held_by)?;
    let Some(load) = pair.load(at)? else { return Ok(STILL) };
    judged(at, &load, &seat::of_insert(pair, side, at, insert, joint, &load)?)
}

fn at_station(shaft: &Named<Shaft>, joint: &ShaftJoint, at: &At<'_>) -> Found<Outcome> {
    let by = at.part(&shaft.value.turned_by)?;
    let stages = &at.machine().powertrain.stages;
    let index = stages.iter().position(|stage| stage.name() == by).ok_or_else(|| {
        NotJudged::NoSolution(format!("{} is turned by `{by}`, and no stage has that name", shaft.name()))
    })?;
    let Some(load) = gears::load(at, index)? else { return Ok(STILL) };
    judged(at, &load, &seat::of_station(shaft, joint, at, &load)?)
}

fn refused(range: physics::range::OutsideRange) -> NotJudged {
    let physics::range::OutsideRange { of, unit, from, to, was } = range;
    NotJudged::OutsideRange { of: of.to_string(), unit, from, to, was }
}
