//! The drawings of a machine: which case points they show, and what of them.

mod landing;
mod oil;
mod pull;
mod reserve;
mod spring;
#[cfg(test)]
mod tests;

use crate::chart::Drawing;
use crate::finding::CaseLabel;
use crate::points::label;
use crate::review::Review;
use machine::{Case, Found, Machine, NotJudged, WhatIf};
use quantity::{Measure, Quantity, show};
use rule::Rule;
use solve::{At, CasePoint, Cells};
use std::panic::{AssertUnwindSafe, catch_unwind};

/// All drawings that this machine has something for, in the order of a review. A missing figure leaves a sentence.
#[must_use]
pub fn charts(machine: &Machine, rules: &[&dyn Rule], review: &Review) -> Vec<Drawing> {
    let mut all: Vec<Drawing> = pull::drawing(machine).into_iter().collect();
    all.extend(reserve::drawings(machine, rules, review));
    all.extend(spring::drawing(machine));
    all.extend(landing::drawings(machine));
    all.extend(oil::drawing(machine));
    all
}

/// Asks in one case point, afresh.
fn ask<T>(machine: &Machine, point: CasePoint, question: impl FnOnce(&At) -> Found<T>) -> Found<T> {
    let what_if = WhatIf::default();
    let cells = Cells::default();
    let at = At::new(machine, point, &what_if, &cells);
    // A mistake in one drawing leaves the others alone, as in a solution.
    catch_unwind(AssertUnwindSafe(|| question(&at)))
        .unwrap_or_else(|_| Err(NotJudged::Failed("the calculation itself failed; please report this".into())))
}

/// The points of cases that are wanted, in the order of the text.
fn points(machine: &Machine, wanted: impl Fn(&Case) -> bool) -> Vec<CasePoint> {
    let wanted = |point: &CasePoint| machine.cases.get(point.case).is_some_and(|case| wanted(case));
    crate::points::case_points(machine).into_iter().filter(wanted).collect()
}

/// `climb at -30 °C`.
fn named(machine: &Machine, point: CasePoint) -> String {
    match ask(machine, point, |at| Ok(label(at))) {
        Ok(CaseLabel { name, air: Some(air) }) => format!("{name} at {}", shown::<quantity::m::Temperature>(air)),
        Ok(CaseLabel { name, air: None }) => name,
        Err(_) => String::new(),
    }
}

fn shown<M: Measure>(si: f64) -> String {
    show(si, M::KIND, None)
}

/// Coldest and hottest of some points by their outside air; one of them where they are alike.
fn ends(machine: &Machine, points: &[CasePoint]) -> Vec<CasePoint> {
    let air = |point: &CasePoint| ask(machine, *point, |at| Ok(at.surroundings()?.outside.si())).unwrap_or(f64::NAN);
    let mut known: Vec<(f64, CasePoint)> = points.iter().map(|point| (air(point), *point)).collect();
    known.sort_by(|a, b| a.0.total_cmp(&b.0));
    let known: Vec<(f64, CasePoint)> = match known.iter().filter(|(air, _)| air.is_finite()).count() {
        0 => known.into_iter().take(1).collect(),
        count => known.into_iter().filter(|(air, _)| air.is_finite()).take(count).collect(),
    };
    match (known.first(), known.last()) {
        (Some(first), Some(last)) if last.0 > first.0 => vec![first.1, last.1],
        (Some(first), _) => vec![first.1],
        _ => Vec::new(),
    }
}

/// The first thing that was missing, for a drawing of which nothing is left.
fn first_gap(missing: Vec<(String, NotJudged)>) -> NotJudged {
    let none = || NotJudged::NoSolution("no case of this spec has anything to show here".into());
    missing.into_iter().next().map_or_else(none, |(_, gap)| gap)
}
