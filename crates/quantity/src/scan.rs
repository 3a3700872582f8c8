//! The shape of a written value, without a regular expression and without allocation. What is refused here the schema
//! pattern refuses too; what only the numbers decide (bounds, a range upside down) is settled in `read`.

use crate::measure::{Kind, Unit};
use crate::misread::{Snag, What};
use crate::read::Stated;
use std::ops::Range;

/// Blanks that may stand between the parts: data sheets bring no-break and narrow ones along.
pub(crate) const BLANKS: [char; 3] = [' ', '\u{a0}', '\u{202f}'];
pub(crate) const PLUS_MINUS: [&str; 3] = ["±", "+/-", "+-"];
/// Signs that the trade writes right at the number; letters need a blank.
pub(crate) const HUGGING: [&str; 4] = ["°", "%", "‰", "\""];

/// Negative numbers have the right shape: the measure goes below zero, or its scale does (°C).
pub(crate) fn signed(kind: &Kind) -> bool {
    kind.bounds.least < 0.0 || scaled(kind)
}

/// A scale with a zero of its own, as °C has; a share of such a number means nothing.
pub(crate) fn scaled(kind: &Kind) -> bool {
    kind.units.iter().any(|unit| unit.offset != 0.0)
}

/// `± 5 %` is a share of the value, except where per cent is the unit itself: there it means points.
pub(crate) fn shares(kind: &Kind) -> bool {
    !scaled(kind) && !kind.units.iter().any(|unit| unit.symbol == "%")
}

/// One value as it stands in the text.
#[derive(Debug, Clone)]
pub(crate) struct Part {
    pub(crate) number: f64,
    pub(crate) unit: Option<&'static Unit>,
    pub(crate) tolerance: Option<Tolerance>,
    pub(crate) basis: Option<Stated>,
    pub(crate) number_at: Range<usize>,
    /// Number and unit.
    pub(crate) value_at: Range<usize>,
}

#[derive(Debug, Clone)]
pub(crate) struct Tolerance {
    pub(crate) number: f64,
    pub(crate) unit: ToleranceUnit,
    pub(crate) at: Range<usize>,
}

#[derive(Debug, Clone, Copy)]
pub(crate) enum ToleranceUnit {
    Same,
    Share,
    Own(&'static Unit),
}

/// How a value's unit may be left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Place {
    Alone,
    /// `-30 to 8 °C`: the unit may come with the other end.
    LowEnd,
}

pub(crate) struct Scan<'t> {
    text: &'t str,
    at: usize,
    /// The number read last, for the words of an error.
    number_at: Range<usize>,
}

pub(crate) fn single(text: &str, kind: &'static Kind) -> Result<Part, Snag> {
    let mut scan = Scan::new(text);
    let part = scan.value(kind, Place::Alone)?;
    scan.finish()?;
    Ok(part)
}

/// The second is missing where a single value stands.
pub(crate) fn range(text: &str, kind: &'static Kind) -> Result<(Part, Option<Part>), Snag> {
    let mut scan = Scan::new(text);
    let low = scan.value(kind, Place::LowEnd)?;
    let high = if scan.to() { Some(scan.value(kind, Place::Alone)?) } else { None };
    scan.finish()?;
    Ok((low, high))
}

impl<'t> Scan<'t> {
    pub(crate) fn new(text: &'t str) -> Self {
        let mut scan = Self { text, at: 0, number_at: 0..0 };
        scan.blanks();
        scan
    }

    pub(crate) fn rest(&self) -> &'t str {
        self.text.get(self.at..).unwrap_or("")
    }

    pub(crate) fn at(&self) -> usize {
        self.at
    }

    /// Skips blanks; true if there were any.
    pub(crate) fn blanks(&mut self) -> bool {
        let rest = self.rest();
        let left = rest.trim_start_matches(BLANKS);
        self.at += rest.len() - left.len();
        left.len() < rest.len()
    }

    pub(crate) fn eat(&mut self, word: &str) -> bool {
        let found = self.rest().starts_with(word);
        if found {
            self.at += word.len();
        }
        found
    }

    /// Skips decimal digits and counts them.
    pub(crate) fn digits(&mut self) -> usize {
        let count = self.rest().bytes().take_while(u8::is_ascii_digit).count();
        self.at += count;
        count
    }

    pub(crate) fn finish(&mut self) -> Result<(), Snag> {
        self.blanks();
        if self.rest().is_empty() { Ok(()) } else { Err(self.snag(What::Rest, self.at..self.text.len())) }
    }

    pub(crate) fn snag(&self, what: What, span: Range<usize>) -> Snag {
        Snag { what, span, number: self.number_at.clone() }
    }

    fn here(&self, what: What) -> Snag {
        self.snag(what, self.at..self.text.len())
    }

    /// ` to ` between two ends.
    fn to(&mut self) -> bool {
        let start = self.at;
        let found = self.blanks() && self.eat("to") && self.blanks();
        if !found {
            self.at = start;
        }
        found
    }

    fn value(&mut self, kind: &'static Kind, place: Place) -> Result<Part, Snag> {
        let start = self.at;
        let negative = self.sign();
        if self.at > start && self.rest().starts_with(BLANKS) {
            return Err(self.snag(What::SpacedSign, start..self.at));
        }
        let size = self.number(kind.whole, start)?;
        if negative && !signed(kind) {
            return Err(self.snag(What::Negative, start..self.at));
        }
        let unit = self.unit(kind, place)?;
        let mut part = Part {
            number: if negative { -size } else { size },
            unit,
            tolerance: None,
            basis: None,
            number_at: self.number_at.clone(),
            value_at: start..self.at,
        };
        if unit.is_some() || kind.bare {
            self.tail(kind, &mut part)?;
        }
        Ok(part)
    }

    fn sign(&mut self) -> bool {
        self.eat("-") || self.eat("−") || {
            self.eat("+");
            false
        }
    }

    /// An unsigned number; `start` is where its sign stands, for the error.
    fn number(&mut self, whole: bool, start: usize) -> Result<f64, Snag> {
        let first = self.at;
        let before = self.digits();
        if whole {
            self.number_at = start..self.at;
            if before > 0 && self.rest().starts_with(['.', 'e', 'E']) {
                return Err(self.snag(What::NotWhole, start..self.text.len()));
            }
        } else {
            let after = if self.eat(".") { self.digits() } else { 0 };
            if before + after == 0 {
                self.at = first;
            } else {
                self.exponent();
            }
        }
        if self.at == first {
            self.at = start;
            return Err(self.here(What::NoNumber));
        }
        self.number_at = start..self.at;
        let number = self.text.get(first..self.at).and_then(|digits| digits.parse().ok());
        number.ok_or_else(|| self.snag(What::NoNumber, start..self.at))
    }

    fn exponent(&mut self) {
        let start = self.at;
        if self.eat("e") || self.eat("E") {
            let _signed = self.eat("+") || self.eat("-");
            if self.digits() == 0 {
                self.at = start;
            }
        }
    }

    fn unit(&mut self, kind: &'static Kind, place: Place) -> Result<Option<&'static Unit>, Snag> {
        let end_of_number = self.at;
        let apart = self.blanks();
        if let Some((unit, spelling)) = spelled(self.rest(), kind.units) {
            let span = self.at..self.at + spelling.len();
            if !apart && !HUGGING.contains(&spelling) {
                return Err(self.snag(What::NoBlank, span));
            }
            self.at = span.end;
            return Ok(Some(unit));
        }
        let snag = self.here(What::Unit);
        self.at = end_of_number;
        if kind.bare || (place == Place::LowEnd && self.clone_at().to()) { Ok(None) } else { Err(snag) }
    }

    fn clone_at(&self) -> Scan<'t> {
        Scan { text: self.text, at: self.at, number_at: self.number_at.clone() }
    }

    /// A tolerance and a basis, each at most once, in either order.
    fn tail(&mut self, kind: &'static Kind, part: &mut Part) -> Result<(), Snag> {
        loop {
            let start = self.at;
            self.blanks();
            let from = self.at;
            if part.tolerance.is_none() && PLUS_MINUS.iter().any(|sign| self.eat(sign)) {
                part.tolerance = Some(self.tolerance(kind, from)?);
            } else if part.basis.is_none() && self.rest().starts_with('(') {
                let stated = Stated::ALL.into_iter().find(|stated| self.eat(stated.written()));
                part.basis = Some(stated.ok_or_else(|| self.here(What::Basis))?);
            } else {
                self.at = start;
                return Ok(());
            }
        }
    }

    fn tolerance(&mut self, kind: &'static Kind, from: usize) -> Result<Tolerance, Snag> {
        self.blanks();
        let start = self.at;
        let number = self.number(false, start).map_err(|snag| Snag { what: What::ToleranceNumber, ..snag })?;
        let end_of_number = self.at;
        let apart = self.blanks();
        let own = spelled(self.rest(), kind.units).map(|(unit, spelling)| (ToleranceUnit::Own(unit), spelling));
        let share = || (shares(kind) && self.rest().starts_with('%')).then_some((ToleranceUnit::Share, "%"));
        let unit = match own.or_else(share) {
            Some((_, spelling)) if !apart && !HUGGING.contains(&spelling) => {
                return Err(self.snag(What::NoBlank, self.at..self.at + spelling.len()));
            }
            Some((unit, spelling)) => {
                self.at += spelling.len();
                unit
            }
            None => {
                let left = self.rest();
                if !left.is_empty() && !left.starts_with('(') && !left.starts_with("to") {
                    return Err(self.here(What::ToleranceUnit));
                }
                self.at = end_of_number;
                ToleranceUnit::Same
            }
        };
        Ok(Tolerance { number, unit, at: from..self.at })
    }
}

/// The longest spelling of one of the units that starts the text and ends at a boundary.
pub(crate) fn spelled(text: &str, units: &'static [Unit]) -> Option<(&'static Unit, &'static str)> {
    let mut found: Option<(&'static Unit, &'static str)> = None;
    for unit in units {
        for spelling in std::iter::once(&unit.symbol).chain(unit.also) {
            let longer = found.is_none_or(|(_, best)| spelling.len() > best.len());
            if longer && text.strip_prefix(spelling).is_some_and(ends) {
                found = Some((unit, spelling));
            }
        }
    }
    found
}

/// Nothing that could belong to the unit stands here.
fn ends(after: &str) -> bool {
    after.chars().next().is_none_or(|next| BLANKS.contains(&next) || matches!(next, '±' | '+' | '('))
}
