//! Figures that stand in for what is not given. The built-in ones are a file of the catalogue, read like any other.

use crate::given::Given;
use quantity::m;
use schemars::JsonSchema;
use serde::Deserialize;

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Assumed {
    pub relative_humidity: Given<m::Percentage>,
    pub assembled_at: Given<m::Temperature>,
    pub altitude: Given<m::Altitude>,
    pub controller_efficiency: Given<m::Percentage>,
    pub gear_efficiency: Given<m::Percentage>,
    pub chain_efficiency: Given<m::Percentage>,
    pub belt_efficiency: Given<m::Percentage>,
    pub cell_full_voltage: Given<m::CellVoltage>,
    pub cell_nominal_voltage: Given<m::CellVoltage>,
    /// Battery resistance at −20 °C over that at 20 °C.
    pub cold_battery_resistance: Given<m::Factor>,
    /// Charge that a battery gives at −20 °C over that at 20 °C.
    pub cold_battery_capacity: Given<m::Percentage>,
    /// Insulation of a wire.
    pub wire_wall: Given<m::Length>,
    /// How long full current lasts at a launch, in the air, or on a blow.
    pub burst_time: Given<m::Duration>,
    /// Speed of a rotor's rim at which glue and bands let the magnets go.
    pub rotor_rim_speed: Given<m::Speed>,
    /// Pull to move the machine on the level, as a share of its weight.
    pub rolling_resistance: Given<m::Ratio>,
    /// Highest pull of the track, as a share of the weight on it, whatever it runs on: written here it stands in place of the
    /// figures by surface.
    pub traction: Given<m::Ratio>,
    pub rotor_stop_time: Given<m::Duration>,
    pub gyration_share: Given<m::Ratio>,
    pub plate_to_air: Given<m::HeatTransfer>,
    pub plate_to_snow: Given<m::HeatTransfer>,
    pub contact_resistance: Given<m::ThermalResistance>,
    /// From the wall of a jacket without a known channel to the coolant.
    pub jacket_film: Given<m::HeatTransfer>,
    pub channel_bend_loss: Given<m::Ratio>,
    /// From the outside of a hose to the air round it, radiation included.
    pub hose_to_air: Given<m::HeatTransfer>,
    /// Of a soft rubber hose.
    pub hose_modulus: Given<m::Modulus>,
    pub hose_ovality: Given<m::Percentage>,
    /// Of a clamp's band on the hose under it.
    pub clamp_pressure: Given<m::Stress>,
    pub clamp_width: Given<m::Length>,
    /// Of a wet hose on its barb.
    pub wet_rubber_friction: Given<m::Ratio>,
    /// Least absolute pressure with which a pump fills.
    pub pump_inlet_pressure: Given<m::Pressure>,
    /// Air left in the loop, as a share of the coolant.
    pub trapped_air: Given<m::Percentage>,
    /// Diameter of the bubbles that are to leave.
    pub bubble: Given<m::Length>,
    /// Share of a strainer's openings that is clogged when it gets cleaned.
    pub strainer_clogged: Given<m::Percentage>,
    pub meltwater: Given<m::Temperature>,
    pub motor_mass: Given<m::Mass>,
    /// Mean over copper, iron and aluminium.
    pub motor_heat_capacity: Given<m::HeatCapacity>,
    /// Share of a motor's mass that is winding; as much again is rotor.
    pub winding_share: Given<m::Percentage>,
    pub winding_to_case: Given<m::ThermalResistance>,
    /// Across the air gap and the bearings.
    pub rotor_to_case: Given<m::ThermalResistance>,
    /// Share of the no-load loss that arises in the rotor.
    pub rotor_loss_share: Given<m::Percentage>,
    /// From a motor's case to air, beside what a jacket takes.
    pub motor_to_air: Given<m::ThermalResistance>,
    pub controller_mass: Given<m::Mass>,
    /// Mean over board, copper and aluminium.
    pub controller_heat_capacity: Given<m::HeatCapacity>,
    pub controller_to_air: Given<m::ThermalResistance>,
    pub cell_heat_capacity: Given<m::HeatCapacity>,
    /// Of a block of cells with the air between them.
    pub pack_density: Given<m::Density>,
    /// Across a block of cells.
    pub pack_conductivity: Given<m::ThermalConductivity>,
    pub foam_conductivity: Given<m::ThermalConductivity>,
    /// From a surface to still air, radiation included.
    pub still_air: Given<m::HeatTransfer>,
    /// Through the walls of a closed box, air to air.
    pub box_wall: Given<m::HeatTransfer>,
    /// With which a wheel's face that has no room presses on what is beside it.
    pub rubbing_force: Given<m::Force>,
    /// From the middle of a hub to the middle of a bearing beside it.
    pub hub_to_bearing: Given<m::Length>,
    /// Through the balls from ring to ring.
    pub bearing_across: Given<m::ThermalResistance>,
    /// From the outer ring through a seat of metal, and of polymer, to the air.
    pub seat_of_metal: Given<m::ThermalResistance>,
    pub seat_of_polymer: Given<m::ThermalResistance>,
    /// Of the oil in a bearing's grease as warm as it runs.
    pub grease_viscosity: Given<m::KinematicViscosity>,
    pub cell_temperature_min: Given<m::Temperature>,
    pub cell_temperature_max: Given<m::Temperature>,
    pub cell_charge_temperature_min: Given<m::Temperature>,
    pub cell_charge_temperature_max: Given<m::Temperature>,
    pub ground_stiffness: Given<m::SpringRate>,
    pub mount_stiffness: Given<m::SpringRate>,
    pub stop_modulus: Given<m::Modulus>,
    /// Share of the p·v limit that is left in dusty, wet-gritty and muddy surroundings is kept by the rule's required
    /// reserve; this is the friction of a dry polymer on steel.
    pub dry_friction: Given<m::Ratio>,
    pub bush_conductance: Given<m::ThermalResistance>,
    pub track_notch: Given<m::Factor>,
    pub track_fatigue_share: Given<m::Percentage>,
    /// Share of a load that the hardest-loaded ear of a joint takes, over the even share.
    pub ear_sharing: Given<m::Factor>,
    /// Pull of something solid that the track runs over, as a share of the machine's weight.
    pub run_over: Given<m::Ratio>,
    pub pressure_angle: Given<m::Angle>,
    /// Load of uneven driving over the steady one, on gears and hubs.
    pub drive_shock: Given<m::Factor>,
    pub face_load: Given<m::Factor>,
    /// Between flanks, greased.
    pub greased_friction: Given<m::Ratio>,
    /// Between dry flanks of polymer, both of them.
    pub polymer_pair_friction: Given<m::Ratio>,
    /// Hours of driving that gears are to last.
    pub gear_hours: Given<m::Ratio>,
    /// Landings under power, and starts from a standstill, that gears are to last.
    pub gear_blows: Given<m::Count>,
    /// Share of the swelling from dry to wet that a part takes up in ordinary air.
    pub conditioned_swelling: Given<m::Percentage>,
    /// Share of a polymer's strength against a load that stays.
    pub lasting_share: Given<m::Percentage>,
    /// Peak of the pressure at corners and flats in a polymer hub over the even one.
    pub corner_peak: Given<m::Factor>,
    /// Tension in an ordinary screw as tightened by hand.
    pub screw_tension: Given<m::Stress>,
    /// Lasting pressure under a screw's head on polymer.
    pub head_pressure_on_polymer: Given<m::Stress>,
    pub clamp_friction: Given<m::Ratio>,
    pub glue_shear: Given<m::Stress>,
    /// Yield of the steel that keys are cut from.
    pub key_yield: Given<m::Stress>,
    /// Of a wet rubber seal against a smooth face.
    pub seal_friction: Given<m::Ratio>,
    /// Torque over pull and diameter of a dry screw.
    pub nut_factor: Given<m::Ratio>,
    /// Share of a screw's pull that a plastic body leaves after weeks.
    pub preload_kept: Given<m::Percentage>,
    pub screw_modulus: Given<m::Modulus>,
    pub screw_expansion: Given<m::Expansion>,
    /// Share of its stiffness that a plastic keeps under a load of months.
    pub crept_modulus: Given<m::Percentage>,
    /// Pressure at which one bare wall line of a print, in layers of 0.2 mm, begins to weep.
    pub weeps_a_wall: Given<m::PressureLoss>,
    /// What a print held that was brushed with resin inside.
    pub brushed_resin: Given<m::PressureLoss>,
    /// What a varnished print held.
    pub varnish: Given<m::PressureLoss>,
    /// What a print held that was soaked with resin under vacuum.
    pub soaked_resin: Given<m::PressureLoss>,
    /// By how much a sample may become heavier in a liquid that it stands.
    pub soak_gain: Given<m::Growth>,
    /// Difference of the anodic indices of two metals from which bare coolant eats one of them.
    pub metals_apart: Given<m::Voltage>,
    /// How long an inhibitor lasts.
    pub inhibitor_life: Given<m::Duration>,
    /// Pull at which lugged tracks spin over the load on them, on firm ground: packed snow, crust, grass, peat, gravel.
    pub traction_firm: Given<m::Ratio>,
    /// The same in what gives way: powder, mud.
    pub traction_soft: Given<m::Ratio>,
    /// The same on what lugs do not bite into: asphalt, rock.
    pub traction_hard: Given<m::Ratio>,
    /// The same on ice.
    pub traction_ice: Given<m::Ratio>,
    /// Share of that which a track without lugs has.
    pub traction_without_lugs: Given<m::Percentage>,
    /// From seeing to braking, radio and hand together.
    pub reaction_time: Given<m::Duration>,
    /// Hottest that contacts and housing of a plug may get.
    pub terminal_temperature_max: Given<m::Temperature>,
    /// Of the supply of servos, lamp and radio.
    pub auxiliary_voltage: Given<m::Voltage>,
    /// Mean current of all consumers of that supply over the sum of their peaks.
    pub auxiliary_share: Given<m::Percentage>,
    /// Share of a material's strength on which a casting may be counted that nobody has looked into: pores, cold laps, slag.
    pub cast_share: Given<m::Percentage>,
    /// Length over which a print evens out the peak of stress at a notch.
    pub notch_grain: Given<m::Length>,
    /// Wetted wall of a jacket or plate without a known channel.
    pub wetted_area: Given<m::Area>,
    /// Of a small device that says nothing of its own heat, over what is round it, while it works.
    pub device_rise: Given<m::TemperatureDifference>,
    /// Bends by a right angle in each metre of a hose.
    pub hose_bends: Given<m::Ratio>,
    /// Of the air that a fan drives through an exchanger, in its opening.
    pub fan_air: Given<m::Speed>,
    /// Of the air past an exchanger while driving, where nobody knows how fast.
    pub driving_air: Given<m::Speed>,
    /// Of the air that rises by itself past an exchanger.
    pub own_draught: Given<m::Speed>,
    /// Opening through which an exchanger's air comes, as a share of its outer face.
    pub exchanger_opening: Given<m::Percentage>,
    /// Metal behind each wetted wall of a plate, jacket or exchanger, which warms up with it.
    pub wetted_metal: Given<m::Length>,
    /// Angle to the ground at which a landing on tail, nose or one corner begins.
    pub landing_angle: Given<m::Angle>,
}
