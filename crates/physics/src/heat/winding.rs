//! Copper that gets warm.

use quantity::*;

/// By how much the resistance of copper grows for each kelvin, of that at 20 °C.
///
/// Source: IEC 60028, annealed copper, 0.00393 1/K at 20 °C; published.
pub const COPPER_GROWTH: f64 = 0.003_93;

/// Resistance of a copper winding at a temperature, over that at 20 °C: 1 + 0.00393·(T − 20 °C).
///
/// Inputs: temperature (K) of the winding.
/// Returns: a plain number.
/// Valid for: −50 °C to 200 °C, within 1 %; linear beyond too.
/// Source: IEC 60028; published.
#[must_use]
pub fn copper(temperature: ThermodynamicTemperature) -> f64 {
    1.0 + COPPER_GROWTH * (temperature.si() - 293.15)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn by_the_rule_of_two_hundred_and_thirty_five() {
        // R₂/R₁ = (235 + t₂)/(235 + t₁), IEC 60034-1, 8.6.2.3; both laws are one within 0.5 %.
        for t in [-30.0, 20.0, 75.0, 120.0, 155.0] {
            assert!((copper(celsius(t)) / ((235.0 + t) / 255.0) - 1.0).abs() < 5e-3, "{t}");
        }
        assert_eq!(copper(celsius(20.0)), 1.0);
    }
}
