#![no_std]
//! Plastic gears where their hub presses on shaft or insert. It never knows: teeth, how the torque gets across, other rules.

use gears::{Load, Pair, Side};
use physics::joint;
use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "bore-pressure",
    area: Area::Powertrain,
    question: "Does the hole of each plastic gear stand the push of its teeth, in a blow and for months?",
    explains: "What the teeth push, the bore presses on its shaft. A thin shaft in plastic digs in: under a blow the hub bursts, \
               under a load that stays the hole creeps oval, the gear tilts and its teeth bear on one edge. A metal insert of full \
               width spreads the push over a larger circle.",
    formula: "F = T/rb; p = F/(d·l)·(1 + 6·e/l), e = offset of the hub + rb·tanβ; wall F/((D − d)·l)·(2 + (1 − d/D)³) + spreading of \
              a hexagon by Lamé; strength as warm and as wet as the tooth root; what stays: × the lasting share. Told in torque of \
              the motor. With an insert its outside is the bore",
    source: "Shigley, ch. 3 and 8, Peterson's Stress Concentration Factors, published; filled hole, halves of the hexagon, lasting \
             share: common practice, no source",
    checked: "two expressions of the tilted pressure meet where the far end lifts; six half flats summed by steps; thick walls by \
              Lamé's limits. An interference fit comes on top and is not counted here; of keys and flats the spreading is not \
              counted.",
    required: "2 against pressure and bursting, 1.5 against creeping (common practice)",
    caution: "A gear that comes off its hub frees the machine on a slope: never stand below it.",
};

#[derive(Debug)]
pub struct BorePressure;

impl Rule for BorePressure {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for pair in gears::pairs(machine) {
            let mut on = checks.about(&pair.stage.name, pair.stage.module.id());
            on.check("pinion bore", |at| pressed(&pair, Side::Pinion, at));
            on.check("wheel bore", |at| pressed(&pair, Side::Wheel, at));
            on.check("pinion hub wall", |at| burst(&pair, Side::Pinion, at));
            on.check("wheel hub wall", |at| burst(&pair, Side::Wheel, at));
            on.check("pinion bore creep", |at| creeps(&pair, Side::Pinion, at));
            on.check("wheel bore creep", |at| creeps(&pair, Side::Wheel, at));
        }
    }
}

/// The hole in the plastic, and what pushes in it.
#[derive(Debug, Clone, Copy)]
struct Bore {
    load: Load,
    shock: Ratio,
    force: Force,
    diameter: Length,
    length: Length,
    /// From the middle of the teeth to the middle of the bore, the tilt of slanting teeth counted in.
    offset: Length,
    /// Outside of the plastic round it.
    outside: Length,
    insert: bool,
    here: ThermodynamicTemperature,
}

impl Bore {
    fn pressure(&self) -> Pressure {
        joint::tilted_pressure(self.force, self.diameter, self.length, self.offset)
    }
    /// In torque of the motor.
    fn margin(&self, stress: Pressure, allowed: Pressure, required: Required) -> Margin {
        let demand = self.load.motor * self.shock.si();
        Margin::ratio::<m::Torque>(demand, demand * (allowed / stress).si(), required, Consequence::Stranded)
    }
}

enum Hole {
    Plastic(Bore),
    None(&'static str),
}

fn hole(pair: &Pair<'_>, side: Side, at: &At<'_>) -> Found<Hole> {
    let (gear, material) = (pair.gear(side), pair.material(at, side)?);
    if strength::hard(material) {
        return Ok(Hole::None("the gear is of metal"));
    }
    let hub = at.try_part(&gear.hub);
    if hub.is_some_and(|hub| hub.form == HubForm::Bolted) {
        return Ok(Hole::None("its hub is bolted on: screws take the push"));
    }
    let Some(load) = pair.load(at)? else { return Ok(Hole::None("nothing is driven in this case")) };
    let insert = hub.filter(|hub| hub.form == HubForm::Insert);
    let mesh = pair.mesh(at)?;
    let body = if side == Side::Pinion { mesh.pinion } else { mesh.wheel };
    let diameter = match insert {
        Some(insert) => at.need(&insert.outer_diameter)?,
        None => at.need(&gear.bore)?,
    };
    let length = match hub {
        Some(hub) => at.need(&hub.length)?,
        None => pair.face_width(at, side)?,
    };
    let beside = hub.map_or(Ok(Length::ZERO), |hub| Ok(at.or_take(&hub.offset, Length::ZERO, "none")))?;
    let solid = hub.filter(|hub| hub.form == HubForm::Solid).and_then(|hub| at.try_get(&hub.outer_diameter));
    let shock = load.shock(at)?;
    Ok(Hole::Plastic(Bore {
        load,
        shock,
        force: mesh.separating_force(load.pinion * shock.si()),
        diameter,
        length,
        offset: beside + mesh.tilt_arm(side == Side::Wheel),
        outside: solid.unwrap_or_else(|| body.root_diameter()),
        insert: insert.is_some(),
        here: pair.teeth(at, side)?.root,
    }))
}

/// Against crushing; by its tensile strength, which is the lower one, where nobody knows better.
fn crushing(pair: &Pair<'_>, side: Side, at: &At<'_>, bore: &Bore) -> Found<Pressure> {
    let material: &Material = pair.material(at, side)?;
    let fresh = at.or(&material.compressive_strength, &material.tensile_strength)?;
    Ok(fresh * strength::warmth(at, material, bore.here)? * strength::damp(at, material)?)
}

fn pressed(pair: &Pair<'_>, side: Side, at: &At<'_>) -> Found<Outcome> {
    let bore = match hole(pair, side, at)? {
        Hole::Plastic(bore) => bore,
        Hole::None(why) => return Ok(Outcome::Aside(why)),
    };
    let (pressure, stands) = (bore.pressure(), crushing(pair, side, at, &bore)?);
    let required = Required { value: 2.0, why: "plastic under a blow" };
    let margin = bore.margin(pressure, stands, required);
    Ok(Outcome::Held(says::pressed(pair, side, at, &bore, (pressure, stands), margin)))
}

fn burst(pair: &Pair<'_>, side: Side, at: &At<'_>) -> Found<Outcome> {
    let bore = match hole(pair, side, at)? {
        Hole::Plastic(bore) => bore,
        Hole::None(why) => return Ok(Outcome::Aside(why)),
    };
    let spread = spreading(pair, side, at, &bore)?;
    let stress = joint::hub_wall_stress(bore.force, bore.outside, bore.diameter, bore.length) + spread;
    let stands = strength::ultimate(at, pair.material(at, side)?, bore.here, pair.direction(at, side)?)?;
    let required = Required { value: 2.0, why: "plastic under a blow" };
    let margin = bore.margin(stress, stands, required);
    Ok(Outcome::Held(says::burst(pair, side, at, &bore, (stress, stands), margin)))
}

/// By a hexagon in the plastic.
fn spreading(pair: &Pair<'_>, side: Side, at: &At<'_>, bore: &Bore) -> Found<Pressure> {
    let gear = pair.gear(side);
    let held = match at.try_part(&gear.hub).filter(|_| bore.insert) {
        Some(insert) => at.try_part(&insert.held_by),
        None => at.try_part(&gear.held_by),
    };
    let Some(hexagon) = held.filter(|held| held.by == ShaftJointKind::Hex) else { return Ok(Pressure::ZERO) };
    let torque = if side == Side::Pinion { bore.load.pinion } else { bore.load.wheel };
    let across = at.need(&hexagon.across_flats)?;
    Ok(joint::hex_spreading(torque * bore.shock.si(), across, bore.length, bore.outside))
}

fn creeps(pair: &Pair<'_>, side: Side, at: &At<'_>) -> Found<Outcome> {
    if at.case()?.kind.brief() {
        return Ok(Outcome::Aside("a blow is too short to creep under"));
    }
    if at.case()?.kind.recorded() {
        return Ok(Outcome::Aside("the hardest pull of a recorded run did not stay; the steady cases are judged"));
    }
    let bore = match hole(pair, side, at)? {
        Hole::Plastic(bore) => bore,
        Hole::None(why) => return Ok(Outcome::Aside(why)),
    };
    let lasting = at.need(&at.assumed().lasting_share)?;
    let (pressure, stands) = (bore.pressure(), crushing(pair, side, at, &bore)? * lasting);
    let required = Required { value: 1.5, why: "plastic under a load that stays" };
    let margin = bore.margin(pressure, stands, required);
    Ok(Outcome::Held(says::creeps(pair, side, at, &bore, (pressure, stands), margin)))
}
