//! The words of a wall that weeps.

use crate::body::{Body, Held};
use rule::prelude::*;

pub(crate) fn failed(at: &At, body: &Body<'_>) -> Words {
    let mut w = Words::default();
    if at.tells() {
        w.happens =
            "it did not hold its leak test: coolant comes out through the wall, and the level falls on every trip"
                .into();
        if let Some(test) = body.part.leak_test.there() {
            w.label(test.fell.id(), "more than a tenth of the pressure");
        }
        coat(&mut w);
        metal(&mut w);
    }
    w
}

pub(crate) fn weeps(at: &At, body: &Body<'_>, held: Held, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        w.happens = "coolant creeps between the strands of the print to the outside: it sweats, then drips, and under \
                     suction the wall draws air"
            .into();
        let test = body.part.leak_test.there();
        match (held, test) {
            (Held::Tested, Some(test)) => w.label(test.pressure.id(), "tested with no more than this"),
            (_, Some(test)) => w.label(test.duration.id(), "too short to show anything"),
            (_, None) => {}
        }
        match held {
            Held::Tested => {}
            Held::Coat => w.label(body.part.coating.id(), "holds so much, if it has no flaw"),
            Held::Bare => {
                bare(at, body, w);
                coat(w);
            }
        }
        if let Ok(pressure) = body.pressure(at) {
            let pressure = shown::<m::PressureLoss>(pressure * crate::TESTED);
            w.clears
                .push(format!("a leak test with water at {pressure} for half an hour, and no more than a tenth lost"));
        }
        metal(w);
    })
}

fn bare(at: &At, body: &Body<'_>, w: &mut Words) {
    if let (Ok(walls), Ok(layers)) = (body.walls(at), body.layer_height(at)) {
        let (walls, layers) = (shown::<m::Count>(walls), shown::<m::Length>(layers));
        w.numbers.push(format!("It has {walls} wall lines in layers of {layers}."));
    }
    let build = body.part.build.there().or(at.machine().structure.printing.there());
    if let Some(build) = build {
        w.label(build.walls.id(), "wall lines between coolant and air");
    }
    w.clears.push("six wall lines and more, layers of 0.1 mm, a few per cent more flow: infill does not help".into());
}

fn coat(w: &mut Words) {
    w.clears.push("coat it with resin, brushed on, all round the channel (coating: brushed_resin)".into());
}

fn metal(w: &mut Words) {
    w.clears.push("a body of turned or milled metal, or a bought one".into());
}
