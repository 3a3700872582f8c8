//! Water in air: when a wall gets wet or white.
//!
//! Relative humidity is understood as weather stations state it: over liquid water at every temperature, also below
//! freezing. In hard frost air that is full by that measure is more than full over ice, and rime grows.

use crate::range::{OutsideRange, within};
use crate::root::rising;
use quantity::*;

/// Triple point of water, K: below it the saturated state is ice.
const TRIPLE_POINT: f64 = 273.16;
/// Gas constant of water vapour, J/(kg·K): 8.314 462 618 / 0.018 015 268.
const VAPOUR_GAS_CONSTANT: f64 = 461.523;
/// Limits of the formulas, K: −100 and 200 °C, not to be missed by the last digit.
const COLDEST: f64 = 273.15 - 100.0;
const HOTTEST: f64 = 273.15 + 200.0;

fn over_water(t: f64) -> f64 {
    if t < TRIPLE_POINT {
        let bend = (0.0415 * (t - 218.8)).tanh();
        let main = 54.842_763 - 6763.22 / t - 4.210 * t.ln() + 0.000_367 * t;
        (main + bend * (53.878 - 1331.22 / t - 9.445_23 * t.ln() + 0.014_025 * t)).exp()
    } else {
        let cubic = 1.391_499_3 - 4.864_023_9e-2 * t + 4.176_476_8e-5 * t * t - 1.445_209_3e-8 * t.powi(3);
        (-5.800_220_6e3 / t + cubic + 6.545_967_3 * t.ln()).exp()
    }
}

fn over_ice(t: f64) -> f64 {
    let series = 6.392_524_7 - 9.677_843e-3 * t + 6.221_570_1e-7 * t * t + 2.074_782_5e-9 * t.powi(3)
        - 9.484_024e-13 * t.powi(4);
    (-5.674_535_9e3 / t + series + 4.163_501_9 * t.ln()).exp()
}

/// Pressure of water vapour in balance with liquid water, also with water supercooled below freezing.
///
/// Inputs: temperature (K).
/// Returns: pressure (Pa) of the vapour alone.
/// Valid for: −100…200 °C, else refused. The 0.4 % that the surrounding air adds is left out.
/// Source: above 0.01 °C Hyland and Wexler 1983 as in ASHRAE Handbook Fundamentals 2017, ch. 1, eq. 6; below it Murphy and
/// Koop, Q. J. R. Meteorol. Soc. 131 (2005) 1539, eq. 10; published. They meet within 10⁻⁷.
pub fn saturation_pressure_over_water(temperature: ThermodynamicTemperature) -> Result<Pressure, OutsideRange> {
    Ok(Pressure::from_si(over_water(within("air temperature", "K", COLDEST, HOTTEST, temperature.si())?)))
}

/// Pressure of water vapour in balance with ice.
///
/// Inputs: temperature (K).
/// Returns: pressure (Pa) of the vapour alone.
/// Valid for: −100…0.01 °C, else refused: there is no warmer ice.
/// Source: Hyland and Wexler 1983 as in ASHRAE Handbook Fundamentals 2017, ch. 1, eq. 5; published.
pub fn saturation_pressure_over_ice(temperature: ThermodynamicTemperature) -> Result<Pressure, OutsideRange> {
    Ok(Pressure::from_si(over_ice(within("ice temperature", "K", COLDEST, TRIPLE_POINT, temperature.si())?)))
}

/// Pressure of water vapour in balance with what a cold wall carries: ice below 0.01 °C, water above.
///
/// Inputs: temperature (K).
/// Returns: pressure (Pa) of the vapour alone.
/// Valid for: −100…200 °C, else refused.
/// Source: as [`saturation_pressure_over_ice`] and [`saturation_pressure_over_water`].
pub fn saturation_pressure(temperature: ThermodynamicTemperature) -> Result<Pressure, OutsideRange> {
    if temperature.si() < TRIPLE_POINT {
        saturation_pressure_over_ice(temperature)
    } else {
        saturation_pressure_over_water(temperature)
    }
}

/// Vapour pressure in air of a relative humidity stated over liquid water, as weather stations do.
///
/// Inputs: temperature (K); relative humidity (0…1).
/// Returns: pressure (Pa) of the vapour.
/// Valid for: as [`saturation_pressure_over_water`].
/// Source: definition; the convention is that of the World Meteorological Organization, Guide No. 8; published.
pub fn vapour_pressure(
    temperature: ThermodynamicTemperature,
    relative_humidity: Ratio,
) -> Result<Pressure, OutsideRange> {
    Ok(saturation_pressure_over_water(temperature)? * relative_humidity)
}

/// Vapour pressure in air of a relative humidity stated over what a wall would carry: over ice below 0.01 °C.
///
/// Inputs: temperature (K); relative humidity (0…1).
/// Returns: pressure (Pa) of the vapour; at −40 °C a third less than [`vapour_pressure`].
/// Valid for: as [`saturation_pressure`].
/// Source: definition; the convention of building physics.
pub fn vapour_pressure_over_ice(
    temperature: ThermodynamicTemperature,
    relative_humidity: Ratio,
) -> Result<Pressure, OutsideRange> {
    Ok(saturation_pressure(temperature)? * relative_humidity)
}

/// Temperature at which this vapour begins to settle as liquid water.
///
/// Inputs: vapour pressure (Pa).
/// Returns: temperature (K). Below 0 °C a clean cold wall turns white first, see [`frost_point`].
/// Valid for: the vapour pressures of −100…200 °C, else refused.
/// Source: [`saturation_pressure_over_water`], solved by halving.
pub fn dew_point(vapour_pressure: Pressure) -> Result<ThermodynamicTemperature, OutsideRange> {
    let p = within("vapour pressure", "Pa", over_water(COLDEST), over_water(HOTTEST), vapour_pressure.si())?;
    Ok(ThermodynamicTemperature::from_si(rising(COLDEST, HOTTEST, p, over_water)))
}

/// Temperature at which this vapour begins to settle as ice.
///
/// Inputs: vapour pressure (Pa).
/// Returns: temperature (K).
/// Valid for: up to 611.7 Pa, else refused: more vapour settles as water.
/// Source: [`saturation_pressure_over_ice`], solved by halving.
pub fn frost_point(vapour_pressure: Pressure) -> Result<ThermodynamicTemperature, OutsideRange> {
    let p = within("vapour pressure", "Pa", over_ice(COLDEST), over_ice(TRIPLE_POINT), vapour_pressure.si())?;
    Ok(ThermodynamicTemperature::from_si(rising(COLDEST, TRIPLE_POINT, p, over_ice)))
}

/// Temperature at which a wall begins to get wet, or white below 0.01 °C.
///
/// Inputs: vapour pressure (Pa).
/// Returns: temperature (K). In hard frost it can lie above that of the air: then the air itself is full and rimes
/// whatever it touches.
/// Valid for: as [`frost_point`] and [`dew_point`] together.
/// Source: as they.
///
/// ```
/// use physics::moisture::{dew_or_frost_point, vapour_pressure};
/// use quantity::{Quantity, Ratio, celsius};
/// let vapour = vapour_pressure(celsius(20.0), Ratio::from_si(0.5)).unwrap();
/// let dew = dew_or_frost_point(vapour).unwrap();
/// assert!((dew.si() - 273.15 - 9.27).abs() < 0.02); // psychrometric charts: 9.3 °C
/// ```
pub fn dew_or_frost_point(vapour_pressure: Pressure) -> Result<ThermodynamicTemperature, OutsideRange> {
    if vapour_pressure.si() < over_ice(TRIPLE_POINT) {
        frost_point(vapour_pressure)
    } else {
        dew_point(vapour_pressure)
    }
}

/// Water in a volume of air, p / (R·T).
///
/// Inputs: vapour pressure p (Pa); air temperature T (K).
/// Returns: mass of water per volume of air (kg/m³).
/// Valid for: vapour thin against the air, that is everything short of steam.
/// Source: ideal gas law with the molar mass of water, 18.015 g/mol (IAPWS R6-95); published.
#[must_use]
pub fn absolute_humidity(vapour_pressure: Pressure, temperature: ThermodynamicTemperature) -> MassDensity {
    MassDensity::from_si(vapour_pressure.si() / (VAPOUR_GAS_CONSTANT * temperature.si()))
}

/// Mass of water in the air of a closed box.
///
/// Inputs: free volume (m³); vapour pressure (Pa); air temperature (K).
/// Returns: mass (kg), usually fractions of a gram.
/// Valid for: as [`absolute_humidity`]. Plastics, card and foam hold far more than the air beside them.
/// Source: as [`absolute_humidity`].
#[must_use]
pub fn water_in_box(volume: Volume, vapour_pressure: Pressure, temperature: ThermodynamicTemperature) -> Mass {
    absolute_humidity(vapour_pressure, temperature) * volume
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn second_route_magnus() {
        // Alduchov and Eskridge, J. Appl. Meteor. 35 (1996) 601, eq. 21 and 23: within 0.4 % over water −40…50 °C and
        // over ice −80…0 °C.
        for tenth in -400..=500 {
            let t = f64::from(tenth) / 10.0;
            let magnus = 610.94 * (17.625 * t / (t + 243.04)).exp();
            assert!((over_water(t + 273.15) / magnus - 1.0).abs() < 0.004, "{t}");
        }
        for tenth in -600..=0 {
            let t = f64::from(tenth) / 10.0;
            let magnus = 611.21 * (22.587 * t / (t + 273.86)).exp();
            assert!((over_ice(t + 273.15) / magnus - 1.0).abs() < 0.004, "{t}");
        }
    }

    #[test]
    fn the_curves_meet_at_the_triple_point() {
        // 611.657 Pa: IAPWS R6-95.
        assert!((over_water(TRIPLE_POINT) - 611.657).abs() < 0.01);
        assert!((over_ice(TRIPLE_POINT) - 611.657).abs() < 0.02);
        assert!((over_water(TRIPLE_POINT - 1e-6) - over_water(TRIPLE_POINT)).abs() < 1e-3);
    }

    #[test]
    fn more_vapour_never_settles_colder_and_never_above_the_air() {
        for degrees in -40..=45 {
            let air = celsius(f64::from(degrees));
            let mut before = 0.0;
            for percent in 5..=100 {
                let vapour = vapour_pressure(air, Ratio::from_si(f64::from(percent) / 100.0)).unwrap();
                let wet = dew_or_frost_point(vapour).unwrap().si();
                assert!(wet > before, "{degrees} °C, {percent} %");
                before = wet;
                assert!(dew_point(vapour).unwrap().si() <= air.si() + 1e-9);
                let back = saturation_pressure(ThermodynamicTemperature::from_si(wet)).unwrap();
                assert!(((back / vapour).si() - 1.0).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn a_litre_of_warm_air_holds_seventeen_milligrams() {
        // Handbook: saturated air at 20 °C holds 17.3 g/m³.
        let air = celsius(20.0);
        let water = water_in_box(Volume::from_si(1e-3), saturation_pressure(air).unwrap(), air);
        assert!((water.si() - 17.3e-6).abs() < 0.05e-6);
        assert!(frost_point(Pressure::from_si(700.0)).is_err());
        assert!(saturation_pressure_over_ice(celsius(1.0)).is_err());
    }
}
