//! What all specs of a run come to together.

use crate::Reviewed;
use engine::Review;
use rule::Verdict;

/// Specs and findings, counted.
#[derive(Debug, Default)]
pub struct Tally {
    reviewed: usize,
    unusable: usize,
    left_out: usize,
    /// Findings of each verdict, and how many of them are accepted.
    counts: [(usize, usize); VERDICTS.len()],
}

const VERDICTS: [Verdict; 6] =
    [Verdict::Broken, Verdict::Fails, Verdict::Thin, Verdict::Partly, Verdict::Sound, Verdict::NotJudged];

impl Tally {
    pub fn add(&mut self, reviewed: &Reviewed) {
        match &reviewed.outcome {
            Some((_, review)) => self.count(review),
            None => self.unusable += 1,
        }
    }

    /// A spec that is made of nothing that has changed.
    pub fn leave_out(&mut self) {
        self.left_out += 1;
    }

    fn count(&mut self, review: &Review) {
        self.reviewed += 1;
        for finding in &review.findings {
            let place = VERDICTS.iter().position(|verdict| *verdict == finding.verdict);
            if let Some(count) = place.and_then(|place| self.counts.get_mut(place)) {
                count.0 += 1;
                count.1 += usize::from(!finding.stands());
            }
        }
    }

    /// `4 fails (1 accepted) · 7 thin · 80 sound · 12 not judged`
    #[must_use]
    pub fn findings(&self) -> String {
        let counts = VERDICTS
            .iter()
            .zip(&self.counts)
            .filter(|(verdict, (count, _))| *count > 0 || !matches!(verdict, Verdict::Broken | Verdict::Partly));
        let told = counts.map(|(verdict, (count, accepted))| {
            let accepted = if *accepted > 0 { format!(" ({accepted} accepted)") } else { String::new() };
            format!("{count} {}{accepted}", verdict.word())
        });
        told.collect::<Vec<_>>().join(" · ")
    }

    /// Specs and findings in one sentence.
    #[must_use]
    pub fn told(&self) -> String {
        let all = self.reviewed + self.unusable;
        let specs = if all == 1 { "spec" } else { "specs" };
        let of = if self.unusable > 0 { format!("{} of {all}", self.reviewed) } else { all.to_string() };
        let left_out =
            if self.left_out > 0 { format!("; {} unchanged and left out", self.left_out) } else { String::new() };
        format!("reviewed {of} {specs}: {}{left_out}", self.findings())
    }

    /// The whole run in one line.
    #[must_use]
    pub fn line(&self, code: u8) -> String {
        format!("{}; exit code {code}", self.told())
    }
}

/// How many findings of one review have each verdict.
pub(crate) fn counts(review: &Review) -> String {
    let mut tally = Tally::default();
    tally.count(review);
    tally.findings()
}
