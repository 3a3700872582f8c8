#![no_std]
//! Hoses in their tightest bend, and in the cold. It never knows: what flows through a hose, its clamps and pressures,
//! other rules.

use physics::bend;
use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "hose-bend",
    area: Area::Cooling,
    question: "Does each hose stay open in its tightest bend, and soft enough in the cold?",
    explains: "A bent hose flattens, and from a certain radius on it folds by itself: the flow is gone, mostly after the lid was \
               closed over it. In the cold rubber gets as stiff as plastic: it no longer fills the barb under its clamp, weeps, \
               and cracks where something moves it.",
    formula: "tightest bend ≥ required × kink radius 3/√2·r²/t·√(1 − ν²), or the label's radius, or one that was tried; \
              stiffness in the cold ≤ 10 × that at 23 °C / required; coldest air − brittle point ≥ required",
    source: "Kink: Brazier 1927 and Calladine, Theory of Shell Structures, ch. 16; published. Ten times the stiffness as the end of \
             use is the T10 point of ISO 1432 and ASTM D1053, brittle point ISO 812: published as tests, as limits common \
             practice. Reserves: common practice, no source.",
    checked: "kink by trying out the least energy of a flattened ring; a maker's table of PTFE hose lies at 2 to 3 times the \
              formula, for a stiff plastic yields: such hoses are judged by label or trial only. A thick wall kinks later \
              than the formula says, which is the safe side. Vacuum inside, warmth that softens a thermoplastic, and a bend \
              that has set elsewhere over the years are left out on the other side: the reserve of 1.3 has to cover them.",
    required: "kink 1.3 worked out, 1 by label or trial; stiffness 1.5; brittle point 10 K where it moves, 5 K where not, 3 K \
               tried (common practice)",
    caution: "A kinked return line puts the pump's full pressure on everything before it: look for kinks before you look for leaks.",
};

#[derive(Debug)]
pub struct HoseBend;

impl Rule for HoseBend {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for hose in &machine.cooling.hoses {
            let mut on = checks.on(&hose.key);
            on.check("kink", |at| kink(at, hose));
            on.check("stiffness in the cold", |at| stiffness(at, hose));
            on.check("cracks in the cold", |at| cracks(at, hose));
        }
    }
}

const INDOORS: Outcome = Outcome::Aside("stands in a room in this case");

/// Stiffer than at 23 °C by this much, rubber does no longer what it is there for.
const STIFF: f64 = 10.0;

fn indoors(at: &At) -> Found<bool> {
    Ok(at.case()?.kind.indoors())
}

fn material<'a>(at: &At<'a>, hose: &Hose) -> Found<&'a Named<Material>> {
    Ok(at.machine().follow(at.part(&hose.material)?))
}

/// The radius at which it kinks or may kink, and what is wanted on top.
fn kinks(at: &At, hose: &Hose) -> Found<(Length, Required)> {
    if let Some(tried) = at.try_part(&hose.bent) {
        return Ok((at.need(&tried.radius)?, Required { value: 1.0, why: "it was bent so far" }));
    }
    if let Some(allowed) = at.try_get(&hose.bend_radius_min) {
        return Ok((allowed, Required { value: 1.0, why: "its maker allows so much" }));
    }
    let material = material(at, hose)?;
    if material.family != Family::Elastomer {
        // A stiff plastic yields and creases long before.
        return at.need(&hose.bend_radius_min).map(|allowed| (allowed, Required { value: 1.0, why: "" }));
    }
    let poisson = at.need(&material.poisson)?;
    let radius = bend::kink_radius(at.need(&hose.bore)?, at.need(&hose.wall)?, poisson);
    Ok((radius.map_err(refused)?, Required { value: 1.3, why: "worked out, not tried" }))
}

fn kink(at: &At, hose: &Hose) -> Found<Outcome> {
    let bent = at.need(&hose.tightest_bend)?;
    let (radius, required) = kinks(at, hose)?;
    let margin = Margin::ratio::<m::Length>(radius, bent, required, Consequence::RunOver);
    Ok(Outcome::Held(says::kink(at, hose, margin)))
}

fn stiffness(at: &At, hose: &Hose) -> Found<Outcome> {
    if indoors(at)? {
        return Ok(INDOORS);
    }
    let material = material(at, hose)?;
    let air = at.surroundings()?.outside;
    let stiffer = at.at(at.part(&material.modulus_at)?, air, Scale::Log, "stiffness of the hose's material")?;
    let required = Required { value: 1.5, why: "compounds differ" };
    let limit = Ratio::from_si(STIFF);
    let margin = Margin::ratio::<m::Factor>(stiffer, limit, required, Consequence::RunOver);
    Ok(Outcome::Held(says::stiffness(hose, at, margin)))
}

/// The coldest at which it is known not to crack, and what is wanted on top.
fn holds_to(at: &At, hose: &Hose) -> Found<(ThermodynamicTemperature, Required)> {
    if let Some(tried) = at.try_part(&hose.bent)
        && at.need(&tried.radius)? <= at.need(&hose.tightest_bend)?
    {
        return Ok((at.need(&tried.temperature)?, Required { value: 3.0, why: "it was bent so in the cold" }));
    }
    let required = if at.or_word(&hose.moves, true, "yes") {
        Required { value: 10.0, why: "it moves" }
    } else {
        Required { value: 5.0, why: "it lies still" }
    };
    Ok((at.need(&material(at, hose)?.brittle_at)?, required))
}

fn cracks(at: &At, hose: &Hose) -> Found<Outcome> {
    if indoors(at)? {
        return Ok(INDOORS);
    }
    let air = at.surroundings()?.outside;
    let (holds, required) = holds_to(at, hose)?;
    let yardstick = TemperatureInterval::from_si(20.0);
    let margin =
        Margin::gap::<m::Temperature, m::TemperatureDifference>(holds, air, yardstick, required, Consequence::RunOver);
    Ok(Outcome::Held(says::cracks(hose, at, margin)))
}

fn refused(outside: physics::range::OutsideRange) -> NotJudged {
    let physics::range::OutsideRange { of, unit, from, to, was } = outside;
    NotJudged::OutsideRange { of: of.into(), unit, from, to, was }
}
