//! The numbers of one machine as columns: value, tolerance, basis and unit by node. Another row over the same structure is
//! another machine of the same make.

use document::NodeId;
use quantity::{Stated, Unit, Written};

/// What is written at each node that is asked for a number.
#[derive(Debug, Clone, Default)]
pub struct Row {
    /// SI; not a number where nothing stands.
    si: Vec<f64>,
    plus_minus: Vec<f32>,
    basis: Vec<Option<Stated>>,
    unit: Vec<Option<&'static Unit>>,
    /// Where `none` is written.
    none: Vec<NodeId>,
}

impl Row {
    /// With room for ids below `end`, all of them absent.
    pub(crate) fn absent(end: usize) -> Self {
        Self {
            si: vec![f64::NAN; end],
            plus_minus: vec![f32::NAN; end],
            basis: vec![None; end],
            unit: vec![None; end],
            none: Vec::new(),
        }
    }

    pub(crate) fn set(&mut self, id: NodeId, written: &Written) {
        let at = id.index();
        let Some(si) = self.si.get_mut(at) else { return };
        *si = written.si;
        #[expect(clippy::cast_possible_truncation, reason = "a tolerance of six digits is plenty")]
        let plus_minus = written.plus_minus.map_or(f32::NAN, |half| half as f32);
        self.plus_minus.get_mut(at).into_iter().for_each(|half| *half = plus_minus);
        self.basis.get_mut(at).into_iter().for_each(|basis| *basis = written.basis);
        self.unit.get_mut(at).into_iter().for_each(|unit| *unit = written.unit);
    }

    pub(crate) fn set_none(&mut self, id: NodeId) {
        self.none.push(id);
    }

    /// Whether it is said that there is no such thing.
    #[must_use]
    pub fn says_none(&self, id: NodeId) -> bool {
        self.none.contains(&id)
    }

    /// The SI number; none where nothing is written.
    #[must_use]
    pub fn si(&self, id: NodeId) -> Option<f64> {
        self.si.get(id.index()).copied().filter(|si| !si.is_nan())
    }

    /// The author's own unit; none for a bare number and where nothing is written.
    #[must_use]
    pub fn unit(&self, id: NodeId) -> Option<&'static Unit> {
        self.unit.get(id.index()).copied().flatten()
    }

    /// `(weighed)`, `(measured)`, `(label)`, `(guess)` as the author wrote it.
    #[must_use]
    pub fn stated(&self, id: NodeId) -> Option<Stated> {
        self.basis.get(id.index()).copied().flatten()
    }

    /// Half width in SI units as written with `±`.
    #[must_use]
    pub fn plus_minus(&self, id: NodeId) -> Option<f64> {
        self.plus_minus.get(id.index()).copied().filter(|half| !half.is_nan()).map(f64::from)
    }

    /// Half width in SI units as written with `±`, or by the default spread of the stated basis.
    #[must_use]
    pub fn tolerance(&self, id: NodeId) -> Option<f64> {
        self.plus_minus(id).or_else(|| Some(self.si(id)?.abs() * self.stated(id)?.spread()))
    }
}
