use crate::SpringSeatRange;
use rule::prelude::*;
use trial::Row;

const SEAT: &str = "
cases: {still: {kind: soak, duration: 1 h, air: 0 °C}}
suspension:
  rear: {count: 2, sprung_mass_each: 15 kg, motion_ratio: 0.75, spring: {rate: 9 N/mm, free_length: 96 mm}, preload: {collar: 6 mm, of: 15 mm}}
";

fn rows(collar: &str) -> Vec<Row> {
    trial::review(&SpringSeatRange, &trial::changed(SEAT, &[("collar: 6 mm", collar)]))
}

fn row(collar: &str) -> Row {
    rows(collar)[0].clone()
}

#[test]
fn fails_where_it_stands_further_in_than_it_goes() {
    let past = row("collar: 16 mm");
    assert!(past.verdict == Verdict::Fails && past.says.contains("wrong"), "{past:?}");
}

#[test]
fn thin_near_its_end_which_means_another_spring() {
    // Common practice, no source: collars screwed down close to their end mean a spring too soft for the machine.
    let near = row("collar: 14 mm");
    assert!(near.verdict == Verdict::Thin && near.says.contains("too soft"), "{near:?}");
    // 15 kg on 0.75: 196.1 N at the spring, 9 N/mm, so it sags 7.79 mm past 14 mm of preload; 10 mm of the range carry the same
    // with 9 · 21.79/17.79 N/mm, and the spring is 4 mm shorter.
    let mm = |x: f64| Length::from_si(x * 1e-3);
    let (rate, shorter) = crate::carries_the_same(SpringRate::from_si(9e3), mm(7.79), mm(14.0), mm(15.0));
    assert!((rate.si() - 9e3 * 21.79 / 17.79).abs() < 1e-6 && (shorter.si() - 4e-3).abs() < 1e-12);
    assert!((rate.si() * (10e-3 + 7.79e-3) - 9e3 * (14e-3 + 7.79e-3)).abs() < 1e-9, "the same force in the same place");
}

#[test]
fn sound_by_hand() {
    let sound = row("collar: 6 mm");
    assert!(sound.verdict == Verdict::Sound && (sound.reserve - 9e-3).abs() < 1e-12, "{sound:?}");
}

#[test]
fn not_judged_without_its_range_and_aside_where_no_seat_turns() {
    let gap =
        |collar: &str| trial::review(&SpringSeatRange, &trial::changed(SEAT, &[("collar: 6 mm, of: 15 mm", collar)]));
    assert_eq!((gap("collar: 6 mm")[0].verdict, gap("collar: 6 mm")[0].says.as_str()), (Verdict::NotJudged, "of"));
    assert_eq!((gap("of: 15 mm")[0].verdict, gap("of: 15 mm")[0].says.as_str()), (Verdict::NotJudged, "collar"));
    assert!(gap("collar: 0 mm").is_empty());
}

#[test]
fn the_exact_boundary() {
    let at = |mm: f64| row(&format!("collar: {mm:.9} mm")).verdict;
    assert_eq!(at(12.0 - 1e-6), Verdict::Sound);
    assert_eq!(at(12.0 + 1e-6), Verdict::Thin);
    assert_eq!(at(15.0 - 1e-6), Verdict::Thin);
    assert_eq!(at(15.0 + 1e-6), Verdict::Fails);
}

#[test]
fn a_collar_further_out_never_has_less_reserve() {
    let reserves: Vec<f64> = (1..15).rev().map(|mm| row(&format!("collar: {mm} mm")).reserve).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] > pair[0]), "{reserves:?}");
}
