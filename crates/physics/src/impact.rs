//! Blows: what a stopped mass does, and what a part can take up before it breaks.

use quantity::*;
use std::f64::consts::PI;

/// Highest force of a mass that is stopped within a distance, the force rising evenly from nothing, m·v²/s.
///
/// Inputs: distance s (m); mass m (kg); speed v (m/s).
/// Returns: force (N), twice the mean; infinite within no distance.
/// Valid for: an obstacle that pushes back the harder the farther it is pushed, as packed snow or a springy post does.
/// Source: balance of energy, textbook; the even rise: common practice, no source.
#[must_use]
pub fn within(distance: Length, mass: Mass, speed: Velocity) -> Force {
    Force::from_si(mass.si() * speed.si().powi(2) / distance.si())
}

/// Highest force of a mass that runs against a spring, v·√(k·m).
///
/// Inputs: stiffness k (N/m); mass (kg); speed (m/s).
/// Returns: force (N).
/// Valid for: elastic.
/// Source: balance of energy, textbook.
#[must_use]
pub fn against(stiffness: SpringRate, mass: Mass, speed: Velocity) -> Force {
    Force::from_si(speed.si() * (stiffness.si() * mass.si()).sqrt())
}

/// Energy that an even bar takes up in bending before its outside reaches a stress, σ²/(2·E) · V/3 · (k/c)².
///
/// Inputs: stress σ (Pa); modulus E (Pa); volume V (m³); radius of gyration over the distance of the outermost fibre, k/c: 1/√3 of a
/// rectangle, 1/2 of a round bar.
/// Returns: energy (J).
/// Valid for: one force at the end of a cantilever or in the middle of a beam on two supports; elastic.
/// Source: strain energy of bending; Timoshenko, Strength of Materials; published.
#[must_use]
pub fn bending_energy(stress: Pressure, modulus: Pressure, volume: Volume, slimness: Ratio) -> Energy {
    Energy::from_si(stress.si().powi(2) / (2.0 * modulus.si()) * volume.si() / 3.0 * slimness.si().powi(2))
}

/// Strain on the outside of a bar that is bent over by a right angle by a push at its tip, π·c/L.
///
/// Inputs: distance c of the outermost fibre from the middle (m); free length L (m).
/// Returns: strain at the root, twice the mean one.
/// Valid for: a bar that bends with a curvature that falls evenly from the root to the tip; how a part gets out of the way of the
/// ground when the machine lies down on it.
/// Source: curvature of such a bar, worked out here: ∫κ ds = κ₀·L/2 = π/2.
#[must_use]
pub fn bent_over(outermost: Length, length: Length) -> Ratio {
    Ratio::from_si(PI * outermost.si() / length.si())
}

/// Energy of a machine that falls over: its mass comes down from standing on its edge to lying on its side, m·g·(√(z² + b²) − b).
///
/// Inputs: mass (kg); height z of the centre of gravity (m); half of the width b on which it stands (m).
/// Returns: energy (J).
/// Valid for: level ground, no speed of its own.
/// Source: balance of energy, textbook.
#[must_use]
pub fn falls_over(mass: Mass, height: Length, half_width: Length) -> Energy {
    let (z, b) = (height.si(), half_width.si());
    Energy::from_si(mass.si() * crate::landing::GRAVITY * (z.hypot(b) - b))
}

/// Energy of a blow on a notched bar that breaks it, a·A.
///
/// Inputs: impact strength a (J/m², Charpy, notched); area under the notch (m²).
/// Returns: energy (J).
/// Valid for: thickness and notch like those of the test bar (4 mm behind a notch of 0.25 mm); a thicker part is more brittle.
/// Source: ISO 179-1; published.
#[must_use]
pub fn breaking_energy(impact: ImpactEnergy, area: Area) -> Energy {
    Energy::from_si(impact.si() * area.si())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_stops_agree_where_the_distance_is_the_springs() {
        let (mass, speed, rate) = (Mass::from_si(60.0), Velocity::from_si(3.0), SpringRate::from_si(8e4));
        let far = 3.0 * (60.0f64 / 8e4).sqrt();
        let by_distance = within(Length::from_si(far), mass, speed);
        assert!((by_distance.si() / against(rate, mass, speed).si() - 1.0).abs() < 1e-12);
    }

    #[test]
    fn bending_energy_is_the_work_of_the_force() {
        // Cantilever of 10 × 20 mm, 0.3 m: F·δ/2 with σ = F·L·c/I.
        let (b, h, l, e, sigma) = (0.01, 0.02f64, 0.3f64, 2e9, 30e6);
        let i: f64 = b * h.powi(3) / 12.0;
        let force = sigma * i / (l * h / 2.0);
        let work = force * force * l.powi(3) / (6.0 * e * i);
        let ours = bending_energy(
            Pressure::from_si(sigma),
            Pressure::from_si(e),
            Volume::from_si(b * h * l),
            Ratio::from_si(1.0 / 3f64.sqrt()),
        );
        assert!((ours.si() / work - 1.0).abs() < 1e-12);
    }

    #[test]
    fn bent_over_by_steps() {
        // Curvature κ₀·(1 − s/L) turns the tip by a right angle.
        let (c, l, n) = (0.005, 0.3, 1000);
        let root = bent_over(Length::from_si(c), Length::from_si(l)).si() / c;
        let turned: f64 = (0..n).map(|i| root * (1.0 - (f64::from(i) + 0.5) / f64::from(n)) * l / f64::from(n)).sum();
        assert!((turned - PI / 2.0).abs() < 1e-9);
    }

    #[test]
    fn a_low_wide_machine_has_little_energy_to_fall_with() {
        let energy = |z, b| falls_over(Mass::from_si(60.0), Length::from_si(z), Length::from_si(b)).si();
        assert!(energy(0.2, 0.4) < 0.3 * energy(0.4, 0.2));
        assert!((energy(0.3, 0.0) - 60.0 * 9.80665 * 0.3).abs() < 1e-9);
        let broken = breaking_energy(ImpactEnergy::from_si(9e3), Area::from_si(1e-4));
        assert!((broken.si() - 0.9).abs() < 1e-12);
    }
}
