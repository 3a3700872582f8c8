//! Strength of a material as the part is made, as warm and as wet as it is. What cold and notches do to brittle ones is left out.

use crate::at::At;
use machine::{Build, Family, Found, Laid, Making, Material, Maybe, MoistureState, NotJudged, Scale, StateFactors};
use quantity::*;

/// Along the layers of a print, or straight across them; alike in what is not printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Direction {
    Along,
    Across,
}

/// Temperature at which the figures of a material stand.
const REFERENCE: f64 = 23.0;
/// Nearer than this two temperatures need no table between them.
const ALIKE: f64 = 0.5;

/// Ultimate strength.
///
/// # Errors
/// A gap, or a temperature beyond the material's table.
pub fn ultimate(at: &At, material: &Material, here: ThermodynamicTemperature, way: Direction) -> Found<Pressure> {
    let figure = match way {
        Direction::Along => &material.tensile_strength,
        Direction::Across => &material.between_layer_strength,
    };
    Ok(at.need(figure)? * warmth(at, material, here)? * damp(at, material)?)
}

/// Strength over that at 23 °C.
///
/// # Errors
/// No table, or a temperature beyond it.
pub fn warmth(at: &At, material: &Material, here: ThermodynamicTemperature) -> Found<Ratio> {
    match at.try_part(&material.strength_at) {
        Some(curve) => at.at(curve, here, Scale::Linear, "strength of the material"),
        None if alike(here, celsius(REFERENCE)) => Ok(Ratio::from_si(1.0)),
        None => Err(at.part(&material.strength_at).err().unwrap_or_else(|| unknown("strength"))),
    }
}

fn unknown(what: &str) -> NotJudged {
    NotJudged::NoSolution(format!("the {what} at that temperature is not known"))
}

/// What water and annealing change.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Changed {
    Strength,
    Modulus,
}

/// Strength over that of the dry, unannealed material.
///
/// # Errors
/// A gap.
pub fn damp(at: &At, material: &Material) -> Found<Ratio> {
    state(at, material, Changed::Strength)
}

fn state(at: &At, material: &Material, changed: Changed) -> Found<Ratio> {
    let of = |factors: &StateFactors| match changed {
        Changed::Strength => at.need(&factors.strength),
        Changed::Modulus => at.need(&factors.modulus),
    };
    let damp = match moisture(at, material) {
        MoistureState::Conditioned => of(at.part(&material.when_conditioned)?)?,
        MoistureState::Wet => of(at.part(&material.when_wet)?)?,
        MoistureState::Dry => Ratio::from_si(1.0),
    };
    let annealed = match at.try_part(&material.when_annealed).filter(|_| material.annealed == Some(true)) {
        Some(factors) => of(factors)?,
        None => Ratio::from_si(1.0),
    };
    Ok(damp * annealed)
}

/// Young's modulus, as warm and as wet as it is.
///
/// # Errors
/// A gap, or a temperature beyond the material's table.
pub fn modulus(at: &At, material: &Material, here: ThermodynamicTemperature) -> Found<Pressure> {
    let stiffer = match at.try_part(&material.modulus_at) {
        Some(curve) => at.at(curve, here, Scale::Linear, "stiffness of the material")?,
        None if alike(here, celsius(REFERENCE)) => Ratio::from_si(1.0),
        None => return Err(at.part(&material.modulus_at).err().unwrap_or_else(|| unknown("stiffness"))),
    };
    Ok(at.need(&material.modulus)? * stiffer * state(at, material, Changed::Modulus)?)
}

/// Strength at one temperature over that at another.
///
/// # Errors
/// As [`warmth`].
pub fn carried(
    at: &At,
    material: &Material,
    from: ThermodynamicTemperature,
    to: ThermodynamicTemperature,
) -> Found<Ratio> {
    if alike(from, to) {
        return Ok(Ratio::from_si(1.0));
    }
    Ok(warmth(at, material, to)? / warmth(at, material, from)?)
}

fn alike(one: ThermodynamicTemperature, other: ThermodynamicTemperature) -> bool {
    difference(one, other).si().abs() <= ALIKE
}

/// How wet a material is: what drinks water at all has taken some out of the air, unless it is said.
pub fn moisture(at: &At, material: &Material) -> MoistureState {
    match at.try_part(&material.moisture) {
        Some(state) => *state,
        None if material.when_conditioned.there().is_some() => {
            at.or_word(&material.moisture, MoistureState::Conditioned, "conditioned")
        }
        None => MoistureState::Dry,
    }
}

/// Length gained by water since the part was made dry, as a share.
///
/// # Errors
/// A gap.
pub fn swelling(at: &At, material: &Material) -> Found<Ratio> {
    if hard(material) {
        return Ok(Ratio::from_si(0.0));
    }
    let taken = match moisture(at, material) {
        MoistureState::Dry => return Ok(Ratio::from_si(0.0)),
        MoistureState::Conditioned => at.need(&at.assumed().conditioned_swelling)?,
        MoistureState::Wet => Ratio::from_si(1.0),
    };
    Ok(at.need(&material.moisture_swelling)? * taken)
}

/// Neither creeps nor melts.
#[must_use]
pub fn hard(material: &Material) -> bool {
    matches!(material.family, Family::Metal)
}

/// How a part is made; by its material where it does not say.
pub fn making(at: &At, build: &Maybe<Build>, material: &Material) -> Option<Making> {
    let own = at.try_part(build).and_then(|build| at.try_part(&build.by)).copied();
    own.or((material.family == Family::PrintedPolymer).then_some(Making::Printed))
}

/// How a print lay on the bed; what is not said is taken as `worst`.
///
/// # Errors
/// There is nothing to say it of.
pub fn laid(at: &At, build: &Maybe<Build>, worst: Laid, called: &'static str) -> Found<Laid> {
    if let Some(laid) = at.try_part(build).and_then(|build| at.try_part(&build.laid)) {
        return Ok(*laid);
    }
    match (at.try_part(&at.machine().structure.printing), at.try_part(build)) {
        (Some(shared), _) => Ok(at.or_word(&shared.laid, worst, called)),
        (None, Some(own)) => Ok(at.or_word(&own.laid, worst, called)),
        (None, None) => Ok(*at.part(&at.part(build)?.laid)?),
    }
}
