use super::*;
use crate::drive::tests::{asked, carrier};

fn tension(changes: &[(&str, &str)], case: &str) -> Found<Track> {
    asked(&carrier(changes), case, &[], |at| at.track().cloned())
}

#[test]
fn cold_tightens_a_plastic_track_on_an_alloy_frame_by_hand() {
    let soak = tension(&[], "soak").unwrap();
    // 40 K, 47 µm/(m·K), 1.84 m: 3.46 mm too short.
    let short = 40.0 * 47e-6 * 1.84;
    let modulus = 2.2e9 * (1.0 + 0.4 * 43.0 / 63.0);
    let area = 9.0 * 0.009 * 2.0 * 0.0024;
    let by_hand = short / (1.84 / (modulus * area) + 4.0 / 400e3);
    assert!((soak.contraction.si() / by_hand - 1.0).abs() < 1e-9, "{:?}", soak.contraction);
    assert!((soak.slack.si() - 90.0 - by_hand).abs() < 1e-9 && soak.tight == soak.slack && soak.speed.si() == 0.0);
}

#[test]
fn a_sprung_tensioner_takes_nearly_all_of_it() {
    let sprung = tension(&[("by: rigid_screw", "by: spring, rate: 5 N/mm")], "soak").unwrap();
    // The spring gives half of 3.46 mm, and holds two strands.
    let by_spring = 5000.0 * (40.0 * 47e-6 * 1.84 / 2.0) / 2.0;
    assert!(sprung.contraction.si() < by_spring && sprung.contraction.si() > 0.99 * by_spring);
}

#[test]
fn a_frame_that_shrinks_more_slackens_it_to_nothing_and_no_further() {
    let loose = tension(&[("23 µm/(m·K)", "200 µm/(m·K)")], "soak").unwrap();
    assert!((loose.contraction.si() + 90.0).abs() < 1e-12 && loose.slack.si() == 0.0);
}

#[test]
fn the_terms_of_a_climb_add_up() {
    let two = tension(&[("links: 46", "links: 46\n    count: 2")], "climb").unwrap();
    let drive = asked(&carrier(&[]), "climb", &[], |at| at.drive().cloned()).unwrap();
    assert!((two.pull.si() * 2.0 / drive.pull.si() - 1.0).abs() < 1e-12 && two.speed_from == "the drive line");
    let speed = 6.0 / 3.6;
    assert!((two.centrifugal.si() - 2.35 / 1.84 * speed * speed).abs() < 1e-9);
    assert!((two.run_over.si() - 0.5 * 60.0 * 9.80665 / 2.0).abs() < 1e-9);
    assert!((two.tight - two.slack - two.pull - two.run_over).si().abs() < 1e-9);
    let braking = tension(&[], "descent").unwrap();
    assert!(braking.pull.si() < 0.0 && braking.tight > braking.slack);
    assert!(tension(&[], "lift_off").unwrap().run_over.si() == 0.0);
}

#[test]
fn without_a_drive_line_the_stated_speed_serves() {
    let known = tension(&[("speed_constant: 118 rpm/V, ", "")], "climb").unwrap();
    let full = tension(&[], "climb").unwrap();
    assert_eq!(known.speed_from, "the stated speed");
    assert!((known.tight - full.tight).si().abs() < 1e-9);
    assert!(matches!(tension(&[("speed_constant: 118 rpm/V, ", "")], "top_speed"), Err(NotJudged::NotGiven { .. })));
    assert!(matches!(tension(&[("slack_tension: 90 N", "count: 1")], "climb"), Err(NotJudged::NotGiven { .. })));
}
