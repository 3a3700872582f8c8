//! Parts, joints and contacts.

use crate::given::Given;
use crate::named::{Map, Maybe, Ref, Target};
use crate::sections::environment::Zone;
use crate::sections::materials::Material;
use crate::sections::members::{HandTest, MemberStation, Push, RodsLie};
use crate::sections::resistance::Substance;
use quantity::m;
use schemars::JsonSchema;
use serde::Deserialize;

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Structure {
    /// Slicer facts that hold for every print unless a part says otherwise.
    pub printing: Maybe<Build>,
    pub parts: Map<Part>,
    pub joints: Map<Joint>,
    /// Surfaces that touch.
    pub contacts: Map<Contact>,
}

words! {
    pub enum Making {
        Printed = "printed", Cast = "cast", Moulded = "moulded", Machined = "machined", Sintered = "sintered",
        Hardened = "hardened", Rolled = "rolled", Pultruded = "pultruded",
    }
}

words! {
    /// How a printed part lay on the bed, seen along the direction in which it is pulled.
    pub enum Laid {
        /// the pull runs along the layers, the wide face on the bed
        FlatOnBed = "flat_on_bed",
        /// the pull runs along the layers, the narrow edge on the bed
        OnEdge = "on_edge",
        /// the pull runs straight across the layers
        Standing = "standing",
    }
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Build {
    pub by: Maybe<Making>,
    pub laid: Maybe<Laid>,
    /// Perimeter lines.
    pub walls: Given<m::Count>,
    pub infill: Given<m::Percentage>,
    pub line_width: Given<m::Length>,
    pub layer_height: Given<m::Length>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Part {
    pub material: Maybe<Ref<Material>>,
    pub build: Maybe<Build>,
    /// Of a print that holds liquid, on the wet side.
    pub coating: Maybe<Coating>,
    pub leak_test: Maybe<LeakTest>,
    pub mass: Given<m::Mass>,
    pub size: Maybe<Size>,
    pub thickness: Given<m::Length>,
    pub section: Maybe<Section>,
    pub rods: Maybe<Rods>,
    pub span: Given<m::Length>,
    pub supports: Option<Supports>,
    /// Where its loads come from: names of cases, or `track_tension`.
    pub loads: Vec<String>,
    pub zone: Maybe<Ref<Zone>>,
    /// Zones on its two sides.
    pub faces: Maybe<Faces>,
    pub next_to: Vec<Neighbour>,
    pub mounted_on: Option<Ref<Part>>,
    /// Can be hit from outside.
    pub exposed: Option<bool>,
    pub consumable: Option<bool>,
    pub clamped_by: Option<String>,
    /// Of a part that carries a load beside its own axis.
    pub axis_offset: Given<m::Distance>,
    pub screw: Option<String>,
    pub guide: Maybe<Guide>,
    pub bears_on: Maybe<BearsOn>,
    /// What holds it along its span, counted from its left or clamped end, in place of `supports`: any number of places.
    pub stations: Vec<MemberStation>,
    /// What pushes on it, by name: where from, how much of it, where and which way.
    pub pushed: Map<Push>,
    /// Stress at its sharpest inside corner, hole or groove over the even one; 1 for a part without any.
    pub notch: Given<m::Factor>,
    /// Loads that it took by hand, on the bench or on the machine.
    pub held: Vec<HandTest>,
    /// Loads that broke it.
    pub broke: Vec<HandTest>,
}

impl Target for Part {
    const SECTIONS: &'static str = "$ref:structure.parts";
}

words! {
    pub enum Coating {
        None = "none",
        /// thin epoxy brushed on in two coats
        BrushedResin = "brushed_resin",
        /// polyurethane or acrylic varnish
        Varnish = "varnish",
        /// soaked with thin resin under vacuum
        SoakedResin = "soaked_resin",
    }
}

/// Closed, filled with water and put under pressure.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct LeakTest {
    /// At the start.
    pub pressure: Given<m::GaugePressure>,
    pub duration: Given<m::Duration>,
    /// By how much the pressure fell.
    pub fell: Given<m::PressureLoss>,
}

/// Anything that can touch, carry or be hit: a part, a bearing or a shaft.
#[derive(Debug)]
pub struct Thing;

impl Target for Thing {
    const SECTIONS: &'static str = "$ref:structure.parts|powertrain.bearings|powertrain.shafts";
}

words! {
    pub enum Neighbour { Motor = "motor", Controller = "controller", Battery = "battery" }
}

words! {
    pub enum Supports {
        SimplySupported = "simply_supported", Cantilever = "cantilever", FixedFixed = "fixed_fixed",
    }
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Size {
    pub length: Given<m::Length>,
    pub width: Given<m::Length>,
    pub thickness: Given<m::Length>,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[schemars(tag = "kind")]
pub enum Section {
    Rectangle(Rectangle),
    Round(Round),
    Tube(Tube),
    Box(Hollow),
    Channel(UChannel),
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Rectangle {
    pub height: Given<m::Length>,
    pub width: Given<m::Length>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Round {
    pub diameter: Given<m::Length>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Tube {
    pub outer_diameter: Given<m::Length>,
    pub wall: Given<m::Length>,
}

/// A hollow rectangle.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Hollow {
    pub height: Given<m::Length>,
    pub width: Given<m::Length>,
    /// All round.
    pub wall: Given<m::Length>,
}

/// A U of sheet: an upright web, and a flange at its top and at its foot.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct UChannel {
    pub height: Given<m::Length>,
    pub width: Given<m::Length>,
    pub web: Given<m::Length>,
    pub flange: Given<m::Length>,
}

/// Rods laid into a part.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Rods {
    pub material: Maybe<Ref<Material>>,
    pub diameter: Given<m::Length>,
    pub count: Given<m::Several>,
    /// From the middle of the section.
    pub offset: Given<m::Distance>,
    pub bond: Maybe<Bond>,
    /// Several of them: above one another, or side by side.
    pub lie: Maybe<RodsLie>,
}

words! {
    pub enum Bond { Glued = "glued", SlidIn = "slid_in", EndsHeld = "ends_held" }
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Faces {
    pub up: Option<Ref<Zone>>,
    pub down: Option<Ref<Zone>>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Guide {
    pub length: Given<m::Length>,
    pub material: Maybe<Ref<Material>>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct BearsOn {
    pub part: Ref<Part>,
    pub area: Given<m::Area>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Joint {
    /// That under the heads of the screws first.
    pub of: Vec<Ref<Part>>,
    /// Longest way across it, over which its bodies grow apart.
    pub span: Given<m::Length>,
    /// `8 x M4`.
    pub screws: Maybe<String>,
    pub screw_material: Maybe<Ref<Material>>,
    /// Tightening torque of one screw, dry.
    pub torque: Given<m::Torque>,
    /// Pull of one screw after tightening, where it is known.
    pub preload: Given<m::Force>,
    /// Share of that pull which is left once the bodies have crept.
    pub preload_kept: Given<m::Percentage>,
    /// Rate of the stack of spring washers under one head.
    pub spring_washers: Given<m::SpringRate>,
    /// From the edge of the seal's groove over the screw to the outside.
    pub flange_width: Given<m::Length>,
    /// What keeps liquid in or out.
    pub seal: Maybe<Seal>,
    pub holes: Option<Holes>,
    pub insert: Option<String>,
    /// What keeps its screws from turning back.
    pub locked: Maybe<Locking>,
    /// Name of the stage whose gears run into each other or apart when this joint slips.
    pub holds: Maybe<String>,
    /// Between its faces, dry as assembled.
    pub friction: Given<m::Ratio>,
    /// From the middle of its screws to the screws, on average.
    pub arm: Given<m::Length>,
    /// Of the thread or insert in the plastic: how far it is in.
    pub insert_length: Given<m::Length>,
    /// Of the insert's outside; that of the screw where it is cut straight into the plastic.
    pub insert_diameter: Given<m::Length>,
}

words! {
    pub enum Locking {
        None = "none", ThreadLocker = "thread_locker", LockNut = "lock_nut", LockWasher = "lock_washer", Wire = "wire",
    }
}

/// Between the two bodies of a joint.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Seal {
    pub form: SealForm,
    /// All round.
    pub length: Given<m::Length>,
    /// The area inside it, on which the liquid's pressure pushes.
    pub encloses: Given<m::Area>,
    /// What it was greased with when it was put in: `mineral_oil` or `silicone_oil`.
    pub greased: Maybe<Substance>,
    /// Of the wet seal against the faces.
    pub friction: Given<m::Ratio>,
    /// Cold and heat that the closed joint went through without leaking.
    pub cycled: Maybe<Cycled>,
}

#[derive(Debug, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[schemars(tag = "kind")]
pub enum SealForm {
    Cord(Cord),
    Sheet(Sheet),
    Sealant(Bead),
}

/// A round cord or ring in a groove.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Cord {
    pub material: Maybe<Ref<Material>>,
    pub diameter: Given<m::Length>,
    /// Depth of the groove and the gap above it, bodies touching.
    pub closed_to: Given<m::Length>,
}

/// Cut from sheet.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Sheet {
    pub material: Maybe<Ref<Material>>,
    pub thickness: Given<m::Length>,
    /// What it is pressed to by stops, or by the screws.
    pub closed_to: Given<m::Length>,
    pub width: Given<m::Length>,
}

/// Cured from a tube.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Bead {
    pub thickness: Given<m::Length>,
    /// Movement capability: the share by which it may be stretched (ISO 11600: 7.5 to 25 %).
    pub capability: Given<m::Percentage>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Cycled {
    pub coldest: Given<m::Temperature>,
    pub hottest: Given<m::Temperature>,
    /// There and back.
    pub times: Given<m::Count>,
}

words! {
    pub enum Holes { Round = "round", Slotted = "slotted" }
}

/// Two things that touch.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Contact {
    /// The two of them.
    pub of: Vec<Ref<Thing>>,
    pub motion: Maybe<Motion>,
    pub between: Maybe<Between>,
    /// What the grease between them is made of, `mineral_oil` if not given, or `silicone_oil`.
    pub grease: Maybe<Substance>,
    pub wet: Option<Wet>,
}

words! {
    pub enum Motion {
        Rotating = "rotating", Sliding = "sliding",
        /// shakes against each other by a hair
        MicroMotion = "micro_motion",
        /// held so that nothing moves
        Clamped = "clamped",
        Glued = "glued",
    }
}

words! {
    /// What keeps the two from touching.
    pub enum Between {
        None = "none", RollingBearing = "rolling_bearing", MetalSleeve = "metal_sleeve", PolymerSleeve = "polymer_sleeve",
        PlainBush = "plain_bush", Tape = "tape", Grease = "grease",
    }
}

words! {
    pub enum Wet { Fresh = "fresh", Salt = "salt" }
}
