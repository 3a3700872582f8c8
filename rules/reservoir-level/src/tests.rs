use crate::ReservoirLevel;
use rule::prelude::*;
use trial::Row;

const LOOP: &str = "
environment: {air: -25 °C to 20 °C, relative_humidity: 50 %, altitude: 0 m to 800 m, assembled_at: 20 °C}
cases:
  soak: {kind: soak, air: -25 °C}
  cold: {kind: cold_start, after: soak, air: -25 °C}
  climb: {kind: climb, air: 20 °C}
coolants: {mix: {kind: glycol_water, glycol: ethylene}}
materials:
  rubber: {family: elastomer, modulus: 4 MPa, poisson: 0.49}
  print: {family: printed_polymer, modulus: 2 GPa, modulus_at: {-40 °C: 1.2, 23 °C: 1, 80 °C: 0.6}}
cooling:
  coolant: {fluid: mix, glycol: 50 %, share_by: mass, volume: 300 mL, filled_at: 20 °C, trapped_air: 1 %}
  reservoir: {gas_space: 80 mL, plan_area: 20 cm², outlet_depth: 25 mm, walls: {material: print, thickness: 3 mm, width: 40 mm}, lid: {closes: closed, pressure_max: 60 kPa, vacuum_valve: 3 kPa}}
  pump: {works_by: positive_displacement, free_flow: 1.4 L/min, stall_pressure: 150 kPa, power: 9 W, runs: always, height_above_level: 0 mm}
  hoses: {rest: {bore: 8 mm, wall: 2 mm, material: rubber, length: 2 m}}
  circuit:
    - {kind: reservoir}
    - {kind: pump}
    - {kind: exchanger, name: deck, height_above_level: 0 mm, channel: {width: 6 mm, depth: 4 mm, length: 1 m}, outside: {area: 0.1 m², heat_transfer: 60 W/(m²·K)}}
    - {kind: plate, name: switches, height_above_level: 0 mm, heat: 90 W, channel: {width: 6 mm, depth: 4 mm, length: 0.5 m}, contact_resistance: 0.05 K/W}
    - {kind: hose, hose: rest}
";
const COVERED: &str = "outlet covered";
const ROOM: &str = "room for warm coolant";
const LID: &str = "lid holds";
const SEAL: &str = "meltwater past the lid";
const WALLS: &str = "walls drawn in";
const TIGHT: (&str, &str) = (", vacuum_valve: 3 kPa", "");

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    let mut text = LOOP.to_string();
    for (from, to) in changes {
        assert!(text.contains(from), "{from}");
        text = text.replace(from, to);
    }
    trial::review(&ReservoirLevel, &text)
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    let all = rows(changes);
    all.iter().find(|row| row.check == check).unwrap_or_else(|| panic!("{check}: {all:?}")).clone()
}

#[test]
fn fails_cold_and_hot() {
    let shallow = row(COVERED, &[("outlet_depth: 25 mm", "outlet_depth: 3 mm")]);
    assert_eq!((shallow.verdict, shallow.case.as_str()), (Verdict::Fails, "cold"), "{shallow:?}");
    let full = [
        ("gas_space: 80 mL", "gas_space: 8 mL"),
        ("air: 20 °C}", "air: 45 °C}"),
        ("modulus: 4 MPa", "modulus: 400 MPa"),
    ];
    let lid = row(LID, &full);
    assert!(lid.verdict == Verdict::Fails && lid.case == "climb" && lid.says.contains("opens the lid"), "{lid:?}");
    assert_ne!(row(ROOM, &full).verdict, Verdict::Sound);
    // Closed at 20 °C and left at −25 °C: the gas shrinks to 0.85 and the coolant makes room.
    let seal = row(SEAL, &[TIGHT]);
    assert!(seal.verdict == Verdict::Fails && seal.reserve > 0.35 && seal.reserve < 0.6, "{seal:?}");
    let weak = row(WALLS, &[TIGHT, ("thickness: 3 mm, width: 40 mm", "thickness: 1 mm, width: 60 mm")]);
    assert_eq!(weak.verdict, Verdict::Fails, "{weak:?}");
}

#[test]
fn thin_with_a_few_millimetres_over_the_outlet() {
    let deep = row(COVERED, &[]).reserve;
    let depth = |left: f64| format!("outlet_depth: {:.6} mm", 25.0 - deep * 1e3 + left);
    assert_eq!(row(COVERED, &[("outlet_depth: 25 mm", &depth(2.0))]).verdict, Verdict::Thin);
}

#[test]
fn sound_as_it_should_be() {
    assert!(rows(&[]).iter().all(|row| row.verdict == Verdict::Sound), "{:#?}", rows(&[]));
    assert_eq!(rows(&[]).len(), 5);
}

#[test]
fn the_level_by_hand() {
    // Cold, 300 mL shrink by some 2 %: over 20 cm² that is 3 mm; hoses and bubbles come on top.
    let density = |degrees| {
        let half = Ratio::from_si(0.5);
        physics::coolant::glycol_water(physics::coolant::Glycol::Ethylene, half, celsius(degrees)).unwrap().density
    };
    let shrunk = 300e-6 * (1.0 - (density(20.0) / density(-25.0)).si()) / 20e-4;
    let fallen = 25e-3 - row(COVERED, &[]).reserve;
    assert!(fallen > shrunk && fallen < shrunk + 4e-3, "{fallen} {shrunk}");
    // A measured drop stands in place of what hoses and bubbles would do.
    let measured = |mm: f64| {
        let to = format!("outlet_depth: 25 mm, level_drop: {mm} mm");
        25e-3 - row(COVERED, &[("outlet_depth: 25 mm", &to)]).reserve
    };
    assert!((measured(4.0) - measured(1.0) - 3e-3).abs() < 1e-9 && measured(0.0) < fallen);
}

#[test]
fn a_vented_reservoir_is_only_asked_about_its_level() {
    let vented = rows(&[("closes: closed, pressure_max: 60 kPa, vacuum_valve: 3 kPa", "closes: vented")]);
    assert_eq!(vented.iter().map(|row| row.check).collect::<Vec<_>>(), [COVERED, ROOM], "in this order");
}

#[test]
fn each_gap_hides_what_needs_it() {
    let verdicts = |changes: &[(&str, &str)]| rows(changes).iter().map(|row| row.verdict).collect::<Vec<_>>();
    let not = Verdict::NotJudged;
    assert_eq!(verdicts(&[("gas_space: 80 mL, ", "")]), [not; 5]);
    assert_eq!(verdicts(&[("volume: 300 mL, ", "")]), [not; 5]);
    assert_eq!(row(COVERED, &[("plan_area: 20 cm², ", "")]).verdict, not);
    assert_eq!(row(LID, &[("pressure_max: 60 kPa, ", "")]).verdict, not);
    assert_eq!(row(ROOM, &[("pressure_max: 60 kPa, ", "")]).verdict, Verdict::Sound);
    let walls = (", walls: {material: print, thickness: 3 mm, width: 40 mm}", "");
    assert_eq!(row(WALLS, &[walls, TIGHT]).verdict, not);
    assert!(row(COVERED, &[(", trapped_air: 1 %", "")]).assumed.contains(&"trapped_air".to_string()));
}

#[test]
fn the_exact_boundary() {
    let deep = row(COVERED, &[]).reserve;
    let depth = |left: f64| format!("outlet_depth: {:.6} mm", 25.0 - deep * 1e3 + left);
    let at = |left: f64| row(COVERED, &[("outlet_depth: 25 mm", &depth(left))]).verdict;
    assert_eq!([at(-0.001), at(0.001)], [Verdict::Fails, Verdict::Thin]);
    assert_eq!([at(4.999), at(5.001)], [Verdict::Thin, Verdict::Sound]);
}

#[test]
fn more_gas_never_presses_harder() {
    let mut before = 0.0;
    for millilitres in 12..120 {
        let space = format!("gas_space: {millilitres} mL");
        let now = row(LID, &[("gas_space: 80 mL", &space), ("air: 20 °C}", "air: 45 °C}")]).reserve;
        assert!(now >= before, "{space}: {now} after {before}");
        before = now;
    }
}
