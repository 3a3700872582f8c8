//! Bubbles in a coolant: how fast they rise, and what carries them along.

use crate::air::GRAVITY;
use crate::range::{OutsideRange, within};
use quantity::*;

/// Speed at which a small bubble of air rises, as if its skin were stiff: v = √(4·g·d/(3·C)), C = 24/Re·(1 + 0.15·Re^0.687).
///
/// Inputs: diameter d (m); density (kg/m³) and dynamic viscosity (Pa·s) of the liquid.
/// Returns: speed (m/s).
/// Valid for: bubbles up to 2 mm in coolants that are not perfectly clean, Re up to 1000, else refused: larger ones wobble.
/// Source: Schiller and Naumann 1933; Clift, Grace and Weber, Bubbles, Drops, and Particles (1978), ch. 5; published. Stokes'
/// law when slow.
pub fn rise_speed(
    diameter: Length,
    density: MassDensity,
    viscosity: DynamicViscosity,
) -> Result<Velocity, OutsideRange> {
    let d = within("bubble diameter", "m", 0.0, 2e-3, diameter.si())?;
    let (rho, mu) = (density.si(), viscosity.si());
    let stokes = GRAVITY * d * d * rho / (18.0 * mu);
    // v·(1 + 0.15·Re^0.687) = Stokes' speed: a rising function of v.
    let reynolds = |v: f64| rho * v * d / mu;
    let v = crate::root::rising(0.0, stokes, stokes, |v| v * (1.0 + 0.15 * reynolds(v).powf(0.687)));
    within("Reynolds number of the bubble", "", 0.0, 1000.0, reynolds(v))?;
    Ok(Velocity::from_si(v))
}

/// Speed at which a settling basin passes its flow downwards, Q/A: bubbles that rise faster leave it, whatever its depth.
///
/// Inputs: flow Q (m³/s); plan area A (m²).
/// Returns: speed (m/s).
/// Valid for: even flow; a jet from the inlet stirs it up.
/// Source: Hazen 1904, the surface load of a settling basin; published.
#[must_use]
pub fn surface_load(flow: VolumeRate, area: Area) -> Velocity {
    flow / area
}

/// Speed in a pipe from which on it carries its air pockets down with it, √(g·d).
///
/// Inputs: bore d (m).
/// Returns: speed (m/s).
/// Valid for: pipes down to upright ones; in bores below 5 mm the bubbles fill the bore and go with the flow anyway.
/// Source: common practice: a Froude number of 1; tests spread from 0.4 to 1.2, more on steep slopes (from memory).
#[must_use]
pub fn carrying_speed(bore: Length) -> Velocity {
    Velocity::from_si((GRAVITY * bore.si()).sqrt())
}

/// How far the level moves at the end of a tank that is tilted, l/2·tan θ.
///
/// Inputs: length l (m) along the slope; tilt θ (rad).
/// Returns: m, at either end.
/// Valid for: tilts below 80°, else refused; a level that reaches neither lid nor bottom.
/// Source: geometry.
pub fn tilted_level(length: Length, tilt: Angle) -> Result<Length, OutsideRange> {
    let angle = within("tilt", "rad", -1.4, 1.4, tilt.si())?;
    Ok(0.5 * length * angle.tan().abs())
}

/// Side of the square with an area.
///
/// Inputs: area (m²).
/// Returns: m.
/// Valid for: any.
/// Source: geometry.
#[must_use]
pub fn square_side(area: Area) -> Length {
    Length::from_si(area.si().sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rises(mm: f64, density: f64, viscosity: f64) -> f64 {
        let found =
            rise_speed(Length::from_si(mm * 1e-3), MassDensity::from_si(density), DynamicViscosity::from_si(viscosity));
        found.unwrap().si()
    }

    #[test]
    fn slow_bubbles_obey_stokes_and_fast_ones_the_drag() {
        // 1 mm in 0.5 Pa·s: g·d²·ρ/18µ = 1.21 mm/s.
        let slow = rises(1.0, 1110.0, 0.5);
        assert!((slow / (9.806_65 * 1e-6 * 1110.0 / 9.0) - 1.0).abs() < 0.01);
        // In tap water 1 mm rises at 0.11 m/s (Clift and others, fig. 7.3, contaminated; from memory).
        let water = rises(1.0, 998.2, 1.0016e-3);
        assert!((0.10..0.13).contains(&water), "{water}");
        // Second route: weight against drag.
        let re: f64 = 998.2 * water * 1e-3 / 1.0016e-3;
        let drag = 24.0 / re * (1.0 + 0.15 * re.powf(0.687));
        let force = drag * std::f64::consts::PI / 4.0 * 1e-6 * 998.2 * water * water / 2.0;
        assert!((force / (std::f64::consts::PI / 6.0 * 1e-9 * 998.2 * 9.806_65) - 1.0).abs() < 1e-9);
        assert!(
            (1..20)
                .all(|step| rises(f64::from(step) * 0.1, 1000.0, 0.01)
                    > rises(f64::from(step) * 0.1 - 0.05, 1000.0, 0.01))
        );
        assert!(rise_speed(Length::from_si(5e-3), MassDensity::from_si(1e3), DynamicViscosity::from_si(1e-3)).is_err());
    }

    #[test]
    fn a_tilted_tank_by_hand() {
        let tilt = |degrees: f64| tilted_level(Length::from_si(0.1), Angle::from_si(degrees.to_radians()));
        assert!((tilt(45.0).unwrap().si() - 0.05).abs() < 1e-12 && tilt(0.0).unwrap().si() == 0.0);
        assert!((tilt(-45.0).unwrap().si() - 0.05).abs() < 1e-12 && tilt(89.0).is_err());
        assert!((square_side(Area::from_si(1.44e-2)).si() - 0.12).abs() < 1e-12);
        assert!((carrying_speed(Length::from_si(6e-3)).si() - 0.2426).abs() < 1e-4);
        assert!((surface_load(VolumeRate::from_si(2e-5), Area::from_si(1e-3)).si() - 0.02).abs() < 1e-15);
    }
}
