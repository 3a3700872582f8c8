//! Single numbers that clear a finding, and pairs of two that do so only together.

use super::bench::Bench;
use super::change::Change;
use super::dial::{Dial, Size, dials};
use super::search::{Side, turns, walk};
use super::{MOST, Remedy};
use engine::{Finding, Place};
use machine::NodeId;
use quantity::Kind;
use rayon::prelude::*;
use rule::Verdict;

/// An input that helps, but not enough.
#[derive(Debug, Clone, PartialEq)]
pub struct Unreached {
    pub node: NodeId,
    pub kind: &'static Kind,
    pub from: f64,
    /// How far it was taken, and the headroom there.
    pub to: f64,
    pub headroom: f64,
    pub limit_of_use: bool,
}

#[derive(Debug, Default)]
pub(super) struct Numbers {
    pub remedies: Vec<Remedy>,
    pub unreached: Vec<Unreached>,
    pub turning: Vec<NodeId>,
    /// Crossings further away, which nobody needs.
    pub not_reviewed: usize,
}

/// Where one side of a dial meets what is required in the case that governs now.
struct Crossing {
    dial: usize,
    side: Side,
    met: f64,
}

/// Every number by itself. Of those that promise to do, the nearest are reviewed on the whole machine, until enough of
/// them cost nothing elsewhere.
pub(super) fn single(bench: &Bench<'_>, finding: &Finding) -> Numbers {
    turned(bench, finding, &dials(bench, finding))
}

/// The same with some dials only.
pub(super) fn turned(bench: &Bench<'_>, finding: &Finding, dials: &[Dial<'_>]) -> Numbers {
    let explored: Vec<(Numbers, Vec<Crossing>)> =
        (0..dials.len()).into_par_iter().filter_map(|dial| explore(bench, finding, dial, dials.get(dial)?)).collect();
    let mut all = Numbers::default();
    let mut crossings = Vec::new();
    for (part, crossing) in explored {
        all.unreached.extend(part.unreached);
        all.turning.extend(part.turning);
        crossings.extend(crossing);
    }
    all.unreached.sort_by(|a, b| b.headroom.total_cmp(&a.headroom));
    let far = |crossing: &Crossing| {
        let Some(dial) = dials.get(crossing.dial) else { return (true, f64::INFINITY) };
        (dial.limit_of_use, away(dial.kind, dial.from, crossing.met))
    };
    crossings.sort_by(|a, b| far(a).partial_cmp(&far(b)).unwrap_or(std::cmp::Ordering::Equal));
    let mut rest = crossings.as_slice();
    while !rest.is_empty() && all.remedies.iter().filter(|remedy| remedy.effect.is_harmless()).count() < MOST {
        let (now, later) = rest.split_at(rest.len().min(BATCH));
        all.remedies.par_extend(now.par_iter().filter_map(|crossing| cross(bench, finding, dials, crossing)));
        rest = later;
    }
    all.not_reviewed = rest.len();
    all
}

/// Reviewed on the whole machine at one go.
const BATCH: usize = 4;

fn explore(bench: &Bench<'_>, finding: &Finding, index: usize, dial: &Dial<'_>) -> Option<(Numbers, Vec<Crossing>)> {
    // What is not judged has nothing.
    let now = if finding.verdict == Verdict::NotJudged { f64::NEG_INFINITY } else { finding.headroom() };
    let sides = dial.sides(bench);
    let first = [finding.place()];
    let at = |x: f64| bench.at(&first, &[dial], &[x]);
    if dial.is_lacked() && at(dial.from).is_some_and(|headroom| headroom >= 0.0) {
        let [side, _] = sides;
        return Some((Numbers::default(), vec![Crossing { dial: index, side, met: dial.from }]));
    }
    // A breach has one value of its own for 'no'.
    let same = |headroom: f64| headroom.to_bits() == now.max(f64::MIN).to_bits();
    let ends = || sides.iter().flat_map(|side| [side.steps.first(), side.steps.last()]).flatten();
    if ends().all(|end| at(*end).is_none_or(same)) {
        return None;
    }
    let walked = sides.clone().map(|side| walk(&side, true, &at));
    let mut out = Numbers::default();
    let tried = || walked.iter().flat_map(|side| side.tried.iter());
    if turns(dial.from, now, &walked) {
        out.turning.push(dial.node);
    }
    let best = tried().copied().max_by(|a, b| a.1.total_cmp(&b.1)).filter(|best| best.1 > now && best.1 < 0.0);
    if let Some((to, headroom)) = best {
        let Dial { node, kind, from, limit_of_use, .. } = *dial;
        out.unreached.push(Unreached { node, kind, from, to, headroom, limit_of_use });
    }
    let met = sides.into_iter().zip(&walked);
    let crossings = met.filter_map(|(side, walked)| Some(Crossing { dial: index, side, met: walked.met? })).collect();
    Some((out, crossings))
}

fn cross(bench: &Bench<'_>, finding: &Finding, dials: &[Dial<'_>], crossing: &Crossing) -> Option<Remedy> {
    let (dial, side) = (dials.get(crossing.dial)?, &crossing.side);
    settle(bench, finding, &[dial], &|places| {
        let met =
            if places.len() > 1 { walk(side, false, &|x| bench.at(places, &[dial], &[x])).met? } else { crossing.met };
        Some(vec![(met, side.up)])
    })
}

/// Rounds numbers that just meet the requirement; where another case then governs, asks for numbers that meet it there as
/// well; and reviews the whole machine.
fn settle(
    bench: &Bench<'_>,
    finding: &Finding,
    dials: &[&Dial<'_>],
    meet: &dyn Fn(&[Place]) -> Option<Vec<(f64, bool)>>,
) -> Option<Remedy> {
    const ROUNDS: usize = 6;
    let all = bench.places(finding);
    let mut places = vec![finding.place()];
    let mut met = meet(&places)?;
    let mut strictly = false;
    let mut beyond: Vec<f64> = met.iter().map(|(met, _)| *met).collect();
    for _ in 0..ROUNDS {
        let sizes: Option<Vec<Size>> = dials
            .iter()
            .zip(&met)
            .zip(&beyond)
            .map(|((dial, (met, up)), beyond)| told_where(dial.size(bench, *beyond, *up, strictly)?, *met))
            .collect();
        let sizes = sizes?;
        let numbers: Vec<f64> = sizes.iter().map(|size| size.to).collect();
        let fresh = bench.short(&all, dials, &numbers)?;
        match fresh {
            Some(place) if !places.contains(&place) => {
                places.push(place);
                met = meet(&places)?;
                beyond = met.iter().map(|(met, _)| *met).collect();
                strictly = false;
                continue;
            }
            None => {
                let effort = dials.iter().zip(&numbers).map(|(dial, to)| away(dial.kind, dial.from, *to)).sum();
                let limit_of_use = dials.iter().any(|dial| dial.limit_of_use);
                let changes: Vec<Change> = sizes.into_iter().flat_map(|size| size.changes).collect();
                if let Some((effect, headroom)) = bench.foretell(finding, &changes) {
                    return Some(Remedy { changes, effect, limit_of_use, effort, headroom });
                }
            }
            Some(_) => {}
        }
        beyond = numbers;
        strictly = true;
    }
    None
}

/// The size, with the number at which the requirement is just met.
fn told_where(mut size: Size, exactly: f64) -> Option<Size> {
    for change in &mut size.changes {
        if let Change::Number { met, .. } = change {
            *met = exactly;
        }
    }
    Some(size)
}

/// The logarithm of the ratio; twenty kelvins count like a doubling.
fn away(kind: &Kind, from: f64, to: f64) -> f64 {
    if matches!(kind.key, "temperature" | "temperature_difference") {
        return (to - from).abs() / 20.0 * std::f64::consts::LN_2;
    }
    (to / from).ln().abs()
}

/// The inputs that help most, two by two, each taken towards where it helps.
pub(super) fn pairs(bench: &Bench<'_>, finding: &Finding, unreached: &[Unreached]) -> Vec<Remedy> {
    const HELPING: usize = 4;
    let dials = dials(bench, finding);
    let of = |unreached: &Unreached| dials.iter().find(|dial| dial.node == unreached.node);
    let helping: Vec<(&Dial<'_>, f64)> = unreached
        .iter()
        .filter(|unreached| !unreached.limit_of_use)
        .filter_map(|unreached| Some((of(unreached)?, unreached.to)))
        .take(HELPING)
        .collect();
    let mut pairs = Vec::new();
    for (index, first) in helping.iter().enumerate() {
        for second in helping.iter().skip(index + 1) {
            pairs.push([*first, *second]);
        }
    }
    pairs.par_iter().filter_map(|pair| together(bench, finding, pair)).collect()
}

fn together(bench: &Bench<'_>, finding: &Finding, pair: &[(&Dial<'_>, f64); 2]) -> Option<Remedy> {
    let dials = pair.map(|(dial, _)| dial);
    // Both go the same share of their way.
    let numbers = |share: f64| pair.map(|(dial, to)| dial.from + share * (to - dial.from));
    let side = Side::way();
    settle(bench, finding, &dials, &|places| {
        let share = walk(&side, false, &|share| bench.at(places, &dials, &numbers(share))).met?;
        Some(numbers(share).iter().zip(pair).map(|(met, (dial, to))| (*met, *to > dial.from)).collect())
    })
}
