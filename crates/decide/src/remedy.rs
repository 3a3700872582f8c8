//! What would clear a finding, and what it costs elsewhere: other numbers, other choices, each reviewed again on the
//! whole machine. Nothing here is a formula of its own: all of it is the review with something replaced.

mod bench;
mod change;
mod choices;
mod dial;
mod effect;
mod numbers;
mod search;
mod select;
mod sizes;
mod stock;
mod together;

pub use change::{Change, edits};
pub use effect::{Effect, Foretold, Name};
pub use numbers::Unreached;
pub use select::{NoTarget, select};

use bench::{Bench, Written};
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
    /// Numbers that help and do not clear it by themselves, those that help most first.
    pub unreached: Vec<Unreached>,
    /// The same of choices, each with the headroom that it leaves.
    pub not_enough: Vec<(Change, f64)>,
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
    /// It follows from other sizes of the drawing.
    Bound,
    /// It was tried.
    Tried,
}

/// Remedies kept for one finding.
const MOST: usize = 6;
/// Of one place in the text, no more than this many.
const MOST_OF_ONE: usize = 2;

/// Works out what would clear these findings of a review. `only` is the path of the one input that may change; `tick` is
/// called after each finding.
#[must_use]
pub fn remedies(
    document: &Document,
    machine: &Machine,
    rules: &[&dyn Rule],
    review: &Review,
    chosen: &[usize],
    only: Option<&str>,
    tick: &dyn Fn(),
) -> Vec<Target> {
    let written = Written::new(document, machine);
    let (run, findings) = (&review.run, review.findings.as_slice());
    let bench = Bench { document, machine, rules, run, findings, written: &written, only, before: None };
    let worked_out = |index: &usize| {
        let target = target(&bench, *index);
        tick();
        target
    };
    chosen.iter().filter_map(worked_out).collect()
}

/// Headroom by which a failure of the same thing may get worse in passing: less is rounding and side effects.
const WORSE: f64 = 0.1;

/// Cures one failure of a thing by deepening another: a thicker oil that stops the landing and locks the damper in the cold.
fn worsens(bench: &Bench<'_>, finding: &engine::Finding, remedy: &Remedy) -> bool {
    let fails = |old: &&engine::Finding| {
        old.verdict == rule::Verdict::Fails && old.subject.name == finding.subject.name && !std::ptr::eq(*old, finding)
    };
    bench.findings.iter().filter(fails).any(|old| {
        let name = Name::of(old);
        let deeper = |new: &Foretold| {
            // A breach has no figure that could get worse.
            new.name == name && new.verdict == rule::Verdict::Fails && new.headroom < old.headroom() - WORSE
        };
        remedy.effect.after.iter().any(deeper)
    })
}

fn target(bench: &Bench<'_>, index: usize) -> Option<Target> {
    let finding = bench.findings.get(index)?;
    let numbers = numbers::single(bench, finding);
    let mut remedies = numbers.remedies;
    let mut not_reviewed = numbers.not_reviewed;
    let choices = choices::all(bench, finding);
    remedies.extend(choices.remedies);
    not_reviewed += choices.not_reviewed;
    if remedies.iter().all(|remedy| remedy.limit_of_use) {
        remedies.extend(numbers::pairs(bench, finding, &numbers.unreached));
        remedies.extend(together::with_choices(bench, finding, &choices.helping, &numbers.unreached));
    }
    remedies.retain(|remedy| !worsens(bench, finding, remedy));
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
    let asked = bench.only.map(|only| bench.heard(only, finding));
    let least = HELPS * finding.headroom().abs();
    let helps = |headroom: f64| (headroom - finding.headroom()).partial_cmp(&least) != Some(std::cmp::Ordering::Less);
    let mut not_enough: Vec<(Change, f64)> = choices
        .helping
        .iter()
        .filter(|tried| tried.lacks.is_none())
        .map(|tried| (tried.change.clone(), tried.headroom()))
        .collect();
    not_enough.retain(|(_, headroom)| helps(*headroom));
    not_enough.sort_by(|a, b| b.1.total_cmp(&a.1));
    let mut unreached = numbers.unreached;
    unreached.retain(|short| helps(short.headroom));
    Some(Target {
        finding: index,
        left_out: found - remedies.len() + not_reviewed,
        remedies,
        unreached,
        not_enough,
        turning: numbers.turning,
        asked,
    })
}

/// What takes away less than this share of a headroom that is lacking is not worth a word.
const HELPS: f64 = 0.1;

/// What breaks nothing comes first, then what thins nothing, then the machine before its use, then what leaves the gravest
/// margin no worse, then the smallest change, where each further finding that it clears counts for it; then the lightest,
/// the cheapest, and the one with the most left over.
fn order(remedy: &Remedy) -> (usize, usize, bool, bool, f64, f64, f64, f64) {
    const A_FINDING: f64 = 0.1;
    let effect = &remedy.effect;
    let also = effect.cleared.len().saturating_sub(1) + effect.eased.len();
    (
        effect.broken.len(),
        effect.thinned.len() + effect.unjudged.len(),
        remedy.limit_of_use,
        effect.worsens_the_gravest(),
        remedy.effort - A_FINDING * also as f64,
        effect.mass.unwrap_or(0.0),
        effect.price.unwrap_or(0.0),
        -remedy.headroom,
    )
}

#[cfg(test)]
mod tests;
