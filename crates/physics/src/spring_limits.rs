//! What a helical compression spring takes: stress once, stress over a season, buckling, its own frequency.

use crate::range::{OutsideRange, within};
use quantity::*;
use std::f64::consts::PI;

/// Permissible shear stress of a cold-coiled spring, 0.56·R_m.
///
/// Inputs: tensile strength R_m (Pa) of the wire at its diameter.
/// Returns: Pa, for the stress without the factor of curvature; beyond it the spring sets and gets shorter.
/// Valid for: cold-coiled round wire at the solid length, or slow loading.
/// Source: EN 13906-1 (τ_c,zul), from memory; Shigley, table 10-6, allows 45 % of cold-drawn wire before presetting and up to
/// 65 % after it, published, also from memory.
#[must_use]
pub fn permissible_shear(tensile_strength: Pressure) -> Pressure {
    tensile_strength * 0.56
}

/// How a wire's surface was treated.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Surface {
    AsDrawn,
    ShotPeened,
}

/// Amplitude that a spring takes for ever between two stresses, by Goodman's line through Zimmerli's points.
///
/// Inputs: lower and upper shear stress (Pa) with the factor of curvature; tensile strength R_m (Pa) of the wire.
/// Returns: reserve, how many times both amplitude and mean may grow.
/// Valid for: wire of 10 mm and less, not corroded, more than ten million turns; beyond 10 mm no data.
/// Source: Zimmerli 1957 as in Shigley, ch. 10: amplitude 241 MPa about 379 MPa as drawn, 398 about 534 shot-peened, whatever
/// the wire; torsional strength 0.67·R_m; published, written down from memory.
#[must_use]
pub fn endurance_reserve(lower: Pressure, upper: Pressure, tensile_strength: Pressure, surface: Surface) -> Ratio {
    let (amplitude, mean) = match surface {
        Surface::AsDrawn => (241e6, 379e6),
        Surface::ShotPeened => (398e6, 534e6),
    };
    let ultimate = 0.67 * tensile_strength.si();
    // Goodman's line through Zimmerli's point meets the axis here.
    let alone = amplitude / (1.0 - mean / ultimate).max(1e-3);
    let (a, m) = (0.5 * (upper.si() - lower.si()).abs(), 0.5 * (upper.si() + lower.si()));
    Ratio::from_si(1.0 / (a / alone + m / ultimate).max(f64::MIN_POSITIVE))
}

/// How a spring stands between its seats: the share of its free length that counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Seats {
    /// Both ends held flat and guided.
    BothGuided,
    /// One guided, one that can tilt.
    OnePivots,
    BothPivot,
}

/// Deflection at which a spring without a guide bows out sideways.
///
/// Inputs: free length L₀ (m); mean coil diameter D (m); Poisson's ratio of the wire; how it stands.
/// Returns: m; nothing where it cannot buckle at all.
/// Valid for: ground ends, no rod or tube to guide it.
/// Source: EN 13906-1 (s_K with G/E = 1/(2·(1+ν))), from memory; Shigley eq. 10-10 is the same: for steel between flat seats it
/// cannot buckle below L₀ = 5.26·D.
///
/// # Errors
/// Poisson's ratio outside 0 to 0.5.
pub fn buckles_at(
    free_length: Length,
    mean_diameter: Length,
    poisson: Ratio,
    seats: Seats,
) -> Result<Option<Length>, OutsideRange> {
    let nu = within("Poisson's ratio of the wire", "", 0.0, 0.5, poisson.si())?;
    let share = match seats {
        Seats::BothGuided => 0.5,
        Seats::OnePivots => 0.707,
        Seats::BothPivot => 1.0,
    };
    let g_over_e = 1.0 / (2.0 * (1.0 + nu));
    let slender = PI * mean_diameter.si() / (share * free_length.si());
    let under = 1.0 - (1.0 - g_over_e) / (0.5 + g_over_e) * slender * slender;
    Ok(if under < 0.0 {
        None
    } else {
        Some(Length::from_si(free_length.si() * 0.5 / (1.0 - g_over_e) * (1.0 - under.sqrt())))
    })
}

/// Own frequency of a spring between two plates, f = ½·√(k/m).
///
/// Inputs: rate k (N/m); mass m (kg) of the active wire.
/// Returns: Hz. Blows that repeat near it make the coils surge.
/// Valid for: both ends held.
/// Source: Shigley eq. 10-25, wave equation; published.
#[must_use]
pub fn own_frequency(rate: SpringRate, active_mass: Mass) -> Frequency {
    Frequency::from_si(0.5 * (rate.si() / active_mass.si()).sqrt())
}

/// Frequency at which a mass swings on a spring, f = √(k/m)/(2·π).
///
/// Inputs: rate k (N/m) at the wheel; mass m (kg) on it.
/// Returns: Hz.
/// Valid for: small swings, little damping.
/// Source: textbook.
#[must_use]
pub fn ride_frequency(rate_at_wheel: SpringRate, mass: Mass) -> Frequency {
    Frequency::from_si((rate_at_wheel.si() / mass.si()).sqrt() / (2.0 * PI))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::spring;

    const INCH: f64 = 0.0254;
    const POUND: f64 = 4.448_221_615_260_5;
    const PSI: f64 = 6894.757;

    fn m(x: f64) -> Length {
        Length::from_si(x)
    }
    fn mpa(x: f64) -> Pressure {
        Pressure::from_si(x * 1e6)
    }

    #[test]
    fn a_textbook_spring() {
        // Shigley, example 10-1, from memory: music wire of 0.037 in, 7/16 in outside, 12.5 turns, squared ends.
        let (d, big_d) = (m(0.037 * INCH), m(0.400 * INCH));
        let strength = 201e3 / 0.037f64.powf(0.145);
        assert!((strength / 1e3 - 324.0).abs() < 0.5, "printed 324 kpsi");
        let factor = spring::bergstrasser_factor(spring::index(d, big_d));
        assert!((factor.si() - 1.124).abs() < 6e-4, "printed 1.124");
        let torsional = Pressure::from_si(0.45 * strength * PSI);
        let of_one = spring::shear_stress(Force::from_si(POUND), d, big_d, factor);
        let force = torsional.si() / of_one.si();
        assert!((force - 6.46).abs() < 0.01, "printed 6.46 lbf: {force}");
        let rate = spring::rate(d, big_d, Ratio::from_si(10.5), Pressure::from_si(11.85e6 * PSI)).si() * INCH / POUND;
        assert!((rate - 4.13).abs() < 5e-3, "printed 4.13 lbf/in: {rate}");
        // Between flat plates it cannot buckle up to 2.63·D/0.5 = 2.10 in.
        let steel = Ratio::from_si(0.3);
        let buckles = |inches: f64| buckles_at(m(inches * INCH), big_d, steel, Seats::BothGuided).unwrap();
        assert!(buckles(2.06).is_none() && buckles(2.15).is_some());
    }

    #[test]
    fn a_slender_spring_buckles_like_a_column() {
        // Very long: the series of the root gives s → L₀·0.25·(1/(0.5+G/E))·(πD/(ν·L₀))², Euler's load of a soft column.
        let (free, big_d, nu) = (m(10.0), m(0.02), 0.3);
        let s = buckles_at(free, big_d, Ratio::from_si(nu), Seats::BothPivot).unwrap().unwrap().si();
        let ge = 1.0 / 2.6;
        let euler = 10.0 * 0.25 / (0.5 + ge) * (PI * 0.02 / 10.0f64).powi(2);
        assert!((s / euler - 1.0).abs() < 1e-4, "{s} {euler}");
        assert!(buckles_at(free, big_d, Ratio::from_si(0.7), Seats::BothPivot).is_err());
    }

    #[test]
    fn endurance_passes_through_zimmerlis_points_and_ends_at_the_wires_own_strength() {
        for (amplitude, mean, surface) in [(241.0, 379.0, Surface::AsDrawn), (398.0, 534.0, Surface::ShotPeened)] {
            let reserve = endurance_reserve(mpa(mean - amplitude), mpa(mean + amplitude), mpa(1800.0), surface);
            assert!((reserve.si() - 1.0).abs() < 1e-12);
        }
        let still = endurance_reserve(mpa(1206.0), mpa(1206.0), mpa(1800.0), Surface::AsDrawn);
        assert!((still.si() - 1.0).abs() < 1e-12 && (permissible_shear(mpa(1800.0)).si() - 1008e6).abs() < 1.0);
    }

    #[test]
    fn frequencies_by_hand() {
        assert!(
            (ride_frequency(SpringRate::from_si(4000.0), Mass::from_si(10.0)).si() - 20.0 / (2.0 * PI)).abs() < 1e-12
        );
        // A wave runs to and fro once: 1/(2·√(m/k)).
        assert!((own_frequency(SpringRate::from_si(8000.0), Mass::from_si(0.05)).si() - 200.0).abs() < 1e-9);
    }
}
