//! One gear: diameters, tooth thickness, tip, undercut.

use super::involute::involute;
use crate::range::{OutsideRange, within};
use quantity::*;
use std::f64::consts::PI;

/// A cylindrical gear with external teeth, cut or drawn by the standard rack.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gear {
    teeth: f64,
    /// Of the normal section.
    module: f64,
    pressure_angle: f64,
    helix: f64,
    shift: f64,
    tip_diameter: f64,
}

impl Gear {
    /// A gear by the numbers that stand on its drawing.
    ///
    /// Inputs: teeth z; normal module m (m); pressure angle α of the rack in the normal section (rad); helix angle β (rad), zero for
    /// spur gears; profile shift x in modules; tip diameter (m), d + 2·m·(1 + x) where none is given.
    /// Returns: the gear.
    /// Valid for: 5 to 1,000 teeth, α of 14° to 30°, β up to 45° either hand, x of −1 to 1.5, tips outside the base circle.
    /// Source: ISO 21771, published; rack: ISO 53.
    ///
    /// # Errors
    /// Beyond that range.
    pub fn new(
        teeth: Ratio,
        module: Length,
        pressure_angle: Angle,
        helix: Angle,
        shift: Ratio,
        tip_diameter: Option<Length>,
    ) -> Result<Self, OutsideRange> {
        let teeth = within("number of teeth", "", 5.0, 1000.0, teeth.si())?;
        let module = within("module", "mm", 0.05, 100.0, module.si() * 1e3)? * 1e-3;
        let pressure_angle = within("pressure angle", "°", 14.0, 30.0, pressure_angle.si().to_degrees())?.to_radians();
        let helix = within("helix angle", "°", 0.0, 45.0, helix.si().abs().to_degrees())?.to_radians();
        let shift = within("profile shift in modules", "", -1.0, 1.5, shift.si())?;
        let mut gear = Self { teeth, module, pressure_angle, helix, shift, tip_diameter: 0.0 };
        let usual = gear.reference() + 2.0 * module * (1.0 + shift);
        let tip = tip_diameter.map_or(usual, Length::si);
        let (least, most) = (gear.base().max(gear.reference() - 2.0 * module), usual + module);
        gear.tip_diameter = within("tip diameter", "mm", least * 1e3, most * 1e3, tip * 1e3)? * 1e-3;
        Ok(gear)
    }

    /// The same gear grown (or shrunk, below zero) alike in all directions, by warmth or by water.
    ///
    /// Inputs: growth as a share of the length.
    /// Returns: the grown gear, similar to the first.
    /// Valid for: one material, evenly warm and wet.
    /// Source: geometry.
    #[must_use]
    pub fn grown(self, share: Ratio) -> Self {
        let factor = 1.0 + share.si();
        Self { module: self.module * factor, tip_diameter: self.tip_diameter * factor, ..self }
    }

    pub(crate) fn z(&self) -> f64 {
        self.teeth
    }
    pub(crate) fn m(&self) -> f64 {
        self.module
    }
    pub(crate) fn alpha(&self) -> f64 {
        self.pressure_angle
    }
    pub(crate) fn beta(&self) -> f64 {
        self.helix
    }
    pub(crate) fn x(&self) -> f64 {
        self.shift
    }
    pub(crate) fn reference(&self) -> f64 {
        self.teeth * self.module / self.helix.cos()
    }
    /// Pressure angle of the transverse section.
    pub(crate) fn transverse(&self) -> f64 {
        (self.pressure_angle.tan() / self.helix.cos()).atan()
    }
    pub(crate) fn base(&self) -> f64 {
        self.reference() * self.transverse().cos()
    }
    pub(crate) fn tip(&self) -> f64 {
        self.tip_diameter
    }
    pub(crate) fn base_helix(&self) -> f64 {
        (self.helix.sin() * self.pressure_angle.cos()).asin()
    }
    /// Transverse base pitch.
    pub(crate) fn base_pitch(&self) -> f64 {
        PI * self.base() / self.teeth
    }
    /// Transverse tooth thickness along a circle.
    pub(crate) fn thickness(&self, diameter: f64) -> f64 {
        let at_reference = self.module / self.helix.cos() * (PI / 2.0 + 2.0 * self.shift * self.pressure_angle.tan());
        let inv = |angle: f64| involute(Angle::from_si(angle)).si();
        // Inside the base circle there is no involute; its end stands for it.
        let here = (self.base() / diameter).min(1.0).acos();
        diameter * (at_reference / self.reference() + inv(self.transverse()) - inv(here))
    }
    /// Teeth of the spur gear that looks like the normal section, z/(cos²βb·cosβ).
    pub(crate) fn virtual_z(&self) -> f64 {
        self.teeth / (self.base_helix().cos().powi(2) * self.helix.cos())
    }

    /// Reference diameter, d = z·m/cosβ.
    #[must_use]
    pub fn reference_diameter(&self) -> Length {
        Length::from_si(self.reference())
    }
    /// Base circle, d·cosαt.
    #[must_use]
    pub fn base_diameter(&self) -> Length {
        Length::from_si(self.base())
    }
    #[must_use]
    pub fn tip_diameter(&self) -> Length {
        Length::from_si(self.tip_diameter)
    }
    /// Root circle, d − 2·m·(1.25 − x): the rack of ISO 53 reaches 1.25 modules deep.
    #[must_use]
    pub fn root_diameter(&self) -> Length {
        Length::from_si(self.reference() - 2.0 * self.module * (1.25 - self.shift))
    }
    /// From root circle to tip circle.
    #[must_use]
    pub fn tooth_height(&self) -> Length {
        (self.tip_diameter() - self.root_diameter()) / 2.0
    }

    /// Thickness of the tooth at its tip, in the normal section.
    ///
    /// Inputs: the gear.
    /// Returns: length (m); zero or below it where the flanks meet before the tip: a pointed tooth.
    /// Valid for: any gear that [`Gear::new`] takes.
    /// Source: ISO 21771, published.
    #[must_use]
    pub fn tip_thickness(&self) -> Length {
        let helix_at_tip = (self.helix.tan() * self.tip_diameter / self.reference()).atan();
        Length::from_si(self.thickness(self.tip_diameter) * helix_at_tip.cos())
    }

    /// How many teeth a gear without shift has that is just as far from undercut, zn + 17·x.
    ///
    /// Inputs: the gear.
    /// Returns: a plain number: from 17 on nothing is undercut; down to 14 it costs a little of the flank near the root only.
    /// Valid for: the rack of ISO 53 at 20°, where 2/sin²α = 17.1, told as 17.
    /// Source: undercut limit x ≥ 1 − zn·sin²α/2 of ISO 21771, published; 14 as the practical limit: DIN 3960, from memory.
    #[must_use]
    pub fn teeth_against_undercut(&self) -> Ratio {
        let limit = (2.0 / self.pressure_angle.sin().powi(2)).floor();
        Ratio::from_si(self.virtual_z() + limit * self.shift)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn gear(teeth: f64, shift: f64) -> Gear {
        let angle = |degrees: f64| Angle::from_si(degrees.to_radians());
        let (z, x) = (Ratio::from_si(teeth), Ratio::from_si(shift));
        Gear::new(z, Length::from_si(2e-3), angle(20.0), angle(0.0), x, None).unwrap()
    }

    #[test]
    fn tooth_and_gap_are_alike_on_the_reference_circle_of_a_gear_without_shift() {
        let gear = gear(30.0, 0.0);
        assert!((gear.thickness(0.06) - PI * 1e-3).abs() < 1e-15);
        assert!((gear.base_diameter().si() - 0.06 * 20f64.to_radians().cos()).abs() < 1e-15);
        assert!((gear.tooth_height().si() - 4.5e-3).abs() < 1e-15);
    }

    #[test]
    fn shift_makes_tips_pointed_and_roots_sound() {
        assert!(gear(12.0, 0.6).tip_thickness() < gear(12.0, 0.0).tip_thickness());
        // Pointed at about x = 0.67 for 12 teeth (drawing of the limits in ISO/TR 4467, from memory: near 0.7).
        assert!(gear(12.0, 0.85).tip_thickness().si() < 0.0 && gear(12.0, 0.5).tip_thickness().si() > 0.0);
        assert_eq!(gear(17.0, 0.0).teeth_against_undercut().si(), 17.0);
        assert!((gear(14.0, 3.0 / 17.0).teeth_against_undercut().si() - 17.0).abs() < 1e-12);
    }

    #[test]
    fn a_grown_gear_is_similar() {
        let (cold, warm) = (gear(20.0, 0.2), gear(20.0, 0.2).grown(Ratio::from_si(0.01)));
        for (a, b) in [
            (cold.reference_diameter(), warm.reference_diameter()),
            (cold.tip_diameter(), warm.tip_diameter()),
            (cold.tip_thickness(), warm.tip_thickness()),
        ] {
            assert!((b.si() / a.si() - 1.01).abs() < 1e-12);
        }
    }

    #[test]
    fn outside_its_range_it_is_refused() {
        let angle = |degrees: f64| Angle::from_si(degrees.to_radians());
        let new = |z: f64, x: f64, tip: Option<f64>| {
            let (z, x) = (Ratio::from_si(z), Ratio::from_si(x));
            Gear::new(z, Length::from_si(2e-3), angle(20.0), angle(0.0), x, tip.map(Length::from_si))
        };
        for (refused, of) in [
            (new(0.0, 0.0, None), "number of teeth"),
            (new(f64::NAN, 0.0, None), "number of teeth"),
            (new(20.0, 4.0, None), "profile shift in modules"),
            (new(20.0, 0.0, Some(0.02)), "tip diameter"),
        ] {
            assert_eq!(refused.unwrap_err().of, of);
        }
    }
}
