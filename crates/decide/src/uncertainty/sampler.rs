//! Judging drawn samples, in parallel.

use super::draw::Batch;
use super::inputs::Input;
use super::selection::{Places, key};
use super::tally::{State, Worst};
use engine::Selection;
use machine::{Machine, WhatIf};
use rayon::prelude::*;
use rule::{Outcome, Rule, Verdict};

/// Judges one sample.
pub(super) struct Sampler<'a> {
    pub machine: &'a Machine,
    pub rules: &'a [&'a dyn Rule],
    pub inputs: &'a [Input],
    pub places: &'a Places,
    pub tick: &'a (dyn Fn() + Sync),
}

impl Sampler<'_> {
    /// What every row of every margin came to, sample by sample.
    pub fn rows(&self, everywhere: &Selection, batch: &Batch) -> Vec<Vec<Worst>> {
        self.all(everywhere, batch, self.places.len(), &|rows, _, row, here| {
            rows.get_mut(row).into_iter().for_each(|row| *row = here);
        })
    }

    /// What every margin came to where it is worst, sample by sample.
    pub fn worst(&self, chosen: &Selection, batch: &Batch, margins: usize) -> Vec<Vec<Worst>> {
        self.all(chosen, batch, margins, &|worst, margin, _, here| {
            worst.get_mut(margin).into_iter().for_each(|worst| *worst = worst.or(here));
        })
    }

    fn all(
        &self,
        chosen: &Selection,
        batch: &Batch,
        slots: usize,
        put: &(dyn Fn(&mut [Worst], usize, usize, Worst) + Sync),
    ) -> Vec<Vec<Worst>> {
        let sample = |row: &mut WhatIf, at: usize| {
            let mut found = vec![Worst::NONE; slots];
            self.run(chosen, row, batch.deviates(at), &mut |margin, row, here| put(&mut found, margin, row, here));
            found
        };
        (0..batch.samples()).into_par_iter().map_init(WhatIf::default, sample).collect()
    }

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
            let state = match margin.held.verdict(margin.required.value) {
                Verdict::Fails => State::Fails,
                Verdict::Thin => State::Thin,
                _ => State::Sound,
            };
            (state, headroom, margin.held.reserve())
        }
    };
    Some(Worst { state, rank, reserve })
}
