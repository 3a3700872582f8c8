use crate::SpringTravelReserve;
use rule::prelude::*;

/// Solid 20 mm, gaps 6 mm (by hand): 82 mm leaves 56 mm for preload and 40 mm of stroke; 6 mm must be over.
fn judged(collar: &str, spring: &str) -> (Verdict, f64, Vec<String>) {
    let yaml = format!(
        "cases:\n  rest: {{kind: idle}}\nsuspension:\n  front:\n    damper_travel: 40 mm\n    preload: {{{collar}}}\n    \
         spring: {{wire: 2 mm, mean_diameter: 20 mm, active_coils: 8, {spring}}}\n"
    );
    let rows = trial::review(&SpringTravelReserve, &yaml);
    assert_eq!(rows.len(), 1);
    (rows[0].verdict, rows[0].reserve, rows[0].assumed.clone())
}

const SPRING: &str = "free_length: 82 mm, ends: closed_ground";

#[test]
fn fails_thin_and_sound_by_preload() {
    assert_eq!(judged("collar: 17 mm", SPRING).0, Verdict::Fails);
    assert_eq!(judged("collar: 10.5 mm", SPRING).0, Verdict::Thin);
    let (verdict, reserve, assumed) = judged("collar: 9 mm", SPRING);
    assert_eq!(verdict, Verdict::Sound);
    assert!((reserve - 7e-3).abs() < 1e-9 && assumed.is_empty());
}

#[test]
fn gaps_in_the_spec_are_said() {
    assert_eq!(judged("", SPRING).0, Verdict::NotJudged);
    assert_eq!(judged("collar: 9 mm", "ends: closed_ground").0, Verdict::NotJudged);
    assert_eq!(judged("collar: 9 mm", "free_length: 82 mm").2, ["ends"]);
}

#[test]
fn a_longer_spring_never_has_less_reserve() {
    let reserve = |free: u32| judged("collar: 9 mm", &format!("free_length: {free} mm, ends: closed_ground")).1;
    assert!((70..100).all(|free| reserve(free + 1) > reserve(free)));
}
