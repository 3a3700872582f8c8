//! Mineral oils by ASTM D341-20 through two readings: sixteen oils at eighteen temperatures, ten digits.

use handbook::table;
use physics::oil::{Mineral, Reading};
use quantity::*;

#[test]
fn viscosity_of_sixteen_oils() {
    let rows = table(include_str!("../data/oil_viscosity.csv"));
    assert_eq!(rows.len(), 288);
    for row in &rows {
        let reading = |degrees: f64, name: &str| Reading {
            temperature: celsius(degrees),
            viscosity: KinematicViscosity::from_si(row.f(name)),
        };
        let oil = Mineral::through(reading(40.0, "nu40_m2_per_s"), reading(100.0, "nu100_m2_per_s")).unwrap();
        row.prints("D341_A", oil.constants().0, 10);
        row.prints("D341_B", oil.constants().1, 10);
        let at = oil.viscosity(celsius(row.f("T_degC")), celsius(-60.0)).unwrap();
        row.prints("nu_m2_per_s", at.si(), 10);
    }
}
