//! Helical compression springs: 40 springs of four kinds of ends (Shigley, ch. 10; EN 13906-1), own evaluation, ten digits.

use handbook::table;
use physics::spring::{self, Ends};
use quantity::*;

#[test]
fn rate_factors_stress_and_solid_length_of_forty_springs() {
    let rows = table(include_str!("../data/springs.csv"));
    assert_eq!(rows.len(), 40);
    for row in &rows {
        let (wire, mean) = (Length::from_si(row.f("wire_d_m")), Length::from_si(row.f("mean_D_m")));
        let active = Ratio::from_si(row.f("Na_active"));
        let force = Force::from_si(row.f("F_N"));
        let free = Length::from_si(row.f("L0_free_m"));
        let ends = match row.s("ends") {
            "plain" => Ends::Plain,
            "plain_ground" => Ends::PlainGround,
            "squared" => Ends::Closed,
            "squared_ground" => Ends::ClosedGround,
            other => panic!("ends {other}"),
        };
        let index = spring::index(wire, mean);
        let (wahl, bergstrasser) = (spring::wahl_factor(index), spring::bergstrasser_factor(index));
        let rate = spring::rate(wire, mean, active, Pressure::from_si(row.f("G_Pa")));
        let solid = spring::solid_length(wire, active, ends);
        let solid_force = spring::force_at_length(rate, free, solid);
        row.prints("C_index", index.si(), 10);
        row.prints("k_N_per_m", rate.si(), 10);
        row.prints("K_wahl", wahl.si(), 10);
        row.prints("K_bergstrasser", bergstrasser.si(), 10);
        row.prints("tau_wahl_Pa", spring::shear_stress(force, wire, mean, wahl).si(), 10);
        row.prints("tau_bergstrasser_Pa", spring::shear_stress(force, wire, mean, bergstrasser).si(), 10);
        row.prints("Nt_total", spring::total_coils(active, ends).si(), 10);
        row.prints("L_solid_m", solid.si(), 10);
        row.prints("F_solid_N", solid_force.si(), 10);
        row.prints("tau_solid_bergstrasser_Pa", spring::shear_stress(solid_force, wire, mean, bergstrasser).si(), 10);
        row.prints("deflection_m", free.si() - spring::length_under(rate, free, force).si(), 10);
    }
}
