#![no_std]
//! Parts of plastic that get warm: when they soften under their load. It never knows: how strong they are cold, gears and bushes,
//! other rules.

use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "softening",
    area: Area::Structure,
    question: "Does each plastic part stay stiff where it is warm?",
    explains: "A part in the box or in the sun gives way slowly and stays bent; its screws come loose. Heat-resistant \
               PLA that was not annealed softens like any PLA.",
    formula: "temperature of its air, and q/h more in the sun (a bar a third of that), against the heat deflection temperature (annealed \
              only if it was), else the glass transition; of what is limp in a warm room its highest temperature of use",
    source: "ISO 75-2 (heat deflection) and ISO 11357-2 (glass transition), published; sun on a dark face, required gap: common \
             practice, no source",
    checked: "the air of a part by its zone; the sun by the balance of heat. Sun is taken up in full by a dark face with nothing \
              to cool it from behind, which errs to the safe side; heat that neighbours conduct into it is left out here.",
    required: "20 K loaded, 10 K else (common practice)",
    caution: "",
};

#[derive(Debug)]
pub struct Softening;

impl Rule for Softening {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        // Nothing is warm where nothing happens.
        let parts = machine.structure.parts.iter().filter(|_| !machine.cases.is_empty());
        for part in parts {
            let mut on = checks.on(&part.key);
            on.check("softens", |at| softens(part, at));
        }
    }
}

/// Width over the way round of a round bar, 1/π.
const ROUND_BAR: f64 = core::f64::consts::FRAC_1_PI;

/// What makes it warm.
#[derive(Debug, Clone, Copy)]
struct Warm {
    here: ThermodynamicTemperature,
    by: &'static str,
}

fn softens(part: &Named<Part>, at: &At<'_>) -> Found<Outcome> {
    let material: &Material = at.machine().follow(at.part(&part.value.material)?);
    if !matches!(material.family, Family::PrintedPolymer | Family::Polymer) {
        return Ok(Outcome::Aside("it is not of plastic"));
    }
    if !at.case()?.kind.lasts() {
        return Ok(Outcome::Aside("this case is too short to soften anything"));
    }
    let mount = at.try_part(&at.machine().powertrain.motor.mount);
    let carries_motor = mount.is_some_and(|mount| at.machine().follow(&mount.part).id() == part.id());
    if carries_motor || !part.value.next_to.is_empty() {
        return Ok(Outcome::Aside("what stands beside a source of heat is judged with the heat that follows a stop"));
    }
    let warm = warm(part, at)?;
    let limit = limit(material, at)?;
    let loaded = !part.value.pushed.is_empty() || !part.value.loads.is_empty();
    let required = if loaded {
        Required { value: 20.0, why: "it carries something" }
    } else {
        Required { value: 10.0, why: "it holds its own shape" }
    };
    let margin = Margin::gap::<m::Temperature, m::TemperatureDifference>(
        warm.here,
        limit,
        TemperatureInterval::from_si(20.0),
        required,
        if loaded { Consequence::Stranded } else { Consequence::CheapPart },
    );
    Ok(Outcome::Held(says::softens(part, at, material, &warm, margin)))
}

/// A warm room, °C.
const ROOM: f64 = 23.0;

fn limit(material: &Material, at: &At<'_>) -> Found<ThermodynamicTemperature> {
    if let Some(factors) = at.try_part(&material.when_annealed).filter(|_| material.annealed == Some(true))
        && let Some(annealed) = at.try_get(&factors.heat_deflection)
    {
        return Ok(annealed);
    }
    if let Some(deflection) = at.try_get(&material.heat_deflection) {
        return Ok(deflection);
    }
    // What is limp in a warm room is meant to be: it has no more to lose until it is damaged.
    match at.try_get(&material.glass_transition).filter(|glass| *glass < celsius(ROOM)) {
        Some(_) => at.or(&material.heat_deflection, &material.service_temperature_max),
        None => at.or(&material.heat_deflection, &material.glass_transition),
    }
}

fn warm(part: &Named<Part>, at: &At<'_>) -> Found<Warm> {
    let index = at.machine().structure.parts.iter().position(|other| other.id() == part.id());
    let air = match index.and_then(|index| at.temperatures().map(|all| all.parts.get(index)).transpose()) {
        Some(air) => air?.clone()?,
        None => return Err(NotJudged::NoSolution("the temperature of this part is not worked out".into())),
    };
    let mut warm = Warm { here: air, by: "the air round it" };
    if part.value.exposed == Some(true) && at.try_part(&part.value.zone).is_none() {
        let sun = at.or_take(&at.machine().environment.sun, HeatFlux::from_si(0.0), "no sun");
        let to_air = at.need(&at.assumed().plate_to_air)?;
        // A bar has its heat taken off all round, of which the sun sees only its width.
        let lit = if part.value.section.there().is_some() { ROUND_BAR } else { 1.0 };
        let here = air + physics::heat::sunlit(sun * lit, to_air);
        if here > warm.here {
            warm = Warm { here, by: "the sun on it" };
        }
    }
    Ok(warm)
}
