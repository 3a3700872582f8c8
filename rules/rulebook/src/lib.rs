//! The handwritten list of all rules, in the order in which their cards are printed. A test compares it with the folders.

use rule::{Overview, Rule};

/// First stage: one question each, independent of one another.
pub static RULES: &[&dyn Rule] = &[
    &condensation_margin::CondensationMargin,
    &coolant_freezing::CoolantFreezing,
    &coolant_boiling::CoolantBoiling,
    &hose_bend::HoseBend,
    &seal_movement::SealMovement,
    &bearing_pv::BearingPv,
    &track_ring_speed::TrackRingSpeed,
    &carbon_friction_contact::CarbonFrictionContact,
    &spring_travel_reserve::SpringTravelReserve,
];

/// Second stage: they look at all margins together.
pub static OVERVIEWS: &[&dyn Overview] = &[&unwatched_limit::UnwatchedLimit];
