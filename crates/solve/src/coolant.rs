//! The coolant loop: flow, pressures, temperatures round the circuit.

use crate::at::At;
use machine::Found;
use quantity::*;

/// The loop in one case point, as the case drives it and idling.
#[derive(Debug, Clone, PartialEq)]
pub struct Coolant {
    /// With the case's heat, pump as its control says.
    pub driven: Circuit,
    /// Pump running, no heat from the drive line, at the same outside air: the coldest that the faces get.
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
    /// In the order of the machine's circuit.
    pub elements: Vec<ElementState>,
    /// Heat put in minus heat given off, over the heat put in.
    pub imbalance: f64,
}

#[derive(Debug, Clone, PartialEq)]
pub struct ElementState {
    pub inlet: ThermodynamicTemperature,
    pub outlet: ThermodynamicTemperature,
    /// Of the face or fitting that the zone's air touches; the coldest point of it.
    pub wall: ThermodynamicTemperature,
    /// Absolute, at the outlet.
    pub pressure: Pressure,
    pub drop: Pressure,
    pub reynolds: f64,
    /// Into the coolant; negative when given off.
    pub heat: Power,
}

/// Works the loop out.
///
/// # Errors
/// A gap, a coolant outside the range of its properties, or no convergence.
pub(crate) fn solve(at: &At) -> Found<Coolant> {
    let _ = at.case()?;
    Err(machine::NotJudged::NoSolution("coolant".into()))
}
