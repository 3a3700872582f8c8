#![allow(clippy::disallowed_methods, reason = "a test works it out by hand")]

use crate::Task;
use rule::prelude::*;
use trial::Row;

/// 50 kg on a track that takes 0.15 and grips 0.9, and a motor that pulls a good deal more than that.
const SLEDGE: &str = "
machine: {name: trial, mass: 50 kg, rides: no, people_near: no}
environment: {air: 20 °C, relative_humidity: 80 %, altitude: 0 m}
cases:
  hill: {kind: climb, grade: 22 °, speed: 3 km/h, duration: 20 min}
  off: {kind: launch, grade: 10 °}
  flat: {kind: top_speed}
  down: {kind: descent, grade: 22 °, speed: 6 km/h}
powertrain:
  battery: {cells: {series: 10, full_voltage: 4.2 V, nominal_voltage: 3.6 V}, resistance: 20 mΩ, capacity: 20 Ah}
  controller: {current_limit: {battery: 80 A, motor: 90 A}, efficiency: 95 %, timing_advance: 0 °, braking: {by: mechanical, force: 300 N}}
  motor: {count: 1, speed_constant: 100 rpm/V, resistance: 30 mΩ, no_load_current: 2 A}
  stages: [{name: pair, kind: spur, pinion: {teeth: 15}, wheel: {teeth: 120}, efficiency: 95 %}]
  track: {pitch: 40 mm, sprocket_teeth: 9, rolling_resistance: 0.15, adhesion: 0.9, share_of_weight: 100 %, parking_force: 260 N}
assumed: {cold_battery_resistance: 1, cold_battery_capacity: 100 %, reaction_time: 1 s}
";

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&Task, &trial::changed(SLEDGE, changes))
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    let found = rows(changes);
    found.iter().find(|row| row.check == check).cloned().unwrap_or_else(|| panic!("{check}: {found:#?}"))
}

const HILL: &str = "hill: {kind: climb, grade: 22 °, speed: 3 km/h";

#[test]
fn what_cannot_be_climbed_fails_and_says_what_ends_it() {
    // Nothing but a wall, and a speed that no voltage gives: neither goes by in silence.
    let wall = row("pull", &[(HILL, "hill: {kind: climb, grade: 80 °, speed: 3 km/h")]);
    assert_eq!((wall.verdict, wall.case.as_str()), (Verdict::Fails, "hill"));
    assert!(
        wall.says.starts_with("3 km/h on 80 °: no, pulls to 36") && wall.says.ends_with("the tracks slip"),
        "{wall:?}"
    );
    let fast = row("pull", &[(HILL, "hill: {kind: climb, grade: 22 °, speed: 40 km/h")]);
    assert!(
        fast.verdict == Verdict::Fails && fast.says.ends_with("not even on the level: the voltage is used up"),
        "{fast:?}"
    );
    let weak = row("pull", &[("motor: 90 A", "motor: 20 A")]);
    assert!(weak.verdict == Verdict::Fails && weak.says.contains("the motor current limit is reached"), "{weak:?}");
    let ice = row("start", &[("adhesion: 0.9", "adhesion: 0.2")]);
    assert!(ice.verdict == Verdict::Fails && ice.says.starts_with("gets going on 10 °: no"), "{ice:?}");
}

#[test]
fn what_does_not_stop_or_stay_fails() {
    let weak = row("stop", &[("force: 300 N", "force: 50 N")]);
    assert!(weak.verdict == Verdict::Fails && weak.says.contains("no, it runs on downhill"), "{weak:?}");
    let rolls = row("stay", &[("parking_force: 260 N", "parking_force: 0 N")]);
    assert!(rolls.verdict == Verdict::Fails && rolls.says.contains("rolls off"), "{rolls:?}");
    let long = row("stopping distance", &[("speed: 6 km/h", "speed: 6 km/h, stop_within: 1 m")]);
    assert_eq!(long.verdict, Verdict::Fails);
    let never = row(
        "stopping distance",
        &[("speed: 6 km/h", "speed: 6 km/h, stop_within: 9 m"), ("force: 300 N", "force: 50 N")],
    );
    assert!(never.verdict == Verdict::Fails && never.says.contains("runs on"), "{never:?}");
    let short = row("time", &[("capacity: 20 Ah", "capacity: 1 Ah")]);
    assert!(short.verdict == Verdict::Fails && short.says.contains("no, a full battery lasts for"), "{short:?}");
    let slow = row("top speed", &[("kind: top_speed", "kind: top_speed, speed: 90 km/h")]);
    assert!(slow.verdict == Verdict::Fails && slow.says.contains("at most, then the voltage is used up"), "{slow:?}");
    let stuck = row("top speed", &[("adhesion: 0.9", "adhesion: 0.1")]);
    assert!(
        stuck.verdict == Verdict::Fails && stuck.says == "does not move on the level: the tracks slip",
        "{stuck:?}"
    );
}

#[test]
fn little_to_spare_is_thin() {
    // tan 22° + 0.15 of the weight, at the tracks.
    let needs = 22f64.to_radians().tan() + 0.15;
    let grip = |over: f64| row("pull", &[("adhesion: 0.9", &format!("adhesion: {:.9}", needs * over))]).verdict;
    assert_eq!((grip(1.05), grip(1.2)), (Verdict::Thin, Verdict::Sound));
    let slope = 50.0 * 9.80665 * 22f64.to_radians().sin();
    let parks = |over: f64| {
        let force = format!("parking_force: {:.6} N", slope * over);
        row("stay", &[("parking_force: 260 N", &force)]).verdict
    };
    assert_eq!((parks(1.1), parks(1.3)), (Verdict::Thin, Verdict::Sound));
}

#[test]
fn what_can_be_done_is_told_with_its_limit() {
    let found = rows(&[]);
    assert!(found.iter().all(|row| row.verdict == Verdict::Sound), "{found:#?}");
    let told = row("pull", &[]).says;
    assert_eq!(told, "3 km/h on 22 °: yes, pulls to 36.9 °, then the tracks slip");
    let flat = row("top speed", &[]).says;
    assert!(flat.starts_with("goes ") && flat.ends_with("on the level, then the voltage is used up"), "{flat}");
    // By hand: 0.9 over the level, the motor's voltage all used up.
    let stop = row("stop", &[]).says;
    assert!(stop.starts_with("stops from 6 km/h on 22 ° downhill: yes, in "), "{stop}");
}

#[test]
fn what_is_not_known_is_not_judged() {
    let gap = |check: &str, from: &str, to: &str| {
        let row = row(check, &[(from, to)]);
        assert_eq!(row.verdict, Verdict::NotJudged, "{row:?}");
        row.says
    };
    assert_eq!(gap("pull", ", speed: 3 km/h", ""), "speed");
    assert_eq!(gap("pull", "grade: 22 °, speed: 3", "speed: 3"), "grade");
    assert_eq!(gap("stop", "by: mechanical, force: 300 N", "by: mechanical"), "force");
    assert_eq!(gap("stay", ", parking_force: 260 N", ""), "parking_force");
    assert_eq!(gap("time", ", capacity: 20 Ah", ""), "capacity");
}

#[test]
fn the_exact_boundary() {
    let needs = 22f64.to_radians().tan() + 0.15;
    let grip = |over: f64| row("pull", &[("adhesion: 0.9", &format!("adhesion: {:.12}", needs * over))]).verdict;
    assert_eq!((grip(1.0 - 1e-8), grip(1.0 + 1e-8)), (Verdict::Fails, Verdict::Thin));
    assert_eq!((grip(1.1 - 1e-8), grip(1.1 + 1e-8)), (Verdict::Thin, Verdict::Sound));
}

#[test]
fn steeper_never_pulls_easier_and_more_grip_never_worse() {
    let grade = |degrees: f64| {
        row("pull", &[(HILL, &format!("hill: {{kind: climb, grade: {degrees} °, speed: 3 km/h"))]).reserve
    };
    let reserves: Vec<f64> = (1..18).map(|step| grade(f64::from(step) * 5.0)).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] < pair[0]), "{reserves:?}");
    let grips: Vec<f64> = (1..15)
        .map(|step| row("pull", &[("adhesion: 0.9", &format!("adhesion: {}", f64::from(step) * 0.1))]).reserve)
        .collect();
    assert!(grips.windows(2).all(|pair| pair[1] >= pair[0]), "{grips:?}");
}

/// Six tasks of the examples by hand: where the tracks or the ground decide, a pocket calculator is enough.
#[test]
fn six_tasks_of_the_examples_by_hand() {
    // With a scale under each ski: 23.2 kg of the 60 do not stand on the track.
    let drawn = include_str!("../../../examples/hut-hauler/as-drawn.machine.yaml");
    let weighed = trial::changed(drawn, &[("    life: 100 km\n", "    life: 100 km\n    share_of_weight: 61 %\n")]);
    let hauler = trial::review_beside(
        &Task,
        &weighed,
        &[
            ("parts/bought-in.yaml", include_str!("../../../examples/hut-hauler/parts/bought-in.yaml")),
            ("parts/my-filaments.yaml", include_str!("../../../examples/hut-hauler/parts/my-filaments.yaml")),
            ("runs/sunday.csv", include_str!("../../../examples/hut-hauler/runs/sunday.csv")),
        ],
    );
    let cutter = trial::review_beside(
        &Task,
        include_str!("../../../examples/reed-cutter/as-drawn.machine.yaml"),
        &[("parts/bought-in.yaml", include_str!("../../../examples/reed-cutter/parts/bought-in.yaml"))],
    );
    let near = |rows: &[Row], subject: &str, check: &str, by_hand: f64| {
        let row = rows.iter().find(|row| row.subject == subject && row.check == check).unwrap();
        assert!((row.reserve / by_hand - 1.0).abs() < 1e-3, "{by_hand}: {row:#?}");
    };
    let (sine, cosine, tangent) =
        (|d: f64| d.to_radians().sin(), |d: f64| d.to_radians().cos(), |d: f64| d.to_radians().tan());
    // The hauler: 60 kg = 588.4 N, 88 N to tow; 61 % on the track, and of the slope's tangent 245 mm over 730 mm.
    let (weight, tow, lever) = (588.4, 88.0, 245.0 / 730.0);
    let climb = 0.9 * (0.61 + lever * tangent(24.0)) * weight * cosine(24.0);
    near(&hauler, "climb", "pull", climb / (weight * sine(24.0) + tow * cosine(24.0)));
    let bare = 0.9 * (0.61 + lever * tangent(18.0)) * weight * cosine(18.0);
    near(&hauler, "climb_bare", "pull", bare / (weight * sine(18.0) + tow * cosine(18.0)));
    near(&hauler, "traverse", "pull", 0.9 * 0.61 * weight / tow);
    // Empty down again: 42 kg; its motor could brake harder than the track grips.
    let empty = weight * 0.7;
    let brake = 0.9 * (0.61 - lever * tangent(24.0)) * empty * cosine(24.0);
    near(&hauler, "descent", "stop", (brake + tow * 0.7 * cosine(24.0)) / (empty * sine(24.0)));
    // With everything off only the ground holds it: 0.15 over the tangent.
    near(&hauler, "climb", "stay", tow / weight / tangent(24.0));
    near(&cutter, "bank", "stay", 0.22 / tangent(20.0));
}
