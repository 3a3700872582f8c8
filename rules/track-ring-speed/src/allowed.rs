//! What each place of the track can take, at the temperature of the case and after many turns.

use crate::places::{Place, Spot};
use rule::prelude::strength::Direction;
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

pub(crate) fn allowed(at: &At, place: &Place<'_>) -> Found<Allowed> {
    let Some(material) = place.material else { return of_cords(at, place) };
    let here = at.surroundings()?.outside;
    let (direction, laid) = direction(at, place.spot, material)?;
    let coupon = if place.spot == Spot::Pin { None } else { strength::weakest_coupon(at, material, direction, here)? };
    let ultimate = match coupon {
        Some((strength, _)) => strength,
        None => strength::ultimate(at, material, here, direction)?,
    };
    // Bent, fibres buckle on the pressed side before they tear on the other.
    let ultimate = if place.spot == Spot::Pin && material.family == Family::FibreComposite {
        let pressed = at.need(&material.compressive_strength)? * strength::warmth(at, material, here)?;
        let pressed = pressed * strength::damp(at, material)?;
        if pressed < ultimate { pressed } else { ultimate }
    } else {
        ultimate
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
    let build = &at.machine().powertrain.track.build;
    if spot == Spot::Pin || strength::making(at, build, material) != Some(Making::Printed) {
        return Ok((Direction::Along, None));
    }
    // What is not said is taken the worse way round for this place.
    let (worst, called) =
        if spot == Spot::LugRoot { (Laid::FlatOnBed, "flat_on_bed") } else { (Laid::Standing, "standing") };
    let laid = strength::laid(at, build, worst, called)?;
    let direction = match (spot, laid) {
        // Flat, the planes along which the pin tears out are those between layers, and the lug is built up from the link.
        (Spot::Crown | Spot::LugRoot, Laid::FlatOnBed) => Direction::Across,
        // Standing, the lug lies in the layers.
        (Spot::LugRoot, Laid::Standing) | (_, Laid::FlatOnBed | Laid::OnEdge) => Direction::Along,
        (_, Laid::Standing) => Direction::Across,
    };
    Ok((direction, Some(laid)))
}
