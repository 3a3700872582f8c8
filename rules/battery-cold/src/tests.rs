use crate::BatteryCold;
use rule::prelude::*;
use trial::Row;

/// 36 V, 100 mΩ warm and 250 mΩ at −20 °C, cut-off at 24 V: 48 A. A launch takes 32 A.
const SLEDGE: &str = "
machine: {name: trial, mass: 40 kg}
environment: {air: -20 °C, relative_humidity: 80 %, altitude: 0 m}
cases:
  launch: {kind: launch}
  down: {kind: descent, grade: 20 °, speed: 10 km/h}
powertrain:
  battery: {cells: {series: 10, full_voltage: 4.2 V, nominal_voltage: 3.6 V, charge_temperature_min: 0 °C}, resistance: 100 mΩ (measured)}
  controller: {cut_off: 2.4 V, current_limit: {motor: 32 A}, efficiency: 100 %, timing_advance: 0 °, braking: {by: regenerative}}
  motor: {count: 1, speed_constant: 100 rpm/V, resistance: 30 mΩ, no_load_current: 1 mA}
  stages: [{name: pair, kind: spur, pinion: {teeth: 20}, wheel: {teeth: 20}, efficiency: 100 %}]
  track: {pitch: 40 mm, sprocket_teeth: 9, rolling_resistance: 0.1}
assumed: {traction: 5, cold_battery_resistance: 2.5, burst_time: 5 s, cell_charge_temperature_min: 5 °C}
";
const SAG: &str = "current before the cut-off";
const CHARGED: &str = "charged by braking";

fn changed(changes: &[(&str, &str)]) -> String {
    trial::changed(SLEDGE, changes)
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    trial::review(&BatteryCold, &changed(changes)).into_iter().find(|row| row.check == check).unwrap()
}

fn cut_off(volts: f64) -> String {
    format!("cut_off: {volts} V")
}

#[test]
fn a_launch_below_the_cut_off_and_frozen_cells_that_are_charged_fail() {
    let weak = row(SAG, &[("resistance: 100 mΩ", "resistance: 200 mΩ")]);
    assert_eq!((weak.verdict, weak.case.as_str()), (Verdict::Fails, "launch"));
    assert!((weak.reserve - 24.0 / 32.0).abs() < 1e-9 && weak.says.contains("cuts out"), "{weak:?}");
    let frozen = row(CHARGED, &[]);
    assert_eq!((frozen.verdict, frozen.case.as_str()), (Verdict::Fails, "down"));
    assert!((frozen.reserve + 20.0).abs() < 1e-9 && frozen.says.contains("lithium"));
}

#[test]
fn a_battery_that_just_holds_is_thin() {
    let thin = row(SAG, &[("resistance: 100 mΩ", "resistance: 140 mΩ")]);
    assert_eq!(thin.verdict, Verdict::Thin, "{thin:?}");
    // A guess wants more than a measurement.
    assert_eq!(row(SAG, &[("100 mΩ (measured)", "105 mΩ (guess)")]).verdict, Verdict::Thin);
}

#[test]
fn a_strong_and_warm_battery_is_sound() {
    let sound = row(SAG, &[]);
    assert_eq!(sound.verdict, Verdict::Sound);
    assert!((sound.reserve - 1.5).abs() < 1e-9, "{sound:?}");
    let warm = ("resistance: 100 mΩ", "put_in_at: 20 °C, resistance: 100 mΩ");
    assert!((row(SAG, &[warm]).reserve - 2.5 * 1.5).abs() < 1e-9);
    assert_eq!(row(CHARGED, &[warm]).verdict, Verdict::Sound);
}

#[test]
fn what_is_missing_is_named_or_assumed() {
    let gap = |check: &str, from: &str| {
        let row = row(check, &[(from, "")]);
        assert_eq!(row.verdict, Verdict::NotJudged, "{row:?}");
        row.says
    };
    assert_eq!(gap(SAG, "cut_off: 2.4 V, "), "cut_off");
    assert_eq!(gap(SAG, ", resistance: 100 mΩ (measured)"), "resistance");
    assert_eq!(gap(SAG, "series: 10, "), "series");
    let assumed = row(CHARGED, &[(", charge_temperature_min: 0 °C", "")]);
    assert!((assumed.reserve + 25.0).abs() < 1e-9 && assumed.assumed.contains(&"charge_temperature_min".to_string()));
    let unsaid = row(CHARGED, &[(", braking: {by: regenerative}", "")]);
    assert!(unsaid.verdict == Verdict::Fails && unsaid.assumed.contains(&"braking".to_string()));
}

#[test]
fn brakes_that_do_not_charge_are_set_aside() {
    let rows = trial::review(&BatteryCold, &changed(&[("by: regenerative", "by: shorted_windings")]));
    assert!(rows.iter().all(|row| row.check == SAG));
    let gentle = trial::review(&BatteryCold, &changed(&[("grade: 20 °", "grade: 3 °")]));
    assert!(gentle.iter().all(|row| row.check == SAG));
}

#[test]
fn the_exact_boundary() {
    // 1.2 times 32 A through 250 mΩ.
    let edge = 36.0 - 1.2 * 32.0 * 0.25;
    let at = |volts: f64| row(SAG, &[("cut_off: 2.4 V", &cut_off(volts / 10.0))]).verdict;
    assert_eq!((at(edge - 1e-6), at(edge + 1e-6)), (Verdict::Sound, Verdict::Thin));
    let cells = |degrees: &str| {
        row(CHARGED, &[("charge_temperature_min: 0 °C", &format!("charge_temperature_min: {degrees} °C"))]).verdict
    };
    assert_eq!((cells("-20.00001"), cells("-19.99999")), (Verdict::Sound, Verdict::Fails));
}

#[test]
fn colder_never_raises_the_reserve() {
    let reserve = |air: i32| row(SAG, &[("air: -20 °C", &format!("air: {air} °C"))]).reserve;
    let reserves: Vec<f64> = (-8..6).map(|step| reserve(5 * step)).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] > pair[0]), "{reserves:?}");
}

#[test]
fn a_climb_is_judged_by_its_power_and_fails_too_where_the_battery_cannot_give_it_at_all() {
    let climb = ("launch: {kind: launch}", "climb: {kind: climb, grade: 10 °, speed: 10 km/h}");
    // Of ten degrees.
    let (sine, cosine) = (0.173_648_177_666_930, 0.984_807_753_012_208);
    let pull = 40.0 * 9.80665 * (sine + 0.1 * cosine);
    let radius = 0.040 / (2.0 * SINE_OF_A_NINTH);
    let current = pull * radius * 100.0 * core::f64::consts::PI / 30.0;
    let power = pull * 10.0 / 3.6 + current * current * 0.03;
    let wide = ("motor: 32 A", "motor: 200 A");
    let steady = row(SAG, &[climb, wide]);
    assert!((steady.reserve - 48.0 / (power / 24.0)).abs() < 1e-3 && steady.case == "climb", "{steady:?} {power}");
    let weak = row(SAG, &[climb, wide, ("resistance: 100 mΩ", "resistance: 1 Ω")]);
    assert!((weak.reserve * 10.0 / steady.reserve - 1.0).abs() < 1e-9 && weak.verdict == Verdict::Fails, "{weak:?}");
}

#[test]
fn a_launch_that_the_battery_cannot_feed_fails() {
    let row = row(SAG, &[("resistance: 100 mΩ", "resistance: 500 mΩ")]);
    assert_eq!(row.verdict, Verdict::Fails);
    assert!((row.reserve - 9.6 / 32.0).abs() < 1e-9, "{row:?}");
}

/// Of half a turn by nine.
const SINE_OF_A_NINTH: f64 = 0.342_020_143_325_669;
