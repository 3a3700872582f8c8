#![no_std]
//! Whether one lug that finds a hard edge takes all that the track then pulls with. It never knows: what throws lugs off at speed,
//! what tears the track, other rules.

use physics::track as law;
use rule::prelude::strength::Direction;
use rule::prelude::*;

#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "track-lug",
    area: Area::Powertrain,
    question: "Does one lug hold when it alone finds an edge, and takes the hardest pull or half the machine's weight?",
    explains: "On snow a dozen lugs share the pull. On a ledge of ice, a root or the lip of a ramp one of them has all of it, at its \
               tip, in the cold. A lug is a short beam on the track: printed flat it is built up from the link, and the pull peels it \
               off between two layers.",
    formula: "σ = 6·F·h/(b·t²) × notch; F = pull of one track, or run over × weight / tracks where that is more; allowed: strength \
              along or across the layers × temperature × moisture, of new material: a lug finds such an edge less than a thousand times",
    source: "Bending of a beam, textbook; notch: stepped flat bar in bending, Roark, table 17.1, after Peterson, from memory; half of \
             the weight on one edge: common practice, no source",
    checked: "by hand on one lug, and by its limits: a lug of twice the thickness holds four times as much. The pull acts at the very \
              tip; lower down it bends less (safe side). The lug's own shear and the band under it are left out, so a lug as thick \
              as it is high is judged too kindly. What a blow does to a brittle lug in the cold is not judged.",
    required: "1.5 (common practice)",
    caution: "",
};

#[derive(Debug)]
pub struct TrackLug;

impl Rule for TrackLug {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        let track = &machine.powertrain.track;
        if let Some(lug) = track.lug.there() {
            checks.about("track", track.pitch.id()).check("one lug takes the pull", |at| judge(at, lug));
        }
    }
}

/// What bends the lug, and what says so.
struct Push {
    force: Force,
    by: &'static str,
}

/// The harder of the pull and of the weight on one edge.
fn push(at: &At<'_>) -> Found<Push> {
    let track = at.track()?;
    let pull = track.pull.abs();
    Ok(if pull > track.run_over {
        Push { force: pull, by: "all that the track pulls with" }
    } else {
        Push { force: track.run_over, by: "the machine's weight on one edge" }
    })
}

fn judge(at: &At<'_>, lug: &Lug) -> Found<Outcome> {
    if at.track()?.speed <= Velocity::ZERO {
        return Ok(Outcome::Aside("the track stands still in this case"));
    }
    let push = push(at)?;
    if push.force <= Force::ZERO {
        return Ok(Outcome::Aside("the track pulls at nothing"));
    }
    let machine = at.machine();
    let track = &machine.powertrain.track;
    let (height, width, root) = (at.need(&lug.height)?, at.need(&lug.width)?, at.need(&lug.root_thickness)?);
    let moment = Torque::from_si(push.force.si() * height.si());
    let stress = law::lug_root_stress(Force::ZERO, moment, width, root) * notch(at, lug, root)?;
    let material = machine.follow(at.part(&track.material)?);
    let direction = direction(at, track, material)?;
    let here = at.surroundings()?.outside;
    let coupon = strength::weakest_coupon(at, material, direction, here)?;
    let allowed = match coupon {
        Some((strength, _)) => strength,
        None => strength::ultimate(at, material, here, direction)?,
    };
    let required = Required { value: 1.5, why: "it comes seldom, and one lug is not the track" };
    let margin = Margin::ratio::<m::Stress>(stress, allowed, required, consequence(lug));
    let short = margin.required.value / margin.held.reserve();
    Ok(Outcome::Held(margin.tell(at, |w| words(at, lug, &push, direction, short, w))))
}

/// Lugs are made to be used up unless it is said that they are not.
fn consequence(lug: &Lug) -> Consequence {
    if lug.consumable == Some(false) { Consequence::Stranded } else { Consequence::CheapPart }
}

/// Standing, the lug lies in the layers; flat or on its edge it is built up from the link, unless it lies in the plane of the print.
fn direction(at: &At<'_>, track: &Track, material: &Material) -> Found<Direction> {
    if strength::making(at, &track.build, material) != Some(Making::Printed) {
        return Ok(Direction::Along);
    }
    Ok(match strength::laid(at, &track.build, Laid::FlatOnBed, "flat_on_bed")? {
        Laid::FlatOnBed => Direction::Across,
        Laid::OnEdge | Laid::Standing => Direction::Along,
    })
}

fn notch(at: &At<'_>, lug: &Lug, root: Length) -> Found<f64> {
    let Some(radius) = at.try_get(&lug.fillet) else { return Ok(at.need(&at.assumed().track_notch)?.si()) };
    let wide = at.need(&at.machine().powertrain.track.pitch)?;
    if wide <= root {
        return Ok(1.0);
    }
    let factor = law::fillet_notch(wide, root, radius, law::Pulled::Bent).map_err(|out| {
        let physics::range::OutsideRange { of, unit, from, to, was } = out;
        NotJudged::OutsideRange { of: of.into(), unit, from, to, was }
    })?;
    Ok(factor.si())
}

fn words(at: &At<'_>, lug: &Lug, push: &Push, direction: Direction, short: f64, w: &mut Telling<'_>) {
    let across = direction == Direction::Across;
    w.happens = if across {
        "a lug peels off the track between two layers as soon as it alone finds an edge".into()
    } else {
        "a lug breaks off the track as soon as it alone finds an edge".into()
    };
    w.numbers.push(format!("{} at the lug's tip: {}.", shown::<m::Force>(push.force), push.by));
    let track = &at.machine().powertrain.track;
    w.label(lug.height.id(), "a long lever");
    w.label(lug.root_thickness.id(), "what holds it");
    w.label(track.material.id(), "its strength");
    if !at.is_given(&lug.fillet) {
        w.label(lug.fillet.id(), "a corner that nobody knows is taken as sharp");
    }
    if let Some(build) = track.build.there() {
        w.label(build.laid.id(), "which way its layers run");
    }
    if let Ok(height) = at.need(&lug.height)
        && short > 1.0
        && short.is_finite()
    {
        w.at_most(&lug.height, height / short, |height| format!("a lug {height} high"));
        w.clears.push("a thicker foot: twice as thick it holds four times as much".into());
    }
    if across {
        w.clears.push("print it on its edge, so that layers run into the lugs".into());
    }
    w.clears.push("a material that is stronger between its layers, or a larger fillet at the foot".into());
}
