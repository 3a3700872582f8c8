use super::*;
use crate::drive::tests::{asked, carrier};
use machine::{Found, Machine};
use quantity::*;

const CASES: (&str, &str) = (
    "  soak: {kind: soak, duration: 10 h}",
    "  soak: {kind: soak, duration: 10 h}
  wall: {kind: stopped, speed: 9 km/h, stopping_distance: 50 mm}
  post: {kind: stopped, speed: 9 km/h, stop_stiffness: 200 N/mm}
  stuck: {kind: jam, speed: 6 km/h}",
);
const HEIGHT: (&str, &str) = ("centre_of_gravity: {x: 400 mm}", "centre_of_gravity: {x: 400 mm, z: 250 mm}");

/// With a rail on which one thing pushes.
fn pushed(push: &str, changes: &[(&str, &str)]) -> Machine {
    let rail = format!(
        "oils:\n  none: {{kind: silicone}}\nstructure:\n  parts:\n    rail: {{material: plastic, pushed: {{one: {{{push}}}}}}}\n"
    );
    let rail = rail.replace("oils:\n  none: {kind: silicone}\n", "");
    let with = format!("{rail}oils:\n");
    let mut all = vec![CASES, HEIGHT, ("oils:\n", with.as_str())];
    all.extend(changes);
    carrier(&all)
}

fn force(machine: &Machine, case: &str) -> Found<Supplied> {
    let rail = machine.structure.parts.named("rail").unwrap();
    let push = rail.pushed.get(0).unwrap();
    asked(machine, case, &[], |at| supplied(at, push))
}

fn newton(machine: &Machine, case: &str) -> f64 {
    match force(machine, case).unwrap() {
        Supplied::Force(force) => force.si(),
        Supplied::Nothing(why) => panic!("{why}"),
    }
}

#[test]
fn a_corner_pushes_with_its_weight_and_in_a_landing_with_what_the_landing_makes_of_it() {
    let machine = pushed("from: corner, corner: front, share: 50 %", &[]);
    assert!((newton(&machine, "climb") - 0.5 * 10.0 * 9.80665).abs() < 1e-9);
    let landed = asked(&machine, "level", &[], |at| at.landing().cloned()).unwrap();
    let expected = landed.corners[0].clone().unwrap().force.si() * 0.62 * 0.5;
    assert!((newton(&machine, "level") / expected - 1.0).abs() < 1e-12);
    // A landing on the tail spares it, in the air nothing weighs.
    assert!(matches!(force(&machine, "tail"), Ok(Supplied::Nothing(_))));
    assert!(matches!(force(&machine, "lift_off"), Ok(Supplied::Nothing(_))));
    assert!(force(&machine, "nowhere").is_err());
}

#[test]
fn weight_payload_and_a_stated_force() {
    assert!((newton(&pushed("from: weight", &[]), "climb") - 60.0 * 9.80665).abs() < 1e-9);
    let payload = pushed("from: payload", &[]);
    assert!((newton(&payload, "climb") - 18.0 * 9.80665).abs() < 1e-9);
    assert!(newton(&payload, "level") > 3.0 * 18.0 * 9.80665);
    assert!(matches!(force(&payload, "descent"), Ok(Supplied::Nothing(_))));
    assert_eq!(newton(&pushed("from: force, force: 120 N", &[]), "launch"), 120.0);
    assert!(force(&pushed("from: force", &[]), "launch").is_err());
}

#[test]
fn the_track_pulls_with_both_its_sides() {
    let machine = pushed("from: track_tension, wrap: 180 °", &[]);
    let track = asked(&machine, "climb", &[], |at| at.track().cloned()).unwrap();
    assert!((newton(&machine, "climb") / (2.0 * (track.tight - track.centrifugal).si()) - 1.0).abs() < 1e-12);
}

#[test]
fn stopped_dead_by_distance_or_stiffness() {
    let machine = pushed("from: stopped", &[]);
    assert!((newton(&machine, "wall") - 60.0 * 2.5 * 2.5 / 0.05).abs() < 1e-9);
    assert!((newton(&machine, "post") - 2.5 * (60.0f64 * 200e3).sqrt()).abs() < 1e-9);
    assert!(matches!(force(&machine, "climb"), Ok(Supplied::Nothing(_))));
    let how = pushed("from: stopped", &[(", stopping_distance: 50 mm", "")]);
    assert!(force(&how, "wall").is_err());
}

#[test]
fn a_jam_by_hand() {
    let machine = pushed(
        "from: jam",
        &[("rotor_inertia: 1.9e-3 kg·m²}", "rotor_inertia: 1.9e-3 kg·m²}\n  line_stiffness: 2 N·m/°")],
    );
    let ratio: f64 = 40.0 / 17.0 * 23.0 / 12.0;
    let radius = 0.04 / (2.0 * (std::f64::consts::PI / 9.0).sin());
    let (w, k) = (6.0 / 3.6 / radius, 2.0 * 180.0 / std::f64::consts::PI * ratio * ratio);
    let j = 1.9e-3 * ratio * ratio;
    let motor = 130.0 / (118.0 * std::f64::consts::PI / 30.0) * ratio;
    let peak = motor + (motor * motor + k * j * w * w).sqrt();
    assert!((newton(&machine, "stuck") / (peak / radius) - 1.0).abs() < 1e-9);
    // Without the line's stiffness there is no answer.
    assert!(force(&pushed("from: jam", &[]), "stuck").is_err());
}

#[test]
fn the_whole_machine_is_in_balance_in_each_drive_and_each_landing() {
    let machine = pushed("from: weight", &[]);
    for case in ["climb", "descent", "level", "tail", "powered"] {
        let balance = asked(&machine, case, &[], balance).unwrap_or_else(|gap| panic!("{case}: {gap:?}"));
        for left in balance.left_over() {
            assert!(left.abs() < 1e-9, "{case}: {:?}", balance.left_over());
        }
    }
    // Steeper, more of the weight stands on the rear.
    let rear = |case: &str| asked(&machine, case, &[], |at| balance(at).map(|all| all.ground()[0].1.si())).unwrap();
    assert!(rear("climb") > rear("descent"));
    assert!(asked(&machine, "launch", &[], balance).is_err());
}

#[test]
fn a_balance_that_is_not_one_is_found_out() {
    let machine = pushed("from: weight", &[]);
    let mut wrong = asked(&machine, "climb", &[], balance).unwrap();
    wrong.acts[1].up *= 1.001;
    assert!(wrong.left_over()[1].abs() > 1e-5);
    let mut tilted = asked(&machine, "level", &[], balance).unwrap();
    tilted.turns *= 1.01;
    assert!(tilted.left_over()[2].abs() > 1e-6);
}
