#![allow(clippy::disallowed_methods, reason = "a test works it out by hand")]

use crate::RideBalance;
use rule::prelude::*;
use trial::Row;

const PAIR: &str = "
machine: {name: trial, mass: 50 kg, payload: {mass: 10 kg, at: {x: 0 mm}}}
cases: {going: {kind: cruise, speed: 5 km/h, air: 0 °C}}
suspension:
  front: {count: 2, sprung_mass_each: 10 kg, position: 600 mm, motion_ratio: 0.5, spring: {rate: 10 N/mm}}
  rear: {count: 2, sprung_mass_each: 15 kg, position: 0 mm, motion_ratio: 0.5, spring: {rate: 15 N/mm}}
";

fn row(changes: &[(&str, &str)]) -> Row {
    let rows = trial::review(&RideBalance, &trial::changed(PAIR, changes));
    assert_eq!(rows.len(), 1, "{rows:?}");
    rows[0].clone()
}

#[test]
fn fails_with_one_end_far_too_hard_and_names_it() {
    let hard = row(&[("rate: 15 N/mm", "rate: 60 N/mm")]);
    assert!(hard.verdict == Verdict::Fails && hard.says.contains("rear is much harder"), "{hard:?}");
}

#[test]
fn there_is_no_thin_the_limit_is_itself_what_is_wanted_and_the_boundary_is_exact() {
    let at = |times: f64| row(&[("rate: 15 N/mm", &format!("rate: {:.9} N/mm", 15.0 * times * times))]).verdict;
    assert_eq!(at(1.8 * (1.0 - 1e-9)), Verdict::Sound);
    assert_eq!(at(1.8 * (1.0 + 1e-9)), Verdict::Fails);
}

#[test]
fn sound_by_hand_and_empty_too() {
    assert!((row(&[]).reserve - 1.8).abs() < 1e-9, "10 kg on 10 N/mm swing like 15 kg on 15");
    // 10 kg taken off the rear axle leave 10 kg on each of its springs: √1.5 times as quick.
    let empty = row(&[("speed: 5 km/h", "speed: 5 km/h, payload: no")]);
    assert!((empty.reserve - 1.8 / 1.5f64.sqrt()).abs() < 1e-9, "{empty:?}");
}

#[test]
fn not_judged_without_what_it_needs_and_silent_on_one_axle() {
    for (field, name) in [(", spring: {rate: 15 N/mm}", "spring"), ("sprung_mass_each: 15 kg, ", "sprung_mass_each")] {
        let gap = row(&[(field, "")]);
        assert_eq!((gap.verdict, gap.says.as_str()), (Verdict::NotJudged, name));
    }
    let one = PAIR.lines().filter(|line| !line.contains("rear")).collect::<Vec<_>>().join("\n");
    assert!(trial::review(&RideBalance, &one).is_empty());
}

#[test]
fn a_spring_nearer_to_its_like_never_lowers_the_reserve() {
    let reserve = |rate: u32| row(&[("rate: 15 N/mm", &format!("rate: {rate} N/mm"))]).reserve;
    let reserves: Vec<f64> = (0..9).map(|step| reserve(60 - 5 * step)).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] > pair[0]), "{reserves:?}");
}
