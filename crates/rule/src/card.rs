//! The card of a rule: what it asks, how it works it out, what it requires. The rulebook's pages are printed from it.

use crate::checks::Checks;
use machine::Machine;

/// One question about the machine, independent of all others.
pub trait Rule: Sync {
    fn card(&self) -> &'static Card;
    /// Called once for each case point; each check is a closure of its own.
    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>);
}

#[derive(Debug)]
pub struct Card {
    /// `bearing-pv`.
    pub name: &'static str,
    pub area: Area,
    /// The question in the builder's words.
    pub question: &'static str,
    /// What breaks and how, in two or three sentences.
    pub explains: &'static str,
    pub formula: &'static str,
    /// Author or standard, and whether published, common practice or from memory.
    pub source: &'static str,
    /// How the formula was checked by a second route.
    pub checked: &'static str,
    /// Default reserve in words: `1.5 clean, 2 dirty, 3 dry in grit (common practice)`.
    pub required: &'static str,
    /// Where people can get hurt; empty where not.
    pub caution: &'static str,
}

impl Card {
    /// Of a rule that a test makes up: it says nothing. A rule of the rulebook says all of it.
    #[must_use]
    pub const fn silent(name: &'static str, area: Area) -> Self {
        let (question, explains, formula, source) = ("", "", "", "");
        Self { name, area, question, explains, formula, source, checked: "", required: "", caution: "" }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Area {
    Powertrain,
    Cooling,
    Structure,
    Suspension,
    WholeMachine,
}

impl Area {
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Powertrain => "powertrain",
            Self::Cooling => "cooling",
            Self::Structure => "structure",
            Self::Suspension => "suspension",
            Self::WholeMachine => "whole machine",
        }
    }
}

/// What a failure costs, gravest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Consequence {
    /// Somebody is hurt.
    Harm,
    /// The machine is lost or left outside.
    Stranded,
    /// The day is over.
    RunOver,
    CheapPart,
}

impl Consequence {
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Harm => "harm",
            Self::Stranded => "stranded",
            Self::RunOver => "run_over",
            Self::CheapPart => "cheap_part",
        }
    }
}
