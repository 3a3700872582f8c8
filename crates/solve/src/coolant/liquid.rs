//! What becomes of the machine's own coolant in cold and heat: slush, ice, vapour, and syrup that the pump hardly moves.
//!
//! Kept nowhere: each takes microseconds.

use super::elements::{Loop, Strained};
use super::flow::SETTLED;
use super::properties::Liquid;
use crate::at::At;
use crate::drive::outside;
use machine::{Coolant, Found, NotJudged, Tabulated};
use physics::coolant::Glycol;
use physics::{boiling, freezing};
use quantity::*;

/// Pressure at which boiling points are printed.
const SEA_LEVEL: f64 = 101_325.0;

fn filled<'a>(at: &At<'a>) -> Found<(&'a Coolant, Liquid<'a>)> {
    let coolant = at.machine().follow(at.part(&at.machine().cooling.coolant.fluid)?);
    Ok((coolant, Liquid::read(at, coolant)?))
}

/// Where a glycol without water sets. Ethylene glycol: CRC Handbook; propylene glycol turns to glass slowly, its pour
/// point stands for that: from memory.
fn sets(glycol: Glycol) -> ThermodynamicTemperature {
    match glycol {
        Glycol::Ethylene => celsius(-12.7),
        Glycol::Propylene => celsius(-57.0),
    }
}

/// Where the first ice crystals swim in it: as seen in a jar, else by its share of glycol and the warmer of two published sets.
///
/// # Errors
/// A gap, or a share of glycol for which no freezing point is known.
pub fn slush(at: &At) -> Found<ThermodynamicTemperature> {
    if let Some(seen) = at.try_get(&at.machine().cooling.coolant.clear_to) {
        return Ok(seen);
    }
    match filled(at)?.1 {
        Liquid::Water => Ok(celsius(0.0)),
        Liquid::Mixture(glycol, share) => freezing::warmest_freezing(glycol, share).map_err(outside),
        Liquid::Pure(glycol) => Ok(sets(glycol)),
        Liquid::Tabulated(table) => at.need(&table.entry.freezes_at),
    }
}

/// Freezing points of the mixture in the loop by two published sets, the warmer first, which counts. Nothing where a jar was
/// watched, or where it is no mixture.
///
/// # Errors
/// As [`slush`].
pub fn slush_by_two_sets(at: &At) -> Found<Option<(ThermodynamicTemperature, ThermodynamicTemperature)>> {
    if at.try_get(&at.machine().cooling.coolant.clear_to).is_some() {
        return Ok(None);
    }
    match filled(at)?.1 {
        Liquid::Mixture(glycol, share) => freezing::freezing_spread(glycol, share).map(Some).map_err(outside),
        Liquid::Water | Liquid::Pure(_) | Liquid::Tabulated(_) => Ok(None),
    }
}

/// Where it may burst what holds it. A glycol without water shrinks as it sets: where it sets is the safe side.
///
/// # Errors
/// As [`slush`].
pub fn bursts(at: &At) -> Found<ThermodynamicTemperature> {
    match filled(at)?.1 {
        Liquid::Water => Ok(celsius(0.0)),
        Liquid::Mixture(glycol, share) => freezing::warmest_burst(glycol, share).map_err(outside),
        Liquid::Pure(glycol) => Ok(sets(glycol)),
        Liquid::Tabulated(table) => at.or(&table.entry.bursts_at, &table.entry.freezes_at),
    }
}

/// Where it boils under an absolute pressure.
///
/// # Errors
/// A gap, or a pressure at which its boiling point is not known.
pub fn boils(at: &At, pressure: Pressure) -> Found<ThermodynamicTemperature> {
    match filled(at)?.1 {
        Liquid::Water => boiling::water_boiling_temperature(pressure),
        Liquid::Mixture(glycol, share) => boiling::mixture_boiling_temperature(glycol, share, pressure),
        Liquid::Pure(glycol) => boiling::mixture_boiling_temperature(glycol, Ratio::from_si(1.0), pressure),
        Liquid::Tabulated(table) => return tabulated_boils(at, table.entry, pressure),
    }
    .map_err(outside)
}

fn tabulated_boils(at: &At, table: &Tabulated, pressure: Pressure) -> Found<ThermodynamicTemperature> {
    let sea_level = Pressure::from_si(SEA_LEVEL);
    let boils_at = at.try_get(&table.boils_at);
    if let Some(boils_at) = boils_at
        && pressure >= sea_level
    {
        // Under more pressure it boils later: the safe side.
        return Ok(boils_at);
    }
    let curve = at.part(&table.vapour_pressure)?;
    let mut points = Vec::with_capacity(curve.points().len() + 1);
    for (temperature, vapour) in curve.points() {
        points.push((at.need(temperature)?, at.need(vapour)?));
    }
    points.extend(boils_at.map(|boils_at| (boils_at, sea_level)));
    let between = points.windows(2).find_map(|pair| match pair {
        [low, high] if pressure >= low.1 && pressure <= high.1 => Some((*low, *high)),
        _ => None,
    });
    match between {
        Some((low, high)) => boiling::boiling_between(pressure, low, high).map_err(outside),
        None => {
            let end = |point: Option<&(ThermodynamicTemperature, Pressure)>| point.map_or(f64::NAN, |end| end.1.si());
            let (from, to) = (end(points.first()), end(points.last()));
            Err(NotJudged::OutsideRange { of: "vapour pressure".into(), unit: "Pa", from, to, was: pressure.si() })
        }
    }
}

/// Its viscosity at a temperature.
///
/// # Errors
/// A gap, or a temperature outside the range of its properties.
pub fn viscosity(at: &At, temperature: ThermodynamicTemperature) -> Found<DynamicViscosity> {
    Ok(filled(at)?.1.at(at, temperature)?.viscosity)
}

/// What the pump moves on the first turn, all of the loop being as cold as the outside air.
///
/// # Errors
/// As the coolant loop; and where the coolant is slush at that temperature.
pub fn cold_flow(at: &At) -> Found<(VolumeRate, VolumeRate)> {
    let circuit = Loop::read(at, Strained::Clean)?;
    let cold = circuit.liquid.at(at, at.surroundings()?.outside)?;
    let mut flows = circuit.first_flows();
    circuit.flow(&mut flows, &vec![cold; circuit.stations.len()], 1.0, SETTLED)?;
    Ok((VolumeRate::from_si(flows.total), VolumeRate::from_si(circuit.pump.free)))
}
