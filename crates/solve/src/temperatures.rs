//! Temperatures of parts and bushes.

use crate::at::At;
use machine::Found;
use quantity::*;

#[derive(Debug, Clone, PartialEq)]
pub struct Temperatures {
    /// In the order of the machine's parts.
    pub parts: Vec<Found<ThermodynamicTemperature>>,
    /// Of the air round each bearing, in the order of the machine's bearings; friction is the rule's affair.
    pub bearings: Vec<Found<ThermodynamicTemperature>>,
}

/// Works the temperatures out.
///
/// # Errors
/// The surroundings are not known.
pub(crate) fn solve(at: &At) -> Found<Temperatures> {
    let _ = at.case()?;
    Err(machine::NotJudged::NoSolution("temperatures".into()))
}
