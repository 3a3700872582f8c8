//! A fact of the trade (common practice, no source): under shock a solid plastic gear on a bare steel shaft fails at its hub; with
//! a metal insert of full width it does not.

use super::row;
use rule::prelude::{String, ToString, Vec, format};

/// A landing under power with a rotor of 1.2e-3 kg·m²; the pinion of 28 teeth, so that there is room for an insert.
const LANDS: [(&str, &str); 4] = [
    ("rotor_inertia: 4e-4", "rotor_inertia: 1.2e-3"),
    ("launch: {kind: launch, grade: 0 °}", "lands: {kind: landing, drop: 0.3 m, under_power: yes, speed: 15 km/h}"),
    ("teeth: 17, material: steel", "teeth: 28, material: plastic, build: {by: machined}"),
    ("42.75 mm", "51 mm"),
];

fn lands(wheel: &str) -> Vec<(&'static str, String)> {
    let mut changes: Vec<(&'static str, String)> = LANDS.iter().map(|(from, to)| (*from, (*to).to_string())).collect();
    changes.push((super::HELD, format!("{wheel}}}\n      wheel")));
    changes
}

fn reserve(check: &str, pinion: &str) -> f64 {
    let changes = lands(pinion);
    let changes: Vec<(&str, &str)> = changes.iter().map(|(from, to)| (*from, to.as_str())).collect();
    row(check, &changes).reserve
}

#[test]
fn bare_on_steel_it_fails_at_the_hub_and_with_an_insert_it_does_not() {
    for bare in [
        "held_by: {by: d_shape, diameter: 8 mm, across_flats: 7 mm, length: 14 mm}",
        "held_by: {by: key, length: 14 mm}",
        "held_by: {by: hex, across_flats: 8 mm, length: 14 mm}",
    ] {
        assert!(reserve("pinion on its shaft", bare) < 1.0, "{bare}");
    }
    let insert = "held_by: {by: key, length: 14 mm}, hub: {form: insert, material: steel, outer_diameter: 26 mm, length: 14 mm, held_by: {by: hex, across_flats: 24 mm}}";
    assert!(reserve("pinion on its insert", insert) > 1.5 && reserve("pinion on its shaft", insert) > 1.5);
}
