//! What cold makes of a mixture of glycol and water: slush first, and a block that bursts what holds it some kelvins lower.

use crate::coolant::{Glycol, freezing_temperature};
use crate::range::{OutsideRange, within};
use crate::root::rising;
use quantity::*;

mod spread;

pub use spread::{fraction_clear_at, freezing_spread, warmest_burst, warmest_freezing};

/// Most glycol in a mixture whose freezing line is known.
const MOST: f64 = 0.6;

/// Share of ice at which slush is taken to have set: it no longer gives way, and what still freezes presses outwards.
///
/// Common practice, no source: with a quarter, [`burst_temperature`] lies 0…9 K on the safe side of a textbook's chart of
/// burst protection, and nowhere more than 1 K on the other.
pub const SET: f64 = 0.25;

/// Share of the mass of a mixture that is ice, 1 − x/x(T): the water freezes out until what is left freezes no more.
///
/// Inputs: which glycol; its mass fraction x in the whole mixture; temperature (K).
/// Returns: a share of the mass; none above the freezing point.
/// Valid for: mass fractions of 0…0.6, temperatures down to the freezing point at 0.6; else refused.
/// Source: the lever rule of the phase diagram; Melinder and Granryd, Int. J. Refrigeration 28 (2005) 13; published.
pub fn ice_share(
    glycol: Glycol,
    mass_fraction: Ratio,
    temperature: ThermodynamicTemperature,
) -> Result<Ratio, OutsideRange> {
    let freezes = freezing_temperature(glycol, mass_fraction)?;
    if temperature >= freezes {
        return Ok(Ratio::from_si(0.0));
    }
    Ok(Ratio::from_si(1.0) - mass_fraction / fraction_freezing_at(glycol, temperature)?)
}

/// Mass fraction of glycol with which a mixture freezes at a temperature: its freezing line turned round.
///
/// Inputs: which glycol; temperature (K).
/// Returns: mass fraction.
/// Valid for: from the freezing point at 0.6 to that of water, else refused.
/// Source: as [`freezing_temperature`], solved by halving.
pub fn fraction_freezing_at(glycol: Glycol, temperature: ThermodynamicTemperature) -> Result<Ratio, OutsideRange> {
    let at = |x: f64| freezing_temperature(glycol, Ratio::from_si(x));
    let t = within("freezing temperature", "K", at(MOST)?.si(), at(0.0)?.si(), temperature.si())?;
    // The line falls with the fraction; turned over, it rises.
    Ok(Ratio::from_si(rising(0.0, MOST, -t, |x| at(x).map_or(f64::NAN, |freezes| -freezes.si()))))
}

/// Temperature at which a share of the mass of a mixture is ice: the freezing point of what is left liquid, x/(1 − share).
///
/// Inputs: which glycol; its mass fraction x; the share.
/// Returns: temperature (K).
/// Valid for: mass fractions of 0…0.6·(1 − share), else refused.
/// Source: as [`ice_share`], turned round.
pub fn temperature_at_ice_share(
    glycol: Glycol,
    mass_fraction: Ratio,
    share: Ratio,
) -> Result<ThermodynamicTemperature, OutsideRange> {
    let left = 1.0 - share.si();
    let x = within("glycol mass fraction", "", 0.0, MOST * left, mass_fraction.si())?;
    freezing_temperature(glycol, Ratio::from_si((x / left).min(MOST)))
}

/// Temperature below which a mixture of glycol and water may burst what holds it: [`SET`] of its mass is ice.
///
/// Inputs: which glycol; its mass fraction.
/// Returns: temperature (K). Of a mixture with more than 0.45 of glycol, which sets below the last known point of the
/// freezing line, that point: it bursts later still.
/// Valid for: mass fractions of 0…0.6, else refused. Slush that has room to flow into does not press: safe side.
/// Source: as [`ice_share`]; the share is common practice, no source.
pub fn burst_temperature(glycol: Glycol, mass_fraction: Ratio) -> Result<ThermodynamicTemperature, OutsideRange> {
    let x = within("glycol mass fraction", "", 0.0, MOST, mass_fraction.si())?;
    temperature_at_ice_share(glycol, Ratio::from_si(x.min(MOST * (1.0 - SET))), Ratio::from_si(SET))
}

#[cfg(test)]
mod tests {
    use super::*;

    const BOTH: [Glycol; 2] = [Glycol::Ethylene, Glycol::Propylene];

    #[test]
    fn share_and_temperature_are_one_line() {
        for glycol in BOTH {
            for percent in 1..=40 {
                let x = Ratio::from_si(f64::from(percent) / 100.0);
                for share in [0.05, 0.15, 0.25] {
                    let at = temperature_at_ice_share(glycol, x, Ratio::from_si(share)).unwrap();
                    assert!((ice_share(glycol, x, at).unwrap().si() - share).abs() < 1e-9, "{glycol:?} {x:?}");
                }
                let freezes = freezing_temperature(glycol, x).unwrap();
                assert_eq!(ice_share(glycol, x, freezes).unwrap().si(), 0.0);
                assert_eq!(ice_share(glycol, x, celsius(5.0)).unwrap().si(), 0.0);
            }
        }
    }

    #[test]
    fn by_hand_from_two_points_of_the_line() {
        // A fifth of ethylene glycol, cold until what is left holds 0.4: half of the whole is ice.
        let cold = freezing_temperature(Glycol::Ethylene, Ratio::from_si(0.4)).unwrap();
        assert!((ice_share(Glycol::Ethylene, Ratio::from_si(0.2), cold).unwrap().si() - 0.5).abs() < 1e-9);
    }

    #[test]
    fn water_bursts_where_it_freezes_and_more_glycol_never_bursts_sooner() {
        for glycol in BOTH {
            let at = |percent: i32| burst_temperature(glycol, Ratio::from_si(f64::from(percent) / 100.0)).unwrap();
            let water = freezing_temperature(glycol, Ratio::from_si(0.0)).unwrap();
            assert!((at(0).si() - water.si()).abs() < 1e-12);
            assert!((0..60).all(|percent| at(percent + 1) <= at(percent)));
            assert!((1..60).all(|percent| {
                at(percent) < freezing_temperature(glycol, Ratio::from_si(f64::from(percent) / 100.0)).unwrap()
            }));
            assert_eq!(at(50), at(60));
        }
    }

    #[test]
    fn beyond_the_line_is_refused() {
        assert!(ice_share(Glycol::Ethylene, Ratio::from_si(0.3), celsius(-60.0)).is_err());
        assert!(burst_temperature(Glycol::Ethylene, Ratio::from_si(0.61)).is_err());
        assert!(temperature_at_ice_share(Glycol::Propylene, Ratio::from_si(0.5), Ratio::from_si(0.25)).is_err());
    }
}
