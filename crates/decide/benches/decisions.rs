//! What a decision costs, as ratios to one plain review (every check once in every case point, and its verdicts; the text
//! is read already): `cargo bench -p decide --bench decisions`. Words after `--` choose among the examples by name.

#![allow(clippy::expect_used, clippy::print_stdout)]

mod examples;

use decide::rank::{Wanted, rank};
use decide::uncertainty::{Plan, uncertainty};
use engine::Review;
use examples::{EXAMPLES, Example, alone, cost, mean, median};
use machine::{Document, Machine, NodeId, WhatIf};
use rulebook::RULES;
use std::hint::black_box;
use std::time::Instant;

fn main() {
    let chosen: Vec<String> = std::env::args().skip(1).filter(|word| !word.starts_with('-')).collect();
    for (name, revision) in EXAMPLES {
        if !chosen.is_empty() && !chosen.iter().any(|word| word == name || word == revision) {
            continue;
        }
        let (document, machine) = Example::of(name, revision).read();
        let review = engine::review(&document, &machine, RULES, &[], None);
        alone(|| ratios(&format!("{name} {revision}"), &document, &machine, &review));
        for samples in [1_000, 10_000] {
            sampled(&document, &machine, &review, samples);
        }
    }
}

fn ratios(name: &str, document: &Document, machine: &Machine, review: &Review) {
    let plain = cost(|| drop(black_box(engine::verdicts(machine, RULES))));
    let whole = cost(|| drop(black_box(engine::review(document, machine, RULES, &[], None))));
    println!("{name}: a plain review takes {:.1} ms; with words, carriers and gaps {:.1}", plain * 1e3, whole / plain);
    let numbers = numbers(document, machine, review);
    let replaced: Vec<f64> = numbers.iter().map(|node| again(machine, review, *node) / plain).collect();
    println!(
        "  one of {} numbers replaced: mean {:.3}, median {:.3}",
        numbers.len(),
        mean(&replaced),
        median(replaced)
    );
    let all = cost(|| drop(black_box(rank(document, machine, RULES, review, &Wanted::default()))));
    println!("  what moves each of {} margins: {:.1}", review.findings.len(), all / plain);
}

/// All that the checks have read.
fn numbers(document: &Document, machine: &Machine, review: &Review) -> Vec<NodeId> {
    let mut nodes: Vec<NodeId> = review.run.rows().flat_map(|(_, _, checked)| checked.reads.nodes.iter()).collect();
    nodes.sort_unstable();
    nodes.dedup();
    nodes.retain(|node| machine.absent(*node).is_none() && !document.text(node.node()).is_empty());
    nodes
}

/// A number moved by a per cent: only what has read it runs again.
fn again(machine: &Machine, review: &Review, node: NodeId) -> f64 {
    cost(|| {
        let run = review.run.again(machine, RULES, &WhatIf::nudge(node), &[node]);
        drop(black_box(engine::verdicts_of(&run, machine, RULES)));
    })
}

fn sampled(document: &Document, machine: &Machine, review: &Review, samples: usize) {
    let clock = Instant::now();
    let found = uncertainty(document, machine, RULES, review, Plan { samples, seed: 1 }, &|| {});
    let took = clock.elapsed().as_secs_f64();
    println!(
        "  {samples} samples of {} inputs: {took:.1} s; at most {} MB of memory so far",
        found.inputs.len(),
        most_memory().map_or("?".into(), |kilobytes| (kilobytes / 1000).to_string())
    );
    println!("    {:?}", found.left_out);
}

/// In kB, as the kernel counts.
fn most_memory() -> Option<u64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find(|line| line.starts_with("VmHWM"))?;
    line.split_whitespace().nth(1)?.parse().ok()
}
