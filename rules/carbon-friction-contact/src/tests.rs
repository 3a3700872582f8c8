use crate::CarbonFrictionContact;
use rule::prelude::*;

fn spec(motion: &str, between: &str) -> String {
    format!(
        "materials:\n  rod: {{family: fibre_composite}}\n  pom: {{family: polymer}}\ncases:\n  run: {{kind: idle}}\nstructure:\n  parts:\n    \
         axle: {{material: rod}}\n    wheel: {{material: pom}}\n  contacts:\n    pair: {{of: [wheel, axle]{motion}{between}}}\n"
    )
}

fn verdicts(yaml: &str) -> Vec<Verdict> {
    trial::review(&CarbonFrictionContact, yaml).iter().map(|row| row.verdict).collect()
}

#[test]
fn a_wheel_straight_on_fibres_fails_with_tape_or_grease_too() {
    for between in ["none", "tape", "grease"] {
        let between = format!(", between: {between}");
        assert_eq!(verdicts(&spec(", motion: rotating", &between)), [Verdict::Fails]);
    }
}

#[test]
fn a_sleeve_or_standing_still_is_sound() {
    assert_eq!(verdicts(&spec(", motion: sliding", ", between: metal_sleeve")), [Verdict::Sound]);
    assert_eq!(verdicts(&spec(", motion: clamped", "")), [Verdict::Sound]);
}

#[test]
fn unknown_motion_or_material_is_not_judged() {
    assert_eq!(verdicts(&spec("", ", between: none")), [Verdict::NotJudged]);
    assert_eq!(verdicts(&spec(", motion: rotating", "")), [Verdict::NotJudged]);
    let bare = spec(", motion: rotating", ", between: none").replace("axle: {material: rod}", "axle: {}");
    assert_eq!(verdicts(&bare), [Verdict::NotJudged]);
}

#[test]
fn without_fibres_there_is_no_check() {
    let plain = spec(", motion: rotating", ", between: none").replace("fibre_composite", "metal");
    assert!(verdicts(&plain).is_empty());
}

#[test]
fn a_bush_straight_on_a_fibre_axle_fails_and_on_metal_is_not_asked() {
    let bush = |family| {
        format!(
            "materials:\n  rod: {{family: {family}}}\n  pom: {{family: polymer}}\ncases:\n  run: {{kind: idle}}\nstructure:\n  parts:\n    \
             axle: {{material: rod}}\npowertrain:\n  bearings:\n    bush: {{kind: plain, material: pom, runs_on: axle}}\n"
        )
    };
    assert_eq!(verdicts(&bush("fibre_composite")), [Verdict::Fails]);
    assert!(verdicts(&bush("metal")).is_empty());
}
