#![allow(clippy::disallowed_methods, reason = "a test works it out by hand")]

use crate::SideSlope;
use rule::prelude::*;
use trial::Row;

/// As wide as twice its height: it rolls at 45°.
const TRAVERSE: &str = "
machine: {name: trial, mass: 60 kg, payload: {mass: 20 kg, at: {x: 0 mm, z: 600 mm}}, centre_of_gravity: {z: 300 mm}, footprint: {width: 600 mm}, people_near: no, rides: no}
cases: {traverse: {kind: side_slope, side_slope: 20 °, speed: 4 km/h, air: 0 °C}}
";

fn row(changes: &[(&str, &str)]) -> Row {
    let rows = trial::review(&SideSlope, &trial::changed(TRAVERSE, changes));
    assert_eq!(rows.len(), 1, "{rows:?}");
    rows[0].clone()
}

fn slope(degrees: f64) -> Row {
    row(&[("side_slope: 20 °", &format!("side_slope: {degrees:.9} °"))])
}

#[test]
fn fails_on_a_steeper_slope_and_hurts_where_people_are_near() {
    assert!(slope(46.0).verdict == Verdict::Fails && slope(46.0).says.contains("rolls over"));
    let consequence = |people: &str| {
        let all = trial::outcomes(&SideSlope, &trial::changed(TRAVERSE, &[("people_near: no", people)]));
        all.into_iter().find_map(
            |(_, _, outcome)| if let Outcome::Held(margin) = outcome { Some(margin.consequence) } else { None },
        )
    };
    assert_eq!(
        (consequence("people_near: yes"), consequence("people_near: no")),
        (Some(Consequence::Harm), Some(Consequence::Stranded))
    );
    assert_eq!(row(&[("z: 300 mm}", "z: 300 mm, y: 400 mm}")]).verdict, Verdict::Fails, "heavy beside its own track");
}

#[test]
fn thin_where_a_stone_rolls_it() {
    assert!(slope(38.0).verdict == Verdict::Thin && slope(38.0).says.contains("stone"));
}

#[test]
fn sound_by_hand_and_lower_without_its_load() {
    let by_hand = 1.0 / 20f64.to_radians().tan();
    assert!((row(&[]).reserve / by_hand - 1.0).abs() < 1e-9 && row(&[]).verdict == Verdict::Sound);
    // (60 · 300 − 20 · 600)/40 = 150 mm.
    let empty = row(&[("speed: 4 km/h", "speed: 4 km/h, payload: no")]);
    assert!((empty.reserve / (2.0 * by_hand) - 1.0).abs() < 1e-9, "{empty:?}");
}

#[test]
fn not_judged_without_what_it_needs_and_aside_elsewhere() {
    for (field, name) in [
        ("centre_of_gravity: {z: 300 mm}, ", "z"),
        ("footprint: {width: 600 mm}, ", "width"),
        ("side_slope: 20 °, ", "side_slope"),
    ] {
        let gap = row(&[(field, "")]);
        assert_eq!((gap.verdict, gap.says.as_str()), (Verdict::NotJudged, name));
    }
    assert!(trial::review(&SideSlope, &trial::changed(TRAVERSE, &[("kind: side_slope", "kind: cruise")])).is_empty());
}

#[test]
fn the_exact_boundary() {
    let thin = (1.0f64 / 1.5).atan().to_degrees();
    assert_eq!(slope(thin - 1e-6).verdict, Verdict::Sound);
    assert_eq!(slope(thin + 1e-6).verdict, Verdict::Thin);
    assert_eq!(slope(45.0 - 1e-6).verdict, Verdict::Thin);
    assert_eq!(slope(45.0 + 1e-6).verdict, Verdict::Fails);
}

#[test]
fn wider_never_has_less_reserve() {
    let reserve = |mm: u32| row(&[("width: 600 mm", &format!("width: {mm} mm"))]).reserve;
    let reserves: Vec<f64> = (0..10).map(|step| reserve(300 + 50 * step)).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] > pair[0]), "{reserves:?}");
}
