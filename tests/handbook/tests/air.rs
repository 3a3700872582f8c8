//! The standard atmosphere (US Standard Atmosphere 1976) and where water boils in it (IAPWS-IF97).

use handbook::table;
use physics::{air, boiling};
use quantity::*;

#[test]
fn standard_atmosphere() {
    let rows = table(include_str!("../data/atmosphere.csv"));
    assert_eq!(rows.len(), 41);
    for row in &rows {
        let temperature = celsius(row.f("T_degC"));
        let pressure = air::pressure(Length::from_si(row.f("Z_m"))).unwrap();
        // The last of ten printed digits moves with how many digits of the constants are carried.
        row.prints("P_Pa", pressure.si(), 8);
        row.prints("rho_kg_per_m3", air::density(temperature, pressure).si(), 8);
        row.prints("mu_Pa_s", air::viscosity(temperature).si(), 8);
        row.prints("k_W_per_mK", air::conductivity(temperature).si(), 8);
        let boils = boiling::water_boiling_temperature(pressure).unwrap().si() - 273.15;
        assert!((boils - row.f("T_boil_water_degC")).abs() < 1e-4);
    }
}

#[test]
fn boiling_of_water() {
    let rows = table(include_str!("../data/boiling.csv"));
    assert_eq!(rows.len(), 41);
    for row in &rows {
        let boils = boiling::water_boiling_temperature(Pressure::from_si(row.f("P_Pa"))).unwrap().si() - 273.15;
        assert!((boils - row.f("T_sat_iapws97_degC")).abs() < 1e-5);
        assert!((boils - row.f("T_sat_coolprop_degC")).abs() < 0.01, "IAPWS-95");
    }
}
