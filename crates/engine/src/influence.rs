//! Which inputs carry a finding: each number that it has read is nudged at the governing point, by one per cent or
//! by one kelvin.

use crate::finding::Finding;
use crate::provenance::basis_of;
use crate::run::Run;
use machine::{Assumption, Basis, Document, Machine, NodeId, WhatIf};
use quantity::{Kind, Stated, Step};
use rayon::prelude::*;
use rule::{Held, Outcome, Rule, Verdict};
use std::collections::BTreeMap;

/// One input and how strongly it moves the margin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Carrier {
    pub node: NodeId,
    /// Per cent of change of the reserve (of a gap: of its yardstick) for one step of the input.
    pub influence: f64,
    pub step: Step,
}

/// Inputs with at least this share of the strongest influence carry the finding.
const CARRIES: f64 = 0.05;

/// For each finding its carriers, strongest first; none for one without a finite margin. A number is nudged once for all
/// findings of a case point, so that they share the solutions.
#[must_use]
pub fn carriers(machine: &Machine, rules: &[&dyn Rule], run: &Run, findings: &[&Finding]) -> Vec<Vec<Carrier>> {
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
        let step = |node| machine.fields().kind(node).map_or(Step::Percent, Kind::step);
        carriers.iter_mut().for_each(|carrier| carrier.step = step(carrier.node));
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

/// Half width of a guess, in steps: a fifth of the value, or ten kelvins (common practice, as for `(guess)`).
fn scatter(machine: &Machine, assumed: bool, node: NodeId, step: Step) -> Option<f64> {
    let row = machine.row();
    if !assumed && row.stated(node) != Some(Stated::Guess) {
        return None;
    }
    let half = row.plus_minus(node);
    Some(match step {
        Step::Kelvin => half.unwrap_or(Stated::Guess.spread() * KELVIN_FOR_ALL),
        Step::Percent => half.map_or(Stated::Guess.spread(), |half| (half / row.si(node).unwrap_or(1.0)).abs()) * 100.0,
    })
}

/// Half width in K for a share of 100 % of a temperature. Common practice, no source.
const KELVIN_FOR_ALL: f64 = 50.0;

/// The guess that decides most, where a margin misses by less than its guesses scatter: another look at them may clear it.
pub(crate) fn on_guesses(machine: &Machine, finding: &Finding) -> Option<NodeId> {
    let governing = finding.governing.as_ref()?;
    let wanted = match (finding.verdict, &governing.margin.held) {
        (Verdict::Fails, Held::Ratio { .. }) => 1.0,
        (Verdict::Fails, Held::Gap { .. }) => 0.0,
        (Verdict::Thin, _) => governing.margin.required.value,
        _ => return None,
    };
    let scale = match governing.margin.held {
        Held::Ratio { .. } => governing.reserve.abs().max(f64::MIN_POSITIVE),
        Held::Gap { yardstick, .. } => yardstick,
    };
    let missing = (wanted - governing.reserve) / scale * 100.0;
    let instead = |node: NodeId| {
        let mut assumed = finding.reads.assumed.iter();
        assumed.any(|one| matches!(one, Assumption::Figure { instead, .. } if *instead == node))
    };
    let moves = finding.carriers.iter().filter_map(|carrier| {
        let steps = scatter(machine, instead(carrier.node), carrier.node, carrier.step)?;
        Some((carrier.node, (carrier.influence * steps).abs()))
    });
    let moves: Vec<(NodeId, f64)> = moves.collect();
    // Independent of one another: their half widths add up like the sides of a right angle (JCGM 100:2008, 5.1.2).
    let together = moves.iter().map(|(_, moves)| moves * moves).sum::<f64>().sqrt();
    let most = moves.into_iter().max_by(|a, b| a.1.total_cmp(&b.1))?;
    (together > missing).then_some(most.0)
}
