//! The words of each check.

use loads::Loaded;
use rule::prelude::*;

pub(crate) fn across(part: &Named<Part>, at: &At<'_>, load: &Loaded, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        let name = part.name();
        w.happens = format!("{name} parts clean between two layers, without warning");
        pushed(load, w);
        laid(part, w, "its layers lie straight across the pull");
        w.clears.push(format!("{name} laid so that its layers run along it (flat_on_bed)"));
        w.clears.push("a screw or a glued rod right through it along its length".into());
        w.clears.push("a section that is higher where it is held".into());
    })
}

pub(crate) fn between(part: &Named<Part>, at: &At<'_>, load: &Loaded, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        let name = part.name();
        w.happens = format!("the layers of {name} slide apart along its middle");
        pushed(load, w);
        laid(part, w, "the force runs across these layers");
        if let Some(build) = part.value.build.there() {
            w.label(build.walls.id(), "walls carry this shear");
        }
        w.clears.push("more walls or more infill".into());
        w.clears.push("a wider section".into());
    })
}

pub(crate) fn bond(part: &Named<Part>, at: &At<'_>, load: &Loaded, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        let name = part.name();
        w.happens = format!("the rods tear loose in {name}, which is then no stronger than without them");
        pushed(load, w);
        if let Some(rods) = part.value.rods.there() {
            w.label(rods.diameter.id(), "little skin for the glue");
            w.label(rods.bond.id(), "this bond hands over their pull");
        }
        w.clears.push("more rods of the same thickness, or thicker ones".into());
        w.clears.push("rods that go past the support, so that their ends lie where nothing bends".into());
    })
}

fn pushed(load: &Loaded, w: &mut Telling<'_>) {
    for (name, force, place) in &load.pushes {
        w.numbers.push(format!("{name}: {} at {}.", shown::<m::Force>(*force), shown::<m::Length>(*place)));
    }
}

fn laid(part: &Named<Part>, w: &mut Telling<'_>, says: &str) {
    if let Some(build) = part.value.build.there() {
        w.label(build.laid.id(), says);
    }
}
