//! Coupons and trials in place of the material's figures.

use super::*;

fn with(evidence: &str) -> (&'static str, String) {
    ("count: 1", format!("count: 1\n    evidence: {evidence}"))
}

fn reserve(check: &str, evidence: &str, more: &[(&str, &str)]) -> f64 {
    let (from, to) = with(evidence);
    row(check, &[&[(from, to.as_str())], more].concat()).reserve
}

#[test]
fn a_coupon_of_that_direction_replaces_the_catalogue_brought_to_the_temperature() {
    let plain = row(TENSION, &[]).reserve;
    let half = reserve(TENSION, "{coupons: [{strength: 30 MPa, temperature: 23 °C, across_layers: no}]}", &[]);
    assert!((half / plain - 0.5).abs() < 1e-9);
    // At −40 °C the material is half as strong again.
    let cold = "{coupons: [{strength: 45 MPa, temperature: -40 °C, across_layers: no}]}";
    assert!((reserve(TENSION, cold, &[]) / plain - 0.5).abs() < 1e-9);
    let other = "{coupons: [{strength: 3 MPa, temperature: 23 °C, across_layers: yes}]}";
    assert!((reserve(TENSION, other, &[]) / plain - 1.0).abs() < 1e-9);
    let standing = reserve(TENSION, other, &[("on_edge", "standing")]);
    assert!((standing / plain - 3.0 / 60.0).abs() < 1e-9);
    // The weakest of several counts, and the pin knows nothing of them.
    let two = "{coupons: [{strength: 50 MPa, temperature: 23 °C, across_layers: no}, {strength: 30 MPa, temperature: 23 °C, across_layers: no}]}";
    assert!((reserve(TENSION, two, &[]) / plain - 0.5).abs() < 1e-9);
    assert!((reserve(PIN, two, &[]) / row(PIN, &[]).reserve - 1.0).abs() < 1e-9);
    let (from, to) = with(cold);
    assert!(
        numbers(TENSION, &[(from, &to)]).contains("by the coupon torn at -40 °C"),
        "{}",
        numbers(TENSION, &[(from, &to)])
    );
}

#[test]
fn a_coupon_torn_in_the_cold_lowers_what_is_wanted_to_two() {
    // 60 MPa at 23 °C and 90 at −40 °C are the same strength; a wall of 1.5 mm holds with between 2 and 3.
    let thin = ("wall_round_pin: 4 mm", "wall_round_pin: 1.5 mm");
    let verdict = |coupon: &str| {
        let (from, to) = with(coupon);
        verdict(TENSION, &[thin, (from, &to)])
    };
    assert_eq!(verdict("{coupons: [{strength: 60 MPa, temperature: 23 °C, across_layers: no}]}"), Verdict::Thin);
    assert_eq!(verdict("{coupons: [{strength: 90 MPa, temperature: -40 °C, across_layers: no}]}"), Verdict::Sound);
}

/// 30 m/s and the preload.
fn certain() -> f64 {
    100.0 + 900.0 * (1.0 + RIPPLE)
}

const WEAK: (&str, &str) = ("tensile_strength: 60 MPa", "tensile_strength: 6 MPa");
const STRONG: (&str, &str) = ("tensile_strength: 60 MPa", "tensile_strength: 600 MPa");

#[test]
fn a_speed_that_it_stood_raises_the_allowable_to_what_acted_for_certain() {
    // 30 m/s: 900 N, more at the sprocket's corners, + 100 N for certain, without pull and without something run over.
    let held = "{held: [{speed: 108 km/h, air: 23 °C}]}";
    assert!((reserve(TENSION, held, &[WEAK]) / (certain() / stiff(0.4)) - 1.0).abs() < 1e-9);
    // A figure that is better already stays.
    assert!((reserve(TENSION, held, &[STRONG]) / row(TENSION, &[STRONG]).reserve - 1.0).abs() < 1e-12);
    // What stood that at −40 °C, half as strong again, stands two thirds of it here; it had not shrunk: assembled at 23 °C,
    // and here at 23 °C no shrinking is known.
    let cold = "{held: [{speed: 108 km/h, air: -40 °C}]}";
    assert!((reserve(TENSION, cold, &[WEAK]) / (certain() / stiff(0.4) / 1.5) - 1.0).abs() < 1e-9);
    let (from, to) = with(held);
    let said = numbers(TENSION, &[(from, &to), WEAK]);
    assert!(said.contains("it stood") && said.contains("at least"), "{said}");
}

#[test]
fn a_speed_that_broke_it_caps_the_allowable_of_what_carries_the_pull() {
    let broke = "{broke: [{speed: 108 km/h, air: 23 °C}]}";
    let broken = (stiff(0.4) + 500.0 * (1.0 + RIPPLE)) / stiff(0.4);
    assert!((reserve(TENSION, broke, &[STRONG]) / broken - 1.0).abs() < 1e-9);
    assert!((reserve(TENSION, broke, &[WEAK]) / row(TENSION, &[WEAK]).reserve - 1.0).abs() < 1e-12);
    for check in [PIN, TEAR_OUT, ROOT] {
        assert!((reserve(check, broke, &[]) / row(check, &[]).reserve - 1.0).abs() < 1e-12, "{check}");
    }
    // Where it breaks is its limit, whatever the figures say.
    let there = reserve(TENSION, broke, &[STRONG, ("72 km/h", "108 km/h")]);
    assert!((there - 1.0).abs() < 1e-9);
    // Both: what broke it has the last word.
    let both = "{held: [{speed: 300 km/h, air: 23 °C}], broke: [{speed: 108 km/h, air: 23 °C}]}";
    assert!((reserve(TENSION, both, &[WEAK]) / broken - 1.0).abs() < 1e-9);
    let (from, to) = with(broke);
    let said = numbers(TENSION, &[(from, &to), STRONG]);
    assert!(said.contains("came apart") && said.contains("at most"), "{said}");
}

#[test]
fn trials_count_the_shrinking_and_the_bending_of_their_own_air() {
    // Here 40 K colder than assembled, there 20 K: half of the shrinking.
    let cold = ("air: 23 °C, grade", "air: -17 °C, grade");
    let flat = ("strength_at: {-40 °C: 1.5, 23 °C: 1}", "strength_at: {-40 °C: 1, 23 °C: 1}");
    let area = 640e-6;
    let shrinking = 40.0 * 47e-6 * 2.0 / (2.0 / (2e9 * (1.0 + 0.4 * 40.0 / 63.0) * area) + 4.0 / 400e3);
    let held = reserve(TENSION, "{held: [{speed: 108 km/h, air: 3 °C}]}", &[cold, flat, WEAK]);
    assert!((held / ((certain() + shrinking / 2.0) / (stiff(0.4) + shrinking)) - 1.0).abs() < 1e-9, "{held}");
    let band = [BAND, SOFT, cold, flat, WEAK, ("23 µm/(m·K)", "70 µm/(m·K)")];
    let notch = physics::track::fillet_notch(mm(140.0), mm(90.0), mm(5.0), physics::track::Pulled::Lengthwise).unwrap();
    let stress = |force: f64, stiffer: f64| force / 360e-6 * notch.si() + 60e6 * stiffer * 2e-3 / 42e-3;
    let held = reserve(BAND_PULL, "{held: [{speed: 108 km/h, air: 3 °C}]}", &band);
    let by_hand = stress(1000.0, 1.0 + 0.4 * 20.0 / 63.0) / stress(tight(0.4), 1.0 + 0.4 * 40.0 / 63.0);
    assert!((held / by_hand - 1.0).abs() < 1e-9, "{held} {by_hand}");
}

#[test]
fn a_belt_takes_trials_too() {
    let held = reserve("cord pull", "{held: [{speed: 108 km/h, air: -30 °C}]}", &[BELT, ("10 kN", "1 kN")]);
    assert!((held / (1000.0 / tight(0.35)) - 1.0).abs() < 1e-9);
}
