//! The sections of a spec, one file each. Structure and words only: what a number means stands in its comment, which is
//! also its description in the JSON Schema.

mod assumed;
mod cases;
mod cooling;
mod devices;
mod electrics;
mod environment;
mod fluids;
mod gears;
mod logs;
mod materials;
mod members;
mod powertrain;
mod resistance;
mod running_gear;
mod service;
mod stock;
mod structure;
mod suspension;
mod workshop;

pub use assumed::*;
pub use cases::*;
pub use cooling::*;
pub use devices::*;
pub use electrics::*;
pub use environment::*;
pub use fluids::*;
pub use gears::*;
pub use logs::*;
pub use materials::*;
pub use members::*;
pub use powertrain::*;
pub use resistance::*;
pub use running_gear::*;
pub use service::*;
pub use stock::*;
pub use structure::*;
pub use suspension::*;
pub use workshop::*;

use crate::named::Map;
use quantity::m;
use schemars::JsonSchema;
use serde::Deserialize;

type Given<M> = crate::given::Given<M>;

/// The specification of one machine, or a library of bought-in parts and materials.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Spec {
    /// Format number of the specification; 1 today.
    pub dryfit: u32,
    pub machine: About,
    /// Files with materials, fluids and parts that this spec refers to; paths count from this file.
    pub libraries: Vec<String>,
    pub environment: Environment,
    /// Enclosed spaces with an air of their own.
    pub zones: Map<Zone>,
    /// What the machine is asked to do and to bear, one operating condition each.
    pub cases: Map<Case>,
    pub materials: Map<Material>,
    pub coolants: Map<Coolant>,
    pub oils: Map<Oil>,
    /// Kinds of cells.
    pub cells: Map<Cell>,
    /// Classes of wire insulation.
    pub insulations: Map<Insulation>,
    /// Classes of connectors.
    pub connectors: Map<ConnectorClass>,
    pub powertrain: Powertrain,
    pub cooling: Cooling,
    /// Servos, displays, radios and other small things with temperature limits of their own.
    pub devices: Map<Device>,
    pub structure: Structure,
    /// Sprung corners or axles by name.
    pub suspension: Map<Corner>,
    /// What the builder can see while driving.
    pub instruments: Map<Instrument>,
    pub service: Service,
    /// What could be bought, or lies in a drawer; it is no part of the machine.
    pub stock: Stock,
    /// Findings that the builder accepts, each with a reason.
    pub concessions: Map<Concession>,
    /// Figures that stand in for what is not given; written here they replace the built-in ones.
    pub assumed: Assumed,
}

/// The whole machine.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct About {
    pub name: String,
    pub revision: Option<String>,
    pub purpose: Option<String>,
    /// Ready to go, payload on.
    pub mass: Given<m::Mass>,
    pub payload: Payload,
    pub centre_of_gravity: Point,
    /// Pitch radius of gyration: how far from the centre of gravity the mass sits on average.
    pub pitch_gyration: Given<m::Length>,
    /// Whether somebody rides on it.
    pub rides: Option<bool>,
    /// Whether people may stand near it while it runs.
    pub people_near: Option<bool>,
    /// Roll radius of gyration: the same about the axis along the machine.
    pub roll_gyration: Given<m::Length>,
    /// Where it stands on firm, level ground.
    pub footprint: Footprint,
}

/// What touches the ground: outline of tracks, skis and wheels together.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Footprint {
    /// Rearmost point that carries, forward of the rear idler's axle.
    pub rear: Given<m::Position>,
    /// Foremost point that carries.
    pub front: Given<m::Position>,
    /// Between the outer edges of what carries, left to right.
    pub width: Given<m::Length>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Payload {
    pub mass: Given<m::Mass>,
    pub at: Point,
}

/// A place on the machine: x forward of the rear idler's axle, y to the left of the middle, z above the ground.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Point {
    pub x: Given<m::Position>,
    pub y: Given<m::Position>,
    pub z: Given<m::Position>,
}
