//! All that a rule crate sees.

pub extern crate alloc;

pub use crate::{
    Area, Card, Checks, Consequence, Course, Figure, Held, Judged, Margin, Notes, On, Outcome, Overview, Remark,
    Required, Rule, Subject, Telling, Verdict, Words, shown,
};
pub use alloc::{format, string::String, string::ToString, vec, vec::Vec};
pub use machine::*;
pub use physics;
pub use quantity::{self, m, show, types::*};
pub use solve::coolant::{Circuit, ElementState, Gas, liquid};
pub use solve::{At, CasePoint, drive, gears, landing, loads, strength, thermal};
