//! Two round bodies pressed on one another.

use quantity::*;
use std::f64::consts::PI;

/// One of the two: radius (infinite for a flat one, negative for a hollow), modulus, Poisson's ratio.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Face {
    pub radius: Length,
    pub modulus: Pressure,
    pub poisson: Ratio,
}

/// 1/R and 1/E* of both together.
fn paired(one: &Face, other: &Face) -> (f64, f64) {
    let soft = |face: &Face| (1.0 - face.poisson.si().powi(2)) / face.modulus.si();
    (1.0 / one.radius.si() + 1.0 / other.radius.si(), soft(one) + soft(other))
}

/// Pressed together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pressed {
    /// Half the width of the strip, or the radius of the circle.
    pub reach: Length,
    /// In the middle.
    pub pressure: Pressure,
    /// Highest shear, below the surface.
    pub shear: Pressure,
}

/// Two rollers, or a roller on a flat: b = √(4·F·R/(π·L·E*)), p = 2·F/(π·b·L), shear 0.300·p at 0.786·b.
///
/// Inputs: force (N); length (m); both faces.
/// Returns: half width, pressure, shear; a hollow as tight as the roller has no answer (not a number).
/// Valid for: elastic, dry, parallel; the strip narrow beside both radii.
/// Source: Hertz; K. L. Johnson, Contact Mechanics, ch. 4; published.
#[must_use]
pub fn line(force: Force, length: Length, one: &Face, other: &Face) -> Pressed {
    let (curved, soft) = paired(one, other);
    let (f, l) = (force.si(), length.si());
    let b = (4.0 * f * soft / (PI * l * curved)).sqrt();
    let pressure = 2.0 * f / (PI * b * l);
    Pressed {
        reach: Length::from_si(b),
        pressure: Pressure::from_si(pressure),
        shear: Pressure::from_si(0.300 * pressure),
    }
}

/// Two balls, or a ball on a flat: a = ∛(3·F·R/(4·E*)), p = 3·F/(2·π·a²), shear 0.310·p (for a Poisson's ratio of 0.3).
///
/// Inputs: force (N); both faces.
/// Returns: radius of the circle, pressure, shear.
/// Valid for: elastic; the circle small beside both radii.
/// Source: Hertz; K. L. Johnson, Contact Mechanics, ch. 3; published.
#[must_use]
pub fn point(force: Force, one: &Face, other: &Face) -> Pressed {
    let (curved, soft) = paired(one, other);
    let a = (0.75 * force.si() * soft / curved).cbrt();
    let pressure = 1.5 * force.si() / (PI * a * a);
    Pressed {
        reach: Length::from_si(a),
        pressure: Pressure::from_si(pressure),
        shear: Pressure::from_si(0.310 * pressure),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn face(radius: f64) -> Face {
        Face { radius: Length::from_si(radius), modulus: Pressure::from_si(206e9), poisson: Ratio::from_si(0.3) }
    }

    #[test]
    fn the_pressure_adds_up_to_the_force() {
        let force = Force::from_si(300.0);
        let strip = line(force, Length::from_si(0.01), &face(0.01), &face(f64::INFINITY));
        assert!((PI / 2.0 * strip.pressure.si() * strip.reach.si() * 0.01 - 300.0).abs() < 1e-9);
        let spot = point(force, &face(0.01), &face(0.02));
        assert!((2.0 / 3.0 * PI * spot.reach.si().powi(2) * spot.pressure.si() - 300.0).abs() < 1e-9);
    }

    #[test]
    fn a_hollow_that_follows_the_roller_spreads_the_load() {
        let force = Force::from_si(300.0);
        let p = |other: f64| line(force, Length::from_si(0.01), &face(0.01), &face(other)).pressure.si();
        assert!(p(-0.0101) < 0.2 * p(f64::INFINITY) && p(f64::INFINITY) < p(0.01));
        assert!(p(-0.009).is_nan());
    }
}
