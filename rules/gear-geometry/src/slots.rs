//! A motor that is shifted in slots to set the play, and held there by friction alone.

use crate::says;
use gears::Pair;
use quantity::{Counted, Thread, read_counted_thread};
use rule::prelude::*;

pub(crate) fn judge(pair: &Pair<'_>, at: &At) -> Found<Outcome> {
    let Some(mount) = at.try_part(&at.machine().powertrain.motor.mount) else {
        return Ok(Outcome::Aside("nothing is said of the motor's mount"));
    };
    if mount.slotted != Some(true) {
        return Ok(Outcome::Aside("its mount has no slots"));
    }
    let Some(load) = pair.load(at)? else { return Ok(Outcome::Aside("nothing is driven in this case")) };
    let mesh = pair.mesh(at)?;
    let pushed = mesh.separating_force(load.pinion * load.shock(at)?.si());
    let screws = screws(mount)?;
    let holds = clamped(at, mount, &screws)? * Ratio::from_si(f64::from(screws.count));
    let required = Required { value: 1.5, why: "screws settle and are shaken" };
    let margin = Margin::ratio::<m::Force>(pushed, holds, required, Consequence::Stranded);
    Ok(Outcome::Held(says::slots(mount, at, margin)))
}

fn screws(mount: &MotorMount) -> Found<Counted<Thread>> {
    let wrong = |what: &str| NotJudged::NoSolution(format!("the motor's mount does not say how it is screwed: {what}"));
    let written = mount.screws.as_deref().ok_or_else(|| wrong("write for example `screws: 4 x M5`"))?;
    read_counted_thread(written).map_err(|misread| wrong(&misread.says))
}

/// Friction of one screw.
fn clamped(at: &At, mount: &MotorMount, screws: &Counted<Thread>) -> Found<Force> {
    let (machine, assumed) = (at.machine(), at.assumed());
    let under: &Material = machine.follow(at.part(&machine.follow(&mount.part).value.material)?);
    let head = if strength::hard(under) { None } else { Some(at.need(&assumed.head_pressure_on_polymer)?) };
    let tension = at.need(&assumed.screw_tension)?;
    let force = physics::screw::clamping(tension, head, screws.each.diameter, screws.each.pitch);
    Ok(force * at.need(&assumed.clamp_friction)?)
}
