//! The words of each check.

use crate::{Budget, Landed, SAG_AT_MOST, Strut};
use rule::prelude::*;

const FEWER: &str = "fewer coils: a stiffer spring with a shorter block";

fn mm(length: Length) -> String {
    show(length.si(), <m::Distance as quantity::Measure>::KIND, None)
}

pub(crate) fn stroke(strut: &Strut<'_>, at: &At, budget: &Budget, stroke: Length, margin: Margin) -> Margin {
    let lacks = lacking(&margin);
    margin.tell(at, |w| {
        w.happens = closing(budget, stroke, "before the damper reaches its end", "when the damper is at its end");
        spent(strut, at, budget, w);
        blame(strut, w);
        ways_out(strut, at, budget, (stroke, lacks), w);
        if lacks < stroke {
            w.less(&strut.corner.damper_travel, stroke, lacks, |less| {
                format!("end the damper's stroke {less} sooner, by a spacer or a bump stop")
            });
        }
    })
}

pub(crate) fn landing(strut: &Strut<'_>, at: &At, budget: &Budget, landed: &Landed, margin: Margin) -> Margin {
    let (held, lacks) = (margin.held, lacking(&margin));
    margin.tell(at, |w| {
        w.happens = closing(budget, landed.travel, "in this landing", "at the deepest point of this landing");
        spent(strut, at, budget, w);
        travelled(landed, w);
        blame(strut, w);
        // Where the coils touch they cut the travel short: a longer spring goes deeper than this one.
        if held.reserve() > 0.0 {
            longer(strut, budget, (landed.travel, lacks), w);
        } else {
            let longer = strut.corner.spring.there().map(|spring| at.show(&spring.free_length, budget.free + lacks));
            w.clears
                .extend(longer.map(|longer| format!("a spring of more than {longer} with the same wire and coils")));
        }
        w.clears.push(FEWER.into());
        w.clears.push("a stiffer spring, which goes less deep, if its wire and coils leave it the length".into());
    })
}

pub(crate) fn stop(strut: &Strut<'_>, at: &At, landed: &Landed, margin: Margin) -> Margin {
    let fails = margin.held.fails();
    margin.tell(at, |w| {
        let rubber = matches!(strut.corner.bump_stop.there(), Some(BumpStop::Elastomer(_)));
        w.happens = if !fails {
            "on softer ground than assumed, or with a mount that gives more, the landing uses up the whole stroke"
        } else if rubber {
            "the landing squeezes the bump stop flat: it wears out soon, and what is left of the blow bends its mount"
        } else {
            "the damper hits its hard end, and the rest of the blow goes straight into mounts and frame"
        }
        .into();
        travelled(landed, w);
        if let Ok(sag) = strut.sag(at) {
            w.numbers.push(format!("Standing still it already sags {}.", mm(sag)));
        }
        w.label(strut.corner.damper_travel.id(), "used up by this landing");
        w.label(
            strut.corner.bump_stop.id(),
            if rubber { "too small for this landing" } else { "nothing softens the end" },
        );
        w.clears.push("more preload or a stiffer spring, as far as its coils leave it the length".into());
        w.clears
            .push(if rubber { "a taller or wider bump stop" } else { "a bump stop on the last of the stroke" }.into());
        w.clears.push("a damper with a longer stroke".into());
    })
}

pub(crate) fn sag(strut: &Strut<'_>, at: &At, sag: Length, margin: Margin) -> Margin {
    let fails = margin.held.fails();
    margin.tell(at, |w| {
        w.happens = if fails {
            "the machine stands on its stops before it has moved: nothing springs any more"
        } else {
            "standing still uses up too much of the stroke: little is left for a bump, and the suspension ends early"
        }
        .into();
        if let (Ok(rate), Ok(mass)) = (strut.rate(at), at.need(&strut.corner.sprung_mass_each)) {
            let (rate, mass) = (shown::<m::SpringRate>(rate), shown::<m::Mass>(mass));
            w.numbers.push(format!("{mass} stands on a spring of {rate}."));
        }
        w.label(strut.corner.sprung_mass_each.id(), "stands on this one spring");
        w.label(strut.corner.preload.collar.id(), "holds up only part of it");
        w.clears.push("a stiffer spring".into());
        if let Ok(stroke) = at.need(&strut.corner.damper_travel) {
            let (wanted, limit) = (sag - stroke * SAG_AT_MOST, at.try_get(&strut.corner.preload.of));
            let turned = at.try_get(&strut.corner.preload.collar).unwrap_or(Length::ZERO) + wanted;
            if wanted > Length::ZERO && limit.is_none_or(|limit| turned <= limit) {
                w.clears.push(format!("screw the collar in another {}, if the coils leave room for it", mm(wanted)));
            }
        }
    })
}

/// What is missing to the required reserve.
fn lacking(margin: &Margin) -> Length {
    Length::from_si((margin.required.value - margin.held.reserve()).max(0.0))
}

/// What comes of so little length: `before` says when the coils touch, `at` where they come close.
fn closing(budget: &Budget, travel: Length, before: &str, at: &str) -> String {
    if budget.free <= budget.solid {
        let (free, solid) = (mm(budget.free), mm(budget.solid));
        return format!(
            "the spring is no longer than its own coils pressed together, {free} against {solid}: it cannot move, or one of \
             its figures is wrong"
        );
    }
    if budget.wanted(travel) - budget.gaps > budget.free {
        return format!("the coils touch {before}, and the blow goes straight into the mounts");
    }
    if budget.wanted(travel) > budget.free {
        return format!(
            "the coils come so close {at} that some of them touch: the spring rattles, stiffens and breaks early"
        );
    }
    format!(
        "hardly any gap is left between the coils {at}: a collar turned in further, or a spring that has set, and they touch"
    )
}

/// Where the spring's length goes.
fn spent(strut: &Strut<'_>, at: &At, budget: &Budget, w: &mut Telling<'_>) {
    let (free, solid, gaps, collar) = (mm(budget.free), mm(budget.solid), mm(budget.gaps), mm(budget.collar));
    w.numbers.push(format!(
        "Of {free} of free length the coils pressed together take {solid}, the gaps that must stay open {gaps}, the preload {collar}."
    ));
    let before = budget.wanted(Length::ZERO);
    w.numbers.push(if budget.free > before {
        format!("That leaves {} for travel.", mm(budget.free - before))
    } else {
        "That leaves nothing for travel.".into()
    });
    if let Ok(sag) = strut.sag(at) {
        w.numbers.push(format!("Standing still it sags {} at the damper.", mm(sag)));
    }
}

fn travelled(landed: &Landed, w: &mut Telling<'_>) {
    let (least, most) = landed.band;
    let band = format!(", {} to {} with mount and ground between half and twice as stiff", mm(least), mm(most));
    w.numbers.push(format!("This landing travels {} at the damper{band}.", mm(landed.travel)));
    if landed.gelled {
        w.numbers.push(
            "The damper's oil is below its pour point here: this is the travel without a damper. One that stands still like a \
             rod goes less deep and hits harder, which damper-cold judges."
                .into(),
        );
    }
}

fn blame(strut: &Strut<'_>, w: &mut Telling<'_>) {
    if let Some(spring) = strut.corner.spring.there() {
        w.label(spring.free_length.id(), "too short for what it has to hold");
    }
    w.label(strut.corner.preload.collar.id(), "takes its share of the length");
}

fn longer(strut: &Strut<'_>, budget: &Budget, (travel, lacks): (Length, Length), w: &mut Telling<'_>) {
    if let Some(spring) = strut.corner.spring.there() {
        w.at_least(&spring.free_length, budget.free + lacks, |longer| {
            format!("a spring {longer} long with the same wire and coils, for {} of travel", mm(travel))
        });
    }
}

fn ways_out(strut: &Strut<'_>, at: &At, budget: &Budget, (travel, lacks): (Length, Length), w: &mut Telling<'_>) {
    longer(strut, budget, (travel, lacks), w);
    let collar = &strut.corner.preload.collar;
    if let Some(turned) = at.try_get(collar)
        && Length::ZERO < lacks
        && lacks <= turned
    {
        w.less(collar, turned, lacks, |less| format!("slacken the collar by {less}, which lets it sag further"));
    }
    w.clears.push(FEWER.into());
}
