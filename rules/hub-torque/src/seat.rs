//! Where a joint sits: its sizes, what is round it, what goes through it.

use gears::{Load, Pair, Side};
use rule::prelude::*;

/// One joint between what turns inside and what turns outside.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Seat<'a> {
    pub joint: &'a ShaftJoint,
    /// Through this joint, without uneven driving.
    pub torque: Torque,
    /// Of the shaft, or of the insert in its gear.
    pub diameter: Sized<'a>,
    pub length: Sized<'a>,
    pub hub: Option<&'a Material>,
    /// Where the material of what turns inside is said, if it is said anywhere.
    pub shaft: Option<&'a Maybe<Ref<Material>>>,
    /// Of the plastic.
    pub here: ThermodynamicTemperature,
    /// Outside of the hub.
    pub outside: Option<Length>,
    pub called: &'static str,
}

/// A size, or the field that would give it.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Sized<'a> {
    Is(Length),
    Wanted(&'a Given<m::Length>),
}

impl Sized<'_> {
    pub(crate) fn need(&self, at: &At<'_>) -> Found<Length> {
        match self {
            Self::Is(length) => Ok(*length),
            Self::Wanted(given) => at.need(*given),
        }
    }
}

/// The joint's own figure before that of what it sits in.
fn sized<'a>(at: &At<'_>, own: &'a Given<m::Length>, others: &[&Given<m::Length>]) -> Sized<'a> {
    let found = at.try_get(own).or_else(|| others.iter().find_map(|other| at.try_get(other)));
    found.map_or(Sized::Wanted(own), Sized::Is)
}

fn hub_of<'a>(at: &At<'a>, joint: &'a ShaftJoint, of_gear: Option<&'a Named<Material>>) -> Option<&'a Material> {
    let own = at.try_part(&joint.material).map(|material| at.machine().follow(material));
    own.or(of_gear).map(|material| &material.value)
}

pub(crate) fn of_gear<'a>(
    pair: &Pair<'a>,
    side: Side,
    at: &At<'a>,
    joint: &'a ShaftJoint,
    load: &Load,
) -> Found<Seat<'a>> {
    let gear = pair.gear(side);
    let hub = at.try_part(&gear.hub);
    let metal = hub.filter(|hub| hub.form != HubForm::Solid).and_then(|hub| at.try_part(&hub.material));
    let of_gear = match metal {
        Some(metal) => at.machine().follow(metal),
        None => pair.material(at, side)?,
    };
    let mut lengths: Vec<&Given<m::Length>> = hub.iter().map(|hub| &hub.length).collect();
    lengths.extend([&gear.face_width, &pair.stage.face_width]);
    let outside = at.try_get(&joint.hub_diameter).or_else(|| hub.and_then(|hub| at.try_get(&hub.outer_diameter)));
    Ok(Seat {
        joint,
        torque: through(at, joint, side, load),
        diameter: sized(at, &joint.diameter, &[&gear.bore]),
        length: sized(at, &joint.length, &lengths),
        hub: hub_of(at, joint, Some(of_gear)),
        shaft: None,
        here: pair.teeth(at, side)?.root,
        outside: outside.or_else(|| pair.body(at, side).ok().map(|body| body.root_diameter())),
        called: side.word(),
    })
}

pub(crate) fn of_insert<'a>(
    pair: &Pair<'a>,
    side: Side,
    at: &At<'a>,
    insert: &'a Hub,
    joint: &'a ShaftJoint,
    load: &Load,
) -> Found<Seat<'a>> {
    Ok(Seat {
        joint,
        torque: through(at, joint, side, load),
        diameter: sized(at, &joint.diameter, &[&insert.outer_diameter]),
        length: sized(at, &joint.length, &[&insert.length]),
        hub: hub_of(at, joint, Some(pair.material(at, side)?)),
        shaft: Some(&insert.material),
        here: pair.teeth(at, side)?.root,
        outside: pair.body(at, side).ok().map(|body| body.root_diameter()),
        called: side.word(),
    })
}

pub(crate) fn of_station<'a>(
    shaft: &'a Named<Shaft>,
    joint: &'a ShaftJoint,
    at: &At<'a>,
    load: &Load,
) -> Found<Seat<'a>> {
    Ok(Seat {
        joint,
        torque: through(at, joint, Side::Wheel, load),
        diameter: sized(at, &joint.diameter, &[&shaft.value.diameter]),
        length: sized(at, &joint.length, &[]),
        hub: hub_of(at, joint, None),
        shaft: Some(&shaft.value.material),
        here: at.surroundings()?.outside,
        outside: at.try_get(&joint.hub_diameter),
        called: "hub",
    })
}

/// All of the shaft's torque unless the joint says its share.
fn through(at: &At<'_>, joint: &ShaftJoint, side: Side, load: &Load) -> Torque {
    let torque = if side == Side::Pinion { load.pinion } else { load.wheel };
    torque * at.try_get(&joint.share).map_or(1.0, |share| share.si())
}
