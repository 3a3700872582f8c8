//! What turning does to rings and discs by itself, before any load.

use quantity::*;

/// Speed of a point on a turning body, v = ω·r.
///
/// Inputs: rotational speed ω (rad/s); radius r (m), not diameter.
/// Returns: speed (m/s).
/// Valid for: a rigid body.
/// Source: kinematics.
#[must_use]
pub fn rim_speed(speed: AngularVelocity, radius: Length) -> Velocity {
    Velocity::from_si(speed.si() * radius.si())
}

/// Hoop stress of a thin free ring from its own turning, σ = ρ·v²: no size of it matters.
///
/// Inputs: density ρ (kg/m³); speed v (m/s) at the mean radius.
/// Returns: tension (Pa).
/// Valid for: wall under about a tenth of the radius; thicker: [`disc_bore_stress`].
/// Source: Timoshenko, Strength of Materials; published.
#[must_use]
pub fn thin_ring_stress(density: MassDensity, speed: Velocity) -> Pressure {
    Pressure::from_si(density.si() * speed.si() * speed.si())
}

/// Growth of the radius of a thin free ring from its own turning, ΔR = ρ·v²·R / E.
///
/// Inputs: density ρ (kg/m³); modulus E (Pa); mean radius R (m); speed v (m/s) at that radius.
/// Returns: length (m) on the radius.
/// Valid for: thin rings, small growth; above a few per cent it runs away and this is too low.
/// Source: Roark's Formulas, ch. 16; published.
#[must_use]
pub fn thin_ring_growth(density: MassDensity, modulus: Pressure, mean_radius: Length, speed: Velocity) -> Length {
    Length::from_si(thin_ring_stress(density, speed).si() * mean_radius.si() / modulus.si())
}

/// Highest hoop stress of a turning disc with a hole, at the hole: ρω²/4 · [(3+ν)·Ro² + (1−ν)·Ri²].
///
/// Inputs: density ρ (kg/m³); Poisson ratio ν; hole radius Ri (m); outer radius Ro (m); rotational speed ω (rad/s).
/// Returns: tension (Pa).
/// Valid for: even thickness, thin against its radius, no interference at the hole.
/// Source: Timoshenko and Goodier, Theory of Elasticity, art. 32; Roark, ch. 16; published.
#[must_use]
pub fn disc_bore_stress(
    density: MassDensity,
    poisson: Ratio,
    hole_radius: Length,
    outer_radius: Length,
    speed: AngularVelocity,
) -> Pressure {
    let (nu, ri, ro, w) = (poisson.si(), hole_radius.si(), outer_radius.si(), speed.si());
    Pressure::from_si(density.si() * w * w / 4.0 * ((3.0 + nu) * ro * ro + (1.0 - nu) * ri * ri))
}

/// Highest radial stress of a turning disc with a hole, at √(Ri·Ro): (3+ν)/8 · ρω²·(Ro−Ri)².
///
/// Inputs: as [`disc_bore_stress`].
/// Returns: tension (Pa): what pulls printed rings or a glued rim apart.
/// Valid for: even thickness.
/// Source: as [`disc_bore_stress`].
#[must_use]
pub fn disc_radial_stress(
    density: MassDensity,
    poisson: Ratio,
    hole_radius: Length,
    outer_radius: Length,
    speed: AngularVelocity,
) -> Pressure {
    let (nu, wall, w) = (poisson.si(), outer_radius.si() - hole_radius.si(), speed.si());
    Pressure::from_si((3.0 + nu) / 8.0 * density.si() * w * w * wall * wall)
}

/// Highest stress of a turning disc without a hole, at its centre: (3+ν)/8 · ρω²·Ro².
///
/// Inputs: density ρ (kg/m³); Poisson ratio ν; outer radius Ro (m); rotational speed ω (rad/s).
/// Returns: tension (Pa), the same in every direction.
/// Valid for: no hole at all; the smallest hole doubles it.
/// Source: as [`disc_bore_stress`].
#[must_use]
pub fn solid_disc_stress(
    density: MassDensity,
    poisson: Ratio,
    outer_radius: Length,
    speed: AngularVelocity,
) -> Pressure {
    disc_radial_stress(density, poisson, Length::from_si(0.0), outer_radius, speed)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(ri: f64, ro: f64) -> f64 {
        let speed = AngularVelocity::from_si(300.0);
        let (rho, nu) = (MassDensity::from_si(1240.0), Ratio::from_si(0.35));
        disc_bore_stress(rho, nu, Length::from_si(ri), Length::from_si(ro), speed).si()
    }

    #[test]
    fn a_pinhole_doubles_the_stress_of_a_solid_disc() {
        let speed = AngularVelocity::from_si(300.0);
        let solid =
            solid_disc_stress(MassDensity::from_si(1240.0), Ratio::from_si(0.35), Length::from_si(0.05), speed).si();
        assert!((at(1e-9, 0.05) / solid - 2.0).abs() < 1e-9);
    }

    #[test]
    fn a_thin_walled_disc_is_a_thin_ring() {
        let speed = rim_speed(AngularVelocity::from_si(300.0), Length::from_si(0.05));
        let ring = thin_ring_stress(MassDensity::from_si(1240.0), speed).si();
        assert!((at(0.05 - 1e-8, 0.05 + 1e-8) / ring - 1.0).abs() < 1e-6);
    }

    #[test]
    fn a_printed_ring_at_100_km_h_carries_under_one_megapascal() {
        let stress = thin_ring_stress(MassDensity::from_si(1240.0), Velocity::from_si(100.0 / 3.6)).si();
        assert!(stress < 1e6 && stress > 0.9e6);
    }
}
