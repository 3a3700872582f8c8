use crate::CurrentLimits;
use rule::prelude::*;
use trial::Row;

/// A launch puts 60 A through the motor, 49 A effective in each lead, and as much through the battery once it turns.
const SLEDGE: &str = "
machine: {name: trial, mass: 40 kg}
environment: {air: 20 °C, relative_humidity: 80 %, altitude: 0 m}
cases:
  launch: {kind: launch}
  soak: {kind: soak}
powertrain:
  battery:
    cells: {series: 10, parallel: 6, full_voltage: 4.2 V, nominal_voltage: 3.6 V, current_max: 12 A (label), burst_current_max: 20 A (label)}
    resistance: 1 mΩ
    wire: {size: 4 mm², length: 1 m, insulation: rubber, wall: 0.8 mm, bunched: 1}
    connector: {rated_current: 100 A (label), temperature_max: 180 °C}
    fuse: 80 A
  controller: {current_limit: {motor: 60 A}, efficiency: 100 %, timing_advance: 0 °}
  motor: {count: 1, speed_constant: 100 rpm/V, resistance: 300 mΩ, no_load_current: 1 mA, wire: {size: 4 mm², insulation: rubber, wall: 0.8 mm}, connector: {class: plug}}
  auxiliary_supply: {rated_current: 6 A (label), loads: {left: 1 A, right: 1 A, pump: 1 A}}
  stages: [{name: pair, kind: spur, pinion: {teeth: 20}, wheel: {teeth: 20}, efficiency: 100 %}]
  track: {pitch: 40 mm, sprocket_teeth: 9, rolling_resistance: 0.1}
insulations: {rubber: {temperature_max: 180 °C, conductivity: 0.2 W/(m·K)}}
connectors: {plug: {rated_current: 50 A, burst_current: 90 A, temperature_max: 180 °C}}
assumed: {traction: 9, cold_battery_resistance: 2.5, burst_time: 5 s}
";
const CELLS: &str = "cells";
const WIRE: &str = "wire";
const CONNECTOR: &str = "connector";
const HOLDS: &str = "fuse holds";
const BEFORE: &str = "fuse before the wire";
const LEAD: &str = "lead";
const PLUG: &str = "lead's connector";
const ALL: &str = "all at once";

fn changed(changes: &[(&str, &str)]) -> String {
    trial::changed(SLEDGE, changes)
}

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&CurrentLimits, &changed(changes))
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| row.check == check).unwrap()
}

#[test]
fn each_part_of_the_circuit_can_fail() {
    let fails = |check: &str, from: &str, to: &str, word: &str| {
        let row = row(check, &[(from, to)]);
        assert_eq!(row.verdict, Verdict::Fails, "{row:?}");
        assert!(row.says.contains(word), "{row:?}");
    };
    fails(CELLS, "burst_current_max: 20 A", "burst_current_max: 7 A", "vent");
    fails(WIRE, "wire: {size: 4 mm², length", "wire: {size: 0.1 mm², length", "burns");
    fails(CONNECTOR, "rated_current: 100 A", "rated_current: 59 A", "melts");
    fails(HOLDS, "fuse: 80 A", "fuse: 55 A", "blows");
    fails(BEFORE, "fuse: 80 A", "fuse: 200 A", "before the fuse");
    fails(LEAD, "wire: {size: 4 mm², insulation", "wire: {size: 0.2 mm², insulation", "burns");
    fails(PLUG, "burst_current: 90 A", "burst_current: 40 A", "melts");
    fails(ALL, "pump: 1 A", "pump: 5 A", "limp");
}

#[test]
fn labels_want_more_than_measurements() {
    let thin = |check: &str, from: &str, to: &str| assert_eq!(row(check, &[(from, to)]).verdict, Verdict::Thin);
    thin(CELLS, "burst_current_max: 20 A (label)", "burst_current_max: 12 A (label)");
    thin(CONNECTOR, "rated_current: 100 A (label)", "rated_current: 75 A (label)");
    thin(ALL, "rated_current: 6 A (label)", "rated_current: 4 A (label)");
    let measured = row(CONNECTOR, &[("rated_current: 100 A (label)", "rated_current: 75 A (measured)")]);
    assert_eq!(measured.verdict, Verdict::Sound);
    assert_eq!(row(PLUG, &[("burst_current: 90 A", "burst_current: 55 A")]).verdict, Verdict::Thin);
}

#[test]
fn enough_of_everything_is_sound() {
    let rows = rows(&[]);
    assert_eq!(rows.len(), 8, "{rows:?}");
    assert!(rows.iter().all(|row| row.verdict == Verdict::Sound), "{rows:?}");
    assert!((row(ALL, &[]).reserve - 2.0).abs() < 1e-12);
    let lead = 60.0 * 0.816_496_580_927_726;
    assert!((row(PLUG, &[]).reserve - 90.0 / lead).abs() < 1e-9);
    assert!((row(HOLDS, &[]).reserve - 80.0 / 60.0).abs() < 1e-9);
    assert!((row(CELLS, &[]).reserve - 2.0).abs() < 1e-9);
    // Held fast the motor takes 60²·0.3 Ω = 1080 W, and the battery gives 30 A and a little.
    let held = row(HOLDS, &[("kind: launch", "kind: launch, track_held: yes")]).reserve;
    assert!((held - 80.0 / 30.03).abs() < 0.01, "{held}");
}

#[test]
fn gaps_hide_only_what_needs_them() {
    let gap = |check: &str, from: &str| {
        let row = row(check, &[(from, "")]);
        assert_eq!(row.verdict, Verdict::NotJudged, "{row:?}");
        row.says
    };
    assert_eq!(gap(CELLS, ", current_max: 12 A (label), burst_current_max: 20 A (label)"), "current_max");
    assert_eq!(gap(CELLS, " parallel: 6,"), "parallel");
    let battery_wire = "    wire: {size: 4 mm², length: 1 m, insulation: rubber, wall: 0.8 mm, bunched: 1}\n";
    assert_eq!(gap(WIRE, battery_wire), "wire");
    assert_eq!(gap(BEFORE, battery_wire), "wire");
    assert_eq!(gap(BEFORE, "    fuse: 80 A\n"), "fuse");
    assert_eq!(gap(HOLDS, "    fuse: 80 A\n"), "fuse");
    assert_eq!(gap(CONNECTOR, "    connector: {rated_current: 100 A (label), temperature_max: 180 °C}\n"), "connector");
    assert_eq!(gap(CONNECTOR, "rated_current: 100 A (label), "), "rated_current");
    let bare = row(LEAD, &[(", insulation: rubber, wall: 0.8 mm}, connector", "}, connector")]);
    assert_eq!((bare.verdict, bare.says.as_str()), (Verdict::NotJudged, "insulation"));
    assert_eq!(gap(PLUG, ", connector: {class: plug}"), "connector");
    assert_eq!(gap(ALL, "rated_current: 6 A (label), "), "rated_current");
    assert!(gap(ALL, ", loads: {left: 1 A, right: 1 A, pump: 1 A}").contains("no consumers"));
    assert_eq!(rows(&[("    fuse: 80 A\n", "")]).iter().filter(|row| row.verdict == Verdict::Sound).count(), 6);
    let walls =
        row(LEAD, &[(", wall: 0.8 mm}, connector", "}, connector"), ("assumed: {", "assumed: {wire_wall: 0.8 mm, ")]);
    assert!(walls.verdict == Verdict::Sound && walls.assumed.contains(&"wall".to_string()), "{walls:?}");
}

#[test]
fn a_burst_is_not_for_ever() {
    let five = row(WIRE, &[]).reserve;
    let minutes = row(WIRE, &[("kind: launch", "kind: launch, duration: 20 min")]).reserve;
    assert!(five > 2.0 * minutes && minutes > 1.2, "{five} {minutes}");
    // Longer than ten seconds neither cells nor connectors have their burst.
    let cells = row(CELLS, &[("kind: launch", "kind: launch, duration: 11 s")]);
    assert!((cells.reserve / row(CELLS, &[]).reserve - 0.6).abs() < 1e-9);
    assert_eq!(row(PLUG, &[("kind: launch", "kind: launch, duration: 11 s")]).verdict, Verdict::Thin);
    let bundle = ("bunched: 1", "bunched: 3");
    let long = ("kind: launch", "kind: launch, duration: 1 h");
    assert!((row(WIRE, &[bundle, long]).reserve / row(WIRE, &[long]).reserve - 0.7).abs() < 1e-9);
    assert!((row(WIRE, &[bundle]).reserve / five - 1.0).abs() < 1e-12);
}

#[test]
fn the_exact_boundary() {
    let at = |amps: f64| row(ALL, &[("rated_current: 6 A", &format!("rated_current: {amps} A"))]).verdict;
    assert_eq!((at(4.500_001), at(4.499_999)), (Verdict::Sound, Verdict::Thin));
    assert_eq!((at(3.000_001), at(2.999_999)), (Verdict::Thin, Verdict::Fails));
    let wire = 80.0 * row(BEFORE, &[]).reserve;
    let fuse = |amps: f64| row(BEFORE, &[("fuse: 80 A", &format!("fuse: {amps:.9} A"))]).verdict;
    assert_eq!((fuse(wire - 1e-6), fuse(wire + 1e-6)), (Verdict::Sound, Verdict::Fails));
}

#[test]
fn more_copper_never_lowers_the_reserve() {
    let reserve = |check: &str, size: u32| {
        row(check, &[("wire: {size: 4 mm², length", &format!("wire: {{size: {size} mm², length"))]).reserve
    };
    for check in [WIRE, BEFORE] {
        let reserves: Vec<f64> = (1..20).map(|size| reserve(check, size)).collect();
        assert!(reserves.windows(2).all(|pair| pair[1] > pair[0]), "{reserves:?}");
    }
    let gauge = row(WIRE, &[("wire: {size: 4 mm², length", "wire: {size: 10 AWG, length")]).reserve;
    assert!(gauge > reserve(WIRE, 5) && gauge < reserve(WIRE, 6));
}

/// 590 s at 20 A out of the battery, 9 s at 90 A, 1 s at 130 A, cell by cell a sixth of that.
#[test]
fn a_recorded_run_is_judged_as_a_whole_by_its_hardest_ten_seconds_and_at_its_highest() {
    let case = "launch: {kind: log, log: run.csv, columns: {time: {heading: t, unit: s}, speed: {heading: v, unit: m/s}, \
        motor_current: {heading: m, unit: A}, battery_current: {heading: b, unit: A}}}";
    let log = "t,v,m,b\n0,2,20,20\n590,2,30,90\n599,2,40,130\n600,2,0,0\n";
    let judged = |changes: &[(&str, &str)]| {
        let mut all = vec![("launch: {kind: launch}", case)];
        all.extend_from_slice(changes);
        let rows = trial::review_beside(&CurrentLimits, &changed(&all), &[("run.csv", log)]);
        rows.into_iter().find(|row| row.check == CELLS).map_or(f64::NAN, |row| row.reserve)
    };
    let near = |a: f64, b: f64| (a / b - 1.0).abs() < 1e-6;
    // The highest against the label for bursts.
    assert!(near(judged(&[]), 20.0 / (130.0 / 6.0)), "{}", judged(&[]));
    // All of it together against the label for ever: only that is left where bursts may be as high as they like.
    let squares = (590.0 * 400.0 + 9.0 * 8100.0 + 16900.0) / 600.0;
    let lasting = judged(&[("burst_current_max: 20 A", "burst_current_max: 2000 A")]);
    assert!(near(lasting * lasting, (12.0 * 6.0) * (12.0 * 6.0) / squares), "{lasting}");
}

/// What a wire carries for long is set by the weakest of insulation, plug and neighbours; a burst is over before a plug warms.
#[test]
fn a_wire_gets_no_hotter_than_its_plug_and_its_neighbours_take() {
    let plug = ("(label), temperature_max: 180 °C}", "(label), temperature_max: 90 °C}");
    let (silicone, at_a_plug) = (row(BEFORE, &[]), row(BEFORE, &[plug]));
    let allowed = row(
        BEFORE,
        &[("insulations: {rubber: {temperature_max: 180 °C", "insulations: {rubber: {temperature_max: 90 °C")],
    );
    assert_eq!(at_a_plug.reserve, allowed.reserve);
    assert!(at_a_plug.reserve < 0.75 * silicone.reserve, "{} {}", at_a_plug.reserve, silicone.reserve);
    let foam =
        row(BEFORE, &[("wall: 0.8 mm, bunched: 1}", "wall: 0.8 mm, bunched: 1, neighbours_temperature_max: 70 °C}")]);
    assert!(foam.reserve < at_a_plug.reserve);
    let burst = |changes: &[(&str, &str)]| row(WIRE, changes).reserve;
    assert_eq!(burst(&[plug]), burst(&[]));
    let minutes = ("kind: launch", "kind: launch, duration: 20 min");
    assert!(burst(&[plug, minutes]) < burst(&[minutes]));
    // Where nobody says what its plug takes it is what plugs take.
    let unsaid = row(BEFORE, &[("(label), temperature_max: 180 °C}", "(label)}")]);
    assert!(
        unsaid.reserve == at_a_plug.reserve && unsaid.assumed.contains(&"temperature_max".to_string()),
        "{unsaid:?}"
    );
}

#[test]
fn no_fuse_fails_and_an_unknown_one_is_not_judged() {
    let none = row(BEFORE, &[("fuse: 80 A", "fuse: none")]);
    assert!(none.verdict == Verdict::Fails && none.says.contains("nothing interrupts a short"), "{none:?}");
    assert!(
        rows(&[("fuse: 80 A", "fuse: none")]).iter().all(|row| row.check != HOLDS || row.verdict == Verdict::Sound)
    );
    for check in [BEFORE, HOLDS] {
        let unknown = row(check, &[("fuse: 80 A", "fuse: unknown")]);
        assert_eq!((unknown.verdict, unknown.says.as_str()), (Verdict::NotJudged, "fuse"));
    }
}
