#![allow(clippy::disallowed_methods, reason = "a test works it out by hand")]

use crate::Bottoming;
use rule::prelude::*;
use trial::Row;

/// On ground that does not give, without a damper: by energy.
const DROPPED: &str = "
cases:
  drop: {kind: landing, drop: 100 mm, attitude: level, surface: packed_snow}
assumed: {ground_stiffness: 1000000000 N/mm, mount_stiffness: 400 N/mm}
suspension:
  front:
    count: 2
    sprung_mass_each: 10 kg
    unsprung_mass_each: 1 kg
    position: 700 mm
    motion_ratio: 1
    damper_travel: 200 mm
    preload: {collar: 0 mm}
    spring: {rate: 10 N/mm}
    damper: none
    bump_stop: {kind: none}
    push_test: {force: 400 N, movement: 1 mm}
    mount_strength: 1 kN
";

fn row(changes: &[(&str, &str)]) -> Row {
    let rows = trial::review(&Bottoming, &trial::changed(DROPPED, changes));
    assert_eq!(rows.len(), 1, "{rows:?}");
    rows[0].clone()
}

/// ½·R·x² = m·g·(h + x).
fn force() -> f64 {
    let weight: f64 = 10.0 * 9.80665;
    let x = (weight + (weight * weight + 2.0 * 10e3 * weight * 0.1).sqrt()) / 10e3;
    10e3 * x
}

fn strength(newton: f64) -> Row {
    row(&[("mount_strength: 1 kN", &format!("mount_strength: {newton:.9} N"))])
}

#[test]
fn fails_when_the_hard_end_gets_the_rest_of_the_blow() {
    let hard = row(&[("damper_travel: 200 mm", "damper_travel: 30 mm")]);
    assert!(hard.verdict == Verdict::Fails && hard.says.contains("bottoms"), "{hard:?}");
    assert!(row(&[("mount_strength: 1 kN", "mount_strength: 300 N")]).says.contains("before it has used"));
}

#[test]
fn fails_with_a_frozen_damper_that_was_sound_warm() {
    let oil = (
        "cases:",
        "oils:\n  waxy: {kind: mineral, viscosity_40: 5 mm²/s, viscosity_100: 1.7 mm²/s, density: 860 kg/m³, pour_point: -15 °C}\nenvironment: {air: 10 °C to 10 °C, relative_humidity: 80 %, altitude: 200 m}\ncases:",
    );
    let damper = (
        "damper: none",
        "damper: {kind: oil, bore: 16 mm, rod: 4 mm, holes: 8, hole_diameter: 2 mm, piston_thickness: 3 mm, oil: waxy}",
    );
    let frozen = ("drop: 100 mm, attitude: level", "drop: 100 mm, attitude: level, air: -20 °C");
    assert_eq!(row(&[oil, damper]).verdict, Verdict::Sound);
    let cold = row([("air: 10 °C to 10 °C", "air: -20 °C to 10 °C"), frozen]
        .iter()
        .fold(vec![oil, damper], |mut all, change| {
            all.push(*change);
            all
        })
        .as_slice());
    assert!(cold.verdict == Verdict::Fails && cold.says.contains("frozen"), "{cold:?}");
}

#[test]
fn thin_and_the_exact_boundary() {
    assert!(strength(1.1 * force()).says.contains("close to its strength"));
    // The travel is found to a millionth.
    let hair = 1e-5;
    assert_eq!(strength(force() * (1.2 + hair)).verdict, Verdict::Sound);
    assert_eq!(strength(force() * (1.2 - hair)).verdict, Verdict::Thin);
    assert_eq!(strength(force() * (1.0 + hair)).verdict, Verdict::Thin);
    assert_eq!(strength(force() * (1.0 - hair)).verdict, Verdict::Fails);
}

#[test]
fn thin_where_only_a_guessed_mount_is_too_stiff() {
    let guessed =
        [("    push_test: {force: 400 N, movement: 1 mm}\n", ""), ("damper_travel: 200 mm", "damper_travel: 30 mm")];
    let force = 1e3 / row(&guessed).reserve;
    let strength = format!("mount_strength: {:.6} N", 1.21 * force);
    let hard_end = row(&[guessed[0], guessed[1], ("mount_strength: 1 kN", &strength)]);
    assert!(hard_end.verdict == Verdict::Thin && hard_end.says.contains("stiffer mount"), "{hard_end:?}");
    // Pushed on, it is no guess.
    assert_eq!(row(&[guessed[1], ("mount_strength: 1 kN", &strength)]).verdict, Verdict::Sound);
}

#[test]
fn sound_by_hand() {
    let row = row(&[]);
    assert!(row.verdict == Verdict::Sound && row.assumed.is_empty(), "{row:?}");
    assert!((row.reserve * force() / 1e3 - 1.0).abs() < 1e-5, "{row:?}");
}

#[test]
fn not_judged_without_a_tested_mount_and_aside_where_nothing_lands() {
    let gap = row(&[("    mount_strength: 1 kN\n", "")]);
    assert_eq!((gap.verdict, gap.says.as_str()), (Verdict::NotJudged, "mount_strength"));
    for kind in ["kind: idle", "kind: landing, drop: 100 mm, attitude: inverted"] {
        let text = trial::changed(DROPPED, &[("kind: landing, drop: 100 mm, attitude: level", kind)]);
        assert!(trial::review(&Bottoming, &text).is_empty());
    }
}

#[test]
fn a_higher_fall_never_has_more_reserve() {
    let reserve = |mm: u32| row(&[("drop: 100 mm", &format!("drop: {mm} mm"))]).reserve;
    let reserves: Vec<f64> = (1..12).map(|step| reserve(step * 40)).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] < pair[0]), "{reserves:?}");
}
