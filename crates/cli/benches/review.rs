//! What a review costs, as ratios to reading the same text into types: `cargo bench -p dryfit_cli`.
//! Medians of interleaved rounds; absolute times depend on the machine and are printed for orientation only.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::print_stdout)]

use catalogue::Catalogue;
use document::{Document, FileTrouble, Files, Limits};
use machine::{Machine, Swaps, WhatIf};
use std::hint::black_box;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

struct Beside(PathBuf);

impl Files for Beside {
    fn read(&self, _: &str, name: &str) -> Result<(String, Vec<u8>), FileTrouble> {
        let bytes = std::fs::read(self.0.join(name)).map_err(|_| FileTrouble::Missing { nearest: None })?;
        Ok((name.to_owned(), bytes))
    }
}

const ROUNDS: usize = 41;

fn median(mut times: Vec<Duration>) -> f64 {
    times.sort();
    times.get(times.len() / 2).map_or(0.0, Duration::as_secs_f64)
}

fn main() {
    let examples = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    for name in ["hut-hauler", "reed-cutter"] {
        for revision in ["as-drawn", "revised"] {
            let folder = examples.join(name);
            let bytes = std::fs::read(folder.join(format!("{revision}.machine.yaml"))).expect("the example is there");
            let files = Beside(folder);
            let read = || {
                let document = Document::load("spec", bytes.clone(), &files, &Catalogue, &Limits::default());
                let machine = Machine::read(&document, &Swaps::new()).expect("the example reads");
                (document, machine)
            };
            let (document, machine) = read();
            let points = engine::case_points(&machine);
            let mut times = [Vec::new(), Vec::new(), Vec::new()];
            for _ in 0..ROUNDS {
                let mut clock = |slot: usize, work: &dyn Fn()| {
                    let began = Instant::now();
                    work();
                    times.get_mut(slot).expect("three slots").push(began.elapsed());
                };
                clock(0, &|| drop(black_box(read())));
                clock(1, &|| {
                    drop(black_box(engine::Run::full(&machine, rulebook::RULES, &points, &WhatIf::default())))
                });
                clock(2, &|| {
                    drop(black_box(engine::review(&document, &machine, rulebook::RULES, rulebook::OVERVIEWS, None)));
                });
            }
            let [read, run, review] = times.map(median);
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
