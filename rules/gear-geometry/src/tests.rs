use crate::GearGeometry;
use rule::prelude::*;
use trial::Row;

/// 17 and 40 teeth of 1.5 mm: tight at 42.75 mm. Steel throughout, so that 43 °C of warmth changes nothing to speak of.
const SPEC: &str = "
machine: {name: trial, mass: 40 kg}
environment: {air: 20 °C to 40 °C, relative_humidity: 60 %, altitude: 0 m, assembled_at: 20 °C}
zones: {case: {volume: 1 L, air_rise: 10 K, moisture: breathes}}
cases:
  climb: {kind: climb, grade: 15 °, speed: 6 km/h, duration: 20 min}
materials:
  steel: {family: metal, expansion: 12 µm/(m·K)}
  nylon: {family: polymer, expansion: 80 µm/(m·K), moisture: dry, moisture_swelling: 2 %, friction: 0.2}
structure: {parts: {plate: {material: steel, zone: case}}}
powertrain:
  battery: {cells: {series: 12, parallel: 4, nominal_voltage: 3.6 V, kind: li_ion_21700}, resistance: 60 mΩ}
  controller: {current_limit: {battery: 60 A, motor: 80 A}, timing_advance: 0 °, efficiency: 95 %}
  motor: {count: 1, speed_constant: 120 rpm/V, resistance: 35 mΩ, no_load_current: 2 A, mount: {part: plate, screws: 4 x M5, slotted: yes}}
  stages:
    - name: first
      kind: spur
      module: 1.5 mm
      pressure_angle: 20 °
      face_width: 14 mm
      centre_distance: 42.9 mm
      pinion: {teeth: 17, material: steel, profile_shift: 0, build: {by: machined}}
      wheel: {teeth: 40, material: steel, profile_shift: 0, build: {by: machined}, web: {vents: 6, vent_diameter: 8 mm, vents_at: 20 mm}}
      lubrication: grease
      housing: plate
      efficiency: 95 %
  track: {pitch: 40 mm, links: 46, mass: 2 kg, sprocket_teeth: 9, adhesion: 0.9, rolling_resistance: 0.1, slack_tension: 90 N, tensioner: {by: none}}
";

fn changed(changes: &[(&str, &str)]) -> String {
    trial::changed(SPEC, changes)
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    let rows = trial::review(&GearGeometry, &changed(changes));
    rows.into_iter().find(|row| row.check == check).unwrap_or_else(|| panic!("no {check}"))
}

fn verdict(check: &str, changes: &[(&str, &str)]) -> Verdict {
    row(check, changes).verdict
}

const APART: (&str, &str) = ("42.9 mm", "44.4 mm");
const PLASTIC_PLATE: (&str, &str) = ("plate: {material: steel", "plate: {material: nylon");

#[test]
fn fails() {
    let few = [("teeth: 17", "teeth: 11"), ("42.9 mm", "38.4 mm")];
    assert_eq!(verdict("pinion undercut", &few), Verdict::Fails);
    assert_eq!(verdict("contact ratio", &[APART]), Verdict::Fails);
    let pointed = [
        ("teeth: 17, material: steel, profile_shift: 0", "teeth: 17, material: steel, profile_shift: 1"),
        ("42.9", "44.3"),
    ];
    assert_eq!(verdict("pinion tip", &pointed), Verdict::Fails);
    // Wet nylon of 60 mm grows by 0.6 mm on the radius.
    let wet = [("teeth: 40, material: steel", "teeth: 40, material: nylon"), ("moisture: dry", "moisture: wet")];
    let jammed = row("play", &wet);
    assert_eq!(jammed.verdict, Verdict::Fails);
    assert!(jammed.says.contains("jam") && jammed.reserve < 0.0, "{jammed:?}");
    assert_eq!(verdict("wheel rim", &[("vents_at: 20 mm", "vents_at: 23 mm")]), Verdict::Fails);
    assert_eq!(verdict("motor in its slots", &[PLASTIC_PLATE]), Verdict::Fails);
}

#[test]
fn thin() {
    let fifteen = [("teeth: 17", "teeth: 15"), ("42.9 mm", "41.4 mm")];
    assert_eq!(verdict("pinion undercut", &fifteen), Verdict::Thin);
    assert_eq!(verdict("contact ratio", &[("42.9 mm", "43.6 mm")]), Verdict::Thin);
    assert_eq!(verdict("play", &[("42.9 mm", "42.8 mm")]), Verdict::Thin);
    // The root circle of 40 teeth has 28.125 mm; a vent up to 25.8 mm leaves 2.325 mm, of 3.375 mm.
    let near = row("wheel rim", &[("vents_at: 20 mm", "vents_at: 21.8 mm")]);
    assert!((near.reserve - 2.325 / 1.6875).abs() < 1e-9 && near.verdict == Verdict::Thin, "{near:?}");
}

#[test]
fn sound_and_by_hand() {
    let rows = trial::review(&GearGeometry, &changed(&[]));
    assert!(rows.iter().all(|row| row.verdict == Verdict::Sound && row.assumed.is_empty()), "{rows:#?}");
    assert_eq!(rows.len(), 8);
    let reserve = |check: &str| row(check, &[]).reserve;
    assert_eq!((reserve("pinion undercut"), reserve("wheel undercut")), (3.0, 26.0));
    // αw = 20.54°; m·cosα·57·(inv αw − inv α)/cos αw = 0.111 mm; steel in steel keeps its play.
    assert!((reserve("play") - 0.1110e-3).abs() < 0.1e-6, "{}", reserve("play"));
    assert!((reserve("contact ratio") - 1.516).abs() < 2e-3, "{}", reserve("contact ratio"));
}

#[test]
fn the_exact_boundary() {
    let at = |centre: f64| row("play", &[("42.9 mm", &format!("{centre:.12} mm"))]);
    let (mut thin, mut sound) = (42.75, 43.0);
    for _ in 0..40 {
        let middle = (sound + thin) / 2.0;
        if at(middle).verdict == Verdict::Sound { sound = middle } else { thin = middle }
    }
    assert_eq!((at(sound).verdict, at(thin).verdict), (Verdict::Sound, Verdict::Thin));
    assert!((at(sound).reserve - 0.045e-3).abs() < 1e-9 && at(sound).headroom.abs() < 1e-5);
    // 17 teeth are just enough, and 14 just not wrong.
    assert_eq!(row("pinion undercut", &[]).headroom, 0.0);
    let fourteen = row("pinion undercut", &[("teeth: 17", "teeth: 14"), ("42.9 mm", "40.65 mm")]);
    assert_eq!((fourteen.reserve, fourteen.verdict), (0.0, Verdict::Thin));
}

#[test]
fn more_distance_never_lowers_the_play_and_never_raises_the_contact_ratio() {
    let reserves = |check: &str| -> Vec<f64> {
        (0..10)
            .map(|step| row(check, &[("42.9 mm", &format!("{} mm", 42.75 + 0.1 * f64::from(step)))]).reserve)
            .collect()
    };
    assert!(reserves("play").windows(2).all(|pair| pair[1] > pair[0]));
    assert!(reserves("contact ratio").windows(2).all(|pair| pair[1] < pair[0]));
}

#[test]
fn each_gap_hides_only_what_needs_it() {
    let hidden = |changes: &[(&str, &str)]| -> Vec<&'static str> {
        let rows = trial::review(&GearGeometry, &changed(changes));
        rows.into_iter().filter(|row| row.verdict == Verdict::NotJudged).map(|row| row.check).collect()
    };
    assert_eq!(hidden(&[("      centre_distance: 42.9 mm\n", "")]), ["contact ratio", "motor in its slots", "play"]);
    assert_eq!(
        hidden(&[("teeth: 17, ", "")]),
        ["contact ratio", "motor in its slots", "pinion tip", "pinion undercut", "play"]
    );
    assert_eq!(hidden(&[("      module: 1.5 mm\n", "")]).len(), 8);
    assert_eq!(hidden(&[("      housing: plate\n", "")]), ["contact ratio", "play"]);
    assert_eq!(hidden(&[("expansion: 12 µm/(m·K)", "density: 7850 kg/m³")]), ["contact ratio", "play"]);
    assert_eq!(hidden(&[("      face_width: 14 mm\n", "")]), ["contact ratio"]);
    assert_eq!(hidden(&[(", vents_at: 20 mm", "")]), ["wheel rim"]);
    assert_eq!(hidden(&[("vents: 6, ", "")]), ["wheel rim"]);
    assert_eq!(
        hidden(&[("profile_shift: 0, build: {by: machined}}\n      wheel", "profile_shift: 0}\n      wheel")]),
        ["pinion tip"]
    );
    assert_eq!(hidden(&[("build: {by: machined}, web", "build: {by: printed}, web")]), ["wheel tip"]);
    assert_eq!(hidden(&[("screws: 4 x M5, ", "")]), ["motor in its slots"]);
    assert_eq!(hidden(&[("screws: 4 x M5", "screws: four big ones")]), ["motor in its slots"]);
    let dry = [
        ("teeth: 40, material: steel", "teeth: 40, material: nylon"),
        (" moisture: dry, moisture_swelling: 2 %,", " moisture: wet,"),
    ];
    assert_eq!(hidden(&dry), ["contact ratio", "play"]);
    let assumed = |changes: &[(&str, &str)]| {
        let rows = trial::review(&GearGeometry, &changed(changes));
        rows.into_iter().filter(|row| !row.assumed.is_empty()).map(|row| (row.check, row.assumed)).collect::<Vec<_>>()
    };
    let named = assumed(&[("      pressure_angle: 20 °\n", "")]);
    assert!(named.len() == 8 && named.iter().all(|row| row.1 == ["pressure_angle"]), "{named:?}");
    assert!(
        assumed(&[("teeth: 17, material: steel, profile_shift: 0", "teeth: 17, material: steel")])
            .iter()
            .all(|row| row.1 == ["profile_shift"])
    );
}

#[test]
fn measured_play_speaks_for_itself() {
    let measured = row("play", &[("42.9 mm\n", "42.9 mm\n      backlash: 0.2 mm\n")]);
    assert!((measured.reserve - 0.2e-3).abs() < 1e-6, "{measured:?}");
}

#[test]
fn helical_gears_count_their_overlap_and_want_their_helix() {
    let slanting = [("kind: spur", "kind: helical\n      helix: 15 °"), ("42.9 mm", "44.5 mm")];
    assert!(row("contact ratio", &slanting).reserve > 2.0);
    assert_eq!(row("contact ratio", &[("kind: spur", "kind: helical")]).says, "helix");
}

#[test]
fn printed_tips_want_two_lines_and_hardened_ones_more() {
    // 12 teeth shifted by 0.5: 0.24 mm of tip on a module of 1.5 mm.
    let shifted = (
        "teeth: 17, material: steel, profile_shift: 0, build: {by: machined}",
        "teeth: 17, material: steel, profile_shift: 0.5, build: {by: machined}",
    );
    let distance = ("42.9 mm", "43.5 mm");
    let made =
        |by: &str| row("pinion tip", &[shifted, distance, ("profile_shift: 0.5, build: {by: machined}", by)]).reserve;
    let machined = made("profile_shift: 0.5, build: {by: machined}");
    assert!((made("profile_shift: 0.5, build: {by: hardened}") * 2.0 - machined).abs() < 1e-9);
    let printed = made("profile_shift: 0.5, build: {by: printed, line_width: 0.5 mm}");
    assert!((printed * 1.0 - machined * 0.3).abs() < 1e-9);
}

#[test]
fn slots_are_asked_only_of_a_driven_motor_in_slots() {
    let gone = |changes: &[(&str, &str)]| {
        trial::review(&GearGeometry, &changed(changes)).iter().all(|row| row.check != "motor in its slots")
    };
    assert!(gone(&[("slotted: yes", "slotted: no")]));
    assert!(gone(&[(", mount: {part: plate, screws: 4 x M5, slotted: yes}", "")]));
    assert!(gone(&[("kind: climb, grade: 15 °, speed: 6 km/h, duration: 20 min", "kind: soak")]));
    assert!(!gone(&[]));
    let held = |screws: &str| row("motor in its slots", &[("4 x M5", screws)]).reserve;
    assert!((held("8 x M5") / held("4 x M5") - 2.0).abs() < 1e-9 && held("4 x M6") > held("4 x M5"));
}

#[test]
fn what_is_no_gear_is_answered_in_words() {
    for (from, to) in [("teeth: 17", "teeth: 4"), ("42.9 mm", "30 mm"), ("profile_shift: 0,", "profile_shift: 9,")] {
        let rows = trial::review(&GearGeometry, &changed(&[(from, to)]));
        assert!(rows.iter().all(|row| row.verdict != Verdict::Broken), "{rows:?}");
        assert!(rows.iter().any(|row| row.verdict == Verdict::NotJudged), "{from}");
    }
}
