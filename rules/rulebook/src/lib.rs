//! The handwritten list of all rules, in the order in which their cards are printed. A test compares it with the folders.

use rule::{Overview, Rule};

/// First stage: one question each, independent of one another.
pub static RULES: &[&dyn Rule] = &[
    &condensation_margin::CondensationMargin,
    &coolant_freezing::CoolantFreezing,
    &coolant_boiling::CoolantBoiling,
    &hose_bend::HoseBend,
    &warm_up_wait::WarmUpWait,
    &component_temperature::ComponentTemperature,
    &stop_soak::StopSoak,
    &pump_suction::PumpSuction,
    &pump_priming::PumpPriming,
    &reservoir_level::ReservoirLevel,
    &loop_pressure::LoopPressure,
    &strainer_loss::StrainerLoss,
    &seal_movement::SealMovement,
    &hub_heat::HubHeat,
    &coolant_compatibility::CoolantCompatibility,
    &printed_wall_tightness::PrintedWallTightness,
    &bearing_pv::BearingPv,
    &track_ring_speed::TrackRingSpeed,
    &carbon_friction_contact::CarbonFrictionContact,
    &gear_geometry::GearGeometry,
    &gear_root_strength::GearRootStrength,
    &gear_flank_temperature::GearFlankTemperature,
    &bore_pressure::BorePressure,
    &hub_torque::HubTorque,
    &spring_travel_reserve::SpringTravelReserve,
    &motor_overspeed::MotorOverspeed,
    &controller_limits::ControllerLimits,
    &current_limits::CurrentLimits,
    &battery_cold::BatteryCold,
    &trip_energy::TripEnergy,
    &member_strength::MemberStrength,
    &layer_direction::LayerDirection,
    &exposed_stiffness::ExposedStiffness,
    &shaft_strength::ShaftStrength,
    &bearing_life::BearingLife,
    &offset_load::OffsetLoad,
    &fastener_in_polymer::FastenerInPolymer,
    &joint_slip::JointSlip,
    &fit_at_temperature::FitAtTemperature,
    &softening::Softening,
];

/// Second stage: they look at all margins together.
pub static OVERVIEWS: &[&dyn Overview] = &[&weak_link_order::WeakLinkOrder, &unwatched_limit::UnwatchedLimit];
