//! Printed walls and what seeps through them.

use quantity::*;

/// Layer height for which [`weeping_pressure`] takes a wall line at its full figure, m.
const USUAL_LAYER: f64 = 0.2e-3;

/// Pressure difference above which a bare printed wall weeps: so much a wall line, less in thick layers.
///
/// Inputs: pressure that one wall line keeps in at a layer height of 0.2 mm (Pa); wall lines between liquid and air; layer
/// height (m).
/// Returns: pressure (Pa).
/// Valid for: dense, dry-printed walls. No print is tight without a test.
/// Source: common practice, no source for the figure. That leaks fall with more wall and thinner layers, the layers
/// counting most: Saniman and others, Water retention properties of a fused deposition modeling based 3D printed
/// polylactic acid vessel, 2022; Leeder and others, ACS Applied Polymer Materials 2025; published.
#[must_use]
pub fn weeping_pressure(a_wall: Pressure, walls: Ratio, layer_height: Length) -> Pressure {
    a_wall * walls * (Length::from_si(USUAL_LAYER) / layer_height)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn in_both_directions_of_the_papers() {
        let at = |walls: f64, layers: f64| {
            weeping_pressure(Pressure::from_si(10e3), Ratio::from_si(walls), Length::from_si(layers * 1e-3)).si()
        };
        assert!((at(4.0, 0.2) - 40e3).abs() < 1e-6);
        assert!(at(6.0, 0.2) > at(4.0, 0.2) && at(4.0, 0.1) > at(4.0, 0.2));
        assert_eq!(at(0.0, 0.2), 0.0);
    }
}
