//! Some checks in some case points, over and over with many numbers replaced at once: no notes, no words, and only the
//! solutions that those numbers reach are worked out again.

use super::{Place, Run, judged, mask};
use machine::{Machine, NodeId, WhatIf};
use rule::{Checks, Outcome, Rule};
use solve::{CasePoint, Cells};

/// Which checks run, and in which case points.
#[derive(Debug)]
pub struct Selection {
    points: Vec<Point>,
}

#[derive(Debug)]
struct Point {
    index: usize,
    point: CasePoint,
    /// Solutions that no replaced number reaches.
    cells: Cells,
    /// By rule: which positions run, and the row of each.
    rules: Vec<(usize, Vec<bool>, Vec<(usize, usize)>)>,
}

impl Run {
    /// The checks that are `wanted`, for samples in which the numbers of `changed` are replaced.
    #[must_use]
    pub fn select(&self, wanted: &dyn Fn(Place) -> bool, changed: &[NodeId]) -> Selection {
        let points = self.points.iter().enumerate().filter_map(|(index, base)| {
            let rules: Vec<_> = base
                .checks
                .iter()
                .enumerate()
                .filter_map(|(rule, rows)| {
                    let chosen = rows.iter().enumerate();
                    let chosen: Vec<(usize, usize)> = chosen
                        .filter(|(row, _)| wanted(Place { rule, point: index, row: *row }))
                        .map(|(row, (position, _))| (*position, row))
                        .collect();
                    let mut flags = mask(rows, |_| false);
                    for (position, _) in &chosen {
                        if let Some(flag) = flags.get_mut(*position) {
                            *flag = true;
                        }
                    }
                    (!chosen.is_empty()).then_some((rule, flags, chosen))
                })
                .collect();
            let cells = base.cells.without(|reads| changed.iter().any(|node| reads.has(*node)));
            (!rules.is_empty()).then_some(Point { index, point: base.point, cells, rules })
        });
        Selection { points: points.collect() }
    }
}

impl Selection {
    /// Runs the selected checks once and hands out each outcome, in a fixed order.
    pub fn run(&self, machine: &Machine, rules: &[&dyn Rule], what_if: &WhatIf, each: &mut dyn FnMut(Place, Outcome)) {
        for point in &self.points {
            let cells = point.cells.without(|_| false);
            for (rule, flags, rows) in &point.rules {
                let Some(judge) = rules.get(*rule) else { continue };
                let checks = Checks::new(machine, point.point, what_if, &cells, rule::Run::Only(flags), false).quiet();
                for (position, checked) in judged(machine, *judge, checks) {
                    let Ok(at) = rows.binary_search_by_key(&position, |row| row.0) else { continue };
                    let Some((_, row)) = rows.get(at) else { continue };
                    each(Place { rule: *rule, point: point.index, row: *row }, checked.outcome);
                }
            }
        }
    }
}
