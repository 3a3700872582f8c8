use crate::FitAtTemperature;
use rule::prelude::*;
use trial::Row;

/// A ring of 28 mm pressed by 0.06 mm into plastic that grows 50 µm/(m·K) more: 1.4 µm for each kelvin.
const SEAT: &str = "
environment: {air: 20 °C, relative_humidity: 50 %, altitude: 0 m, assembled_at: 20 °C}
cases: {drive: {kind: cruise, speed: 5 km/h}}
materials:
  plastic: {family: printed_polymer, modulus: 2 GPa, poisson: 0.35, expansion: 62 µm/(m·K), moisture: dry}
  alloy: {family: metal, modulus: 70 GPa, poisson: 0.33, expansion: 23 µm/(m·K), yield_strength: 200 MPa, strength_at: {-60 °C: 1, 100 °C: 1}}
structure: {parts: {plate: {material: plastic}}}
powertrain:
  bearings:
    left: {kind: rolling, size: 6001-2RS, seat: {part: plate, interference: 0.06 mm}}
assumed: {screw_modulus: 206 GPa, screw_expansion: 12 µm/(m·K)}
";

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&FitAtTemperature, &trial::changed(SEAT, changes))
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| row.check == check).unwrap()
}

#[test]
fn fails() {
    let cold = row("seat splits", &[("air: 20 °C", "air: -50 °C")]);
    assert_eq!(cold.verdict, Verdict::Fails, "{cold:?}");
    assert!(cold.says.contains("splits"));
    assert_eq!(row("seat lets go", &[("air: 20 °C", "air: 45 °C")]).verdict, Verdict::Fails);
}

#[test]
fn a_gap_of_zero_is_never_thin_and_a_strain_at_its_limit_is_not_either() {
    // Both required reserves are the bare limits, so nothing is thin: just below it fails.
    let hot = |air: &str| row("seat lets go", &[("air: 20 °C", air)]).verdict;
    assert_eq!((hot("air: 41.42 °C"), hot("air: 41.44 °C")), (Verdict::Sound, Verdict::Fails));
}

#[test]
fn sound_and_by_hand() {
    let sound = row("seat splits", &[]);
    assert_eq!((sound.verdict, sound.assumed.len()), (Verdict::Sound, 0), "{sound:?}");
    assert!((sound.reserve - 0.005 / (0.06 / 28.0)).abs() < 1e-9);
    let cold = row("seat splits", &[("air: 20 °C", "air: 0 °C")]);
    assert!((cold.reserve - 0.005 / ((0.06 + 0.028) / 28.0)).abs() < 1e-9, "{cold:?}");
    let warm = row("seat lets go", &[("air: 20 °C", "air: 30 °C")]);
    assert!((warm.reserve - (0.03 - 0.014) * 1e-3).abs() < 1e-12, "{warm:?}");
    // In metal the pull at the bore counts, by Lamé, and nothing relaxes.
    let metal = [("plate: {material: plastic}", "plate: {material: alloy}")];
    assert_eq!(row("seat splits", &metal).verdict, Verdict::Sound);
    assert!((row("seat lets go", &metal).reserve - 0.06e-3).abs() < 1e-12);
    assert_eq!(row("seat splits", &[metal[0], ("0.06 mm", "0.3 mm")]).verdict, Verdict::Fails);
}

#[test]
fn moulded_plastic_stretches_twice_as_far_as_printed() {
    let moulded = row("seat splits", &[("family: printed_polymer", "family: polymer")]);
    assert!((moulded.reserve / row("seat splits", &[]).reserve - 2.0).abs() < 1e-9);
}

#[test]
fn not_judged() {
    assert_eq!(row("seat splits", &[("plate: {material: plastic}", "plate: {thickness: 4 mm}")]).says, "material");
    assert_eq!(row("seat splits", &[(" expansion: 62 µm/(m·K),", "")]).says, "expansion");
    let odd = row("seat splits", &[("6001-2RS", "from a drawer")]);
    assert!(odd.verdict == Verdict::NotJudged && odd.says.contains("drawer"));
    assert!(rows(&[(", interference: 0.06 mm", "")]).is_empty());
    assert_eq!(row("seat splits", &[("interference: 0.06 mm", "fit: press")]).says, "interference");
}

#[test]
fn the_exact_boundary() {
    let at = |mm: &str| row("seat splits", &[("0.06 mm", mm)]).verdict;
    assert_eq!((at("0.139999 mm"), at("0.140001 mm")), (Verdict::Sound, Verdict::Fails));
}

#[test]
fn colder_never_raises_the_reserve_against_splitting() {
    let reserves: Vec<f64> =
        (0..10).map(|k| row("seat splits", &[("air: 20 °C", &format!("air: {} °C", 20 - 7 * k))]).reserve).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] < pair[0]));
}
