//! The words of each check.

use crate::{Bush, Load};
use rule::prelude::*;

const ROLLING: &str = "a rolling bearing in place of the bush";

pub(crate) fn pressure<'a>(bush: &Bush<'a>, at: &At<'a>, margin: Margin) -> Margin {
    let (held, required) = (margin.held, margin.required.value);
    margin.tell(at, |w| {
        w.happens = "the bush is squeezed out of shape: the wheel gets play, tilts and drags".into();
        carried(bush, at, Load::Highest, w);
        w.numbers.extend(bush.gone_soft(at));
        w.label(bush.plain.length.id(), "too short for this load");
        blame_load(bush, w);
        longer(bush, at, required / held.reserve(), w);
        w.clears.push("a harder bush material, or two bushes that share the load".into());
    })
}

pub(crate) fn landing(bush: &Bush<'_>, wheel: &Wheel, at: &At, margin: Margin, load: Force) -> Margin {
    let (held, required) = (margin.held, margin.required.value);
    margin.tell(at, |w| {
        w.happens =
            "the blow of a landing squeezes the bush out of shape or breaks its edge: the wheel tilts and drags".into();
        w.numbers.push(format!("Landing puts {} on this one bush.", shown::<m::Force>(load)));
        w.label(bush.plain.length.id(), "too short for this blow");
        w.label(wheel.corner.id(), "its springs, dampers and stops pass the blow on");
        longer(bush, at, required / held.reserve(), w);
        w.clears.push("softer springs or a longer stroke, so that the corner does not reach its stop".into());
        w.clears.push("a harder bush material, or two bushes that share the load".into());
    })
}

pub(crate) fn speed(bush: &Bush<'_>, at: &At, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        w.happens = "the bush rubs faster than its surface stands: it glazes, smears and wears away".into();
        blame_speed(bush, w);
        w.clears.push("a larger wheel or a thinner axle: both rub slower at the same track speed".into());
        w.clears.push(ROLLING.into());
    })
}

pub(crate) fn product(bush: &Bush<'_>, at: &At, margin: Margin, here: ThermodynamicTemperature) -> Margin {
    let (held, required) = (margin.held, margin.required.value);
    margin.tell(at, |w| {
        w.happens =
            "the bush makes more heat than it gets rid of: it softens, grips the axle and is worn out before the \
                     day is over"
                .into();
        carried(bush, at, Load::Lasting, w);
        if let Ok(speed) = bush.speed(at) {
            w.numbers.push(format!("It rubs at {}.", shown::<m::SurfaceSpeed>(speed)));
        }
        w.numbers.push(format!("The limit is taken for air of {} round it.", shown::<m::Temperature>(here)));
        w.label(bush.plain.length.id(), "a short bush carries the load on little area");
        blame_load(bush, w);
        blame_speed(bush, w);
        longer(bush, at, required / held.reserve(), w);
        if bush.plain.lubrication.there().is_none_or(|by| *by == Lubrication::None) {
            w.clears.push("grease it, with a seal that keeps grit out of the grease".into());
        }
        w.clears.push(ROLLING.into());
    })
}

pub(crate) fn temperature(bush: &Bush<'_>, at: &At, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        w.happens = "the bush gets too warm: it softens, grips the axle and melts".into();
        if let Ok(air) = bush.surroundings(at) {
            w.numbers.push(format!("The air round it is at {}.", shown::<m::Temperature>(air)));
        }
        if at.is_given(&bush.plain.temperature) {
            w.label(bush.plain.temperature.id(), "as measured");
        } else {
            blame_load(bush, w);
            blame_speed(bush, w);
            w.clears.push("measure the bush at the end of a climb: the estimate of its heat is rough".into());
        }
        w.clears.push("grease it, or a material with less friction".into());
        w.clears.push(ROLLING.into());
    })
}

/// A bush long enough, as long as an even pressure may still be counted on.
fn longer(bush: &Bush<'_>, at: &At, times: f64, w: &mut Telling<'_>) {
    let plain = bush.plain;
    let (Some(bore), Some(length)) = (at.try_get(&plain.bore), at.try_get(&plain.length)) else { return };
    let enough = length * times;
    if enough > length && enough <= bore * 2.0 {
        w.at_least(&plain.length, enough, |length| format!("a bush of at least {length} length"));
    }
}

fn carried(bush: &Bush<'_>, at: &At, which: Load, w: &mut Telling<'_>) {
    if let Ok(load) = bush.load(at, which) {
        w.numbers.push(format!("The bush carries {}.", shown::<m::Force>(load)));
    }
}

fn blame_load(bush: &Bush<'_>, w: &mut Telling<'_>) {
    if w.is_given(&bush.plain.load) {
        w.label(bush.plain.load.id(), "the load");
    } else if let Some(wheel) = bush.plain.wheel.there() {
        w.label(wheel.share_of_weight.id(), "the weight on it");
        w.label(wheel.track_wrap.id(), "the track pulls on it from both sides");
    }
}

fn blame_speed(bush: &Bush<'_>, w: &mut Telling<'_>) {
    if let Some(swing) = bush.plain.swing.there() {
        w.label(swing.frequency.id(), "how often it swings");
    } else if w.is_given(&bush.plain.speed) {
        w.label(bush.plain.speed.id(), "how fast it turns");
    } else if let Some(wheel) = bush.plain.wheel.there() {
        w.label(wheel.radius.id(), "a small wheel turns fast");
    }
    w.label(bush.plain.bore.id(), "a thick axle rubs fast");
}
