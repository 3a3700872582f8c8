//! The coolant loop: flow, pressures, temperatures round the circuit.
//!
//! Simplified, and on which side: one heat capacity rate for the whole loop; heat goes in and out only in plates, jackets and
//! exchangers and at the pump, not through hoses; steady, so it says where the loop ends, not when; heights are left out
//! of the pressures (10 kPa a metre); the inside film of an element known only by a tested drop is left out.

mod elements;
pub mod liquid;
mod passage;
mod properties;
mod reservoir;
mod steady;
#[cfg(test)]
mod tests;

use crate::at::At;
use elements::Loop;
use machine::{Found, NotJudged, PumpControl, PumpState};
use quantity::*;

/// The loop in one case point, as the case drives it and idling.
#[derive(Debug, Clone, PartialEq)]
pub struct Coolant {
    /// With the case's heat, pump as its control says.
    pub driven: Circuit,
    /// Pump running, no heat from the drive line, at the same outside air: the coldest that the faces get. Where the pump
    /// waits for a temperature that this does not reach, it stands still here too.
    pub idle: Circuit,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Circuit {
    pub flow: VolumeRate,
    pub running: bool,
    /// Pump torque is used up by thick coolant: next to no flow.
    pub stalled: bool,
    /// Absolute, in the reservoir's gas space.
    pub reservoir_pressure: Pressure,
    /// Why the reservoir's pressure is that of the outside air and not worked out; every absolute pressure stands on it.
    pub pressure_unknown: Option<NotJudged>,
    /// In the order of the machine's circuit.
    pub elements: Vec<ElementState>,
    /// Heat put in minus heat given off, over the heat that passes through the coolant.
    pub imbalance: f64,
}

#[derive(Debug, Clone, PartialEq)]
pub struct ElementState {
    pub inlet: ThermodynamicTemperature,
    pub outlet: ThermodynamicTemperature,
    /// Of the face or fitting that the zone's air touches; the coldest point of it. A heated plate's is that of the thing
    /// on it, its contact included; see `wetted` for the bare plate.
    pub wall: ThermodynamicTemperature,
    /// Coldest and hottest point of the wall that the coolant wets.
    pub wetted: (ThermodynamicTemperature, ThermodynamicTemperature),
    /// Absolute, at the outlet.
    pub pressure: Pressure,
    /// Negative where the pump adds it.
    pub drop: Pressure,
    /// Zero where the way through is not known.
    pub reynolds: f64,
    /// Into the coolant; negative when given off.
    pub heat: Power,
}

/// Works the loop out.
///
/// # Errors
/// A gap, a coolant outside the range of its properties, or no convergence.
pub(crate) fn solve(at: &At) -> Found<Coolant> {
    let circuit = Loop::read(at)?;
    let pump = &at.machine().cooling.pump;
    let heats: Vec<f64> = circuit.stations.iter().map(|station| station.heat).collect();
    let idling: Vec<f64> = circuit.stations.iter().map(|station| station.idle_heat).collect();
    let running = |heats: &[f64]| circuit.running(at, heats);
    let still = |heats: &[f64]| circuit.still(at, &without_pump(&circuit, heats), false);
    // A pump that waits for warm coolant starts where it would keep running.
    let waiting = |heats: &[f64]| -> Found<Circuit> {
        let starts = at.need(&pump.starts_above)?;
        let running = running(heats)?;
        let hottest = running.elements.iter().map(|element| element.outlet.si()).fold(f64::NEG_INFINITY, f64::max);
        if hottest >= starts.si() { Ok(running) } else { still(heats) }
    };
    let stated = at.try_part(&at.case()?.pump);
    let (driven, idle) = match stated {
        Some(PumpState::Running) => (running(&heats)?, running(&idling)?),
        Some(PumpState::Stopped) => (still(&heats)?, running(&idling)?),
        None => match at.or_word(&pump.runs, PumpControl::Always, "always") {
            PumpControl::Always => (running(&heats)?, running(&idling)?),
            PumpControl::WithElectronics if circuit.powered => (running(&heats)?, running(&idling)?),
            PumpControl::WithElectronics => (still(&heats)?, running(&idling)?),
            PumpControl::AboveTemperature => (waiting(&heats)?, waiting(&idling)?),
        },
    };
    let driven = reservoir::pressures(at, &circuit, driven)?;
    let idle = reservoir::pressures(at, &circuit, idle)?;
    finite(&driven)?;
    finite(&idle)?;
    Ok(Coolant { driven, idle })
}

/// A pump that stands still makes no heat.
fn without_pump(circuit: &Loop, heats: &[f64]) -> Vec<f64> {
    let pairs = heats.iter().zip(&circuit.stations);
    pairs.map(|(heat, station)| if station.role == elements::Role::Pump { 0.0 } else { *heat }).collect()
}

/// Zeros in the spec (a hose of no bore) must not end as numbers that are none.
fn finite(circuit: &Circuit) -> Found<()> {
    let sound = circuit.elements.iter().all(|element| {
        let temperatures = [element.inlet, element.outlet, element.wall, element.wetted.0, element.wetted.1];
        temperatures.iter().all(|each| each.si().is_finite())
            && element.pressure.si().is_finite()
            && element.heat.si().is_finite()
    });
    if sound && circuit.flow.si().is_finite() {
        return Ok(());
    }
    Err(NotJudged::NoSolution(
        "the coolant loop has no finite answer: a size in it is zero or far from possible".into(),
    ))
}

/// Heat capacity of the coolant for each volume, J/(m³·K).
pub(crate) fn heat_per_volume(at: &At, temperature: ThermodynamicTemperature) -> Found<f64> {
    let fluid = at.machine().follow(at.part(&at.machine().cooling.coolant.fluid)?);
    let liquid = properties::Liquid::read(at, fluid)?.at(at, temperature)?;
    Ok(liquid.density.si() * liquid.heat_capacity.si())
}
