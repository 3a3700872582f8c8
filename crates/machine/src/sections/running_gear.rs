//! The track and what it runs over.

use crate::given::Given;
use crate::named::{Maybe, Ref};
use crate::sections::materials::Material;
use crate::sections::structure::{Build, Thing};
use quantity::m;
use schemars::JsonSchema;
use serde::Deserialize;

/// One track; all tracks of the machine are alike.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Track {
    pub form: Maybe<TrackForm>,
    pub material: Maybe<Ref<Material>>,
    pub build: Maybe<Build>,
    /// How many tracks the machine has; 1 if not given.
    pub count: Given<m::Several>,
    pub pitch: Given<m::Length>,
    pub links: Given<m::Several>,
    pub width: Given<m::Length>,
    /// The whole track.
    pub mass: Given<m::Mass>,
    pub lug: Maybe<Lug>,
    pub sprocket_teeth: Given<m::Several>,
    pub smallest_wheel: SmallestWheel,
    /// Tension of the slack side at assembly, standing still.
    pub slack_tension: Given<m::Force>,
    pub tensioner: Maybe<Tensioner>,
    /// The frame between the outermost wheels, for how it shrinks beside the track; its material.
    pub frame_material: Maybe<Ref<Material>>,
    /// Pull to tow the machine on the level, ready to go and steadily, the motor's leads off.
    pub tow_pull: Given<m::Force>,
    /// The same as a share of its weight, where nobody has towed it.
    pub rolling_resistance: Given<m::Ratio>,
    /// Between lug tips and the tunnel above.
    pub clearance_to_tunnel: Given<m::Distance>,
    /// Kilometres after which the track is replaced, for load cycles.
    pub life: Given<m::Distance>,
    pub evidence: Evidence,
    /// Share of the machine's weight that stands on all tracks together, on the level; skis and wheels carry the rest.
    pub share_of_weight: Given<m::Percentage>,
    /// Pull at which the tracks spin, over the weight that stands on them.
    pub adhesion: Given<m::Ratio>,
    /// What holds the machine with everything switched off, at the tracks, all of them together: a parking brake, a ratchet, a
    /// worm that holds itself; `0 N` for none.
    pub parking_force: Given<m::Force>,
}

/// How the track is made flexible and what carries its pull.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[schemars(tag = "kind")]
pub enum TrackForm {
    PinnedLinks(PinnedLinks),
    LivingHinge(LivingHinge),
    SolidBand(Band),
    CordedBelt(CordedBelt),
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct PinnedLinks {
    pub pin_diameter: Given<m::Length>,
    pub pin_material: Maybe<Ref<Material>>,
    /// Ears that share the pull on one side of the joint.
    pub ears: Given<m::Several>,
    pub ear_width: Given<m::Length>,
    /// Thinnest wall round the pin's hole.
    pub wall_round_pin: Given<m::Length>,
    /// Radius where the ear meets the plate.
    pub fillet: Given<m::Length>,
    /// Between neighbouring ears, for the bending of the pin.
    pub ear_gap: Given<m::Distance>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct LivingHinge {
    pub thickness: Given<m::Length>,
    /// Free length that bends.
    pub length: Given<m::Length>,
    pub width: Given<m::Length>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Band {
    pub thickness: Given<m::Length>,
    /// Width without windows and holes.
    pub net_width: Given<m::Length>,
    /// Radius in which the band lies when nothing bends it; leave it out for a band made straight.
    pub made_at_radius: Given<m::Length>,
    /// Radius of the sharpest inside corner (window, lug root).
    pub fillet: Given<m::Length>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct CordedBelt {
    pub thickness: Given<m::Length>,
    /// Breaking force of all cords together.
    pub cord_strength: Given<m::Force>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Lug {
    pub height: Given<m::Length>,
    /// Along the track at the foot.
    pub root_thickness: Given<m::Length>,
    pub width: Given<m::Length>,
    pub mass: Given<m::Mass>,
    pub fillet: Given<m::Length>,
    pub consumable: Option<bool>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct SmallestWheel {
    /// To the inner face of the track.
    pub radius: Given<m::Length>,
    pub place: Option<Ref<Thing>>,
}

words! {
    pub enum TensionerKind { RigidScrew = "rigid_screw", Spring = "spring", None = "none" }
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Tensioner {
    pub by: TensionerKind,
    pub part: Maybe<Ref<Thing>>,
    /// Of a sprung tensioner, at the idler.
    pub rate: Given<m::SpringRate>,
}

/// What was tried: it beats every estimate.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Evidence {
    /// Speeds that it stood.
    pub held: Vec<Trial>,
    /// Speeds at which it came apart.
    pub broke: Vec<Trial>,
    pub coupons: Vec<Coupon>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Trial {
    pub speed: Given<m::Speed>,
    pub air: Given<m::Temperature>,
}

/// A test piece of the same material, build and direction, torn apart.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Coupon {
    pub strength: Given<m::Stress>,
    pub temperature: Given<m::Temperature>,
    /// Pulled across the layers, not along them.
    pub across_layers: bool,
}
