use crate::OffsetLoad;
use rule::prelude::*;
use trial::Row;

/// 300 N at 10 mm beside a guide of 40 mm: binds at 40/(2·0.3) = 66.7 mm; each end takes 300·10/26.67 = 112.5 N on 150 mm².
const SLIDE: &str = "
environment: {air: 23 °C, relative_humidity: 50 %, altitude: 0 m}
cases: {drive: {kind: cruise, speed: 5 km/h}}
materials:
  nylon: {family: polymer, friction: 0.3, tensile_strength: 60 MPa, compressive_strength: 60 MPa, sliding: {p_limit: 15 MPa}}
  alloy: {family: metal}
structure:
  parts:
    rail: {material: alloy}
    slide:
      material: nylon
      axis_offset: 10 mm
      screw: M6
      guide: {length: 40 mm, material: nylon}
      bears_on: {part: rail, area: 150 mm²}
      pushed: {track: {from: force, force: 300 N, share: 100 %}}
assumed: {dry_friction: 0.25, key_yield: 300 MPa}
";

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&OffsetLoad, &trial::changed(SLIDE, changes))
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| row.check == check).unwrap()
}

const BARE: [(&str, &str); 2] =
    [("      guide: {length: 40 mm, material: nylon}\n", ""), ("      bears_on: {part: rail, area: 150 mm²}\n", "")];

#[test]
fn fails() {
    let far = row("guide binds", &[("axis_offset: 10 mm", "axis_offset: 70 mm")]);
    assert_eq!(far.verdict, Verdict::Fails);
    assert!(far.says.contains("drawer"));
    assert_eq!(row("sliding face", &[("force: 300 N", "force: 9000 N")]).verdict, Verdict::Fails);
    let far = [BARE[0], BARE[1], ("axis_offset: 10 mm", "axis_offset: 12 mm")];
    assert_eq!(row("screw", &far).verdict, Verdict::Fails);
}

#[test]
fn thin() {
    assert_eq!(row("guide binds", &[("axis_offset: 10 mm", "axis_offset: 50 mm")]).verdict, Verdict::Thin);
    assert_eq!(row("sliding face", &[("force: 300 N", "force: 5000 N")]).verdict, Verdict::Thin);
}

#[test]
fn sound_and_by_hand() {
    let bound = row("guide binds", &[]);
    assert_eq!((bound.verdict, bound.assumed.len()), (Verdict::Sound, 0), "{bound:?}");
    assert!((bound.reserve - 40.0 / 0.6 / 10.0).abs() < 1e-9);
    let pressed = row("sliding face", &[]);
    assert!((pressed.reserve - 15.0 / 0.75).abs() < 1e-9, "{pressed:?}");
    // M6: core 4.773 mm.
    let d = 6.0 - 1.226_869;
    let pi = core::f64::consts::PI;
    let by_hand = 300.0 * (4.0 / (pi * d * d) + 320.0 / (pi * d * d * d));
    assert!((row("screw", &BARE).reserve - 300.0 / by_hand).abs() < 1e-6);
}

#[test]
fn a_wing_that_takes_the_moment_takes_the_bending_out_of_the_screw() {
    // Common practice, no source.
    assert!(rows(&[]).iter().all(|row| row.check != "screw"));
    assert!(rows(&BARE).iter().any(|row| row.check == "screw" && row.verdict == Verdict::Thin));
}

#[test]
fn not_judged() {
    assert_eq!(row("guide binds", &[("length: 40 mm, ", "")]).says, "length");
    assert_eq!(row("guide binds", &[(" friction: 0.3,", "")]).assumed, ["friction"]);
    assert_eq!(row("sliding face", &[(", area: 150 mm²", "")]).says, "area");
    assert_eq!(row("sliding face", &[(" force: 300 N,", "")]).says, "force");
    let pulled = row("guide binds", &[("      pushed: {track: {from: force, force: 300 N, share: 100 %}}\n", "")]);
    assert!(pulled.verdict == Verdict::NotJudged && pulled.says.contains("pushed"), "{pulled:?}");
    let mut odd = BARE.to_vec();
    odd.push(("screw: M6", "screw: old"));
    assert!(row("screw", &odd).says.contains("`old`"));
}

#[test]
fn the_exact_boundary() {
    let at = |offset: &str| row("guide binds", &[("axis_offset: 10 mm", offset)]).verdict;
    assert_eq!((at("axis_offset: 44.4443 mm"), at("axis_offset: 44.4446 mm")), (Verdict::Sound, Verdict::Thin));
}

#[test]
fn a_longer_guide_never_lowers_a_reserve() {
    for check in ["guide binds", "sliding face"] {
        let reserves: Vec<f64> =
            (10..80).map(|l| row(check, &[("length: 40 mm", &format!("length: {l} mm"))]).reserve).collect();
        assert!(reserves.windows(2).all(|pair| pair[1] > pair[0]), "{check}");
    }
}
