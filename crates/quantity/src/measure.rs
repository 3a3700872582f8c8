//! What an input *is*: its name, the units it may be written in, its bounds. What arithmetic may do with it is uom's.

use crate::types::Quantity;

/// One unit that a measure may be written in. `si = number · factor + offset`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// As we print it: `mm`, `N·m`, `°C`.
    pub symbol: &'static str,
    /// Other spellings that mean the same and are accepted: `Nm`, `N*m`.
    pub also: &'static [&'static str],
    pub factor: f64,
    /// Only temperatures have one.
    pub offset: f64,
}

/// Lowest and highest SI number that is physically possible for this measure (not: plausible).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bounds {
    pub least: f64,
    pub most: f64,
    /// The lower end itself is refused (a length of zero is no length).
    pub above_least: bool,
}

/// The one table from which parser, error text and schema pattern are made.
#[derive(Debug)]
pub struct Kind {
    /// In words, with its article: `a length`.
    pub name: &'static str,
    /// The definition's name in the JSON Schema: `length`.
    pub key: &'static str,
    pub units: &'static [Unit],
    pub bounds: Bounds,
    /// A number without unit is accepted (ratios and counts).
    pub bare: bool,
    /// Only whole numbers.
    pub whole: bool,
    /// As a builder would write it: `12 mm`.
    pub example: &'static str,
    /// SI number of a typical value, used only to find out what else a check would need.
    pub typical: f64,
    /// A half-sentence that keeps it from being misread; empty where nothing is.
    pub note: &'static str,
}

/// By how much a number is moved to see what it moves. A per cent of an absolute temperature means nothing to anybody.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    Percent,
    Kelvin,
}

impl Kind {
    /// Temperatures and their differences go by a kelvin, all else by a per cent.
    #[must_use]
    pub fn step(&self) -> Step {
        if matches!(self.key, "temperature" | "temperature_difference") { Step::Kelvin } else { Step::Percent }
    }
}

impl PartialEq for Kind {
    fn eq(&self, other: &Self) -> bool {
        self.key == other.key
    }
}

/// A marker type for one kind of input.
pub trait Measure: Copy + std::fmt::Debug + Send + Sync + 'static {
    /// What arithmetic works with.
    type Q: Quantity;
    const KIND: &'static Kind;
}
