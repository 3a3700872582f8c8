use super::*;
use crate::drive::tests::{asked, carrier};

const KIND: (&str, &str) = ("series: 14, full_voltage: 4.2 V, nominal_voltage: 3.6 V", "series: 14, kind: phosphate");
const PHOSPHATE: (&str, &str) = (
    "\noils:",
    "\ncells:
  phosphate: {full_voltage: 3.65 V, nominal_voltage: 3.2 V, resistance_at: {-20 °C: 4, 20 °C: 1}, capacity_at: {-20 °C: 0.5, 20 °C: 1}}
oils:",
);

fn battery(changes: &[(&str, &str)], case: &str) -> Battery {
    asked(&carrier(changes), case, &[], |at| at.battery().cloned()).unwrap()
}

#[test]
fn by_its_own_figures_and_the_usual_law_of_cold() {
    let cold = battery(
        &[("62 mΩ}", "62 mΩ, capacity: 20 Ah}"), ("assumed: {", "assumed: {cold_battery_capacity: 60 %, ")],
        "climb",
    );
    assert!((cold.cells.si() - 253.15).abs() < 1e-9);
    assert!((cold.full.unwrap().si() - 58.8).abs() < 1e-9 && (cold.nominal.unwrap().si() - 50.4).abs() < 1e-9);
    assert!((cold.resistance.unwrap().si() - 0.062 * 2.5).abs() < 1e-12);
    assert!((cold.charge.unwrap().si() - 0.6 * 72_000.0).abs() < 1e-6);
}

#[test]
fn by_its_kind() {
    let cold = battery(&[KIND, PHOSPHATE, ("62 mΩ}", "62 mΩ, capacity: 20 Ah}")], "climb");
    assert!((cold.full.unwrap().si() - 51.1).abs() < 1e-9 && (cold.nominal.unwrap().si() - 44.8).abs() < 1e-9);
    assert!((cold.resistance.unwrap().si() - 0.062 * 4.0).abs() < 1e-12);
    assert!((cold.charge.unwrap().si() - 36_000.0).abs() < 1e-6);
    // A kind without a voltage does not get that of the usual cells.
    let blank = battery(&[KIND, (PHOSPHATE.0, "\ncells: {phosphate: {}}\noils:")], "climb");
    assert!(matches!(blank.full, Err(NotJudged::NotGiven { .. })) && blank.charge.is_err());
    let own =
        ("series: 14, full_voltage: 4.2 V, nominal_voltage: 3.6 V", "series: 14, kind: phosphate, full_voltage: 3.5 V");
    assert!((battery(&[own, PHOSPHATE], "climb").full.unwrap().si() - 49.0).abs() < 1e-9);
}

#[test]
fn put_in_warm() {
    let kept = ("62 mΩ}", "62 mΩ, put_in_at: 15 °C}");
    assert!((battery(&[kept], "climb").cells.si() - 288.15).abs() < 1e-9);
    assert!((battery(&[kept], "soak").cells.si() - 253.15).abs() < 1e-9);
}
