use crate::LayerDirection;
use rule::prelude::*;
use trial::Row;

/// A full print of 20 × 10 mm under 50 N at 200 mm: M = 10 N·m, W = 666.7 mm³, σ = 15 MPa; τ = 1.5·50/200 MPa.
const MAST: &str = "
environment: {air: 23 °C, relative_humidity: 50 %, altitude: 0 m}
cases: {drive: {kind: cruise, speed: 5 km/h}}
materials:
  spool: {family: printed_polymer, modulus: 2 GPa, tensile_strength: 60 MPa, between_layer_strength: 45 MPa, shear_strength: 30 MPa}
  fibre: {family: fibre_composite, modulus: 120 GPa, tensile_strength: 1200 MPa}
structure:
  parts:
    mast:
      material: spool
      build: {by: printed, laid: standing, infill: 100 %}
      section: {kind: rectangle, height: 20 mm, width: 10 mm}
      span: 200 mm
      supports: cantilever
      pushed: {wind: {from: force, force: 50 N, share: 100 %, at: 200 mm, direction: in_height, lever: 0 mm}}
      notch: 1
assumed: {glue_shear: 12 MPa}
";

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&LayerDirection, &trial::changed(MAST, changes))
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| row.check == check).unwrap()
}

const RODS: (&str, &str) = (
    "span: 200 mm",
    "span: 200 mm\n      rods: {material: fibre, diameter: 4 mm, count: 2, offset: 7 mm, bond: glued, lie: above_one_another}",
);

#[test]
fn fails() {
    let heavy = row("across layers", &[("force: 50 N", "force: 160 N")]);
    assert_eq!(heavy.verdict, Verdict::Fails);
    assert!(heavy.says.contains("between two layers"));
    assert_eq!(row("between layers", &[("force: 50 N", "force: 5000 N")]).verdict, Verdict::Fails);
    assert_eq!(row("bond of rods", &[RODS, ("force: 50 N", "force: 4000 N")]).verdict, Verdict::Fails);
}

#[test]
fn thin() {
    assert_eq!(row("across layers", &[("force: 50 N", "force: 60 N")]).verdict, Verdict::Thin);
    assert_eq!(row("between layers", &[("force: 50 N", "force: 1500 N")]).verdict, Verdict::Thin);
}

#[test]
fn sound_and_by_hand() {
    let across = row("across layers", &[]);
    assert_eq!((across.verdict, across.assumed.len()), (Verdict::Sound, 0), "{across:?}");
    assert!((across.reserve - 3.0).abs() < 1e-9);
    let between = row("between layers", &[]);
    assert!((between.reserve - 27.0 / 0.375).abs() < 1e-6, "{between:?}");
    // Two rods of 12.57 mm², 7 mm out, in a bar whose E·I they set: q = V·E·A·z/(E·I) over the skin of π·4 mm.
    let bond = row("bond of rods", &[RODS, ("laid: standing", "laid: flat_on_bed")]);
    assert_eq!(bond.verdict, Verdict::Sound, "{bond:?}");
    assert!(rows(&[("laid: standing", "laid: flat_on_bed")]).iter().all(|row| row.check != "across layers"));
    assert!(rows(&[("by: printed", "by: machined")]).is_empty());
}

#[test]
fn a_coupon_asks_for_less() {
    let thinner = ("force: 50 N", "force: 70 N");
    assert_eq!(row("across layers", &[thinner]).verdict, Verdict::Thin);
    let coupon = ("between_layer_strength: 45 MPa", "between_layer_strength: 45 MPa (measured)");
    assert_eq!(row("across layers", &[thinner, coupon]).verdict, Verdict::Sound);
}

#[test]
fn not_judged() {
    for (gap, says) in [
        ("      material: spool\n", "material"),
        ("      span: 200 mm\n", "span"),
        ("between_layer_strength: 45 MPa, ", "between_layer_strength"),
        (" force: 50 N,", "force"),
        (", infill: 100 %", "infill"),
    ] {
        let gone = row("across layers", &[(gap, "")]);
        assert_eq!((gone.verdict, gone.says.as_str()), (Verdict::NotJudged, says), "{gap}");
    }
    assert_eq!(row("bond of rods", &[RODS, (", bond: glued", "")]).says, "bond");
    // How it lay is taken at its worst, and that shows.
    let laid = row("across layers", &[(" laid: standing,", "")]);
    assert_eq!(laid.assumed, ["laid"]);
}

#[test]
fn the_exact_boundary() {
    let (below, above) = (
        row("across layers", &[("force: 50 N", "force: 49.9999 N")]),
        row("across layers", &[("force: 50 N", "force: 50.0001 N")]),
    );
    assert_eq!((below.verdict, above.verdict), (Verdict::Sound, Verdict::Thin));
}

#[test]
fn more_force_never_raises_the_reserve() {
    let reserves: Vec<f64> =
        (1..20).map(|i| row("across layers", &[("force: 50 N", &format!("force: {} N", 10 * i))]).reserve).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] < pair[0]));
}
