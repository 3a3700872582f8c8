//! Nusselt numbers of air or liquid around bodies: blown over them, or rising by itself.

use crate::range::{OutsideRange, within};

/// Mean Nusselt number of flow along a flat plate, on its length.
///
/// Inputs: Re on the plate's length; Pr.
/// Returns: a plain number: laminar 0.664·Re^½·Pr^⅓ below Re 5·10⁵, turbulent from the leading edge above.
/// Valid for: Re up to 10⁷, Pr 0.6…2000; else refused. Rough or vibrating edges swirl much earlier: this is the low value.
/// Source: Baehr and Stephan, Heat and Mass Transfer (2013); Petukhov and Popov, VDI Heat Atlas (2010), G4; published.
pub fn plate(reynolds: f64, prandtl: f64) -> Result<f64, OutsideRange> {
    let re = within("Reynolds number", "", 0.0, 1e7, reynolds)?;
    let pr = within("Prandtl number", "", 0.6, 2000.0, prandtl)?;
    Ok(if re <= 5e5 { plate_laminar(re, pr) } else { plate_turbulent(re, pr) })
}

fn plate_laminar(re: f64, pr: f64) -> f64 {
    // Baehr and Stephan give the asymptote of thick liquids its own constant.
    let constant = if pr < 10.0 { 0.664 } else { 0.678 };
    constant * re.sqrt() * pr.cbrt()
}

fn plate_turbulent(re: f64, pr: f64) -> f64 {
    0.037 * re.powf(0.8) * pr / (1.0 + 2.443 * re.powf(-0.1) * (pr.powf(2.0 / 3.0) - 1.0))
}

/// Mean Nusselt number of flow across a cylinder, on its diameter.
///
/// Inputs: Re on the diameter; Pr.
/// Returns: a plain number.
/// Valid for: Re·Pr from 0.2, else refused; within 20 %.
/// Source: Churchill and Bernstein, J. Heat Transfer 99 (1977) 300; published.
pub fn cylinder(reynolds: f64, prandtl: f64) -> Result<f64, OutsideRange> {
    within("Reynolds times Prandtl number", "", 0.2, f64::INFINITY, reynolds * prandtl)?;
    let damping = (1.0 + (0.4 / prandtl).powf(2.0 / 3.0)).powf(0.25);
    let swirl = (1.0 + (reynolds / 282_000.0).powf(0.625)).powf(0.8);
    Ok(0.3 + 0.62 * reynolds.sqrt() * prandtl.cbrt() / damping * swirl)
}

/// Mean Nusselt number at a vertical wall in still air or liquid, on its height.
///
/// Inputs: Rayleigh number on the height; Pr.
/// Returns: a plain number.
/// Valid for: Ra up to 10¹², walls of even temperature.
/// Source: Churchill and Chu, Int. J. Heat Mass Transfer 18 (1975) 1323; published.
#[must_use]
pub fn vertical_plate(rayleigh: f64, prandtl: f64) -> f64 {
    (0.825 + 0.387 * rayleigh.powf(1.0 / 6.0) / (1.0 + (0.492 / prandtl).powf(9.0 / 16.0)).powf(8.0 / 27.0)).powi(2)
}

/// Mean Nusselt number around a horizontal cylinder in still air or liquid, on its diameter.
///
/// Inputs: Rayleigh number on the diameter; Pr.
/// Returns: a plain number.
/// Valid for: Ra 10⁻⁵…10¹², walls of even temperature.
/// Source: Churchill and Chu, Int. J. Heat Mass Transfer 18 (1975) 1049; published.
#[must_use]
pub fn horizontal_cylinder(rayleigh: f64, prandtl: f64) -> f64 {
    (0.60 + 0.387 * rayleigh.powf(1.0 / 6.0) / (1.0 + (0.559 / prandtl).powf(9.0 / 16.0)).powf(8.0 / 27.0)).powi(2)
}

/// Mean Nusselt number at a horizontal face from which the fluid gets away: hot face up, or cold face down.
///
/// Inputs: Rayleigh number on area over edge length.
/// Returns: a plain number; newer correlations differ by up to a quarter.
/// Valid for: Ra 10⁴…10¹¹; else refused.
/// Source: McAdams, Heat Transmission, 3rd edition; Bergman, ch. 9; published.
pub fn horizontal_plate_free(rayleigh: f64) -> Result<f64, OutsideRange> {
    let ra = within("Rayleigh number", "", 1e4, 1e11, rayleigh)?;
    Ok(if ra <= 1e7 { 0.54 * ra.powf(0.25) } else { 0.15 * ra.cbrt() })
}

/// Mean Nusselt number at a horizontal face under which the fluid is caught: hot face down, or cold face up.
///
/// Inputs: Rayleigh number on area over edge length.
/// Returns: a plain number; newer correlations go down to half of it.
/// Valid for: Ra 10⁴…10¹⁰; else refused.
/// Source: McAdams, Heat Transmission, 3rd edition; published.
pub fn horizontal_plate_caught(rayleigh: f64) -> Result<f64, OutsideRange> {
    Ok(0.27 * within("Rayleigh number", "", 1e4, 1e10, rayleigh)?.powf(0.25))
}

/// Nusselt number of a disc that turns by itself in still air, on its radius.
///
/// Inputs: Reynolds number ω·r²/ν; Pr.
/// Returns: a plain number; the coefficient k·Nu/r is then the same all over the disc.
/// Valid for: smooth flow, Re up to 2.4·10⁵, else refused; gases (Pr 0.6 to 1).
/// Source: Wagner, J. Applied Mechanics 15 (1948) 138: 0.335·√Re for Pr 0.74; Cobb and Saunders, Proc. Royal Society A 236
/// (1956) 343, found 0.36; published, from memory. It is taken to grow with Pr^½ nearby.
pub fn turning_disc(reynolds: f64, prandtl: f64) -> Result<f64, OutsideRange> {
    let re = within("Reynolds number of a turning disc", "", 0.0, 2.4e5, reynolds)?;
    let pr = within("Prandtl number", "", 0.6, 1.0, prandtl)?;
    Ok(0.335 * re.sqrt() * (pr / 0.74).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn printed_examples() {
        // Bergman, example 9.2: Ra 1.813·10⁹, Pr 0.69: Nu 147.
        assert!((vertical_plate(1.813e9, 0.69) - 147.0).abs() < 0.5);
        // Bergman, example 7.4, from memory: cylinder at Re 6071, Pr 0.70: Nu 40.6.
        assert!((cylinder(6071.0, 0.70).unwrap() - 40.6).abs() < 0.1);
    }

    #[test]
    fn a_disc_is_cooled_by_the_root_of_its_speed_and_less_than_by_wind_along_it() {
        let disc = |re: f64| turning_disc(re, 0.71).unwrap();
        assert!((disc(4e4) / disc(1e4) - 2.0).abs() < 1e-12 && disc(0.0) == 0.0);
        // Wind along a plate as long as the radius, at the speed of the rim, cools more: the disc's middle stands still.
        assert!(disc(1e5) < plate(1e5, 0.71).unwrap() && disc(1e5) > 0.4 * plate(1e5, 0.71).unwrap());
        assert!(turning_disc(3e5, 0.71).is_err() && turning_disc(1e4, 7.0).is_err());
    }

    #[test]
    fn refuses_outside() {
        assert!(plate(2e7, 0.7).is_err() && plate(1e4, 0.1).is_err() && cylinder(0.1, 0.7).is_err());
        assert!(horizontal_plate_free(1e3).is_err() && horizontal_plate_caught(1e11).is_err());
    }
}
