//! What the gaps are: an absent input is filled with a typical value in a what-if until its check can be judged, so that
//! all that a check lacks is known at once. The results are thrown away.

use crate::finding::Finding;
use crate::run::{Place, Run};
use machine::{Machine, NodeId, NotJudged, WhatIf};
use rule::{Outcome, Rule, Subject, Verdict};
use std::collections::{BTreeSet, HashMap};

/// What is worth finding out.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Unlocks {
    /// Absent inputs by the number of checks that wait for each, most first.
    pub waiting: Vec<Unlock>,
    /// The few that let the most checks be judged, in the order of `waiting`; none where no few of them would do.
    pub together: Option<Together>,
}

/// An absent input, and how many checks wait for it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unlock {
    pub absent: NodeId,
    pub checks: usize,
}

/// Absent inputs, and how many checks are judged once all of them are given.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Together {
    pub absent: Vec<NodeId>,
    pub checks: usize,
}

const ROUNDS: usize = 8;

/// So many figures are found out in an evening.
const FEW: usize = 3;

pub(crate) fn unlocks(machine: &Machine, rules: &[&dyn Rule], run: &Run, findings: &[Finding]) -> Unlocks {
    let gaps = gaps(run);
    let waits = findings.iter().filter(|finding| finding.verdict == Verdict::NotJudged);
    let ways = |finding: &Finding| -> Option<Ways> {
        let rule = *rules.get(finding.place.rule)?;
        let places = gaps.get(&(finding.place.rule, &finding.subject, finding.check))?;
        let lacks = places.iter().map(|(_, _, gap, place)| lack(machine, rule, run, *place, gap));
        let mut ways: Ways = lacks.collect();
        ways.sort_by_key(|lack| (!lack.judged, lack.absent.len()));
        Some(ways)
    };
    let lacks: Vec<Ways> = waits.filter_map(ways).collect();
    let waiting = waiting(&lacks);
    let mut together = together(&lacks);
    if let Some(together) = &mut together {
        let rank = |absent: &NodeId| waiting.iter().position(|unlock| unlock.absent == *absent);
        together.absent.sort_by_key(rank);
    }
    Unlocks { waiting, together }
}

type Gaps<'a> = HashMap<(usize, &'a Subject, &'static str), Vec<(NodeId, usize, &'a NotJudged, Place)>>;

/// The absent inputs that each check asks for first, and where it first does in each case: behind the same gap one case
/// may lack more than another.
fn gaps(run: &Run) -> Gaps<'_> {
    let mut gaps = Gaps::new();
    for (place, point, checked) in run.rows() {
        let Outcome::NotJudged(gap @ NotJudged::NotGiven { absent, .. }) = &checked.outcome else { continue };
        let places = gaps.entry((place.rule, &checked.subject, checked.check)).or_default();
        // In the coldest and the warmest air of a case: a table may end between them.
        let same = |(known, case, ..): &(NodeId, usize, _, _)| known == absent && *case == point.case;
        let asked = (*absent, point.case, gap, place);
        match places.iter().rposition(same) {
            Some(warmest) if places.iter().filter(|place| same(place)).count() > 1 => {
                if let Some(kept) = places.get_mut(warmest) {
                    *kept = asked;
                }
            }
            _ => places.push(asked),
        }
    }
    gaps
}

/// What one check lacks, by the case in which it would be judged, the shortest first: one case is enough to judge.
type Ways = Vec<Lack>;

/// What one check lacks in one case.
#[derive(Debug)]
struct Lack {
    /// In rising order, each once.
    absent: Vec<NodeId>,
    /// With all of that it is judged; else something is missing that no number can fill.
    judged: bool,
}

fn lack(machine: &Machine, rule: &dyn Rule, run: &Run, place: Place, gap: &NotJudged) -> Lack {
    let mut gap = gap.clone();
    let mut what_if = WhatIf::default();
    let mut lack = Lack { absent: Vec::new(), judged: false };
    for _ in 0..ROUNDS {
        let NotJudged::NotGiven { absent, typical } = gap else { break };
        if lack.absent.contains(&absent) {
            break;
        }
        lack.absent.push(absent);
        if typical.is_nan() {
            break;
        }
        what_if.set(absent, typical);
        match run.one(machine, rule, place, &what_if, &lack.absent, false).map(|checked| checked.outcome) {
            Some(Outcome::NotJudged(next)) => gap = next,
            outcome => {
                lack.judged = matches!(outcome, Some(Outcome::Held(_) | Outcome::Breach { .. } | Outcome::Clear(_)));
                break;
            }
        }
    }
    lack.absent.sort_unstable();
    lack
}

fn waiting(lacks: &[Ways]) -> Vec<Unlock> {
    let mut counts: Vec<Unlock> = Vec::new();
    for absent in lacks.iter().filter_map(|ways| ways.first()).flat_map(|lack| &lack.absent) {
        match counts.iter_mut().find(|unlock| unlock.absent == *absent) {
            Some(unlock) => unlock.checks += 1,
            None => counts.push(Unlock { absent: *absent, checks: 1 }),
        }
    }
    counts.sort_by(|a, b| b.checks.cmp(&a.checks).then(a.absent.cmp(&b.absent)));
    counts
}

/// Of all sets of few inputs the one with which most checks are judged; of equal ones the smallest.
fn together(lacks: &[Ways]) -> Option<Together> {
    let few = |lack: &&Lack| lack.judged && lack.absent.len() <= FEW;
    let single: BTreeSet<Vec<NodeId>> = lacks.iter().flatten().filter(few).map(|lack| lack.absent.clone()).collect();
    // The best set is what some checks lack, taken together.
    let mut sets = single.clone();
    for _ in 1..FEW {
        let joined = sets.iter().flat_map(|set| single.iter().map(move |other| union(set, other)));
        let few: Vec<Vec<NodeId>> = joined.filter(|set| set.len() <= FEW).collect();
        sets.extend(few);
    }
    let does = |lack: &Lack, set: &[NodeId]| lack.judged && lack.absent.iter().all(|absent| set.contains(absent));
    let judged = |set: &[NodeId]| lacks.iter().filter(|ways| ways.iter().any(|lack| does(lack, set))).count();
    let best = sets.into_iter().map(|absent| Together { checks: judged(&absent), absent });
    best.min_by_key(|together| (std::cmp::Reverse(together.checks), together.absent.len()))
}

fn union(a: &[NodeId], b: &[NodeId]) -> Vec<NodeId> {
    a.iter().chain(b).copied().collect::<BTreeSet<NodeId>>().into_iter().collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lack(absent: &[u32], judged: bool) -> Lack {
        Lack { absent: absent.iter().map(|number| NodeId(*number)).collect(), judged }
    }

    fn lacks(of: &[(&[u32], bool)]) -> Vec<Ways> {
        of.iter().map(|(absent, judged)| vec![lack(absent, *judged)]).collect()
    }

    #[test]
    fn one_case_is_enough_to_judge() {
        // One check waits for 1 and 2, or in another case for 1 and 3; the other for 1 and 3 alone.
        let found = together(&[vec![lack(&[1, 2], true), lack(&[1, 3], true)], vec![lack(&[1, 3], true)]]);
        assert_eq!(found, Some(Together { absent: vec![NodeId(1), NodeId(3)], checks: 2 }));
    }

    #[test]
    fn the_few_that_complete_most_checks_win_over_those_that_most_checks_wait_for() {
        // Five checks wait for 1, but each of them lacks three more; 2 with 3 completes three checks.
        let long: &[u32] = &[1, 10, 11, 12];
        let found = together(&lacks(&[
            (long, true),
            (long, true),
            (long, true),
            (long, true),
            (&[1, 2], false),
            (&[2, 3], true),
            (&[2], true),
            (&[3], true),
        ]));
        assert_eq!(found, Some(Together { absent: vec![NodeId(2), NodeId(3)], checks: 3 }));
    }

    #[test]
    fn three_that_each_complete_one_are_taken_together_and_no_more_than_needed() {
        let found = together(&lacks(&[(&[1], true), (&[2], true), (&[3], true), (&[4], true)])).unwrap();
        assert_eq!((found.absent.len(), found.checks), (3, 3));
        let found = together(&lacks(&[(&[1], true), (&[1], true)])).unwrap();
        assert_eq!((found.absent, found.checks), (vec![NodeId(1)], 2));
        assert_eq!(together(&lacks(&[(&[1, 2, 3, 4], true), (&[5], false)])), None);
    }

    #[test]
    fn inputs_are_counted_once_a_check() {
        let found = waiting(&lacks(&[(&[1, 2], true), (&[2], false)]));
        assert_eq!((found[0].absent, found[0].checks, found.len()), (NodeId(2), 2, 2));
    }
}
