//! Water in air: ASHRAE Handbook Fundamentals 2017, IAPWS R14-08, Murphy and Koop 2005, and the real-gas model of ASHRAE
//! RP-1485 as a second route.

use handbook::table;
use physics::moisture::*;
use quantity::*;

fn share(ours: f64, printed: f64) -> f64 {
    (ours / printed - 1.0).abs()
}

#[test]
fn saturation() {
    let rows = table(include_str!("../data/saturation_pressure.csv"));
    assert_eq!(rows.len(), 65);
    for row in &rows {
        let temperature = celsius(row.f("T_degC"));
        row.prints("pws_psychrolib_Pa", saturation_pressure(temperature).unwrap().si(), 9);
        if let Some(printed) = row.opt("p_ice_iapws_Pa") {
            assert!(share(saturation_pressure_over_ice(temperature).unwrap().si(), printed) < 5e-4);
        }
        let water = saturation_pressure_over_water(temperature).unwrap().si();
        if let Some(printed) = row.opt("p_liquid_murphykoop_Pa") {
            assert!(share(water, printed) < 1.5e-3);
        }
        if let Some(printed) = row.opt("p_liquid_iapws97_Pa") {
            assert!(share(water, printed) < 1.5e-3, "IAPWS-IF97 at {} °C", row.f("T_degC"));
        }
    }
}

#[test]
fn humidity_over_what_the_wall_carries() {
    let rows = table(include_str!("../data/dew_point.csv"));
    assert_eq!(rows.len(), 198);
    for row in &rows {
        let humidity = Ratio::from_si(row.f("RH_frac"));
        let vapour = vapour_pressure_over_ice(celsius(row.f("T_degC")), humidity).unwrap();
        row.prints("pv_psychrolib_Pa", vapour.si(), 9);
        let settles = dew_or_frost_point(vapour).unwrap().si() - 273.15;
        assert!((settles - row.f("Tdp_psychrolib_degC")).abs() < 0.01);
        assert!((settles - row.f("Tdp_coolprop_degC")).abs() < 0.1, "RP-1485: {settles}");
        // Humidity ratio 0.622·pv/(p − pv), ch. 1, eq. 20.
        let air = row.f("P_Pa") - vapour.si();
        assert!(share(0.621_945 * vapour.si() / air, row.f("W_psychrolib_kg_per_kg")) < 1e-6);
    }
}

#[test]
fn humidity_over_liquid_as_weather_stations_state_it() {
    for row in &table(include_str!("../data/dew_point.csv")) {
        let vapour = vapour_pressure(celsius(row.f("T_degC")), Ratio::from_si(row.f("RH_frac"))).unwrap();
        assert!(share(vapour.si(), row.f("pv_RHoverliquid_Pa")) < 1e-3);
        let dew = dew_point(vapour).unwrap().si() - 273.15;
        assert!((dew - row.f("Tdew_RHoverliquid_degC")).abs() < 0.01);
        let settles = dew_or_frost_point(vapour).unwrap().si() - 273.15;
        // The table stops at the air's own temperature: full over liquid is more than full over ice, and such air rimes
        // a wall that is no colder than itself.
        let stopped = settles.min(row.f("T_degC"));
        assert!((stopped - row.f("Tfrost_or_dew_RHoverliquid_degC")).abs() < 0.01);
    }
}
