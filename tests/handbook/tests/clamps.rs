//! Screwed joints: ISO 898-1 and Shigley.

use handbook::table;
use physics::clamp::*;
use quantity::*;

#[test]
fn stressed_areas() {
    let rows = table(include_str!("../data/threads.csv"));
    assert_eq!(rows.len(), 9);
    for row in &rows {
        let mm = |name| Length::from_si(row.f(name) * 1e-3);
        row.prints("area_mm2", stressed_area(mm("d_mm"), mm("pitch_mm")).si() * 1e6, 3);
    }
}

#[test]
fn a_joint_of_two_half_inch_plates() {
    // Shigley, example 8-2 (9th edition, from memory): two plates of 0.5 in and a washer of 0.095 in, all of 30 Mpsi, a bolt of
    // 0.5 in: members of 15.97 Mlbf/in.
    let inch = 25.4e-3;
    let psi = 6_894.757_293_168;
    let half = clamped_rate(Pressure::from_si(30e6 * psi), Length::from_si(0.5 * inch), Length::from_si(0.5475 * inch));
    let joint = half.unwrap().si() / 2.0 / (4.448_221_615 / inch) / 1e6;
    assert!((joint - 15.97).abs() < 0.005, "{joint}");
}
