//! Measures, units, tolerances and basis: how a builder writes a number and how we print it back. The only crate
//! that names uom. It never knows: YAML, nodes, files, machines.

mod bearing;
mod designation;
mod guess;
mod measure;
mod misread;
mod read;
mod rewrite;
mod scan;
mod schema;
mod show;
pub mod types;

pub mod m;

pub use bearing::{Bearing, Clearance, Seal, bearing_pattern, read_bearing};
pub use designation::{
    Counted, Date, Thread, Wire, counted_pattern, counted_thread_pattern, date_pattern, gauge_of, gauges, read_counted,
    read_counted_thread, read_date, read_thread, read_wire, thread_pattern, wire_pattern,
};
pub use measure::{Bounds, Kind, Measure, Step, Unit};
pub use misread::{Misread, MisreadClass};
pub use read::{Stated, Written, read, read_bare, read_range, unit_of};
pub use rewrite::{End, rewritten};
pub use schema::{pattern, range_pattern};
pub use show::{Bound, DIGITS, show, show_bare, show_bound, unit_for};
pub use types::*;
