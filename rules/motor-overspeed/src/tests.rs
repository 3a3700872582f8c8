use crate::MotorOverspeed;
use core::f64::consts::PI;
use rule::prelude::*;
use trial::Row;

/// 42 V full, 100 rpm/V, no losses to speak of: 4200 rpm free. Two to one, 9 teeth of 40 mm.
const SLEDGE: &str = "
machine: {name: trial, mass: 40 kg, rides: no, people_near: no}
environment: {air: 0 °C, relative_humidity: 80 %, altitude: 0 m}
cases:
  cruise: {kind: cruise, speed: 10 km/h}
  hop: {kind: lift_off}
  down: {kind: descent, grade: 20 °, speed: 10 km/h}
powertrain:
  battery: {cells: {series: 10, full_voltage: 4.2 V, nominal_voltage: 3.6 V}, resistance: 1 mΩ}
  controller: {current_limit: {motor: 200 A}, efficiency: 100 %, timing_advance: 0 °}
  motor: {count: 1, speed_constant: 100 rpm/V, resistance: 1 mΩ, no_load_current: 1 mA, speed_max: 6000 rpm}
  stages: [{name: pair, kind: spur, pinion: {teeth: 20}, wheel: {teeth: 40}, efficiency: 100 %}]
  track: {pitch: 40 mm, sprocket_teeth: 9, rolling_resistance: 0.1}
assumed: {traction: 0.8, cold_battery_resistance: 2.5}
";
const LOADED: &str = "speed under load";
const FREE: &str = "speed without load";
const PUSHED: &str = "speed when pushed downhill";

fn changed(changes: &[(&str, &str)]) -> String {
    trial::changed(SLEDGE, changes)
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    trial::review(&MotorOverspeed, &changed(changes)).into_iter().find(|row| row.check == check).unwrap()
}

fn label(rpm: &str) -> String {
    format!("speed_max: {rpm} rpm")
}

#[test]
fn a_free_motor_above_its_label_fails() {
    let row = row(FREE, &[("speed_max: 6000 rpm", &label("4000"))]);
    assert_eq!(row.verdict, Verdict::Fails);
    assert!((row.reserve - 4000.0 / 4200.0).abs() < 1e-5 && row.says.contains("magnets come off"), "{row:?}");
    assert!(row.says.contains("leaves the ground"));
}

#[test]
fn a_tenth_of_reserve_is_wanted() {
    assert_eq!(row(FREE, &[("speed_max: 6000 rpm", &label("4500"))]).verdict, Verdict::Thin);
}

#[test]
fn slow_enough_is_sound_in_every_way() {
    let rows = trial::review(&MotorOverspeed, SLEDGE);
    assert_eq!(
        rows.iter().map(|row| (row.check, row.verdict)).collect::<Vec<_>>(),
        [(LOADED, Verdict::Sound), (PUSHED, Verdict::Sound), (FREE, Verdict::Sound)]
    );
    // 10 km/h on a polygon of 58.5 mm, two to one.
    let by_hand = 10.0 / 3.6 / (0.040 / (2.0 * 0.342_020_143_325_669)) * 2.0 * 30.0 / PI;
    assert!((row(LOADED, &[]).reserve * by_hand - 6000.0).abs() < 1e-6);
    assert!(row(PUSHED, &[]).reserve < row(FREE, &[]).reserve && row(PUSHED, &[]).case == "down");
}

#[test]
fn without_label_the_rim_is_judged_and_without_both_nothing() {
    let bare = (", speed_max: 6000 rpm", "");
    let unknown = row(FREE, &[bare]);
    assert_eq!((unknown.verdict, unknown.says.as_str()), (Verdict::NotJudged, "speed_max"));
    // 100 m/s on 400 mm is 500 rad/s.
    let rim = row(
        FREE,
        &[
            (", speed_max: 6000 rpm", ", rotor_diameter: 400 mm"),
            ("assumed: {", "assumed: {rotor_rim_speed: 100 m/s, "),
        ],
    );
    assert!((rim.reserve - 500.0 * 30.0 / PI / 4200.0).abs() < 1e-4, "{rim:?}");
    let gap = |changes: &[(&str, &str)]| row(FREE, changes).says;
    assert_eq!(gap(&[("speed_constant: 100 rpm/V, ", "")]), "speed_constant");
    assert_eq!(gap(&[("series: 10, ", "")]), "series");
    assert_eq!(
        row(LOADED, &[("cruise, speed: 10 km/h", "cruise"), ("grade: 20 °, speed: 10 km/h", "grade: 20 °")]).says,
        "speed"
    );
}

#[test]
fn the_exact_boundary() {
    let free = 100.0 * (42.0 - 1e-6);
    let at = |rpm: f64| row(FREE, &[("speed_max: 6000 rpm", &label(&format!("{rpm:.6}")))]).verdict;
    assert_eq!((at(free * 1.1 + 1e-4), at(free * 1.1 - 1e-4)), (Verdict::Sound, Verdict::Thin));
    assert_eq!((at(free + 1e-4), at(free - 1e-4)), (Verdict::Thin, Verdict::Fails));
}

#[test]
fn more_cells_and_more_advance_never_raise_the_reserve() {
    let cells: Vec<f64> =
        (4..20).map(|series| row(FREE, &[("series: 10", &format!("series: {series}"))]).reserve).collect();
    assert!(cells.windows(2).all(|pair| pair[1] < pair[0]));
    let advance = |degrees: u32| row(FREE, &[("advance: 0 °", &format!("advance: {degrees} °"))]).reserve;
    let advances: Vec<f64> = (0..6).map(|step| advance(5 * step)).collect();
    assert!(advances.windows(2).all(|pair| pair[1] < pair[0]) && advance(0) / advance(30) > 1.15);
}

#[test]
fn a_controller_that_holds_back_clears_the_air_but_not_the_slope() {
    let limit = ("timing_advance: 0 °", "timing_advance: 0 °, motor_speed_limit: 3000 rpm");
    let low = ("speed_max: 6000 rpm", "speed_max: 4000 rpm");
    assert!((row(FREE, &[limit, low]).reserve - 4.0 / 3.0).abs() < 1e-9);
    assert_eq!(row(PUSHED, &[limit, low]).verdict, Verdict::Fails);
}

#[test]
fn standing_cases_are_set_aside() {
    let soak = [
        ("cruise: {kind: cruise, speed: 10 km/h}", "soak: {kind: soak}"),
        ("kind: lift_off", "kind: idle"),
        ("down: {kind: descent, grade: 20 °, speed: 10 km/h}", "down: {kind: descent, grade: 2 °, speed: 10 km/h}"),
    ];
    let rows = trial::review(&MotorOverspeed, &changed(&soak));
    assert!(rows.iter().all(|row| row.case == "down" && row.check != PUSHED), "{rows:?}");
}
