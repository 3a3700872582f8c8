//! Outcomes of one check over all case points → one finding.

use crate::concession::Conceded;
use crate::influence::Carrier;
use crate::run::{Place, Run};
use crate::workshop::{self, Demanded};
use machine::{Basis, Machine, NodeId, NotJudged, Reads};
use rule::{Card, Checked, Consequence, Margin, Outcome, Subject, Verdict, Words};
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
    /// It is as thin in every other case: no case has anything to do with it.
    pub everywhere: bool,
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
    /// It misses by less than the scatter of its own guesses: the one that decides most.
    pub on_guesses: Option<NodeId>,
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

/// A limit that is known to be no more than so much settles what fails, but not what holds.
const BEYOND: &str = "it lies beyond the end of a table, where the figure can only be less";

/// One check of a rule on one subject, over the case points so far.
struct Group<'a> {
    rule: usize,
    subject: &'a Subject,
    check: &'static str,
    /// Where it is worst.
    worst: Option<(f64, Place, &'a Checked)>,
    /// Where it is best.
    best: f64,
    /// It concerns this case, and perhaps others.
    case: Option<usize>,
    several: bool,
    /// Where it first could not be judged.
    first: Option<(Place, &'a Checked)>,
    gaps: Vec<(CaseLabel, NotJudged)>,
}

impl<'a> Group<'a> {
    fn new(rule: usize, checked: &'a Checked) -> Self {
        let Checked { subject, check, .. } = checked;
        Self {
            rule,
            subject,
            check,
            worst: None,
            best: f64::NEG_INFINITY,
            case: None,
            several: false,
            first: None,
            gaps: Vec::new(),
        }
    }

    fn is_of(&self, checked: &Checked) -> bool {
        self.subject.node == checked.subject.node
            && self.check == checked.check
            && self.subject.name == checked.subject.name
    }

    fn take(&mut self, run: &Run, (place, point): (Place, CasePoint), checked: &'a Checked) {
        let rank = match &checked.outcome {
            Outcome::Aside(_) => return,
            Outcome::NotJudged(gap) => {
                self.gaps.extend(run.case(place).map(|case| (case.clone(), gap.clone())));
                self.first.get_or_insert((place, checked));
                return;
            }
            Outcome::Broken(_) => f64::NEG_INFINITY,
            Outcome::Breach { .. } => f64::MIN,
            Outcome::Held(margin) => {
                if checked.reads.at_most() && margin.held.verdict(margin.required.value).holds() {
                    let beyond = NotJudged::NoSolution(BEYOND.into());
                    self.gaps.extend(run.case(place).map(|case| (case.clone(), beyond)));
                }
                margin.held.headroom(margin.required.value)
            }
            Outcome::Clear(_) => f64::INFINITY,
        };
        self.best = self.best.max(rank);
        self.several |= *self.case.get_or_insert(point.case) != point.case;
        if self.worst.is_none_or(|(least, ..)| rank < least) {
            self.worst = Some((rank, place, checked));
        }
    }
}

/// One finding for each rule, subject and check; checks that no case concerned are left out.
pub(crate) fn findings(machine: &Machine, run: &Run, cards: &[&'static Card]) -> Vec<Finding> {
    let mut groups: Vec<Group> = Vec::new();
    let mut known: HashMap<(usize, &Subject, &'static str), usize> = HashMap::new();
    // Mostly the same row of a rule asks the same in every case point.
    let mut last: Vec<Vec<usize>> = vec![Vec::new(); cards.len()];
    for (place, point, checked) in run.rows() {
        let Some(rows) = last.get_mut(place.rule) else { continue };
        let same = |index: &usize| groups.get(*index).is_some_and(|group| group.is_of(checked));
        let index = rows.get(place.row).copied().filter(same).unwrap_or_else(|| {
            *known.entry((place.rule, &checked.subject, checked.check)).or_insert_with(|| {
                groups.push(Group::new(place.rule, checked));
                groups.len() - 1
            })
        });
        match rows.get_mut(place.row) {
            Some(known) => *known = index,
            None => rows.resize(place.row + 1, index),
        }
        groups.get_mut(index).into_iter().for_each(|group| group.take(run, (place, point), checked));
    }
    groups.into_iter().filter_map(|group| settle(machine, run, *cards.get(group.rule)?, group)).collect()
}

fn settle(machine: &Machine, run: &Run, card: &'static Card, group: Group) -> Option<Finding> {
    let Group { subject, check, worst, best, several, first, gaps, .. } = group;
    let everywhere = several && gaps.is_empty() && worst.is_some_and(|(least, ..)| least >= best);
    let (place, checked) = worst.map(|(_, place, checked)| (place, checked)).or(first)?;
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
        on_guesses: None,
        concession: None,
        advice: false,
        place,
    };
    match &checked.outcome {
        Outcome::Held(margin) => {
            let headroom = margin.held.headroom(margin.required.value);
            finding.verdict = margin.held.verdict(margin.required.value);
            finding.consequence = Some(margin.consequence);
            let demanded = workshop::demanded(machine.workshop(), card, subject, margin);
            let (margin, case) = (margin.clone(), run.case(place)?.clone());
            finding.governing =
                Some(Governing { reserve: margin.held.reserve(), headroom, demanded, margin, case, everywhere });
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
    if finding.verdict == Verdict::Sound && !finding.gaps.is_empty() {
        finding.verdict = Verdict::Partly;
    }
    finding.advice = workshop::is_advice(machine.workshop(), &finding);
    Some(finding)
}
