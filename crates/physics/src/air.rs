//! Dry air: how much presses, how heavy it is and how it carries heat.

use crate::range::{OutsideRange, within};
use quantity::*;

/// Universal gas constant over the molar mass of dry air, J/(kg·K): US Standard Atmosphere 1976 (8314.32 / 28.9644).
pub(crate) const GAS_CONSTANT: f64 = 8314.32 / 28.9644;
/// Standard gravity, m/s² (ISO 80000-3).
pub(crate) const GRAVITY: f64 = 9.806_65;

/// Pressure of the standard atmosphere, p = 101 325 Pa · (T/288.15 K)^5.2559.
///
/// Inputs: altitude above sea level (m), geometric.
/// Returns: absolute pressure (Pa). The weather moves it by about ±3 %.
/// Valid for: −600…11 000 m, the layer in which the air cools by 6.5 K a kilometre; else refused.
/// Source: US Standard Atmosphere 1976, eq. 18, 23 and 33a; published.
///
/// ```
/// use quantity::{Length, Quantity};
/// let p = physics::air::pressure(Length::from_si(1000.0)).unwrap();
/// assert!((p.si() - 89_876.3).abs() < 0.05); // as tabulated
/// ```
pub fn pressure(altitude: Length) -> Result<Pressure, OutsideRange> {
    let (base, lapse, radius) = (288.15, 0.0065, 6_356_766.0);
    let z = within("altitude", "m", -600.0, 11_000.0, altitude.si())?;
    let geopotential = radius * z / (radius + z);
    let warmth = (base - lapse * geopotential) / base;
    Ok(Pressure::from_si(101_325.0 * warmth.powf(GRAVITY / (GAS_CONSTANT * lapse))))
}

/// Density of dry air, ρ = p / (R·T).
///
/// Inputs: temperature T (K); absolute pressure p (Pa).
/// Returns: density (kg/m³). Damp air is lighter, by 1 % at 30 °C and 60 %.
/// Valid for: pressures up to a few MPa.
/// Source: ideal gas law with the molar mass of US Standard Atmosphere 1976; published.
#[must_use]
pub fn density(temperature: ThermodynamicTemperature, pressure: Pressure) -> MassDensity {
    MassDensity::from_si(pressure.si() / (GAS_CONSTANT * temperature.si()))
}

/// Dynamic viscosity of air, 1.458·10⁻⁶ · T^1.5 / (T + 110.4).
///
/// Inputs: temperature T (K).
/// Returns: dynamic viscosity (Pa·s). Pressure does not matter.
/// Valid for: −150…1200 °C within 1 %.
/// Source: Sutherland's law with the constants of US Standard Atmosphere 1976, eq. 51; published.
#[must_use]
pub fn viscosity(temperature: ThermodynamicTemperature) -> DynamicViscosity {
    let t = temperature.si();
    DynamicViscosity::from_si(1.458e-6 * t.powf(1.5) / (t + 110.4))
}

/// Thermal conductivity of air, 2.64638·10⁻³ · T^1.5 / (T + 245.4 · 10^(−12/T)).
///
/// Inputs: temperature T (K).
/// Returns: thermal conductivity (W/(m·K)).
/// Valid for: −100…700 °C within 2 %.
/// Source: US Standard Atmosphere 1976, eq. 53; published.
#[must_use]
pub fn conductivity(temperature: ThermodynamicTemperature) -> ThermalConductivity {
    let t = temperature.si();
    ThermalConductivity::from_si(2.646_38e-3 * t.powf(1.5) / (t + 245.4 * 10f64.powf(-12.0 / t)))
}

/// Specific heat capacity of dry air at even pressure, 1006 J/(kg·K).
///
/// Returns: specific heat capacity (J/(kg·K)).
/// Valid for: −50…80 °C within 0.3 %.
/// Source: Bergman and others, Introduction to Heat Transfer, table A.4 (1006 at 250 K, 1007 at 300 K, 1009 at 350 K);
/// from memory.
#[must_use]
pub fn heat_capacity() -> SpecificHeatCapacity {
    SpecificHeatCapacity::from_si(1006.0)
}

/// Prandtl number of air, µ·cp / k.
///
/// Inputs: temperature (K).
/// Returns: a plain number, about 0.71.
/// Valid for: as [`heat_capacity`].
/// Source: definition.
#[must_use]
pub fn prandtl(temperature: ThermodynamicTemperature) -> f64 {
    viscosity(temperature).si() * heat_capacity().si() / conductivity(temperature).si()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn prandtl_as_tabulated() {
        // Bergman, table A.4, from memory: 0.720 at 250 K, 0.707 at 300 K, 0.700 at 350 K.
        for (kelvin, printed) in [(250.0, 0.720), (300.0, 0.707), (350.0, 0.700)] {
            assert!((prandtl(ThermodynamicTemperature::from_si(kelvin)) / printed - 1.0).abs() < 0.012, "{kelvin}");
        }
    }

    #[test]
    fn a_column_of_air_carries_its_own_weight() {
        // Second route: dp/dz = −ρ·g at 1500 m, where the standard air has 5.2 °C.
        let at = |z: f64| pressure(Length::from_si(z)).unwrap().si();
        let slope = (at(1501.0) - at(1499.0)) / 2.0;
        let rho = density(celsius(15.0 - 6.5 * 1.499_65), Pressure::from_si(at(1500.0))).si();
        assert!((slope / (-rho * 9.802_03) - 1.0).abs() < 1e-4);
    }

    #[test]
    fn refuses_above_the_first_layer() {
        let refused = pressure(Length::from_si(12_000.0)).unwrap_err();
        assert_eq!((refused.to, refused.was, refused.unit), (11_000.0, 12_000.0, "m"));
    }
}
