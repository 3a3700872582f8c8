//! The words of a thing that gets too hot or too cold.

use crate::{Limited, Side, Thing};
use rule::prelude::*;

fn harm(limited: &Limited<'_>) -> String {
    let too_hot = limited.side == Side::Hot;
    match limited.thing {
        Thing::Winding => "the motor burns out: the varnish of its winding breaks down and the copper shorts".into(),
        Thing::Magnets => "the motor goes weak for good: its magnets lose part of their strength".into(),
        Thing::Controller if too_hot => "the machine stops: the controller cuts back, then fails".into(),
        Thing::Controller => "the machine may not start: the controller is colder than its maker allows".into(),
        Thing::Cells if too_hot => "the cells age fast, swell, and in the end may burn".into(),
        Thing::Cells => {
            "the cells cannot give their current: the voltage falls through and the cells are damaged".into()
        }
        Thing::Device(kind, name) if too_hot => format!("{name} fails: {}", hot_device(kind)),
        Thing::Device(kind, name) => format!("{name} does not work: {}", cold_device(kind)),
    }
}

fn hot_device(kind: DeviceKind) -> &'static str {
    match kind {
        DeviceKind::Servo => "its motor and its case soften",
        DeviceKind::Display => "it goes black",
        DeviceKind::Capacitor => "it dries out",
        _ => "it is hotter than its maker allows",
    }
}

fn cold_device(kind: DeviceKind) -> &'static str {
    match kind {
        DeviceKind::Servo => "its grease sets and it does not move",
        DeviceKind::Display => "it is too slow to be read, or stays blank",
        DeviceKind::Capacitor => "it has lost most of its capacity",
        _ => "it is colder than its maker allows",
    }
}

/// Less is not worth a second figure, K.
const WORTH_TELLING: f64 = 1.0;

/// Minutes and seconds, as a stopwatch has them.
fn stopwatch(time: Time) -> String {
    let seconds = time.si();
    if !(1.0..3600.0).contains(&seconds) {
        return shown::<m::Duration>(time);
    }
    let (minutes, rest) = ((seconds / 60.0).floor(), seconds % 60.0);
    if minutes >= 1.0 { format!("{minutes:.0} min {:.0} s", rest.floor()) } else { format!("{rest:.0} s") }
}

pub(crate) fn hot(at: &At, limited: &Limited<'_>, w: &mut Words) {
    w.happens = harm(limited);
    let course = limited.course;
    w.numbers.push(format!("It starts the case at {}.", shown::<m::Temperature>(course.start())));
    match course.settles() {
        // Where a short case gets, and where it was going.
        Some(settles) if settles > limited.limit || difference(settles, course.hottest()).si() > WORTH_TELLING => {
            w.numbers.push(format!("Driven on like this it settles at {}.", shown::<m::Temperature>(settles)));
        }
        Some(_) => {}
        None => w
            .numbers
            .push("Driven on like this it never settles: the hotter the copper, the more heat it makes.".into()),
    }
    let holds = course.rises_to(limited.limit);
    if let Some(holds) = holds {
        w.numbers.push(format!(
            "It holds for {}, then it is at its limit of {}.",
            stopwatch(holds),
            shown::<m::Temperature>(limited.limit)
        ));
    }
    w.label(limited.node, "the limit");
    if let Ok(case) = at.case() {
        if at.is_given(&case.value.duration) {
            w.label(case.value.duration.id(), "driven for as long");
        } else if course.end() > course.start() {
            w.numbers.push(
                "The case does not say how long it lasts: it counts until the pack is empty, or it settles.".into(),
            );
        }
    }
    cures_of_heat(at, limited, holds, w);
}

fn cures_of_heat(at: &At, limited: &Limited<'_>, holds: Option<Time>, w: &mut Words) {
    let machine = at.machine();
    let cooled = match limited.thing {
        Thing::Winding | Thing::Magnets => Some(Cooled::Motor),
        Thing::Controller => Some(Cooled::Controller),
        Thing::Cells => Some(Cooled::Battery),
        Thing::Device(..) => None,
    };
    let plate = machine.cooling.circuit.iter().find_map(|element| match element {
        Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate) => {
            (plate.cools.is_some() && plate.cools == cooled).then_some(plate)
        }
        _ => None,
    });
    if let Some(plate) = plate.filter(|plate| at.is_given(&plate.contact_resistance)) {
        w.label(plate.contact_resistance.id(), "what its heat has to pass");
    }
    // As much less heat as brings the rise over the air down to what is allowed.
    if let Ok(around) = at.surroundings() {
        let rise = limited.course.hottest().si() - around.outside.si();
        let allowed = limited.limit.si() - 10.0 - around.outside.si();
        if rise > 0.0 && allowed > 0.0 && allowed < rise && !matches!(limited.thing, Thing::Device(..)) {
            w.clears.push(format!(
                "{:.0} % less heat in it: a lower current limit, a shorter gearing, a slower climb",
                100.0 * (1.0 - allowed / rise)
            ));
        }
    }
    match (limited.thing, plate) {
        (Thing::Winding | Thing::Magnets, Some(plate)) => {
            w.clears.push(format!("a jacket that fits closer, with paste or glue between motor and {}", plate.name))
        }
        (Thing::Winding | Thing::Magnets, None) => w.clears.push("fins or a fan on the motor".into()),
        (Thing::Controller, Some(plate)) => {
            w.clears.push(format!("bolt it flat to {} with paste between, over its whole face", plate.name))
        }
        (Thing::Controller, None) => w.clears.push("a cooled plate or fins under it".into()),
        (Thing::Cells, _) => w.clears.push("less foam in the warm season, and cells of lower resistance".into()),
        (Thing::Device(_, name), _) => {
            w.clears.push(format!("move {name} to a cooler place, or one for higher temperatures"))
        }
    }
    if let Some(holds) = holds
        && holds.si() > 60.0
    {
        w.clears.push(format!("stop after {} and let it cool, with a thermometer that warns", stopwatch(holds * 0.8)));
    }
}

pub(crate) fn cold(at: &At, limited: &Limited<'_>, w: &mut Words) {
    w.happens = harm(limited);
    let course = limited.course;
    w.numbers.push(format!("It starts the case at {}.", shown::<m::Temperature>(course.start())));
    if course.start() < limited.limit
        && let Some(warm) = course.rises_to(limited.limit)
    {
        w.numbers.push(format!("By its own heat it is warm enough after {}.", stopwatch(warm)));
    }
    w.label(limited.node, "the limit");
    if let Ok(case) = at.case()
        && at.is_given(&case.value.air)
    {
        w.label(case.value.air.id(), "as cold as it is then");
    }
    match limited.thing {
        Thing::Cells => {
            w.label(at.machine().powertrain.battery.mass.id(), "this pack soaks with the machine");
            w.clears.push("keep the pack warm until the start (put_in_at), and foam round it".into());
            w.clears.push("cells that are made for such cold".into());
        }
        Thing::Device(DeviceKind::Servo, name) => {
            w.clears.push(format!("{name} with grease for this cold, or let it swing to and fro until it is free"));
        }
        Thing::Device(_, name) => {
            w.clears.push(format!("one in place of {name} for lower temperatures, or a warm place for it"))
        }
        _ => w.clears.push("keep it warm until the start, or one for lower temperatures".into()),
    }
}
