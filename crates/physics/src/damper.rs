//! An oil damper: what its piston holes resist with, at a speed, with oil of a given thickness.

use quantity::*;
use std::f64::consts::PI;

/// A piston with round holes in a tube of oil.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Valving {
    /// Inner diameter of the tube.
    pub bore: Length,
    /// Diameter of the rod, zero for a piston without one.
    pub rod: Length,
    /// Count of the holes that are open in this direction.
    pub holes: Ratio,
    pub hole_diameter: Length,
    /// Thickness of the piston where the holes go through.
    pub hole_length: Length,
}

/// What happens in the holes at one speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stroke {
    pub force: Force,
    pub pressure: Pressure,
    pub hole_speed: Velocity,
    /// Below about 2000 the oil resists by its thickness (force rises with speed), above by its mass (with its square).
    pub reynolds: Ratio,
}

/// How much longer a hole acts by the oil that gathers before and spreads behind it, in diameters: 3π/16.
///
/// Source: Sampson 1891 (orifice without length, Δp = 24·µ·Q/d³), added to the hole as Dagan, Weinbaum and Pfeffer 1982 show
/// to hold within one per cent; published.
const ENDS: f64 = 3.0 * PI / 16.0;

/// Loss of entrance and exit in velocity heads: a hole of two diameters and more 1.5, a thin plate 1/0.61².
///
/// Source: sharp entrance 0.5 and full exit 1 (textbook); contraction coefficient 0.61 of a thin plate (textbook); straight
/// between half a diameter, where the jet stays free, and two, where it has closed up: common practice, no source.
fn ends_loss(length: f64, diameter: f64) -> f64 {
    let thin = 1.0 / (0.61 * 0.61);
    thin + (1.5 - thin) * ((length / diameter - 0.5) / 1.5).clamp(0.0, 1.0)
}

/// Area that pushes the oil (m²), coefficient of the hole speed (Pa·s/m) and of its square (Pa·s²/m²), hole area by piston area.
fn coefficients(v: &Valving, viscosity: DynamicViscosity, density: MassDensity) -> (f64, f64, f64, f64) {
    let (d, l) = (v.hole_diameter.si(), v.hole_length.si());
    let piston = PI / 4.0 * (v.bore.si().powi(2) - v.rod.si().powi(2));
    let open = v.holes.si() * PI / 4.0 * d * d;
    let viscous = 32.0 * viscosity.si() * (l + ENDS * d) / (d * d);
    (piston, viscous, ends_loss(l, d) * density.si() / 2.0, open / piston)
}

/// Force, pressure and flow at a piston speed: Δp = 32·µ·L′·u/d² + K·ρ·u²/2, F = Δp·A.
///
/// Inputs: the piston; its speed (m/s) either way; dynamic viscosity µ (Pa·s) and density ρ (kg/m³) of the oil.
/// Returns: force (N) against the motion, without seal friction and without gas pressure on the rod.
/// Valid for: all Reynolds numbers with holes up to about 20 diameters long (in longer ones turbulent wall friction is missing:
/// too low); a leak past the piston and oil that foams make the real one softer.
/// Source: Hagen–Poiseuille; entrance and exit as above; the two are added, common practice.
#[must_use]
pub fn stroke(valving: &Valving, speed: Velocity, viscosity: DynamicViscosity, density: MassDensity) -> Stroke {
    let (piston, viscous, inertial, open) = coefficients(valving, viscosity, density);
    let u = speed.si().abs() / open;
    let pressure = viscous * u + inertial * u * u;
    Stroke {
        force: Force::from_si(pressure * piston),
        pressure: Pressure::from_si(pressure),
        hole_speed: Velocity::from_si(u),
        reynolds: Ratio::from_si(density.si() * u * valving.hole_diameter.si() / viscosity.si()),
    }
}

/// The two coefficients of [`stroke`] as a polynomial of the piston's speed, F = c·v + q·v².
///
/// Inputs: as [`stroke`].
/// Returns: c (N·s/m) and q (N·s²/m²).
/// Valid for: as [`stroke`].
/// Source: [`stroke`], gathered by powers of the speed.
#[must_use]
pub fn resistance(valving: &Valving, viscosity: DynamicViscosity, density: MassDensity) -> (f64, f64) {
    let (piston, viscous, inertial, open) = coefficients(valving, viscosity, density);
    (piston * viscous / open, piston * inertial / (open * open))
}

/// Damping rate at a speed, force over speed; at rest the limit of it.
///
/// Inputs: as [`stroke`].
/// Returns: N·s/m.
/// Valid for: as [`stroke`].
/// Source: secant of [`stroke`].
#[must_use]
pub fn damping_rate(
    valving: &Valving,
    speed: Velocity,
    viscosity: DynamicViscosity,
    density: MassDensity,
) -> DampingRate {
    let (piston, viscous, inertial, open) = coefficients(valving, viscosity, density);
    DampingRate::from_si(piston / open * (viscous + inertial * speed.si().abs() / open))
}

/// Speed at which a force pushes the piston: how fast the spring can bring it back out.
///
/// Inputs: the piston; force (N); viscosity (Pa·s) and density (kg/m³) of the oil.
/// Returns: speed (m/s), zero for a force of zero or less.
/// Valid for: as [`stroke`], of which it is the exact inverse.
/// Source: positive root of the quadratic of [`stroke`].
#[must_use]
pub fn speed_under(valving: &Valving, force: Force, viscosity: DynamicViscosity, density: MassDensity) -> Velocity {
    let (piston, viscous, inertial, open) = coefficients(valving, viscosity, density);
    let pressure = (force.si() / piston).max(0.0);
    // The form of the root that does not lose its digits when the oil is thick.
    let u = 2.0 * pressure / (viscous + (viscous * viscous + 4.0 * inertial * pressure).sqrt());
    Velocity::from_si(if pressure > 0.0 { u * open } else { 0.0 })
}

/// Time in which a damped spring without mass comes back to 37 % of its way, c/k: the measure of packing down.
///
/// Inputs: damping rate c (N·s/m) and spring rate k (N/m) at the same place.
/// Returns: time (s).
/// Valid for: heavy damping, mass not felt.
/// Source: first-order lag, textbook.
#[must_use]
pub fn return_time(damping: DampingRate, rate: SpringRate) -> Time {
    Time::from_si(damping.si() / rate.si())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(x: f64) -> Length {
        Length::from_si(x * 1e-3)
    }
    fn valving(hole: f64, length: f64) -> Valving {
        Valving {
            bore: mm(16.0),
            rod: mm(4.0),
            holes: Ratio::from_si(3.0),
            hole_diameter: mm(hole),
            hole_length: mm(length),
        }
    }
    fn oil(mpas: f64) -> (DynamicViscosity, MassDensity) {
        (DynamicViscosity::from_si(mpas * 1e-3), MassDensity::from_si(960.0))
    }
    fn v(x: f64) -> Velocity {
        Velocity::from_si(x)
    }

    #[test]
    fn thick_oil_in_a_long_hole_is_hagen_poiseuille() {
        let long = valving(1.0, 1000.0);
        let (mu, rho) = oil(1000.0);
        let s = stroke(&long, v(1e-4), mu, rho);
        let piston = PI / 4.0 * (0.016f64.powi(2) - 0.004f64.powi(2));
        let flow_each = piston * 1e-4 / 3.0;
        let by_flow = 128.0 * 1.0 * 1.0 * flow_each / (PI * 1e-12);
        assert!((s.pressure.si() / by_flow - 1.0).abs() < 2e-3);
        assert!(s.reynolds.si() < 1.0);
    }

    #[test]
    fn thick_oil_through_a_hole_without_length_is_sampson() {
        let (mu, rho) = oil(10_000.0);
        let s = stroke(&valving(1.0, 0.0), v(1e-6), mu, rho);
        let piston = PI / 4.0 * (0.016f64.powi(2) - 0.004f64.powi(2));
        let sampson = 24.0 * 10.0 * (piston * 1e-6 / 3.0) / 1e-9;
        assert!((s.pressure.si() / sampson - 1.0).abs() < 1e-6, "{} {}", s.pressure.si(), sampson);
    }

    #[test]
    fn thin_oil_fast_through_a_thin_plate_is_the_orifice_formula() {
        let (mu, rho) = oil(1e-6);
        let s = stroke(&valving(1.0, 0.1), v(1.0), mu, rho);
        let discharge = s.hole_speed.si() / (2.0 * s.pressure.si() / 960.0).sqrt();
        assert!((discharge - 0.61).abs() < 1e-6);
    }

    #[test]
    fn ten_times_thicker_oil_is_ten_times_the_force_while_viscous() {
        let at = |mpas: f64| {
            let (mu, rho) = oil(mpas);
            stroke(&valving(1.2, 3.0), v(0.001), mu, rho).force.si()
        };
        assert!((at(5000.0) / at(500.0) - 10.0).abs() < 0.05);
    }

    #[test]
    fn rate_and_inverse_agree_with_the_stroke_and_more_holes_never_stiffen() {
        let (mu, rho) = oil(336.0);
        let piston = valving(1.2, 3.0);
        for speed in [0.001, 0.1, 3.0] {
            let force = stroke(&piston, v(speed), mu, rho).force;
            assert!((damping_rate(&piston, v(speed), mu, rho).si() * speed / force.si() - 1.0).abs() < 1e-12);
            assert!((speed_under(&piston, force, mu, rho).si() / speed - 1.0).abs() < 1e-12);
            let more = Valving { holes: Ratio::from_si(4.0), ..piston };
            assert!(stroke(&more, v(speed), mu, rho).force.si() < force.si());
        }
        assert_eq!(speed_under(&piston, Force::from_si(0.0), mu, rho).si(), 0.0);
        let slow = damping_rate(&piston, v(0.0), mu, rho);
        assert!(slow.si() > 0.0);
        assert_eq!(return_time(slow, SpringRate::from_si(slow.si())).si(), 1.0);
    }
}
