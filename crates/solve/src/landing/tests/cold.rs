//! Dampers in the cold: locked for force, free for travel; and dampers known by a curve or by tests.

use super::*;

fn rear(changes: &[(&str, &str)], air: &str) -> CornerLanding {
    let at = format!("drop: 0.3 m, attitude: level, air: {air}");
    let mut all = vec![("drop: 0.3 m, attitude: level", at.as_str())];
    all.extend_from_slice(changes);
    land(&all, "level").unwrap().corners[1].clone().unwrap()
}

#[test]
fn colder_is_never_softer_though_the_oil_gels() {
    // The front undamped: its own oil would thicken too, and carry a little of the blow for the rear.
    let oiled = "damper: {kind: oil, bore: 14 mm, rod: 3.5 mm, holes: 4, hole_diameter: 1.3 mm, piston_thickness: 2.5 mm, oil: thin}";
    let bare = [(oiled, "damper: {kind: none}")];
    let forces: Vec<f64> =
        ["5 °C", "-5 °C", "-14.9 °C", "-15.1 °C", "-20 °C"].map(|air| rear(&bare, air).force.si()).to_vec();
    assert!(forces.windows(2).all(|pair| pair[1] >= pair[0]), "{forces:?}");
    let (flows, gelled) = (rear(&[], "-14.9 °C"), rear(&[], "-15.1 °C"));
    assert!(!flows.damper_gelled && gelled.damper_gelled);
    // Free for travel: as deep as without a damper at all.
    let free = rear(
        &[(
            "damper: {kind: oil, bore: 16 mm, rod: 4 mm, holes: 2, hole_diameter: 1.2 mm, piston_thickness: 3 mm, oil: waxy}",
            "damper: {kind: none}",
        )],
        "-15.1 °C",
    );
    assert_eq!(gelled.damper_travel, free.damper_travel);
    assert!(gelled.force >= free.force && gelled.damper_travel > flows.damper_travel);
}

#[test]
fn a_thick_damper_pushes_no_harder_than_the_rod_that_its_mount_makes_of_it() {
    let thick = |mm2: &str| rear(&[("viscosity_40: 15 mm²/s, viscosity_100: 3.4 mm²/s", mm2)], "-14 °C").force.si();
    let forces: Vec<f64> = [
        "viscosity_40: 15 mm²/s, viscosity_100: 3.4 mm²/s",
        "viscosity_40: 150 mm²/s, viscosity_100: 15 mm²/s",
        "viscosity_40: 1500 mm²/s, viscosity_100: 80 mm²/s",
    ]
    .map(thick)
    .to_vec();
    let rod = rear(&[], "-15.1 °C").force.si();
    assert!(forces.iter().all(|force| *force <= rod * (1.0 + 1e-9)), "{forces:?} {rod}");
}

#[test]
fn the_travel_never_ends_above_the_static_sag() {
    // So thick that it stops on its first bounce, long before it has sunk to where its weight puts it.
    let changes = [
        ("collar: 13 mm", "collar: 2 mm"),
        ("viscosity_40: 15 mm²/s, viscosity_100: 3.4 mm²/s", "viscosity_40: 3000 mm²/s, viscosity_100: 120 mm²/s"),
        ("drop: 0.3 m, attitude: level", "drop: 5 mm, attitude: level"),
    ];
    let landed = land(&changes, "level").unwrap().corners[1].clone().unwrap();
    assert!(landed.sag.si() > 0.005 && landed.damper_travel >= landed.sag, "{landed:?}");
}

#[test]
fn a_second_descent_counts() {
    // The rear, undamped, throws its end up; the tables of two-corner landings hold the figures, this one that it is seen.
    let body = land(&[], "tail").unwrap().body.unwrap();
    assert!(body.energy_left.si() > 0.0 && body.energy_left < body.energy && body.rebound.si() > 0.0, "{body:?}");
}

const WAXY: &str =
    "damper: {kind: oil, bore: 16 mm, rod: 4 mm, holes: 2, hole_diameter: 1.2 mm, piston_thickness: 3 mm, oil: waxy}";

#[test]
fn a_curve_of_the_same_piston_lands_like_the_piston() {
    // In thick oil the piston's law is straight but for the oil's mass; a curve of many points follows it.
    let machine = carrier(&[]);
    let law = asked(&machine, "level", &[], |at| {
        let corner = at.machine().suspension.get(1).unwrap();
        resistance_at(at, corner.damper.there().unwrap(), celsius(-10.0))
    });
    let Ok(Resistance::Flows { bump, .. }) = law else { panic!("it flows") };
    let points: Vec<String> =
        (1..40).map(|step| f64::from(step) * 0.05).map(|v| format!("{v:.3} m/s: {:.6} N", bump.force(v))).collect();
    let curve = format!("damper: {{kind: curve, measured_at: -10 °C, bump: {{{}}}}}", points.join(", "));
    let (piston, drawn) = (rear(&[], "-10 °C"), rear(&[(WAXY, &curve)], "-10 °C"));
    assert!((piston.force.si() / drawn.force.si() - 1.0).abs() < 2e-3, "{piston:?} {drawn:?}");
    assert!((piston.damper_travel.si() / drawn.damper_travel.si() - 1.0).abs() < 2e-3);
    // Without its oil a curve is not carried to another temperature; with it, it is: thicker, and gelled below its pour point.
    let gap = |air: &str| {
        land(
            &[(WAXY, &curve), ("drop: 0.3 m, attitude: level", &format!("drop: 0.3 m, attitude: level, air: {air}"))],
            "level",
        )
        .unwrap()
        .corners[1]
            .clone()
    };
    assert!(matches!(gap("5 °C"), Err(NotJudged::NotGiven { .. })));
    let oiled = curve.replace("measured_at: -10 °C", "measured_at: 5 °C, oil: waxy");
    assert!(rear(&[(WAXY, &oiled)], "-14 °C").damper_travel < rear(&[(WAXY, &oiled)], "5 °C").damper_travel);
    assert!(rear(&[(WAXY, &oiled)], "-16 °C").damper_gelled);
    let short = "damper: {kind: curve, measured_at: -10 °C, bump: {0.1 m/s: 90 N}}";
    let out =
        land(&[(WAXY, short), ("drop: 0.3 m, attitude: level", "drop: 0.3 m, attitude: level, air: -10 °C")], "level")
            .unwrap();
    assert!(matches!(out.corners[1], Err(NotJudged::OutsideRange { .. })), "{:?}", out.corners[1]);
}

#[test]
fn a_damper_that_stood_still_in_the_freezer_is_a_rod_there_and_open_in_between() {
    let tested = |cold: &str| {
        format!(
            "damper: {{kind: sink_test, warm: {{at: 20 °C, weight: 5 kg, sinks: 40 mm, within: 0.8 s}}, cold: {{at: -18 °C, weight: 5 kg, {cold}, within: 60 s}}}}"
        )
    };
    let (slow, still) = (tested("sinks: 40 mm"), tested("sinks: 0 mm"));
    let moving = rear(&[(WAXY, &slow)], "-18 °C");
    let locked = rear(&[(WAXY, &still)], "-18 °C");
    assert!(locked.damper_gelled && !moving.damper_gelled && locked.force >= moving.force);
    let at = |air: &str, damper: &str| {
        land(
            &[(WAXY, damper), ("drop: 0.3 m, attitude: level", &format!("drop: 0.3 m, attitude: level, air: {air}"))],
            "level",
        )
        .unwrap()
        .corners[1]
            .clone()
    };
    assert!(at("0 °C", &still).is_err() && at("0 °C", &slow).is_ok() && at("15 °C", &still).is_ok());
    let beyond = [
        ("air: -20 °C to 5 °C", "air: -40 °C to 5 °C"),
        (WAXY, slow.as_str()),
        ("drop: 0.3 m, attitude: level", "drop: 0.3 m, attitude: level, air: -35 °C"),
    ];
    assert!(matches!(land(&beyond, "level").unwrap().corners[1], Err(NotJudged::OutsideRange { .. })));
}

#[test]
fn fewer_holes_on_the_way_out_throw_it_up_less() {
    let left = |changes: &[(&str, &str)]| {
        let mut all = vec![("drop: 0.3 m, attitude: level", "drop: 0.3 m, attitude: level, air: 5 °C")];
        all.extend_from_slice(changes);
        land(&all, "level").unwrap().body.unwrap().energy_left.si()
    };
    let both = [("holes: 4,", "holes: 4, rebound_holes: 1,"), ("holes: 2,", "holes: 2, rebound_holes: 1,")];
    assert!(left(&both) < left(&[]), "{} {}", left(&both), left(&[]));
}

#[test]
fn softer_and_stiffer_ground_bound_what_is_told() {
    let landed = rear(&[], "0 °C");
    let (low, high) = landed.travel_band;
    assert!(low <= landed.damper_travel && landed.damper_travel <= high && low < high);
    assert!(landed.force_band.0 <= landed.force && landed.force <= landed.force_band.1);
    assert!(landed.contact_lasts.si() > 0.02 && landed.touches_at.unwrap().si() < 1e-4, "{landed:?}");
}
