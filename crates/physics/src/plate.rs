//! Flat walls under even pressure, held all along two sides: lids over channels, sides of boxes.

use quantity::*;

/// Pressure at which the stress in a long flat wall, held stiffly along both sides, reaches a strength: 2·σ·t²/b².
///
/// Inputs: strength σ (Pa); width b (m) between the sides; thickness t (m).
/// Returns: pressure difference (Pa). A wall no longer than wide stands 1.6 times as much.
/// Valid for: walls thinner than a fifth of their width that bend by less than half their thickness.
/// Source: Roark's Formulas for Stress and Strain, 8th edition, table 11.4, case 8, long plate (β = 0.5); published.
#[must_use]
pub fn clamped_strip_pressure(strength: Pressure, width: Length, thickness: Length) -> Pressure {
    let slim = (thickness / width).si();
    strength * (2.0 * slim * slim)
}

/// Pressure at which such a wall is drawn in by half its thickness, from where on it may snap: 17.6·E·t⁴/b⁴.
///
/// Inputs: modulus E (Pa); width b (m); thickness t (m).
/// Returns: pressure difference (Pa).
/// Valid for: as [`clamped_strip_pressure`]; curved walls snap sooner.
/// Source: Roark, 8th edition, table 11.4, case 8, long plate (α = 0.0284, Poisson ratio 0.3); published. Half the thickness
/// as the limit of small bending: common practice.
#[must_use]
pub fn drawn_in_pressure(modulus: Pressure, width: Length, thickness: Length) -> Pressure {
    let slim = (thickness / width).si();
    modulus * (0.5 / 0.0284 * slim.powi(4))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_strip_is_a_beam_held_at_both_ends() {
        // Second route: a strip 1 m long of span b: M = p·b²/12 at its sides, W = t²/6; bends p·b⁴/(384·D), D = E·t³/12(1 − ν²).
        let (b, t, p) = (20e-3, 2e-3, 50e3);
        let stress = p * b * b / 12.0 / (t * t / 6.0);
        let found = clamped_strip_pressure(Pressure::from_si(stress), Length::from_si(b), Length::from_si(t));
        assert!((found.si() / p - 1.0).abs() < 1e-12);
        let (e, nu) = (2e9, 0.3f64);
        let stiff = e * t * t * t / (12.0 * (1.0 - nu * nu));
        let half = 0.5 * t * 384.0 * stiff / b.powi(4);
        let found = drawn_in_pressure(Pressure::from_si(e), Length::from_si(b), Length::from_si(t));
        assert!((found.si() / half - 1.0).abs() < 2e-3, "{}", found.si() / half);
    }
}
