//! Which measurement is worth making.

use super::Totals;
use super::selection::Group;
use super::tally::{Event, Tally};

/// The inputs by what knowing each alone would settle.
#[derive(Debug, Clone, PartialEq)]
pub struct Worth {
    pub about: About,
    pub inputs: Vec<Measurement>,
}

/// The first of these that is open: it happens in some samples and not in others. What is conceded never counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum About {
    /// Whether something fails that hurts somebody or strands the machine.
    GraveFails,
    /// Whether anything fails.
    Fails,
    /// Whether anything has less than the required reserve.
    Short,
    /// Nothing is open.
    Nothing,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measurement {
    /// Index into the inputs.
    pub input: usize,
    /// Part of the doubt that is gone once it is known.
    pub share: f64,
    /// The finding for which it decides most.
    pub finding: usize,
}

/// How much a margin counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Weight {
    Grave,
    Lesser,
    Conceded,
}

/// Less than this share is noise, or not worth the walk to the shop.
const WORTH_TELLING: f64 = 0.02;

pub(super) fn worth(groups: &[Group], totals: &Totals, inputs: usize) -> Worth {
    type Counts = fn(Weight) -> bool;
    let stands: Counts = |weight| weight != Weight::Conceded;
    let grave: Counts = |weight| weight == Weight::Grave;
    let all = || groups.iter().zip(&totals.tallies).zip(&totals.weights);
    for (about, event, counts) in [
        (About::GraveFails, Event::Fails, grave),
        (About::Fails, Event::Fails, stands),
        (About::Short, Event::Short, stands),
    ] {
        let margins: Vec<(&Group, &Tally)> =
            all().filter(|(_, weight)| counts(**weight)).map(|(margin, _)| margin).collect();
        let doubt: f64 = margins.iter().map(|(_, tally)| tally.doubt(event)).sum();
        if doubt > 0.0 {
            return Worth { about, inputs: settling(&margins, event, doubt, inputs) };
        }
    }
    Worth { about: About::Nothing, inputs: Vec::new() }
}

/// The inputs that settle enough of the doubt, most first.
fn settling(margins: &[(&Group, &Tally)], event: Event, doubt: f64, inputs: usize) -> Vec<Measurement> {
    // For each input all that it settles, the most that it settles of one margin, and that margin's finding.
    let mut all = vec![(0.0, 0.0, 0); inputs];
    for (group, tally) in margins {
        for (input, settled) in group.inputs.iter().zip(tally.settled(event)) {
            let Some(sum) = all.get_mut(*input) else { continue };
            sum.0 += settled;
            if settled > sum.1 {
                (sum.1, sum.2) = (settled, group.finding);
            }
        }
    }
    let measurement = |(input, (settled, _, finding)): (usize, (f64, f64, usize))| {
        let share = settled / doubt;
        (share >= WORTH_TELLING).then_some(Measurement { input, share, finding })
    };
    let mut inputs: Vec<Measurement> = all.into_iter().enumerate().filter_map(measurement).collect();
    inputs.sort_by(|a, b| b.share.total_cmp(&a.share).then(a.input.cmp(&b.input)));
    inputs
}
