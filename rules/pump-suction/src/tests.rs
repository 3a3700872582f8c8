use crate::PumpSuction;
use rule::prelude::*;
use trial::Row;

/// A thick coolant in the cold, a pump a little below the level, an open reservoir.
const LOOP: &str = "
environment: {air: -20 °C to 30 °C, relative_humidity: 50 %, altitude: 0 m to 0 m, assembled_at: 20 °C}
cases:
  cold: {kind: cold_start, air: -20 °C}
  climb: {kind: climb, air: 20 °C}
coolants: {mix: {kind: glycol_water, glycol: propylene}}
materials:
  rubber: {family: elastomer, modulus: 4 MPa, poisson: 0.49, modulus_at: {-30 °C: 1.1, 20 °C: 1, 100 °C: 0.9}}
cooling:
  coolant: {fluid: mix, glycol: 50 %, share_by: mass, volume: 400 mL, filled_at: 20 °C}
  reservoir: {gas_space: 60 mL, lid: {closes: vented}}
  pump: {works_by: positive_displacement, free_flow: 1.4 L/min, stall_pressure: 150 kPa, power: 9 W, runs: always, height_above_level: -30 mm, inlet_pressure_min: 60 kPa}
  hoses:
    suction: {bore: 8 mm, wall: 2 mm, material: rubber, length: 0.3 m, ovality: 4 %}
    rest: {bore: 8 mm, wall: 2 mm, material: rubber, length: 1.5 m, ovality: 4 %}
  circuit:
    - {kind: reservoir}
    - {kind: hose, hose: suction}
    - {kind: pump}
    - {kind: exchanger, name: deck, height_above_level: 0 mm, channel: {width: 6 mm, depth: 4 mm, length: 1 m}, outside: {area: 0.1 m², heat_transfer: 60 W/(m²·K)}}
    - {kind: plate, name: switches, height_above_level: 0 mm, heat: 60 W, channel: {width: 6 mm, depth: 4 mm, length: 0.5 m}, contact_resistance: 0.05 K/W}
    - {kind: hose, hose: rest}
";
const AIR: &str = "air drawn in";
const FILLING: &str = "filling";
const BOILING: &str = "boiling in the pump";
const FLAT: &str = "sucked flat";
/// A long thin hose before the pump.
const THIN: (&str, &str) = (
    "suction: {bore: 8 mm, wall: 2 mm, material: rubber, length: 0.3 m",
    "suction: {bore: 6 mm, wall: 2 mm, material: rubber, length: 0.8 m",
);

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    let mut text = LOOP.to_string();
    for (from, to) in changes {
        assert!(text.contains(from), "{from}");
        text = text.replace(from, to);
    }
    trial::review(&PumpSuction, &text)
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    let all = rows(changes);
    let found = all.iter().find(|row| row.check == check && row.subject != "rest");
    found.unwrap_or_else(|| panic!("{check}: {all:?}")).clone()
}

#[test]
fn fails_with_a_long_thin_hose_in_the_cold() {
    let air = row(AIR, &[THIN]);
    assert_eq!((air.verdict, air.case.as_str(), air.subject.as_str()), (Verdict::Fails, "cold", "pump"), "{air:?}");
    assert!(air.says.contains("draws air in"), "{air:?}");
    let greedy = ("inlet_pressure_min: 60 kPa", "inlet_pressure_min: 75 kPa");
    assert_eq!(row(FILLING, &[THIN, greedy]).verdict, Verdict::Fails);
    // Hot water boils where thick coolant does not.
    let water = [
        ("kind: glycol_water, glycol: propylene", "kind: water"),
        ("glycol: 50 %, share_by: mass, ", ""),
        ("  cold: {kind: cold_start, air: -20 °C}\n", ""),
        ("air: -20 °C to 30 °C", "air: 20 °C to 60 °C"),
        ("kind: climb, air: 20 °C", "kind: climb, air: 60 °C"),
        ("heat: 60 W", "heat: 190 W"),
        ("altitude: 0 m to 0 m", "altitude: 3000 m to 3000 m"),
    ];
    let hot = row(BOILING, &water);
    assert!(hot.verdict == Verdict::Fails || hot.verdict == Verdict::Thin, "{hot:?}");
}

#[test]
fn a_soft_thin_hose_is_sucked_flat() {
    let soft = ("wall: 2 mm, material: rubber, length: 0.8 m", "wall: 0.8 mm, material: rubber, length: 0.8 m");
    let flat = row(FLAT, &[THIN, soft]);
    assert_eq!(
        (flat.verdict, flat.subject.as_str(), flat.case.as_str()),
        (Verdict::Fails, "suction", "cold"),
        "{flat:?}"
    );
    assert!(row(FLAT, &[THIN]).reserve > 3.0 * flat.reserve);
}

#[test]
fn thin_where_the_wall_is_only_just_enough() {
    let wall = |mm: f64| {
        let to = format!("wall: {mm:.9} mm, material: rubber, length: 0.8 m");
        row(FLAT, &[THIN, ("wall: 2 mm, material: rubber, length: 0.8 m", &to)])
    };
    // The exact boundary of the ratio 3.
    let (mut thin, mut sound) = (0.9, 2.4);
    for _ in 0..40 {
        let middle = 0.5 * (thin + sound);
        if wall(middle).verdict == Verdict::Sound { sound = middle } else { thin = middle }
    }
    let (below, above) = (wall(thin), wall(sound));
    assert_eq!((below.verdict, above.verdict), (Verdict::Thin, Verdict::Sound));
    assert!((below.reserve - 3.0).abs() < 1e-5 && (above.reserve - 3.0).abs() < 1e-5, "{below:?} {above:?}");
}

#[test]
fn sound_with_a_short_wide_hose() {
    assert!(rows(&[]).iter().all(|row| row.verdict == Verdict::Sound), "{:#?}", rows(&[]));
    assert_eq!(rows(&[]).len(), 5);
}

#[test]
fn a_closed_reservoir_that_has_cooled_down_counts() {
    let closed = ("closes: vented", "closes: closed");
    let (open, shut) = (row(AIR, &[]), row(AIR, &[closed]));
    // 30 to 24 K below: gas 0.86 × 101 kPa and the coolant's own shrinking, some 20 kPa.
    assert!(open.reserve - shut.reserve > 15e3 && open.reserve - shut.reserve < 35e3, "{open:?} {shut:?}");
    let valve = ("closes: vented", "closes: closed, vacuum_valve: 3 kPa");
    assert!((row(AIR, &[valve]).reserve - open.reserve + 3e3).abs() < 1.5e3);
    // Both hoses stand in that vacuum, the pump on or off.
    let stopped =
        [closed, ("cold_start, air: -20 °C", "soak, air: -20 °C"), ("runs: always", "runs: with_electronics")];
    let rest = rows(&stopped).into_iter().find(|row| row.subject == "rest").unwrap();
    assert!(rest.case == "cold" && rest.reserve.is_finite());
}

#[test]
fn a_strainer_before_the_pump_counts_clogged() {
    let fine = (
        "    - {kind: hose, hose: suction}\n",
        "    - {kind: hose, hose: suction}\n    - {kind: strainer, name: sieve, mesh: 0.1 mm, open_area: 1.5 cm², clogged: 60 %}\n",
    );
    let clean = ("clogged: 60 %", "clogged: 0 %");
    assert!(row(AIR, &[fine]).reserve < row(AIR, &[fine, clean]).reserve - 1e3);
}

#[test]
fn each_gap_hides_what_needs_it() {
    let verdicts = |changes: &[(&str, &str)]| {
        rows(changes).iter().filter(|row| row.subject != "rest").map(|row| row.verdict).collect::<Vec<_>>()
    };
    let (sound, not) = (Verdict::Sound, Verdict::NotJudged);
    assert_eq!(verdicts(&[("stall_pressure: 150 kPa, ", "")]), [not; 4]);
    assert_eq!(verdicts(&[(", lid: {closes: vented}", "")]), [not; 4]);
    assert_eq!(
        verdicts(&[("suction: {bore: 8 mm, wall: 2 mm, ", "suction: {bore: 8 mm, ")]),
        [sound, sound, sound, not]
    );
    // What a pump needs, roundness and the height are assumed, and shown so.
    let assumed =
        |check: &str, change: (&str, &str), name: &str| row(check, &[change]).assumed.contains(&name.to_string());
    assert!(assumed(FILLING, (", inlet_pressure_min: 60 kPa", ""), "inlet_pressure_min"));
    assert!(assumed(FLAT, ("length: 0.3 m, ovality: 4 %", "length: 0.3 m"), "ovality"));
    assert!(assumed(AIR, (", height_above_level: -30 mm", ""), "height_above_level"));
    // Too thick a wall to fold is outside what is known.
    assert_eq!(verdicts(&[("suction: {bore: 8 mm, wall: 2 mm", "suction: {bore: 8 mm, wall: 6 mm")])[3], not);
    assert!(rows(&[("    - {kind: pump}\n", "")]).is_empty());
}

#[test]
fn a_starved_pump_fails_outright() {
    let starving = [
        (
            "bore: 8 mm, wall: 2 mm, material: rubber, length: 0.3 m",
            "bore: 4 mm, wall: 2 mm, material: rubber, length: 12 m",
        ),
        ("150 kPa", "900 kPa"),
    ];
    let starved = row(FILLING, &starving);
    assert!(starved.verdict == Verdict::Fails && starved.says.contains("as fast as it turns"), "{starved:?}");
}

#[test]
fn the_exact_boundary() {
    // The inlet stands so far above what the pump was said to need.
    let entry = 60.0 + row(FILLING, &[]).reserve / 1e3;
    let filling = |needs: f64| {
        row(FILLING, &[("inlet_pressure_min: 60 kPa", &format!("inlet_pressure_min: {needs:.6} kPa"))]).verdict
    };
    assert_eq!([filling(entry - 0.001), filling(entry + 0.001)], [Verdict::Sound, Verdict::Fails]);
    // A softer hose folds sooner, in proportion: three times the suction is wanted.
    let stiff = 4.0 * 3.0 / row(FLAT, &[]).reserve;
    let flat = |share: f64| row(FLAT, &[("modulus: 4 MPa", &format!("modulus: {:.9} MPa", share * stiff))]).verdict;
    assert_eq!([flat(0.9999), flat(1.0001)], [Verdict::Thin, Verdict::Sound]);
    assert_eq!([flat(0.3333), flat(0.3334)], [Verdict::Fails, Verdict::Thin]);
}

#[test]
fn a_wider_hose_never_lowers_a_reserve() {
    let mut before = [f64::NEG_INFINITY; 3];
    for tenths in 50..90 {
        let bore = format!("suction: {{bore: {:.1} mm", f64::from(tenths) / 10.0);
        for (slot, check) in before.iter_mut().zip([AIR, FILLING, BOILING]) {
            let now = row(check, &[("suction: {bore: 8 mm", &bore)]).reserve;
            assert!(now >= *slot - 1e-6, "{check} at {bore}: {now} after {slot}");
            *slot = now;
        }
    }
}
