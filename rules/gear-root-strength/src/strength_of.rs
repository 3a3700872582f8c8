//! What the root of a tooth stands, as warm, wet and tired as it is.

use crate::{Carries, made, stress_of, tangential};
use gears::{Load, Pair, Side};
use physics::fatigue::{equivalent_load, slope_exponent};
use physics::gear::{self as law, Life};
use rule::prelude::*;

/// What is allowed, and why that much reserve.
#[derive(Debug, Clone)]
pub(crate) struct Allowed {
    pub stress: Pressure,
    pub required: Required,
    pub cycles: Ratio,
    pub root: ThermodynamicTemperature,
    pub tested: bool,
}

/// Elongation at break under which a tooth snaps without warning.
const BRITTLE: f64 = 0.05;

pub(crate) fn allowed(pair: &Pair<'_>, side: Side, at: &At<'_>, load: &Load) -> Found<Allowed> {
    let material: &Material = pair.material(at, side)?;
    let metal = strength::hard(material);
    let (cycles, root) = (cycles(side, at, load)?, pair.teeth(at, side)?.root);
    let trial = at.try_part(&pair.gear(side).tested);
    let stress = stands(pair, side, at, root, cycles)?;
    let making = pair.making(at, side)?;
    let required = made::required(making, metal, trial.is_some(), load.seldom);
    Ok(Allowed { stress, required, cycles, root, tested: trial.is_some() })
}

/// What a tooth stands after so many loads.
fn stands(pair: &Pair<'_>, side: Side, at: &At<'_>, root: ThermodynamicTemperature, cycles: Ratio) -> Found<Pressure> {
    let material: &Material = pair.material(at, side)?;
    let metal = strength::hard(material);
    let catalogued =
        if metal { of_metal(pair, side, at, root, cycles) } else { of_polymer(pair, side, at, root, cycles) };
    let Some(trial) = at.try_part(&pair.gear(side).tested) else { return catalogued };
    let shown = of_trial(pair, side, at, trial, root, cycles)?;
    let broke = at.or_word(&trial.broke, false, "it held");
    // What a tooth has held is a lower bound, and beats no better figure.
    Ok(match catalogued {
        Ok(catalogued) if !broke && catalogued > shown => catalogued,
        _ => shown,
    })
}

/// Of the highest load of a recorded run: the share that does as much harm in all its turns as all loads together.
pub(crate) fn share_that_counts(pair: &Pair<'_>, side: Side, at: &At<'_>, allowed: &Allowed) -> Found<Ratio> {
    let Some(spectrum) = gears::spectrum(at)? else { return Ok(Ratio::from_si(1.0)) };
    Ok(counts(&spectrum, allowed.cycles, allowed.stress, |cycles| {
        stands(pair, side, at, allowed.root, Ratio::from_si(cycles)).ok()
    }))
}

/// The same for any strength over cycles; `after` gives it, where it is known, in what rises with the load.
pub(crate) fn counts<Q: Quantity>(
    spectrum: &[(Ratio, Ratio)],
    cycles: Ratio,
    many: Q,
    after: impl Fn(f64) -> Option<Q>,
) -> Ratio {
    // The last tenfold of the life gives the slope: further up it is as steep or steeper, so that this is on the safe side.
    let few = Ratio::from_si(cycles.si() / 10.0);
    let exponent = match after(few.si()) {
        Some(stands) if few.si() >= 1.0 => slope_exponent((few, stands), (cycles, many)),
        _ => Ratio::from_si(f64::INFINITY),
    };
    let equivalent = equivalent_load(spectrum, exponent);
    // However seldom it comes, the highest load must not break it at once.
    let at_once = [1.0, 1e3, 1e4, 1e5, few.si()].into_iter().find_map(after);
    let at_least = Ratio::from_si(at_once.map_or(1.0, |at_once| (many.si() / at_once.si()).min(1.0)));
    if equivalent > at_least { equivalent } else { at_least }
}

/// How often this gear's teeth are loaded like this.
pub(crate) fn cycles(side: Side, at: &At<'_>, load: &Load) -> Found<Ratio> {
    let assumed = at.assumed();
    if load.seldom {
        return at.need(&assumed.gear_blows);
    }
    let hours = match at.try_part(&at.machine().service.season) {
        Some(season) => at.or(&season.hours, &assumed.gear_hours)?,
        None => at.need(&assumed.gear_hours)?,
    };
    // A wheel meets each of its pinions once a turn.
    let (speed, mates) = if side == Side::Pinion { (load.pinion_speed, 1.0) } else { (load.wheel_speed, load.meshes) };
    Ok(law::load_cycles(speed, Time::from_si(3600.0) * hours) * mates)
}

/// Share of the material's strength that a gear made like this has all through: a casting that nobody looked into has pores.
pub(crate) fn made_share(making: Making, at: &At<'_>) -> Found<Ratio> {
    if making == Making::Cast { at.need(&at.assumed().cast_share) } else { Ok(Ratio::from_si(1.0)) }
}

/// It tears before it gives way, so that no more than its tensile strength may stand at the notch.
fn brittle(at: &At<'_>, material: &Material) -> bool {
    at.or_take(&material.elongation_at_break, Ratio::from_si(0.0), "0 %: brittle").si() < BRITTLE
}

fn of_metal(
    pair: &Pair<'_>,
    side: Side,
    at: &At<'_>,
    root: ThermodynamicTemperature,
    cycles: Ratio,
) -> Found<Pressure> {
    let material: &Material = pair.material(at, side)?;
    let making = pair.making(at, side)?;
    let listed = at.try_part(&material.gear);
    let tensile = || at.need(&material.tensile_strength);
    let nominal = match listed.and_then(|gear| at.try_get(&gear.root_limit)) {
        Some(limit) => limit,
        None => law::metal_root_limit(tensile()?, at.need(&material.fatigue_share)?),
    };
    let cased = listed.is_some_and(|gear| at.or_word(&gear.cased, false, "no"));
    let life = law::root_life(cycles, if cased { Life::Hardened } else { Life::Plain });
    let warmth = strength::warmth(at, material, root)?;
    let stands = law::root_strength(nominal, life) * warmth;
    // Pores are where a casting begins to tear, however tough its metal.
    let brittle = making == Making::Cast || (!cased && brittle(at, material));
    let snaps = if brittle { tensile()? * warmth } else { stands };
    Ok((if snaps < stands { snaps } else { stands }) * made_share(making, at)?)
}

fn of_polymer(
    pair: &Pair<'_>,
    side: Side,
    at: &At<'_>,
    root: ThermodynamicTemperature,
    cycles: Ratio,
) -> Found<Pressure> {
    let material: &Material = pair.material(at, side)?;
    let one = Ratio::from_si(1.0);
    let making = pair.making(at, side)?;
    let (printed, share) = (making == Making::Printed, made_share(making, at)?);
    if let Some(limits) = at.try_part(&material.gear).filter(|limits| !printed && !limits.root_strength.is_empty()) {
        let nominal = of_table(at, material, &limits.root_strength, root, cycles)?;
        return Ok(law::root_strength(nominal * soaked(at, material)? * share, one));
    }
    let direction = pair.direction(at, side)?;
    let ultimate = strength::ultimate(at, material, root, direction)?;
    let left = law::polymer_share(cycles, at.need(&material.fatigue_share)?);
    let tears = ultimate * left * share;
    // The doubled strength of teeth is that of what gives way at the notch before it tears.
    Ok(if brittle(at, material) { tears } else { law::root_strength(tears, one) })
}

/// Tables stand for gears in ordinary air: wet ones have less.
fn soaked(at: &At<'_>, material: &Material) -> Found<Ratio> {
    if strength::moisture(at, material) != MoistureState::Wet {
        return Ok(Ratio::from_si(1.0));
    }
    let wet = at.need(&at.part(&material.when_wet)?.strength)?;
    Ok(wet / at.need(&at.part(&material.when_conditioned)?.strength)?)
}

/// Between the two tables that stand beside the temperature; colder than all of them the first, which is on the safe side. Hotter
/// than all of them it is no more than the last says, and nothing once the material is soft.
fn of_table(
    at: &At<'_>,
    material: &Material,
    tables: &[RootStrength],
    root: ThermodynamicTemperature,
    cycles: Ratio,
) -> Found<Pressure> {
    let mut below: Option<(ThermodynamicTemperature, Pressure)> = None;
    for table in tables {
        let here = at.need(&table.temperature)?;
        let curve = at.part(&table.after_cycles)?;
        let stands = at.at(curve, cycles, Scale::LogLog, "load cycles of the material's root strength")?;
        match below {
            _ if root > here => below = Some((here, stands)),
            None => return Ok(stands),
            Some((colder, more)) => {
                let share = difference(root, colder).si() / difference(here, colder).si();
                return Ok(more + (stands - more) * share);
            }
        }
    }
    let (Some((_, last)), Some(hottest)) = (below, tables.last()) else {
        return Err(NotJudged::NoSolution("its root strength has no table".into()));
    };
    if strength::softens(at, material).is_some_and(|(softens, _)| root >= softens) {
        return Ok(Pressure::ZERO);
    }
    at.at_most(hottest.after_cycles.id());
    Ok(last)
}

/// What the tooth that was pressed says of this case: warmer or colder, and as tired.
fn of_trial(
    pair: &Pair<'_>,
    side: Side,
    at: &At<'_>,
    trial: &ToothTest,
    root: ThermodynamicTemperature,
    cycles: Ratio,
) -> Found<Pressure> {
    let material: &Material = pair.material(at, side)?;
    let torque = at.need(&trial.torque)?;
    let on_pinion: Torque = match side {
        Side::Pinion => torque,
        Side::Wheel => torque / pair.mesh(at)?.ratio().si(),
    };
    let stress = stress_of(pair, side, at, tangential(pair, at, on_pinion)?, Carries::Alone)?;
    let warmth = strength::warmth(at, material, root)? / strength::warmth(at, material, at.need(&trial.temperature)?)?;
    let once = Ratio::from_si(1.0);
    let tired = if strength::hard(material) {
        law::root_life(cycles, Life::Plain) / law::root_life(once, Life::Plain)
    } else {
        law::polymer_share(cycles, at.need(&material.fatigue_share)?)
    };
    Ok(stress * warmth * tired)
}
