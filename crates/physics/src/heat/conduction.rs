//! Heat that passes through simple solids.

use quantity::*;
use std::f64::consts::PI;

/// Conductance of a rod or slab, k·A/L.
///
/// Inputs: conductivity k (W/(m·K)); cross-section A (m²); length L (m).
/// Returns: conductance (W/K).
/// Valid for: no heat through the sides.
/// Source: Fourier's law; Bergman and others, Introduction to Heat Transfer, 6th edition, ch. 3; published.
#[must_use]
pub fn rod(conductivity: ThermalConductivity, section: Area, length: Length) -> ThermalConductance {
    ThermalConductance::from_si(conductivity.si() * section.si() / length.si())
}

/// Conductance of a ring from its inside to its outside, 2π·k·L/ln(r₂/r₁).
///
/// Inputs: conductivity k (W/(m·K)); inner and outer diameter (m), in either order; length L (m) along the axis.
/// Returns: conductance (W/K); without end where both diameters are one.
/// Valid for: even temperature round each face.
/// Source: Bergman, ch. 3; published.
#[must_use]
pub fn ring(conductivity: ThermalConductivity, inner: Length, outer: Length, length: Length) -> ThermalConductance {
    ThermalConductance::from_si(2.0 * PI * conductivity.si() * length.si() / (outer.si() / inner.si()).ln().abs())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_thin_ring_is_a_slab() {
        let (k, length) = (ThermalConductivity::from_si(0.4), Length::from_si(0.014));
        let thin = ring(k, Length::from_si(0.1), Length::from_si(0.1002), length).si();
        let slab = rod(k, Area::from_si(PI * 0.1001 * 0.014), Length::from_si(0.0001)).si();
        assert!((thin / slab - 1.0).abs() < 1e-5, "{thin} {slab}");
    }

    #[test]
    fn rings_in_series_add_up() {
        let k = ThermalConductivity::from_si(0.4);
        let across = |a: f64, b: f64| 1.0 / ring(k, Length::from_si(a), Length::from_si(b), Length::from_si(0.01)).si();
        assert!((across(0.02, 0.03) + across(0.03, 0.06) - across(0.06, 0.02)).abs() < 1e-9);
        // By hand: ln 3 / (2π·0.4·0.01).
        assert!((across(0.02, 0.06) - 43.712).abs() < 1e-3);
    }
}
