//! Falling on the suspension: travel and forces of each corner.

use crate::at::At;
use machine::Found;
use quantity::*;

#[derive(Debug, Clone, PartialEq)]
pub struct Landing {
    pub impact_speed: Velocity,
    /// In the order of the machine's corners; a corner that this attitude does not load has zeros.
    pub corners: Vec<Found<CornerLanding>>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct CornerLanding {
    /// At the damper, from the fully extended position, static sag included.
    pub damper_travel: Length,
    /// Static sag at the damper.
    pub sag: Length,
    /// Highest force of one spring, stop and damper together, at the damper.
    pub force: Force,
    /// Force of the stop alone at the deepest point.
    pub stop_force: Force,
    pub bottomed: bool,
    /// Highest deceleration of the sprung mass.
    pub deceleration: Acceleration,
    /// The deepest travel if mount and ground were twice as stiff, and half: the band of a guessed compliance.
    pub travel_band: (Length, Length),
}

/// Works the landing out.
///
/// # Errors
/// The case is no landing, or a gap.
pub(crate) fn solve(at: &At) -> Found<Landing> {
    let _ = at.case()?;
    Err(machine::NotJudged::NoSolution("landing".into()))
}
