//! The words of each check.

use crate::housing::{Housing, Wall};
use crate::{Highest, Pressed};
use rule::prelude::*;

pub(crate) fn burst(pressed: &Pressed<'_>, at: &At, highest: &Highest, w: &mut Words) {
    let hose = pressed.hose;
    w.happens = format!("{} bulges and bursts: the loop empties itself, hot", hose.name());
    pressing(at, highest, w);
    if at.is_given(&hose.working_pressure) {
        w.label(hose.working_pressure.id(), "more than this it is not made for");
    } else {
        w.label(hose.wall.id(), "this wall has to hold it");
        w.label(hose.material.id(), "and is as stiff and strong as this");
    }
    w.clears.push("a hose with fabric in it, with its working pressure stated".into());
    w.clears.push("a thicker wall or a smaller bore".into());
}

pub(crate) fn slips(pressed: &Pressed<'_>, at: &At, highest: &Highest, w: &mut Words) {
    let hose = pressed.hose;
    w.happens = format!("an end of {} slips off its barb: the loop empties itself, hot", hose.name());
    pressing(at, highest, w);
    if at.is_given(&hose.held) {
        w.label(hose.held.id(), "what it held when it was tried");
    } else if let Some(barb) = hose.barb.there() {
        w.label(barb.diameter.id(), "stretched over this");
        w.label(barb.length.id(), "and held over this length");
    }
    if hose.clamped != Some(true) {
        w.clears.push("a clamp on each end".into());
    }
    w.clears.push("a longer barb with a ridge behind which the clamp sits".into());
    w.clears.push("try it: cold, with water and a pressure gauge, behind a shield, and write what it `held`".into());
}

pub(crate) fn housing(housing: &Housing<'_>, at: &At, highest: &Highest, w: &mut Words) {
    w.happens = format!("a wall of {} cracks or opens: the loop empties itself where it stands", housing.name);
    pressing(at, highest, w);
    w.numbers.extend(housing.gone_soft(at, highest.temperature));
    if at.is_given(housing.stated) {
        w.label(housing.stated.id(), "more than this it is not made for");
        return w.clears.push(format!("a {} that is made for more", housing.name));
    }
    match housing.wall {
        Wall::Lid(plate) => {
            if let Some(channel) = plate.channel.there() {
                w.label(channel.cover.id(), "the wall over the channel");
                w.label(channel.width.id(), "which it spans");
            }
            w.clears
                .push("narrower channels, more of them: the wall stands four times as much at half the width".into());
        }
        Wall::Reservoir(reservoir) => {
            if let Some(walls) = reservoir.walls.there() {
                w.label(walls.thickness.id(), "this wall");
                w.label(walls.width.id(), "spans this width");
            }
            w.clears.push("a round reservoir, ribs on its flat walls, or smaller ones".into());
        }
        Wall::Unknown => {}
    }
    w.clears.push("a thicker wall: twice as thick it stands four times as much".into());
}

/// Where the pressure comes from, and what takes it off everything at once.
fn pressing(at: &At, highest: &Highest, w: &mut Words) {
    let pump = &at.machine().cooling.pump;
    if highest.pump > Pressure::ZERO {
        w.numbers.push(format!(
            "The pump pushes {} against a closed strainer or a pinched hose.",
            shown::<m::PressureLoss>(highest.pump)
        ));
        w.label(
            if at.is_given(&pump.relief) { pump.relief.id() } else { pump.stall_pressure.id() },
            "as hard as the pump pushes",
        );
        let valve = if at.is_given(&pump.relief) {
            "a relief valve that opens sooner"
        } else {
            "a relief valve across the pump"
        };
        w.clears.push(valve.into());
    }
    let gas = highest.pressure - highest.pump;
    if gas > Pressure::ZERO {
        w.numbers.push(format!("The gas in the reservoir adds {}.", shown::<m::GaugePressure>(gas)));
    }
    w.numbers.push(format!("It is at {} there.", shown::<m::Temperature>(highest.temperature)));
}
