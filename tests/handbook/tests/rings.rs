//! Turning rings (formulas of Timoshenko; Roark, ch. 16) and discs (Timoshenko and Goodier, art. 32): own evaluation, ten digits.

use handbook::table;
use physics::ring;
use quantity::*;
use std::f64::consts::PI;

#[test]
fn thin_rings() {
    let rows = table(include_str!("../data/rings.csv"));
    assert_eq!(rows.len(), 30);
    for row in &rows {
        let density = MassDensity::from_si(row.f("rho_kg_per_m3"));
        let radius = Length::from_si(row.f("R_mean_m"));
        let turning = AngularVelocity::from_si(row.f("speed_rpm") * PI / 30.0);
        let speed = ring::rim_speed(turning, radius);
        row.prints("omega_rad_per_s", turning.si(), 10);
        row.prints("v_m_per_s", speed.si(), 10);
        row.prints("sigma_hoop_Pa", ring::thin_ring_stress(density, speed).si(), 10);
        let growth = ring::thin_ring_growth(density, Pressure::from_si(row.f("E_Pa")), radius, speed);
        row.prints("radial_growth_m", growth.si(), 10);
    }
}

#[test]
fn discs() {
    let rows = table(include_str!("../data/discs.csv"));
    assert_eq!(rows.len(), 30);
    for row in &rows {
        let (density, poisson) = (MassDensity::from_si(row.f("rho_kg_per_m3")), Ratio::from_si(row.f("nu")));
        let (hole, outer) = (Length::from_si(row.f("Ri_m")), Length::from_si(row.f("Ro_m")));
        let turning = AngularVelocity::from_si(row.f("speed_rpm") * PI / 30.0);
        let mean = ring::rim_speed(turning, (hole + outer) / 2.0);
        row.prints("sigma_t_bore_Pa", ring::disc_bore_stress(density, poisson, hole, outer, turning).si(), 10);
        row.prints("sigma_r_max_Pa", ring::disc_radial_stress(density, poisson, hole, outer, turning).si(), 10);
        row.prints("sigma_solid_disc_same_Ro_Pa", ring::solid_disc_stress(density, poisson, outer, turning).si(), 10);
        row.prints("sigma_thin_ring_mean_radius_Pa", ring::thin_ring_stress(density, mean).si(), 10);
    }
}
