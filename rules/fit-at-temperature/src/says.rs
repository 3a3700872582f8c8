//! The words of each check.

use rule::prelude::*;

pub(crate) fn splits(
    bearing: &Named<Bearing>,
    seat: &Seat,
    at: &At<'_>,
    left: Length,
    here: ThermodynamicTemperature,
    margin: Margin,
) -> Margin {
    margin.tell(at, |w| {
        w.happens = format!("the seat of {} splits, or stretches until it no longer holds", bearing.name());
        told(at, left, here, w);
        w.label(seat.interference.id(), "pressed in with this much, and the cold adds to it");
        w.label(seat.part.id, "shrinks more than the bearing's ring");
        w.clears.push("less interference, and a cap or glue that holds the ring".into());
        w.clears.push("a bush of steel or aluminium in the seat".into());
    })
}

pub(crate) fn lets_go(
    bearing: &Named<Bearing>,
    seat: &Seat,
    at: &At<'_>,
    kept: f64,
    here: ThermodynamicTemperature,
    margin: Margin,
) -> Margin {
    margin.tell(at, |w| {
        w.happens = format!("the outer ring of {} turns in its seat and grinds it out", bearing.name());
        told(at, at.try_get(&seat.interference).unwrap_or(Length::ZERO), here, w);
        if kept < 1.0 {
            w.numbers.push("A plastic seat keeps half of its grip after some weeks.".into());
        }
        w.label(seat.interference.id(), "too little for the heat");
        w.label(seat.part.id, "grows more than the bearing's ring");
        w.clears.push("a cap or a snap ring that holds the ring, or glue for bearings".into());
        w.clears.push("a bush of steel in the seat".into());
    })
}

fn told(at: &At<'_>, left: Length, here: ThermodynamicTemperature, w: &mut Telling<'_>) {
    let assembled = at.try_get(&at.machine().environment.assembled_at);
    let from = assembled.map_or_else(|| "the workshop".to_string(), shown::<m::Temperature>);
    w.numbers.push(format!(
        "Interference {} at {}, pressed in at {from}.",
        shown::<m::Distance>(left),
        shown::<m::Temperature>(here)
    ));
}
