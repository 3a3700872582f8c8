//! The loop without flow.

use super::elements::{Loop, Role};
use super::steady::Settling;
use super::{Circuit, ElementState};
use crate::at::At;
use machine::Found;
use quantity::*;

impl Loop<'_> {
    /// Each element by itself, its heat to the air before it through its outer face or else through its own wetted wall, as
    /// if that stood in moving air; an element without either shows its contact alone. Rough, and on the cool side: how hot
    /// a thing gets without flow is to be measured. A pump that pushes in vain still makes its pressure.
    pub(super) fn still(&self, at: &At, heats: &[f64], stalled: Option<&Settling>) -> Found<Circuit> {
        let mut elements = Vec::with_capacity(self.stations.len());
        let (drops, rise) = stalled.map_or_else(Default::default, |now| self.drops(now, 1.0));
        for (place, (station, heat)) in self.stations.iter().zip(heats).enumerate() {
            // The housing of a stalled pump is wet by little; its heat stays out of it.
            let heat = if station.role == Role::Pump { 0.0 } else { *heat };
            let (air, conductance) = match station.outer {
                Some((outer, air)) => (air, Some(outer)),
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
            let drop = Pressure::from_si(drops.get(place).copied().unwrap_or(0.0));
            elements.push(ElementState { wall, drop, ..ElementState::resting(coolant) });
        }
        Ok(match stalled {
            Some(now) => Circuit { running: false, stalled: true, elements, ..self.bare(now, rise) },
            None => Circuit { elements, ..Circuit::at_rest(self.pump.most()) },
        })
    }
}
