//! When a machine tips over an edge of what it stands on: forward, backward, sideways.

use quantity::*;

/// Where the weight acts, seen from the edge that it would tip over.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stance {
    /// From the edge to the centre of gravity, along the ground; zero or less has tipped already.
    pub lever: Length,
    /// Of the centre of gravity above the ground.
    pub height: Length,
}

impl Stance {
    /// Slope at which it tips standing still, atan(lever/height).
    ///
    /// Inputs: the stance.
    /// Returns: angle, zero where it tips on the level.
    /// Valid for: firm ground, stiff body; soft ground and springs that sink on the low side take some degrees of it.
    /// Source: static geometry, textbook.
    #[must_use]
    pub fn tips_at(&self) -> Angle {
        Angle::from_si(self.lever.si().max(0.0).atan2(self.height.si()))
    }

    /// Moment about the edge, over the weight: what holds it and what tips it, x·cos θ and h·sin θ + h·a/g.
    ///
    /// Inputs: slope θ towards the edge; acceleration a (m/s²) away from it, as of a start uphill or braking downhill.
    /// Returns: the lever that holds and the lever that tips (m).
    /// Valid for: as [`Self::tips_at`].
    /// Source: static geometry with d'Alembert's force, textbook.
    #[must_use]
    pub fn levers(&self, slope: Angle, acceleration: Acceleration) -> (Length, Length) {
        let height = self.height.si();
        let tips = height * slope.si().sin() + height * acceleration.si().abs() / crate::landing::GRAVITY;
        (Length::from_si(self.lever.si() * slope.si().cos()), Length::from_si(tips))
    }
}

/// Centre of gravity without a part of the mass, (m·x − m_p·x_p)/(m − m_p).
///
/// Inputs: mass and place of the whole and of the part, along one axis.
/// Returns: place of what is left.
/// Valid for: a part lighter than the whole.
/// Source: definition of the centre of gravity.
#[must_use]
pub fn without(mass: Mass, at: Length, part: Mass, part_at: Length) -> Length {
    Length::from_si((mass.si() * at.si() - part.si() * part_at.si()) / (mass.si() - part.si()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn m(x: f64) -> Length {
        Length::from_si(x)
    }

    #[test]
    fn as_wide_as_high_it_tips_at_45_degrees_and_the_levers_agree_there() {
        let stance = Stance { lever: m(0.3), height: m(0.3) };
        assert!((stance.tips_at().si().to_degrees() - 45.0).abs() < 1e-12);
        for (lever, height) in [(0.3, 0.3), (0.2, 0.5), (0.6, 0.1)] {
            let stance = Stance { lever: m(lever), height: m(height) };
            let (holds, tips) = stance.levers(stance.tips_at(), Acceleration::ZERO);
            assert!((holds.si() - tips.si()).abs() < 1e-12);
        }
        assert_eq!(Stance { lever: m(-0.1), height: m(0.3) }.tips_at().si(), 0.0);
    }

    #[test]
    fn on_the_level_a_start_tips_it_at_g_times_lever_over_height() {
        let stance = Stance { lever: m(0.2), height: m(0.5) };
        let (holds, tips) = stance.levers(Angle::from_si(0.0), Acceleration::from_si(9.80665 * 0.4));
        assert!((holds.si() - tips.si()).abs() < 1e-12);
    }

    #[test]
    fn a_load_put_back_on_gives_the_whole_again() {
        let empty = without(Mass::from_si(60.0), m(0.455), Mass::from_si(18.0), m(0.42));
        assert!((42.0 * empty.si() + 18.0 * 0.42 - 60.0 * 0.455).abs() < 1e-12);
    }
}
