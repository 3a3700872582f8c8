//! What trials say: a speed that the track stood, one at which it came apart. They are bounds, not values.

use crate::allowed::Allowed;
use crate::places::{Place, Spot};
use crate::terms::{Cause, Terms, bending};
use physics::track as law;
use quantity::Measure;
use rule::prelude::*;

/// Raised to what trials have shown it to stand, lowered to what has broken it; what broke it has the last word.
pub(crate) fn bounded(at: &At, place: &Place<'_>, terms: &Terms, mut allowed: Allowed) -> Found<Allowed> {
    let evidence = &at.machine().powertrain.track.evidence;
    for trial in &evidence.held {
        // What it pulled and ran over then is not known: only what acted for certain counts for it.
        let least = then(at, place, terms, trial, &[Cause::Pull, Cause::RunOver])?;
        if least > allowed.si {
            allowed.si = least;
            allowed.notes = note(
                at,
                place,
                trial,
                least,
                "it stood",
                "at least",
                "what it pulled or ran over then does not count",
            )?;
        }
    }
    // Of all places only that which carries the pull is taken for the one that gave way.
    let broken = matches!(place.spot, Spot::EarWall | Spot::Hinge | Spot::Band | Spot::Cords);
    for trial in evidence.broke.iter().filter(|_| broken) {
        let most = then(at, place, terms, trial, &[])?;
        if most < allowed.si {
            allowed.si = most;
            allowed.notes = note(
                at,
                place,
                trial,
                most,
                "it came apart",
                "at most",
                "pull and something run over counted as here",
            )?;
        }
    }
    Ok(allowed)
}

/// Load in a trial, without some of its causes, at the temperature of the case: what is stronger here stood less there.
fn then(at: &At, place: &Place<'_>, terms: &Terms, trial: &Trial, without: &[Cause]) -> Found<f64> {
    let (speed, air) = (at.need(&trial.speed)?, at.need(&trial.air)?);
    let here = at.surroundings()?.outside;
    let preload = terms.part(Cause::Preload);
    let mut load = 0.0;
    for (cause, now) in terms.parts.iter().filter(|part| !without.contains(&part.0)) {
        load += match cause {
            Cause::Centrifugal => now * law::thrown_ratio(terms.speed, speed).si(),
            Cause::Bending => bending(at, place, air)?,
            Cause::Contraction if *now != 0.0 => {
                let assembled = at.or(&at.machine().environment.assembled_at, &at.assumed().assembled_at)?;
                let share = law::contraction_share(here, air, assembled).map_or(0.0, Quantity::si);
                // A slack track pulls on nothing.
                (now * share).max(-preload)
            }
            Cause::Preload | Cause::Contraction | Cause::Pull | Cause::RunOver => *now,
        };
    }
    let stronger = match place.material {
        Some(material) => strength::carried(at, material, air, here)?.si(),
        None => 1.0,
    };
    Ok(load * stronger)
}

fn note(
    at: &At,
    place: &Place<'_>,
    trial: &Trial,
    bound: f64,
    did: &str,
    bounds: &str,
    but: &str,
) -> Found<Vec<String>> {
    if !at.tells() {
        return Ok(Vec::new());
    }
    let bound = show(bound, if place.is_force() { m::Force::KIND } else { m::Stress::KIND }, None);
    let (speed, air) = (shown::<m::Speed>(at.need(&trial.speed)?), shown::<m::Temperature>(at.need(&trial.air)?));
    Ok(vec![format!(
        "At {speed} in {air} air {did}: so {bounds} {bound} is allowed here, in place of the material's figures ({but})."
    )])
}
