//! The words of each check.

use crate::{Fallen, Tank};
use rule::prelude::*;

pub(crate) fn covered(tank: &Tank<'_>, at: &At, fallen: &Fallen, w: &mut Telling<'_>) {
    let (reservoir, filling) = (tank.reservoir, &at.machine().cooling.coolant);
    w.happens = "the level falls to the outlet and the pump draws air: foam, and what it should cool runs hot".into();
    let shrinks = fallen.by - fallen.at_start;
    if shrinks > Length::ZERO {
        w.numbers
            .push(format!("Since it was filled the coolant has shrunk by {} of level.", shown::<m::Distance>(shrinks)));
    }
    if fallen.at_start > Length::ZERO {
        let known = if at.is_given(&reservoir.level_drop) {
            "as measured"
        } else {
            "for hoses that swell and bubbles that shrink"
        };
        w.numbers
            .push(format!("When the pump starts it falls by {} ({known}).", shown::<m::Distance>(fallen.at_start)));
    }
    w.label(reservoir.outlet_depth.id(), "so much stands over the outlet");
    w.label(reservoir.plan_area.id(), "a narrow reservoir falls far for little");
    w.label(filling.volume.id(), "all of it shrinks");
    if let Ok(depth) = at.need(&reservoir.outlet_depth) {
        let wants = fallen.by + Length::from_si(5e-3);
        if wants > depth {
            w.at_least(&reservoir.outlet_depth, wants, |deep| format!("the outlet at least {deep} below the level"));
        }
    }
    w.clears.push("a wider reservoir".into());
    w.clears.push("stiffer hoses, and bleed the loop until no bubbles come".into());
}

pub(crate) fn room(tank: &Tank<'_>, at: &At, grown: Volume, w: &mut Telling<'_>) {
    w.happens =
        "the warm coolant fills the reservoir to its lid: it spits, and what it has lost is missing in the cold".into();
    w.label(tank.reservoir.gas_space.id(), "the room that it has");
    w.label(at.machine().cooling.coolant.volume.id(), "all of it grows");
    w.at_least(&tank.reservoir.gas_space, grown * 1.25, |gas| format!("at least {gas} of gas space when it is filled"));
}

pub(crate) fn lid(tank: &Tank<'_>, lid: &Lid, at: &At, w: &mut Telling<'_>) {
    w.happens =
        "the gas opens the lid in the heat: coolant spits out, and in the cold afterwards the gas is missing".into();
    w.numbers.push(format!("The surrounding air is taken at {}.", {
        at.surroundings().map_or_else(|_| String::new(), |around| shown::<m::Pressure>(around.pressure))
    }));
    w.label(lid.pressure_max.id(), "opens here");
    w.label(tank.reservoir.gas_space.id(), "little gas is pressed hard");
    w.clears.push("more gas space: fill it less, or a taller reservoir".into());
    w.clears.push("a lid that holds more, if the walls do too".into());
    w.clears.push("a vented reservoir, where tilt and snow allow it".into());
}

pub(crate) fn seal(tank: &Tank<'_>, lid: &Lid, at: &At, w: &mut Telling<'_>) {
    w.happens =
        "the cold draws the gas together: meltwater and grit come in past the lid, dilute the coolant and freeze"
            .into();
    drawn(lid, w);
    w.label(tank.reservoir.gas_space.id(), "the gas that shrinks");
    w.label(at.machine().cooling.coolant.filled_at.id(), "closed this warm");
    w.clears.push("close the lid in the cold, outside".into());
}

pub(crate) fn walls(lid: &Lid, walls: &Walls, w: &mut Telling<'_>) {
    w.happens =
        "the cold draws the reservoir's walls in: they snap in and out with each drive and crack at an edge".into();
    drawn(lid, w);
    w.label(walls.thickness.id(), "this wall");
    w.label(walls.width.id(), "spans this width");
    w.clears.push("a rib across the widest wall, or a round reservoir".into());
}

fn drawn(lid: &Lid, w: &mut Telling<'_>) {
    w.label(lid.vacuum_valve.id(), "what lets air in");
    let valve = w.is_given(&lid.vacuum_valve);
    w.clears.push(if valve {
        "a vacuum valve that opens sooner".into()
    } else {
        "a vacuum valve in the lid that opens at a few kPa".into()
    });
}
