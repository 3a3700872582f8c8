#![no_std]
//! Coil bind and the end of the damper's stroke. It never knows: how a landing is worked out, other rules.

use physics::spring::{Coiling, Duty, Ends, smallest_gap_sum, solid_length};
use rule::prelude::*;

#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "spring-travel-reserve",
    area: Area::Suspension,
    question: "Do the coils touch before the damper has reached its end?",
    explains: "A spring pressed solid is a rod: the whole blow goes into mounts and frame. Preload uses up part of the length, \
               and some gap must stay between the coils.",
    formula: "free length − solid length − smallest gaps (dynamic) ≥ preload + damper travel",
    source: "EN 13906-1, sum of the smallest gaps: from memory. The solid length by ends: Shigley, table 10-1, published.",
    checked: "the gaps by hand on one spring; they agree with what a spring maker prints",
    required: "15 % of the damper's travel (common practice)",
    caution: "A preloaded spring stores energy: slacken the collar before you take the damper apart.",
};

#[derive(Debug)]
pub struct SpringTravelReserve;

impl Rule for SpringTravelReserve {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for corner in machine.suspension.iter() {
            checks.on(&corner.key).check("solid length against stroke", |at| solid_against_stroke(at, &corner.value));
        }
    }
}

fn solid_against_stroke(at: &At, corner: &Corner) -> Found<Outcome> {
    let spring = at.part(&corner.spring)?;
    let (wire, mean) = (at.need(&spring.wire)?, at.need(&spring.mean_diameter)?);
    let coils = Ratio::from_si(at.need(&spring.active_coils)?.si());
    let free = at.need(&spring.free_length)?;
    let stroke = at.need(&corner.damper_travel)?;
    let collar = at.need(&corner.preload.collar)?;
    let solid = match at.try_get(&spring.solid_length) {
        Some(measured) => measured,
        None => solid_length(
            wire,
            coils,
            match at.or_word(&spring.ends, SpringEnds::ClosedGround, "closed_ground") {
                SpringEnds::Open => Ends::Plain,
                SpringEnds::OpenGround => Ends::PlainGround,
                SpringEnds::Closed => Ends::Closed,
                SpringEnds::ClosedGround => Ends::ClosedGround,
            },
        ),
    };
    let gaps = smallest_gap_sum(wire, mean, coils, Coiling::Cold, Duty::Dynamic);
    let usable = Length::from_si(free.si() - solid.si() - gaps.si());
    let used = Length::from_si(collar.si() + stroke.si());
    let required = Required { value: 0.15 * stroke.si(), why: "15 % of the damper's travel" };
    let margin =
        Margin::gap::<m::Distance, m::Distance>(used, usable, stroke, required, Consequence::Stranded).tell(at, |w| {
            w.happens =
                "the coils touch before the damper reaches its end, and the blow goes straight into the mounts".into();
            w.label(spring.free_length.id(), "too short for preload and stroke together");
            w.clears.push("a longer spring, fewer coils, less preload or a shorter stroke".into());
        });
    Ok(Outcome::Held(margin))
}
