use super::*;
use crate::drive::tests::{asked, carrier};
use document::{Document, Limits, NoFiles, NoShelf};
use machine::{Machine, NotJudged, Swaps};
use std::collections::HashMap;

/// The table of solved tasks, by the names of its columns.
fn tasks() -> Vec<HashMap<&'static str, &'static str>> {
    let text = include_str!("../../../../../tests/handbook/data/tasks.csv");
    let mut lines = text.lines().filter(|line| !line.starts_with('#'));
    let names: Vec<&str> = lines.next().unwrap().split(',').collect();
    lines.map(|line| names.iter().copied().zip(line.split(',')).collect()).collect()
}

/// A machine that is no more than the table's model: one reduction, controllers that lose nothing, a battery of one cell.
fn machine(row: &HashMap<&str, &str>) -> Machine {
    let f = |name: &str| row[name].parse::<f64>().unwrap();
    let (motors, ratio) = (f("motors"), f("gear_ratio"));
    let teeth = (ratio * 10_000.0).round();
    assert!((teeth / 10_000.0 / ratio - 1.0).abs() < 1e-12);
    let pitch = 2.0 * f("sprocket_radius_m") * (std::f64::consts::PI / 10.0).sin();
    let grade = (f("slope_percent") / 100.0).atan().to_degrees();
    let text = format!(
        "dryfit: 1
machine: {{name: task, mass: {mass} kg}}
environment: {{air: 20 °C, relative_humidity: 50 %, altitude: 0 m}}
cases:
  climb: {{kind: climb, grade: {grade} °, speed: {speed} m/s}}
  crawl: {{kind: launch, grade: {grade} °}}
  level: {{kind: top_speed}}
  down: {{kind: descent, grade: {grade} °, speed: {speed} m/s}}
powertrain:
  battery: {{cells: {{series: 1, full_voltage: {volts} V, nominal_voltage: {volts} V}}, resistance: {cells} Ω}}
  controller: {{current_limit: {{battery: {battery} A, motor: {limit} A}}, efficiency: 100 %, timing_advance: 0 °, braking: {{by: mechanical, force: {brake} N}}}}
  motor: {{count: {motors}, arranged: on_one_line, speed_constant: {kv} rpm/V, resistance: {winding} Ω, no_load_current: {idle} A}}
  stages: [{{name: one, kind: chain, driving_teeth: 10000, driven_teeth: {teeth}, efficiency: {efficiency} %}}]
  track: {{pitch: {pitch} m, sprocket_teeth: 10, rolling_resistance: {rolling}, adhesion: {adhesion}, share_of_weight: {share} %, parking_force: {brake} N}}
assumed: {{cold_battery_resistance: 1, reaction_time: {reaction} s}}
",
        mass = f("mass_kg"),
        speed = f("asked_speed_m_per_s"),
        volts = f("battery_voltage_V"),
        cells = f("battery_resistance_ohm"),
        battery = f("battery_current_limit_A") / motors,
        limit = f("motor_current_limit_A"),
        brake = f("brake_force_N"),
        kv = f("kv_rpm_per_V"),
        winding = f("motor_resistance_ohm"),
        idle = f("no_load_current_A"),
        efficiency = f("efficiency") * 100.0,
        rolling = f("rolling_resistance"),
        adhesion = f("adhesion"),
        share = f("weight_share_on_track") * 100.0,
        reaction = f("reaction_time_s"),
    );
    let document = Document::load("task.machine.yaml", text.into_bytes(), &NoFiles, &NoShelf, &Limits::default());
    Machine::read(&document, &Swaps::new()).unwrap()
}

fn word(first: &str) -> &str {
    match first {
        "the tracks slip" => "traction",
        "the motor current limit is reached" => "motor_current",
        "the battery current limit is reached" | "the battery gives no more" => "battery_current",
        "the voltage is used up" => "voltage",
        other => other,
    }
}

#[test]
fn where_it_reduces_to_the_model_it_agrees_with_all_solved_tasks() {
    let rows = tasks();
    assert_eq!(rows.len(), 120);
    for row in &rows {
        let (machine, case) = (machine(row), row["case"]);
        let is = |name: &str, ours: f64| {
            let printed: f64 = row[name].parse().unwrap();
            assert!((ours - printed).abs() <= 2e-6 * printed.abs().max(1e-3), "{case}: {name} {printed}, ours {ours}");
        };
        let climb = asked(&machine, "climb", &[], uphill).unwrap();
        is("force_needed_N", climb.needs.si());
        is("force_motor_at_speed_N", climb.pulls.si());
        is("force_traction_N", climb.grip.si());
        let (least, limit) =
            if climb.grip < climb.pulls { (climb.grip, "traction") } else { (climb.pulls, word(climb.first)) };
        is("climb_reserve", least.si() / climb.needs.si());
        // What ends the pull on this grade; the steepest grade may be ended by something else.
        if climb.first != SLIPS || climb.grip < climb.pulls {
            assert_eq!(limit, row["limit_at_speed"], "{case}");
        }
        let crawl = asked(&machine, "crawl", &[], uphill).unwrap();
        is("force_motor_at_crawl_N", crawl.pulls.si());
        is("crawl_slope_percent", crawl.steepest.map_or(0.0, |grade| grade.si().tan() * 100.0));
        assert_eq!(word(crawl.first), row["limit_at_crawl"], "{case}");
        let (top, first) = asked(&machine, "level", &[], fastest_on_the_level).unwrap();
        is("top_speed_level_m_per_s", top.si());
        assert_eq!(word(first), row["limit_at_top_speed"], "{case}");
        let stopped = asked(&machine, "down", &[], stop).unwrap();
        assert_eq!(stopped.distance.is_some(), row["stops_downhill"] == "1", "{case}");
        if let Some(distance) = stopped.distance {
            // No rotor is written, so that nothing turns along: the braking part alone grows with the table's factor.
            let factor: f64 = row["rotating_mass_factor"].parse().unwrap();
            let reaction = row["reaction_time_s"].parse::<f64>().unwrap() * stopped.speed.si();
            is("stop_downhill_m", reaction + factor * (distance.si() - reaction));
        }
        let hold = asked(&machine, "down", &[], standstill).unwrap();
        // The model does not count what the rest of the weight rubs with.
        let share: f64 = row["weight_share_on_track"].parse().unwrap();
        let rubs = (1.0 - share) * stopped.rolling.si();
        is("hold_reserve", (hold.holds.si() - rubs) / hold.slope.si());
    }
}

#[test]
fn what_cannot_be_done_is_told_and_everything_else_stands_for_what_can() {
    let drive = |changes: &[(&str, &str)]| asked(&carrier(changes), "climb", &[], |at| at.drive().cloned()).unwrap();
    assert_eq!(drive(&[]).short, None);
    // A wall, and a speed that no voltage gives.
    let wall = drive(&[("grade: 20 °", "grade: 80 °")]);
    let short = wall.short.unwrap();
    assert!(short.pull > wall.pull && (short.speed.si() * 3.6 - 6.0).abs() < 1e-9);
    let fast = drive(&[("speed: 6 km/h", "speed: 90 km/h")]);
    assert!(fast.short.unwrap().speed > fast.track_speed && fast.track_speed.si() > 0.0);
    let free = drive(&[("speed: 6 km/h", "speed: 600 km/h"), ("battery: 100 A", "battery: 5 A")]);
    assert!(free.short.unwrap().speed > free.track_speed, "{free:?}");
}

#[test]
fn the_surface_the_lugs_and_the_share_of_the_weight_decide_what_grips() {
    let figures = (
        "traction: 0.7",
        "traction_firm: 0.8, traction_soft: 0.4, traction_hard: 0.6, traction_ice: 0.2, traction_without_lugs: 50 %",
    );
    let grip = |changes: &[(&str, &str)]| {
        let all: Vec<_> = [figures].iter().chain(changes).copied().collect();
        asked(&carrier(&all), "climb", &[], uphill).unwrap().grip.si() / (60.0 * 9.80665 * 20f64.to_radians().cos())
    };
    let near = |found: f64, wanted: f64| assert!((found - wanted).abs() < 1e-12, "{found} {wanted}");
    near(grip(&[]), 0.8);
    near(grip(&[("grade: 20 °", "surface: ice, grade: 20 °")]), 0.2);
    near(grip(&[("grade: 20 °", "surface: mud, grade: 20 °")]), 0.4);
    near(grip(&[("grade: 20 °", "surface: rock, grade: 20 °")]), 0.6);
    near(grip(&[("pitch: 40 mm", "lug: {height: 2 mm}\n    pitch: 40 mm")]), 0.4);
    near(grip(&[("pitch: 40 mm", "lug: {height: 20 mm}\n    pitch: 40 mm")]), 0.8);
    near(grip(&[("pitch: 40 mm", "adhesion: 1.1\n    pitch: 40 mm")]), 1.1);
    near(grip(&[("pitch: 40 mm", "share_of_weight: 60 %\n    pitch: 40 mm")]), 0.48);
    // 200 mm above the ground and 600 mm between the axles: a third of the grade's tangent moves on to the track.
    let high = ("centre_of_gravity: {x: 400 mm}", "centre_of_gravity: {x: 400 mm, z: 200 mm}");
    let shifted = 0.8 * (0.6 + 20f64.to_radians().tan() / 3.0);
    near(grip(&[("pitch: 40 mm", "share_of_weight: 60 %\n    pitch: 40 mm"), high]), shifted);
}

#[test]
fn a_motor_brakes_with_its_current_and_shorted_windings_stop_nothing_on_a_slope() {
    let braking = |said: &str| {
        let change = format!("efficiency: 95 %, braking: {{{said}}}");
        let changes = [("efficiency: 95 %}\n  motor", change + "}\n  motor")];
        let text: Vec<(&str, &str)> = changes.iter().map(|(from, to)| (*from, to.as_str())).collect();
        let machine = carrier(&[text[0], ("assumed: {", "assumed: {reaction_time: 1 s, ")]);
        (asked(&machine, "descent", &[], stop), asked(&machine, "descent", &[], standstill))
    };
    let (motor, held) = braking("by: regenerative, holds_at_standstill: no");
    let motor = motor.unwrap();
    assert!(motor.distance.is_some() && motor.by == "the motor" && motor.brake > motor.slope, "{motor:?}");
    // It rolls off: 0.12 of the ground against the sine of 24°.
    let held = held.unwrap();
    assert!((held.holds.si() / held.slope.si() - 0.12 / 24f64.to_radians().tan()).abs() < 1e-12);
    let (shorted, _) = braking("by: shorted_windings, holds_at_standstill: no");
    assert_eq!(shorted.unwrap().distance, None);
    let ratchet = carrier(&[("pitch: 40 mm", "parking_force: 190 N\n    pitch: 40 mm")]);
    let parked = asked(&ratchet, "descent", &[], standstill).unwrap();
    assert!(parked.by == "the parking brake" && parked.holds.si() == 190.0 && parked.holds > parked.slope);
    // A landing under power whose track stands has no blow in it.
    let still = carrier(&[("drop: 0.3 m, under_power: yes", "drop: 0.3 m, under_power: yes, speed: 0 km/h")]);
    assert_eq!(asked(&still, "powered", &[], |at| at.drive().cloned()).unwrap().blow, None);
    let (stops, unsaid) = braking("by: mechanical");
    assert!(matches!(stops, Err(NotJudged::NotGiven { .. })) && matches!(unsaid, Err(NotJudged::NotGiven { .. })));
}

#[test]
fn a_hop_under_power_is_stopped_no_harder_than_the_track_grips() {
    // The pull of the track lifts the nose by the height of the centre of gravity.
    let high = ("centre_of_gravity: {x: 400 mm}", "centre_of_gravity: {x: 400 mm, z: 250 mm}");
    let hopping = |changes: &[(&str, &str)]| carrier(&[&[high], changes].concat());
    let blow = |changes: &[(&str, &str)]| {
        asked(&hopping(changes), "powered", &[], |at| at.drive().cloned()).unwrap().blow.unwrap()
    };
    // A line that would stop the rotor within a ten-thousandth of a second.
    let stiff = ("speed_constant: 118 rpm/V", "stop_time: 0.1 ms, speed_constant: 118 rpm/V");
    let capped = blow(&[stiff]);
    assert_eq!(capped.by, "the track's grip");
    let machine = hopping(&[]);
    let landing = asked(&machine, "powered", &[], |at| at.landing().cloned()).unwrap();
    let load: f64 = machine
        .suspension
        .iter()
        .zip([(2.0, 1.1, 0.62), (2.0, 3.0, 0.75)])
        .zip(&landing.corners)
        .map(|((_, (count, unsprung, ratio)), corner)| {
            count * (corner.as_ref().unwrap().force.si() * ratio + unsprung * 9.80665)
        })
        .sum();
    let radius = 0.040 / (2.0 * (std::f64::consts::PI / 9.0).sin());
    assert!(
        (capped.torque.si() / (0.7 * load * radius / (40.0 / 17.0 * 23.0 / 12.0)) - 1.0).abs() < 1e-9,
        "{capped:?}"
    );
    assert!((capped.sprocket.si() / (0.7 * load * radius) - 1.0).abs() < 1e-9);
    // Slower, so that the rotor's momentum is what the grip takes away.
    let speed = asked(&hopping(&[]), "powered", &[], |at| at.drive().cloned()).unwrap().motor_speed.si();
    assert!((capped.lasts.si() * capped.torque.si() / (1.9e-3 * speed) - 1.0).abs() < 1e-9);
    // Ice takes most of it away, and without springs nobody knows how hard the ground pushes.
    assert!(blow(&[stiff, ("traction: 0.7", "traction: 0.1")]).torque.si() < 0.2 * capped.torque.si());
    let from = crate::drive::tests::CARRIER.find("suspension:").unwrap();
    let to = crate::drive::tests::CARRIER.find("assumed: {").unwrap();
    let free = blow(&[(&crate::drive::tests::CARRIER[from..to], ""), stiff]);
    assert!(free.by == "the stop time" && free.torque > capped.torque);
    // Where the landing cannot be followed nothing caps the blow.
    let unknown = asked(&carrier(&[stiff]), "powered", &[], |at| at.drive().cloned()).unwrap().blow.unwrap();
    assert_eq!((unknown.by, unknown.torque), (free.by, free.torque));
}
