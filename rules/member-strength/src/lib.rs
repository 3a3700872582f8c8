#![no_std]
//! Long parts against what bends, presses and twists them. It never knows: layers of a print, blows that are taken up by bending,
//! other rules.

use loads::{Loaded, Member};
use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "member-strength",
    area: Area::Structure,
    question: "Does each long part carry what pushes on it in every case?",
    explains: "A tail snaps at its clamp, a rail at its middle, a bumper where it is held, a pin bends. A part breaks where its \
               moment is highest, and earlier at a sharp corner; a rod that only slides in its hole helps little.",
    formula: "N, V, M and T of a beam on all that holds it; σ = N/A + M/W, sections of shell, core and rods each by its own E; \
              buckling by Euler and Johnson between the outermost holds; limit: yield of metals, ultimate strength of all else, as \
              warm, wet and laid as it is, or what the part itself held and what broke it. Forces come from `from:` in each case",
    source: "Timoshenko, Strength of Materials; Shigley, ch. 3 and 4; Przemieniecki, published; infill by its share, required \
             reserves: common practice, no source",
    checked: "beams by two independent solvers, sections by strips and by a mesh, closed forms of the handbook. Both planes and the \
              twist are added at their highest, wherever they stand, which errs to the safe side; sway of the frame, dents and \
              fatigue are left out, which does not.",
    required: "1.5; in a blow 2 printed, 1.5 composite, 1.2 metal on yield; 3 where the cold makes it brittle (common practice)",
    caution: "A part that snaps on a loaded machine throws pieces: keep clear of it while you test.",
};

#[derive(Debug)]
pub struct MemberStrength;

impl Rule for MemberStrength {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for part in machine.structure.parts.iter().filter(|part| carries(machine, part)) {
            let mut on = checks.on(&part.key);
            on.check("bending", |at| bending(part, at));
            on.check("rods", |at| rods(part, at));
            on.check("buckling", |at| buckling(part, at));
            on.check("twist", |at| twist(part, at));
        }
    }
}

/// A long part: something says what it is to carry, or how long it is free. One that only sticks out carries nothing.
fn carries(machine: &Machine, part: &Part) -> bool {
    let long = part.section.there().is_some() && machine.is_given(&part.span) && part.exposed != Some(true);
    !part.pushed.is_empty() || !part.loads.is_empty() || long
}

const UNTOLD: &str = "what pushes on it is not said: name it under `pushed`, with `from:` a corner of the suspension, \
                      track_tension, payload, stopped or a force";

/// The part and its load; in words where the case does not load it.
fn loaded<'a>(part: &'a Named<Part>, at: &At<'a>) -> Found<Result<(Member<'a>, Loaded), Outcome>> {
    if part.value.pushed.is_empty() {
        let case = at.case()?;
        let named = |load: &String| load == case.name() || load == "track_tension";
        if !part.value.loads.is_empty() && !part.value.loads.iter().any(named) {
            return Ok(Err(Outcome::Aside("it is not loaded in this case")));
        }
        return Err(NotJudged::NoSolution(UNTOLD.into()));
    }
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

fn blow(at: &At<'_>) -> Found<bool> {
    Ok(at.case()?.kind.strikes())
}

/// Share of its toughness at 23 °C that leaves a material brittle.
const BRITTLE: f64 = 0.5;

fn brittle(member: &Member<'_>, at: &At<'_>) -> Found<bool> {
    match at.try_part(&member.material.impact_at) {
        Some(curve) => Ok(at.at(curve, member.here, Scale::Linear, "toughness of the material")?.si() < BRITTLE),
        None => Ok(false),
    }
}

fn required(member: &Member<'_>, at: &At<'_>) -> Found<Required> {
    if member.material.family != Family::Metal && brittle(member, at)? {
        return Ok(Required { value: 3.0, why: "the cold makes it brittle" });
    }
    Ok(match (blow(at)?, member.material.family) {
        (false, _) => Required { value: 1.5, why: "a load that comes and stays" },
        (true, Family::Metal) => Required { value: 1.2, why: "a blow, against yield" },
        (true, Family::FibreComposite) => Required { value: 1.5, why: "a blow, against breaking" },
        (true, _) => Required { value: 2.0, why: "a blow, against breaking of a plastic" },
    })
}

/// Whether it is said how the part lay on the bed.
fn laid(part: &Part, at: &At<'_>) -> bool {
    let said = |build: &Maybe<Build>| at.try_part(build).and_then(|build| at.try_part(&build.laid)).is_some();
    said(&part.build) || said(&at.machine().structure.printing)
}

fn bending(part: &Named<Part>, at: &At<'_>) -> Found<Outcome> {
    let (member, load) = match loaded(part, at)? {
        Ok(both) => both,
        Err(aside) => return Ok(aside),
    };
    // Where nobody says how it lay it is taken as standing, which then shows here as assumed.
    if member.grain.way == strength::Direction::Across && laid(&part.value, at) {
        return Ok(Outcome::Aside("it is pulled across its layers, which are judged by themselves"));
    }
    let proof = loads::proof(at, part, &member)?;
    let limit = proof.limit(member.limit);
    let required = required(&member, at)?;
    let stress = if member.material.family == Family::Metal {
        physics::beam::von_mises(load.stresses.body, load.stresses.shear)
    } else {
        load.stresses.body
    };
    let margin = Margin::ratio::<m::Stress>(stress, limit, required, consequence(part));
    Ok(Outcome::Held(says::bending(part, at, &member, &load, &proof, margin)))
}

const ONCE: Outcome = Outcome::Aside("what pushes on it is not said");

fn rods(part: &Named<Part>, at: &At<'_>) -> Found<Outcome> {
    if part.value.pushed.is_empty() {
        return Ok(ONCE);
    }
    if at.try_part(&part.value.rods).is_none() {
        return Ok(Outcome::Aside("it has no rods in it"));
    }
    let (member, load) = match loaded(part, at)? {
        Ok(both) => both,
        Err(aside) => return Ok(aside),
    };
    let (Some(stress), Some(material)) = (load.stresses.rod, member.rods) else {
        return Ok(Outcome::Aside("it has no rods in it"));
    };
    let pulled = strength::ultimate(at, material, member.here, strength::Direction::Along)?;
    let pressed = at.or(&material.compressive_strength, &material.tensile_strength)?
        * strength::warmth(at, material, member.here)?
        * strength::damp(at, material)?;
    let limit = if pressed < pulled { pressed } else { pulled };
    let required = Required { value: 1.5, why: "rods of fibre give no warning" };
    let margin = Margin::ratio::<m::Stress>(stress, limit, required, consequence(part));
    Ok(Outcome::Held(says::rods(part, at, &load, margin)))
}

fn buckling(part: &Named<Part>, at: &At<'_>) -> Found<Outcome> {
    if part.value.pushed.is_empty() {
        return Ok(ONCE);
    }
    let along = |push: &Named<Push>| at.try_part(&push.value.direction) == Some(&PushDirection::Along);
    if !part.value.pushed.iter().any(along) {
        return Ok(Outcome::Aside("nothing presses it together along its axis"));
    }
    let (member, load) = match loaded(part, at)? {
        Ok(both) => both,
        Err(aside) => return Ok(aside),
    };
    if load.along == Force::ZERO {
        return Ok(Outcome::Aside("nothing presses it together along its axis"));
    }
    let required = Required { value: 2.0, why: "struts are never quite straight" };
    let margin = Margin::ratio::<m::Force>(load.along, member.buckles_at(), required, consequence(part));
    Ok(Outcome::Held(says::buckling(part, at, &member, margin)))
}

fn twist(part: &Named<Part>, at: &At<'_>) -> Found<Outcome> {
    if part.value.pushed.is_empty() {
        return Ok(ONCE);
    }
    let beside = |push: &Named<Push>| at.try_get(&push.value.lever).is_some_and(|lever| lever > Length::ZERO);
    if !part.value.pushed.iter().any(beside) {
        return Ok(Outcome::Aside("nothing twists it"));
    }
    let (member, load) = match loaded(part, at)? {
        Ok(both) => both,
        Err(aside) => return Ok(aside),
    };
    if load.twist == Torque::ZERO {
        return Ok(Outcome::Aside("nothing twists it"));
    }
    let fresh = at.need(&member.material.shear_strength)?;
    let limit = fresh * strength::warmth(at, member.material, member.here)? * strength::damp(at, member.material)?;
    let required = Required { value: if blow(at)? { 2.0 } else { 1.5 }, why: "a load beside its axis" };
    let margin = Margin::ratio::<m::Stress>(load.stresses.shear, limit, required, consequence(part));
    Ok(Outcome::Held(says::twist(part, at, &load, margin)))
}
