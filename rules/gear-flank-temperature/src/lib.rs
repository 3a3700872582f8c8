#![no_std]
//! How warm the teeth of plastic gears get. It never knows: what breaks them, how warm their hubs are, other rules.

use gears::{Pair, Side, ToothHeat};
use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "gear-flank-temperature",
    area: Area::Powertrain,
    question: "Do plastic teeth stay cool enough where they rub?",
    explains: "A few per cent of the power that goes through a mesh stay in its flanks as heat. Plastic hardly lets it out: the \
               flanks soften, smear and melt, and the rest of the tooth bends.",
    formula: "ϑ = air + P·µ·HV·k/(b·z·(v·m)^0.75)·ED^0.64, HV = π·(1/z1 + 1/z2)/cosβb·(1 − εα + ε1² + ε2²), ED the share of ten \
              minutes; limit: the material's highest service temperature",
    source: "VDI 2736-2:2014, published, constants and friction from memory; they are those of VDI 2545 (Hachmann and Strickle)",
    checked: "the loss factor by summing sliding along the path of contact. Good to 20 to 30 K: printed teeth pass heat along their \
              layers, metal mates and hubs take some away. The air of the zone is taken as the air round the gears, so the heat \
              that a tight case keeps must stand in its `air_rise`. Blows and starts are too short to count.",
    required: "25 K below the limit by the estimate, 10 K by a measurement at the end of a climb (common practice)",
    caution: "Teeth at the end of a climb burn fingers, and a melted gear lets go without warning.",
};

#[derive(Debug)]
pub struct GearFlankTemperature;

impl Rule for GearFlankTemperature {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for pair in gears::pairs(machine) {
            let mut on = checks.about(&pair.stage.name, pair.stage.module.id());
            on.check("pinion flank heat", |at| flank(&pair, Side::Pinion, at));
            on.check("wheel flank heat", |at| flank(&pair, Side::Wheel, at));
        }
    }
}

fn flank(pair: &Pair<'_>, side: Side, at: &At<'_>) -> Found<Outcome> {
    let kind = at.case()?.kind;
    if kind.brief() || kind.bursts() {
        return Ok(Outcome::Aside("too short to warm the teeth"));
    }
    if pair.load(at)?.is_none() {
        return Ok(Outcome::Aside("nothing is driven in this case"));
    }
    let material: &Material = pair.material(at, side)?;
    if strength::hard(material) {
        return Ok(Outcome::Aside("metal flanks stand more heat than their grease"));
    }
    let heat: ToothHeat = pair.teeth(at, side)?;
    let (limit, _) = strength::service_limit(at, material)?;
    let required = if heat.measured {
        Required { value: 10.0, why: "measured" }
    } else {
        Required { value: 25.0, why: "estimated" }
    };
    let yardstick = TemperatureInterval::from_si(20.0);
    let margin = Margin::gap::<m::Temperature, m::TemperatureDifference>(
        heat.flank,
        limit,
        yardstick,
        required,
        Consequence::Stranded,
    );
    Ok(Outcome::Held(says::flank(pair, side, at, heat, margin)))
}
