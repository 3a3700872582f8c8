//! Where changes are tried: the machine, its review, and every value that stands in a file of the builder's own.

use super::Heard;
use super::change::Change;
use super::effect::{Effect, twin};
use engine::{Finding, Place, Review, verdicts, verdicts_of};
use machine::{Asked, Document, Machine, Node, NodeId, NodeKind, Setting, Swaps, WhatIf, asked, setting};
use rayon::prelude::*;
use rule::{Outcome, Rule, Verdict};
use std::collections::BTreeMap;

/// One written value.
#[derive(Debug)]
pub(super) struct Input {
    pub path: String,
    pub text: String,
    pub asked: Asked,
    pub setting: Setting,
}

/// Whatever a change is tried on.
pub(super) struct Bench<'a> {
    pub document: &'a Document,
    pub machine: &'a Machine,
    pub rules: &'a [&'a dyn Rule],
    pub review: &'a Review,
    inputs: BTreeMap<NodeId, Input>,
    only: Option<&'a str>,
}

impl<'a> Bench<'a> {
    pub fn new(
        document: &'a Document,
        machine: &'a Machine,
        rules: &'a [&'a dyn Rule],
        review: &'a Review,
        only: Option<&'a str>,
    ) -> Self {
        let mut written = BTreeMap::new();
        collect(document, &document.root, &mut Vec::new(), &mut written);
        let inputs = written
            .into_par_iter()
            .map(|(node, (path, text))| {
                let asked = asked(document, node);
                let setting = setting(&path);
                (node, Input { path, text, asked, setting })
            })
            .collect();
        Self { document, machine, rules, review, inputs, only }
    }

    /// Values that may change, with their nodes.
    pub fn inputs(&self) -> impl Iterator<Item = (NodeId, &Input)> {
        let wanted = |input: &Input| self.only.is_none_or(|only| input.path == only);
        self.inputs.iter().filter(move |(_, input)| wanted(input)).map(|(node, input)| (*node, input))
    }

    pub fn input(&self, node: NodeId) -> Option<&Input> {
        self.inputs.get(&node.node())
    }

    /// The path of the one input that may change.
    pub fn only(&self) -> Option<&'a str> {
        self.only
    }

    /// What a check makes of the input that was asked for.
    pub fn heard(&self, path: &str, finding: &Finding) -> Heard {
        let Some((node, input)) = self.inputs.iter().find(|(_, input)| input.path == path) else {
            return if path == "cooling.circuit" { Heard::Tried } else { Heard::Nowhere };
        };
        match input.asked {
            Asked::Name(_) => Heard::Tried,
            Asked::Other => Heard::NotRead,
            Asked::Number(_) | Asked::Range(_) => {
                let read = finding.reads.nodes.iter().any(|read| read.node() == *node);
                match (read, input.setting) {
                    (false, _) => Heard::NotRead,
                    (true, Setting::Fact) => Heard::Fact,
                    (true, _) => Heard::Tried,
                }
            }
        }
    }

    /// Where the check of a finding stands, in all case points.
    pub fn places(&self, finding: &Finding) -> Vec<Place> {
        let rule = finding.place().rule;
        let rows = self.review.run.rows();
        rows.filter(|(place, _, checked)| {
            place.rule == rule && checked.check == finding.check && checked.subject == finding.subject
        })
        .map(|(place, _, _)| place)
        .collect()
    }

    /// Headroom of a check in some case points with numbers replaced: the least of them. None where it cannot be judged.
    pub fn headroom(&self, places: &[Place], what_if: &WhatIf, changed: &[NodeId]) -> Option<f64> {
        let mut least = f64::INFINITY;
        for place in places {
            let rule = self.rules.get(place.rule)?;
            let checked = self.review.run.one(self.machine, *rule, *place, what_if, changed, false)?;
            least = least.min(match checked.outcome {
                Outcome::Held(margin) => margin.held.headroom(margin.required.value),
                Outcome::Breach { .. } => f64::MIN,
                Outcome::Clear(_) | Outcome::Aside(_) => f64::INFINITY,
                Outcome::NotJudged(_) | Outcome::Broken(_) => return None,
            });
        }
        Some(least)
    }

    /// The findings of one rule, or of all, on the machine with these changes.
    pub fn after(&self, changes: &[Change], rule: Option<&'a dyn Rule>) -> Option<Vec<Finding>> {
        if let (None, Some((what_if, changed))) = (rule, self.what_if(changes)) {
            let run = self.review.run.again(self.machine, self.rules, &what_if, &changed);
            return Some(verdicts_of(&run, self.machine, self.rules));
        }
        let swaps: Option<Swaps> = changes.iter().map(|change| change.swap(self.document)).collect();
        let machine = Machine::read(self.document, &swaps?).ok()?;
        Some(match rule {
            Some(rule) => verdicts(&machine, &[rule]),
            None => verdicts(&machine, self.rules),
        })
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
            set(&mut what_if, &mut changed, node.node(), input.asked, text)?;
        }
        Some((what_if, changed))
    }

    /// What these changes do, if they clear the finding. `Err` is where the check then governs, if it is judged.
    pub fn foretell(&self, finding: &Finding, changes: &[Change]) -> Result<(Effect, f64), Option<usize>> {
        let after = self.after(changes, None).ok_or(None)?;
        let own = twin(&after, finding);
        match own.map(|own| own.verdict) {
            None | Some(Verdict::Sound) => {
                let headroom = own.map_or(f64::INFINITY, Finding::headroom);
                Ok((Effect::between(&self.review.findings, &after), headroom))
            }
            Some(Verdict::Fails | Verdict::Thin) => Err(own.map(|own| own.place().point)),
            Some(Verdict::NotJudged | Verdict::Broken) => Err(None),
        }
    }
}

/// Sets what a text says: a number, or both ends of a range.
pub(super) fn set(
    what_if: &mut WhatIf,
    changed: &mut Vec<NodeId>,
    node: NodeId,
    asked: Asked,
    text: &str,
) -> Option<()> {
    match asked {
        Asked::Number(kind) => {
            let written = number(text, kind)?;
            what_if.set(node, written);
            changed.push(node);
        }
        Asked::Range(kind) => {
            let (low, high) = quantity::read_range(text, kind).ok()?;
            what_if.set(node, low.si);
            what_if.set(node.upper(), high.si);
            changed.extend([node, node.upper()]);
        }
        Asked::Name(_) | Asked::Other => return None,
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
fn collect(document: &Document, node: &Node, trail: &mut Vec<String>, found: &mut BTreeMap<NodeId, (String, String)>) {
    match &node.kind {
        NodeKind::Map(entries) => {
            for entry in entries {
                trail.push(entry.key.to_string());
                collect(document, &entry.value, trail, found);
                trail.pop();
            }
        }
        NodeKind::Seq(items) => {
            for (index, item) in items.iter().enumerate() {
                let name = item.get("name").and_then(Node::text);
                trail.push(name.map_or_else(|| (index + 1).to_string(), str::to_owned));
                collect(document, item, trail, found);
                trail.pop();
            }
        }
        NodeKind::Scalar { text, .. } => {
            let file = document.place(node.id).file;
            if document.file(file).is_some_and(|file| !file.built_in) {
                found.entry(node.id).or_insert_with(|| (trail.join("."), text.to_string()));
            }
        }
        NodeKind::Null => {}
    }
}
