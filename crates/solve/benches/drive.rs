//! What the drive line of one case point costs, over a plain evaluation of the motor's curve: `cargo bench -p solve --bench drive`.
//! The medians of many rounds; the times depend on the machine they run on, the ratios hardly.

#![allow(clippy::expect_used, clippy::print_stdout)]

use document::{Document, FileTrouble, Files, Limits, NoShelf};
use machine::{Machine, Swaps, WhatIf};
use physics::motor::Motor;
use quantity::*;
use solve::{At, CasePoint, Cells};
use std::hint::black_box;
use std::time::Instant;

const ROUNDS: usize = 2001;
/// A single evaluation is too short for the clock.
const CURVES: u32 = 1000;

/// Invented.
const SPEC: &str = "dryfit: 1
machine: {name: carrier, mass: 60 kg}
environment: {air: -20 °C, relative_humidity: 80 %, altitude: 0 m, assembled_at: 20 °C}
cases:
  climb: {kind: climb, grade: 20 °, speed: 6 km/h}
  top_speed: {kind: top_speed}
  launch: {kind: launch}
  recorded:
    kind: log
    log: run.csv
    columns: {time: {heading: t, unit: s}, speed: {heading: v, unit: m/s}, motor_current: {heading: i, unit: A}}
powertrain:
  battery: {cells: {series: 14, full_voltage: 4.2 V, nominal_voltage: 3.6 V}, resistance: 62 mΩ}
  controller: {current_limit: {battery: 100 A, motor: 130 A}, efficiency: 95 %}
  motor: {speed_constant: 118 rpm/V, resistance: 31 mΩ, no_load_current: 2.6 A}
  stages:
    - {name: primary, kind: spur, pinion: {teeth: 17}, wheel: {teeth: 40}, efficiency: 96 %}
    - {name: secondary, kind: chain, driving_teeth: 12, driven_teeth: 23, efficiency: 94 %}
  track: {pitch: 40 mm, links: 46, mass: 2.35 kg, sprocket_teeth: 9, rolling_resistance: 0.12}
assumed: {cold_battery_resistance: 2.5, traction: 0.7}
";

/// A run over all loads and speeds, so that its spectrum is as large as they get.
struct Run;

impl Files for Run {
    fn read(&self, _: &str, name: &str) -> Result<(String, Vec<u8>), FileTrouble> {
        let mut text = String::from("t,v,i\n");
        for row in 0..20_000u32 {
            text += &format!("{row},{},{}\n", f64::from(row % 97) * 0.03, f64::from(row * 7 % 211) - 60.0);
        }
        Ok((name.to_owned(), text.into_bytes()))
    }
}

fn median(mut once: impl FnMut() -> f64) -> f64 {
    let mut times: Vec<f64> = (0..ROUNDS).map(|_| once()).collect();
    times.sort_by(f64::total_cmp);
    *times.get(ROUNDS / 2).expect("rounds")
}

fn main() {
    let document = Document::load("spec", SPEC.into(), &Run, &NoShelf, &Limits::default());
    assert!(document.troubles.is_empty(), "{:?}", document.troubles);
    let machine = Machine::read(&document, &Swaps::new()).expect("the carrier reads");
    let train = &machine.powertrain;
    let what_if = WhatIf::default();
    let reader = machine::Reader::new(machine.row(), &what_if);
    let motor = Motor {
        speed_constant: reader.need(&train.motor.speed_constant).expect("given"),
        resistance: reader.need(&train.motor.resistance).expect("given"),
        no_load_current: reader.need(&train.motor.no_load_current).expect("given"),
    };
    let curve = median(|| {
        let began = Instant::now();
        for turn in 0..CURVES {
            let torque = Torque::from_si(f64::from(turn) * 0.01);
            black_box(motor.at_torque(black_box(ElectricPotential::from_si(48.0)), black_box(torque)));
        }
        began.elapsed().as_secs_f64() / f64::from(CURVES)
    });
    println!("the motor's curve at one torque: {:.0} ns", curve * 1e9);
    for (case, named) in machine.cases.iter().enumerate() {
        let time = median(|| {
            let cells = Cells::default();
            let at = At::new(&machine, CasePoint { case, share: 0.0 }, &what_if, &cells).quiet(true);
            at.battery().expect("a battery");
            let began = Instant::now();
            black_box(at.drive()).as_ref().expect("a drive line");
            began.elapsed().as_secs_f64()
        });
        let steps = machine.log(named).map_or(String::new(), |log| format!(", {} steps", log.by_current.len()));
        println!("{}: {:.2} µs, {:.0} times the curve{steps}", named.name(), time * 1e6, time / curve);
    }
}
