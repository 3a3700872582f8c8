use super::*;
use crate::review;
use document::{Document, FileTrouble, Files, Limits, NoShelf};
use machine::Swaps;
use quantity::{Quantity, m};
use rule::{Checks, Rule};

static CARD: Card = Card::silent("trial", Area::Cooling);

/// A reserve of 2 on `machine`, one of 3 on `payload`, 10 K left on `machine`; 1.5, 1 and 5 K are wanted.
struct Three;

impl Rule for Three {
    fn card(&self) -> &'static Card {
        &CARD
    }
    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        let required = |value| Required { value, why: "a trial" };
        let m_of = Quantity::from_si;
        for (name, capacity, wanted) in [("machine", 2.0, 1.5), ("payload", 3.0, 1.0)] {
            let mut on = checks.about(name, machine.machine.mass.id());
            on.check("ratio", |_| {
                let costs = if name == "machine" { Consequence::RunOver } else { Consequence::CheapPart };
                Ok(Outcome::Held(Margin::ratio::<m::Mass>(m_of(1.0), m_of(capacity), required(wanted), costs)))
            });
        }
        let mut on = checks.about("machine", machine.machine.mass.id());
        on.check("gap", |_| {
            let (cold, warm, yardstick) = (Quantity::from_si(290.0), Quantity::from_si(300.0), Quantity::from_si(20.0));
            let margin = Margin::gap::<m::Temperature, m::TemperatureDifference>(
                cold,
                warm,
                yardstick,
                required(5.0),
                Consequence::Stranded,
            );
            Ok(Outcome::Held(margin))
        });
    }
}

struct Shop<'a>(&'a str);

impl Files for Shop<'_> {
    fn read(&self, _: &str, _: &str) -> Result<(String, Vec<u8>), FileTrouble> {
        Err(FileTrouble::Missing { nearest: None })
    }
    fn workshop(&self) -> Option<(String, Result<Vec<u8>, String>)> {
        Some(("workshop.yaml".into(), Ok(self.0.into())))
    }
}

fn reviewed(workshop: &str) -> (Document, crate::Review) {
    let spec = "dryfit: 1\nmachine: {name: trial, mass: 40 kg}\ncases: {stand: {kind: idle}}\n";
    let document = Document::load("trial.machine.yaml", spec.into(), &Shop(workshop), &NoShelf, &Limits::default());
    assert_eq!(document.troubles, []);
    let machine = Machine::read(&document, &Swaps::new()).unwrap();
    let review = review(&document, &machine, &[&Three], &[], None);
    (document, review)
}

/// What is required of each check, and its verdict.
fn told(workshop: &str) -> Vec<(String, f64, Verdict)> {
    let (_, review) = reviewed(workshop);
    let row = |finding: &Finding| {
        let required = finding.governing.as_ref().unwrap().margin.required.value;
        (format!("{} {}", finding.subject.name, finding.check), required, finding.verdict)
    };
    let mut rows: Vec<_> = review.findings.iter().map(row).collect();
    rows.sort_by(|a, b| a.0.cmp(&b.0));
    rows
}

fn required(workshop: &str) -> Vec<f64> {
    told(workshop).into_iter().map(|(_, required, _)| required).collect()
}

/// In the order: gap on the machine, ratio on the machine, ratio on the payload.
#[test]
fn the_thing_counts_before_the_rule_the_rule_before_the_area_and_the_area_before_the_card() {
    let area = "any: {area: cooling, reserve: 1.1, reason: r}";
    let rule = "rule: {rule: trial, reserve: 1.2, reason: r}";
    let thing = "thing: {on: machine, reserve: 1.3, reason: r}";
    let both = "both: {on: machine, rule: trial, reserve: 1.4, reason: r}";
    let with = |lines: &[&str]| required(&format!("reserves:\n  {}\n", lines.join("\n  ")));
    assert_eq!(required(""), [5.0, 1.5, 1.0]);
    assert_eq!(with(&[area]), [5.0, 1.1, 1.1]);
    assert_eq!(with(&[area, rule]), [5.0, 1.2, 1.2]);
    assert_eq!(with(&[thing, area, rule]), [5.0, 1.3, 1.2]);
    assert_eq!(with(&[both, thing, area, rule]), [5.0, 1.4, 1.2]);
    assert_eq!(with(&["other: {area: structure, reserve: 9, reason: r}"]), [5.0, 1.5, 1.0]);
    assert_eq!(with(&[area, "warm: {rule: trial, reserve: 12 K, reason: r}"]), [12.0, 1.1, 1.1], "each of its kind");
}

#[test]
fn it_decides_the_verdict_and_its_line_says_so() {
    let text = "reserves:\n  more: {on: machine, reserve: 2.5, reason: we ride it}\n  warm: {area: cooling, reserve: 12 K, reason: r}\n";
    let verdicts: Vec<Verdict> = told(text).into_iter().map(|(_, _, verdict)| verdict).collect();
    assert_eq!(verdicts, [Verdict::Thin, Verdict::Thin, Verdict::Sound]);
    let (document, review) = reviewed(text);
    for (subject, check, label, line) in [
        ("machine", "ratio", "without this it would be sound: the rule itself wants 1.50", "2.5"),
        ("machine", "gap", "without this it would be sound: the rule itself wants 5 K", "12 K"),
    ] {
        let of = |finding: &&Finding| finding.subject.name == subject && finding.check == check;
        let finding = review.findings.iter().find(of).unwrap();
        let own = finding.words.labels.last().unwrap();
        assert_eq!((own.says.as_str(), document.text(own.node)), (label, line));
        assert_eq!(finding.words.labels[0].node, finding.subject.node, "the thing itself comes first");
    }
    let payload = review.findings.iter().find(|finding| finding.subject.name == "payload").unwrap();
    assert_eq!(payload.words.labels, [], "nothing is decided there");
}

/// A sample, a remedy and a nudge all go through `Run`.
#[test]
fn every_way_to_run_a_check_requires_the_same() {
    let (document, review) = reviewed("reserves: {more: {rule: trial, reserve: 2.5, reason: r}}");
    let machine = Machine::read(&document, &Swaps::new()).unwrap();
    let (rules, what_if): ([&dyn Rule; 1], _) = ([&Three], machine::WhatIf::default());
    let mut outcomes: Vec<Outcome> = Vec::new();
    let node = machine.machine.mass.id();
    for run in [&review.run, &review.run.again(&machine, &rules, &what_if, &[node])] {
        outcomes.extend(run.rows().map(|(_, _, checked)| checked.outcome.clone()));
        let places: Vec<_> = run.rows().map(|(place, ..)| place).collect();
        for place in &places {
            outcomes.extend(run.one(&machine, &Three, *place, &what_if, &[], true).map(|checked| checked.outcome));
        }
        outcomes.extend(run.nudged(&machine, &rules, &places, &what_if, node).into_iter().flatten());
        run.select(&|_| true, &[node]).run(&machine, &rules, &what_if, &mut |_, outcome| outcomes.push(outcome));
    }
    assert_eq!(outcomes.len(), 24);
    for outcome in outcomes {
        let Outcome::Held(margin) = outcome else { panic!("{outcome:?}") };
        let wanted = if matches!(margin.held, Held::Ratio { .. }) { 2.5 } else { 5.0 };
        assert_eq!(margin.required.value, wanted);
    }
}

#[test]
fn a_carrier_is_left_outside_and_to_a_sport_machine_a_cheap_part_is_advice() {
    let of = |workshop: &str, subject: &str| {
        let (_, review) = reviewed(workshop);
        let finding = review.findings.into_iter().find(|one| one.subject.name == subject && one.check == "ratio");
        let finding = finding.unwrap();
        (finding.consequence.unwrap(), finding.verdict, finding.stands())
    };
    assert_eq!(of("", "machine"), (Consequence::RunOver, Verdict::Sound, true));
    assert_eq!(of("profile: carrier", "machine"), (Consequence::Stranded, Verdict::Sound, true));
    let strict = "reserves: {more: {rule: trial, reserve: 4, reason: r}}\nprofile: ";
    let thin = |profile: &str, subject| of(&format!("{strict}{profile}"), subject);
    assert_eq!(thin("sport", "payload"), (Consequence::CheapPart, Verdict::Thin, false));
    assert_eq!(thin("carrier", "payload"), (Consequence::CheapPart, Verdict::Thin, true));
    assert_eq!(thin("sport", "machine"), (Consequence::RunOver, Verdict::Thin, true));
}

#[test]
fn a_reserve_that_nothing_answers_to_is_told_with_the_reason() {
    let unused = |reserve: &str| {
        let (_, review) = reviewed(&format!("reserves: {{it: {{{reserve}, reason: r}}}}"));
        review.unused_reserves.into_iter().map(|unused| unused.why).next()
    };
    assert_eq!(unused("rule: trial, reserve: 2"), None);
    assert_eq!(unused("rule: trial, reserve: 2 K"), None);
    assert_eq!(unused("rule: trial, reserve: 2 mm"), Some(Unfitting::Measure));
    assert_eq!(unused("on: payload, reserve: 2 K"), Some(Unfitting::Measure));
    assert_eq!(unused("area: structure, reserve: 2"), Some(Unfitting::Nothing));
    let subject = |wanted: &str, nearest: Option<&str>| {
        Some(Unfitting::Subject { wanted: wanted.into(), nearest: nearest.map(str::to_owned) })
    };
    assert_eq!(unused("on: paylod, reserve: 2"), subject("paylod", Some("payload")));
    assert_eq!(unused("on: radiator, reserve: 2"), subject("radiator", None));
}
