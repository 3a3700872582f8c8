//! What warmth and water do to lengths and fits.

use quantity::*;

/// Growth of a length by warmth, α·L·ΔT.
///
/// Inputs: expansion α (1/K); length L (m); temperature difference ΔT (K), negative when colder.
/// Returns: m, negative when it shrinks.
/// Valid for: an α that is known for that range; polymers grow faster above their softening.
/// Source: definition of α.
#[must_use]
pub fn growth(expansion: TemperatureCoefficient, length: Length, warmer_by: TemperatureInterval) -> Length {
    Length::from_si(expansion.si() * length.si() * warmer_by.si())
}

/// Growth of a length by water taken up, s·L.
///
/// Inputs: swelling s, share of the length between the two states of moisture; length L (m).
/// Returns: m.
/// Valid for: parts that have had time to soak: weeks for 5 mm of polyamide.
/// Source: definition.
#[must_use]
pub fn swelling(share: Ratio, length: Length) -> Length {
    Length::from_si(share.si() * length.si())
}

/// How one side of a fit changes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Side {
    pub expansion: TemperatureCoefficient,
    pub warmer_by: TemperatureInterval,
    /// Share of the diameter gained by water; zero for metal.
    pub swelling: Ratio,
}

/// Change of the interference on the diameter of a fit: growth of the inner part less that of the outer one.
///
/// Inputs: diameter (m); inner part (shaft, bearing ring); outer part (bore).
/// Returns: m on the diameter, positive when the fit gets tighter, negative when it loosens.
/// Valid for: parts free to grow, bores that grow as their material does (a bore never shrinks by warmth).
/// Source: difference of [`growth`] and [`swelling`].
#[must_use]
pub fn fit_change(diameter: Length, inner: Side, outer: Side) -> Length {
    let grows = |side: Side| growth(side.expansion, diameter, side.warmer_by) + swelling(side.swelling, diameter);
    grows(inner) - grows(outer)
}

/// Stress in a part that is held from growing, E·α·ΔT.
///
/// Inputs: modulus E (Pa); expansion α (1/K); temperature difference ΔT (K).
/// Returns: Pa, positive is compression (held while warming), negative is tension.
/// Valid for: one direction, stiff ends, no creep: polymers relax part of it.
/// Source: Hooke's law.
#[must_use]
pub fn held_stress(modulus: Pressure, expansion: TemperatureCoefficient, warmer_by: TemperatureInterval) -> Pressure {
    Pressure::from_si(modulus.si() * expansion.si() * warmer_by.si())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn side(expansion: f64, kelvin: f64, swelling: f64) -> Side {
        Side {
            expansion: TemperatureCoefficient::from_si(expansion),
            warmer_by: TemperatureInterval::from_si(kelvin),
            swelling: Ratio::from_si(swelling),
        }
    }

    #[test]
    fn a_steel_ring_in_a_printed_seat_tightens_in_the_cold() {
        // 28 mm, 50 K colder: (70 − 12) µm/(m·K) · 0.028 m · 50 K = 81.2 µm tighter.
        let d = Length::from_si(0.028);
        let change = fit_change(d, side(12e-6, -50.0, 0.0), side(70e-6, -50.0, 0.0));
        assert!((change.si() - 81.2e-6).abs() < 1e-12);
        assert_eq!(fit_change(d, side(12e-6, 40.0, 0.0), side(12e-6, 40.0, 0.0)).si(), 0.0);
        assert!(fit_change(d, side(12e-6, 0.0, 0.0), side(70e-6, 0.0, 0.004)).si() < 0.0);
    }

    #[test]
    fn a_held_bar_is_pressed_back_by_its_own_growth() {
        let (e, alpha, dt) = (2e9, TemperatureCoefficient::from_si(7e-5), TemperatureInterval::from_si(30.0));
        let strain = growth(alpha, Length::from_si(1.0), dt).si();
        assert!((held_stress(Pressure::from_si(e), alpha, dt).si() - e * strain).abs() < 1e-6);
    }
}
