use crate::StopSoak;
use rule::prelude::*;
use trial::Row;

/// A motor on nothing but air: 20 W at 2 K/W, and 0.5 K/W inside; a mount, a shelf and a pinion that soften at 90 °C.
const MACHINE: &str = "
environment: {air: 0 °C to 30 °C, relative_humidity: 80 %, altitude: 0 m, assembled_at: 20 °C}
cases:
  drive: {kind: cruise, air: 20 °C, pump: stopped}
materials: {plastic: {family: printed_polymer, heat_deflection: 90 °C, when_annealed: {heat_deflection: 120 °C}}, steel: {family: metal}}
cooling:
  coolant: {fluid: water, volume: 300 mL, filled_at: 20 °C}
  reservoir: {gas_space: 60 mL, lid: {closes: closed}}
  pump: {works_by: positive_displacement, free_flow: 1.4 L/min, stall_pressure: 150 kPa, power: 9 W}
  circuit:
    - {kind: pump}
    - {kind: exchanger, name: deck, channel: {width: 6 mm, depth: 4 mm, length: 2.6 m}, outside: {area: 0.09 m², heat_transfer: 60 W/(m²·K)}}
    - {kind: plate, name: switches, cools: controller, heat: 10 W, channel: {width: 4 mm, depth: 4 mm, length: 0.5 m}, contact_resistance: 0.2 K/W}
    - {kind: jacket, name: windings, cools: motor, heat: 20 W, channel: {width: 8 mm, depth: 3 mm, length: 1.2 m}, contact_resistance: 0.05 K/W}
powertrain:
  motor: {mass: 1 kg, to_air: 2 K/W, winding_to_case: 0.5 K/W, magnet_temperature_max: 100 °C, mount: {part: plate}}
  controller: {mass: 300 g, to_air: 4 K/W, temperature_max: 90 °C}
  stages:
    - {name: first, kind: spur, pinion: {teeth: 17, material: plastic}, wheel: {teeth: 40}}
structure:
  parts:
    plate: {material: plastic}
    shelf: {material: plastic, next_to: [controller]}
    frame: {material: steel, next_to: [motor]}
    far: {material: plastic}
";
const MOUNT: (&str, &str) = ("plate", "soft after stopping");

fn changed(changes: &[(&str, &str)]) -> String {
    trial::changed(MACHINE, changes)
}

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&StopSoak, &changed(changes))
}

fn row(which: (&str, &str), changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| (row.subject.as_str(), row.check) == which).unwrap()
}

#[test]
fn fails_when_the_mount_softens() {
    let soft = row(MOUNT, &[("heat_deflection: 90 °C", "heat_deflection: 55 °C")]);
    assert_eq!((soft.verdict, soft.case.as_str()), (Verdict::Fails, "drive"));
    assert!(soft.says.contains("plate softens under it"), "{}", soft.says);
    // Four minutes of ten times the heat: the winding is far hotter than the rotor, which goes on warming.
    let burst = [("air: 20 °C, pump", "air: 20 °C, duration: 4 min, pump"), ("heat: 20 W", "heat: 200 W")];
    let hot = [burst.as_slice(), &[("magnet_temperature_max: 100 °C", "magnet_temperature_max: 80 °C")]].concat();
    let magnets = row(("motor", "magnets after stopping"), &hot);
    assert!(magnets.verdict == Verdict::Fails && magnets.says.contains("soaks into the magnets"), "{magnets:?}");
    // A thermometer that went on climbing after the stop.
    let low = ("temperature_max: 90 °C", "temperature_max: 50 °C");
    let read =
        "{mass: 300 g, after_run: {case: drive, air: 20 °C, readings: {0 s: 50 °C, 4 min: 62 °C, 10 min: 55 °C}},";
    let board = row(BOARD, &[low, ("{mass: 300 g,", read)]);
    assert_eq!(board.verdict, Verdict::Fails);
    let pinion = row(("motor", "pinion after stopping"), &[("heat_deflection: 90 °C", "heat_deflection: 55 °C")]);
    assert!(pinion.verdict == Verdict::Fails && pinion.says.contains("loose on its shaft"));
}

const BOARD: (&str, &str) = ("controller", "controller after stopping");

#[test]
fn what_only_cools_after_the_stop_is_told_by_whoever_looks_at_the_drive() {
    // Nothing behind the board is hotter than it: 60 °C is the highest there is.
    let board = row(BOARD, &[("temperature_max: 90 °C", "temperature_max: 50 °C")]);
    assert!(board.verdict == Verdict::Sound && board.says.contains("only cools"), "{board:?}");
}

#[test]
fn thin_below_twenty_kelvin_under_load_and_ten_without() {
    // The motor's case stops at 60 °C and soaks up a little; the shelf stands at the controller's 60 °C.
    let at = ("heat_deflection: 90 °C", "heat_deflection: 75 °C");
    assert_eq!(row(MOUNT, &[at]).verdict, Verdict::Thin);
    assert_eq!(row(("shelf", "soft after stopping"), &[at]).verdict, Verdict::Sound);
    let loaded = ("next_to: [controller]", "next_to: [controller], loads: [drive]");
    assert_eq!(row(("shelf", "soft after stopping"), &[at, loaded]).verdict, Verdict::Thin);
}

#[test]
fn sound_and_by_hand() {
    let all = rows(&[]);
    let names: Vec<_> = all.iter().map(|row| row.subject.as_str()).collect();
    assert_eq!(names.len(), 5, "{all:#?}");
    assert!(all.iter().all(|row| row.verdict == Verdict::Sound), "{all:#?}");
    assert!(!names.contains(&"frame") && !names.contains(&"far"));
    // 20 °C + 20 W · 2 K/W: what only air cools is at its hottest at the stop. 10 W · 4 K/W at the board.
    assert!((row(MOUNT, &[]).reserve - 30.0).abs() < 0.01);
    assert!((row(("shelf", "soft after stopping"), &[]).reserve - 30.0).abs() < 0.01);
}

#[test]
fn what_a_jacket_kept_cool_soaks_through_when_the_flow_stops() {
    // Hardly any of it goes to the air: left alone winding, rotor and case meet at their mean, a fifth of the winding's
    // 90 W · 0.5 K/W above the case.
    let flows = [
        (", pump: stopped", ""),
        ("mass: 1 kg, to_air: 2 K/W", "mass: 1 kg, to_air: 300 K/W"),
        ("heat: 20 W", "heat: 90 W"),
    ];
    let peak = 90.0 - row(MOUNT, &flows).reserve;
    // The jacket's wall, a film and 4.5 K of contact: by the coolant's own solution, whose air warms as it passes, 25 to 55 °C.
    let stop = peak - 9.0;
    assert!(stop > 25.0 && stop < 55.0, "{peak}");
    let better = [flows[0], flows[1], flows[2], ("winding_to_case: 0.5 K/W", "winding_to_case: 0.25 K/W")];
    assert!((90.0 - row(MOUNT, &better).reserve - peak + 4.5).abs() < 0.3);
}

#[test]
fn each_gap_hides_only_what_needs_it() {
    let gone = |from: &str, to: &str| {
        let after = rows(&[(from, to)]);
        let not = after.iter().filter(|row| row.verdict == Verdict::NotJudged);
        not.map(|row| format!("{} {}: {}", row.subject, row.check, row.says)).collect::<Vec<_>>().join("; ")
    };
    assert_eq!(gone(", magnet_temperature_max: 100 °C", ""), "motor magnets after stopping: magnet_temperature_max");
    assert_eq!(gone(", temperature_max: 90 °C", ""), "controller controller after stopping: temperature_max");
    assert_eq!(gone("shelf: {material: plastic, ", "shelf: {"), "shelf soft after stopping: material");
    assert_eq!(gone("heat_deflection: 90 °C, ", "").matches("heat_deflection").count(), 3);
    // The glass transition speaks in its place.
    assert_eq!(gone("heat_deflection: 90 °C, ", "glass_transition: 90 °C, "), "");
}

#[test]
fn the_exact_boundary() {
    let reserve = row(MOUNT, &[]).reserve;
    let at = |over: f64| {
        let limit = format!("heat_deflection: {:.9} °C, when", 90.0 - reserve + over);
        row(MOUNT, &[("heat_deflection: 90 °C, when", &limit)]).verdict
    };
    assert_eq!([at(20.000_01), at(19.999_99), at(-0.000_01)], [Verdict::Sound, Verdict::Thin, Verdict::Fails]);
}

#[test]
fn more_heat_never_raises_the_reserve() {
    let reserve = |watts: u32| row(MOUNT, &[("heat: 20 W", &format!("heat: {watts} W"))]).reserve;
    let reserves: Vec<f64> = (1..12).map(|step| reserve(step * 4)).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] < pair[0]), "{reserves:?}");
}

#[test]
fn annealed_counts_only_where_it_was_annealed() {
    let annealed = row(MOUNT, &[("heat_deflection: 90 °C, ", "heat_deflection: 90 °C, annealed: yes, ")]);
    assert!((annealed.reserve - row(MOUNT, &[]).reserve - 30.0).abs() < 1e-6);
}

#[test]
fn readings_after_a_drive_beat_the_estimate() {
    let read = (
        "{mass: 1 kg,",
        "{mass: 1 kg, after_run: {case: drive, air: 10 °C, readings: {0 s: 50 °C, 4 min: 62 °C, 10 min: 55 °C}},",
    );
    // 40 K over the air at the stop, a soak of 12 K over 40: at 20 °C of air 60 and 72 °C.
    assert!((row(MOUNT, &[read]).reserve - (90.0 - 72.0)).abs() < 0.05);
}

#[test]
fn cold_starts_and_soaks_are_set_aside() {
    for kind in ["soak", "cold_start", "landing, drop: 0.3 m", "launch"] {
        assert!(rows(&[("kind: cruise", &format!("kind: {kind}"))]).is_empty(), "{kind}");
    }
}
