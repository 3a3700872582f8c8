//! What a joint holds.

use crate::refused;
use crate::seat::Seat;
use physics::joint as law;
use quantity::{Counted, Thread, read_counted_thread};
use rule::prelude::*;

/// The weakest way in which a joint lets go.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Held {
    pub torque: Torque,
    pub how: &'static str,
}

pub(crate) enum Holds {
    Torque(Held),
    /// Whatever the numbers are.
    Nothing(&'static str),
}

fn weakest(ways: &[(Torque, &'static str)]) -> Holds {
    let first = Held { torque: Torque::from_si(f64::INFINITY), how: "" };
    Holds::Torque(ways.iter().fold(first, |held, (torque, how)| {
        if torque.si() < held.torque.si() || torque.si().is_nan() { Held { torque: *torque, how } } else { held }
    }))
}

pub(crate) fn holds(at: &At<'_>, seat: &Seat<'_>) -> Found<Holds> {
    use ShaftJointKind::{Clamp, DShape, Glue, Hex, Key, Pin, SetScrew, Spline};
    let joint = seat.joint;
    let length = || seat.length.need(at);
    let across = || at.need(&joint.across_flats);
    Ok(match joint.by {
        Key => key(at, seat)?,
        Pin => pin(at, seat)?,
        Hex => weakest(&[(
            law::hex_crushing(crushing(at, seat)?, across()?, length()?),
            "the flats of its hole are crushed",
        )]),
        DShape => {
            let held = law::flat_crushing(crushing(at, seat)?, seat.diameter.need(at)?, across()?, length()?);
            weakest(&[(held, "the flat of its hole is crushed")])
        }
        Spline => {
            let size = joint.size.as_deref().unwrap_or("");
            let spline = law::parallel_spline(size).ok_or_else(|| {
                NotJudged::NoSolution(format!(
                    "`{size}` is no spline of ISO 14 known here: write for example `size: 6 x 23 x 26`"
                ))
            })?;
            weakest(&[(law::spline_crushing(crushing(at, seat)?, &spline, length()?), "its splines are crushed")])
        }
        Clamp => clamp(at, seat)?,
        SetScrew => set_screw(at, seat)?,
        Glue => {
            let held = law::glue_shear(at.need(&at.assumed().glue_shear)?, seat.diameter.need(at)?, length()?);
            weakest(&[(held, "the glue shears")])
        }
    })
}

/// Pressure at which the softer of hub and shaft gives way, corners and flats in plastic counted in.
fn crushing(at: &At<'_>, seat: &Seat<'_>) -> Found<Pressure> {
    let Some(hub) = seat.hub else {
        let of = at.part(&seat.joint.material)?;
        return at.need(&at.machine().follow(of).value.yield_strength);
    };
    let of_hub = if strength::hard(hub) {
        at.need(&hub.yield_strength)?
    } else {
        let fresh = at.or(&hub.compressive_strength, &hub.tensile_strength)?;
        let now = fresh * strength::warmth(at, hub, seat.here)? * strength::damp(at, hub)?;
        now / at.need(&at.assumed().corner_peak)?
    };
    // A metal shaft in plastic is never the softer one.
    match seat.shaft.filter(|_| strength::hard(hub)) {
        Some(said) => {
            let of_shaft = at.need(&at.machine().follow(at.part(said)?).value.yield_strength)?;
            Ok(if of_shaft < of_hub { of_shaft } else { of_hub })
        }
        None => Ok(of_hub),
    }
}

fn key(at: &At<'_>, seat: &Seat<'_>) -> Found<Holds> {
    let (shaft, length) = (seat.diameter.need(at)?, seat.length.need(at)?);
    let key = law::parallel_key(shaft).map_err(refused)?;
    let own = at.need(&at.assumed().key_yield)?;
    let softest = crushing(at, seat)?;
    let softest = if softest < own { softest } else { own };
    // Shear yield by von Mises.
    let sheared = law::key_shear(own * 0.577, shaft, &key, length);
    weakest_of_two(
        (law::key_crushing(softest, shaft, &key, length), "the side of its keyway is crushed"),
        (sheared, "the key is sheared"),
    )
}

fn weakest_of_two(one: (Torque, &'static str), other: (Torque, &'static str)) -> Found<Holds> {
    Ok(weakest(&[one, other]))
}

fn pin(at: &At<'_>, seat: &Seat<'_>) -> Found<Holds> {
    let joint = seat.joint;
    let (pin, shaft) = (at.need(&joint.pin)?, seat.diameter.need(at)?);
    let of: &Material = at.machine().follow(at.part(&joint.pin_material)?);
    let sheared = law::pin_shear(at.need(&of.shear_strength)?, pin, shaft);
    let outside = seat.outside.map_or_else(|| at.need(&joint.hub_diameter), Ok)?;
    let crushed = law::pin_crushing_hub(crushing(at, seat)?, pin, shaft, outside);
    weakest_of_two((sheared, "the pin is sheared"), (crushed, "the pin's hole in the hub is crushed"))
}

fn screws(seat: &Seat<'_>) -> Found<Counted<Thread>> {
    let wanted = |what: &str| NotJudged::NoSolution(format!("the joint does not say its screws: {what}"));
    let size = seat.joint.size.as_deref().ok_or_else(|| wanted("write for example `size: M4`"))?;
    read_counted_thread(size).map_err(|misread| wanted(&misread.says))
}

/// As counted, else as written in front of the size.
fn how_many(at: &At<'_>, seat: &Seat<'_>, screws: &Counted<Thread>) -> Ratio {
    at.try_get(&seat.joint.count).unwrap_or(Ratio::from_si(f64::from(screws.count)))
}

fn clamp(at: &At<'_>, seat: &Seat<'_>) -> Found<Holds> {
    let (screws, assumed) = (screws(seat)?, at.assumed());
    let plastic = seat.hub.is_some_and(|hub| !strength::hard(hub));
    let head = if plastic { Some(at.need(&assumed.head_pressure_on_polymer)?) } else { None };
    let tension = at.need(&assumed.screw_tension)?;
    let preload = physics::screw::clamping(tension, head, screws.each.diameter, screws.each.pitch);
    let (count, friction) = (how_many(at, seat, &screws), at.need(&assumed.clamp_friction)?);
    Ok(weakest(&[(law::clamp_slip(count, preload, friction, seat.diameter.need(at)?), "the clamp slips")]))
}

fn set_screw(at: &At<'_>, seat: &Seat<'_>) -> Found<Holds> {
    if seat.hub.is_some_and(|hub| !strength::hard(hub)) {
        return Ok(Holds::Nothing("a set screw in a thread of plastic strips before it bites"));
    }
    let screws = screws(seat)?;
    let holding = law::set_screw_holding(screws.each.diameter).map_err(refused)?;
    let held = law::set_screw_slip(holding, how_many(at, seat, &screws), seat.diameter.need(at)?);
    Ok(weakest(&[(held, "the set screw slips and scores the shaft")]))
}
