use super::*;
use crate::drive::tests::asked;
use document::{Document, Limits, NoFiles, NoShelf};
use machine::{Machine, NotJudged, Swaps};

const HUT: &str = "
dryfit: 1
machine: {name: trial}
environment: {air: -20 °C to 5 °C, relative_humidity: 80 % (measured), altitude: 400 m to 1000 m, assembled_at: 20 °C}
zones:
  open: {moisture: outside_air}
  box: {volume: 9 L, air_rise: 12 K, moisture: breathes}
  wet: {volume: 9 L, air_rise: 25 K, moisture: holds_meltwater}
  tight: {volume: 2 L, air_rise: 10 K, moisture: sealed_at_assembly, humidity_at_assembly: 50 %}
  tunnel: {moisture: snow_spray}
  unsaid: {volume: 1 L, air_rise: 5 K}
  unknown: {volume: 1 L, moisture: breathes}
  indoor: {volume: 1 L, air_rise: 5 K, moisture: room}
cases:
  soak: {kind: soak}
  climb: {kind: climb, grade: 10 °, speed: 5 km/h}
  mild: {kind: cruise, air: 3 °C, relative_humidity: 60 %}
  idle: {kind: idle, after: climb}
  idle_cold: {kind: idle, after: soak}
  ring_a: {kind: idle, after: ring_b}
  ring_b: {kind: launch, after: ring_a}
  home: {kind: brought_indoors, air: 21 °C, relative_humidity: 45 %}
  somewhere: {kind: brought_indoors}
assumed: {relative_humidity: 90 %, altitude: 500 m, meltwater: 0.5 °C, assembled_at: 20 °C}
";

fn machine(text: &str) -> Machine {
    let document =
        Document::load("trial.machine.yaml", text.to_owned().into_bytes(), &NoFiles, &NoShelf, &Limits::default());
    assert!(document.troubles.is_empty(), "{:?}", document.troubles);
    Machine::read(&document, &Swaps::new()).unwrap()
}

fn around(case: &str) -> Surroundings {
    asked(&machine(HUT), case, &[], |at| at.surroundings().cloned()).unwrap()
}

fn zone(around: &Surroundings, name: &str) -> ZoneAir {
    let machine = machine(HUT);
    let place = machine.zones.iter().position(|zone| zone.name() == name).unwrap();
    around.zones[place].clone().unwrap()
}

#[test]
fn outside_by_hand() {
    let soak = around("soak");
    assert!((soak.outside.si() - 253.15).abs() < 1e-9);
    // 1000 m of standard atmosphere.
    assert!((soak.pressure.si() - 89_876.3).abs() < 0.1);
    // 80 % over supercooled water of −20 °C, 125.6 Pa (Murphy and Koop).
    assert!((soak.vapour.si() - 0.8 * 125.6).abs() < 0.3, "{}", soak.vapour.si());
    let mild = around("mild");
    assert!((mild.outside.si() - 276.15).abs() < 1e-9 && !zone(&mild, "box").measured && zone(&soak, "box").measured);
}

#[test]
fn zones_warm_up_only_after_driving() {
    for (case, rise) in [("soak", 0.0), ("climb", 12.0), ("idle", 12.0), ("idle_cold", 0.0), ("ring_a", 0.0)] {
        let around = around(case);
        assert!((zone(&around, "box").air.si() - around.outside.si() - rise).abs() < 1e-9, "{case}");
        assert_eq!(zone(&around, "open").air, around.outside);
    }
}

#[test]
fn vapour_by_its_source() {
    let climb = around("climb");
    let full = |kelvin: f64| moisture::saturation_pressure(ThermodynamicTemperature::from_si(kelvin)).unwrap().si();
    assert_eq!(zone(&climb, "box").vapour, climb.vapour);
    // Warmed to +5 °C the meltwater decides, frozen its ice, and never less than comes in.
    assert!((zone(&climb, "wet").dew.si() - 273.65).abs() < 1e-6);
    let soak = around("soak");
    assert!((zone(&soak, "wet").vapour.si() - full(253.15).max(soak.vapour.si())).abs() < 1e-9);
    assert!((zone(&soak, "tunnel").vapour.si() - full(253.15)).abs() < 1e-9);
    // Closed at 20 °C and 50 %, 1169 Pa: at −20 °C nearly all of it is rime; at 21 °C it is 1169 · 294.15/293.15.
    assert!((zone(&soak, "tight").vapour.si() - full(253.15)).abs() < 1e-9);
    let home = around("home");
    let there = 0.5 * full(293.15) * 294.15 / 293.15;
    assert!((zone(&home, "tight").vapour.si() / there - 1.0).abs() < 1e-9);
    assert!((zone(&home, "tight").air.si() - 294.15).abs() < 1e-9);
    // 21 °C and 45 %: dew point 8.6 °C by the psychrometric chart.
    assert!((zone(&home, "indoor").dew.si() - 273.15 - 8.6).abs() < 0.15, "{}", zone(&home, "indoor").dew.si());
}

#[test]
fn gaps_stay_with_their_zone() {
    let climb = around("climb");
    let place = |name: &str| machine(HUT).zones.iter().position(|zone| zone.name() == name).unwrap();
    assert!(matches!(climb.zones[place("unsaid")], Err(NotJudged::NotGiven { .. })));
    assert!((climb.zone_airs[place("unsaid")].as_ref().unwrap().si() - 258.15).abs() < 1e-9);
    assert!(matches!(climb.zones[place("unknown")], Err(NotJudged::NotGiven { .. })));
    let homeless = asked(&machine(HUT), "somewhere", &[], |at| at.surroundings().cloned());
    assert!(matches!(homeless, Err(NotJudged::NotGiven { .. })));
}

#[test]
fn parts_and_bearings_have_the_air_of_their_zone() {
    let text = HUT.to_owned()
        + "
materials: {plastic: {family: printed_polymer}}
structure: {parts: {inside: {material: plastic, zone: box}, bare: {material: plastic, next_to: [motor]}}}
powertrain:
  bearings: {bush: {kind: plain, zone: box}, ring: {kind: rolling, size: 6001-2RS, seat: {part: inside}}, axle: {kind: plain}}
";
    let machine = machine(&text);
    let found = asked(&machine, "climb", &[], |at| at.temperatures().cloned()).unwrap();
    let kelvin = |each: &[Found<ThermodynamicTemperature>]| -> Vec<f64> {
        each.iter().map(|each| (each.as_ref().unwrap().si() - 253.15).round()).collect()
    };
    assert_eq!(kelvin(&found.parts), [12.0, 0.0]);
    assert_eq!(kelvin(&found.bearings), [12.0, 12.0, 0.0]);
}
