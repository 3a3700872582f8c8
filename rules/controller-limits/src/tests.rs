use crate::ControllerLimits;
use rule::prelude::*;
use trial::Row;

/// 42 V full, 4200 rpm free, 5 pole pairs: 21000 electrical rpm.
const SLEDGE: &str = "
machine: {name: trial, mass: 40 kg}
environment: {air: 20 °C, relative_humidity: 80 %, altitude: 0 m}
cases:
  cruise: {kind: cruise, speed: 10 km/h}
  launch: {kind: launch}
  down: {kind: descent, grade: 20 °, speed: 10 km/h}
powertrain:
  battery: {cells: {series: 10, full_voltage: 4.2 V, nominal_voltage: 3.6 V}, resistance: 100 mΩ}
  controller: {voltage_max: 50 V, current_limit: {motor: 60 A}, current_max: 40 A, burst_current_max: 80 A, electrical_speed_max: 25000 rpm,
    efficiency: 100 %, timing_advance: 0 °, braking: {by: regenerative}}
  motor: {count: 1, speed_constant: 100 rpm/V, resistance: 1 mΩ, no_load_current: 1 mA, pole_pairs: 5}
  stages: [{name: pair, kind: spur, pinion: {teeth: 20}, wheel: {teeth: 80}, efficiency: 100 %}]
  track: {pitch: 40 mm, sprocket_teeth: 9, rolling_resistance: 0.1}
assumed: {traction: 9, cold_battery_resistance: 2.5, burst_time: 5 s}
";
const FULL: &str = "volts at full charge";
const BRAKING: &str = "volts when braking";
const SPEED: &str = "electrical speed";
const CURRENT: &str = "motor current";

fn changed(changes: &[(&str, &str)]) -> String {
    trial::changed(SLEDGE, changes)
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    trial::review(&ControllerLimits, &changed(changes)).into_iter().find(|row| row.check == check).unwrap()
}

fn volts(volts: f64) -> String {
    format!("voltage_max: {volts} V")
}

#[test]
fn each_limit_can_fail() {
    let fails = |check: &str, from: &str, to: &str| {
        let row = row(check, &[(from, to)]);
        assert_eq!(row.verdict, Verdict::Fails, "{row:?}");
        row.says
    };
    assert!(fails(FULL, "voltage_max: 50 V", "voltage_max: 41 V").contains("plugged in"));
    assert!(fails(BRAKING, "resistance: 100 mΩ", "resistance: 2 Ω").contains("nobody brakes"));
    assert!(fails(SPEED, "max: 25000 rpm", "max: 20000 rpm").contains("angle"));
    assert!(fails(CURRENT, "burst_current_max: 80 A", "burst_current_max: 50 A").contains("some seconds"));
}

#[test]
fn just_enough_is_thin() {
    let thin = |check: &str, from: &str, to: &str| assert_eq!(row(check, &[(from, to)]).verdict, Verdict::Thin);
    thin(FULL, "voltage_max: 50 V", "voltage_max: 43 V");
    thin(SPEED, "max: 25000 rpm", "max: 22300 rpm");
    thin(CURRENT, "burst_current_max: 80 A", "burst_current_max: 61 A");
}

#[test]
fn all_within_their_labels() {
    let rows = trial::review(&ControllerLimits, SLEDGE);
    assert_eq!(
        rows.iter().map(|row| (row.check, row.verdict)).collect::<Vec<_>>(),
        [(SPEED, Verdict::Sound), (CURRENT, Verdict::Sound), (FULL, Verdict::Sound), (BRAKING, Verdict::Sound),]
    );
    assert!((row(FULL, &[]).reserve - 50.0 / 42.0).abs() < 1e-9);
    let pushed = row(SPEED, &[]);
    assert!(pushed.reserve < 25_000.0 / 21_000.0 && pushed.case == "down");
}

#[test]
fn braking_lifts_the_volts_of_a_full_pack() {
    // Pushed: 42 V and what the current of the slope adds in 100 mΩ.
    let pushed = row(BRAKING, &[]);
    let held = 42.0 + 0.1 * 30.0;
    assert!(50.0 / pushed.reserve > 42.0 && 50.0 / pushed.reserve < held, "{pushed:?}");
    let away = |by: &str| row(BRAKING, &[("by: regenerative", by)]).reserve;
    // Run away it charges at more speed than in the case: the same, whatever brakes otherwise.
    assert!((away("by: shorted_windings") - pushed.reserve).abs() < 1e-12);
    let gentle = trial::review(&ControllerLimits, &changed(&[("grade: 20 °", "grade: 3 °")]));
    assert!(gentle.iter().all(|row| row.check != BRAKING));
}

#[test]
fn gaps_hide_only_what_needs_them() {
    let gap = |check: &str, from: &str| {
        let row = row(check, &[(from, "")]);
        assert_eq!(row.verdict, Verdict::NotJudged, "{row:?}");
        row.says
    };
    assert_eq!(gap(FULL, "voltage_max: 50 V, "), "voltage_max");
    assert_eq!(gap(BRAKING, "voltage_max: 50 V, "), "voltage_max");
    assert_eq!(gap(SPEED, ", pole_pairs: 5"), "pole_pairs");
    assert_eq!(gap(SPEED, " electrical_speed_max: 25000 rpm,"), "electrical_speed_max");
    assert_eq!(row(FULL, &[(", pole_pairs: 5", "")]).verdict, Verdict::Sound);
    let lasting = row(CURRENT, &[("current_max: 40 A, burst_current_max: 80 A, ", "")]);
    assert_eq!((lasting.verdict, lasting.says.as_str()), (Verdict::NotJudged, "current_max"));
    // Without a figure for bursts the lasting one counts.
    assert_eq!(row(CURRENT, &[(" burst_current_max: 80 A,", "")]).verdict, Verdict::Fails);
    let unsaid = row(BRAKING, &[(", braking: {by: regenerative}", "")]);
    assert!(unsaid.verdict == Verdict::Sound && unsaid.assumed.contains(&"braking".to_string()));
}

#[test]
fn the_exact_boundary() {
    let at = |limit: f64| row(FULL, &[("voltage_max: 50 V", &volts(limit))]).verdict;
    assert_eq!((at(44.100_001), at(44.099_999)), (Verdict::Sound, Verdict::Thin));
    assert_eq!((at(42.000_001), at(41.999_999)), (Verdict::Thin, Verdict::Fails));
}

#[test]
fn more_volts_allowed_and_fewer_pole_pairs_never_lower_the_reserve() {
    let limits: Vec<f64> =
        (40..70).map(|limit| row(FULL, &[("voltage_max: 50 V", &volts(f64::from(limit)))]).reserve).collect();
    assert!(limits.windows(2).all(|pair| pair[1] > pair[0]));
    let pairs: Vec<f64> =
        (1..12).map(|pairs| row(SPEED, &[("pole_pairs: 5", &format!("pole_pairs: {pairs}"))]).reserve).collect();
    assert!(pairs.windows(2).all(|pair| pair[1] < pair[0]));
}

#[test]
fn a_launch_is_a_burst_until_it_lasts() {
    assert_eq!(row(CURRENT, &[]).case, "launch");
    let long = row(CURRENT, &[("kind: launch", "kind: launch, duration: 11 s")]);
    assert_eq!(long.verdict, Verdict::Fails);
    assert!((long.reserve - 40.0 / 60.0).abs() < 1e-9);
}
