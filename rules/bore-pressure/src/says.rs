//! The words of each check.

use crate::Bore;
use gears::{Pair, Side};
use rule::prelude::*;

type Pressed = (Pressure, Pressure);

pub(crate) fn pressed(pair: &Pair<'_>, side: Side, at: &At, bore: &Bore, pressed: Pressed, margin: Margin) -> Margin {
    let times = margin.required.value / margin.held.reserve();
    margin.tell(at, |w| {
        let name = side.word();
        w.happens =
            format!("the {name}'s hub is crushed round what it sits on: it wobbles, and its teeth bear on one edge");
        told(pair, side, bore, pressed, w);
        soft(pair, side, at, bore, w);
        clears(side, bore, times, w);
    })
}

pub(crate) fn burst(pair: &Pair<'_>, side: Side, at: &At, bore: &Bore, pressed: Pressed, margin: Margin) -> Margin {
    let times = margin.required.value / margin.held.reserve();
    margin.tell(at, |w| {
        let name = side.word();
        w.happens = format!("the {name}'s hub bursts: the motor turns freely, and the machine stands or rolls back");
        w.numbers.push(format!(
            "Beside its hole {} pull; {} is what it stands.",
            shown::<m::Stress>(pressed.0),
            shown::<m::Stress>(pressed.1)
        ));
        let wall = shown::<m::Distance>((bore.outside - bore.diameter) / 2.0);
        w.numbers.push(format!("{wall} of plastic stand round the hole."));
        soft(pair, side, at, bore, w);
        blame(pair, side, w);
        w.clears.push(format!("a {name} with more material round its hole"));
        clears(side, bore, times, w);
    })
}

pub(crate) fn creeps(pair: &Pair<'_>, side: Side, at: &At, bore: &Bore, pressed: Pressed, margin: Margin) -> Margin {
    let times = margin.required.value / margin.held.reserve();
    margin.tell(at, |w| {
        let name = side.word();
        w.happens =
            format!("the {name}'s hole creeps oval within a season: it wobbles, and its teeth bear on one edge");
        told(pair, side, bore, pressed, w);
        soft(pair, side, at, bore, w);
        clears(side, bore, times, w);
    })
}

fn soft(pair: &Pair<'_>, side: Side, at: &At, bore: &Bore, w: &mut Words) {
    if let Ok(material) = pair.material(at, side) {
        w.numbers.extend(strength::gone_soft(at, material, bore.here));
    }
}

fn told(pair: &Pair<'_>, side: Side, bore: &Bore, (pressure, stands): Pressed, w: &mut Words) {
    w.numbers.push(format!(
        "The teeth push with {}; at the end of its hole that is {} against {}.",
        shown::<m::Force>(bore.force),
        shown::<m::Stress>(pressure),
        shown::<m::Stress>(stands)
    ));
    w.numbers.push(format!("Its plastic is at {}.", shown::<m::Temperature>(bore.here)));
    if bore.offset > Length::ZERO {
        let offset = shown::<m::Distance>(bore.offset);
        w.numbers.push(format!("The push stands {offset} beside the middle of the hole and tilts it."));
    }
    blame(pair, side, w);
}

fn blame(pair: &Pair<'_>, side: Side, w: &mut Words) {
    let gear = pair.gear(side);
    match gear.hub.there() {
        Some(hub) => {
            let hole = if hub.form == HubForm::Insert { hub.outer_diameter.id() } else { gear.bore.id() };
            w.label(hole, "a thin hole");
            w.label(hub.length.id(), "a short hole");
            w.label(hub.offset.id(), "beside the teeth");
        }
        None => w.label(gear.bore.id(), "a thin hole, straight on the shaft"),
    }
    w.label(gear.material.id(), "soft");
}

fn clears(side: Side, bore: &Bore, times: f64, w: &mut Words) {
    if times > 1.0 && times < 3.0 {
        let length = shown::<m::Length>(bore.length * times);
        w.clears.push(format!("a hole {length} long, with the teeth over its middle"));
    }
    w.clears.push(if bore.insert {
        "a larger insert, as wide as the hub".to_string()
    } else {
        format!("a metal insert of full width in the {}, at least twice as thick as the shaft", side.word())
    });
    w.clears.push(format!("a {} of metal", side.word()));
}
