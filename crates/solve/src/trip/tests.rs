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
    assert!((way.out.si() - 60.0 * g * (0.12 * 3500.0 + 520.0)).abs() < 1e-6);
    // Empty it rolls back by itself: 520 m are more than 0.12 of 3.5 km.
    assert_eq!(way.back.si(), 0.0);
    let share = climb.pull.si() * climb.track_speed.si() / (50.4 * climb.battery_current.si());
    assert!((way.share.si() / share - 1.0).abs() < 1e-12 && share > 0.5 && share < 0.9);
    let lasts = 7000.0 / (6.0 / 3.6);
    assert!((way.lasts.si() - lasts).abs() < 1e-6 && (way.pump.si() - 17.0 * lasts).abs() < 1e-6);
    assert!((way.charge.si() - (way.out.si() / share + way.pump.si()) / 50.4).abs() < 1e-6);
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
