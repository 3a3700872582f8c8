//! Static seals between two faces: how hard they are squeezed, what is left of it, and how far the faces may slide.

use quantity::*;

/// Share by which a seal is squeezed, 1 − closed/free.
///
/// Inputs: its free thickness (m); the gap in which it lies when closed (m).
/// Returns: a share; negative where the gap is wider than the seal.
/// Valid for: any.
/// Source: definition, as in ISO 3601-2.
#[must_use]
pub fn squeeze(free: Length, closed: Length) -> Ratio {
    Ratio::from_si(1.0) - closed / free
}

/// Force on a round cord squeezed between two flat faces, per length: E·d·(1.25·C^1.5 + 50·C⁶).
///
/// Inputs: modulus E (Pa) at small strain; cord diameter d (m); squeeze C.
/// Returns: N/m; none for a cord that is not squeezed.
/// Valid for: squeezes up to 0.45, free at its sides; a full groove presses back harder.
/// Source: Lindley, J. Institution of the Rubber Industry 1 (1967) 209; published. Kim and others, Engineering Failure
/// Analysis 14 (2007) 1680, measured more than it says: not the safe side where a joint must be clamped.
#[must_use]
pub fn cord_force(modulus: Pressure, diameter: Length, squeeze: Ratio) -> SpringRate {
    let c = squeeze.si().max(0.0);
    SpringRate::from_si(modulus.si() * diameter.si() * (1.25 * c.powf(1.5) + 50.0 * c.powi(6)))
}

/// How far one face may slide before a squeezed seal rubs on it, µ·C·2·(1 + ν)·h.
///
/// Inputs: friction µ; squeeze C; closed gap h (m); Poisson ratio ν of the rubber.
/// Returns: m. Up to there the rubber shears and comes back; beyond it rubs with each warming and cooling, and wears.
/// Valid for: squeezes up to 0.3; the pressure on the face is taken as E·C, a cord presses a tenth to a third more: safe side.
/// Source: Coulomb's friction against Hooke's shear, G = E/(2·(1 + ν)); that a seal should not rub: common practice.
#[must_use]
pub fn sticks(friction: Ratio, squeeze: Ratio, closed: Length, poisson: Ratio) -> Length {
    let c = squeeze.si().max(0.0);
    closed * (friction.si() * c * 2.0 * (1.0 + poisson.si()))
}

/// How far one face may slide on a bead of sealant that sticks to both, t·√((1 + s)² − 1).
///
/// Inputs: thickness t of the bead (m); its movement capability s, the share by which it may be stretched.
/// Returns: m.
/// Valid for: beads that have cured and stick; the slanting line across the bead is stretched by s.
/// Source: Pythagoras; movement capability as ISO 11600 defines it, classes of 7.5 to 25 %: published.
#[must_use]
pub fn bead_slides(thickness: Length, capability: Ratio) -> Length {
    let s = 1.0 + capability.si();
    thickness * (s * s - 1.0).max(0.0).sqrt()
}

/// Squeeze that is left after years and at another temperature, 1 − (h + g) / (d·(1 − set·C)·(1 + α·ΔT)).
///
/// Inputs: free thickness d and closed gap h (m) at assembly; compression set (share of the squeeze that stays); its
/// expansion α (1/K) and ΔT (K) since assembly; by how much the gap has opened, g (m).
/// Returns: a share; nothing left, or negative: it leaks.
/// Valid for: a seal that is still rubber at that temperature.
/// Source: definition of compression set, ISO 815: published.
#[must_use]
pub fn squeeze_left(
    free: Length,
    closed: Length,
    set: Ratio,
    expansion: TemperatureCoefficient,
    warmer_by: TemperatureInterval,
    opened: Length,
) -> Ratio {
    let lasting = free * (1.0 - set.si() * squeeze(free, closed).si().max(0.0));
    squeeze(lasting * (1.0 + expansion.si() * warmer_by.si()), closed + opened)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(value: f64) -> Length {
        Length::from_si(value * 1e-3)
    }

    fn share(value: f64) -> Ratio {
        Ratio::from_si(value)
    }

    #[test]
    fn a_cord_presses_about_as_hard_as_its_modulus_times_its_squeeze() {
        // Second route for `sticks`: Lindley's force over the width on which a cord lies, 2.4·C·d (common practice), is E·C.
        for c in [0.15, 0.2, 0.25] {
            let force = cord_force(Pressure::from_si(5e6), mm(2.0), share(c)).si();
            let pressure = force / (2.4 * c * 2e-3);
            assert!((pressure / (5e6 * c) - 1.0).abs() < 0.4, "{c}: {pressure}");
        }
        // 3.53 mm of 70 Shore A, a fifth squeezed: makers' charts show 0.8 to 3.2 N/mm, from memory.
        let chart = cord_force(Pressure::from_si(5.5e6), mm(3.53), share(0.2)).si();
        assert!(chart > 800.0 && chart < 3200.0, "{chart}");
        assert_eq!(cord_force(Pressure::from_si(5e6), mm(2.0), share(-0.1)).si(), 0.0);
    }

    #[test]
    fn sliding_by_hand() {
        // 0.2 · 0.25 · 3 · 1.5 mm = 0.225 mm.
        assert!((sticks(share(0.2), share(0.25), mm(1.5), share(0.5)).si() - 0.225e-3).abs() < 1e-12);
        // A bead of 0.2 mm that may be stretched by a quarter slides by three quarters of its thickness: 3-4-5.
        assert!((bead_slides(mm(0.2), share(0.25)).si() - 0.15e-3).abs() < 1e-12);
        assert_eq!(bead_slides(mm(0.2), share(0.0)).si(), 0.0);
    }

    #[test]
    fn what_is_left_of_a_squeeze() {
        let left = |set, alpha: f64, kelvin: f64, opened: f64| {
            let (alpha, dt) = (TemperatureCoefficient::from_si(alpha), TemperatureInterval::from_si(kelvin));
            squeeze_left(mm(2.0), mm(1.5), share(set), alpha, dt, mm(opened)).si()
        };
        assert!((left(0.0, 0.0, -50.0, 0.0) - 0.25).abs() < 1e-12);
        assert!(left(1.0, 0.0, 0.0, 0.0).abs() < 1e-12, "set for good, nothing presses");
        assert!((left(0.0, 0.0, 0.0, 0.5)).abs() < 1e-12);
        // Set by 0.3: 1.85 mm; 50 K colder with 160 µm/(m·K): 1.8352 mm.
        assert!((left(0.3, 160e-6, -50.0, 0.0) - (1.0 - 1.5 / 1.8352)).abs() < 1e-9);
    }
}
