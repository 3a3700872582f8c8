//! Published formulas as pure functions of quantities. It never knows: machines, YAML, materials by name, required reserves.

pub mod battery;
pub mod beam;
pub mod bearing;
pub mod damper;
pub mod drive;
pub mod expansion;
pub mod landing;
pub mod motor;
pub mod oil;
pub mod range;
pub mod ring;
pub mod section;
pub mod spring;
pub mod track;
