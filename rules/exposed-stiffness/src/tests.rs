use crate::ExposedStiffness;
use rule::prelude::*;
use trial::Row;

/// Lying down flat stretches a mast of 12 mm over 300 mm by π·6/300 = 6.283 %.
const MAST: &str = "
machine: {name: trial, mass: 60 kg, centre_of_gravity: {z: 250 mm}}
environment: {air: 23 °C, relative_humidity: 50 %, altitude: 0 m}
cases: {roll: {kind: tip_over, first_contact: mast}}
materials:
  soft: {family: polymer, modulus: 0.1 GPa, tensile_strength: 30 MPa, elongation_at_break: 12.566371 %, impact_at: {-40 °C: 0.2, 23 °C: 1}}
structure:
  parts:
    mast:
      material: soft
      section: {kind: round, diameter: 12 mm}
      span: 300 mm
      supports: cantilever
      exposed: yes
      notch: 1
";

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&ExposedStiffness, &trial::changed(MAST, changes))
}

fn row(changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| row.check == "blow").unwrap()
}

#[test]
fn fails() {
    let hard = row(&[("elongation_at_break: 12.566371 %", "elongation_at_break: 3 %")]);
    assert_eq!(hard.verdict, Verdict::Fails);
    assert!(hard.says.contains("snaps"));
    // In the cold a fifth of its stretch is left; elastic energy alone is far too little.
    assert_eq!(
        row(&[
            ("air: 23 °C", "air: -40 °C"),
            ("soft: {", "soft: {modulus_at: {-40 °C: 1, 23 °C: 1}, strength_at: {-40 °C: 1, 23 °C: 1}, ")
        ])
        .verdict,
        Verdict::Fails
    );
}

#[test]
fn thin() {
    assert_eq!(row(&[("12.566371 %", "8 %")]).verdict, Verdict::Thin);
}

#[test]
fn sound_and_by_hand() {
    let sound = row(&[]);
    assert_eq!((sound.verdict, sound.assumed.len()), (Verdict::Sound, 0), "{sound:?}");
    assert!((sound.reserve - 2.0).abs() < 1e-6, "{sound:?}");
    // A block that is not slim takes the energy: 60 kg from 0.25 m high and as wide: 60·9.80665·0.25·(√2 − 1) J.
    let block = row(&[("diameter: 12 mm", "diameter: 300 mm")]);
    let energy = 60.0 * 9.80665 * 0.25 * 0.414_213_562_4;
    let takes = 30e6 * 30e6 / (2.0 * 0.1e9) * core::f64::consts::PI / 4.0 * 0.09 * 0.3 / 12.0;
    assert!((block.reserve / (takes / energy) - 1.0).abs() < 1e-6, "{block:?}");
}

#[test]
fn not_judged() {
    for (gap, says) in [
        ("mass: 60 kg, ", "mass"),
        ("centre_of_gravity: {z: 250 mm}", "z"),
        ("      material: soft\n", "material"),
        ("      section: {kind: round, diameter: 12 mm}\n", "section"),
        ("      span: 300 mm\n", "span"),
        (" elongation_at_break: 12.566371 %,", "elongation_at_break"),
    ] {
        let gap_to = if gap.starts_with("centre") { "payload: {mass: 1 kg}" } else { "" };
        let gone = row(&[(gap, gap_to)]);
        assert_eq!((gone.verdict, gone.says.as_str()), (Verdict::NotJudged, says), "{gap}");
    }
}

#[test]
fn the_exact_boundary() {
    let at = |stretch: &str| row(&[("12.566371 %", stretch)]).verdict;
    assert_eq!((at("9.42479 %"), at("9.42477 %")), (Verdict::Sound, Verdict::Thin));
}

#[test]
fn a_thicker_slim_mast_is_never_better() {
    let reserves: Vec<f64> =
        (4..20).map(|d| row(&[("diameter: 12 mm", &format!("diameter: {d} mm"))]).reserve).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] < pair[0]));
}

#[test]
fn what_is_held_at_both_ends_cannot_lie_down() {
    assert_eq!(row(&[("supports: cantilever", "supports: fixed_fixed")]).verdict, Verdict::Fails);
}

#[test]
fn what_is_not_hit_is_set_aside() {
    assert!(
        rows(&[
            ("first_contact: mast", "first_contact: other"),
            ("    mast:\n", "    other: {material: soft}\n    mast:\n")
        ])
        .is_empty()
    );
    assert!(rows(&[("kind: tip_over, first_contact: mast", "kind: cruise, speed: 5 km/h")]).is_empty());
}

#[test]
fn a_hard_handlebar_snaps_in_a_roll_over_where_a_flexible_one_bends() {
    // Common practice, no source: bars of 16 mm and 200 mm, one of short-fibre print standing, one of polyurethane, at −15 °C.
    let bar = |material: &str, build: &str| {
        row(&[
            ("air: 23 °C", "air: -15 °C"),
            (
                "material: soft",
                &format!("material: {material}\n      build: {{by: printed, laid: {build}, infill: 100 %}}"),
            ),
            ("diameter: 12 mm", "diameter: 16 mm"),
            ("span: 300 mm", "span: 200 mm"),
        ])
        .verdict
    };
    assert_eq!(bar("pa6_carbon_filled", "standing"), Verdict::Fails);
    assert_eq!(bar("tough_pla", "standing"), Verdict::Fails);
    assert_eq!(bar("tpu_95a", "flat_on_bed"), Verdict::Sound);
}
