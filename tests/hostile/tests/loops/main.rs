//! Coolant loops that nobody should build, before all rules: none breaks one, and each is answered soon.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use document::{Document, Limits, NoFiles};
use machine::{Machine, Swaps, complaints};
use rule::Verdict;
use std::time::{Duration, Instant};

const HEAD: &str = "dryfit: 1
machine: {name: trial}
environment: {air: -15 °C to 15 °C, relative_humidity: 80 %, altitude: 0 m to 800 m, assembled_at: 20 °C}
cases:
  soak: {kind: soak}
  cold: {kind: cold_start, after: soak}
  climb: {kind: climb, air: 10 °C, duration: 20 min}
  stop: {kind: idle, after: climb, duration: 10 min}
cooling:
  coolant: {fluid: ethylene_glycol_water, glycol: 50 %, share_by: mass, volume: 300 mL, filled_at: 20 °C}
  reservoir: {gas_space: 60 mL, plan_area: 20 cm², outlet_depth: 20 mm, lid: {closes: closed, pressure_max: 60 kPa}}
  pump: {works_by: positive_displacement, free_flow: 1.4 L/min, stall_pressure: 150 kPa, power: 9 W, runs: always}
  hoses: {long: {bore: 6 mm, wall: 1.5 mm, length: 1.8 m, material: silicone_rubber}}
  circuit:
";
const DECK: &str = "{kind: exchanger, name: deck, channel: {width: 6 mm, depth: 4 mm, length: 2.6 m}, outside: {area: 0.09 m², heat_transfer: 60 W/(m²·K)}}";
const PLATE: &str = "{kind: plate, name: switches, heat: 40 W, channel: {width: 4 mm, depth: 4 mm, length: 0.5 m}}";
const HOSE: &str = "{kind: hose, hose: long}";
const HOLE: &str = "{kind: plate, name: hole, branch: left, tested: {pressure_drop: 0 kPa, flow: 1 L/min, fluid: water, temperature: 20 °C}}";

/// Name, circuit, changes of the head.
fn loops() -> Vec<(&'static str, Vec<String>, Vec<(&'static str, &'static str)>)> {
    let usual = || -> Vec<String> { ["reservoir", "pump", DECK, PLATE, HOSE].map(String::from).into() };
    let with = |more: &[String]| [usual(), more.to_vec()].concat();
    let of = |elements: &[&str]| elements.iter().map(|element| (*element).to_owned()).collect::<Vec<_>>();
    let branch = |element: &str, name: &str| format!("{}, branch: {name}}}", element.rsplit_once('}').unwrap().0);
    let hot = PLATE.replace("40 W", "1e9 W");
    let least = PLATE.replace("length: 0.5 m", "length: 1e-9 m").replace("4 mm", "1e-6 mm");
    vec![
        ("nothing wrong", usual(), vec![]),
        ("a reservoir alone", of(&["reservoir"]), vec![]),
        ("a pump alone", of(&["pump"]), vec![]),
        ("a hose alone", of(&[HOSE]), vec![]),
        ("a plate alone", of(&[PLATE]), vec![]),
        ("a pump that feeds itself", of(&["pump", "pump"]), vec![]),
        ("a pump that cools itself", of(&["pump", "{kind: plate, name: own, cools: pump, area: 20 cm²}"]), vec![]),
        ("a gigawatt", with(&[hot.replace("switches", "sun")]), vec![]),
        ("next to no channel", with(&[least.replace("switches", "pore")]), vec![]),
        ("a hose of a hair", usual(), vec![("bore: 6 mm", "bore: 1e-6 mm"), ("length: 1.8 m", "length: 1e6 m")]),
        ("water in the frost", usual(), vec![("ethylene_glycol_water, glycol: 50 %, share_by: mass", "water")]),
        ("hardly any glycol", usual(), vec![("glycol: 50 %", "glycol: 1 %")]),
        ("all glycol", usual(), vec![("glycol: 50 %", "glycol: 100 %")]),
        ("a branch of nothing", with(&[HOLE.into(), branch(HOSE, "right")]), vec![]),
        (
            "two branches of nothing",
            with(&[HOLE.into(), HOLE.replace("hole", "other").replace("left", "right")]),
            vec![],
        ),
        ("one branch alone", with(&[branch(HOSE, "alone")]), vec![]),
        ("nothing but branches", vec![branch(PLATE, "left"), branch(HOSE, "right")], vec![]),
        ("a branch without a name", with(&[branch(HOSE, "\"\""), branch(HOSE, "right")]), vec![]),
        ("a full reservoir", usual(), vec![("gas_space: 60 mL", "gas_space: 1e-6 mL")]),
        ("a drop of coolant", usual(), vec![("volume: 300 mL", "volume: 1e-6 mL")]),
        ("a sea of coolant", usual(), vec![("volume: 300 mL", "volume: 1e9 L")]),
        ("a pump of no use", usual(), vec![("free_flow: 1.4 L/min", "free_flow: 0 L/min")]),
        ("a pump without end", usual(), vec![("free_flow: 1.4 L/min", "free_flow: 1e9 L/min"), ("150 kPa", "1e9 kPa")]),
        ("a pump that never starts", usual(), vec![("runs: always", "runs: above_temperature, starts_above: 900 °C")]),
    ]
}

#[test]
fn none_breaks_a_rule_or_takes_long() {
    for (name, circuit, changes) in loops() {
        let mut text = HEAD.to_owned();
        for (from, to) in &changes {
            assert!(text.contains(from), "{name}: {from}");
            text = text.replace(from, to);
        }
        circuit.iter().for_each(|element| text.push_str(&format!("    - {element}\n")));
        let document = Document::load("spec", text.into_bytes(), &NoFiles, &catalogue::Catalogue, &Limits::default());
        assert_eq!(complaints(&document), [], "{name}");
        let machine = Machine::read(&document, &Swaps::new()).unwrap();
        let began = Instant::now();
        let review = engine::review(&document, &machine, rulebook::RULES, rulebook::OVERVIEWS, None);
        assert!(began.elapsed() < Duration::from_secs(30), "{name} takes {:?}", began.elapsed());
        assert!(!review.findings.is_empty(), "{name}: nobody says anything");
        for finding in &review.findings {
            let about = format!("{name}: {} of {} ({})", finding.check, finding.subject.name, finding.card.name);
            assert!(finding.verdict != Verdict::Broken, "{about}: {:?}", finding.broken);
            assert!(!finding.headroom().is_nan() || finding.governing.is_none(), "{about}");
            match finding.verdict {
                Verdict::NotJudged => assert!(!finding.gaps.is_empty(), "{about}"),
                Verdict::Fails | Verdict::Thin => assert!(!finding.words.happens.is_empty(), "{about}"),
                Verdict::Partly => assert!(!finding.gaps.is_empty(), "{about}"),
                Verdict::Sound | Verdict::Broken => {}
            }
        }
    }
}
