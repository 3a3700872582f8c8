//! What a gear is made like beside its teeth, and what a material stands as a gear.

use crate::curve::Curve;
use crate::given::Given;
use crate::named::Maybe;
use quantity::m;
use schemars::JsonSchema;
use serde::Deserialize;

/// The disc between hub and rim.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Web {
    pub thickness: Given<m::Length>,
    /// Holes through it, in one ring.
    pub vents: Given<m::Count>,
    pub vent_diameter: Given<m::Length>,
    /// Radius on which the middles of the holes lie.
    pub vents_at: Given<m::Length>,
}

/// One tooth of this gear, or of one printed like it, pressed until it gave way or as far as one dared.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct ToothTest {
    /// Highest torque on the gear.
    pub torque: Given<m::Torque>,
    /// Of the gear in the test.
    pub temperature: Given<m::Temperature>,
    /// Whether the tooth broke at that torque.
    pub broke: Maybe<bool>,
}

/// What a material stands as a gear.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct GearLimits {
    /// Metals: nominal root strength that lasts (sigma Flim of ISO 6336-5).
    pub root_limit: Given<m::Stress>,
    /// Metals: flank pressure that lasts (sigma Hlim of ISO 6336-5).
    pub flank_limit: Given<m::Stress>,
    /// Whether the teeth have a hard case.
    pub cased: Maybe<bool>,
    /// Polymers: nominal root strength (sigma Flim of VDI 2736-2) after a number of cycles, one table a temperature, rising.
    pub root_strength: Vec<RootStrength>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct RootStrength {
    /// Of the tooth root.
    pub temperature: Given<m::Temperature>,
    pub after_cycles: Maybe<Curve<m::Count, m::Stress>>,
}
