use crate::HubTorque;
use rule::prelude::*;
use trial::Row;

mod kinds;
mod trade;

/// Held at 80 A the motor gives 6.366 N·m; 1.25 of it is what the pinion's joint is asked, 40/17·0.95 times as much the wheel's.
const SPEC: &str = "
machine: {name: trial, mass: 400 kg}
environment: {air: 20 °C, relative_humidity: 60 %, altitude: 0 m, assembled_at: 20 °C}
zones: {case: {volume: 1 L, air_rise: 0 K, moisture: breathes}}
cases:
  launch: {kind: launch, grade: 0 °}
materials:
  steel: {family: metal, yield_strength: 300 MPa, shear_strength: 250 MPa}
  stainless: {family: metal, yield_strength: 205 MPa}
  plastic: {family: polymer, tensile_strength: 60 MPa, compressive_strength: 90 MPa, friction: 0.2, strength_at: {-40 °C: 1.4, 20 °C: 1, 100 °C: 0.4}}
structure: {parts: {plate: {material: steel, zone: case}}}
powertrain:
  battery: {cells: {series: 12, parallel: 4, nominal_voltage: 3.6 V, kind: li_ion_21700}, resistance: 60 mΩ}
  controller: {current_limit: {battery: 60 A, motor: 80 A}, timing_advance: 0 °, efficiency: 95 %}
  motor: {count: 1, speed_constant: 120 rpm/V, resistance: 35 mΩ, no_load_current: 2 A, rotor_inertia: 4e-4 kg·m²}
  stages:
    - name: first
      kind: spur
      module: 1.5 mm
      pressure_angle: 20 °
      face_width: 14 mm
      centre_distance: 42.75 mm
      pinion: {teeth: 17, material: steel, profile_shift: 0, bore: 12 mm, held_by: {by: key, length: 14 mm}}
      wheel: {teeth: 40, material: plastic, profile_shift: 0, bore: 12 mm, build: {by: machined}}
      lubrication: grease
      housing: plate
      efficiency: 95 %
  shafts:
    layshaft: {material: stainless, diameter: 12 mm, turned_by: first, stations: [{x: 0 mm}, {x: 22 mm, carries: sprocket, held_by: {by: key, length: 14 mm, material: steel}}]}
  track: {pitch: 40 mm, links: 46, mass: 2 kg, sprocket_teeth: 9, adhesion: 0.9, rolling_resistance: 0.1, slack_tension: 90 N, tensioner: {by: none}}
assumed: {drive_shock: 1.25, corner_peak: 2.5, key_yield: 400 MPa, clamp_friction: 0.12, screw_tension: 400 MPa, head_pressure_on_polymer: 10 MPa, glue_shear: 8 MPa}
";
const PINION: &str = "pinion on its shaft";
const HELD: &str = "held_by: {by: key, length: 14 mm}}\n      wheel";
/// At the motor.
const TORQUE: f64 = 80.0 / 120.0 * 30.0 / core::f64::consts::PI * 1.25;

fn changed(changes: &[(&str, &str)]) -> String {
    trial::changed(SPEC, changes)
}

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&HubTorque, &changed(changes))
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| row.check == check).unwrap_or_else(|| panic!("no {check}"))
}

/// The pinion held in another way.
fn held(by: &str) -> Row {
    row(PINION, &[(HELD, &format!("held_by: {by}}}\n      wheel"))])
}

fn near(one: f64, other: f64) -> bool {
    (one / other - 1.0).abs() < 1e-3
}

#[test]
fn sound_and_by_hand() {
    // Key of 4 × 4 in 12 mm: 300 MPa on 1.5 mm × 14 mm at 6 mm: 37.8 N·m.
    let key = row(PINION, &[]);
    assert!(near(key.reserve, 37.8 / TORQUE) && key.verdict == Verdict::Sound && key.assumed.is_empty(), "{key:?}");
    // The layshaft of soft stainless steel, and 2.235 times the torque.
    let sprocket = row("on its shaft", &[]);
    assert!(near(sprocket.reserve, 37.8 * 205.0 / 300.0 / (TORQUE * 40.0 / 17.0 * 0.95)), "{sprocket:?}");
    assert_eq!((sprocket.subject.as_str(), rows(&[]).len()), ("sprocket on layshaft", 2));
}

#[test]
fn fails() {
    let slips = held("{by: set_screw, size: M3, count: 1, diameter: 5 mm}");
    assert!(slips.verdict == Verdict::Fails && slips.says.contains("set screw slips"), "{slips:?}");
    assert_eq!(row(PINION, &[("yield_strength: 300 MPa", "yield_strength: 30 MPa")]).verdict, Verdict::Fails);
}

#[test]
fn thin_and_the_exact_boundary() {
    let at = |times: f64| {
        let limit = 300.0 / row(PINION, &[]).reserve * times;
        row(PINION, &[("yield_strength: 300 MPa", &format!("yield_strength: {limit:.9} MPa"))])
    };
    let (thin, sound) = (at(1.499_999), at(1.500_001));
    assert_eq!((at(0.999_999).verdict, thin.verdict, sound.verdict), (Verdict::Fails, Verdict::Thin, Verdict::Sound));
    assert!(thin.headroom.abs() < 1e-5 && sound.headroom.abs() < 1e-5);
    // Set screws want twice as much.
    let screw = held("{by: set_screw, size: M8, count: 1}");
    assert!(screw.verdict == Verdict::Sound && screw.headroom < screw.reserve / 3.0, "{screw:?}");
    assert_eq!(held("{by: set_screw, size: M5, count: 1, diameter: 10 mm}").verdict, Verdict::Thin);
}

#[test]
fn a_longer_hold_and_a_thicker_shaft_never_lower_the_reserve() {
    let lengths: Vec<f64> = (4..20).map(|mm| held(&format!("{{by: key, length: {mm} mm}}")).reserve).collect();
    let shafts: Vec<f64> =
        (8..30).map(|mm| held(&format!("{{by: key, length: 14 mm, diameter: {mm} mm}}")).reserve).collect();
    for reserves in [lengths, shafts] {
        assert!(reserves.windows(2).all(|pair| pair[1] >= pair[0]), "{reserves:?}");
    }
}

#[test]
fn each_gap_hides_only_what_needs_it() {
    let hidden = |changes: &[(&str, &str)]| -> Vec<&'static str> {
        rows(changes).into_iter().filter(|row| row.verdict == Verdict::NotJudged).map(|row| row.check).collect()
    };
    assert_eq!(hidden(&[("profile_shift: 0, bore: 12 mm, held", "profile_shift: 0, held")]), [PINION]);
    assert_eq!(hidden(&[(", held_by: {by: key, length: 14 mm}}\n      wheel", "}\n      wheel")]), [PINION]);
    assert_eq!(hidden(&[(", length: 14 mm, material: steel", ", material: steel")]), ["on its shaft"]);
    assert_eq!(hidden(&[(", length: 14 mm, material: steel", ", length: 14 mm")]), ["on its shaft"]);
    assert_eq!(hidden(&[("yield_strength: 300 MPa, ", "")]), [PINION, "on its shaft"]);
    // Without the link nobody knows what turns the shaft, nor where the wheel is held.
    assert_eq!(hidden(&[("turned_by: first, ", "")]), ["wheel on its shaft", "on its shaft"]);
    assert_eq!(hidden(&[("turned_by: first, ", "turned_by: frist, ")]), ["wheel on its shaft", "on its shaft"]);
    assert_eq!(hidden(&[("diameter: 12 mm, turned_by", "turned_by")]), ["on its shaft"]);
    assert_eq!(hidden(&[("layshaft: {material: stainless, ", "layshaft: {")]), ["on its shaft"]);
    // Without a length of its own a gear is held over its face width.
    let own = row(PINION, &[(HELD, "held_by: {by: key}}\n      wheel")]);
    assert!((own.reserve - row(PINION, &[]).reserve).abs() < 1e-12 && own.assumed.is_empty());
}

#[test]
fn a_joint_that_guards_is_a_cheap_part() {
    let guard = held("{by: pin, pin: 3 mm, pin_material: steel, guards: yes}");
    let told = trial::outcomes(
        &HubTorque,
        &changed(&[(HELD, "held_by: {by: pin, pin: 3 mm, pin_material: steel, guards: yes}}\n      wheel")]),
    );
    let consequence = told.iter().find_map(|(_, check, outcome)| match outcome {
        Outcome::Held(margin) if *check == PINION => Some(margin.consequence),
        _ => None,
    });
    assert_eq!(consequence, Some(Consequence::CheapPart));
    // 250 MPa · π/4 · 9 mm² · 12 mm.
    assert!(near(guard.reserve, 21.206 / TORQUE), "{guard:?}");
}

#[test]
fn a_share_of_the_torque_and_cases_without_drive() {
    let half =
        row("on its shaft", &[("length: 14 mm, material: steel", "length: 14 mm, share: 50 %, material: steel")]);
    assert!(near(half.reserve, 2.0 * row("on its shaft", &[]).reserve));
    assert!(rows(&[("kind: launch, grade: 0 °", "kind: soak")]).is_empty());
    let lands = row(
        PINION,
        &[(
            "launch: {kind: launch, grade: 0 °}",
            "lands: {kind: landing, drop: 0.2 m, under_power: yes, speed: 12 km/h}",
        )],
    );
    assert_eq!(lands.case, "lands");
}

#[test]
fn stations_that_carry_alike_are_told_apart() {
    let two = "stations: [{x: 0 mm, carries: sprocket, held_by: {by: key, length: 14 mm, material: steel}}, ";
    let names: Vec<String> = rows(&[("stations: [{x: 0 mm}, ", two)]).into_iter().map(|row| row.subject).collect();
    assert_eq!(names, ["first", "sprocket on layshaft", "sprocket on layshaft, number 2"]);
}
