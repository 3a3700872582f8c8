//! Where changes are tried: the machine, its review, and every value that stands in a file of the builder's own.

use super::Heard;
use super::change::Change;
use super::dial::Dial;
use super::effect::{Effect, twin};
use engine::{Finding, Place, Run, case_points, verdicts, verdicts_of};
use machine::{Asks, Document, FileId, Machine, Node, NodeId, NodeKind, Setting, Swaps, WhatIf, setting};
use quantity::{Stated, m};
use rule::{Outcome, Rule, Verdict};
use solve::{CasePoint, Item, Misfit, bill, misfits, twins};
use std::collections::BTreeMap;

/// One written value.
#[derive(Debug)]
pub(super) struct Input {
    pub path: String,
    pub text: String,
    pub setting: Setting,
    /// What its place takes.
    pub asks: Asks,
    node: NodeId,
}

impl Input {
    fn new(machine: &Machine, node: NodeId, path: String, text: String) -> Self {
        let asks = machine.fields().of(node).map_or(Asks::Unknown, |field| field.asks);
        // What was weighed or measured, or stands on a label, does not change by writing something else.
        let found_out = matches!(machine.row().stated(node), Some(Stated::Weighed | Stated::Measured | Stated::Label));
        let setting = if found_out { Setting::Fact } else { setting(&path) };
        Self { setting, path, text, asks, node }
    }

    /// The builder can choose it, or promise to keep to it.
    pub fn is_free(&self) -> bool {
        matches!(self.setting, Setting::Choice | Setting::LimitOfUse)
    }
}

/// Every written value, and what follows from the text alone.
pub(super) struct Written {
    inputs: BTreeMap<NodeId, Input>,
    twins: Vec<[NodeId; 2]>,
    /// What does not fit as it is written: its author knows better.
    known_misfits: Vec<Misfit>,
    bill: Vec<Item>,
}

impl Written {
    pub fn new(document: &Document, machine: &Machine) -> Self {
        let mut inputs = BTreeMap::new();
        collect(document, machine, &document.root, &mut Vec::new(), &mut inputs);
        let as_written = WhatIf::default();
        Self {
            inputs,
            twins: twins(machine),
            known_misfits: misfits(machine, &as_written),
            bill: bill(machine, &as_written),
        }
    }
}

/// Whatever a change is tried on.
#[derive(Clone, Copy)]
pub(super) struct Bench<'a> {
    pub document: &'a Document,
    pub machine: &'a Machine,
    pub rules: &'a [&'a dyn Rule],
    /// All checks of the machine as it is.
    pub run: &'a Run,
    pub findings: &'a [Finding],
    pub written: &'a Written,
    /// The path of the one input that may change.
    pub only: Option<&'a str>,
    /// For a machine that has been changed already: the one before, what was changed, and the finding there.
    pub before: Option<(&'a Bench<'a>, &'a [Change], &'a Finding)>,
}

impl<'a> Bench<'a> {
    /// All written values, with their nodes.
    pub fn inputs(&self) -> impl Iterator<Item = (NodeId, &'a Input)> + use<'a> {
        self.written.inputs.iter().map(|(node, input)| (*node, input))
    }

    pub fn input(&self, node: NodeId) -> Option<&'a Input> {
        self.written.inputs.get(&node.node())
    }

    /// Whether one of these paths may change.
    pub fn wanted<'p>(&self, mut paths: impl Iterator<Item = &'p str>) -> bool {
        self.only.is_none_or(|only| paths.any(|path| path == only))
    }

    /// Sizes of a field in the libraries and in stock.
    pub fn stocked(&self, field: &str) -> Vec<f64> {
        let there =
            |input: &Input| self.document.place(input.node).file != FileId(0) || input.path.starts_with("stock.");
        let of =
            self.written.inputs.values().filter(|input| input.path.rsplit('.').next() == Some(field) && there(input));
        of.filter_map(|input| match input.asks {
            Asks::Number(measure) => number(&input.text, m::named(measure)?),
            _ => None,
        })
        .collect()
    }

    /// A number and those that change together with it, where all of them are the builder's to choose.
    pub fn together(&self, node: NodeId) -> Vec<NodeId> {
        let mut group = vec![node];
        let mut next = 0;
        while let Some(node) = group.get(next).copied() {
            next += 1;
            for [a, b] in &self.written.twins {
                let other = if *a == node { b } else { a };
                if (*a == node || *b == node) && !group.contains(other) {
                    group.push(*other);
                }
            }
        }
        let chosen = |node: &NodeId| self.input(*node).is_some_and(|input| input.setting == Setting::Choice);
        if group.iter().all(chosen) { group } else { vec![node] }
    }

    /// Nothing new is at odds with anything else.
    pub fn fits(&self, machine: &Machine, what_if: &WhatIf) -> bool {
        misfits(machine, what_if).iter().all(|misfit| self.written.known_misfits.contains(misfit))
    }

    /// What a check makes of the input that was asked for.
    pub fn heard(&self, path: &str, finding: &Finding) -> Heard {
        let Some((node, input)) = self.written.inputs.iter().find(|(_, input)| input.path == path) else {
            return if path == "cooling.circuit" { Heard::Tried } else { Heard::Nowhere };
        };
        match input.asks {
            Asks::Name(_) | Asks::Word(_) => Heard::Tried,
            Asks::Number(_) | Asks::Range(_) | Asks::Point(_) => {
                let mut reads = finding.reads.nodes.iter();
                let read = reads.any(|read| read.node() == *node || self.together(*node).contains(&read));
                match (read, input.setting) {
                    (false, _) => Heard::NotRead,
                    (true, Setting::Fact) => Heard::Fact,
                    (true, Setting::Bound) => Heard::Bound,
                    (true, _) => Heard::Tried,
                }
            }
            _ => Heard::NotRead,
        }
    }

    /// Where the check of a finding stands, in all case points in which it is judged, or in all if it is
    /// judged in none.
    pub fn places(&self, finding: &Finding) -> Vec<Place> {
        let rule = finding.place().rule;
        let rows = self.run.rows();
        rows.filter(|(place, _, checked)| {
            let own = place.rule == rule && checked.check == finding.check && checked.subject == finding.subject;
            let judged = !matches!(checked.outcome, Outcome::NotJudged(_) | Outcome::Broken(_));
            own && (judged || finding.verdict == Verdict::NotJudged)
        })
        .map(|(place, _, _)| place)
        .collect()
    }

    /// Headroom of a check in some case points with dials set: the least of them. None where it cannot be judged, or where
    /// something no longer fits.
    pub fn at(&self, places: &[Place], dials: &[&Dial<'_>], numbers: &[f64]) -> Option<f64> {
        let (what_if, changed) = turned(dials, numbers);
        if !self.fits(self.machine, &what_if) {
            return None;
        }
        let mut least = f64::INFINITY;
        for place in places {
            least = least.min(self.headroom(*place, &what_if, &changed)?);
        }
        Some(least)
    }

    /// The case point in which a check has the least headroom with dials set, if it has too little there. None where
    /// something no longer fits.
    pub fn short(&self, places: &[Place], dials: &[&Dial<'_>], numbers: &[f64]) -> Option<Option<Place>> {
        let (what_if, changed) = turned(dials, numbers);
        if !self.fits(self.machine, &what_if) {
            return None;
        }
        let mut least = (0.0, None);
        for place in places {
            // Whether it can still be judged is seen in the review of the whole machine.
            let headroom = self.headroom(*place, &what_if, &changed).unwrap_or(f64::INFINITY);
            if headroom < least.0 {
                least = (headroom, Some(*place));
            }
        }
        Some(least.1)
    }

    fn headroom(&self, place: Place, what_if: &WhatIf, changed: &[NodeId]) -> Option<f64> {
        let rule = self.rules.get(place.rule)?;
        let checked = self.run.one(self.machine, *rule, place, what_if, changed, false)?;
        match checked.outcome {
            Outcome::Held(margin) => Some(margin.held.headroom(margin.required.value)),
            Outcome::Breach { .. } => Some(f64::MIN),
            Outcome::Clear(_) | Outcome::Aside(_) => Some(f64::INFINITY),
            Outcome::NotJudged(_) | Outcome::Broken(_) => None,
        }
    }

    /// The machine read again with these changes, if the types take them and everything fits.
    pub fn changed(&self, changes: &[Change]) -> Option<Machine> {
        let swaps: Option<Swaps> = changes.iter().map(|change| change.swap(self.document)).collect();
        let machine = Machine::read(self.document, &swaps?).ok()?;
        self.fits(&machine, &WhatIf::default()).then_some(machine)
    }

    /// What a finding's own check comes to on another machine: where it governs now, and where that is enough, everywhere.
    /// None where it is no longer a question.
    pub fn own(&self, finding: &Finding, machine: &Machine) -> Option<Finding> {
        let rule = [*self.rules.get(finding.place().rule)?];
        let points = case_points(machine);
        let now = points.get(finding.place().point..=finding.place().point)?;
        let on = |points: &[CasePoint]| {
            let run = Run::full(machine, &rule, points, &WhatIf::default());
            twin(&verdicts_of(&run, machine, &rule), finding).cloned()
        };
        match on(now) {
            Some(own) if !own.verdict.holds() => Some(own),
            _ => on(&points),
        }
    }

    /// What these changes do to the whole machine, if they clear the finding, and its headroom then.
    pub fn foretell(&self, finding: &Finding, changes: &[Change]) -> Option<(Effect, f64)> {
        if let Some((bench, former, finding)) = self.before {
            return bench.foretell(finding, &[former, changes].concat());
        }
        let (after, bill) = match self.what_if(changes) {
            Some((what_if, changed)) => {
                if !self.fits(self.machine, &what_if) {
                    return None;
                }
                let run = self.run.again(self.machine, self.rules, &what_if, &changed);
                (verdicts_of(&run, self.machine, self.rules), bill(self.machine, &what_if))
            }
            None => {
                let machine = self.changed(changes)?;
                (verdicts(&machine, self.rules), bill(&machine, &WhatIf::default()))
            }
        };
        let own = twin(&after, finding);
        // What is cleared by no longer being judged in some case is not cleared.
        if own.is_some_and(|own| !own.verdict.holds() || own.gaps.len() > finding.gaps.len()) {
            return None;
        }
        let headroom = own.map_or(f64::INFINITY, Finding::headroom);
        let mut effect = Effect::between(self.findings, &after);
        effect.weigh(&self.written.bill, &bill);
        Some((effect, headroom))
    }

    /// Replaced numbers, when the texts say nothing but numbers: what is said of where a figure comes from is read too.
    fn what_if(&self, changes: &[Change]) -> Option<(WhatIf, Vec<NodeId>)> {
        let mut what_if = WhatIf::default();
        let mut changed = Vec::new();
        for change in changes {
            let Change::Number { node, text, .. } = change else { return None };
            let input = self.input(*node)?;
            if input.text.contains('(') {
                return None;
            }
            set(&mut what_if, &mut changed, node.node(), input.asks, text)?;
        }
        Some((what_if, changed))
    }
}

fn turned(dials: &[&Dial<'_>], numbers: &[f64]) -> (WhatIf, Vec<NodeId>) {
    let (mut what_if, mut changed) = (WhatIf::default(), Vec::new());
    dials.iter().zip(numbers).for_each(|(dial, si)| dial.set(&mut what_if, &mut changed, *si));
    (what_if, changed)
}

/// Sets what a text says: a number, or both ends of a range.
pub(super) fn set(what_if: &mut WhatIf, changed: &mut Vec<NodeId>, node: NodeId, asks: Asks, text: &str) -> Option<()> {
    match asks {
        Asks::Number(measure) => {
            let written = number(text, m::named(measure)?)?;
            what_if.set(node, written);
            changed.push(node);
        }
        Asks::Range(measure) => {
            let (low, high) = quantity::read_range(text, m::named(measure)?).ok()?;
            what_if.set(node, low.si);
            what_if.set(node.upper(), high.si);
            changed.extend([node, node.upper()]);
        }
        _ => return None,
    }
    Some(())
}

/// A written number in SI, with or without a unit.
pub(super) fn number(text: &str, kind: &'static quantity::Kind) -> Option<f64> {
    let bare = kind.bare.then(|| text.trim().parse().ok()).flatten();
    let bare = bare.and_then(|number| quantity::read_bare(number, kind).ok());
    bare.or_else(|| quantity::read(text, kind).ok()).map(|written| written.si)
}

/// Scalars of files that are not built in, each once, with the path that comes first in the tree.
fn collect(
    document: &Document,
    machine: &Machine,
    node: &Node,
    trail: &mut Vec<String>,
    found: &mut BTreeMap<NodeId, Input>,
) {
    match &node.kind {
        NodeKind::Map(entries) => {
            for entry in entries {
                trail.push(entry.key.to_string());
                collect(document, machine, &entry.value, trail, found);
                trail.pop();
            }
        }
        NodeKind::Seq(items) => {
            for (index, item) in items.iter().enumerate() {
                let name = item.get("name").and_then(Node::text);
                trail.push(name.map_or_else(|| (index + 1).to_string(), str::to_owned));
                collect(document, machine, item, trail, found);
                trail.pop();
            }
        }
        NodeKind::Scalar { text, .. } => {
            let file = document.place(node.id).file;
            if document.file(file).is_some_and(|file| !file.built_in) {
                found.entry(node.id).or_insert_with(|| Input::new(machine, node.id, trail.join("."), text.to_string()));
            }
        }
        NodeKind::Null => {}
    }
}
