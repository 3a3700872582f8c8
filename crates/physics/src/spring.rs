//! Helical compression springs of round wire: rate, stress, solid length and the gaps that must stay open.

use quantity::*;
use std::f64::consts::PI;

/// How the ends of the coil are made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ends {
    /// Cut off, the last coil runs on at full pitch.
    Plain,
    /// Cut off and ground flat.
    PlainGround,
    /// The last coil laid against its neighbour.
    Closed,
    /// Laid against its neighbour and ground flat: the usual good spring.
    ClosedGround,
}

/// How the wire was bent.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Coiling {
    Cold,
    Hot,
}

/// How the spring is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Duty {
    /// Loaded seldom and slowly.
    Static,
    /// Loaded often or by blows: a suspension.
    Dynamic,
}

/// Spring rate of a helical compression spring, R = G·d⁴ / (8·D³·n).
///
/// Inputs: wire d (m); mean coil diameter D (m), outer diameter less one wire; active coils n; shear modulus G (Pa).
/// Returns: force per length (N/m).
/// Valid for: index D/d 4 to 20, at least two active coils (EN 13906-1, cold coiled); outside it the formula goes on
/// and the spring departs from it.
/// Source: EN 13906-1:2013 (rate formula) and Shigley, Mechanical Engineering Design, ch. 10; published.
///
/// ```
/// use quantity::*;
/// let rate = physics::spring::rate(
///     Length::from_si(2e-3), Length::from_si(20e-3), Ratio::from_si(10.0), Pressure::from_si(80e9));
/// // by hand: 80e9 · 16e-12 / (8 · 8e-6 · 10) = 2000 N/m
/// assert!((rate.si() - 2000.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn rate(wire: Length, mean_diameter: Length, active_coils: Ratio, shear_modulus: Pressure) -> SpringRate {
    let (d, big_d) = (wire.si(), mean_diameter.si());
    SpringRate::from_si(shear_modulus.si() * d.powi(4) / (8.0 * big_d.powi(3) * active_coils.si()))
}

/// Shear modulus of a material that is alike in all directions, G = E / (2·(1 + ν)).
///
/// Inputs: modulus of elasticity E (Pa); Poisson's ratio ν.
/// Returns: Pa.
/// Valid for: isotropic materials, ν between 0 and 0.5; not for fibre composites nor across printed layers.
/// Source: theory of elasticity, any textbook; published.
///
/// ```
/// use quantity::*;
/// let steel = physics::spring::shear_modulus(Pressure::from_si(206e9), Ratio::from_si(0.3));
/// assert!((steel.si() - 79.23e9).abs() < 5e6); // EN 13906-1 gives 79.5 to 81.5 GPa for spring steels
/// ```
#[must_use]
pub fn shear_modulus(modulus: Pressure, poisson: Ratio) -> Pressure {
    modulus / (2.0 * (1.0 + poisson.si()))
}

/// Spring index w = D / d.
///
/// Inputs: wire d (m); mean coil diameter D (m).
/// Returns: a plain number.
/// Valid for: any size.
/// Source: EN 13906-1:2013, published.
#[must_use]
pub fn index(wire: Length, mean_diameter: Length) -> Ratio {
    Ratio::from_si(mean_diameter.si() / wire.si())
}

/// Stress factor for curvature and direct shear by Wahl, (4w−1)/(4w−4) + 0.615/w.
///
/// Inputs: spring index w.
/// Returns: a plain number, 1 for a very wide spring.
/// Valid for: w above 1, meant for 3 to 20.
/// Source: Wahl, Mechanical Springs, 1963; Shigley eq. 10-5; published.
#[must_use]
pub fn wahl_factor(index: Ratio) -> Ratio {
    let w = index.si();
    Ratio::from_si((4.0 * w - 1.0) / (4.0 * w - 4.0) + 0.615 / w)
}

/// Stress factor by Bergsträsser, written (4w+2)/(4w−3), the same as EN 13906-1's (w+0.5)/(w−0.75).
///
/// Inputs: spring index w.
/// Returns: a plain number, 1 for a very wide spring.
/// Valid for: w above 0.75, meant for 3 to 20.
/// Source: EN 13906-1:2013 (factor k); Shigley eq. 10-6; published.
#[must_use]
pub fn bergstrasser_factor(index: Ratio) -> Ratio {
    let w = index.si();
    Ratio::from_si((4.0 * w + 2.0) / (4.0 * w - 3.0))
}

/// Highest shear stress in the wire, τ = K · 8·F·D / (π·d³).
///
/// Inputs: force F (N); wire d (m); mean coil diameter D (m); stress factor K: 1 for the plain torsion stress of slow
/// loading, [`bergstrasser_factor`] or [`wahl_factor`] where it is loaded often.
/// Returns: shear stress (Pa).
/// Valid for: elastic wire.
/// Source: EN 13906-1:2013; Shigley eq. 10-7; published.
#[must_use]
pub fn shear_stress(force: Force, wire: Length, mean_diameter: Length, factor: Ratio) -> Pressure {
    Pressure::from_si(factor.si() * 8.0 * force.si() * mean_diameter.si() / (PI * wire.si().powi(3)))
}

/// All coils of the wire, the dead ones at the ends included.
///
/// Inputs: active coils; how the ends are made.
/// Returns: a count, not always whole.
/// Valid for: the four usual ends.
/// Source: Shigley, table 10-1; published.
#[must_use]
pub fn total_coils(active_coils: Ratio, ends: Ends) -> Ratio {
    Ratio::from_si(
        active_coils.si()
            + match ends {
                Ends::Plain => 0.0,
                Ends::PlainGround => 1.0,
                Ends::Closed | Ends::ClosedGround => 2.0,
            },
    )
}

/// Length with all coils touching (block length).
///
/// Inputs: wire (m); active coils; how the ends are made.
/// Returns: length (m).
/// Valid for: wire at its nominal size. EN 13906-1 allows closed unground ends half a wire more.
/// Source: Shigley, table 10-1; published.
#[must_use]
pub fn solid_length(wire: Length, active_coils: Ratio, ends: Ends) -> Length {
    let total = total_coils(active_coils, ends).si();
    Length::from_si(
        wire.si()
            * match ends {
                Ends::Plain | Ends::Closed => total + 1.0,
                Ends::PlainGround | Ends::ClosedGround => total,
            },
    )
}

/// Smallest sum of the gaps between the active coils that must stay open at the shortest working length.
///
/// Inputs: wire d (m); mean coil diameter D (m); active coils n; how it was coiled; how it is used.
/// Returns: length (m) above the solid length: cold n·(0.0015·D²/d + 0.1·d), hot n·0.02·(D + d); when dynamic × 1.5 cold, × 2 hot.
/// Valid for: index 4 to 20; every term is a length, so it holds in any unit.
/// Source: EN 13906-1 (sum of minimum gaps). From memory; the cold form and both dynamic factors agree with what a
/// spring maker prints, the hot form has no second source.
#[must_use]
pub fn smallest_gap_sum(
    wire: Length,
    mean_diameter: Length,
    active_coils: Ratio,
    coiling: Coiling,
    duty: Duty,
) -> Length {
    let (d, big_d) = (wire.si(), mean_diameter.si());
    let (each, dynamic) = match coiling {
        Coiling::Cold => (0.0015 * big_d * big_d / d + 0.1 * d, 1.5),
        Coiling::Hot => (0.02 * (big_d + d), 2.0),
    };
    let duty = match duty {
        Duty::Static => 1.0,
        Duty::Dynamic => dynamic,
    };
    Length::from_si(active_coils.si() * each * duty)
}

/// Force when squeezed to a length; zero when longer than free.
///
/// Inputs: rate (N/m); free length (m); length it is held at (m).
/// Returns: force (N).
/// Valid for: lengths above the solid one; below it the real force has no limit and this one is too low.
/// Source: Hooke's law.
#[must_use]
pub fn force_at_length(rate: SpringRate, free_length: Length, length: Length) -> Force {
    Force::from_si(rate.si() * (free_length.si() - length.si()).max(0.0))
}

/// Length under a force, as after preload and sag.
///
/// Inputs: rate (N/m); free length (m); force (N).
/// Returns: length (m); below the solid length it says that the spring is solid.
/// Valid for: forces from zero up to the solid one.
/// Source: Hooke's law.
#[must_use]
pub fn length_under(rate: SpringRate, free_length: Length, force: Force) -> Length {
    Length::from_si(free_length.si() - force.si() / rate.si())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(x: f64) -> Length {
        Length::from_si(x * 1e-3)
    }
    fn n(x: f64) -> Ratio {
        Ratio::from_si(x)
    }

    #[test]
    fn a_wide_spring_needs_no_stress_factor() {
        assert!((wahl_factor(n(1e9)).si() - 1.0).abs() < 1e-8);
        assert!((bergstrasser_factor(n(1e9)).si() - 1.0).abs() < 1e-8);
    }

    #[test]
    fn the_two_spellings_of_bergstrasser_agree() {
        for w in [3.0, 5.5, 8.0, 20.0] {
            assert!((bergstrasser_factor(n(w)).si() - (w + 0.5) / (w - 0.75)).abs() < 1e-12);
        }
    }

    #[test]
    fn rate_agrees_with_the_twist_of_the_unrolled_wire() {
        // A wire of length π·D·n, twisted by F·D/2, turns by φ = T·L/(G·J); the end moves by φ·D/2.
        let (d, big_d, coils, g, force) = (3e-3, 24e-3, 7.5, 79.3e9, 100.0);
        let twist = force * big_d / 2.0 * (PI * big_d * coils) / (g * PI * f64::powi(d, 4) / 32.0);
        let by_energy = force / (twist * big_d / 2.0);
        let rate = rate(Length::from_si(d), Length::from_si(big_d), n(coils), Pressure::from_si(g)).si();
        assert!((rate / by_energy - 1.0).abs() < 1e-12);
    }

    #[test]
    fn gaps_by_hand_and_plausible() {
        // d 2, D 20, n 8: 8 · (0.0015·400/2 + 0.2) = 4.0 mm, half a millimetre a coil: a quarter of the wire.
        let gap = |coiling, duty| smallest_gap_sum(mm(2.0), mm(20.0), n(8.0), coiling, duty).si() * 1e3;
        assert!((gap(Coiling::Cold, Duty::Static) - 4.0).abs() < 1e-12);
        assert!((gap(Coiling::Cold, Duty::Dynamic) - 6.0).abs() < 1e-12);
        assert!((gap(Coiling::Hot, Duty::Static) - 3.52).abs() < 1e-12);
        assert!((gap(Coiling::Hot, Duty::Dynamic) - 7.04).abs() < 1e-12);
    }

    #[test]
    fn length_and_force_are_inverse_and_a_loose_spring_pushes_nothing() {
        let rate = SpringRate::from_si(7200.0);
        let length = length_under(rate, mm(70.0), Force::from_si(90.0));
        assert!((length.si() - 0.0575).abs() < 1e-12);
        assert!((force_at_length(rate, mm(70.0), length).si() - 90.0).abs() < 1e-9);
        assert_eq!(force_at_length(rate, mm(70.0), mm(75.0)).si(), 0.0);
    }
}
