use crate::FastenerInPolymer;
use rule::prelude::*;
use trial::Row;

/// 1 N·m on M4 with K = 0.2 pulls with 1250 N. An insert of 5.6 × 8 mm in 25 MPa: π·5.6·8·25·0.7 = 2463 N, turned π/2·5.6²·8·17.5 = 6.897 N·m.
const LID: &str = "
environment: {air: 23 °C, relative_humidity: 50 %, altitude: 0 m, assembled_at: 23 °C}
cases: {drive: {kind: cruise, speed: 5 km/h}}
materials:
  spool: {family: printed_polymer, tensile_strength: 40 MPa, compressive_strength: 60 MPa, shear_strength: 25 MPa}
  alloy: {family: metal}
structure:
  parts: {lid: {material: alloy}, box: {material: spool}}
  joints:
    lid_on_box: {of: [lid, box], screws: 6 x M4, torque: 1 N·m, insert: brass, insert_length: 8 mm, insert_diameter: 5.6 mm}
assumed: {nut_factor: 0.2}
";

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&FastenerInPolymer, &trial::changed(LID, changes))
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| row.check == check).unwrap()
}

const ON_PLASTIC: (&str, &str) = ("lid: {material: alloy}", "lid: {material: spool}");

#[test]
fn fails() {
    let short = row("drawn out", &[("insert_length: 8 mm", "insert_length: 3 mm")]);
    assert_eq!(short.verdict, Verdict::Fails);
    assert!(short.says.contains("drawn out"));
    assert_eq!(row("turned in its hole", &[("insert_length: 8 mm", "insert_length: 1 mm")]).verdict, Verdict::Fails);
    assert_eq!(row("head", &[ON_PLASTIC, ("torque: 1 N·m", "torque: 3 N·m")]).verdict, Verdict::Fails);
}

#[test]
fn thin() {
    assert_eq!(row("drawn out", &[]).verdict, Verdict::Thin);
}

#[test]
fn sound_and_by_hand() {
    let pi = core::f64::consts::PI;
    let drawn = row("drawn out", &[("torque: 1 N·m", "torque: 0.8 N·m")]);
    assert_eq!((drawn.verdict, drawn.assumed.len()), (Verdict::Sound, 0), "{drawn:?}");
    assert!((drawn.reserve - pi * 5.6 * 8.0 * 25.0 * 0.7 / 1000.0).abs() < 1e-9);
    let turned = row("turned in its hole", &[]);
    assert!((turned.reserve - pi / 2.0 * 5.6 * 5.6 * 8.0 * 17.5 / 1000.0).abs() < 1e-9, "{turned:?}");
    // A thread cut straight into the plastic holds by half of its wall, and nothing turns.
    let cut = [(" insert: brass,", ""), (", insert_diameter: 5.6 mm", "")];
    let straight = row("drawn out", &cut);
    assert!((straight.reserve - pi * 4.0 * 8.0 * 25.0 * 0.5 / 1250.0).abs() < 1e-9, "{straight:?}");
    assert_eq!(straight.assumed, ["insert_diameter"]);
    assert!(rows(&cut).iter().all(|row| row.check != "turned in its hole"));
    // 1250 N on the face of an M4 head, π/4·(7² − 4.4²) mm².
    let head = row("head", &[ON_PLASTIC]);
    assert!((head.reserve - 60.0 / (1250.0 / (pi / 4.0 * (49.0 - 19.36)))).abs() < 1e-9, "{head:?}");
    // In metal nothing is judged.
    assert!(rows(&[("box: {material: spool}", "box: {material: alloy}")]).is_empty());
}

#[test]
fn not_judged() {
    for (gap, says) in [
        (" insert_length: 8 mm,", "insert_length"),
        (", insert_diameter: 5.6 mm", "insert_diameter"),
        (" torque: 1 N·m,", "torque"),
        (" screws: 6 x M4,", "screws"),
        (", shear_strength: 25 MPa", "shear_strength"),
    ] {
        let gone = row("drawn out", &[(gap, "")]);
        assert_eq!((gone.verdict, gone.says.as_str()), (Verdict::NotJudged, says), "{gap}");
    }
}

#[test]
fn the_exact_boundary() {
    let length = |share: f64| format!("insert_length: {} mm", 8.0 * 2.0 / row("drawn out", &[]).reserve * share);
    let at = |share: f64| row("drawn out", &[("insert_length: 8 mm", &length(share))]).verdict;
    assert_eq!((at(1.000_001), at(0.999_999)), (Verdict::Sound, Verdict::Thin));
}

#[test]
fn more_length_never_lowers_a_reserve() {
    for check in ["drawn out", "turned in its hole"] {
        let reserves: Vec<f64> = (2..20)
            .map(|l| row(check, &[("insert_length: 8 mm", &format!("insert_length: {l} mm"))]).reserve)
            .collect();
        assert!(reserves.windows(2).all(|pair| pair[1] > pair[0]), "{check}");
    }
}
