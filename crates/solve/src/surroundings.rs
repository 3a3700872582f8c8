//! Outside air and pressure, and the air and water vapour of each zone.

use crate::at::At;
use machine::{Found, Moisture};
use quantity::*;

/// The surroundings in one case point.
#[derive(Debug, Clone, PartialEq)]
pub struct Surroundings {
    pub outside: ThermodynamicTemperature,
    /// Absolute, at the altitude where it is lowest.
    pub pressure: Pressure,
    /// Water vapour in the outside air.
    pub vapour: Pressure,
    /// In the order of the machine's zones.
    pub zones: Vec<Found<ZoneAir>>,
}

/// The air of one zone.
#[derive(Debug, Clone, PartialEq)]
pub struct ZoneAir {
    pub air: ThermodynamicTemperature,
    pub vapour: Pressure,
    /// Below it water (or frost) settles.
    pub dew: ThermodynamicTemperature,
    pub moisture: Moisture,
    /// Whether the humidity behind it was measured rather than guessed.
    pub measured: bool,
}

/// Works the surroundings out.
///
/// # Errors
/// No range of outside air is given.
pub(crate) fn solve(at: &At) -> Found<Surroundings> {
    let _ = at.case()?;
    Err(machine::NotJudged::NoSolution("surroundings".into()))
}
