//! Layouts that are written as the specs come, however many there are.

use crate::digest::one_line;
use crate::terminal::Look;
use crate::{Reviewed, clean, digest, lines, report, terminal};

/// One layout of a run. The three texts, one after the other, are the whole; nothing is kept but what the end needs.
pub trait Layout {
    fn begin(&mut self) -> String {
        String::new()
    }
    fn spec(&mut self, reviewed: &Reviewed) -> String;
    /// Whether it shows what carries a finding.
    fn shows_carriers(&self) -> bool {
        true
    }
    /// Whether it draws.
    fn draws(&self) -> bool {
        false
    }
    /// `code` is the exit code that the run comes to.
    fn end(&mut self, _code: u8) -> String {
        String::new()
    }
}

/// For a person; each spec under its name if there may be several.
#[derive(Debug)]
pub struct Terminal {
    pub look: Look,
    pub many: bool,
    /// Only these findings: a number, a thing, a rule or an area.
    pub only: Option<String>,
}

impl Layout for Terminal {
    fn spec(&mut self, reviewed: &Reviewed) -> String {
        let name = if self.many { format!("── {}\n\n", clean(reviewed.name())) } else { String::new() };
        format!("{name}{}\n", terminal(reviewed, self.look, self.only.as_deref()))
    }
}

/// The first screen of one spec; of several a line each.
#[derive(Debug)]
pub struct Digest {
    pub look: Look,
    pub many: bool,
}

impl Layout for Digest {
    fn spec(&mut self, reviewed: &Reviewed) -> String {
        if self.many { one_line(reviewed, self.look.width.max(40)) } else { digest(reviewed, self.look) }
    }
    fn shows_carriers(&self) -> bool {
        false
    }
}

/// One line a finding.
#[derive(Debug)]
pub struct Lines;

impl Layout for Lines {
    fn spec(&mut self, reviewed: &Reviewed) -> String {
        lines(reviewed)
    }
    fn shows_carriers(&self) -> bool {
        false
    }
}

/// Everything as data; one object a line if there may be several specs, so that the whole can be read as it comes.
#[derive(Debug)]
pub struct Json {
    pub many: bool,
}

impl Layout for Json {
    fn spec(&mut self, reviewed: &Reviewed) -> String {
        let report = report(reviewed);
        let text = if self.many { serde_json::to_string(&report) } else { serde_json::to_string_pretty(&report) };
        text.map_or_else(|error| format!("{{\"failed\": \"{error}\"}}\n"), |text| text + "\n")
    }
}
