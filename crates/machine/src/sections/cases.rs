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
    /// Distance in which the machine has to come to a standstill from the case's speed, the driver's reaction counted.
    pub stop_within: Given<m::Length>,
    /// Angle between the machine's length and the ground when it first touches it, in a landing that is not level.
    pub pitch: Given<m::Angle>,
    /// Angle between the machine's width and the ground when it first touches it, in a landing on one corner.
    pub roll: Given<m::Angle>,
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

/// What a kind of case means for whoever judges it. A new kind does not compile before each of these has said whether it
/// belongs to them, and rules ask these in place of lists of kinds.
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

    /// Switched on, and for long enough to heat or to cool something; see [`Self::bursts`] for what may be.
    #[must_use]
    pub fn heats(self) -> bool {
        match self {
            Self::ColdStart
            | Self::Climb
            | Self::Cruise
            | Self::Idle
            | Self::Descent
            | Self::TopSpeed
            | Self::SideSlope
            | Self::Log => true,
            Self::Soak
            | Self::LiftOff
            | Self::Launch
            | Self::Landing
            | Self::TipOver
            | Self::SignalLost
            | Self::BroughtIndoors
            | Self::Stopped
            | Self::Jam => false,
        }
    }

    /// Full current for seconds: long enough to heat something only where the spec says how long.
    #[must_use]
    pub fn bursts(self) -> bool {
        match self {
            Self::LiftOff | Self::Launch => true,
            Self::Soak
            | Self::ColdStart
            | Self::Climb
            | Self::Cruise
            | Self::Idle
            | Self::Descent
            | Self::TopSpeed
            | Self::Landing
            | Self::SideSlope
            | Self::TipOver
            | Self::SignalLost
            | Self::BroughtIndoors
            | Self::Log
            | Self::Stopped
            | Self::Jam => false,
        }
    }

    /// Drives over the ground for longer than moments; a run that was recorded does too.
    #[must_use]
    pub fn drives(self) -> bool {
        match self {
            Self::Climb | Self::Cruise | Self::Descent | Self::TopSpeed | Self::SideSlope | Self::Log => true,
            Self::Soak
            | Self::ColdStart
            | Self::Idle
            | Self::LiftOff
            | Self::Launch
            | Self::Landing
            | Self::TipOver
            | Self::SignalLost
            | Self::BroughtIndoors
            | Self::Stopped
            | Self::Jam => false,
        }
    }

    /// A way to go somewhere: at the speed that the case states, by the motor's own power.
    #[must_use]
    pub fn travels(self) -> bool {
        match self {
            Self::Climb | Self::Cruise => true,
            Self::Soak
            | Self::ColdStart
            | Self::Idle
            | Self::Descent
            | Self::TopSpeed
            | Self::LiftOff
            | Self::Launch
            | Self::Landing
            | Self::SideSlope
            | Self::TipOver
            | Self::SignalLost
            | Self::BroughtIndoors
            | Self::Log
            | Self::Stopped
            | Self::Jam => false,
        }
    }

    /// The slope drives the machine, and the motor may have to hold it back.
    #[must_use]
    pub fn runs_downhill(self) -> bool {
        match self {
            Self::Descent | Self::SignalLost => true,
            Self::Soak
            | Self::ColdStart
            | Self::Climb
            | Self::Cruise
            | Self::Idle
            | Self::TopSpeed
            | Self::LiftOff
            | Self::Launch
            | Self::Landing
            | Self::SideSlope
            | Self::TipOver
            | Self::BroughtIndoors
            | Self::Log
            | Self::Stopped
            | Self::Jam => false,
        }
    }

    /// A load of moments: too short to creep under or to wear by, and seldom.
    #[must_use]
    pub fn brief(self) -> bool {
        match self {
            Self::Landing | Self::Launch | Self::Stopped | Self::Jam => true,
            Self::Soak
            | Self::ColdStart
            | Self::Climb
            | Self::Cruise
            | Self::Idle
            | Self::Descent
            | Self::TopSpeed
            | Self::LiftOff
            | Self::SideSlope
            | Self::TipOver
            | Self::SignalLost
            | Self::BroughtIndoors
            | Self::Log => false,
        }
    }

    /// Throws about what lies loose in the machine.
    #[must_use]
    pub fn tosses(self) -> bool {
        match self {
            Self::LiftOff | Self::Landing | Self::TipOver | Self::Stopped => true,
            Self::Soak
            | Self::ColdStart
            | Self::Climb
            | Self::Cruise
            | Self::Idle
            | Self::Descent
            | Self::TopSpeed
            | Self::Launch
            | Self::SideSlope
            | Self::SignalLost
            | Self::BroughtIndoors
            | Self::Log
            | Self::Jam => false,
        }
    }

    /// Stands switched off: outside, or in a room.
    #[must_use]
    pub fn stands_off(self) -> bool {
        match self {
            Self::Soak | Self::BroughtIndoors => true,
            Self::ColdStart
            | Self::Climb
            | Self::Cruise
            | Self::Idle
            | Self::Descent
            | Self::TopSpeed
            | Self::LiftOff
            | Self::Launch
            | Self::Landing
            | Self::SideSlope
            | Self::TipOver
            | Self::SignalLost
            | Self::Log
            | Self::Stopped
            | Self::Jam => false,
        }
    }

    /// Asks for a steady pull at a speed that the case states.
    #[must_use]
    pub fn pulls_steadily(self) -> bool {
        match self {
            Self::Climb | Self::Cruise | Self::SideSlope => true,
            Self::Soak
            | Self::ColdStart
            | Self::Idle
            | Self::Descent
            | Self::TopSpeed
            | Self::LiftOff
            | Self::Launch
            | Self::Landing
            | Self::TipOver
            | Self::SignalLost
            | Self::BroughtIndoors
            | Self::Log
            | Self::Stopped
            | Self::Jam => false,
        }
    }

    /// Lies on a slope on which the machine may have to stand.
    #[must_use]
    pub fn on_a_slope(self) -> bool {
        match self {
            Self::Climb | Self::Descent => true,
            Self::Soak
            | Self::ColdStart
            | Self::Cruise
            | Self::Idle
            | Self::TopSpeed
            | Self::LiftOff
            | Self::Launch
            | Self::Landing
            | Self::SideSlope
            | Self::TipOver
            | Self::SignalLost
            | Self::BroughtIndoors
            | Self::Log
            | Self::Stopped
            | Self::Jam => false,
        }
    }

    /// The machine falls onto a part of itself.
    #[must_use]
    pub fn tips_over(self) -> bool {
        self == Self::TipOver
    }

    /// Something in its way stops the machine dead.
    #[must_use]
    pub fn stops_dead(self) -> bool {
        self == Self::Stopped
    }

    /// A blow on the machine's own structure: judged by what it can take once, not for ever.
    #[must_use]
    pub fn strikes(self) -> bool {
        match self {
            Self::Landing | Self::TipOver | Self::Stopped | Self::Jam => true,
            Self::Soak
            | Self::ColdStart
            | Self::Climb
            | Self::Cruise
            | Self::Idle
            | Self::Descent
            | Self::TopSpeed
            | Self::LiftOff
            | Self::Launch
            | Self::SideSlope
            | Self::SignalLost
            | Self::BroughtIndoors
            | Self::Log => false,
        }
    }

    /// Uphill.
    #[must_use]
    pub fn climbs(self) -> bool {
        self == Self::Climb
    }

    /// Across a slope.
    #[must_use]
    pub fn traverses(self) -> bool {
        self == Self::SideSlope
    }

    /// As fast as it goes.
    #[must_use]
    pub fn tops_out(self) -> bool {
        self == Self::TopSpeed
    }

    /// The first start of a machine that is cold all through.
    #[must_use]
    pub fn starts_cold(self) -> bool {
        self == Self::ColdStart
    }

    /// Stands in a warm room.
    #[must_use]
    pub fn indoors(self) -> bool {
        self == Self::BroughtIndoors
    }

    /// Comes down out of the air.
    #[must_use]
    pub fn lands(self) -> bool {
        self == Self::Landing
    }

    /// The track has left the ground.
    #[must_use]
    pub fn lifts_off(self) -> bool {
        self == Self::LiftOff
    }

    /// Full current from a standstill.
    #[must_use]
    pub fn launches(self) -> bool {
        self == Self::Launch
    }

    /// Downhill at a speed that the motor holds.
    #[must_use]
    pub fn descends(self) -> bool {
        self == Self::Descent
    }

    /// Nobody steers or brakes any more.
    #[must_use]
    pub fn lost(self) -> bool {
        self == Self::SignalLost
    }

    /// A run that was recorded: its loads are those of the log.
    #[must_use]
    pub fn recorded(self) -> bool {
        self == Self::Log
    }
}

words! {
    pub enum PumpState { Running = "running", Stopped = "stopped" }
}

words! {
    /// How the machine comes down.
    pub enum Attitude {
        Level = "level", Tail = "tail", Nose = "nose", OneCorner = "one_corner", Inverted = "inverted",
        /// on its side, over an edge of the hull
        Sideways = "sideways",
    }
}
