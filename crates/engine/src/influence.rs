//! Which inputs carry a finding: each number that it has read is nudged at the governing point, by one per cent or
//! by one kelvin.

use crate::finding::Finding;
use crate::run::Run;
use machine::{Machine, NodeId, WhatIf};
use rayon::prelude::*;
use rule::{Held, Outcome, Rule};

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

/// An input as it is written, in SI.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Written {
    pub si: f64,
    pub step: Step,
}

/// Inputs with at least this share of the strongest influence carry the finding.
const CARRIES: f64 = 0.05;

/// The carriers of a finding, strongest first. `written` gives a node's number.
pub(crate) fn carriers(
    machine: &Machine,
    rules: &[&dyn Rule],
    run: &Run,
    finding: &Finding,
    written: &(dyn Fn(NodeId) -> Option<Written> + Sync),
) -> Vec<Carrier> {
    let (Some(governing), Some(rule)) = (&finding.governing, rules.get(finding.place.rule)) else { return Vec::new() };
    if !governing.reserve.is_finite() {
        return Vec::new();
    }
    let scale = match governing.margin.held {
        Held::Ratio { .. } => governing.reserve.abs().max(f64::MIN_POSITIVE),
        Held::Gap { yardstick, .. } => yardstick,
    };
    let mut carriers: Vec<Carrier> = finding
        .reads
        .nodes
        .par_iter()
        .filter_map(|node| {
            let Written { si, step } = written(*node)?;
            let mut what_if = WhatIf::default();
            let moved = match step {
                Step::Kelvin => si + 1.0,
                Step::Percent if si == 0.0 => 0.01,
                Step::Percent => si * 1.01,
            };
            what_if.set(*node, moved);
            let checked = run.one(machine, *rule, finding.place, &what_if, &[*node], false)?;
            let Outcome::Held(margin) = checked.outcome else { return None };
            let influence = (margin.held.reserve() - governing.reserve) / scale * 100.0;
            influence.is_finite().then_some(Carrier { node: *node, influence, step })
        })
        .collect();
    let strongest = carriers.iter().map(|carrier| carrier.influence.abs()).fold(0.0, f64::max);
    carriers.retain(|carrier| carrier.influence != 0.0 && carrier.influence.abs() >= CARRIES * strongest);
    carriers.sort_by(|a, b| b.influence.abs().total_cmp(&a.influence.abs()).then(a.node.cmp(&b.node)));
    carriers
}
