//! Which inputs carry a finding: each number that it has read is nudged by one per cent at the governing point.

use crate::finding::Finding;
use crate::run::Run;
use machine::{Machine, NodeId, WhatIf};
use rayon::prelude::*;
use rule::{Held, Outcome, Rule};

/// One input and how strongly it moves the margin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Carrier {
    pub node: NodeId,
    /// Per cent of change of the reserve (of a gap: of its yardstick) for one per cent of change of the input.
    pub influence: f64,
}

/// Inputs with at least this share of the strongest influence carry the finding.
const CARRIES: f64 = 0.05;

/// The carriers of a finding, strongest first. `written` gives a node's SI number.
pub(crate) fn carriers(
    machine: &Machine,
    rules: &[&dyn Rule],
    run: &Run,
    finding: &Finding,
    written: &(dyn Fn(NodeId) -> Option<f64> + Sync),
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
            let value = written(*node)?;
            let mut what_if = WhatIf::default();
            what_if.set(*node, if value == 0.0 { 0.01 } else { value * 1.01 });
            let checked = run.one(machine, *rule, finding.place, &what_if, &[*node], false)?;
            let Outcome::Held(margin) = checked.outcome else { return None };
            let influence = (margin.held.reserve() - governing.reserve) / scale * 100.0;
            influence.is_finite().then_some(Carrier { node: *node, influence })
        })
        .collect();
    let strongest = carriers.iter().map(|carrier| carrier.influence.abs()).fold(0.0, f64::max);
    carriers.retain(|carrier| carrier.influence != 0.0 && carrier.influence.abs() >= CARRIES * strongest);
    carriers.sort_by(|a, b| b.influence.abs().total_cmp(&a.influence.abs()).then(a.node.cmp(&b.node)));
    carriers
}
