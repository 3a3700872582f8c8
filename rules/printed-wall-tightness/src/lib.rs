#![no_std]
//! Printed bodies that hold coolant. It never knows: the strength of a wall, how a coolant loop is worked out, other rules.

use physics::tightness::weeping_pressure;
use rule::prelude::*;

mod body;
mod says;
#[cfg(test)]
mod tests;

use body::{Body, Held};

static CARD: Card = Card {
    name: "printed-wall-tightness",
    area: Area::Cooling,
    question: "Does each printed body that holds coolant keep it in?",
    explains: "A print is a stack of round strands with gaps between them, and coolant creeps along these from one side of a wall \
               to the other. It sweats first, then drips; under suction it draws air. What counts is the walls round the \
               channel and the layer height, not the infill, and only a leak test shows whether a print is tight.",
    formula: "pressure difference between coolant and air × required ≤ pressure that the wall was tested with, or that its coat \
              holds, or bare walls · 10 kPa · 0.2 mm/layer height",
    source: "Coats: Mireles and others, Solid Freeform Fabrication Symposium 2011, brushed resin 276 kPa, varnish 207 kPa, soaked \
             with resin 138 kPa; published. That thin layers and thick walls leak less, and infill does not matter: Saniman and \
             others 2022, Leeder and others, ACS Applied Polymer Materials 2025; published. 10 kPa a wall line and the \
             reserves: common practice, no source.",
    checked: "dimensions and limiting cases only: nobody has published at what pressure a bare print begins to weep. Bare walls \
              are on the safe side of what good prints held in those papers. Left out on the other side: coats that crack where a \
              screw or a hose barb works, layers that open in the cold, filament that was not dry.",
    required: "1.3 leak-tested, 2 coated, 3 bare (common practice)",
    caution: "Test with water, not with air, behind a shield: a body full of compressed air throws pieces when it bursts.",
};

#[derive(Debug)]
pub struct PrintedWallTightness;

impl Rule for PrintedWallTightness {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for body in body::bodies(machine) {
            checks.on(&body.part.key).check(WALL, |at| judge(at, &body));
        }
        for (name, part) in body::unnamed(machine) {
            let nothing = |at: &At| at.part(part).map(|_| Outcome::Aside("named"));
            checks.about(name, part.id()).check(WALL, nothing);
        }
    }
}

const WALL: &str = "wall keeps coolant in";

/// Reserve wanted of a print that held a test.
const TESTED: f64 = 1.3;
/// Shorter tests show nothing.
const LONG_ENOUGH: f64 = 600.0;
/// A test pressure that fell by more than this share was not held; a kelvin of cooling takes a third of a per cent of
/// the absolute pressure of air, hardly anything of water's.
const FELL: f64 = 0.1;

/// The pressure that the wall keeps in, by the best that is known of it, and what is wanted on top; nothing where it
/// failed its test.
fn keeps(at: &At, body: &Body<'_>) -> Found<Option<(Pressure, Held, Required)>> {
    let part = body.part;
    if let Some(test) = at.try_part(&part.leak_test)
        && at.need(&test.duration)?.si() >= LONG_ENOUGH
    {
        let pressure = at.need(&test.pressure)?;
        if at.need(&test.fell)? > pressure * FELL {
            return Ok(None);
        }
        return Ok(Some((pressure, Held::Tested, Required { value: TESTED, why: "it was leak-tested" })));
    }
    let coat = at.or_word(&part.coating, Coating::None, "none");
    let assumed = at.assumed();
    let figure = match coat {
        Coating::BrushedResin => Some(&assumed.brushed_resin),
        Coating::Varnish => Some(&assumed.varnish),
        Coating::SoakedResin => Some(&assumed.soaked_resin),
        Coating::None => None,
    };
    Ok(Some(match figure {
        Some(figure) => (at.need(figure)?, Held::Coat, Required { value: 2.0, why: "coated, but not tested" }),
        None => {
            let each = at.need(&assumed.weeps_a_wall)?;
            let pressure = weeping_pressure(each, body.walls(at)?, body.layer_height(at)?);
            (pressure, Held::Bare, Required { value: 3.0, why: "bare, and not tested" })
        }
    }))
}

fn judge(at: &At, body: &Body<'_>) -> Found<Outcome> {
    if !body.printed(at)? {
        return Ok(Outcome::Aside("it is not printed"));
    }
    let Some((capacity, held, required)) = keeps(at, body)? else {
        return Ok(Outcome::Breach { consequence: Consequence::RunOver, words: says::failed(at, body) });
    };
    let demand = body.pressure(at)?;
    let margin = Margin::ratio::<m::PressureLoss>(demand, capacity, required, Consequence::RunOver);
    Ok(Outcome::Held(says::weeps(at, body, held, margin)))
}
