//! What a check can come to.

use crate::card::Consequence;
use machine::{Given, NodeId, NotJudged, Row};
use quantity::{Bound, Kind, Measure, Quantity, m, show, show_bound};
use solve::At;
use std::ops::{Deref, DerefMut};

/// A number and what it is a number of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figure {
    pub si: f64,
    pub kind: &'static Kind,
}

impl Figure {
    #[must_use]
    pub fn of<M: Measure>(quantity: M::Q) -> Self {
        Self { si: quantity.si(), kind: M::KIND }
    }
}

/// Demand against capacity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Held {
    /// reserve = capacity / demand
    Ratio { demand: Figure, capacity: Figure },
    /// reserve = capacity − demand, in `kind`; `yardstick` is what counts as 100 % of headroom.
    Gap { demand: Figure, capacity: Figure, kind: &'static Kind, yardstick: f64 },
}

/// So little headroom is missing by the last digits of a calculation alone, never on the machine.
const ROUNDING: f64 = 1e-12;

impl Held {
    /// Ratio, or gap in SI units. Infinite without demand.
    #[must_use]
    pub fn reserve(&self) -> f64 {
        match self {
            Self::Ratio { demand, .. } if demand.si == 0.0 => f64::INFINITY,
            Self::Ratio { demand, capacity } => capacity.si / demand.si,
            Self::Gap { demand, capacity, .. } => capacity.si - demand.si,
        }
    }

    /// How much of what is required is left over: 0 is just enough, below zero is too little. One scale for all margins.
    #[must_use]
    pub fn headroom(&self, required: f64) -> f64 {
        match self {
            Self::Ratio { .. } => self.reserve() / required - 1.0,
            Self::Gap { yardstick, .. } => (self.reserve() - required) / yardstick,
        }
    }

    /// What it comes to where so much is required.
    #[must_use]
    pub fn verdict(&self, required: f64) -> Verdict {
        if self.fails() {
            Verdict::Fails
        } else if self.headroom(required) < -ROUNDING {
            Verdict::Thin
        } else {
            Verdict::Sound
        }
    }

    /// Demand exceeds capacity.
    #[must_use]
    pub fn fails(&self) -> bool {
        match self {
            Self::Ratio { .. } => self.reserve() < 1.0,
            Self::Gap { .. } => self.reserve() < 0.0,
        }
    }
}

/// The reserve that a check wants, and why that much.
#[derive(Debug, Clone, PartialEq)]
pub struct Required {
    pub value: f64,
    pub why: &'static str,
}

/// A place in the source and what it has to do with the finding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Label {
    pub node: NodeId,
    pub says: String,
}

/// How a reserve goes as one figure of the machine changes and all others stay.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    /// That figure: `speed of the track`.
    pub along: &'static str,
    pub kind: &'static Kind,
    /// Where it is in this case, in SI units.
    pub now: f64,
    /// The figure in SI units, and the reserve.
    pub points: Vec<(f64, f64)>,
}

impl Course {
    /// Along a figure of measure `M`.
    #[must_use]
    pub fn along<M: Measure>(along: &'static str, now: M::Q, points: Vec<(f64, f64)>) -> Self {
        Self { along, kind: M::KIND, now: now.si(), points }
    }
}

/// The words of a finding; only made where they will be read.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Words {
    /// What happens to the machine, in plain words.
    pub happens: String,
    /// Further numbers, one sentence each.
    pub numbers: Vec<String>,
    /// The cause in the file.
    pub labels: Vec<Label>,
    /// What would clear it, one change each.
    pub clears: Vec<String>,
    /// Those among `clears` that are one number in place of the written one, and clear this margin alone; SI numbers.
    pub changes: Vec<(NodeId, f64)>,
    /// What a drawing of the margin is made from, where one figure tells most.
    pub course: Option<Course>,
}

/// A quantity in a unit that suits its size.
#[must_use]
pub fn shown<M: Measure>(quantity: M::Q) -> String {
    show(quantity.si(), M::KIND, None)
}

impl Words {
    /// The words of an outcome without a margin, if they are wanted in this run.
    #[must_use]
    pub fn told(at: &At, say: impl FnOnce(&mut Telling<'_>)) -> Self {
        let mut words = Self::default();
        if at.tells() {
            say(&mut Telling { words: &mut words, row: at.machine().row() });
        }
        words
    }

    pub fn label(&mut self, node: NodeId, says: impl Into<String>) {
        self.labels.push(Label { node, says: says.into() });
    }
}

/// The words of a finding while they are made: they know in which unit the author wrote each number.
#[derive(Debug)]
pub struct Telling<'a> {
    words: &'a mut Words,
    row: &'a Row,
}

impl Deref for Telling<'_> {
    type Target = Words;
    fn deref(&self) -> &Words {
        self.words
    }
}

impl DerefMut for Telling<'_> {
    fn deref_mut(&mut self) -> &mut Words {
        self.words
    }
}

impl Telling<'_> {
    /// Whether the author wrote the number, to blame what is there. A verdict asks the reader instead.
    #[must_use]
    pub fn is_given<M: Measure>(&self, given: &Given<M>) -> bool {
        self.row.si(given.id()).is_some()
    }

    /// A number of at least so much would clear it alone: `says` gets it in the author's unit, rounded up.
    pub fn at_least<M: Measure>(&mut self, given: &Given<M>, number: M::Q, says: impl FnOnce(&str) -> String) {
        self.propose(given, show_bound(number.si(), M::KIND, self.row.unit(given.id()), Bound::AtLeast), says);
    }

    /// A number of at most so much would clear it alone: `says` gets it in the author's unit, rounded down.
    pub fn at_most<M: Measure>(&mut self, given: &Given<M>, number: M::Q, says: impl FnOnce(&str) -> String) {
        self.propose(given, show_bound(number.si(), M::KIND, self.row.unit(given.id()), Bound::AtMost), says);
    }

    /// So much more than it is `now` would clear it alone: `says` gets the difference in the author's unit, rounded up.
    pub fn more<M: Measure>(&mut self, given: &Given<M>, now: M::Q, by: M::Q, says: impl FnOnce(&str) -> String) {
        let by = show_bound(by.si(), M::KIND, self.row.unit(given.id()), Bound::AtLeast);
        self.propose(given, by.map(|(text, by)| (text, now.si() + by)), says);
    }

    /// So much less than it is `now` would clear it alone: `says` gets the difference in the author's unit, rounded up.
    pub fn less<M: Measure>(&mut self, given: &Given<M>, now: M::Q, by: M::Q, says: impl FnOnce(&str) -> String) {
        let by = show_bound(by.si(), M::KIND, self.row.unit(given.id()), Bound::AtLeast);
        self.propose(given, by.map(|(text, by)| (text, now.si() - by)), says);
    }

    /// A number that its field would refuse is nothing to propose.
    fn propose<M: Measure>(
        &mut self,
        given: &Given<M>,
        told: Option<(String, f64)>,
        says: impl FnOnce(&str) -> String,
    ) {
        if let Some((text, si)) = told.filter(|told| M::KIND.takes(told.1)) {
            self.words.clears.push(says(&text));
            self.words.changes.push((given.id(), si));
        }
    }
}

/// A margin: demand against capacity, the reserve wanted, what a failure costs.
#[derive(Debug, Clone, PartialEq)]
pub struct Margin {
    pub held: Held,
    pub required: Required,
    /// What the rule itself wants, where something else was put in place of it.
    pub replaced: Option<Required>,
    pub consequence: Consequence,
    pub words: Words,
}

impl Margin {
    /// reserve = capacity / demand, both of one measure.
    #[must_use]
    pub fn ratio<M: Measure>(demand: M::Q, capacity: M::Q, required: Required, consequence: Consequence) -> Self {
        let held = Held::Ratio { demand: Figure::of::<M>(demand), capacity: Figure::of::<M>(capacity) };
        Self { held, required, replaced: None, consequence, words: Words::default() }
    }

    /// reserve = capacity − demand, both of measure `M`, the difference of measure `D`.
    #[must_use]
    pub fn gap<M: Measure, D: Measure>(
        demand: M::Q,
        capacity: M::Q,
        yardstick: D::Q,
        required: Required,
        consequence: Consequence,
    ) -> Self {
        let (demand, capacity) = (Figure::of::<M>(demand), Figure::of::<M>(capacity));
        let held = Held::Gap { demand, capacity, kind: D::KIND, yardstick: yardstick.si() };
        Self { held, required, replaced: None, consequence, words: Words::default() }
    }

    /// Says where the case asks for more than the drive line can do: the margin is then that of what it can.
    #[must_use]
    pub(crate) fn tell_short(mut self, at: &At) -> Self {
        if at.tells()
            && let Some((short, drive)) = at.short_of()
        {
            let told = |speed, pull| format!("{} at {}", shown::<m::Force>(pull), shown::<m::Speed>(speed));
            self.words.numbers.push(format!(
                "The case asks for a pull of {}, which the machine cannot do ({}): judged at {}.",
                told(short.speed, short.pull),
                drive.set_by,
                told(drive.track_speed, drive.pull)
            ));
        }
        self
    }

    /// Adds the words if they are wanted in this run.
    #[must_use]
    pub fn tell(mut self, at: &At, say: impl FnOnce(&mut Telling<'_>)) -> Self {
        if at.tells() {
            say(&mut Telling { words: &mut self.words, row: at.machine().row() });
        }
        self
    }
}

/// What one check came to in one case point.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    Held(Margin),
    /// Wrong whatever the numbers are.
    Breach {
        consequence: Consequence,
        words: Words,
    },
    /// Right whatever the numbers are; the words say why.
    Clear(Words),
    /// This case does not concern the check.
    Aside(&'static str),
    NotJudged(NotJudged),
    /// The rule itself failed.
    Broken(String),
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    Broken,
    Fails,
    Thin,
    NotJudged,
    /// Sound in every case that could be judged: in another one, or beyond what is known of a figure, it may be less.
    Partly,
    Sound,
}

impl Verdict {
    /// Nothing that could be judged is short of what is required.
    #[must_use]
    pub fn holds(self) -> bool {
        matches!(self, Self::Partly | Self::Sound)
    }

    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Broken => "broken",
            Self::Fails => "fails",
            Self::Thin => "thin",
            Self::NotJudged => "not judged",
            Self::Partly => "sound where judged",
            Self::Sound => "sound",
        }
    }
}
