#![allow(clippy::disallowed_methods, reason = "a test works it out by hand")]

use crate::DamperCold;
use rule::prelude::*;
use trial::Row;

/// Below 0 °C on its own silicone law; the damper's force at the speed of the fall stands at the end of the stroke's.
const COLD: &str = "
environment: {air: -30 °C to -30 °C, relative_humidity: 80 %, altitude: 200 m}
cases:
  drop: {kind: landing, drop: 200 mm, attitude: level, surface: packed_snow}
assumed: {ground_stiffness: 60 N/mm, mount_stiffness: 400 N/mm}
oils:
  thin: {kind: silicone, viscosity_25: 100 mm²/s, density: 960 kg/m³, pour_point: -50 °C}
suspension:
  rear:
    count: 2
    sprung_mass_each: 12 kg
    unsprung_mass_each: 1.5 kg
    position: 100 mm
    motion_ratio: 0.8
    damper_travel: 50 mm
    preload: {collar: 5 mm}
    spring: {rate: 10 N/mm}
    damper: {kind: oil, bore: 16 mm, rod: 4 mm, holes: 8, hole_diameter: 1.4 mm, piston_thickness: 3 mm, oil: thin}
    bump_stop: {kind: none}
";
const LOCKS: &str = "locks when landing";
const PACKS: &str = "packs down";
const VG32: (&str, &str) = (
    "kind: silicone, viscosity_25: 100 mm²/s, density: 960 kg/m³, pour_point: -50 °C",
    "kind: mineral, viscosity_40: 32 mm²/s, viscosity_100: 5.36 mm²/s, density: 870 kg/m³, pour_point: -36 °C",
);
const WAXY: (&str, &str) = (
    "kind: silicone, viscosity_25: 100 mm²/s, density: 960 kg/m³, pour_point: -50 °C",
    "kind: mineral, viscosity_40: 32 mm²/s, viscosity_100: 5.36 mm²/s, density: 870 kg/m³, pour_point: -24 °C",
);
const NARROW: (&str, &str) = ("hole_diameter: 1.4 mm", "hole_diameter: 0.9 mm");

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&DamperCold, &trial::changed(COLD, changes))
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| row.check == check).unwrap()
}

#[test]
fn fails_with_an_oil_that_hardly_flows_and_with_one_that_has_gelled() {
    let thick = row(LOCKS, &[VG32]);
    assert!(thick.verdict == Verdict::Fails && thick.says.contains("hardly moves"), "{thick:?}");
    let waxy = row(LOCKS, &[WAXY]);
    assert!(waxy.verdict == Verdict::Fails && waxy.says.contains("gelled"), "{waxy:?}");
    let stuck = row(PACKS, &[WAXY]);
    assert!(stuck.verdict == Verdict::Fails && stuck.says.contains("stays in"), "{stuck:?}");
    let slow = row(PACKS, &[VG32, NARROW]);
    assert!(slow.verdict == Verdict::Fails && slow.says.contains("leaves it lower"), "{slow:?}");
}

#[test]
fn colder_than_its_pour_point_is_never_better_than_just_above() {
    let at = |air: &str| row(LOCKS, &[WAXY, ("air: -30 °C to -30 °C", &format!("air: {air} to {air}"))]).reserve;
    let reserves: Vec<f64> = ["20 °C", "0 °C", "-15 °C", "-23.9 °C", "-24.1 °C", "-30 °C"].map(at).to_vec();
    assert!(reserves.windows(2).all(|pair| pair[1] <= pair[0] * (1.0 + 1e-9)), "{reserves:?}");
}

#[test]
fn thin_where_it_pushes_nearly_as_hard_as_the_spring_at_its_end() {
    let sound = row(LOCKS, &[]);
    let strength = |times: f64| {
        // A mount that takes so many times what the damper pushes with.
        let force = 2.0 * 550.0 / sound.reserve * times;
        row(
            LOCKS,
            &[("bump_stop: {kind: none}", &format!("bump_stop: {{kind: none}}\n    mount_strength: {force:.9} N"))],
        )
    };
    let thin = strength(1.1);
    assert!(thin.verdict == Verdict::Thin && thin.says.contains("nearly"), "{thin:?}");
    // The exact boundary.
    assert_eq!(strength(1.2 + 1e-6).verdict, Verdict::Sound);
    assert_eq!(strength(1.2 - 1e-6).verdict, Verdict::Thin);
    assert_eq!(strength(1.0 + 1e-6).verdict, Verdict::Thin);
    assert_eq!(strength(1.0 - 1e-6).verdict, Verdict::Fails);
}

#[test]
fn sound_by_hand() {
    let all = rows(&[]);
    assert!(all.len() == 2 && all.iter().all(|row| row.verdict == Verdict::Sound), "{all:?}");
    // ν(−30 °C) by Andrade through 100 mm²/s at 25 °C with 1 − ν(99)/ν(38) = 0.6; c = A²/(n·a)·32·µ·(l + 3π/16·d)/d².
    let b = 0.4f64.log10() / (1.0 / 372.15 - 1.0 / 311.15);
    let mu = 100e-6 * 10f64.powf(b * (1.0 / 243.15 - 1.0 / 298.15)) * 960.0;
    let area = core::f64::consts::FRAC_PI_4 * (0.016f64.powi(2) - 0.004f64.powi(2));
    let open = 8.0 * core::f64::consts::FRAC_PI_4 * 1.4e-3 * 1.4e-3;
    let length = 3e-3 + 3.0 * core::f64::consts::PI / 16.0 * 1.4e-3;
    let c = area * area / open * 32.0 * mu * length / (1.4e-3 * 1.4e-3);
    assert!((row(PACKS, &[]).reserve / (0.3 / (c / 10e3)) - 1.0).abs() < 1e-9);
    // Touches down with √(2·g·0.2)·0.8 at the damper; in holes of more than two diameters 1.5 velocity heads are lost beside.
    let fall = (2.0 * 9.80665 * 0.2f64).sqrt() * 0.8;
    let swift = 1.5 * 480.0 * area * (area / open) * (area / open);
    let force = fall * (c + swift * fall);
    assert!((row(LOCKS, &[]).reserve / (2.0 * 550.0 / force) - 1.0).abs() < 1e-9, "{}", row(LOCKS, &[]).reserve);
}

#[test]
fn not_judged_without_what_it_needs_and_aside_without_a_damper() {
    let gap = |check: &str, field: &str| {
        let row = row(check, &[(field, "")]);
        assert_eq!(row.verdict, Verdict::NotJudged, "{check} {field}: {row:?}");
        row.says
    };
    for (field, name) in [
        (", pour_point: -50 °C", "pour_point"),
        (", hole_diameter: 1.4 mm", "hole_diameter"),
        ("rate: 10 N/mm", "wire"),
    ] {
        assert_eq!((gap(LOCKS, field), gap(PACKS, field)), (name.into(), name.into()));
    }
    assert_eq!(gap(LOCKS, "drop: 200 mm, "), "drop");
    assert!(rows(&[("damper: {kind: oil, bore: 16 mm, rod: 4 mm, holes: 8, hole_diameter: 1.4 mm, piston_thickness: 3 mm, oil: thin}", "damper: none")]).is_empty());
    // In a case that does not land, only whether it comes back.
    let idle: Vec<_> = rows(&[("kind: landing, drop: 200 mm, attitude: level", "kind: idle")])
        .into_iter()
        .map(|row| row.check)
        .collect();
    assert_eq!(idle, [PACKS]);
}

#[test]
fn by_two_tests_on_the_bench() {
    let tested = |cold: &str| {
        format!(
            "damper: {{kind: sink_test, warm: {{at: 20 °C, weight: 2 kg, sinks: 40 mm, within: 0.4 s}}, cold: {{at: -30 °C, weight: 2 kg, sinks: {cold}, within: 20 s}}}}"
        )
    };
    let oil = "damper: {kind: oil, bore: 16 mm, rod: 4 mm, holes: 8, hole_diameter: 1.4 mm, piston_thickness: 3 mm, oil: thin}";
    assert_eq!(row(LOCKS, &[(oil, &tested("0 mm"))]).verdict, Verdict::Fails);
    // 2 kg in 20 s over 40 mm: 9,807 N·s/m, on 10 N/mm nearly a second.
    let slow = row(PACKS, &[(oil, &tested("40 mm"))]);
    assert!((slow.reserve - 0.3 / 0.980_665).abs() < 1e-6 && slow.verdict == Verdict::Fails, "{slow:?}");
}

#[test]
fn common_practice_an_ordinary_oil_damper_is_stiff_in_deep_cold_and_a_very_light_oil_delays_it() {
    // Facts of the trade, no source: works at room temperature, is solid at −20 to −30 °C, a very light oil delays that.
    let (warm, cold) =
        (("air: -30 °C to -30 °C", "air: 20 °C to 20 °C"), ("air: -30 °C to -30 °C", "air: -30 °C to -30 °C"));
    let light =
        ("viscosity_40: 32 mm²/s, viscosity_100: 5.36 mm²/s", "viscosity_40: 5 mm²/s, viscosity_100: 1.7 mm²/s");
    assert_eq!(row(LOCKS, &[VG32, warm]).verdict, Verdict::Sound);
    assert_eq!(row(LOCKS, &[VG32, cold]).verdict, Verdict::Fails);
    assert_eq!(row(LOCKS, &[VG32, light, cold]).verdict, Verdict::Sound);
}

#[test]
fn wider_holes_never_lower_the_reserve() {
    for check in [LOCKS, PACKS] {
        let reserve =
            |mm: f64| row(check, &[VG32, ("hole_diameter: 1.4 mm", &format!("hole_diameter: {mm} mm"))]).reserve;
        let reserves: Vec<f64> = (0..8).map(|step| reserve(1.0 + 0.2 * f64::from(step))).collect();
        assert!(reserves.windows(2).all(|pair| pair[1] >= pair[0] * (1.0 - 1e-9)), "{check} {reserves:?}");
    }
}

#[test]
fn holes_that_lock_it_warm_as_well_are_not_blamed_on_the_cold() {
    let choked = row(LOCKS, &[("hole_diameter: 1.4 mm", "hole_diameter: 0.6 mm"), ("drop: 200 mm", "drop: 400 mm")]);
    assert!(choked.verdict == Verdict::Fails && choked.says.contains("warm or cold"), "{choked:?}");
}
