use super::*;
use crate::cache::Cells;
use crate::point::CasePoint;
use document::{Document, Limits, NoFiles, NoShelf};
use machine::{Machine, Swaps, WhatIf};

const SPEC: &str = "
dryfit: 1
machine: {name: trial, mass: 60 kg}
cases: {soak: {kind: soak, duration: 9 h}}
materials:
  plain: {family: printed_polymer, modulus: 2 GPa, tensile_strength: 50 MPa, between_layer_strength: 30 MPa,
    heat_deflection: 80 °C, glass_transition: 60 °C, service_temperature_max: 55 °C,
    strength_at: {-40 °C: 1.4, 23 °C: 1, 70 °C: 0.4}, modulus_at: {-40 °C: 1.2, 23 °C: 1, 70 °C: 0.5}}
  annealed: {family: printed_polymer, modulus: 2 GPa, tensile_strength: 50 MPa, annealed: yes,
    heat_deflection: 56 °C, service_temperature_max: 52 °C,
    strength_at: {23 °C: 1, 60 °C: 0.2}, modulus_at: {23 °C: 1, 60 °C: 0.2},
    when_annealed: {strength: 1.1, modulus: 1.2, heat_deflection: 110 °C, service_temperature_max: 90 °C,
      strength_at: {23 °C: 1, 100 °C: 0.3}, modulus_at: {23 °C: 1, 100 °C: 0.1}}}
  soft: {family: printed_polymer, tensile_strength: 30 MPa, glass_transition: -35 °C, service_temperature_max: 75 °C,
    strength_at: {23 °C: 1, 60 °C: 0.6}}
  rubber: {family: elastomer, tensile_strength: 9 MPa, glass_transition: -35 °C, service_temperature_max: 90 °C,
    strength_at: {23 °C: 1, 60 °C: 0.6}}
  alloy: {family: metal, tensile_strength: 300 MPa, melts_at: 500 °C, strength_at: {23 °C: 1, 150 °C: 0.5}}
  odd: {family: polymer, tensile_strength: 30 MPa, heat_deflection: 90 °C, strength_at: {23 °C: 1, 60 °C: 1.1}}
";

/// What is asked of one material, and whether it rests on a table's last value.
fn of<T>(name: &str, ask: impl FnOnce(&At, &Named<Material>) -> T) -> (T, bool) {
    let document =
        Document::load("trial.machine.yaml", SPEC.as_bytes().to_vec(), &NoFiles, &NoShelf, &Limits::default());
    let machine = Machine::read(&document, &Swaps::new()).unwrap();
    let material = machine.materials.iter().find(|each| each.name() == name).unwrap();
    let (what_if, cells) = (WhatIf::default(), Cells::default());
    let at = At::new(&machine, CasePoint { case: 0, share: 0.0 }, &what_if, &cells);
    let answer = ask(&at, material);
    (answer, at.into_reads().at_most())
}

fn left(name: &str, here: f64) -> (Option<f64>, bool) {
    let (found, at_most) = of(name, |at, material| warmth(at, material, celsius(here)));
    (found.ok().map(|left| left.si()), at_most)
}

#[test]
fn hotter_than_its_table_a_material_is_no_stronger_than_at_its_end_and_soft_it_holds_nothing() {
    assert_eq!(left("plain", 70.0), (Some(0.4), false));
    assert_eq!(left("plain", 79.9), (Some(0.4), true));
    assert_eq!((left("plain", 80.0), left("plain", 300.0)), ((Some(0.0), false), (Some(0.0), false)));
    assert_eq!((left("alloy", 400.0), left("alloy", 500.0)), ((Some(0.5), true), (Some(0.0), false)));
    // What is rubber at room temperature is not soft by its glass transition, and rubber itself stays what it is.
    assert_eq!((left("soft", 70.0), left("soft", 75.0)), ((Some(0.6), true), (Some(0.0), false)));
    assert_eq!(left("rubber", 200.0), (Some(0.6), true));
    // In the cold, and where it rises at its end, nothing is known.
    assert_eq!((left("plain", -41.0), left("odd", 61.0)), ((None, false), (None, false)));
}

#[test]
fn strength_never_rises_beyond_the_end_of_a_table() {
    for name in ["plain", "annealed", "soft", "rubber", "alloy"] {
        let course: Vec<f64> = (23..600).map(|here| left(name, f64::from(here)).0.unwrap()).collect();
        assert!(course.windows(2).all(|pair| pair[1] <= pair[0]), "{name}: {course:?}");
    }
}

#[test]
fn a_finding_can_say_that_something_has_gone_soft() {
    let said = |here: f64| of("plain", |at, material| gone_soft(at, material, celsius(here))).0;
    assert_eq!(
        said(93.0).as_deref(),
        Some("At 93 °C plain is soft, as it is from 80 °C on: nothing of its strength counts.")
    );
    assert_eq!((said(79.0), said(20.0)), (None, None));
}

#[test]
fn annealing_changes_every_figure_that_it_changes() {
    let (limit, _) = of("annealed", |at, material| service_limit(at, material).unwrap().0);
    let (soft, _) = of("annealed", |at, material| softens(at, material).unwrap().0);
    assert_eq!((limit, soft), (celsius(90.0), celsius(110.0)));
    assert_eq!((left("annealed", 100.0), left("annealed", 105.0)), ((Some(0.3), false), (Some(0.3), true)));
    let (strong, _) = of("annealed", |at, material| ultimate(at, material, celsius(100.0), Direction::Along).unwrap());
    let (stiff, _) = of("annealed", |at, material| modulus(at, material, celsius(100.0)).unwrap());
    assert!((strong.si() / (50e6 * 1.1 * 0.3) - 1.0).abs() < 1e-12, "{strong:?}");
    assert!((stiff.si() / (2e9 * 1.2 * 0.1) - 1.0).abs() < 1e-12, "{stiff:?}");
    // What is not annealed has none of it.
    let (limit, _) = of("plain", |at, material| service_limit(at, material).unwrap().0);
    assert_eq!(limit, celsius(55.0));
}
