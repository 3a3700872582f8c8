//! Cross-sections in bending: solid, hollow, printed, and a body with rods laid in.

pub mod composite;

use crate::range::{OutsideRange, within};
use quantity::*;
use std::f64::consts::PI;

/// Radius of gyration of a rectangle over half of its height, 1/√3.
pub const RECTANGLE_SLIMNESS: f64 = 0.577_350_269_189_625_8;

/// What bending needs to know of a cross-section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Section {
    pub area: Area,
    pub second_moment: SecondMomentOfArea,
    /// Second moment over the distance of the outermost fibre.
    pub section_modulus: Volume,
}

fn section(area: f64, second_moment: f64, outermost: f64) -> Section {
    Section {
        area: Area::from_si(area),
        second_moment: SecondMomentOfArea::from_si(second_moment),
        section_modulus: Volume::from_si(second_moment / outermost),
    }
}

/// A solid rectangle, I = b·h³/12.
///
/// Inputs: width b (m); height h (m), along the load.
/// Returns: area, second moment, section modulus.
/// Valid for: bending about the axis along the width.
/// Source: textbook (Shigley, table A-18).
#[must_use]
pub fn rectangle(width: Length, height: Length) -> Section {
    let (b, h) = (width.si(), height.si());
    section(b * h, b * h.powi(3) / 12.0, h / 2.0)
}

/// A solid round bar, I = π·d⁴/64.
///
/// Inputs: diameter d (m).
/// Returns: area, second moment, section modulus.
/// Valid for: bending; twisting has twice the second moment.
/// Source: textbook (Shigley, table A-18).
#[must_use]
pub fn round(diameter: Length) -> Section {
    tube(diameter, Length::from_si(0.0))
}

/// A round tube, I = π·(D⁴ − d⁴)/64.
///
/// Inputs: outer diameter D (m); inner diameter d (m), zero for a bar.
/// Returns: area, second moment, section modulus.
/// Valid for: walls thick enough not to buckle.
/// Source: textbook (Shigley, table A-18).
#[must_use]
pub fn tube(outer: Length, inner: Length) -> Section {
    let (o, i) = (outer.si(), inner.si());
    section(PI / 4.0 * (o * o - i * i), PI / 64.0 * (o.powi(4) - i.powi(4)), o / 2.0)
}

/// A printed rectangle: a full shell and a core that counts by its infill share.
///
/// Inputs: width and height (m); thickness of the shell all round (m), walls × line width; infill share 0 to 1.
/// Returns: area, second moment, section modulus, as of solid material.
/// Valid for: infill whose lines run on along the beam; foam-like infill (gyroid, cubic) gives nearer the square of its share,
/// which matters little below 40 %. A shell thicker than half the size is solid.
/// Source: parallel-axis sum, textbook; infill by its share: common practice, no source.
#[must_use]
pub fn printed_rectangle(width: Length, height: Length, shell: Length, infill: Ratio) -> Section {
    let (b, h, t, share) = (width.si(), height.si(), shell.si(), infill.si());
    let (core_b, core_h) = ((b - 2.0 * t).max(0.0), (h - 2.0 * t).max(0.0));
    let missing = 1.0 - share;
    section(b * h - missing * core_b * core_h, (b * h.powi(3) - missing * core_b * core_h.powi(3)) / 12.0, h / 2.0)
}

/// How rods are held in a body.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bond {
    /// Glued along their whole length: they cannot slide.
    Glued,
    /// Slid in, free to slide: they only bend along.
    SlidIn,
    /// Free along their length, held lengthwise at both ends of the beam.
    EndsHeld,
}

/// Bending stiffness of a body with equal rods laid in lengthwise.
///
/// Inputs: modulus of the body (Pa) and its section without holes; modulus of the rods (Pa) and the section of one; height of each
/// rod above the body's own middle (m, negative below); how they are held.
/// Returns: E·I (N·m²).
/// Valid for: glued: any loading, glue that holds; slid in: any loading; ends held: a load in the middle of a simply supported
/// beam, elsewhere an estimate (spread load 0.8 in place of 0.75). Slope is as if glued, deflection is not: at most four times slid in.
/// Source: composite beam by transformed section, textbook (Timoshenko); ends held: rods of constant pull, worked out here as
/// E·I = loose / (1 − 0.75·(1 − loose/glued)) from a beam with equal end moments.
///
/// # Errors
/// A modulus of the body of zero, or rods that leave nothing of it.
pub fn with_rods(
    body_modulus: Pressure,
    body: &Section,
    rod_modulus: Pressure,
    rod: &Section,
    heights: &[Length],
    bond: Bond,
) -> Result<BendingStiffness, OutsideRange> {
    let body_e = within("modulus of the body", "Pa", f64::MIN_POSITIVE, f64::MAX, body_modulus.si())?;
    // A rod takes the place of body material, so it counts by the difference.
    let (extra, rod_i, rod_a) = (rod_modulus.si() - body_e, rod.second_moment.si(), rod.area.si());
    let count = heights.len() as f64;
    let first: f64 = heights.iter().map(|y| y.si()).sum();
    let second: f64 = heights.iter().map(|y| y.si() * y.si()).sum();
    let stretch = body_e * body.area.si() + extra * rod_a * count;
    let middle = extra * rod_a * first / stretch;
    let glued = body_e * body.second_moment.si() + extra * (rod_i * count + rod_a * second) - stretch * middle * middle;
    // Loose, the body bends about its own middle round the holes, each rod about its own.
    let hole_a = rod_a * count;
    let whole = body.area.si();
    let body_a = within("area of the body left beside its rods", "m²", f64::MIN_POSITIVE, whole, whole - hole_a)?;
    let body_middle = -rod_a * first / body_a;
    let body_i = body.second_moment.si() - rod_i * count - rod_a * second - body_a * body_middle * body_middle;
    let loose = body_e * body_i + rod_modulus.si() * rod_i * count;
    Ok(BendingStiffness::from_si(match bond {
        Bond::Glued => glued,
        Bond::SlidIn => loose,
        Bond::EndsHeld => loose / (1.0 - 0.75 * (1.0 - loose / glued)),
    }))
}

/// Bending stiffness of a plain section, E·I.
///
/// Inputs: modulus E (Pa); section.
/// Returns: N·m².
/// Valid for: one material.
/// Source: textbook.
#[must_use]
pub fn stiffness(modulus: Pressure, section: &Section) -> BendingStiffness {
    BendingStiffness::from_si(modulus.si() * section.second_moment.si())
}

/// Bending stress in the outermost fibre, σ = M / W.
///
/// Inputs: moment M (N·m); section modulus W (m³).
/// Returns: stress (Pa), tension on one side and compression on the other.
/// Valid for: elastic, straight beam.
/// Source: textbook.
#[must_use]
pub fn bending_stress(moment: Torque, section_modulus: Volume) -> Pressure {
    Pressure::from_si(moment.si() / section_modulus.si())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(x: f64) -> Length {
        Length::from_si(x * 1e-3)
    }
    fn gpa(x: f64) -> Pressure {
        Pressure::from_si(x * 1e9)
    }

    #[test]
    fn printed_is_solid_at_full_infill_and_a_frame_without() {
        let solid = rectangle(mm(20.0), mm(30.0));
        let printed = |shell, infill| printed_rectangle(mm(20.0), mm(30.0), mm(shell), Ratio::from_si(infill));
        assert!((printed(1.6, 1.0).second_moment.si() / solid.second_moment.si() - 1.0).abs() < 1e-12);
        assert_eq!(printed(40.0, 0.1), solid);
        // Frame 20 × 30 round 16 × 26: (20·27000 − 16·17576)/12 mm⁴ = 21 565.33 mm⁴.
        assert!((printed(2.0, 0.0).second_moment.si() * 1e12 - 258784.0 / 12.0).abs() < 1e-6);
    }

    #[test]
    fn a_tube_by_hand() {
        let t = tube(mm(10.0), mm(8.0));
        assert!((t.second_moment.si() * 1e12 - PI / 64.0 * (10_000.0 - 4_096.0)).abs() < 1e-9);
        assert!((t.section_modulus.si() * 5e-3 / t.second_moment.si() - 1.0).abs() < 1e-12);
        assert!(
            (bending_stress(Torque::from_si(1.0), round(mm(10.0)).section_modulus).si() / 10.186e6 - 1.0).abs() < 1e-4
        );
    }

    fn rail(bond: Bond) -> f64 {
        let body = printed_rectangle(mm(20.0), mm(20.0), mm(1.6), Ratio::from_si(0.25));
        let (up, down) = (mm(6.0), mm(-6.0));
        with_rods(gpa(1.8), &body, gpa(120.0), &round(mm(5.0)), &[up, down], bond).unwrap().si()
    }

    #[test]
    fn glue_is_worth_several_times_the_stiffness_of_a_printed_rail() {
        // Two 5 mm carbon rods 12 mm apart in a printed rail 20 × 20: about 20 N·m² slid in, about 180 N·m² glued.
        let (loose, glued, held) = (rail(Bond::SlidIn), rail(Bond::Glued), rail(Bond::EndsHeld));
        assert!((15.0..35.0).contains(&loose) && (150.0..220.0).contains(&glued), "{loose} {glued}");
        assert!(glued / loose > 5.0 && glued / loose < 12.0);
        assert!(loose < held && held < glued && held < 4.0 * loose);
    }

    #[test]
    fn rods_of_the_bodys_own_material_change_nothing_when_glued() {
        let body = rectangle(mm(20.0), mm(30.0));
        let heights = [mm(8.0), mm(3.0)];
        let glued = with_rods(gpa(2.0), &body, gpa(2.0), &round(mm(4.0)), &heights, Bond::Glued).unwrap();
        assert!((glued.si() / stiffness(gpa(2.0), &body).si() - 1.0).abs() < 1e-12);
        let none = with_rods(gpa(2.0), &body, gpa(90.0), &round(mm(4.0)), &[], Bond::EndsHeld).unwrap();
        assert!((none.si() / stiffness(gpa(2.0), &body).si() - 1.0).abs() < 1e-12);
        assert!(with_rods(gpa(2.0), &body, gpa(90.0), &round(mm(30.0)), &heights, Bond::Glued).is_err());
        assert!(with_rods(gpa(0.0), &body, gpa(2.0), &round(mm(4.0)), &heights, Bond::Glued).is_err());
    }

    #[test]
    fn one_rod_off_the_middle_moves_the_neutral_axis() {
        // Two equal bars far apart, one standing for the body: E·A·(a/2)²·2 and their own stiffness, by hand.
        let bar = rectangle(mm(10.0), mm(10.0));
        let thin = round(mm(0.2));
        let (a, e_body) = (mm(4.0), gpa(1.0));
        let e_rod = 1e9 + 1e9 * bar.area.si() / thin.area.si();
        let ours = with_rods(e_body, &bar, Pressure::from_si(e_rod), &thin, &[a], Bond::Glued).unwrap().si();
        let by_hand = 1e9 * bar.second_moment.si()
            + 2.0 * 1e9 * bar.area.si() * 0.002f64.powi(2)
            + (e_rod - 1e9) * thin.second_moment.si();
        assert!((ours / by_hand - 1.0).abs() < 1e-12);
    }
}
