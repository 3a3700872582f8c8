#![no_std]
//! Screwed joints that keep something in its place by friction. It never knows: seals, inserts, other rules.

use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "joint-slip",
    area: Area::Structure,
    question: "Does the friction under its screws keep each joint that holds gears in place from shifting?",
    explains: "A gear case plate or a motor mount is held by friction alone: screws stand in holes with room. When it shifts the \
               gears run into each other or out of mesh, and slotted holes shift soonest.",
    formula: "F = µ·n·FK, FK the pull of one screw after it has settled, against the force of the teeth with its shock; by its \
              torque M/(K·d), or as measured",
    source: "VDI 2230-1 (friction grip), published; nut factor, friction, what plastic keeps: common practice, no source",
    checked: "torque and pull by VDI 2230 and by the rule of thumb. The force is taken through the middle of the screws; one beside \
              it also turns the joint, which is left out and errs to the unsafe side; pins and shoulders are left out, which errs \
              to the safe side.",
    required: "1.5 on a tightening torque, 2 on screws tightened by feel (common practice)",
    caution: "",
};

#[derive(Debug)]
pub struct JointSlip;

impl Rule for JointSlip {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for joint in machine.structure.joints.iter().filter(|joint| joint.value.holds.there().is_some()) {
            let mut on = checks.on(&joint.key);
            on.check("shifts", |at| shifts(joint, at));
        }
    }
}

/// The two or more bodies of a joint.
fn bodies<'a>(joint: &Joint, at: &At<'a>) -> Found<Vec<&'a Named<Material>>> {
    let of = |part: &Ref<Part>| Ok(at.machine().follow(at.part(&at.machine().follow(part).value.material)?));
    joint.of.iter().map(of).collect()
}

fn soft(material: &Material) -> bool {
    matches!(material.family, Family::PrintedPolymer | Family::Polymer | Family::Elastomer | Family::Wood)
}

/// What a joint's screws pull with together, once they have settled, and how many there are.
#[derive(Debug, Clone, Copy)]
struct Pull {
    each: Force,
    kept: Ratio,
    screws: f64,
    by_feel: bool,
}

fn pull(joint: &Joint, at: &At<'_>) -> Found<Pull> {
    let text = at.part(&joint.screws)?;
    let screws = quantity::read_counted_thread(text)
        .map_err(|_| NotJudged::NoSolution(format!("screws are read as `6 x M4`, not as `{text}`")))?;
    let (each, by_feel) = match (at.try_get(&joint.preload), at.try_get(&joint.torque)) {
        (Some(preload), _) => (preload, false),
        (None, Some(torque)) => {
            (physics::clamp::preload(torque, screws.each.diameter, at.need(&at.assumed().nut_factor)?), false)
        }
        (None, None) => {
            let tension = at.or_take(&joint.torque, Torque::ZERO, "tightened by feel");
            let stress = at.need(&at.assumed().screw_tension)?;
            let area = physics::screw::stress_area(screws.each.diameter, screws.each.pitch);
            (Force::from_si(stress.si() * area.si() + tension.si()), true)
        }
    };
    let yields = bodies(joint, at)?.iter().any(|body| soft(body));
    let kept = if yields {
        at.or(&joint.preload_kept, &at.assumed().preload_kept)?
    } else {
        at.or_take(&joint.preload_kept, Ratio::from_si(1.0), "100 %")
    };
    Ok(Pull { each, kept, screws: f64::from(screws.count), by_feel })
}

/// Of the teeth of the stage that it holds, shock counted in.
fn pushes(joint: &Joint, at: &At<'_>) -> Found<Option<Force>> {
    // That it holds gears makes it a joint to be judged: it is no figure that could be missing.
    let Some(name) = joint.holds.there() else { return Ok(None) };
    let Some(pair) = gears::pairs(at.machine()).find(|pair| pair.stage.name == *name) else {
        return Err(NotJudged::NoSolution(format!("it holds `{name}`, and no pair of gears has that name")));
    };
    let Some(load) = pair.load(at)? else { return Ok(None) };
    let shock = load.shock(at)?.si();
    Ok(Some(pair.mesh(at)?.separating_force(load.pinion * shock) * load.meshes))
}

fn shifts(joint: &Named<Joint>, at: &At<'_>) -> Found<Outcome> {
    let Some(force) = pushes(&joint.value, at)? else {
        return Ok(Outcome::Aside("nothing is driven in this case"));
    };
    let pull = pull(&joint.value, at)?;
    let friction = at.or(&joint.value.friction, &at.assumed().clamp_friction)?;
    let one = Ratio::from_si(1.0);
    let holds = physics::bolted::slips_at(pull.each * pull.kept.si(), Ratio::from_si(pull.screws), friction, one);
    let required = if pull.by_feel {
        Required { value: 2.0, why: "screws tightened by feel" }
    } else {
        Required { value: 1.5, why: "screws scatter" }
    };
    let margin = Margin::ratio::<m::Force>(force, holds, required, Consequence::Stranded);
    Ok(Outcome::Held(says::shifts(joint, at, &pull, friction, margin)))
}
