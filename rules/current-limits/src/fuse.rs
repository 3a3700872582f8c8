//! The fuse: it must hold, and it must go before its wire does.

use crate::{Lead, says, wires, worst};
use rule::prelude::*;

/// No fuse blows, and none protects.
fn none(at: &At) -> bool {
    at.says_none(&at.machine().powertrain.battery.fuse)
}

pub(crate) fn holds(at: &At) -> Found<Outcome> {
    if none(at) {
        return Ok(Outcome::Aside("there is no fuse that could blow"));
    }
    worst(at, Lead::OfBattery, |flow| {
        let rating = at.need(&at.machine().powertrain.battery.fuse)?;
        let required = if flow.is_burst() {
            Required { value: 1.0, why: "it is over in a few seconds" }
        } else {
            Required { value: 1.25, why: "a fuse that runs at its rating gets tired" }
        };
        let margin = Margin::ratio::<m::Current>(flow.current, rating, required, Consequence::Stranded);
        let short = margin.required.value / margin.held.reserve();
        Ok(margin.tell(at, |w| says::blows(at, flow, short, w)))
    })
}

pub(crate) fn protects(at: &At) -> Found<Outcome> {
    if none(at) {
        return Ok(Outcome::Breach { consequence: Consequence::Harm, words: says::no_fuse(at) });
    }
    let rating = at.need(&at.machine().powertrain.battery.fuse)?;
    let wire = wires::wire(at, Lead::OfBattery)?;
    let laid = wires::laid(at, Lead::OfBattery, wire)?;
    let required = Required { value: 1.0, why: "the wire must carry continuously what the fuse lets through" };
    let margin = Margin::ratio::<m::Current>(rating, laid.for_ever(), required, Consequence::Harm);
    let short = margin.required.value / margin.held.reserve();
    Ok(Outcome::Held(margin.tell(at, |w| says::unprotected(at, wire, &laid, short, w))))
}
