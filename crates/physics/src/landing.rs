//! Coming down: speed of impact, the mass that one end feels, and how deep a spring goes by energy alone.

use quantity::*;

/// Standard gravity, m/s² (ISO 80000-3).
pub const GRAVITY: f64 = 9.80665;

/// Speed at the end of a free fall, √(2·g·h).
///
/// Inputs: drop h (m) of the wheels.
/// Returns: m/s, downward.
/// Valid for: no air resistance, fall from rest; a slope that falls away takes off what it falls.
/// Source: textbook.
#[must_use]
pub fn impact_speed(drop: Length) -> Velocity {
    Velocity::from_si((2.0 * GRAVITY * drop.si().max(0.0)).sqrt())
}

/// Drop from the top of a jump by its time in the air, g·t²/8.
///
/// Inputs: time t (s) from leaving the ground to touching it, as filmed.
/// Returns: m.
/// Valid for: landing as high as the take-off; lower landings drop further.
/// Source: half the time rises, half falls: ½·g·(t/2)².
#[must_use]
pub fn drop_from_airtime(airtime: Time) -> Length {
    Length::from_si(GRAVITY * airtime.si().powi(2) / 8.0)
}

/// Mass that a landing on one end feels, m·k²/(k² + e²).
///
/// Inputs: mass m (kg); radius of gyration k (m) about the axis it will turn on; distance e (m) of the first contact from the line of
/// fall through the centre of gravity.
/// Returns: kg, the whole mass if it lands under its centre.
/// Valid for: a stiff body that does not turn yet, ground that does not drag it forward.
/// Source: impact off the centre of mass, textbook.
#[must_use]
pub fn effective_mass(mass: Mass, gyration: Length, eccentricity: Length) -> Mass {
    let (k2, e2) = (gyration.si().powi(2), eccentricity.si().powi(2));
    // A body without extent that is struck beside its centre only turns; on its centre it is a point.
    let share = if e2 == 0.0 { 1.0 } else { k2 / (k2 + e2) };
    Mass::from_si(mass.si() * share)
}

/// A straight spring between ground and mass, at the wheel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cushion {
    pub rate: SpringRate,
    /// Force at which it begins to move.
    pub preload: Force,
}

impl Cushion {
    /// Energy taken up to a depth, F₀·x + ½·k·x².
    ///
    /// Inputs: depth x (m).
    /// Returns: J.
    /// Valid for: up to the stop.
    /// Source: textbook.
    #[must_use]
    pub fn energy(&self, depth: Length) -> Energy {
        let x = depth.si();
        Energy::from_si(self.preload.si() * x + 0.5 * self.rate.si() * x * x)
    }

    /// Force at a depth.
    ///
    /// Inputs: depth x (m).
    /// Returns: N.
    /// Valid for: up to the stop.
    /// Source: textbook.
    #[must_use]
    pub fn force(&self, depth: Length) -> Force {
        Force::from_si(self.preload.si() + self.rate.si() * depth.si())
    }

    /// Depth at which a falling mass comes to rest, with nothing damping it: ½·m·v² + m·g·x = F₀·x + ½·k·x².
    ///
    /// Inputs: mass m (kg) on this spring; speed v (m/s) at contact.
    /// Returns: m; beyond the stop's travel it bottoms.
    /// Valid for: no damper, stiff ground: an upper bound.
    /// Source: conservation of energy, positive root of the quadratic.
    #[must_use]
    pub fn peak_depth(&self, mass: Mass, speed: Velocity) -> Length {
        let (m, v, k) = (mass.si(), speed.si(), self.rate.si());
        let held = self.preload.si() - m * GRAVITY;
        let root = (held * held + k * m * v * v).sqrt();
        // The form that keeps its digits for each sign of `held`.
        let x = if held > 0.0 { m * v * v / (held + root) } else { (root - held) / k };
        Length::from_si(x)
    }

    /// Energy still moving at a depth: what is left for the stop when the travel is used up.
    ///
    /// Inputs: mass m (kg); speed at contact (m/s); depth (m).
    /// Returns: J, negative if the spring would have stopped it before.
    /// Valid for: no damper.
    /// Source: conservation of energy.
    #[must_use]
    pub fn energy_left(&self, mass: Mass, speed: Velocity, depth: Length) -> Energy {
        let fallen = mass.si() * (0.5 * speed.si().powi(2) + GRAVITY * depth.si());
        Energy::from_si(fallen - self.energy(depth).si())
    }
}

/// A spring seen from the wheel, rate · r² and preload · r.
///
/// Inputs: rate (N/m) and preload (N) of the spring itself; motion ratio r, spring travel over wheel travel.
/// Returns: rate and preload at the wheel.
/// Valid for: a ratio that hardly changes over the travel.
/// Source: virtual work, textbook.
#[must_use]
pub fn at_wheel(rate: SpringRate, preload: Force, motion_ratio: Ratio) -> Cushion {
    let r = motion_ratio.si();
    Cushion { rate: SpringRate::from_si(rate.si() * r * r), preload: Force::from_si(preload.si() * r) }
}

/// Force of a spring, damper and stop as the wheel feels it, F·r.
///
/// Inputs: force F (N) at the damper; motion ratio r, damper travel over wheel travel.
/// Returns: force (N) at the wheel, upward from the ground; the unsprung mass below the damper adds its own share to the ground's.
/// Valid for: a ratio that hardly changes over the travel.
/// Source: virtual work, textbook: F·(r·x) = F_wheel·x.
#[must_use]
pub fn force_at_wheel(at_damper: Force, motion_ratio: Ratio) -> Force {
    at_damper * motion_ratio
}

/// Weight of a mass, m·g.
///
/// Inputs: mass m (kg).
/// Returns: N.
/// Valid for: on earth; gravity varies by 0.3 % either way.
/// Source: definition, standard gravity.
#[must_use]
pub fn weight(mass: Mass) -> Force {
    Force::from_si(mass.si() * GRAVITY)
}

/// Depth at which one spring holds a resting mass.
///
/// Inputs: spring at the wheel; mass (kg) resting on it.
/// Returns: sag (m), zero if the preload holds it.
/// Valid for: no friction.
/// Source: equilibrium.
#[must_use]
pub fn sag(cushion: &Cushion, mass: Mass) -> Length {
    Length::from_si(((mass.si() * GRAVITY - cushion.preload.si()) / cushion.rate.si()).max(0.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cushion(rate: f64, preload: f64) -> Cushion {
        Cushion { rate: SpringRate::from_si(rate), preload: Force::from_si(preload) }
    }
    fn kg(x: f64) -> Mass {
        Mass::from_si(x)
    }
    fn v(x: f64) -> Velocity {
        Velocity::from_si(x)
    }
    fn m(x: f64) -> Length {
        Length::from_si(x)
    }

    #[test]
    fn half_a_second_in_the_air_is_a_third_of_a_metre() {
        let drop = drop_from_airtime(Time::from_si(0.5));
        assert!((drop.si() - 0.306_457_8).abs() < 1e-6);
        assert!((impact_speed(drop).si() - GRAVITY * 0.25).abs() < 1e-12);
        assert_eq!(impact_speed(m(0.0)).si(), 0.0);
    }

    #[test]
    fn off_the_centre_a_part_of_the_mass_lands() {
        assert_eq!(effective_mass(kg(40.0), m(0.3), m(0.0)).si(), 40.0);
        assert!((effective_mass(kg(40.0), m(0.3), m(0.3)).si() - 20.0).abs() < 1e-12);
        assert_eq!(effective_mass(kg(40.0), m(0.0), m(0.3)).si(), 0.0);
        // A thin rod (k² = L²/12) on its end (e = L/2): a quarter.
        assert!((effective_mass(kg(40.0), m((1.0f64 / 12.0).sqrt()), m(0.5)).si() - 10.0).abs() < 1e-12);
    }

    #[test]
    fn a_mass_let_go_on_a_spring_sinks_twice_its_sag() {
        let c = cushion(4000.0, 0.0);
        let depth = c.peak_depth(kg(40.0), v(0.0)).si();
        assert!((depth - 2.0 * sag(&c, kg(40.0)).si()).abs() < 1e-12);
    }

    #[test]
    fn fast_on_a_hard_spring_it_is_the_textbook_blow() {
        // Without gravity's share: x = v·√(m/k).
        let x = cushion(1e9, 0.0).peak_depth(kg(40.0), v(3.0)).si();
        assert!((x / (3.0 * (40.0f64 / 1e9).sqrt()) - 1.0).abs() < 1e-3);
    }

    #[test]
    fn at_the_peak_nothing_moves_and_a_time_march_ends_there() {
        for (rate, preload, mass, speed) in [(7200.0, 60.0, 40.0, 3.0), (7200.0, 900.0, 10.0, 2.0)] {
            let c = cushion(rate, preload);
            let peak = c.peak_depth(kg(mass), v(speed));
            assert!(c.energy_left(kg(mass), v(speed), peak).si().abs() < 1e-9);
            let (mut x, mut u, dt) = (0.0, speed, 1e-6);
            while u > 0.0 {
                u += (GRAVITY - (preload + rate * x) / mass) * dt;
                x += u * dt;
            }
            assert!((x / peak.si() - 1.0).abs() < 1e-4, "{x} {}", peak.si());
            assert!(c.energy_left(kg(mass), v(speed), peak / 2.0).si() > 0.0);
        }
    }

    #[test]
    fn the_wheel_feels_the_square_of_the_motion_ratio_and_the_same_energy() {
        let own = cushion(10_000.0, 100.0);
        let wheel = at_wheel(own.rate, own.preload, Ratio::from_si(0.6));
        assert!((wheel.rate.si() - 3600.0).abs() < 1e-9);
        assert!((wheel.energy(m(0.1)).si() - own.energy(m(0.06)).si()).abs() < 1e-9);
        assert!((wheel.force(m(0.1)).si() - force_at_wheel(own.force(m(0.06)), Ratio::from_si(0.6)).si()).abs() < 1e-9);
    }
}
