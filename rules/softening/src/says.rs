//! The words of the check.

use crate::Warm;
use rule::prelude::*;

pub(crate) fn softens(part: &Named<Part>, at: &At<'_>, material: &Material, warm: &Warm, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        let name = part.name();
        w.happens = format!("{name} softens, gives way and stays bent");
        w.numbers.push(format!("It gets {} warm by {}.", shown::<m::Temperature>(warm.here), warm.by));
        if material.when_annealed.there().is_some() && material.annealed != Some(true) {
            w.numbers.push("It was not annealed; annealed it would stay stiff longer.".into());
            w.clears.push("annealed in an oven as its maker says".into());
        }
        w.label(part.value.material.id(), "soft at that temperature");
        if warm.by == "the sun on it" {
            w.label(at.machine().environment.sun.id(), "the sun on a dark face");
            w.clears.push("white paint or foil: a pale face takes up a third of the sun".into());
        }
        w.clears.push(format!("{name} of a plastic for more heat (ASA, polycarbonate, nylon), or of metal"));
    })
}
