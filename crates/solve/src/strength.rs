//! Strength of a material as the part is made, as warm and as wet as it is. What cold and notches do to brittle ones is left out.

use crate::at::At;
use machine::{
    Build, Curve, Family, Found, Given, Laid, Making, Material, Maybe, MoistureState, Named, NodeId, NotJudged, Scale,
    StateFactors,
};
use quantity::*;

#[cfg(test)]
mod tests;

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

/// Strength over that at 23 °C. Hotter than its table it is taken as that table's last value, which it can only fall short of,
/// and the reading notes so; where the material has gone soft by then, nothing is left.
///
/// # Errors
/// No table, a temperature colder than it, or a hotter one where strength does not fall.
pub fn warmth(at: &At, material: &Material, here: ThermodynamicTemperature) -> Found<Ratio> {
    let own = annealed(at, material).map(|annealed| &annealed.strength_at).filter(|table| table.there().is_some());
    let table = own.unwrap_or(&material.strength_at);
    match at.try_part(table) {
        Some(curve) => match at.at(curve, here, Scale::Linear, "strength of the material") {
            Err(gap) => beyond(at, material, table, here).unwrap_or(Err(gap)),
            known => known,
        },
        None if alike(here, celsius(REFERENCE)) => Ok(Ratio::from_si(1.0)),
        None => Err(at.part(table).err().unwrap_or_else(|| unknown("strength"))),
    }
}

fn unknown(what: &str) -> NotJudged {
    NotJudged::NoSolution(format!("the {what} at that temperature is not known"))
}

/// At the hot end of a table; none where that is not the trouble.
fn beyond(
    at: &At,
    material: &Material,
    table: &Maybe<Curve<m::Temperature, m::Factor>>,
    here: ThermodynamicTemperature,
) -> Option<Found<Ratio>> {
    let points = at.try_part(table)?.points();
    let (hottest, last) = points.last()?;
    let (hottest, last) = (at.try_get(hottest)?, at.try_get(last)?);
    let before = points.iter().rev().nth(1).and_then(|before| at.try_get(&before.1));
    if here <= hottest || before.is_some_and(|before| last > before) {
        return None;
    }
    if softens(at, material).is_some_and(|(softens, _)| here >= softens) {
        return Some(Ok(Ratio::from_si(0.0)));
    }
    at.at_most(table.id());
    Some(Ok(last))
}

/// Where it goes soft, as annealed as it is, and the figure that says so: a metal melts, rubber has no such temperature; all others
/// bend under a modest load, or for want of that figure turn from glass to rubber, or else are no longer fit for service.
pub fn softens(at: &At, material: &Material) -> Option<(ThermodynamicTemperature, NodeId)> {
    let said = |figure: &Given<m::Temperature>| at.try_get(figure).map(|at| (at, figure.id()));
    match material.family {
        Family::Metal => return said(&material.melts_at),
        Family::Elastomer | Family::Wood => return None,
        Family::PrintedPolymer | Family::Polymer | Family::FibreComposite => {}
    }
    let annealed = annealed(at, material);
    let glass = said(&material.glass_transition).filter(|glass| glass.0 > celsius(REFERENCE));
    annealed
        .and_then(|annealed| said(&annealed.heat_deflection))
        .or_else(|| said(&material.heat_deflection))
        .or(glass)
        .or_else(|| said(&material.service_temperature_max))
}

/// Up to which temperature it may work for long, as annealed as it is, and the figure that says so.
///
/// # Errors
/// A gap.
pub fn service_limit(at: &At, material: &Material) -> Found<(ThermodynamicTemperature, NodeId)> {
    let own = annealed(at, material).map(|annealed| &annealed.service_temperature_max);
    let own = own.filter(|limit| at.try_get(limit).is_some()).unwrap_or(&material.service_temperature_max);
    Ok((at.need(own)?, own.id()))
}

/// What annealing has changed, where the part was annealed.
fn annealed<'a>(at: &At, material: &'a Material) -> Option<&'a StateFactors> {
    at.try_part(&material.when_annealed).filter(|_| material.annealed == Some(true))
}

/// For the words of a finding: that the material has gone soft, where it has.
pub fn gone_soft(at: &At, material: &Named<Material>, here: ThermodynamicTemperature) -> Option<String> {
    let (softens, _) = softens(at, material)?;
    let nothing_left = warmth(at, material, here).is_ok_and(|left| left.si() == 0.0);
    let told = |of: ThermodynamicTemperature| show(of.si(), <m::Temperature as Measure>::KIND, None);
    nothing_left.then(|| {
        format!(
            "At {} {} is soft, as it is from {} on: nothing of its strength counts.",
            told(here),
            material.name(),
            told(softens)
        )
    })
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
    let annealed = annealed(at, material).map_or(Ok(Ratio::from_si(1.0)), of)?;
    Ok(damp * annealed)
}

/// Young's modulus, as warm and as wet as it is.
///
/// # Errors
/// A gap, or a temperature beyond the material's table.
pub fn modulus(at: &At, material: &Material, here: ThermodynamicTemperature) -> Found<Pressure> {
    let own = annealed(at, material).map(|annealed| &annealed.modulus_at).filter(|table| table.there().is_some());
    let table = own.unwrap_or(&material.modulus_at);
    let stiffer = match at.try_part(table) {
        Some(curve) => at.at(curve, here, Scale::Linear, "stiffness of the material")?,
        None if alike(here, celsius(REFERENCE)) => Ratio::from_si(1.0),
        None => return Err(at.part(table).err().unwrap_or_else(|| unknown("stiffness"))),
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

/// The weakest coupon of the track's material, torn in that direction, brought to the temperature of the case, and where it was torn.
///
/// # Errors
/// A coupon without its figures, or as [`warmth`].
pub fn weakest_coupon(
    at: &At,
    material: &Material,
    direction: Direction,
    here: ThermodynamicTemperature,
) -> Found<Option<(Pressure, ThermodynamicTemperature)>> {
    let mut lowest: Option<(Pressure, ThermodynamicTemperature)> = None;
    for coupon in &at.machine().powertrain.track.evidence.coupons {
        if coupon.across_layers != (direction == Direction::Across) {
            continue;
        }
        let torn_at = at.need(&coupon.temperature)?;
        let strength = at.need(&coupon.strength)? * carried(at, material, torn_at, here)?;
        if lowest.is_none_or(|(weakest, _)| strength < weakest) {
            lowest = Some((strength, torn_at));
        }
    }
    Ok(lowest)
}
