//! The words of a hot flank.

use gears::{Pair, Side, ToothHeat};
use rule::prelude::*;

pub(crate) fn flank(pair: &Pair<'_>, side: Side, at: &At<'_>, heat: ToothHeat, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        let (gear, name) = (pair.gear(side), side.word());
        w.happens = format!("the {name}'s teeth soften where they rub, smear and melt: the machine stands");
        if let Ok(air) = pair.air(at) {
            w.numbers.push(format!("The air round the gears is at {}.", shown::<m::Temperature>(air)));
        }
        if let Ok(Some(load)) = pair.load(at) {
            w.numbers.push(format!("{} go through the mesh.", shown::<m::Power>(load.power)));
        }
        if heat.measured {
            w.label(gear.temperature.id(), "as measured");
        } else {
            let printed = pair
                .material(at, side)
                .is_ok_and(|material| strength::making(at, &gear.build, material) == Some(Making::Printed));
            w.numbers.push(if printed {
                "An estimate: on printed teeth it may be 20 to 30 K off either way.".into()
            } else {
                "An estimate, good to some 20 K.".into()
            });
            w.clears.push("hold a thermometer into the teeth at the end of a climb: 10 K are enough then".into());
        }
        w.label(gear.material.id(), "softens here");
        w.label(pair.stage.lubrication.id(), "what keeps the flanks apart");
        let width = if at.is_given(&gear.face_width) { gear.face_width.id() } else { pair.stage.face_width.id() };
        w.label(width, "what spreads the heat");
        clears(pair, side, at, w);
    })
}

fn clears(pair: &Pair<'_>, side: Side, at: &At<'_>, w: &mut Words) {
    let greased = pair.stage.lubrication.there().is_some_and(|by| matches!(by, Lubrication::Grease | Lubrication::Oil));
    if !greased && pair.stage.grease.is_none() {
        w.clears.push("grease the teeth: it takes more than half of the rubbing away".into());
    }
    let mate = pair.material(at, side.other()).is_ok_and(|mate| strength::hard(mate));
    if !mate {
        w.clears.push(format!("a {} of metal: it rubs less and takes heat away", side.other().word()));
    }
    w.clears.push("wider or larger gears, or a material that stands more heat".into());
    w.clears.push("air through the gear case".into());
}
