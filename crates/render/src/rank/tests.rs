use super::bar;
use rule::Verdict::{Fails, Sound, Thin};

#[test]
fn a_bar_leaves_the_middle_by_its_headroom() {
    let drawn = |headroom: f64, verdict| bar(headroom, verdict, 5, false);
    assert_eq!(drawn(0.0, Sound), "     |     ");
    assert_eq!(drawn(0.4, Sound), "     |--   ");
    assert_eq!(drawn(-0.6, Fails), "  ###|     ");
    assert_eq!(drawn(-1.0, Fails), "#####|     ");
    assert_eq!(bar(-0.6, Fails, 5, true), "  ███│     ");
}

#[test]
fn a_shortfall_shows_however_small_and_what_leaves_the_scale_says_so() {
    let drawn = |headroom: f64, verdict| bar(headroom, verdict, 5, false);
    assert_eq!(drawn(-0.001, Thin), "    =|     ");
    assert_eq!(drawn(0.001, Sound), "     |     ");
    assert_eq!(drawn(7.0, Sound), "     |---->");
    assert_eq!(drawn(f64::INFINITY, Sound), "     |---->");
    assert_eq!(drawn(-1.01, Fails), "<####|     ");
    assert_eq!(drawn(f64::NEG_INFINITY, Fails), "<####|     ");
}
