//! The words of each check.

use crate::{Strut, Wire};
use rule::prelude::*;

fn stress(stress: Pressure) -> String {
    shown::<m::Stress>(stress)
}

pub(crate) fn landing(strut: &Strut<'_>, at: &At, wire: &Wire, pressed: Length, margin: Margin) -> Margin {
    let (fails, held) = (margin.held.fails(), margin.held);
    margin.tell(at, |w| {
        w.happens = if fails {
            "the landing overstresses the wire: the spring sets, gets shorter for good, and the machine sags and bottoms"
        } else {
            "the landing takes the wire close to the stress at which the spring sets"
        }
        .into();
        let (length, force) = (shown::<m::Distance>(pressed), shown::<m::Force>(wire.rate * pressed));
        w.numbers.push(format!("Pressed together by {length}, preload included, it pushes with {force}."));
        if let Held::Ratio { demand, capacity } = held {
            let (load, limit) = (Pressure::from_si(demand.si), Pressure::from_si(capacity.si));
            w.numbers.push(format!("Stress in the wire {}, limit {} (0.56 of its tensile strength).", stress(load), stress(limit)));
        }
        blame(strut, "coils this small make much stress of little force", w);
        ways_out(w);
        w.clears.push("a bump stop that ends the stroke sooner, or less preload".into());
    })
}

pub(crate) fn season(strut: &Strut<'_>, at: &At, (lower, upper): (Pressure, Pressure), margin: Margin) -> Margin {
    margin.tell(at, |w| {
        w.happens =
            "ordinary bumps crack the wire from the inside of a coil: the spring breaks within some seasons".into();
        w.numbers.push(format!(
            "From preload to one and a half times the standing load the stress goes from {} to {} at the inside of the coil.",
            stress(lower),
            stress(upper)
        ));
        blame(strut, "too thin or too narrow for what it carries", w);
        ways_out(w);
        w.clears.push("shot-peened wire, or a new spring each season".into());
    })
}

pub(crate) fn buckling(strut: &Strut<'_>, at: &At, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        w.happens =
            "nothing guides this spring, and it bows out sideways: it rubs, tilts its seats and goes soft".into();
        if let Some(spring) = strut.corner.spring.there() {
            w.label(spring.free_length.id(), "too long for so narrow a coil");
            w.label(spring.mean_diameter.id(), "too narrow for so long a spring");
        }
        w.clears.push(
            "a rod or a tube to guide it, a wider coil, or two shorter springs end to end with a guided seat between"
                .into(),
        );
    })
}

fn blame(strut: &Strut<'_>, says: &str, w: &mut Telling<'_>) {
    if let Some(spring) = strut.corner.spring.there() {
        w.label(spring.mean_diameter.id(), says);
        w.label(spring.wire.id(), "the wire that takes it");
    }
}

fn ways_out(w: &mut Telling<'_>) {
    w.clears.push(
        "a spring of the same rate with thicker wire, a wider coil and more of them: more wire shares the blow; check that it \
         still has the length"
            .into(),
    );
}
