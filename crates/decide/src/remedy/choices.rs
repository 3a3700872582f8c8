//! Other materials, coolants and oils, other words, things in stock, and other orders of the coolant's path.

use super::Remedy;
use super::bench::{Bench, number};
use super::change::Change;
use super::dial::Dial;
use super::stock;
use engine::Finding;
use machine::{Asks, Document, Entry, FileId, Node, NodeId, NotJudged, stands_in, words_to_try};
use quantity::{Measure, m};
use rayon::prelude::*;
use rule::Verdict;
use std::collections::BTreeSet;

/// Sections of things that are chosen by name.
const SHELVES: [&str; 3] = ["materials", "coolants", "oils"];
/// What a choice counts as beside a number that is changed by that much: one of the builder's own, one that the machine has
/// elsewhere, one of the built-in entries; an element at another place; a word.
const OWN: f64 = 0.5;
const ELSEWHERE: f64 = 0.6;
const BOUGHT: f64 = 0.7;
const MOVED: f64 = 0.4;
const SAID: f64 = 0.3;
/// What the logarithm of a loss of strength counts for: a weaker material wants a thicker part, whether or not a rule asks.
const WEAKER: f64 = 0.1;

/// Of one place in the text, so many are reviewed on the whole machine.
const TAKEN: usize = 4;

#[derive(Debug, Default)]
pub(super) struct Choices {
    pub remedies: Vec<Remedy>,
    pub not_reviewed: usize,
    /// Those that are not enough by themselves.
    pub helping: Vec<Tried>,
}

/// Everything that can be chosen.
pub(super) fn all(bench: &Bench<'_>, finding: &Finding) -> Choices {
    let mut all = Choices::default();
    let places = [names(bench, finding), words(bench), stock(bench), orders(bench, finding)];
    for tries in places.into_iter().flatten().filter(|tries| !tries.is_empty()) {
        let choices = reviewed(bench, finding, tries);
        all.remedies.extend(choices.remedies);
        all.not_reviewed += choices.not_reviewed;
        all.helping.extend(choices.helping);
    }
    all
}

/// Another entry in place of each name that the finding rests on.
fn names(bench: &Bench<'_>, finding: &Finding) -> Vec<Vec<(Change, f64)>> {
    let mentioned: BTreeSet<&str> = bench.inputs().map(|(_, input)| &*input.text).collect();
    let others = |(node, input): (NodeId, &super::bench::Input)| {
        let kept =
            |section: &&str| bench.document.root.get(section).is_some_and(|shelf| shelf.get(&input.text).is_some());
        if !bench.wanted([&*input.path].into_iter()) || !SHELVES.iter().any(kept) {
            return None;
        }
        let Asks::Name(section) = input.asks else { return None };
        let shelf = bench.document.root.get(section)?;
        let entry = shelf.entry(&input.text)?;
        // A margin reads figures of the thing; a breach may rest on what kind of thing it is alone.
        if finding.governing.is_some() && !reads(finding, &entry.value) {
            return None;
        }
        let fits = |other: &&Entry| *other.key != *input.text && stands_in(&input.path, section, entry, other);
        let change = |other: &Entry| {
            let weaker =
                strength(&entry.value).zip(strength(&other.value)).map_or(0.0, |(old, new)| (old / new).ln().max(0.0));
            let effort = match () {
                () if !built_in(bench.document, other.value.id) => OWN,
                () if mentioned.contains(&*other.key) => ELSEWHERE,
                () => BOUGHT,
            };
            (Change::Name { node, from: input.text.clone(), to: other.key.to_string() }, effort + WEAKER * weaker)
        };
        Some(shelf.entries().iter().filter(fits).map(change).collect())
    };
    bench.inputs().filter_map(others).collect()
}

/// Of a material, in Pa.
fn strength(entry: &Node) -> Option<f64> {
    number(entry.get("tensile_strength")?.text()?, <m::Stress as Measure>::KIND)
}

fn built_in(document: &Document, node: NodeId) -> bool {
    document.file(document.place(node).file).is_some_and(|file| file.built_in)
}

/// Another word where a builder would take one.
fn words(bench: &Bench<'_>) -> Vec<Vec<(Change, f64)>> {
    let others = |(node, input): (NodeId, &super::bench::Input)| {
        let words = words_to_try(&input.path);
        let here = bench.document.place(node).file == FileId(0);
        if !here || words.is_empty() || !bench.wanted([&*input.path].into_iter()) {
            return None;
        }
        let Asks::Word(known) = input.asks else { return None };
        let fits = |word: &&&str| **word != input.text && known.contains(*word);
        let change = |word: &&str| (Change::Name { node, from: input.text.clone(), to: (*word).to_owned() }, SAID);
        Some(words.iter().filter(fits).map(change).collect())
    };
    bench.inputs().filter_map(others).collect()
}

/// A spring or a bush in stock in place of one of the machine.
fn stock(bench: &Bench<'_>) -> Vec<Vec<(Change, f64)>> {
    let wanted = |path: &str| bench.wanted([path].into_iter());
    stock::tries(bench.document)
        .into_iter()
        .filter(|(path, _)| wanted(path))
        .map(|(_, changes)| changes.into_iter().map(|change| (change, OWN)).collect())
        .collect()
}

/// An element of the circuit at another place.
fn orders(bench: &Bench<'_>, finding: &Finding) -> Vec<Vec<(Change, f64)>> {
    let circuit = bench.document.root.get("cooling").and_then(|cooling| cooling.get("circuit"));
    let Some(circuit) = circuit.filter(|circuit| reads(finding, circuit)) else { return Vec::new() };
    if !bench.wanted(["cooling.circuit"].into_iter()) {
        return Vec::new();
    }
    let count = circuit.items().len();
    let moves = (0..count).flat_map(|from| (0..count).map(move |to| (from, to)));
    // One step down is the next one's step up.
    let moves = moves.filter(|(from, to)| from != to && *from != to + 1);
    let tries = moves
        .filter(|(from, to)| bench.document.moved(circuit, *from, *to).is_some())
        .map(|(from, to)| (Change::Order { list: circuit.id, from, to }, MOVED))
        .collect();
    vec![tries]
}

/// Those that clear the finding by its own rule; the few most promising of them are reviewed on the whole machine.
fn reviewed(bench: &Bench<'_>, finding: &Finding, tries: Vec<(Change, f64)>) -> Choices {
    let mut tried: Vec<Tried> =
        tries.into_par_iter().filter_map(|(change, effort)| own(bench, finding, change, effort)).collect();
    let helping = tried.extract_if(.., |tried| !tried.clears()).filter(|tried| tried.helps(finding)).collect();
    tried.sort_by(|a, b| a.effort.total_cmp(&b.effort).then(b.headroom().total_cmp(&a.headroom())));
    let not_reviewed = tried.len().saturating_sub(TAKEN);
    tried.truncate(TAKEN);
    let review = |Tried { change, effort, .. }: Tried| {
        let changes = vec![change];
        let (effect, headroom) = bench.foretell(finding, &changes)?;
        Some(Remedy { changes, effect, limit_of_use: false, effort, headroom })
    };
    Choices { remedies: tried.into_par_iter().filter_map(review).collect(), not_reviewed, helping }
}

fn own(bench: &Bench<'_>, finding: &Finding, change: Change, effort: f64) -> Option<Tried> {
    let machine = bench.changed(std::slice::from_ref(&change))?;
    let own = bench.own(finding, &machine);
    let lacks = own
        .as_ref()
        .and_then(asks_for)
        .filter(|(absent, typical)| Dial::lacked(&machine, bench.document, *absent, *typical).is_some());
    Some(Tried { own, lacks, change, effort })
}

/// The number that a check asks for and does not get, and a typical one.
fn asks_for(finding: &Finding) -> Option<(NodeId, f64)> {
    if finding.verdict != Verdict::NotJudged {
        return None;
    }
    match finding.gaps.first()? {
        (_, NotJudged::NotGiven { absent, typical }) => Some((*absent, *typical)),
        _ => None,
    }
}

/// A choice, and what the finding's own check comes to with it.
#[derive(Debug, Clone)]
pub(super) struct Tried {
    pub change: Change,
    pub effort: f64,
    /// A number that is the builder's to choose, and without which the check cannot be judged.
    pub lacks: Option<(NodeId, f64)>,
    own: Option<Finding>,
}

impl Tried {
    pub fn headroom(&self) -> f64 {
        self.own.as_ref().map_or(f64::INFINITY, Finding::headroom)
    }

    fn clears(&self) -> bool {
        self.own.as_ref().is_none_or(|own| own.verdict.holds())
    }

    /// It has more left over than before, or only wants a number to be judged.
    fn helps(&self, before: &Finding) -> bool {
        self.own.as_ref().is_some_and(|own| match own.verdict {
            Verdict::NotJudged => self.lacks.is_some(),
            Verdict::Fails | Verdict::Thin => own.headroom() > before.headroom(),
            Verdict::Broken | Verdict::Partly | Verdict::Sound => false,
        })
    }
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
