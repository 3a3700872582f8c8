//! Findings laid out: terminal, one line each, JSON, HTML. It never knows: how a margin came about.

pub mod circuit;
mod clean;
pub mod compare;
mod digest;
mod fold;
mod html;
mod json;
mod junit;
mod layout;
mod line;
pub mod markdown;
mod nothing;
mod place;
pub mod rank;
pub mod remedy;
mod sarif;
mod source;
mod tally;
mod terminal;
pub mod uncertainty;
mod words;
mod workshop;

pub use clean::clean;
pub use digest::digest;
pub use fold::fold;
pub use html::Html;
pub use json::{Report, report, report_schema};
pub use junit::Junit;
pub use layout::{Digest, Json, Layout, Lines, Terminal};
pub use line::lines;
pub use markdown::Markdown;
pub use nothing::nothing_judged;
pub use sarif::Sarif;
pub use tally::Tally;
pub use terminal::{Look, card, summary, terminal};

use document::{FileId, Limits, NoFiles, NoShelf, Span};
use engine::{Drawing, Profile, Review};
use machine::{Complaint, Document, Machine};

/// One file's result: either it was reviewed, or complaints say why not.
#[derive(Debug)]
pub struct Reviewed {
    pub document: Document,
    pub complaints: Vec<Complaint>,
    /// The machine and its review; none if there are complaints.
    pub outcome: Option<(Machine, Review)>,
    /// What a layout that draws has asked for.
    pub drawn: Drawn,
}

/// The drawings of a machine.
#[derive(Debug, Default)]
pub struct Drawn {
    pub charts: Vec<Drawing>,
    pub circuit: Vec<Profile>,
}

impl Reviewed {
    /// A spec that could not be read at all.
    #[must_use]
    pub fn unreadable(name: &str, reason: &str) -> Self {
        let document = Document::load(name, Vec::new(), &NoFiles, &NoShelf, &Limits::default());
        let says = format!("the file cannot be read: {reason}");
        let complaint = Complaint { file: FileId(0), span: Span::default(), says, help: String::new(), also: None };
        Self { document, complaints: vec![complaint], outcome: None, drawn: Drawn::default() }
    }

    /// The spec's file.
    #[must_use]
    pub fn name(&self) -> &str {
        self.document.files.first().map_or("", |file| &file.name)
    }
}
