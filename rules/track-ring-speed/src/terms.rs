//! What the load on one place is made of, each part as if it came back with every turn.

use crate::places::{Load, Place, Spot};
use physics::fatigue::goodman_repeated;
use physics::track as law;
use rule::prelude::*;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Cause {
    Preload,
    Contraction,
    Pull,
    Centrifugal,
    RunOver,
    Bending,
}

/// Stress, or force on cords, by cause, in SI units. What is run over comes seldom and meets the strength of new material: it counts
/// with the share that is left after many turns.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Terms {
    pub parts: [(Cause, f64); 6],
    pub speed: Velocity,
}

impl Terms {
    pub(crate) fn part(&self, cause: Cause) -> f64 {
        self.parts.iter().filter(|part| part.0 == cause).map(|part| part.1).sum()
    }

    pub(crate) fn total(&self) -> f64 {
        self.parts.iter().map(|part| part.1).sum()
    }

    /// The speed at which `share` of what is allowed is used up; none where that is so without any speed.
    pub(crate) fn speed_at(&self, allowed: f64, share: f64) -> Option<Velocity> {
        let (moving, usable) = (self.part(Cause::Centrifugal), allowed * share);
        let of = |load: f64| Ratio::from_si(load / usable);
        law::speed_at_limit(self.speed, of(self.total() - moving), of(moving))
    }

    /// The whole load at another speed.
    pub(crate) fn total_at(&self, speed: Velocity) -> f64 {
        let moving = self.part(Cause::Centrifugal);
        self.total() - moving + moving * law::thrown_ratio(self.speed, speed).si()
    }

    /// Shares of the whole load at another speed, the greatest first.
    pub(crate) fn shares_at(&self, speed: Velocity) -> Vec<(Cause, f64)> {
        let grown = law::thrown_ratio(self.speed, speed).si();
        let then =
            self.parts.map(|(cause, load)| (cause, if cause == Cause::Centrifugal { load * grown } else { load }));
        let whole: f64 = then.iter().map(|part| part.1).sum();
        let mut shares: Vec<_> = then.into_iter().map(|(cause, load)| (cause, load / whole)).collect();
        shares.sort_by(|a, b| b.1.total_cmp(&a.1));
        shares
    }
}

pub(crate) fn of(at: &At, place: &Place<'_>, share_left: Ratio) -> Found<Terms> {
    use Cause::{Bending, Centrifugal, Contraction, Preload, Pull, RunOver};
    let track = at.track()?;
    let bending = bending(at, place, at.surroundings()?.outside)?;
    let loads = match place.load {
        Load::ByTension(per_newton) => {
            let of = |force: Force| force.si() * per_newton;
            let surge = 1.0 + ripple(at, place.spot)?.si();
            let (pull, centrifugal) = (of(track.pull.abs()) * surge, of(track.centrifugal) * surge);
            let run_over = goodman_repeated(Force::ZERO, track.run_over, share_left);
            [of(track.preload), of(track.contraction), pull, centrifugal, of(run_over)]
        }
        Load::Thrown(stress) => [0.0, 0.0, 0.0, stress, 0.0],
    };
    let [preload, contraction, pull, centrifugal, run_over] = loads;
    let parts = [
        (Preload, preload),
        (Contraction, contraction),
        (Pull, pull),
        (Centrifugal, centrifugal),
        (RunOver, run_over),
        (Bending, bending),
    ];
    Ok(Terms { parts, speed: track.speed })
}

/// Stiff links go round the sprocket as a polygon; bands and belts lie round it.
fn ripple(at: &At, spot: Spot) -> Found<Ratio> {
    if matches!(spot, Spot::Band | Spot::Cords) {
        return Ok(Ratio::from_si(0.0));
    }
    let teeth = at.need(&at.machine().powertrain.track.sprocket_teeth)?;
    if teeth.si() >= 3.0 {
        return Ok(law::chordal_ripple(teeth));
    }
    Err(NotJudged::NoSolution("a sprocket of fewer than three teeth drives no links".into()))
}

/// By the smallest wheel, as stiff as the material is at that temperature.
pub(crate) fn bending(at: &At, place: &Place<'_>, here: ThermodynamicTemperature) -> Found<f64> {
    let (Some(bend), Some(material)) = (place.bend, place.material) else { return Ok(0.0) };
    let modulus = strength::modulus(at, material, here)?;
    Ok(law::band_bending(modulus, bend.thickness, bend.bent_to, bend.made_at).si())
}
