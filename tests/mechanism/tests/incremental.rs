//! Running again only what has read a replaced number gives what a full run with that number gives, check by check.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod specs;

use engine::{Run, case_points};
use machine::{Machine, NodeId, WhatIf};
use quantity::m;
use rayon::prelude::*;
use rule::Rule;
use rulebook::RULES;
use std::path::Path;

/// Every check with its case point, outcome and reads; numbers to the last bit.
fn rows(run: &Run) -> Vec<String> {
    run.rows().map(|(place, point, checked)| format!("{place:?} {point:?} {checked:?}")).collect()
}

/// Written numbers with their SI size: both slots of a range.
fn numbers(document: &document::Document) -> Vec<(NodeId, f64)> {
    let mut found = Vec::new();
    let mut seen = std::collections::BTreeSet::new();
    document.root.walk(&mut |node| {
        let values = node
            .entries()
            .iter()
            .map(|entry| (entry.key_id, &*entry.key))
            .chain(node.text().map(|text| (node.id, text)));
        for (id, text) in values {
            let ends = m::ALL.iter().find_map(|kind| quantity::read_range(text, kind).ok());
            let Some((low, high)) = ends.filter(|_| seen.insert(id)) else { continue };
            found.push((id, low.si));
            if text.contains(" to ") {
                found.push((id.upper(), high.si));
            }
        }
    });
    found
}

/// Differences, and how many replaced numbers changed anything at all.
fn try_numbers(path: &Path, rules: &[&dyn Rule], stride: usize) -> (Vec<String>, usize, usize) {
    let (document, machine) = specs::sound(path);
    let points = case_points(&machine);
    let base = Run::full(&machine, rules, &points, &WhatIf::default());
    let before = rows(&base);
    let all = numbers(&document);
    let tried: Vec<&(NodeId, f64)> = all.iter().step_by(stride).collect();
    let results: Vec<(Option<String>, bool)> = tried
        .par_iter()
        .map(|(node, si)| {
            let mut what_if = WhatIf::default();
            what_if.set(*node, if *si == 0.0 { 0.01 } else { si * 1.01 });
            let full = rows(&Run::full(&machine, rules, &points, &what_if));
            let again = rows(&base.again(&machine, rules, &what_if, &[*node]));
            let wrong = full.iter().zip(&again).find(|(full, again)| full != again);
            let name = || format!("{} {}", path.file_name().unwrap().to_string_lossy(), document.path(node.node()));
            let wrong = wrong.map(|(full, again)| format!("{}:\n  full  {full}\n  again {again}", name()));
            let counts = (full.len() != again.len())
                .then(|| format!("{}: {} checks, again {}", name(), full.len(), again.len()));
            (wrong.or(counts), full != before)
        })
        .collect();
    let changed = results.iter().filter(|(_, changed)| *changed).count();
    (results.into_iter().filter_map(|(wrong, _)| wrong).collect(), changed, tried.len())
}

fn assert_equal(path: &Path, rules: &[&dyn Rule], stride: usize) -> (usize, usize) {
    let (wrong, changed, tried) = try_numbers(path, rules, stride);
    assert!(
        wrong.is_empty(),
        "{} of {tried} numbers give another result in part than in full:\n{}",
        wrong.len(),
        wrong.join("\n")
    );
    (changed, tried)
}

#[test]
fn in_part_is_in_full_for_every_number_of_the_spec_with_everything() {
    let (changed, tried) = assert_equal(&specs::everything(), &specs::rules(), specs::one_in(4));
    // The probe alone answers to fourteen.
    assert!(
        changed >= 14 && tried > 150,
        "only {changed} of {tried} numbers changed anything: the comparison would be idle"
    );
}

#[test]
fn in_part_is_in_full_for_the_examples() {
    for (place, path) in specs::examples().iter().enumerate() {
        let stride = specs::one_in(if place == 0 { 1 } else { 12 });
        let (changed, tried) = assert_equal(path, RULES, stride);
        assert!(changed > 0, "{}: none of {tried} numbers changed anything", path.display());
    }
}

/// What a what-if fills in where nothing was written.
#[test]
fn in_part_is_in_full_for_what_is_absent() {
    let (_, machine) = specs::sound(&specs::everything());
    let (rules, points) = (&specs::rules(), case_points(&machine));
    let base = Run::full(&machine, rules, &points, &WhatIf::default());
    let asked: std::collections::BTreeSet<NodeId> = base
        .rows()
        .flat_map(|(_, _, checked)| checked.reads.nodes.iter().collect::<Vec<_>>())
        .filter(|node| machine.absent(*node).is_some())
        .collect();
    assert!(asked.len() >= 5, "{asked:?}");
    for node in asked.into_iter().step_by(specs::one_in(12)) {
        let mut what_if = WhatIf::default();
        what_if.set(node, 0.3);
        let again = base.again(&machine, rules, &what_if, &[node]);
        assert_eq!(rows(&again), rows(&Run::full(&machine, rules, &points, &what_if)), "{:?}", machine.absent(node));
    }
}

/// Two numbers at once, and back again.
#[test]
fn in_part_is_in_full_for_pairs_and_on_the_way_back() {
    let (document, machine): (_, Machine) = specs::sound(&specs::everything());
    let points = case_points(&machine);
    let written = WhatIf::default();
    let rules = &specs::rules();
    let base = Run::full(&machine, rules, &points, &written);
    let all = numbers(&document);
    for pair in all.windows(2).step_by(specs::one_in(120)) {
        let mut what_if = WhatIf::default();
        let nodes: Vec<NodeId> = pair.iter().map(|number| number.0).collect();
        pair.iter().for_each(|(node, si)| what_if.set(*node, si * 1.01));
        let again = base.again(&machine, rules, &what_if, &nodes);
        assert_eq!(rows(&again), rows(&Run::full(&machine, rules, &points, &what_if)), "{nodes:?}");
        assert_eq!(rows(&again.again(&machine, rules, &written, &nodes)), rows(&base), "{nodes:?} and back");
    }
}
