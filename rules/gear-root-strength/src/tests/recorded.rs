//! The log of a test run: all its loads as one, by Miner's rule.

use super::{changed, near};
use crate::GearRootStrength;
use rule::prelude::*;
use trial::Row;

const CASE: &str = "sunday: {kind: log, log: sunday.csv, columns: {time: {heading: t, unit: s}, speed: {heading: v, unit: m/s}, \
    motor_current: {heading: i, unit: A}}}";

/// Half an hour at one motor current, then half an hour at another.
fn rows(currents: [f64; 2], changes: &[(&str, &str)]) -> Vec<Row> {
    let log = format!("t,v,i\n0,2,{}\n1800,2,{}\n3600,2,0\n", currents[0], currents[1]);
    let mut all = vec![("launch: {kind: launch, grade: 0 °, duration: 5 s}", CASE)];
    all.extend_from_slice(changes);
    trial::review_beside(&GearRootStrength, &changed(&all), &[("sunday.csv", &log)])
}

fn reserve(check: &str, currents: [f64; 2], changes: &[(&str, &str)]) -> f64 {
    let found = rows(currents, changes).into_iter().find(|row| row.check == check);
    found.map_or(f64::NAN, |row| row.reserve)
}

/// 40 h at 4.5 turns of the sprocket a second are 1.5 million turns of the motor: on the slope of a metal root.
const PINION: &str = "pinion tooth";

#[test]
fn an_even_run_is_that_load_and_nothing_else() {
    let even = reserve(PINION, [40.0, 40.0], &[]);
    assert!(even.is_finite() && near(reserve(PINION, [20.0, 20.0], &[]) / even, 38.0 / 18.0));
}

#[test]
fn two_loads_wear_as_the_root_of_their_powers() {
    // As good as free in the second half: half the turns at 40 A. A plain root's life falls by 2.5 from 10^4 to 3·10^6, which is
    // ln 300/ln 2.5 = 6.225; 2^(1/6.225) = 1.1178.
    let (even, half) = (reserve(PINION, [40.0, 40.0], &[]), reserve(PINION, [40.0, 2.0], &[]));
    assert!(near(half / even, 1.1178), "{half} {even}");
    // ISO 6336-6 for a load of two levels, 38 and 28 A above what only turns the motor, each over half of the turns:
    // (1/2 + 1/2·(28/38)^6.225)^(1/6.225) = 0.9149.
    let two = reserve(PINION, [40.0, 30.0], &[]);
    assert!(near(even / two, 0.9149), "{two} {even}");
}

#[test]
fn the_order_of_the_loads_does_not_matter_and_a_higher_one_never_helps() {
    for check in [PINION, "wheel tooth"] {
        let (one, other) = (reserve(check, [40.0, 25.0], &[]), reserve(check, [25.0, 40.0], &[]));
        assert!(near(one, other), "{check}");
        assert!(
            reserve(check, [45.0, 25.0], &[]) < one
                && reserve(check, [40.0, 25.0], &[]) > reserve(check, [40.0, 40.0], &[])
        );
    }
}

#[test]
fn however_seldom_the_highest_load_comes_it_must_not_break_the_tooth_at_once() {
    let log = "t,v,i\n0,2,10\n3000,2,900\n3000.001,2,10\n6000,2,0\n";
    let all = [
        ("launch: {kind: launch, grade: 0 °, duration: 5 s}", CASE),
        ("resistance: 60 mΩ", "resistance: 1 mΩ"),
        ("resistance: 35 mΩ", "resistance: 1 mΩ"),
    ];
    let rows = trial::review_beside(&GearRootStrength, &changed(&all), &[("sunday.csv", log)]);
    let pinion = rows.iter().find(|row| row.check == PINION).map_or(f64::NAN, |row| row.reserve);
    // 11.324 MPa for each newton metre; 300 MPa · 2 · 2.5 is all that it stands once.
    let torque = 900.0 / 120.0 * 30.0 / core::f64::consts::PI;
    assert!(near(pinion, 1500.0 / (11.324 * torque * 1.25 * 1.2)), "{pinion}");
}

#[test]
fn a_log_without_its_unit_is_asked_for_it() {
    let without = [(", unit: A}}}", "}}}")];
    let asked = rows([40.0, 40.0], &without);
    assert!(asked.iter().any(|row| row.verdict == Verdict::NotJudged && row.says == "unit"), "{asked:?}");
}
