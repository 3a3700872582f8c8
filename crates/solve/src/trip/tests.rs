use super::*;
use crate::drive::tests::{asked, carrier};

const TRIP: (&str, &str) = (
    "assumed: {",
    "service: {trip: {distance: 7 km, ascent: 520 m, returns_empty: yes}}\ncooling: {pump: {power: 17 W}}\nassumed: {",
);

fn trip(changes: &[(&str, &str)], case: &str) -> Found<Trip> {
    let all: Vec<(&str, &str)> = [TRIP].iter().chain(changes).copied().collect();
    asked(&carrier(&all), case, &[], |at| at.trip().cloned())
}

#[test]
fn there_and_back_by_hand() {
    let way = trip(&[], "climb").unwrap();
    let climb = asked(&carrier(&[]), "climb", &[], |at| at.drive().cloned()).unwrap();
    let g = 9.80665;
    // 520 m up at the case's 20°: 1,428.7 m on the map and 1,520.4 m along the slope, and 1,979.6 m that are level.
    let (map, level) = (520.0 / 20f64.to_radians().tan(), 3500.0 - 520.0 / 20f64.to_radians().sin());
    assert!((map - 1428.7).abs() < 0.05 && (level - 1979.6).abs() < 0.05);
    assert!((way.out.si() - 60.0 * g * (0.12 * (map + level) + 520.0)).abs() < 1e-6);
    // Empty it rolls down by itself, and nothing of that is given back to what is level.
    assert!((way.back.si() - 42.0 * g * 0.12 * level).abs() < 1e-6);
    let share = climb.pull.si() * climb.track_speed.si() / (50.4 * climb.battery_current.si());
    assert!((way.share.si() / share - 1.0).abs() < 1e-12 && share > 0.5 && share < 0.9);
    let lasts = 7000.0 / (6.0 / 3.6);
    assert!((way.lasts.si() - lasts).abs() < 1e-6 && (way.pump.si() - 17.0 * lasts).abs() < 1e-6);
    assert_eq!(way.auxiliary.si(), 0.0);
    assert!((way.charge.si() - ((way.out.si() + way.back.si()) / share + way.pump.si()) / 50.4).abs() < 1e-6);
}

#[test]
fn a_way_that_rises_evenly_and_one_that_says_how_steep_it_is() {
    let g = 9.80665;
    // As gentle as the way allows, and the way down still rolls: 0.149 of the way is more than the ground takes.
    let even = trip(&[("ascent: 520 m", "ascent: 520 m, grade: 1 °")], "climb").unwrap();
    assert!((even.grade.si().sin() - 520.0 / 3500.0).abs() < 1e-12 && even.back.si() < 1e-6);
    assert!((even.out.si() - 60.0 * g * (0.12 * 520.0 / even.grade.si().tan() + 520.0)).abs() < 1e-6);
    let said = trip(&[("ascent: 520 m", "ascent: 520 m, grade: 30 °")], "climb").unwrap();
    assert!((said.grade.si().to_degrees() - 30.0).abs() < 1e-9 && said.back > even.back);
}

#[test]
fn servos_and_radio_count_all_the_way() {
    let loads = "auxiliary_supply: {loads: {pump: 2 A, servo: 3 A, radio: 1 A}}";
    let line = ("  controller: {current_limit", "  LOADS\n  controller: {current_limit");
    let with = |said: &str| {
        let text = line.1.replace("LOADS", said);
        trip(&[(line.0, &text), ("assumed: {", "assumed: {auxiliary_voltage: 12 V, auxiliary_share: 25 %, ")], "climb")
            .unwrap()
    };
    let (guessed, lasts) = (with(loads), 7000.0 / (6.0 / 3.6));
    // The pump's power is counted as the pump's.
    assert!((guessed.auxiliary.si() - 4.0 * 12.0 * 0.25 * lasts).abs() < 1e-6);
    let measured = with(&loads.replace("loads", "mean_power: 9 W, loads"));
    assert!((measured.auxiliary.si() - 9.0 * lasts).abs() < 1e-6);
    let more = (guessed.auxiliary.si() - measured.auxiliary.si()) / 50.4;
    assert!((guessed.charge.si() - measured.charge.si() - more).abs() < 1e-6);
}

#[test]
fn a_level_way_back_takes_work_and_less_when_empty() {
    let level = ("ascent: 520 m", "ascent: 0 m");
    let empty = trip(&[level], "climb").unwrap();
    assert!((empty.back.si() / empty.out.si() - 42.0 / 60.0).abs() < 1e-12);
    let full = trip(&[level, (", returns_empty: yes", "")], "climb").unwrap();
    assert!(full.back == full.out && full.charge > empty.charge);
}

#[test]
fn what_is_missing_is_named_and_braking_says_nothing() {
    assert!(matches!(trip(&[("distance: 7 km, ", "")], "climb"), Err(NotJudged::NotGiven { .. })));
    assert!(matches!(trip(&[], "descent"), Err(NotJudged::NoSolution(_))));
    assert!(matches!(trip(&[], "soak"), Err(NotJudged::NoSolution(_))));
}
