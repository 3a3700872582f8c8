//! Nusselt numbers of flow inside tubes and channels, on the (hydraulic) diameter.

use crate::range::{OutsideRange, within};
use quantity::*;

/// Laminar, settled, wall of even temperature. Source: Graetz; Bergman, ch. 8; published.
pub const LAMINAR_EVEN_TEMPERATURE: f64 = 3.66;
/// Laminar, settled, wall of even heat flow. Source: 48/11; Bergman, ch. 8; published.
pub const LAMINAR_EVEN_HEAT: f64 = 48.0 / 11.0;

/// Mean Nusselt number of laminar flow in a tube of even wall temperature, with its warming-up length.
///
/// Inputs: Re; Pr; diameter over length.
/// Returns: a plain number, 3.66 in a long tube.
/// Valid for: Re below 2300, Pr from 5, or any Pr where the flow has settled.
/// Source: Hausen 1943; Bergman and others, Introduction to Heat Transfer, 6th edition, ch. 8; published.
#[must_use]
pub fn laminar(reynolds: f64, prandtl: f64, diameter_over_length: f64) -> f64 {
    let graetz = diameter_over_length * reynolds * prandtl;
    LAMINAR_EVEN_TEMPERATURE + 0.0668 * graetz / (1.0 + 0.04 * graetz.powf(2.0 / 3.0))
}

/// Mean Nusselt number of smooth flow that warms up along a tube or channel of even wall temperature:
/// (Nu³ + 0.7³ + (1.615·Gz^⅓ − 0.7)³)^⅓, Nu where it has settled.
///
/// Inputs: settled Nusselt number (3.66 in a round tube); Graetz number Re·Pr·d/L, d hydraulic.
/// Returns: a plain number.
/// Valid for: any Graetz number; velocity settled at the inlet, which is the safe side. Within 2 % of Graetz's series; Hausen's
/// form, [`laminar`], is up to 11 % higher above Gz 200.
/// Source: Gnielinski, VDI Heat Atlas (2010), G1, a blend of Graetz's and Lévêque's ends; published, from memory.
#[must_use]
pub fn warming_up(settled: f64, graetz: f64) -> f64 {
    let early = 1.615 * graetz.max(0.0).cbrt() - 0.7;
    (settled * settled * settled + 0.343 + early * early * early).cbrt()
}

/// By how much the film is better or worse because the liquid at the wall is thinner or thicker, (µ/µ_wall)^0.14.
///
/// Inputs: dynamic viscosity of the liquid over that at the wall.
/// Returns: a plain number, below 1 where thick liquid is cooled.
/// Valid for: ratios of 0.0044…9.75, beyond as at the nearer end; smooth and swirling flow.
/// Source: Sieder and Tate, Ind. Eng. Chem. 28 (1936) 1429; published.
#[must_use]
pub fn wall_viscosity(bulk_over_wall: f64) -> f64 {
    bulk_over_wall.clamp(0.0044, 9.75).powf(0.14)
}

/// Nusselt number of turbulent flow in a tube.
///
/// Inputs: Re; Pr; Darcy friction factor.
/// Returns: a plain number.
/// Valid for: Re 3000…5·10⁶ and Pr 0.5…2000, within 10 %; else refused.
/// Source: Gnielinski, Int. Chem. Eng. 16 (1976) 359; published.
pub fn turbulent(reynolds: f64, prandtl: f64, friction: f64) -> Result<f64, OutsideRange> {
    Ok(gnielinski(within("Reynolds number", "", 3000.0, 5e6, reynolds)?, within_prandtl(prandtl)?, friction))
}

fn within_prandtl(prandtl: f64) -> Result<f64, OutsideRange> {
    within("Prandtl number", "", 0.5, 2000.0, prandtl)
}

fn gnielinski(re: f64, pr: f64, f: f64) -> f64 {
    (f / 8.0) * (re - 1000.0) * pr / (1.0 + 12.7 * (f / 8.0).sqrt() * (pr.powf(2.0 / 3.0) - 1.0))
}

/// Mean Nusselt number of flow in a tube at any Reynolds number.
///
/// Inputs: Re; Pr; diameter over length; roughness over diameter.
/// Returns: a plain number: [`warming_up`] below 2300, [`turbulent`] above 4000 with the friction factor of `pipe`, and
/// between them a straight line in Re from the one at 2300 to the other at 4000.
/// Valid for: Pr 0.5…2000, Re up to 5·10⁶; else refused.
/// Source: the line: Gnielinski, Int. J. Heat Mass Transfer 63 (2013) 134; published.
pub fn tube(
    reynolds: f64,
    prandtl: f64,
    diameter_over_length: f64,
    relative_roughness: f64,
) -> Result<f64, OutsideRange> {
    let (calm, swirling) = (2300.0, 4000.0);
    let re = within("Reynolds number", "", 0.0, 5e6, reynolds)?;
    let pr = within_prandtl(prandtl)?;
    let above = |re: f64| gnielinski(re, pr, crate::pipe::friction_factor(re, relative_roughness));
    if re >= swirling {
        return Ok(above(re));
    }
    let share = ((re - calm) / (swirling - calm)).max(0.0);
    let below = warming_up(LAMINAR_EVEN_TEMPERATURE, diameter_over_length * re.min(calm) * pr);
    Ok(if share > 0.0 { (1.0 - share) * below + share * above(swirling) } else { below })
}

/// Laminar Nusselt number of a rectangular channel whose four walls have one even temperature.
///
/// Inputs: shorter over longer side, 0…1.
/// Returns: a plain number, 2.98 for a square to 7.54 for a slot.
/// Valid for: Re below 2300, away from the mouth, so low for short channels; other ratios refused.
/// Source: Shah and London, Laminar Flow Forced Convection in Ducts (1978); published.
pub fn rectangle_even_temperature(aspect: Ratio) -> Result<f64, OutsideRange> {
    let a = within("shorter over longer side", "", 0.0, 1.0, aspect.si())?;
    Ok(7.541 * (1.0 - 2.610 * a + 4.970 * a.powi(2) - 5.119 * a.powi(3) + 2.702 * a.powi(4) - 0.548 * a.powi(5)))
}

/// Laminar Nusselt number of a rectangular channel heated evenly along its length (metal walls, even around).
///
/// Inputs: shorter over longer side, 0…1.
/// Returns: a plain number, 3.61 for a square to 8.24 for a slot.
/// Valid for: as [`rectangle_even_temperature`].
/// Source: Shah and London (1978); published.
pub fn rectangle_even_heat(aspect: Ratio) -> Result<f64, OutsideRange> {
    let a = within("shorter over longer side", "", 0.0, 1.0, aspect.si())?;
    Ok(8.235 * (1.0 - 2.0421 * a + 3.0853 * a.powi(2) - 2.4765 * a.powi(3) + 1.0578 * a.powi(4) - 0.1861 * a.powi(5)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rectangles_as_tabulated() {
        // Bergman, table 8.1: 2.98 and 3.61 square, 3.39 and 4.12 at 1:2, 7.54 and 8.23 between plates.
        for (aspect, temperature, heat) in [(1.0, 2.98, 3.61), (0.5, 3.39, 4.12), (0.0, 7.54, 8.23)] {
            let aspect = Ratio::from_si(aspect);
            assert!((rectangle_even_temperature(aspect).unwrap() - temperature).abs() < 0.01);
            assert!((rectangle_even_heat(aspect).unwrap() - heat).abs() < 0.01);
        }
    }

    #[test]
    fn warming_up_follows_the_series_of_graetz() {
        // λ and weights of Graetz's problem: Shah and London (1978), from memory; beyond, their own asymptotes.
        let known: [(f64, f64); 5] = [
            (2.704_364_42, 0.748_774_555),
            (6.679_031_45, 0.543_827_956),
            (10.673_379_54, 0.462_861_060),
            (14.671_078_46, 0.415_418_455),
            (18.669_871_86, 0.382_919_188),
        ];
        let mean = |graetz: f64| {
            let x = 1.0 / graetz;
            let term =
                |(lambda, weight): (f64, f64)| 8.0 * weight / (lambda * lambda) * (-2.0 * lambda * lambda * x).exp();
            let beyond = (5..2000).map(|n| {
                let lambda = 4.0 * f64::from(n) + 8.0 / 3.0;
                term((lambda, 1.012_787 / lambda.cbrt()))
            });
            let left: f64 = known.into_iter().map(term).sum::<f64>() + beyond.sum::<f64>();
            -left.ln() / (4.0 * x)
        };
        let mut hausen = 0.0f64;
        for step in 0..40 {
            let graetz = 10f64.powf(f64::from(step) / 8.0 - 1.0);
            let series = mean(graetz);
            let ours = warming_up(LAMINAR_EVEN_TEMPERATURE, graetz);
            assert!((ours / series - 1.0).abs() < 0.02, "Gz {graetz}: {ours} and {series}");
            hausen = hausen.max(laminar(graetz, 1.0, 1.0) / series - 1.0);
        }
        assert!(hausen > 0.08, "what this replaces: {hausen}");
        assert!((warming_up(2.98, 0.0) - 2.98).abs() < 1e-12);
    }

    #[test]
    fn liquid_that_is_thick_at_the_wall_takes_less() {
        assert!(wall_viscosity(1.0) == 1.0 && wall_viscosity(0.1) < 0.73 && wall_viscosity(2.0) > 1.1);
        assert!(wall_viscosity(1e-9) == wall_viscosity(0.0044) && wall_viscosity(1e9) == wall_viscosity(9.75));
    }

    #[test]
    fn no_jump_from_calm_to_swirling() {
        for (re, pr) in [(2300.0, 7.0), (4000.0, 7.0), (2300.0, 90.0), (4000.0, 90.0)] {
            let (left, right) = (tube(re - 1e-6, pr, 0.02, 0.0).unwrap(), tube(re + 1e-6, pr, 0.02, 0.0).unwrap());
            assert!((left / right - 1.0).abs() < 1e-6);
        }
        assert!(tube(1e4, 0.1, 0.0, 0.0).is_err() && turbulent(2500.0, 7.0, 0.04).is_err());
    }
}
