//! Curves and bars of a machine as plain data. All numbers are in SI units; where a curve has a hole it is not a number.

use machine::NotJudged;
use quantity::{Measure, Unit};

/// One drawing, or why there is none.
#[derive(Debug, Clone)]
pub struct Drawing {
    /// Names of the spec may stand in it, as in all texts here.
    pub title: String,
    pub found: Result<Picture, NotJudged>,
}

#[derive(Debug, Clone)]
pub enum Picture {
    Chart(Chart),
    Bars(Bars),
}

/// Lines and marks over one figure.
#[derive(Debug, Clone)]
pub struct Chart {
    /// What it shows and how to read it.
    pub shows: String,
    pub x: Axis,
    pub y: Axis,
    pub lines: Vec<Line>,
    pub marks: Vec<Mark>,
    /// What is left out, and why.
    pub missing: Vec<(String, NotJudged)>,
}

#[derive(Debug, Clone)]
pub struct Axis {
    pub name: &'static str,
    pub unit: &'static Unit,
    /// Each step is ten times the one before.
    pub tenfold: bool,
    /// What lies beyond is of no interest.
    pub most: Option<f64>,
}

#[derive(Debug, Clone)]
pub struct Line {
    pub name: String,
    /// Its key figures.
    pub says: String,
    /// What others are held against.
    pub limit: bool,
    pub points: Vec<(f64, f64)>,
}

#[derive(Debug, Clone)]
pub struct Mark {
    pub name: String,
    pub says: String,
    pub at: (f64, f64),
}

/// Lengths end to end, against limits.
#[derive(Debug, Clone)]
pub struct Bars {
    pub shows: String,
    pub axis: Axis,
    pub bars: Vec<Bar>,
    pub missing: Vec<(String, NotJudged)>,
}

#[derive(Debug, Clone)]
pub struct Bar {
    pub name: String,
    /// What it is made of, from its beginning on.
    pub parts: Vec<(&'static str, f64)>,
    /// Counted from its beginning.
    pub limits: Vec<(&'static str, f64)>,
    pub says: String,
}

/// Of a ratio.
const PLAIN: Unit = Unit { symbol: "", also: &[], factor: 1.0, offset: 0.0 };

impl Axis {
    /// In the unit of that symbol, or in the measure's own.
    #[must_use]
    pub fn of<M: Measure>(name: &'static str, symbol: &str) -> Self {
        let units = M::KIND.units;
        let unit = units.iter().find(|unit| unit.symbol == symbol).or(units.first()).unwrap_or(&PLAIN);
        Self { name, unit, tenfold: false, most: None }
    }

    #[must_use]
    pub fn plain(name: &'static str) -> Self {
        Self { name, unit: &PLAIN, tenfold: false, most: None }
    }

    /// A number as it stands on the axis.
    #[must_use]
    pub fn shown(&self, si: f64) -> f64 {
        (si - self.unit.offset) / self.unit.factor
    }
}
