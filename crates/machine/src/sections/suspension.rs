//! Springs, dampers and stops.

use crate::curve::Curve;
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
    /// From the middle of the left spring to the middle of the right one.
    pub gauge: Given<m::Length>,
    /// What carries this corner on the ground.
    pub stands_on: Maybe<Footing>,
    /// Force along the strut at which the weaker of its two mounts gives way.
    pub mount_strength: Given<m::Force>,
}

words! {
    pub enum Footing { Track = "track", Ski = "ski", Wheel = "wheel" }
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
    /// a piston with holes in a tube of oil
    Oil(OilDamper),
    /// known by its maker's curve of force over speed
    Curve(CurveDamper),
    /// known by how fast a weight sinks on it, warm and frozen
    SinkTest(SinkTestDamper),
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
    /// Holes that stay open while the rod comes out, where a valve closes some of them; all of them, if nobody says.
    pub rebound_holes: Given<m::Count>,
}

/// A bought damper.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct CurveDamper {
    /// Force over speed while it is pushed in.
    pub bump: Maybe<Curve<m::Speed, m::Force>>,
    /// Force over speed while it comes out; as pushed in, if nobody says.
    pub rebound: Maybe<Curve<m::Speed, m::Force>>,
    /// Temperature of its oil when the curve was taken.
    pub measured_at: Given<m::Temperature>,
    /// What it is filled with: carries the curve to other temperatures.
    pub oil: Maybe<Ref<Oil>>,
}

/// A damper on the bench, spring off, rod up, a weight on the rod.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct SinkTestDamper {
    pub warm: SinkTest,
    /// After a night in the freezer.
    pub cold: SinkTest,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct SinkTest {
    pub at: Given<m::Temperature>,
    pub weight: Given<m::Mass>,
    /// How far it went in; 0 where it did not move.
    pub sinks: Given<m::Distance>,
    pub within: Given<m::Duration>,
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
