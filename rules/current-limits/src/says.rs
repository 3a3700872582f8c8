//! The words of each check.

use crate::wires::{Laid, REQUIRED as WIRE};
use crate::{Flow, Lead};
use rule::prelude::*;

fn long(flow: Flow) -> String {
    match flow.lasts {
        Some(lasts) => format!("for {}", shown::<m::Duration>(lasts)),
        None => "for as long as you like".into(),
    }
}

fn set_by(at: &At, w: &mut Telling<'_>) {
    if let Ok(drive) = at.drive() {
        w.numbers.push(format!(
            "The motor takes {}, set by {}; the battery gives up to {}.",
            shown::<m::Current>(drive.motor_current),
            drive.set_by,
            shown::<m::Current>(drive.peak_current)
        ));
    }
}

/// Turning a limit down to this much of it; only where a limit sets the current.
fn turn_down(at: &At, lead: Lead, short: f64, w: &mut Telling<'_>) {
    let limits = &at.machine().powertrain.controller.current_limit;
    let (limit, name) = match lead {
        Lead::OfBattery => (&limits.battery, "battery"),
        Lead::OfMotor => (&limits.motor, "motor"),
    };
    let Ok(drive) = at.drive() else { return };
    let of = format!("the {name} current limit");
    if drive.set_by == of
        && let Some(amps) = at.try_get(limit)
    {
        w.label(limit.id(), "lets it through");
        w.at_most(limit, amps / short, |amps| format!("turn {of} down to {amps}"));
    }
}

pub(crate) fn cells(at: &At, flow: Flow, label: &Given<m::Current>, short: f64, w: &mut Telling<'_>) {
    w.happens =
        format!("each cell gives more than it stands {}: it gets hot inside, ages in days, and may vent", long(flow));
    set_by(at, w);
    let cells = &at.machine().powertrain.battery.cells;
    w.label(cells.parallel.id(), "so many share the current");
    w.label(label.id(), "what one stands");
    turn_down(at, Lead::OfBattery, short, w);
    if let Some(parallel) = at.try_get(&cells.parallel) {
        w.at_least(&cells.parallel, parallel * short, |count| format!("at least {count} cells side by side"));
    }
    w.clears.push("cells made for higher currents".into());
}

pub(crate) fn wire(at: &At, lead: Lead, wire: &Wire, laid: &Laid, flow: Flow, w: &mut Telling<'_>) {
    let which = match lead {
        Lead::OfBattery => "the battery's wire",
        Lead::OfMotor => "each lead of the motor",
    };
    let (limit, weakest) = laid.limit(Some(flow));
    let weakest_limit = shown::<m::Temperature>(limit);
    w.happens = format!("{which} gets hotter than {weakest} can take {}: it softens, shorts and burns", long(flow));
    w.numbers.push(format!("{weakest_limit} is the limit, set by {weakest}."));
    set_by(at, w);
    let (air, size) = (shown::<m::Temperature>(laid.air()), at.try_get(&wire.size));
    if let Some(size) = size {
        w.numbers.push(format!("It has {} of copper, in air of {air}.", shown::<m::WireSize>(size)));
    }
    w.label(wire.size.id(), "too thin for this current");
    w.label(wire.insulation.id(), "the heat that it stands");
    let wanted = flow.current * WIRE.value;
    turn_down(at, lead, (wanted / laid.bears(flow)).si(), w);
    thicker(wire, laid.enough(wanted, |laid| laid.bears(flow)), w);
    w.clears.push("two wires side by side, or an insulation that stands more heat".into());
    if at.try_get(&wire.bunched).is_some_and(|circuits| circuits.si() > 1.0) {
        w.label(wire.bunched.id(), "warms it from beside");
        w.clears.push("lay it apart from the others".into());
    }
}

pub(crate) fn connector(at: &At, lead: Lead, flow: Flow, label: &Given<m::Current>, short: f64, w: &mut Telling<'_>) {
    let which = match lead {
        Lead::OfBattery => "the battery's connector",
        Lead::OfMotor => "a connector in the motor's leads",
    };
    w.happens =
        format!("{which} gets too hot {}: its housing melts, its spring goes slack and it burns open", long(flow));
    set_by(at, w);
    w.label(label.id(), "what it stands");
    turn_down(at, lead, short, w);
    if let Some(stands) = at.try_get(label) {
        w.at_least(label, stands * short, |amps| format!("a connector for {amps} or more"));
    }
    w.clears.push("solder or screw the wires together where they need not come apart".into());
}

pub(crate) fn blows(at: &At, flow: Flow, short: f64, w: &mut Telling<'_>) {
    w.happens = format!("the fuse blows {}, and the machine stands where it is", long(flow));
    set_by(at, w);
    let fuse = &at.machine().powertrain.battery.fuse;
    w.label(fuse.id(), "too small");
    turn_down(at, Lead::OfBattery, short, w);
    if let Some(rating) = at.try_get(fuse) {
        w.at_least(fuse, rating * short, |amps| {
            format!("a fuse of {amps} or more, as far as the wire behind it bears that")
        });
    }
}

pub(crate) fn unprotected(at: &At, wire: &Wire, laid: &Laid, short: f64, w: &mut Telling<'_>) {
    w.happens = "in a short the wire burns before the fuse goes".into();
    w.numbers.push(format!(
        "At {} the wire carries {} continuously, up to {}, the limit of {}.",
        shown::<m::Temperature>(laid.air()),
        shown::<m::Current>(laid.for_ever()),
        shown::<m::Temperature>(laid.limit(None).0),
        laid.limit(None).1
    ));
    let fuse = &at.machine().powertrain.battery.fuse;
    w.label(fuse.id(), "lets through more than the wire carries");
    w.label(wire.size.id(), "what it has to protect");
    if let Some(rating) = at.try_get(fuse) {
        w.at_most(fuse, rating / short, |amps| format!("a fuse of no more than {amps}"));
    }
    thicker(wire, laid.enough(laid.for_ever() * short, Laid::for_ever), w);
}

pub(crate) fn no_fuse(at: &At) -> Words {
    let mut w = Words::default();
    if at.tells() {
        w.happens = "nothing interrupts a short: the wire burns, and the pack with it".into();
        w.label(at.machine().powertrain.battery.fuse.id(), "there is none");
        w.clears.push("a fuse at the pack, before any other wire, rated for no more than its wire carries".into());
    }
    w
}

fn thicker(wire: &Wire, enough: Option<quantity::Area>, w: &mut Telling<'_>) {
    if let Some(enough) = enough {
        w.at_least(&wire.size, enough, |size| match quantity::gauge_of(enough) {
            Some(gauge) => format!("a wire of {size} ({gauge}) or more"),
            None => format!("a wire of {size} or more"),
        });
    }
}

pub(crate) fn auxiliary(at: &At, short: f64, w: &mut Telling<'_>) {
    w.happens =
        "when everything pulls at once the auxiliary supply drops out: servos go limp and the radio is gone".into();
    let supply = &at.machine().powertrain.auxiliary_supply;
    let most = supply.loads.iter().filter_map(|load| Some((load, at.try_get(&load.value)?)));
    let most = most.max_by(|one, other| one.1.si().total_cmp(&other.1.si()));
    if let Some((load, current)) = most {
        w.numbers.push(format!("The most of it is {} with {}.", load.name(), shown::<m::Current>(current)));
        w.label(load.value.id(), "the most of it");
    }
    w.label(supply.rated_current.id(), "what it gives");
    if let Some(rated) = at.try_get(&supply.rated_current) {
        w.at_least(&supply.rated_current, rated * short, |amps| format!("a supply for {amps} or more"));
    }
    w.clears.push("a second supply for the servos alone".into());
}
