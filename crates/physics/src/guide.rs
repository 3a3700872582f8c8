//! A sliding guide that carries a load beside its axis.

use quantity::*;

/// Offset at which a guide binds however hard it is pushed, l/(2·µ).
///
/// Inputs: guided length l (m); friction µ.
/// Returns: distance (m) of the load line from the guide's axis.
/// Valid for: a guide that touches at its two ends; at a smaller offset it slides, only harder.
/// Source: equilibrium of a block on its two edges (the drawer that jams), textbook.
#[must_use]
pub fn binds_at(length: Length, friction: Ratio) -> Length {
    length / (2.0 * friction.si())
}

/// Force of each end of a guide that takes the moment of an offset load, F·e/(⅔·l).
///
/// Inputs: load F (N); offset e (m); guided length l (m).
/// Returns: force (N) of one end on the guide, spread as a triangle over half of the length.
/// Valid for: a stiff part in a guide without preload.
/// Source: two triangles of pressure, textbook.
#[must_use]
pub fn reacts_with(load: Force, offset: Length, length: Length) -> Force {
    Force::from_si(load.si() * offset.si().abs() / (2.0 / 3.0 * length.si()))
}

/// Stress of a screw that is pulled beside its axis, F/A + 32·F·e/(π·d³) on its core.
///
/// Inputs: load (N); offset (m); core diameter (m).
/// Returns: stress (Pa).
/// Valid for: a screw that has to take the whole moment, nothing else guides.
/// Source: textbook.
#[must_use]
pub fn screw_beside(load: Force, offset: Length, core: Length) -> Pressure {
    let d = core.si();
    let pi = std::f64::consts::PI;
    Pressure::from_si(load.si() * (4.0 / (pi * d * d) + 32.0 * offset.si().abs() / (pi * d.powi(3))))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn at_the_binding_offset_friction_is_as_large_as_the_push() {
        let (length, friction) = (Length::from_si(0.04), Ratio::from_si(0.2));
        let offset = binds_at(length, friction);
        // Edges at the two ends: N = F·e/l each, friction 2·µ·N = F.
        assert!((2.0 * 0.2 * offset.si() / 0.04 - 1.0).abs() < 1e-12);
    }

    #[test]
    fn triangles_of_pressure_carry_the_moment() {
        let force = reacts_with(Force::from_si(300.0), Length::from_si(-0.017), Length::from_si(0.034));
        assert!((force.si() * 2.0 / 3.0 * 0.034 - 300.0 * 0.017).abs() < 1e-12);
    }

    #[test]
    fn on_its_axis_a_screw_is_only_pulled() {
        let d = Length::from_si(0.005);
        let pure = screw_beside(Force::from_si(100.0), Length::ZERO, d);
        assert!((pure.si() - 100.0 / (std::f64::consts::PI / 4.0 * 25e-6)).abs() < 1e-6);
        // An eighth of a diameter beside it doubles the stress.
        assert!((screw_beside(Force::from_si(100.0), d / 8.0, d).si() / pure.si() - 2.0).abs() < 1e-12);
    }
}
