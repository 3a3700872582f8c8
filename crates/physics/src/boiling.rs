//! When a coolant boils. All pressures are absolute: gauge pressure plus that of the air outside.

use crate::coolant::Glycol;
use crate::range::{OutsideRange, within};
use crate::root::rising;
use quantity::*;

/// Coefficients n1…n10 of IAPWS-IF97, table 34.
const N: [f64; 10] = [
    0.116_705_214_527_67e4,
    -0.724_213_167_032_06e6,
    -0.170_738_469_400_92e2,
    0.120_208_247_024_70e5,
    -0.323_255_503_223_33e7,
    0.149_151_086_135_30e2,
    -0.482_326_573_615_91e4,
    0.405_113_405_420_57e6,
    -0.238_555_575_678_49,
    0.650_175_348_447_98e3,
];

fn water_at(t: f64) -> f64 {
    let [n1, n2, n3, n4, n5, n6, n7, n8, n9, n10] = N;
    let theta = t + n9 / (t - n10);
    let a = theta * theta + n1 * theta + n2;
    let b = n3 * theta * theta + n4 * theta + n5;
    let c = n6 * theta * theta + n7 * theta + n8;
    1e6 * (2.0 * c / (-b + (b * b - 4.0 * a * c).sqrt())).powi(4)
}

/// DIPPR equation 101 with the constants of Perry, in SI.
fn glycol_at(glycol: Glycol, t: f64) -> f64 {
    match glycol {
        Glycol::Ethylene => (84.09 - 10_411.0 / t - 8.1976 * t.ln() + 1.6536e-18 * t.powi(6)).exp(),
        Glycol::Propylene => (212.8 - 15_420.0 / t - 28.109 * t.ln() + 2.1564e-5 * t * t).exp(),
    }
}

/// Vapour pressure of water at its boiling line.
///
/// Inputs: temperature (K).
/// Returns: absolute pressure (Pa).
/// Valid for: 0…350 °C, else refused.
/// Source: IAPWS-IF97, region 4, eq. 30; published.
pub fn water_vapour_pressure(temperature: ThermodynamicTemperature) -> Result<Pressure, OutsideRange> {
    Ok(Pressure::from_si(water_at(within("water temperature", "K", 273.15, celsius(350.0).si(), temperature.si())?)))
}

/// Temperature at which water boils.
///
/// Inputs: absolute pressure (Pa), not gauge.
/// Returns: temperature (K).
/// Valid for: 0.7 kPa…15 MPa, else refused.
/// Source: IAPWS-IF97, region 4, backward eq. 31; published.
///
/// ```
/// use quantity::{Pressure, Quantity};
/// let boils = physics::boiling::water_boiling_temperature(Pressure::from_si(0.1e6)).unwrap();
/// assert!((boils.si() - 372.755_919).abs() < 1e-6); // IAPWS-IF97, table 36
/// ```
pub fn water_boiling_temperature(pressure: Pressure) -> Result<ThermodynamicTemperature, OutsideRange> {
    let [n1, n2, n3, n4, n5, n6, n7, n8, n9, n10] = N;
    let beta = (within("pressure", "Pa", 700.0, 15e6, pressure.si())? / 1e6).powf(0.25);
    let e = beta * beta + n3 * beta + n6;
    let f = n1 * beta * beta + n4 * beta + n7;
    let g = n2 * beta * beta + n5 * beta + n8;
    let d = 2.0 * g / (-f - (f * f - 4.0 * e * g).sqrt());
    let sum = n10 + d;
    Ok(ThermodynamicTemperature::from_si(0.5 * (sum - (sum * sum - 4.0 * (n9 + n10 * d)).sqrt())))
}

/// Vapour pressure of a pure glycol.
///
/// Inputs: which; temperature (K).
/// Returns: absolute pressure (Pa).
/// Valid for: −10…250 °C, else refused. Cold propylene glycol: a fraction of a pascal, and uncertain by half.
/// Source: Perry's Chemical Engineers' Handbook, 8th edition, table 2-8, DIPPR equation 101; published.
pub fn glycol_vapour_pressure(glycol: Glycol, temperature: ThermodynamicTemperature) -> Result<Pressure, OutsideRange> {
    Ok(Pressure::from_si(glycol_at(
        glycol,
        within("glycol temperature", "K", celsius(-10.0).si(), celsius(250.0).si(), temperature.si())?,
    )))
}

fn mixture_at(glycol: Glycol, mass_fraction: f64, t: f64) -> f64 {
    let (water, other) = ((1.0 - mass_fraction) / 18.015_268, mass_fraction / glycol.molar_mass());
    let share = water / (water + other);
    share * water_at(t) + (1.0 - share) * glycol_at(glycol, t)
}

/// Vapour pressure over a mixture of glycol and water: each gives its own, in proportion to its molecules (Raoult).
///
/// Inputs: which glycol; its mass fraction (0…1); temperature (K).
/// Returns: absolute pressure (Pa).
/// Valid for: 0…250 °C, else refused. The mixture is taken as ideal: real ones differ by a few per cent.
/// Source: Raoult's law; published. Vapour pressures as above.
pub fn mixture_vapour_pressure(
    glycol: Glycol,
    mass_fraction: Ratio,
    temperature: ThermodynamicTemperature,
) -> Result<Pressure, OutsideRange> {
    let x = within("glycol mass fraction", "", 0.0, 1.0, mass_fraction.si())?;
    let t = within("coolant temperature", "K", 273.15, celsius(250.0).si(), temperature.si())?;
    Ok(Pressure::from_si(mixture_at(glycol, x, t)))
}

/// Temperature at which a mixture of glycol and water, or the pure glycol, begins to boil.
///
/// Inputs: which glycol; its mass fraction (0…1); absolute pressure (Pa), not gauge.
/// Returns: temperature (K) of the first bubbles; it rises as the water boils off.
/// Valid for: pressures at which it lies in 0…250 °C, that is at least 1…400 kPa; else refused.
/// Source: as [`mixture_vapour_pressure`], solved by halving.
pub fn mixture_boiling_temperature(
    glycol: Glycol,
    mass_fraction: Ratio,
    pressure: Pressure,
) -> Result<ThermodynamicTemperature, OutsideRange> {
    let x = within("glycol mass fraction", "", 0.0, 1.0, mass_fraction.si())?;
    let (cold, hot) = (273.15, celsius(250.0).si());
    let at = |t: f64| mixture_at(glycol, x, t);
    let p = within("pressure", "Pa", at(cold), at(hot), pressure.si())?;
    Ok(ThermodynamicTemperature::from_si(rising(cold, hot, p, at)))
}

/// Temperature at which a liquid boils, between two points of its vapour pressure: ln p is straight over 1/T.
///
/// Inputs: absolute pressure p (Pa); two points, each a temperature (K) and its absolute vapour pressure (Pa).
/// Returns: temperature (K).
/// Valid for: pressures from that of the lower point to that of the higher; else refused. Over 75 K it errs by 1…2 K.
/// Source: Clausius and Clapeyron with an even heat of vaporisation; published.
pub fn boiling_between(
    pressure: Pressure,
    low: (ThermodynamicTemperature, Pressure),
    high: (ThermodynamicTemperature, Pressure),
) -> Result<ThermodynamicTemperature, OutsideRange> {
    let p = within("pressure", "Pa", low.1.si(), high.1.si(), pressure.si())?;
    let ((cold, thin), (hot, thick)) = ((low.0.si(), low.1.si()), (high.0.si(), high.1.si()));
    if thin == thick {
        return Ok(low.0);
    }
    let share = (p / thin).ln() / (thick / thin).ln();
    Ok(ThermodynamicTemperature::from_si(1.0 / (1.0 / cold + share * (1.0 / hot - 1.0 / cold))))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_standard_s_own_examples() {
        // IAPWS-IF97, tables 35 and 36.
        for (kelvin, mpa) in [(300.0, 0.353_658_941e-2), (500.0, 0.263_889_776e1)] {
            let p = water_vapour_pressure(ThermodynamicTemperature::from_si(kelvin)).unwrap().si();
            assert!((p / (mpa * 1e6) - 1.0).abs() < 1e-8);
        }
        let boils = water_boiling_temperature(Pressure::from_si(10e6)).unwrap().si();
        assert!((boils - 584.149_488).abs() < 1e-6);
    }

    #[test]
    fn forward_and_backward_agree() {
        for kilopascals in 1..=400 {
            let p = Pressure::from_si(f64::from(kilopascals) * 1e3);
            let back = water_vapour_pressure(water_boiling_temperature(p).unwrap()).unwrap();
            assert!(((back / p).si() - 1.0).abs() < 1e-5);
        }
    }

    #[test]
    fn glycols_boil_where_the_handbooks_say() {
        // Normal boiling points, CRC Handbook, from memory: 197.3 °C and 187.6 °C.
        for (glycol, degrees) in [(Glycol::Ethylene, 197.3), (Glycol::Propylene, 187.6)] {
            let at = mixture_boiling_temperature(glycol, Ratio::from_si(1.0), Pressure::from_si(101_325.0)).unwrap();
            assert!((at.si() - 273.15 - degrees).abs() < 0.5);
        }
    }

    #[test]
    fn pressures_at_which_no_boiling_point_is_known_are_refused() {
        let pure = |glycol, kilopascals: f64| {
            mixture_boiling_temperature(glycol, Ratio::from_si(1.0), Pressure::from_si(kilopascals * 1e3))
        };
        assert!(pure(Glycol::Propylene, 579.0).is_err() && pure(Glycol::Ethylene, 579.0).is_err());
        assert!(pure(Glycol::Ethylene, 0.0).is_err() && pure(Glycol::Ethylene, -5.0).is_err());
        for kilopascals in [-20.0, 0.0, 0.6, 0.69] {
            assert!(water_boiling_temperature(Pressure::from_si(kilopascals * 1e3)).is_err(), "{kilopascals}");
        }
    }

    #[test]
    fn an_even_mixture_boils_near_108_degrees() {
        // Equal masses of ethylene glycol and water: 107…108 °C at sea level in makers' tables, from memory.
        let at = |x| {
            let found =
                mixture_boiling_temperature(Glycol::Ethylene, Ratio::from_si(x), Pressure::from_si(101_325.0)).unwrap();
            found.si() - 273.15
        };
        assert!((at(0.5) - 107.3).abs() < 1.5, "{}", at(0.5));
        assert!((at(0.0) - 99.974).abs() < 0.01);
        assert!((0..100).all(|i| at(f64::from(i) / 100.0) < at(f64::from(i + 1) / 100.0)));
    }

    #[test]
    fn between_two_points_of_water_it_meets_the_steam_table() {
        // Table 35 of the same standard gives both ends; in the middle the straight line is off by a fraction of a kelvin.
        let point = |degrees: f64| (celsius(degrees), water_vapour_pressure(celsius(degrees)).unwrap());
        for degrees in [60.0, 75.0, 90.0, 100.0, 110.0, 120.0] {
            let (at, p) = point(degrees);
            let found = boiling_between(p, point(60.0), point(120.0)).unwrap();
            assert!((found.si() - at.si()).abs() < 0.5, "{degrees}: {found:?}");
        }
        assert!(boiling_between(Pressure::from_si(1e3), point(60.0), point(120.0)).is_err());
        assert!(boiling_between(Pressure::from_si(1e6), point(60.0), point(120.0)).is_err());
    }
}
