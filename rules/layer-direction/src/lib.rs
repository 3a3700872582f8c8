#![no_std]
//! Printed parts across and between their layers, and the glue between a rod and its print. It never knows: what the same part
//! carries along its layers, other rules.

use loads::{Loaded, Member};
use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "layer-direction",
    area: Area::Structure,
    question: "Does each printed part carry its load in the direction in which it lay on the bed?",
    explains: "A print pulled across its layers parts between two of them, clean and without warning, at a half of its strength \
               along them. Laid flat it shears between its layers when it is short and high, and a rod tears loose at its ends \
               when the glue cannot hand over its pull.",
    formula: "standing: σ = M/W + N/A against the strength between layers; laid flat or on edge: τ = 1.5·V/A against 0.6 of it; \
              glued rods: shear flow V·E·A·z/(E·I) over π·d against glue and print; as warm and wet as the part is",
    source: "Timoshenko, Strength of Materials (shear flow), published; 0.6, required reserves: common practice, no source",
    checked: "shear flow adds up to the rod's pull; the mean stress of a beam by the handbook. The end of a rod takes two to three \
              times the even flow, which the required reserve covers; peel is left out, which errs to the unsafe side for rods \
              near the surface.",
    required: "2 with a part or coupon that was tested, 3 without; glue 3 (common practice)",
    caution: "",
};

#[derive(Debug)]
pub struct LayerDirection;

impl Rule for LayerDirection {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for part in machine.structure.parts.iter().filter(|part| !part.value.pushed.is_empty()) {
            let mut on = checks.on(&part.key);
            on.check("across layers", |at| across(part, at));
            on.check("between layers", |at| between(part, at));
            on.check("bond of rods", |at| bond(part, at));
        }
    }
}

const NOT_PRINTED: Outcome = Outcome::Aside("it is not printed: it has no layers");

fn loaded<'a>(part: &'a Named<Part>, at: &At<'a>) -> Found<Result<(Member<'a>, Loaded), Outcome>> {
    if let Some(why) = loads::idle(at, part)? {
        return Ok(Err(Outcome::Aside(why)));
    }
    let member = loads::member(at, part)?;
    match loads::alone(at, part, &member)? {
        Ok(loaded) => Ok(Ok((member, loaded))),
        Err(why) => Ok(Err(Outcome::Aside(why))),
    }
}

fn consequence(part: &Part) -> Consequence {
    if part.consumable == Some(true) { Consequence::CheapPart } else { Consequence::Stranded }
}

fn required(at: &At, part: &Part, material: &Material) -> Required {
    let coupon = at.stated(&material.between_layer_strength) == Some(quantity::Stated::Measured);
    if coupon || !part.held.is_empty() || !part.broke.is_empty() {
        Required { value: 2.0, why: "between layers, tested" }
    } else {
        Required { value: 3.0, why: "between layers, never tested" }
    }
}

fn across(part: &Named<Part>, at: &At<'_>) -> Found<Outcome> {
    let material = at.machine().follow(at.part(&part.value.material)?);
    let grain = loads::grain(at, &part.value, material)?;
    if !grain.printed {
        return Ok(NOT_PRINTED);
    }
    if grain.way != strength::Direction::Across {
        return Ok(Outcome::Aside("its layers run along its pull"));
    }
    let (member, load) = match loaded(part, at)? {
        Ok(both) => both,
        Err(aside) => return Ok(aside),
    };
    let proof = loads::proof(at, part, &member)?;
    let limit = proof.limit(member.limit);
    let required = required(at, &part.value, material);
    let margin = Margin::ratio::<m::Stress>(load.stresses.body, limit, required, consequence(part));
    Ok(Outcome::Held(says::across(part, at, &load, margin)))
}

/// Shear strength between layers over their strength against being pulled apart.
const SHEAR_SHARE: f64 = 0.6;

fn between(part: &Named<Part>, at: &At<'_>) -> Found<Outcome> {
    let material = at.machine().follow(at.part(&part.value.material)?);
    if !loads::grain(at, &part.value, material)?.printed {
        return Ok(NOT_PRINTED);
    }
    let (member, load) = match loaded(part, at)? {
        Ok(both) => both,
        Err(aside) => return Ok(aside),
    };
    let apart = strength::ultimate(at, material, member.here, strength::Direction::Across)?;
    let required = required(at, &part.value, material);
    let margin = Margin::ratio::<m::Stress>(load.stresses.shear, apart * SHEAR_SHARE, required, consequence(part));
    Ok(Outcome::Held(says::between(part, at, &load, margin)))
}

fn bond(part: &Named<Part>, at: &At<'_>) -> Found<Outcome> {
    let Some(rods) = at.try_part(&part.value.rods) else { return Ok(Outcome::Aside("it has no rods in it")) };
    if *at.part(&rods.bond)? != Bond::Glued {
        return Ok(Outcome::Aside("its rods are not glued"));
    }
    let (member, load) = match loaded(part, at)? {
        Ok(both) => both,
        Err(aside) => return Ok(aside),
    };
    let Some(shear) = load.stresses.bond else { return Ok(Outcome::Aside("its rods are not glued")) };
    let material = member.material;
    let warm = strength::warmth(at, material, member.here)? * strength::damp(at, material)?;
    let print = at.need(&material.shear_strength)? * warm;
    let glue = at.need(&at.assumed().glue_shear)?;
    let limit = if glue < print { glue } else { print };
    let required = Required { value: 3.0, why: "the ends of a rod take more than its middle" };
    let margin = Margin::ratio::<m::Stress>(shear, limit, required, consequence(part));
    Ok(Outcome::Held(says::bond(part, at, &load, margin)))
}
