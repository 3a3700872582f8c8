//! Measures, units, tolerances and basis: how a builder writes a number and how we print it back. The only crate
//! that names uom. It never knows: YAML, nodes, files, machines.

mod measure;
mod types;

pub mod m;

pub use measure::{Bounds, Kind, Measure, Unit};
pub use types::*;
