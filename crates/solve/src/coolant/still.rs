//! The loop without flow.

use super::elements::{Loop, Role};
use super::{Circuit, ElementState};
use crate::at::At;
use machine::{Found, NotJudged};
use physics::heat::exchanger::to_passing_air;
use quantity::*;

impl Loop<'_> {
    /// Each element by itself, its heat to the air before it through its outer face or else through its own wetted wall, as
    /// if that stood in moving air; an element without either shows its contact alone. Rough, and on the cool side: how hot
    /// a thing gets without flow is to be measured.
    pub(super) fn still(&self, at: &At, heats: &[f64]) -> Found<Circuit> {
        let mut elements = Vec::with_capacity(self.stations.len());
        for (station, heat) in self.stations.iter().zip(heats) {
            let heat = if station.role == Role::Pump { 0.0 } else { *heat };
            let (air, conductance) = match station.outer {
                Some((outer, air)) => (air, Some(to_passing_air(outer, station.air_rate))),
                None => {
                    let wall = station.passage.wetted().filter(|_| heat != 0.0);
                    let transfer = wall.map(|wall| Ok(at.need(&at.assumed().plate_to_air)?.si() * wall)).transpose()?;
                    (station.air.clone()?, transfer)
                }
            };
            let above =
                conductance.filter(|conductance| *conductance > 0.0).map_or(0.0, |conductance| heat / conductance);
            let coolant = ThermodynamicTemperature::from_si(air + above);
            let wall = ThermodynamicTemperature::from_si(coolant.si() + heat * station.contact);
            elements.push(ElementState { wall, ..ElementState::resting(coolant) });
        }
        Ok(Circuit { elements, ..Circuit::at_rest(self.pump.most()) })
    }

    /// Coolant that stands still beyond the temperatures at which it is known: said, and shown as hot as is known.
    pub(super) fn as_far_as_known(&self, at: &At, mut still: Circuit) -> Circuit {
        let ends = still.elements.iter().filter_map(|element| match self.liquid.at(at, element.outlet) {
            Err(NotJudged::OutsideRange { unit, to, was, .. }) if was > to => Some(kelvin(unit, to)),
            _ => None,
        });
        let Some(hottest) = ends.reduce(f64::min).map(ThermodynamicTemperature::from_si) else { return still };
        let held = |there: ThermodynamicTemperature| if there > hottest { hottest } else { there };
        for element in &mut still.elements {
            (element.inlet, element.outlet, element.wall) =
                (held(element.inlet), held(element.outlet), held(element.wall));
            element.wetted = (held(element.wetted.0), held(element.wetted.1));
        }
        still.heat_unknown = Some(stands());
        still
    }
}

/// An end of a range in K.
fn kelvin(unit: &str, end: f64) -> f64 {
    if unit == "K" { end } else { celsius(end).si() }
}

/// Coolant that is heated and does not move.
fn stands() -> NotJudged {
    NotJudged::NoSolution(
        "the coolant stands still while it is heated, and gets hotter than anything is known of it: how hot is to be measured"
            .into(),
    )
}
