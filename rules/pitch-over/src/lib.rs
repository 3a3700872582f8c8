#![no_std]
//! Does a machine tip over its tail or its nose on a grade? It never knows: whether it climbs at all, what springs do, other
//! rules.

use physics::stability::{Stance, without};
use rule::prelude::*;

#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "pitch-over",
    area: Area::WholeMachine,
    question: "Does it tip over its tail uphill, or over its nose downhill?",
    explains: "Uphill the weight moves back towards the rear end of the track, and a start on the throttle lifts the nose. Downhill \
               a stop does the same to the tail. A short machine with its load high and behind goes over backwards.",
    formula: "x·cos θ ≥ h·(sin θ + a/g), x from the centre of gravity to the end of what carries, a = 1.5 m/s²; loaded and empty",
    source: "Static geometry with d'Alembert's force, textbook. 1.5 m/s² for a start or a stop by the throttle: common practice.",
    checked: "standing, both sides are equal at the angle whose tangent is lever over height. On the unsafe side: springs that \
              sink at the low end, a bump under the high one.",
    required: "1.5 with people near or on it, else 1.2 (common practice)",
    caution: "A machine that goes over backwards comes down the slope: nobody stands below it.",
};

/// Of a start uphill, or a stop downhill. Common practice.
const START: f64 = 1.5;

#[derive(Debug)]
pub struct PitchOver;

impl Rule for PitchOver {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        let tips = |case: &Named<Case>| case.value.kind.climbs() || case.value.kind.runs_downhill();
        if !machine.cases.iter().any(tips) {
            return;
        }
        let mut on = checks.about("machine", machine.machine.centre_of_gravity.x.id());
        on.check("tips over, loaded", |at| judge(at, true));
        on.check("tips over, empty", |at| judge(at, false));
    }
}

fn judge(at: &At, loaded: bool) -> Found<Outcome> {
    let (case, about) = (at.case()?, &at.machine().machine);
    let uphill = case.kind.climbs();
    if !uphill && !case.kind.runs_downhill() {
        return Ok(Outcome::Aside("this case has no grade to tip on"));
    }
    if loaded && case.payload == Some(false) {
        return Ok(Outcome::Aside("driven empty in this case"));
    }
    let place = &about.centre_of_gravity;
    let (mut forward, mut height) = (at.need(&place.x)?, at.need(&place.z)?);
    if !loaded {
        let load = &about.payload;
        if at.try_get(&load.mass).is_none() && at.try_get(&load.at.x).is_none() {
            return Ok(Outcome::Aside("it carries no load that it could leave"));
        }
        let payload = at.need(&load.mass)?;
        let mass = at.need(&about.mass)?;
        forward = without(mass, forward, payload, at.need(&about.payload.at.x)?);
        height = without(mass, height, payload, at.need(&about.payload.at.z)?);
    }
    let edge = if uphill { &about.footprint.rear } else { &about.footprint.front };
    let end = at.need(edge)?;
    let stance = Stance { lever: if uphill { forward - end } else { end - forward }, height };
    // However it is written, a descent goes down.
    let (grade, start) = (at.need(&case.grade)?.abs(), Acceleration::from_si(START));
    let (holds, tips) = stance.levers(grade, start);
    let holds = if holds < Length::ZERO { Length::ZERO } else { holds };
    let near = about.people_near == Some(true) || about.rides == Some(true);
    let (required, consequence) = if near {
        (Required { value: 1.5, why: "people near or on it" }, Consequence::Harm)
    } else {
        (Required { value: 1.2, why: "nobody near" }, Consequence::Stranded)
    };
    let margin = Margin::ratio::<m::Distance>(tips, holds, required, consequence);
    let fails = margin.held.fails();
    Ok(Outcome::Held(margin.tell(at, |w| {
        w.happens = match (fails, uphill) {
            (true, true) => "a start on this grade tips it over backwards",
            (true, false) => "a stop on this grade tips it over its nose",
            (false, true) => "a start over a bump on this grade lifts it nearly over its tail",
            (false, false) => "a stop on a bump on this grade lifts it nearly over its nose",
        }
        .into();
        let degrees = shown::<m::Angle>;
        w.numbers.push(format!(
            "Standing still on firm ground it tips at {}; the grade has {}.",
            degrees(stance.tips_at()),
            degrees(grade)
        ));
        w.label(place.x.id(), if uphill { "no further ahead of its tail" } else { "no further behind its nose" });
        w.label(place.z.id(), "so high above the ground");
        w.label(edge.id(), "carries no further out");
        w.clears.push(
            if uphill { "carry the load lower and further forward" } else { "carry the load lower and further back" }
                .into(),
        );
        w.clears.push(
            if uphill { "a bar behind that catches it" } else { "brake more softly: limit what the throttle may take" }
                .into(),
        );
    })))
}
