//! Copper wires: resistance by gauge, what they bear for a short time and for ever.

use handbook::table;
use physics::wire::{self, Wire};
use quantity::*;
use std::f64::consts::FRAC_PI_4;

/// By the gauge's own law, ASTM B258.
fn diameter(gauge: f64) -> f64 {
    0.127e-3 * 92f64.powf((36.0 - gauge) / 39.0)
}

#[test]
fn gauges_have_their_resistance() {
    let rows = table(include_str!("../data/wire_resistance.csv"));
    assert_eq!(rows.len(), 9);
    for row in &rows {
        let across = diameter(row.f("gauge"));
        let metal = Area::from_si(FRAC_PI_4 * across * across);
        // To half of the tenth that is printed.
        assert!((across / 25.4e-6 - row.f("diameter_thou")).abs() <= 0.05, "gauge {}", row.f("gauge"));
        row.prints("ohm_per_km", wire::resistance(metal, Length::from_si(1000.0), celsius(20.0)).si(), 3);
    }
}

#[test]
fn copper_stands_the_published_current_for_a_second() {
    let rows = table(include_str!("../data/wire_short_time.csv"));
    assert_eq!(rows.len(), 7);
    for row in &rows {
        let (before, after) = (celsius(row.f("before_C")), celsius(row.f("after_C")));
        let k = wire::short_time_current(Area::from_si(1e-6), before, after, Time::from_si(1.0));
        row.prints("k", k.si(), 3);
        let minute = wire::short_time_current(Area::from_si(1e-6), before, after, Time::from_si(4.0));
        assert!((minute.si() * 2.0 / k.si() - 1.0).abs() < 1e-12);
    }
}

#[test]
fn single_wires_in_free_air_bear_about_what_is_tabled() {
    let rows = table(include_str!("../data/wire_lasting.csv"));
    assert_eq!(rows.len(), 18);
    for row in &rows {
        let across = diameter(row.f("gauge"));
        let wire = Wire {
            metal: Area::from_si(FRAC_PI_4 * across * across),
            wall: Length::from_si(row.f("wall_mm") * 1e-3),
            conductivity: ThermalConductivity::from_si(0.2),
        };
        let bears =
            wire.lasting_current(celsius(row.f("insulation_C")), celsius(30.0), Pressure::from_si(101_325.0)).si();
        let share = bears / row.f("amps");
        assert!((share - 1.0).abs() < 0.12, "gauge {}: {bears:.1} A, tabled {}", row.f("gauge"), row.f("amps"));
    }
}
