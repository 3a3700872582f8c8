//! Heat goes downhill: between coolant and body there is always a film, known or assumed.

use super::tests::{machine, settled, thermal};
use crate::drive::tests::asked;
use quantity::*;

const TESTED: (&str, &str) = (
    "heat: 90 W, channel: {width: 8 mm, depth: 3 mm, length: 1.2 m}",
    "heat: 90 W, area: 20 cm², tested: {pressure_drop: 6 kPa, flow: 1.4 L/min, fluid: mix, temperature: 20 °C}",
);

#[test]
fn a_jacket_with_a_tested_loss_has_a_film_all_the_same() {
    // Next to nothing goes to the air.
    let changes = [TESTED, ("to_air: 100 K/W", "to_air: 1e5 K/W")];
    let machine = machine(&changes);
    let outlet = asked(&machine, "steady", &[], |at| machine::Found::Ok(at.coolant()?.driven.elements[4].outlet));
    // 90 W through 20 cm² at the 400 W/(m²·K) of this machine's assumed figures: 112.5 K, and the contact's 4.5 K.
    let by_hand = outlet.unwrap().si() - 273.15 + 90.0 / (400.0 * 20e-4) + 90.0 * 0.05;
    let case = settled(&thermal("steady", &changes).motor_case);
    assert!((case - by_hand).abs() < 0.1, "{case} {by_hand}");
}

#[test]
fn a_loop_that_has_not_warmed_up_warms_nothing() {
    // A cold body beside coolant that will be hot one day: after a second there is next to no heat anywhere.
    let hot = ("heat: 40 W, zone", "heat: 400 W, zone");
    let slow = thermal("again", &[("after: rest, air: 0 °C, duration: 1 s", "air: 0 °C, duration: 1 s"), hot]);
    let case = slow.motor_case.unwrap().end().si() - 273.15;
    assert!((0.0..0.4).contains(&case), "{case}");
}

#[test]
fn one_wall_between_body_and_coolant() {
    for changes in [vec![], vec![TESTED]] {
        let found = thermal("steady", &changes);
        let settled = found.settled.unwrap();
        assert!(settled.imbalance.abs() < 1e-9 && settled.faces.len() == 2, "{settled:?}");
        for face in settled.faces {
            let (over, under) = (face.body.si() - face.wall.si(), face.wall.si() - face.coolant.si());
            assert!(over > 0.0 && under > 0.0, "{face:?}");
            // What the coolant carries away is what contact and film conduct.
            assert!((face.contact.si() * over / face.heat.si() - 1.0).abs() < 1e-6, "{face:?}");
            assert!((face.film.si() * under / face.heat.si() - 1.0).abs() < 1e-6, "{face:?}");
            let told = found.walls[face.element].clone().unwrap().unwrap().settles().unwrap();
            assert!((told.si() - face.wall.si()).abs() < 1e-9);
        }
    }
}

#[test]
fn faces_in_branches_meet_the_same_coolant() {
    // The same two faces side by side: each gets what the deck has left, and the mixed coolant closes the balance.
    let split = |name: &str| format!("name: {name}, branch: {name}");
    let (switches, windings) = (split("switches"), split("windings"));
    let changes = [("name: switches", switches.as_str()), ("name: windings", windings.as_str())];
    let settled = thermal("steady", &changes).settled.unwrap();
    assert!(settled.imbalance.abs() < 1e-9 && settled.faces.len() == 2, "{settled:?}");
    let machine = machine(&changes);
    let loop_has = asked(&machine, "steady", &[], |at| {
        let elements = &at.coolant()?.driven.elements;
        machine::Found::Ok([elements[3].outlet, elements[4].outlet])
    });
    for (face, outlet) in settled.faces.iter().zip(loop_has.unwrap()) {
        assert!((face.coolant.si() - outlet.si()).abs() < 0.7, "{face:?} {outlet:?}");
    }
}
