//! Battery, controller, motor, stages, shafts, bearings. The track stands in running_gear.

use crate::given::Given;
use crate::named::{Map, Maybe, Ref, Target};
use crate::sections::materials::Material;
use crate::sections::running_gear::Track;
use crate::sections::structure::{Build, Part, Thing};
use crate::sections::suspension::Corner;
use quantity::m;
use schemars::JsonSchema;
use serde::Deserialize;

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Powertrain {
    pub battery: Battery,
    pub controller: Controller,
    pub motor: Motor,
    pub auxiliary_supply: AuxiliarySupply,
    /// Reduction stages in order from the motor to the sprocket.
    pub stages: Vec<Stage>,
    pub shafts: Map<Shaft>,
    pub bearings: Map<Bearing>,
    pub track: Track,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Battery {
    pub cells: Cells,
    pub capacity: Given<m::Charge>,
    /// Whole pack with leads at 20 °C: volts dropped over amps drawn.
    pub resistance: Given<m::Resistance>,
    pub mass: Given<m::Mass>,
    pub insulation: Option<String>,
    pub wire: Maybe<Wire>,
    pub connector: Maybe<Connector>,
    pub fuse: Given<m::Current>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Cells {
    pub series: Given<m::Count>,
    pub parallel: Given<m::Count>,
    pub kind: Maybe<CellKind>,
    pub full_voltage: Given<m::CellVoltage>,
    pub nominal_voltage: Given<m::CellVoltage>,
}

words! {
    pub enum CellKind {
        LiIon18650 = "li_ion_18650", LiIon21700 = "li_ion_21700", LithiumPolymer = "lithium_polymer",
        LithiumIronPhosphate = "lithium_iron_phosphate",
    }
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Wire {
    /// Conductor size: `10 AWG`.
    pub size: String,
    pub length: Given<m::Length>,
    pub insulation: Option<String>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Connector {
    pub form: Option<String>,
    pub rated_current: Given<m::Current>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Controller {
    pub voltage_max: Given<m::Voltage>,
    pub current_limit: CurrentLimit,
    /// Cell voltage at which it switches off.
    pub cut_off: Given<m::CellVoltage>,
    /// Highest electrical speed: motor rpm times pole pairs.
    pub electrical_speed_max: Given<m::RotationalSpeed>,
    pub temperature_max: Given<m::Temperature>,
    pub efficiency: Given<m::Percentage>,
    /// Heat into its plate at the motor current limit, in place of the efficiency.
    pub heat: Given<m::Power>,
    pub braking: Maybe<Braking>,
    pub on_signal_lost: Option<String>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct CurrentLimit {
    pub battery: Given<m::Current>,
    pub motor: Given<m::Current>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Braking {
    pub by: Option<BrakingKind>,
    pub holds_at_standstill: Option<bool>,
}

words! {
    pub enum BrakingKind { Regenerative = "regenerative", ShortedWindings = "shorted_windings", Mechanical = "mechanical", None = "none" }
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Motor {
    /// No-load rpm for each volt, line to line: turn it with a drill and measure.
    pub speed_constant: Given<m::SpeedConstant>,
    /// Between two terminals, at 20 °C.
    pub resistance: Given<m::Resistance>,
    pub no_load_current: Given<m::Current>,
    /// Magnets of the rotor divided by two.
    pub pole_pairs: Given<m::Count>,
    pub speed_max: Given<m::RotationalSpeed>,
    pub winding_temperature_max: Given<m::Temperature>,
    pub rotor_inertia: Given<m::Inertia>,
    pub mount: Maybe<MotorMount>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct MotorMount {
    pub part: Ref<Part>,
    pub screws: Option<String>,
    pub slotted: Option<bool>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct AuxiliarySupply {
    pub rated_current: Given<m::Current>,
    /// Peak current of each consumer.
    pub loads: Map<Given<m::Current>>,
}

/// One reduction stage; the first wheel drives the second.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[schemars(tag = "kind")]
pub enum Stage {
    Spur(GearStage),
    Helical(GearStage),
    Chain(ChainStage),
    ToothedBelt(ChainStage),
}

impl Stage {
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Self::Spur(stage) | Self::Helical(stage) => &stage.name,
            Self::Chain(stage) | Self::ToothedBelt(stage) => &stage.name,
        }
    }
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct GearStage {
    pub name: String,
    pub module: Given<m::Length>,
    pub helix: Given<m::Angle>,
    pub face_width: Given<m::Length>,
    pub centre_distance: Given<m::Length>,
    pub pinion: Gear,
    pub wheel: Gear,
    pub grease: Option<String>,
    /// Share of the power that leaves the stage.
    pub efficiency: Given<m::Percentage>,
    pub housing: Maybe<Ref<Part>>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Gear {
    pub teeth: Given<m::Count>,
    pub material: Maybe<Ref<Material>>,
    pub face_width: Given<m::Length>,
    pub build: Maybe<Build>,
    pub held_by: Maybe<ShaftJoint>,
    pub hub: Maybe<Hub>,
    /// Between the wheel's face and the bearing ring or case beside it.
    pub side_clearance: Given<m::Distance>,
    pub tip_diameter: Given<m::Length>,
    pub profile_shift: Given<m::Ratio>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Hub {
    pub form: HubForm,
    pub material: Maybe<Ref<Material>>,
    pub outer_diameter: Given<m::Length>,
    pub length: Given<m::Length>,
    pub joined: Vec<String>,
}

words! {
    pub enum HubForm { Insert = "insert", Solid = "solid", Bolted = "bolted" }
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct ShaftJoint {
    pub by: ShaftJointKind,
    pub size: Option<String>,
    pub count: Given<m::Count>,
    pub across_flats: Given<m::Length>,
    pub on_flat: Option<bool>,
}

words! {
    pub enum ShaftJointKind {
        SetScrew = "set_screw", Key = "key", Pin = "pin", Hex = "hex", DShape = "d_shape", Spline = "spline",
        Clamp = "clamp", Glue = "glue",
    }
}

/// A chain or toothed belt.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct ChainStage {
    pub name: String,
    pub pitch: Given<m::Length>,
    pub driving_teeth: Given<m::Count>,
    pub driven_teeth: Given<m::Count>,
    pub tension: Option<String>,
    pub efficiency: Given<m::Percentage>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Shaft {
    pub material: Maybe<Ref<Material>>,
    pub diameter: Given<m::Length>,
    /// Hollow shafts.
    pub bore: Given<m::Length>,
    pub length: Given<m::Length>,
    /// What stands on it, from one end to the other.
    pub stations: Vec<Station>,
}

impl Target for Shaft {
    const SECTIONS: &'static str = "$ref:powertrain.shafts";
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Station {
    pub x: Given<m::Position>,
    pub bearing: Option<Ref<Bearing>>,
    /// Gear, sprocket or wheel in the builder's words.
    pub carries: Option<String>,
    pub held_by: Maybe<ShaftJoint>,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[schemars(tag = "kind")]
pub enum Bearing {
    Rolling(RollingBearing),
    Plain(PlainBearing),
}

impl Target for Bearing {
    const SECTIONS: &'static str = "$ref:powertrain.bearings";
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct RollingBearing {
    /// `6001-2RS`.
    pub size: String,
    pub rings: Option<String>,
    /// Lowest temperature of its grease.
    pub grease_from: Given<m::Temperature>,
    pub seat: Maybe<Seat>,
    /// In the money in which you count.
    pub price: Given<m::Price>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Seat {
    pub part: Ref<Part>,
    pub fit: Option<String>,
    /// On the diameter.
    pub interference: Given<m::Distance>,
}

/// A bush, a wheel straight on its axle, or a slider.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct PlainBearing {
    /// Of the bush or wheel.
    pub material: Maybe<Ref<Material>>,
    pub bore: Given<m::Length>,
    pub length: Given<m::Length>,
    pub runs_on: Maybe<Ref<Thing>>,
    pub lubrication: Maybe<Lubrication>,
    pub dirt: Maybe<Dirt>,
    /// Radial load, where it is known.
    pub load: Given<m::Force>,
    /// Of the shaft in the bush, where it is known.
    pub speed: Given<m::RotationalSpeed>,
    /// The wheel that it carries; load and speed then follow from the machine and its track.
    pub wheel: Maybe<Wheel>,
    /// Swings to and fro in place of turning.
    pub swing: Maybe<Swing>,
    pub zone: Maybe<Ref<crate::sections::ZoneTarget>>,
    /// Bush temperature at the end of a climb, where it was measured.
    pub temperature: Given<m::Temperature>,
    /// In the money in which you count.
    pub price: Given<m::Price>,
}

words! {
    pub enum Lubrication { None = "none", Grease = "grease", Oil = "oil", Water = "water" }
}

words! {
    pub enum Dirt { Clean = "clean", Dusty = "dusty", SnowAndGrit = "snow_and_grit", Mud = "mud" }
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Wheel {
    pub radius: Given<m::Length>,
    /// Share of the machine's weight that stands on this one bush.
    pub share_of_weight: Given<m::Percentage>,
    /// Angle over which the track lies round the wheel; 0° for a wheel that only rolls along it.
    pub track_wrap: Given<m::Angle>,
    /// How many bushes share the track's force on the wheel.
    pub bushes: Given<m::Count>,
    /// The sprung corner whose landing force this wheel's bushes take.
    pub corner: Maybe<Ref<Corner>>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Swing {
    /// To each side of the middle.
    pub angle: Given<m::Angle>,
    pub frequency: Given<m::Frequency>,
}
