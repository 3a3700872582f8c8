//! What can be turned: one number, or numbers of one thing that stand in several places and change together.

use super::bench::{Bench, Input};
use super::change::Change;
use super::search::{Side, cut, in_unit, sides, to_si};
use super::sizes::{digits, round, series};
use engine::Finding;
use machine::{Asks, Document, Machine, NodeId, Setting, WhatIf, least_plausible, only_milder, reach, setting};
use quantity::{End, Kind, Measure, Quantity, Unit, m, rewritten, unit_of};

/// One place in the text.
#[derive(Debug)]
struct Slot<'a> {
    input: &'a Input,
    /// The number's own slot.
    node: NodeId,
    end: End,
    /// The other slot, where one text stands for both ends of a range.
    also: Option<NodeId>,
    unit: Option<&'static Unit>,
}

impl<'a> Slot<'a> {
    fn new(input: &'a Input, node: NodeId, end: End, also: Option<NodeId>, kind: &'static Kind) -> Self {
        Self { input, node, end, also, unit: unit_of(&input.text, kind) }
    }
}

/// A number and all places where it stands.
#[derive(Debug)]
pub(super) struct Dial<'a> {
    slots: Vec<Slot<'a>>,
    /// For a number that is not given: the map that lacks it, and the field.
    lacked: Option<(NodeId, &'static str)>,
    pub node: NodeId,
    pub kind: &'static Kind,
    pub from: f64,
    pub limit_of_use: bool,
}

/// How many times more or less a number is tried that stands nowhere.
const REACH: f64 = 4.0;

/// A number that can be had, and the texts that then say it.
#[derive(Debug)]
pub(super) struct Size {
    pub to: f64,
    pub changes: Vec<Change>,
}

impl<'a> Dial<'a> {
    fn new(slot: Slot<'a>, kind: &'static Kind, from: f64) -> Self {
        let limit_of_use = slot.input.setting == Setting::LimitOfUse;
        Self { node: slot.node, slots: vec![slot], lacked: None, kind, from, limit_of_use }
    }

    /// A number that a check asked for and did not get, if it is the builder's to choose.
    pub fn lacked(machine: &Machine, document: &Document, absent: NodeId, typical: f64) -> Option<Self> {
        let field = machine.absent(absent)?;
        let map = field.parent;
        let path = format!("{}.{}", document.path(map), field.field);
        let free = machine.written(absent) == map && setting(&path) == Setting::Choice && typical.is_finite();
        let kind = machine.fields().kind(absent)?;
        let lacked = Some((map, field.field));
        free.then(|| Self { slots: Vec::new(), lacked, node: absent, kind, from: typical, limit_of_use: false })
    }

    /// It stands nowhere.
    pub fn is_lacked(&self) -> bool {
        self.lacked.is_some()
    }

    pub fn set(&self, what_if: &mut WhatIf, changed: &mut Vec<NodeId>, si: f64) {
        if self.lacked.is_some() {
            what_if.set(self.node, si);
            changed.push(self.node);
        }
        for node in self.slots.iter().flat_map(|slot| [Some(slot.node), slot.also]).flatten() {
            what_if.set(node, si);
            changed.push(node);
        }
    }

    /// Its two sides, as far as everything still fits.
    pub fn sides(&self, bench: &Bench<'_>) -> [Side; 2] {
        let paths = || self.slots.iter().map(|slot| slot.input.path.as_str());
        let reach = paths().map(reach).reduce(f64::min).unwrap_or(REACH);
        let least = paths().map(least_plausible).fold(f64::NEG_INFINITY, f64::max);
        let fits = |si: f64| {
            let mut what_if = WhatIf::default();
            self.set(&mut what_if, &mut Vec::new(), si);
            bench.fits(bench.machine, &what_if)
        };
        let only_milder = paths().any(only_milder);
        sides(self.from, self.kind, reach, least).map(|mut side| {
            if only_milder && side.up {
                side.steps.clear();
            }
            cut(side, &fits)
        })
    }

    /// The next size that can be had at or beyond `met`.
    pub fn size(&self, bench: &Bench<'_>, met: f64, up: bool, strictly: bool) -> Option<Size> {
        if let Some((map, field)) = self.lacked {
            let unit = self.kind.units.first();
            let number = round(in_unit(met, unit), up, strictly, series(self.kind, field, ""), std::iter::empty());
            let text = format!("{} {}", digits(number), unit.map_or("", |unit| unit.symbol)).trim_end().to_owned();
            let to = super::bench::number(&text, self.kind)?;
            return Some(Size { to, changes: vec![Change::Added { map, field, kind: self.kind, to, text }] });
        }
        if let Some(gauge) = self.gauge(met, up, strictly) {
            return Some(gauge);
        }
        let first = self.slots.first()?;
        let field = first.input.path.rsplit('.').next().unwrap_or("");
        let symbol = first.unit.map_or("", |unit| unit.symbol);
        let had = bench.stocked(field).into_iter().map(|si| in_unit(si, first.unit));
        let series = series(self.kind, &first.input.path, symbol);
        let to = to_si(round(in_unit(met, first.unit), up, strictly, series, had), first.unit);
        if let Some(gauge) = self.gauge_at_hand(met, to) {
            return Some(gauge);
        }
        let change = |slot: &Slot<'_>| {
            let number = digits(in_unit(to, slot.unit));
            let text = rewritten(&slot.input.text, self.kind, slot.end, &number)?;
            Some(Change::Number { node: slot.node, kind: self.kind, from: self.from, met, to, text })
        };
        let changes: Option<Vec<Change>> = self.slots.iter().map(change).collect();
        Some(Size { to, changes: changes? })
    }
}

/// Wires by their gauge.
impl Dial<'_> {
    /// The next one at or beyond `met`, where the author writes a wire so.
    fn gauge(&self, met: f64, up: bool, strictly: bool) -> Option<Size> {
        let is_one = |slot: &Slot<'_>| quantity::read_wire(&slot.input.text).is_ok_and(|wire| wire.gauge.is_some());
        if self.kind != m::WireSize::KIND || !self.slots.iter().all(is_one) {
            return None;
        }
        let beyond = |metal: f64| {
            let away = if up { metal - met } else { met - metal };
            away > 0.0 || !strictly && away == 0.0
        };
        let sold =
            |(name, _): &(String, f64)| quantity::read_wire(name).ok().and_then(|wire| wire.gauge).is_some_and(sold);
        let sizes = quantity::gauges().map(|(name, metal)| (name, metal.si())).filter(sold);
        let (text, to) =
            sizes.filter(|(_, metal)| beyond(*metal)).min_by(|a, b| (a.1 - met).abs().total_cmp(&(b.1 - met).abs()))?;
        Some(self.named(met, &text, to))
    }

    /// A size at hand that is a gauge, where the author writes a cross-section.
    fn gauge_at_hand(&self, met: f64, to: f64) -> Option<Size> {
        let is_it = |(_, metal): &(String, f64)| (metal / to - 1.0).abs() < 1e-9;
        let mut sizes = quantity::gauges().map(|(name, metal)| (name, metal.si()));
        let (text, to) = sizes.find(is_it).filter(|_| self.kind == m::WireSize::KIND)?;
        Some(self.named(met, &text, to))
    }

    fn named(&self, met: f64, text: &str, to: f64) -> Size {
        let (kind, from) = (self.kind, self.from);
        let change = |slot: &Slot<'_>| Change::Number { node: slot.node, kind, from, met, to, text: text.to_owned() };
        Size { to, changes: self.slots.iter().map(change).collect() }
    }
}

/// Stranded wire comes in even gauges, and in each below two (common practice).
fn sold(gauge: i8) -> bool {
    gauge < 2 || gauge % 2 == 0
}

/// All numbers of the builder's own files that a finding has read and that are the builder's to choose or to promise.
pub(super) fn dials<'a>(bench: &'a Bench<'_>, finding: &Finding) -> Vec<Dial<'a>> {
    let read = |node: NodeId| finding.reads.has(node);
    let mut dials = Vec::new();
    let mut turned: Vec<NodeId> = Vec::new();
    for (node, input) in bench.inputs() {
        let together = bench.together(node);
        let any = |node: &NodeId| read(*node) || read(node.upper());
        if !input.is_free() || turned.contains(&node) || !together.iter().any(any) {
            continue;
        }
        match input.asks {
            Asks::Number(measure) => {
                let Some(kind) = m::named(measure) else { continue };
                turned.extend(&together);
                let Some(from) = super::bench::number(&input.text, kind) else { continue };
                let mut dial = Dial::new(Slot::new(input, node, End::Low, None, kind), kind, from);
                let twins = together.iter().filter(|twin| **twin != node);
                dial.slots
                    .extend(twins.filter_map(|twin| Some(Slot::new(bench.input(*twin)?, *twin, End::Low, None, kind))));
                dials.push(dial);
            }
            Asks::Range(measure) => {
                let Some(kind) = m::named(measure) else { continue };
                let Ok((low, high)) = quantity::read_range(&input.text, kind) else { continue };
                if !input.text.contains(" to ") {
                    dials.push(Dial::new(Slot::new(input, node, End::Low, Some(node.upper()), kind), kind, low.si));
                    continue;
                }
                let ends = [(node, End::Low, low.si), (node.upper(), End::High, high.si)];
                for (node, end, from) in ends.into_iter().filter(|(node, ..)| read(*node)) {
                    dials.push(Dial::new(Slot::new(input, node, end, None, kind), kind, from));
                }
            }
            _ => {}
        }
    }
    dials.retain(|dial| bench.wanted(dial.slots.iter().map(|slot| slot.input.path.as_str())));
    dials
}
