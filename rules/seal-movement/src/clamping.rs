//! What the screws still clamp with, against what the seal and the coolant push back with.

use crate::joint::{Sealed, thickness};
use crate::{refused, says, soft};
use physics::{clamp, expansion};
use quantity::{Counted, Thread, read_counted_thread};
use rule::prelude::*;

/// Of all screws together.
pub(crate) struct Clamped {
    pub(crate) set: Force,
    /// By creep, and by the body shrinking more than the screws.
    pub(crate) crept: Force,
    pub(crate) shrunk: Force,
}

pub(crate) fn judge(at: &At, sealed: &Sealed<'_>) -> Found<Outcome> {
    let clamped = clamped(at, sealed)?;
    let left = clamped.set - clamped.crept + clamped.shrunk;
    // A joint that gapes clamps with nothing.
    let left = if left > Force::ZERO { left } else { Force::ZERO };
    let wanted = seal_force(at, sealed)? + coolant_force(at, sealed)?;
    let required = Required { value: 1.5, why: "screws are never tight evenly" };
    let margin = Margin::ratio::<m::Force>(wanted, left, required, Consequence::RunOver);
    Ok(Outcome::Held(says::clamping(at, sealed, margin, &clamped)))
}

pub(crate) fn screws(at: &At, joint: &Joint) -> Found<Counted<Thread>> {
    let text = at.part(&joint.screws)?;
    let unread = |_| NotJudged::NoSolution(format!("screws are read as `6 x M4`, not as `{text}`"));
    read_counted_thread(text).map_err(unread)
}

fn clamped(at: &At, sealed: &Sealed<'_>) -> Found<Clamped> {
    let (joint, assumed) = (sealed.joint, at.assumed());
    let [over, _] = sealed.bodies(at)?;
    let [part, _] = sealed.parts(at)?;
    let screws = screws(at, joint)?;
    let (diameter, deep) = (screws.each.diameter, thickness(at, part)?);
    let set = match at.try_get(&joint.preload) {
        Some(preload) => preload,
        None => clamp::preload(at.need(&joint.torque)?, diameter, at.need(&assumed.nut_factor)?),
    };
    let kept = if soft(over) {
        at.or(&joint.preload_kept, &assumed.preload_kept)?
    } else {
        at.or_take(&joint.preload_kept, Ratio::from_si(1.0), "100 %")
    };
    let (modulus, grows) = match at.part_or(&joint.screw_material, "steel") {
        Some(material) => {
            let material = at.machine().follow(material);
            (at.need(&material.modulus)?, at.need(&material.expansion)?)
        }
        None => (at.need(&assumed.screw_modulus)?, at.need(&assumed.screw_expansion)?),
    };
    let screw = clamp::screw_rate(modulus, clamp::stressed_area(diameter, screws.each.pitch), deep);
    let body = clamp::clamped_rate(at.need(&over.modulus)?, diameter, deep).map_err(refused)?;
    let washers = at.try_get(&joint.spring_washers);
    let rates = [Some(screw), Some(body), washers];
    let rates: Vec<SpringRate> = rates.into_iter().flatten().collect();
    let since = difference(sealed.temperature(at)?, sealed.assembled(at)?);
    let apart = expansion::growth(at.need(&over.expansion)? - grows, deep, since);
    let all = f64::from(screws.count);
    Ok(Clamped {
        set: set * all,
        crept: set * all * (Ratio::from_si(1.0) - kept),
        shrunk: clamp::force_change(apart, &rates) * all,
    })
}

fn seal_force(at: &At, sealed: &Sealed<'_>) -> Found<Force> {
    Ok(match sealed.rubber(at)? {
        Some(rubber) => rubber.force * at.need(&sealed.seal.length)?,
        None => Force::ZERO,
    })
}

/// Nothing outside the coolant's path, or where the loop stands below the outside air.
fn coolant_force(at: &At, sealed: &Sealed<'_>) -> Found<Force> {
    let Some(index) = sealed.element(at, sealed.parts(at)?) else { return Ok(Force::ZERO) };
    let circuit = at.coolant()?.at_end();
    if let Some(gap) = &circuit.pressure_unknown {
        return Err(gap.clone());
    }
    let Some(element) = circuit.elements.get(index) else { return Ok(Force::ZERO) };
    let above = element.pressure + element.drop - at.surroundings()?.pressure;
    if above <= Pressure::ZERO {
        return Ok(Force::ZERO);
    }
    Ok(above * at.need(&sealed.seal.encloses)?)
}
