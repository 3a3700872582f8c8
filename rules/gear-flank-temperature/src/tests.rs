use crate::GearFlankTemperature;
use rule::prelude::*;
use trial::Row;

/// 60 W or so go through 17 and 40 teeth of 1.5 mm, greased, in air of 30 °C.
const SPEC: &str = "
machine: {name: trial, mass: 40 kg}
environment: {air: 20 °C, relative_humidity: 60 %, altitude: 0 m, assembled_at: 20 °C}
zones: {case: {volume: 1 L, air_rise: 10 K, moisture: breathes}}
cases:
  climb: {kind: climb, grade: 12 °, speed: 3 km/h, duration: 20 min}
materials:
  steel: {family: metal}
  plastic: {family: polymer, friction: 0.2, service_temperature_max: 90 °C}
structure: {parts: {plate: {material: steel, zone: case}}}
powertrain:
  battery: {cells: {series: 12, parallel: 4, nominal_voltage: 3.6 V, kind: li_ion_21700}, resistance: 60 mΩ}
  controller: {current_limit: {battery: 60 A, motor: 80 A}, timing_advance: 0 °, efficiency: 95 %}
  motor: {count: 1, speed_constant: 120 rpm/V, resistance: 35 mΩ, no_load_current: 2 A}
  stages:
    - name: first
      kind: spur
      module: 1.5 mm
      pressure_angle: 20 °
      face_width: 14 mm
      centre_distance: 42.75 mm
      pinion: {teeth: 17, material: steel, profile_shift: 0}
      wheel: {teeth: 40, material: plastic, profile_shift: 0, build: {by: machined}}
      lubrication: grease
      housing: plate
      efficiency: 95 %
  track: {pitch: 40 mm, links: 46, mass: 2 kg, sprocket_teeth: 9, rolling_resistance: 0.1, slack_tension: 90 N, tensioner: {by: none}}
assumed: {traction: 0.9, greased_friction: 0.09, polymer_pair_friction: 0.35}
";
const HEAT: &str = "wheel flank heat";

fn changed(changes: &[(&str, &str)]) -> String {
    trial::changed(SPEC, changes)
}

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&GearFlankTemperature, &changed(changes))
}

fn row(changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| row.check == HEAT).unwrap()
}

/// K above the air of 30 °C.
fn warming(changes: &[(&str, &str)]) -> f64 {
    90.0 - 30.0 - row(changes).reserve
}

const DRY: (&str, &str) = ("lubrication: grease", "lubrication: none");
const FAST: (&str, &str) = ("grade: 12 °, speed: 3 km/h", "grade: 24 °, speed: 8 km/h");

#[test]
fn fails() {
    let melted = row(&[DRY, FAST]);
    assert_eq!((melted.verdict, melted.case.as_str()), (Verdict::Fails, "climb"));
    assert!(melted.says.contains("melt"), "{melted:?}");
}

#[test]
fn thin_by_the_estimate_and_sound_by_a_measurement() {
    let limit = ("service_temperature_max: 90 °C", "service_temperature_max: 60 °C");
    assert_eq!(row(&[limit]).verdict, Verdict::Thin);
    let measured = ("profile_shift: 0, build", "profile_shift: 0, temperature: 45 °C, build");
    let probed = row(&[limit, measured]);
    assert!(probed.verdict == Verdict::Sound && (probed.reserve - 15.0).abs() < 1e-9, "{probed:?}");
}

#[test]
fn sound_and_by_hand() {
    let sound = row(&[]);
    assert!(sound.verdict == Verdict::Sound && sound.assumed.is_empty(), "{sound:?}");
    // Weight 392.27 N: 81.56 N of grade and 38.37 N of rolling, 0.8333 m/s: 99.94 W at the sprocket, 105.2 W into the pinion.
    // Sprocket radius 58.476 mm: 14.251 rad/s, pinion 33.53 rad/s, 0.4276 m/s. HV 0.18264.
    let lost = 105.2 * 0.09 * 0.182_636;
    // (0.4276·1.5)^0.75 = 0.7166.
    let by_hand = lost * 6300.0 / (14.0 * 40.0 * 0.716_6);
    assert!((warming(&[]) / by_hand - 1.0).abs() < 2e-3, "{} {by_hand}", warming(&[]));
}

#[test]
fn the_exact_boundary() {
    let at = |limit: f64| {
        let limit = format!("service_temperature_max: {limit:.6} °C");
        row(&[("service_temperature_max: 90 °C", &limit)])
    };
    let wanted = 30.0 + warming(&[]) + 25.0;
    assert_eq!((at(wanted - 1e-4).verdict, at(wanted + 1e-4).verdict), (Verdict::Thin, Verdict::Sound));
    assert_eq!((at(wanted - 25.0 - 1e-4).verdict, at(wanted - 25.0 + 1e-4).verdict), (Verdict::Fails, Verdict::Thin));
}

#[test]
fn wider_gears_never_lower_the_reserve() {
    let reserves: Vec<f64> =
        (8..24).map(|mm| row(&[("face_width: 14 mm", &format!("face_width: {mm} mm"))]).reserve).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] > pair[0]));
}

#[test]
fn each_gap_hides_only_what_needs_it() {
    let verdict = |changes: &[(&str, &str)]| row(changes).verdict;
    for gap in [
        (", service_temperature_max: 90 °C", ""),
        ("      housing: plate\n", ""),
        ("      face_width: 14 mm\n", ""),
        ("      centre_distance: 42.75 mm\n", ""),
        ("teeth: 17, ", ""),
        ("speed: 3 km/h, ", ""),
        ("air_rise: 10 K, ", ""),
    ] {
        assert_eq!(verdict(&[gap]), Verdict::NotJudged, "{gap:?}");
    }
    let assumed = |changes: &[(&str, &str)]| row(changes).assumed;
    assert_eq!(assumed(&[("      lubrication: grease\n", "")]), ["lubrication"]);
    assert_eq!(assumed(&[DRY, ("friction: 0.2, ", "")]), ["friction"]);
    assert_eq!(assumed(&[(", duration: 20 min", "")]), ["duration"]);
    // A grease in words is a grease.
    let said = row(&[("lubrication: grease", "grease: once at assembly")]);
    assert!(said.assumed.is_empty() && (said.reserve - row(&[]).reserve).abs() < 1e-12);
}

#[test]
fn grease_metal_mates_and_short_climbs_keep_teeth_cool() {
    assert!((warming(&[DRY]) / warming(&[]) - 0.2 / 0.09).abs() < 1e-6);
    let both = ("teeth: 17, material: steel", "teeth: 17, material: plastic");
    assert!((warming(&[both]) / warming(&[]) - 9000.0 / 6300.0).abs() < 1e-6);
    assert!((warming(&[both, DRY]) / warming(&[both]) - 0.35 / 0.09).abs() < 1e-6);
    let short = warming(&[("duration: 20 min", "duration: 2 min")]);
    assert!(short < 0.4 * warming(&[]) && short > 0.3 * warming(&[]));
    // Of two gears of plastic the pinion has fewer teeth to share the heat.
    let pinion = rows(&[both]).into_iter().find(|row| row.check == "pinion flank heat").unwrap();
    assert!(pinion.reserve < row(&[both]).reserve);
}

#[test]
fn metal_blows_and_standing_are_set_aside() {
    assert!(rows(&[]).iter().all(|row| row.check == HEAT));
    for kind in ["launch", "lift_off", "soak", "landing, drop: 0.2 m"] {
        assert!(
            rows(&[("kind: climb, grade: 12 °, speed: 3 km/h, duration: 20 min", &format!("kind: {kind}"))]).is_empty(),
            "{kind}"
        );
    }
}
