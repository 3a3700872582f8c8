//! How sure a verdict is, given the tolerances of its inputs: every toleranced or guessed input is drawn, the machine is
//! judged with each draw, and the share of draws in which a check fails is its chance of failing.

mod draw;
mod inputs;
mod sampler;
mod selection;
mod tally;
mod worth;

#[cfg(test)]
mod tests;

pub use draw::Chance;
pub use inputs::{Input, KELVIN_FOR_ALL, Width};
pub use selection::LeftOut;
pub use worth::{About, Measurement, Worth};

use draw::{BATCH, Batch};
use engine::{Finding, Review};
use inputs::Drawn;
use machine::{Document, Machine, NodeId, Reads};
use rayon::prelude::*;
use rule::{Consequence, Rule, Verdict};
use sampler::Sampler;
use selection::{Group, groups, key};
use tally::{State, Tally, Worst};
use worth::{Weight, worth};

/// How many samples, and from which seed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Plan {
    pub samples: usize,
    pub seed: u64,
}

impl Plan {
    pub const SAMPLES: usize = 2_000;
    pub const MOST: usize = 100_000;
    pub const SEED: u64 = 1;
}

/// What came of it.
#[derive(Debug, PartialEq)]
pub struct Uncertainty {
    pub plan: Plan,
    /// What was drawn, in the order of the text.
    pub inputs: Vec<Input>,
    /// Figures of the author's own files that were taken as exact, because neither `±` nor a basis stands behind them.
    pub exact: Vec<NodeId>,
    /// Built-in figures that stand in for what is not given. They are not drawn: nobody has said how far off they may be.
    pub assumed: Vec<NodeId>,
    /// Margins that rest on a drawn input, in the order of the findings.
    pub margins: Vec<Sampled>,
    /// Judged findings that no drawn input reaches, as indices: their verdict is as sure as the review itself.
    pub untouched: Vec<usize>,
    /// At least one grave margin (harm, or stranded) that is not conceded fails.
    pub any_grave: Chance,
    /// Which measurement is worth making, the most telling first.
    pub worth: Worth,
    /// None where every sample ran in every case point.
    pub left_out: Option<LeftOut>,
}

/// One margin over all samples.
#[derive(Debug, Clone, PartialEq)]
pub struct Sampled {
    /// Index into the findings of the review.
    pub finding: usize,
    /// Samples in which it could be judged; the chances are shares of them.
    pub judged: u32,
    /// Samples in which the check itself failed.
    pub broken: u32,
    pub fails: Chance,
    pub thin: Chance,
    /// The reserve below which 5, 50 and 95 % of the samples lie; none for a check without a reserve.
    pub reserve: Option<[f64; 3]>,
}

/// Draws and judges. `tick` hears of every finished sample, on any thread.
#[must_use]
pub fn uncertainty(
    document: &Document,
    machine: &Machine,
    rules: &[&dyn Rule],
    review: &Review,
    plan: Plan,
    tick: &(dyn Fn() + Sync),
) -> Uncertainty {
    sampled(document, machine, rules, review, plan, selection::choose, tick)
}

/// The same, with a way to choose what runs after the first samples.
fn sampled(
    document: &Document,
    machine: &Machine,
    rules: &[&dyn Rule],
    review: &Review,
    plan: Plan,
    choose: fn(&mut [Group], &[Vec<Worst>]),
    tick: &(dyn Fn() + Sync),
) -> Uncertainty {
    let reads = reads(review);
    let Drawn { inputs, exact } = inputs::drawn(document, machine, &reads);
    let assumed = inputs::assumed(document, machine, &reads, &inputs);
    let changed: Vec<NodeId> = inputs.iter().flat_map(|input| input.moved.iter().map(|moved| moved.node)).collect();
    let (mut groups, places, untouched) = groups(review, rules, &inputs);
    let select = |wanted: &dyn Fn(usize, usize) -> bool| {
        let wanted = |place| places.get(&key(place)).is_some_and(|(margin, row)| wanted(*margin, *row));
        review.run.select(&wanted, &changed)
    };
    let sampler = Sampler { machine, rules, inputs: &inputs, places: &places, tick };
    let finding = |index: usize| review.findings.get(index);
    let mut totals = Totals::new(&groups, |group| finding(group.finding).map_or(Weight::Conceded, weight));

    // The first batch runs in every case point, and tells which of them the others need.
    let batch = |number: usize| Batch::draw(plan.seed, number, BATCH.min(plan.samples - number * BATCH), inputs.len());
    let first = batch(0);
    let full = sampler.rows(&select(&|_, _| true), &first);
    totals.add(&groups, &first, &worst_of_all(&groups, &full));
    choose(&mut groups, &full);
    let chosen = select(&|margin, row| groups.get(margin).is_some_and(|group| group.keeps(row)));
    for number in 1..plan.samples.div_ceil(BATCH) {
        let batch = batch(number);
        totals.add(&groups, &batch, &sampler.worst(&chosen, &batch, groups.len()));
    }

    let fails = |finding: &Finding| finding.verdict == Verdict::Fails && weight(finding) == Weight::Grave;
    let surely = untouched.iter().filter_map(|index| finding(*index)).any(fails);
    Uncertainty {
        plan,
        margins: groups.iter().zip(&totals.tallies).map(|(group, tally)| tally.margin(group.finding)).collect(),
        untouched,
        any_grave: totals.any_grave(surely, plan.samples),
        worth: worth(&groups, &totals, inputs.len()),
        left_out: (plan.samples > BATCH).then(|| selection::left_out(&groups, BATCH)),
        inputs,
        exact,
        assumed,
    }
}

/// Everything that the checks have read.
fn reads(review: &Review) -> Reads {
    let mut reads = Reads::default();
    for (_, _, checked) in review.run.rows() {
        reads.add(&checked.reads);
    }
    reads
}

/// For each sample the worst of each margin, from all of its rows.
fn worst_of_all(groups: &[Group], full: &[Vec<Worst>]) -> Vec<Vec<Worst>> {
    let worst = |rows: &Vec<Worst>, group: &Group| {
        rows.get(group.rows.clone()).unwrap_or(&[]).iter().fold(Worst::NONE, |worst, row| worst.or(*row))
    };
    full.iter().map(|rows| groups.iter().map(|group| worst(rows, group)).collect()).collect()
}

/// What all samples so far add up to.
struct Totals {
    tallies: Vec<Tally>,
    /// By margin.
    weights: Vec<Weight>,
    grave_fails: usize,
}

impl Totals {
    fn new(groups: &[Group], weight: impl Fn(&Group) -> Weight) -> Self {
        let tallies = groups.iter().map(|group| Tally::new(group.inputs.len())).collect();
        Self { tallies, weights: groups.iter().map(weight).collect(), grave_fails: 0 }
    }

    fn add(&mut self, groups: &[Group], batch: &Batch, samples: &[Vec<Worst>]) {
        self.tallies.par_iter_mut().zip(groups).enumerate().for_each(|(margin, (tally, group))| {
            for (at, worst) in samples.iter().enumerate() {
                let classes = batch.classes(at);
                let own = group.inputs.iter().map(|input| classes.get(*input).copied().unwrap_or(0));
                worst.get(margin).into_iter().for_each(|worst| tally.add(worst, own.clone()));
            }
        });
        let failing = |worst: &&Vec<Worst>| {
            worst
                .iter()
                .zip(&self.weights)
                .any(|(worst, weight)| *weight == Weight::Grave && worst.state == State::Fails)
        };
        self.grave_fails += samples.iter().filter(failing).count();
    }

    fn any_grave(&self, surely: bool, samples: usize) -> Chance {
        let count = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
        Chance::of(count(if surely { samples } else { self.grave_fails }), count(samples))
    }
}

fn weight(finding: &Finding) -> Weight {
    match finding.consequence {
        _ if !finding.stands() => Weight::Conceded,
        Some(Consequence::Harm | Consequence::Stranded) => Weight::Grave,
        _ => Weight::Lesser,
    }
}

/// Whether a finding has a verdict that a draw can change.
fn is_judged(finding: &Finding) -> bool {
    !matches!(finding.verdict, Verdict::NotJudged | Verdict::Broken)
}
