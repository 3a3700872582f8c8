//! The words of what gets hotter after the stop.

use crate::Soaked;
use rule::prelude::*;

/// What happened, in numbers, and what helps against any soaking.
fn tell(at: &At, soaked: &Soaked<'_>, w: &mut Words) {
    let (end, peak) = (soaked.course.end(), soaked.course.peak());
    let stop = shown::<m::Temperature>(end);
    w.numbers.push(if soaks(soaked) {
        let (highest, after) = (shown::<m::Temperature>(peak.temperature), shown::<m::Duration>(peak.after));
        format!("It stops at {stop}, and {after} later it is at {highest}.")
    } else {
        format!("It stops at {stop} and only cools from then on.")
    });
    if let Ok(case) = at.case()
        && at.is_given(&case.value.duration)
    {
        w.label(case.value.duration.id(), "heated for as long");
    }
    if !at.machine().cooling.circuit.is_empty() {
        w.clears.push("let the pump run on for ten minutes after the stop".into());
    }
    w.clears.push("drive the last minutes slowly, or leave the hood open after the stop".into());
}

/// Whether it gets hotter after the stop than it was.
fn soaks(soaked: &Soaked<'_>) -> bool {
    soaked.course.peak().after.si() > 0.0
}

pub(crate) fn magnets(at: &At, soaked: &Soaked<'_>, w: &mut Words) {
    w.happens = "the motor goes weak for good: heat from its winding soaks into the magnets after the stop".into();
    w.label(soaked.node, "the limit");
    tell(at, soaked, w);
}

pub(crate) fn controller(at: &At, soaked: &Soaked<'_>, w: &mut Words) {
    w.happens = "the controller fails: nothing takes its heat out after the stop".into();
    w.label(soaked.node, "the limit");
    tell(at, soaked, w);
}

pub(crate) fn pinion(at: &At, pinion: &Gear, soaked: &Soaked<'_>, w: &mut Words) {
    w.happens = if soaks(soaked) {
        "the pinion comes loose on its shaft: the rotor's heat soaks into it after the stop and softens its bore"
    } else {
        "the pinion comes loose on its shaft: the rotor heats it while it drives and softens its bore"
    }
    .into();
    w.label(pinion.material.id(), "softens first");
    tell(at, soaked, w);
    w.clears.push("a pinion of metal, or of a polymer that softens later".into());
}

pub(crate) fn part(at: &At, part: &Named<Part>, carries: bool, soaked: &Soaked<'_>, w: &mut Words) {
    let name = part.name();
    let when = if soaks(soaked) { "after the stop" } else { "already while it drives" };
    w.happens = if carries {
        format!("the motor leans and its gears jump: {name} softens under it {when}")
    } else {
        format!("{name} sags out of shape: what stands beside it heats it {when}")
    };
    w.label(part.material.id(), format!("softens at {}", shown::<m::Temperature>(soaked.limit)));
    tell(at, soaked, w);
    w.clears.push(format!("{name} of a material that softens later"));
    w.clears.push("a metal plate or a sheet of glass fibre between, held by long screws".into());
}
