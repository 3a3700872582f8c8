//! What each place of the track stands, at the temperature of the case and after many turns.

use crate::places::{Place, Spot};
use rule::prelude::*;

/// What is allowed, in SI units of stress or force.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Allowed {
    pub si: f64,
    /// How much of the strength of new material that is.
    pub share_left: Ratio,
    /// Why less reserve is wanted than for what nobody has tested.
    pub tested: Option<&'static str>,
    /// How it came about, where words are wanted.
    pub notes: Vec<String>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Direction {
    Along,
    Across,
}

const REFERENCE: f64 = 23.0;
/// Nearer than this two temperatures need no table between them.
const ALIKE: f64 = 0.5;

pub(crate) fn allowed(at: &At, place: &Place<'_>) -> Found<Allowed> {
    let Some(material) = place.material else { return of_cords(at, place) };
    let here = at.surroundings()?.outside;
    let (direction, laid) = direction(at, place.spot, material)?;
    let coupon = if place.spot == Spot::Pin { None } else { lowest_coupon(at, material, direction, here)? };
    let ultimate = match coupon {
        Some((strength, _)) => strength,
        None => {
            catalogued(at, material, direction)?
                * warmth(at, material, here)?
                * state(at, material, Property::Strength)?
        }
    };
    // Tear-out shears: a shear strength between layers is in no data sheet, so both directions take the material's own ratio.
    let shear = match place.spot {
        Spot::Crown => (at.need(&material.shear_strength)? / at.need(&material.tensile_strength)?).si(),
        _ => 1.0,
    };
    let share = at.or(&material.fatigue_share, &at.assumed().track_fatigue_share)?;
    let si = ultimate.si() * shear * share.si();
    let cold = coupon.is_some_and(|(_, torn_at)| torn_at <= celsius(0.0));
    let tested = if cold {
        Some("a coupon of it was torn in the cold")
    } else if place.spot == Spot::Pin && material.family == Family::Metal {
        Some("a metal pin scatters little")
    } else {
        None
    };
    let mut notes = Vec::new();
    if at.tells() {
        let by = match coupon {
            Some((_, torn_at)) => format!("by the coupon torn at {}", shown::<m::Temperature>(torn_at)),
            None => "by the material's figures".to_string(),
        };
        let way = match (direction, laid) {
            (_, None) => "",
            (Direction::Along, Some(_)) => "along its layers ",
            (Direction::Across, Some(_)) => "between its layers ",
        };
        let laid = laid.map_or(String::new(), |laid| format!(" (laid {})", laid.word().replace('_', " ")));
        notes.push(format!(
            "At {} it stands {} {way}{by}{laid}; {} of that is left after many turns.",
            shown::<m::Temperature>(here),
            shown::<m::Stress>(ultimate * shear),
            shown::<m::Percentage>(share),
        ));
    }
    Ok(Allowed { si, share_left: share, tested, notes })
}

fn of_cords(at: &At, place: &Place<'_>) -> Found<Allowed> {
    let Some(cords) = place.cords else { return Err(NotJudged::NoSolution("nothing carries the pull".into())) };
    let (strength, share) = (at.need(cords)?, at.need(&at.assumed().track_fatigue_share)?);
    let mut notes = Vec::new();
    if at.tells() {
        let (strength, share) = (shown::<m::Force>(strength), shown::<m::Percentage>(share));
        notes
            .push(format!("New, the cords break at {strength}; {share} of that is taken to be left after many turns."));
    }
    Ok(Allowed { si: strength.si() * share.si(), share_left: share, tested: None, notes })
}

/// Which way the place is pulled, and how it was laid; along and nothing for what is not printed.
fn direction(at: &At, spot: Spot, material: &Material) -> Found<(Direction, Option<Laid>)> {
    let machine = at.machine();
    let own = &machine.powertrain.track.build;
    let build = at.try_part(own);
    let made = build.and_then(|build| at.try_part(&build.by));
    let printed = material.family == Family::PrintedPolymer || made == Some(&Making::Printed);
    if spot == Spot::Pin || !printed {
        return Ok((Direction::Along, None));
    }
    // What is not said is taken the worse way round for this place.
    let (worst, called) =
        if spot == Spot::LugRoot { (Laid::FlatOnBed, "flat_on_bed") } else { (Laid::Standing, "standing") };
    let laid = match build.and_then(|build| at.try_part(&build.laid)) {
        Some(laid) => *laid,
        None => match at.try_part(&machine.structure.printing) {
            Some(shared) => at.or_word(&shared.laid, worst, called),
            None => at.or_word(&at.part(own)?.laid, worst, called),
        },
    };
    let direction = match (spot, laid) {
        // Flat, the planes along which the pin tears out are those between layers, and the lug is built up from the link.
        (Spot::Crown | Spot::LugRoot, Laid::FlatOnBed) => Direction::Across,
        // Standing, the lug lies in the layers.
        (Spot::LugRoot, Laid::Standing) | (_, Laid::FlatOnBed | Laid::OnEdge) => Direction::Along,
        (_, Laid::Standing) => Direction::Across,
    };
    Ok((direction, Some(laid)))
}

fn catalogued(at: &At, material: &Material, direction: Direction) -> Found<Pressure> {
    at.need(match direction {
        Direction::Along => &material.tensile_strength,
        Direction::Across => &material.between_layer_strength,
    })
}

/// The weakest coupon of that direction, brought to the temperature of the case, and where it was torn.
fn lowest_coupon(
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

/// Strength at one temperature over that at another.
pub(crate) fn carried(
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

/// Strength over that at 23 °C, at which the figures of a material stand.
fn warmth(at: &At, material: &Material, here: ThermodynamicTemperature) -> Found<Ratio> {
    match at.try_part(&material.strength_at) {
        Some(curve) => at.at(curve, here, Scale::Linear, "strength of the track's material"),
        None if alike(here, celsius(REFERENCE)) => Ok(Ratio::from_si(1.0)),
        None => Err(at.part(&material.strength_at).err().unwrap_or_else(|| unknown("strength"))),
    }
}

pub(crate) fn modulus(at: &At, material: &Material, here: ThermodynamicTemperature) -> Found<Pressure> {
    let stiffer = match at.try_part(&material.modulus_at) {
        Some(curve) => at.at(curve, here, Scale::Linear, "stiffness of the track's material")?,
        None if alike(here, celsius(REFERENCE)) => Ratio::from_si(1.0),
        None => return Err(at.part(&material.modulus_at).err().unwrap_or_else(|| unknown("stiffness"))),
    };
    Ok(at.need(&material.modulus)? * stiffer * state(at, material, Property::Modulus)?)
}

fn unknown(what: &str) -> NotJudged {
    NotJudged::NoSolution(format!("the track's {what} at that temperature is not known"))
}

fn alike(one: ThermodynamicTemperature, other: ThermodynamicTemperature) -> bool {
    difference(one, other).si().abs() <= ALIKE
}

#[derive(Debug, Clone, Copy)]
enum Property {
    Strength,
    Modulus,
}

/// What water in it and annealing make of a figure.
fn state(at: &At, material: &Material, property: Property) -> Found<Ratio> {
    let factor = |factors: &StateFactors| {
        at.need(match property {
            Property::Strength => &factors.strength,
            Property::Modulus => &factors.modulus,
        })
    };
    let damp = match at.try_part(&material.moisture) {
        Some(MoistureState::Conditioned) => factor(at.part(&material.when_conditioned)?)?,
        Some(MoistureState::Wet) => factor(at.part(&material.when_wet)?)?,
        Some(MoistureState::Dry) | None => Ratio::from_si(1.0),
    };
    let annealed = match at.try_part(&material.when_annealed).filter(|_| material.annealed == Some(true)) {
        Some(factors) => factor(factors)?,
        None => Ratio::from_si(1.0),
    };
    Ok(damp * annealed)
}
