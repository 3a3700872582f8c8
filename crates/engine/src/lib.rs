//! Runs every rule over every case point and turns outcomes into findings: verdicts, governing cases, what carries them,
//! what could not be judged, concessions, what a workshop requires. It never knows: YAML, layout, any rule by name.

mod chart;
mod charts;
mod circuit;
mod concession;
mod finding;
mod influence;
mod points;
mod provenance;
mod review;
mod run;
mod unlock;
mod unread;
mod workshop;

pub use solve::coolant::{Circuit, ElementState};

pub use chart::{Axis, Bar, Bars, Chart, Drawing, Line, Mark, Picture};
pub use charts::charts;
pub use circuit::{Place as CircuitPlace, Profile, Round, profiles};
pub use concession::{Conceded, Today};
pub use finding::{CaseLabel, Finding, Governing};
pub use influence::{Carrier, carriers, weakest};
pub use points::case_points;
pub use provenance::{basis_of, source_of};
pub use quantity::Step;
pub use review::{Review, review, review_without_carriers, verdicts, verdicts_of};
pub use run::{Place, Run, Selection};
pub use unlock::{Together, Unlock, Unlocks};
pub use workshop::{Demanded, Unfitting, Unused};
