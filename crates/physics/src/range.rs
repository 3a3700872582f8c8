//! A formula asked outside the range in which it is known.

/// What was asked, where it is known, and what it was asked for; all in the named unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OutsideRange {
    pub of: &'static str,
    pub unit: &'static str,
    pub from: f64,
    pub to: f64,
    pub was: f64,
}

/// `was` if it lies in `from..=to`, else the reason.
pub fn within(of: &'static str, unit: &'static str, from: f64, to: f64, was: f64) -> Result<f64, OutsideRange> {
    if was >= from && was <= to { Ok(was) } else { Err(OutsideRange { of, unit, from, to, was }) }
}
