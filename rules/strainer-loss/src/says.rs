//! The words of each check.

use crate::{Sieve, State};
use rule::prelude::*;

pub(crate) fn loss(sieve: &Sieve<'_>, at: &At, state: State, circuit: &Circuit, w: &mut Telling<'_>) {
    let strainer = sieve.strainer;
    let how = match state {
        State::Clean => "even clean",
        State::Clogged => "by the time it gets cleaned",
    };
    w.happens = format!(
        "{} takes pressure that the channels need, {how}: less coolant flows and what it should cool runs hot",
        strainer.name
    );
    w.numbers.push(format!(
        "The pump makes {} against a closed way; {} flows.",
        shown::<m::PressureLoss>(circuit.most),
        shown::<m::FlowRate>(circuit.flow)
    ));
    if let Some(element) = circuit.elements.get(sieve.index) {
        w.numbers.push(format!("The coolant comes at {}.", shown::<m::Temperature>(element.inlet)));
    }
    w.label(strainer.open_area.id(), "so much is open");
    w.label(strainer.mesh.id(), "through openings this fine");
    if state == State::Clogged && at.is_given(&strainer.clogged) {
        w.label(strainer.clogged.id(), "when it gets cleaned");
    }
    if let (Ok(area), Some(element)) = (at.need(&strainer.open_area), circuit.elements.get(sieve.index)) {
        // A wider strainer lets more flow through all the rest, which takes what the strainer leaves. Thick coolant loses in
        // proportion to its speed, thin coolant more than that: so much is enough.
        let rest = (circuit.most - element.drop) * (state.share() / (1.0 - state.share()));
        let times = element.drop / rest;
        if times.si() > 1.0 {
            w.at_least(&strainer.open_area, area * times, |area| {
                format!("a strainer with at least {area} of open area")
            });
        }
    }
    if state == State::Clogged {
        w.clears.push("clean it sooner".into());
    }
    w.clears.push("let the pump wait until the coolant is warm (runs: above_temperature)".into());
}

pub(crate) fn passes(sieve: &Sieve<'_>, name: &str, width: Length, w: &mut Telling<'_>) {
    let strainer = sieve.strainer;
    w.happens =
        format!("what gets through {} bridges over in {name} and blocks it: that plate runs hot alone", strainer.name);
    w.numbers.push(format!("The narrowest channel is {} wide, in {name}.", shown::<m::Length>(width)));
    w.label(strainer.mesh.id(), "lets grains of this size through");
    w.at_most(&strainer.mesh, width / 3.0, |mesh| format!("a mesh of at most {mesh}"));
    w.clears.push(format!("wider channels in {name}"));
}

pub(crate) fn ice(sieve: &Sieve<'_>, at: &At, w: &mut Telling<'_>) {
    let filling = &at.machine().cooling.coolant;
    w.happens = format!(
        "ice crystals close {} at the first start in the cold: nothing flows, and the pump pushes with all it has",
        sieve.strainer.name
    );
    w.label(filling.fluid.id(), "freezes there");
    if at.is_given(&filling.glycol) {
        w.label(filling.glycol.id(), "this much glycol in it");
    }
    w.clears.push("more glycol, checked with a refractometer, or a coolant that freezes lower".into());
    w.clears.push("thaw the machine before it is started".into());
}
