use super::*;
use crate::drive::tests::asked;
use document::{Document, Limits, NoFiles, NoShelf, NodeId};
use machine::{Element, Machine, Swaps};

mod hostile;
mod laws;
mod network;
mod pressures;
pub(super) mod random;

/// An invented loop. Heat is stated, so that no drive line is needed.
const LOOP: &str = "
dryfit: 1
machine: {name: trial}
environment: {air: -15 °C to 15 °C, relative_humidity: 80 %, altitude: 0 m to 800 m, assembled_at: 20 °C}
zones: {box: {volume: 9 L, air_rise: 10 K, moisture: breathes}}
cases:
  climb: {kind: climb, air: 10 °C}
  cold: {kind: climb}
  warm: {kind: climb, air: 11 °C}
  soak: {kind: soak}
coolants: {mix: {kind: glycol_water, glycol: ethylene}, plain: {kind: water}}
cooling:
  coolant: {fluid: mix, glycol: 50 %, share_by: mass, volume: 300 mL, filled_at: 20 °C}
  reservoir: {gas_space: 60 mL, lid: {closes: closed}}
  pump: {works_by: positive_displacement, free_flow: 1.4 L/min, stall_pressure: 150 kPa, power: 9 W, runs: always}
  hoses: {long: {bore: 6 mm, wall: 1.5 mm, length: 1.8 m}, short: {bore: 6 mm, wall: 1.5 mm, length: 0.4 m}}
  circuit:
    - reservoir
    - {kind: hose, hose: short}
    - pump
    - {kind: exchanger, name: deck, channel: {width: 6 mm, depth: 4 mm, length: 2.6 m, turns: 11}, outside: {area: 0.09 m², heat_transfer: 60 W/(m²·K)}}
    - {kind: plate, name: switches, heat: 40 W, zone: box, channel: {width: 4 mm, depth: 4 mm, length: 0.5 m, turns: 4}, contact_resistance: 0.05 K/W}
    - {kind: strainer, name: sieve, mesh: 0.2 mm, open_area: 3 cm²}
    - {kind: jacket, name: windings, heat: 90 W, channel: {width: 8 mm, depth: 3 mm, length: 1.2 m}, contact_resistance: 0.05 K/W}
    - {kind: hose, hose: long}
assumed: {channel_bend_loss: 2.2, plate_to_air: 40 W/(m²·K), plate_to_snow: 35 W/(m²·K), contact_resistance: 0.1 K/W, hose_to_air: 12 W/(m²·K), hose_modulus: 4 MPa, strainer_clogged: 50 %, hose_bends: 2, fan_air: 2 m/s, driving_air: 1 m/s, own_draught: 0.2 m/s, exchanger_opening: 10 %, still_air: 8 W/(m²·K), wetted_metal: 2 mm}
";
/// Changes that take the hoses out of the heat, and out of the gas law.
const LAGGED: (&str, &str) = ("hose_to_air: 12 W", "hose_to_air: 1e-9 W");
const STIFF: (&str, &str) = ("hose_modulus: 4 MPa", "hose_modulus: 4000 GPa");
const SWITCHES: usize = 4;
const WINDINGS: usize = 6;

fn machine(changes: &[(&str, &str)]) -> Machine {
    let mut text = LOOP.to_owned();
    for (from, to) in changes {
        assert!(text.contains(from), "{from} does not stand in the text");
        text = text.replace(from, to);
    }
    let document = Document::load("trial.machine.yaml", text.into_bytes(), &NoFiles, &NoShelf, &Limits::default());
    assert!(document.troubles.is_empty(), "{:?}", document.troubles);
    Machine::read(&document, &Swaps::new()).unwrap()
}

fn solved(machine: &Machine, case: &str, replaced: &[(NodeId, f64)]) -> Found<Coolant> {
    asked(machine, case, replaced, |at| at.coolant().cloned())
}

fn coolant(changes: &[(&str, &str)], case: &str) -> Coolant {
    solved(&machine(changes), case, &[]).unwrap()
}

/// The numbers that a what-if may move, each with its written value in SI.
fn knobs(machine: &Machine) -> Vec<(NodeId, f64)> {
    let cooling = &machine.cooling;
    let mut knobs = vec![
        (cooling.pump.free_flow.id(), 1.4e-3 / 60.0),
        (cooling.pump.stall_pressure.id(), 150e3),
        (cooling.pump.power.id(), 9.0),
    ];
    for hose in &cooling.hoses {
        knobs.push((hose.bore.id(), 6e-3));
        knobs.push((hose.length.id(), 1.0));
    }
    for element in &cooling.circuit {
        if let Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate) = element {
            let channel = plate.channel.there().unwrap();
            knobs.extend([(channel.width.id(), 6e-3), (channel.depth.id(), 4e-3), (channel.length.id(), 0.5)]);
            match plate.outside.there() {
                Some(face) => knobs.extend([(face.area.id(), 0.09), (face.heat_transfer.id(), 60.0)]),
                None => knobs.push((plate.heat.id(), 100.0)),
            }
        }
    }
    knobs
}

/// A plain generator, so that a failure comes again: 0…1.
fn dice(state: &mut u64) -> f64 {
    *state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
    (*state >> 11) as f64 / (1u64 << 53) as f64
}

#[test]
fn heat_in_is_heat_out_whatever_is_changed() {
    let machine = machine(&[]);
    let knobs = knobs(&machine);
    let (mut state, mut settled) = (7, 0);
    for _ in 0..1_000 {
        let row: Vec<_> = knobs.iter().map(|(id, si)| (*id, si * (0.6 + 0.9 * dice(&mut state)))).collect();
        match solved(&machine, "climb", &row) {
            Ok(coolant) => {
                settled += 1;
                for circuit in [&coolant.driven, &coolant.idle] {
                    assert!(circuit.imbalance.abs() < 1e-6, "{}", circuit.imbalance);
                    let sum: f64 = circuit.elements.iter().map(|element| element.heat.si()).sum();
                    let put: f64 = circuit.elements.iter().map(|element| element.heat.si().max(0.0)).sum();
                    assert!(circuit.stalled || sum.abs() < 1e-6 * put, "{sum} of {put}");
                    let ends = circuit.elements.iter().zip(circuit.elements.iter().cycle().skip(1));
                    assert!(
                        circuit.stalled || ends.into_iter().all(|(a, b)| (a.outlet.si() - b.inlet.si()).abs() < 1e-6)
                    );
                }
            }
            // Beyond 100 °C the mixture's tables end.
            Err(NotJudged::OutsideRange { was, .. }) => assert!(was > 370.0, "{was}"),
            Err(other) => panic!("{other:?}"),
        }
    }
    assert!(settled > 180, "{settled}");
}

#[test]
fn the_exchanger_gives_off_what_goes_in_by_hand() {
    let driven = coolant(&[LAGGED], "climb").driven;
    // 9 + 40 + 90 W leave through the deck.
    assert!((driven.elements[3].heat.si() + 139.0).abs() < 1e-4);
    assert!((driven.elements[SWITCHES].heat.si() - 40.0).abs() < 1e-6 && driven.running && !driven.stalled);
    // Mean coolant over the air by heat over conductance, film and face in series; mean of an exponential by its ends.
    let deck = &driven.elements[3];
    let (a, b) = (deck.inlet.si() - 283.15, deck.outlet.si() - 283.15);
    let conductance = 139.0 / ((a - b) / (a / b).ln());
    assert!(conductance < 0.09 * 60.0 && conductance > 0.6 * 0.09 * 60.0, "{conductance}");
    // The pump makes what the rest loses.
    let sum: f64 = driven.elements.iter().map(|element| element.drop.si()).sum();
    assert!(sum.abs() < 1e-3, "{sum}");
}

#[test]
fn more_resistance_never_raises_the_flow() {
    // Hoses that lose heat make the coolant thicker, and what was about to swirl flows smoothly again: not asked here.
    let machine = machine(&[LAGGED]);
    for case in ["climb", "cold"] {
        let mut before = f64::INFINITY;
        for step in 1..12 {
            let row = [(machine.cooling.hoses.get(0).unwrap().length.id(), f64::from(step) * 1.5)];
            let flow = solved(&machine, case, &row).unwrap().driven.flow.si();
            assert!(flow <= before * (1.0 + 1e-9), "{case}: {flow} after {before}");
            before = flow;
        }
    }
}

#[test]
fn warmer_air_never_cools_anything() {
    let machine = machine(&[]);
    let air = machine.cases.named("warm").unwrap().air.id();
    let mut before: Option<Coolant> = None;
    for degrees in -12..30 {
        let now = solved(&machine, "warm", &[(air, 273.15 + f64::from(degrees))]).unwrap();
        if let Some(before) = &before {
            let circuits = [(&before.driven, &now.driven), (&before.idle, &now.idle)];
            for (colder, warmer) in circuits.iter().flat_map(|(a, b)| a.elements.iter().zip(&b.elements)) {
                assert!(warmer.outlet.si() >= colder.outlet.si() - 1e-6, "{degrees} °C");
            }
        }
        before = Some(now);
    }
}

#[test]
fn water_free_glycol_runs_hotter() {
    // Common practice, no source: some 3…9 K hotter than half-and-half with water.
    let half = coolant(&[("share_by: mass", "share_by: volume")], "climb").driven;
    let pure = coolant(&[("glycol: 50 %", "glycol: 100 %")], "climb").driven;
    let hotter = |place: usize| pure.elements[place].wetted.1.si() - half.elements[place].wetted.1.si();
    assert!((3.0..9.0).contains(&hotter(WINDINGS)), "{}", hotter(WINDINGS));
    assert!(hotter(SWITCHES) > 0.0);
}

#[test]
fn a_heated_motor_before_the_controller_warms_its_inlet() {
    let plate = "    - {kind: plate, name: switches, heat: 40 W, zone: box, channel: {width: 4 mm, depth: 4 mm, length: 0.5 m, turns: 4}, contact_resistance: 0.05 K/W}\n";
    let jacket = "    - {kind: jacket, name: windings, heat: 90 W, channel: {width: 8 mm, depth: 3 mm, length: 1.2 m}, contact_resistance: 0.05 K/W}\n";
    let swapped = [(plate, "    - here\n"), (jacket, plate), ("    - here\n", jacket)];
    let (before, after) = (coolant(&[], "climb").driven, coolant(&swapped, "climb").driven);
    let motor = &after.elements[SWITCHES];
    assert!((motor.heat.si() - 90.0).abs() < 1e-6);
    let warmer = after.elements[WINDINGS].inlet.si() - before.elements[SWITCHES].inlet.si();
    let by_hand = 90.0 / (after.flow.si() * density_times_capacity());
    assert!((warmer / by_hand - 1.0).abs() < 0.03, "{warmer} and {by_hand}");
}

/// Half glycol by mass at some 40 °C, ρ·cp in J/(m³·K), by the same published polynomials.
fn density_times_capacity() -> f64 {
    let half = physics::coolant::glycol_water(physics::coolant::Glycol::Ethylene, Ratio::from_si(0.5), celsius(40.0));
    let half = half.unwrap();
    half.density.si() * half.heat_capacity.si()
}

#[test]
fn a_closed_reservoir_follows_the_gas_law_and_comes_back() {
    // Nothing warm, nothing moving: the pressure in the soak by hand, with the liquid's own shrinking.
    let soak = coolant(&[("runs: always", "runs: with_electronics"), STIFF], "soak").driven;
    assert!(!soak.running && soak.pressure_unknown.is_none());
    let half = |degrees: f64| {
        physics::coolant::glycol_water(physics::coolant::Glycol::Ethylene, Ratio::from_si(0.5), celsius(degrees))
            .unwrap()
    };
    let gas = 60.0 + 300.0 * (1.0 - (half(20.0).density / half(-15.0).density).si());
    // Half as much ethylene glycol by mass as there is: 77.5 % of the molecules are water, which gives 2.339 kPa at 20 °C
    // and 0.611 kPa at 0 °C, and no more below; the glycol gives next to nothing.
    let by_hand = (101_325.0 - 0.775 * 2339.0) * 60.0 / gas * 258.15 / 293.15 + 0.775 * 611.0;
    assert!((soak.reservoir_pressure.si() / by_hand - 1.0).abs() < 1e-4, "{}", soak.reservoir_pressure.si());
    // Back at the temperature and height of filling it is the pressure of filling.
    let changes = [
        ("runs: always", "runs: with_electronics"),
        ("soak: {kind: soak}", "soak: {kind: soak, air: 20 °C}"),
        ("0 m to 800 m", "0 m to 0 m"),
    ];
    assert!((coolant(&changes, "soak").driven.reservoir_pressure.si() / 101_325.0 - 1.0).abs() < 1e-9);
    // Without a lid given it is said, and everything else stands.
    let open = coolant(&[(", lid: {closes: closed}", "")], "climb").driven;
    assert!(matches!(open.pressure_unknown, Some(NotJudged::NotGiven { .. })) && open.running);
    // A valve lets air in.
    let valve = ("closes: closed", "closes: closed, vacuum_valve: 5 kPa");
    let held = coolant(&[("runs: always", "runs: with_electronics"), valve, ("0 m to 800 m", "0 m to 0 m")], "soak");
    assert!((held.driven.reservoir_pressure.si() - 96_325.0).abs() < 1.0);
    // Pressure along the loop ends where it began.
    let driven = coolant(&[], "climb").driven;
    assert!((driven.elements[7].pressure.si() - driven.reservoir_pressure.si()).abs() < 1e-3);
    assert!(driven.elements[1].pressure.si() < driven.reservoir_pressure.si());
    assert!(driven.elements[2].pressure.si() > driven.reservoir_pressure.si());
}

#[test]
fn idle_is_colder_and_control_decides() {
    let always = coolant(&[], "climb");
    let pairs = always.idle.elements.iter().zip(&always.driven.elements);
    assert!(pairs.into_iter().all(|(idle, driven)| idle.outlet.si() < driven.outlet.si()) && always.idle.running);
    let waits = coolant(&[("runs: always", "runs: above_temperature, starts_above: 30 °C")], "climb");
    assert!(waits.driven.running && !waits.idle.running && waits.idle.flow == VolumeRate::ZERO);
    let stands = ("climb: {kind: climb,", "climb: {kind: climb, pump: stopped,");
    let stopped = coolant(&[stands, ("heat: 40 W", "heat: 4 W")], "climb");
    assert!(!stopped.driven.running && stopped.idle.running);
    // 40 W through 0.008 m² of the plate would stand 125 K above the air, where nothing is known of the coolant any more.
    let hot = coolant(&[stands], "climb").driven;
    assert!(hot.warm().is_err() && hot.elements.iter().all(|each| each.wall.si() <= 373.15));
    assert!(stopped.driven.warm().is_ok());
    // 90 W through 0.0264 m² at 40 W/(m²·K) and 0.05 K/W stand 89.7 K above the air.
    assert!((stopped.driven.elements[WINDINGS].wall.si() - 283.15 - 89.7).abs() < 0.1);
    let snow = coolant(&[("climb: {kind: climb,", "climb: {kind: climb, snow_on_plate: yes,")], "climb");
    assert!(snow.driven.elements[3].inlet.si() > always.driven.elements[3].inlet.si());
}

#[test]
fn a_thermostat_holds_its_temperature() {
    let valve = |degrees: &str| {
        let text = format!(
            "    - {{kind: thermostat, name: valve, opens_at: {degrees}, bypasses: deck}}\n    - {{kind: exchanger"
        );
        coolant(&[("    - {kind: exchanger", &text)], "climb").driven
    };
    let free = coolant(&[], "climb").driven.elements[3].inlet.si() - 273.15;
    let open = valve("5 °C");
    assert!((open.elements[3].inlet.si() - 273.15 - free).abs() < 0.05);
    let held = valve("85 °C");
    assert!((held.elements[3].inlet.si() - 358.15).abs() < 1e-3, "{} and free {free}", held.elements[3].inlet.si());
    assert!(held.imbalance.abs() < 1e-6);
}

#[test]
fn a_centrifugal_pump_and_a_tested_drop_work_too() {
    let tested = (
        "channel: {width: 8 mm, depth: 3 mm, length: 1.2 m}",
        "tested: {pressure_drop: 9 kPa, flow: 1 L/min, fluid: plain, temperature: 20 °C}",
    );
    let driven = coolant(&[("positive_displacement", "centrifugal"), tested], "climb").driven;
    assert!(driven.running && driven.imbalance.abs() < 1e-6 && driven.elements[WINDINGS].drop.si() > 0.0);
}

#[test]
fn thick_cold_coolant_stalls_the_pump() {
    let thick = [
        ("glycol: 50 %", "glycol: 100 %"),
        ("ethylene", "propylene"),
        ("length: 1.8 m", "length: 60 m"),
        ("bore: 6 mm", "bore: 4 mm"),
    ];
    // Heated, it has no answer that anybody knows; without heat it is as cold as what is round it.
    let heated = coolant(&thick, "cold").driven;
    assert!(heated.stalled && !heated.running && heated.warm().is_err());
    assert!(heated.elements.iter().all(|each| each.outlet.si() <= 383.15));
    let unheated = [thick[0], thick[1], thick[2], thick[3], ("power: 9 W", "power: 0 W")];
    let idle = asked(&machine(&unheated), "cold", &[], |at| at.idle_coolant()).unwrap();
    assert!(idle.stalled && !idle.running && idle.elements.iter().all(|each| each.wetted.1.si() < 273.15));
}

#[test]
fn a_heated_face_that_cools_itself_balances_by_hand() {
    // The jacket gets fins of its own in still another air: 4 W/K against the loop's own way out.
    let fins =
        ("length: 1.2 m}, contact", "length: 1.2 m}, outside: {area: 0.1 m², heat_transfer: 40 W/(m²·K)}, contact");
    let driven = coolant(&[fins], "climb").driven;
    assert!(driven.imbalance.abs() < 1e-6, "{}", driven.imbalance);
    let (plain, jacket) = (coolant(&[], "climb").driven, &driven.elements[WINDINGS]);
    assert!(
        jacket.heat.si() < 90.0 && jacket.heat.si() > 0.0 && jacket.outlet.si() < plain.elements[WINDINGS].outlet.si()
    );
    // Its fins take the rest of the 90 W from coolant at its mean, through film and face: less than the face alone would.
    let given = 90.0 - jacket.heat.si();
    let mean = 0.5 * (jacket.inlet.si() + jacket.outlet.si()) - 283.15;
    assert!(given < 4.0 * mean && given > 0.7 * 4.0 * mean, "{given} at {mean}");
}

#[test]
fn losses_by_hand() {
    asked(&machine(&[]), "climb", &[], |at| {
        let loaded = Loop::read(at, Strained::Clean).unwrap();
        let liquid = physics::coolant::water(celsius(20.0)).unwrap();
        let flow = 2e-5;
        // Controller plate: 4 × 4 mm, 0.5 m, 4 turns of 2.2, both mouths 1.5; 1.25 m/s, Re 4983: swirling, a round pipe's f.
        let found = loaded.stations[SWITCHES].passage.loss(flow, &liquid).0;
        let friction = physics::pipe::friction_factor(1.25 * 4e-3 / 1.00342e-6, 0.0);
        let by_hand = (friction * 0.5 / 4e-3 + 4.0 * 2.2 + 1.5) * 998.2 * 1.25 * 1.25 / 2.0;
        assert!((found / by_hand - 1.0).abs() < 1e-3, "{found} and {by_hand}");
        // Smooth: a square channel loses 56.9/64 of a round pipe's, f = 0.0569 at Re 1000.
        let slow = 1000.0 * 1.00342e-6 * 4e-3;
        let speed = slow / 16e-6;
        let by_hand = (0.0569 * 0.5 / 4e-3 + 10.3) * 998.2 * speed * speed / 2.0;
        let found = loaded.stations[SWITCHES].passage.loss(slow, &liquid).0;
        assert!((found / by_hand - 1.0).abs() < 2e-3, "{found} and {by_hand}");
    });
    let tested = (
        "channel: {width: 8 mm, depth: 3 mm, length: 1.2 m}",
        "tested: {pressure_drop: 9 kPa, flow: 1 L/min, fluid: plain, temperature: 20 °C}",
    );
    asked(&machine(&[tested]), "climb", &[], |at| {
        let passage = &Loop::read(at, Strained::Clean).unwrap().stations[WINDINGS].passage;
        let water = physics::coolant::water(celsius(20.0)).unwrap();
        // As tested; and at twice the flow between double and fourfold.
        assert!((passage.loss(1e-3 / 60.0, &water).0 - 9e3).abs() < 1e-6);
        assert!((passage.loss(2e-3 / 60.0, &water).0 - 27e3).abs() < 1e-6);
    });
}

#[test]
fn a_displacement_pump_never_pushes_harder_than_its_stall() {
    asked(&machine(&[]), "climb", &[], |at| {
        let pump = Loop::read(at, Strained::Clean).unwrap().pump;
        let water = 1.0016e-3;
        assert!((pump.rise(0.0, water).0 / 150e3 - 1.0).abs() < 1e-3 && pump.rise(pump.free, water).0.abs() < 1e-4);
        // Fifty times as thick it leaks a fiftieth: half the flow stands against all of the stall pressure, no more.
        assert!((pump.rise(0.5 * pump.free, 50.0 * water).0 / 150e3 - 1.0).abs() < 1e-12);
        assert!((pump.rise(0.99 * pump.free, 50.0 * water).0 / 150e3 - 0.5).abs() < 1e-3);
    });
}

#[test]
fn idle_the_pump_alone_warms_it() {
    let idle = coolant(&[LAGGED], "climb").idle;
    assert!((idle.elements[2].heat.si() - 9.0).abs() < 1e-6 && (idle.elements[3].heat.si() + 9.0).abs() < 1e-4);
    assert!(idle.elements[SWITCHES].heat.si().abs() < 1e-9);
}

#[test]
fn the_drive_line_heats_what_cools_it() {
    let cooling = "
coolants: {mix: {kind: glycol_water, glycol: ethylene}}
cooling:
  coolant: {fluid: mix, glycol: 50 %, share_by: volume, volume: 300 mL, filled_at: 20 °C}
  pump: {works_by: positive_displacement, free_flow: 1.4 L/min, stall_pressure: 150 kPa, runs: with_electronics}
  circuit:
    - pump
    - {kind: exchanger, name: deck, channel: {width: 6 mm, depth: 4 mm, length: 2.6 m}, outside: {area: 0.3 m², heat_transfer: 60 W/(m²·K), swept_by: ground}}
    - {kind: plate, name: left, cools: motor, channel: {width: 6 mm, depth: 4 mm, length: 1 m}, contact_resistance: 0.02 K/W}
    - {kind: plate, name: right, cools: motor, channel: {width: 6 mm, depth: 4 mm, length: 1 m}, contact_resistance: 0.02 K/W}
    - {kind: plate, name: switches, cools: controller, channel: {width: 6 mm, depth: 4 mm, length: 1 m}, contact_resistance: 0.02 K/W}
suspension:";
    let machine = crate::drive::tests::carrier(&[("\nsuspension:", cooling)]);
    let (drive, loaded) = asked(&machine, "climb", &[], |at| (at.drive().unwrap().clone(), at.coolant().cloned()));
    let driven = loaded.unwrap().driven;
    assert!((driven.elements[2].heat.si() / (0.5 * drive.motor_heat.si()) - 1.0).abs() < 1e-6);
    assert!((driven.elements[4].heat.si() / drive.controller_heat.si() - 1.0).abs() < 1e-6);
    assert!(driven.imbalance.abs() < 1e-6);
    // Cold-soaked and off, the pump stands still, and everything has the air's temperature.
    let soak = asked(&machine, "soak", &[], |at| at.coolant().cloned()).unwrap();
    assert!(!soak.driven.running && soak.driven.elements.iter().all(|each| (each.wall.si() - 253.15).abs() < 1e-9));
}
