//! Which inputs carry a finding: each number that it has read is nudged at the governing point, by one per cent or
//! by one kelvin.

use crate::finding::Finding;
use crate::provenance::basis_of;
use crate::run::Run;
use machine::{Basis, Document, Machine, NodeId, WhatIf};
use rayon::prelude::*;
use rule::{Held, Outcome, Rule};
use std::collections::BTreeMap;

/// One input and how strongly it moves the margin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Carrier {
    pub node: NodeId,
    /// Per cent of change of the reserve (of a gap: of its yardstick) for one step of the input.
    pub influence: f64,
    pub step: Step,
}

/// By how much an input is moved. A per cent of an absolute temperature means nothing to anybody.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    Percent,
    Kelvin,
}

/// Inputs with at least this share of the strongest influence carry the finding.
const CARRIES: f64 = 0.05;

/// For each finding its carriers, strongest first; none for one without a finite margin. A number is nudged once for all
/// findings of a case point, so that they share the solutions.
#[must_use]
pub fn carriers(
    document: &Document,
    machine: &Machine,
    rules: &[&dyn Rule],
    run: &Run,
    findings: &[&Finding],
) -> Vec<Vec<Carrier>> {
    let mut nudges: BTreeMap<(usize, NodeId), Vec<usize>> = BTreeMap::new();
    for (index, finding) in findings.iter().enumerate() {
        // A gap cannot be nudged.
        for node in finding.reads.nodes.iter().filter(|node| machine.absent(*node).is_none()) {
            nudges.entry((finding.place.point, node)).or_default().push(index);
        }
    }
    let nudges: Vec<((usize, NodeId), Vec<usize>)> = nudges.into_iter().collect();
    let moved: Vec<Vec<(usize, Carrier)>> = nudges
        .par_iter()
        .map(|((_, node), concerned)| {
            let what_if = WhatIf::nudge(*node);
            let places: Vec<_> = concerned.iter().filter_map(|index| Some(findings.get(*index)?.place)).collect();
            let outcomes = run.nudged(machine, rules, &places, &what_if, *node);
            let pairs = concerned.iter().zip(outcomes);
            pairs
                .filter_map(|(index, outcome)| {
                    let governing = findings.get(*index)?.governing.as_ref()?;
                    let Some(Outcome::Held(margin)) = outcome else { return None };
                    let scale = match governing.margin.held {
                        Held::Ratio { .. } => governing.reserve.abs().max(f64::MIN_POSITIVE),
                        Held::Gap { yardstick, .. } => yardstick,
                    };
                    let influence = (margin.held.reserve() - governing.reserve) / scale * 100.0;
                    let carrier = Carrier { node: *node, influence, step: Step::Percent };
                    (influence.is_finite() && influence != 0.0).then_some((*index, carrier))
                })
                .collect()
        })
        .collect();
    let mut all: Vec<Vec<Carrier>> = vec![Vec::new(); findings.len()];
    for (index, carrier) in moved.into_iter().flatten() {
        if let Some(carriers) = all.get_mut(index) {
            carriers.push(carrier);
        }
    }
    for carriers in &mut all {
        carriers.iter_mut().for_each(|carrier| carrier.step = step(document, carrier.node));
        let strongest = carriers.iter().map(|carrier| carrier.influence.abs()).fold(0.0, f64::max);
        carriers.retain(|carrier| carrier.influence.abs() >= CARRIES * strongest);
        carriers.sort_by(|a, b| b.influence.abs().total_cmp(&a.influence.abs()).then(a.node.cmp(&b.node)));
    }
    all
}

/// The weakest basis among carriers; none where nobody says any.
#[must_use]
pub fn weakest(document: &Document, carriers: &[Carrier]) -> Option<Basis> {
    carriers.iter().filter_map(|carrier| basis_of(document, carrier.node)).max_by_key(|basis| weakness(*basis))
}

/// Which of two bases is worth less.
fn weakness(basis: Basis) -> u8 {
    match basis {
        Basis::Measured => 0,
        Basis::Published => 1,
        Basis::CommonPractice => 2,
        Basis::FromMemory => 3,
    }
}

/// By what an input is moved: temperatures and their differences by a kelvin.
fn step(document: &Document, node: NodeId) -> Step {
    let text = document.text(node.node()).trim_matches(['"', '\'']);
    let temperature = <quantity::m::Temperature as quantity::Measure>::KIND;
    if quantity::unit_of(text, temperature).is_some() { Step::Kelvin } else { Step::Percent }
}
