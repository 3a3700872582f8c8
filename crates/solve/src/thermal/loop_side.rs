//! The coolant loop as the bodies see it: places of coolant that follow one another, and the faces through which a body
//! gives them its heat. Between body and coolant stand the contact and the film, always.

use super::around::{Holds, Reach};
use super::bodies::FIRST_COOLANT;
use super::network::Network;
use crate::at::At;
use crate::coolant::path::Stretch;
use crate::coolant::{Circuit, ElementState};
use machine::{Cooled, Element, Found, Plate, PumpControl};
use quantity::*;

/// The flowing loop, as far as it takes heat from bodies. Kelvin above the outside air.
#[derive(Debug)]
pub(super) struct LoopSide {
    /// In the order of the reaches.
    places: Vec<Place>,
    pub(super) faces: Vec<Face>,
    /// Of a pump that turns now and then: how warm the coolant at a heated place is then.
    pub(super) waits_for: Option<f64>,
}

/// One place of the coolant.
#[derive(Debug)]
struct Place {
    /// J/K.
    capacity: f64,
    /// W/K of what flows through, and the shares of it that come from other places.
    rate: f64,
    from: Vec<(usize, f64)>,
    /// What it gives off on the way: W/K, and how warm that is.
    out: Option<(f64, f64)>,
    /// Put in by what is no body here, W.
    heat: f64,
}

/// The face of an element that cools a body.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Face {
    pub(super) cools: Cooled,
    /// In the machine's circuit.
    pub(super) element: usize,
    /// In the network.
    pub(super) place: usize,
    /// Between body and wetted wall, and between that and the coolant, K/W.
    pub(super) contact: f64,
    pub(super) film: f64,
}

impl Face {
    /// Between body and coolant, W/K.
    pub(super) fn conductance(&self) -> f64 {
        1.0 / (self.contact + self.film)
    }
}

/// Least resistance that a contact is taken to have, K/W.
const BEST_CONTACT: f64 = 1e-3;
/// Holds the coolant where it is, W/K.
const FIRM: f64 = 1e3;
/// Least share of its warmth over the air that coolant keeps in passing.
const KEPT: f64 = 1e-3;
/// Share of the coolant in a face whose channel is not known, and the most that one is taken to hold.
const IN_A_FACE: (f64, f64) = (0.02, 0.3);

/// Elements with a wall.
pub(super) fn walls<'a>(at: &At<'a>) -> impl Iterator<Item = (usize, &'a Plate)> + use<'a> {
    at.machine().cooling.circuit.iter().enumerate().filter_map(|(place, element)| Some((place, walled(element)?)))
}

fn walled(element: &Element) -> Option<&Plate> {
    match element {
        Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate) => Some(plate),
        _ => None,
    }
}

/// The wall that cools a thing first in the order of flow.
pub(super) fn wall_of<'a>(at: &At<'a>, cooled: Cooled) -> Option<&'a Plate> {
    walls(at).map(|(_, plate)| plate).find(|plate| plate.cools == Some(cooled))
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
    pub(super) fn read(at: &At, reaches: &Found<Vec<Reach>>) -> Found<Option<Self>> {
        if at.machine().cooling.circuit.is_empty() {
            return Ok(None);
        }
        match flow(at)? {
            Flow::Still => Ok(None),
            Flow::Now(warm) => Self::now_and_then(at, reaches.as_ref().map_err(Clone::clone)?, warm).map(Some),
            Flow::Steady(circuit) => Self::steady(at, reaches.as_ref().map_err(Clone::clone)?, circuit).map(Some),
        }
    }

    /// Only bodies that get as warm by themselves make the pump turn; from then on it keeps them there. It is taken to do so
    /// from the first moment: the hot side.
    pub(super) fn only_for(&mut self, ends: impl Fn(Cooled) -> f64) {
        if let Some(warm) = self.waits_for {
            self.faces.retain(|face| ends(face.cools) > warm);
        }
    }

    /// Puts the coolant into the network.
    pub(super) fn flows(&self, network: &mut Network) {
        for (index, place) in self.places.iter().enumerate() {
            let here = FIRST_COOLANT + index;
            network.body(here, place.capacity);
            if place.from.iter().any(|(from, _)| *from != here) {
                network.stream(here, place.rate, &place.from);
            }
            if let Some((conductance, temperature)) = place.out {
                network.held(here, conductance, temperature);
            }
            network.heat(here, place.heat);
        }
    }

    fn steady(at: &At, reaches: &[Reach], circuit: &Circuit) -> Found<Self> {
        let outside = at.surroundings()?.outside.si();
        let count = circuit.elements.len().max(1);
        #[expect(clippy::cast_precision_loss, reason = "a handful of elements")]
        let mean = circuit.elements.iter().map(|element| element.outlet.si()).sum::<f64>() / count as f64;
        let stored = crate::coolant::heat_per_volume(at, ThermodynamicTemperature::from_si(mean))?;
        let capacities = capacities(at, reaches, stored)?;
        let stream = |reach: &Reach| {
            let within = reach.branch.iter().filter_map(|place| circuit.elements.get(*place));
            let branch = within.map(|element| element.flow.si()).fold(0.0, f64::max);
            if reach.branch.is_empty() { circuit.flow.si() } else { branch }
        };
        let (mut places, mut faces) = (Vec::with_capacity(reaches.len()), Vec::new());
        for (index, (reach, capacity)) in reaches.iter().zip(capacities).enumerate() {
            let rate = stored * stream(reach);
            let feeding = |from: &usize| reaches.get(*from).map_or(0.0, stream);
            let all: f64 = reach.from.iter().map(feeding).sum();
            let shares =
                reach.from.iter().map(|from| (FIRST_COOLANT + from, feeding(from) / all.max(f64::MIN_POSITIVE)));
            let (kept, added) = match &reach.holds {
                Holds::Between(stretches) => between(stretches, circuit, outside),
                Holds::Face(element, cools) => {
                    let Some(state) = circuit.elements.get(*element) else { continue };
                    faces.extend(face(at, *element, *cools, FIRST_COOLANT + index, Some(state))?);
                    let kept = 1.0 - state.given_off;
                    (kept, (1.0 - kept) * air_before(at, *element)?)
                }
            };
            let kept = kept.clamp(KEPT, 1.0);
            let lost = rate * (1.0 - kept) / kept;
            let (out, heat) = match lost > 0.0 {
                true => (Some((lost, added / (1.0 - kept))), 0.0),
                false => (None, rate * added),
            };
            places.push(Place { capacity, rate, from: shares.collect(), out, heat });
        }
        Ok(Self { places, faces, waits_for: None })
    }

    /// At heated places the coolant stays as warm as that at which the pump starts.
    fn now_and_then(at: &At, reaches: &[Reach], warm: f64) -> Found<Self> {
        let stored = crate::coolant::heat_per_volume(at, ThermodynamicTemperature::from_si(warm))?;
        let held = warm - at.surroundings()?.outside.si();
        let (mut places, mut faces) = (Vec::with_capacity(reaches.len()), Vec::new());
        for (index, (reach, capacity)) in reaches.iter().zip(capacities(at, reaches, stored)?).enumerate() {
            if let Holds::Face(element, cools) = reach.holds {
                faces.extend(face(at, element, cools, FIRST_COOLANT + index, None)?);
            }
            places.push(Place { capacity, rate: 0.0, from: Vec::new(), out: Some((FIRM, held)), heat: 0.0 });
        }
        Ok(Self { places, faces, waits_for: Some(held) })
    }
}

/// What is left of the warmth that comes in, and what is added, by a row of elements as the loop has them.
fn between(stretches: &[Stretch], circuit: &Circuit, outside: f64) -> (f64, f64) {
    let one = |place: &usize| {
        circuit.elements.get(*place).map_or((1.0, 0.0), |element| {
            let kept = 1.0 - element.given_off;
            (kept, element.outlet.si() - outside - kept * (element.inlet.si() - outside))
        })
    };
    let row = |(kept, added): (f64, f64), (here, more): (f64, f64)| (kept * here, added * here + more);
    let flow = |way: &Vec<usize>| {
        way.iter().filter_map(|place| circuit.elements.get(*place)).map(|element| element.flow.si()).fold(0.0, f64::max)
    };
    stretches.iter().fold((1.0, 0.0), |so_far, stretch| match stretch {
        Stretch::Single(place) => row(so_far, one(place)),
        Stretch::Branches(ways) => {
            let all: f64 = ways.iter().map(flow).sum();
            let mixed = ways.iter().fold((0.0, 0.0), |(kept, added), way| {
                let (here, more) = way.iter().map(one).fold((1.0, 0.0), row);
                let share = flow(way) / all.max(f64::MIN_POSITIVE);
                (kept + share * here, added + share * more)
            });
            row(so_far, mixed)
        }
    })
}

/// J/K of the coolant in each place: what a face's channel holds, and the rest evenly between them.
fn capacities(at: &At, reaches: &[Reach], stored: f64) -> Found<Vec<f64>> {
    let all = at.need(&at.machine().cooling.coolant.volume)?.si();
    let holds = |reach: &Reach| match reach.holds {
        Holds::Between(_) => None,
        Holds::Face(element, _) => {
            let plate = at.machine().cooling.circuit.get(element).and_then(walled);
            let channel = plate.and_then(|plate| at.try_part(&plate.channel)).and_then(|channel| {
                let (width, depth) = (at.try_get(&channel.width)?, at.try_get(&channel.depth)?);
                let count = at.try_get(&channel.count).map_or(1.0, |count| count.si().max(1.0));
                Some(width.si() * depth.si() * at.try_get(&channel.length)?.si() * count)
            });
            Some(channel.map_or(IN_A_FACE.0, |volume| (volume / all).min(IN_A_FACE.1)))
        }
    };
    let each: Vec<Option<f64>> = reaches.iter().map(holds).collect();
    let in_faces: f64 = each.iter().flatten().sum();
    #[expect(clippy::cast_precision_loss, reason = "a handful of places")]
    let others = each.iter().filter(|share| share.is_none()).count().max(1) as f64;
    let rest = (1.0 - in_faces).max(IN_A_FACE.0) / others;
    Ok(each.into_iter().map(|share| share.unwrap_or(rest) * all * stored).collect())
}

/// Contact and film of an element that cools a body.
fn face(at: &At, element: usize, cools: Cooled, place: usize, state: Option<&ElementState>) -> Found<Option<Face>> {
    let Some(plate) = at.machine().cooling.circuit.get(element).and_then(walled) else { return Ok(None) };
    let contact = contact(at, plate)?;
    let film = 1.0 / film(at, plate, state)?.si();
    Ok(Some(Face { cools, element, place, contact, film }))
}

/// Between the coolant and the wall that it wets: as the loop has it, else of the wall's film and area, given or assumed.
///
/// # Errors
/// A gap: the figures that stand in are part of the catalogue.
pub fn film(at: &At, plate: &Plate, state: Option<&ElementState>) -> Found<ThermalConductance> {
    if let Some(film) = state.and_then(|state| state.film).filter(|film| film.si() > 0.0) {
        return Ok(film);
    }
    let assumed = at.assumed();
    let channel = at.try_part(&plate.channel).and_then(|channel| {
        let (width, depth) = (at.try_get(&channel.width)?, at.try_get(&channel.depth)?);
        let count = at.try_get(&channel.count).map_or(1.0, |count| count.si().max(1.0));
        Some((width + depth) * at.try_get(&channel.length)? * (2.0 * count))
    });
    let area = match channel {
        Some(wetted) => wetted,
        None => at.or(&plate.area, &assumed.wetted_area)?,
    };
    let film = at.or(&plate.film, &assumed.jacket_film)?;
    Ok(ThermalConductance::from_si((film.si() * area.si()).max(1e-6)))
}

/// The faces of the flowing loop that cool a thing: W/K to the coolant at each, and how warm that leaves it, K.
pub(super) fn held_faces(at: &At, cooled: Cooled) -> Found<Vec<(f64, f64)>> {
    if wall_of(at, cooled).is_none() {
        return Ok(Vec::new());
    }
    let flow = flow(at)?;
    let mut faces = Vec::new();
    for (place, plate) in walls(at).filter(|(_, plate)| plate.cools == Some(cooled)) {
        let (state, coolant) = match flow {
            Flow::Still => continue,
            Flow::Now(warm) => (None, warm),
            Flow::Steady(circuit) => match circuit.elements.get(place) {
                Some(element) => (Some(element), element.outlet.si().max(element.inlet.si())),
                None => continue,
            },
        };
        faces.push((1.0 / (contact(at, plate)? + 1.0 / film(at, plate, state)?.si()), coolant));
    }
    Ok(faces)
}

/// K/W.
fn contact(at: &At, plate: &Plate) -> Found<f64> {
    Ok(at.or(&plate.contact_resistance, &at.assumed().contact_resistance)?.si().max(BEST_CONTACT))
}

/// The air before an element's outer face, above the outside air.
fn air_before(at: &At, element: usize) -> Found<f64> {
    let around = at.surroundings()?;
    let plate = at.machine().cooling.circuit.get(element).and_then(walled);
    let air = match plate.and_then(|plate| at.try_part(&plate.outside)) {
        Some(face) => around.air(at, at.try_part(&face.to))?,
        None => around.outside,
    };
    Ok(air.si() - around.outside.si())
}
