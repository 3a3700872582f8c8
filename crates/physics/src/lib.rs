//! Published formulas as pure functions of quantities. It never knows: machines, YAML, materials by name, required reserves.

pub mod air;
pub mod battery;
pub mod beam;
pub mod bearing;
pub mod bend;
pub mod boiling;
pub mod bubble;
pub mod clamp;
pub mod coolant;
pub mod damper;
pub mod drive;
pub mod expansion;
pub mod fatigue;
pub mod freezing;
pub mod gas;
pub mod gear;
pub mod heat;
pub mod hose;
pub mod joint;
pub mod landing;
pub mod moisture;
pub mod motor;
pub mod oil;
pub mod pipe;
pub mod planetary;
pub mod plate;
pub mod pump;
pub mod range;
pub mod ring;
pub mod screw;
pub mod seal;
pub mod section;
pub mod spring;
pub mod track;
pub mod wire;

mod root;
