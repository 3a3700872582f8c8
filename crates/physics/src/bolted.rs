//! Screwed joints: what a screw pulls with, what friction carries, and what a thread in plastic holds.

use quantity::*;
use std::f64::consts::PI;

/// Diameter of a metric thread less that of its core, over its pitch (ISO 724, 17/24·√3).
pub const CORE_DEPTH: f64 = 1.226_869;

/// Face under the head of a socket-head screw, π/4·((1.5·d + 1 mm)² − (1.1·d)²).
///
/// Inputs: thread diameter d (m).
/// Returns: area (m²).
/// Valid for: M3 to M8 over a hole of 1.1 diameters; a washer makes it larger.
/// Source: ISO 4762 (heads of 5.5, 7, 8.5, 10 and 13 mm), ISO 273; published, from memory.
#[must_use]
pub fn head_face(diameter: Length) -> Area {
    let d = diameter.si();
    Area::from_si(PI / 4.0 * ((1.5 * d + 1e-3).powi(2) - (1.1 * d).powi(2)))
}

/// A metric screw as far as tightening it needs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Screw {
    pub diameter: Length,
    pub pitch: Length,
    /// Mean diameter on which its head rubs.
    pub head_mean: Length,
}

impl Screw {
    /// d − 0.6495·P.
    fn pitch_diameter(&self) -> f64 {
        self.diameter.si() - 0.649_519 * self.pitch.si()
    }
    /// d − 1.2269·P.
    fn core(&self) -> f64 {
        self.diameter.si() - CORE_DEPTH * self.pitch.si()
    }
}

/// Pull of a screw from the torque that tightens it, M / (0.159·P + 0.577·d2·µG + DKm/2·µK).
///
/// Inputs: screw; torque M (N·m); friction of the thread µG and of the head µK.
/// Returns: force (N).
/// Valid for: metric threads of 60 °. By hand and torque wrench it scatters by a quarter either way.
/// Source: VDI 2230-1, eq. R13/1; published, from memory.
#[must_use]
pub fn preload(screw: &Screw, torque: Torque, thread: Ratio, head: Ratio) -> Force {
    let arm = screw.pitch.si() / (2.0 * PI)
        + screw.pitch_diameter() * thread.si() / (2.0 * (PI / 6.0).cos())
        + screw.head_mean.si() / 2.0 * head.si();
    Force::from_si(torque.si() / arm)
}

/// Stress in a screw while it is tightened, its twist counted in: √(σ² + 3·(k·τ)²) with k = 1 tightening, 0.5 in service.
///
/// Inputs: screw; pull (N); friction of the thread; whether it is still being tightened.
/// Returns: stress (Pa), to compare with the 0.2 % proof stress.
/// Valid for: metric threads of 60 °.
/// Source: VDI 2230-1, R7 and R8; published, from memory.
#[must_use]
pub fn screw_stress(screw: &Screw, pull: Force, thread: Ratio, tightening: bool) -> Pressure {
    let mean = (screw.pitch_diameter() + screw.core()) / 2.0;
    let area = PI / 4.0 * mean * mean;
    let twist =
        pull.si() * (screw.pitch.si() / (2.0 * PI) + screw.pitch_diameter() * thread.si() / (2.0 * (PI / 6.0).cos()));
    let (normal, shear) = (pull.si() / area, twist * 16.0 / (PI * mean.powi(3)));
    let counts = if tightening { 1.0 } else { 0.5 };
    Pressure::from_si(normal.hypot(3f64.sqrt() * counts * shear))
}

/// Share of a working load that the screw has to carry on top of its preload, Φ = δP/(δS + δP).
///
/// Inputs: give of the screw and of the parts under load (m/N).
/// Returns: share.
/// Valid for: the load comes in under the head; further down it is less.
/// Source: VDI 2230-1, R3; published, from memory.
#[must_use]
pub fn load_share(screw_gives: f64, parts_give: f64) -> Ratio {
    Ratio::from_si(parts_give / (screw_gives + parts_give))
}

/// Force across its screws at which a joint slips, µ·n·F·faces.
///
/// Inputs: pull of one screw (N), after it has settled; number of screws; friction between the parts; number of faces that rub.
/// Returns: force (N).
/// Valid for: screws evenly tightened, holes with clearance; beyond it the screws are sheared and their holes worn.
/// Source: VDI 2230-1, R2/1 (friction grip); published.
#[must_use]
pub fn slips_at(pull: Force, screws: Ratio, friction: Ratio, faces: Ratio) -> Force {
    pull * (screws.si() * friction.si() * faces.si())
}

/// Torque in its plane at which a joint slips on a ring of screws, µ·n·F·r.
///
/// Inputs: pull of one screw (N); number; friction; mean distance of the screws from the middle of the pattern (m).
/// Returns: torque (N·m).
/// Valid for: screws at about one distance.
/// Source: VDI 2230-1 (friction grip); published.
#[must_use]
pub fn turns_at(pull: Force, screws: Ratio, friction: Ratio, arm: Length) -> Torque {
    Torque::from_si(slips_at(pull, screws, friction, Ratio::from_si(1.0)).si() * arm.si())
}

/// Pull at which a thread or a knurled insert is torn out of what is round it, π·d·l·τ times the share of the wall that shears.
///
/// Inputs: outer diameter of thread or insert (m); engaged length (m); shear strength of what is round it (Pa); share that shears:
/// half for a thread cut in plastic, seven tenths for a heat-set insert with a knurl.
/// Returns: force (N).
/// Valid for: walls at least as thick round it as the insert's radius; shares: common practice, no source.
/// Source: shear of a cylinder, textbook.
#[must_use]
pub fn tears_out(outer: Length, length: Length, shear: Pressure, share: Ratio) -> Force {
    Force::from_si(PI * outer.si() * length.si() * shear.si() * share.si())
}

/// Torque at which an insert turns in its hole, π/2·d²·l·τ times the share that shears.
///
/// Inputs: as [`tears_out`].
/// Returns: torque (N·m).
/// Source: shear of a cylinder, textbook.
#[must_use]
pub fn turns_out(outer: Length, length: Length, shear: Pressure, share: Ratio) -> Torque {
    let d = outer.si();
    Torque::from_si(PI / 2.0 * d * d * length.si() * shear.si() * share.si())
}

/// Change of a screw's pull when the parts that it clamps grow otherwise than it does, ΔF = (αP·lP − αS·lS)·ΔT/(δS + δP).
///
/// Inputs: clamped length (m), the same for both; expansion of parts and of the screw (1/K); warmer by (K); give of both (m/N).
/// Returns: force (N), positive where the pull rises.
/// Valid for: elastic, one temperature.
/// Source: VDI 2230-1, ΔF'Vth; published, from memory.
#[must_use]
pub fn warmed(
    clamped: Length,
    parts: TemperatureCoefficient,
    screw: TemperatureCoefficient,
    warmer_by: TemperatureInterval,
    gives: f64,
) -> Force {
    Force::from_si((parts.si() - screw.si()) * clamped.si() * warmer_by.si() / gives)
}

/// Give of a shank under pull, l/(E·A), head and engaged thread counted as 0.8 diameters more.
///
/// Inputs: diameter and clamped length (m); modulus (Pa).
/// Returns: m/N.
/// Source: VDI 2230-1, 5.1 (0.4·d for each of head and nut thread); published, from memory.
#[must_use]
pub fn shank_gives(diameter: Length, clamped: Length, modulus: Pressure) -> f64 {
    let d = diameter.si();
    (clamped.si() + 0.8 * d) / (modulus.si() * PI / 4.0 * d * d)
}

/// Give of what a screw clamps, as a tube from head diameter to hole.
///
/// Inputs: head and hole diameter (m); clamped length (m); modulus (Pa).
/// Returns: m/N.
/// Valid for: sleeves and stacks hardly wider than the head; a wide plate gives less (the cone of pressure), so that this errs to
/// the soft side.
/// Source: textbook.
#[must_use]
pub fn sleeve_gives(head: Length, hole: Length, clamped: Length, modulus: Pressure) -> f64 {
    clamped.si() / (modulus.si() * PI / 4.0 * (head.si().powi(2) - hole.si().powi(2)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn m8() -> Screw {
        Screw {
            diameter: Length::from_si(8e-3),
            pitch: Length::from_si(1.25e-3),
            head_mean: Length::from_si((13.0 + 9.0) / 2.0 * 1e-3),
        }
    }

    #[test]
    fn torque_and_pull_agree_with_the_rule_of_thumb() {
        // 25 N·m on a dry M8: M = K·F·d with K of about 0.2.
        let pull = preload(&m8(), Torque::from_si(25.0), Ratio::from_si(0.14), Ratio::from_si(0.14));
        let k = 25.0 / (pull.si() * 8e-3);
        assert!((0.15..0.22).contains(&k), "{k}");
        // Without friction a turn lifts by the pitch.
        let free = preload(&m8(), Torque::from_si(1.0), Ratio::ZERO, Ratio::ZERO);
        assert!((free.si() * 1.25e-3 - 2.0 * PI).abs() < 1e-9);
    }

    #[test]
    fn without_thread_friction_a_screw_hardly_twists() {
        let pull = Force::from_si(10_000.0);
        let pure = 10_000.0 / (PI / 4.0 * ((m8().pitch_diameter() + m8().core()) / 2.0).powi(2));
        let ours = screw_stress(&m8(), pull, Ratio::ZERO, true).si();
        assert!(ours > pure && ours < 1.1 * pure);
        assert!(
            screw_stress(&m8(), pull, Ratio::from_si(0.14), false).si()
                < screw_stress(&m8(), pull, Ratio::from_si(0.14), true).si()
        );
    }

    #[test]
    fn a_soft_stack_under_a_stiff_screw_hands_on_all() {
        assert!((load_share(1.0, 1e9).si() - 1.0).abs() < 1e-8);
        assert!(load_share(1.0, 1e-9).si() < 1e-8);
        let cold = warmed(
            Length::from_si(0.02),
            TemperatureCoefficient::from_si(70e-6),
            TemperatureCoefficient::from_si(16e-6),
            TemperatureInterval::from_si(-50.0),
            1e-8,
        );
        assert!((cold.si() + 54e-6 * 0.02 * 50.0 / 1e-8).abs() < 1e-6);
    }

    #[test]
    fn heads_as_the_standard_has_them() {
        for (d, head) in [(3.0, 5.5), (4.0, 7.0), (5.0, 8.5), (6.0, 10.0), (8.0, 13.0)] {
            let face = PI / 4.0 * (head * head - 1.21 * d * d) * 1e-6;
            assert!((head_face(Length::from_si(d * 1e-3)).si() / face - 1.0).abs() < 1e-9, "M{d}");
        }
    }

    #[test]
    fn gives_by_hand() {
        let shank = shank_gives(Length::from_si(8e-3), Length::from_si(20e-3), Pressure::from_si(206e9));
        assert!((shank / (26.4e-3 / (206e9 * PI / 4.0 * 64e-6)) - 1.0).abs() < 1e-12);
        let sleeve =
            sleeve_gives(Length::from_si(13e-3), Length::from_si(9e-3), Length::from_si(20e-3), Pressure::from_si(3e9));
        assert!((sleeve / (20e-3 / (3e9 * PI / 4.0 * 88e-6)) - 1.0).abs() < 1e-12);
        let torn =
            tears_out(Length::from_si(5e-3), Length::from_si(6e-3), Pressure::from_si(25e6), Ratio::from_si(1.0));
        assert!((torn.si() - PI * 30e-6 * 25e6).abs() < 1e-6);
        let turned =
            turns_out(Length::from_si(5e-3), Length::from_si(6e-3), Pressure::from_si(25e6), Ratio::from_si(1.0));
        assert!((turned.si() - torn.si() * 2.5e-3).abs() < 1e-9);
        let arm = turns_at(Force::from_si(1000.0), Ratio::from_si(4.0), Ratio::from_si(0.2), Length::from_si(0.025));
        assert!((arm.si() - 20.0).abs() < 1e-12);
    }
}
