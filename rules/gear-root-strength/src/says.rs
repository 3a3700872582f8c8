//! The words of each check.

use crate::{Tooth, tooth as worked_out};
use gears::{Pair, Side};
use rule::prelude::*;

pub(crate) fn tooth(pair: &Pair<'_>, side: Side, at: &At<'_>, tooth: &Tooth, margin: Margin) -> Margin {
    let times = margin.required.value / margin.held.reserve();
    margin.tell(at, |w| {
        let (gear, name) = (pair.gear(side), side.word());
        w.happens = if tooth.load.blow {
            format!("the landing breaks teeth out of the {name}: the motor turns freely and the machine stands, or rolls back")
        } else {
            format!("the {name}'s teeth bend until they crack at the root and break out: the machine stands")
        };
        numbers(pair, side, at, tooth, w);
        order(pair, side, at, tooth, w);
        w.label(gear.teeth.id(), "its teeth");
        w.label(gear.material.id(), "what they are made of");
        w.label(gear.build.id(), "how they are made");
        w.label(pair.stage.module.id(), "small teeth");
        let width = if at.is_given(&gear.face_width) { gear.face_width.id() } else { pair.stage.face_width.id() };
        w.label(width, "what carries them");
        clears(pair, side, at, times, w);
    })
}

fn numbers(pair: &Pair<'_>, side: Side, at: &At<'_>, tooth: &Tooth, w: &mut Telling<'_>) {
    let allowed = &tooth.allowed;
    w.numbers.push(format!(
        "Its root is loaded with {} and stands {}, counting {} loads at {}.",
        shown::<m::Stress>(tooth.stress),
        shown::<m::Stress>(allowed.stress),
        show(allowed.cycles.si(), <m::Ratio as quantity::Measure>::KIND, None),
        shown::<m::Temperature>(allowed.root),
    ));
    if let Ok(material) = pair.material(at, side) {
        w.numbers.extend(strength::gone_soft(at, material, allowed.root));
    }
    let torque = if side == Side::Pinion { tooth.load.pinion } else { tooth.load.wheel };
    w.numbers.push(format!(
        "{} go through the {}; what is uneven makes {} times as much of that.",
        shown::<m::Torque>(torque),
        side.word(),
        shown::<m::Ratio>(tooth.factor)
    ));
    if tooth.counts < Ratio::from_si(1.0) {
        w.numbers.push(format!(
            "That is the highest of the log; all its loads together, each by how often it comes, wear the tooth out as {} \
             times it in every turn would.",
            show(tooth.counts.si(), <m::Ratio as quantity::Measure>::KIND, None)
        ));
    }
    if allowed.tested {
        w.numbers.push("The tooth that was pressed speaks for its strength.".into());
        w.label(pair.gear(side).tested.id(), "what it held");
    }
    if let Ok(heat) = pair.teeth(at, side)
        && heat.measured
    {
        w.label(pair.gear(side).temperature.id(), "as warm as measured");
    }
}

/// Which of the two fails first, and when the other one is next.
fn order(pair: &Pair<'_>, side: Side, at: &At<'_>, tooth: &Tooth, w: &mut Telling<'_>) {
    let Ok(Some(other)) = worked_out(pair, side.other(), at) else { return };
    let (own, others) = (tooth.reserve(), other.reserve());
    let (name, mate) = (side.word(), side.other().word());
    let times = show(others / own, <m::Ratio as quantity::Measure>::KIND, None);
    w.numbers.push(if own <= others {
        format!("Of the two the {name} fails first. Make it more than {times} times as strong, and the {mate} is next.")
    } else {
        format!("The {mate} fails before it.")
    });
}

fn clears(pair: &Pair<'_>, side: Side, at: &At<'_>, times: f64, w: &mut Telling<'_>) {
    let (gear, name) = (pair.gear(side), side.word());
    if let Ok(width) = pair.face_width(at, side)
        && times > 1.0
        && times < 2.5
        // What was pressed was a tooth of this width: it says nothing of a wider one.
        && gear.tested.there().is_none()
    {
        let width = width * times;
        let says = |width: &str| format!("a face width of {width} on both gears");
        let of_one = Side::BOTH.iter().find(|side| at.is_given(&pair.gear(**side).face_width));
        match of_one {
            Some(side) => w.clears.push(says(&at.show(&pair.gear(*side).face_width, width))),
            None => w.at_least(&pair.stage.face_width, width, says),
        }
    }
    if let Ok(module) = at.need(&pair.stage.module) {
        w.clears.push(format!(
            "larger teeth than {}, with the same diameters and fewer of them",
            shown::<m::Length>(module)
        ));
    }
    let hard = pair.material(at, side).is_ok_and(|material| strength::hard(material));
    w.clears.push(if hard {
        format!("a {name} cut from hardened steel")
    } else {
        format!("a {name} of metal, or machined from stock rather than printed")
    });
    if !hard && !gear.tested.there().is_some_and(|trial| at.is_given(&trial.torque)) {
        w.clears.push(
            "press one tooth until it breaks (lever and fish scale): 2 is enough for a tooth that was tested".into(),
        );
    }
    if at.case().is_ok_and(|case| case.kind.lands()) {
        w.clears.push("something that gives way first: a shear pin, a slipping clutch, a soft coupling".into());
    }
}

pub(crate) fn flank(
    pair: &Pair<'_>,
    side: Side,
    at: &At<'_>,
    (pressure, stands): (Pressure, Pressure),
    margin: Margin,
) -> Margin {
    margin.tell(at, |w| {
        let name = side.word();
        w.happens = format!("pits grow on the {name}'s flanks: it gets loud, rough and loose, and breaks in the end");
        w.numbers.push(format!(
            "Its flanks press with {}; {} is what they stand.",
            shown::<m::Stress>(pressure),
            shown::<m::Stress>(stands)
        ));
        w.label(pair.gear(side).material.id(), "too soft for this pressure");
        w.label(pair.stage.face_width.id(), "what carries it");
        w.clears.push(format!("a hardened {name}"));
        w.clears.push("wider gears, or a larger pinion".into());
    })
}

pub(crate) fn web(web: &Web, side: Side, at: &At<'_>, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        let name = side.word();
        w.happens = format!("the {name}'s web shears from vent to vent: the rim turns without its hub");
        w.label(web.vents.id(), "holes that take their width out of the web");
        w.label(web.thickness.id(), "a thin web");
        w.clears.push("fewer or smaller vents, a thicker web, or vents farther out".into());
    })
}
