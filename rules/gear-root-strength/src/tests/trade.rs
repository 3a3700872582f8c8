//! Facts of the trade (common practice, no source).

use super::{WHEEL_MADE, reserve};
use rule::prelude::Vec;

const METAL_WHEEL: (&str, &str) = ("teeth: 40, material: plastic", "teeth: 40, material: steel");

/// A cast pinion against a metal wheel goes first; one that is machined and hardened holds.
#[test]
fn with_a_metal_wheel_the_cast_pinion_goes_first_and_a_hardened_one_holds() {
    let cast = [
        METAL_WHEEL,
        ("teeth: 17, material: steel", "teeth: 17, material: plastic"),
        ("bore: 8 mm, build: {by: machined}", "bore: 8 mm, build: {by: cast}"),
    ];
    let (pinion, wheel) = (reserve("pinion tooth", &cast), reserve("wheel tooth", &cast));
    assert!(pinion < wheel && pinion < 3.0, "{pinion} {wheel}");
    let hardened = [METAL_WHEEL, ("bore: 8 mm, build: {by: machined}", "bore: 8 mm, build: {by: hardened}")];
    assert!(reserve("pinion tooth", &hardened) > 1.6);
}

/// A steel pinion and a printed wheel: the wheel goes first.
#[test]
fn against_steel_the_plastic_wheel_goes_first() {
    let printed = [(WHEEL_MADE, "bore: 12 mm, build: {by: printed, laid: flat_on_bed, infill: 100 %}")];
    assert!(reserve("wheel tooth", &printed) < reserve("pinion tooth", &printed));
}

/// Both of plastic, drawn as usual, the pinion a little wider and shifted outward against undercut: the wheel goes first in a blow.
#[test]
fn in_a_pair_of_plastic_the_wheel_goes_first() {
    let both = [
        (
            "teeth: 17, material: steel, profile_shift: 0",
            "teeth: 17, material: plastic, profile_shift: 0.4, face_width: 16 mm",
        ),
        ("teeth: 40, material: plastic, profile_shift: 0", "teeth: 40, material: plastic, profile_shift: -0.4"),
    ];
    for lands in [false, true] {
        let landing = (
            "launch: {kind: launch, grade: 0 °, duration: 5 s}",
            "lands: {kind: landing, drop: 0.2 m, under_power: yes, speed: 12 km/h}",
        );
        let changes: Vec<(&str, &str)> = both.into_iter().chain(lands.then_some(landing)).collect();
        let (pinion, wheel) = (reserve("pinion tooth", &changes), reserve("wheel tooth", &changes));
        assert!(wheel < pinion, "{wheel} {pinion}");
    }
}
