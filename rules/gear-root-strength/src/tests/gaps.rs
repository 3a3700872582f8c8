//! What is missing, and what is no gear.

use super::{changed, row, rows};
use crate::GearRootStrength;
use rule::prelude::*;

fn hidden(changes: &[(&str, &str)]) -> Vec<&'static str> {
    rows(changes).into_iter().filter(|row| row.verdict == Verdict::NotJudged).map(|row| row.check).collect()
}

#[test]
fn each_gap_hides_only_what_needs_it() {
    let both = ["pinion tooth", "wheel tooth"];
    assert_eq!(hidden(&[("tensile_strength: 60 MPa, ", "")]), ["wheel tooth"]);
    assert_eq!(hidden(&[("fatigue_share: 25 %, ", "")]), ["wheel tooth"]);
    assert_eq!(hidden(&[("      centre_distance: 42.75 mm\n", "")]), both);
    assert_eq!(hidden(&[("      face_width: 14 mm\n", "")]), both);
    assert_eq!(hidden(&[("      housing: plate\n", "")]), both);
    // Whether its flanks are of metal is not known then, either.
    assert_eq!(
        hidden(&[("teeth: 40, material: plastic, ", "teeth: 40, ")]),
        ["pinion flank", "wheel flank", "wheel tooth"]
    );
    assert_eq!(hidden(&[("bore: 8 mm, build: {by: machined}", "bore: 8 mm")]), ["pinion tooth"]);
    assert_eq!(
        hidden(&[("bore: 12 mm, build: {by: machined}", "bore: 12 mm, build: {by: printed, laid: flat_on_bed}")]),
        ["wheel tooth"]
    );
    assert_eq!(hidden(&[("resistance: 35 mΩ, ", "")]), both);
    let steel = ("teeth: 40, material: plastic", "teeth: 40, material: steel");
    assert_eq!(hidden(&[steel, (", flank_limit: 700 MPa", "")]), ["pinion flank", "wheel flank"]);
    assert_eq!(hidden(&[steel, (", poisson: 0.3", "")]), ["pinion flank", "wheel flank"]);
    let lands =
        ("launch: {kind: launch, grade: 0 °, duration: 5 s}", "lands: {kind: landing, drop: 0.2 m, under_power: yes}");
    assert_eq!(hidden(&[lands, (", rotor_inertia: 4e-4 kg·m²", "")]), both);
}

#[test]
fn what_stands_in_shows_as_assumed() {
    let assumed = |changes: &[(&str, &str)]| row("wheel tooth", changes).assumed;
    assert_eq!(assumed(&[("      face_load: 1.2\n", "")]), ["face_load"]);
    assert_eq!(assumed(&[("      pressure_angle: 20 °\n", "")]), ["pressure_angle"]);
    assert_eq!(assumed(&[("root_fillet: 0.57 mm, ", "")]), ["root_fillet"]);
    assert_eq!(row("pinion tooth", &[(", cased: no", "")]).assumed, ["cased"]);
    let drinks = ("friction: 0.2, ", "friction: 0.2, when_conditioned: {strength: 0.7}, ");
    let (dry, damp) = (row("wheel tooth", &[]), row("wheel tooth", &[drinks]));
    assert_eq!(damp.assumed, ["moisture"]);
    assert!((damp.reserve / dry.reserve - 0.7).abs() < 1e-9);
}

#[test]
fn a_metal_without_a_table_is_taken_by_its_strength_and_a_brittle_one_at_most_by_that() {
    let reserve = |changes: &[(&str, &str)]| row("pinion tooth", changes).reserve;
    let unlisted = ("root_limit: 300 MPa, ", "");
    // 0.45/1.45·900 = 279 MPa.
    assert!((reserve(&[unlisted]) / reserve(&[]) - 279.31 / 300.0).abs() < 1e-4);
    // 2·300·2.5 = 1500 MPa would be more than it has: 900.
    let brittle = ("elongation_at_break: 12 %", "elongation_at_break: 1.5 %");
    assert!((reserve(&[brittle]) / reserve(&[]) - 900.0 / 1500.0).abs() < 1e-9);
    // A metal that nobody says the toughness of counts as brittle.
    let unsaid = row("pinion tooth", &[("elongation_at_break: 12 %, ", "")]);
    assert_eq!(unsaid.assumed, ["elongation_at_break"]);
    assert!((unsaid.reserve / reserve(&[brittle]) - 1.0).abs() < 1e-9);
    // A hard case lasts as long and is tired sooner: a thousand blows are few for both.
    let cased = ("cased: no", "cased: yes");
    assert!((reserve(&[cased, brittle]) / reserve(&[]) - 1.0).abs() < 1e-9);
}

#[test]
fn cases_without_drive_are_set_aside() {
    for kind in ["soak", "idle", "brought_indoors", "landing, drop: 0.2 m"] {
        assert!(
            rows(&[("launch: {kind: launch, grade: 0 °, duration: 5 s}", &format!("other: {{kind: {kind}}}"))])
                .is_empty(),
            "{kind}"
        );
    }
}

#[test]
fn what_is_no_gear_is_answered_in_words() {
    for (from, to) in [
        ("teeth: 40", "teeth: 3"),
        ("42.75 mm", "30 mm"),
        ("42.75 mm", "99 mm"),
        ("root_fillet: 0.57 mm, bore: 12", "root_fillet: 30 mm, bore: 12"),
        ("profile_shift: 0, root_fillet: 0.57 mm, bore: 8", "profile_shift: -0.9, root_fillet: 0.57 mm, bore: 8"),
    ] {
        let rows = trial::review(&GearRootStrength, &changed(&[(from, to)]));
        assert!(rows.iter().all(|row| row.verdict != Verdict::Broken), "{from} {to}: {rows:?}");
        assert!(rows.iter().any(|row| row.verdict == Verdict::NotJudged), "{from} {to}");
    }
}
