//! Pressure lost in pipes, channels and fittings. Friction factors are Darcy's, four times Fanning's.
//! Dimensionless groups are plain numbers.

use crate::range::{OutsideRange, within};
use quantity::*;

mod unsettled;

pub use unsettled::{ALL_SWIRL, FIRST_SWIRL, highest_friction};

/// Loss number of a pipe mouth that is flush with a tank wall and sharp, on the speed in the pipe.
///
/// Source: Crane TP-410 and Idelchik print 0.5, Rennels and Hudson 0.57; published.
pub const ENTRANCE_SHARP: f64 = 0.5;
/// Loss number where a pipe opens into a tank: the whole speed is lost. Twice that in laminar flow.
///
/// Source: Borda and Carnot; published.
pub const EXIT: f64 = 1.0;

/// Reynolds number v·d / ν: below 2300 the flow is smooth, above 4000 it swirls.
///
/// Inputs: mean speed v (m/s); diameter d (m), for other shapes the hydraulic one; kinematic viscosity ν (m²/s).
/// Returns: a plain number.
/// Valid for: any.
/// Source: definition.
#[must_use]
pub fn reynolds(speed: Velocity, diameter: Length, viscosity: KinematicViscosity) -> f64 {
    speed.si() * diameter.si() / viscosity.si()
}

/// Hydraulic diameter of a rectangular channel, 2ab/(a + b): four times the area over the wetted edge.
///
/// Inputs: sides a and b (m).
/// Returns: length (m).
/// Valid for: turbulent flow as a round pipe; laminar flow with [`rectangular_friction`].
/// Source: definition.
#[must_use]
pub fn hydraulic_diameter(width: Length, height: Length) -> Length {
    2.0 * width * height / (width + height)
}

/// Cross-section of a round bore, π·d²/4.
///
/// Inputs: diameter d (m).
/// Returns: area (m²).
/// Valid for: any.
/// Source: geometry.
#[must_use]
pub fn bore_area(diameter: Length) -> Area {
    std::f64::consts::FRAC_PI_4 * diameter * diameter
}

/// Darcy friction factor of a pipe in every flow regime.
///
/// Inputs: Reynolds number; roughness height over diameter.
/// Returns: a plain number; none at rest, where it would be infinite: use a small flow.
/// Valid for: all Re above 0, roughness 0…0.05. Between 2300 and 4000 the flow itself is not settled.
/// Source: Churchill, Chem. Eng. 84 (1977) 91; published. Within 1 % of 64/Re below 2000 and 3 % of Colebrook above 4000.
///
/// ```
/// assert!((physics::pipe::friction_factor(100.0, 0.0) - 0.64).abs() < 1e-9); // 64/Re
/// assert!((physics::pipe::friction_factor(1e5, 0.0) - 0.018).abs() < 2e-4); // Moody chart, smooth
/// ```
#[must_use]
pub fn friction_factor(reynolds: f64, relative_roughness: f64) -> f64 {
    friction_and_exponent(reynolds, relative_roughness).0
}

/// Darcy friction factor of a pipe, and by which power of the Reynolds number it changes there, d ln f / d ln Re.
///
/// Inputs: as [`friction_factor`].
/// Returns: two plain numbers; the power is −1 in smooth flow, −0.25…−0.17 in a smooth pipe with swirling flow, and towards 0
/// in a rough one.
/// Valid for: as [`friction_factor`].
/// Source: as [`friction_factor`]; the power is its derivative.
#[must_use]
pub fn friction_and_exponent(reynolds: f64, relative_roughness: f64) -> (f64, f64) {
    // So far down the other terms vanish beside the laminar one, to the last bit; thick coolants live here.
    if reynolds < 800.0 {
        return (64.0 / reynolds, -1.0);
    }
    // −ln of (7/Re)^0.9 + 0.27 ε/d, and by which power of Re the sum in it changes.
    let wall = 0.27 * relative_roughness;
    let (log, share) = if wall > 0.0 {
        let smooth = (7.0 / reynolds).powf(0.9);
        (-(smooth + wall).ln(), smooth / (smooth + wall))
    } else {
        (0.9 * (reynolds / 7.0).ln(), 1.0)
    };
    let (a, b) = ((2.457 * log).powi(16), (37_530.0 / reynolds).powi(16));
    let (laminar, swirling) = ((8.0 / reynolds).powi(12), 1.0 / ((a + b) * (a + b).sqrt()));
    let sum = laminar + swirling;
    let steeper = 16.0 * (a * 0.9 * share / log - b) / (a + b);
    // The twelfth root.
    let factor = 8.0 * sum.sqrt().sqrt().cbrt();
    (factor, (-laminar - swirling * steeper / 8.0) / sum)
}

/// Laminar friction of a rectangular channel, the product f·Re (Darcy), 64 in a round pipe.
///
/// Inputs: shorter over longer side, 0…1.
/// Returns: a plain number, 56.9 for a square to 96 for a slot; f = f·Re / Re on the hydraulic diameter.
/// Valid for: Re below 2300, away from the mouth; other ratios refused.
/// Source: Shah and London, Laminar Flow Forced Convection in Ducts (1978); published.
pub fn rectangular_friction(aspect: Ratio) -> Result<f64, OutsideRange> {
    let a = within("shorter over longer side", "", 0.0, 1.0, aspect.si())?;
    Ok(96.0 * (1.0 - 1.3553 * a + 1.9467 * a.powi(2) - 1.7012 * a.powi(3) + 0.9564 * a.powi(4) - 0.2537 * a.powi(5)))
}

/// Pressure lost to friction, f · L/d · ρv²/2.
///
/// Inputs: Darcy friction factor f; length L (m); (hydraulic) diameter d (m); density ρ (kg/m³); mean speed v (m/s).
/// Returns: pressure (Pa).
/// Valid for: settled flow of a liquid.
/// Source: Darcy and Weisbach; published.
#[must_use]
pub fn darcy_loss(friction: f64, length: Length, diameter: Length, density: MassDensity, speed: Velocity) -> Pressure {
    fitting_loss(friction * (length / diameter).si(), density, speed)
}

/// Pressure lost in a fitting, K · ρv²/2.
///
/// Inputs: loss number K; density ρ (kg/m³); speed v (m/s) that K is meant for.
/// Returns: pressure (Pa).
/// Valid for: fittings some diameters apart.
/// Source: definition.
#[must_use]
pub fn fitting_loss(loss_number: f64, density: MassDensity, speed: Velocity) -> Pressure {
    Pressure::from_si(loss_number * density.si() * speed.si() * speed.si() / 2.0)
}

/// Loss number of a bend by 90°, its own length included.
///
/// Inputs: bend radius of the centre line over the diameter; Darcy friction factor of the pipe, which brings in Re.
/// Returns: a plain number. Published methods differ by a factor of 1.5…3.
/// Valid for: radius over diameter from 0.5 (a corner sharp inside), else refused.
/// Source: Rennels and Hudson, Pipe Flow (2012), ch. 15; published.
pub fn bend_loss_number(radius_over_diameter: f64, friction: f64) -> Result<f64, OutsideRange> {
    let r = within("bend radius over diameter", "", 0.5, f64::INFINITY, radius_over_diameter)?;
    let sine = std::f64::consts::FRAC_PI_4.sin();
    Ok(friction * std::f64::consts::FRAC_PI_2 * r
        + (0.10 + 2.4 * friction) * sine
        + 6.6 * friction * (sine.sqrt() + sine) / (r * r))
}

/// What a bend by 90° loses beyond the friction of its own length, K = a + b·f: both numbers.
///
/// Inputs: bend radius of the centre line over the diameter.
/// Returns: a and b; f is Darcy's friction factor of the pipe.
/// Valid for: as [`bend_loss_number`].
/// Source: as [`bend_loss_number`], of which the length of the arc is left out: it counts with the pipe's.
pub fn bend_beyond_its_length(radius_over_diameter: f64) -> Result<(f64, f64), OutsideRange> {
    let r = within("bend radius over diameter", "", 0.5, f64::INFINITY, radius_over_diameter)?;
    let sine = std::f64::consts::FRAC_PI_4.sin();
    Ok((0.10 * sine, 2.4 * sine + 6.6 * (sine.sqrt() + sine) / (r * r)))
}

/// Loss number where a pipe suddenly widens, (1 − (d/D)²)², on the speed in the narrow pipe.
///
/// Inputs: narrow over wide diameter.
/// Returns: a plain number, 1 into a tank.
/// Valid for: 0…1, turbulent; else refused.
/// Source: Borda and Carnot; published.
pub fn expansion_loss_number(diameter_ratio: f64) -> Result<f64, OutsideRange> {
    let beta = within("narrow over wide diameter", "", 0.0, 1.0, diameter_ratio)?;
    Ok((1.0 - beta * beta).powi(2))
}

/// Loss number where a pipe suddenly narrows at a sharp edge, on the speed in the narrow pipe.
///
/// Inputs: narrow over wide diameter.
/// Returns: a plain number.
/// Valid for: 0…1, turbulent; else refused. A slight rounding of the edge halves it (common practice).
/// Source: Rennels and Hudson, Pipe Flow (2012), ch. 10; published.
pub fn contraction_loss_number(diameter_ratio: f64) -> Result<f64, OutsideRange> {
    let beta = within("narrow over wide diameter", "", 0.0, 1.0, diameter_ratio)?;
    let fifth = beta.powi(5);
    let jet = 1.0 + 0.622 * (1.0 - 0.215 * beta * beta - 0.785 * fifth);
    Ok(0.0696 * (1.0 - fifth) * jet * jet + (jet - 1.0).powi(2))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rectangles_as_tabulated() {
        // Shah and London, f·Re (Fanning) 14.227 square, 15.548 at 1:2, 18.233 at 1:4, 24 for a slot.
        for (aspect, fanning) in [(1.0, 14.227), (0.5, 15.548), (0.25, 18.233), (0.0, 24.0)] {
            let found = rectangular_friction(Ratio::from_si(aspect)).unwrap();
            assert!((found / (4.0 * fanning) - 1.0).abs() < 1e-3, "{aspect}: {found}");
        }
        assert!(rectangular_friction(Ratio::from_si(2.0)).is_err());
    }

    #[test]
    fn slow_flow_is_poiseuille() {
        // Second route: Δp = 128·µ·L·Q/(π·d⁴); 5 mm bore, 2 m, 4 mPa·s, 10 mL/s: Re 637·ρ/1000…
        let (d, l, mu, q, rho) = (5e-3, 2.0, 4e-3, 1e-5, 1050.0);
        let v = q / (std::f64::consts::PI * d * d / 4.0);
        let re = reynolds(Velocity::from_si(v), Length::from_si(d), KinematicViscosity::from_si(mu / rho));
        let f = friction_factor(re, 0.0);
        let loss =
            darcy_loss(f, Length::from_si(l), Length::from_si(d), MassDensity::from_si(rho), Velocity::from_si(v));
        let poiseuille = 128.0 * mu * l * q / (std::f64::consts::PI * d.powi(4));
        assert!((loss.si() / poiseuille - 1.0).abs() < 1e-3);
    }

    #[test]
    fn more_flow_never_loses_less() {
        for roughness in [0.0, 1e-3, 2e-2] {
            let mut before = 0.0;
            for step in 0..2000 {
                let re = 10f64.powf(f64::from(step) / 250.0);
                let loss = friction_factor(re, roughness) * re * re;
                assert!(loss > before, "Re {re}");
                before = loss;
            }
        }
    }

    #[test]
    fn the_power_is_the_slope_of_the_factor_and_the_short_ways_are_churchill() {
        let churchill = |re: f64, rough: f64| {
            let a = (2.457 * (1.0 / ((7.0 / re).powf(0.9) + 0.27 * rough)).ln()).powi(16);
            let b = (37_530.0 / re).powi(16);
            8.0 * ((8.0 / re).powi(12) + (a + b).powf(-1.5)).powf(1.0 / 12.0)
        };
        for rough in [0.0, 1e-4, 5e-2] {
            for step in 0..700 {
                let re = 10f64.powf(f64::from(step) / 100.0);
                let (factor, power) = friction_and_exponent(re, rough);
                assert!((factor / churchill(re, rough) - 1.0).abs() < 1e-13, "Re {re}");
                let slope = (friction_factor(1.0001 * re, rough) / friction_factor(re / 1.0001, rough)).ln();
                assert!((power - slope / (2.0 * 1.0001f64.ln())).abs() < 1e-4, "Re {re}: {power}");
            }
        }
        assert_eq!(friction_and_exponent(500.0, 0.0).1, -1.0);
        // Blasius: a quarter.
        assert!((friction_and_exponent(2e4, 0.0).1 + 0.25).abs() < 0.01);
    }

    #[test]
    fn a_bend_is_its_arc_and_what_goes_beyond() {
        for (r, f) in [(0.5, 0.03), (2.0, 0.64), (6.0, 0.02)] {
            let (a, b) = bend_beyond_its_length(r).unwrap();
            let arc = f * std::f64::consts::FRAC_PI_2 * r;
            assert!((arc + a + b * f - bend_loss_number(r, f).unwrap()).abs() < 1e-12);
        }
        assert!(bend_beyond_its_length(0.4).is_err());
    }

    #[test]
    fn steps_at_their_ends() {
        assert!((expansion_loss_number(0.0).unwrap() - EXIT).abs() < 1e-12);
        assert!(expansion_loss_number(1.0).unwrap().abs() < 1e-12);
        assert!(contraction_loss_number(1.0).unwrap().abs() < 1e-12);
        assert!(contraction_loss_number(1.2).is_err() && bend_loss_number(0.3, 0.02).is_err());
        let d = hydraulic_diameter(Length::from_si(4e-3), Length::from_si(4e-3));
        assert!((d.si() - 4e-3).abs() < 1e-15);
    }
}
