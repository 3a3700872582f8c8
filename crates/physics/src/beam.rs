//! Straight beams and shafts by the handbook: moment, shear, deflection, twist, buckling.

pub mod stations;

use crate::range::{OutsideRange, within};
use quantity::*;
use std::f64::consts::PI;

/// How a beam is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Support {
    /// On two supports that let it turn.
    Simple,
    /// Clamped at one end, free at the other.
    Cantilever,
    /// Clamped at both ends.
    Fixed,
}

/// What bends it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Load {
    /// One force, at a distance from the left support or from the clamp.
    At { force: Force, from_support: Length },
    /// A whole force spread evenly over the length.
    Spread { force: Force },
}

impl Load {
    /// One force in the middle of a beam.
    #[must_use]
    pub fn middle(force: Force, length: Length) -> Self {
        Self::At { force, from_support: length / 2.0 }
    }
}

/// The greatest values along the beam, all as magnitudes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bent {
    pub moment: Torque,
    pub shear: Force,
    pub deflection: Length,
    /// Under the force itself; the greatest one where the load is spread.
    pub deflection_at_load: Length,
}

/// Greatest moment, shear and deflection of a straight beam.
///
/// Inputs: support; load; length (m), between supports or from the clamp; bending stiffness E·I (N·m²).
/// Returns: N·m, N, m, m.
/// Valid for: slender beams (length over ten heights; shorter ones bend more by shear), deflection under a tenth of the length.
/// Source: Shigley, table A-9; Roark, ch. 8, table 8.1; published.
///
/// # Errors
/// A force that stands beyond the end of the beam.
pub fn bend(support: Support, load: Load, length: Length, stiffness: BendingStiffness) -> Result<Bent, OutsideRange> {
    let (l, ei) = (length.si(), stiffness.si());
    let (moment, shear, deflection, at_load) = match load {
        Load::At { force, from_support } => {
            let a = within("distance of the force from the support", "m", 0.0, l, from_support.si())?;
            point(support, force.si(), a, l, ei)
        }
        Load::Spread { force } => {
            let f = force.si();
            let (m, v, y) = match support {
                Support::Simple => (8.0, 0.5, 5.0 / 384.0),
                Support::Cantilever => (2.0, 1.0, 1.0 / 8.0),
                Support::Fixed => (12.0, 0.5, 1.0 / 384.0),
            };
            let y = y * f * l.powi(3) / ei;
            (f * l / m, v * f, y, y)
        }
    };
    Ok(Bent {
        moment: Torque::from_si(moment),
        shear: Force::from_si(shear),
        deflection: Length::from_si(deflection),
        deflection_at_load: Length::from_si(at_load),
    })
}

/// Moment, shear, greatest deflection and that under the force.
fn point(support: Support, f: f64, a: f64, l: f64, ei: f64) -> (f64, f64, f64, f64) {
    let b = l - a;
    let (short, long) = (a.min(b), a.max(b));
    match support {
        Support::Simple => (
            f * a * b / l,
            f * long / l,
            f * short * (l * l - short * short).max(0.0).powf(1.5) / (9.0 * 3f64.sqrt() * ei * l),
            f * a * a * b * b / (3.0 * ei * l),
        ),
        Support::Cantilever => (f * a, f, f * a * a * (3.0 * l - a) / (6.0 * ei), f * a.powi(3) / (3.0 * ei)),
        Support::Fixed => (
            f * long * long * short / (l * l),
            f * long * long * (3.0 * short + long) / l.powi(3),
            2.0 * f * long.powi(3) * short * short / (3.0 * ei * (3.0 * long + short).powi(2)),
            f * (a * b).powi(3) / (3.0 * ei * l.powi(3)),
        ),
    }
}

/// Axial load at which a straight strut buckles, F = π²·E·I / (K·L)².
///
/// Inputs: bending stiffness about the weaker axis (N·m²); length L (m); length factor K: 1 hinged ends, 0.5 clamped, 2 clamped and free.
/// Returns: force (N).
/// Valid for: slender struts; a short one is crushed first.
/// Source: Euler; textbook.
#[must_use]
pub fn buckling_load(stiffness: BendingStiffness, length: Length, length_factor: Ratio) -> Force {
    Force::from_si(stiffness.si() * (PI / (length_factor.si() * length.si())).powi(2))
}

/// Second moment of a round shaft or tube against twisting, J = π·(D⁴ − d⁴)/32.
///
/// Inputs: outer diameter D and bore d (m), zero for a solid one.
/// Returns: m⁴.
/// Valid for: round sections only.
/// Source: textbook.
#[must_use]
pub fn polar_moment(outer: Length, bore: Length) -> SecondMomentOfArea {
    SecondMomentOfArea::from_si(PI / 32.0 * (outer.si().powi(4) - bore.si().powi(4)))
}

/// Bending stress at the surface of a shaft, σ = M·D / (2·I).
///
/// Inputs: moment M (N·m); outer diameter and bore (m).
/// Returns: stress (Pa), without notch.
/// Valid for: round shafts.
/// Source: Shigley, ch. 3; published.
#[must_use]
pub fn shaft_bending(moment: Torque, outer: Length, bore: Length) -> Pressure {
    Pressure::from_si(moment.si() * outer.si() / polar_moment(outer, bore).si())
}

/// Shear stress at the surface of a twisted shaft, τ = T·D / (2·J).
///
/// Inputs: torque T (N·m); outer diameter and bore (m).
/// Returns: stress (Pa), without notch.
/// Valid for: round shafts.
/// Source: Shigley, ch. 3; published.
#[must_use]
pub fn shaft_shear(torque: Torque, outer: Length, bore: Length) -> Pressure {
    Pressure::from_si(torque.si() * outer.si() / (2.0 * polar_moment(outer, bore).si()))
}

/// Equivalent stress of bending and torsion together, √(σ² + 3·τ²) (von Mises).
///
/// Inputs: normal stress σ (Pa); shear stress τ (Pa).
/// Returns: stress (Pa) to compare with yield.
/// Valid for: metals; not for fibre composites or across printed layers.
/// Source: von Mises; Shigley, ch. 5; published.
#[must_use]
pub fn von_mises(normal: Pressure, shear: Pressure) -> Pressure {
    Pressure::from_si((normal.si().powi(2) + 3.0 * shear.si().powi(2)).sqrt())
}

/// Twist of a shaft over its length, φ = T·L / (G·J).
///
/// Inputs: torque T (N·m); length L (m); shear modulus G (Pa); outer diameter and bore (m).
/// Returns: angle (rad).
/// Valid for: round shafts, elastic.
/// Source: Shigley, ch. 3; published.
#[must_use]
pub fn twist(torque: Torque, length: Length, shear_modulus: Pressure, outer: Length, bore: Length) -> Angle {
    Angle::from_si(torque.si() * length.si() / (shear_modulus.si() * polar_moment(outer, bore).si()))
}

#[cfg(test)]
mod tests {
    use super::*;

    const L: f64 = 0.8;
    const EI: f64 = 120.0;

    fn bent(support: Support, load: Load) -> Bent {
        bend(support, load, Length::from_si(L), BendingStiffness::from_si(EI)).unwrap()
    }
    fn at(a: f64) -> Load {
        Load::At { force: Force::from_si(50.0), from_support: Length::from_si(a) }
    }

    /// Greatest deflection by putting a row of small forces on the beam and adding up under the middle or tip
    /// (reciprocity: what a force at x does to the end is what a force at the end does at x).
    #[test]
    fn a_spread_load_is_the_sum_of_small_ones() {
        let n = 2000;
        for support in [Support::Simple, Support::Cantilever, Support::Fixed] {
            let sum: f64 = (0..n)
                .map(|i| {
                    let x = L * (f64::from(i) + 0.5) / f64::from(n);
                    let probe = if support == Support::Cantilever { L } else { L / 2.0 };
                    // Shape of the beam under a force at the probe, read at x ≤ probe (mirrored beyond it).
                    let x = if x > probe { L - x } else { x };
                    let each = 50.0 / f64::from(n) / EI;
                    each * match support {
                        Support::Simple => x * (3.0 * L * L - 4.0 * x * x) / 48.0,
                        Support::Cantilever => x * x * (3.0 * L - x) / 6.0,
                        Support::Fixed => x * x * (3.0 * L - 4.0 * x) / 48.0,
                    }
                })
                .sum();
            let spread = bent(support, Load::Spread { force: Force::from_si(50.0) });
            assert!((sum / spread.deflection.si() - 1.0).abs() < 1e-5, "{support:?}");
        }
    }

    #[test]
    fn clamped_ends_make_a_middle_load_four_times_stiffer() {
        let middle = Load::middle(Force::from_si(50.0), Length::from_si(L));
        let (simple, fixed) = (bent(Support::Simple, middle), bent(Support::Fixed, middle));
        assert!((simple.deflection.si() / fixed.deflection.si() - 4.0).abs() < 1e-9);
        assert!((simple.moment.si() / fixed.moment.si() - 2.0).abs() < 1e-9);
        assert!((fixed.deflection.si() / fixed.deflection_at_load.si() - 1.0).abs() < 1e-12);
        assert!((fixed.shear.si() - 25.0).abs() < 1e-9 && (simple.shear.si() - 25.0).abs() < 1e-9);
    }

    #[test]
    fn mirrored_loads_bend_alike_and_one_on_a_support_does_not_bend() {
        for support in [Support::Simple, Support::Fixed] {
            let (left, right) = (bent(support, at(0.2)), bent(support, at(0.6)));
            assert!((left.moment.si() - right.moment.si()).abs() < 1e-9);
            assert!((left.deflection.si() / right.deflection.si() - 1.0).abs() < 1e-9);
            assert!(left.deflection >= left.deflection_at_load);
            assert_eq!(bent(support, at(0.0)).moment.si(), 0.0);
            assert!((bent(support, at(0.0)).shear.si() - 50.0).abs() < 1e-9);
        }
        assert!(bend(Support::Simple, at(0.9), Length::from_si(L), BendingStiffness::from_si(EI)).is_err());
    }

    #[test]
    fn euler_by_hand() {
        let f = |k| buckling_load(BendingStiffness::from_si(1.0), Length::from_si(1.0), Ratio::from_si(k)).si();
        assert!((f(1.0) - PI * PI).abs() < 1e-12);
        assert!((f(0.5) / f(2.0) - 16.0).abs() < 1e-9);
    }
}
