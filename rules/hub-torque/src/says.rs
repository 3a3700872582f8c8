//! The words of a joint that lets go.

use crate::holds::{Held, Holds, holds};
use crate::seat::{Seat, Sized};
use rule::prelude::*;

pub(crate) fn joint(at: &At<'_>, seat: &Seat<'_>, held: &Held, shock: f64, margin: Margin) -> Margin {
    let (times, wanted) = (margin.required.value / margin.held.reserve(), seat.torque * shock * margin.required.value);
    margin.tell(at, |w| {
        let guards = seat.joint.guards.there() == Some(&true);
        w.happens = if guards {
            format!("{}: the guard of the drive line goes too early", held.how)
        } else {
            format!("{}: the motor turns freely, and the machine stands or rolls back", held.how)
        };
        let uneven = if shock > 1.0 {
            format!(", {} with uneven driving", shown::<m::Torque>(seat.torque * shock))
        } else {
            String::new()
        };
        w.numbers.push(format!(
            "{} go through it{uneven}; it holds {}.",
            shown::<m::Torque>(seat.torque),
            shown::<m::Torque>(held.torque)
        ));
        blame(seat, w);
        clears(at, seat, (times, wanted), w);
    })
}

pub(crate) fn nothing(at: &At<'_>, seat: &Seat<'_>, why: &str) -> Words {
    Words::told(at, |w| {
        w.happens = format!("the {} turns on its shaft: {why}", seat.called);
        blame(seat, w);
        w.clears.push("a metal hub or insert that takes the screw".into());
        w.clears.push("a hexagon or a D-shaped hole in the plastic, over a long length".into());
    })
}

fn blame(seat: &Seat<'_>, w: &mut Telling<'_>) {
    let joint = seat.joint;
    for (id, given, says) in [
        (joint.across_flats.id(), w.is_given(&joint.across_flats), "small flats"),
        (joint.length.id(), w.is_given(&joint.length), "a short hold"),
        (joint.count.id(), w.is_given(&joint.count), "so many screws"),
        (joint.pin.id(), w.is_given(&joint.pin), "a thin pin"),
        (joint.diameter.id(), w.is_given(&joint.diameter), "a thin shaft"),
    ] {
        if given {
            w.label(id, says);
        }
    }
    w.label(joint.guards.id(), "what holds it");
}

/// Whether so much length is enough: a joint may let go in a way that asks for no length.
fn enough(at: &At<'_>, seat: &Seat<'_>, length: Length, wanted: Torque) -> bool {
    let longer = Seat { length: Sized::Is(length), ..*seat };
    matches!(holds(at, &longer), Ok(Holds::Torque(held)) if held.torque >= wanted * (1.0 - 1e-9))
}

fn clears(at: &At<'_>, seat: &Seat<'_>, (times, wanted): (f64, Torque), w: &mut Telling<'_>) {
    use ShaftJointKind::{Clamp, DShape, Glue, Hex, Key, Pin, SetScrew, Spline};
    let longer = seat.length.need(at).ok().filter(|_| times > 1.0 && times < 3.0);
    if let (Some(length), Key | Hex | DShape | Spline | Glue) = (longer.map(|length| length * times), seat.joint.by)
        && enough(at, seat, length, wanted)
    {
        w.at_least(&seat.joint.length, length, |length| format!("a hold of {length} along the shaft"));
    }
    match seat.joint.by {
        SetScrew => w.clears.push("a key, a pin through hub and shaft, or a clamp in place of set screws".into()),
        Clamp => w.clears.push("more or larger screws, or a key beside the clamp".into()),
        Glue => w.clears.push("a hexagon or a key beside the glue".into()),
        Pin => w.clears.push("a thicker pin, or one of harder steel".into()),
        Key | Hex | DShape | Spline => {}
    }
    if seat.hub.is_some_and(|hub| !strength::hard(hub)) {
        w.clears.push("a metal insert of full width and large diameter in the plastic".into());
    }
    w.clears.push("a thicker shaft".into());
}
