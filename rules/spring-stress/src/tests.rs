#![allow(clippy::disallowed_methods, reason = "a test works it out by hand")]

use crate::SpringStress;
use rule::prelude::*;
use trial::Row;

/// 0.56 · 1800 MPa; the landing ends by energy, nothing but the spring gives.
const DROPPED: &str = "
cases:
  drop: {kind: landing, drop: 60 mm, attitude: level, surface: packed_snow}
assumed: {ground_stiffness: 10000000 N/mm, mount_stiffness: 400 N/mm}
materials:
  drawn: {family: metal, modulus: 206 GPa, poisson: 0.3, tensile_strength: 1800 MPa}
suspension:
  rear:
    count: 2
    sprung_mass_each: 10 kg
    unsprung_mass_each: 1 kg
    position: 0 mm
    motion_ratio: 1
    damper_travel: 100 mm
    preload: {collar: 5 mm}
    spring: {wire: 3.2 mm, mean_diameter: 24 mm, active_coils: 8, free_length: 120 mm, material: drawn, ends: closed_ground, rate: 8 N/mm}
    damper: none
    bump_stop: {kind: none}
";
const LANDING: &str = "stress when landing";
const SEASON: &str = "bumps of a season";
const BUCKLING: &str = "buckling when landing";
const PI: f64 = core::f64::consts::PI;

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&SpringStress, &trial::changed(DROPPED, changes))
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| row.check == check).unwrap()
}

/// Travel from ½·R·x² + (R·c − m·g)·x = m·g·h.
fn travel(drop: f64) -> f64 {
    let (weight, preload) = (10.0 * 9.80665, 8e3 * 5e-3);
    let lack = weight - preload;
    (lack + (lack * lack + 2.0 * 8e3 * weight * drop).sqrt()) / 8e3
}

/// 8·F·D/(π·d³).
fn stress(pressed: f64) -> f64 {
    8.0 * 8e3 * pressed * 24e-3 / (PI * 32.768e-9)
}

fn strong(mpa: f64) -> String {
    format!("tensile_strength: {mpa:.9} MPa")
}

#[test]
fn fails_where_the_landing_sets_the_spring() {
    let set = row(LANDING, &[("tensile_strength: 1800 MPa", "tensile_strength: 1000 MPa")]);
    assert!(set.verdict == Verdict::Fails && set.says.contains("gets shorter for good"), "{set:?}");
    // Deeper than its coils let it nothing is pressed: 120 mm less ten wires.
    let solid = row(LANDING, &[("drop: 60 mm", "drop: 2 m"), ("damper_travel: 100 mm", "damper_travel: 200 mm")]);
    assert!((solid.reserve / (0.56 * 1800e6 / stress(0.088)) - 1.0).abs() < 1e-6, "{solid:?}");
}

#[test]
fn fails_over_a_season_where_the_wire_is_thin() {
    let cracks = row(SEASON, &[("wire: 3.2 mm", "wire: 2.2 mm")]);
    assert!(cracks.verdict == Verdict::Fails && cracks.says.contains("crack"), "{cracks:?}");
}

#[test]
fn fails_by_buckling_where_nothing_guides_a_long_narrow_spring() {
    let long = ("free_length: 120 mm", "free_length: 260 mm");
    let bows = row(BUCKLING, &[long, ("drop: 60 mm", "drop: 400 mm")]);
    assert!(bows.verdict == Verdict::Fails && bows.says.contains("bows out"), "{bows:?}");
    assert!(rows(&[]).iter().all(|row| row.check != BUCKLING), "five coils long it cannot");
    let guided = "damper: {kind: curve, measured_at: 20 °C, bump: {3 m/s: 10 N}}";
    let inside = rows(&[long, ("damper: none", guided), ("drop: 60 mm", "drop: 60 mm, air: 20 °C")]);
    assert!(inside.iter().all(|row| row.check != BUCKLING), "{inside:?}");
}

#[test]
fn thin_and_the_exact_boundary() {
    let needs = stress(5e-3 + travel(0.06)) / 0.56 / 1e6;
    let at = |times: f64| row(LANDING, &[("tensile_strength: 1800 MPa", &strong(needs * times))]).verdict;
    // The travel is found to a millionth.
    let hair = 1e-5;
    assert_eq!(at(1.2 + hair), Verdict::Sound);
    assert_eq!(at(1.2 - hair), Verdict::Thin);
    assert_eq!(at(1.0 + hair), Verdict::Thin);
    assert_eq!(at(1.0 - hair), Verdict::Fails);
}

#[test]
fn sound_by_hand() {
    let all = rows(&[]);
    assert!(all.len() == 2 && all.iter().all(|row| row.verdict == Verdict::Sound), "{all:?}");
    let by_hand = 0.56 * 1800e6 / stress(5e-3 + travel(0.06));
    assert!((row(LANDING, &[]).reserve / by_hand - 1.0).abs() < 1e-5);
    // From 40 N of preload to 1.5 times 98.07 N, with k = (4w + 2)/(4w − 3) for w = 7.5; Goodman through 241 about 379 MPa.
    let inside = 32.0 / 27.0 * 8.0 * 24e-3 / (PI * 32.768e-9);
    let (low, high) = (40.0 * inside, 1.5 * 98.0665 * inside);
    let ultimate = 0.67 * 1800e6;
    let alone = 241e6 / (1.0 - 379e6 / ultimate);
    let season = 1.0 / ((high - low) / 2.0 / alone + (high + low) / 2.0 / ultimate);
    assert!((row(SEASON, &[]).reserve / season - 1.0).abs() < 1e-9);
}

#[test]
fn not_judged_without_what_it_needs() {
    for (field, name) in
        [("wire: 3.2 mm, ", "wire"), (", tensile_strength: 1800 MPa", "tensile_strength"), ("collar: 5 mm", "collar")]
    {
        for check in [LANDING, SEASON] {
            let gap = row(check, &[(field, "")]);
            assert_eq!((gap.verdict, gap.says.as_str()), (Verdict::NotJudged, name), "{check}");
        }
    }
    let idle: Vec<_> = rows(&[("kind: landing, drop: 60 mm, attitude: level", "kind: idle")])
        .into_iter()
        .map(|row| row.check)
        .collect();
    assert_eq!(idle, [SEASON]);
}

#[test]
fn thicker_wire_never_has_less_reserve() {
    for check in [LANDING, SEASON] {
        let reserve = |mm: f64| row(check, &[("wire: 3.2 mm", &format!("wire: {mm} mm"))]).reserve;
        let reserves: Vec<f64> = (0..8).map(|step| reserve(2.0 + 0.2 * f64::from(step))).collect();
        assert!(reserves.windows(2).all(|pair| pair[1] > pair[0]), "{check} {reserves:?}");
    }
}
