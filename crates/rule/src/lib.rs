//! What a rule is, what a check may say, and the prelude that is all a rule crate sees. It never knows: which rules
//! exist, what a workshop requires, how findings are laid out.

mod card;
mod checks;
mod outcome;
mod overview;
pub mod prelude;

pub use card::{Area, Card, Consequence, Rule};
pub use checks::{Checked, Checks, On, Run, Subject};
pub use outcome::{Course, Figure, Held, Label, Margin, Outcome, Required, Telling, Verdict, Words, shown};
pub use overview::{Judged, Notes, Overview, Remark};
