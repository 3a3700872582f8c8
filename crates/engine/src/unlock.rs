//! What the gaps are: an absent input is filled with a typical value in a what-if until its check can be judged, so that
//! all that a check lacks is known at once. The results are thrown away.

use crate::finding::Finding;
use crate::run::Run;
use machine::{Machine, NodeId, NotJudged, WhatIf};
use rule::{Outcome, Rule, Verdict};

/// An absent input, and how many checks wait for it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unlock {
    pub absent: NodeId,
    pub checks: usize,
}

const ROUNDS: usize = 8;

/// Absent inputs by the number of checks that they hold up, most first.
pub(crate) fn unlocks(machine: &Machine, rules: &[&dyn Rule], run: &Run, findings: &[Finding]) -> Vec<Unlock> {
    let mut counts: Vec<Unlock> = Vec::new();
    for finding in findings.iter().filter(|finding| finding.verdict == Verdict::NotJudged) {
        let Some(rule) = rules.get(finding.place.rule) else { continue };
        let Some((_, gap)) = finding.gaps.first() else { continue };
        let mut gap = gap.clone();
        let mut what_if = WhatIf::default();
        let mut filled = Vec::new();
        for _ in 0..ROUNDS {
            let NotJudged::NotGiven { absent, typical } = gap else { break };
            if filled.contains(&absent) {
                break;
            }
            filled.push(absent);
            if typical.is_nan() {
                break;
            }
            what_if.set(absent, typical);
            match run.one(machine, *rule, finding.place, &what_if, &filled, false).map(|checked| checked.outcome) {
                Some(Outcome::NotJudged(next)) => gap = next,
                _ => break,
            }
        }
        for absent in filled {
            match counts.iter_mut().find(|unlock| unlock.absent == absent) {
                Some(unlock) => unlock.checks += 1,
                None => counts.push(Unlock { absent, checks: 1 }),
            }
        }
    }
    counts.sort_by(|a, b| b.checks.cmp(&a.checks).then(a.absent.cmp(&b.absent)));
    counts
}
