//! The single way to a number. It looks into the what-if row first and notes what was asked.

use crate::curve::Curve;
use crate::given::Given;
use crate::named::Maybe;
use crate::nodes::{Marks, Nodes};
use crate::row::Row;
use document::NodeId;
use quantity::{Measure, Quantity, Stated, Step, Unit};
use std::cell::{Cell, RefCell};

/// Replaced numbers by node; everything else is as written.
#[derive(Debug, Clone, Default)]
pub struct WhatIf {
    values: Vec<f64>,
    nudged: Option<NodeId>,
}

impl WhatIf {
    /// Replaces the number of one node (either end of a range, a written number or an absent one) by an SI number.
    pub fn set(&mut self, id: NodeId, si: f64) {
        if self.values.len() <= id.index() {
            self.values.resize(id.index() + 1, f64::NAN);
        }
        if let Some(value) = self.values.get_mut(id.index()) {
            *value = si;
        }
    }
    /// Everything as written, but one number moved by one step: a per cent, or a kelvin where it is a temperature.
    #[must_use]
    pub fn nudge(id: NodeId) -> Self {
        Self { values: Vec::new(), nudged: Some(id) }
    }
    /// As written again.
    pub fn clear(&mut self, id: NodeId) {
        if let Some(value) = self.values.get_mut(id.index()) {
            *value = f64::NAN;
        }
    }
    #[must_use]
    pub fn get(&self, id: NodeId) -> Option<f64> {
        self.values.get(id.index()).copied().filter(|value| !value.is_nan())
    }
}

/// A value was not given and something stood in for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Assumption {
    /// The absent field, and the node of the built-in figure used instead.
    Figure { absent: NodeId, instead: NodeId },
    /// The absent field, and the word used instead.
    Word { absent: NodeId, instead: &'static str },
    /// A written table whose last value was taken beyond its end, where the true one can only be less.
    AtMost { of: NodeId, instead: &'static str },
}

/// What was asked for, in rising order and each once.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Reads {
    pub nodes: Nodes,
    pub assumed: Vec<Assumption>,
}

impl Reads {
    /// Whether a replaced number can change what was read.
    #[must_use]
    pub fn has(&self, id: NodeId) -> bool {
        self.nodes.contains(id)
    }
    /// Whether a figure behind it is known only to be no more than what it was taken as: so what holds may yet not hold.
    #[must_use]
    pub fn at_most(&self) -> bool {
        self.assumed.iter().any(|assumption| matches!(assumption, Assumption::AtMost { .. }))
    }
    /// Takes in what another reading asked for.
    pub fn add(&mut self, other: &Reads) {
        self.nodes.extend(&other.nodes);
        other.assumed.iter().for_each(|assumption| assume(&mut self.assumed, *assumption));
    }
}

fn assume(assumed: &mut Vec<Assumption>, assumption: Assumption) {
    if let Err(at) = assumed.binary_search(&assumption) {
        assumed.insert(at, assumption);
    }
}

/// What was asked for so far.
#[derive(Debug, Default)]
struct Notes {
    marks: Marks,
    assumed: Vec<Assumption>,
}

/// Why a question has no answer.
#[derive(Debug, Clone, PartialEq)]
pub enum NotJudged {
    /// An absent field; `Machine::absent` names it. `typical` is an SI number that could stand there, NaN for a thing.
    NotGiven { absent: NodeId, typical: f64 },
    /// A formula or table was asked outside the range in which it is known; numbers in `unit`.
    OutsideRange { of: String, unit: &'static str, from: f64, to: f64, was: f64 },
    /// A solution says why it has none, in words for the builder.
    NoSolution(String),
    /// The calculation itself failed: whoever needs it is broken.
    Failed(String),
}

/// What a check or a solution gets back when it asks.
pub type Found<T> = Result<T, NotJudged>;

/// Hands out numbers and notes them.
#[derive(Debug)]
pub struct Reader<'a> {
    row: &'a Row,
    what_if: &'a WhatIf,
    notes: RefCell<Notes>,
    noting: bool,
}

impl<'a> Reader<'a> {
    #[must_use]
    pub fn new(row: &'a Row, what_if: &'a WhatIf) -> Self {
        Self { row, what_if, notes: RefCell::default(), noting: true }
    }

    /// The same without notes, for runs of which only the number is wanted.
    #[must_use]
    pub fn quiet(self, quiet: bool) -> Self {
        Self { noting: !quiet, ..self }
    }

    /// Whether it keeps no notes.
    #[must_use]
    pub fn is_quiet(&self) -> bool {
        !self.noting
    }

    #[must_use]
    pub fn what_if(&self) -> &'a WhatIf {
        self.what_if
    }

    /// Everything that was asked for so far.
    #[must_use]
    pub fn reads(self) -> Reads {
        let Notes { marks, assumed } = self.notes.into_inner();
        Reads { nodes: marks.nodes(), assumed }
    }

    /// Notes all that another reading asked for.
    pub fn add(&self, other: &Reads) {
        if self.noting {
            let mut notes = self.notes.borrow_mut();
            notes.marks.extend(&other.nodes);
            other.assumed.iter().for_each(|assumption| assume(&mut notes.assumed, *assumption));
        }
    }

    fn note(&self, id: NodeId) {
        if self.noting {
            self.notes.borrow_mut().marks.insert(id);
        }
    }

    fn assume(&self, assumption: Assumption) {
        if self.noting {
            assume(&mut self.notes.borrow_mut().assumed, assumption);
        }
    }

    fn number<M: Measure>(&self, given: &Given<M>) -> Option<f64> {
        self.note(given.id);
        let number = self.what_if.get(given.id).or_else(|| self.row.si(given.id))?;
        if self.what_if.nudged != Some(given.id) {
            return Some(number);
        }
        Some(match M::KIND.step() {
            Step::Kelvin => number + 1.0,
            Step::Percent if number == 0.0 => 0.01,
            Step::Percent => number * 1.01,
        })
    }

    /// Whether the number is there; whoever concludes something from it has read it.
    pub fn is_given<M: Measure>(&self, given: &Given<M>) -> bool {
        self.number(given).is_some()
    }

    /// The author's own unit; none for a bare number and where nothing is written.
    #[must_use]
    pub fn unit<M: Measure>(&self, given: &Given<M>) -> Option<&'static Unit> {
        self.row.unit(given.id)
    }

    /// Another number for the same thing, in the author's own unit.
    #[must_use]
    pub fn show<M: Measure>(&self, given: &Given<M>, quantity: M::Q) -> String {
        quantity::show(quantity.si(), M::KIND, self.row.unit(given.id))
    }

    /// Half width as written with `±`, or by the default spread of the stated basis; whoever concludes something from it
    /// has read the number.
    pub fn tolerance<M: Measure>(&self, given: &Given<M>) -> Option<f64> {
        self.note(given.id);
        self.row.tolerance(given.id)
    }

    /// `(weighed)`, `(measured)`, `(label)`, `(guess)` as the author wrote it; whoever concludes something from it has
    /// read the number.
    pub fn stated<M: Measure>(&self, given: &Given<M>) -> Option<Stated> {
        self.note(given.id);
        self.row.stated(given.id)
    }

    /// The number, or the name of the gap.
    ///
    /// # Errors
    /// [`NotJudged::NotGiven`] when it is absent.
    pub fn need<M: Measure>(&self, given: &Given<M>) -> Found<M::Q> {
        self.number(given).map(M::Q::from_si).ok_or(NotJudged::NotGiven { absent: given.id, typical: M::KIND.typical })
    }

    /// The number, if there is one; the gap is noted as read.
    pub fn try_get<M: Measure>(&self, given: &Given<M>) -> Option<M::Q> {
        self.number(given).map(M::Q::from_si)
    }

    /// Whether it is said that there is no such thing.
    pub fn says_none<M: Measure>(&self, given: &Given<M>) -> bool {
        self.number(given).is_none() && self.row.says_none(given.id)
    }

    /// The number, or the built-in figure instead, which then shows as assumed.
    ///
    /// # Errors
    /// [`NotJudged::NotGiven`] when not even the built-in figure exists.
    pub fn or<M: Measure>(&self, given: &Given<M>, assumed: &Given<M>) -> Found<M::Q> {
        if let Some(si) = self.number(given) {
            return Ok(M::Q::from_si(si));
        }
        let value = self.need(assumed)?;
        let assumption = Assumption::Figure { absent: given.id, instead: assumed.id };
        self.assume(assumption);
        Ok(value)
    }

    /// The number, or what the language itself takes in its place, which then shows as assumed under `called`.
    pub fn or_take<M: Measure>(&self, given: &Given<M>, instead: M::Q, called: &'static str) -> M::Q {
        self.number(given).map_or_else(
            || {
                let assumption = Assumption::Word { absent: given.id, instead: called };
                self.assume(assumption);
                instead
            },
            M::Q::from_si,
        )
    }

    /// The thing, or the name of the gap.
    ///
    /// # Errors
    /// [`NotJudged::NotGiven`] when it is absent.
    pub fn part<'m, T>(&self, maybe: &'m Maybe<T>) -> Found<&'m T> {
        self.note(maybe.id);
        maybe.value.as_ref().ok_or(NotJudged::NotGiven { absent: maybe.id, typical: f64::NAN })
    }

    /// The thing, if it is there; the gap is noted as read.
    pub fn try_part<'m, T>(&self, maybe: &'m Maybe<T>) -> Option<&'m T> {
        self.note(maybe.id);
        maybe.value.as_ref()
    }

    /// The thing, if it is there; else what stands in for it shows as assumed under `called`.
    pub fn part_or<'m, T>(&self, maybe: &'m Maybe<T>, called: &'static str) -> Option<&'m T> {
        self.note(maybe.id);
        if maybe.value.is_none() {
            let assumption = Assumption::Word { absent: maybe.id, instead: called };
            self.assume(assumption);
        }
        maybe.value.as_ref()
    }

    /// The word, or another one instead, which then shows as assumed under `called`.
    pub fn or_word<T: Copy>(&self, maybe: &Maybe<T>, instead: T, called: &'static str) -> T {
        self.note(maybe.id);
        maybe.value.unwrap_or_else(|| {
            let assumption = Assumption::Word { absent: maybe.id, instead: called };
            self.assume(assumption);
            instead
        })
    }

    /// Notes that a table was taken at its last value beyond its end, where the true value can only be less.
    pub fn at_most(&self, table: NodeId) {
        self.assume(Assumption::AtMost { of: table, instead: "at most its last value" });
    }

    /// A table's value at `x`, straight between its points (`log` for viscosities: straight in the logarithm).
    ///
    /// # Errors
    /// [`NotJudged::OutsideRange`] beyond the first and last point, and when a point was removed by a what-if.
    pub fn at<X: Measure, Y: Measure>(&self, curve: &Curve<X, Y>, x: X::Q, scale: Scale, of: &str) -> Found<Y::Q> {
        self.along(curve, x, scale, of, |point| Ok((self.need(&point.0)?.si(), self.need(&point.1)?.si())))
    }

    /// The same from a table that is asked over and over: each of its points is read once.
    ///
    /// # Errors
    /// As [`Self::at`].
    pub fn look<X: Measure, Y: Measure>(&self, up: &LookUp<'_, X, Y>, x: X::Q, scale: Scale, of: &str) -> Found<Y::Q> {
        let mut known = up.known.iter();
        self.along(up.curve, x, scale, of, |point| match known.next() {
            Some(known) if !known.get().0.is_nan() => Ok(known.get()),
            known => {
                let here = (self.need(&point.0)?.si(), self.need(&point.1)?.si());
                known.into_iter().for_each(|known| known.set(here));
                Ok(here)
            }
        })
    }

    fn along<X: Measure, Y: Measure>(
        &self,
        curve: &Curve<X, Y>,
        x: X::Q,
        scale: Scale,
        of: &str,
        mut read: impl FnMut(&(Given<X>, Given<Y>)) -> Found<(f64, f64)>,
    ) -> Found<Y::Q> {
        let x = x.si();
        let mut below: Option<(f64, f64)> = None;
        let mut first = f64::NAN;
        for point in curve.points() {
            let here = read(point)?;
            if below.is_none() {
                first = here.0;
            }
            // A hair of rounding at the ends is not "outside".
            let hair = 1e-9 * here.0.abs().max(1.0);
            if (x - here.0).abs() <= hair {
                return Ok(Y::Q::from_si(here.1));
            }
            if x < here.0 {
                let Some(under) = below else { break };
                return Ok(Y::Q::from_si(scale.between(under, here, x)));
            }
            below = Some(here);
        }
        let last = curve.points().last().map_or(f64::NAN, |point| self.number(&point.0).unwrap_or(f64::NAN));
        let unit = X::KIND.units.first();
        let back = |si: f64| unit.map_or(si, |unit| (si - unit.offset) / unit.factor);
        let symbol = unit.map_or("", |unit| unit.symbol);
        Err(NotJudged::OutsideRange {
            of: of.to_owned(),
            unit: symbol,
            from: back(first),
            to: back(last),
            was: back(x),
        })
    }
}

/// A table with what has been read of it so far, for one reader: a loop that is solved step by step asks a thousand times.
#[derive(Debug)]
pub struct LookUp<'m, X: Measure, Y: Measure> {
    curve: &'m Curve<X, Y>,
    /// Not numbers until they are read.
    known: Vec<Cell<(f64, f64)>>,
}

impl<'m, X: Measure, Y: Measure> LookUp<'m, X, Y> {
    #[must_use]
    pub fn of(curve: &'m Curve<X, Y>) -> Self {
        Self { curve, known: vec![Cell::new((f64::NAN, f64::NAN)); curve.points().len()] }
    }
}

/// How a table is read between its points.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scale {
    Linear,
    /// Straight in the logarithm of the value.
    Log,
    /// Straight in both logarithms, as strength over cycles is drawn.
    LogLog,
}

impl Scale {
    fn between(self, (x0, y0): (f64, f64), (x1, y1): (f64, f64), x: f64) -> f64 {
        let straight = (x - x0) / (x1 - x0);
        let share = match self {
            Self::LogLog if x0 > 0.0 => (x / x0).ln() / (x1 / x0).ln(),
            _ => straight,
        };
        match self {
            Self::Log | Self::LogLog if y0 > 0.0 && y1 > 0.0 => (y0.ln() + share * (y1.ln() - y0.ln())).exp(),
            _ => y0 + share * (y1 - y0),
        }
    }
}
