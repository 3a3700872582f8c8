//! The words of a wet face.

use crate::{Face, Pumped, Water, Wetted, electronics};
use physics::moisture;
use rule::prelude::*;

pub(crate) fn harmless(at: &At, zone: &str, water: Mass, which: Water) -> Words {
    let mut words = Words::default();
    if at.tells() {
        let water = shown::<m::Mass>(water);
        words.happens = match which {
            Water::ClosedIn => format!("{zone} was closed with {water} of water in it: too little to wet anything"),
            Water::InADay => {
                format!("no more than {water} of water gets into {zone} in a day: too little to wet anything")
            }
        };
    }
    words
}

pub(crate) fn wet(
    face: &Face<'_>,
    at: &At,
    pumped: Pumped,
    zone: &Named<Zone>,
    wetted: &Wetted<'_>,
    w: &mut Telling<'_>,
) {
    let (name, room) = (&face.plate.name, zone.name());
    let settles = if wetted.dew < celsius(0.0) {
        format!("rime grows on {name} inside {room}, and melts as soon as it warms up")
    } else {
        format!("water settles on {name} inside {room}")
    };
    let harm = if electronics(face.plate) {
        "the electronics on it get wet and may stop out there"
    } else {
        "what stands under it gets wet"
    };
    let when = if pumped == Pumped::Idling { " while the pump turns before there is any heat" } else { "" };
    w.happens = format!("{harm}: {settles}{when}");
    water(at, zone, wetted, w);
    w.label(zone.moisture.id(), format!("keeps the air in {room} this damp"));
    w.label(face.plate.zone.id(), "the face stands in that air");
    let pump = &at.machine().cooling.pump;
    let control = pump.runs.there();
    if control.is_some() {
        w.label(pump.runs.id(), "lets cold coolant through");
    }
    if control == Some(&PumpControl::AboveTemperature) {
        w.at_least(&pump.starts_above, wetted.starts, |warm| format!("let the pump start later: starts_above: {warm}"));
    } else {
        let warm = shown::<m::Temperature>(wetted.starts);
        w.clears.push(format!("let the pump wait for coolant above {warm} (runs: above_temperature, starts_above)"));
    }
    if let Some((other, gain)) = wetted.warmer {
        let gain = shown::<m::TemperatureDifference>(gain);
        w.clears.push(format!("lead the coolant through {other} before {name}: it arrives up to {gain} warmer"));
    }
    w.clears.push(format!("keep {room} dry: a drain at its lowest point, a dry cloth at each opening, a drying bag"));
    w.clears.push("pot or coat the electronics, so that water on them does no harm".into());
}

/// How much could settle at most.
fn water(at: &At, zone: &Named<Zone>, wetted: &Wetted<'_>, w: &mut Telling<'_>) {
    let in_air = at.try_get(&zone.volume).map(|volume| moisture::water_in_box(volume, wetted.vapour, wetted.air));
    let trapped = at.try_get(&zone.trapped_water);
    let room = zone.name();
    match (in_air, trapped) {
        (Some(in_air), Some(trapped)) => {
            let (all, in_air, trapped) = (in_air + trapped, in_air, trapped);
            w.numbers.push(format!(
                "Up to {} of water could settle: {} in the air of {room}, {} that got in.",
                shown::<m::Mass>(all),
                shown::<m::Mass>(in_air),
                shown::<m::Mass>(trapped)
            ));
        }
        (Some(in_air), None) => w.numbers.push(format!(
            "The air of {room} alone holds {} of water; what gets in as snow comes on top.",
            shown::<m::Mass>(in_air)
        )),
        (None, Some(trapped)) => {
            w.numbers.push(format!("{} of water that got in could settle.", shown::<m::Mass>(trapped)));
        }
        (None, None) => {}
    }
    w.numbers.push(format!("The air in {room} is at {}.", shown::<m::Temperature>(wetted.air)));
    let spot = shown::<m::Temperature>(wetted.coldest);
    w.numbers.push(format!("The coldest point of the face is at {spot}."));
}
