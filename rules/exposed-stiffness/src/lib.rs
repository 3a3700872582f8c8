#![no_std]
//! Parts that stick out, when the machine lies down on them or runs into something. It never knows: loads of driving and landing,
//! other rules.

use loads::Member;
use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "exposed-stiffness",
    area: Area::Structure,
    question: "Does each part that sticks out take up a blow, or bend out of its way?",
    explains: "A hard mast, handlebar or finger snaps when the machine rolls over; a limp one lies down and stands up again. What \
               counts is the energy that it takes up before it breaks, or how far it bends before its skin tears, as cold as it is. \
               Thicker is often worse.",
    formula: "energy of the blow ½·m·v² or m·g·(√(z² + b²) − b), against σ²/(2·E)·V/3·(k/c)²; or the strain of lying flat, π·c/L, \
              against the elongation that the cold leaves (impact at T over that at 23 °C), across layers σ/E; the better of both \
              counts",
    source: "Timoshenko, Strength of Materials (strain energy), published; the curvature of a part that lies down, worked out here; \
             toughness for elongation in the cold: common practice, no source",
    checked: "energy as the work of the force; curvature by steps; a falling machine by its limits. The whole energy is put into \
              this one part, which errs to the safe side; its own mass and a sharp edge are left out, which does not.",
    required: "1.5 (common practice)",
    caution: "Broken rods of carbon are sharp and splinter: wear gloves, and cap their ends.",
};

#[derive(Debug)]
pub struct ExposedStiffness;

impl Rule for ExposedStiffness {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for part in machine.structure.parts.iter().filter(|part| part.value.exposed == Some(true)) {
            let mut on = checks.on(&part.key);
            on.check("blow", |at| blow(part, at));
        }
    }
}

/// Energy and strain, each against what the part has.
#[derive(Debug, Clone, Copy)]
struct Taken {
    energy: Energy,
    takes_up: Energy,
    strain: Ratio,
    stretches: Ratio,
}

impl Taken {
    fn by_energy(&self) -> f64 {
        self.takes_up.si() / self.energy.si()
    }
    fn by_strain(&self) -> f64 {
        self.stretches.si() / self.strain.si()
    }
}

fn blow(part: &Named<Part>, at: &At<'_>) -> Found<Outcome> {
    let case = at.case()?;
    if !case.kind.tips_over() && !case.kind.stops_dead() {
        return Ok(Outcome::Aside("nothing hits it in this case"));
    }
    if case.kind.stops_dead() && part.value.pushed.iter().any(|push| push.value.from == PushSource::Stopped) {
        return Ok(Outcome::Aside("the force of the stop on it is judged by itself"));
    }
    let named = at.part_or(&case.first_contact, "this part");
    if named.is_some_and(|thing| at.machine().thing(thing).id() != part.id()) {
        return Ok(Outcome::Aside("another part meets the ground first"));
    }
    let energy = if case.kind.tips_over() {
        falls_over(at)?
    } else {
        let (mass, speed) = (at.need(&at.machine().machine.mass)?, at.need(&case.speed)?);
        Energy::from_si(0.5 * mass.si() * speed.si() * speed.si())
    };
    let member = loads::member(at, part)?;
    let taken = taken(part, at, &member, energy)?;
    let required = Required { value: 1.5, why: "no two falls are alike" };
    let consequence = if part.value.consumable == Some(true) { Consequence::CheapPart } else { Consequence::RunOver };
    let margin = if taken.by_strain() >= taken.by_energy() {
        Margin::ratio::<m::Growth>(taken.strain, taken.stretches, required, consequence)
    } else {
        Margin::ratio::<m::Energy>(taken.energy, taken.takes_up, required, consequence)
    };
    Ok(Outcome::Held(says::blow(part, at, &member, &taken, margin)))
}

/// Half of what it stands on is taken as wide as its centre of gravity is high where nobody says it: it falls over rather easily.
fn falls_over(at: &At<'_>) -> Found<Energy> {
    let about = &at.machine().machine;
    let (mass, height) = (at.need(&about.mass)?, at.need(&about.centre_of_gravity.z)?);
    Ok(physics::impact::falls_over(mass, height, height))
}

fn taken(part: &Named<Part>, at: &At<'_>, member: &Member<'_>, energy: Energy) -> Found<Taken> {
    let material = member.material;
    let proof = loads::proof(at, part, member)?;
    let limit = proof.limit(member.limit);
    let modulus = member.section.modulus();
    let (width, height) = member.outline.size();
    let round = width == height && !matches!(part.value.section.there(), Some(Section::Rectangle(_) | Section::Box(_)));
    let slimness = if round { 0.5 } else { physics::section::RECTANGLE_SLIMNESS };
    let volume = Volume::from_si(member.section.stretching.si() / modulus.si() * member.length.si());
    let takes_up = physics::impact::bending_energy(limit, modulus, volume, Ratio::from_si(slimness));
    let thin = if width < height { width } else { height };
    let strain = physics::impact::bent_over(thin / 2.0, member.length);
    // What is held at both ends cannot lie down.
    let lies_down = part.value.supports == Some(Supports::Cantilever);
    let stretches = if lies_down { stretches(at, member, limit, material)? } else { Ratio::from_si(0.0) };
    Ok(Taken { energy, takes_up, strain, stretches })
}

/// By which share its skin stretches before it tears or stays bent.
fn stretches(at: &At<'_>, member: &Member<'_>, limit: Pressure, material: &Material) -> Found<Ratio> {
    let elastic = Ratio::from_si(limit.si() / member.section.modulus().si());
    if material.family == Family::Metal || member.grain.way == strength::Direction::Across {
        return Ok(elastic);
    }
    let warm = at.need(&material.elongation_at_break)?;
    let left = match at.try_part(&material.impact_at) {
        Some(curve) => at.at(curve, member.here, Scale::Linear, "toughness of the material")?.si(),
        None => 1.0,
    };
    Ok(warm * if left < 1.0 { left } else { 1.0 })
}
