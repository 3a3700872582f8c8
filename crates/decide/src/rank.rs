//! Every margin on one scale: consequence class, then headroom; and what moves each of them.

use engine::{Carrier, Finding, Review, carriers, weakest};
use machine::{Basis, Document, Machine};
use rule::{Area, Consequence, Rule, Verdict};

/// Which margins are wanted; an empty list wants all.
#[derive(Debug, Clone, Default)]
pub struct Wanted {
    pub areas: Vec<Area>,
    pub verdicts: Vec<Verdict>,
    pub subjects: Vec<String>,
    pub consequences: Vec<Consequence>,
}

impl Wanted {
    /// Whether it says anything about this finding at all.
    #[must_use]
    pub fn takes(&self, finding: &Finding) -> bool {
        fn one_of<T: PartialEq>(wanted: &[T], is: &T) -> bool {
            wanted.is_empty() || wanted.contains(is)
        }
        let consequence = match &finding.consequence {
            Some(consequence) => one_of(&self.consequences, consequence),
            None => self.consequences.is_empty(),
        };
        consequence
            && one_of(&self.areas, &finding.card.area)
            && one_of(&self.verdicts, &finding.verdict)
            && one_of(&self.subjects, &finding.subject.name)
    }
}

/// A finding in its place, and the inputs that move it where it is worst.
#[derive(Debug, Clone)]
pub struct Ranked<'a> {
    pub finding: &'a Finding,
    /// Strongest first; none for what no number can change.
    pub carriers: Vec<Carrier>,
    /// The weakest basis among them.
    pub weakest: Option<Basis>,
}

/// All margins, gravest first.
#[derive(Debug)]
pub struct Ranking<'a> {
    pub margins: Vec<Ranked<'a>>,
    /// Margins that were not wanted.
    pub left_out: usize,
    /// Checks that have no margin yet, because an input is missing.
    pub not_judged: usize,
}

/// Ranks what the review has judged. What is right whatever the numbers are has no consequence and stands last, what is
/// broken stands first: nobody knows what it would cost.
#[must_use]
pub fn rank<'a>(
    document: &Document,
    machine: &Machine,
    rules: &[&dyn Rule],
    review: &'a Review,
    wanted: &Wanted,
) -> Ranking<'a> {
    let judged: Vec<&Finding> =
        review.findings.iter().filter(|finding| finding.verdict != Verdict::NotJudged).collect();
    let mut chosen: Vec<&Finding> = judged.iter().copied().filter(|finding| wanted.takes(finding)).collect();
    chosen.sort_by(|a, b| class(a).cmp(&class(b)).then(a.headroom().total_cmp(&b.headroom())));
    let (left_out, not_judged) = (judged.len() - chosen.len(), review.findings.len() - judged.len());
    let carried = carriers(machine, rules, &review.run, &chosen);
    let ranked = |(finding, carriers): (&'a Finding, Vec<Carrier>)| {
        let weakest = weakest(document, &carriers);
        Ranked { finding, carriers, weakest }
    };
    Ranking { margins: chosen.into_iter().zip(carried).map(ranked).collect(), left_out, not_judged }
}

fn class(finding: &Finding) -> (bool, bool, Option<Consequence>) {
    (finding.verdict != Verdict::Broken, finding.consequence.is_none(), finding.consequence)
}

#[cfg(test)]
mod tests;
