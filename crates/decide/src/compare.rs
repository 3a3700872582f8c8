//! What a revision improved and worsened: margins of two reviews, matched by rule, subject and check.

use crate::renamed::{Renamed, renamed};
use engine::{Finding, Review};
use machine::{Document, Machine};
use rule::Verdict;
use std::collections::BTreeMap;

/// A machine with its review.
#[derive(Debug, Clone, Copy)]
pub struct Side<'a> {
    pub document: &'a Document,
    pub machine: &'a Machine,
    pub review: &'a Review,
}

/// What became of a margin, what matters most first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Change {
    Worsened,
    Appeared,
    Improved,
    Vanished,
    Unchanged,
}

impl Change {
    /// In the order in which they are told.
    pub const ALL: [Self; 5] = [Self::Worsened, Self::Appeared, Self::Improved, Self::Vanished, Self::Unchanged];

    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Worsened => "worsened",
            Self::Appeared => "appeared",
            Self::Improved => "improved",
            Self::Vanished => "vanished",
            Self::Unchanged => "unchanged",
        }
    }
}

/// One margin before and after; at least one of the two is there.
#[derive(Debug, Clone, Copy)]
pub struct Pair<'a> {
    pub old: Option<&'a Finding>,
    pub new: Option<&'a Finding>,
    pub change: Change,
    /// The verdict got worse, and no concession covers it.
    pub worse: bool,
    /// The two are one margin only if the guess about the subject's new name is right.
    pub guessed: bool,
}

impl<'a> Pair<'a> {
    /// The margin as it is now, or as it was last.
    #[must_use]
    pub fn latest(&self) -> Option<&'a Finding> {
        self.new.or(self.old)
    }
}

/// Two revisions of a machine, margin by margin.
#[derive(Debug)]
pub struct Comparison<'a> {
    /// By change, then worse verdicts, then the gravest and thinnest.
    pub pairs: Vec<Pair<'a>>,
    /// Subjects that seem to go by another name now.
    pub renamed: Vec<Renamed>,
}

impl Comparison<'_> {
    /// Some verdict got worse.
    #[must_use]
    pub fn worse(&self) -> bool {
        self.pairs.iter().any(|pair| pair.worse)
    }

    #[must_use]
    pub fn count(&self, change: Change) -> usize {
        self.pairs.iter().filter(|pair| pair.change == change).count()
    }
}

/// Two headrooms nearer than this are the same: the difference would not show in print.
const SAME: f64 = 0.0005;

/// Compares two reviews.
#[must_use]
pub fn compare<'a>(old: Side<'a>, new: Side<'a>) -> Comparison<'a> {
    let renamed = renamed(old, new);
    let now = |name: &'a str| renamed.iter().find(|guess| guess.old == name).map(|guess| guess.new.as_str());
    // One subject may have several checks of a name (two things, one name): the first is matched with the first.
    let mut waiting: BTreeMap<(&str, &str, &str), Vec<&'a Finding>> = BTreeMap::new();
    for finding in new.review.findings.iter().rev() {
        waiting.entry((finding.card.name, &finding.subject.name, finding.check)).or_default().push(finding);
    }
    let mut pairs = Vec::new();
    for finding in &old.review.findings {
        let guess = now(&finding.subject.name);
        let name = guess.unwrap_or(&finding.subject.name);
        let match_ = waiting.get_mut(&(finding.card.name, name, finding.check)).and_then(Vec::pop);
        pairs.push(pair(Some(finding), match_, guess.is_some() && match_.is_some()));
    }
    pairs.extend(waiting.into_values().flatten().map(|finding| pair(None, Some(finding), false)));
    let weight = |pair: &Pair<'_>| pair.latest().map(|finding| (finding.consequence.is_none(), finding.consequence));
    let headroom = |pair: &Pair<'_>| pair.latest().map_or(f64::INFINITY, Finding::headroom);
    let name = |pair: &Pair<'a>| pair.latest().map(|one| (one.subject.name.as_str(), one.card.name, one.check));
    pairs.sort_by(|a, b| {
        (a.change, !a.worse, weight(a))
            .cmp(&(b.change, !b.worse, weight(b)))
            .then(headroom(a).total_cmp(&headroom(b)))
            .then_with(|| name(a).cmp(&name(b)))
    });
    Comparison { pairs, renamed }
}

fn pair<'a>(old: Option<&'a Finding>, new: Option<&'a Finding>, guessed: bool) -> Pair<'a> {
    let change = match (old, new) {
        (None, _) => Change::Appeared,
        (_, None) => Change::Vanished,
        (Some(old), Some(new)) => change(old, new),
    };
    let worse = new.is_some_and(|new| new.stands() && worse(old, new));
    Pair { old, new, change, worse, guessed }
}

fn change(old: &Finding, new: &Finding) -> Change {
    if old.verdict != new.verdict {
        return if worse(Some(old), new) { Change::Worsened } else { Change::Improved };
    }
    let (before, after) = (old.headroom(), new.headroom());
    if same(before, after) {
        Change::Unchanged
    } else if after < before {
        Change::Worsened
    } else {
        Change::Improved
    }
}

pub(crate) fn same(a: f64, b: f64) -> bool {
    a.total_cmp(&b).is_eq() || (a - b).abs() < SAME
}

/// What can no longer be judged got worse, whatever it was: nothing passes for lack of data. What is new and holds, or
/// waits for data, takes nothing away.
fn worse(old: Option<&Finding>, new: &Finding) -> bool {
    match old {
        None => matches!(new.verdict, Verdict::Broken | Verdict::Fails | Verdict::Thin),
        Some(old) if old.verdict == new.verdict => false,
        Some(_) if new.verdict == Verdict::NotJudged => true,
        Some(old) => goodness(new.verdict) < goodness(old.verdict),
    }
}

fn goodness(verdict: Verdict) -> u8 {
    match verdict {
        Verdict::Broken => 0,
        Verdict::Fails => 1,
        Verdict::NotJudged => 2,
        Verdict::Thin => 3,
        Verdict::Partly => 4,
        Verdict::Sound => 5,
    }
}

#[cfg(test)]
mod tests;
