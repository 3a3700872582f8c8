//! Heat of the mesh, and how warm teeth of polymer get.

use super::mesh::Mesh;
use crate::range::{OutsideRange, within};
use quantity::*;
use std::f64::consts::PI;

/// Loss factor of a mesh: the share of the power that is lost is µ times this.
///
/// Inputs: pair.
/// Returns: a plain number, HV = π·(1/z1 + 1/z2)/cosβb·(1 − εα + ε1² + ε2²).
/// Valid for: contact ratios of 1 to 2, one friction coefficient along the path, load shared evenly where two pairs carry.
/// Source: Ohlendorf; ISO/TR 14179-2 and VDI 2736-2:2014, published.
#[must_use]
pub fn loss_factor(mesh: &Mesh) -> Ratio {
    let (first, second) = mesh.tip_contacts();
    let shape = 1.0 - (first + second) + first * first + second * second;
    let teeth = 1.0 / mesh.pinion.z() + 1.0 / mesh.wheel.z();
    Ratio::from_si(PI * teeth / mesh.pinion.base_helix().cos() * shape)
}

/// What a tooth of polymer runs on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rubbing {
    OnMetal,
    OnPolymer,
}

impl Rubbing {
    /// Heat transfer constants of flank and root, in K·(m/s)^0.75·mm^1.75/W.
    fn constants(self) -> (f64, f64) {
        match self {
            Self::OnMetal => (6300.0, 895.0),
            Self::OnPolymer => (9000.0, 2148.0),
        }
    }
}

/// How a mesh runs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Running {
    /// Power through the mesh.
    pub power: Power,
    /// At the pitch circle.
    pub speed: Velocity,
    pub friction: Ratio,
    /// Share of ten minutes during which it runs.
    pub duty: Ratio,
}

/// How much warmer than the air round them flank and root of polymer teeth get, P·µ·HV·k/(b·z·(v·m)^0.75)·ED^0.64.
///
/// Inputs: pair; whether the gear is its wheel; face width b (m) of that gear; what it runs on; power P (W), speed v (m/s), friction
/// coefficient µ and duty ED.
/// Returns: flank, root (K).
/// Valid for: pitch speeds of 0.05 to 50 m/s, gears in air that is already as warm as given: the housing's own warming is left out.
/// Good to 20 to 30 K on printed gears, whose heat flows along the layers.
/// Source: VDI 2736-2:2014, published; its constants from memory (flank 6300 and 9000, root 895 and 2148). They are those of
/// VDI 2545, 895 times 7, 10, 1 and 2.4, as they were found by Hachmann and Strickle.
///
/// # Errors
/// Speeds beyond that range.
pub fn flank_and_root_warming(
    mesh: &Mesh,
    of_wheel: bool,
    face_width: Length,
    rubbing: Rubbing,
    running: Running,
) -> Result<(TemperatureInterval, TemperatureInterval), OutsideRange> {
    let speed = within("pitch speed of the gears", "m/s", 0.05, 50.0, running.speed.si().abs())?;
    let gear = if of_wheel { &mesh.wheel } else { &mesh.pinion };
    let lost = running.power.si().abs() * running.friction.si() * loss_factor(mesh).si();
    let spread = face_width.si() * 1e3 * gear.z() * (speed * gear.m() * 1e3).powf(0.75);
    let (flank, root) = rubbing.constants();
    let warming = lost / spread * running.duty.si().clamp(0.0, 1.0).powf(0.64);
    Ok((TemperatureInterval::from_si(warming * flank), TemperatureInterval::from_si(warming * root)))
}

#[cfg(test)]
mod tests {
    use super::super::body::Gear;
    use super::*;

    fn mesh(z1: f64, z2: f64) -> Mesh {
        let angle = |degrees: f64| Angle::from_si(degrees.to_radians());
        let gear = |z: f64| {
            let z = Ratio::from_si(z);
            Gear::new(z, Length::from_si(2e-3), angle(20.0), angle(0.0), Ratio::from_si(0.0), None).unwrap()
        };
        Mesh::new(gear(z1), gear(z2), Length::from_si(1e-3 * (z1 + z2))).unwrap()
    }

    /// Along the path of contact, step by step: sliding speed times the normal force, which two pairs share by halves.
    #[test]
    fn the_loss_factor_is_the_mean_of_sliding_over_the_path() {
        for (z1, z2) in [(17.0, 40.0), (20.0, 20.0), (12.0, 60.0)] {
            let pair = mesh(z1, z2);
            let (tip1, tip2) = pair.tip_contacts();
            let pitch = pair.pinion.base_pitch();
            let (steps, mut sum) = (200_000, 0.0);
            for step in 0..steps {
                // Every pair in contact while the pinion turns by one pitch; places count from the pitch point.
                let first = -tip2 + f64::from(step) / f64::from(steps);
                let places = (0..3).map(|pairs| first + f64::from(pairs)).filter(|place| *place <= tip1);
                let carrying = places.clone().count() as f64;
                sum += places.map(|place| place.abs() * pitch / carrying).sum::<f64>();
            }
            let turned = 2.0 / pair.pinion.base() + 2.0 / pair.wheel.base();
            let numerical = sum / f64::from(steps) * turned;
            assert!((loss_factor(&pair).si() / numerical - 1.0).abs() < 1e-4, "{z1} {z2}: {numerical}");
        }
    }

    #[test]
    fn by_hand() {
        // 100 W, µ 0.2, 20 mm, 40 teeth, 4 m/s, m = 2 mm: lost = 20·HV; spread = 20·40·8^0.75 = 3805.5.
        let pair = mesh(17.0, 40.0);
        let warming = |rubbing, duty: f64| {
            let running = Running {
                power: Power::from_si(100.0),
                speed: Velocity::from_si(4.0),
                friction: Ratio::from_si(0.2),
                duty: Ratio::from_si(duty),
            };
            let found = flank_and_root_warming(&pair, true, Length::from_si(0.02), rubbing, running);
            found.map(|(flank, root)| (flank.si(), root.si())).unwrap()
        };
        let per = 20.0 * loss_factor(&pair).si() / 3805.46;
        let (flank, root) = warming(Rubbing::OnMetal, 1.0);
        assert!((flank - 6300.0 * per).abs() < 1e-3 && (root - 895.0 * per).abs() < 1e-3, "{flank} {root}");
        assert!(warming(Rubbing::OnPolymer, 1.0).0 > flank && warming(Rubbing::OnMetal, 0.5).0 < flank);
        assert_eq!(warming(Rubbing::OnMetal, 0.0), (0.0, 0.0));
    }

    #[test]
    fn standing_gears_are_refused() {
        let one = Ratio::from_si(1.0);
        let still = Running { power: Power::from_si(1.0), speed: Velocity::from_si(0.0), friction: one, duty: one };
        let width = Length::from_si(0.02);
        assert!(flank_and_root_warming(&mesh(17.0, 40.0), false, width, Rubbing::OnMetal, still).is_err());
    }
}
