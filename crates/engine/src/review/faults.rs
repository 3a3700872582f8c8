//! A rule that fails breaks its own check and nothing else; no number is never sound; no load is; concessions end.

use super::*;
use document::{Limits, NoFiles, NoShelf};
use machine::Swaps;
use quantity::{Quantity, m, read_date};
use rule::{Area, Checks, Margin, Required};

static CARD: Card = Card::silent("trial", Area::WholeMachine);

struct Faulty;

impl Rule for Faulty {
    fn card(&self) -> &'static Card {
        &CARD
    }
    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        let held = |demand: f64| {
            let required = Required { value: 2.0, why: "" };
            let (demand, capacity) = (Quantity::from_si(demand), Quantity::from_si(1.0));
            Ok(Outcome::Held(Margin::ratio::<m::Mass>(demand, capacity, required, Consequence::RunOver)))
        };
        let mut on = checks.about("machine", machine.machine.mass.id());
        on.check("panics", |_| panic!("a wheel of no size"));
        on.check("no number", |_| held(f64::NAN));
        on.check("no load", |_| held(0.0));
        on.check("fails", |_| held(4.0));
        on.check("hot", |at| {
            if at.is_given(&at.case()?.speed) {
                return Err(machine::NotJudged::NoSolution("too hot for its table".into()));
            }
            held(0.1)
        });
        on.check("at most", |at| {
            at.at_most(at.machine().machine.mass.id());
            held(if at.is_given(&at.case()?.speed) { 0.1 } else { 0.2 })
        });
        on.check("at most too little", |at| {
            at.at_most(at.machine().machine.mass.id());
            held(4.0)
        });
    }
}

fn reviewed(until: &str, today: &str) -> Review {
    let spec = format!(
        "dryfit: 1\nmachine: {{name: trial, revision: C, mass: 40 kg}}\ncases: {{stand: {{kind: idle}}, drive: {{kind: cruise, speed: 6 km/h}}}}\nconcessions:\n  \
         known: {{rule: trial, on: machine, reason: it is a trial, until: {until}}}\n  \
         idle: {{rule: trial, on: wheel, reason: nothing answers}}\n"
    );
    let document = Document::load("trial.machine.yaml", spec.into_bytes(), &NoFiles, &NoShelf, &Limits::default());
    let machine = Machine::read(&document, &Swaps::new()).unwrap();
    review(&document, &machine, &[&Faulty], &[], Some(read_date(today).unwrap()))
}

fn finding<'a>(review: &'a Review, check: &str) -> &'a Finding {
    review.findings.iter().find(|finding| finding.check == check).unwrap()
}

#[test]
fn a_check_that_panics_is_broken_and_the_others_go_on() {
    let review = reviewed("2026-04-30", "2026-04-30");
    let broken = finding(&review, "panics");
    assert_eq!((broken.verdict, broken.broken.as_deref()), (Verdict::Broken, Some("a wheel of no size")));
    assert_eq!(finding(&review, "no number").verdict, Verdict::Broken);
    let unloaded = finding(&review, "no load");
    assert_eq!((unloaded.verdict, unloaded.headroom()), (Verdict::Sound, f64::INFINITY));
    assert_eq!(finding(&review, "fails").verdict, Verdict::Fails);
}

#[test]
fn what_could_not_be_judged_in_its_hardest_case_is_not_sound() {
    let review = reviewed("2026-04-30", "2026-04-30");
    let hot = finding(&review, "hot");
    assert_eq!((hot.verdict, hot.gaps.len(), hot.headroom()), (Verdict::Partly, 1, 4.0));
    // A limit that is at most so much settles nothing where it would do.
    let at_most = finding(&review, "at most");
    assert_eq!((at_most.verdict, at_most.gaps.len()), (Verdict::Partly, 2));
    let too_little = finding(&review, "at most too little");
    assert_eq!((too_little.verdict, too_little.gaps.len()), (Verdict::Fails, 0));
    assert_eq!((review.count(Verdict::Partly), Verdict::Partly.holds()), (2, true));
}

#[test]
fn concessions_hold_until_their_end_and_idle_ones_are_told() {
    let stands = |until: &str, today: &str| finding(&reviewed(until, today), "fails").stands();
    assert!(!stands("2026-04-30", "2026-04-30"));
    assert!(stands("2026-04-30", "2026-05-01"));
    assert!(!stands("revision D", "2026-05-01"));
    assert!(stands("revision C", "2026-05-01"));
    assert!(stands("the cows come home", "2026-05-01"));
    let unused: Vec<String> =
        reviewed("2026-04-30", "2026-04-30").unused_concessions.into_iter().map(|key| key.name).collect();
    assert_eq!(unused, ["idle"]);
}
