//! Two changes that clear a finding only together: a choice and a number, or two choices.

use super::Remedy;
use super::bench::Bench;
use super::change::Change;
use super::choices::Tried;
use super::dial::{Dial, dials};
use super::effect::twin;
use super::numbers::{Unreached, turned};
use engine::{Finding, Run, case_points, verdicts_of};
use machine::WhatIf;
use rayon::prelude::*;
use rule::Rule;

/// So many choices, and so many numbers, are tried with others: those that help most by themselves.
const CHOICES: usize = 4;
const OF_ONE: usize = 2;
const NUMBERS: usize = 8;

/// All that is found with the choices that help.
pub(super) fn with_choices(
    bench: &Bench<'_>,
    finding: &Finding,
    helping: &[Tried],
    unreached: &[Unreached],
) -> Vec<Remedy> {
    let best = best(helping);
    let mut remedies: Vec<Remedy> =
        best.iter().flat_map(|tried| and_a_number(bench, finding, tried, unreached)).collect();
    let mut pairs = Vec::new();
    for (index, first) in best.iter().enumerate() {
        let others = best.iter().skip(index + 1);
        pairs.extend(others.filter(|other| other.change.node() != first.change.node()).map(|other| [*first, *other]));
    }
    remedies.par_extend(pairs.par_iter().filter_map(|pair| both(bench, finding, pair)));
    remedies
}

/// Those that help most, no more than a few of one place in the text.
fn best(helping: &[Tried]) -> Vec<&Tried> {
    let mut sorted: Vec<&Tried> = helping.iter().collect();
    sorted.sort_by(|a, b| b.headroom().total_cmp(&a.headroom()).then(a.effort.total_cmp(&b.effort)));
    let mut best: Vec<&Tried> = Vec::new();
    for tried in sorted {
        let there = best.iter().filter(|other| other.change.node() == tried.change.node()).count();
        if there < OF_ONE && best.len() < CHOICES {
            best.push(tried);
        }
    }
    best
}

fn both(bench: &Bench<'_>, finding: &Finding, pair: &[&Tried; 2]) -> Option<Remedy> {
    let changes: Vec<Change> = pair.iter().map(|tried| tried.change.clone()).collect();
    let own = bench.own(finding, &bench.changed(&changes)?);
    if own.is_some_and(|own| !own.verdict.holds()) {
        return None;
    }
    let (effect, headroom) = bench.foretell(finding, &changes)?;
    let effort = pair.iter().map(|tried| tried.effort).sum();
    Some(Remedy { changes, effect, limit_of_use: false, effort, headroom })
}

/// The machine is read again with the choice; then the numbers that help, or the one that is lacking, are turned there.
fn and_a_number(bench: &Bench<'_>, finding: &Finding, tried: &Tried, unreached: &[Unreached]) -> Vec<Remedy> {
    let former = std::slice::from_ref(&tried.change);
    let (Some(machine), Some(rule)) = (bench.changed(former), bench.rules.get(finding.place().rule)) else {
        return Vec::new();
    };
    let rules: [&dyn Rule; 1] = [*rule];
    let run = Run::full(&machine, &rules, &case_points(&machine), &WhatIf::default());
    let findings = verdicts_of(&run, &machine, &rules);
    let Some(own) = twin(&findings, finding) else { return Vec::new() };
    let before = Some((bench, former, finding));
    let changed = Bench { machine: &machine, rules: &rules, run: &run, findings: &findings, before, ..*bench };
    let chosen: Vec<Dial<'_>> = match tried.lacks {
        Some((absent, typical)) => Dial::lacked(&machine, bench.document, absent, typical).into_iter().collect(),
        None => {
            let helps = |dial: &Dial<'_>| unreached.iter().take(NUMBERS).any(|other| other.node == dial.node);
            dials(&changed, own).into_iter().filter(|dial| !dial.limit_of_use && helps(dial)).collect()
        }
    };
    let mut remedies = turned(&changed, own, &chosen).remedies;
    for remedy in &mut remedies {
        remedy.changes.insert(0, tried.change.clone());
        remedy.effort += tried.effort;
    }
    remedies
}
