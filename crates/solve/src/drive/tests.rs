use super::*;
use crate::at::At;
use crate::cache::Cells;
use crate::point::CasePoint;
use document::{Document, Files, Limits, NoFiles, NoShelf, NodeId};
use machine::{Machine, Swaps, WhatIf};

/// An invented carrier, all of whose figures are written.
pub(crate) const CARRIER: &str = "
dryfit: 1
machine: {name: trial, mass: 60 kg, payload: {mass: 18 kg}, centre_of_gravity: {x: 400 mm}, pitch_gyration: 350 mm}
environment: {air: -20 °C to 5 °C, relative_humidity: 80 %, assembled_at: 20 °C, surface: packed_snow, altitude: 600 m}
cases:
  climb: {kind: climb, grade: 20 °, speed: 6 km/h}
  descent: {kind: descent, grade: 24 °, speed: 10 km/h, payload: no}
  top_speed: {kind: top_speed}
  lift_off: {kind: lift_off}
  launch: {kind: launch}
  powered: {kind: landing, drop: 0.3 m, under_power: yes}
  level: {kind: landing, drop: 0.3 m, attitude: level}
  tail: {kind: landing, airtime: 0.5 s, attitude: tail}
  inverted: {kind: landing, drop: 0.3 m, attitude: inverted}
  nowhere: {kind: landing}
  soak: {kind: soak, duration: 10 h}
materials:
  plastic: {family: printed_polymer, modulus: 2.2 GPa, expansion: 70 µm/(m·K), modulus_at: {-40 °C: 1.4, 23 °C: 1}}
  alloy: {family: metal, expansion: 23 µm/(m·K)}
  wire: {family: metal, modulus: 206 GPa, poisson: 0.3}
  soft: {family: elastomer, modulus: 20 MPa}
oils:
  thin: {kind: silicone, viscosity_25: 100 mm²/s, density: 960 kg/m³, pour_point: -50 °C}
  waxy: {kind: mineral, viscosity_40: 15 mm²/s, viscosity_100: 3.4 mm²/s, density: 860 kg/m³, pour_point: -15 °C}
powertrain:
  battery: {cells: {series: 14, full_voltage: 4.2 V, nominal_voltage: 3.6 V}, resistance: 62 mΩ}
  controller: {current_limit: {battery: 100 A, motor: 130 A}, efficiency: 95 %}
  motor: {speed_constant: 118 rpm/V, resistance: 31 mΩ, no_load_current: 2.6 A, rotor_inertia: 1.9e-3 kg·m²}
  stages:
    - {name: primary, kind: spur, pinion: {teeth: 17}, wheel: {teeth: 40}, efficiency: 96 %}
    - {name: secondary, kind: chain, driving_teeth: 12, driven_teeth: 23, efficiency: 94 %}
  track:
    form: {kind: pinned_links, ears: 9, ear_width: 9 mm, wall_round_pin: 2.4 mm}
    material: plastic
    frame_material: alloy
    pitch: 40 mm
    links: 46
    mass: 2.35 kg
    sprocket_teeth: 9
    slack_tension: 90 N
    tensioner: {by: rigid_screw}
suspension:
  front:
    count: 2
    sprung_mass_each: 10 kg
    unsprung_mass_each: 1.1 kg
    position: 700 mm
    motion_ratio: 0.62
    damper_travel: 46 mm
    spring: {wire: 2.8 mm, mean_diameter: 20 mm, active_coils: 8, free_length: 82 mm, material: wire, ends: closed_ground}
    preload: {collar: 9 mm}
    damper: {kind: oil, bore: 14 mm, rod: 3.5 mm, holes: 4, hole_diameter: 1.3 mm, piston_thickness: 2.5 mm, oil: thin}
    bump_stop: {kind: elastomer, material: soft, height: 6 mm, diameter: 12 mm}
  rear:
    count: 2
    sprung_mass_each: 14 kg
    unsprung_mass_each: 3 kg
    position: 100 mm
    motion_ratio: 0.75
    damper_travel: 52 mm
    spring: {rate: 12 N/mm}
    preload: {collar: 13 mm}
    damper: {kind: oil, bore: 16 mm, rod: 4 mm, holes: 2, hole_diameter: 1.2 mm, piston_thickness: 3 mm, oil: waxy}
    bump_stop: {kind: none}
assumed: {cold_battery_resistance: 2.5, rolling_resistance: 0.12, traction: 0.7, rotor_stop_time: 20 ms, gyration_share: 0.4,
  ground_stiffness: 60 N/mm, mount_stiffness: 400 N/mm, stop_modulus: 20 MPa, run_over: 0.5,
  landing_angle: 10 °}
";

/// The carrier with some pieces of its text replaced.
pub(crate) fn carrier(changes: &[(&str, &str)]) -> Machine {
    carrier_beside(changes, &NoFiles)
}

/// The same with files beside it.
pub(crate) fn carrier_beside(changes: &[(&str, &str)], files: &dyn Files) -> Machine {
    let mut text = CARRIER.to_owned();
    for (from, to) in changes {
        assert!(text.contains(from), "{from} does not stand in the text");
        text = text.replace(from, to);
    }
    let document = Document::load("trial.machine.yaml", text.into_bytes(), files, &NoShelf, &Limits::default());
    assert!(document.troubles.is_empty(), "{:?}", document.troubles);
    Machine::read(&document, &Swaps::new()).unwrap()
}

/// What `ask` gets in the coldest point of a case, with numbers replaced.
pub(crate) fn asked<T>(machine: &Machine, case: &str, replaced: &[(NodeId, f64)], ask: impl Fn(&At) -> T) -> T {
    let case = machine.cases.iter().position(|each| each.name() == case).unwrap();
    let mut what_if = WhatIf::default();
    for (id, si) in replaced {
        what_if.set(*id, *si);
    }
    let cells = Cells::default();
    ask(&At::new(machine, CasePoint { case, share: 0.0 }, &what_if, &cells))
}

fn drive(changes: &[(&str, &str)], case: &str) -> Found<Drive> {
    asked(&carrier(changes), case, &[], |at| at.drive().cloned())
}

/// All that goes in at the terminals is found again.
fn balanced(drive: &Drive) {
    let given = drive.battery_voltage.si() * drive.battery_current.si();
    let out = drive.pull.si() * drive.track_speed.si();
    let lost = drive.stages.iter().map(|stage| stage.loss.si()).sum::<f64>() * drive.lines;
    let heat = drive.motor_heat.si() + drive.controller_heat.si() + lost;
    assert!((given - out - heat).abs() <= 1e-9 * given.abs().max(out.abs()), "{given} W in, {out} W and {heat} W out");
    assert!(drive.battery_heat.si() > 0.0 && drive.motor_heat.si() > 0.0 && drive.controller_heat.si() >= 0.0);
    assert!(drive.stages.iter().all(|stage| stage.loss.si() >= 0.0));
}

#[test]
fn power_in_is_power_out_and_heat() {
    for case in ["climb", "descent", "top_speed", "lift_off", "launch", "powered"] {
        balanced(&drive(&[], case).unwrap());
    }
}

#[test]
fn a_climb_by_hand() {
    let climb = drive(&[], "climb").unwrap();
    let (sine, cosine) = (20f64.to_radians().sin(), 20f64.to_radians().cos());
    let pull = 60.0 * 9.80665 * (sine + 0.12 * cosine);
    let radius = 0.040 / (2.0 * (std::f64::consts::PI / 9.0).sin());
    let ratio = 40.0 / 17.0 * 23.0 / 12.0;
    let torque = pull * radius / (ratio * 0.96 * 0.94);
    let current = torque * 118.0 * std::f64::consts::PI / 30.0 + 2.6;
    let open = 14.0 * 3.6;
    let at_terminals = climb.battery_voltage.si() * climb.battery_current.si();
    assert_eq!(climb.set_by, "the grade");
    assert!((climb.pull.si() / pull - 1.0).abs() < 1e-12);
    assert!(
        (climb.motor_torque.si() / torque - 1.0).abs() < 1e-12
            && (climb.motor_current.si() / current - 1.0).abs() < 1e-12
    );
    assert!((climb.motor_speed.si() / (6.0 / 3.6 / radius * ratio) - 1.0).abs() < 1e-12);
    // At −20 °C the stated factor itself.
    let sag = climb.battery_current.si() * 0.062 * 2.5;
    assert!((climb.battery_voltage.si() - (open - sag)).abs() < 1e-9);
    assert!((at_terminals * 0.95 - (climb.motor_heat.si() + torque * climb.motor_speed.si())).abs() < 1e-6);
}

#[test]
fn downhill_the_motor_brakes_and_the_battery_is_charged() {
    let descent = drive(&[], "descent").unwrap();
    assert!(descent.pull.si() < 0.0 && descent.motor_torque.si() < 0.0 && descent.battery_current.si() < 0.0);
    assert!(descent.battery_voltage.si() > 14.0 * 3.6);
    // 42 kg: the payload is off.
    let slope = 24f64.to_radians();
    assert!((descent.pull.si() + 42.0 * 9.80665 * (slope.sin() - 0.12 * slope.cos())).abs() < 1e-9);
}

#[test]
fn at_top_speed_the_motor_has_all_that_the_sagging_battery_gives() {
    let top = drive(&[], "top_speed").unwrap();
    let kv = 118.0 * std::f64::consts::PI / 30.0;
    let needs = top.motor_speed.si() / kv + top.motor_current.si() * 0.031;
    assert_eq!(top.set_by, "the voltage");
    assert!((needs - top.battery_voltage.si()).abs() < 1e-8, "{needs} {}", top.battery_voltage.si());
    let free = drive(&[], "lift_off").unwrap();
    assert!(
        free.track_speed > top.track_speed && free.pull.si() == 0.0 && (free.motor_current.si() - 2.6).abs() < 1e-9
    );
}

#[test]
fn more_voltage_never_lowers_the_top_speed() {
    let cells = [
        "full_voltage: 2.9 V",
        "full_voltage: 3.4 V",
        "full_voltage: 4.0 V",
        "full_voltage: 4.2 V",
        "full_voltage: 9 V",
    ];
    for limit in ["battery: 100 A", "battery: 12 A"] {
        let speeds: Vec<f64> = cells
            .iter()
            .map(|cell| {
                drive(&[("full_voltage: 4.2 V", cell), ("battery: 100 A", limit)], "top_speed")
                    .unwrap()
                    .track_speed
                    .si()
            })
            .collect();
        assert!(speeds.windows(2).all(|pair| pair[0] < pair[1]), "{speeds:?}");
    }
}

#[test]
fn swapped_teeth_turn_the_ratio_over() {
    let (as_is, swapped) = (
        drive(&[], "climb").unwrap(),
        drive(&[("{teeth: 17}, wheel: {teeth: 40}", "{teeth: 40}, wheel: {teeth: 17}")], "descent"),
    );
    let ratio = |stage: &StageLoad| stage.speed_in.si() / stage.speed_out.si();
    let (one, other) = (ratio(&as_is.stages[0]), ratio(&swapped.unwrap().stages[0]));
    assert!((one - 40.0 / 17.0).abs() < 1e-12 && (one * other - 1.0).abs() < 1e-12);
}

#[test]
fn traction_and_limits_cap_the_pull() {
    let slippery = drive(&[("traction: 0.7", "traction: 0.2")], "launch").unwrap();
    assert!(slippery.set_by == "traction" && (slippery.pull.si() - 0.2 * 60.0 * 9.80665).abs() < 1e-9);
    let held = drive(&[("traction: 0.7", "traction: 50")], "launch").unwrap();
    assert!(held.set_by == "the motor current limit" && (held.motor_current.si() - 130.0).abs() < 1e-9);
    let weak = drive(&[("motor: 130 A", "motor: 30 A")], "climb").unwrap();
    assert!(weak.set_by == "the motor current limit" && (weak.motor_current.si() - 30.0).abs() < 1e-9);
    let thirsty = drive(&[("battery: 100 A", "battery: 5 A")], "climb").unwrap();
    assert!(thirsty.set_by == "the battery current limit" && (thirsty.battery_current.si() - 5.0).abs() < 1e-6);
    let weak =
        drive(&[("speed: 6 km/h", "speed: 90 km/h"), ("battery: 100 A, ", ""), ("62 mΩ", "400 mΩ")], "climb").unwrap();
    assert!(weak.set_by == "the battery" && weak.track_speed.si() < 25.0 && weak.pull.si() > 0.0, "{weak:?}");
    let given = weak.battery_voltage.si() * weak.battery_current.si();
    assert!((given - 50.4f64.powi(2) / (4.0 * 0.4 * 2.5)).abs() < 1e-3 * given && weak.wanted_power.si() > 5.0 * given);
}

#[test]
fn a_rotor_stopped_by_a_landing_pulls_harder_than_the_limit() {
    let grips = ("traction: 0.7", "traction: 50");
    let powered = drive(&[grips], "powered").unwrap();
    let (blow, half_pi) = (powered.blow.unwrap(), std::f64::consts::FRAC_PI_2);
    let mean = 1.9e-3 * powered.motor_speed.si() / 0.020;
    assert!((blow.torque.si() - half_pi * mean).abs() < 1e-9 && blow.torque.si() > 40.0);
    assert_eq!((blow.by, blow.stages[0]), ("the assumed stop time", blow.torque));
    assert!((blow.stages[1].si() / blow.torque.si() - 40.0 / 17.0).abs() < 1e-12);
    assert!((blow.sprocket.si() / blow.stages[1].si() - 23.0 / 12.0).abs() < 1e-12);
    assert!(drive(&[], "level").unwrap().blow.is_none());
    let inertia = "rotor_inertia: 1.9e-3 kg·m²";
    let timed =
        drive(&[grips, (inertia, "rotor_inertia: 1.9e-3 kg·m², stop_time: 40 ms")], "powered").unwrap().blow.unwrap();
    assert!(timed.by == "the stop time" && (timed.torque.si() / blow.torque.si() - 0.5).abs() < 1e-12);
    // A line as stiff as takes 20 ms for its quarter swing gives the blow of 20 ms.
    let stiffness = 1.9e-3 * (half_pi / 0.020f64).powi(2);
    let line = format!("  line_stiffness: {stiffness} N·m/rad\n  stages:");
    let wound = drive(&[grips, ("  stages:", &line)], "powered").unwrap().blow.unwrap();
    assert_eq!(wound.by, "the line's stiffness");
    assert!((wound.torque.si() / blow.torque.si() - 1.0).abs() < 1e-9 && (wound.lasts.si() - 0.020).abs() < 1e-9);
}

#[test]
fn a_held_track_takes_the_whole_current_whatever_the_ground_is_like() {
    let held =
        drive(&[("traction: 0.7", "traction: 0.2"), ("kind: launch", "kind: launch, track_held: yes")], "launch");
    let held = held.unwrap();
    assert!(held.set_by == "the motor current limit" && (held.motor_current.si() - 130.0).abs() < 1e-9);
    let torque = 130.0 * 30.0 / (std::f64::consts::PI * 118.0) * 40.0 / 17.0 * 23.0 / 12.0 * 0.96 * 0.94;
    assert!((held.sprocket_torque.si() / torque - 1.0).abs() < 1e-12 && held.track_speed.si() == 0.0);
    assert_eq!(held.peak_current, held.battery_current);
    let free = |changes: &[(&str, &str)]| drive(changes, "launch").unwrap().peak_current.si();
    let grips = ("traction: 0.7", "traction: 50");
    // 130 A through a controller of 95 %, as far as the battery's limit of 100 A lets them.
    assert!((free(&[grips]) - 100.0).abs() < 1e-9);
    assert!((free(&[grips, ("battery: 100 A, ", "")]) - 130.0 / 0.95).abs() < 1e-9);
}

#[test]
fn nobody_brakes_and_the_battery_does() {
    let away = drive(&[], "descent").unwrap().overrun.unwrap().unwrap();
    let kv = 118.0 * std::f64::consts::PI / 30.0;
    // Its own voltage is what the charged battery has, and what the current needs in the windings.
    let own = away.motor_speed.si() / kv;
    assert!((own + away.motor_current.si() * 0.031 - away.battery_voltage.si()).abs() < 1e-6, "{away:?}");
    assert!(away.motor_current.si() < 0.0 && away.battery_voltage.si() > 14.0 * 4.2);
    assert!(away.motor_speed > drive(&[], "lift_off").unwrap().motor_speed);
    let lost = ("soak: {kind: soak", "lost: {kind: signal_lost, grade: 24 °, payload: no}\n  soak: {kind: soak");
    let lost = drive(&[lost], "lost").unwrap();
    assert!(lost.overrun == Some(Ok(away)) && lost.pull.si() == 0.0);
    assert!(drive(&[("grade: 24 °", "grade: 3 °")], "descent").unwrap().overrun.is_none());
}

#[test]
fn a_towed_machine_and_a_controller_that_holds_back() {
    let stages = "  track:\n    form: {kind: pinned_links";
    // 0.2 of 60 kg; the stated share stands back behind it.
    let towed = stages.replace("track:\n", "track:\n    rolling_resistance: 0.5\n    tow_pull: 117.6798 N\n");
    let (sine, cosine) = (20f64.to_radians().sin(), 20f64.to_radians().cos());
    let pull = drive(&[(stages, &towed)], "climb").unwrap().pull.si();
    assert!((pull - 60.0 * 9.80665 * (sine + 0.2 * cosine)).abs() < 1e-6, "{pull}");
    let limit = [("efficiency: 95 %}", "efficiency: 95 %, motor_speed_limit: 3000 rpm}")];
    let rpm = |speed: AngularVelocity| speed.si() * 30.0 / std::f64::consts::PI;
    for case in ["top_speed", "lift_off"] {
        let held = drive(&limit, case).unwrap();
        assert!((rpm(held.motor_speed) - 3000.0).abs() < 1e-6 && held.set_by == "the speed limit");
    }
    let climb = drive(&limit, "climb").unwrap();
    assert!((rpm(climb.free_speed.unwrap()) - 3000.0).abs() < 1e-6 && climb.set_by == "the grade");
    let free = rpm(drive(&[], "climb").unwrap().free_speed.unwrap());
    assert!((free - 118.0 * (58.8 - 2.6 * 0.031)).abs() < 1e-6);
    let away = drive(&limit, "descent").unwrap().overrun.unwrap().unwrap();
    assert!(rpm(away.motor_speed) > free, "nothing holds back what the slope turns");
}

#[test]
fn two_motors_share_and_an_advance_makes_them_faster_and_weaker() {
    let one = drive(&[], "climb").unwrap();
    let with = |more: &str| {
        let text = format!("motor: {{{more}, speed_constant");
        drive(&[("motor: {speed_constant", &text)], "climb")
    };
    let (pair, sides) =
        (with("count: 2, arranged: on_one_line").unwrap(), with("count: 2, arranged: one_a_side").unwrap());
    let twice = |a: f64, b: f64| (a / b - 2.0).abs() < 1e-9;
    for both in [&pair, &sides] {
        balanced(both);
        assert!(twice(one.motor_torque.si(), both.motor_torque.si()) && both.pull == one.pull && both.motors == 2.0);
        assert!(both.battery_current < one.battery_current, "less is lost in two motors at half the current");
    }
    assert!((pair.lines, pair.stages[0].meshes, pair.stages[1].meshes) == (1.0, 2.0, 1.0));
    assert!(
        (sides.lines, sides.stages[0].meshes) == (2.0, 1.0)
            && twice(one.sprocket_torque.si(), sides.sprocket_torque.si())
    );
    assert!(twice(one.stages[1].torque_in.si(), sides.stages[1].torque_in.si()));
    assert!((pair.sprocket_torque.si() / one.sprocket_torque.si() - 1.0).abs() < 1e-12);
    assert!(matches!(with("count: 2"), Err(NotJudged::NotGiven { .. })));
    let advanced = [("efficiency: 95 %}", "efficiency: 95 %, timing_advance: 25 °}")];
    let free = |changes: &[(&str, &str)]| drive(changes, "lift_off").unwrap().motor_speed.si();
    assert!((free(&advanced) / free(&[]) - 1.0 / 25f64.to_radians().cos()).abs() < 2e-4);
    assert!(drive(&advanced, "climb").unwrap().motor_current > one.motor_current);
}

#[test]
fn a_planetary_set_and_a_ring_by_hand() {
    let primary = "{name: primary, kind: spur, pinion: {teeth: 17}, wheel: {teeth: 40}, efficiency: 96 %}";
    let with = |stage: &str| drive(&[(primary, stage)], "climb");
    let set = "{name: set, kind: planetary, sun: {teeth: 15}, planet: {teeth: 15}, ring: {teeth: 45}, planets: 3, efficiency: 96 %";
    let ratio = |drive: &Drive| drive.stages[0].speed_in.si() / drive.stages[0].speed_out.si();
    let held = |held: &str| with(&format!("{set}{held}}}"));
    let ring = held("").unwrap();
    balanced(&ring);
    assert!((ratio(&ring) - 4.0).abs() < 1e-12 && ring.stages[0].meshes == 3.0);
    assert!((ratio(&held(", held: sun, driving: ring").unwrap()) - 4.0 / 3.0).abs() < 1e-12);
    assert!((ratio(&held(", held: carrier").unwrap()) - 3.0).abs() < 1e-12);
    assert!(matches!(held(", held: sun"), Err(NotJudged::NoSolution(_))));
    let internal = "{name: ring, kind: internal, pinion: {teeth: 17}, wheel: {teeth: 40}, efficiency: 96 %}";
    assert!((ratio(&with(internal).unwrap()) - 40.0 / 17.0).abs() < 1e-12);
    assert!(with(&internal.replace("teeth: 40", "teeth: 16")).is_err());
    // Two meshes of 96 % each, of which three quarters of the power roll.
    let lossy = drive(
        &[
            (primary, &format!("{}}}", set.replace(", efficiency: 96 %", ""))),
            ("assumed: {", "assumed: {gear_efficiency: 96 %, "),
        ],
        "climb",
    );
    let stage = &lossy.unwrap().stages[0];
    let through = stage.torque_out.si() * stage.speed_out.si() / (stage.torque_in.si() * stage.speed_in.si());
    assert!((through - (1.0 + 3.0 * 0.96 * 0.96) / 4.0).abs() < 1e-12, "{through}");
}

#[test]
fn standing_needs_nothing_and_gaps_are_named() {
    let still = drive(&[(", resistance: 62 mΩ", ""), ("sprocket_teeth: 9", "count: 1")], "soak").unwrap();
    assert!(still.pull.si() == 0.0 && still.stages.len() == 2 && (still.battery_voltage.si() - 50.4).abs() < 1e-9);
    let machine = carrier(&[(", resistance: 62 mΩ", "")]);
    let gap = asked(&machine, "climb", &[], |at| at.drive().cloned());
    let Err(NotJudged::NotGiven { absent, .. }) = gap else { panic!("{gap:?}") };
    assert_eq!(machine.absent(absent).unwrap().field, "resistance");
}

#[test]
fn hostile_numbers_give_outcomes() {
    let machine = carrier(&[]);
    let train = &machine.powertrain;
    let machine::Stage::Spur(gears) = &train.stages[0] else { panic!() };
    let ids = [
        gears.pinion.teeth.id(),
        gears.wheel.teeth.id(),
        gears.efficiency.id(),
        machine.machine.mass.id(),
        train.battery.resistance.id(),
        train.battery.cells.series.id(),
        train.battery.cells.full_voltage.id(),
        train.motor.speed_constant.id(),
        train.motor.resistance.id(),
        train.motor.no_load_current.id(),
        train.controller.current_limit.motor.id(),
        train.controller.current_limit.battery.id(),
        train.controller.efficiency.id(),
        train.track.pitch.id(),
        train.track.sprocket_teeth.id(),
        train.track.links.id(),
        train.track.mass.id(),
        machine.assumed.rotor_stop_time.id(),
        machine.assumed.traction.id(),
        machine.assumed.rolling_resistance.id(),
        machine.assumed.cold_battery_resistance.id(),
    ];
    for id in ids {
        for si in [0.0, 1e-300, 1e300, -1.0, f64::INFINITY] {
            for case in ["climb", "descent", "top_speed", "lift_off", "launch", "powered", "soak"] {
                if let Ok(drive) = asked(&machine, case, &[(id, si)], |at| at.drive().cloned()) {
                    assert!(drive.pull.si().is_finite() && drive.motor_current.si().is_finite(), "{case} {si}");
                }
                let _ = asked(&machine, case, &[(id, si)], |at| at.track().cloned());
            }
        }
    }
    let dead = asked(&machine, "climb", &[(train.battery.cells.series.id(), 0.0)], |at| at.drive().cloned());
    assert!(matches!(dead, Err(NotJudged::NoSolution(_))), "{dead:?}");
}

#[test]
fn the_reach_ends_where_the_cases_end_and_asks_no_more_than_there_is() {
    let machine = carrier(&[("launch: {kind: launch}", "launch: {kind: launch, track_held: yes}")]);
    let launch = asked(&machine, "launch", &[], |at| at.drive().cloned()).unwrap();
    let lift_off = asked(&machine, "lift_off", &[], |at| at.drive().cloned()).unwrap();
    let reached = |filled| asked(&machine, "climb", &[], |at| reach(at, filled)).unwrap();
    let (nominal, full) = (reached(Filled::Nominal), reached(Filled::Full));
    // The pulling motor has no drag at a standstill; a launch is worked out with the battery that the reach has.
    assert!((nominal[0].1 / launch.pull - Ratio::from_si(1.0)).si().abs() < 1e-9, "{:?} {:?}", nominal[0], launch.pull);
    let top = full.last().unwrap();
    assert!((top.0 / lift_off.track_speed - Ratio::from_si(1.0)).si().abs() < 1e-9 && top.1 == Force::ZERO);
    for (line, filled) in [(&nominal, Charge::Nominal), (&full, Charge::Full)] {
        let limits = asked(&machine, "climb", &[], |at| Line::read(at, filled)).unwrap();
        for (speed, pull) in line.iter().filter(|point| point.1 > Force::ZERO) {
            let working = limits.working(speed.si(), pull.si());
            assert!(working.motor.current.si() <= 130.0 * (1.0 + 1e-9));
            assert!(working.battery_power <= limits.power_at_limit().unwrap() * (1.0 + 1e-9));
            assert!(limits.volts_short(speed.si(), pull.si()) <= 1e-6, "{speed:?} {pull:?}");
        }
        assert!(line.windows(2).all(|pair| pair[1].0 >= pair[0].0 && pair[1].1 <= pair[0].1), "it falls with speed");
    }
}

#[test]
fn what_a_case_asks_is_what_a_climb_that_is_reached_gives() {
    let climb = drive(&[], "climb").unwrap();
    let wanted = asked(&carrier(&[]), "climb", &[], super::asked).unwrap();
    assert_eq!((wanted.speed, wanted.pull), (Some(climb.track_speed), climb.pull));
    assert!(wanted.grip > wanted.pull);
    let none = asked(&carrier(&[("no_load_current: 2.6 A", "no_load_current: 2000 A")]), "climb", &[], |at| {
        reach(at, Filled::Full)
    });
    assert!(none.is_err());
}
