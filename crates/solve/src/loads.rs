//! What carries what: forces from their sources, the beams of long parts and shafts, and the balance of the whole machine.
//!
//! A source that is not solved in a case has its reason; a case that has nothing to do with a source loads nothing.

mod balance;
mod material;
mod member;
mod shaft;
mod source;
#[cfg(test)]
mod tests;

pub use balance::{Balance, balance};
pub use material::{Grain, grain, modulus};
pub use member::{Loaded, Member, Proof, Stresses, alone, idle, member, proof};
pub use shaft::{Carried, ShaftLoads, Shafts, Spot, critical_speed, seat_of, shaft};
pub use source::{Supplied, jam_pull, stopped, supplied};
