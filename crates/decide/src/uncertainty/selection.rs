//! Which case points a margin needs. Most of a review's time goes into points that never come near its worst; which these
//! are is learned from samples that ran in all of them, and verified on others that did.

use super::tally::{State, Worst};
use super::{inputs::Input, is_judged};
use engine::{Place, Review};
use rule::{Checked, Rule};
use std::collections::{BTreeMap, HashMap};

/// Full samples from which the points are chosen; the other full ones verify the choice.
pub(super) const LEARNED: usize = 100;

/// A point that came within this share of the margin's own span from its worst, in any of those, is kept.
const BAND: f64 = 0.05;

/// One margin: where it is judged, and what of that is kept.
#[derive(Debug)]
pub(super) struct Group {
    pub finding: usize,
    /// Inputs that it reads, as indices.
    pub inputs: Vec<usize>,
    /// Its rows: from the first to before the last, among the rows of all groups.
    pub rows: std::ops::Range<usize>,
    /// Which of its rows run after the full samples.
    kept: Vec<bool>,
    widened: bool,
}

/// What was left out, and how that was verified.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LeftOut {
    /// Checks times case points.
    pub all: usize,
    pub kept: usize,
    /// Samples that ran in all of them.
    pub full: usize,
    /// Those among them on which the choice was verified.
    pub verified: usize,
    /// Margins for which that made a difference, so that all of theirs ran in all samples.
    pub widened: usize,
}

/// Place (case point, rule, row) → its margin, and its row among those of all groups.
pub(super) type Places = HashMap<(usize, usize, usize), (usize, usize)>;

pub(super) fn key(place: Place) -> (usize, usize, usize) {
    (place.point, place.rule, place.row)
}

/// The margins that read a drawn input, where their rows stand, and the judged findings that read none.
pub(super) fn groups(review: &Review, rules: &[&dyn Rule], inputs: &[Input]) -> (Vec<Group>, Places, Vec<usize>) {
    let findings: HashMap<_, usize> = review
        .findings
        .iter()
        .enumerate()
        .map(|(index, finding)| ((finding.card.name, &finding.subject, finding.check), index))
        .collect();
    let mut rows: BTreeMap<usize, Vec<(Place, &Checked)>> = BTreeMap::new();
    for (place, _, checked) in review.run.rows() {
        let Some(rule) = rules.get(place.rule) else { continue };
        if let Some(finding) = findings.get(&(rule.card().name, &checked.subject, checked.check)) {
            rows.entry(*finding).or_default().push((place, checked));
        }
    }
    let (mut groups, mut places, mut untouched) = (Vec::new(), Places::new(), Vec::new());
    for (finding, rows) in rows {
        if !review.findings.get(finding).is_some_and(is_judged) {
            continue;
        }
        let reads = |input: &Input| {
            input.moved.iter().any(|moved| rows.iter().any(|(_, checked)| checked.reads.has(moved.node)))
        };
        let inputs: Vec<usize> =
            inputs.iter().enumerate().filter(|(_, input)| reads(input)).map(|(index, _)| index).collect();
        if inputs.is_empty() {
            untouched.push(finding);
            continue;
        }
        let first = places.len();
        places.extend(rows.iter().enumerate().map(|(row, (place, _))| (key(*place), (groups.len(), first + row))));
        let (rows, kept) = (first..first + rows.len(), vec![true; rows.len()]);
        groups.push(Group { finding, inputs, rows, kept, widened: false });
    }
    (groups, places, untouched)
}

impl Group {
    /// Whether one of its rows runs, by its number among the rows of all groups.
    pub fn keeps(&self, row: usize) -> bool {
        self.widened || row.checked_sub(self.rows.start).and_then(|row| self.kept.get(row)).is_some_and(|kept| *kept)
    }

    /// Chooses the rows from full samples, each with all rows of all groups.
    pub fn choose(&mut self, full: &[Vec<Worst>]) {
        let own = |sample: &'_ Vec<Worst>| sample.get(self.rows.clone()).unwrap_or(&[]).to_vec();
        let samples: Vec<Vec<Worst>> = full.iter().map(own).collect();
        let (learned, verified) = samples.split_at(LEARNED.min(samples.len()));
        let mut near = vec![false; self.kept.len()];
        for sample in learned {
            let judged = || sample.iter().filter(|row| row.state != State::NotJudged);
            let least = judged().map(|row| row.rank).fold(f64::INFINITY, f64::min);
            let most = judged().map(|row| row.rank).filter(|rank| rank.is_finite()).fold(least, f64::max);
            let limit = if (most - least).is_finite() { least + BAND * (most - least) } else { least };
            for (near, row) in near.iter_mut().zip(sample) {
                *near |= row.state != State::NotJudged && row.rank <= limit;
            }
        }
        // Points that agree in every full sample to the last bit ask the same question; one of them is enough.
        let mut seen: Vec<Vec<(State, u64, u64)>> = Vec::new();
        for (row, near) in near.iter_mut().enumerate().filter(|(_, near)| **near) {
            let bits = |sample: &Vec<Worst>| {
                sample
                    .get(row)
                    .map_or((State::NotJudged, 0, 0), |row| (row.state, row.rank.to_bits(), row.reserve.to_bits()))
            };
            let history = samples.iter().map(bits).collect();
            *near = !seen.contains(&history);
            if *near {
                seen.push(history);
            }
        }
        self.kept = near;
        let worst = |sample: &[Worst], only: bool| {
            let rows = sample.iter().zip(&self.kept).filter(|(_, kept)| **kept || !only);
            rows.fold(Worst::NONE, |worst, (row, _)| worst.or(*row))
        };
        self.widened = verified.iter().any(|sample| !worst(sample, false).agrees(&worst(sample, true)));
    }
}

pub(super) fn left_out(groups: &[Group], full: usize) -> LeftOut {
    let kept = |group: &Group| group.rows.clone().filter(|row| group.keeps(*row)).count();
    LeftOut {
        all: groups.iter().map(|group| group.rows.len()).sum(),
        kept: groups.iter().map(kept).sum(),
        full,
        verified: full.saturating_sub(LEARNED),
        widened: groups.iter().filter(|group| group.widened).count(),
    }
}
