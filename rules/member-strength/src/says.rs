//! The words of each check.

use loads::{Loaded, Member, Proof};
use rule::prelude::*;

pub(crate) fn bending(
    part: &Named<Part>,
    at: &At<'_>,
    member: &Member<'_>,
    load: &Loaded,
    proof: &Proof,
    margin: Margin,
) -> Margin {
    let required = margin.required.value;
    let (limit, metal) = (proof.limit(member.limit), member.material.family == Family::Metal);
    margin.tell(at, |w| {
        let name = part.name();
        w.happens = if metal {
            format!("{name} bends and stays bent")
        } else {
            format!("{name} snaps where it is bent hardest")
        };
        pushed(load, w);
        let most = [load.in_height.as_ref(), load.in_width.as_ref()].into_iter().flatten();
        for bent in most {
            let here = bent.hardest_bent();
            w.numbers.push(format!(
                "Highest moment {}, {} from its left or clamped end.",
                shown::<m::Torque>(here.moment.abs()),
                shown::<m::Length>(here.at)
            ));
        }
        w.numbers.push(format!("It gives way by {}.", shown::<m::Distance>(load.stresses.deflection)));
        if proof.at_least.is_some() || proof.at_most.is_some() {
            w.numbers.push(format!(
                "Its limit of {} is worked back from what it held or broke at.",
                shown::<m::Stress>(limit)
            ));
        } else {
            w.numbers.push(format!(
                "Its limit is the {} of {} at {}.",
                member.limit_is,
                member.material.name(),
                shown::<m::Temperature>(member.here)
            ));
        }
        section(&part.value, w, "this section is what is bent");
        w.label(part.value.span.id(), "free over this length");
        for push in part.value.pushed.iter() {
            w.label(push.value.at.id(), "pushes here");
        }
        // Von Mises of a metal also holds shear, and a limit worked back from a test goes with the section that was tested: no number
        // is promised there.
        let tested = proof.at_least.is_some() || proof.at_most.is_some();
        if !metal
            && !tested
            && let Some(height) = member.height_for(load, limit / required)
        {
            taller(&part.value, height, w);
        }
        if member.bond.is_some_and(|bond| bond != Bond::Glued)
            && let Some(rods) = part.value.rods.there()
        {
            w.label(rods.bond.id(), "rods that slide only help along");
            w.clears.push("glue its rods in along their whole length, both sanded".into());
        } else if member.grain.printed && part.value.rods.there().is_none() {
            w.clears.push("rods of pultruded fibre glued in near its top and its foot".into());
        }
        w.clears.push("another support, or a shorter free length".into());
        w.clears.push(if metal { "a stronger steel, hardened and tempered" } else { "a section of metal" }.into());
    })
}

pub(crate) fn rods(part: &Named<Part>, at: &At<'_>, load: &Loaded, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        w.happens = format!("the rods in {} snap, and the print alone carries nothing", part.name());
        pushed(load, w);
        if let Some(rods) = part.value.rods.there() {
            w.label(rods.diameter.id(), "thin rods");
            w.label(rods.offset.id(), "the farther out, the harder they are pulled");
        }
        w.clears.push("thicker rods, or more of them".into());
        w.clears.push("another support, or a shorter free length".into());
    })
}

pub(crate) fn buckling(part: &Named<Part>, at: &At<'_>, member: &Member<'_>, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        w.happens = format!("{} buckles sideways under the push along it", part.name());
        w.numbers.push(format!("Free length {}.", shown::<m::Length>(member.length)));
        section(&part.value, w, "thin in its weak direction");
        w.label(part.value.span.id(), "free over this length");
        w.clears.push("a section as thick in both directions".into());
        w.clears.push("a support in the middle: half the length carries four times as much".into());
    })
}

pub(crate) fn twist(part: &Named<Part>, at: &At<'_>, load: &Loaded, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        w.happens = format!("{} is twisted off by a push beside its axis", part.name());
        w.numbers.push(format!("Twist {}.", shown::<m::Torque>(load.twist)));
        for push in part.value.pushed.iter() {
            w.label(push.value.lever.id(), "so far beside the axis");
        }
        section(&part.value, w, "open and flat sections twist easily");
        w.clears.push("a closed box or tube in place of a flat section".into());
        w.clears.push("bring the push nearer to the axis".into());
    })
}

fn pushed(load: &Loaded, w: &mut Telling<'_>) {
    for (name, force, place) in &load.pushes {
        w.numbers.push(format!("{name}: {} at {}.", shown::<m::Force>(*force), shown::<m::Length>(*place)));
    }
}

fn section(part: &Part, w: &mut Telling<'_>, says: &str) {
    let Some(section) = part.section.there() else { return };
    let node = match section {
        Section::Rectangle(bar) => bar.height.id(),
        Section::Round(bar) => bar.diameter.id(),
        Section::Tube(tube) => tube.outer_diameter.id(),
        Section::Box(hollow) => hollow.height.id(),
        Section::Channel(bar) => bar.height.id(),
    };
    w.label(node, says);
}

fn taller(part: &Part, height: Length, w: &mut Telling<'_>) {
    // A hair more, for the number is found by halving.
    let height = height * 1.001;
    match part.section.there() {
        Some(Section::Rectangle(bar)) => w.at_least(&bar.height, height, |height| format!("a section {height} high")),
        Some(Section::Box(bar)) => w.at_least(&bar.height, height, |height| format!("a section {height} high")),
        Some(Section::Channel(bar)) => w.at_least(&bar.height, height, |height| format!("a section {height} high")),
        Some(Section::Round(bar)) => w.at_least(&bar.diameter, height, |d| format!("a diameter of {d}")),
        Some(Section::Tube(tube)) => w.at_least(&tube.outer_diameter, height, |d| format!("an outer diameter of {d}")),
        None => {}
    }
}
