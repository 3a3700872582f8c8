//! What a decision costs, as ratios to one plain review (every check once in every case point, and its verdicts; the text
//! is read already): `cargo bench -p dryfit_cli --bench decisions`. Absolute times depend on the machine and on what else
//! it does.

#![allow(clippy::expect_used, clippy::print_stdout)]

mod examples;

use decide::rank::{Wanted, rank};
use decide::uncertainty::{Plan, uncertainty};
use engine::Review;
use examples::{Example, median, time};
use machine::{Document, Machine, NodeId, WhatIf};
use rulebook::RULES;
use std::hint::black_box;
use std::time::Duration;

const ROUNDS: usize = 15;
const SAMPLES: usize = 10_000;

fn main() {
    for (name, revision) in
        [("hut-hauler", "as-drawn"), ("hut-hauler", "revised"), ("reed-cutter", "as-drawn"), ("reed-cutter", "revised")]
    {
        let (document, machine) = Example::of(name, revision).read();
        let review = engine::review(&document, &machine, RULES, &[], None);
        let plain = plain(&machine);
        println!("{name} {revision}: a plain review takes {:.1} ms", plain * 1e3);
        replaced(&document, &machine, &review, plain);
        sensitivity(&document, &machine, &review, plain);
        sampled(&document, &machine, &review);
    }
}

fn plain(machine: &Machine) -> f64 {
    median((0..ROUNDS).map(|_| time(|| drop(black_box(engine::verdicts(machine, RULES))))).collect())
}

/// Each number that the checks read, moved by a per cent: only what has read it runs again.
fn replaced(document: &Document, machine: &Machine, review: &Review, plain: f64) {
    let mut nodes: Vec<NodeId> =
        review.run.rows().flat_map(|(_, _, checked)| checked.reads.nodes.iter().copied()).collect();
    nodes.sort_unstable();
    nodes.dedup();
    nodes.retain(|node| machine.absent(*node).is_none() && !document.text(node.node()).is_empty());
    let again = |node: &NodeId| {
        time(|| {
            let run = review.run.again(machine, RULES, &WhatIf::nudge(*node), &[*node]);
            drop(black_box(engine::verdicts_of(&run, machine, RULES)));
        })
    };
    let times: Vec<Duration> = nodes.iter().map(again).collect();
    let mean = times.iter().sum::<Duration>().as_secs_f64() / times.len() as f64;
    println!(
        "  one of {} numbers replaced: median {:.3}, mean {:.3}",
        times.len(),
        median(times) / plain,
        mean / plain
    );
}

fn sensitivity(document: &Document, machine: &Machine, review: &Review, plain: f64) {
    let all = || drop(black_box(rank(document, machine, RULES, review, &Wanted::default())));
    let times = (0..ROUNDS).map(|_| time(all)).collect();
    println!("  what moves each of {} margins: {:.1}", review.findings.len(), median(times) / plain);
}

fn sampled(document: &Document, machine: &Machine, review: &Review) {
    let plan = Plan { samples: SAMPLES, seed: 1 };
    let mut inputs = 0;
    let took = time(|| inputs = uncertainty(document, machine, RULES, review, plan, &|| {}).inputs.len());
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    println!("  {SAMPLES} samples of {inputs} inputs: {:.1} s on {threads} threads", took.as_secs_f64());
}
