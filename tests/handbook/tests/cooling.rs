//! Bodies that cool or warm: the printed coefficients of the plane wall, and worked examples of lumped bodies.

use handbook::table;
use physics::heat::cooling::{biot, lumped_time, slab_centre, time_constant};
use quantity::{HeatCapacity, HeatTransfer, Length, Quantity, ThermalConductance, ThermalConductivity, celsius};
use std::f64::consts::PI;

#[test]
fn plane_wall() {
    let rows = table(include_str!("../data/slab_first_term.csv"));
    assert_eq!(rows.len(), 22);
    for row in &rows {
        let bi = row.f("Bi");
        // Late, the first term is all that is left: its root and coefficient stand in any two times.
        let (early, late) = (slab_centre(bi, 3.0), slab_centre(bi, 4.0));
        let zeta = (early / late).ln().sqrt();
        row.prints("zeta1", zeta, if row.f("zeta1") < 1.0 { 4 } else { 5 });
        row.prints("C1", early * (zeta * zeta * 3.0).exp(), 5);
    }
}

#[test]
fn lumped_bodies() {
    let rows = table(include_str!("../data/lumped.csv"));
    assert_eq!(rows.len(), 2);
    for row in &rows {
        let diameter = row.f("diameter_mm") * 1e-3;
        let (volume, area) = (PI / 6.0 * diameter.powi(3), PI * diameter.powi(2));
        let capacity = HeatCapacity::from_si(row.f("rho") * volume * row.f("cp"));
        let tau = time_constant(capacity, ThermalConductance::from_si(row.f("h") * area));
        let to = |column: &str| celsius(row.f(column));
        let time = lumped_time(to("first"), to("around"), to("reached"), tau).unwrap();
        let bi = biot(
            HeatTransfer::from_si(row.f("h")),
            Length::from_si(volume / area),
            ThermalConductivity::from_si(row.f("k")),
        );
        let digits =
            |column: &str| row.s(column).trim_start_matches("0.").trim_start_matches('0').replace('.', "").len();
        row.prints("tau_s", tau.si(), i32::try_from(digits("tau_s")).unwrap());
        row.prints("time_s", time.si(), i32::try_from(digits("time_s")).unwrap());
        row.prints("biot", bi, i32::try_from(digits("biot")).unwrap());
    }
}
