//! Friction of deep-groove ball bearings, and the heat of it.

use quantity::*;

/// Friction coefficient of a deep-groove ball bearing, referred to its bore, at a load of about a tenth of its rating.
///
/// Source: handbooks of rolling bearings (Palmgren 1959; Harris, Rolling Bearing Analysis, 4th edition, 2001, ch. 14) give
/// 0.0010 to 0.0015; published, from memory.
pub const FRICTION: f64 = 0.0015;

/// f0 of a deep-groove ball bearing full of grease. Source: as [`lubricant_moment`]; 1.5 to 2, from memory.
pub const GREASED: f64 = 1.75;

/// Moment of the load, M = µ·F·d/2.
///
/// Inputs: friction coefficient µ, [`FRICTION`] if unknown; load F (N); bore d (m).
/// Returns: torque (N·m).
/// Valid for: ball bearings that turn, neither tilted nor squeezed by their seat.
/// Source: Palmgren, Ball and Roller Bearing Engineering, 3rd edition (1959); published.
#[must_use]
pub fn load_moment(friction: Ratio, load: Force, bore: Length) -> Torque {
    Torque::from_si(friction.si() * load.si().abs() * bore.si() / 2.0)
}

/// Moment of the lubricant, M = 10⁻⁷·f0·(ν·n)^⅔·dm³ in N·mm, and 160·10⁻⁷·f0·dm³ where ν·n is under 2000.
///
/// Inputs: factor f0, [`GREASED`] for grease; viscosity ν (m²/s) of the oil in it as warm as it is; rotational speed (rad/s);
/// mean diameter dm (m) of the bearing.
/// Returns: torque (N·m); zero for one that stands still.
/// Valid for: run-in fillings; fresh grease takes several times as much in the first hour, stiff grease in the cold too.
/// Source: Palmgren 1959, in the units of Harris, ch. 14 (ν in mm²/s, n in 1/min, dm in mm); published, from memory.
#[must_use]
pub fn lubricant_moment(factor: f64, viscosity: KinematicViscosity, speed: AngularVelocity, mean: Length) -> Torque {
    let turns = speed.si().abs() * 30.0 / std::f64::consts::PI;
    if turns == 0.0 {
        return Torque::ZERO;
    }
    let product = viscosity.si() * 1e6 * turns;
    let lubricant = if product < 2000.0 { 160.0 } else { product.powf(2.0 / 3.0) };
    Torque::from_si(1e-7 * factor * lubricant * (mean.si() * 1e3).powi(3) * 1e-3)
}

/// Moment of two rubbing lips, ((d + D)/20)² + 10 in N·mm.
///
/// Inputs: bore d and outer diameter D (m).
/// Returns: torque (N·m) of both lips together.
/// Valid for: deep-groove ball bearings of 10 to 60 mm bore; new lips rub more.
/// Source: general catalogues of bearings, from memory (f3 = 20, f4 = 10 for rubber lips on both sides).
#[must_use]
pub fn lip_moment(bore: Length, outer: Length) -> Torque {
    let sum = (bore.si() + outer.si()) * 1e3;
    Torque::from_si(((sum / 20.0).powi(2) + 10.0) * 1e-3)
}

/// Heat of a moment, P = M·ω.
///
/// Inputs: torque (N·m); rotational speed (rad/s).
/// Returns: power (W).
/// Valid for: steady turning.
/// Source: mechanics.
#[must_use]
pub fn heat(moment: Torque, speed: AngularVelocity) -> Power {
    Power::from_si(moment.si().abs() * speed.si().abs())
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    fn rpm(turns: f64) -> AngularVelocity {
        AngularVelocity::from_si(turns * PI / 30.0)
    }

    #[test]
    fn both_laws_of_the_lubricant_meet() {
        let moment = |turns: f64| {
            lubricant_moment(1.0, KinematicViscosity::from_si(100e-6), rpm(turns), Length::from_si(0.02)).si()
        };
        // 2000^⅔ is 158.7, and 160 stands below it.
        assert!((moment(20.001) / moment(19.999) - 1.0).abs() < 0.01);
        assert_eq!((moment(0.0), moment(1.0)), (0.0, moment(10.0)));
        assert!((moment(8000.0) / moment(1000.0) - 4.0).abs() < 1e-9);
        // By hand: 10⁻⁷·(100·1000)^⅔·20³ = 1.7235 N·mm.
        assert!((moment(1000.0) * 1e3 - 1.723_5).abs() < 1e-3);
    }

    #[test]
    fn a_small_bearing_makes_about_a_watt() {
        // Common practice, no source: a sealed bearing of 12 mm bore at some hundred turns makes about 1 W.
        let (bore, outer) = (Length::from_si(0.012), Length::from_si(0.028));
        let load = load_moment(Ratio::from_si(FRICTION), Force::from_si(200.0), bore);
        let grease = lubricant_moment(GREASED, KinematicViscosity::from_si(100e-6), rpm(700.0), Length::from_si(0.02));
        let watts = heat(load + grease + lip_moment(bore, outer), rpm(700.0)).si();
        assert!((0.6..2.0).contains(&watts), "{watts}");
    }
}
