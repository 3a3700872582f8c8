use crate::Softening;
use rule::prelude::*;
use trial::Row;

/// 900 W/m² on a face that loses 25 W/(m²·K): 36 K over air of 24 °C.
const DECK: &str = "
environment: {air: 24 °C, relative_humidity: 50 %, altitude: 0 m, sun: 900 W/m²}
cases: {drive: {kind: cruise, speed: 5 km/h}}
materials:
  plastic: {family: printed_polymer, heat_deflection: 75 °C}
structure: {parts: {deck: {material: plastic, exposed: yes}}}
assumed: {plate_to_air: 25 W/(m²·K)}
";

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&Softening, &trial::changed(DECK, changes))
}

fn row(changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().next().unwrap()
}

#[test]
fn fails() {
    let hot = row(&[("air: 24 °C", "air: 40 °C")]);
    assert_eq!(hot.verdict, Verdict::Fails);
    assert!(hot.says.contains("stays bent"));
}

#[test]
fn thin() {
    assert_eq!(row(&[("air: 24 °C", "air: 33 °C")]).verdict, Verdict::Thin);
    // What carries something needs more room.
    assert_eq!(row(&[("exposed: yes", "exposed: yes, loads: [drive]")]).verdict, Verdict::Thin);
}

#[test]
fn sound_and_by_hand() {
    let sound = row(&[]);
    assert_eq!((sound.verdict, sound.assumed.len()), (Verdict::Sound, 0), "{sound:?}");
    assert!((sound.reserve - (75.0 - 60.0)).abs() < 1e-9);
    // In the shade only the air counts.
    assert!((row(&[("exposed: yes", "exposed: no")]).reserve - 51.0).abs() < 1e-9);
}

#[test]
fn what_is_limp_anyway_counts_by_its_own_limit_and_a_bar_gets_a_third_of_the_sun() {
    let limp = row(&[("heat_deflection: 75 °C", "glass_transition: -35 °C, service_temperature_max: 80 °C")]);
    assert!((limp.reserve - 20.0).abs() < 1e-9, "{limp:?}");
    let bar = row(&[("exposed: yes", "exposed: yes, section: {kind: round, diameter: 10 mm}")]);
    assert!((bar.reserve - (51.0 - 36.0 / core::f64::consts::PI)).abs() < 1e-9, "{bar:?}");
}

#[test]
fn annealed_only_if_it_was() {
    let two = "heat_deflection: 75 °C, when_annealed: {heat_deflection: 120 °C}";
    assert!((row(&[("heat_deflection: 75 °C", two)]).reserve - 15.0).abs() < 1e-9);
    let done = format!("{two}, annealed: yes");
    assert!((row(&[("heat_deflection: 75 °C", &done)]).reserve - 60.0).abs() < 1e-9);
}

#[test]
fn not_judged() {
    assert_eq!(row(&[(", heat_deflection: 75 °C", "")]).verdict, Verdict::NotJudged);
    let glass = row(&[("heat_deflection: 75 °C", "glass_transition: 75 °C")]);
    assert_eq!((glass.verdict, glass.assumed), (Verdict::Sound, vec!["heat_deflection".to_string()]));
    assert_eq!(row(&[(", sun: 900 W/m²", "")]).assumed, ["sun"]);
    assert!(rows(&[("family: printed_polymer", "family: metal")]).is_empty());
    assert!(rows(&[("exposed: yes", "exposed: yes, next_to: [motor]")]).is_empty());
}

#[test]
fn the_exact_boundary() {
    let at = |air: &str| row(&[("air: 24 °C", air)]).verdict;
    assert_eq!((at("air: 28.9999 °C"), at("air: 29.0001 °C")), (Verdict::Sound, Verdict::Thin));
}

#[test]
fn more_sun_never_raises_the_reserve() {
    let reserves: Vec<f64> =
        (1..10).map(|q| row(&[("sun: 900 W/m²", &format!("sun: {} W/m²", 100 * q))]).reserve).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] < pair[0]));
}

#[test]
fn a_deck_of_petg_sags_in_the_summer_sun_and_one_of_asa_does_not() {
    // Common practice, no source.
    let deck = |material: &str| {
        row(&[("material: plastic", &format!("material: {material}")), ("air: 24 °C", "air: 38 °C")]).verdict
    };
    assert_eq!(deck("petg"), Verdict::Fails);
    assert_eq!(deck("asa"), Verdict::Sound);
}
