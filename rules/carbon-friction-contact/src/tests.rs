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
fn there_is_no_thin_but_short_fibres_are_told_to_be_looked_at() {
    let short = spec(", motion: rotating", ", between: none")
        .replace("{family: fibre_composite}", "{family: printed_polymer, fibre: {of: carbon, form: short_filled}}");
    let rows = trial::review(&CarbonFrictionContact, &short);
    assert!(rows.len() == 1 && rows[0].verdict == Verdict::Sound && rows[0].says.contains("first hour"), "{rows:?}");
    // Whoever knows the fibres need not know the motion.
    assert_eq!(verdicts(&short.replace(", motion: rotating", "")), [Verdict::Sound]);
    let long = short.replace("short_filled", "laid_in");
    assert_eq!(verdicts(&long), [Verdict::Fails]);
}

#[test]
fn a_sleeve_or_standing_still_is_sound_whatever_the_two_are_made_of() {
    let unknown = |yaml: String| yaml.replace("axle: {material: rod}", "axle: {}");
    for motion in ["clamped", "glued"] {
        let held = spec(&format!(", motion: {motion}"), "");
        let rows = trial::review(&CarbonFrictionContact, &held);
        assert!(rows[0].verdict == Verdict::Sound && rows[0].says.contains("held still"), "{rows:?}");
        assert_eq!(verdicts(&unknown(held)), [Verdict::Sound]);
    }
    for between in ["metal_sleeve", "polymer_sleeve", "rolling_bearing", "plain_bush"] {
        let parted = spec(", motion: sliding", &format!(", between: {between}"));
        assert_eq!(verdicts(&parted), [Verdict::Sound]);
        assert_eq!(verdicts(&unknown(parted)), [Verdict::Sound]);
    }
}

#[test]
fn unknown_motion_or_material_is_not_judged() {
    assert_eq!(verdicts(&spec("", ", between: none")), [Verdict::NotJudged]);
    assert_eq!(verdicts(&spec(", motion: rotating", "")), [Verdict::NotJudged]);
    let bare = spec(", motion: rotating", ", between: none").replace("axle: {material: rod}", "axle: {}");
    let rows = trial::review(&CarbonFrictionContact, &bare);
    assert!(rows.len() == 1 && rows[0].verdict == Verdict::NotJudged && rows[0].says == "material", "{rows:?}");
}

#[test]
fn somebody_is_hurt_only_where_somebody_rides() {
    let consequence = |rides: &str| {
        let yaml = format!("machine: {{name: trial{rides}}}\n{}", spec(", motion: rotating", ", between: none"));
        match trial::outcomes(&CarbonFrictionContact, &yaml).pop() {
            Some((_, _, Outcome::Breach { consequence, .. })) => Some(consequence),
            _ => None,
        }
    };
    assert_eq!(consequence(", rides: yes"), Some(Consequence::Harm));
    assert_eq!(consequence(", rides: no"), Some(Consequence::Stranded));
    assert_eq!(consequence(""), Some(Consequence::Stranded));
}

#[test]
fn without_fibres_there_is_no_check() {
    let plain = spec(", motion: rotating", ", between: none").replace("fibre_composite", "metal");
    assert!(verdicts(&plain).is_empty());
}

fn bush(family: &str, contact: &str) -> String {
    format!(
        "materials:\n  rod: {{family: {family}}}\n  pom: {{family: polymer}}\ncases:\n  run: {{kind: idle}}\nstructure:\n  parts:\n    \
         axle: {{material: rod}}\n    other: {{material: rod}}\n{contact}powertrain:\n  bearings:\n    bush: {{kind: plain, material: pom, runs_on: axle}}\n"
    )
}

#[test]
fn a_bush_straight_on_a_fibre_axle_fails_and_on_metal_is_not_asked() {
    assert_eq!(verdicts(&bush("fibre_composite", "")), [Verdict::Fails]);
    assert!(verdicts(&bush("metal", "")).is_empty());
}

#[test]
fn a_bush_that_is_also_a_contact_is_reported_once() {
    let checks = |contact: &str| {
        let contact = format!("  contacts:\n    pair: {{{contact}}}\n");
        let rows = trial::review(&CarbonFrictionContact, &bush("fibre_composite", &contact));
        rows.into_iter().map(|row| (row.subject, row.verdict)).collect::<Vec<_>>()
    };
    let row = |subject: &str, verdict| (subject.to_string(), verdict);
    let fails = [row("pair", Verdict::Fails)];
    assert_eq!(checks("of: [bush, axle], motion: rotating, between: none"), fails);
    assert_eq!(checks("of: [axle, bush], motion: micro_motion, between: grease"), fails);
    // A sleeve that the contact names clears the bearing too.
    assert_eq!(checks("of: [bush, axle], between: metal_sleeve"), [row("pair", Verdict::Sound)]);
    // What the contact leaves open, or denies of a thing that turns, the bearing answers by what it is.
    assert_eq!(checks("of: [bush, axle], motion: rotating"), fails);
    assert_eq!(checks("of: [bush, axle]"), fails);
    assert_eq!(checks("of: [bush, axle], motion: clamped"), fails);
    // Another pair says nothing of this one.
    let other = checks("of: [bush, other], motion: rotating, between: metal_sleeve");
    assert_eq!(other, [row("pair", Verdict::Sound), row("bush", Verdict::Fails)]);
}
