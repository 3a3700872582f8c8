//! The coolant loop as the bodies see it: one body of coolant, and faces that stand a little above or below it.

use crate::at::At;
use crate::coolant::Circuit;
use machine::{Cooled, Element, Found, Plate, PumpControl};
use quantity::*;

/// The flowing loop, as far as it takes heat from bodies. Kelvin above the outside air.
#[derive(Debug)]
pub(super) struct LoopSide {
    /// J/K of all the coolant.
    pub(super) capacity: f64,
    /// Where its heat goes: W/K, and how warm that is.
    pub(super) sink: (f64, f64),
    /// Put in by what is no body here, W.
    pub(super) direct: f64,
    pub(super) faces: Vec<Face>,
    /// Whether a body without heat is tied to it too.
    pub(super) always: bool,
}

/// The face of an element that cools a body.
#[derive(Debug)]
pub(super) struct Face {
    pub(super) cools: Cooled,
    /// Between body and wetted wall, W/K.
    pub(super) contact: f64,
    /// How much warmer than the mean coolant the wetted wall is.
    pub(super) above: f64,
}

/// Least resistance that a contact is taken to have, K/W.
const BEST_CONTACT: f64 = 1e-3;
/// Holds the coolant where it is, W/K.
const FIRM: f64 = 1e3;
/// Least difference of coolant and what takes its heat, K.
const LEAST_GAP: f64 = 0.3;

/// Elements with a wall.
pub(super) fn walls<'a>(at: &At<'a>) -> impl Iterator<Item = (usize, &'a Plate)> + use<'a> {
    at.machine().cooling.circuit.iter().enumerate().filter_map(|(place, element)| match element {
        Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate) => Some((place, plate)),
        _ => None,
    })
}

/// The wall that cools a thing first in the order of flow.
pub(super) fn wall_of<'a>(at: &At<'a>, cooled: Cooled) -> Option<&'a Plate> {
    at.machine().cooling.circuit.iter().find_map(|element| match element {
        Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate) if plate.cools == Some(cooled) => {
            Some(plate)
        }
        _ => None,
    })
}

/// What the coolant does.
enum Flow<'a> {
    Still,
    /// The pump turns now and then, whenever the coolant at a heated place is as warm as that, K.
    Now(f64),
    Steady(&'a Circuit),
}

fn flow<'a>(at: &At<'a>) -> Found<Flow<'a>> {
    if !super::powered(at)? {
        return Ok(Flow::Still);
    }
    let circuit = &at.coolant()?.driven;
    if circuit.running && !circuit.stalled && circuit.flow.si() > 0.0 {
        return Ok(Flow::Steady(circuit));
    }
    let pump = &at.machine().cooling.pump;
    let waits =
        at.try_part(&at.case()?.pump).is_none() && at.try_part(&pump.runs) == Some(&PumpControl::AboveTemperature);
    if waits && !circuit.stalled {
        return Ok(Flow::Now(at.need(&pump.starts_above)?.si()));
    }
    Ok(Flow::Still)
}

impl LoopSide {
    /// Nothing where no coolant flows.
    pub(super) fn read(at: &At) -> Found<Option<Self>> {
        if at.machine().cooling.circuit.is_empty() {
            return Ok(None);
        }
        match flow(at)? {
            Flow::Still => Ok(None),
            Flow::Now(warm) => Self::now_and_then(at, warm).map(Some),
            Flow::Steady(circuit) => Self::steady(at, circuit).map(Some),
        }
    }

    fn steady(at: &At, circuit: &Circuit) -> Found<Self> {
        let outside = at.surroundings()?.outside.si();
        let count = circuit.elements.len().max(1);
        #[expect(clippy::cast_precision_loss, reason = "a handful of elements")]
        let mean = circuit.elements.iter().map(|element| element.outlet.si() - outside).sum::<f64>() / count as f64;
        let (mut faces, mut of_bodies) = (Vec::new(), 0.0);
        for (place, plate, cools) in cooling(at) {
            let Some(element) = circuit.elements.get(place) else { continue };
            let above = element.wetted.1.si() - outside - mean;
            faces.push(Face { cools, contact: 1.0 / contact(at, plate)?, above });
            of_bodies += element.heat.si().max(0.0);
        }
        let put_in: f64 = circuit.elements.iter().map(|element| element.heat.si().max(0.0)).sum();
        let sink_at = sink(at)?;
        let warm = circuit.elements.first().map_or(at.surroundings()?.outside, |element| element.inlet);
        let capacity = Self::capacity(at, warm)?;
        let sink = (put_in.max(1.0) / (mean - sink_at).max(LEAST_GAP), sink_at);
        Ok(Self { capacity, sink, direct: (put_in - of_bodies).max(0.0), faces, always: true })
    }

    /// At heated places the coolant stays as warm as that at which the pump starts.
    fn now_and_then(at: &At, warm: f64) -> Found<Self> {
        let mut faces = Vec::new();
        for (_, plate, cools) in cooling(at) {
            faces.push(Face { cools, contact: 1.0 / contact(at, plate)?, above: 0.0 });
        }
        let capacity = Self::capacity(at, ThermodynamicTemperature::from_si(warm))?;
        let sink = (FIRM, warm - at.surroundings()?.outside.si());
        Ok(Self { capacity, sink, direct: 0.0, faces, always: false })
    }

    fn capacity(at: &At, warm: ThermodynamicTemperature) -> Found<f64> {
        let volume = at.need(&at.machine().cooling.coolant.volume)?;
        Ok(volume.si() * crate::coolant::heat_per_volume(at, warm)?)
    }
}

/// Walls that cool motor or controller.
fn cooling<'a>(at: &At<'a>) -> impl Iterator<Item = (usize, &'a Plate, Cooled)> + use<'a> {
    walls(at).filter_map(|(place, plate)| match plate.cools {
        Some(cools @ (Cooled::Motor | Cooled::Controller)) => Some((place, plate, cools)),
        _ => None,
    })
}

/// The faces of the flowing loop that cool a thing: W/K to each, and its wetted wall in K.
pub(super) fn held_faces(at: &At, cooled: Cooled) -> Found<Vec<(f64, f64)>> {
    if wall_of(at, cooled).is_none() {
        return Ok(Vec::new());
    }
    let flow = flow(at)?;
    let mut faces = Vec::new();
    for (place, plate) in walls(at).filter(|(_, plate)| plate.cools == Some(cooled)) {
        let wall = match flow {
            Flow::Still => continue,
            Flow::Now(warm) => warm,
            Flow::Steady(circuit) => match circuit.elements.get(place) {
                Some(element) => element.wetted.1.si(),
                None => continue,
            },
        };
        faces.push((1.0 / contact(at, plate)?, wall));
    }
    Ok(faces)
}

/// K/W.
fn contact(at: &At, plate: &Plate) -> Found<f64> {
    Ok(at.or(&plate.contact_resistance, &at.assumed().contact_resistance)?.si().max(BEST_CONTACT))
}

/// How warm that is which takes the heat out of the coolant, above the outside air.
fn sink(at: &At) -> Found<f64> {
    let around = at.surroundings()?;
    let face = walls(at).find_map(|(_, plate)| at.try_part(&plate.outside));
    let air = match face {
        Some(face) => around.air(at, at.try_part(&face.to))?,
        None => around.outside,
    };
    Ok(air.si() - around.outside.si())
}
