//! Other materials, coolants and oils, and other orders of the coolant's path.

use super::Remedy;
use super::bench::Bench;
use super::change::Change;
use super::effect::twin;
use engine::Finding;
use machine::{Asked, Node, NodeId, stands_in};
use rayon::prelude::*;
use rule::{Rule, Verdict};

/// Sections of things that are chosen by name.
const SHELVES: [&str; 3] = ["materials", "coolants", "oils"];
/// What a choice counts as beside a number that is changed by that much: one of the builder's own, one of the built-in
/// entries, an element at another place.
const OWN: f64 = 0.5;
const BOUGHT: f64 = 0.7;
const MOVED: f64 = 0.4;
/// Entries that show whether a name matters to a check at all.
const PROBES: usize = 3;

/// Of one name or list, so many are reviewed on the whole machine.
const TAKEN: usize = 4;

#[derive(Debug, Default)]
pub(super) struct Choices {
    pub remedies: Vec<Remedy>,
    pub not_reviewed: usize,
}

/// Another entry in place of each name that the finding rests on.
pub(super) fn names(bench: &Bench<'_>, finding: &Finding) -> Choices {
    let mut all = Choices::default();
    for (node, input) in bench.inputs() {
        let Asked::Name(section) = input.asked else { continue };
        let Some(shelf) = SHELVES.contains(&section).then(|| bench.document.root.get(section)).flatten() else {
            continue;
        };
        let Some(entry) = shelf.get(&input.text) else { continue };
        // A margin reads figures of the thing; a breach may rest on what kind of thing it is alone.
        if finding.governing.is_some() && !reads(finding, entry) {
            continue;
        }
        let others: Vec<(Change, f64)> = shelf
            .entries()
            .iter()
            .filter(|other| *other.key != *input.text && stands_in(&input.path, section, entry, &other.value))
            .map(|entry| {
                let file = bench.document.file(bench.document.place(entry.value.id).file);
                let effort = if file.is_some_and(|file| file.built_in) { BOUGHT } else { OWN };
                (Change::Name { node, from: input.text.clone(), to: entry.key.to_string() }, effort)
            })
            .collect();
        if matters(bench, finding, &others) {
            let choices = reviewed(bench, finding, others);
            all.remedies.extend(choices.remedies);
            all.not_reviewed += choices.not_reviewed;
        }
    }
    all
}

fn matters(bench: &Bench<'_>, finding: &Finding, others: &[(Change, f64)]) -> bool {
    let stride = (others.len() / PROBES).max(1);
    let probes: Vec<&Change> = others.iter().step_by(stride).map(|(change, _)| change).collect();
    probes.par_iter().any(|change| {
        let Some(after) = narrowly(bench, finding, change) else { return true };
        let same =
            |own: &Finding| own.verdict == finding.verdict && own.headroom().to_bits() == finding.headroom().to_bits();
        !twin(&after, finding).is_some_and(same)
    })
}

/// An element of the circuit at another place.
pub(super) fn orders(bench: &Bench<'_>, finding: &Finding) -> Choices {
    let circuit = bench.document.root.get("cooling").and_then(|cooling| cooling.get("circuit"));
    let Some(circuit) = circuit.filter(|circuit| reads(finding, circuit)) else { return Choices::default() };
    if bench.only().is_some_and(|only| only != "cooling.circuit") {
        return Choices::default();
    }
    let count = circuit.items().len();
    let moves = (0..count).flat_map(|from| (0..count).map(move |to| (from, to)));
    // One step down is the next one's step up.
    let moves = moves.filter(|(from, to)| from != to && *from != to + 1);
    let tries = moves
        .filter(|(from, to)| bench.document.moved(circuit, *from, *to).is_some())
        .map(|(from, to)| (Change::Order { list: circuit.id, from, to }, MOVED))
        .collect();
    reviewed(bench, finding, tries)
}

/// Those that clear the finding by its own rule; the few most promising of them are reviewed on the whole machine.
fn reviewed(bench: &Bench<'_>, finding: &Finding, tries: Vec<(Change, f64)>) -> Choices {
    let promise = |(change, effort): (Change, f64)| {
        let own = narrowly(bench, finding, &change)?;
        let own = twin(&own, finding);
        let headroom = own.map_or(f64::INFINITY, Finding::headroom);
        (own.map_or(Verdict::Sound, |own| own.verdict) == Verdict::Sound).then_some((change, effort, headroom))
    };
    let mut promising: Vec<(Change, f64, f64)> = tries.into_par_iter().filter_map(promise).collect();
    promising.sort_by(|a, b| a.1.total_cmp(&b.1).then(b.2.total_cmp(&a.2)));
    let not_reviewed = promising.len().saturating_sub(TAKEN);
    promising.truncate(TAKEN);
    let review = |(change, effort, _): (Change, f64, f64)| {
        let changes = vec![change];
        let (effect, headroom) = bench.foretell(finding, &changes).ok()?;
        Some(Remedy { changes, effect, limit_of_use: false, effort, headroom })
    };
    Choices { remedies: promising.into_par_iter().filter_map(review).collect(), not_reviewed }
}

/// The findings of the finding's own rule with a change.
fn narrowly(bench: &Bench<'_>, finding: &Finding, change: &Change) -> Option<Vec<Finding>> {
    let rule: &dyn Rule = *bench.rules.get(finding.place().rule)?;
    bench.after(std::slice::from_ref(change), Some(rule))
}

/// Whether a finding has read anything beneath a node.
fn reads(finding: &Finding, node: &Node) -> bool {
    let mut any = false;
    node.walk(&mut |inner| {
        let ids: [NodeId; 2] = [inner.id, inner.id.upper()];
        any |= ids.iter().any(|id| finding.reads.has(*id));
    });
    any
}
