//! One run of all rules over all case points, kept so that a replaced number reruns only what has read it.

use crate::finding::CaseLabel;
use crate::points::label;
use crate::workshop;
use machine::{Machine, Marks, NodeId, Nodes, WhatIf};
use rayon::prelude::*;
use rule::{Checked, Checks, Outcome, Rule};
use solve::{At, CasePoint, Cells};
use std::sync::Arc;

mod sample;
pub use sample::Selection;

/// What one case point came to.
#[derive(Debug)]
struct AtPoint {
    point: CasePoint,
    case: CaseLabel,
    cells: Cells,
    /// By rule; each check with its position.
    checks: Vec<Rows>,
    /// By rule: all that its checks have read.
    reads: Vec<Arc<Nodes>>,
}

fn all_reads(rows: &Rows) -> Arc<Nodes> {
    let mut all = Marks::default();
    rows.iter().for_each(|(_, checked)| all.extend(&checked.reads.nodes));
    Arc::new(all.nodes())
}

/// The checks of one rule in one case point, shared by the runs in which they came to the same.
type Rows = Arc<[(usize, Arc<Checked>)]>;

fn rows(done: Vec<(usize, Checked)>) -> Rows {
    done.into_iter().map(|(position, checked)| (position, Arc::new(checked))).collect()
}

/// A finished run.
#[derive(Debug)]
pub struct Run {
    points: Vec<AtPoint>,
}

impl Run {
    /// Everything, with the numbers of `what_if` in place of the written ones. Parallel over case points; the result does
    /// not depend on the number of threads.
    #[must_use]
    pub fn full(machine: &Machine, rules: &[&dyn Rule], points: &[CasePoint], what_if: &WhatIf) -> Self {
        let points = points
            .par_iter()
            .map(|point| {
                let cells = Cells::default();
                let run = |rule: &&dyn Rule| {
                    let checks = Checks::new(machine, *point, what_if, &cells, rule::Run::All, false);
                    rows(judged(machine, *rule, checks))
                };
                let checks: Vec<Rows> = rules.iter().map(run).collect();
                let reads = checks.iter().map(all_reads).collect();
                let case = named(machine, *point, what_if, &cells);
                AtPoint { point: *point, case, cells, checks, reads }
            })
            .collect();
        Self { points }
    }

    /// The same after some numbers were replaced: only what has read one of them runs again.
    #[must_use]
    pub fn again(&self, machine: &Machine, rules: &[&dyn Rule], what_if: &WhatIf, changed: &[NodeId]) -> Self {
        let points = self
            .points
            .par_iter()
            .map(|base| {
                let stale = |reads: &Nodes| changed.iter().any(|node| reads.contains(*node));
                let cells = base.cells.without(|reads| stale(&reads.nodes));
                let (checks, reads) = rules
                    .iter()
                    .zip(base.checks.iter().zip(&base.reads))
                    .map(|(rule, (before, reads))| {
                        if !stale(reads) {
                            return (Arc::clone(before), Arc::clone(reads));
                        }
                        let mask = mask(before, |checked| stale(&checked.reads.nodes));
                        let checks = Checks::new(machine, base.point, what_if, &cells, rule::Run::Only(&mask), false);
                        let mut fresh = judged(machine, *rule, checks).into_iter().peekable();
                        let renewed = |old: &(usize, Arc<Checked>)| {
                            let new = fresh.next_if(|new| new.0 == old.0).map(|(_, checked)| Arc::new(checked));
                            (old.0, new.unwrap_or_else(|| Arc::clone(&old.1)))
                        };
                        let rows: Rows = before.iter().map(renewed).collect();
                        let reads = all_reads(&rows);
                        (rows, reads)
                    })
                    .unzip();
                let case = named(machine, base.point, what_if, &cells);
                AtPoint { point: base.point, case, cells, checks, reads }
            })
            .collect();
        Self { points }
    }

    /// One check once more in one case point with some numbers replaced, with its words if they are wanted.
    #[must_use]
    pub fn one(
        &self,
        machine: &Machine,
        rule: &dyn Rule,
        place: Place,
        what_if: &WhatIf,
        changed: &[NodeId],
        telling: bool,
    ) -> Option<Checked> {
        let base = self.points.get(place.point)?;
        let before = base.checks.get(place.rule)?;
        let cells = base.cells.without(|reads| changed.iter().any(|node| reads.has(*node)));
        let mask = mask(before, |checked| {
            before
                .get(place.row)
                .is_some_and(|(_, wanted)| wanted.subject == checked.subject && wanted.check == checked.check)
        });
        let checks = Checks::new(machine, base.point, what_if, &cells, rule::Run::Only(&mask), telling);
        judged(machine, rule, checks).pop().map(|(_, checked)| checked)
    }

    /// Some checks of one case point with one number replaced, without notes: only their outcomes are wanted.
    #[must_use]
    pub(crate) fn nudged(
        &self,
        machine: &Machine,
        rules: &[&dyn Rule],
        places: &[Place],
        what_if: &WhatIf,
        node: NodeId,
    ) -> Vec<Option<Outcome>> {
        let Some(base) = places.first().and_then(|place| self.points.get(place.point)) else { return Vec::new() };
        let cells = base.cells.without(|reads| reads.has(node));
        let one = |place: &Place| {
            let (rule, before) = (rules.get(place.rule)?, base.checks.get(place.rule)?);
            let position = before.get(place.row)?.0;
            let mut mask = vec![false; position + 1];
            *mask.get_mut(position)? = true;
            let checks = Checks::new(machine, base.point, what_if, &cells, rule::Run::Only(&mask), false).quiet();
            judged(machine, *rule, checks).pop().map(|(_, checked)| checked.outcome)
        };
        places.iter().map(one).collect()
    }

    /// What a report calls the case point of that place.
    pub(crate) fn case(&self, place: Place) -> Option<&CaseLabel> {
        self.points.get(place.point).map(|at| &at.case)
    }

    /// Every check of every rule in every case point.
    pub fn rows(&self) -> impl Iterator<Item = (Place, CasePoint, &Checked)> {
        self.points.iter().enumerate().flat_map(|(point, at)| {
            at.checks.iter().enumerate().flat_map(move |(rule, rows)| {
                rows.iter()
                    .enumerate()
                    .map(move |(row, (_, checked))| (Place { rule, point, row }, at.point, &**checked))
            })
        })
    }
}

/// After the rules, so that it costs nothing where one of them has asked for the air.
fn named(machine: &Machine, point: CasePoint, what_if: &WhatIf, cells: &Cells) -> CaseLabel {
    label(&At::new(machine, point, what_if, cells))
}

/// Runs the checks of one rule: the one place where a rule is asked, and where the workshop has its say.
fn judged(machine: &Machine, rule: &dyn Rule, mut checks: Checks<'_>) -> Vec<(usize, Checked)> {
    rule.judge(machine, &mut checks);
    let mut done = checks.done();
    workshop::settle(machine, rule.card(), &mut done);
    done
}

/// Where a check stands in a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Place {
    pub rule: usize,
    pub point: usize,
    pub row: usize,
}

fn mask(rows: &[(usize, Arc<Checked>)], wanted: impl Fn(&Checked) -> bool) -> Vec<bool> {
    let mut mask = vec![false; rows.last().map_or(0, |last| last.0 + 1)];
    for (position, checked) in rows {
        if let Some(flag) = mask.get_mut(*position) {
            *flag = wanted(checked);
        }
    }
    mask
}
