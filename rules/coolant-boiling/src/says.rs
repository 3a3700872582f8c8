//! The words of each check.

use crate::{Later, Nearest, Wall};
use rule::prelude::*;

pub(crate) fn wall(
    at: &At,
    plate: &Plate,
    element: &ElementState,
    (wall, later): (&Wall, Option<&Later>),
    margin: Margin,
) -> Margin {
    margin.tell(at, |w| {
        w.happens = format!(
            "the coolant boils on the hot wall of {}: vapour covers it, the wall gets hotter still, and the pump moves foam",
            plate.name
        );
        let outlet = shown::<m::Temperature>(element.outlet);
        if let Some(heat) = wall.heat.map(shown::<m::Power>) {
            w.numbers.push(format!("{heat} goes through that wall into coolant that leaves it with {outlet}."));
        }
        if let Some(settles) = wall.settles {
            w.numbers.push(format!("The case is over before: driven on, the wall settles at {}.", shown::<m::Temperature>(settles)));
        } else {
            goes_on(later, "that wall", w);
        }
        pressure(at, element.pressure, w);
        if let Some(channel) = plate.channel.there() {
            w.label(channel.length.id(), "a short channel has little wall");
            w.clears.push("a longer or deeper channel: more wall for the same heat".into());
        } else {
            w.label(plate.area.id(), "little wall for this heat");
            w.clears.push("more wetted wall, or a narrower gap in which the coolant is faster".into());
            w.clears.push("give its channel (width, depth, length): without one its film is only estimated".into());
        }
        cooler(at, w);
    })
}

pub(crate) fn bulk(at: &At, nearest: &Nearest, waits: bool, margin: Margin, later: Option<&Later>) -> Margin {
    margin.tell(at, |w| {
        w.happens = "all of the coolant comes to the boil: it is driven out at the lid, and the pump runs dry".into();
        let cooling = &at.machine().cooling;
        w.numbers.push(format!("It is nearest to boiling behind {}.", named(cooling.circuit.get(nearest.index))));
        goes_on(later, "it", w);
        pressure(at, nearest.pressure, w);
        if waits {
            w.label(cooling.pump.starts_above.id(), "the pump rests until then");
            w.clears.push("let the pump start sooner".into());
        }
        cooler(at, w);
    })
}

pub(crate) fn overheated(at: &At, here: Pressure, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        w.happens =
            "the loop does not get rid of its heat: the coolant comes to the boil, is driven out at the lid, and the \
                     pump runs dry"
                .into();
        w.numbers.push("So hot its properties are no longer known: it is worked out with the hottest that are.".into());
        pressure(at, here, w);
        cooler(at, w);
    })
}

/// Both figures of a case that ends before the loop has settled.
fn goes_on(later: Option<&Later>, what: &str, w: &mut Words) {
    let Some(later) = later else { return };
    let (lasts, settles) = (shown::<m::Duration>(later.lasts), shown::<m::Duration>(later.settles_in));
    w.numbers.push(match later.hot {
        Some(hot) => {
            let hot = shown::<m::Temperature>(hot);
            format!("That is after the {lasts} of this case; if it went on {what} would settle at {hot}, within {settles}.")
        }
        None => format!(
            "That is after the {lasts} of this case; if it went on the coolant would get hotter than is known of it, within {settles}."
        ),
    });
}

fn pressure(at: &At, here: Pressure, w: &mut Words) {
    w.numbers.push(format!("The pressure there is {} absolute.", shown::<m::Pressure>(here)));
    w.label(at.machine().cooling.coolant.fluid.id(), "what boils");
    if let Some(lid) = at.machine().cooling.reservoir.lid.there()
        && lid.closes == LidKind::Vented
    {
        w.label(at.machine().cooling.reservoir.lid.id(), "open to the air: no pressure keeps it from boiling");
    }
}

fn cooler(at: &At, w: &mut Words) {
    let cooling = &at.machine().cooling;
    w.label(cooling.pump.free_flow.id(), "more flow carries the heat off with less warming");
    w.clears.push("more flow, or a larger outer face of the exchanger".into());
    if cooling.reservoir.lid.there().is_some_and(|lid| lid.closes == LidKind::Vented) {
        w.clears.push("a closed lid with a relief valve below the rating of reservoir and hoses".into());
    }
    if at.is_given(&cooling.coolant.glycol) {
        w.clears.push("more glycol: it boils a few kelvins later, and is thicker in the cold".into());
    }
}

fn named(element: Option<&Element>) -> &str {
    match element {
        Some(Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate)) => &plate.name,
        Some(Element::Strainer(strainer)) => &strainer.name,
        Some(Element::Thermostat(valve)) => &valve.name,
        Some(Element::Hose(run)) => &run.hose.name,
        Some(Element::Pump) => "the pump",
        Some(Element::Reservoir) | None => "the reservoir",
    }
}
