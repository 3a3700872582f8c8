//! A damper's force over its speed, from what is known of it: holes and oil, a maker's curve, or a weight that sank on it.

use crate::damper::{Valving, resistance};
use crate::landing::GRAVITY;
use crate::range::{OutsideRange, within};
use quantity::*;

/// Force against the motion over speed, one way.
#[derive(Debug, Clone, PartialEq)]
pub enum Law {
    /// F = c·v + q·v²: what an oil resists with by its thickness, and by its mass.
    Oil { thick: f64, swift: f64 },
    /// Straight from point to point, from rest on (m/s, N), rising; past the last point as steep as before it.
    Points(Vec<(f64, f64)>),
}

impl Law {
    /// Of a piston with holes, see [`crate::damper::stroke`].
    ///
    /// Inputs: the piston; dynamic viscosity µ (Pa·s) and density ρ (kg/m³) of the oil.
    /// Returns: the law, exactly that of the stroke.
    /// Valid for: as the stroke.
    /// Source: the stroke's two terms, gathered.
    #[must_use]
    pub fn holes(valving: &Valving, viscosity: DynamicViscosity, density: MassDensity) -> Self {
        let (thick, swift) = resistance(valving, viscosity, density);
        Self::Oil { thick, swift }
    }

    /// Force at a rate that does not depend on speed, F = c·v.
    ///
    /// Inputs: rate c (N·s/m).
    /// Returns: the law.
    /// Valid for: slow strokes, thick oil.
    /// Source: definition.
    #[must_use]
    pub fn steady(rate: DampingRate) -> Self {
        Self::Oil { thick: rate.si(), swift: 0.0 }
    }

    /// Through the points of a maker's curve, all forces times a factor for oil of another thickness.
    ///
    /// Inputs: points in rising order of speed (m/s, N); factor, viscosity over that of the oil when the curve was taken.
    /// Returns: the law.
    /// Valid for: twice the curve's last speed. With the factor all of the force counts as viscous, which is too much where
    /// some of it comes from the oil's mass or from springs on the valves.
    /// Source: definition; Hagen–Poiseuille for the factor.
    ///
    /// # Errors
    /// No point that moves, or a force that falls with speed.
    pub fn points(points: &[(Velocity, Force)], factor: Ratio) -> Result<Self, OutsideRange> {
        let mut law: Vec<(f64, f64)> = vec![(0.0, 0.0)];
        for (speed, force) in points {
            let (was, force) = (law.last().map_or(0.0, |last| last.1), force.si() * factor.si());
            within("the damper's force, which may not fall as its speed rises", "N", was, f64::MAX, force)?;
            if speed.si() > 0.0 {
                law.push((speed.si(), force));
            } else if let Some(first) = law.first_mut() {
                first.1 = force;
            }
        }
        within("points of the damper's curve at some speed", "", 1.0, 1e6, (law.len() - 1) as f64)?;
        Ok(Self::Points(law))
    }

    /// Force (N) at a speed (m/s) of zero or more; numbers, for a solver asks often.
    #[must_use]
    pub fn force(&self, speed: f64) -> f64 {
        match self {
            Self::Oil { thick, swift } => speed * (thick + swift * speed),
            Self::Points(points) => interpolated(points, speed),
        }
    }

    /// Highest speed (m/s) for which it is known.
    #[must_use]
    pub fn known_to(&self) -> f64 {
        match self {
            Self::Oil { .. } => f64::INFINITY,
            Self::Points(points) => 2.0 * points.last().map_or(0.0, |last| last.0),
        }
    }

    /// Speed at which a force pushes the piston: the inverse of [`Self::force`].
    ///
    /// Inputs: force (N).
    /// Returns: speed (m/s), zero for a force that moves nothing.
    /// Valid for: as the law.
    /// Source: positive root of the quadratic; straight lines.
    #[must_use]
    pub fn speed_under(&self, force: Force) -> Velocity {
        let force = force.si().max(0.0);
        Velocity::from_si(match self {
            // The form of the root that does not lose its digits when the oil is thick.
            Self::Oil { thick, swift } if force > 0.0 => {
                2.0 * force / (thick + (thick * thick + 4.0 * swift * force).sqrt())
            }
            Self::Oil { .. } => 0.0,
            Self::Points(points) => {
                let swapped: Vec<(f64, f64)> = points.iter().map(|(speed, force)| (*force, *speed)).collect();
                interpolated(&swapped, force).max(0.0)
            }
        })
    }

    /// Rate (N·s/m) of the first small movement.
    #[must_use]
    pub fn at_rest(&self) -> DampingRate {
        DampingRate::from_si(match self {
            Self::Oil { thick, .. } => *thick,
            Self::Points(points) => match points.as_slice() {
                [(_, still), (speed, force), ..] => (force - still) / speed,
                _ => 0.0,
            },
        })
    }
}

/// Straight between rising points, beyond the last one as steep as before it.
fn interpolated(points: &[(f64, f64)], x: f64) -> f64 {
    let mut at = (0.0, 0.0, 0.0);
    for pair in points.windows(2) {
        if let [(x0, y0), (x1, y1)] = pair {
            at = (*x0, *y0, if x1 > x0 { (y1 - y0) / (x1 - x0) } else { 0.0 });
            if x <= *x1 {
                break;
            }
        }
    }
    at.1 + at.2 * (x - at.0)
}

/// Damping rate by a weight that sinks, c = m·g·t/s.
///
/// Inputs: weight m (kg) on the rod, the rod's own counted in; way s (m) that it went in; time t (s).
/// Returns: N·s/m; infinite where it did not move.
/// Valid for: slow sinking, so that the oil resists by its thickness alone; without the seal's friction, which makes the
/// true rate a little lower.
/// Source: equilibrium of weight and resistance.
#[must_use]
pub fn rate_from_sinking(weight: Mass, sank: Length, within: Time) -> DampingRate {
    DampingRate::from_si(weight.si() * GRAVITY * within.si() / sank.si())
}

/// Damping rate at a temperature between two at which it was tested, ln c straight over 1/T.
///
/// Inputs: temperature and rate of the colder and of the warmer test; temperature T.
/// Returns: N·s/m.
/// Valid for: between the tests and 10 K beyond either, outside it refuses: past a cold test the oil may gel.
/// Source: Andrade's law of liquids, published.
///
/// # Errors
/// Outside that range, tests less than 5 K apart, or a damper that is thinner when cold.
pub fn rate_between(
    cold: (ThermodynamicTemperature, DampingRate),
    warm: (ThermodynamicTemperature, DampingRate),
    at: ThermodynamicTemperature,
) -> Result<DampingRate, OutsideRange> {
    let (t0, t1) = (cold.0.si(), warm.0.si());
    within("between the damper's cold and warm test", "K", 5.0, 200.0, t1 - t0)?;
    within("the damper's resistance in the warm test", "N·s/m", 0.0, cold.1.si(), warm.1.si())?;
    within(
        "temperature of the damper, from its cold test to its warm one",
        "°C",
        t0 - 283.15,
        t1 - 263.15,
        at.si() - 273.15,
    )?;
    let slope = (cold.1.si() / warm.1.si()).ln() / (1.0 / t0 - 1.0 / t1);
    Ok(DampingRate::from_si(warm.1.si() * (slope * (1.0 / at.si() - 1.0 / t1)).exp()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(x: f64) -> Length {
        Length::from_si(x * 1e-3)
    }

    #[test]
    fn holes_are_the_stroke_and_both_ways_agree() {
        let valving = Valving {
            bore: mm(16.0),
            rod: mm(4.0),
            holes: Ratio::from_si(3.0),
            hole_diameter: mm(1.2),
            hole_length: mm(3.0),
        };
        let (mu, rho) = (DynamicViscosity::from_si(0.3), MassDensity::from_si(960.0));
        let law = Law::holes(&valving, mu, rho);
        for speed in [1e-3, 0.1, 2.0] {
            let stroke = crate::damper::stroke(&valving, Velocity::from_si(speed), mu, rho).force.si();
            assert!((law.force(speed) / stroke - 1.0).abs() < 1e-12);
            assert!((law.speed_under(Force::from_si(stroke)).si() / speed - 1.0).abs() < 1e-12);
        }
        assert_eq!(law.speed_under(Force::ZERO).si(), 0.0);
        assert!((law.at_rest().si() / (law.force(1e-9) / 1e-9) - 1.0).abs() < 1e-6);
    }

    #[test]
    fn a_curve_runs_through_its_points_and_on_as_steep_as_it_ends() {
        let points = [(0.1, 80.0), (0.5, 200.0), (1.0, 250.0)]
            .map(|(speed, force)| (Velocity::from_si(speed), Force::from_si(force)));
        let law = Law::points(&points, Ratio::from_si(1.0)).unwrap();
        for (speed, force) in [(0.0, 0.0), (0.05, 40.0), (0.1, 80.0), (0.3, 140.0), (1.0, 250.0), (2.0, 350.0)] {
            assert!((law.force(speed) - force).abs() < 1e-9, "{speed}");
            assert!((law.speed_under(Force::from_si(force)).si() - speed).abs() < 1e-9, "{force}");
        }
        assert!((law.known_to() - 2.0).abs() < 1e-12 && (law.at_rest().si() - 800.0).abs() < 1e-9);
        let twice = Law::points(&points, Ratio::from_si(2.0)).unwrap();
        assert!((twice.force(0.3) - 280.0).abs() < 1e-9);
        let falls = [(0.1, 80.0), (0.5, 60.0)].map(|(v, f)| (Velocity::from_si(v), Force::from_si(f)));
        assert!(Law::points(&falls, Ratio::from_si(1.0)).is_err() && Law::points(&[], Ratio::from_si(1.0)).is_err());
    }

    #[test]
    fn a_straight_curve_is_a_steady_rate() {
        let steady = Law::steady(DampingRate::from_si(500.0));
        let points = [(Velocity::from_si(1.0), Force::from_si(500.0))];
        let curve = Law::points(&points, Ratio::from_si(1.0)).unwrap();
        for speed in [0.0, 0.3, 1.0, 7.0] {
            assert!((steady.force(speed) - curve.force(speed)).abs() < 1e-9);
        }
    }

    #[test]
    fn a_weight_that_sinks_by_hand() {
        // 5 kg, 40 mm in 2 s: 49.03 N at 20 mm/s.
        let rate = rate_from_sinking(Mass::from_si(5.0), mm(40.0), Time::from_si(2.0));
        assert!((rate.si() - 5.0 * 9.80665 / 0.02).abs() < 1e-9);
        assert!(rate_from_sinking(Mass::from_si(5.0), Length::ZERO, Time::from_si(60.0)).si().is_infinite());
    }

    #[test]
    fn between_two_tests_it_follows_a_silicone_oil_within_a_few_per_cent() {
        let oil = crate::oil::Silicone::from_label(KinematicViscosity::from_si(350e-6), Ratio::from_si(0.6)).unwrap();
        let nu = |t: f64| oil.viscosity(celsius(t), celsius(-50.0)).unwrap().si() * 1e6;
        let test = |t: f64| (celsius(t), DampingRate::from_si(nu(t)));
        for t in [-25.0, -18.0, 0.0, 20.0] {
            let rate = rate_between(test(-18.0), test(20.0), celsius(t)).unwrap().si();
            assert!((rate / nu(t) - 1.0).abs() < 1e-9, "{t}");
        }
        assert!(rate_between(test(-18.0), test(20.0), celsius(-30.0)).is_err());
        assert!(rate_between(test(20.0), test(-18.0), celsius(0.0)).is_err());
        let thinner = (celsius(-18.0), DampingRate::from_si(1.0));
        assert!(rate_between(thinner, test(20.0), celsius(0.0)).is_err());
    }
}
