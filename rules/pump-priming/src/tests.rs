use crate::PumpPriming;
use rule::prelude::*;
use trial::Row;

const LOOP: &str = "
environment: {air: -20 °C to 30 °C, relative_humidity: 50 %, altitude: 0 m, assembled_at: 20 °C}
cases:
  cold: {kind: cold_start, air: -20 °C}
  climb: {kind: climb, air: 20 °C, grade: 20 °}
  traverse: {kind: side_slope, air: 20 °C, side_slope: 15 °}
  jump: {kind: lift_off, air: 20 °C}
coolants: {mix: {kind: glycol_water, glycol: ethylene}}
cooling:
  coolant: {fluid: mix, glycol: 50 %, share_by: mass, volume: 400 mL, filled_at: 20 °C}
  reservoir: {gas_space: 60 mL, plan_area: 36 cm², length: 60 mm, outlet_depth: 30 mm, baffled: no, lid: {closes: vented}}
  pump: {works_by: positive_displacement, free_flow: 0.8 L/min, stall_pressure: 150 kPa, power: 9 W, runs: always, height_above_level: 60 mm, dry_suction: 3 kPa}
  hoses: {rest: {bore: 8 mm, wall: 2 mm, length: 1 m}}
  circuit:
    - {kind: reservoir}
    - {kind: pump}
    - {kind: exchanger, name: deck, height_above_level: 100 mm, channel: {width: 5 mm, depth: 4 mm, length: 1 m}, outside: {area: 0.1 m², heat_transfer: 60 W/(m²·K)}}
    - {kind: plate, name: switches, height_above_level: -20 mm, heat: 60 W, channel: {width: 6 mm, depth: 4 mm, length: 0.5 m}, contact_resistance: 0.05 K/W}
    - {kind: hose, hose: rest}
";
const SLOPE: &str = "outlet covered on a slope";
const LEAVES: &str = "bubbles leave";
const LIFTS: &str = "lifts coolant with air in it";
const HIGH: &str = "air in a high place";

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    let mut text = LOOP.to_string();
    for (from, to) in changes {
        assert!(text.contains(from), "{from}");
        text = text.replace(from, to);
    }
    trial::review(&PumpPriming, &text)
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    let all = rows(changes);
    all.iter().find(|row| row.check == check).unwrap_or_else(|| panic!("{check}: {all:?}")).clone()
}

#[test]
fn fails_on_a_steep_slope_with_a_weak_pump_a_small_reservoir_and_a_wide_channel() {
    let slope = row(SLOPE, &[("outlet_depth: 30 mm", "outlet_depth: 9 mm")]);
    assert_eq!((slope.verdict, slope.case.as_str()), (Verdict::Fails, "climb"), "{slope:?}");
    assert_eq!(row(LIFTS, &[("dry_suction: 3 kPa", "dry_suction: 0.5 kPa")]).verdict, Verdict::Fails);
    let small = row(LEAVES, &[("plan_area: 36 cm²", "plan_area: 3 cm²")]);
    assert!(small.verdict == Verdict::Fails && small.case == "cold" && small.says.contains("foams"), "{small:?}");
    let wide = row(HIGH, &[("width: 5 mm, depth: 4 mm", "width: 20 mm, depth: 10 mm")]);
    assert_eq!((wide.verdict, wide.subject.as_str()), (Verdict::Fails, "deck"), "{wide:?}");
}

#[test]
fn thin_with_little_over_the_outlet_or_in_the_lift() {
    assert_eq!(row(SLOPE, &[("outlet_depth: 30 mm", "outlet_depth: 15 mm")]).verdict, Verdict::Thin);
    assert_eq!(row(LIFTS, &[("dry_suction: 3 kPa", "dry_suction: 1 kPa")]).verdict, Verdict::Thin);
}

#[test]
fn sound_as_it_should_be() {
    assert!(rows(&[]).iter().all(|row| row.verdict == Verdict::Sound), "{:#?}", rows(&[]));
    assert_eq!(rows(&[]).len(), 4);
}

#[test]
fn by_hand() {
    // 30 mm − 30 mm·tan 20° and what the coolant has shrunk or grown since it was filled.
    let slope = row(SLOPE, &[]).reserve;
    assert!((slope - 30e-3 + 30e-3 * 0.363_970).abs() < 2e-3, "{slope}");
    // 60 mm of some 1.09 kg/L: 0.64 kPa.
    let lift = row(LIFTS, &[]).reserve;
    assert!((lift - 3.0 / 0.64).abs() < 0.1, "{lift}");
}

#[test]
fn what_never_comes_about_is_not_asked() {
    let checks = |changes: &[(&str, &str)]| rows(changes).iter().map(|row| row.check).collect::<Vec<_>>();
    assert!(!checks(&[("  jump: {kind: lift_off, air: 20 °C}\n", "")]).contains(&LEAVES));
    assert!(!checks(&[("baffled: no", "baffled: yes")]).contains(&LEAVES));
    assert!(!checks(&[("height_above_level: 100 mm", "height_above_level: 100 mm, bleeds: yes")]).contains(&HIGH));
    let low = row(LIFTS, &[("height_above_level: 60 mm, dry_suction: 3 kPa", "height_above_level: -10 mm")]);
    assert!(low.verdict == Verdict::Sound && low.says.contains("by itself"));
    assert!(rows(&[("    - {kind: reservoir}\n", "")]).is_empty());
}

#[test]
fn each_gap_hides_what_needs_it() {
    let not = Verdict::NotJudged;
    assert_eq!(row(LIFTS, &[(", dry_suction: 3 kPa", "")]).verdict, not);
    assert_eq!(row(SLOPE, &[("outlet_depth: 30 mm, ", "")]).verdict, not);
    assert_eq!(row(LEAVES, &[("plan_area: 36 cm², ", "")]).verdict, not);
    assert_eq!(row(HIGH, &[("stall_pressure: 150 kPa, ", "")]).verdict, not);
    assert!(row(SLOPE, &[("length: 60 mm, ", "")]).assumed.contains(&"length".to_string()));
    // As if square: 60 mm.
    assert!((row(SLOPE, &[("length: 60 mm, ", "")]).reserve - row(SLOPE, &[]).reserve).abs() < 1e-9);
}

#[test]
fn the_exact_boundary() {
    let head = 3e3 / row(LIFTS, &[]).reserve;
    let at = |pascals: f64| row(LIFTS, &[("dry_suction: 3 kPa", &format!("dry_suction: {pascals:.9} Pa"))]).verdict;
    assert_eq!((at(2.0 * head * (1.0 + 1e-9)), at(2.0 * head * (1.0 - 1e-9))), (Verdict::Sound, Verdict::Thin));
}

#[test]
fn a_larger_reservoir_never_keeps_more_bubbles() {
    let mut before = 0.0;
    for area in 4..40 {
        let now = row(LEAVES, &[("plan_area: 36 cm²", &format!("plan_area: {area} cm²"))]).reserve;
        assert!(now > before);
        before = now;
    }
}

#[test]
fn in_a_soak_nobody_tosses_the_coolant_about() {
    let standing = rows(&[
        ("cold: {kind: cold_start, air: -20 °C}", "cold: {kind: soak, air: -20 °C, grade: 20 °}"),
        ("climb: {kind: climb, air: 20 °C, grade: 20 °}", "climb: {kind: soak, air: 20 °C}"),
        ("traverse: {kind: side_slope, air: 20 °C, side_slope: 15 °}", "traverse: {kind: soak, air: 20 °C}"),
    ]);
    assert!(standing.is_empty(), "{standing:?}");
}
