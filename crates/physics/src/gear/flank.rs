//! Pressure between the flanks of a pair.

use super::mesh::Mesh;
use quantity::*;
use std::f64::consts::PI;

/// Stiffness of one flank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Elastic {
    pub modulus: Pressure,
    pub poisson: Ratio,
}

/// What presses the flanks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlankLoad {
    /// Tangential, at the pinion's reference circle, with all load factors.
    pub force: Force,
    /// Common to both gears.
    pub face_width: Length,
}

/// Hertzian pressure of the pinion's flank, ZB·ZH·ZE·Zε·Zβ·√(F/(d1·b)·(u + 1)/u).
///
/// Inputs: pair; load; stiffness of both flanks.
/// Returns: pressure (Pa), at the worse of pitch point and inner point of single contact.
/// Valid for: external gears with contact ratios of 1 to 2.
/// Source: ISO 6336-2:2006, published (from memory; at the pitch point checked against two rollers by Hertz).
#[must_use]
pub fn flank_pressure(mesh: &Mesh, load: FlankLoad, flanks: [Elastic; 2]) -> Pressure {
    let pinion = &mesh.pinion;
    let (transverse, working) = (pinion.transverse(), mesh.working_angle().si());
    let zone = (2.0 * pinion.base_helix().cos() * working.cos() / (transverse.cos().powi(2) * working.sin())).sqrt();
    let give = |flank: Elastic| (1.0 - flank.poisson.si().powi(2)) / flank.modulus.si();
    let [first, second] = flanks;
    let elastic = (1.0 / (PI * (give(first) + give(second)))).sqrt();
    let contact = mesh.contact_ratio().si().clamp(1.0, 2.0);
    let overlap = mesh.overlap_ratio(load.face_width).si().min(1.0);
    let shared = ((4.0 - contact) / 3.0 * (1.0 - overlap) + overlap / contact).sqrt();
    let helix = 1.0 / pinion.beta().cos().sqrt();
    let ratio = mesh.ratio().si();
    let line = load.force.si() / (pinion.reference() * load.face_width.si()) * (ratio + 1.0) / ratio;
    // Where one pair alone begins to carry the flanks are sharper; a helix spreads that.
    let inner = 1.0 + (inner_single(mesh, contact).max(1.0) - 1.0) * (1.0 - overlap);
    Pressure::from_si(inner * zone * elastic * shared * helix * line.sqrt())
}

/// How many times the load makes a pressure out of another one, (p/p₀)²: Hertzian line contact.
///
/// Inputs: pressure p (Pa) to reach; pressure p₀ (Pa) at the load.
/// Returns: a plain number.
/// Valid for: line contact.
/// Source: Hertz; ISO 6336-2, published.
#[must_use]
pub fn load_for_pressure(reach: Pressure, at_load: Pressure) -> Ratio {
    Ratio::from_si((reach.si() / at_load.si()).powi(2))
}

/// Pressure at the inner point of single contact of the pinion over that at the pitch point.
fn inner_single(mesh: &Mesh, contact: f64) -> f64 {
    let (pinion, wheel) = (&mesh.pinion, &mesh.wheel);
    let to_tip = |tip: f64, base: f64| ((tip / base).powi(2) - 1.0).max(0.0).sqrt();
    let first = to_tip(pinion.tip(), pinion.base()) - 2.0 * PI / pinion.z();
    let second = to_tip(wheel.tip(), wheel.base()) - (contact - 1.0) * 2.0 * PI / wheel.z();
    let product = first * second;
    if product > 0.0 { mesh.working_angle().si().tan() / product.sqrt() } else { 1.0 }
}

#[cfg(test)]
mod tests {
    use super::super::body::Gear;
    use super::*;

    fn steel() -> Elastic {
        Elastic { modulus: Pressure::from_si(206e9), poisson: Ratio::from_si(0.3) }
    }

    fn mesh(teeth: f64) -> Mesh {
        let angle = |degrees: f64| Angle::from_si(degrees.to_radians());
        let gear = |z: f64| {
            let z = Ratio::from_si(z);
            Gear::new(z, Length::from_si(2e-3), angle(20.0), angle(0.0), Ratio::from_si(0.0), None).unwrap()
        };
        Mesh::new(gear(teeth), gear(2.0 * teeth), Length::from_si(3e-3 * teeth)).unwrap()
    }

    #[test]
    fn at_the_pitch_point_it_is_two_rollers_pressed_together() {
        // Hertz: p² = F'/(2π·(1 − ν²)/E·…)·(1/R1 + 1/R2), with the flanks' radii d/2·sin α.
        let (pair, force, width) = (mesh(30.0), 500.0, 0.02);
        let load = FlankLoad { force: Force::from_si(force), face_width: Length::from_si(width) };
        let (sin, cos) = 20f64.to_radians().sin_cos();
        let (r1, r2) = (0.03 * sin, 0.06 * sin);
        let line = force / cos / width;
        let reduced = 1.0 / (2.0 * (1.0 - 0.09) / 206e9);
        let rollers = (line * (1.0 / r1 + 1.0 / r2) * reduced / PI).sqrt();
        let contact = pair.contact_ratio().si();
        let shared = ((4.0 - contact) / 3.0).sqrt();
        let inner = inner_single(&pair, contact).max(1.0);
        let ours = flank_pressure(&pair, load, [steel(), steel()]).si() / (shared * inner);
        assert!((ours / rollers - 1.0).abs() < 1e-12, "{ours} {rollers}");
    }

    #[test]
    fn small_pinions_are_sharper_inside_and_pressure_grows_with_the_root_of_the_load() {
        assert!(inner_single(&mesh(17.0), 1.6) > inner_single(&mesh(40.0), 1.6));
        let at = |force: f64| {
            let load = FlankLoad { force: Force::from_si(force), face_width: Length::from_si(0.02) };
            flank_pressure(&mesh(20.0), load, [steel(), steel()]).si()
        };
        assert!((at(400.0) / at(100.0) - 2.0).abs() < 1e-12);
        let back = load_for_pressure(Pressure::from_si(at(400.0)), Pressure::from_si(at(100.0)));
        assert!((back.si() - 4.0).abs() < 1e-12);
    }
}
