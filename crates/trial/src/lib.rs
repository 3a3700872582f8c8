//! Runs one rule on a piece of YAML, for the tests of rule crates. It never knows: other rules.
#![allow(clippy::panic, reason = "a test's text that does not read is the test's mistake")]

use catalogue::Catalogue;
use document::{Document, FileTrouble, Files, Limits};
use engine::{Finding, Review};
use machine::{Machine, WhatIf, complaints};
use rule::{Outcome, Overview, Remark, Rule, Verdict};

/// One finding of the rule, at its governing case.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    pub subject: String,
    pub check: &'static str,
    pub verdict: Verdict,
    pub headroom: f64,
    /// Ratio, or gap in SI units; NaN where there is none.
    pub reserve: f64,
    /// Where it is worst.
    pub case: String,
    /// What happens; of a gap, the name of the absent field.
    pub says: String,
    /// Names of the absent fields for which something was assumed.
    pub assumed: Vec<String>,
}

/// Reads the text as a spec with the catalogue behind it. `dryfit:` and `machine:` are added where they are missing.
///
/// # Panics
/// If the text does not read; the complaints stand in the message.
#[must_use]
pub fn machine_of(yaml: &str) -> (Document, Machine) {
    machine_beside(yaml, &[])
}

/// The text with each of the changes in it: from what it holds, to what it is to say, wherever it stands.
///
/// # Panics
/// If the text does not hold what is to be changed.
#[must_use]
pub fn changed(text: &str, changes: &[(&str, &str)]) -> String {
    changes.iter().fold(text.to_owned(), |text, (from, to)| {
        assert!(text.contains(from), "{from}");
        text.replace(from, to)
    })
}

/// Names and texts of the files that a spec names.
#[derive(Debug, Clone, Copy)]
struct Beside<'a>(&'a [(&'a str, &'a str)]);

impl Files for Beside<'_> {
    fn read(&self, _from: &str, name: &str) -> Result<(String, Vec<u8>), FileTrouble> {
        let found = self.0.iter().find(|file| file.0 == name).ok_or(FileTrouble::Missing { nearest: None })?;
        Ok((name.to_owned(), found.1.as_bytes().to_vec()))
    }
}

fn machine_beside(yaml: &str, files: &[(&str, &str)]) -> (Document, Machine) {
    let mut text = yaml.to_owned();
    if !text.contains("dryfit:") {
        text = format!("dryfit: 1\n{text}");
    }
    if !text.starts_with("machine:") && !text.contains("\nmachine:") {
        text.push_str("\nmachine: {name: trial}\n");
    }
    let document =
        Document::load("trial.machine.yaml", text.into_bytes(), &Beside(files), &Catalogue, &Limits::default());
    let wrong = complaints(&document);
    match Machine::read(&document, &machine::Swaps::new()) {
        Ok(machine) if wrong.is_empty() => (document, machine),
        _ => panic!("the trial's spec does not read: {wrong:#?}"),
    }
}

/// Of all numbers with which findings say they would be cleared: those that do clear theirs, and those that do not.
#[derive(Debug, Default)]
pub struct Proposed {
    /// Rule, check and field.
    pub cleared: Vec<String>,
    /// The same, and what it comes to.
    pub wrong: Vec<String>,
}

/// Puts each number that a finding proposes in place of the written one, and reviews again.
#[must_use]
pub fn proposed(document: &Document, machine: &Machine, rules: &[&dyn Rule], review: &Review) -> Proposed {
    let mut tried = Proposed::default();
    for (finding, (node, si)) in
        review.findings.iter().flat_map(|one| one.words.changes.iter().map(move |it| (one, *it)))
    {
        let mut what_if = WhatIf::default();
        what_if.set(node, si);
        let after = engine::verdicts_of(&review.run.again(machine, rules, &what_if, &[node]), machine, rules);
        let is = |one: &Finding| {
            (one.card.name, one.subject.clone(), one.check)
                == (finding.card.name, finding.subject.clone(), finding.check)
        };
        let after = after.iter().find(|one| is(one));
        let path = document.path(node);
        let field = machine.absent(node).map_or_else(|| path.rsplit('.').next().unwrap_or(""), |absent| absent.field);
        let what = format!("{} {}: {field}", finding.card.name, finding.check);
        if after.is_some_and(|after| after.verdict.holds()) {
            tried.cleared.push(what);
        } else {
            let comes_to = |one: &Finding| match &one.governing {
                Some(at) => {
                    format!("{:?} with {} of {} in {}", one.verdict, at.reserve, at.margin.required.value, at.case.name)
                }
                None => format!("{:?}", one.verdict),
            };
            let (was, is) = (comes_to(finding), after.map(comes_to));
            tried.wrong.push(format!(
                "{what} of {si} on {}: {was} → {is:?}; {:?}",
                finding.subject.name, finding.words.clears
            ));
        }
    }
    tried
}

/// Reviews the text with one rule.
///
/// # Panics
/// If a number that a finding proposes does not clear it.
#[must_use]
pub fn review(rule: &dyn Rule, yaml: &str) -> Vec<Row> {
    review_beside(rule, yaml, &[])
}

/// The same with the files that the text names, such as the log of a test run.
///
/// # Panics
/// As [`review`].
#[must_use]
pub fn review_beside(rule: &dyn Rule, yaml: &str, files: &[(&str, &str)]) -> Vec<Row> {
    let (document, machine) = machine_beside(yaml, files);
    let review = engine::review(&document, &machine, &[rule], &[], None);
    let wrong = proposed(&document, &machine, &[rule], &review).wrong;
    assert!(wrong.is_empty(), "{wrong:#?}");
    review
        .findings
        .iter()
        .map(|finding| {
            let name = |id| machine.absent(id).map_or("", |absent| absent.field).to_owned();
            let says = match finding.gaps.first() {
                Some((_, machine::NotJudged::NotGiven { absent, .. })) if finding.verdict == Verdict::NotJudged => {
                    name(*absent)
                }
                Some((_, gap)) if finding.verdict == Verdict::NotJudged => format!("{gap:?}"),
                _ => finding.broken.clone().unwrap_or_else(|| finding.words.happens.clone()),
            };
            let assumed = finding.reads.assumed.iter().map(|assumption| match assumption {
                machine::Assumption::Figure { absent, .. } | machine::Assumption::Word { absent, .. } => name(*absent),
                machine::Assumption::AtMost { instead, .. } => (*instead).to_owned(),
            });
            Row {
                subject: finding.subject.name.clone(),
                check: finding.check,
                verdict: finding.verdict,
                headroom: finding.headroom(),
                reserve: finding.governing.as_ref().map_or(f64::NAN, |governing| governing.reserve),
                case: finding.governing.as_ref().map_or_else(String::new, |governing| governing.case.name.clone()),
                says,
                assumed: assumed.collect(),
            }
        })
        .collect()
}

/// What one overview says of a machine that some rules have judged.
#[must_use]
pub fn look(overview: &dyn Overview, rules: &[&dyn Rule], yaml: &str) -> Vec<Remark> {
    let (document, machine) = machine_of(yaml);
    let review = engine::review(&document, &machine, rules, &[overview], None);
    review.remarks.into_iter().map(|(_, remark)| remark).collect()
}

/// Every outcome of a rule in every case, for the few tests that ask about cases that are not the worst.
#[must_use]
pub fn outcomes(rule: &dyn Rule, yaml: &str) -> Vec<(String, &'static str, Outcome)> {
    let (document, machine) = machine_of(yaml);
    let review = engine::review(&document, &machine, &[rule], &[], None);
    review
        .run
        .rows()
        .map(|(_, _, checked)| (checked.subject.name.clone(), checked.check, checked.outcome.clone()))
        .collect()
}

/// Every line of numbers that a rule's findings tell.
#[must_use]
pub fn numbers(rule: &dyn Rule, yaml: &str) -> Vec<String> {
    let (document, machine) = machine_of(yaml);
    let review = engine::review(&document, &machine, &[rule], &[], None);
    review.findings.iter().flat_map(|finding| finding.words.numbers.clone()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::{Quantity, m};
    use rule::{Area, Card, Checks, Consequence, Margin, Required};

    static CARD: Card = Card::silent("heavy", Area::WholeMachine);

    /// Bears so many kilograms twice over, and proposes a mass.
    struct Heavy(f64);

    impl Rule for Heavy {
        fn card(&self) -> &'static Card {
            &CARD
        }

        fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
            let mass = &machine.machine.mass;
            checks.about("machine", mass.id()).check("borne", |at| {
                let (bears, required) = (Quantity::from_si(80.0), Required { value: 2.0, why: "" });
                let margin = Margin::ratio::<m::Mass>(at.need(mass)?, bears, required, Consequence::RunOver);
                Ok(Outcome::Held(margin.tell(at, |w| {
                    w.at_most(mass, Quantity::from_si(self.0), |mass| format!("no more than {mass}"));
                })))
            });
        }
    }

    const SPEC: &str = "machine: {name: trial, mass: 50 kg}\ncases: {one: {kind: idle}}";

    #[test]
    fn a_number_that_clears_is_let_through() {
        assert_eq!(review(&Heavy(40.0), SPEC)[0].verdict, Verdict::Thin);
    }

    #[test]
    #[should_panic(expected = "heavy borne: mass of 41")]
    fn a_number_that_does_not_is_found_out() {
        let _ = review(&Heavy(41.0), SPEC);
    }
}
