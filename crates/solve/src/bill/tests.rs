use super::*;
use document::{Document, Limits, NoFiles, NoShelf};
use machine::Swaps;

fn weighed(text: &str) -> (Vec<Option<f64>>, Vec<Option<f64>>) {
    let text = format!("dryfit: 1\nmachine: {{name: sled}}\n{text}");
    let document = Document::load("spec", text.into_bytes(), &NoFiles, &NoShelf, &Limits::default());
    let machine = Machine::read(&document, &Swaps::new()).unwrap();
    let items = bill(&machine, &WhatIf::default());
    (items.iter().map(|item| item.mass).collect(), items.iter().map(|item| item.price).collect())
}

fn close(a: Option<f64>, b: f64) {
    assert!(a.is_some_and(|a| (a / b - 1.0).abs() < 1e-9), "{a:?} is not {b}");
}

const MATERIALS: &str = "materials:\n  alloy: {family: metal, density: 2700 kg/m³, price: 9}\n  pla: {family: printed_polymer, density: 1240 kg/m³}\n";

#[test]
fn plates_bars_and_tubes_by_hand() {
    let (mass, price) = weighed(&format!(
        "{MATERIALS}structure:\n  parts:\n    \
         plate: {{material: alloy, size: {{length: 400 mm, width: 100 mm, thickness: 5 mm}}}}\n    \
         tube: {{material: alloy, section: {{kind: tube, outer_diameter: 12 mm, wall: 2 mm}}, span: 1 m}}\n    \
         bar: {{material: pla, section: {{kind: round, diameter: 10 mm}}, span: 1 m, build: {{infill: 100 %}}}}\n"
    ));
    close(mass[0], 0.54);
    close(price[0], 4.86);
    // 12 mm less 8 mm bore.
    close(mass[1], std::f64::consts::PI / 4.0 * (144.0 - 64.0) * 1e-6 * 2700.0);
    close(mass[2], std::f64::consts::PI / 4.0 * 100.0e-6 * 1240.0);
    assert_eq!(price[2], None);
}

#[test]
fn a_hollow_print_and_what_lacks_a_size_weigh_nothing_that_anybody_knows() {
    let (mass, _) = weighed(&format!(
        "{MATERIALS}structure:\n  printing: {{by: printed, infill: 30 %}}\n  parts:\n    \
         rail: {{material: pla, section: {{kind: rectangle, height: 24 mm, width: 14 mm}}, span: 330 mm}}\n    \
         block: {{material: alloy, thickness: 5 mm}}\n    unknown: {{thickness: 5 mm}}\n"
    ));
    assert_eq!(mass, [None, None, None]);
}

#[test]
fn springs_count_with_their_dead_coils_and_bearings_have_a_price_only() {
    let (mass, price) = weighed(&format!(
        "{MATERIALS}suspension:\n  skid: {{count: 2, spring: {{wire: 3 mm, mean_diameter: 24 mm, active_coils: 7, \
         material: alloy, price: 6.5}}}}\npowertrain: {{bearings: {{idler: {{kind: plain, bore: 12 mm, price: 3}}}}}}\n"
    ));
    let wire = std::f64::consts::PI * 0.024 * 9.0;
    close(mass[0], 2.0 * wire * std::f64::consts::PI / 4.0 * 9e-6 * 2700.0);
    assert_eq!(price, [Some(13.0), Some(3.0)]);
    assert_eq!(mass[1], None);
}
