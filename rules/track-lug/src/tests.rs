#![allow(clippy::disallowed_methods, reason = "a test works it out by hand")]

use crate::TrackLug;
use rule::prelude::*;
use trial::Row;

/// 50 kg: 245.2 N are half of its weight, and on the level it pulls with 49 N. Lug of 20 × 8 mm foot on 100 mm width.
const LUG: &str = "
machine: {name: trial, mass: 50 kg}
environment: {air: 23 °C, relative_humidity: 80 %, altitude: 0 m, assembled_at: 23 °C, surface: packed_snow}
cases:
  level: {kind: cruise, speed: 18 km/h, air: 23 °C, grade: 0 °}
materials:
  plastic: {family: printed_polymer, modulus: 2 GPa, expansion: 70 µm/(m·K), tensile_strength: 60 MPa,
    between_layer_strength: 40 MPa, strength_at: {-40 °C: 1.5, 23 °C: 1}, modulus_at: {-40 °C: 1.4, 23 °C: 1}}
  alloy: {family: metal, expansion: 23 µm/(m·K)}
powertrain:
  track:
    rolling_resistance: 0.1
    form: {kind: solid_band, thickness: 4 mm, net_width: 90 mm}
    material: plastic
    build: {by: printed, laid: flat_on_bed}
    count: 1
    pitch: 40 mm
    links: 50
    mass: 2 kg
    sprocket_teeth: 9
    lug: {height: 30 mm, root_thickness: 8 mm, width: 100 mm, mass: 10 g, fillet: 2 mm}
    slack_tension: 100 N
    tensioner: {by: rigid_screw}
    frame_material: alloy
assumed: {traction: 0.9, mount_stiffness: 400 N/mm, run_over: 0.5, track_notch: 2.2}
";

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&TrackLug, &trial::changed(LUG, changes))
}

fn row(changes: &[(&str, &str)]) -> Row {
    let mut rows = rows(changes);
    assert_eq!(rows.len(), 1, "{rows:?}");
    rows.remove(0)
}

const WEIGHT: f64 = 50.0 * 9.806_65;

fn by_hand(force: f64, strength: f64) -> f64 {
    let mm = |length: f64| Length::from_si(length * 1e-3);
    let notch = physics::track::fillet_notch(mm(40.0), mm(8.0), mm(2.0), physics::track::Pulled::Bent).unwrap().si();
    strength / (6.0 * force * 0.03 / (0.1 * 0.008 * 0.008) * notch)
}

#[test]
fn fails() {
    // As high and as thin as a comb's tooth: what throws it outward is nothing beside what bends it.
    let comb = row(&[
        ("height: 30 mm, root_thickness: 8 mm", "height: 80 mm, root_thickness: 3 mm"),
        ("fillet: 2 mm", "fillet: 1 mm"),
    ]);
    assert!(comb.verdict == Verdict::Fails && comb.says.contains("peels off"), "{comb:?}");
}

#[test]
fn thin_and_sound_by_hand() {
    let level = row(&[]);
    assert!((level.reserve / by_hand(WEIGHT / 2.0, 40e6) - 1.0).abs() < 1e-9, "{level:?}");
    assert!(level.verdict == Verdict::Sound && level.assumed.is_empty(), "{level:?}");
    assert_eq!(row(&[("root_thickness: 8 mm", "root_thickness: 4.5 mm")]).verdict, Verdict::Thin);
    // Up a wall of 60° the track pulls harder than half of the weight.
    let steep = row(&[("grade: 0 °", "grade: 60 °"), ("traction: 0.9", "traction: 9")]);
    let pull = WEIGHT * (60f64.to_radians().sin() + 0.1 * 60f64.to_radians().cos());
    assert!((steep.reserve / by_hand(pull, 40e6) - 1.0).abs() < 1e-6, "{steep:?} {pull}");
}

#[test]
fn not_judged_and_assumed() {
    for gap in [
        "height: 30 mm, ",
        "root_thickness: 8 mm, ",
        "width: 100 mm, ",
        "    pitch: 40 mm\n",
        "    material: plastic\n",
    ] {
        assert_eq!(row(&[(gap, "")]).verdict, Verdict::NotJudged, "{gap}");
    }
    assert_eq!(row(&[(", laid: flat_on_bed", "")]).assumed, ["laid"]);
    assert!(
        (row(&[(", fillet: 2 mm", "")]).reserve / (40e6 / (6.0 * WEIGHT / 2.0 * 0.03 / 6.4e-6 * 2.2)) - 1.0).abs()
            < 1e-9
    );
    let none = ("    lug: {height: 30 mm, root_thickness: 8 mm, width: 100 mm, mass: 10 g, fillet: 2 mm}\n", "");
    assert!(rows(&[none]).is_empty() && rows(&[("kind: cruise, speed: 18 km/h", "kind: soak")]).is_empty());
}

#[test]
fn the_exact_boundary() {
    let needed = 1.5 * 40.0 / row(&[]).reserve;
    let at = |times: f64| {
        row(&[("between_layer_strength: 40 MPa", &format!("between_layer_strength: {:.9} MPa", needed * times))])
    };
    assert_eq!([at(1.000_001).verdict, at(0.999_999).verdict], [Verdict::Sound, Verdict::Thin]);
    assert!(at(1.000_001).headroom < 1e-5);
}

#[test]
fn a_thicker_foot_and_a_lower_lug_never_lower_the_reserve() {
    let feet: Vec<f64> =
        (4..20).map(|mm| row(&[("root_thickness: 8 mm", &format!("root_thickness: {mm} mm"))]).reserve).collect();
    let heights: Vec<f64> =
        (10..60).rev().step_by(5).map(|mm| row(&[("height: 30 mm", &format!("height: {mm} mm"))]).reserve).collect();
    for reserves in [feet, heights] {
        assert!(reserves.windows(2).all(|pair| pair[1] >= pair[0]), "{reserves:?}");
    }
    // On its edge it has the strength along its layers, and in the cold half as much again.
    assert!((row(&[("flat_on_bed", "on_edge")]).reserve / row(&[]).reserve - 1.5).abs() < 1e-9);
    let cold = row(&[("air: 23 °C, grade", "air: -40 °C, grade")]);
    assert!((cold.reserve / row(&[]).reserve - 1.5).abs() < 1e-9, "{cold:?}");
}

#[test]
fn a_coupon_of_that_direction_counts_in_place_of_the_figures() {
    let torn = |across: &str| {
        let coupons = format!(
            "count: 1\n    evidence: {{coupons: [{{strength: 20 MPa, temperature: 23 °C, across_layers: {across}}}]}}"
        );
        row(&[("count: 1", &coupons)]).reserve / row(&[]).reserve
    };
    assert!((torn("yes") - 0.5).abs() < 1e-9 && (torn("no") - 1.0).abs() < 1e-9);
}

#[test]
fn a_lug_is_a_cheap_part_unless_it_is_said_not_to_be() {
    let consequence = |more: &str| {
        let outcomes =
            trial::outcomes(&TrackLug, &trial::changed(LUG, &[("mass: 10 g", &format!("mass: 10 g{more}"))]));
        let Some((_, _, Outcome::Held(margin))) = outcomes.into_iter().next() else { panic!() };
        margin.consequence
    };
    assert_eq!((consequence(""), consequence(", consumable: no")), (Consequence::CheapPart, Consequence::Stranded));
}
