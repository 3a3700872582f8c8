//! Which inputs are drawn, and how widely: what the author wrote with `±` or a basis, and figures of an entry that states
//! its `spread`. The schema says what each written text is a number of.

use machine::{Asks, Document, Field, Machine, NodeId, Reads, how_to_measure};
use quantity::{Bounds, Kind, m};
use std::collections::{BTreeMap, BTreeSet};

/// What the width of an input rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Width {
    /// `±`, written beside the value.
    PlusMinus,
    /// `(weighed)`, `(measured)`, `(label)`, `(guess)` without a `±`.
    Stated(quantity::Stated),
    /// The `spread` of the material or fluid that the figure belongs to, as a share.
    Spread(f64),
}

/// One number of the spec that takes a drawn value, with the others that move with it.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// A table stands for all of its points, which are drawn as one.
    pub node: NodeId,
    pub width: Width,
    /// The value as written and its half width, in SI; none for a table.
    pub value: Option<(f64, f64, &'static Kind)>,
    /// How to find it out in the shop.
    pub how_to_measure: Option<String>,
    pub(super) moved: Vec<Moved>,
}

/// A number that follows a draw.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Moved {
    pub node: NodeId,
    pub si: f64,
    half: f64,
    bounds: Bounds,
}

impl Moved {
    /// The number at `z` standard deviations. A half width is two of them (JCGM 100:2008, 6.3.3: coverage factor 2).
    pub fn at(&self, z: f64) -> f64 {
        let drawn = self.si + z * self.half / 2.0;
        // What cannot be is not drawn: a length stays above zero by a hundredth of what was written.
        let least = if self.bounds.least.is_finite() {
            self.bounds.least + 0.01 * (self.si - self.bounds.least)
        } else {
            f64::NEG_INFINITY
        };
        drawn.clamp(least.min(self.si), self.bounds.most.max(self.si))
    }
}

/// Half width in K for a share of 100 % of a temperature that carries no `±`: of an absolute temperature a share means
/// nothing. `(measured)` is then 0.5 K and `(guess)` 10 K. Common practice, no source.
pub const KELVIN_FOR_ALL: f64 = 50.0;

/// What is drawn, and what might have been.
pub(super) struct Drawn {
    pub inputs: Vec<Input>,
    /// Figures of the author's own files that have no width.
    pub exact: Vec<NodeId>,
}

/// All numbers that the checks read, drawn or exact, in the order of their nodes.
pub(super) fn drawn(document: &Document, machine: &Machine, reads: &Reads) -> Drawn {
    let fields = machine.fields().all().iter();
    let spread =
        |field: &Field| Some((field.parent, machine.row().si(field.node).filter(|_| field.field == "spread")?));
    let spreads = fields.clone().filter_map(spread).collect();
    let mut all = All { machine, spreads, found: BTreeMap::new(), exact: BTreeSet::new() };
    fields.for_each(|field| all.take(field));
    let read = |moved: &Moved| reads.has(moved.node);
    let own = |node: &NodeId| document.file(document.place(*node).file).is_some_and(|file| !file.built_in);
    Drawn {
        inputs: all.found.into_values().filter(|input| input.moved.iter().any(read)).collect(),
        exact: all.exact.into_iter().filter(|node| reads.has(*node) && own(node)).collect(),
    }
}

/// The built-in figures that the checks took for what is not given: nobody has said how far off they may be.
pub(super) fn assumed(document: &Document, machine: &Machine, reads: &Reads, drawn: &[Input]) -> Vec<NodeId> {
    let mut figures: Vec<NodeId> = reads
        .assumed
        .iter()
        .filter_map(|assumption| match assumption {
            machine::Assumption::Figure { instead, .. } => Some(*instead),
            machine::Assumption::Word { .. } | machine::Assumption::AtMost { .. } => None,
        })
        .filter(|node| machine.absent(*node).is_none() && !document.text(node.node()).is_empty())
        .filter(|node| !drawn.iter().any(|input| input.moved.iter().any(|moved| moved.node == *node)))
        .collect();
    figures.sort_unstable();
    figures.dedup();
    figures
}

struct All<'a> {
    machine: &'a Machine,
    /// What entries state as their spread.
    spreads: BTreeMap<NodeId, f64>,
    found: BTreeMap<NodeId, Input>,
    /// Numbers without a width.
    exact: BTreeSet<NodeId>,
}

impl All<'_> {
    /// What is written there, if it is a number. Points of a table are those that stand under its own numbers.
    fn take(&mut self, field: &Field) {
        let fields = self.machine.fields();
        let table = fields.of(field.parent).filter(|parent| parent.asks == Asks::Table).map(|parent| parent.node);
        let (key, range) = match field.asks {
            Asks::Number(key) => (key, false),
            Asks::Range(key) => (key, true),
            _ => return,
        };
        let row = self.machine.row();
        let (Some(kind), Some(si)) = (m::named(key), row.si(field.node)) else { return };
        // A true range is covered by the cases, and counts are whole.
        if kind.whole || range && row.si(field.node.upper()) != Some(si) {
            return;
        }
        let node = field.node;
        let by = |share: f64| if kind == temperature() { share * KELVIN_FOR_ALL } else { share * si.abs() };
        // A table of multiples scales a figure that is drawn itself, and is 1 where that figure was found.
        let multiple = table.is_some() && kind == factor();
        let (width, half) = match (row.plus_minus(node), row.stated(node), self.spread(field)) {
            (Some(half), _, _) => (Width::PlusMinus, half),
            (None, Some(stated), _) => (Width::Stated(stated), by(stated.spread())),
            (None, None, Some(spread)) if !multiple => (Width::Spread(spread), by(spread)),
            _ => {
                self.exact.insert(node);
                return;
            }
        };
        if half == 0.0 {
            return;
        }
        let moved = |node| Moved { node, si, half, bounds: kind.bounds };
        let own = matches!(width, Width::PlusMinus | Width::Stated(_));
        // Points of a table with a width of their own were found one by one.
        let at = table.filter(|_| !own).unwrap_or(node);
        let value = (at == node).then_some((si, half, kind));
        let how_to_measure = how_to_measure(field.owner, field.field).map(str::to_owned);
        let new = || Input { node: at, width, value, how_to_measure, moved: Vec::new() };
        let input = self.found.entry(at).or_insert_with(new);
        let mut add = |id: NodeId| {
            // One node may be reached by several ways: `like` and aliases share it.
            if !input.moved.iter().any(|known| known.node == id) {
                input.moved.push(moved(id));
            }
        };
        add(node);
        if range {
            add(node.upper());
        }
    }

    /// `spread` of the nearest entry above that states one.
    fn spread(&self, field: &Field) -> Option<f64> {
        let fields = self.machine.fields();
        let above = std::iter::successors(Some(field.parent), |parent| fields.of(*parent).map(|field| field.parent));
        above.into_iter().find_map(|parent| self.spreads.get(&parent).copied())
    }
}

fn factor() -> &'static Kind {
    <m::Factor as quantity::Measure>::KIND
}
fn temperature() -> &'static Kind {
    <m::Temperature as quantity::Measure>::KIND
}
