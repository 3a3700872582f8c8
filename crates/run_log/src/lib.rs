//! The log of a test run, a table of rows over time, becomes what a machine's loads are worked out from: how long it went at
//! which load and speed, and the highest values. Read as a stream: memory does not grow with the file.
//! It never knows: YAML, nodes, machines, formulas of machines, the disk.

mod columns;
mod digest;
mod number;
mod rows;
mod spectrum;
#[cfg(test)]
mod tests;
mod trouble;
mod window;

pub use columns::{Column, Role};
pub use digest::{Digest, Ends, Flow, read};
pub use spectrum::Step;
pub use trouble::{Place, Trouble, Why};
