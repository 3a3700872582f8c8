//! Controller, motor, stages, shafts, bearings. The battery and its wires stand in electrics, the track in running_gear.

use crate::curve::Curve;
use crate::given::Given;
use crate::named::{Map, Maybe, Ref, Target};
use crate::sections::cases::Case;
use crate::sections::electrics::{AuxiliarySupply, Battery, Connector, Wire};
use crate::sections::environment::Zone;
use crate::sections::gears::{ToothTest, Web};
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
    /// Twist of the whole line at one motor's shaft, with the track held fast.
    pub line_stiffness: Given<m::TorsionalStiffness>,
    pub shafts: Map<Shaft>,
    pub bearings: Map<Bearing>,
    pub track: Track,
}

/// What a thermometer on the thing showed after a drive.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct AfterRun {
    /// The case that was driven to its end.
    pub case: Maybe<Ref<Case>>,
    /// Outside air on that day.
    pub air: Given<m::Temperature>,
    /// From the moment of stopping on, everything switched off: `{0 min: 58 °C, 2 min: 63 °C, 10 min: 54 °C}`.
    pub readings: Maybe<Curve<m::Duration, m::Temperature>>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Controller {
    pub voltage_max: Given<m::Voltage>,
    pub current_limit: CurrentLimit,
    /// Cell voltage at which it switches off.
    pub cut_off: Given<m::CellVoltage>,
    /// Motor current that it bears for as long as you like, off its label.
    pub current_max: Given<m::Current>,
    /// Motor current that it bears for ten seconds, off its label.
    pub burst_current_max: Given<m::Current>,
    /// Highest electrical speed: motor rpm times pole pairs.
    pub electrical_speed_max: Given<m::RotationalSpeed>,
    /// Motor speed at which it holds back by itself.
    pub motor_speed_limit: Given<m::RotationalSpeed>,
    pub temperature_max: Given<m::Temperature>,
    /// Where the maker means that limit; its own sensor if not given.
    pub quoted_at: Maybe<QuotedAt>,
    /// Coldest at which it may be switched on.
    pub temperature_min: Given<m::Temperature>,
    /// From the switches' junctions to the board where the sensor sits, all of them together.
    pub junction_to_board: Given<m::ThermalResistance>,
    pub mass: Given<m::Mass>,
    /// From its case to the air round it, beside what its plate takes.
    pub to_air: Given<m::ThermalResistance>,
    /// The enclosure that it lies in; that of the plate which cools it if not given.
    pub zone: Maybe<Ref<Zone>>,
    /// Its own sensor, read out.
    pub after_run: Maybe<AfterRun>,
    pub efficiency: Given<m::Percentage>,
    /// Heat into its plate at the motor current limit, in place of the efficiency.
    pub heat: Given<m::Power>,
    /// Electrical degrees by which it switches the windings early; 0 ° if not given.
    pub timing_advance: Given<m::Angle>,
    pub braking: Maybe<Braking>,
    pub on_signal_lost: Option<String>,
}

words! {
    pub enum QuotedAt {
        /// inside the switches
        Junction = "junction",
        /// on the board, as its own sensor shows
        Sensor = "sensor",
        /// the face that is bolted to the plate
        Case = "case",
    }
}

/// Of one controller; each motor has its own.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct CurrentLimit {
    pub battery: Given<m::Current>,
    pub motor: Given<m::Current>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Braking {
    pub by: Option<BrakingKind>,
    pub holds_at_standstill: Option<bool>,
    /// Of a mechanical brake: what it brakes with at the track, all tracks together, wet and cold as it is used.
    pub force: Given<m::Force>,
}

words! {
    pub enum BrakingKind { Regenerative = "regenerative", ShortedWindings = "shorted_windings", Mechanical = "mechanical", None = "none" }
}

/// One motor; all motors of the machine are alike.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Motor {
    /// How many motors the machine has; 1 if not given.
    pub count: Given<m::Several>,
    /// What several motors drive.
    pub arranged: Maybe<MotorsArranged>,
    /// No-load rpm for each volt, line to line: turn it with a drill and measure.
    pub speed_constant: Given<m::SpeedConstant>,
    /// Between two terminals, at 20 °C.
    pub resistance: Given<m::Resistance>,
    pub no_load_current: Given<m::Current>,
    /// Magnets of the rotor divided by two.
    pub pole_pairs: Given<m::Several>,
    pub speed_max: Given<m::RotationalSpeed>,
    pub winding_temperature_max: Given<m::Temperature>,
    /// Hottest that the magnets stand without losing strength.
    pub magnet_temperature_max: Given<m::Temperature>,
    pub mass: Given<m::Mass>,
    /// From the copper to the case.
    pub winding_to_case: Given<m::ThermalResistance>,
    /// From its case to the air round it, beside what a jacket takes.
    pub to_air: Given<m::ThermalResistance>,
    /// The enclosure that it lies in; that of the jacket which cools it if not given.
    pub zone: Maybe<Ref<Zone>>,
    /// A thermometer on its case.
    pub after_run: Maybe<AfterRun>,
    pub rotor_inertia: Given<m::Inertia>,
    /// Over the magnets, or over the can where it turns outside.
    pub rotor_diameter: Given<m::Length>,
    /// From its speed in the air to standing, when the track lands under power and grips; out of a log.
    pub stop_time: Given<m::Duration>,
    pub mount: Maybe<MotorMount>,
    /// One of the three leads from the controller.
    pub wire: Maybe<Wire>,
    /// In each of the three leads.
    pub connector: Maybe<Connector>,
}

words! {
    pub enum MotorsArranged {
        /// each with its own pinion on the first stage's wheel
        OnOneLine = "on_one_line",
        /// each with stages and a track of its own
        OneASide = "one_a_side",
    }
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct MotorMount {
    pub part: Ref<Part>,
    pub screws: Option<String>,
    pub slotted: Option<bool>,
}

/// One reduction stage; the first wheel drives the second.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[schemars(tag = "kind")]
pub enum Stage {
    Spur(GearStage),
    Helical(GearStage),
    /// A pinion inside a ring with teeth on its inside, which is the wheel.
    Internal(GearStage),
    Planetary(PlanetaryStage),
    Chain(ChainStage),
    ToothedBelt(ChainStage),
}

impl Stage {
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Self::Spur(stage) | Self::Helical(stage) | Self::Internal(stage) => &stage.name,
            Self::Planetary(stage) => &stage.name,
            Self::Chain(stage) | Self::ToothedBelt(stage) => &stage.name,
        }
    }

    /// A pair of gears with teeth on their outsides, and whether these run slanting.
    #[must_use]
    pub fn gears(&self) -> Option<(&GearStage, bool)> {
        match self {
            Self::Spur(stage) => Some((stage, false)),
            Self::Helical(stage) => Some((stage, true)),
            Self::Internal(_) | Self::Planetary(_) | Self::Chain(_) | Self::ToothedBelt(_) => None,
        }
    }
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct GearStage {
    pub name: String,
    /// Of the normal section.
    pub module: Given<m::Length>,
    /// Of the rack that made the teeth; 20 ° by ISO 53.
    pub pressure_angle: Given<m::Angle>,
    /// Slant of the teeth at the reference circle.
    pub helix: Given<m::Angle>,
    /// Of both gears, unless one says its own.
    pub face_width: Given<m::Length>,
    pub centre_distance: Given<m::Length>,
    /// Play between the flanks as assembled, along the pitch circle, where it was measured.
    pub backlash: Given<m::Distance>,
    /// Highest load along the face width over the mean one.
    pub face_load: Given<m::Factor>,
    pub pinion: Gear,
    pub wheel: Gear,
    /// What keeps the flanks apart; dry if not given.
    pub lubrication: Maybe<Lubrication>,
    pub grease: Option<String>,
    /// Whose air the gears run in; that of the housing if not given.
    pub zone: Maybe<Ref<Zone>>,
    /// Share of the power that leaves the stage.
    pub efficiency: Given<m::Percentage>,
    pub housing: Maybe<Ref<Part>>,
}

/// A sun, planets on a carrier, and a ring round them.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct PlanetaryStage {
    pub name: String,
    pub module: Given<m::Length>,
    pub helix: Given<m::Angle>,
    pub face_width: Given<m::Length>,
    pub sun: Gear,
    pub planet: Gear,
    pub ring: Gear,
    /// How many planets share the torque.
    pub planets: Given<m::Several>,
    /// What stands still; the ring if not given.
    pub held: Maybe<PlanetaryMember>,
    /// Where the power comes in; the sun if not given.
    pub driving: Maybe<PlanetaryMember>,
    pub grease: Option<String>,
    /// Share of the power that leaves the stage.
    pub efficiency: Given<m::Percentage>,
    pub housing: Maybe<Ref<Part>>,
}

words! {
    pub enum PlanetaryMember { Sun = "sun", Ring = "ring", Carrier = "carrier" }
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Gear {
    pub teeth: Given<m::Several>,
    pub material: Maybe<Ref<Material>>,
    pub face_width: Given<m::Length>,
    pub build: Maybe<Build>,
    pub held_by: Maybe<ShaftJoint>,
    pub hub: Maybe<Hub>,
    /// Between the wheel's face and the bearing ring or case beside it.
    pub side_clearance: Given<m::Distance>,
    pub tip_diameter: Given<m::Length>,
    /// In modules; negative where the teeth are cut deeper.
    pub profile_shift: Given<m::Signed>,
    /// Radius of the tooth's fillet; 0.38 modules by ISO 53.
    pub root_fillet: Given<m::Length>,
    /// Of the hole that takes the shaft; of the insert's hole where there is an insert.
    pub bore: Given<m::Length>,
    /// Solid material under the tooth roots, radially; leave it out for a gear that is solid down to its bore.
    pub rim: Given<m::Length>,
    pub web: Maybe<Web>,
    /// Of its teeth at the end of a climb, where it was measured.
    pub temperature: Given<m::Temperature>,
    pub tested: Maybe<ToothTest>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Hub {
    pub form: HubForm,
    pub material: Maybe<Ref<Material>>,
    pub outer_diameter: Given<m::Length>,
    pub length: Given<m::Length>,
    /// From the middle of the face width to the middle of the hub, along the shaft.
    pub offset: Given<m::Distance>,
    /// How an insert holds in the gear round it.
    pub held_by: Maybe<ShaftJoint>,
    /// A thermometer held to the insert, or to the bore of a solid hub.
    pub after_run: Maybe<AfterRun>,
}

words! {
    pub enum HubForm { Insert = "insert", Solid = "solid", Bolted = "bolted" }
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct ShaftJoint {
    pub by: ShaftJointKind,
    /// Screws `M4`, splines `6 x 23 x 26`.
    pub size: Option<String>,
    pub count: Given<m::Several>,
    /// Of a hexagon; of a D-shaped shaft what is left from the flat to the far side.
    pub across_flats: Given<m::Length>,
    pub on_flat: Option<bool>,
    /// Along the shaft, as far as it bears.
    pub length: Given<m::Length>,
    /// Of the shaft there, where no shaft or bore says it; of a pin its own diameter is `pin`.
    pub diameter: Given<m::Length>,
    pub pin: Given<m::Length>,
    pub pin_material: Maybe<Ref<Material>>,
    /// Of the hub, where it is not that of the gear.
    pub material: Maybe<Ref<Material>>,
    /// Outside diameter of the hub there.
    pub hub_diameter: Given<m::Length>,
    /// Share of the shaft's torque that goes through it; all of it if not given.
    pub share: Given<m::Percentage>,
    /// Meant to go first, as a shear pin, with spares at hand.
    pub guards: Maybe<bool>,
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
    pub driving_teeth: Given<m::Several>,
    pub driven_teeth: Given<m::Several>,
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
    /// Name of the stage whose driven wheel turns it.
    pub turned_by: Maybe<String>,
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
    /// Sprocket or wheel in the builder's words; a gear is named by its stage.
    pub carries: Maybe<String>,
    pub held_by: Maybe<ShaftJoint>,
    /// Name of the stage whose driven gear sits here.
    pub wheel_of: Maybe<String>,
    /// Name of the stage whose driving gear sits here.
    pub pinion_of: Maybe<String>,
    /// Which stage's gear or chain wheel it is, by the stage's name, or `track` for a wheel that drives the track.
    pub stage: Maybe<String>,
    /// Where the other gear stands, or which way chain or track pull, seen along the shaft: 0 ° forward, 90 ° up.
    pub angle: Given<m::Angle>,
    /// What weighs down on this place: gear, wheel and hub.
    pub mass: Given<m::Mass>,
    /// What the shaft is cut with here.
    pub notch: Maybe<ShaftNotch>,
}

words! {
    /// What cuts into a shaft and weakens it against load that turns round.
    pub enum ShaftNotch {
        None = "none",
        /// a step with a rounded corner
        Shoulder = "shoulder",
        /// a step turned with a sharp tool
        SharpShoulder = "sharp_shoulder",
        /// for a snap ring
        Groove = "groove",
        Keyway = "keyway",
        /// for a pin
        CrossHole = "cross_hole",
        Thread = "thread",
        /// something pressed or clamped on
        PressedOn = "pressed_on",
    }
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
    /// How its inner ring sits on the shaft; pressed if not given.
    pub journal: Maybe<JournalFit>,
    /// Dynamic load rating (C) off its maker's page, or worked out from its size.
    pub rating: Given<m::Force>,
    /// Static load rating (C0).
    pub static_rating: Given<m::Force>,
}

words! {
    pub enum JournalFit {
        Press = "press",
        Glued = "glued",
        /// held from the side by a screw or a shoulder
        Clamped = "clamped",
        /// goes on by hand and is held by nothing: the shaft may turn in it
        Slides = "slides",
    }
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
    pub bushes: Given<m::Several>,
    /// The sprung corner whose landing force this wheel's bushes take.
    pub corner: Maybe<Ref<Corner>>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Swing {
    /// To each side of the middle.
    pub angle: Given<m::Angle>,
    pub frequency: Given<m::Frequency>,
}
