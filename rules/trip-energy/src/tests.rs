use crate::TripEnergy;
use rule::prelude::*;
use trial::Row;

/// 50 kg at 0.2 over 2 km each way: 196 kJ there and 196 kJ back, through a line that loses next to nothing, at 36 V.
const SLEDGE: &str = "
machine: {name: trial, mass: 50 kg, payload: {mass: 10 kg}}
environment: {air: -20 °C, relative_humidity: 80 %, altitude: 0 m}
cases:
  way: {kind: cruise, speed: 10 km/h}
  hop: {kind: lift_off}
powertrain:
  battery: {cells: {series: 10, full_voltage: 4.2 V, nominal_voltage: 3.6 V}, resistance: 1 µΩ, capacity: 10 Ah}
  controller: {current_limit: {motor: 100 A}, efficiency: 100 %, timing_advance: 0 °}
  motor: {count: 1, speed_constant: 100 rpm/V, resistance: 1 µΩ, no_load_current: 0.001 mA}
  stages: [{name: pair, kind: spur, pinion: {teeth: 20}, wheel: {teeth: 20}, efficiency: 100 %}]
  track: {pitch: 40 mm, sprocket_teeth: 9, rolling_resistance: 0.2}
cooling: {pump: {power: 0 W}}
service: {trip: {distance: 4 km, ascent: 0 m, returns_empty: no}}
assumed: {traction: 0.8, cold_battery_resistance: 2.5, cold_battery_capacity: 60 %, burst_time: 5 s}
";

fn changed(changes: &[(&str, &str)]) -> String {
    trial::changed(SLEDGE, changes)
}

fn row(changes: &[(&str, &str)]) -> Row {
    let rows = trial::review(&TripEnergy, &changed(changes));
    assert_eq!(rows.len(), 1);
    rows.into_iter().next().unwrap()
}

/// What the trip takes by hand, in ampere-hours.
fn taken() -> f64 {
    2.0 * 50.0 * 9.80665 * 0.2 * 2000.0 / 36.0 / 3600.0
}

fn capacity(ampere_hours: f64) -> String {
    format!("capacity: {ampere_hours:.9} Ah")
}

#[test]
fn too_little_charge_fails() {
    let row = row(&[("capacity: 10 Ah", "capacity: 4 Ah")]);
    assert_eq!((row.verdict, row.case.as_str()), (Verdict::Fails, "way"));
    assert!((row.reserve - 4.0 * 0.6 / taken()).abs() < 1e-4 && row.says.contains("out there"), "{row:?}");
}

#[test]
fn just_enough_is_thin() {
    assert_eq!(row(&[("capacity: 10 Ah", &capacity(taken() / 0.6 * 1.1))]).verdict, Verdict::Thin);
}

#[test]
fn enough_is_sound() {
    let row = row(&[]);
    assert_eq!(row.verdict, Verdict::Sound);
    assert!((row.reserve - 10.0 * 0.6 / taken()).abs() < 1e-4);
    let warm = self::row(&[("capacity: 10 Ah", "capacity: 10 Ah, put_in_at: 20 °C")]);
    assert!((warm.reserve * 0.6 / row.reserve - 1.0).abs() < 1e-4);
}

#[test]
fn what_is_missing_is_named_or_assumed() {
    let gap = |from: &str| {
        let row = row(&[(from, "")]);
        assert_eq!(row.verdict, Verdict::NotJudged, "{row:?}");
        row.says
    };
    assert_eq!(gap(", capacity: 10 Ah"), "capacity");
    assert_eq!(gap("distance: 4 km, "), "distance");
    assert_eq!(gap("ascent: 0 m, "), "ascent");
    assert_eq!(gap("service: {trip: {distance: 4 km, ascent: 0 m, returns_empty: no}}"), "trip");
    let assumed = row(&[(", rolling_resistance: 0.2", ""), ("assumed: {", "assumed: {rolling_resistance: 0.2, ")]);
    assert!(
        assumed.verdict == Verdict::Sound && assumed.assumed.contains(&"rolling_resistance".to_string()),
        "{assumed:?}"
    );
    assert!(row(&[("cooling: {pump: {power: 0 W}}", "")]).assumed.contains(&"power".to_string()));
}

#[test]
fn the_exact_boundary() {
    let at = |share: f64| row(&[("capacity: 10 Ah", &capacity(taken() / 0.6 * share))]).verdict;
    assert_eq!((at(1.300_1), at(1.299_9)), (Verdict::Sound, Verdict::Thin));
    assert_eq!((at(1.000_1), at(0.999_9)), (Verdict::Thin, Verdict::Fails));
}

#[test]
fn more_capacity_never_lowers_the_reserve_and_more_drag_never_raises_it() {
    let reserves: Vec<f64> =
        (1..20).map(|ah| row(&[("capacity: 10 Ah", &format!("capacity: {ah} Ah"))]).reserve).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] > pair[0]));
    let drag = |share: u32| row(&[("rolling_resistance: 0.2", &format!("rolling_resistance: 0.{share:02}"))]).reserve;
    let drags: Vec<f64> = (5..40).step_by(5).map(drag).collect();
    assert!(drags.windows(2).all(|pair| pair[1] < pair[0]));
}

#[test]
fn a_pump_and_a_climb_come_on_top_and_a_tow_beats_the_guess() {
    let plain = row(&[]).reserve;
    assert!(row(&[("power: 0 W", "power: 20 W")]).reserve < plain);
    assert!(row(&[("ascent: 0 m", "ascent: 600 m")]).reserve < plain);
    // 196 N on 50 kg is a share of 0.4.
    let towed = row(&[("rolling_resistance: 0.2", "rolling_resistance: 0.2, tow_pull: 196.133 N")]);
    assert!((towed.reserve * 2.0 / plain - 1.0).abs() < 1e-4, "{towed:?}");
    let empty = row(&[("returns_empty: no", "returns_empty: yes")]).reserve;
    assert!((plain / empty - 0.9).abs() < 1e-4);
}

/// 1,040 m up at 24° and the rest of 7 km level, on the way back nothing given by the slope: worked out with a pocket calculator.
#[test]
fn the_haulers_two_loads_by_hand() {
    let drawn = include_str!("../../../examples/hut-hauler/as-drawn.machine.yaml");
    let quiet = trial::changed(
        drawn,
        &[("    rated_current: 8 A (label)\n", "    rated_current: 8 A (label)\n    mean_power: 0 W\n")],
    );
    let rows = trial::review_beside(
        &TripEnergy,
        &quiet,
        &[
            ("parts/bought-in.yaml", include_str!("../../../examples/hut-hauler/parts/bought-in.yaml")),
            ("parts/my-filaments.yaml", include_str!("../../../examples/hut-hauler/parts/my-filaments.yaml")),
            ("runs/sunday.csv", include_str!("../../../examples/hut-hauler/runs/sunday.csv")),
        ],
    );
    let trip = rows.iter().find(|row| row.subject == "trip").unwrap();
    // Up 88 N over 2,336 m on the map and 588 N over 1,040 m, 88 N over 4,443 m that are level; back 61.6 N over those; 67 % of it
    // arrives at the track, and 17 W run the pump for 2 h 20 min: 13.1 Ah of 50.4 V, where 12.1 Ah are left by the cold.
    let joules = 88.0 * (2336.0 + 4443.0) + 588.4 * 1040.0 + 61.6 * 4443.0;
    let hours = (joules / 0.67 / 3600.0 + 17.0 * 2.333) / 50.4;
    assert!((trip.reserve - 12.1 / hours).abs() < 0.01 && (trip.reserve - 0.92).abs() < 0.01, "{hours} {trip:?}");
}
