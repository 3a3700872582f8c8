//! What is watched, serviced and accepted.

use crate::given::Given;
use crate::named::Maybe;
use quantity::{Measure, m};
use schemars::JsonSchema;
use serde::Deserialize;

/// A reading that reaches the builder while driving.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[schemars(tag = "kind")]
pub enum Instrument {
    RotationalSpeed(Probe<m::RotationalSpeed>),
    Speed(Probe<m::Speed>),
    Temperature(Probe<m::Temperature>),
    Voltage(Probe<m::Voltage>),
    Current(Probe<m::Current>),
    Pressure(Probe<m::GaugePressure>),
    FlowRate(Probe<m::FlowRate>),
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(bound = "")]
#[schemars(bound = "")]
pub struct Probe<M: Measure> {
    pub watches: Watched,
    /// At which it warns.
    pub alarm: Given<M>,
    /// Where the sensor sits.
    pub at: Option<String>,
}

words! {
    pub enum Watched {
        Motor = "motor", Controller = "controller", Battery = "battery", Coolant = "coolant", Track = "track",
        Machine = "machine", ElectronicsBox = "electronics_box",
    }
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Service {
    pub season: Maybe<Season>,
    pub trip: Maybe<Trip>,
    /// Intervals in the builder's words, by what is served.
    pub every: crate::named::Map<String>,
    pub spares_carried: Vec<String>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Season {
    pub trips: Given<m::Count>,
    pub hours: Given<m::Ratio>,
    pub distance: Given<m::Distance>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Trip {
    /// There and back.
    pub distance: Given<m::Distance>,
    /// From the start to the highest place, all climbs on the way there added up.
    pub ascent: Given<m::Distance>,
    pub returns_empty: Option<bool>,
    /// How steep it is where it climbs; that of the case if not given.
    pub grade: Given<m::Grade>,
}

/// One finding that is accepted.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Concession {
    /// The rule's name.
    pub rule: String,
    /// The subject as the finding names it.
    pub on: String,
    pub reason: String,
    pub accepted_by: Option<String>,
    /// A date (`2026-04-30`) or a revision (`revision D`).
    pub until: Option<String>,
}
