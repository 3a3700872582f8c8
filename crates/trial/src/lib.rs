//! Runs one rule on a piece of YAML, for the tests of rule crates. It never knows: other rules.
#![allow(clippy::panic, reason = "a test's text that does not read is the test's mistake")]

use catalogue::Catalogue;
use document::{Document, FileTrouble, Files, Limits};
use machine::{Machine, complaints};
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

/// Reviews the text with one rule.
#[must_use]
pub fn review(rule: &dyn Rule, yaml: &str) -> Vec<Row> {
    review_beside(rule, yaml, &[])
}

/// The same with the files that the text names, such as the log of a test run.
#[must_use]
pub fn review_beside(rule: &dyn Rule, yaml: &str, files: &[(&str, &str)]) -> Vec<Row> {
    let (document, machine) = machine_beside(yaml, files);
    let review = engine::review(&document, &machine, &[rule], &[], None);
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
