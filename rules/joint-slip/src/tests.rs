use crate::JointSlip;
use rule::prelude::*;
use trial::Row;

/// Four screws of 2 kN in metal with friction 0.2 hold 1600 N.
const PLATE: &str = "
machine: {name: trial, mass: 40 kg}
environment: {air: 20 °C to 20 °C, relative_humidity: 50 %, altitude: 0 m, assembled_at: 20 °C}
cases: {climb: {kind: climb, grade: 15 °, speed: 3 km/h, air: 20 °C}}
materials:
  alloy: {family: metal}
  plastic: {family: printed_polymer}
powertrain:
  battery: {cells: {series: 10, parallel: 4, kind: li_ion_18650}, capacity: 10 Ah, resistance: 50 mΩ}
  controller: {current_limit: {battery: 60 A, motor: 80 A}, efficiency: 95 %, timing_advance: 0 °}
  motor: {count: 1, speed_constant: 120 rpm/V, resistance: 40 mΩ, no_load_current: 2 A}
  stages:
    - {name: primary, kind: spur, module: 1.5 mm, face_width: 14 mm, centre_distance: 42.9 mm, efficiency: 96 %, pressure_angle: 20 °,
        pinion: {teeth: 17, profile_shift: 0}, wheel: {teeth: 40, profile_shift: 0}}
  track: {count: 1, pitch: 40 mm, links: 40, mass: 2 kg, sprocket_teeth: 9, tow_pull: 40 N}
structure:
  parts: {plate: {material: alloy}, frame: {material: alloy}}
  joints:
    gear_plate: {of: [plate, frame], screws: 4 x M5, preload: 2 kN, preload_kept: 100 %, holds: primary, friction: 0.2}
assumed: {drive_shock: 1.25, traction: 0.9, nut_factor: 0.2, screw_tension: 200 MPa, preload_kept: 30 %, clamp_friction: 0.12}
";

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&JointSlip, &trial::changed(PLATE, changes))
}

fn row(changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().next().unwrap()
}

#[test]
fn fails() {
    let loose = row(&[("preload: 2 kN", "preload: 0.05 kN")]);
    assert_eq!(loose.verdict, Verdict::Fails);
    assert!(loose.says.contains("run into each other"));
}

#[test]
fn thin() {
    let some = format!("preload: {} N", 2000.0 / row(&[]).reserve * 1.2);
    assert_eq!(row(&[("preload: 2 kN", &some)]).verdict, Verdict::Thin);
}

#[test]
fn sound_and_by_hand() {
    let sound = row(&[]);
    assert_eq!((sound.verdict, sound.assumed.len()), (Verdict::Sound, 0), "{sound:?}");
    // A torque of K·F·d pulls alike: 0.2·2000·5 mm = 2 N·m.
    let torque = row(&[("preload: 2 kN", "torque: 2 N·m")]);
    assert!((torque.reserve / sound.reserve - 1.0).abs() < 1e-9, "{torque:?}");
    // In a plastic body a third of it is left.
    let crept = row(&[("plate: {material: alloy}", "plate: {material: plastic}"), (" preload_kept: 100 %,", "")]);
    assert!((crept.reserve / sound.reserve - 0.3).abs() < 1e-9);
    assert_eq!(crept.assumed, ["preload_kept"]);
}

#[test]
fn not_judged() {
    assert_eq!(row(&[(" screws: 4 x M5,", "")]).says, "screws");
    assert_eq!(row(&[("plate: {material: alloy}", "plate: {thickness: 3 mm}")]).says, "material");
    let nowhere = row(&[("holds: primary", "holds: tertiary")]);
    assert!(nowhere.verdict == Verdict::NotJudged && nowhere.says.contains("tertiary"), "{nowhere:?}");
    let by_feel = row(&[(" preload: 2 kN,", "")]);
    assert_eq!(by_feel.assumed, ["torque"]);
    assert_eq!(row(&[(", friction: 0.2", "")]).assumed, ["friction"]);
    assert!(rows(&[(" holds: primary,", "")]).is_empty());
}

#[test]
fn the_exact_boundary() {
    let reserve = row(&[]).reserve;
    let at = |share: f64| row(&[("preload: 2 kN", &format!("preload: {} N", 3000.0 / reserve * share))]).verdict;
    assert_eq!((at(1.000_001), at(0.999_999)), (Verdict::Sound, Verdict::Thin));
}

#[test]
fn more_screws_never_lower_the_reserve() {
    let reserves: Vec<f64> = (1..10).map(|n| row(&[("4 x M5", &format!("{n} x M5"))]).reserve).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] > pair[0]));
}
