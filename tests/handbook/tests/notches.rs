//! Holes and fillets: a worked example of Shigley after the charts of Peterson.

use handbook::table;
use physics::track::{Pulled, fillet_notch, hole_notch, net_section_stress};
use quantity::*;

#[test]
fn a_brittle_bar_with_a_hole_or_a_step() {
    let rows = table(include_str!("../data/notches_shigley.csv"));
    assert_eq!(rows.len(), 3);
    let mut peaks = Vec::new();
    for row in &rows {
        let mm = |name| Length::from_si(row.f(name) * 1e-3);
        let (wide, narrow, radius) = (mm("wide_mm"), mm("narrow_mm"), mm("radius_mm"));
        let factor = match row.s("notch") {
            "hole" => hole_notch(radius * 2.0, wide).unwrap(),
            "fillet" => fillet_notch(wide, narrow, radius, Pulled::Lengthwise).unwrap(),
            other => panic!("notch {other}"),
        };
        row.prints("factor", factor.si(), 2);
        let mean = net_section_stress(Force::from_si(row.f("force_N")), wide, wide - narrow, mm("thick_mm")).unwrap();
        let peak = mean.si() / 1e6 * factor.si();
        row.prints("stress_MPa", peak, 2);
        peaks.push(peak);
    }
    // The larger hole goes first, the fillet last.
    assert!(peaks[1] > peaks[0] && peaks[0] > peaks[2], "{peaks:?}");
}
