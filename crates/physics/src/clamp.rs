//! Screwed joints: what a tightened screw clamps with, and what warmth and cold make of it.

use crate::range::{OutsideRange, within};
use quantity::*;
use std::f64::consts::PI;

/// Stressed cross-section of a metric thread, π/4 · (d − 0.9382·P)².
///
/// Inputs: nominal diameter d (m); pitch P (m).
/// Returns: area (m²).
/// Valid for: ISO metric threads.
/// Source: ISO 898-1, 9.1.6.1; published.
#[must_use]
pub fn stressed_area(diameter: Length, pitch: Length) -> Area {
    let core = diameter.si() - 0.9382 * pitch.si();
    Area::from_si(PI / 4.0 * core * core)
}

/// Force with which a tightened screw clamps, F = T / (K·d).
///
/// Inputs: tightening torque T (N·m); nominal diameter d (m); nut factor K: 0.2 dry as bought, 0.15 oiled.
/// Returns: force (N). It scatters by ±30 % with the same torque.
/// Valid for: metal heads on metal or on a washer.
/// Source: Shigley, Mechanical Engineering Design, eq. 8-27 and table 8-15; published.
#[must_use]
pub fn preload(torque: Torque, diameter: Length, nut_factor: Ratio) -> Force {
    Force::from_si(torque.si() / (nut_factor.si() * diameter.si()))
}

/// Rate of the stretched part of a screw, E·A/L.
///
/// Inputs: modulus E (Pa); stressed area A (m²); stretched length L (m).
/// Returns: N/m.
/// Valid for: thread all along; a shank is stiffer, which eats up more preload in the cold.
/// Source: Hooke's law; Shigley, eq. 8-16; published.
#[must_use]
pub fn screw_rate(modulus: Pressure, area: Area, length: Length) -> SpringRate {
    SpringRate::from_si(modulus.si() * area.si() / length.si())
}

/// Rate of a clamped body under a head of 1.5 d: a cone of 30° each side,
/// 0.5774·π·E·d / ln[(1.155·t + 0.5·d)·2.5·d / ((1.155·t + 2.5·d)·0.5·d)].
///
/// Inputs: modulus E (Pa); nominal diameter d (m); its thickness t (m).
/// Returns: N/m.
/// Valid for: a body wider than the cone, t up to 10 d, else refused.
/// Source: Shigley, eq. 8-20 with D = 1.5·d; published.
pub fn clamped_rate(modulus: Pressure, diameter: Length, thickness: Length) -> Result<SpringRate, OutsideRange> {
    let d = diameter.si();
    let t = within("clamped thickness over screw diameter", "", 1e-3, 10.0, thickness.si() / d)? * d;
    let cone = ((1.155 * t + 0.5 * d) * 2.5 * d / ((1.155 * t + 2.5 * d) * 0.5 * d)).ln();
    Ok(SpringRate::from_si((PI / 6.0).tan() * PI * modulus.si() * d / cone))
}

/// Change of a clamping force when the clamped body grows more than the screw, Δ / (1/k₁ + 1/k₂ + …).
///
/// Inputs: growth Δ of the body less that of the screw (m), negative when it shrinks; the rates (N/m) of all that is
/// stretched and pressed, one behind the other.
/// Returns: force (N), negative where it is lost.
/// Valid for: as long as the joint stays closed.
/// Source: springs in series; Hooke's law.
#[must_use]
pub fn force_change(grows_more: Length, rates: &[SpringRate]) -> Force {
    let gives: f64 = rates.iter().map(|rate| 1.0 / rate.si()).sum();
    Force::from_si(grows_more.si() / gives)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_cones_are_the_textbook_s_formula_for_a_joint() {
        // Shigley, eq. 8-22, two alike members of l/2 with D = 1.5·d: 0.5774·π·E·d / (2·ln[5·(0.5774·l + 0.5·d)/(0.5774·l + 2.5·d)]).
        let (e, d, l) = (207e9f64, 0.012f64, 0.03f64);
        let joint = 0.5774 * PI * e * d / (2.0 * (5.0 * (0.5774 * l + 0.5 * d) / (0.5774 * l + 2.5 * d)).ln());
        let one = clamped_rate(Pressure::from_si(e), Length::from_si(d), Length::from_si(l / 2.0)).unwrap().si();
        assert!((one / 2.0 / joint - 1.0).abs() < 1e-3, "{one} {joint}");
        // Third route: the fit of Wileman, Choudhury and Green (1991) to finite elements, steel, within 10 %.
        let fit = 0.787_15 * e * d * (0.628_73 * d / l).exp();
        assert!((joint / fit - 1.0).abs() < 0.1, "{joint} {fit}");
    }

    #[test]
    fn a_plastic_flange_gives_and_loses_more() {
        // 10 mm of acetal under an M4 of steel, 50 K colder: (110 − 12) µm/(m·K) · 10 mm · 50 K = 49 µm.
        let (d, t) = (Length::from_si(4e-3), Length::from_si(10e-3));
        let screw = screw_rate(Pressure::from_si(205e9), stressed_area(d, Length::from_si(0.7e-3)), t);
        let plastic = clamped_rate(Pressure::from_si(2.9e9), d, t).unwrap();
        let lost = force_change(Length::from_si(-49e-6), &[screw, plastic]).si();
        assert!(lost < -700.0 && lost > -900.0, "{lost}");
        // A stack of spring washers takes up most of it.
        let soft = force_change(Length::from_si(-49e-6), &[screw, plastic, SpringRate::from_si(1e6)]).si();
        assert!(soft > -50.0, "{soft}");
        assert!(clamped_rate(Pressure::from_si(2.9e9), d, Length::from_si(0.05)).is_err());
        assert!((preload(Torque::from_si(1.2), d, Ratio::from_si(0.2)).si() - 1500.0).abs() < 1e-9);
    }
}
