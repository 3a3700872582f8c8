//! Straight struts under pressure: slender, short, and pushed beside their axis.

use quantity::*;
use std::f64::consts::PI;

/// A strut of one material.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strut {
    pub area: Area,
    /// About the weaker axis.
    pub second_moment: SecondMomentOfArea,
    pub length: Length,
    /// 1 hinged ends, 0.5 clamped, 0.7 clamped and hinged, 2 clamped and free.
    pub length_factor: Ratio,
    pub modulus: Pressure,
    pub compressive_yield: Pressure,
}

impl Strut {
    /// Free length over radius of gyration.
    fn slenderness(&self) -> f64 {
        self.length_factor.si() * self.length.si() / (self.second_moment.si() / self.area.si()).sqrt()
    }

    /// Load at which it buckles: Euler's π²·E·I/(K·L)² if slender, Johnson's parabola A·(S − (S·λ/2π)²/E) if short.
    ///
    /// Inputs: as the fields say.
    /// Returns: force (N).
    /// Valid for: straight, pushed along its axis; the two meet where the stress is half of the yield.
    /// Source: Euler, J. B. Johnson; Shigley, ch. 4, eq. 4-42 to 4-48; published.
    #[must_use]
    pub fn load(&self) -> Force {
        let (s, e, slender) = (self.compressive_yield.si(), self.modulus.si(), self.slenderness());
        let meet = (2.0 * PI * PI * e / s).sqrt();
        let stress =
            if slender > meet { PI * PI * e / (slender * slender) } else { s - (s * slender / (2.0 * PI)).powi(2) / e };
        Force::from_si(stress * self.area.si())
    }

    /// Highest stress of a strut that is pushed beside its axis, P/A·(1 + e·c/k²·sec(λ/2·√(P/(E·A)))).
    ///
    /// Inputs: force P (N); distance e of the force from the axis (m); distance c of the outermost fibre (m).
    /// Returns: stress (Pa); infinite from the load at which it buckles.
    /// Valid for: elastic; both ends pushed alike.
    /// Source: secant formula; Shigley, ch. 4, eq. 4-50; published.
    #[must_use]
    pub fn beside(&self, force: Force, eccentricity: Length, outermost: Length) -> Pressure {
        let (p, a) = (force.si(), self.area.si());
        let angle = self.slenderness() / 2.0 * (p / (self.modulus.si() * a)).sqrt();
        if angle >= PI / 2.0 {
            return Pressure::from_si(f64::INFINITY);
        }
        let gyration = self.second_moment.si() / a;
        Pressure::from_si(p / a * (1.0 + eccentricity.si() * outermost.si() / gyration / angle.cos()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn strut(length: f64) -> Strut {
        let round = crate::section::round(Length::from_si(0.010));
        Strut {
            area: round.area,
            second_moment: round.second_moment,
            length: Length::from_si(length),
            length_factor: Ratio::from_si(1.0),
            modulus: Pressure::from_si(206e9),
            compressive_yield: Pressure::from_si(400e6),
        }
    }

    #[test]
    fn long_is_euler_and_very_short_is_yield() {
        let long = strut(0.5);
        let euler = crate::beam::buckling_load(
            BendingStiffness::from_si(206e9 * long.second_moment.si()),
            long.length,
            long.length_factor,
        );
        assert!((long.load().si() / euler.si() - 1.0).abs() < 1e-12);
        assert!((strut(1e-4).load().si() / (400e6 * long.area.si()) - 1.0).abs() < 1e-5);
    }

    #[test]
    fn both_laws_meet_at_half_the_yield() {
        let meet = (2.0 * PI * PI * 206e9f64 / 400e6).sqrt() * 0.0025;
        let near = |share: f64| strut(meet * share).load().si();
        assert!((near(0.999_999) / near(1.000_001) - 1.0).abs() < 1e-5);
        assert!((near(1.0) / strut(meet).area.si() / 200e6 - 1.0).abs() < 1e-9);
    }

    #[test]
    fn beside_the_axis_it_is_plain_bending_when_short_and_no_answer_when_it_buckles() {
        let (short, c, e) = (strut(1e-4), Length::from_si(0.005), Length::from_si(0.003));
        let p = Force::from_si(1000.0);
        let plain = 1000.0 / short.area.si() + 1000.0 * 0.003 * 0.005 / short.second_moment.si();
        assert!((short.beside(p, e, c).si() / plain - 1.0).abs() < 1e-6);
        let long = strut(0.5);
        assert_eq!(long.beside(long.load() * 1.001, e, c).si(), f64::INFINITY);
    }
}
