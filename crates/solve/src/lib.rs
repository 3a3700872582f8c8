//! One machine in one case at one ambient temperature: `At` hands out numbers and solutions, and notes what was asked.
//! Solutions are worked out when first asked for, once. It never knows: rules, verdicts, requirements.

mod at;
mod bill;
mod cache;
mod fits;
mod point;

pub mod battery;
pub mod coolant;
pub mod drive;
pub mod gears;
pub mod landing;
pub mod loads;
pub mod strength;
pub mod surroundings;
pub mod temperatures;
pub mod thermal;
pub mod track;
pub mod trip;

pub use at::{At, Solve, said};
pub use bill::{Item, bill};
pub use cache::Cells;
pub use fits::{Misfit, misfits, twins};
pub use machine::{Assumption, Found, NotJudged, Reader, Reads, Scale, WhatIf};
pub use point::CasePoint;
