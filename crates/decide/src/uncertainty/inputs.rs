//! Which inputs are drawn, and how widely: what the author wrote with `±` or a basis, and figures of an entry that states
//! its `spread`. The schema says what each written text is a number of.

use machine::{Document, Machine, NodeId, Reads};
use quantity::{Bounds, Kind, m};
use serde_json::Value;
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
pub(super) fn drawn(document: &Document, reads: &Reads) -> Drawn {
    let schema = machine::machine_schema();
    let mut walk = Walk { schema: &schema, found: BTreeMap::new(), exact: BTreeSet::new() };
    walk.node(&document.root, &schema, &Above::default());
    let read = |moved: &Moved| reads.has(moved.node);
    let own = |node: &NodeId| document.file(document.place(*node).file).is_some_and(|file| !file.built_in);
    Drawn {
        inputs: walk.found.into_values().filter(|input| input.moved.iter().any(read)).collect(),
        exact: walk.exact.into_iter().filter(|node| reads.has(*node) && own(node)).collect(),
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

/// What stands above a node.
#[derive(Clone, Default)]
struct Above<'a> {
    /// `spread` of the nearest entry that states one.
    spread: Option<f64>,
    table: Option<NodeId>,
    how_to_measure: Option<&'a str>,
}

struct Walk<'a> {
    schema: &'a Value,
    found: BTreeMap<NodeId, Input>,
    /// Numbers without a width.
    exact: BTreeSet<NodeId>,
}

impl<'a> Walk<'a> {
    /// Follows the text and the schema side by side.
    fn node(&mut self, node: &machine::Node, schema: &'a Value, above: &Above<'a>) {
        let mut above = above.clone();
        if let Some(how) = schema.get("how_to_measure").and_then(Value::as_str) {
            above.how_to_measure = Some(how);
        }
        if let Some(target) = schema.get("$ref").and_then(Value::as_str)
            && let Some(meant) = target.strip_prefix('#').and_then(|pointer| self.schema.pointer(pointer))
        {
            self.node(node, meant, &above);
        }
        if let Some(condition) = schema.get("if") {
            let branch = if holds(node, condition) { "then" } else { "else" };
            if let Some(branch) = schema.get(branch) {
                self.node(node, branch, &above);
            }
        }
        for part in schema.get("allOf").and_then(Value::as_array).into_iter().flatten() {
            self.node(node, part, &above);
        }
        if let Some(kind) = schema.get("measure").and_then(Value::as_str).and_then(kind_called)
            && let Some(text) = node.text()
        {
            self.number(node.id, text, kind, schema.get("range").is_some(), &above);
        }
        if let Some(items) = schema.get("items") {
            node.items()
                .iter()
                .for_each(|item| self.node(item, items, &Above { how_to_measure: None, ..above.clone() }));
        }
        let spread = node.get("spread").and_then(machine::Node::text);
        if let Some(spread) = spread.and_then(|text| quantity::read(text, share()).ok()) {
            above.spread = Some(spread.si);
        }
        let table =
            schema.get("patternProperties").and_then(Value::as_object).and_then(|points| points.values().next());
        for entry in node.entries() {
            let named = schema.get("properties").and_then(|fields| fields.get(&*entry.key));
            let inner = match (named, table) {
                (Some(field), _) => field,
                (None, Some(point)) => point,
                (None, None) => match schema.get("additionalProperties") {
                    Some(thing @ Value::Object(_)) => thing,
                    _ => continue,
                },
            };
            let table = if named.is_none() && table.is_some() { Some(node.id) } else { None };
            let how_to_measure = if table.is_some() { above.how_to_measure } else { None };
            self.node(&entry.value, inner, &Above { table, how_to_measure, ..above.clone() });
        }
    }

    fn number(&mut self, node: NodeId, text: &str, kind: &'static Kind, range: bool, above: &Above<'_>) {
        // A true range is covered by the cases, and counts are whole.
        let Ok(written) = quantity::read(text, kind) else { return };
        if kind.whole {
            return;
        }
        let by = |share: f64| if kind == temperature() { share * KELVIN_FOR_ALL } else { share * written.si.abs() };
        // A table of multiples scales a figure that is drawn itself, and is 1 where that figure was found.
        let multiple = above.table.is_some() && kind == factor();
        let (width, half) = match (written.plus_minus, written.basis, above.spread) {
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
        let moved = |node| Moved { node, si: written.si, half, bounds: kind.bounds };
        let own = matches!(width, Width::PlusMinus | Width::Stated(_));
        // Points of a table with a width of their own were found one by one.
        let at = above.table.filter(|_| !own).unwrap_or(node);
        let value = (at == node).then_some((written.si, half, kind));
        let how_to_measure = above.how_to_measure.map(str::to_owned);
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
}

/// The conditions that the schema makes: the word under `kind`, or a text in place of a block.
fn holds(node: &machine::Node, condition: &Value) -> bool {
    let kind = condition.pointer("/properties/kind/const").and_then(Value::as_str);
    match kind {
        Some(kind) => node.get("kind").and_then(machine::Node::text) == Some(kind),
        None if condition.get("required").is_some() => false,
        None => node.text().is_some(),
    }
}

fn kind_called(key: &str) -> Option<&'static Kind> {
    m::ALL.iter().find(|kind| kind.key == key).copied()
}
fn share() -> &'static Kind {
    <m::Percentage as quantity::Measure>::KIND
}
fn factor() -> &'static Kind {
    <m::Factor as quantity::Measure>::KIND
}
fn temperature() -> &'static Kind {
    <m::Temperature as quantity::Measure>::KIND
}
