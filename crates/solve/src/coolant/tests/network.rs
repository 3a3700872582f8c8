//! Branches, relief, suction, cold starts, clogged strainers.

use super::super::path::{Stretch, path};
use super::*;

/// Two hoses side by side in place of the long one.
fn split(left: &str, right: &str) -> Vec<(String, String)> {
    let hoses = format!(
        "left: {{bore: 6 mm, wall: 1.5 mm, length: {left}}}, right: {{bore: 6 mm, wall: 1.5 mm, length: {right}}}, short:"
    );
    let ways = "    - {kind: hose, hose: left, branch: a}\n    - {kind: hose, hose: right, branch: b}\n";
    vec![("short: {bore".into(), format!("{hoses} {{bore")), ("    - {kind: hose, hose: long}\n".into(), ways.into())]
}

fn with(more: &[(String, String)], changes: &[(&str, &str)], case: &str) -> Coolant {
    let all: Vec<(&str, &str)> =
        more.iter().map(|(from, to)| (from.as_str(), to.as_str())).chain(changes.iter().copied()).collect();
    coolant(&all, case)
}

#[test]
fn branches_are_found_wherever_they_stand() {
    let places = |changes: &[(&str, &str)]| path(&machine(changes).cooling.circuit);
    let plain = places(&[]).unwrap();
    assert!(plain.len() == 8 && plain.iter().all(|stretch| matches!(stretch, Stretch::Single(_))));
    let deck = ("name: deck, ", "name: deck, branch: one, ");
    let (switches, sieve) =
        (("name: switches, ", "name: switches, branch: two, "), ("name: sieve, ", "name: sieve, branch: one, "));
    let found = places(&[deck, switches, sieve]).unwrap();
    assert_eq!(found[3], Stretch::Branches(vec![vec![3, 5], vec![4]]));
    // One branch alone is none.
    assert_eq!(places(&[deck]).unwrap(), plain);
    // A list that begins amid its branches.
    let cut = [
        ("    - reservoir\n", ""),
        ("    - {kind: hose, hose: short}\n", "    - {kind: hose, hose: short, branch: a}\n"),
        ("    - {kind: hose, hose: long}\n", "    - {kind: hose, hose: long, branch: b}\n"),
    ];
    assert!(matches!(places(&cut), Err(NotJudged::NoSolution(_))));
}

#[test]
fn equal_branches_halve_the_flow_and_unequal_ones_lose_the_same() {
    let even = with(&split("1.8 m", "1.8 m"), &[], "climb").driven;
    assert!((even.elements[7].flow.si() / even.flow.si() - 0.5).abs() < 1e-9);
    assert!((even.elements[8].flow.si() - even.elements[7].flow.si()).abs() < 1e-15);
    let uneven = with(&split("0.6 m", "2.4 m"), &[], "climb").driven;
    let (left, right) = (&uneven.elements[7], &uneven.elements[8]);
    assert!((left.flow.si() + right.flow.si()) / uneven.flow.si() - 1.0 < 1e-12);
    assert!((left.drop.si() / right.drop.si() - 1.0).abs() < 1e-7 && left.flow.si() > right.flow.si());
    assert_eq!(left.inlet, right.inlet);
    // Behind them it is mixed: what comes next gets the mean by flow.
    let mixed = (left.outlet.si() * left.flow.si() + right.outlet.si() * right.flow.si()) / uneven.flow.si();
    assert!((uneven.elements[0].inlet.si() - mixed).abs() < 1e-6);
    // Smooth flow without mouths and heat would part as one over the length; mouths make it more even.
    let parts = left.flow.si() / right.flow.si();
    assert!(parts > 2.0 && parts < 4.0, "{parts}");
}

#[test]
fn a_thin_branch_beside_a_wide_one_is_found_all_the_same() {
    let thin = split("1 m", "1 m");
    let narrow = ("right: {bore: 6 mm", "right: {bore: 0.5 mm");
    let found = with(&thin, &[narrow], "climb").driven;
    assert!(found.elements[8].flow.si() < 1e-3 * found.elements[7].flow.si() && found.elements[8].flow.si() > 0.0);
    assert!((found.elements[7].drop.si() / found.elements[8].drop.si() - 1.0).abs() < 1e-7);
}

const THICK: [(&str, &str); 2] = [("glycol: 50 %", "glycol: 100 %"), ("ethylene", "propylene")];

#[test]
fn a_relief_valve_holds_the_pressure_and_the_loop_gets_less() {
    let relief = ("stall_pressure: 150 kPa", "stall_pressure: 150 kPa, relief: 30 kPa");
    let (free, held) = (coolant(&THICK, "cold").driven, coolant(&[THICK[0], THICK[1], relief], "cold").driven);
    assert!(!free.relieved && (free.most.si() - 150e3).abs() < 1e-6);
    assert!(held.relieved && (held.most.si() - 30e3).abs() < 1e-6 && held.flow.si() < free.flow.si());
    assert!((held.elements[2].drop.si() + 30e3).abs() < 1.0, "{}", held.elements[2].drop.si());
    // A valve that opens higher than the pump can push never opens.
    let idle = ("stall_pressure: 150 kPa", "stall_pressure: 150 kPa, relief: 200 kPa");
    assert!(!coolant(&[THICK[0], THICK[1], idle], "cold").driven.relieved);
}

#[test]
fn a_cold_start_is_as_cold_as_the_soak_everywhere() {
    let start = (
        "  soak: {kind: soak}",
        "  soak: {kind: soak, air: -12 °C}\n  start: {kind: cold_start, after: soak, air: -5 °C}",
    );
    let found = coolant(&[start], "start").driven;
    assert!(found.running && found.elements.iter().all(|each| (each.wall.si() - 261.15).abs() < 1e-9));
    assert!(found.elements.iter().all(|each| each.heat.si() == 0.0) && found.imbalance == 0.0);
    let climb = coolant(&[("air: 10 °C", "air: -12 °C")], "climb").driven;
    assert!(found.elements[2].drop.si() < climb.elements[2].drop.si(), "colder, so it takes more pressure");
    // Without a soak before it, as cold as the outside air.
    let plain = coolant(&[("  soak: {kind: soak}", "  start: {kind: cold_start, air: -5 °C}")], "start").driven;
    assert!((plain.elements[4].inlet.si() - 268.15).abs() < 1e-9);
    // A pump that waits for warm coolant stands.
    let waits = ("runs: always", "runs: above_temperature, starts_above: 5 °C");
    assert!(!coolant(&[start, waits], "start").driven.running);
    // Stalled, it pushes as hard as it can and hardly anything flows.
    let long = [THICK[0], THICK[1], start, ("length: 1.8 m", "length: 60 m"), ("bore: 6 mm", "bore: 4 mm")];
    let stalled = coolant(&long, "start").driven;
    assert!(stalled.stalled && !stalled.running && stalled.flow.si() > 0.0);
    assert!((stalled.elements[2].drop.si() + 150e3).abs() < 1.0);
    assert!(stalled.elements[7].drop.si() > 100e3);
}

#[test]
fn a_long_thin_suction_hose_starves_the_pump() {
    let starving = [
        THICK[0],
        THICK[1],
        ("length: 0.4 m", "length: 12 m"),
        ("free_flow: 1.4", "free_flow: 3"),
        ("150 kPa", "900 kPa"),
    ];
    let found = coolant(&starving, "cold").driven;
    assert!(found.starved, "{found:?}");
    // Its inlet stands at the vapour pressure, which is next to none, and not below.
    let inlet = found.elements[1].pressure.si();
    assert!(inlet > 0.0 && inlet < 1e3, "{inlet}");
    let sum: f64 = found.elements.iter().map(|each| each.drop.si()).sum();
    assert!(sum.abs() < 1e-3 && !coolant(&[], "cold").driven.starved);
}

#[test]
fn a_clogged_strainer_takes_flow() {
    let machine = machine(&[("open_area: 3 cm²", "open_area: 0.2 cm²")]);
    let (clean, clogged) =
        asked(&machine, "cold", &[], |at| (at.coolant().unwrap().driven.clone(), at.clogged().unwrap().clone()));
    assert!(clogged.flow.si() < clean.flow.si() && clogged.elements[5].drop.si() > 1.9 * clean.elements[5].drop.si());
}

#[test]
fn a_thick_coolant_may_have_a_second_steady_state() {
    // The long branch stays full of cold thick coolant while the short one takes the flow; warm, both would cool.
    let deck = "    - {kind: exchanger, name: deck, channel: {width: 6 mm, depth: 4 mm, length: 2.6 m, turns: 11}, outside: {area: 0.09 m², heat_transfer: 60 W/(m²·K)}}\n";
    let face = |name: &str, length: &str, area: &str| {
        format!(
            "    - {{kind: exchanger, name: {name}, branch: {name}, channel: {{width: 6 mm, depth: 4 mm, length: {length}}}, outside: {{area: {area}, heat_transfer: 60 W/(m²·K)}}}}\n"
        )
    };
    let branches = face("one", "3.2 m", "0.065 m²") + &face("two", "0.42 m", "0.032 m²");
    let stuck = [
        THICK[0],
        THICK[1],
        (deck, branches.as_str()),
        ("150 kPa", "45.6 kPa"),
        ("heat: 90 W", "heat: 150 W"),
        ("air: -15 °C to", "air: -9.9 °C to"),
    ];
    let cold = coolant(&stuck, "cold").driven;
    let once_warm = |changes: &[(&str, &str)], case| asked(&machine(changes), case, &[], |at| at.once_warm()).unwrap();
    let warm = once_warm(&stuck, "cold").expect("another state");
    let hottest = cold.elements.iter().map(|each| each.outlet.si()).fold(0.0, f64::max);
    assert!(cold.running && cold.elements[3].flow.si() < 0.01 * cold.flow.si());
    assert!(warm.hottest.si() < hottest - 30.0, "{} and {hottest}", warm.hottest.si());
    assert!(once_warm(&[], "climb").is_none());
}

#[test]
fn hoses_lose_heat_by_hand() {
    let (bare, lagged) = (coolant(&[], "climb").driven, coolant(&[LAGGED], "climb").driven);
    let hose = &bare.elements[7];
    // 12 W/(m²·K) on 9 mm × 1.8 m of outside, a film inside that takes a tenth of it, some kelvin above the air.
    let outer = 12.0 * std::f64::consts::PI * 9e-3 * 1.8;
    let mean = 0.5 * (hose.inlet.si() + hose.outlet.si()) - 283.15;
    let lost = -hose.heat.si() / (outer * mean);
    assert!(lost > 0.8 && lost < 1.0, "{lost}");
    assert!(bare.elements[3].inlet.si() < lagged.elements[3].inlet.si() && lagged.elements[7].heat.si().abs() < 1e-6);
    // Through a warm enclosure it loses less.
    let inside = coolant(&[("{kind: hose, hose: long}", "{kind: hose, hose: long, zone: box}")], "climb").driven;
    assert!(inside.elements[7].heat.si() > hose.heat.si());
}
