//! The words of each check.

use crate::{biggest_bearing, carries};
use loads::{ShaftLoads, Spot};
use rule::prelude::*;

pub(crate) fn yields(shaft: &Named<Shaft>, at: &At<'_>, load: &ShaftLoads, spot: &Spot, margin: Margin) -> Margin {
    let times = margin.required.value / margin.held.reserve();
    margin.tell(at, |w| {
        w.happens = format!("{} bends or is twisted for good at {}", shaft.name(), carries(shaft, spot));
        told(shaft, load, spot, w);
        thicker(shaft, at, times, w);
        w.clears.push("a stronger steel, hardened and tempered".into());
        closer(w);
    })
}

pub(crate) fn fatigue(shaft: &Named<Shaft>, at: &At<'_>, load: &ShaftLoads, spot: &Spot, margin: Margin) -> Margin {
    let times = margin.required.value / margin.held.reserve();
    margin.tell(at, |w| {
        w.happens = format!("{} breaks after some weeks at {}, where it is cut", shaft.name(), carries(shaft, spot));
        told(shaft, load, spot, w);
        if let Some(station) = shaft.value.stations.get(spot.station) {
            w.label(station.notch.id(), format!("this counts as {}", spot.notch.word()));
        }
        // The size factor falls a little as it gets thicker, so a hair more than the cube root.
        thicker(shaft, at, times * 1.1, w);
        w.clears.push("a rounded corner in place of a sharp one, a spacer in place of a groove".into());
        closer(w);
    })
}

pub(crate) fn slope(shaft: &Named<Shaft>, at: &At<'_>, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        w.happens =
            format!("{} tilts in its bearings: they run on the edges of their tracks and get rough", shaft.name());
        w.label(shaft.value.diameter.id(), "thin for this span");
        w.clears.push("a thicker shaft, or bearings nearer to what it carries".into());
    })
}

pub(crate) fn critical(shaft: &Named<Shaft>, at: &At<'_>, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        w.happens = format!("{} whirls: it swings out, shakes the machine and bends", shaft.name());
        w.label(shaft.value.diameter.id(), "thin for this span and speed");
        w.clears.push("a thicker shaft, bearings nearer together, or lighter wheels on it".into());
    })
}

fn told(shaft: &Named<Shaft>, load: &ShaftLoads, spot: &Spot, w: &mut Telling<'_>) {
    w.numbers.push(format!(
        "At {} it carries {} of bending and {} of torque.",
        shown::<m::Length>(spot.at),
        shown::<m::Torque>(spot.moment),
        shown::<m::Torque>(spot.torque)
    ));
    w.numbers.push(format!("Its hardest-loaded bearing takes {}.", shown::<m::Force>(biggest_bearing(load))));
    w.label(shaft.value.diameter.id(), "thin");
    w.label(shaft.value.material.id(), "what it is made of");
    for carried in &load.carried {
        if let Some(station) = shaft.value.stations.get(carried.station) {
            w.label(station.x.id(), format!("{} across it here", shown::<m::Force>(carried.force)));
        }
    }
}

fn closer(w: &mut Telling<'_>) {
    w.clears.push("bearings close beside the hardest-loaded wheel".into());
}

/// Stress falls with the cube of the diameter of a full shaft.
fn thicker(shaft: &Named<Shaft>, at: &At<'_>, times: f64, w: &mut Telling<'_>) {
    let full = at.try_get(&shaft.value.bore).is_none_or(|bore| bore == Length::ZERO);
    if let (true, Some(diameter)) = (full && times > 1.0, at.try_get(&shaft.value.diameter)) {
        let enough = diameter * physics::shaft::thicker_by(Ratio::from_si(times)).si();
        w.at_least(&shaft.value.diameter, enough, |d| format!("a shaft of {d}"));
    }
}
