#![no_std]
//! Shafts of metal between their bearings: yield, fatigue, slope and whirling. It never knows: how hubs hold, what bearings take,
//! other rules.

use loads::{ShaftLoads, Spot};
use physics::shaft::{Cut, Place, Surface};
use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "shaft-strength",
    area: Area::Powertrain,
    question: "Does each shaft take bending and torque, in blows and for a season, without bending its bearings out of line?",
    explains: "A shaft bends in a blow and stays bent, or breaks after weeks at the corner of a step, a keyway or a ring groove, for \
               it is bent to and fro at every turn. One that gives way too far wears gears on one edge and grinds its bearings; one \
               that turns near its critical speed whirls.",
    formula: "M in two planes and T at every station; √(σ² + 3·τ²) against yield; 1/n = σa/Se + σm/Sut, Se = ka·kb·f·Sut with notch \
              factors; slope against 0.003 rad; first critical speed of shaft and what it carries by beam elements",
    source: "Shigley, ch. 6 and 7 (Marin, Goodman, tables 7-1 and 7-2), published, table 7-1 from memory; hole, thread and pressed \
             hub: common practice, no source",
    checked: "sixty drawn shafts by equilibrium, beam elements and an eigenvalue solver; limiting cases. Without angles at the \
              stations all forces are taken in one plane and the same way, which errs to the safe side between bearings. Rings \
              that fret on the shaft, corrosion and gyroscopic effects are left out.",
    required: "1.5, in a blow 1.2 on yield; critical speed 1.3 (common practice)",
    caution: "A shaft that breaks frees the machine on a slope: never stand below it.",
};

#[derive(Debug)]
pub struct ShaftStrength;

impl Rule for ShaftStrength {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for shaft in machine.powertrain.shafts.iter() {
            let mut on = checks.on(&shaft.key);
            on.check("yield", |at| yields(shaft, at));
            on.check("fatigue", |at| fatigue(shaft, at));
            on.check("slope at bearings", |at| slope(shaft, at));
            on.check("critical speed", |at| critical(shaft, at));
        }
    }
}

const STILL: Outcome = Outcome::Aside("nothing is driven in this case");
const NO_METAL: Outcome = Outcome::Aside("it is not of metal: its own rules judge it");

fn metal<'a>(shaft: &Named<Shaft>, at: &At<'a>) -> Found<Option<&'a Material>> {
    let material: &Material = at.machine().follow(at.part(&shaft.value.material)?);
    Ok(Some(material).filter(|material| material.family == Family::Metal))
}

fn warmth(material: &Material, at: &At<'_>) -> Found<Ratio> {
    strength::warmth(at, material, at.surroundings()?.outside)
}

/// Nominal stresses of one station.
fn stresses(shaft: &Named<Shaft>, at: &At<'_>, spot: &Spot) -> Found<(Pressure, Pressure)> {
    let (outer, bore) = (at.need(&shaft.value.diameter)?, at.or_take(&shaft.value.bore, Length::ZERO, "none"));
    Ok((physics::beam::shaft_bending(spot.moment, outer, bore), physics::beam::shaft_shear(spot.torque, outer, bore)))
}

fn yields(shaft: &Named<Shaft>, at: &At<'_>) -> Found<Outcome> {
    let Some(material) = metal(shaft, at)? else { return Ok(NO_METAL) };
    let Some(load) = loads::shaft(at, shaft)? else { return Ok(STILL) };
    let mut worst: Option<(Pressure, Spot)> = None;
    for spot in &load.spots {
        let (bending, shear) = stresses(shaft, at, spot)?;
        let stress = physics::beam::von_mises(bending, shear);
        if worst.is_none_or(|worst| stress > worst.0) {
            worst = Some((stress, *spot));
        }
    }
    let Some((stress, spot)) = worst else { return Ok(STILL) };
    let limit = at.need(&material.yield_strength)? * warmth(material, at)?;
    let required = if load.seldom {
        Required { value: 1.2, why: "a blow, against yield" }
    } else {
        Required { value: 1.5, why: "a load that comes with every drive" }
    };
    let margin = Margin::ratio::<m::Stress>(stress, limit, required, Consequence::Stranded);
    Ok(Outcome::Held(says::yields(shaft, at, load, &spot, margin)))
}

fn cut(notch: ShaftNotch) -> Cut {
    match notch {
        ShaftNotch::None => Cut::Smooth,
        ShaftNotch::Shoulder => Cut::RoundedStep,
        ShaftNotch::SharpShoulder => Cut::SharpStep,
        ShaftNotch::Groove => Cut::RingGroove,
        ShaftNotch::Keyway => Cut::Keyway,
        ShaftNotch::CrossHole => Cut::CrossHole,
        ShaftNotch::Thread => Cut::Thread,
        ShaftNotch::PressedOn => Cut::PressedOn,
    }
}

fn fatigue(shaft: &Named<Shaft>, at: &At<'_>) -> Found<Outcome> {
    let Some(material) = metal(shaft, at)? else { return Ok(NO_METAL) };
    let Some(load) = loads::shaft(at, shaft)? else { return Ok(STILL) };
    if load.seldom {
        return Ok(Outcome::Aside("a blow comes too seldom to tire it"));
    }
    if at.case()?.kind.recorded() {
        return Ok(Outcome::Aside(RECORDED));
    }
    let ultimate = at.need(&material.tensile_strength)?;
    let share = at.need(&material.fatigue_share)?;
    let diameter = at.need(&shaft.value.diameter)?;
    let limit = physics::shaft::endurance(ultimate, Surface::Machined, diameter, Ratio::from_si(1.0), share);
    let mut worst: Option<(Ratio, Spot)> = None;
    for spot in &load.spots {
        let (bending, shear) = stresses(shaft, at, spot)?;
        // It is started and stopped: the torque comes and goes.
        let place = Place {
            bending,
            shear,
            torque_ratio: Ratio::from_si(0.0),
            notch: physics::shaft::estimated_notch(cut(spot.notch)),
        };
        let reserve = physics::shaft::goodman(&place, limit, ultimate);
        if worst.is_none_or(|worst| reserve < worst.0) {
            worst = Some((reserve, *spot));
        }
    }
    let Some((reserve, spot)) = worst else { return Ok(STILL) };
    let required = Required { value: 1.5, why: "bent to and fro at every turn" };
    let (demand, capacity) = (load.torque, load.torque * reserve.si());
    let margin = Margin::ratio::<m::Torque>(demand, capacity, required, Consequence::Stranded);
    Ok(Outcome::Held(says::fatigue(shaft, at, load, &spot, margin)))
}

const RECORDED: &str = "the hardest pull of a recorded run came seldom; the steady cases are judged";

/// Tilt at which balls of a deep groove begin to run on the edges of their tracks.
const TILT: f64 = 0.003;

fn slope(shaft: &Named<Shaft>, at: &At<'_>) -> Found<Outcome> {
    let Some(load) = loads::shaft(at, shaft)? else { return Ok(STILL) };
    if load.seldom {
        return Ok(Outcome::Aside("a blow is over before a bearing minds its tilt"));
    }
    if at.case()?.kind.recorded() {
        return Ok(Outcome::Aside(RECORDED));
    }
    let steepest = load
        .spots
        .iter()
        .filter(|spot| load.bearings.iter().any(|bearing| bearing.0 == spot.station))
        .fold(Angle::ZERO, |most, spot| if spot.slope > most { spot.slope } else { most });
    let required = Required { value: 1.0, why: "the limit of a deep groove" };
    let margin = Margin::ratio::<m::Angle>(steepest, Angle::from_si(TILT), required, Consequence::RunOver);
    Ok(Outcome::Held(says::slope(shaft, at, margin)))
}

fn critical(shaft: &Named<Shaft>, at: &At<'_>) -> Found<Outcome> {
    let Some(load) = loads::shaft(at, shaft)? else { return Ok(STILL) };
    if load.speed == AngularVelocity::ZERO {
        return Ok(Outcome::Aside("it does not turn in this case"));
    }
    let whirls = loads::critical_speed(at, shaft)?;
    let required = Required { value: 1.3, why: "it must never come near" };
    let margin = Margin::ratio::<m::RotationalSpeed>(load.speed, whirls, required, Consequence::Stranded);
    Ok(Outcome::Held(says::critical(shaft, at, margin)))
}

pub(crate) fn carries(shaft: &Named<Shaft>, spot: &Spot) -> String {
    let station = shaft.value.stations.get(spot.station).filter(|station| station.bearing.is_none());
    station.map_or_else(|| "a bearing".into(), |station| station.called())
}

pub(crate) fn biggest_bearing(load: &ShaftLoads) -> Force {
    load.bearings.iter().fold(Force::ZERO, |most, bearing| if bearing.1 > most { bearing.1 } else { most })
}
