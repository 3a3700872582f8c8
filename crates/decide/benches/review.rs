//! What a review costs, as ratios to reading the same text into types: `cargo bench -p decide --bench review`. Absolute
//! times depend on the machine and are printed for orientation only.

#![allow(clippy::expect_used, clippy::print_stdout)]

mod examples;

use examples::{EXAMPLES, Example, alone, cost};
use machine::WhatIf;
use std::hint::black_box;

fn main() {
    alone(|| EXAMPLES.iter().for_each(|(name, revision)| costs(name, revision)));
}

fn costs(name: &str, revision: &str) {
    let example = Example::of(name, revision);
    let (document, machine) = example.read();
    let points = engine::case_points(&machine);
    let read = cost(|| drop(black_box(example.read())));
    let run = cost(|| drop(black_box(engine::Run::full(&machine, rulebook::RULES, &points, &WhatIf::default()))));
    let review =
        cost(|| drop(black_box(engine::review(&document, &machine, rulebook::RULES, rulebook::OVERVIEWS, None))));
    println!(
        "{name} {revision}: {} case points; read {:.2} ms; all checks {:.1} × read; whole review {:.1} × read",
        points.len(),
        read * 1e3,
        run / read,
        review / read
    );
}
