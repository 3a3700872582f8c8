use crate::MemberStrength;
use rule::prelude::*;
use trial::Row;

/// A cantilever of 20 × 10 mm under 100 N at 200 mm: M = 20 N·m, W = 10·20²/6 mm³ = 666.7 mm³, σ = 30 MPa.
const BAR: &str = "
environment: {air: 23 °C, relative_humidity: 50 %, altitude: 0 m}
cases: {drive: {kind: cruise, speed: 5 km/h}}
materials:
  plastic: {family: polymer, modulus: 2 GPa, tensile_strength: 60 MPa, shear_strength: 30 MPa}
  steel: {family: metal, modulus: 206 GPa, yield_strength: 300 MPa, shear_strength: 200 MPa}
  fibre: {family: fibre_composite, modulus: 120 GPa, tensile_strength: 1200 MPa, compressive_strength: 800 MPa}
structure:
  parts:
    tail:
      material: plastic
      section: {kind: rectangle, height: 20 mm, width: 10 mm}
      span: 200 mm
      supports: cantilever
      pushed: {hand: {from: force, force: 100 N, share: 100 %, at: 200 mm, direction: in_height, lever: 0 mm}}
      notch: 1
";

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&MemberStrength, &trial::changed(BAR, changes))
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| row.check == check).unwrap()
}

#[test]
fn fails() {
    let thin = row("bending", &[("height: 20 mm", "height: 12 mm")]);
    assert_eq!(thin.verdict, Verdict::Fails);
    assert!(thin.says.contains("snaps"), "{}", thin.says);
    let bumper = row("bending", &[("height: 20 mm, width: 10 mm", "height: 2 mm, width: 2 mm")]);
    assert!(bumper.reserve < 0.01, "{bumper:?}");
}

#[test]
fn thin() {
    assert_eq!(row("bending", &[("force: 100 N", "force: 150 N")]).verdict, Verdict::Thin);
}

#[test]
fn sound_and_by_hand() {
    let sound = row("bending", &[]);
    assert_eq!((sound.verdict, sound.assumed.len()), (Verdict::Sound, 0), "{sound:?}");
    assert!((sound.reserve - 2.0).abs() < 1e-9, "{sound:?}");
    // Sideways: W = 20·10²/6 mm³, half as much.
    assert!((row("bending", &[("in_height", "in_width")]).reserve - 1.0).abs() < 1e-9);
    // Along: 100 N on 200 mm², and buckling by Euler: π²·2 GPa·1667 mm⁴/(2·0.2 m)².
    let along = [("direction: in_height", "direction: along")];
    assert!((row("bending", &along).reserve - 60.0 / 0.5).abs() < 1e-6);
    let euler = core::f64::consts::PI * core::f64::consts::PI * 2e9 * 20e-3 * 1e-6 / 12.0 / 0.16;
    assert!((row("buckling", &along).reserve * 100.0 / euler - 1.0).abs() < 1e-6, "{:?}", row("buckling", &along));
}

#[test]
fn not_judged() {
    for (gap, says) in [
        ("      material: plastic\n", "material"),
        ("      section: {kind: rectangle, height: 20 mm, width: 10 mm}\n", "section"),
        ("      span: 200 mm\n", "span"),
        ("modulus: 2 GPa, ", "modulus"),
        ("tensile_strength: 60 MPa, ", "tensile_strength"),
        (" force: 100 N,", "force"),
    ] {
        let gone = row("bending", &[(gap, "")]);
        assert_eq!((gone.verdict, gone.says.as_str()), (Verdict::NotJudged, says), "{gap}");
    }
    let held = row("bending", &[("      supports: cantilever\n", "")]);
    assert!(held.verdict == Verdict::NotJudged && held.says.contains("how it is held"), "{held:?}");
    let pushed = "      pushed: {hand: {from: force, force: 100 N, share: 100 %, at: 200 mm, direction: in_height, lever: 0 mm}}\n";
    let untold = row("bending", &[(pushed, "")]);
    assert!(untold.verdict == Verdict::NotJudged && untold.says.contains("pushed"), "{untold:?}");
    // What the language takes in place of what is left out shows as assumed.
    for (gap, named) in [(" share: 100 %,", "share"), (" at: 200 mm,", "at"), ("      notch: 1\n", "notch")] {
        let assumed = row("bending", &[(gap, "")]);
        assert!(assumed.assumed.contains(&named.to_string()), "{assumed:?}");
        assert!((assumed.reserve - 2.0).abs() < 1e-9, "{assumed:?}");
    }
}

#[test]
fn the_exact_boundary() {
    let below = row("bending", &[("force: 100 N", "force: 133.3332 N")]);
    let above = row("bending", &[("force: 100 N", "force: 133.3334 N")]);
    assert_eq!((below.verdict, above.verdict), (Verdict::Sound, Verdict::Thin));
}

#[test]
fn more_height_never_lowers_the_reserve() {
    let reserve = |height: u32| row("bending", &[("height: 20 mm", &format!("height: {height} mm"))]).reserve;
    let reserves: Vec<f64> = (4..40).map(reserve).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] > pair[0]));
}

#[test]
fn glued_rods_are_worth_more_than_rods_slid_in() {
    let with = |bond: &str| {
        let rods = format!(
            "span: 200 mm\n      rods: {{material: fibre, diameter: 5 mm, count: 2, offset: 7 mm, bond: {bond}, lie: above_one_another}}"
        );
        rows(&[("span: 200 mm", &rods), ("supports: cantilever", "supports: cantilever")])
    };
    let find = |rows: &[Row], check: &str| rows.iter().find(|row| row.check == check).unwrap().clone();
    let hot = with("glued");
    let (glued, slid) = (find(&hot, "bending").reserve, find(&with("slid_in"), "bending").reserve);
    assert!(glued > 3.0 * slid, "{glued} {slid}");
    assert!(find(&hot, "rods").verdict == Verdict::Sound);
}

#[test]
fn what_a_part_held_or_broke_at_beats_the_catalogue() {
    let held = row(
        "bending",
        &[(
            "      notch: 1\n",
            "      notch: 1\n      held: [{force: 300 N, air: 23 °C, at: 200 mm, direction: in_height}]\n",
        )],
    );
    assert!((held.reserve - 3.0).abs() < 1e-9, "{held:?}");
    let broke = row(
        "bending",
        &[(
            "      notch: 1\n",
            "      notch: 1\n      broke: [{force: 120 N, air: 23 °C, at: 200 mm, direction: in_height}]\n",
        )],
    );
    assert!((broke.reserve - 1.2).abs() < 1e-9, "{broke:?}");
}

#[test]
fn a_middle_support_takes_the_load_off_and_metal_counts_by_yield() {
    let three = row(
        "bending",
        &[("supports: cantilever", "stations: [{x: 0 mm, holds: clamped}, {x: 150 mm, holds: pivoted}]")],
    );
    assert!(three.reserve > 5.0, "{three:?}");
    let steel = row("bending", &[("material: plastic", "material: steel")]);
    assert!(steel.reserve > 9.5 && steel.reserve < 10.0, "{steel:?}");
}

#[test]
fn a_lever_twists() {
    let twisted = row("twist", &[("lever: 0 mm", "lever: 50 mm")]);
    // W of 20 × 10: 20·10²/(3·1.35796) mm³ (Roark); 5 N·m and the force across, 1.5·100/200 MPa.
    let by_hand = 30.0 / (5.0 / (2000.0 / (3.0 * 1.357_962_5)) * 1e3 + 0.75);
    assert!((twisted.reserve / by_hand - 1.0).abs() < 1e-9, "{twisted:?} {by_hand}");
    assert!(rows(&[]).iter().all(|row| row.check != "twist"));
}

/// A printed rail of 20 × 20 mm, clamped, and a hand that pulls with 350 N at 200 mm.
const RAIL: &str = "
environment: {air: 20 °C, relative_humidity: 50 %, altitude: 0 m}
cases: {by_hand: {kind: idle}}
structure:
  printing: {by: printed, line_width: 0.45 mm, walls: 4, infill: 30 %}
  parts:
    rail:
      material: tough_pla
      build: {by: printed, laid: flat_on_bed}
      section: {kind: rectangle, height: 20 mm, width: 20 mm}
      span: 200 mm
      supports: cantilever
      pushed: {hand: {from: force, force: 350 N, at: 200 mm}}
";

#[test]
fn a_printed_rail_with_two_pultruded_rods_cannot_be_snapped_by_hand_where_the_plain_one_can() {
    // Common practice, no source.
    let rows = |changes: &[(&str, &str)]| trial::review(&MemberStrength, &trial::changed(RAIL, changes));
    let rods =
        "span: 200 mm\n      rods: {material: pultruded_carbon, diameter: 5 mm, count: 2, offset: 6 mm, bond: glued}";
    let reserve = |rows: Vec<Row>| {
        rows.iter().filter(|row| !row.reserve.is_nan()).map(|row| row.reserve).fold(f64::INFINITY, f64::min)
    };
    let (plain, stiffened) = (reserve(rows(&[])), reserve(rows(&[("span: 200 mm", rods)])));
    assert!(plain < 1.0 && stiffened > 1.5, "{plain} {stiffened}");
}

#[test]
fn continuous_fibre_laid_level_is_many_times_stronger_in_its_plane_than_across_it() {
    // Common practice, no source: what eight strands of 2 mm add to a flat bar, its own shape apart.
    let reserve = |way: &str, fibre: bool| {
        let rods = if fibre {
            "span: 200 mm\n      rods: {material: continuous_carbon, diameter: 2 mm, count: 8, offset: 13 mm, bond: glued, lie: side_by_side}"
        } else {
            "span: 200 mm"
        };
        let to = format!("at: 200 mm, direction: {way}}}}}");
        let changes = [
            ("material: tough_pla", "material: pa_short_carbon"),
            ("height: 20 mm, width: 20 mm", "height: 8 mm, width: 30 mm"),
            ("laid: flat_on_bed}", "laid: flat_on_bed, infill: 100 %}"),
            ("at: 200 mm}}", to.as_str()),
            ("span: 200 mm", rods),
        ];
        let rows = trial::review(&MemberStrength, &trial::changed(RAIL, &changes));
        rows.into_iter().find(|row| row.check == "bending").unwrap().reserve
    };
    let gain = |way: &str| reserve(way, true) / reserve(way, false);
    assert!(gain("in_width") > 2.5 && gain("in_height") < 1.3, "{} {}", gain("in_width"), gain("in_height"));
}

#[test]
fn a_print_of_which_nobody_says_how_it_lay_is_taken_as_standing_and_shows_it() {
    let rows = |changes: &[(&str, &str)]| trial::review(&MemberStrength, &trial::changed(RAIL, changes));
    let bent = |rows: Vec<Row>| rows.into_iter().find(|row| row.check == "bending");
    let unsaid = bent(rows(&[(", laid: flat_on_bed", "")])).unwrap();
    assert!(unsaid.assumed.contains(&"laid".to_string()), "{unsaid:?}");
    assert!(unsaid.reserve < bent(rows(&[])).unwrap().reserve);
    assert!(bent(rows(&[("laid: flat_on_bed", "laid: standing")])).is_none());
}
