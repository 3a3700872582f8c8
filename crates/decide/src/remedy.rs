//! What would clear a finding, and what it costs elsewhere: other numbers, other choices, each reviewed again on the
//! whole machine. Nothing here is a formula of its own: all of it is the review with something replaced.

mod bench;
mod change;
mod choices;
mod effect;
mod numbers;
mod search;
mod select;
mod sizes;

pub use change::{Change, edits};
pub use effect::{Effect, Foretold, Name};
pub use numbers::Unreached;
pub use select::{NoTarget, select};

use bench::Bench;
use engine::Review;
use machine::{Document, Machine, NodeId};
use rule::Rule;
use std::collections::BTreeMap;

/// One change, or two together, and what the whole machine makes of it.
#[derive(Debug, Clone)]
pub struct Remedy {
    pub changes: Vec<Change>,
    pub effect: Effect,
    /// It only promises to use the machine within limits.
    pub limit_of_use: bool,
    /// How far it goes from what is written: the logarithm of the ratio; of a choice, what it counts as.
    pub effort: f64,
    /// What the finding has left over then; infinite where it is no longer a question.
    pub headroom: f64,
}

/// What would clear one finding.
#[derive(Debug, Clone)]
pub struct Target {
    /// Its place in the review's list.
    pub finding: usize,
    /// Best first.
    pub remedies: Vec<Remedy>,
    /// Further changes that clear it where it governs now, and are not in the list.
    pub left_out: usize,
    /// Inputs with which it cannot be cleared, those that help most first.
    pub unreached: Vec<Unreached>,
    /// Inputs of which neither more nor less is always better.
    pub turning: Vec<NodeId>,
    /// With one input asked for by name: what this check makes of it.
    pub asked: Option<Heard>,
}

/// What a check makes of an input that was asked for by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Heard {
    /// The spec and its libraries have no number or name there.
    Nowhere,
    /// The check does not read it.
    NotRead,
    /// Its figure belongs to a thing and changes only with that.
    Fact,
    /// It was tried.
    Tried,
}

/// Remedies kept for one finding.
const MOST: usize = 6;
/// Of one place in the text, no more than this many.
const MOST_OF_ONE: usize = 2;

/// Works out what would clear these findings of a review. `only` is the path of the one input that may change.
#[must_use]
pub fn remedies(
    document: &Document,
    machine: &Machine,
    rules: &[&dyn Rule],
    review: &Review,
    chosen: &[usize],
    only: Option<&str>,
) -> Vec<Target> {
    let bench = Bench::new(document, machine, rules, review, only);
    chosen.iter().filter_map(|index| target(&bench, *index)).collect()
}

fn target(bench: &Bench<'_>, index: usize) -> Option<Target> {
    let finding = bench.review.findings.get(index)?;
    let numbers = numbers::single(bench, finding);
    let mut remedies = numbers.remedies;
    let mut not_reviewed = numbers.not_reviewed;
    for choices in [choices::names(bench, finding), choices::orders(bench, finding)] {
        remedies.extend(choices.remedies);
        not_reviewed += choices.not_reviewed;
    }
    if remedies.iter().all(|remedy| remedy.limit_of_use) {
        remedies.extend(numbers::pairs(bench, finding, &numbers.unreached));
    }
    remedies.sort_by(|a, b| order(a).partial_cmp(&order(b)).unwrap_or(std::cmp::Ordering::Equal));
    let found = remedies.len();
    let mut of_one: BTreeMap<NodeId, usize> = BTreeMap::new();
    remedies.retain(|remedy| {
        let Some(first) = remedy.changes.first() else { return false };
        let count = of_one.entry(first.node()).or_default();
        *count += 1;
        *count <= MOST_OF_ONE
    });
    remedies.truncate(MOST);
    let asked = bench.only().map(|only| bench.heard(only, finding));
    Some(Target {
        finding: index,
        left_out: found - remedies.len() + not_reviewed,
        remedies,
        unreached: numbers.unreached,
        turning: numbers.turning,
        asked,
    })
}

/// What breaks nothing comes first, then what thins nothing, then the machine before its use, then the smallest change,
/// then the one with the most left over.
fn order(remedy: &Remedy) -> (usize, usize, bool, f64, f64) {
    let effect = &remedy.effect;
    (
        effect.broken.len(),
        effect.thinned.len() + effect.unjudged.len(),
        remedy.limit_of_use,
        remedy.effort,
        -remedy.headroom,
    )
}
