//! What each missing input hides, and what stands in for it.

use super::*;

/// Checks that are no longer judged, and those for which something was assumed.
fn touched(changes: &[(&str, &str)]) -> (Vec<&'static str>, Vec<(&'static str, Vec<String>)>) {
    let rows = rows(changes);
    let hidden = rows.iter().filter(|row| row.verdict == Verdict::NotJudged).map(|row| row.check).collect();
    let assumed = rows.into_iter().filter(|row| !row.assumed.is_empty()).map(|row| (row.check, row.assumed)).collect();
    (hidden, assumed)
}

fn hides(text: &str, hidden: &[&str]) {
    let mut found = touched(&[(text, "")]);
    found.0.sort_unstable();
    let mut wanted = hidden.to_vec();
    wanted.sort_unstable();
    assert_eq!(found, (wanted, Vec::new()), "{text}");
}

#[test]
fn each_gap_hides_only_what_needs_it() {
    const ALL: [&str; 4] = [TENSION, TEAR_OUT, PIN, ROOT];
    hides("pin_diameter: 4 mm, ", &[TENSION, PIN]);
    hides("pin_material: steel, ", &[PIN]);
    hides("ear_gap: 0.5 mm", &[TENSION, PIN]);
    hides("    sprocket_teeth: 9\n", &[TENSION, TEAR_OUT, PIN]);
    // The shared solution of the tension needs these itself.
    for text in
        [", ears: 8", ", ear_width: 10 mm", ", wall_round_pin: 4 mm", "    material: plastic\n", "    pitch: 40 mm\n"]
    {
        hides(text, &ALL);
    }
    hides("    mass: 2 kg\n", &ALL);
    hides("    slack_tension: 100 N\n", &ALL);
    hides("tensile_strength: 60 MPa,", &[TENSION, TEAR_OUT, ROOT]);
    hides(" shear_strength: 30 MPa,", &[TEAR_OUT]);
    hides("tensile_strength: 600 MPa, ", &[PIN]);
    hides("    build: {by: printed, laid: on_edge}\n", &[TENSION, TEAR_OUT, ROOT]);
    hides("    smallest_wheel: {radius: 40 mm}\n", &[ROOT]);
    for text in ["height: 30 mm, ", "root_thickness: 8 mm, ", "width: 100 mm, ", "mass: 10 g, "] {
        hides(text, &[ROOT]);
    }
    // Along its layers nothing asks how they hold.
    hides("    between_layer_strength: 40 MPa,", &[]);
    assert_eq!(touched(&[("    between_layer_strength: 40 MPa,", ""), ("on_edge", "standing")]).0, [TEAR_OUT, TENSION]);
}

#[test]
fn the_cold_wants_a_table() {
    let cold = ("air: 23 °C, grade", "air: -17 °C, grade");
    let no_table = ("\n    strength_at: {-40 °C: 1.5, 23 °C: 1},", "");
    assert_eq!(touched(&[no_table]).0, [] as [&str; 0]);
    assert_eq!(touched(&[no_table, cold]).0, [TEAR_OUT, TENSION, ROOT]);
    assert_eq!(row(TENSION, &[no_table, cold]).says, "strength_at");
    assert_eq!(touched(&[(", strength_at: {-40 °C: 1, 23 °C: 1}", ""), cold]).0, [PIN]);
    let off_the_table = ("air: 23 °C, grade", "air: -50 °C, grade");
    assert_eq!(touched(&[off_the_table]).0.len(), 4);
    let no_modulus = (", modulus_at: {-40 °C: 1.4, 23 °C: 1}", "");
    // How much a shrinking track pulls depends on its stiffness, and with that all that its tension loads.
    assert_eq!(touched(&[BAND, SOFT, no_modulus, cold]).0, ["band flexing", BAND_PULL, ROOT]);
}

#[test]
fn what_stands_in_shows_as_assumed() {
    let share = touched(&[("fatigue_share: 40 %,", "")]);
    let by = |names: &[&'static str], what: &str| {
        names.iter().map(|name| (*name, vec![what.to_string()])).collect::<Vec<_>>()
    };
    assert_eq!(share, (Vec::new(), by(&[TEAR_OUT, TENSION, ROOT], "fatigue_share")));
    assert_eq!(touched(&[(", fatigue_share: 50 %", "")]).1, by(&[PIN], "fatigue_share"));
    assert_eq!(touched(&[(", laid: on_edge", "")]).1, by(&[TEAR_OUT, TENSION, ROOT], "laid"));
    // Each place as if it lay the worse way.
    let share = |check| row(check, &[(", laid: on_edge", "")]).reserve / row(check, &[]).reserve;
    assert!([TENSION, TEAR_OUT, ROOT].into_iter().all(|check| (share(check) - 40.0 / 60.0).abs() < 1e-9));
    // All prints of the machine may say it in one place.
    let shared = ("powertrain:", "structure: {printing: {by: printed, laid: on_edge}}\npowertrain:");
    assert_eq!(touched(&[(", laid: on_edge", ""), shared]), (Vec::new(), Vec::new()));
    assert_eq!(touched(&[("    build: {by: printed, laid: on_edge}\n", ""), shared]), (Vec::new(), Vec::new()));
}

#[test]
fn a_corner_without_radius_takes_the_assumed_notch_and_says_so() {
    let none = (", fillet: 2 mm", "");
    let root = row(ROOT, &[none]);
    assert!((root.reserve / (24e6 / (137.5 / 800e-6 * 2.2)) - 1.0).abs() < 1e-6);
    assert!(numbers(ROOT, &[none]).contains("2.2 times the mean stress is assumed"));
    assert!(numbers(TENSION, &[("\n      fillet: 1.5 mm,", "")]).contains("is assumed"));
    assert!(numbers(BAND_PULL, &[BAND, (", fillet: 5 mm", "")]).contains("is assumed"));
    // One as sharp as a knife has no such factor at all.
    assert_eq!(verdict(TENSION, &[("fillet: 1.5 mm", "fillet: 0.1 mm")]), Verdict::NotJudged);
}

#[test]
fn a_wet_track_is_as_strong_as_its_state() {
    let wet = |more: &str| [("fatigue_share: 40 %,", format!("fatigue_share: 40 %, moisture: wet,{more}"))];
    let reserve = |more: &str| {
        let [(from, to)] = wet(more);
        row(TENSION, &[(from, &to)])
    };
    let half = reserve(" when_wet: {strength: 0.5, modulus: 1},");
    assert!((half.reserve / row(TENSION, &[]).reserve - 0.5).abs() < 1e-9);
    let unknown = reserve("");
    assert_eq!((unknown.verdict, unknown.says.as_str()), (Verdict::NotJudged, "when_wet"));
    // A soft wet band bends with less stress.
    let [(from, to)] = wet(" when_wet: {strength: 1, modulus: 0.5},");
    let band = row(BAND_PULL, &[BAND, SOFT, (from, &to)]).reserve;
    assert!(band > row(BAND_PULL, &[BAND, SOFT]).reserve);
}

#[test]
fn trials_and_coupons_without_figures_are_gaps() {
    for evidence in
        ["{coupons: [{strength: 30 MPa, across_layers: no}]}", "{coupons: [{temperature: 0 °C, across_layers: no}]}"]
    {
        let found = touched(&[("count: 1", &format!("count: 1\n    evidence: {evidence}"))]);
        assert_eq!(found.0, [TEAR_OUT, TENSION, ROOT], "{evidence}");
    }
    for evidence in ["{held: [{speed: 50 km/h}]}", "{held: [{air: 0 °C}]}"] {
        assert_eq!(touched(&[("count: 1", &format!("count: 1\n    evidence: {evidence}"))]).0.len(), 4, "{evidence}");
    }
}

#[test]
fn flexing_asks_only_for_what_bends() {
    let gone = |text: &str| {
        let rows = rows(&[BAND, SOFT, (text, "")]);
        rows.iter().find(|row| row.check == "band flexing").unwrap().verdict
    };
    for text in ["    slack_tension: 100 N\n", "    mass: 2 kg\n", "    sprocket_teeth: 9\n", ", net_width: 90 mm"] {
        assert_eq!(gone(text), Verdict::Sound, "{text}");
    }
    for text in [
        "    smallest_wheel: {radius: 40 mm}\n",
        ", thickness: 4 mm",
        "tensile_strength: 60 MPa,",
        "    material: plastic\n",
    ] {
        assert_eq!(gone(text), Verdict::NotJudged, "{text}");
    }
}

#[test]
fn a_track_that_does_not_say_how_wet_it_is_is_as_weak_as_one_that_lay_in_a_room_and_says_so() {
    let nylon = |moisture: &str| {
        let to = format!(
            "fatigue_share: 40 %, {moisture}when_conditioned: {{strength: 0.65, modulus: 0.5}}, when_wet: {{strength: 0.4, modulus: 0.3}},"
        );
        row(TENSION, &[("fatigue_share: 40 %,", &to)])
    };
    let (unsaid, said) = (nylon(""), nylon("moisture: conditioned, "));
    assert!((unsaid.reserve / row(TENSION, &[]).reserve - 0.65).abs() < 1e-9, "{unsaid:?}");
    assert_eq!((unsaid.reserve, unsaid.assumed.as_slice()), (said.reserve, &["moisture".to_string()][..]));
    assert!(said.assumed.is_empty(), "{said:?}");
    // A bent band is softer by it, and a shrinking track pulls less.
    let cold = [("air: 23 °C, grade", "air: -17 °C, grade"), BAND, SOFT];
    let of = |moisture: &str| {
        let to = format!("fatigue_share: 40 %, {moisture}when_conditioned: {{strength: 1, modulus: 0.5}},");
        row("band flexing", &[&cold[..], &[("fatigue_share: 40 %,", to.as_str())]].concat()).reserve
    };
    assert!((of("") / of("moisture: dry, ") - 2.0).abs() < 1e-9);
}
