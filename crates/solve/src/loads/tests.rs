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
    // After the tail the nose comes down too; in the air nothing weighs.
    assert!(newton(&machine, "tail") > 0.0);
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

const STAGES: [(&str, &str); 3] = [
    (
        "kind: spur, pinion: {teeth: 17}, wheel: {teeth: 40}",
        "kind: spur, module: 1.5 mm, pressure_angle: 20 °, centre_distance: 42.75 mm, pinion: {teeth: 17, profile_shift: 0}, \
         wheel: {teeth: 40, profile_shift: 0}",
    ),
    ("kind: chain, driving_teeth", "kind: chain, pitch: 9.525 mm, driving_teeth"),
    ("assumed: {cold", "assumed: {drive_shock: 1.25, cold"),
];

/// With one shaft of 100 mm between two bearings, a wheel at 40 mm.
fn turning(turned_by: &str, station: &str) -> Machine {
    let shaft = format!(
        "  shafts: {{lay: {{material: wire, diameter: 12 mm, length: 100 mm, turned_by: {turned_by}, stations: \
         [{{x: 0 mm, bearing: a}}, {{x: 40 mm, {station}}}, {{x: 100 mm, bearing: b}}]}}}}\n  bearings: {{a: {{kind: rolling, size: 6001-2RS}}, b: {{kind: rolling, size: 6001-2RS}}}}\n  track:\n    form"
    );
    let mut all = STAGES.to_vec();
    all.push(("  track:\n    form", &shaft));
    carrier(&all)
}

fn shaft_in(machine: &Machine, case: &str) -> Found<Option<ShaftLoads>> {
    let lay = machine.powertrain.shafts.get(0).unwrap();
    asked(machine, case, &[], |at| shaft(at, lay).map(|load| load.cloned()))
}

#[test]
fn a_gear_pushes_with_its_torque_over_the_base_circle_whatever_its_side() {
    let machine = turning("primary", "stage: primary, angle: 0 °");
    let drive = asked(&machine, "climb", &[], |at| at.drive().cloned()).unwrap();
    let torque = drive.stages[0].torque_out.si() * 1.25;
    let force = torque / (0.5 * 1.5e-3 * 40.0 * 20f64.to_radians().cos());
    for angle in ["angle: 0 °", "angle: 90 °", "angle: 217 °"] {
        let machine = turning("primary", &format!("stage: primary, {angle}"));
        let load = shaft_in(&machine, "climb").unwrap().unwrap();
        assert!((load.carried[0].force.si() / force - 1.0).abs() < 1e-9, "{angle}: {load:?}");
        assert!((load.bearings[0].1.si() / (0.6 * force) - 1.0).abs() < 1e-9);
        assert!((load.bearings[1].1.si() / (0.4 * force) - 1.0).abs() < 1e-9);
        assert!((load.spots[1].moment.si() / (0.04 * 0.6 * force) - 1.0).abs() < 1e-9);
        assert!((load.spots[1].torque.si() / torque - 1.0).abs() < 1e-9);
    }
    // Without an angle it is as hard.
    let flat = shaft_in(&turning("primary", "stage: primary"), "climb").unwrap().unwrap();
    assert!((flat.carried[0].force.si() / force - 1.0).abs() < 1e-9);
    assert!(shaft_in(&machine, "soak").unwrap().is_none());
    assert!(shaft_in(&turning("nowhere", "stage: primary"), "climb").is_err());
    assert!(shaft_in(&turning("primary", "carries: something"), "climb").is_err());
}

#[test]
fn a_chain_pulls_with_its_torque_over_the_pitch_circle() {
    let machine = turning("secondary", "stage: secondary, angle: 180 °");
    let drive = asked(&machine, "climb", &[], |at| at.drive().cloned()).unwrap();
    let diameter = 9.525e-3 / (std::f64::consts::PI / 23.0).sin();
    let force = drive.stages[1].torque_out.si() * 1.25 * 2.0 / diameter;
    let load = shaft_in(&machine, "climb").unwrap().unwrap();
    assert!((load.carried[0].force.si() / force - 1.0).abs() < 1e-9);
    // A wheel that drives the track carries both its sides.
    let wheel = turning("secondary", "stage: track, angle: 180 °");
    let track = asked(&wheel, "climb", &[], |at| at.track().cloned()).unwrap();
    let both = (track.tight + track.slack - track.centrifugal * 2.0).si();
    assert!((shaft_in(&wheel, "climb").unwrap().unwrap().carried[0].force.si() / both - 1.0).abs() < 1e-9);
}
