//! What one coolant loop of thirty elements with two branches costs: `cargo bench -p solve --bench coolant`.
//! The median of many rounds, and how many times one evaluation of the coolant's properties that is: the time depends on
//! the machine it runs on, the ratio hardly.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::print_stdout)]

use document::{Document, Limits, NoFiles, NoShelf};
use machine::{Machine, Swaps, WhatIf};
use physics::coolant::{Glycol, glycol_water};
use quantity::{Quantity, Ratio, ThermodynamicTemperature};
use solve::{At, CasePoint, Cells};
use std::fmt::Write;
use std::hint::black_box;
use std::time::Instant;

const ROUNDS: usize = 2001;

/// An invented loop.
fn spec() -> String {
    let mut text = String::from(
        "dryfit: 1
machine: {name: long loop}
environment: {air: -15 °C to 15 °C, relative_humidity: 80 %, altitude: 0 m to 800 m, assembled_at: 20 °C}
cases: {climb: {kind: climb, air: 10 °C}}
coolants: {mix: {kind: glycol_water, glycol: ethylene}}
cooling:
  coolant: {fluid: mix, glycol: 50 %, share_by: mass, volume: 900 mL, filled_at: 20 °C}
  reservoir: {gas_space: 90 mL, lid: {closes: closed}}
  pump: {works_by: positive_displacement, free_flow: 2 L/min, stall_pressure: 200 kPa, power: 9 W, runs: always}
  hoses: {short: {bore: 8 mm, wall: 2 mm, length: 0.2 m}}
  circuit:
",
    );
    text.push_str("    - reservoir\n    - {kind: hose, hose: short}\n    - pump\n");
    let plate = |name: usize, heat: &str, branch: &str| {
        format!(
            "    - {{kind: plate, name: p{name}, {heat}channel: {{width: 6 mm, depth: 4 mm, length: 0.4 m, turns: 3}}, contact_resistance: 0.05 K/W{branch}}}\n"
        )
    };
    for number in 0..9 {
        text.push_str("    - {kind: hose, hose: short}\n");
        text.push_str(&plate(number, "heat: 9 W, ", ""));
    }
    for (number, branch) in ["left", "right", "left", "right"].iter().enumerate() {
        text.push_str(&plate(20 + number, "heat: 12 W, ", &format!(", branch: {branch}")));
    }
    writeln!(text, "    - {{kind: strainer, name: sieve, mesh: 0.3 mm, open_area: 4 cm²}}").unwrap();
    for number in 0..4 {
        let face = "outside: {area: 0.05 m², heat_transfer: 60 W/(m²·K)}, ";
        text.push_str(&plate(30 + number, face, "").replace("plate", "exchanger"));
    }
    text.push_str(
        "assumed: {channel_bend_loss: 2.2, plate_to_air: 40 W/(m²·K), plate_to_snow: 35 W/(m²·K), contact_resistance: 0.1 K/W, hose_to_air: 12 W/(m²·K), hose_modulus: 4 MPa, hose_bends: 2, fan_air: 2 m/s, driving_air: 1 m/s, own_draught: 0.2 m/s, exchanger_opening: 10 %, still_air: 8 W/(m²·K), wetted_metal: 2 mm}\n",
    );
    text
}

/// One evaluation of density, heat capacity, conductivity and viscosity, s.
fn property() -> f64 {
    const EACH: u32 = 1000;
    let mut times = Vec::with_capacity(ROUNDS);
    for _ in 0..ROUNDS {
        let began = Instant::now();
        for number in 0..EACH {
            let warm = ThermodynamicTemperature::from_si(260.0 + 0.05 * f64::from(number));
            let share = black_box(Ratio::from_si(0.5));
            let _ = black_box(glycol_water(Glycol::Ethylene, share, black_box(warm)).expect("in its range"));
        }
        times.push(began.elapsed().as_secs_f64() / f64::from(EACH));
    }
    times.sort_by(f64::total_cmp);
    *times.get(ROUNDS / 2).expect("rounds")
}

fn main() {
    let document = Document::load("spec", spec().into_bytes(), &NoFiles, &NoShelf, &Limits::default());
    let machine = Machine::read(&document, &Swaps::new()).expect("the loop reads");
    let what_if = WhatIf::default();
    let point = CasePoint { case: 0, share: 0.0 };
    let mut times = Vec::with_capacity(ROUNDS);
    for _ in 0..ROUNDS {
        let cells = Cells::default();
        let at = At::new(&machine, point, &what_if, &cells).quiet(true);
        at.surroundings().expect("air");
        let began = Instant::now();
        let solved = black_box(at.coolant());
        times.push(began.elapsed());
        let sound = solved.as_ref().is_ok_and(|found| found.driven.running && found.driven.imbalance.abs() < 1e-6);
        assert!(sound, "{solved:?}");
    }
    times.sort();
    let median = times.get(ROUNDS / 2).expect("rounds").as_secs_f64() * 1e6;
    let ratio = median * 1e-6 / property();
    println!(
        "{} elements, driven and idling: {median:.0} µs together, {ratio:.0} times one evaluation of the properties",
        machine.cooling.circuit.len()
    );
    assert!(median < 100.0, "{median:.0} µs is more than 100 µs");
}
