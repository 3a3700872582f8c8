//! What the review says of missing figures comes true: once the few are given, so many more checks are judged.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod specs;

use document::{Document, Node, Swap, Swaps};
use engine::{Finding, Run, case_points, verdicts_of};
use machine::{Machine, NodeId, NotJudged, WhatIf};
use rayon::prelude::*;
use rule::Verdict;
use rulebook::RULES;

/// The verdicts once these are given: one gap may stand behind another.
fn given(machine: &Machine, absent: &[NodeId]) -> Vec<Finding> {
    let points = case_points(machine);
    let mut what_if = WhatIf::default();
    let mut findings = Vec::new();
    for _ in 0..=absent.len() {
        findings = verdicts_of(&Run::full(machine, RULES, &points, &what_if), machine, RULES);
        for (_, gap) in findings.iter().flat_map(|finding| &finding.gaps) {
            match gap {
                NotJudged::NotGiven { absent: one, typical } if absent.contains(one) => what_if.set(*one, *typical),
                _ => {}
            }
        }
    }
    findings
}

/// Of the checks that the review could not judge, those that are judged now.
fn judged(before: &[Finding], now: &[Finding]) -> usize {
    let same = |a: &Finding, b: &Finding| a.card.name == b.card.name && a.subject == b.subject && a.check == b.check;
    let judged = |one: &Finding| {
        now.iter().any(|other| same(one, other) && !matches!(other.verdict, Verdict::NotJudged | Verdict::Broken))
    };
    before.iter().filter(|finding| finding.verdict == Verdict::NotJudged && judged(finding)).count()
}

fn leaves(node: &Node, found: &mut Vec<NodeId>) {
    node.entries().iter().filter(|entry| entry.value.text().is_some()).for_each(|entry| found.push(entry.value.id));
    node.entries().iter().for_each(|entry| leaves(&entry.value, found));
    node.items().iter().for_each(|item| leaves(item, found));
}

/// How many checks were promised, once it has been tried.
fn promised(document: &Document, machine: &Machine) -> usize {
    let review = engine::review(document, machine, RULES, &[], None);
    let Some(together) = &review.unlocks.together else { return 0 };
    let all = judged(&review.findings, &given(machine, &together.absent));
    assert!(all >= together.checks, "{} checks were promised, and {all} are judged", together.checks);
    for left_out in 0..together.absent.len() {
        let mut fewer = together.absent.clone();
        fewer.remove(left_out);
        let without = judged(&review.findings, &given(machine, &fewer));
        let name = |id: &NodeId| machine.absent(*id).map(|absent| (document.path(absent.parent), absent.field));
        let names: Vec<_> = together.absent.iter().map(name).collect();
        assert!(without < all, "{left_out} of {names:?} is not needed: {all} checks with or without");
    }
    together.checks
}

/// In each example some neighbouring figures are struck out.
#[test]
fn what_is_worth_finding_out_lets_as_many_checks_be_judged_as_promised() {
    const STRUCK: usize = 5;
    for path in specs::examples() {
        let document = specs::load(&path);
        let mut nodes = Vec::new();
        leaves(&document.root, &mut nodes);
        let own = |node: &NodeId| document.file(document.place(*node).file).is_some_and(|file| !file.built_in);
        nodes.retain(own);
        let struck = |nodes: &[NodeId]| {
            let swaps: Swaps = nodes.iter().map(|node| (*node, Swap::Removed)).collect();
            Machine::read(&document, &swaps).map_or(0, |machine| promised(&document, &machine))
        };
        // Some thirty of each example, spread over its text.
        let stride = specs::one_in(nodes.len() / STRUCK / 30);
        let tried: Vec<&[NodeId]> = nodes.chunks(STRUCK).step_by(stride).collect();
        let counts: Vec<usize> = tried.par_iter().map(|nodes| struck(nodes)).collect();
        assert!(counts.iter().filter(|count| **count > 1).count() > 3, "{}: {counts:?}", path.display());
    }
}
