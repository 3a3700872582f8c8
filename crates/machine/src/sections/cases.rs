//! Operating conditions: what the machine is asked to do and to bear.

use crate::given::Given;
use crate::named::{Maybe, Ref, Target};
use crate::sections::environment::Surface;
use crate::sections::logs::Columns;
use crate::sections::structure::Thing;
use quantity::m;
use schemars::JsonSchema;
use serde::Deserialize;

/// One operating condition. Fields that do not belong to its kind are not used.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Case {
    pub kind: CaseKind,
    /// Fixes the outside air of this case; left out, the case is judged over the whole range of the environment.
    pub air: Given<m::Temperature>,
    pub relative_humidity: Given<m::Percentage>,
    pub duration: Given<m::Duration>,
    /// The case that comes directly before this one.
    pub after: Maybe<Ref<Case>>,
    pub grade: Given<m::Grade>,
    pub speed: Given<m::Speed>,
    pub surface: Maybe<Surface>,
    /// `no`: driven empty.
    pub payload: Option<bool>,
    /// Whether snow lies on the outside of plates that face the track.
    pub snow_on_plate: Maybe<bool>,
    /// Whether the coolant pump runs; only where the pump's own control does not say it.
    pub pump: Maybe<PumpState>,
    /// Whether the electronics make heat.
    pub heat: Maybe<bool>,
    /// Height that the machine falls, wheels or track straight down.
    pub drop: Given<m::Distance>,
    /// Time in the air, from take-off to landing at the same height, in place of the drop.
    pub airtime: Given<m::Duration>,
    pub attitude: Maybe<Attitude>,
    /// The part that touches the ground first.
    pub first_contact: Maybe<Ref<Thing>>,
    /// Driving at full power while it lands.
    pub under_power: Option<bool>,
    /// Sideways tilt of the ground.
    pub side_slope: Given<m::Angle>,
    /// Time until the next step, such as charging.
    pub wait: Given<m::Duration>,
    pub then_charge: Option<bool>,
    /// The track is held fast at full current, frozen in or against a rock: traction does not cap the pull.
    pub track_held: Option<bool>,
    /// Track, wheels and pump may be iced in.
    pub frozen_down: Option<bool>,
    /// File with the log of a test run, a table of rows over time with commas between its columns; its path counts from this
    /// file.
    pub log: Maybe<String>,
    /// What the log's columns hold.
    pub columns: Columns,
    /// Ratio of all stages together, motor speed over sprocket speed, with which the log was driven; left out: as this spec has
    /// it. With it the pull at the track is what stays when teeth change; without it the motor's current.
    pub recorded_ratio: Given<m::Factor>,
    /// In a case of kind `stopped`: how far the machine still moves from the first touch until it stands, snow and structure
    /// together.
    pub stopping_distance: Given<m::Distance>,
    /// In its place: by how much the obstacle and what meets it give way under a force.
    pub stop_stiffness: Given<m::SpringRate>,
}

impl Target for Case {
    const SECTIONS: &'static str = "$ref:cases";
}

words! {
    pub enum CaseKind {
        /// stands outside until everything is as cold as the air
        Soak = "soak",
        /// first start after the soak
        ColdStart = "cold_start",
        /// steady climb
        Climb = "climb",
        /// steady driving on the level
        Cruise = "cruise",
        /// stands with the electronics on
        Idle = "idle",
        /// downhill
        Descent = "descent",
        /// as fast as the battery allows on the level
        TopSpeed = "top_speed",
        /// track off the ground at full throttle
        LiftOff = "lift_off",
        /// full current at standstill
        Launch = "launch",
        Landing = "landing",
        SideSlope = "side_slope",
        TipOver = "tip_over",
        SignalLost = "signal_lost",
        /// cold machine into a warm room
        BroughtIndoors = "brought_indoors",
        /// a test run that was recorded
        Log = "log",
        /// runs into a bank of snow or a post and stops dead
        Stopped = "stopped",
        /// something jams the track while it runs
        Jam = "jam",
    }
}

impl CaseKind {
    /// Goes on for long enough that a coolant loop settles; what lasts seconds finds it as it was.
    #[must_use]
    pub fn lasts(self) -> bool {
        match self {
            Self::Soak
            | Self::ColdStart
            | Self::Climb
            | Self::Cruise
            | Self::Idle
            | Self::Descent
            | Self::TopSpeed
            | Self::SideSlope
            | Self::Log => true,
            Self::LiftOff
            | Self::Launch
            | Self::Landing
            | Self::TipOver
            | Self::SignalLost
            | Self::BroughtIndoors
            | Self::Stopped
            | Self::Jam => false,
        }
    }
}

words! {
    pub enum PumpState { Running = "running", Stopped = "stopped" }
}

words! {
    /// How the machine comes down.
    pub enum Attitude { Level = "level", Tail = "tail", Nose = "nose", OneCorner = "one_corner", Inverted = "inverted" }
}
