//! Every kind of joint, by hand.

use super::{TORQUE, held, near, row};
use rule::prelude::*;

#[test]
fn each_kind_by_hand() {
    for (by, torque) in [
        // 300 MPa · 10² mm² · 14 mm / 4.
        ("{by: hex, across_flats: 10 mm, length: 14 mm}", 105.0),
        // Flat of 12 mm with 10.5 mm left: w² = 4·(36 − 20.25) = 63 mm².
        ("{by: d_shape, across_flats: 10.5 mm, length: 14 mm}", 300.0 * 63.0 * 14.0 / 8.0 / 1e3),
        // 0.75·300·6·1.5·14·6.25.
        ("{by: spline, size: 6 x 11 x 14, length: 14 mm}", 177.188),
        // 2 · 400 MPa · 8.78 mm² · 0.12 · 12 mm.
        ("{by: clamp, size: M4, count: 2}", 10.113),
        ("{by: clamp, size: 2 x M4}", 10.113),
        // 8 MPa · π · 144 mm² · 14 mm / 2.
        ("{by: glue, length: 14 mm}", 25.334),
        ("{by: pin, pin: 4 mm, pin_material: steel}", 37.699),
    ] {
        let found = held(by);
        assert!(near(found.reserve, torque / TORQUE), "{by}: {found:?}, wanted {}", torque / TORQUE);
    }
    // The hub is crushed before a thick pin shears: 300 MPa · 6 mm · (21.75² − 12²) mm² / 4… the root circle is its outside.
    let crushed = held("{by: pin, pin: 6 mm, pin_material: steel, hub_diameter: 13 mm}");
    assert!(near(crushed.reserve, 300.0 * 6.0 * (169.0 - 144.0) / 4.0 / 1e3 / TORQUE), "{crushed:?}");
}

#[test]
fn further_set_screws_add_a_half() {
    let screws = |count: u32| held(&format!("{{by: set_screw, size: M5, count: {count}}}")).reserve;
    assert!(near(screws(2), 1.5 * screws(1)) && near(screws(3), 2.0 * screws(1)));
}

#[test]
fn plastic_has_peaks_at_corners_and_no_thread_for_a_set_screw() {
    let plastic = ("teeth: 17, material: steel", "teeth: 17, material: plastic, build: {by: machined}");
    let with = |by: &str| row(super::PINION, &[plastic, (super::HELD, &format!("held_by: {by}}}\n      wheel"))]);
    let hex = with("{by: hex, across_flats: 10 mm, length: 14 mm}");
    assert!(near(hex.reserve, 90.0 / 2.5 * 100.0 * 14.0 / 4.0 / 1e3 / TORQUE), "{hex:?}");
    let screw = with("{by: set_screw, size: M4, count: 2}");
    assert!(screw.verdict == Verdict::Fails && screw.says.contains("strips"), "{screw:?}");
    // Screw heads on plastic creep: 10 MPa · 0.8168·16 mm² each.
    let clamp = with("{by: clamp, size: M4, count: 2}");
    assert!(near(clamp.reserve, 2.0 * 10.0 * 13.069 * 0.12 * 12.0 / 1e3 / TORQUE), "{clamp:?}");
}

#[test]
fn what_cannot_be_read_is_said() {
    for by in [
        "{by: set_screw, count: 1}",
        "{by: set_screw, size: huge}",
        "{by: set_screw, size: M2}",
        "{by: spline, size: 7 x 9 x 11, length: 14 mm}",
        "{by: clamp}",
        "{by: hex, length: 14 mm}",
        "{by: pin, pin: 4 mm}",
        "{by: pin, pin_material: steel}",
        "{by: key, length: 14 mm, diameter: 5 mm}",
    ] {
        assert_eq!(held(by).verdict, Verdict::NotJudged, "{by}");
    }
}
