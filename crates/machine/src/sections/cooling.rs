//! The coolant loop: filling, reservoir, pump, hoses, and the circuit in the order of flow.

use crate::given::Given;
use crate::named::{Map, Maybe, Ref, Target};
use crate::sections::environment::Zone;
use crate::sections::fluids::Coolant;
use crate::sections::materials::Material;
use crate::sections::structure::Part;
use quantity::m;
use schemars::JsonSchema;
use serde::Deserialize;

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Cooling {
    pub coolant: Filling,
    pub reservoir: Reservoir,
    pub pump: Pump,
    pub hoses: Map<Hose>,
    /// Elements in flow order, beginning anywhere; the last leads back to the first. Neighbours that carry a `branch` lie
    /// side by side: those of one branch follow one another, those of different branches share the flow.
    pub circuit: Vec<Element>,
    /// A jug filled by the return hose, the rest of the loop as it is, to set the worked-out losses right.
    pub jug: Maybe<Jug>,
}

/// Litres in so many seconds.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Jug {
    pub volume: Given<m::Volume>,
    pub time: Given<m::Duration>,
    /// Of the coolant at that time.
    pub temperature: Given<m::Temperature>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Filling {
    pub fluid: Maybe<Ref<Coolant>>,
    /// Share of glycol in a mixture with water.
    pub glycol: Given<m::Percentage>,
    /// Whether that share is by mass or by volume: a jug measures volume.
    pub share_by: Maybe<ShareBy>,
    /// `no`: measured out with a scale or a marked jug.
    pub mixed_by_eye: Maybe<bool>,
    /// Coldest at which a jar of it stood without ice crystals; counts in place of the formula.
    pub clear_to: Given<m::Temperature>,
    pub volume: Given<m::Volume>,
    /// Temperature of coolant and air when the lid was closed.
    pub filled_at: Given<m::Temperature>,
    /// Whether it holds what keeps metals from being eaten: ready-mixed coolants do, pure glycol and water do not.
    pub inhibited: Maybe<bool>,
    /// How long it stays in before it is changed.
    pub changed_after: Given<m::Duration>,
    /// How long its maker says that the inhibitor lasts.
    pub inhibitor_life: Given<m::Duration>,
    /// Air that stays in hoses and plates after bleeding, as a share of the coolant.
    pub trapped_air: Given<m::Percentage>,
}

words! {
    pub enum ShareBy { Mass = "mass", Volume = "volume" }
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Reservoir {
    /// Air above the coolant when the lid was closed.
    pub gas_space: Given<m::Volume>,
    pub plan_area: Given<m::Area>,
    /// Depth of the outlet below the level.
    pub outlet_depth: Given<m::Length>,
    /// Longest inside measure of its plan.
    pub length: Given<m::Length>,
    pub wall: Option<String>,
    /// Its largest flat wall.
    pub walls: Maybe<Walls>,
    /// What it is made of and how.
    pub part: Maybe<Ref<Part>>,
    pub lid: Maybe<Lid>,
    /// How far the level falls when the pump starts in the cold.
    pub level_drop: Given<m::Distance>,
    /// Whether foam or a baffle keeps the outlet covered when the coolant is tossed about.
    pub baffled: Maybe<bool>,
    /// Highest pressure that it is made for.
    pub pressure_max: Given<m::GaugePressure>,
}

/// A flat wall, held along its edges.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Walls {
    pub material: Maybe<Ref<Material>>,
    pub thickness: Given<m::Length>,
    /// The shorter way across, between edges or ribs.
    pub width: Given<m::Length>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Lid {
    pub closes: LidKind,
    /// Opens above this.
    pub pressure_max: Given<m::GaugePressure>,
    /// Lets air in below this much under the surrounding air; leave it out where there is no such valve.
    pub vacuum_valve: Given<m::PressureLoss>,
}

words! {
    pub enum LidKind { Closed = "closed", Vented = "vented" }
}

words! {
    pub enum PumpKind {
        /// moves a fixed volume each turn: gear, vane, peristaltic, diaphragm
        PositiveDisplacement = "positive_displacement",
        Centrifugal = "centrifugal",
    }
}

words! {
    pub enum PumpControl { Always = "always", WithElectronics = "with_electronics", AboveTemperature = "above_temperature" }
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Pump {
    pub works_by: Maybe<PumpKind>,
    pub displacement: Given<m::Displacement>,
    pub speed: Given<m::RotationalSpeed>,
    /// With open hoses: litres in so many seconds into a jug.
    pub free_flow: Given<m::FlowRate>,
    /// Highest pressure that it reaches against a closed outlet.
    pub stall_pressure: Given<m::PressureRise>,
    /// Of its inlet above the coolant level.
    pub height_above_level: Given<m::Position>,
    pub runs: Maybe<PumpControl>,
    /// With `runs: above_temperature`: coolant temperature at which it starts.
    pub starts_above: Given<m::Temperature>,
    /// Electrical power that it draws; it ends as heat in the coolant.
    pub power: Given<m::Power>,
    /// Coldest at which it was seen to move this coolant, all of the loop being as cold as that.
    pub started_at: Given<m::Temperature>,
    /// Pressure at which a relief valve across the pump, or its own by-pass, lets coolant straight back to its inlet; leave
    /// it out where there is none.
    pub relief: Given<m::PressureLoss>,
    /// A jug filled by the pump alone, through short open hoses, in place of the free flow.
    pub jug: Maybe<Jug>,
    /// Least pressure at its inlet with which it still fills, by its papers.
    pub inlet_pressure_min: Given<m::Pressure>,
    /// Suction that it makes on air, its inside wet.
    pub dry_suction: Given<m::PressureLoss>,
    /// Highest pressure that its housing is made for.
    pub pressure_max: Given<m::GaugePressure>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Hose {
    pub bore: Given<m::Length>,
    pub wall: Given<m::Length>,
    pub material: Maybe<Ref<Material>>,
    pub length: Given<m::Length>,
    /// Radius of its centre line where it is bent most.
    pub tightest_bend: Given<m::Length>,
    /// Smallest bend radius that its maker allows.
    pub bend_radius_min: Given<m::Length>,
    /// A piece of it that was bent in the cold, and neither kinked nor cracked.
    pub bent: Maybe<BentTest>,
    /// Bends to and fro while driving, or whenever a lid is opened.
    pub moves: Maybe<bool>,
    pub clamped: Option<bool>,
    /// At its flattest place: mean outer diameter less the least one, over the mean.
    pub ovality: Given<m::Percentage>,
    /// Highest pressure that it is made for, printed on it or in its papers.
    pub working_pressure: Given<m::GaugePressure>,
    /// Pressure that its ends stood when they were tried.
    pub held: Given<m::GaugePressure>,
    pub barb: Maybe<Barb>,
    /// Bends by a right angle along it, each as tight as the tightest; an arc of 180° counts twice.
    pub bends: Given<m::Count>,
    /// Loss numbers (velocity heads in its bore) of elbows, couplings and meters that sit in it, all together; leave it out
    /// where there are none.
    pub fittings: Given<m::Ratio>,
}

/// What the end of a hose is pushed over.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Barb {
    /// Over its ridges.
    pub diameter: Given<m::Length>,
    /// As far as the hose is pushed on.
    pub length: Given<m::Length>,
    pub clamp_width: Given<m::Length>,
    /// Of the clamp on the hose.
    pub clamp_pressure: Given<m::Stress>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct BentTest {
    /// Of its centre line.
    pub radius: Given<m::Length>,
    pub temperature: Given<m::Temperature>,
}

impl Target for Hose {
    const SECTIONS: &'static str = "$ref:cooling.hoses";
}

/// One thing that the coolant flows through.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[schemars(tag = "kind")]
pub enum Element {
    Reservoir,
    Pump,
    Hose(HoseRun),
    Plate(Plate),
    Jacket(Plate),
    Exchanger(Plate),
    Strainer(Strainer),
    Thermostat(Thermostat),
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct HoseRun {
    pub hose: Ref<Hose>,
    /// The enclosure that it runs through.
    pub zone: Maybe<Ref<Zone>>,
    /// Name of the branch, where neighbours lie side by side.
    pub branch: Option<String>,
}

words! {
    /// A heat source that an element cools.
    pub enum Cooled { Motor = "motor", Controller = "controller", Battery = "battery", Pump = "pump" }
}

/// A plate, jacket or radiator: heat goes in or out through its wall.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Plate {
    pub name: String,
    pub part: Maybe<Ref<Part>>,
    pub cools: Option<Cooled>,
    /// Heat put in, where it does not come from the drive line.
    pub heat: Given<m::Power>,
    /// The enclosure whose air touches it.
    pub zone: Maybe<Ref<Zone>>,
    /// Wetted wall, where there is no channel to work it out from.
    pub area: Given<m::Area>,
    /// From the wetted wall to the coolant, where there is no channel to work it out from.
    pub film: Given<m::HeatTransfer>,
    pub channel: Maybe<Channel>,
    /// A tested pressure drop, in place of the channel.
    pub tested: Maybe<TestedDrop>,
    /// Between the coolant's wall and the thing it cools.
    pub contact_resistance: Given<m::ThermalResistance>,
    pub outside: Maybe<Outside>,
    /// Of its highest point above the coolant level in the reservoir.
    pub height_above_level: Given<m::Position>,
    /// Whether air can be let out at its highest point.
    pub bleeds: Maybe<bool>,
    /// Highest pressure that it is made for.
    pub pressure_max: Given<m::GaugePressure>,
    /// Name of the branch, where neighbours lie side by side.
    pub branch: Option<String>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Channel {
    pub width: Given<m::Length>,
    pub depth: Given<m::Length>,
    /// All of it, end to end.
    pub length: Given<m::Length>,
    /// Bends of 180°.
    pub turns: Given<m::Count>,
    /// Channels side by side.
    pub count: Given<m::Several>,
    /// Thickness of the wall that closes it, over its width.
    pub cover: Given<m::Length>,
    /// Of a round channel or tube, in place of width and depth.
    pub bore: Given<m::Length>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct TestedDrop {
    pub pressure_drop: Given<m::PressureLoss>,
    pub flow: Given<m::FlowRate>,
    pub fluid: Ref<Coolant>,
    pub temperature: Given<m::Temperature>,
}

/// The outer face of an exchanger.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Outside {
    pub area: Given<m::Area>,
    pub to: Maybe<Ref<Zone>>,
    /// To bare moving air, where it was measured or is known.
    pub heat_transfer: Given<m::HeatTransfer>,
    /// The same with snow lying on it.
    pub heat_transfer_snow: Given<m::HeatTransfer>,
    /// What moves past it and takes the heat along.
    pub swept_by: Maybe<Swept>,
    /// Air that goes past it or through it, where that is known.
    pub air_flow: Given<m::FlowRate>,
    /// Of the air as it arrives, in place of the flow: measured in the opening, with the fan on or while driving.
    pub air_speed: Given<m::Speed>,
    /// The opening through which that air comes, width times height.
    pub opening: Given<m::Area>,
}

words! {
    pub enum Swept {
        /// a fan, whenever the electronics are on
        Fan = "fan",
        /// the wind of driving; at a stop its air stands still
        Driving = "driving",
        /// air that rises by itself
        OwnDraught = "own_draught",
        /// wet ground, snow or water, always fresh: it does not warm up
        Ground = "ground",
    }
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Strainer {
    pub name: String,
    /// Width of one opening.
    pub mesh: Given<m::Length>,
    /// Of all openings together, clean.
    pub open_area: Given<m::Area>,
    /// Share of the openings that is clogged when it gets cleaned.
    pub clogged: Given<m::Percentage>,
    /// Highest pressure that it is made for.
    pub pressure_max: Given<m::GaugePressure>,
    /// Name of the branch, where neighbours lie side by side.
    pub branch: Option<String>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Thermostat {
    pub name: String,
    /// Coolant temperature at which it lets the flow on to the next element; below, the flow goes past that element.
    pub opens_at: Given<m::Temperature>,
    /// Name of the element that is bypassed while closed.
    pub bypasses: String,
}

impl Element {
    /// Its branch, where neighbours lie side by side.
    #[must_use]
    pub fn branch(&self) -> Option<&str> {
        match self {
            Self::Hose(run) => run.branch.as_deref(),
            Self::Plate(plate) | Self::Jacket(plate) | Self::Exchanger(plate) => plate.branch.as_deref(),
            Self::Strainer(strainer) => strainer.branch.as_deref(),
            Self::Reservoir | Self::Pump | Self::Thermostat(_) => None,
        }
    }
}

impl Target for Zone {
    const SECTIONS: &'static str = "$ref:zones";
}

/// The same target under a name that does not tie bearings to the environment's module.
pub type ZoneTarget = Zone;
