//! Sizes of keys, splines and set screws by their standards.

use crate::range::{OutsideRange, within};
use quantity::*;

/// A parallel key.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Key {
    pub width: Length,
    pub height: Length,
    pub depth_in_shaft: Length,
}

/// Shaft diameter up to (mm), width, height, depth in the shaft (mm). DIN 6885-1, published; from memory.
const KEYS: [(f64, f64, f64, f64); 12] = [
    (8.0, 2.0, 2.0, 1.2),
    (10.0, 3.0, 3.0, 1.8),
    (12.0, 4.0, 4.0, 2.5),
    (17.0, 5.0, 5.0, 3.0),
    (22.0, 6.0, 6.0, 3.5),
    (30.0, 8.0, 7.0, 4.0),
    (38.0, 10.0, 8.0, 5.0),
    (44.0, 12.0, 8.0, 5.0),
    (50.0, 14.0, 9.0, 5.5),
    (58.0, 16.0, 10.0, 6.0),
    (65.0, 18.0, 11.0, 7.0),
    (75.0, 20.0, 12.0, 7.5),
];

/// The parallel key of a shaft.
///
/// Inputs: shaft diameter (m).
/// Returns: its key.
/// Valid for: shafts above 6 up to 75 mm.
/// Source: DIN 6885-1 (ISO 773), published; from memory.
///
/// # Errors
/// Other diameters.
pub fn parallel_key(shaft: Length) -> Result<Key, OutsideRange> {
    let diameter = within("shaft diameter for a parallel key", "mm", 6.0, 75.0, shaft.si() * 1e3)?;
    let row = KEYS.iter().find(|row| diameter <= row.0 * (1.0 + 1e-9)).or(KEYS.last());
    let (_, width, height, depth) = row.copied().unwrap_or((75.0, 20.0, 12.0, 7.5));
    let mm = |size: f64| Length::from_si(size * 1e-3);
    Ok(Key { width: mm(width), height: mm(height), depth_in_shaft: mm(depth) })
}

/// A straight-sided spline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spline {
    pub teeth: Ratio,
    pub inner: Length,
    pub outer: Length,
}

/// Teeth, inner and outer diameter (mm), light and medium series. ISO 14, published; from memory.
const SPLINES: [(u32, u32, u32); 14] = [
    (6, 11, 14),
    (6, 13, 16),
    (6, 16, 20),
    (6, 18, 22),
    (6, 21, 25),
    (6, 23, 26),
    (6, 23, 28),
    (6, 26, 30),
    (6, 26, 32),
    (6, 28, 32),
    (6, 28, 34),
    (8, 32, 36),
    (8, 32, 38),
    (8, 36, 40),
];

/// A straight-sided spline by its designation, `6 x 23 x 26`: teeth, inner and outer diameter in mm.
///
/// Inputs: the designation.
/// Returns: the spline; nothing where the standard has no such size.
/// Valid for: ISO 14 up to 40 mm outside.
/// Source: ISO 14, published; from memory.
#[must_use]
pub fn parallel_spline(designation: &str) -> Option<Spline> {
    let numbers: Option<Vec<u32>> = designation.split(['x', '×']).map(|part| part.trim().parse().ok()).collect();
    let &[teeth, inner, outer] = numbers?.as_slice() else { return None };
    SPLINES.contains(&(teeth, inner, outer)).then(|| Spline {
        teeth: Ratio::from_si(f64::from(teeth)),
        inner: Length::from_si(f64::from(inner) * 1e-3),
        outer: Length::from_si(f64::from(outer) * 1e-3),
    })
}

/// Screw diameter (in), holding power (lbf) of cup-point set screws: numbers 4, 5, 6, 8, 10, 1/4, 5/16, 3/8, 1/2.
const SET_SCREWS: [(f64, f64); 9] = [
    (0.112, 160.0),
    (0.125, 200.0),
    (0.138, 250.0),
    (0.164, 385.0),
    (0.190, 540.0),
    (0.25, 1000.0),
    (0.3125, 1500.0),
    (0.375, 2000.0),
    (0.5, 3000.0),
];

/// Force at the shaft's surface that a cup-point set screw holds, straight between the sizes of the table.
///
/// Inputs: screw diameter (m).
/// Returns: force (N).
/// Valid for: 2.84 to 12.7 mm, screws tightened to the table's torque, in metal, on a shaft softer than the screw.
/// Source: Shigley, Mechanical Engineering Design, 8th to 10th ed., table 7-4, typical holding power, published; from memory.
///
/// # Errors
/// Other diameters.
pub fn set_screw_holding(screw: Length) -> Result<Force, OutsideRange> {
    let (from, to) = (0.112 * 25.4, 0.5 * 25.4);
    let size = within("set screw", "mm", from, to, screw.si() * 1e3)? / 25.4;
    let pounds = SET_SCREWS.windows(2).find_map(|pair| match pair {
        [(low, less), (high, more)] if size <= *high => Some(less + (more - less) * (size - low) / (high - low)),
        _ => None,
    });
    Ok(Force::from_si(pounds.unwrap_or(3000.0) * 4.448_221_615))
}
