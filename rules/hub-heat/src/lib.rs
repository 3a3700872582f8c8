#![no_std]
//! Heat at the hubs of plastic gears: faces that rub, bearings, shafts that turn in their rings. It never knows: how warm
//! the teeth get, what a hub carries, other rules.

use gears::{Pair, Side};
use rule::prelude::*;
use thermal::hub::{Hub, LEAST_CLEARANCE, hub};

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "hub-heat",
    area: Area::Powertrain,
    question: "Does the hub of a plastic gear stay cool: which of its surfaces touches something that turns at another speed?",
    explains: "A wheel whose face has no room beside it rubs on the bearing's ring or on the case. That makes twenty times the \
               heat of the bearing, right at the hub, and plastic keeps it in: the hub softens, the insert turns in it or comes \
               out. It looks like a hub that was too weak. A spacer on the inner ring alone ends it.",
    formula: "clearance ≥ 0.3 mm; service temperature − (hottest of hub and shaft during the case and after it) ≥ required. \
              Bodies: shaft with insert, gear body, bearing ring. Heat: rubbing µ·F·ω·dm/2, bearing µ·F·d/2·ω + \
              10⁻⁷·f0·(ν·n)^⅔·dm³ + lips, half of the mesh, journal µ·F·d/2·ω where it slides in a stiff bearing",
    source: "Bearing moment: Palmgren 1959 as in Harris, Rolling Bearing Analysis, 4th edition; turning disc: Wagner 1948; \
             conduction: Bergman and others, 6th edition, ch. 3; published, constants from memory. 0.3 mm, the force with which a \
             face without room presses (20 N), seats and reserves: common practice, no source.",
    checked: "a rubbing face makes about 20 W, a sealed bearing about 1 W, at some thousand turns (common practice); the load's \
              moment against a printed example; rings in series, a thin ring against a slab; a disc against a plate in wind. A \
              face counts as rubbing as soon as its room is under 0.3 mm, which is the safe side: play, growth and a shaft that \
              bends use it up. A hub of two bearings that squeeze it, or that stand askew, is not seen. Metal gears are left out.",
    required: "25 K below the highest service temperature by the estimate, 10 K where a thermometer was held to the hub \
               (common practice)",
    caution: "A hub that has softened lets its wheel go without warning, and the machine rolls freely: keep people out of its \
              way on a slope. What has rubbed burns fingers.",
};

#[derive(Debug)]
pub struct HubHeat;

impl Rule for HubHeat {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for pair in gears::pairs(machine) {
            let mut on = checks.about(&pair.stage.name, pair.stage.module.id());
            if !pair.drives_by_an_idler(machine) {
                on.check("room beside the pinion", |at| room(at, &pair, Side::Pinion));
                on.check("pinion hub heat", |at| heat(at, &pair, Side::Pinion));
            }
            on.check("room beside the wheel", |at| room(at, &pair, Side::Wheel));
            on.check("wheel hub heat", |at| heat(at, &pair, Side::Wheel));
        }
    }
}

const STANDS: Outcome = Outcome::Aside("nothing turns for long enough");
const METAL: Outcome = Outcome::Aside("a hub of metal does not soften");

/// Turned for long enough to heat a hub; a jump counts if it says how long it lasts.
fn turns(at: &At, pair: &Pair<'_>) -> Found<bool> {
    let case = at.case()?;
    let long = case.kind.drives() || (case.kind.lifts_off() && at.try_get(&case.duration).is_some());
    Ok(long && pair.load(at)?.is_some())
}

fn room<'a>(at: &At<'a>, pair: &Pair<'a>, side: Side) -> Found<Outcome> {
    if !turns(at, pair)? {
        return Ok(STANDS);
    }
    if strength::hard(pair.material(at, side)?) {
        return Ok(METAL);
    }
    let clearance = at.need(&pair.gear(side).side_clearance)?;
    let least = Length::from_si(LEAST_CLEARANCE);
    let required = Required { value: 1.0, why: "play, growth and a bending shaft use it up" };
    let margin = Margin::ratio::<m::Distance>(least, clearance, required, Consequence::Stranded);
    Ok(Outcome::Held(margin.tell(at, |w| says::room(pair, side, w))))
}

fn heat<'a>(at: &At<'a>, pair: &Pair<'a>, side: Side) -> Found<Outcome> {
    if !turns(at, pair)? {
        return Ok(STANDS);
    }
    let material = pair.material(at, side)?;
    if strength::hard(material) {
        return Ok(METAL);
    }
    let Some(found) = hub(at, pair, side)? else { return Ok(STANDS) };
    let (limit, node) = strength::service_limit(at, material)?;
    let highest = says::highest(&found);
    let required = if found.course.is_measured() {
        Required { value: 10.0, why: "a thermometer was held to it" }
    } else {
        Required { value: 25.0, why: "how warm it gets is an estimate" }
    };
    let margin = Margin::gap::<m::Temperature, m::TemperatureDifference>(
        highest,
        limit,
        TemperatureInterval::from_si(20.0),
        required,
        Consequence::Stranded,
    );
    let hot = says::Hot { pair, side, found: &found, limit, node };
    Ok(Outcome::Held(margin.tell(at, |w| says::heat(at, &hot, w))))
}
