#![allow(clippy::disallowed_methods, reason = "a test works it out by hand")]

use crate::PitchOver;
use rule::prelude::*;
use trial::Row;

const HILL: &str = "
machine: {name: trial, mass: 60 kg, payload: {mass: 20 kg, at: {x: 300 mm, z: 600 mm}}, centre_of_gravity: {x: 400 mm, z: 300 mm}, footprint: {rear: 0 mm, front: 1000 mm}, people_near: no, rides: no}
cases: {hill: {kind: climb, grade: 20 °, speed: 4 km/h, duration: 5 min, air: 0 °C}}
";
const LOADED: &str = "tips over, loaded";
const EMPTY: &str = "tips over, empty";

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&PitchOver, &trial::changed(HILL, changes))
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| row.check == check).unwrap()
}

/// x·cos θ over h·(sin θ + a/g).
fn by_hand(x: f64, h: f64, degrees: f64) -> f64 {
    let slope = degrees.to_radians();
    x * slope.cos() / (h * (slope.sin() + 1.5 / 9.80665))
}

#[test]
fn fails_backwards_uphill_and_over_its_nose_downhill() {
    let back = row(LOADED, &[("rear: 0 mm", "rear: 300 mm")]);
    assert!(back.verdict == Verdict::Fails && back.says.contains("backwards"), "{back:?}");
    let nose = row(LOADED, &[("kind: climb", "kind: descent"), ("front: 1000 mm", "front: 500 mm")]);
    assert!(nose.verdict == Verdict::Fails && nose.says.contains("nose"), "{nose:?}");
    assert_eq!(row(LOADED, &[("rear: 0 mm", "rear: 450 mm")]).reserve, 0.0, "behind its own tail");
}

#[test]
fn thin_and_the_exact_boundary() {
    let at = |reserve: f64, people: &str| {
        let lever = 0.4 * reserve / by_hand(0.4, 0.3, 20.0);
        let rear = format!("rear: {:.9} mm", (0.4 - lever) * 1e3);
        row(LOADED, &[("rear: 0 mm", &rear), ("people_near: no", people)])
    };
    let (alone, near, hair) = ("people_near: no", "people_near: yes", 1e-6);
    assert!(at(1.1, alone).says.contains("nearly over its tail"));
    for (limit, who, above, below) in [
        (1.2, alone, Verdict::Sound, Verdict::Thin),
        (1.5, near, Verdict::Sound, Verdict::Thin),
        (1.0, alone, Verdict::Thin, Verdict::Fails),
    ] {
        assert_eq!((at(limit + hair, who).verdict, at(limit - hair, who).verdict), (above, below), "{limit}");
    }
}

#[test]
fn sound_by_hand_loaded_and_empty() {
    let all = rows(&[]);
    assert!(all.len() == 2 && all.iter().all(|row| row.verdict == Verdict::Sound), "{all:?}");
    assert!((row(LOADED, &[]).reserve / by_hand(0.4, 0.3, 20.0) - 1.0).abs() < 1e-9);
    // (60 · 400 − 20 · 300)/40 = 450 mm forward, (60 · 300 − 20 · 600)/40 = 150 mm high.
    assert!((row(EMPTY, &[]).reserve / by_hand(0.45, 0.15, 20.0) - 1.0).abs() < 1e-9);
    let driven_empty: Vec<_> =
        rows(&[("speed: 4 km/h", "speed: 4 km/h, payload: no")]).into_iter().map(|row| row.check).collect();
    assert_eq!(driven_empty, [EMPTY]);
}

#[test]
fn not_judged_without_what_it_needs_and_aside_on_the_level() {
    for (field, name) in [("x: 400 mm, ", "x"), ("rear: 0 mm, ", "rear"), ("grade: 20 °, ", "grade")] {
        let gap = row(LOADED, &[(field, "")]);
        assert_eq!((gap.verdict, gap.says.as_str()), (Verdict::NotJudged, name));
    }
    assert!(rows(&[("kind: climb", "kind: cruise")]).is_empty());
}

#[test]
fn a_steeper_grade_never_has_more_reserve() {
    let reserve = |degrees: u32| row(LOADED, &[("grade: 20 °", &format!("grade: {degrees} °"))]).reserve;
    let reserves: Vec<f64> = (1..9).map(|step| reserve(step * 5)).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] < pair[0]), "{reserves:?}");
}
