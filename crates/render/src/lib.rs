//! Findings laid out: terminal, one line each, JSON. It never knows: how a margin came about.

mod clean;
pub mod compare;
mod fold;
mod json;
mod line;
pub mod rank;
pub mod remedy;
mod source;
mod terminal;
pub mod uncertainty;
mod words;

pub use clean::clean;
pub use json::{Report, report, report_schema};
pub use line::lines;
pub use terminal::{Look, card, summary, terminal};

use engine::Review;
use machine::{Complaint, Document, Machine};

/// One file's result: either it was reviewed, or complaints say why not.
#[derive(Debug)]
pub struct Reviewed {
    pub document: Document,
    pub complaints: Vec<Complaint>,
    /// The machine and its review; none if there are complaints.
    pub outcome: Option<(Machine, Review)>,
}
