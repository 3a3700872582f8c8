//! The tooth as a short beam: form of its root, stress in it, rim under it.

use super::body::Gear;
use super::mesh::Mesh;
use crate::range::{OutsideRange, within};
use quantity::*;
use std::f64::consts::{FRAC_PI_2, FRAC_PI_6, PI};

/// Foot of the rack that makes the tooth, in modules.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rack {
    pub dedendum: Ratio,
    /// Radius at its tip, which rolls off as the fillet of the tooth.
    pub tip_radius: Ratio,
}

impl Rack {
    /// The rack of ISO 53, type A, with another tip radius (0.38 in the standard).
    #[must_use]
    pub fn standard(tip_radius: Ratio) -> Self {
        Self { dedendum: Ratio::from_si(1.25), tip_radius }
    }
}

/// Where the tooth is pressed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LoadAt {
    /// VDI 2736-2, and ISO 6336-3 in its simpler method: right at the tip.
    Tip,
    /// ISO 6336-3, method B: at the outer point of single contact, for a transverse contact ratio.
    OuterSingle(Ratio),
}

/// Form of a tooth at the section where a line of 30° touches its fillet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Root {
    /// Form factor YF (YFa at the tip).
    pub form: Ratio,
    /// Stress correction factor YS (YSa at the tip).
    pub notch: Ratio,
    /// Thickness of the tooth at that section.
    pub chord: Length,
    /// Radius of the fillet there.
    pub fillet: Length,
    /// Lever arm of the load.
    pub arm: Length,
}

/// Fillet points of the normal section, in modules, by the angle between their tangent and the middle of the tooth.
struct Fillet {
    teeth: f64,
    radius: f64,
    /// Twice the lateral place of the centre of the rack's tip radius, as an angle on the gear.
    offset: f64,
    /// Depth of that centre under the rolling line.
    depth: f64,
}

impl Fillet {
    fn new(gear: &Gear, rack: &Rack) -> Self {
        let (dedendum, radius) = (rack.dedendum.si(), rack.tip_radius.si());
        let (sin, cos) = gear.alpha().sin_cos();
        let lateral = PI / 4.0 - dedendum * gear.alpha().tan() - (1.0 - sin) * radius / cos;
        let teeth = gear.virtual_z();
        Self { teeth, radius, offset: 2.0 / teeth * (FRAC_PI_2 - lateral), depth: radius - dedendum + gear.x() }
    }

    /// Auxiliary angle of the point with a tangent of `slope`: θ = 2·G/zn·tan θ − H.
    fn turned(&self, slope: f64) -> f64 {
        let aim = self.offset - (FRAC_PI_2 - slope);
        let mut angle = FRAC_PI_6;
        for _ in 0..200 {
            angle = 2.0 * self.depth / self.teeth * angle.tan() - aim;
        }
        angle
    }

    /// Thickness of the tooth at the point, how far out it lies, and the radius of curvature there.
    fn at(&self, slope: f64) -> (f64, f64, f64) {
        let angle = self.turned(slope);
        let beyond = self.depth / angle.cos() - self.radius;
        let turn = FRAC_PI_2 - slope - angle;
        let thick = self.teeth * turn.sin() + 2.0 * slope.cos() * beyond;
        let out = 0.5 * (self.teeth * turn.cos() + 2.0 * slope.sin() * beyond);
        let roll = self.teeth * angle.cos().powi(2) - 2.0 * self.depth;
        (thick, out, self.radius + 2.0 * self.depth.powi(2) / (angle.cos() * roll))
    }
}

/// The load on the tooth: how far out its line meets the middle of the tooth, and its angle there.
fn load(gear: &Gear, at: LoadAt) -> (f64, f64) {
    let (teeth, alpha) = (gear.virtual_z(), gear.alpha());
    let base = teeth * alpha.cos();
    let tip = teeth + (gear.tip() - gear.reference()) / gear.m();
    let diameter = match at {
        LoadAt::Tip => tip,
        LoadAt::OuterSingle(ratio) => {
            let normal = ratio.si() / gear.base_helix().cos().powi(2);
            let to_tip = 0.5 * (tip * tip - base * base).max(0.0).sqrt();
            let along = to_tip - PI * alpha.cos() * (normal - 1.0).max(0.0);
            2.0 * (along.powi(2) + 0.25 * base * base).sqrt()
        }
    };
    let inv = |angle: f64| super::involute(Angle::from_si(angle)).si();
    let pressed = (base / diameter).min(1.0).acos();
    let half = (FRAC_PI_2 + 2.0 * gear.x() * alpha.tan()) / teeth + inv(alpha) - inv(pressed);
    let angle = pressed - half;
    (0.5 * (half.cos() - half.sin() * angle.tan()) * diameter, angle)
}

/// Form and stress correction factor of a tooth root.
///
/// Inputs: gear; rack; where the load acts.
/// Returns: factors and the section that they stand for.
/// Valid for: external gears; notch parameter sFn/(2·ρF) of 1 to 8; teeth that are not undercut deep enough to reach that section.
/// Source: ISO 6336-3:2006, clauses 6 and 7, equations of YF and YS, published (from memory; the points of the fillet agree with a
/// rolled-off rack and with the Lewis table). VDI 2736-2:2014 takes the same factors at the tip.
///
/// # Errors
/// Beyond that range.
pub fn root_form(gear: &Gear, rack: &Rack, at: LoadAt) -> Result<Root, OutsideRange> {
    let (thick, out, fillet) = Fillet::new(gear, rack).at(FRAC_PI_6);
    let thick = within("thickness of the tooth at its root", "modules", 0.2, 5.0, thick)?;
    let (reach, angle) = load(gear, at);
    let arm = within("lever arm of the tooth", "modules", 0.1, 5.0, reach - out)?;
    let notch = within("sharpness of the tooth's fillet", "", 1.0, 8.0, thick / (2.0 * fillet))?;
    let slender = thick / arm;
    let form = 6.0 * arm * angle.cos() / (thick * thick * gear.alpha().cos());
    let raised = (1.2 + 0.13 * slender) * notch.powf(1.0 / (1.21 + 2.3 / slender));
    let length = |modules: f64| Length::from_si(modules * gear.m());
    Ok(Root {
        form: Ratio::from_si(form),
        notch: Ratio::from_si(raised),
        chord: length(thick),
        fillet: length(fillet),
        arm: length(arm),
    })
}

/// Lewis form factor Y of the actual tooth, loaded at its tip: the strongest parabola that fits into it touches its fillet.
///
/// Inputs: gear; rack.
/// Returns: a plain number for σ = F/(b·m·Y).
/// Valid for: the tangential part of the load alone, no notch, one tooth that carries all: for screening.
/// Source: Lewis, 1892; Shigley, ch. 14, published.
#[must_use]
pub fn lewis_form(gear: &Gear, rack: &Rack) -> Ratio {
    let fillet = Fillet::new(gear, rack);
    let (reach, _) = load(gear, LoadAt::Tip);
    let strength = |slope: f64| {
        let (thick, out, _) = fillet.at(slope);
        if thick > 0.0 && reach > out { thick * thick / (6.0 * (reach - out)) } else { f64::INFINITY }
    };
    // Looked for coarsely, then by thirds beside the best place.
    let (steps, most) = (200, 80f64.to_radians());
    let place = |step: i32| most * f64::from(step) / f64::from(steps);
    let best = (1..steps).min_by(|a, b| strength(place(*a)).total_cmp(&strength(place(*b)))).unwrap_or(1);
    let (mut low, mut high) = (place(best - 1), place(best + 1));
    for _ in 0..80 {
        let (a, b) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
        if strength(a) < strength(b) {
            high = b;
        } else {
            low = a;
        }
    }
    Ratio::from_si(strength(0.5 * (low + high)))
}

/// Stress at the root by Lewis, F/(b·m·Y).
///
/// Inputs: tangential force F (N); face width b (m); module m (m); form factor Y.
/// Returns: stress (Pa).
/// Valid for: as [`lewis_form`].
/// Source: Shigley, ch. 14, published.
#[must_use]
pub fn lewis_stress(force: Force, face_width: Length, module: Length, form: Ratio) -> Pressure {
    Pressure::from_si(force.si() / (face_width.si() * module.si() * form.si()))
}

/// Stress at the tooth root, F/(b·m)·YF·YS·Y.
///
/// Inputs: tangential force F (N) at the reference circle; face width b (m) that carries; normal module m (m); root form; the product
/// Y of all further factors (helix, contact ratio where the load is taken at the tip, rim).
/// Returns: stress (Pa), local, before load factors.
/// Valid for: as [`root_form`].
/// Source: ISO 6336-3:2006, method B (load at the outer point of single contact); VDI 2736-2:2014 (load at the tip, times Yε); published.
#[must_use]
pub fn root_stress(force: Force, face_width: Length, module: Length, root: &Root, factors: Ratio) -> Pressure {
    let shape = root.form.si() * root.notch.si() * factors.si();
    Pressure::from_si(force.si() / (face_width.si() * module.si()) * shape)
}

/// What a helix takes off the root stress, Yβ = 1 − εβ·β/120°.
///
/// Inputs: pair; common face width (m).
/// Returns: a factor, 1 for spur gears, no less than 0.75.
/// Valid for: overlap ratios counted up to 1, helix angles up to 30°.
/// Source: ISO 6336-3:2006, published; VDI 2736-2:2014 takes the same.
#[must_use]
pub fn overlap_factor(mesh: &Mesh, face_width: Length) -> Ratio {
    let overlap = mesh.overlap_ratio(face_width).si().min(1.0);
    Ratio::from_si(1.0 - overlap * mesh.pinion.beta().to_degrees().min(30.0) / 120.0)
}

/// What the second pair of teeth takes off when the load is counted at the tip, Yε = 0.25 + 0.75/εαn.
///
/// Inputs: pair.
/// Returns: a factor up to 1.
/// Valid for: contact ratios of 1 to 2; below 1 one tooth takes all.
/// Source: VDI 2736-2:2014 and DIN 3990-3, published.
#[must_use]
pub fn sharing_factor(mesh: &Mesh) -> Ratio {
    let normal = mesh.contact_ratio().si() / mesh.pinion.base_helix().cos().powi(2);
    Ratio::from_si(0.25 + 0.75 / normal.max(1.0))
}

/// How a thin rim under the teeth raises the stress at their roots: 1.6·ln(2.242·h/s).
///
/// Inputs: rim thickness s (m) from the root circle inward; tooth height h (m).
/// Returns: a factor, 1 from 1.2 tooth heights on.
/// Valid for: external gears, rims of more than half a tooth height: under that the rim breaks rather than the tooth.
/// Source: ISO 6336-3:2006, factor YB, published.
///
/// # Errors
/// A thinner rim.
pub fn rim_factor(rim: Length, tooth_height: Length) -> Result<Ratio, OutsideRange> {
    let heights = within("rim under the teeth", "tooth heights", 0.5, 1e4, rim.si() / tooth_height.si())?;
    Ok(Ratio::from_si(if heights >= 1.2 { 1.0 } else { (1.6 * (2.242 / heights).ln()).max(1.0) }))
}

/// Share of a solid tooth's bending strength that is left when its middle is filled loosely, 1 − (1 − f)·(core/thickness)³.
///
/// Inputs: thickness (m) at the root; solid wall (m) on each flank; infill f as a share.
/// Returns: a share up to 1.
/// Valid for: prints whose outlines run round the tooth.
/// Source: section modulus of a hollow rectangle, textbook; strength in proportion to the infill: common practice, no source.
#[must_use]
pub fn hollow_tooth(thickness: Length, wall: Length, infill: Ratio) -> Ratio {
    let core = (1.0 - 2.0 * wall.si() / thickness.si()).clamp(0.0, 1.0);
    Ratio::from_si(1.0 - (1.0 - infill.si()) * core.powi(3))
}

/// Shear in the web between its vents, T/(r·(2π·r − n·d)·t).
///
/// Inputs: torque T (N·m) on the gear; radius r (m) of the ring of vents; their number n and diameter d (m); thickness t (m).
/// Returns: stress (Pa), even; without end where the vents touch.
/// Valid for: spokes that are short against their width: longer ones bend as well.
/// Source: equilibrium over the cut through the middles of the vents.
#[must_use]
pub fn web_shear(torque: Torque, radius: Length, vents: Ratio, diameter: Length, thickness: Length) -> Pressure {
    let left = (2.0 * PI * radius.si() - vents.si() * diameter.si()).max(0.0);
    Pressure::from_si(torque.si() / (radius.si() * left * thickness.si()))
}

#[cfg(test)]
mod tests;
