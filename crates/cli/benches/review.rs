//! What a review costs, as ratios to reading the same text into types: `cargo bench -p dryfit_cli --bench review`.
//! Medians of interleaved rounds; absolute times depend on the machine and are printed for orientation only.

#![allow(clippy::expect_used, clippy::print_stdout)]

mod examples;

use examples::{Example, median, time};
use machine::WhatIf;
use std::hint::black_box;

const ROUNDS: usize = 41;

fn main() {
    for name in ["hut-hauler", "reed-cutter"] {
        for revision in ["as-drawn", "revised"] {
            let example = Example::of(name, revision);
            let (document, machine) = example.read();
            let points = engine::case_points(&machine);
            let [mut read, mut run, mut review] = [Vec::new(), Vec::new(), Vec::new()];
            for _ in 0..ROUNDS {
                read.push(time(|| drop(black_box(example.read()))));
                run.push(time(|| {
                    drop(black_box(engine::Run::full(&machine, rulebook::RULES, &points, &WhatIf::default())));
                }));
                review.push(time(|| {
                    drop(black_box(engine::review(&document, &machine, rulebook::RULES, rulebook::OVERVIEWS, None)));
                }));
            }
            let [read, run, review] = [read, run, review].map(median);
            println!(
                "{name} {revision}: {} case points; read {:.2} ms; all checks {:.1} × read; whole review {:.1} × read",
                points.len(),
                read * 1e3,
                run / read,
                review / read
            );
        }
    }
}
