//! How heat passes from walls to liquids and air, between two flows, and out of a body that cools.
//! Dimensionless groups (Re, Pr, Nu, Ra, Bi, Fo, NTU) are plain numbers.

use crate::air::GRAVITY;
use quantity::*;

pub mod body;
pub mod conduction;
pub mod cooling;
pub mod exchanger;
pub mod inside;
pub mod outside;
pub mod winding;

/// By how much a dark face in the sun is warmer than the air, q/h.
///
/// Inputs: sun q (W/m²), taken up in full; heat transfer h of the face to the air (W/(m²·K)).
/// Returns: temperature difference (K).
/// Valid for: a dark face that the sun stands straight on, insulated behind; pale ones take up a third.
/// Source: balance of heat, textbook.
#[must_use]
pub fn sunlit(sun: HeatFlux, to_air: HeatTransfer) -> TemperatureInterval {
    TemperatureInterval::from_si(sun.si() / to_air.si())
}

/// Film coefficient from a Nusselt number, h = Nu·k / L.
///
/// Inputs: Nu; thermal conductivity k of the fluid (W/(m·K)); the length L (m) that Nu is meant for.
/// Returns: heat transfer coefficient (W/(m²·K)).
/// Valid for: any.
/// Source: definition.
#[must_use]
pub fn film_coefficient(nusselt: f64, conductivity: ThermalConductivity, length: Length) -> HeatTransfer {
    HeatTransfer::from_si(nusselt * conductivity.si() / length.si())
}

/// Rayleigh number of air that rises by itself, g·ΔT·L³·Pr / (T·ν²).
///
/// Inputs: film temperature T (K), the mean of wall and air; ΔT (K) between wall and air, its sign does not matter;
/// length L (m); kinematic viscosity ν (m²/s); Pr.
/// Returns: a plain number.
/// Valid for: gases, whose expansion is 1/T.
/// Source: definition.
#[must_use]
pub fn rayleigh(
    film: ThermodynamicTemperature,
    gap: TemperatureInterval,
    length: Length,
    viscosity: KinematicViscosity,
    prandtl: f64,
) -> f64 {
    GRAVITY * gap.si().abs() * length.si().powi(3) * prandtl / (film.si() * viscosity.si().powi(2))
}

/// Coefficient by which a surface radiates to surroundings, ε·σ·(T₁ + T₂)·(T₁² + T₂²).
///
/// Inputs: emissivity ε (0.9 for plastics and paint, 0.1 for bright metal; from memory); both temperatures (K).
/// Returns: heat transfer coefficient (W/(m²·K)) to add to that of the air.
/// Valid for: surroundings much larger than the body, no sun.
/// Source: Stefan and Boltzmann, σ = 5.670374419·10⁻⁸ W/(m²·K⁴) (CODATA 2018); published.
#[must_use]
pub fn radiation_coefficient(
    emissivity: Ratio,
    surface: ThermodynamicTemperature,
    surroundings: ThermodynamicTemperature,
) -> HeatTransfer {
    let (a, b) = (surface.si(), surroundings.si());
    HeatTransfer::from_si(emissivity.si() * 5.670_374_419e-8 * (a + b) * (a * a + b * b))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn radiation_is_the_difference_of_fourth_powers() {
        let h = radiation_coefficient(Ratio::from_si(1.0), celsius(40.0), celsius(20.0)).si();
        let flux = 5.670_374_419e-8 * (313.15f64.powi(4) - 293.15f64.powi(4));
        assert!((h * 20.0 - flux).abs() < 1e-9);
    }

    #[test]
    fn a_vertical_pane_by_hand() {
        // Bergman, example 9.2, from memory: a pane of 0.71 m at 232 °C in air of 23 °C: Ra = 1.813·10⁹.
        let ra = rayleigh(
            ThermodynamicTemperature::from_si(400.0),
            TemperatureInterval::from_si(209.0),
            Length::from_si(0.71),
            KinematicViscosity::from_si(26.4e-6),
            0.69,
        );
        assert!((ra / 1.813e9 - 1.0).abs() < 0.005, "{ra}");
        let h = film_coefficient(
            outside::vertical_plate(ra, 0.69),
            ThermalConductivity::from_si(33.8e-3),
            Length::from_si(0.71),
        );
        assert!((h.si() - 7.0).abs() < 0.05, "{}", h.si());
    }
}
