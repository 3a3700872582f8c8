use crate::StrainerLoss;
use rule::prelude::*;
use trial::Row;

const LOOP: &str = "
environment: {air: -15 °C to 30 °C, relative_humidity: 50 %, altitude: 0 m, assembled_at: 20 °C}
cases:
  cold: {kind: cold_start}
  climb: {kind: climb, air: 20 °C}
coolants: {mix: {kind: glycol_water, glycol: ethylene}}
cooling:
  coolant: {fluid: mix, glycol: 50 %, share_by: mass, mixed_by_eye: no, volume: 400 mL, filled_at: 20 °C}
  reservoir: {gas_space: 60 mL, lid: {closes: vented}}
  pump: {works_by: positive_displacement, free_flow: 1.4 L/min, stall_pressure: 150 kPa, power: 9 W, runs: always}
  hoses: {rest: {bore: 8 mm, wall: 2 mm, length: 1.5 m}}
  circuit:
    - {kind: reservoir}
    - {kind: pump}
    - {kind: strainer, name: sieve, mesh: 0.2 mm, open_area: 3 cm², clogged: 50 %}
    - {kind: exchanger, name: deck, channel: {width: 6 mm, depth: 4 mm, length: 1 m}, outside: {area: 0.1 m², heat_transfer: 60 W/(m²·K)}}
    - {kind: plate, name: switches, heat: 60 W, channel: {width: 2 mm, depth: 4 mm, length: 0.5 m, count: 3}, contact_resistance: 0.05 K/W}
    - {kind: hose, hose: rest}
";
const CLEAN: &str = "loss when clean";
const CLOGGED: &str = "loss when clogged";
const NARROW: &str = "narrowest channel";
const ICE: &str = "ice at the first start";
const SMALL: (&str, &str) = ("open_area: 3 cm²", "open_area: 0.04 cm²");

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    let mut text = LOOP.to_string();
    for (from, to) in changes {
        assert!(text.contains(from), "{from}");
        text = text.replace(from, to);
    }
    trial::review(&StrainerLoss, &text)
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    let all = rows(changes);
    all.iter().find(|row| row.check == check).unwrap_or_else(|| panic!("{check}: {all:?}")).clone()
}

#[test]
fn fails_when_it_is_too_small_too_coarse_or_iced_up() {
    let small = row(CLEAN, &[SMALL]);
    assert_eq!(
        (small.verdict, small.subject.as_str(), small.case.as_str()),
        (Verdict::Fails, "sieve", "cold"),
        "{small:?}"
    );
    assert!(row(CLOGGED, &[SMALL]).verdict == Verdict::Fails && small.says.contains("even clean"));
    let coarse = row(NARROW, &[("mesh: 0.2 mm", "mesh: 2.5 mm")]);
    assert!(coarse.verdict == Verdict::Fails && coarse.says.contains("switches"), "{coarse:?}");
    // 20 % of ethylene glycol freezes at −8 °C.
    let ice = row(ICE, &[("glycol: 50 %", "glycol: 20 %")]);
    assert!(ice.verdict == Verdict::Fails && (ice.reserve + 15.0 - 7.9).abs() < 0.5, "{ice:?}");
}

#[test]
fn thin_with_two_meshes_in_a_channel_or_three_kelvin_by_eye() {
    assert_eq!(row(NARROW, &[("mesh: 0.2 mm", "mesh: 1 mm")]).verdict, Verdict::Thin);
    // 33 % freezes at some −16 °C: three to five kelvin are left at −12 °C.
    let by_eye = [("glycol: 50 %", "glycol: 33 %"), ("air: -15 °C", "air: -12 °C")];
    assert_eq!(row(ICE, &by_eye).verdict, Verdict::Sound);
    let guessed = [by_eye[0], by_eye[1], ("mixed_by_eye: no", "mixed_by_eye: yes")];
    assert_eq!(row(ICE, &guessed).verdict, Verdict::Thin);
    let unsaid = row(ICE, &[by_eye[0], by_eye[1], ("mixed_by_eye: no, ", "")]);
    assert_eq!((unsaid.verdict, unsaid.assumed), (Verdict::Thin, vec!["mixed_by_eye".to_string()]));
}

#[test]
fn sound_as_it_should_be() {
    assert!(rows(&[]).iter().all(|row| row.verdict == Verdict::Sound), "{:#?}", rows(&[]));
    assert_eq!(rows(&[]).len(), 4);
}

#[test]
fn each_gap_hides_what_needs_it() {
    // In the order of the checks: ice, clean, clogged, narrowest channel.
    let verdicts = |changes: &[(&str, &str)]| rows(changes).iter().map(|row| row.verdict).collect::<Vec<_>>();
    let (sound, not) = (Verdict::Sound, Verdict::NotJudged);
    assert_eq!(verdicts(&[(", open_area: 3 cm²", "")]), [sound, not, not, sound]);
    assert_eq!(verdicts(&[("mesh: 0.2 mm, ", "")]), [sound, not, not, not]);
    assert_eq!(verdicts(&[("stall_pressure: 150 kPa, ", "")]), [sound, not, not, sound]);
    assert_eq!(verdicts(&[("glycol: 50 %, ", "")]), [not, not, not, sound]);
    assert!(row(CLOGGED, &[(", clogged: 50 %", "")]).assumed.contains(&"clogged".to_string()));
    assert!(!row(CLEAN, &[(", clogged: 50 %", "")]).assumed.contains(&"clogged".to_string()));
}

#[test]
fn the_exact_boundary() {
    let at = |mm: f64| row(NARROW, &[("mesh: 0.2 mm", &format!("mesh: {mm} mm"))]);
    assert_eq!((at(2.0).verdict, at(2.000001).verdict), (Verdict::Thin, Verdict::Fails));
    assert!((at(0.5).reserve - 4.0).abs() < 1e-12 && at(0.5).verdict == Verdict::Sound);
    let area = |square: f64| row(CLEAN, &[("open_area: 3 cm²", &format!("open_area: {square:.12} cm²"))]);
    let (mut fails, mut sound) = (0.05, 3.0);
    for _ in 0..45 {
        let middle = 0.5 * (fails + sound);
        if area(middle).verdict == Verdict::Sound { sound = middle } else { fails = middle }
    }
    assert!(area(fails).verdict == Verdict::Fails && (area(sound).reserve - 1.0).abs() < 1e-6);
}

#[test]
fn more_open_area_never_lowers_a_reserve() {
    let mut before = [0.0; 2];
    for step in 1..30 {
        let open = format!("open_area: {:.2} cm²", f64::from(step) * 0.1);
        for (slot, check) in before.iter_mut().zip([CLEAN, CLOGGED]) {
            let now = row(check, &[("open_area: 3 cm²", &open)]).reserve;
            assert!(now > *slot, "{check} at {open}");
            *slot = now;
        }
    }
}

#[test]
fn what_freezes_solid_is_judged_all_the_same() {
    // The loop itself has no answer below the freezing point; ice is the answer.
    let water = [("kind: glycol_water, glycol: ethylene", "kind: water"), ("glycol: 50 %, share_by: mass, ", "")];
    assert_eq!(row(ICE, &water).verdict, Verdict::Fails);
    let indoors = [("cold: {kind: cold_start}", "in: {kind: brought_indoors, air: 20 °C}")];
    assert_eq!(row(ICE, &indoors).case, "climb");
}
