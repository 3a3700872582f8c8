//! The words of a hub that gets hot.

use crate::{Hub, Pair, Side};
use rule::prelude::*;

pub(crate) fn room(pair: &Pair<'_>, side: Side, w: &mut Words) {
    let gear = format!("the {} of {}", side.word(), pair.stage.name);
    w.happens = format!("the hub of {gear} melts: its face has no room and rubs on what is beside it");
    w.label(pair.gear(side).side_clearance.id(), "too little room");
    w.clears.push("a spacer ring on the inner ring alone, so that 0.3 mm or more stay free".into());
    w.clears.push("turn some tenths off the face beside the bearing".into());
}

/// Hottest while the case lasts and after it.
pub(crate) fn highest(found: &Hub) -> ThermodynamicTemperature {
    let (during, after) = (found.course.hottest(), found.course.peak().temperature);
    if after > during { after } else { during }
}

/// A hub and its limit.
pub(crate) struct Hot<'a> {
    pub(crate) pair: &'a Pair<'a>,
    pub(crate) side: Side,
    pub(crate) found: &'a Hub,
    pub(crate) limit: ThermodynamicTemperature,
    pub(crate) node: NodeId,
}

pub(crate) fn heat(at: &At, hot: &Hot<'_>, w: &mut Words) {
    let (gear, heats) = (hot.pair.gear(hot.side), hot.found.heats);
    let name = format!("the {} of {}", hot.side.word(), hot.pair.stage.name);
    w.happens = format!("the hub of {name} softens, and the shaft or its insert turns in it");
    let watts = |power: Power| shown::<m::Power>(power);
    w.numbers.push(format!(
        "Rubbing face {}, bearing {}, journal {}, half of the mesh {}.",
        watts(heats.rubbing),
        watts(heats.bearing),
        watts(heats.journal),
        watts(heats.mesh)
    ));
    if let Some(holds) = hot.found.course.rises_to(hot.limit) {
        w.numbers.push(format!(
            "It reaches {} after {}.",
            shown::<m::Temperature>(hot.limit),
            shown::<m::Duration>(holds)
        ));
    }
    let peak = hot.found.course.peak();
    if peak.after.si() > 0.0 {
        let (after, highest) = (shown::<m::Duration>(peak.after), shown::<m::Temperature>(peak.temperature));
        w.numbers.push(format!("It is hottest {after} after the stop, at {highest}."));
    }
    w.label(gear.material.id(), "keeps heat in");
    w.label(hot.node, "the limit");
    if heats.rubbing > Power::ZERO {
        w.label(gear.side_clearance.id(), "no room: it rubs");
        w.clears.push("a spacer ring on the inner ring alone, so that 0.3 mm or more stay free".into());
    }
    if heats.journal > Power::ZERO {
        w.clears.push("glue or clamp the bearing's inner ring to the shaft, and grease it for this cold".into());
    }
    if at.try_part(&gear.hub).is_none_or(|hub| hub.form == HubForm::Solid) {
        w.clears.push("a metal insert over the full width: it leads heat out into the shaft".into());
    }
    w.clears.push("a bearing seat of metal beside it".into());
    w.clears.push("a polymer for higher temperatures".into());
}
