//! Loops that nobody should build: each has an outcome in words, and none hangs.

use super::*;

#[test]
fn hostile_loops_have_outcomes() {
    let none = |changes: &[(&str, &str)]| match solved(&machine(changes), "climb", &[]) {
        Err(NotJudged::NoSolution(words)) => words,
        other => panic!("{other:?}"),
    };
    let from = LOOP.find("  circuit:").unwrap();
    let circuit = LOOP[from..].split("assumed:").next().unwrap();
    assert_eq!(none(&[(circuit, "")]), "no coolant circuit is given");
    assert!(none(&[("    - pump\n", "")]).contains("no pump"));
    let hoses = [("    - {kind: hose, hose: short}\n", ""), ("    - {kind: hose, hose: long}\n", "")];
    let no_way_out = [(", outside: {area: 0.09 m², heat_transfer: 60 W/(m²·K)}", ""), hoses[0], hoses[1]];
    assert!(none(&no_way_out).contains("heat out"));
    assert!(none(&[("free_flow: 1.4 L/min", "free_flow: 0 L/min")]).contains("moves nothing"));
    let two = coolant(&[("    - pump\n", "    - pump\n    - pump\n")], "climb").driven;
    assert!(two.flow.si() > coolant(&[], "climb").driven.flow.si());
    let machine = machine(&[]);
    let Element::Plate(plate) = &machine.cooling.circuit[SWITCHES] else { panic!() };
    for heat in [-1e3, 0.0, 1e9, -1e9, f64::INFINITY] {
        let _ = solved(&machine, "climb", &[(plate.heat.id(), heat)]);
    }
    assert!(matches!(solved(&machine, "climb", &[(plate.heat.id(), 1e9)]), Err(NotJudged::OutsideRange { .. })));
    for (id, _) in knobs(&machine) {
        for si in [0.0, -1.0, 1e-12, 1e12] {
            if let Ok(coolant) = solved(&machine, "climb", &[(id, si)]) {
                assert!(coolant.driven.flow.si().is_finite());
            }
        }
    }
}

fn none(changes: &[(&str, &str)]) -> String {
    match solved(&machine(changes), "climb", &[]) {
        Err(NotJudged::NoSolution(words)) => words,
        other => panic!("{other:?}"),
    }
}

/// The circuit's own lines.
fn circuit() -> &'static str {
    let from = LOOP.find("    - reservoir").unwrap();
    LOOP[from..].split("assumed:").next().unwrap()
}

#[test]
fn a_circuit_of_one_element() {
    let only = |element: &str| none(&[(circuit(), &format!("    - {element}\n"))]);
    assert_eq!(only("reservoir"), "the coolant circuit has no pump");
    assert_eq!(only("{kind: hose, hose: long}"), "the coolant circuit has no pump");
    assert_eq!(
        only("{kind: strainer, name: sieve, mesh: 0.2 mm, open_area: 3 cm²}"),
        "the coolant circuit has no pump"
    );
    assert!(only("pump").contains("heat out"), "its own heat stays in: {}", only("pump"));
    let cold = coolant(&[(circuit(), "    - pump\n"), ("power: 9 W", "power: 0 W")], "climb").driven;
    assert!((cold.flow.si() * 60e3 - 1.4).abs() < 1e-6, "nothing stands in its way: {cold:?}");
}

#[test]
fn a_pump_that_feeds_itself() {
    let both = "    - pump\n    - pump\n";
    assert!(none(&[(circuit(), both)]).contains("heat out"));
    let through_a_plate = "    - pump\n    - {kind: plate, name: its_own, cools: pump, channel: {width: 4 mm, depth: 4 mm, length: 0.5 m}}\n";
    assert!(none(&[(circuit(), through_a_plate)]).contains("heat out"));
    let cooled = "    - pump\n    - {kind: hose, hose: long}\n";
    let found = coolant(&[(circuit(), cooled)], "climb").driven;
    assert!(found.imbalance.abs() < 1e-6 && found.elements[0].inlet < found.elements[0].outlet, "{found:?}");
}

#[test]
fn frozen_coolant_is_refused_by_its_temperature() {
    let thin = [("glycol: 50 %", "glycol: 5 %")];
    let water = [("fluid: mix, glycol: 50 %, share_by: mass", "fluid: plain")];
    for changes in [&thin, &water] {
        let Err(NotJudged::OutsideRange { unit, from, was, .. }) = solved(&machine(changes), "soak", &[]) else {
            panic!("{changes:?}")
        };
        assert!(unit == "K" && was < from, "{was} {from}");
    }
}

#[test]
fn no_heat_and_heat_without_end() {
    let machine = machine(&[("power: 9 W", "power: 0 W")]);
    let heats: Vec<NodeId> = [SWITCHES, WINDINGS]
        .iter()
        .map(|place| match &machine.cooling.circuit[*place] {
            Element::Plate(plate) | Element::Jacket(plate) => plate.heat.id(),
            _ => panic!(),
        })
        .collect();
    let with = |watts: f64| {
        let row: Vec<(NodeId, f64)> = heats.iter().map(|id| (*id, watts)).collect();
        solved(&machine, "climb", &row)
    };
    let outside = 283.15;
    let air = |element: &ElementState| (element.outlet.si() - outside).abs();
    // The plate in the box, ten kelvin above the air, alone warms it.
    let idle = with(0.0).unwrap().driven;
    assert!(idle.elements.iter().all(|element| air(element) < 10.0));
    // Colder than the air it takes heat out of the deck: the same balance with the sign turned.
    let sucked = with(-20.0).unwrap().driven;
    assert!(sucked.imbalance.abs() < 1e-6 && sucked.elements[WINDINGS].outlet < idle.elements[WINDINGS].outlet);
    for watts in [1e9, 1e300, -1e9] {
        assert!(matches!(with(watts), Err(NotJudged::OutsideRange { .. } | NotJudged::NoSolution(_))), "{watts}");
    }
}

#[test]
fn branches_of_nothing() {
    let last = "    - {kind: hose, hose: long}\n";
    let beside = |nothing: &str| {
        let ways = format!("    - {{kind: hose, hose: long, branch: left}}\n    - {nothing}\n");
        solved(
            &machine(&[
                (last, &ways),
                ("    - reservoir\n", ""),
                ("    - {kind: hose, hose: short}\n", "    - reservoir\n    - {kind: hose, hose: short}\n"),
            ]),
            "climb",
            &[],
        )
    };
    // A way that loses nothing takes all of the flow.
    let open = beside(
        "{kind: plate, name: hole, branch: right, tested: {pressure_drop: 0 kPa, flow: 1 L/min, fluid: plain, temperature: 20 °C}}",
    );
    match open {
        Ok(found) => {
            assert!(found.driven.imbalance.abs() < 1e-6);
            assert!(found.driven.elements.iter().all(|element| element.flow.si().is_finite()));
        }
        Err(NotJudged::NoSolution(words)) => assert!(words.len() > 20, "{words}"),
        Err(other) => panic!("{other:?}"),
    }
    // One branch alone is none.
    let alone = coolant(&[(last, "    - {kind: hose, hose: long, branch: alone}\n")], "climb").driven;
    assert_eq!(alone.flow, coolant(&[], "climb").driven.flow);
    // A way without a bore lets nothing through.
    let shut = beside("{kind: plate, name: shut, branch: right, channel: {width: 1 mm, depth: 1 mm, length: 0.1 m}}");
    let machine_shut = machine(&[(
        last,
        "    - {kind: hose, hose: long, branch: left}\n    - {kind: hose, hose: short, branch: right}\n    - {kind: strainer, name: end, mesh: 1 mm, open_area: 3 cm²}\n",
    )]);
    assert!(shut.is_ok());
    let bore = machine_shut.cooling.hoses.named("short").unwrap().bore.id();
    match solved(&machine_shut, "climb", &[(bore, 0.0)]) {
        Ok(found) => assert!(found.driven.flow.si().is_finite()),
        Err(NotJudged::NoSolution(words)) => assert!(words.len() > 20, "{words}"),
        Err(NotJudged::OutsideRange { .. }) => {}
        Err(other) => panic!("{other:?}"),
    }
}
