use crate::SpringTravelReserve;
use rule::prelude::*;
use trial::Row;

/// Solid 20 mm, gaps 6 mm (by hand): 82 mm leaves 56 mm for preload and 40 mm of stroke; 6 mm must be over. Nothing but the
/// spring gives, so that a landing goes as deep as its energy says.
const DROPPED: &str = "
cases:
  drop: {kind: landing, drop: 30 mm, attitude: level, surface: packed_snow}
assumed: {ground_stiffness: 10000000 N/mm, mount_stiffness: 400 N/mm}
materials:
  wire: {family: metal, modulus: 206 GPa, poisson: 0.3}
suspension:
  front:
    count: 2
    sprung_mass_each: 10 kg
    unsprung_mass_each: 1 kg
    position: 700 mm
    motion_ratio: 0.5
    damper_travel: 40 mm
    preload: {collar: 9 mm}
    spring: {wire: 2 mm, mean_diameter: 20 mm, active_coils: 8, free_length: 82 mm, ends: closed_ground, rate: 10 N/mm}
    damper: {kind: none}
    bump_stop: {kind: none}
";
const STROKE: &str = "solid length against stroke";
const LANDING: &str = "coil bind when landing";
const STOP: &str = "stop reached when landing";
const SAG: &str = "sag leaves travel";

fn changed(changes: &[(&str, &str)]) -> String {
    trial::changed(DROPPED, changes)
}

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&SpringTravelReserve, &changed(changes))
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| row.check == check).unwrap()
}

fn collar(mm: f64) -> String {
    format!("collar: {mm:.9} mm")
}

fn free(mm: f64) -> String {
    format!("free_length: {mm:.9} mm")
}

/// Travel of the landing from `drop` at the damper, by energy: the depth at which ½·R·x² + (R·c − m·g/r)·x has become
/// m·g·h, found by halving.
fn travel(drop: f64) -> f64 {
    let weight = 10.0 * 9.80665;
    let left = |x: f64| weight * drop - 0.5 * 10e3 * x * x - (10e3 * 9e-3 - weight / 0.5) * x;
    let (mut low, mut high) = (0.02, 1.0);
    for _ in 0..60 {
        let middle = (low + high) / 2.0;
        if left(middle) > 0.0 { low = middle } else { high = middle }
    }
    low
}

#[test]
fn fails_when_the_coils_touch_or_come_too_close() {
    let touching = row(STROKE, &[("free_length: 82 mm", "free_length: 65 mm")]);
    assert!(touching.verdict == Verdict::Fails && touching.says.contains("touch before the damper"), "{touching:?}");
    let close = row(STROKE, &[("collar: 9 mm", "collar: 17 mm")]);
    assert!(close.verdict == Verdict::Fails && close.says.contains("come so close"), "{close:?}");
    let landing = row(LANDING, &[("free_length: 82 mm", "free_length: 70 mm")]);
    assert!(landing.verdict == Verdict::Fails && landing.says.contains("so close"), "{landing:?}");
    assert!(row(LANDING, &[("free_length: 82 mm", "free_length: 60 mm")]).says.contains("touch in this landing"));
}

#[test]
fn a_spring_shorter_than_its_block_is_said_to_be_wrong() {
    let short = row(STROKE, &[("free_length: 82 mm", "free_length: 18 mm")]);
    assert!(short.verdict == Verdict::Fails && short.says.contains("18 mm against 20 mm"), "{short:?}");
    assert!(short.says.contains("figures is wrong"));
}

#[test]
fn fails_past_the_end_of_the_stroke_and_costs_less_with_a_bump_stop() {
    let consequence = |changes: &[(&str, &str)]| {
        let all = trial::outcomes(&SpringTravelReserve, &changed(changes));
        all.into_iter().find_map(|(_, check, outcome)| match outcome {
            Outcome::Held(margin) if check == STOP => Some((margin.consequence, margin.held.fails())),
            _ => None,
        })
    };
    let rubber = ("bump_stop: {kind: none}", "bump_stop: {kind: elastomer, height: 6 mm, diameter: 12 mm}");
    let (high, higher) = (("drop: 30 mm", "drop: 60 mm"), ("drop: 30 mm", "drop: 3 m"));
    let long = ("free_length: 82 mm", "free_length: 120 mm");
    assert_eq!(consequence(&[high, long]), Some((Consequence::RunOver, true)));
    // A bump stop takes what the hard end did not, and is squeezed flat by a worse fall.
    assert_eq!(consequence(&[high, long, rubber]), Some((Consequence::CheapPart, false)));
    assert_eq!(consequence(&[higher, long, rubber]), Some((Consequence::CheapPart, true)));
    assert!(row(STOP, &[higher, long, rubber]).says.contains("flat"));
    assert!(row(STOP, &[high, long]).says.contains("hard end"));
}

#[test]
fn fails_on_the_stops_when_the_spring_is_far_too_soft() {
    let sag = row(SAG, &[("rate: 10 N/mm", "rate: 4 N/mm")]);
    assert!(sag.verdict == Verdict::Fails && sag.says.contains("stands on its stops"), "{sag:?}");
    // 196.133 N at the damper on 4 N/mm, less the collar: 40.033 mm.
    assert!((sag.reserve + 0.033_25e-3).abs() < 1e-9, "{sag:?}");
}

#[test]
fn thin_just_above_coil_bind_and_with_deep_sag() {
    let thin = row(STROKE, &[("collar: 9 mm", "collar: 10.5 mm")]);
    assert!(thin.verdict == Verdict::Thin && thin.says.contains("hardly any gap"), "{thin:?}");
    assert_eq!(row(LANDING, &[("free_length: 82 mm", "free_length: 75 mm")]).verdict, Verdict::Thin);
    let sag = row(SAG, &[("collar: 9 mm", "collar: 0 mm")]);
    assert!(sag.verdict == Verdict::Thin && sag.says.contains("too much of the stroke"), "{sag:?}");
}

#[test]
fn sound_by_hand() {
    let all = rows(&[]);
    assert!(all.len() == 4 && all.iter().all(|row| row.verdict == Verdict::Sound && row.assumed.is_empty()), "{all:?}");
    assert!((row(STROKE, &[]).reserve - 7e-3).abs() < 1e-12);
    let deep = travel(0.03);
    assert!((deep - 37.1e-3).abs() < 0.1e-3);
    assert!((row(LANDING, &[]).reserve - (56e-3 - 9e-3 - deep)).abs() < 1e-7);
    assert!((row(STOP, &[]).reserve - (40e-3 - deep)).abs() < 1e-7);
    // 10 kg · g / 0.5 = 196.133 N at the damper; the collar holds 90 N of it: 10.6133 mm.
    assert!((row(SAG, &[]).reserve - (40e-3 - 10.6133e-3)).abs() < 1e-9);
}

#[test]
fn not_judged_without_what_it_needs_and_only_then() {
    use Verdict::NotJudged;
    let gaps = |field: &str| {
        let open = rows(&[(field, "")]).into_iter().filter(|row| row.verdict == NotJudged);
        open.map(|row| row.check).collect::<Vec<_>>()
    };
    // In the order of the findings: by name.
    assert_eq!(gaps("free_length: 82 mm, "), [LANDING, STROKE]);
    assert_eq!(gaps("wire: 2 mm, "), [LANDING, STROKE]);
    assert_eq!(gaps("mean_diameter: 20 mm, "), [LANDING, STROKE]);
    assert_eq!(gaps("active_coils: 8, "), [LANDING, STROKE]);
    assert_eq!(gaps("collar: 9 mm"), [LANDING, SAG, STROKE, STOP]);
    assert_eq!(gaps("    damper_travel: 40 mm\n"), [LANDING, SAG, STROKE, STOP]);
    assert_eq!(gaps(", rate: 10 N/mm"), [LANDING, SAG, STOP]);
    assert_eq!(gaps("    sprung_mass_each: 10 kg\n"), [LANDING, SAG, STOP]);
    assert_eq!(gaps("    motion_ratio: 0.5\n"), [LANDING, SAG, STOP]);
    assert_eq!(gaps("    unsprung_mass_each: 1 kg\n"), [LANDING, STOP]);
    assert_eq!(gaps("    damper: {kind: none}\n"), [LANDING, STOP]);
    assert_eq!(gaps("    bump_stop: {kind: none}\n"), [LANDING, STOP]);
    assert_eq!(gaps(", drop: 30 mm"), [LANDING, STOP]);
    // A usual spring end is assumed, and said.
    let assumed = rows(&[(", ends: closed_ground", "")]).into_iter().filter(|row| row.assumed == ["ends"]);
    assert_eq!(assumed.map(|row| row.check).collect::<Vec<_>>(), [LANDING, STROKE, STOP], "one spring, one assumption");
}

#[test]
fn the_rate_comes_from_the_wire_where_nobody_gives_it() {
    // G = 206 GPa / 2.6; G·d⁴ / (8·D³·n) = 2476 N/m.
    let from_wire = [(", rate: 10 N/mm", ", material: wire")];
    let rate = 206e9 / 2.6 * 16e-12 / (8.0 * 8e-6 * 8.0);
    let reserve = 40e-3 - (10.0 * 9.80665 / 0.5 / rate - 9e-3);
    assert!((row(SAG, &from_wire).reserve - reserve).abs() < 1e-9);
    let weak = [from_wire[0], (", poisson: 0.3", "")];
    assert_eq!(row(SAG, &weak).says, "poisson");
}

#[test]
fn a_measured_block_counts_before_the_wire() {
    let measured = row(STROKE, &[("rate: 10 N/mm", "rate: 10 N/mm, solid_length: 21 mm")]);
    assert!((measured.reserve - 6e-3).abs() < 1e-12);
}

#[test]
fn only_landings_that_load_the_corner_are_asked() {
    let checks = |case: &str| {
        let rows = rows(&[("kind: landing, drop: 30 mm, attitude: level", case)]);
        rows.into_iter().map(|row| row.check).collect::<Vec<_>>()
    };
    assert_eq!(checks("kind: idle"), [SAG, STROKE]);
    assert_eq!(checks("kind: landing, drop: 30 mm, attitude: inverted"), [SAG, STROKE]);
}

#[test]
fn the_exact_boundary() {
    let verdict = |check, from: &str, to: String| row(check, &[(from, &to)]).verdict;
    let (hair, c) = (1e-6, "collar: 9 mm");
    assert_eq!(verdict(STROKE, c, collar(10.0 - hair)), Verdict::Sound);
    assert_eq!(verdict(STROKE, c, collar(10.0 + hair)), Verdict::Thin);
    assert_eq!(verdict(STROKE, c, collar(16.0 - hair)), Verdict::Thin);
    assert_eq!(verdict(STROKE, c, collar(16.0 + hair)), Verdict::Fails);
    let (f, hair) = ("free_length: 82 mm", 1e-3);
    let just = (20.0 + 6.0 + 9.0 + 6.0) + travel(0.03) * 1e3;
    assert_eq!(verdict(LANDING, f, free(just + hair)), Verdict::Sound);
    assert_eq!(verdict(LANDING, f, free(just - hair)), Verdict::Thin);
    assert_eq!(verdict(LANDING, f, free(just - 6.0 + hair)), Verdict::Thin);
    assert_eq!(verdict(LANDING, f, free(just - 6.0 - hair)), Verdict::Fails);
    // Sag of 16 mm, 40 % of the stroke.
    assert_eq!(verdict(SAG, c, collar(19.6133 - 16.0 + hair)), Verdict::Sound);
    assert_eq!(verdict(SAG, c, collar(19.6133 - 16.0 - hair)), Verdict::Thin);
    let (s, deep) = ("damper_travel: 40 mm", travel(0.03) * 1e3);
    assert_eq!(verdict(STOP, s, format!("damper_travel: {:.9} mm", deep + hair)), Verdict::Sound);
    assert_eq!(verdict(STOP, s, format!("damper_travel: {:.9} mm", deep - hair)), Verdict::Fails);
}

#[test]
fn a_longer_spring_never_has_less_reserve() {
    for check in [STROKE, LANDING] {
        let reserve = |mm: u32| row(check, &[("free_length: 82 mm", &free(f64::from(mm)))]).reserve;
        let reserves: Vec<f64> = (50..100).step_by(2).map(reserve).collect();
        assert!(reserves.windows(2).all(|pair| pair[1] > pair[0]), "{check} {reserves:?}");
    }
}

#[test]
fn a_higher_fall_never_has_more_reserve_and_sag_does_not_ask_for_it() {
    let reserve = |check: &str, mm: u32| row(check, &[("drop: 30 mm", &format!("drop: {mm} mm"))]).reserve;
    for check in [LANDING, STOP] {
        let reserves: Vec<f64> = (1..20).map(|step| reserve(check, step * 10)).collect();
        assert!(reserves.windows(2).all(|pair| pair[1] < pair[0]), "{check} {reserves:?}");
    }
    assert_eq!(reserve(SAG, 30), reserve(SAG, 300));
}

#[test]
fn a_ground_that_may_give_more_takes_the_sound_from_a_stop_just_missed() {
    // A mount of its own stiffness and a ground that gives: softer ground spares the spring, stiffer ground fills the stroke.
    let ground = ("ground_stiffness: 10000000 N/mm", "ground_stiffness: 20 N/mm");
    let deep = |mm: f64| row(STOP, &[ground, ("damper_travel: 40 mm", &format!("damper_travel: {mm} mm"))]);
    let (far, near) = (deep(60.0), deep(60.0 - deep(60.0).reserve * 1e3 + 0.5));
    assert_eq!(far.verdict, Verdict::Sound);
    assert!(near.verdict == Verdict::Thin && near.reserve > 0.0 && near.says.contains("softer ground"), "{near:?}");
}

#[test]
fn oil_below_its_pour_point_travels_as_without_a_damper() {
    let oil = "oils:\n  waxy: {kind: mineral, viscosity_40: 15 mm²/s, viscosity_100: 3.4 mm²/s, density: 860 kg/m³, pour_point: -15 °C}\nmaterials:";
    let air = ("cases:", "environment: {air: -20 °C to -20 °C, altitude: 200 m, relative_humidity: 80 %}\ncases:");
    let oiled = (
        "damper: {kind: none}",
        "damper: {kind: oil, bore: 16 mm, rod: 4 mm, holes: 2, hole_diameter: 1.2 mm, piston_thickness: 3 mm, oil: waxy}",
    );
    let (gelled, bare) = (row(STOP, &[("materials:", oil), air, oiled]), row(STOP, &[]));
    assert!((gelled.reserve - bare.reserve).abs() < 1e-9, "{gelled:?} {bare:?}");
}
