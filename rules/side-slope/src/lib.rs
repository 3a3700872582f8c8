#![no_std]
//! Does a machine roll over on a side slope? It never knows: whether it slides first, what springs do, other rules.

use physics::stability::{Stance, without};
use rule::prelude::*;

#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "side-slope",
    area: Area::WholeMachine,
    question: "Does it roll over on the steepest side slope that it is to cross?",
    explains: "A machine rolls when its centre of gravity passes over the lower edge of its tracks or skis. The springs on the \
               low side sink, a load shifts down, a stone lifts the high side: each takes some degrees of what a drawing says.",
    formula: "(width/2 − y)·cos φ ≥ h·sin φ, with the centre of gravity y beside the middle; reserve, one over the other",
    source: "Static geometry, textbook. The reserve: common practice.",
    checked: "at the angle whose tangent is half the width over the height both sides are equal. On the unsafe side: springs \
              that sink, a load that shifts; on the safe side: a machine that slides first.",
    required: "1.5: springs, a stone and a shifting load (common practice)",
    caution: "A machine that rolls comes down the slope: nobody walks below it.",
};

/// Where nobody says how far beside the middle.
const MIDDLE: &str = "in the middle";

#[derive(Debug)]
pub struct SideSlope;

impl Rule for SideSlope {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        if !machine.cases.iter().any(|case| case.value.kind.traverses()) {
            return;
        }
        checks.about("machine", machine.machine.centre_of_gravity.z.id()).check("rolls over", judge);
    }
}

fn judge(at: &At) -> Found<Outcome> {
    let case = at.case()?;
    if !case.kind.traverses() {
        return Ok(Outcome::Aside("this case is no side slope"));
    }
    let (slope, about) = (at.need(&case.side_slope)?, &at.machine().machine);
    let place = &about.centre_of_gravity;
    let (mut height, mut beside) = (at.need(&place.z)?, at.or_take(&place.y, Length::ZERO, MIDDLE));
    if case.payload == Some(false) {
        let (mass, payload) = (at.need(&about.mass)?, at.need(&about.payload.mass)?);
        height = without(mass, height, payload, at.need(&about.payload.at.z)?);
        beside = without(mass, beside, payload, at.or_take(&about.payload.at.y, Length::ZERO, MIDDLE));
    }
    let stance = Stance { lever: at.need(&about.footprint.width)? / 2.0 - beside.abs(), height };
    let (holds, tips) = stance.levers(slope, Acceleration::ZERO);
    let required = Required { value: 1.5, why: "springs that sink, a stone, a load that shifts" };
    let near = about.people_near == Some(true) || about.rides == Some(true);
    let consequence = if near { Consequence::Harm } else { Consequence::Stranded };
    // A lever beyond the edge holds nothing.
    let holds = if holds < Length::ZERO { Length::ZERO } else { holds };
    let margin = Margin::ratio::<m::Distance>(tips, holds, required, consequence);
    let (fails, degrees) = (margin.held.fails(), shown::<m::Angle>);
    Ok(Outcome::Held(margin.tell(at, |w| {
        w.happens = if fails {
            "it rolls over on this side slope"
        } else {
            "a stone under the upper track, or springs that sink on the lower side, roll it over on this slope"
        }
        .into();
        w.numbers.push(format!(
            "Stiff and on firm ground it rolls at {}; the slope has {}.",
            degrees(stance.tips_at()),
            degrees(slope)
        ));
        w.label(place.z.id(), "so high above the ground");
        w.label(about.footprint.width.id(), "no wider than this");
        w.clears.push("carry the load lower, or widen the tracks".into());
        w.clears.push(format!("cross no more than {}", degrees(stance.tips_at() / 1.5)));
    })))
}
