//! Metric screws: what holds the pull, what the head presses on.

use quantity::*;
use std::f64::consts::FRAC_PI_4;

/// Area that carries the pull of a metric screw, π/4·(d − 0.9382·p)².
///
/// Inputs: thread diameter d (m); pitch p (m).
/// Returns: area (m²).
/// Valid for: ISO metric threads.
/// Source: ISO 898-1, published.
#[must_use]
pub fn stress_area(diameter: Length, pitch: Length) -> Area {
    Area::from_si(FRAC_PI_4 * (diameter.si() - 0.9382 * pitch.si()).powi(2))
}

/// Area under the head of a cylinder-head screw without a washer, π/4·((1.5·d)² − (1.1·d)²).
///
/// Inputs: thread diameter d (m).
/// Returns: area (m²).
/// Valid for: heads of 1.5 diameters (ISO 4762) over a hole of 1.1 diameters (ISO 273, medium).
/// Source: ISO 4762 and ISO 273, published; rounded to these shares from memory.
#[must_use]
pub fn head_area(diameter: Length) -> Area {
    Area::from_si(FRAC_PI_4 * (1.5f64.powi(2) - 1.1f64.powi(2)) * diameter.si().powi(2))
}

/// Force with which a screw clamps: as far as it is tightened, or as far as what lies under its head bears for long.
///
/// Inputs: tension (Pa) in the screw; pressure (Pa) under its head that lasts, none on metal; thread diameter and pitch (m).
/// Returns: force (N).
/// Valid for: screws at rest; what a load takes off it is left out.
/// Source: equilibrium.
#[must_use]
pub fn clamping(tension: Pressure, head_pressure: Option<Pressure>, diameter: Length, pitch: Length) -> Force {
    let pulls = tension.si() * stress_area(diameter, pitch).si();
    let bears = head_pressure.map_or(f64::INFINITY, |pressure| pressure.si() * head_area(diameter).si());
    Force::from_si(pulls.min(bears))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 898-1, table of nominal stress areas: M4 8.78 mm², M5 14.2 mm², M6 20.1 mm², M8 36.6 mm².
    #[test]
    fn stress_areas_of_the_standard() {
        for (d, p, area) in [(4.0, 0.7, 8.78), (5.0, 0.8, 14.2), (6.0, 1.0, 20.1), (8.0, 1.25, 36.6)] {
            let ours = stress_area(Length::from_si(d * 1e-3), Length::from_si(p * 1e-3)).si() * 1e6;
            assert!((ours - area).abs() < 0.05, "M{d}: {ours}");
        }
    }

    #[test]
    fn on_plastic_the_head_gives_way_before_the_screw_is_tight() {
        let (d, p, tension) = (Length::from_si(5e-3), Length::from_si(0.8e-3), Pressure::from_si(400e6));
        let (metal, plastic) =
            (clamping(tension, None, d, p).si(), clamping(tension, Some(Pressure::from_si(10e6)), d, p).si());
        // 400 MPa · 14.2 mm²; 10 MPa · 20.4 mm² under the head.
        assert!((metal - 5672.0).abs() < 10.0 && (plastic - 204.2).abs() < 0.1, "{metal} {plastic}");
    }
}
