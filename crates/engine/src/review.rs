//! The whole review of one machine.

use crate::concession::{Today, concede};
use crate::finding::{Finding, findings};
use crate::influence::{carriers, on_guesses, weakest};
use crate::points::case_points;
use crate::run::Run;
use crate::unlock::{Unlocks, unlocks};
use crate::unread::unread;
use crate::workshop::{self, Unused};
use machine::{Document, GuessPolicy, Key, Machine, NodeId, WhatIf};
use rule::{Area, Card, Consequence, Judged, Notes, Outcome, Overview, Remark, Rule, Verdict};

#[cfg(test)]
mod faults;
#[cfg(test)]
mod tests;

/// Everything that a review says.
#[derive(Debug)]
pub struct Review {
    /// In the order of the text, then of the rules.
    pub findings: Vec<Finding>,
    /// Of the second stage.
    pub remarks: Vec<(&'static Card, Remark)>,
    pub unlocks: Unlocks,
    /// Concessions that no finding answers to.
    pub unused_concessions: Vec<Key>,
    /// Numbers of the spec that no check has asked for, in the order of the text.
    pub unread: Vec<NodeId>,
    /// Reserves of the workshop that no margin answers to.
    pub unused_reserves: Vec<Unused>,
    pub run: Run,
}

impl Review {
    /// How many findings have the verdict.
    #[must_use]
    pub fn count(&self, verdict: Verdict) -> usize {
        self.findings.iter().filter(|finding| finding.verdict == verdict).count()
    }

    /// No check has come to anything: all wait for something, or no case concerns them. That is no pass.
    #[must_use]
    pub fn judged_nothing(&self) -> bool {
        let says = |finding: &Finding| finding.governing.is_some() || !finding.words.happens.is_empty();
        !self.findings.iter().any(|finding| match finding.verdict {
            Verdict::NotJudged => false,
            Verdict::Broken => true,
            Verdict::Fails | Verdict::Thin | Verdict::Partly | Verdict::Sound => says(finding),
        })
    }

    /// Gravest consequence first, then the thinnest: the order of importance.
    #[must_use]
    pub fn by_weight(&self) -> Vec<&Finding> {
        let mut ranked: Vec<&Finding> = self.findings.iter().collect();
        let class = |finding: &Finding| finding.consequence.unwrap_or(Consequence::CheapPart);
        // What differs in the last digits of a calculation alone stays in the order of the text.
        let left = |finding: &Finding| (finding.headroom() * 1e8).round();
        ranked.sort_by(|a, b| class(a).cmp(&class(b)).then(left(a).total_cmp(&left(b))));
        ranked
    }
}

/// The verdict of every check, without words and carriers.
#[must_use]
pub fn verdicts(machine: &Machine, rules: &[&dyn Rule]) -> Vec<Finding> {
    verdicts_of(&Run::full(machine, rules, &case_points(machine), &WhatIf::default()), machine, rules)
}

/// The verdict of every check of a run of these rules, without words and carriers.
#[must_use]
pub fn verdicts_of(run: &Run, machine: &Machine, rules: &[&dyn Rule]) -> Vec<Finding> {
    let cards: Vec<&'static Card> = rules.iter().map(|rule| rule.card()).collect();
    findings(machine, run, &cards)
}

/// Reviews a machine with all rules.
#[must_use]
pub fn review(
    document: &Document,
    machine: &Machine,
    rules: &[&dyn Rule],
    overviews: &[&dyn Overview],
    today: Option<Today>,
) -> Review {
    let mut review = judged(document, machine, rules, overviews, today);
    carry(document, machine, rules, &mut review);
    review
}

/// The same, several times as fast, where nobody asks what carries a finding.
#[must_use]
pub fn review_without_carriers(
    document: &Document,
    machine: &Machine,
    rules: &[&dyn Rule],
    overviews: &[&dyn Overview],
    today: Option<Today>,
) -> Review {
    let mut review = judged(document, machine, rules, overviews, today);
    // What rests on guesses is only known from what carries it.
    if machine.workshop().guesses == Some(GuessPolicy::Advice) {
        carry(document, machine, rules, &mut review);
    }
    review
}

fn judged(
    document: &Document,
    machine: &Machine,
    rules: &[&dyn Rule],
    overviews: &[&dyn Overview],
    today: Option<Today>,
) -> Review {
    let points = case_points(machine);
    let as_written = WhatIf::default();
    let run = Run::full(machine, rules, &points, &as_written);
    let cards: Vec<&'static Card> = rules.iter().map(|rule| rule.card()).collect();
    let mut findings = findings(machine, &run, &cards);
    for finding in &mut findings {
        tell(machine, rules, &run, finding);
        workshop::label(finding);
    }
    let unused_concessions = concede(machine, &mut findings, today);
    findings.sort_by_cached_key(|finding| {
        let place = document.place(machine.written(finding.subject.node));
        (place.file, place.label, rules_order(&cards, finding.card), finding.check)
    });
    let unlocks = unlocks(machine, rules, &run, &findings);
    let remarks = overviews.iter().flat_map(|overview| look(*overview, machine, &findings)).collect();
    let unused_reserves = workshop::unused(machine, &cards, &run);
    let unread = unread(document, machine, &run);
    Review { findings, remarks, unlocks, unused_concessions, unread, unused_reserves, run }
}

/// What carries each finding that has too little margin.
fn carry(document: &Document, machine: &Machine, rules: &[&dyn Rule], review: &mut Review) {
    let findings = &mut review.findings;
    let carried: Vec<usize> =
        (0..findings.len()).filter(|index| findings.get(*index).is_some_and(is_carried)).collect();
    let chosen: Vec<&Finding> = carried.iter().filter_map(|index| findings.get(*index)).collect();
    let carriers = carriers(machine, rules, &review.run, &chosen);
    for (index, carriers) in carried.into_iter().zip(carriers) {
        let Some(finding) = findings.get_mut(index) else { continue };
        finding.weakest = weakest(document, &carriers);
        finding.carriers = carriers;
        finding.on_guesses = on_guesses(machine, finding);
        finding.advice |= finding.on_guesses.is_some() && machine.workshop().guesses == Some(GuessPolicy::Advice);
    }
}

/// Whether it is worth knowing what carries it: it has a finite margin, and too little of it.
fn is_carried(finding: &Finding) -> bool {
    matches!(finding.verdict, Verdict::Fails | Verdict::Thin)
        && finding.governing.as_ref().is_some_and(|governing| governing.reserve.is_finite())
}

/// Runs the check once more where it governs, for its words: in the first run no check makes any. Margins that are sound
/// stay without, but for those of the whole machine: whether it can do its tasks is told either way.
fn tell(machine: &Machine, rules: &[&dyn Rule], run: &Run, finding: &mut Finding) {
    let Some(rule) = rules.get(finding.place.rule) else { return };
    let whole = finding.card.area == Area::WholeMachine;
    let silent = finding.verdict.holds() && finding.governing.is_some() && !whole;
    if silent || matches!(finding.verdict, Verdict::NotJudged | Verdict::Broken) {
        return;
    }
    let told = run.one(machine, *rule, finding.place, &WhatIf::default(), &[], true);
    match told.map(|checked| checked.outcome) {
        Some(Outcome::Held(margin)) => finding.words = margin.words,
        Some(Outcome::Breach { words, .. } | Outcome::Clear(words)) => finding.words = words,
        _ => {}
    }
}

fn look(overview: &dyn Overview, machine: &Machine, findings: &[Finding]) -> Vec<(&'static Card, Remark)> {
    let margins: Vec<Judged<'_>> = findings
        .iter()
        .filter_map(|finding| {
            let governing = finding.governing.as_ref()?;
            Some(Judged {
                subject: &finding.subject,
                check: finding.check,
                held: &governing.margin.held,
                headroom: governing.headroom,
                case: machine
                    .cases
                    .named(&governing.case.name)
                    .map(|case| case.value.kind)
                    .filter(|_| !governing.everywhere),
                verdict: finding.verdict,
                consequence: governing.margin.consequence,
                reads: &finding.reads,
            })
        })
        .collect();
    let mut notes = Notes::default();
    overview.look(machine, &margins, &mut notes);
    notes.remarks().into_iter().map(|remark| (overview.card(), remark)).collect()
}

fn rules_order(cards: &[&'static Card], card: &Card) -> usize {
    cards.iter().position(|other| other.name == card.name).unwrap_or(usize::MAX)
}
