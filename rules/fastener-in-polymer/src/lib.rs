#![no_std]
//! Screws and inserts that hold in plastic. It never knows: what friction carries, seals, other rules.

use quantity::{Counted, Thread};
use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "fastener-in-polymer",
    area: Area::Structure,
    question: "Do threads and inserts hold in the plastic round them, and do the heads not sink in?",
    explains: "An insert is drawn out when its screw is tightened, or turned in its hole. A head on plastic sinks in as it is tightened.",
    formula: "pull F = M/(K·d); drawn out π·d·l·τ·s and turned π/2·d²·l·τ·s, s = 0.7 for an insert, 0.5 for a thread cut in plastic; \
              head F/A against its crushing strength; all as warm and wet as it was when it was tightened",
    source: "shear of a cylinder, textbook; nut factor, shares: common practice, no source",
    checked: "one route by hand each. Thin walls round an insert split before it is drawn out: a wall as thick as its radius is \
              taken for granted. That plastic creeps under a head for months is left to what is said of the pull that is kept. Loads of service on the joint are left out, which errs to the unsafe side where they pull.",
    required: "2 (common practice)",
    caution: "",
};

#[derive(Debug)]
pub struct FastenerInPolymer;

impl Rule for FastenerInPolymer {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for joint in machine.structure.joints.iter() {
            let mut on = checks.on(&joint.key);
            on.check("drawn out", |at| drawn(joint, at));
            on.check("turned in its hole", |at| turned(joint, at));
            on.check("head", |at| head(joint, at));
        }
    }
}

fn soft(material: &Material) -> bool {
    matches!(material.family, Family::PrintedPolymer | Family::Polymer | Family::Wood)
}

fn body<'a>(at: &At<'a>, part: &Ref<Part>) -> Found<&'a Named<Material>> {
    Ok(at.machine().follow(at.part(&at.machine().follow(part).value.material)?))
}

fn screws(joint: &Joint, at: &At<'_>) -> Found<Counted<Thread>> {
    let text = at.part(&joint.screws)?;
    quantity::read_counted_thread(text)
        .map_err(|_| NotJudged::NoSolution(format!("screws are read as `6 x M4`, not as `{text}`")))
}

/// Pull of one screw as it is tightened.
fn pull(joint: &Joint, screw: Thread, at: &At<'_>) -> Found<Force> {
    match at.try_get(&joint.preload) {
        Some(preload) => Ok(preload),
        None => {
            let torque = at.need(&joint.torque)?;
            Ok(physics::clamp::preload(torque, screw.diameter, at.need(&at.assumed().nut_factor)?))
        }
    }
}

/// The thread's own body: the last of the joint, if it is of plastic.
fn threaded<'a>(joint: &Joint, at: &At<'a>) -> Found<Option<&'a Named<Material>>> {
    let Some(last) = joint.of.last() else { return Ok(None) };
    let material = body(at, last)?;
    Ok(Some(material).filter(|material| soft(material)))
}

const METAL: Outcome = Outcome::Aside("its thread is in metal");

/// What shears round the thread: its diameter, its length, and the share of the wall that shears.
struct Hold {
    diameter: Length,
    length: Length,
    share: Ratio,
    shear: Pressure,
}

fn hold(joint: &Joint, material: &Material, screw: Thread, at: &At<'_>) -> Found<Hold> {
    let insert = joint.insert.is_some();
    let length = at.need(&joint.insert_length)?;
    let diameter = match at.try_get(&joint.insert_diameter) {
        Some(diameter) => diameter,
        None if insert => at.need(&joint.insert_diameter)?,
        None => at.or_take(&joint.insert_diameter, screw.diameter, "that of the screw"),
    };
    let assembled = at.or(&at.machine().environment.assembled_at, &at.assumed().assembled_at)?;
    let shear =
        at.need(&material.shear_strength)? * strength::warmth(at, material, assembled)? * strength::damp(at, material)?;
    let share = Ratio::from_si(if insert { 0.7 } else { 0.5 });
    Ok(Hold { diameter, length, share, shear })
}

fn drawn(joint: &Named<Joint>, at: &At<'_>) -> Found<Outcome> {
    let Some(material) = threaded(&joint.value, at)? else { return Ok(METAL) };
    let screw = screws(&joint.value, at)?.each;
    let hold = hold(&joint.value, material, screw, at)?;
    let limit = physics::bolted::tears_out(hold.diameter, hold.length, hold.shear, hold.share);
    let required = Required { value: 2.0, why: "plastic round a thread" };
    let margin = Margin::ratio::<m::Force>(pull(&joint.value, screw, at)?, limit, required, Consequence::RunOver);
    Ok(Outcome::Held(says::drawn(joint, at, margin)))
}

fn turned(joint: &Named<Joint>, at: &At<'_>) -> Found<Outcome> {
    let Some(material) = threaded(&joint.value, at)? else { return Ok(METAL) };
    if joint.value.insert.is_none() {
        return Ok(Outcome::Aside("it has no insert"));
    }
    let screw = screws(&joint.value, at)?.each;
    let hold = hold(&joint.value, material, screw, at)?;
    let limit = physics::bolted::turns_out(hold.diameter, hold.length, hold.shear, hold.share);
    let required = Required { value: 2.0, why: "plastic round an insert" };
    let margin = Margin::ratio::<m::Torque>(at.need(&joint.value.torque)?, limit, required, Consequence::RunOver);
    Ok(Outcome::Held(says::turned(joint, at, margin)))
}

fn head(joint: &Named<Joint>, at: &At<'_>) -> Found<Outcome> {
    let Some(first) = joint.value.of.first() else { return Ok(Outcome::Aside("it joins nothing")) };
    if !soft(body(at, first)?) {
        return Ok(Outcome::Aside("its heads lie on metal"));
    }
    let screw = screws(&joint.value, at)?.each;
    let pull = pull(&joint.value, screw, at)?;
    let pressure = pull / physics::bolted::head_face(screw.diameter);
    let material = body(at, first)?;
    let assembled = at.or(&at.machine().environment.assembled_at, &at.assumed().assembled_at)?;
    let limit = at.or(&material.compressive_strength, &material.tensile_strength)?
        * strength::warmth(at, material, assembled)?
        * strength::damp(at, material)?;
    let required = Required { value: 1.0, why: "a head that sinks in shows at once" };
    let margin = Margin::ratio::<m::Stress>(pressure, limit, required, Consequence::RunOver);
    Ok(Outcome::Held(says::head(joint, at, margin)))
}
