//! Outcomes of one check over all case points → one finding.

use crate::concession::Conceded;
use crate::influence::Carrier;
use crate::run::{Place, Run};
use crate::workshop::{self, Demanded};
use machine::{Basis, Machine, NotJudged, Reads};
use rule::{Card, Consequence, Margin, Outcome, Subject, Verdict, Words};
use solve::CasePoint;
use std::collections::HashMap;

/// A case and the outside air in it.
#[derive(Debug, Clone, PartialEq)]
pub struct CaseLabel {
    pub name: String,
    /// In K; none where the machine gives no air.
    pub air: Option<f64>,
}

/// The margin where it is thinnest.
#[derive(Debug, Clone, PartialEq)]
pub struct Governing {
    pub margin: Margin,
    pub reserve: f64,
    pub headroom: f64,
    /// Where the requirement comes from the workshop.
    pub demanded: Option<Demanded>,
    pub case: CaseLabel,
}

/// What one check of one rule on one subject comes to.
#[derive(Debug, Clone)]
pub struct Finding {
    pub card: &'static Card,
    pub subject: Subject,
    pub check: &'static str,
    pub verdict: Verdict,
    pub consequence: Option<Consequence>,
    /// Absent for a breach, a clearance, a gap.
    pub governing: Option<Governing>,
    pub words: Words,
    /// Of the governing run.
    pub reads: Reads,
    /// Why it is not judged, or in which cases it was not.
    pub gaps: Vec<(CaseLabel, NotJudged)>,
    /// Why it is broken.
    pub broken: Option<String>,
    /// The inputs that carry it, strongest first.
    pub carriers: Vec<Carrier>,
    /// The weakest basis among them.
    pub weakest: Option<Basis>,
    pub concession: Option<Conceded>,
    /// The workshop's profile makes it advice: it is told, and refuses nothing.
    pub advice: bool,
    pub(crate) place: Place,
}

impl Finding {
    /// What the machine has left over: the one scale on which findings are compared. A breach has nothing.
    #[must_use]
    pub fn headroom(&self) -> f64 {
        match (&self.governing, self.verdict) {
            (Some(governing), _) => governing.headroom,
            (None, Verdict::Fails | Verdict::Broken) => f64::NEG_INFINITY,
            (None, _) => f64::INFINITY,
        }
    }

    /// Where it governs in the run that it comes from.
    #[must_use]
    pub fn place(&self) -> Place {
        self.place
    }

    /// It counts towards refusing the machine.
    #[must_use]
    pub fn stands(&self) -> bool {
        !self.advice && self.concession.as_ref().is_none_or(|conceded| !conceded.holds)
    }
}

/// One finding for each rule, subject and check; checks that no case concerned are left out.
pub(crate) fn findings(
    machine: &Machine,
    run: &Run,
    cards: &[&'static Card],
    label: &dyn Fn(CasePoint) -> CaseLabel,
) -> Vec<Finding> {
    let mut groups: Vec<(usize, &Subject, &'static str, Vec<(Place, CasePoint, &rule::Checked)>)> = Vec::new();
    let mut known: HashMap<(usize, &Subject, &'static str), usize> = HashMap::new();
    // Mostly the same row of a rule asks the same in every case point.
    let mut last: HashMap<usize, Vec<usize>> = HashMap::new();
    for (place, point, checked) in run.rows() {
        let rows = last.entry(place.rule).or_default();
        let same = |group: &usize| {
            groups.get(*group).is_some_and(|(_, subject, check, _)| {
                subject.node == checked.subject.node && *check == checked.check && subject.name == checked.subject.name
            })
        };
        let group = rows.get(place.row).copied().filter(same).unwrap_or_else(|| {
            *known.entry((place.rule, &checked.subject, checked.check)).or_insert_with(|| {
                groups.push((place.rule, &checked.subject, checked.check, Vec::new()));
                groups.len() - 1
            })
        });
        match rows.get_mut(place.row) {
            Some(known) => *known = group,
            None => rows.resize(place.row + 1, group),
        }
        groups.get_mut(group).into_iter().for_each(|group| group.3.push((place, point, checked)));
    }
    groups
        .into_iter()
        .filter_map(|(rule, subject, check, rows)| settle(machine, *cards.get(rule)?, subject, check, &rows, label))
        .collect()
}

fn settle(
    machine: &Machine,
    card: &'static Card,
    subject: &Subject,
    check: &'static str,
    rows: &[(Place, CasePoint, &rule::Checked)],
    label: &dyn Fn(CasePoint) -> CaseLabel,
) -> Option<Finding> {
    let mut worst: Option<(f64, usize)> = None;
    let mut first: Option<usize> = None;
    let mut gaps = Vec::new();
    for (index, (_, point, checked)) in rows.iter().enumerate() {
        let rank = match &checked.outcome {
            Outcome::Aside(_) => continue,
            Outcome::NotJudged(gap) => {
                gaps.push((label(*point), gap.clone()));
                first.get_or_insert(index);
                continue;
            }
            Outcome::Broken(_) => f64::NEG_INFINITY,
            Outcome::Breach { .. } => f64::MIN,
            Outcome::Held(margin) => margin.held.headroom(margin.required.value),
            Outcome::Clear(_) => f64::INFINITY,
        };
        if worst.is_none_or(|(least, _)| rank < least) {
            worst = Some((rank, index));
        }
    }
    let index = worst.map(|(_, index)| index).or(first)?;
    let (place, point, checked) = rows.get(index)?;
    let mut finding = Finding {
        card,
        subject: subject.clone(),
        check,
        verdict: Verdict::NotJudged,
        consequence: None,
        governing: None,
        words: Words::default(),
        reads: checked.reads.clone(),
        gaps,
        broken: None,
        carriers: Vec::new(),
        weakest: None,
        concession: None,
        advice: false,
        place: *place,
    };
    match &checked.outcome {
        Outcome::Held(margin) => {
            let headroom = margin.held.headroom(margin.required.value);
            finding.verdict = margin.held.verdict(margin.required.value);
            finding.consequence = Some(margin.consequence);
            let demanded = workshop::demanded(machine.workshop(), card, subject, margin);
            let (margin, case) = (margin.clone(), label(*point));
            finding.governing = Some(Governing { reserve: margin.held.reserve(), headroom, demanded, margin, case });
        }
        Outcome::Breach { consequence, words } => {
            finding.verdict = Verdict::Fails;
            finding.consequence = Some(*consequence);
            finding.words = words.clone();
        }
        Outcome::Clear(words) => {
            finding.verdict = Verdict::Sound;
            finding.words = words.clone();
        }
        Outcome::Broken(reason) => {
            finding.verdict = Verdict::Broken;
            finding.broken = Some(reason.clone());
        }
        Outcome::NotJudged(_) | Outcome::Aside(_) => {}
    }
    finding.advice = workshop::is_advice(machine.workshop(), &finding);
    Some(finding)
}
