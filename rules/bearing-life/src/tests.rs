use crate::BearingLife;
use rule::prelude::*;
use trial::Row;

/// A carrier with one chain stage and an axle in two bearings.
const LINE: &str = "
machine: {name: trial, mass: 40 kg}
environment: {air: 20 °C to 20 °C, relative_humidity: 50 %, altitude: 0 m, assembled_at: 20 °C}
cases: {climb: {kind: climb, grade: 15 °, speed: 3 km/h, air: 20 °C}}
materials:
  mild: {family: metal, density: 7850 kg/m³, modulus: 206 GPa, yield_strength: 250 MPa, tensile_strength: 400 MPa,
    fatigue_share: 50 %, strength_at: {-40 °C: 1, 100 °C: 1}, expansion: 12 µm/(m·K)}
powertrain:
  battery: {cells: {series: 10, parallel: 4, kind: li_ion_18650}, capacity: 10 Ah, resistance: 50 mΩ}
  controller: {current_limit: {battery: 60 A, motor: 80 A}, efficiency: 95 %, timing_advance: 0 °}
  motor: {count: 1, speed_constant: 120 rpm/V, resistance: 40 mΩ, no_load_current: 2 A}
  stages: [{name: primary, kind: chain, pitch: 9.525 mm, driving_teeth: 10, driven_teeth: 40, efficiency: 97 %}]
  shafts:
    axle:
      material: mild
      diameter: 12 mm
      length: 200 mm
      turned_by: primary
      stations:
        - {x: 0 mm, bearing: left, notch: none}
        - {x: 50 mm, stage: primary, angle: 180 °, mass: 0.4 kg, notch: keyway}
        - {x: 120 mm, stage: track, angle: 180 °, mass: 0.5 kg, notch: pressed_on}
        - {x: 200 mm, bearing: right, notch: none}
  bearings: {left: {kind: rolling, size: 6001-2RS, rings: chrome_steel, grease_from: -30 °C, rating: 5 kN, static_rating: 2300 N}, right: {kind: rolling, size: 6001-2RS, grease_from: -30 °C, rating: 5 kN, static_rating: 2300 N}}
  track:
    form: {kind: corded_belt, thickness: 4 mm, cord_strength: 9 kN}
    material: mild
    frame_material: mild
    count: 1
    pitch: 40 mm
    links: 40
    mass: 2 kg
    sprocket_teeth: 9
    slack_tension: 60 N
    tow_pull: 40 N
    tensioner: {by: rigid_screw}
service: {season: {hours: 100}}
assumed: {drive_shock: 1.25, traction: 0.9, run_over: 0.2}
";

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&BearingLife, &trial::changed(LINE, changes))
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    let on = |row: &Row| row.check == check && row.subject == "left";
    rows(changes).into_iter().find(on).unwrap()
}

#[test]
fn fails() {
    let small = row("blow", &[("static_rating: 2300 N", "static_rating: 200 N")]);
    assert_eq!(small.verdict, Verdict::Fails);
    assert!(small.says.contains("dent"));
    assert_eq!(row("life", &[("rating: 5 kN", "rating: 0.2 kN")]).verdict, Verdict::Fails);
    assert_eq!(row("grease", &[("grease_from: -30 °C", "grease_from: 25 °C")]).verdict, Verdict::Fails);
}

#[test]
fn thin() {
    let reserve = row("blow", &[]).reserve;
    let less = format!("static_rating: {} N", 2300.0 / reserve * 1.2);
    assert_eq!(row("blow", &[("static_rating: 2300 N", &less)]).verdict, Verdict::Thin);
}

#[test]
fn sound_and_by_hand() {
    for check in ["blow", "grease", "life"] {
        let row = row(check, &[]);
        assert_eq!(row.verdict, Verdict::Sound, "{row:?}");
        // A shaft without a bore is a full one, which shows.
        assert!(row.assumed.iter().all(|assumed| assumed == "bore"), "{row:?}");
    }
    assert!((row("grease", &[]).reserve - 50.0).abs() < 1e-9);
    // Twice the rating lasts eight times as long.
    let (one, two) = (row("life", &[]).reserve, row("life", &[("rating: 5 kN", "rating: 10 kN")]).reserve);
    assert!((two / one - 8.0).abs() < 1e-9);
}

#[test]
fn ceramic_needs_more() {
    let reserve = row("blow", &[]).reserve;
    let some = format!("static_rating: {} N", 2300.0 / reserve * 2.5);
    assert_eq!(row("blow", &[("static_rating: 2300 N", &some)]).verdict, Verdict::Sound);
    let ceramic = [("static_rating: 2300 N", some.as_str()), ("rings: chrome_steel", "rings: ceramic")];
    assert_eq!(row("blow", &ceramic).verdict, Verdict::Thin);
}

#[test]
fn not_judged() {
    assert_eq!(row("grease", &[("grease_from: -30 °C, ", "")]).says, "grease_from");
    assert_eq!(
        row("life", &[("service: {season: {hours: 100}}", "service: {season: {distance: 1 km}}")]).says,
        "hours"
    );
    let loose = row("blow", &[("{x: 0 mm, bearing: left,", "{x: 0 mm, bearing: right,")]);
    assert!(loose.verdict == Verdict::NotJudged && loose.says.contains("no shaft carries it"), "{loose:?}");
    // Without a maker's page the size has to do, and that shows.
    let guessed = row("blow", &[(", static_rating: 2300 N", "")]);
    assert_eq!(guessed.assumed, ["bore", "static_rating"]);
    let unknown = row("blow", &[(", static_rating: 2300 N", ""), ("6001-2RS", "from a drawer")]);
    assert!(unknown.verdict == Verdict::NotJudged && unknown.says.contains("drawer"), "{unknown:?}");
}

#[test]
fn the_exact_boundary() {
    let at = |from: &str| row("grease", &[("grease_from: -30 °C", from)]).verdict;
    assert_eq!((at("grease_from: 19.9999 °C"), at("grease_from: 20.0001 °C")), (Verdict::Sound, Verdict::Fails));
}

#[test]
fn a_higher_rating_never_lowers_a_reserve() {
    let reserves: Vec<f64> =
        (1..12).map(|k| row("blow", &[("static_rating: 2300 N", &format!("static_rating: {k} kN"))]).reserve).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] > pair[0]));
}
