//! How sure a verdict is, given the tolerances of its inputs: every toleranced or guessed input is drawn, the machine is
//! judged with each draw, and the share of draws in which a check fails is its chance of failing.

mod draw;
mod inputs;
mod selection;
mod tally;

#[cfg(test)]
mod tests;

pub use draw::Chance;
pub use inputs::{Input, Width};
pub use selection::LeftOut;

use draw::{BATCH, Batch};
use engine::{Finding, Review, Selection};
use machine::{Document, Machine, NodeId, Reads, WhatIf};
use rayon::prelude::*;
use rule::{Consequence, Outcome, Rule, Verdict};
use selection::{Group, groups, key};
use tally::{State, Tally, Worst};

/// How many samples, and from which seed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Plan {
    pub samples: usize,
    pub seed: u64,
}

impl Plan {
    pub const DEFAULT: usize = 2_000;
    pub const MOST: usize = 100_000;
}

/// What came of it.
#[derive(Debug, PartialEq)]
pub struct Uncertainty {
    pub plan: Plan,
    /// What was drawn, in the order of the text.
    pub inputs: Vec<Input>,
    /// Built-in figures that stand in for what is not given. They are not drawn: nobody has said how far off they may be.
    pub assumed: Vec<NodeId>,
    /// Margins that rest on a drawn input, in the order of the findings.
    pub margins: Vec<Sampled>,
    /// Judged findings that no drawn input reaches: their verdict is as sure as the review itself.
    pub untouched: usize,
    /// At least one grave margin (harm, or stranded) fails.
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
    pub broken: u32,
    pub fails: Chance,
    pub thin: Chance,
    /// The reserve below which 5, 50 and 95 % of the samples lie; none for a check without a reserve.
    pub reserve: Option<[f64; 3]>,
}

/// The inputs by what knowing each alone would settle.
#[derive(Debug, Clone, PartialEq)]
pub struct Worth {
    /// Only grave margins count; when none of them is open, all do.
    pub grave: bool,
    pub inputs: Vec<Measurement>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measurement {
    /// Index into the inputs.
    pub input: usize,
    /// Part of the doubt about failing or not that is gone once it is known.
    pub share: f64,
    /// The finding for which it decides most.
    pub finding: usize,
}

/// Less than this share is noise, or not worth the walk to the shop.
const WORTH_TELLING: f64 = 0.02;

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
    let mut reads = Reads::default();
    for (_, _, checked) in review.run.rows() {
        reads.nodes.extend_from_slice(&checked.reads.nodes);
        reads.assumed.extend_from_slice(&checked.reads.assumed);
    }
    reads.add(&Reads::default());
    let inputs = inputs::inputs(document, &reads);
    let assumed = inputs::assumed(document, machine, &reads, &inputs);
    let changed: Vec<NodeId> = inputs.iter().flat_map(|input| input.moved.iter().map(|moved| moved.node)).collect();
    let (mut groups, places, untouched) = groups(review, rules, &inputs);
    let select = |wanted: &dyn Fn(usize, usize) -> bool| {
        let wanted = |place| places.get(&key(place)).is_some_and(|(margin, row)| wanted(*margin, *row));
        review.run.select(&wanted, &changed)
    };
    let sampler = Sampler { machine, rules, inputs: &inputs, places: &places, tick };

    let mut tallies: Vec<Tally> = groups.iter().map(|group| Tally::new(group.inputs.len())).collect();
    let grave: Vec<bool> = groups.iter().map(|group| is_grave(review.findings.get(group.finding))).collect();
    let mut grave_fails = 0;
    // The first batch runs in every case point, and tells which of them the others need.
    let everywhere = select(&|_, _| true);
    let mut chosen = None;
    for number in 0..plan.samples.div_ceil(BATCH) {
        let size = BATCH.min(plan.samples - number * BATCH);
        let batch = Batch::draw(plan.seed, number, size, inputs.len());
        let sample = |row: &mut WhatIf, at: usize| {
            let mut worst = vec![Worst::NONE; groups.len()];
            sampler.run(chosen.as_ref().unwrap_or(&everywhere), row, batch.deviates(at), &mut |margin, _, here| {
                worst.get_mut(margin).into_iter().for_each(|worst| *worst = worst.or(here));
            });
            worst
        };
        let all_rows = |row: &mut WhatIf, at: usize| {
            let mut rows = vec![Worst::NONE; places.len()];
            sampler.run(&everywhere, row, batch.deviates(at), &mut |_, place, here| {
                rows.get_mut(place).into_iter().for_each(|row| *row = here);
            });
            rows
        };
        let samples: Vec<Vec<Worst>> = if number == 0 {
            let full: Vec<Vec<Worst>> = (0..size).into_par_iter().map_init(WhatIf::default, all_rows).collect();
            groups.par_iter_mut().for_each(|group| group.choose(&full));
            let worst = |rows: &Vec<Worst>, group: &Group| {
                rows.get(group.rows.clone()).unwrap_or(&[]).iter().fold(Worst::NONE, |worst, row| worst.or(*row))
            };
            full.iter().map(|rows| groups.iter().map(|group| worst(rows, group)).collect()).collect()
        } else {
            (0..size).into_par_iter().map_init(WhatIf::default, sample).collect()
        };
        if number == 0 {
            chosen = Some(select(&|margin, row| groups.get(margin).is_some_and(|group| group.keeps(row))));
        }
        tallies.par_iter_mut().zip(&groups).enumerate().for_each(|(margin, (tally, group))| {
            for (at, worst) in samples.iter().enumerate() {
                let classes = batch.classes(at);
                let own = group.inputs.iter().map(|input| classes.get(*input).copied().unwrap_or(0));
                worst.get(margin).into_iter().for_each(|worst| tally.add(worst, own.clone()));
            }
        });
        let failing =
            |worst: &&Vec<Worst>| worst.iter().zip(&grave).any(|(worst, grave)| *grave && worst.state == State::Fails);
        grave_fails += samples.iter().filter(failing).count();
    }
    let margins = groups.iter().zip(&tallies).map(|(group, tally)| Sampled {
        finding: group.finding,
        judged: tally.judged(),
        broken: tally.broken(),
        fails: tally.fails(),
        thin: tally.thin(),
        reserve: tally.reserves(),
    });
    let count = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
    Uncertainty {
        plan,
        margins: margins.collect(),
        untouched,
        any_grave: Chance::of(count(grave_fails), count(plan.samples)),
        worth: worth(&groups, &tallies, &grave, inputs.len()),
        left_out: (plan.samples > BATCH).then(|| selection::left_out(&groups, BATCH)),
        inputs,
        assumed,
    }
}

fn is_grave(finding: Option<&Finding>) -> bool {
    finding
        .and_then(|finding| finding.consequence)
        .is_some_and(|consequence| matches!(consequence, Consequence::Harm | Consequence::Stranded))
}

/// Judges one sample.
struct Sampler<'a> {
    machine: &'a Machine,
    rules: &'a [&'a dyn Rule],
    inputs: &'a [Input],
    places: &'a selection::Places,
    tick: &'a (dyn Fn() + Sync),
}

impl Sampler<'_> {
    /// Hands out margin, row and what it came to, for each row that ran and was judged.
    fn run(&self, chosen: &Selection, row: &mut WhatIf, deviates: &[f64], each: &mut dyn FnMut(usize, usize, Worst)) {
        for (input, z) in self.inputs.iter().zip(deviates) {
            input.moved.iter().for_each(|moved| row.set(moved.node, moved.at(*z)));
        }
        chosen.run(self.machine, self.rules, row, &mut |place, outcome| {
            if let (Some((margin, row)), Some(here)) = (self.places.get(&key(place)), judged(&outcome)) {
                each(*margin, *row, here);
            }
        });
        (self.tick)();
    }
}

/// As the review settles a finding: broken before a breach, a breach before any reserve.
fn judged(outcome: &Outcome) -> Option<Worst> {
    let (state, rank, reserve) = match outcome {
        Outcome::Aside(_) | Outcome::NotJudged(_) => return None,
        Outcome::Broken(_) => (State::Broken, f64::NEG_INFINITY, f64::NAN),
        Outcome::Breach { .. } => (State::Fails, f64::MIN, f64::NAN),
        Outcome::Clear(_) => (State::Sound, f64::INFINITY, f64::NAN),
        Outcome::Held(margin) => {
            let headroom = margin.held.headroom(margin.required.value);
            let state = if margin.held.fails() {
                State::Fails
            } else if headroom < 0.0 {
                State::Thin
            } else {
                State::Sound
            };
            (state, headroom, margin.held.reserve())
        }
    };
    Some(Worst { state, rank, reserve })
}

fn worth(groups: &[Group], tallies: &[Tally], grave: &[bool], inputs: usize) -> Worth {
    let doubt = |only: bool| -> f64 {
        let open = tallies.iter().zip(grave).filter(|(_, grave)| **grave || !only);
        open.map(|(tally, _)| tally.doubt()).sum()
    };
    let only_grave = doubt(true) > 0.0;
    let whole = doubt(only_grave);
    // For each input all that it settles, the most that it settles of one margin, and that margin's finding.
    let mut all = vec![(0.0, 0.0, 0); inputs];
    for ((group, tally), _) in groups.iter().zip(tallies).zip(grave).filter(|(_, grave)| **grave || !only_grave) {
        for (input, settled) in group.inputs.iter().zip(tally.settled()) {
            let Some(sum) = all.get_mut(*input) else { continue };
            sum.0 += settled;
            if settled > sum.1 {
                (sum.1, sum.2) = (settled, group.finding);
            }
        }
    }
    let mut inputs: Vec<Measurement> = all
        .iter()
        .enumerate()
        .map(|(input, (settled, _, finding))| Measurement { input, share: settled / whole, finding: *finding })
        .filter(|measurement| measurement.share >= WORTH_TELLING)
        .collect();
    inputs.sort_by(|a, b| b.share.total_cmp(&a.share).then(a.input.cmp(&b.input)));
    Worth { grave: only_grave, inputs }
}

/// Whether a finding has a verdict that a draw can change.
fn is_judged(finding: &Finding) -> bool {
    !matches!(finding.verdict, Verdict::NotJudged | Verdict::Broken)
}
