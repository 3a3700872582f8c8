//! Absolute pressures: heights, swelling hoses, valves, gaps.

use super::*;

#[test]
fn height_takes_pressure_off_by_hand() {
    let high =
        ("    - {kind: exchanger, name: deck, ", "    - {kind: exchanger, name: deck, height_above_level: 500 mm, ");
    let (level, raised) = (coolant(&[STIFF], "climb").driven, coolant(&[STIFF, high], "climb").driven);
    let lower = |place: usize| level.elements[place].pressure.si() - raised.elements[place].pressure.si();
    // 1070 kg/m³ at 10 °C (Melinder) × 9.81 × 0.5 m.
    assert!((lower(3) - 1070.0 * 9.806_65 * 0.5).abs() < 2.0, "{}", lower(3));
    assert!(lower(2).abs() < 1e-3 && lower(4).abs() < 1e-3);
    let pump = ("stall_pressure: 150 kPa", "stall_pressure: 150 kPa, height_above_level: -40 mm");
    let sunk = coolant(&[STIFF, pump], "climb").driven;
    let gained = sunk.elements[2].entry.si() - level.elements[2].entry.si();
    assert!((gained - 1070.0 * 9.806_65 * 0.04).abs() < 1.0, "{gained}");
}

#[test]
fn swollen_hoses_leave_the_gas_more_room_by_hand() {
    let driven = coolant(&[], "climb").driven;
    let gas = driven.gas.clone().unwrap();
    // Lamé for bore 6, wall 1.5 mm: (3·0.02·9 + 2·1.49·20.25)/11.25 = 5.412 a modulus of 4 MPa.
    let open = physics::air::pressure(Length::from_si(800.0)).unwrap().si();
    let share = |place: usize| {
        let element = &driven.elements[place];
        5.412 * (0.5 * (element.entry.si() + element.pressure.si()) - open) / 4e6
    };
    let area = std::f64::consts::PI / 4.0 * 36e-6;
    let running = area * (0.4 * share(1) + 1.8 * share(7));
    let standing = area * 2.2 * 5.412 / 4e6;
    // Standing, all of it has the pressure of the gas.
    let rest = gas.space.si() - gas.resting.si();
    assert!(rest > 0.0 && rest < running + 1e-12 + standing * 20e3, "{rest} {running}");
    let stiff = coolant(&[STIFF], "climb").driven.gas.unwrap();
    assert!((stiff.space.si() - stiff.resting.si()).abs() < 1e-11);
    assert!((gas.space.si() - stiff.space.si() - running).abs() < 1e-3 * running, "{running}");
    assert!(driven.reservoir_pressure.si() < coolant(&[STIFF], "climb").driven.reservoir_pressure.si());
}

#[test]
fn a_vented_reservoir_has_the_air_outside_whatever_else_is_known() {
    let vented = ("closes: closed", "closes: vented");
    let open = physics::air::pressure(Length::from_si(800.0)).unwrap().si();
    for changes in [vec![vented], vec![vented, ("gas_space: 60 mL, ", "")]] {
        let driven = coolant(&changes, "climb").driven;
        assert!((driven.reservoir_pressure.si() - open).abs() < 1e-9 && driven.pressure_unknown.is_none());
    }
    let blind = coolant(&[vented, ("gas_space: 60 mL, ", "")], "climb").driven;
    assert!(matches!(blind.gas, Err(NotJudged::NotGiven { .. })));
    let closed = coolant(&[("gas_space: 60 mL, ", "")], "climb").driven;
    assert!(matches!(closed.pressure_unknown, Some(NotJudged::NotGiven { .. })));
}

#[test]
fn the_lid_lets_out_and_the_sealed_pressure_is_told() {
    let tight = [("gas_space: 60 mL", "gas_space: 20 mL"), ("air: 10 °C", "air: 45 °C"), STIFF];
    let valve = ("closes: closed", "closes: closed, pressure_max: 20 kPa");
    let open = physics::air::pressure(Length::from_si(800.0)).unwrap().si();
    let (shut, held) = (coolant(&tight, "climb").driven, coolant(&[tight[0], tight[1], STIFF, valve], "climb").driven);
    let sealed = held.gas.unwrap().sealed.si();
    assert!((held.reservoir_pressure.si() - open - 20e3).abs() < 1e-6 && sealed > open + 20e3, "{sealed}");
    assert!(shut.reservoir_pressure.si() > open + 20e3 && shut.pressure_unknown.is_none());
    // Water's vapour adds its own: a hot half-empty bottle has more than the gas law gives.
    let roomy = [("gas_space: 60 mL", "gas_space: 6 L"), ("air: 10 °C", "air: 60 °C"), STIFF];
    let driven = coolant(&roomy, "climb").driven;
    let gas = &driven.elements[0];
    let vapour = |kelvin: f64| {
        0.775 * physics::boiling::water_vapour_pressure(ThermodynamicTemperature::from_si(kelvin)).unwrap().si()
    };
    let room = 6e-3 / driven.gas.clone().unwrap().space.si();
    let by_hand = (101_325.0 - vapour(293.15)) * room * gas.outlet.si() / 293.15 + vapour(gas.outlet.si());
    assert!(vapour(gas.outlet.si()) > 30e3 && (driven.reservoir_pressure.si() / by_hand - 1.0).abs() < 2e-3);
    // No room for what grows: soft hoses take it, stiff ones press hard, and without hoses there is no answer.
    let full = [("gas_space: 60 mL", "gas_space: 0.1 mL"), tight[1]];
    let (soft, stiff) = (coolant(&full, "climb").driven, coolant(&[full[0], full[1], STIFF], "climb").driven);
    assert!(soft.gas.clone().unwrap().space.si() > 0.0 && soft.reservoir_pressure.si() > open + 50e3);
    assert!(stiff.reservoir_pressure.si() > 1e8);
    let none = [("    - {kind: hose, hose: short}\n", ""), ("    - {kind: hose, hose: long}\n", "")];
    let full = coolant(&[full[0], full[1], none[0], none[1]], "climb").driven;
    assert!(matches!(full.pressure_unknown, Some(NotJudged::NoSolution(_))) && full.running);
}

#[test]
fn against_the_air_the_gas_is_judged_at_either_height() {
    let (valley, mountain) = (101_325.0, physics::air::pressure(Length::from_si(800.0)).unwrap().si());
    let resting = [("runs: always", "runs: with_electronics")];
    let soak = coolant(&resting, "soak").driven;
    let gas = soak.reservoir_pressure.si();
    assert!(
        (soak.gas_below.si() - (valley - gas)).abs() < 1e-6 && (soak.gas_above.si() - (gas - mountain)).abs() < 1e-6
    );
    let valve = ("closes: closed", "closes: closed, vacuum_valve: 5 kPa");
    assert!((coolant(&[resting[0], valve], "soak").driven.gas_below.si() - 5e3).abs() < 1e-6);
    let vented = coolant(&[("closes: closed", "closes: vented")], "climb").driven;
    assert_eq!((vented.gas_below, vented.gas_above), (Pressure::ZERO, Pressure::ZERO));
}
