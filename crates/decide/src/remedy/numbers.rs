//! Single numbers that clear a finding, and pairs of two that do so only together.

use super::bench::{Bench, Input};
use super::change::Change;
use super::search::{Side, in_unit, sides, to_si, turns, walk};
use super::sizes::{digits, round, series};
use super::{MOST, Remedy};
use engine::{Finding, Place};
use machine::{Asked, NodeId, Setting, WhatIf, least_plausible};
use quantity::{End, Kind, Unit, rewritten, unit_of};
use rayon::prelude::*;

/// An input that helps, but not enough.
#[derive(Debug, Clone, PartialEq)]
pub struct Unreached {
    pub node: NodeId,
    pub kind: &'static Kind,
    pub from: f64,
    /// How far it was taken, and the headroom there.
    pub to: f64,
    pub headroom: f64,
}

#[derive(Debug, Default)]
pub(super) struct Numbers {
    pub remedies: Vec<Remedy>,
    pub unreached: Vec<Unreached>,
    pub turning: Vec<NodeId>,
    /// Crossings further away, which nobody needs.
    pub not_reviewed: usize,
}

/// One number of an input that a finding has read.
struct Dial<'a> {
    input: &'a Input,
    /// Its own slot.
    node: NodeId,
    end: End,
    /// The other slot, where one text stands for both ends of a range.
    also: Option<NodeId>,
    kind: &'static Kind,
    unit: Option<&'static Unit>,
    from: f64,
}

impl Dial<'_> {
    fn set(&self, what_if: &mut WhatIf, changed: &mut Vec<NodeId>, si: f64) {
        for node in [Some(self.node), self.also].into_iter().flatten() {
            what_if.set(node, si);
            changed.push(node);
        }
    }

    /// The next size that can be had at or beyond `met`.
    fn size(&self, met: f64, up: bool, strictly: bool) -> Option<Change> {
        let field = self.input.path.rsplit('.').next().unwrap_or("");
        let symbol = self.unit.map_or("", |unit| unit.symbol);
        let number = round(in_unit(met, self.unit), up, strictly, series(self.kind, field, symbol));
        let text = rewritten(&self.input.text, self.kind, self.end, &digits(number))?;
        Some(Change::Number {
            node: self.node,
            kind: self.kind,
            from: self.from,
            met,
            to: to_si(number, self.unit),
            text,
        })
    }
}

/// All numbers of the builder's own files that a finding has read and that are not plain facts.
fn dials<'a>(bench: &'a Bench<'_>, finding: &Finding) -> Vec<Dial<'a>> {
    let read = |node: NodeId| finding.reads.has(node);
    let of = |(node, input): (NodeId, &'a Input)| -> Vec<Dial<'a>> {
        if input.setting == Setting::Fact {
            return Vec::new();
        }
        let dial = |node, end, also, kind, from| {
            let unit = unit_of(&input.text, kind);
            Dial { input, node, end, also, kind, unit, from }
        };
        match input.asked {
            Asked::Number(kind) if read(node) => {
                let from = super::bench::number(&input.text, kind);
                from.map(|from| dial(node, End::Low, None, kind, from)).into_iter().collect()
            }
            Asked::Range(kind) if read(node) || read(node.upper()) => {
                let Ok((low, high)) = quantity::read_range(&input.text, kind) else { return Vec::new() };
                if !input.text.contains(" to ") {
                    return vec![dial(node, End::Low, Some(node.upper()), kind, low.si)];
                }
                let ends = [(node, End::Low, low.si), (node.upper(), End::High, high.si)];
                let ends = ends.into_iter().filter(|(node, ..)| read(*node));
                ends.map(|(node, end, from)| dial(node, end, None, kind, from)).collect()
            }
            _ => Vec::new(),
        }
    };
    bench.inputs().flat_map(of).collect()
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
    let dials = dials(bench, finding);
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
        (dial.input.setting == Setting::LimitOfUse, away(dial.kind, dial.from, crossing.met))
    };
    crossings.sort_by(|a, b| far(a).partial_cmp(&far(b)).unwrap_or(std::cmp::Ordering::Equal));
    let mut rest = crossings.as_slice();
    while !rest.is_empty() && all.remedies.iter().filter(|remedy| harmless(remedy)).count() < MOST {
        let (now, later) = rest.split_at(rest.len().min(BATCH));
        all.remedies.par_extend(now.par_iter().filter_map(|crossing| cross(bench, finding, &dials, crossing)));
        rest = later;
    }
    all.not_reviewed = rest.len();
    all
}

/// Reviewed on the whole machine at one go.
const BATCH: usize = 8;

fn harmless(remedy: &Remedy) -> bool {
    let effect = &remedy.effect;
    effect.broken.is_empty() && effect.thinned.is_empty() && effect.unjudged.is_empty()
}

fn explore(bench: &Bench<'_>, finding: &Finding, index: usize, dial: &Dial<'_>) -> Option<(Numbers, Vec<Crossing>)> {
    let now = finding.headroom();
    let sides = sides(dial.from, dial.kind, least_plausible(&dial.input.path));
    let first = [finding.place()];
    let walked = sides.clone().map(|side| walk(&side, true, &|x| at(bench, &first, &[dial], &[x])));
    let mut out = Numbers::default();
    let tried = || walked.iter().flat_map(|side| side.tried.iter());
    // A breach has one value of its own for 'no'.
    let same = |headroom: f64| headroom.to_bits() == now.max(f64::MIN).to_bits();
    if tried().all(|(_, headroom)| same(*headroom)) {
        return None;
    }
    if turns(dial.from, now, &walked) {
        out.turning.push(dial.node);
    }
    let best = tried().copied().max_by(|a, b| a.1.total_cmp(&b.1)).filter(|best| best.1 > now && best.1 < 0.0);
    if let Some((to, headroom)) = best {
        out.unreached.push(Unreached { node: dial.node, kind: dial.kind, from: dial.from, to, headroom });
    }
    let met = sides.into_iter().zip(&walked);
    let crossings = met.filter_map(|(side, walked)| Some(Crossing { dial: index, side, met: walked.met? })).collect();
    Some((out, crossings))
}

fn cross(bench: &Bench<'_>, finding: &Finding, dials: &[Dial<'_>], crossing: &Crossing) -> Option<Remedy> {
    let (dial, side) = (dials.get(crossing.dial)?, &crossing.side);
    settle(bench, finding, &[dial], &|places| {
        let met =
            if places.len() > 1 { walk(side, false, &|x| at(bench, places, &[dial], &[x])).met? } else { crossing.met };
        Some(vec![(met, side.up)])
    })
}

fn at(bench: &Bench<'_>, places: &[Place], dials: &[&Dial<'_>], numbers: &[f64]) -> Option<f64> {
    let (mut what_if, mut changed) = (WhatIf::default(), Vec::new());
    dials.iter().zip(numbers).for_each(|(dial, si)| dial.set(&mut what_if, &mut changed, *si));
    bench.headroom(places, &what_if, &changed)
}

/// Rounds numbers that just meet the requirement, reviews the whole machine, and where another case then governs, asks for
/// numbers that meet it there as well.
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
        let changes: Option<Vec<Change>> = dials
            .iter()
            .zip(&met)
            .zip(&beyond)
            .map(|((dial, (met, up)), beyond)| {
                let mut change = dial.size(*beyond, *up, strictly)?;
                if let Change::Number { met: exactly, .. } = &mut change {
                    *exactly = *met;
                }
                Some(change)
            })
            .collect();
        let changes = changes?;
        match bench.foretell(finding, &changes) {
            Ok((effect, headroom)) => {
                let limit_of_use = dials.iter().any(|dial| dial.input.setting == Setting::LimitOfUse);
                let effort = changes.iter().map(effort).sum();
                return Some(Remedy { changes, effect, limit_of_use, effort, headroom });
            }
            Err(point) => {
                let point = point?;
                let fresh = all.iter().find(|place| place.point == point && !places.contains(place));
                if let Some(place) = fresh {
                    places.push(*place);
                    met = meet(&places)?;
                    beyond = met.iter().map(|(met, _)| *met).collect();
                    strictly = false;
                } else {
                    beyond = changes.iter().map(reached).collect();
                    strictly = true;
                }
            }
        }
    }
    None
}

fn reached(change: &Change) -> f64 {
    if let Change::Number { to, .. } = change { *to } else { f64::NAN }
}

fn effort(change: &Change) -> f64 {
    let Change::Number { kind, from, to, .. } = change else { return 0.0 };
    away(kind, *from, *to)
}

/// The logarithm of the ratio; twenty kelvins count like a doubling.
fn away(kind: &Kind, from: f64, to: f64) -> f64 {
    if matches!(kind.key, "temperature" | "temperature_difference") {
        return (to - from).abs() / 20.0 * std::f64::consts::LN_2;
    }
    (to / from).ln().abs()
}

/// The three inputs that help most, two by two, each taken towards where it helps.
pub(super) fn pairs(bench: &Bench<'_>, finding: &Finding, unreached: &[Unreached]) -> Vec<Remedy> {
    let dials = dials(bench, finding);
    let of = |unreached: &Unreached| dials.iter().find(|dial| dial.node == unreached.node);
    let helping: Vec<(&Dial<'_>, f64)> = unreached
        .iter()
        .filter_map(|unreached| Some((of(unreached)?, unreached.to)))
        .filter(|(dial, _)| dial.input.setting == Setting::Choice)
        .take(3)
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
        let share = walk(&side, false, &|share| at(bench, places, &dials, &numbers(share))).met?;
        Some(numbers(share).iter().zip(pair).map(|(met, (dial, to))| (*met, *to > dial.from)).collect())
    })
}
