use crate::LoopPressure;
use rule::prelude::*;
use trial::Row;

const LOOP: &str = "
environment: {air: -20 °C to 30 °C, relative_humidity: 50 %, altitude: 0 m to 0 m, assembled_at: 20 °C}
cases:
  cold: {kind: cold_start, air: -20 °C}
  climb: {kind: climb, air: 20 °C}
coolants: {mix: {kind: glycol_water, glycol: ethylene}}
materials:
  rubber: {family: elastomer, modulus: 5 MPa, poisson: 0.49, tensile_strength: 9 MPa, strength_at: {-40 °C: 1.3, 23 °C: 1, 100 °C: 0.7}, modulus_at: {-40 °C: 1.3, 23 °C: 1, 100 °C: 0.9}}
  print: {family: printed_polymer, modulus: 2 GPa, tensile_strength: 45 MPa, between_layer_strength: 25 MPa, strength_at: {-40 °C: 1.3, 23 °C: 1, 60 °C: 0.6}}
  alloy: {family: metal, yield_strength: 200 MPa}
structure:
  parts:
    base: {material: alloy}
    block: {material: print, build: {by: printed, laid: flat_on_bed}}
cooling:
  coolant: {fluid: mix, glycol: 50 %, share_by: mass, volume: 300 mL, filled_at: 20 °C}
  reservoir: {gas_space: 80 mL, lid: {closes: vented}}
  pump: {works_by: positive_displacement, free_flow: 1.4 L/min, stall_pressure: 100 kPa, power: 9 W, runs: always, pressure_max: 200 kPa}
  hoses:
    suction: {bore: 8 mm, wall: 2 mm, material: rubber, length: 0.3 m, clamped: no, barb: {diameter: 9.5 mm, length: 12 mm}}
    rest: {bore: 8 mm, wall: 3 mm, material: rubber, length: 1.5 m, clamped: yes, barb: {diameter: 9.5 mm, length: 12 mm, clamp_width: 9 mm, clamp_pressure: 0.4 MPa}}
  circuit:
    - {kind: reservoir}
    - {kind: hose, hose: suction}
    - {kind: pump}
    - {kind: exchanger, name: deck, part: base, channel: {width: 6 mm, depth: 4 mm, length: 1 m, cover: 1.5 mm}, outside: {area: 0.2 m², heat_transfer: 60 W/(m²·K)}}
    - {kind: plate, name: switches, part: block, heat: 60 W, channel: {width: 6 mm, depth: 4 mm, length: 0.5 m, cover: 2 mm}, contact_resistance: 0.05 K/W}
    - {kind: strainer, name: sieve, mesh: 0.2 mm, open_area: 3 cm², pressure_max: 150 kPa}
    - {kind: hose, hose: rest}
";
const BURST: &str = "burst";
const SLIPS: &str = "slips off";
const HOUSING: &str = "housing";
const STRONG: (&str, &str) = ("stall_pressure: 100 kPa", "stall_pressure: 1200 kPa");

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    let mut text = LOOP.to_string();
    for (from, to) in changes {
        assert!(text.contains(from), "{from}");
        text = text.replace(from, to);
    }
    trial::review(&LoopPressure, &text)
}

fn row(subject: &str, check: &str, changes: &[(&str, &str)]) -> Row {
    let all = rows(changes);
    let found = all.iter().find(|row| row.check == check && row.subject == subject);
    found.unwrap_or_else(|| panic!("{subject} {check}: {all:?}")).clone()
}

#[test]
fn fails_where_the_pump_pushes_harder_than_things_stand() {
    let burst = row("rest", BURST, &[STRONG]);
    assert!(burst.verdict == Verdict::Fails && burst.says.contains("bulges"), "{burst:?}");
    assert_eq!(row("rest", SLIPS, &[STRONG, ("clamped: yes", "clamped: no")]).verdict, Verdict::Fails);
    assert_eq!(row("sieve", HOUSING, &[STRONG]).verdict, Verdict::Fails);
    // 45 MPa × 2·(1/15)² stands for 400 kPa at 23 °C.
    assert_eq!(
        row(
            "switches",
            HOUSING,
            &[
                STRONG,
                (
                    "width: 6 mm, depth: 4 mm, length: 0.5 m, cover: 2 mm",
                    "width: 15 mm, depth: 4 mm, length: 0.5 m, cover: 1 mm"
                )
            ]
        )
        .verdict,
        Verdict::Fails
    );
    // A relief valve takes it off everything at once.
    let relieved = ("stall_pressure: 100 kPa", "stall_pressure: 1200 kPa, relief: 100 kPa");
    assert!(rows(&[relieved]).iter().all(|row| row.verdict == Verdict::Sound), "{:#?}", rows(&[relieved]));
}

#[test]
fn thin_between_what_it_stands_and_the_ratio() {
    let strong = ("stall_pressure: 100 kPa", "stall_pressure: 400 kPa");
    assert_eq!(row("rest", BURST, &[strong]).verdict, Verdict::Thin);
    let printed = row("switches", HOUSING, &[("cover: 2 mm", "cover: 0.4 mm")]);
    assert!(printed.verdict == Verdict::Thin && printed.reserve < 4.0, "{printed:?}");
}

#[test]
fn sound_as_it_should_be() {
    assert!(rows(&[]).iter().all(|row| row.verdict == Verdict::Sound), "{:#?}", rows(&[]));
    let named: Vec<_> = rows(&[]).iter().map(|row| (row.subject.clone(), row.check)).collect();
    assert!(named.contains(&("suction".into(), BURST)) && named.contains(&("pump".into(), HOUSING)), "{named:?}");
}

#[test]
fn by_hand() {
    // 5 MPa and up to a tenth less in the warm, bore 8, wall 3: (E/3)·ln(14/8) = 0.5596·E/3, a vented reservoir, 100 kPa of stall.
    let (burst, cold) = (row("rest", BURST, &[]).reserve, 5e6 / 3.0 * 0.559_616 / 100e3);
    assert!(burst > 0.9 * cold && burst < cold, "{burst}");
    // Metal: 200 MPa·2·(1.5/6)² = 25 MPa.
    assert!((row("deck", HOUSING, &[]).reserve - 250.0).abs() < 1e-6);
    // Before the pump nothing pushes but the gas.
    assert!(row("suction", BURST, &[]).reserve.is_infinite());
    let closed = [
        ("closes: vented", "closes: closed, pressure_max: 40 kPa"),
        ("gas_space: 80 mL", "gas_space: 6 mL"),
        ("kind: climb, air: 20 °C", "kind: climb, air: 50 °C"),
    ];
    let pressed = row("suction", BURST, &closed);
    assert!(pressed.reserve.is_finite() && pressed.case == "climb", "{pressed:?}");
}

#[test]
fn what_was_tried_or_stated_speaks_first() {
    let stated = ("wall: 3 mm, material: rubber", "wall: 3 mm, working_pressure: 110 kPa, material: rubber");
    let row_of = row("rest", BURST, &[stated]);
    assert!((row_of.reserve - 1.1).abs() < 1e-9 && row_of.verdict == Verdict::Sound, "{row_of:?}");
    let held = ("clamped: yes, ", "clamped: yes, held: 150 kPa, ");
    let slips = row("rest", SLIPS, &[held]);
    assert!((slips.reserve - 1.5).abs() < 1e-9 && slips.verdict == Verdict::Thin, "{slips:?}");
}

#[test]
fn each_gap_hides_what_needs_it() {
    let verdict = |subject: &str, check: &str, change: (&str, &str)| row(subject, check, &[change]).verdict;
    let not = Verdict::NotJudged;
    assert_eq!(verdict("rest", BURST, ("stall_pressure: 100 kPa, ", "")), not);
    assert_eq!(verdict("rest", BURST, (", lid: {closes: vented}", "")), not);
    assert_eq!(verdict("rest", BURST, ("wall: 3 mm, ", "")), not);
    assert_eq!(verdict("rest", BURST, ("strength_at: {-40 °C: 1.3, 23 °C: 1, 100 °C: 0.7}, ", "")), not);
    assert_eq!(
        verdict(
            "rest",
            SLIPS,
            (", barb: {diameter: 9.5 mm, length: 12 mm, clamp_width: 9 mm, clamp_pressure: 0.4 MPa}", "")
        ),
        not
    );
    assert_eq!(verdict("sieve", HOUSING, (", pressure_max: 150 kPa", "")), not);
    assert_eq!(verdict("deck", HOUSING, (", cover: 1.5 mm", "")), not);
    assert!(row("rest", SLIPS, &[(", clamp_pressure: 0.4 MPa", "")]).assumed.contains(&"clamp_pressure".to_string()));
}

#[test]
fn the_exact_boundary() {
    let at = |kilopascals: f64| {
        row("sieve", HOUSING, &[("pressure_max: 150 kPa", &format!("pressure_max: {kilopascals} kPa"))]).verdict
    };
    assert_eq!((at(100.0), at(99.999_999)), (Verdict::Sound, Verdict::Fails));
}

#[test]
fn a_thicker_wall_never_lowers_a_reserve() {
    let mut before = 0.0;
    for tenths in 10..50 {
        let wall = format!("wall: {:.1} mm", f64::from(tenths) / 10.0);
        let now = row("rest", BURST, &[("wall: 3 mm", &wall)]).reserve;
        assert!(now > before, "{wall}");
        before = now;
    }
}

#[test]
fn a_printed_wall_that_has_gone_soft_holds_nothing_and_hotter_than_its_table_no_more_than_there() {
    let print = |table: &str| row("switches", HOUSING, &[("{-40 °C: 1.3, 23 °C: 1, 60 °C: 0.6}", table)]);
    let soft = print("{-40 °C: 1.3, 20 °C: 1}, heat_deflection: 20.5 °C");
    assert_eq!((soft.verdict, soft.reserve), (Verdict::Fails, 0.0), "{soft:?}");
    let hot = print("{-40 °C: 1.3, 20 °C: 0.5}, heat_deflection: 90 °C");
    assert_eq!(
        (hot.verdict, hot.assumed.last().map(String::as_str)),
        (Verdict::Partly, Some("at most its last value")),
        "{hot:?}"
    );
    let known = print("{-40 °C: 1.3, 20 °C: 0.5, 100 °C: 0.5}, heat_deflection: 90 °C");
    assert_eq!((known.verdict, known.reserve), (Verdict::Sound, hot.reserve));
}
