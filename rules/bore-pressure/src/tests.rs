use crate::BorePressure;
use rule::prelude::*;
use trial::Row;

/// Held at 80 A the motor gives 6.366 N·m: on the base circle of 17 teeth of 1.5 mm, 11.981 mm, that pushes with 531.4 N, uneven
/// driving counted in with 664.2 N.
const SPEC: &str = "
machine: {name: trial, mass: 400 kg}
environment: {air: 20 °C, relative_humidity: 60 %, altitude: 0 m, assembled_at: 20 °C}
zones: {case: {volume: 1 L, air_rise: 0 K, moisture: breathes}}
cases:
  launch: {kind: launch, grade: 0 °}
materials:
  steel: {family: metal}
  plastic: {family: polymer, tensile_strength: 60 MPa, between_layer_strength: 30 MPa, compressive_strength: 90 MPa, friction: 0.2, strength_at: {-40 °C: 1.4, 20 °C: 1, 100 °C: 0.4}}
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
      pinion: {teeth: 17, material: steel, profile_shift: 0, build: {by: machined}}
      wheel: {teeth: 40, material: plastic, profile_shift: 0, bore: 12 mm, build: {by: machined}}
      lubrication: grease
      housing: plate
      efficiency: 95 %
  track: {pitch: 40 mm, links: 46, mass: 2 kg, sprocket_teeth: 9, rolling_resistance: 0.1, slack_tension: 90 N, tensioner: {by: none}}
assumed: {drive_shock: 1.25, lasting_share: 40 %, traction: 0.9}
";
const FORCE: f64 = 664.2;
const BARE: &str = "bore: 12 mm, build";

fn changed(changes: &[(&str, &str)]) -> String {
    trial::changed(SPEC, changes)
}

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&BorePressure, &changed(changes))
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| row.check == check).unwrap_or_else(|| panic!("no {check}"))
}

fn near(one: f64, other: f64) -> bool {
    (one / other - 1.0).abs() < 1e-3
}

const CLIMB: (&str, &str) =
    ("launch: {kind: launch, grade: 0 °}", "climb: {kind: climb, grade: 10 °, speed: 3 km/h, duration: 10 min}");

#[test]
fn sound_and_by_hand() {
    let bore = row("wheel bore", &[]);
    assert!(bore.verdict == Verdict::Sound && bore.assumed.is_empty(), "{bore:?}");
    assert!(near(bore.reserve, 90e6 / (FORCE / (0.012 * 0.014))), "{bore:?}");
    // Root circle 56.25 mm: Kt = 2 + (1 − 12/56.25)³ = 2.487.
    let wall = row("wheel hub wall", &[]);
    assert!(near(wall.reserve, 60e6 / (FORCE / (0.04425 * 0.014) * 2.4868)), "{wall:?}");
    assert_eq!(rows(&[]).len(), 2);
}

#[test]
fn fails() {
    let thin = [("bore: 12 mm", "bore: 3 mm"), ("face_width: 14 mm", "face_width: 2 mm")];
    let crushed = row("wheel bore", &thin);
    assert!(crushed.verdict == Verdict::Fails && crushed.says.contains("crushed"), "{crushed:?}");
    let hollow = row(
        "wheel hub wall",
        &[(BARE, "bore: 12 mm, hub: {form: solid, outer_diameter: 13.5 mm, length: 14 mm}, build")],
    );
    assert!(hollow.verdict == Verdict::Fails && hollow.says.contains("bursts"), "{hollow:?}");
    let creeps = row("wheel bore creep", &[CLIMB, ("compressive_strength: 90 MPa", "compressive_strength: 4 MPa")]);
    assert!(creeps.verdict == Verdict::Fails && creeps.says.contains("oval"), "{creeps:?}");
}

#[test]
fn thin_and_the_exact_boundary() {
    let at = |limit: f64| {
        row("wheel bore", &[("compressive_strength: 90 MPa", &format!("compressive_strength: {limit:.9} MPa"))])
    };
    let one = 90.0 / row("wheel bore", &[]).reserve;
    assert_eq!((at(1.5 * one).verdict, at(0.999_999 * one).verdict), (Verdict::Thin, Verdict::Fails));
    let (thin, sound) = (at(1.999_999 * one), at(2.000_001 * one));
    assert_eq!((thin.verdict, sound.verdict), (Verdict::Thin, Verdict::Sound));
    assert!(thin.headroom.abs() < 1e-5 && sound.headroom.abs() < 1e-5);
}

#[test]
fn a_longer_or_wider_hole_never_lowers_the_reserve() {
    let reserves = |from: &str, to: &dyn Fn(u32) -> String| -> Vec<f64> {
        (6..24).map(|mm| row("wheel bore", &[(from, &to(mm))]).reserve).collect()
    };
    for found in [
        reserves("face_width: 14 mm", &|mm| format!("face_width: {mm} mm")),
        reserves("bore: 12 mm", &|mm| format!("bore: {mm} mm")),
    ] {
        assert!(found.windows(2).all(|pair| pair[1] > pair[0]), "{found:?}");
    }
}

#[test]
fn each_gap_hides_only_what_needs_it() {
    let hidden = |changes: &[(&str, &str)]| -> Vec<&'static str> {
        rows(changes).into_iter().filter(|row| row.verdict == Verdict::NotJudged).map(|row| row.check).collect()
    };
    let both = ["wheel bore", "wheel hub wall"];
    assert_eq!(hidden(&[("bore: 12 mm, ", "")]), both);
    assert_eq!(hidden(&[("      face_width: 14 mm\n", "")]), both);
    assert_eq!(hidden(&[("      centre_distance: 42.75 mm\n", "")]), both);
    assert_eq!(hidden(&[("      housing: plate\n", "")]), both);
    assert_eq!(hidden(&[("tensile_strength: 60 MPa, ", "")]), ["wheel hub wall"]);
    assert_eq!(
        hidden(&[("strength_at: {-40 °C: 1.4, 20 °C: 1, 100 °C: 0.4}", "strength_at: {40 °C: 1, 100 °C: 0.4}")]),
        both
    );
    assert_eq!(
        hidden(&[("build: {by: machined}}\n      lubrication", "build: {}}\n      lubrication")]),
        ["wheel hub wall"]
    );
    // Hotter than its table it is no stronger than at its end.
    let hot = [("strength_at: {-40 °C: 1.4, 20 °C: 1, 100 °C: 0.4}", "strength_at: {-40 °C: 1.4, 0 °C: 1}")];
    assert_eq!(row("wheel bore", &hot).assumed, ["at most its last value"]);
    assert_eq!(row("wheel bore", &[(", compressive_strength: 90 MPa", "")]).assumed, ["compressive_strength"]);
    let beside = row("wheel bore", &[(BARE, "bore: 12 mm, hub: {form: solid, length: 14 mm}, build")]);
    assert_eq!(beside.assumed, ["offset"]);
}

#[test]
fn an_insert_is_judged_by_its_outside() {
    let insert = |more: &str| {
        (
            BARE.to_string(),
            format!(
                "bore: 12 mm, hub: {{form: insert, outer_diameter: 24 mm, length: 14 mm, offset: 0 mm{more}}}, build"
            ),
        )
    };
    let (from, to) = insert("");
    let wide = row("wheel bore", &[(&from, &to)]);
    assert!(near(wide.reserve, 2.0 * row("wheel bore", &[]).reserve) && wide.assumed.is_empty());
    // A hexagon in the plastic spreads it on top.
    let (from, to) = insert(", held_by: {by: hex, across_flats: 22 mm}");
    let spread = row("wheel hub wall", &[(&from, &to)]);
    let (from, to) = insert("");
    assert!(spread.reserve < row("wheel hub wall", &[(&from, &to)]).reserve);
    assert!(rows(&[(BARE, "bore: 12 mm, hub: {form: bolted}, build")]).is_empty());
}

#[test]
fn teeth_beside_the_hub_tilt_it_and_slanting_ones_too() {
    let beside = |mm: f64| {
        row(
            "wheel bore",
            &[(BARE, &format!("bore: 12 mm, hub: {{form: solid, length: 14 mm, offset: {mm} mm}}, build"))],
        )
        .reserve
    };
    assert!(near(beside(2.0), beside(0.0) / (1.0 + 12.0 / 14.0)));
    let slanting = [("kind: spur", "kind: helical\n      helix: 10 °"), ("42.75 mm", "43.41 mm")];
    assert!(row("wheel bore", &slanting).reserve < 0.5 * beside(0.0));
}

#[test]
fn only_what_stays_makes_it_creep_and_warm_plastic_gives_way() {
    let (blow, stays) = (row("wheel bore", &[CLIMB]), row("wheel bore creep", &[CLIMB]));
    assert!((stays.reserve / blow.reserve - 0.4).abs() < 1e-9);
    assert!(rows(&[]).iter().all(|row| !row.check.ends_with("creep")));
    let warm = row("wheel bore", &[("bore: 12 mm,", "bore: 12 mm, temperature: 60 °C,")]);
    assert!(near(warm.reserve, 0.7 * row("wheel bore", &[]).reserve));
    let standing = row(
        "wheel hub wall",
        &[("bore: 12 mm, build: {by: machined}", "bore: 12 mm, build: {by: printed, laid: standing}")],
    );
    assert!(near(standing.reserve * 2.0, row("wheel hub wall", &[]).reserve));
    assert!(near(
        standing.reserve * 2.0,
        row(
            "wheel hub wall",
            &[("bore: 12 mm, build: {by: machined}", "bore: 12 mm, build: {by: printed, laid: flat_on_bed}")]
        )
        .reserve
    ));
}

#[test]
fn metal_gears_and_cases_without_drive_are_set_aside() {
    assert!(rows(&[("teeth: 40, material: plastic", "teeth: 40, material: steel")]).is_empty());
    assert!(rows(&[("kind: launch, grade: 0 °", "kind: soak")]).is_empty());
}
