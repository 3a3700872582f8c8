//! Two gears at a centre distance: contact ratio and play.

use super::body::Gear;
use crate::range::{OutsideRange, within};
use quantity::*;
use std::f64::consts::PI;

/// A pair of gears in mesh. Their modules may differ a little, as when one has grown more than the other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mesh {
    pub pinion: Gear,
    pub wheel: Gear,
    centre: f64,
    /// Working pressure angle.
    angle: f64,
}

impl Mesh {
    /// Puts two gears at a centre distance.
    ///
    /// Inputs: two gears; centre distance a (m).
    /// Returns: the pair.
    /// Valid for: distances above the sum of the base radii up to where the tips part.
    /// Source: ISO 21771, published: cos αwt = (rb1 + rb2)/a.
    ///
    /// # Errors
    /// Beyond that range.
    pub fn new(pinion: Gear, wheel: Gear, centre: Length) -> Result<Self, OutsideRange> {
        let bases = (pinion.base() + wheel.base()) / 2.0;
        let tips = (pinion.tip() + wheel.tip()) / 2.0;
        let (least, most) = (bases * 1.000_001, tips);
        let centre = within("centre distance", "mm", least * 1e3, most * 1e3, centre.si() * 1e3)? * 1e-3;
        Ok(Self { pinion, wheel, centre, angle: (bases / centre).acos() })
    }

    /// Centre distance of two gears that mesh without play, from inv αwt = inv αt + 2·(x1 + x2)/(z1 + z2)·tan αn.
    ///
    /// Inputs: two gears of one module.
    /// Returns: length (m).
    /// Valid for: gears whose teeth fill their gaps wholly, without allowance.
    /// Source: ISO 21771, published.
    #[must_use]
    pub fn tight_centre(pinion: &Gear, wheel: &Gear) -> Length {
        let shifts = 2.0 * (pinion.x() + wheel.x()) / (pinion.z() + wheel.z()) * pinion.alpha().tan();
        let inv = super::involute(Angle::from_si(pinion.transverse())).si() + shifts;
        let angle = super::involute_angle(Angle::from_si(inv)).si();
        Length::from_si((pinion.base() + wheel.base()) / 2.0 / angle.cos())
    }

    /// The same gears at another distance.
    ///
    /// # Errors
    /// As [`Mesh::new`].
    pub fn moved(&self, by: Length) -> Result<Self, OutsideRange> {
        Self::new(self.pinion, self.wheel, Length::from_si(self.centre + by.si()))
    }

    /// The same pair when its gears and what holds them have grown: by warmth, by water.
    ///
    /// Inputs: growth of pinion, wheel and housing, each as a share of the length.
    /// Returns: the grown pair.
    /// Valid for: even growth of each.
    /// Source: geometry.
    ///
    /// # Errors
    /// As [`Mesh::new`].
    pub fn grown(&self, pinion: Ratio, wheel: Ratio, housing: Ratio) -> Result<Self, OutsideRange> {
        let centre = Length::from_si(self.centre * (1.0 + housing.si()));
        Self::new(self.pinion.grown(pinion), self.wheel.grown(wheel), centre)
    }

    #[must_use]
    pub fn centre_distance(&self) -> Length {
        Length::from_si(self.centre)
    }
    /// Working pressure angle in the transverse section.
    #[must_use]
    pub fn working_angle(&self) -> Angle {
        Angle::from_si(self.angle)
    }
    /// Teeth of the wheel over those of the pinion.
    #[must_use]
    pub fn ratio(&self) -> Ratio {
        Ratio::from_si(self.wheel.z() / self.pinion.z())
    }

    /// Parts of the contact ratio beyond the pitch point: on the pinion's tip, on the wheel's tip.
    pub(crate) fn tip_contacts(&self) -> (f64, f64) {
        let pitch = (self.pinion.base_pitch() + self.wheel.base_pitch()) / 2.0;
        let rolled = |gear: &Gear| 0.5 * gear.base() * self.angle.tan();
        let to_tip = |gear: &Gear| 0.5 * (gear.tip().powi(2) - gear.base().powi(2)).max(0.0).sqrt();
        // Contact ends at the latest where the other gear's involute begins.
        let beyond = |gear: &Gear, other: &Gear| (to_tip(gear) - rolled(gear)).min(rolled(other)) / pitch;
        (beyond(&self.pinion, &self.wheel), beyond(&self.wheel, &self.pinion))
    }

    /// How many pairs of teeth carry on average in the transverse section, from the actual tip diameters and centre distance.
    ///
    /// Inputs: the pair.
    /// Returns: a plain number; below 1 the drive jerks from tooth to tooth.
    /// Valid for: rigid teeth; soft ones touch a little longer.
    /// Source: ISO 21771, published.
    #[must_use]
    pub fn contact_ratio(&self) -> Ratio {
        let (pinion, wheel) = self.tip_contacts();
        Ratio::from_si(pinion + wheel)
    }

    /// What the helix adds, b·sinβ/(π·m).
    ///
    /// Inputs: common face width b (m).
    /// Returns: a plain number, zero for spur gears.
    /// Valid for: any helix.
    /// Source: ISO 21771, published.
    #[must_use]
    pub fn overlap_ratio(&self, face_width: Length) -> Ratio {
        Ratio::from_si(face_width.si() * self.pinion.beta().sin() / (PI * self.pinion.m()))
    }

    /// Play between the flanks along the working pitch circle when nothing has been taken off the teeth.
    ///
    /// Inputs: the pair.
    /// Returns: length (m); below zero the teeth jam.
    /// Valid for: gears of full tooth thickness; what a maker takes off comes on top.
    /// Source: pitch less both tooth thicknesses on the working circles, ISO 21771, published.
    #[must_use]
    pub fn backlash(&self) -> Length {
        let (z1, z2) = (self.pinion.z(), self.wheel.z());
        let working = 2.0 * self.centre / (z1 + z2);
        let thick = |gear: &Gear| gear.thickness(gear.z() * working);
        Length::from_si(PI * working - thick(&self.pinion) - thick(&self.wheel))
    }

    /// How much farther apart gives so much more play, Δa = Δj/(2·tan αwt).
    ///
    /// Inputs: more play (m).
    /// Returns: length (m).
    /// Valid for: small changes.
    /// Source: derivative of [`Mesh::backlash`], geometry.
    #[must_use]
    pub fn distance_for(&self, more: Length) -> Length {
        Length::from_si(more.si() / (2.0 * self.angle.tan()))
    }

    /// Force with which the teeth push across the shafts, T/rb.
    ///
    /// Inputs: torque T (N·m) on the pinion.
    /// Returns: force (N) in the transverse plane: tangential and separating part together.
    /// Valid for: any pair; a helix adds a push along the shaft.
    /// Source: equilibrium along the line of action, T = F·rb.
    #[must_use]
    pub fn separating_force(&self, torque: Torque) -> Force {
        Force::from_si(torque.si() / (self.pinion.base() / 2.0))
    }

    /// Arm with which that force would have to stand beside a gear's middle to tilt it as the push along the shaft does, rb·tanβ.
    ///
    /// Inputs: whether the gear is the wheel.
    /// Returns: length (m), zero for spur gears.
    /// Valid for: any helix.
    /// Source: equilibrium: F·rb/r·tanβ along the shaft at the radius r.
    #[must_use]
    pub fn tilt_arm(&self, of_wheel: bool) -> Length {
        let gear = if of_wheel { &self.wheel } else { &self.pinion };
        Length::from_si(gear.base() / 2.0 * gear.beta().tan())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn gear(teeth: f64, shift: f64, helix: f64) -> Gear {
        let angle = |degrees: f64| Angle::from_si(degrees.to_radians());
        let (z, x) = (Ratio::from_si(teeth), Ratio::from_si(shift));
        Gear::new(z, Length::from_si(2e-3), angle(20.0), angle(helix), x, None).unwrap()
    }

    fn share(of: f64) -> Ratio {
        Ratio::from_si(of)
    }

    #[test]
    fn without_shift_the_tight_distance_is_half_the_sum_of_the_reference_diameters() {
        let (pinion, wheel) = (gear(20.0, 0.0, 0.0), gear(40.0, 0.0, 0.0));
        assert!((Mesh::tight_centre(&pinion, &wheel).si() - 0.06).abs() < 1e-12);
        let helical = Mesh::tight_centre(&gear(20.0, 0.0, 15.0), &gear(40.0, 0.0, 15.0)).si();
        assert!((helical - 0.06 / 15f64.to_radians().cos()).abs() < 1e-12);
    }

    #[test]
    fn at_the_tight_distance_there_is_no_play_whatever_the_shift() {
        for (x1, x2, helix) in [(0.0, 0.0, 0.0), (0.5, 0.2, 0.0), (0.3, -0.3, 10.0), (0.4, 0.1, 20.0)] {
            let (pinion, wheel) = (gear(15.0, x1, helix), gear(43.0, x2, helix));
            let mesh = Mesh::new(pinion, wheel, Mesh::tight_centre(&pinion, &wheel)).unwrap();
            assert!(mesh.backlash().si().abs() < 1e-12, "{x1} {x2} {helix}: {:?}", mesh.backlash());
            // A little farther apart: 2·tan αwt for each millimetre.
            let apart = mesh.moved(Length::from_si(1e-7)).unwrap().backlash().si();
            assert!((apart / 2e-7 / mesh.working_angle().si().tan() - 1.0).abs() < 1e-3);
        }
    }

    #[test]
    fn two_racks_come_near_to_the_contact_ratio_of_a_rack() {
        // 2·ha/(m·π·sinα·cosα) for infinitely many teeth: 1.981, from below.
        let mesh = Mesh::new(gear(1000.0, 0.0, 0.0), gear(1000.0, 0.0, 0.0), Length::from_si(2.0)).unwrap();
        let contact = mesh.contact_ratio().si();
        assert!(contact < 1.981 && contact > 0.99 * 1.981, "{contact}");
        assert!((mesh.overlap_ratio(Length::from_si(0.02)).si()).abs() < 1e-12);
    }

    #[test]
    fn one_material_keeps_its_play_in_proportion_and_a_swollen_wheel_takes_it() {
        let mesh = Mesh::new(gear(17.0, 0.0, 0.0), gear(40.0, 0.0, 0.0), Length::from_si(0.0572)).unwrap();
        let alike = mesh.grown(share(0.01), share(0.01), share(0.01)).unwrap();
        assert!((alike.backlash().si() / mesh.backlash().si() - 1.01).abs() < 1e-9);
        assert!((alike.contact_ratio().si() - mesh.contact_ratio().si()).abs() < 1e-12);
        let swollen = mesh.grown(share(0.0), share(0.005), share(0.0)).unwrap();
        // Δj ≈ −2·tanα·s·r2 = −0.146 mm on a wheel of 80 mm.
        let taken = mesh.backlash().si() - swollen.backlash().si();
        assert!((taken - 2.0 * 20f64.to_radians().tan() * 0.005 * 0.04).abs() < 0.01e-3, "{taken}");
    }

    #[test]
    fn the_push_of_the_teeth_is_tangential_and_separating_together() {
        let mesh = Mesh::new(gear(20.0, 0.0, 0.0), gear(40.0, 0.0, 0.0), Length::from_si(0.06)).unwrap();
        let (tangential, angle) = (10.0 / 0.02, 20f64.to_radians());
        let both = f64::hypot(tangential, tangential * angle.tan());
        assert!((mesh.separating_force(Torque::from_si(10.0)).si() / both - 1.0).abs() < 1e-12);
        let more = mesh.distance_for(Length::from_si(1e-6));
        assert!((mesh.moved(more).unwrap().backlash().si() / 1e-6 - 1.0).abs() < 1e-3);
    }

    #[test]
    fn a_helix_tilts_as_its_push_along_the_shaft_does() {
        let (pinion, wheel) = (gear(20.0, 0.0, 20.0), gear(40.0, 0.0, 20.0));
        let mesh = Mesh::new(pinion, wheel, Mesh::tight_centre(&pinion, &wheel)).unwrap();
        let (torque, radius) = (10.0, pinion.reference_diameter().si() / 2.0);
        let along = torque / radius * 20f64.to_radians().tan();
        let moment = mesh.separating_force(Torque::from_si(torque)).si() * mesh.tilt_arm(false).si();
        assert!((moment / (along * radius) - 1.0).abs() < 1e-12);
        assert!(mesh.tilt_arm(true) > mesh.tilt_arm(false));
    }

    #[test]
    fn gears_that_cannot_meet_are_refused() {
        let mesh = |centre: f64| Mesh::new(gear(17.0, 0.0, 0.0), gear(40.0, 0.0, 0.0), Length::from_si(centre));
        assert!(mesh(0.05).is_err() && mesh(0.07).is_err() && mesh(f64::NAN).is_err() && mesh(0.0571).is_ok());
    }
}
