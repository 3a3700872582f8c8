//! Unlike metals that share one coolant.

use crate::{says, touch};
use rule::prelude::*;

/// A metal body and its place in the series.
#[derive(Clone, Copy)]
pub(crate) struct Body<'a> {
    pub(crate) part: &'a Named<Part>,
    pub(crate) material: &'a Named<Material>,
    pub(crate) index: ElectricPotential,
}

/// What the loop's metals are to each other.
enum Metals<'a> {
    Alike,
    /// The one that is eaten, and the one that does it.
    Unlike(Body<'a>, Body<'a>),
}

fn metals<'a>(at: &At<'a>) -> Found<Metals<'a>> {
    let mut ends: Option<(Body<'a>, Body<'a>)> = None;
    if let Some((_, part)) = touch::unnamed(at.machine()).first() {
        at.part(part)?;
    }
    for (part, _) in touch::wet(at.machine()) {
        let material = at.machine().follow(at.part(&part.material)?);
        if material.family != Family::Metal {
            continue;
        }
        let body = Body { part, material, index: at.need(&material.anodic_index)? };
        ends = Some(match ends {
            None => (body, body),
            Some((eaten, noble)) if body.index > eaten.index => (body, noble),
            Some((eaten, noble)) if body.index < noble.index => (eaten, body),
            Some(both) => both,
        });
    }
    Ok(match ends {
        Some((eaten, noble)) if eaten.index > noble.index => Metals::Unlike(eaten, noble),
        _ => Metals::Alike,
    })
}

/// Liquids without water hardly carry a current.
fn conducts(liquid: Substance) -> bool {
    use Substance::{AlcoholWater, EthyleneGlycolWater, PropyleneGlycolWater, Water};
    matches!(liquid, Water | EthyleneGlycolWater | PropyleneGlycolWater | AlcoholWater)
}

pub(crate) fn judge(at: &At) -> Found<Outcome> {
    let Metals::Unlike(eaten, noble) = metals(at)? else {
        return Ok(Outcome::Clear(says::clear(at, "the metals that the coolant wets are alike")));
    };
    if !conducts(touch::coolant(at)?) {
        return Ok(Outcome::Clear(says::clear(at, "the coolant holds next to no water and hardly carries a current")));
    }
    if *at.part(&at.machine().cooling.coolant.inhibited)? {
        return Ok(Outcome::Clear(says::clear(at, "the inhibitor in the coolant keeps unlike metals from each other")));
    }
    let (demand, capacity) = (eaten.index - noble.index, at.need(&at.assumed().metals_apart)?);
    let required = Required { value: 1.2, why: "waters and alloys differ" };
    let margin = Margin::ratio::<m::Voltage>(demand, capacity, required, Consequence::RunOver);
    Ok(Outcome::Held(says::metals(at, eaten, noble, margin)))
}

pub(crate) fn judge_inhibitor(at: &At) -> Found<Outcome> {
    let Metals::Unlike(eaten, noble) = metals(at)? else {
        return Ok(Outcome::Aside("the metals that the coolant wets are alike"));
    };
    let filling = &at.machine().cooling.coolant;
    if !conducts(touch::coolant(at)?) || !*at.part(&filling.inhibited)? {
        return Ok(Outcome::Aside("no inhibitor, or no need of one"));
    }
    let life = at.or(&filling.inhibitor_life, &at.assumed().inhibitor_life)?;
    let required = Required { value: 1.2, why: "heat and air use it up sooner" };
    let stays = at.need(&filling.changed_after)?;
    let margin = Margin::ratio::<m::Duration>(stays, life, required, Consequence::RunOver);
    Ok(Outcome::Held(says::inhibitor(at, eaten, noble, margin)))
}
