//! From text to SI number, tolerance, basis and the author's own unit.

use crate::designation::read_wire;
use crate::m;
use crate::measure::{Kind, Measure, Unit};
use crate::misread::{self, Misread, MisreadClass, Snag, What};
use crate::scan::{self, Part, ToleranceUnit};
use crate::types::Quantity;

/// One value as written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Written {
    /// In SI base units.
    pub si: f64,
    /// Half width in SI, absolute (`± 5 %` is converted); of a temperature it is a difference.
    pub plus_minus: Option<f64>,
    pub basis: Option<Stated>,
    /// The author's unit; none for a bare number.
    pub unit: Option<&'static Unit>,
}

/// Where the author has a figure from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Stated {
    Weighed,
    Measured,
    Label,
    Guess,
}

impl Stated {
    pub const ALL: [Self; 4] = [Self::Weighed, Self::Measured, Self::Label, Self::Guess];

    /// Half width as a share of the value where no `±` stands. Common practice, no source.
    #[must_use]
    pub fn spread(self) -> f64 {
        match self {
            Self::Weighed | Self::Measured => 0.01,
            Self::Label => 0.10,
            Self::Guess => 0.20,
        }
    }

    /// As it stands behind a value.
    #[must_use]
    pub fn written(self) -> &'static str {
        match self {
            Self::Weighed => "(weighed)",
            Self::Measured => "(measured)",
            Self::Label => "(label)",
            Self::Guess => "(guess)",
        }
    }
}

/// Reads `41 kg ± 2 kg (weighed)`.
///
/// # Errors
/// Says what is wrong with the text and how it is written.
pub fn read(text: &str, kind: &'static Kind) -> Result<Written, Misread> {
    if kind == m::WireSize::KIND && text.to_ascii_uppercase().contains("AWG") {
        let wire = read_wire(text)?;
        return Ok(Written { si: wire.area.si(), plus_minus: None, basis: None, unit: None });
    }
    scan::single(text, kind)
        .and_then(|part| settle(&part, part.unit, kind))
        .map_err(|snag| misread::explain(text, kind, &snag, false))
}

/// Reads `-30 °C to 8 °C`, `-30 to 8 °C`, or one value that stands for both ends. A basis behind the range holds for
/// both ends.
///
/// # Errors
/// As [`read`]; and a low end above the high end.
pub fn read_range(text: &str, kind: &'static Kind) -> Result<(Written, Written), Misread> {
    ends(text, kind).map_err(|snag| misread::explain(text, kind, &snag, true))
}

fn ends(text: &str, kind: &'static Kind) -> Result<(Written, Written), Snag> {
    let (low, high) = scan::range(text, kind)?;
    let Some(high) = high else {
        let both = settle(&low, low.unit, kind)?;
        return Ok((both, both));
    };
    let mut first = settle(&low, low.unit.or(high.unit), kind)?;
    let second = settle(&high, high.unit, kind)?;
    if first.si > second.si {
        let span = low.value_at.start..high.value_at.end;
        let unit = if low.unit.is_none() { high.unit } else { None };
        // The words swap the two ends, so they need to know where the first one stops.
        return Err(Snag { what: What::UpsideDown { second: high.value_at.start, unit }, span, number: low.value_at });
    }
    first.basis = first.basis.or(second.basis);
    Ok((first, second))
}

/// Takes a number that stands without quotes and unit. Its span is empty: the whole number is meant.
///
/// # Errors
/// The measure wants a unit, a whole number, or one inside its bounds.
pub fn read_bare(number: f64, kind: &Kind) -> Result<Written, Misread> {
    let what = if !kind.bare {
        What::Unit
    } else if !number.is_finite() {
        What::NoNumber
    } else if kind.whole && number.fract() != 0.0 {
        What::NotWhole
    } else if let Some(outside) = outside(number, kind) {
        outside
    } else {
        return Ok(Written { si: number, plus_minus: None, basis: None, unit: None });
    };
    let text = number.to_string();
    let all = 0..text.len();
    let snag = Snag { what, span: if what == What::Unit { all.end..all.end } else { all.clone() }, number: all };
    // A bare number's bounds stand in the schema, so the schema refuses all of these.
    Err(Misread { span: 0..0, class: MisreadClass::Shape, ..misread::explain(&text, kind, &snag, false) })
}

/// The unit that the author wrote, of a value or a range.
#[must_use]
pub fn unit_of(text: &str, kind: &'static Kind) -> Option<&'static Unit> {
    let (low, high) = scan::range(text, kind).ok()?;
    high.map_or(low.unit, |high| high.unit)
}

fn settle(part: &Part, unit: Option<&'static Unit>, kind: &'static Kind) -> Result<Written, Snag> {
    let snag = |what, span| Snag { what, span, number: part.number_at.clone() };
    let (factor, offset) = unit.map_or((1.0, 0.0), |unit| (unit.factor, unit.offset));
    let si = part.number * factor + offset;
    if !si.is_finite() {
        return Err(snag(What::TooLarge, part.number_at.clone()));
    }
    if let Some(what) = outside(si, kind) {
        return Err(snag(what, part.value_at.clone()));
    }
    let plus_minus = part.tolerance.as_ref().map(|tolerance| match tolerance.unit {
        ToleranceUnit::Same => tolerance.number * factor,
        ToleranceUnit::Own(unit) => tolerance.number * unit.factor,
        ToleranceUnit::Share => tolerance.number / 100.0 * si.abs(),
    });
    if let (Some(half), Some(tolerance)) = (plus_minus, &part.tolerance) {
        if !half.is_finite() {
            return Err(snag(What::TooLarge, tolerance.at.clone()));
        }
        if kind.bounds.least >= 0.0 && half > si * (1.0 + SLACK) {
            return Err(snag(What::WideTolerance, tolerance.at.clone()));
        }
    }
    Ok(Written { si, plus_minus, basis: part.basis, unit })
}

/// Relative room at a bound, so that 360 ° is not above 2π by a rounding.
const SLACK: f64 = 1e-12;

impl Kind {
    /// Whether a field of this kind would take an SI number.
    #[must_use]
    pub fn takes(&self, si: f64) -> bool {
        outside(si, self).is_none()
    }
}

fn outside(si: f64, kind: &Kind) -> Option<What> {
    let bounds = kind.bounds;
    let least = bounds.least - SLACK * if bounds.least.is_finite() { bounds.least.abs() } else { 0.0 };
    let most = bounds.most + SLACK * if bounds.most.is_finite() { bounds.most.abs() } else { 0.0 };
    if si < least || (bounds.above_least && si <= bounds.least) {
        Some(What::Below)
    } else if si > most {
        Some(What::Above)
    } else {
        None
    }
}
