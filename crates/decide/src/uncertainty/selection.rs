//! Which case points a margin needs. Most of a review's time goes into points that never come near its worst; which these
//! are is learned from samples that ran in all of them, and verified on others that did.

#[cfg(test)]
mod tests;

use super::tally::{State, Worst};
use super::{inputs::Input, is_judged};
use engine::{Place, Review};
use rayon::prelude::*;
use rule::{Checked, Rule};
use std::collections::{BTreeMap, HashMap};

/// Full samples from which the points are chosen; the other full ones verify the choice.
pub(super) const LEARNED: usize = 100;

/// A point is left out where its distance from the margin's worst is on average so many times its own standard deviation:
/// of normal distances one in 30,000 would come below nothing.
const FAR: f64 = 4.0;

/// Or where it never came within this share of the margin's own span from its worst.
const BAND: f64 = 0.05;

/// One margin: where it is judged, and what of that is kept.
#[derive(Debug)]
pub(super) struct Group {
    pub finding: usize,
    /// Inputs that it reads, as indices.
    pub inputs: Vec<usize>,
    /// Its rows: from the first to before the last, among the rows of all groups.
    pub rows: std::ops::Range<usize>,
    /// The case point of each row.
    points: Vec<usize>,
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
        let points = rows.iter().map(|(place, _)| place.point).collect();
        let (rows, kept) = (first..first + rows.len(), vec![true; rows.len()]);
        groups.push(Group { finding, inputs, rows, points, kept, widened: false });
    }
    (groups, places, untouched)
}

impl Group {
    /// Whether one of its rows runs, by its number among the rows of all groups.
    pub fn keeps(&self, row: usize) -> bool {
        self.widened || row.checked_sub(self.rows.start).and_then(|row| self.kept.get(row)).is_some_and(|kept| *kept)
    }

    /// Its own rows of each sample.
    fn own<'a>(&self, full: &'a [Vec<Worst>]) -> Vec<&'a [Worst]> {
        full.iter().map(|sample| sample.get(self.rows.clone()).unwrap_or(&[])).collect()
    }

    /// Rows that are, or may well become, the worst; those that agree in every full sample, and so ask the same question,
    /// stand together.
    fn needed(&self, full: &[Vec<Worst>]) -> Vec<Vec<usize>> {
        let samples = self.own(full);
        let learned = samples.get(..LEARNED).unwrap_or(&samples);
        let mut alike: Vec<Vec<usize>> = Vec::new();
        for row in (0..self.kept.len()).filter(|row| may_govern(*row, learned)) {
            let agree = |other: usize| {
                samples.iter().all(|sample| sample.get(row).zip(sample.get(other)).is_some_and(|(a, b)| a.agrees(b)))
            };
            match alike.iter_mut().find(|rows| rows.first().is_some_and(|first| agree(*first))) {
                Some(rows) => rows.push(row),
                None => alike.push(vec![row]),
            }
        }
        alike
    }

    /// Keeps these rows, and all where that makes a difference in a sample that did not choose them.
    fn keep(&mut self, rows: &[usize], full: &[Vec<Worst>]) {
        self.kept = (0..self.kept.len()).map(|row| rows.contains(&row)).collect();
        let worst = |sample: &[Worst], only: bool| {
            let rows = sample.iter().zip(&self.kept).filter(|(_, kept)| **kept || !only);
            rows.fold(Worst::NONE, |worst, (row, _)| worst.or(*row))
        };
        let verified = self.own(full).into_iter().skip(LEARNED);
        self.widened = verified.into_iter().any(|sample| !worst(sample, false).agrees(&worst(sample, true)));
    }
}

/// Whether a row is the worst in one of the samples, or neither [`FAR`] nor out of the [`BAND`].
fn may_govern(row: usize, samples: &[&[Worst]]) -> bool {
    let (mut distances, mut near) = (Vec::with_capacity(samples.len()), false);
    for sample in samples {
        let judged = || sample.iter().filter(|row| row.state != State::NotJudged);
        let Some(own) = sample.get(row).filter(|row| row.state != State::NotJudged) else { continue };
        let least = judged().map(|row| row.rank).fold(f64::INFINITY, f64::min);
        if own.rank == least {
            return true;
        }
        let most = judged().map(|row| row.rank).filter(|rank| rank.is_finite()).fold(least, f64::max);
        near |= own.rank <= least + BAND * (most - least);
        distances.push(own.rank - least);
    }
    #[expect(clippy::cast_precision_loss, reason = "a hundred samples")]
    let count = distances.len() as f64;
    let mean = distances.iter().sum::<f64>() / count;
    let variance = distances.iter().map(|distance| (distance - mean).powi(2)).sum::<f64>() / count;
    // Of distances that are not all finite (clear, or broken elsewhere) nothing is known.
    let far = mean >= FAR * variance.sqrt();
    near && !far
}

/// Chooses which rows of each margin run from now on. Where several would do, the one in the case point that most margins
/// can use, so that few case points need their solutions.
pub(super) fn choose(groups: &mut [Group], full: &[Vec<Worst>]) {
    let needed: Vec<Vec<Vec<usize>>> = groups.par_iter().map(|group| group.needed(full)).collect();
    let point = |group: &Group, row: usize| group.points.get(row).copied().unwrap_or(usize::MAX);
    let mut uses: HashMap<usize, usize> = HashMap::new();
    for (group, needed) in groups.iter().zip(&needed) {
        needed.iter().flatten().for_each(|row| *uses.entry(point(group, *row)).or_default() += 1);
    }
    groups.par_iter_mut().zip(&needed).for_each(|(group, needed)| {
        let best = |rows: &Vec<usize>| {
            let by_use = |row: &&usize| (uses.get(&point(group, **row)), std::cmp::Reverse(**row));
            rows.iter().max_by_key(by_use).copied()
        };
        let rows: Vec<usize> = needed.iter().filter_map(best).collect();
        group.keep(&rows, full);
    });
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
