use crate::ComponentTemperature;
use rule::prelude::*;
use trial::Row;

/// A motor, a drive and a pack in the open, each with its heat stated on a plate whose coolant stands: by hand.
const MACHINE: &str = "
environment: {air: -20 °C to 30 °C, relative_humidity: 80 %, altitude: 0 m, assembled_at: 20 °C}
cases:
  drive: {kind: cruise, air: 20 °C, pump: stopped, duration: 10 h}
  start: {kind: cold_start, air: -20 °C, duration: 1 s, pump: stopped}
coolants: {mix: {kind: glycol_water, glycol: ethylene}}
cooling:
  coolant: {fluid: mix, glycol: 50 %, share_by: mass, volume: 300 mL, filled_at: 20 °C}
  reservoir: {gas_space: 60 mL, lid: {closes: closed}}
  pump: {works_by: positive_displacement, free_flow: 1.4 L/min, stall_pressure: 150 kPa, power: 9 W}
  hoses: {long: {bore: 6 mm, wall: 1.5 mm, length: 1.8 m}}
  circuit:
    - {kind: pump}
    - {kind: exchanger, name: deck, channel: {width: 6 mm, depth: 4 mm, length: 2.6 m, turns: 11}, outside: {area: 0.09 m², heat_transfer: 60 W/(m²·K)}}
    - {kind: plate, name: switches, cools: controller, heat: 10 W, channel: {width: 4 mm, depth: 4 mm, length: 0.5 m}, contact_resistance: 0.2 K/W}
    - {kind: jacket, name: windings, cools: motor, heat: 20 W, channel: {width: 8 mm, depth: 3 mm, length: 1.2 m}, contact_resistance: 0.05 K/W}
    - {kind: plate, name: under, cools: battery, heat: 5 W, channel: {width: 8 mm, depth: 3 mm, length: 1.2 m}, contact_resistance: 0.05 K/W}
powertrain:
  battery: {mass: 5 kg, to_air: 2 K/W, cells: {temperature_min: -30 °C, temperature_max: 60 °C}}
  motor: {mass: 1 kg, to_air: 2 K/W, winding_to_case: 0.5 K/W, winding_temperature_max: 120 °C, magnet_temperature_max: 100 °C}
  controller: {mass: 300 g, to_air: 4 K/W, temperature_max: 90 °C, temperature_min: -40 °C, quoted_at: sensor}
devices:
  servo: {kind: servo, heat: 1 W, to_air: 10 K/W, temperature_min: -30 °C, temperature_max: 60 °C}
  reserve: {kind: capacitor, next_to: controller, temperature_min: -40 °C, temperature_max: 105 °C}
";
const ALL: [(&str, &str); 10] = [
    ("motor", "winding not too hot"),
    ("motor", "magnets not too hot"),
    ("controller", "not too hot"),
    ("controller", "not too cold"),
    ("battery", "cells not too hot"),
    ("battery", "cells not too cold"),
    ("servo", "not too hot"),
    ("servo", "not too cold"),
    ("reserve", "not too hot"),
    ("reserve", "not too cold"),
];

fn changed(changes: &[(&str, &str)]) -> String {
    trial::changed(MACHINE, changes)
}

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&ComponentTemperature, &changed(changes))
}

fn row(which: (&str, &str), changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| (row.subject.as_str(), row.check) == which).unwrap()
}

const WINDING: (&str, &str) = ALL[0];
const HOT: (&str, &str) = ALL[2];

#[test]
fn fails_hot_and_cold() {
    for (which, change) in [
        (ALL[0], ("winding_temperature_max: 120 °C", "winding_temperature_max: 60 °C")),
        (ALL[1], ("magnet_temperature_max: 100 °C", "magnet_temperature_max: 50 °C")),
        (ALL[2], ("temperature_max: 90 °C", "temperature_max: 50 °C")),
        (ALL[3], ("temperature_min: -40 °C, quoted", "temperature_min: -10 °C, quoted")),
        (ALL[4], ("temperature_max: 60 °C}}", "temperature_max: 25 °C}}")),
        (
            ALL[5],
            ("temperature_min: -30 °C, temperature_max: 60 °C}}", "temperature_min: -10 °C, temperature_max: 60 °C}}"),
        ),
        (ALL[6], ("temperature_max: 60 °C}\n  reserve", "temperature_max: 25 °C}\n  reserve")),
        (
            ALL[7],
            (
                "temperature_min: -30 °C, temperature_max: 60 °C}\n",
                "temperature_min: -10 °C, temperature_max: 60 °C}\n",
            ),
        ),
        (ALL[8], ("temperature_max: 105 °C", "temperature_max: 50 °C")),
        (
            ALL[9],
            ("temperature_min: -40 °C, temperature_max: 105 °C", "temperature_min: -10 °C, temperature_max: 105 °C"),
        ),
    ] {
        let row = row(which, &[change]);
        assert_eq!(row.verdict, Verdict::Fails, "{row:?}");
        assert_eq!(row.case, if which.1.contains("hot") { "drive" } else { "start" });
        assert!(!row.says.is_empty());
    }
}

#[test]
fn thin_below_ten_kelvin_five_when_measured_and_five_in_the_cold() {
    // 20 + 20·2 + 20·0.5 = 70 °C.
    let limit = |degrees: f64| ("winding_temperature_max: 120 °C", format!("winding_temperature_max: {degrees} °C"));
    let thin = limit(77.0);
    assert_eq!(row(WINDING, &[(thin.0, &thin.1)]).verdict, Verdict::Thin);
    let read =
        ("{mass: 1 kg,", "{mass: 1 kg, after_run: {case: drive, air: 20 °C, readings: {0 s: 60 °C, 5 min: 58 °C}},");
    let measured = row(WINDING, &[(thin.0, &thin.1), read]);
    assert!(measured.verdict == Verdict::Sound && (measured.reserve - 7.0).abs() < 0.1, "{measured:?}");
    let servo =
        ("temperature_min: -30 °C, temperature_max: 60 °C}\n", "temperature_min: -24 °C, temperature_max: 60 °C}\n");
    assert_eq!(row(ALL[7], &[servo]).verdict, Verdict::Thin);
}

#[test]
fn sound_and_by_hand() {
    let all = rows(&[]);
    assert_eq!(all.len(), 10);
    assert!(all.iter().all(|row| row.verdict == Verdict::Sound), "{all:#?}");
    // Watts times kelvin per watt over 20 °C; the pack is on its way for ten hours at 10 000 s.
    let reserve = |which| row(which, &[]).reserve;
    assert!((reserve(ALL[0]) - (120.0 - 70.0)).abs() < 0.01);
    assert!((reserve(ALL[1]) - (100.0 - 60.0)).abs() < 0.01);
    assert!((reserve(ALL[2]) - (90.0 - 60.0)).abs() < 0.01);
    // e^−3.6 of the difference is left.
    let pack = 20.0 + 10.0 * (1.0 - 0.027_323_722_447_292_56);
    assert!((reserve(ALL[4]) - (60.0 - pack)).abs() < 0.01);
    // The capacitor says nothing of its heat: 5 K stand in for it.
    assert!(row(ALL[8], &[]).assumed.contains(&"heat".to_string()));
    assert!((reserve(ALL[6]) - (60.0 - 30.0)).abs() < 1e-6 && (reserve(ALL[8]) - (105.0 - 65.0)).abs() < 0.01);
    assert!((reserve(ALL[5]) - 10.0).abs() < 1e-6 && (reserve(ALL[7]) - 10.0).abs() < 1e-6);
}

#[test]
fn each_gap_hides_only_what_needs_it() {
    let gone = |from: &str| {
        let after = rows(&[(from, "")]);
        let not = after.iter().filter(|row| row.verdict == Verdict::NotJudged);
        not.map(|row| format!("{} {}: {}", row.subject, row.check, row.says)).collect::<Vec<_>>().join("; ")
    };
    assert_eq!(gone("winding_temperature_max: 120 °C, "), "motor winding not too hot: winding_temperature_max");
    assert_eq!(gone(", magnet_temperature_max: 100 °C"), "motor magnets not too hot: magnet_temperature_max");
    assert_eq!(gone("temperature_max: 90 °C, "), "controller not too hot: temperature_max");
    assert_eq!(gone(", temperature_min: -40 °C, quoted_at: sensor"), "controller not too cold: temperature_min");
    assert_eq!(gone("mass: 5 kg, "), "battery cells not too cold: mass; battery cells not too hot: mass");
    assert_eq!(gone("to_air: 10 K/W, "), "servo not too cold: to_air; servo not too hot: to_air");
    assert_eq!(gone(", temperature_max: 105 °C"), "reserve not too hot: temperature_max");
    let assumed = |which, from: &str, to: &str| row(which, &[(from, to)]).assumed;
    let cells = "cells: {temperature_min: -30 °C, temperature_max: 60 °C}";
    assert!(assumed(ALL[5], cells, "cells: {temperature_max: 60 °C}").contains(&"temperature_min".into()));
    assert!(assumed(ALL[4], cells, "cells: {temperature_min: -30 °C}").contains(&"temperature_max".into()));
    assert!(assumed(HOT, ", quoted_at: sensor", "").contains(&"quoted_at".into()));
}

#[test]
fn the_exact_boundary() {
    let reserve = row(WINDING, &[]).reserve;
    let at = |over: f64| {
        let limit = format!("winding_temperature_max: {:.9} °C", 120.0 - reserve + over);
        row(WINDING, &[("winding_temperature_max: 120 °C", &limit)]).verdict
    };
    assert_eq!([at(10.000_01), at(9.999_99), at(0.000_01), at(-0.000_01)], {
        use Verdict::{Fails, Sound, Thin};
        [Sound, Thin, Thin, Fails]
    });
}

#[test]
fn a_better_way_out_for_heat_never_lowers_the_reserve() {
    let reserve =
        |way: f64| row(WINDING, &[("{mass: 1 kg, to_air: 2 K/W", &format!("{{mass: 1 kg, to_air: {way} K/W"))]).reserve;
    let reserves: Vec<f64> = (1..12).map(|step| reserve(0.4 * f64::from(step))).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] < pair[0]), "{reserves:?}");
}

#[test]
fn it_says_how_long_it_holds() {
    let (text, what) = ("duration: 10 h", "duration: 1 h");
    let hot = row(WINDING, &[(text, what), ("winding_temperature_max: 120 °C", "winding_temperature_max: 60 °C")]);
    assert_eq!(hot.verdict, Verdict::Fails);
    // A short case that ends before is sound.
    let short = row(
        WINDING,
        &[(text, "duration: 1 min"), ("winding_temperature_max: 120 °C", "winding_temperature_max: 60 °C")],
    );
    assert_eq!(short.verdict, Verdict::Sound);
    // Without a duration it counts as settled.
    let settled = row(WINDING, &[(", duration: 10 h", "")]);
    assert!((settled.reserve - 50.0).abs() < 1e-3, "{settled:?}");
}

#[test]
fn judged_where_the_maker_means_it() {
    let at = |quoted: &str| row(HOT, &[("quoted_at: sensor", quoted)]).reserve;
    let sensor = at("quoted_at: sensor");
    // 10 W over 0.8 K/W up to the junctions, and 0.2 K/W down to the case.
    assert!((sensor - at("quoted_at: junction, junction_to_board: 0.8 K/W") - 8.0).abs() < 1e-6);
    assert!((at("quoted_at: case") - sensor - 2.0).abs() < 1e-6);
    assert_eq!(row(HOT, &[("quoted_at: sensor", "quoted_at: junction")]).says, "junction_to_board");
}

#[test]
fn what_is_off_or_over_at_once_is_set_aside() {
    let alone = |case: &str| {
        let changes = [
            ("drive: {kind: cruise, air: 20 °C, pump: stopped, duration: 10 h}", case),
            ("  start: {kind: cold_start, air: -20 °C, duration: 1 s, pump: stopped}\n", ""),
        ];
        rows(&changes).len()
    };
    assert_eq!(alone("drive: {kind: soak, air: 20 °C}"), 0);
    assert_eq!(alone("drive: {kind: landing, drop: 0.3 m, air: 20 °C}"), 0);
    assert_eq!(alone("drive: {kind: launch, air: 20 °C}"), 0);
    assert_eq!(alone("drive: {kind: idle, air: 20 °C, heat: no}"), 0);
    assert_eq!(alone("drive: {kind: launch, air: 20 °C, duration: 5 s, pump: stopped}"), 10);
}
