//! The words of each check.

use gears::{Pair, Side};
use rule::prelude::*;

pub(crate) fn undercut(pair: &Pair<'_>, side: Side, at: &At, margin: Margin) -> Margin {
    let lacks = margin.required.value - margin.held.reserve();
    margin.tell(at, |w| {
        let (gear, name) = (pair.gear(side), side.word());
        w.happens = format!("the {name}'s teeth are cut away at their root: they are weak there and mesh unevenly");
        w.numbers
            .push("It counts as so many teeth, shift and slant counted in; 17 are sound, 14 are the least.".into());
        w.label(gear.teeth.id(), "few teeth");
        w.label(gear.profile_shift.id(), "shift makes up for missing teeth");
        let shift = show(lacks / 17.0, <m::Ratio as quantity::Measure>::KIND, None);
        w.clears.push(format!(
            "{shift} modules more profile shift, and as much more centre distance or less on the other gear"
        ));
        w.clears.push("more teeth of a smaller module".into());
    })
}

pub(crate) fn tip(pair: &Pair<'_>, side: Side, at: &At, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        let (gear, name) = (pair.gear(side), side.word());
        w.happens = format!("the {name}'s teeth run out into points that break off, or that no nozzle can lay");
        w.label(gear.tip_diameter.id(), "the farther out, the thinner");
        w.label(gear.profile_shift.id(), "shift makes tips pointed");
        w.clears.push("a smaller outside diameter, or less profile shift".into());
        w.clears.push("a larger module".into());
    })
}

pub(crate) fn contact(pair: &Pair<'_>, at: &At, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        w.happens = "a tooth lets go before the next one carries: the drive jerks, hammers and wears".into();
        w.label(pair.stage.centre_distance.id(), "too far apart");
        for side in Side::BOTH {
            w.label(pair.gear(side).tip_diameter.id(), "short teeth meet late and part early");
        }
        w.clears.push("a smaller centre distance, as far as the play allows".into());
        w.clears.push("longer teeth (a larger outside diameter), more teeth, or slanting ones".into());
    })
}

pub(crate) fn play(pair: &Pair<'_>, at: &At<'_>, margin: Margin) -> Margin {
    let lacks = margin.required.value - margin.held.reserve();
    margin.tell(at, |w| {
        w.happens = "the teeth jam: the gears get hot, grind and break, or the motor does not turn at all".into();
        warmth(pair, at, w);
        let stated = at.tolerance(&pair.stage.centre_distance).filter(|_| !at.is_given(&pair.stage.backlash));
        if let (Some(half), Ok(mesh)) = (stated, pair.mesh(at))
            && let Ok(nearer) = mesh.moved(Length::from_si(-half))
        {
            let (half, taken) = (Length::from_si(half), mesh.backlash() - nearer.backlash());
            let (half, taken) = (shown::<m::Distance>(half), shown::<m::Distance>(taken));
            w.numbers.push(format!("A centre distance {half} smaller, as its ± allows, takes another {taken} of it."));
        }
        w.label(pair.stage.centre_distance.id(), "sets the play");
        w.label(pair.stage.backlash.id(), "as assembled");
        for side in Side::BOTH {
            w.label(pair.gear(side).material.id(), "grows with warmth and water");
        }
        w.label(pair.stage.housing.id(), "grows less than its gears");
        let (mesh, module) = (pair.mesh_in_case(at), at.try_get(&pair.stage.module));
        if lacks > 0.0
            && let (Ok(mesh), Some(now), Some(module)) = (mesh, at.try_get(&pair.stage.centre_distance), module)
        {
            let more = mesh.distance_for(Length::from_si(lacks));
            // Teeth reach two modules deep into one another; a quarter of that apart they hardly mesh (common practice, no
            // source).
            if more <= module / 2.0 {
                w.more(&pair.stage.centre_distance, now, more, |more| {
                    format!("{more} more centre distance, or as much taken off the teeth")
                });
            } else {
                w.clears.push(
                    "thinner teeth, or another pair of gears: moved so far apart, these would hardly mesh".into(),
                );
            }
        }
        w.clears.push("gears of a material that swells and grows less, or a housing that grows with them".into());
        w.clears.push("for a print: dry it, then keep it dry, or let it soak before it is fitted".into());
    })
}

fn warmth(pair: &Pair<'_>, at: &At<'_>, w: &mut Words) {
    for side in Side::BOTH {
        let (Ok(heat), Ok(growth)) = (pair.teeth(at, side), pair.growth(at, side)) else { continue };
        w.numbers.push(format!(
            "The {} is at {} and {} longer all round than when it was fitted.",
            side.word(),
            shown::<m::Temperature>(heat.root),
            shown::<m::Growth>(growth)
        ));
    }
}

pub(crate) fn rim(pair: &Pair<'_>, side: Side, at: &At, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        let name = side.word();
        w.happens = format!("the {name}'s rim breaks through into a vent, and a piece with teeth on it comes off");
        w.numbers.push("Half a tooth height is the least, 0.8 of it is wanted.".into());
        if let Some(web) = pair.gear(side).web.there() {
            w.label(web.vent_diameter.id(), "large holes");
            w.label(web.vents_at.id(), "near the teeth");
        }
        w.clears.push("smaller vents, or vents nearer to the hub".into());
    })
}

pub(crate) fn slots(mount: &MotorMount, at: &At, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        w.happens = "the motor slips in its slots: the teeth part, jump and are stripped".into();
        w.numbers.push("Nothing but the friction of its screws holds it against the push of the teeth.".into());
        let part = at.machine().follow(&mount.part);
        if let Ok(material) = at.part(&part.value.material)
            && !strength::hard(at.machine().follow(material))
        {
            let held = shown::<m::Stress>(at.need(&at.assumed().head_pressure_on_polymer).unwrap_or(Pressure::ZERO));
            w.numbers.push(format!("Its plate is plastic, which goes on creeping under the heads above {held}."));
            w.label(part.value.material.id(), "creeps under the screws' heads");
            w.clears.push("a metal plate or wide washers under the heads".into());
        }
        w.label(mount.part.id, "slotted, so that the play can be set");
        w.clears.push("a stop behind the motor, or a pin through plate and motor once the play is set".into());
        w.clears.push("round holes and a fixed centre distance".into());
    })
}
