//! Two published sets of freezing points, and the safe side of both.

use super::{MOST, SET};
use crate::coolant::{Glycol, freezing_temperature};
use crate::range::{OutsideRange, within};
use crate::root::rising;
use quantity::*;

/// Least share of the mass for which the second set has a value, and its step.
const LEAST: f64 = 0.12;
const STEP: f64 = 0.02;

/// °C at mass fractions of 0.12, 0.14 … 0.60.
const ETHYLENE: [f64; 25] = [
    -4.048, -4.967, -5.932, -6.940, -7.991, -9.087, -10.232, -11.433, -12.697, -14.033, -15.451, -16.962, -18.576,
    -20.303, -22.151, -24.130, -26.246, -28.502, -30.900, -33.439, -36.115, -38.919, -41.838, -44.855, -47.949,
];
const PROPYLENE: [f64; 25] = [
    -3.989, -4.698, -5.448, -6.250, -7.112, -8.041, -9.045, -10.131, -11.306, -12.576, -13.950, -15.434, -17.035,
    -18.763, -20.626, -22.634, -24.796, -27.126, -29.634, -32.334, -35.241, -38.368, -41.732, -45.348, -49.234,
];

/// The second set alone; nothing below its least share.
fn second(glycol: Glycol, x: f64) -> Option<f64> {
    let table = match glycol {
        Glycol::Ethylene => &ETHYLENE,
        Glycol::Propylene => &PROPYLENE,
    };
    let place = (x - LEAST) / STEP;
    if place < 0.0 {
        return None;
    }
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 0 and 24")]
    let below = (place as usize).min(table.len() - 2);
    #[expect(clippy::cast_precision_loss, reason = "between 0 and 24")]
    let share = place - below as f64;
    let (low, high) = (table.get(below)?, table.get(below + 1)?);
    Some(low + share * (high - low))
}

/// Freezing points of a mixture by two published sets, the warmer first.
///
/// Inputs: which glycol; its mass fraction.
/// Returns: two temperatures (K), up to 3.3 K apart; the same twice below a mass fraction of 0.12, where only one is known.
/// Valid for: mass fractions of 0…0.6, else refused.
/// Source: [`freezing_temperature`], and ASHRAE Handbook Fundamentals 2001 as in the open-source library CoolProp 8.0.0, whose
/// volume fractions are turned into mass fractions at 20 °C; published. Straight between points 0.02 apart: within 0.02 K.
pub fn freezing_spread(
    glycol: Glycol,
    mass_fraction: Ratio,
) -> Result<(ThermodynamicTemperature, ThermodynamicTemperature), OutsideRange> {
    let first = freezing_temperature(glycol, mass_fraction)?;
    let Some(second) = second(glycol, mass_fraction.si()).map(celsius) else { return Ok((first, first)) };
    Ok(if second > first { (second, first) } else { (first, second) })
}

/// The warmer of the published freezing points: what a coolant is judged by.
///
/// Inputs: which glycol; its mass fraction.
/// Returns: temperature (K).
/// Valid for: as [`freezing_spread`].
/// Source: as [`freezing_spread`].
pub fn warmest_freezing(glycol: Glycol, mass_fraction: Ratio) -> Result<ThermodynamicTemperature, OutsideRange> {
    freezing_spread(glycol, mass_fraction).map(|(warmer, _)| warmer)
}

/// Temperature below which a mixture may burst what holds it, by the warmer of the published freezing lines.
///
/// Inputs: as [`burst_temperature`](super::burst_temperature).
/// Returns: temperature (K), the warmer freezing point of what is left liquid when [`SET`] of the mass is ice; never warmer than
/// the mixture's own.
/// Valid for: as [`burst_temperature`](super::burst_temperature).
/// Source: as [`burst_temperature`](super::burst_temperature) and [`freezing_spread`].
pub fn warmest_burst(glycol: Glycol, mass_fraction: Ratio) -> Result<ThermodynamicTemperature, OutsideRange> {
    let own = warmest_freezing(glycol, mass_fraction)?;
    let left = (mass_fraction.si() / (1.0 - SET)).min(MOST);
    let set = warmest_freezing(glycol, Ratio::from_si(left.max(mass_fraction.si())))?;
    Ok(if set < own { set } else { own })
}

/// Mass fraction of glycol with which a mixture is surely clear at a temperature: the warmer freezing line turned round.
///
/// Inputs: which glycol; temperature (K).
/// Returns: mass fraction.
/// Valid for: from the warmer freezing point at 0.6 to that of water, else refused.
/// Source: as [`freezing_spread`], solved by halving.
pub fn fraction_clear_at(glycol: Glycol, temperature: ThermodynamicTemperature) -> Result<Ratio, OutsideRange> {
    let at = |x: f64| warmest_freezing(glycol, Ratio::from_si(x));
    let t = within("freezing temperature", "K", at(MOST)?.si(), at(0.0)?.si(), temperature.si())?;
    Ok(Ratio::from_si(rising(0.0, MOST, -t, |x| at(x).map_or(f64::NAN, |freezes| -freezes.si()))))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_warmer_of_both_and_more_glycol_freezes_later() {
        for glycol in [Glycol::Ethylene, Glycol::Propylene] {
            let mut before = f64::INFINITY;
            for permille in 0..=600 {
                let x = Ratio::from_si(f64::from(permille) / 1000.0);
                let (warmer, colder) = freezing_spread(glycol, x).unwrap();
                let one = freezing_temperature(glycol, x).unwrap();
                assert!(warmer >= one && colder <= one && (warmer.si() - colder.si()) < 3.3);
                // Where the second set begins the warmer of both may step up by a tenth of a kelvin.
                assert!(warmer.si() < before + if permille == 120 { 0.2 } else { 0.0 }, "{glycol:?} {permille}");
                before = warmer.si();
            }
        }
        assert!(freezing_spread(Glycol::Ethylene, Ratio::from_si(0.61)).is_err());
    }

    #[test]
    fn it_bursts_no_sooner_than_it_freezes_and_no_later_than_by_one_set_alone() {
        for glycol in [Glycol::Ethylene, Glycol::Propylene] {
            for percent in 0..=60 {
                let x = Ratio::from_si(f64::from(percent) / 100.0);
                let bursts = warmest_burst(glycol, x).unwrap();
                assert!(bursts <= warmest_freezing(glycol, x).unwrap());
                assert!(bursts.si() >= super::super::burst_temperature(glycol, x).unwrap().si() - 1e-9);
            }
            for degrees in [-5.0, -20.0, -38.0] {
                let x = fraction_clear_at(glycol, celsius(degrees)).unwrap();
                assert!((warmest_freezing(glycol, x).unwrap().si() - celsius(degrees).si()).abs() < 1e-6);
            }
        }
        assert!(fraction_clear_at(Glycol::Ethylene, celsius(-49.0)).is_err());
    }
}
