use super::*;
use document::{Limits, NoFiles, NoShelf};
use machine::{NotJudged, Swaps};
use quantity::{Quantity, m};
use rule::{Area, Checks, Margin, Required, Words};
use solve::At;

static CARD: Card = Card::silent("trial", Area::Powertrain);

const SPEC: &str = "
dryfit: 1
machine: {name: trial, mass: 40 kg}
cases:
  light: {kind: idle}
  heavy: {kind: cruise, speed: 6 km/h}
";

/// Of each outcome one, with words that name the case and are only made when they are wanted.
struct OneOfEach;

impl Rule for OneOfEach {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        let mut on = checks.about("machine", machine.machine.mass.id());
        let words = |at: &At| -> Result<Words, NotJudged> {
            let happens = if at.tells() { at.case()?.key.name.clone() } else { String::new() };
            Ok(Words { happens, ..Words::default() })
        };
        let held = |at: &At, required: f64| -> Result<Outcome, NotJudged> {
            let (mass, words) = (at.need(&at.machine().machine.mass)?, words(at)?);
            let demand = if at.is_given(&at.case()?.speed) { mass * 2.0 } else { mass };
            let required = Required { value: required, why: "" };
            let margin = Margin::ratio::<m::Mass>(demand, Quantity::from_si(100.0), required, Consequence::RunOver);
            Ok(Outcome::Held(margin.tell(at, |w| **w = words)))
        };
        on.check("breach in one case", |at| {
            Ok(match at.is_given(&at.case()?.speed) {
                true => Outcome::Breach { consequence: Consequence::RunOver, words: words(at)? },
                false => Outcome::Clear(words(at)?),
            })
        });
        on.check("clear", |at| Ok(Outcome::Clear(words(at)?)));
        on.check("thin", |at| held(at, 2.0));
        on.check("sound", |at| held(at, 1.0));
        on.check("aside", |_| Ok(Outcome::Aside("never")));
    }
}

fn reviewed() -> Review {
    let document = Document::load("trial.machine.yaml", SPEC.into(), &NoFiles, &NoShelf, &Limits::default());
    let machine = Machine::read(&document, &Swaps::new()).unwrap();
    review(&document, &machine, &[&OneOfEach], &[], None)
}

#[test]
fn breach_clearance_and_thin_margin_get_their_words_from_the_case_that_governs() {
    let review = reviewed();
    let told: Vec<_> = review.findings.iter().map(|one| (one.check, one.verdict, one.words.happens.as_str())).collect();
    assert_eq!(
        told,
        [
            ("breach in one case", Verdict::Fails, "heavy"),
            ("clear", Verdict::Sound, "light"),
            ("sound", Verdict::Sound, ""),
            ("thin", Verdict::Thin, "heavy"),
        ]
    );
}

#[test]
fn the_first_run_makes_no_words() {
    let review = reviewed();
    let silent = review.run.rows().all(|(_, _, checked)| match &checked.outcome {
        Outcome::Held(margin) => margin.words == Words::default(),
        Outcome::Breach { words, .. } | Outcome::Clear(words) => *words == Words::default(),
        _ => true,
    });
    assert!(silent);
}

#[test]
fn a_verdict_after_a_change_names_the_air_after_it() {
    let spec = format!("{SPEC}environment: {{air: -20 °C to -5 °C, relative_humidity: 85 %, altitude: 600 m}}\n");
    let document = Document::load("trial.machine.yaml", spec.into(), &NoFiles, &NoShelf, &Limits::default());
    let machine = Machine::read(&document, &Swaps::new()).unwrap();
    let rules: [&dyn Rule; 1] = [&OneOfEach];
    let review = review(&document, &machine, &rules, &[], None);
    let airs = |run: &Run| -> Vec<Option<f64>> {
        let found = verdicts_of(run, &machine, &rules);
        found.into_iter().filter_map(|one| Some(one.governing?.case.air?.round())).map(Some).collect()
    };
    assert_eq!(airs(&review.run), [Some(253.0); 2]);
    let node = machine.environment.air.low.id();
    let mut what_if = WhatIf::default();
    what_if.set(node, 263.15);
    assert_eq!(airs(&review.run.again(&machine, &rules, &what_if, &[node])), [Some(263.0); 2]);
}

#[test]
fn what_no_case_changes_is_the_same_everywhere() {
    let review = reviewed();
    let everywhere = |check: &str| {
        let finding = review.findings.iter().find(|finding| finding.check == check).unwrap();
        finding.governing.as_ref().unwrap().everywhere
    };
    assert!(!everywhere("thin"), "twice the mass counts in one of the cases");
    let still = SPEC.replace("  heavy: {kind: cruise, speed: 6 km/h}\n", "  other: {kind: idle}\n");
    let document = Document::load("trial.machine.yaml", still.into(), &NoFiles, &NoShelf, &Limits::default());
    let machine = Machine::read(&document, &Swaps::new()).unwrap();
    let found = verdicts(&machine, &[&OneOfEach]);
    let held: Vec<bool> = found.iter().filter_map(|one| Some(one.governing.as_ref()?.everywhere)).collect();
    assert_eq!(held, [true, true]);
    let one = SPEC.replace("  heavy: {kind: cruise, speed: 6 km/h}\n", "");
    let document = Document::load("trial.machine.yaml", one.into(), &NoFiles, &NoShelf, &Limits::default());
    let machine = Machine::read(&document, &Swaps::new()).unwrap();
    let found = verdicts(&machine, &[&OneOfEach]);
    assert!(found.iter().filter_map(|one| one.governing.as_ref()).all(|at| !at.everywhere), "there is one case only");
}
