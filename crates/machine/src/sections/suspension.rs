//! Springs, dampers and stops.

use crate::given::Given;
use crate::named::{Maybe, Ref, Target};
use crate::sections::fluids::Oil;
use crate::sections::materials::Material;
use quantity::m;
use schemars::JsonSchema;
use serde::Deserialize;

/// One corner or axle with `count` like springs.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Corner {
    pub count: Given<m::Several>,
    /// Carried by one spring: the scale's reading under it minus the unsprung mass.
    pub sprung_mass_each: Given<m::Mass>,
    pub unsprung_mass_each: Given<m::Mass>,
    /// Forward of the rear idler's axle.
    pub position: Given<m::Position>,
    /// Damper travel for each millimetre of wheel travel.
    pub motion_ratio: Given<m::Factor>,
    /// Full stroke at the damper, not at the wheel.
    pub damper_travel: Given<m::Length>,
    pub spring: Maybe<Spring>,
    pub preload: Preload,
    pub damper: Maybe<Damper>,
    pub bump_stop: Maybe<BumpStop>,
    /// A push on the mount: how far it gives under the force.
    pub push_test: Maybe<PushTest>,
}

impl Target for Corner {
    const SECTIONS: &'static str = "$ref:suspension";
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct PushTest {
    pub force: Given<m::Force>,
    pub movement: Given<m::Length>,
}

/// A cylindrical compression spring of round wire.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Spring {
    pub wire: Given<m::Length>,
    /// Middle of the wire to middle of the wire.
    pub mean_diameter: Given<m::Length>,
    pub active_coils: Given<m::Factor>,
    pub free_length: Given<m::Length>,
    pub material: Maybe<Ref<Material>>,
    pub ends: Maybe<SpringEnds>,
    /// Where it was measured or stands on the label; else it is worked out from the wire.
    pub rate: Given<m::SpringRate>,
    /// Length with the coils pressed together, where it was measured.
    pub solid_length: Given<m::Length>,
    /// Of one spring, in the money in which you count.
    pub price: Given<m::Price>,
}

words! {
    pub enum SpringEnds { Open = "open", OpenGround = "open_ground", Closed = "closed", ClosedGround = "closed_ground" }
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Preload {
    /// How far the collar has been screwed in from the point where the spring just touches.
    pub collar: Given<m::Distance>,
    /// How far it could be screwed in.
    pub of: Given<m::Distance>,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[schemars(tag = "kind")]
pub enum Damper {
    None,
    Oil(OilDamper),
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct OilDamper {
    pub bore: Given<m::Length>,
    pub rod: Given<m::Length>,
    pub holes: Given<m::Several>,
    pub hole_diameter: Given<m::Length>,
    pub piston_thickness: Given<m::Length>,
    pub oil: Maybe<Ref<Oil>>,
    pub seal: Option<String>,
    pub volume: Given<m::Volume>,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[schemars(tag = "kind")]
pub enum BumpStop {
    None,
    Elastomer(ElastomerStop),
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct ElastomerStop {
    pub material: Maybe<Ref<Material>>,
    pub height: Given<m::Length>,
    pub diameter: Given<m::Length>,
}
