//! The involute function and its inverse.

use quantity::*;

/// Involute function, inv α = tan α − α.
///
/// Inputs: pressure angle α (rad), 0 to below π/2.
/// Returns: angle (rad) between the start of the involute and the point on it.
/// Valid for: any involute.
/// Source: ISO 21771, published.
#[must_use]
pub fn involute(pressure_angle: Angle) -> Angle {
    let alpha = pressure_angle.si();
    Angle::from_si(alpha.tan() - alpha)
}

/// The pressure angle of which a number is the involute function.
///
/// Inputs: inv α (rad), zero or more.
/// Returns: α (rad).
/// Valid for: α up to 85°; more is given as 85°.
/// Source: inverse of [`involute`] by halving; inv α ≈ α³/3 for small angles.
#[must_use]
pub fn involute_angle(involute_of: Angle) -> Angle {
    let rises = |alpha: f64| involute(Angle::from_si(alpha)).si();
    Angle::from_si(crate::root::rising(0.0, 85f64.to_radians(), involute_of.si(), rises))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn starts_with_a_third_of_the_cube_and_turns_back() {
        let alpha = Angle::from_si(1e-3);
        assert!((involute(alpha).si() / (1e-9 / 3.0) - 1.0).abs() < 1e-5);
        for degrees in [1.0, 14.5, 20.0, 25.0, 60.0] {
            let alpha = f64::to_radians(degrees);
            assert!((involute_angle(involute(Angle::from_si(alpha))).si() - alpha).abs() < 1e-12);
        }
        assert!(involute_angle(Angle::from_si(0.0)).si() < 1e-15);
    }
}
