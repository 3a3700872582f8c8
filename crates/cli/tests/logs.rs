//! Logs of test runs as the builder meets them, and the invented one of the hut hauler.

#![allow(clippy::unwrap_used)]

mod tool;

use std::fmt::Write;
use std::fs;
use tool::{code, dryfit, err, out, root, write};

/// Rises and falls evenly between -1 and 1, so that it is the same on every platform.
fn wave(time: f64, period: f64) -> f64 {
    let share = (time / period).fract();
    if share < 0.5 { 4.0 * share - 1.0 } else { 3.0 - 4.0 * share }
}

/// Ten minutes of the trail at -12 °C, every two seconds: off from the road, up through two drifts, a rest, and down again.
fn sunday() -> String {
    let mut text = String::from("t_s,v_kmh,i_motor,i_battery,u_battery,controller_C\n");
    let mut warm = -8.0;
    for row in 0..300 {
        let time = f64::from(row) * 2.0;
        let (speed, current) = match row {
            0..2 => (1.2, 84.0),
            2..4 => (3.6, 72.0),
            48..52 | 117..120 => (2.4, 78.0 - f64::from(row % 4)),
            150..166 => (0.0, 0.0),
            240..285 => (8.5 + wave(time, 46.0), -9.0 + 4.0 * wave(time, 23.0)),
            _ => (5.4 + 0.8 * wave(time, 46.0), 46.0 + 9.0 * wave(time, 182.0) + 6.0 * wave(time, 31.0)),
        };
        // 118 rpm/V, a ratio of 4.51 and a sprocket of 58.5 mm; 5 % stay in the controller, and 0.9 A go elsewhere.
        let volts = speed / 3.6 / 0.0585 * 4.51 / 12.357 + current * 0.031;
        let battery = volts * current / 50.0 * if current < 0.0 { 0.95 } else { 1.05 } + 0.9;
        warm += (current * current * 0.0008 - 0.06 * (warm + 12.0)) * 0.05;
        let under = 50.4 - 0.08 * battery;
        writeln!(text, "{time:.0},{speed:.1},{current:.1},{battery:.2},{under:.1},{warm:.1}").unwrap();
    }
    text
}

#[test]
fn the_log_of_the_hut_hauler_is_made_by_this_recipe() {
    let path = root().join("examples/hut-hauler/runs/sunday.csv");
    if std::env::var_os("DRYFIT_BLESS").is_some() {
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(&path, sunday()).unwrap();
    }
    assert_eq!(fs::read_to_string(path).unwrap_or_default(), sunday(), "DRYFIT_BLESS=1 writes it anew");
}

const SPEC: &str = "dryfit: 1
machine: {name: trial, mass: 40 kg}
environment: {air: 5 °C, relative_humidity: 80 %, altitude: 0 m}
cases:
  ride:
    kind: log
    log: runs/ride.csv
    columns:
      time: {heading: t, unit: s}
      speed: {heading: v, unit: km/h}
      motor_current: {heading: i, unit: A}
powertrain:
  battery: {cells: {series: 10, parallel: 2, kind: li_ion_21700, current_max: 10 A (label)}, resistance: 50 mΩ, capacity: 10 Ah}
  controller: {current_limit: {motor: 80 A}, efficiency: 95 %}
  motor: {count: 1, speed_constant: 100 rpm/V, resistance: 40 mΩ, no_load_current: 2 A}
  stages: [{name: pair, kind: spur, pinion: {teeth: 20}, wheel: {teeth: 60}, efficiency: 96 %}]
  track: {pitch: 40 mm, sprocket_teeth: 9}
";
const RIDE: &str = "t,v,i\n0,10,60\n300,8,70\n600,0,0\n";

#[test]
fn a_run_is_judged_by_its_file_and_a_broken_one_is_told_with_its_line() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    write(at, "workshop.yaml", "");
    write(at, "a/ride.machine.yaml", SPEC);
    write(at, "a/runs/ride.csv", RIDE);
    let review = || dryfit(at, &["review", "a/ride.machine.yaml"], "");
    let judged = review();
    assert!(code(&judged) == 1 && out(&judged).contains("in case ride"), "{}{}", out(&judged), err(&judged));
    let told = |log: &str| {
        write(at, "a/runs/ride.csv", log);
        let answer = review();
        (code(&answer), out(&answer) + &err(&answer))
    };
    let (status, says) = told("t,v,i\n0,10,60\n300,8,seventy\n");
    assert_eq!(status, code(&dryfit(at, &["review", "missing.machine.yaml"], "")));
    assert!(says.contains("line 3, column 3 (`i`)") && says.contains("seventy") && says.contains("ride.csv"), "{says}");
    fs::remove_file(at.join("a/runs/ride.csv")).unwrap();
    write(at, "a/runs/rider.csv", RIDE);
    let lost = review();
    assert!((out(&lost) + &err(&lost)).contains("runs/rider.csv"), "{}{}", out(&lost), err(&lost));
}

#[test]
fn a_log_outside_the_repository_is_refused_and_a_folder_is_none() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    write(at, "ride.csv", RIDE);
    write(at, "specs/workshop.yaml", "");
    let refused = |log: &str, word: &str| {
        write(at, "specs/ride.machine.yaml", &SPEC.replace("runs/ride.csv", log));
        let answer = dryfit(at, &["review", "specs/ride.machine.yaml"], "");
        let says = out(&answer) + &err(&answer);
        assert!(code(&answer) == 2 && says.contains(word), "{log}: {} {says}", code(&answer));
    };
    refused("../ride.csv", "outside the repository");
    refused("/etc/hostname", "outside the repository");
    write(at, "specs/runs/x", "");
    refused("runs", "is a folder");
}

/// More than a spec may have: a log is not held to the limit of texts.
#[test]
fn a_log_may_be_larger_than_any_spec() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    write(at, "ride.machine.yaml", &SPEC.replace("runs/ride.csv", "ride.csv"));
    let mut log = String::from("t,v,i\n");
    for row in 0..400_000u32 {
        writeln!(log, "{:.1},{},{}", f64::from(row) * 0.1, row % 11, row % 70).unwrap();
    }
    assert!(log.len() > 4 << 20);
    write(at, "ride.csv", &log);
    let judged = dryfit(at, &["review", "ride.machine.yaml"], "");
    assert!(code(&judged) == 1 && out(&judged).contains("in case ride"), "{}{}", out(&judged), err(&judged));
}

#[test]
fn a_changed_log_is_a_changed_machine() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    write(at, "workshop.yaml", "");
    write(at, "a/ride.machine.yaml", SPEC);
    write(at, "a/runs/ride.csv", RIDE);
    let about = |list: &str| {
        write(at, "list", list);
        let answer = dryfit(at, &["review", "a", "--changed-since", "list"], "");
        (code(&answer), out(&answer).contains("in case ride"))
    };
    assert_eq!(about("a/runs/ride.csv\n"), (1, true));
    assert!(!about("b/other.csv\n").1);
    // A log that is broken or gone concerns its spec all the more.
    write(at, "a/runs/ride.csv", "t,v,i\n");
    assert_eq!(about("a/runs/ride.csv\n").0, 2);
    fs::remove_file(at.join("a/runs/ride.csv")).unwrap();
    assert_eq!(about("a/runs/ride.csv\n").0, 2);
}
