//! Lithium-ion batteries: voltage by charge left, sag under current, and what cold does to it.
//! A cell that is shorted, crushed, overcharged or charged below freezing can burn; its maker's limits and local rules come first.

use crate::range::{OutsideRange, within};
use quantity::*;

/// Charge left and open-circuit voltage of one cell.
const OPEN: [(f64, f64); 13] = [
    (0.0, 3.00),
    (0.05, 3.45),
    (0.10, 3.66),
    (0.20, 3.73),
    (0.30, 3.77),
    (0.40, 3.80),
    (0.50, 3.84),
    (0.60, 3.88),
    (0.70, 3.94),
    (0.80, 4.02),
    (0.90, 4.10),
    (0.95, 4.14),
    (1.0, 4.20),
];

/// Voltage of one rested lithium-ion cell (cobalt, nickel or manganese; 4.2 V full) by charge left.
///
/// Inputs: charge left, 0 to 1.
/// Returns: V of one cell.
/// Valid for: 4.2 V cells at rest; iron phosphate cells are lower (about 3.3 V, flat).
/// Source: common practice, no source; straight lines between usual table values, from memory, ± 50 mV.
///
/// # Errors
/// Less than empty or more than full.
pub fn open_voltage(charge_left: Ratio) -> Result<ElectricPotential, OutsideRange> {
    let s = within("charge left", "%", 0.0, 100.0, charge_left.si() * 100.0)? / 100.0;
    let below = OPEN.iter().rev().find(|(at, _)| *at <= s).copied().unwrap_or((0.0, 3.0));
    let above = OPEN.iter().find(|(at, _)| *at >= s).copied().unwrap_or((1.0, 4.2));
    let share = if above.0 > below.0 { (s - below.0) / (above.0 - below.0) } else { 0.0 };
    Ok(ElectricPotential::from_si(below.1 + share * (above.1 - below.1)))
}

/// Voltage under a current, V = V₀ − I·R.
///
/// Inputs: open voltage (V); current (A), negative while charging; resistance (Ω) of cells, leads and connectors.
/// Returns: voltage (V).
/// Valid for: the first seconds; it sinks further over minutes.
/// Source: Ohm's law.
#[must_use]
pub fn sagged_voltage(
    open: ElectricPotential,
    current: ElectricCurrent,
    resistance: ElectricalResistance,
) -> ElectricPotential {
    ElectricPotential::from_si(open.si() - current.si() * resistance.si())
}

/// Current at which the battery sags to its cut-off, (V₀ − V)/R.
///
/// Inputs: open voltage (V); cut-off (V) of the whole battery; resistance (Ω).
/// Returns: current (A); negative if it is below the cut-off already.
/// Valid for: as [`sagged_voltage`].
/// Source: Ohm's law.
#[must_use]
pub fn current_to_cut_off(
    open: ElectricPotential,
    cut_off: ElectricPotential,
    resistance: ElectricalResistance,
) -> ElectricCurrent {
    ElectricCurrent::from_si((open.si() - cut_off.si()) / resistance.si())
}

/// Current that gives a power at the sagging terminals, the smaller root of I·(V₀ − I·R) = P.
///
/// Inputs: open voltage V₀ (V); resistance R (Ω); power P (W), negative while charging.
/// Returns: current (A).
/// Valid for: up to V₀²/4R, half of which is heat in the battery.
/// Source: Ohm's law, quadratic.
///
/// # Errors
/// More power than this battery can give at all.
pub fn current_for_power(
    open: ElectricPotential,
    resistance: ElectricalResistance,
    power: Power,
) -> Result<ElectricCurrent, OutsideRange> {
    let (v, r) = (open.si(), resistance.si());
    let p = within("power taken from the battery", "W", -f64::MAX, v * v / (4.0 * r), power.si())?;
    Ok(ElectricCurrent::from_si(2.0 * p / (v + (v * v - 4.0 * r * p).max(0.0).sqrt())))
}

/// Resistance at −20 °C by that at 25 °C, where nobody has measured; common practice, no source.
pub const COLD_FACTOR: f64 = 2.5;

/// By how much cold raises the inner resistance, as an even growth for each degree, c^((25 − T)/45).
///
/// Inputs: temperature of the cells; factor c at −20 °C, [`COLD_FACTOR`] if unknown.
/// Returns: a plain number, 1 at 25 °C and warmer.
/// Valid for: −30 °C to 60 °C; colder or hotter than the cells' own limits it must not run at all.
/// Source: common practice, no source (a law of the Arrhenius kind over a narrow range).
///
/// # Errors
/// Colder than −40 °C, where the electrolyte freezes, or hotter than 60 °C.
pub fn resistance_factor(cells: ThermodynamicTemperature, at_minus_20: Ratio) -> Result<Ratio, OutsideRange> {
    let t = within("temperature of the cells", "°C", -40.0, 60.0, cells.si() - 273.15)?;
    Ok(Ratio::from_si(at_minus_20.si().powf((25.0 - t).max(0.0) / 45.0)))
}

/// The same growth, of a resistance that is stated at 20 °C, by the factor from there to −20 °C.
///
/// Inputs: temperature of the cells; resistance at −20 °C over that at 20 °C.
/// Returns: a plain number, 1 at 20 °C, a little less where it is warmer.
/// Valid for: as [`resistance_factor`].
/// Source: as [`resistance_factor`].
///
/// # Errors
/// As [`resistance_factor`].
pub fn resistance_from_20(cells: ThermodynamicTemperature, at_minus_20: Ratio) -> Result<Ratio, OutsideRange> {
    let from_25 = Ratio::from_si(at_minus_20.si().powf(45.0 / 40.0));
    let factor = |t| resistance_factor(t, from_25);
    Ok(factor(cells)? / factor(celsius(20.0))?)
}

/// Share of its charge that a cold battery gives, straight from all of it at 20 °C to a share at −20 °C, and on below.
///
/// Inputs: temperature of the cells; share at −20 °C.
/// Returns: a plain number, 1 at 20 °C and warmer, never below nothing.
/// Valid for: −40 °C to 60 °C, modest currents; a table of the cell's own is better.
/// Source: common practice, no source.
///
/// # Errors
/// Colder than −40 °C, where the electrolyte freezes, or hotter than 60 °C.
pub fn charge_left_by_cold(cells: ThermodynamicTemperature, at_minus_20: Ratio) -> Result<Ratio, OutsideRange> {
    let t = within("temperature of the cells", "°C", -40.0, 60.0, cells.si() - 273.15)?;
    let lost = (1.0 - at_minus_20.si()) * (20.0 - t).max(0.0) / 40.0;
    Ok(Ratio::from_si((1.0 - lost).max(0.0)))
}

/// Work to move a machine along a way and up it, m·g·(c·d + h), and none where the slope does it: braking gives nothing back.
///
/// Inputs: coefficient c of rolling resistance; mass m (kg); length d (m) along the way; height h (m) gained, negative downhill.
/// Returns: J at the track.
/// Valid for: gentle grades, where the way is as long as its map; a way that goes up and down takes more than its ends tell.
/// Source: textbook.
#[must_use]
pub fn work_of_a_way(coefficient: Ratio, mass: Mass, way: Length, height: Length) -> Energy {
    let weight = mass.si() * crate::landing::GRAVITY;
    Energy::from_si((weight * (coefficient.si() * way.si() + height.si())).max(0.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn open(share: f64) -> Result<f64, OutsideRange> {
        open_voltage(Ratio::from_si(share)).map(Quantity::si)
    }

    #[test]
    fn the_curve_has_its_ends_rises_and_knows_no_more_than_full() {
        assert_eq!((open(0.0).unwrap(), open(1.0).unwrap()), (3.0, 4.2));
        assert!((open(0.25).unwrap() - 3.75).abs() < 1e-12);
        let steps: Vec<f64> = (0..=200).map(|i| open(f64::from(i) / 200.0).unwrap()).collect();
        assert!(steps.windows(2).all(|w| w[0] < w[1]));
        assert!(open(1.01).is_err() && open(f64::NAN).is_err());
    }

    #[test]
    fn current_for_a_power_gives_that_power_and_no_more_than_there_is() {
        let (v, r) = (ElectricPotential::from_si(50.0), ElectricalResistance::from_si(0.05));
        for power in [-500.0, 0.0, 2000.0, 12_500.0] {
            let i = current_for_power(v, r, Power::from_si(power)).unwrap();
            assert!((sagged_voltage(v, i, r).si() * i.si() - power).abs() < 1e-6);
        }
        assert!(current_for_power(v, r, Power::from_si(12_501.0)).is_err());
        let least = ElectricPotential::from_si(42.0);
        let i = current_to_cut_off(v, least, r);
        assert!((i.si() - 160.0).abs() < 1e-9);
    }

    #[test]
    fn cold_raises_the_resistance() {
        let factor = |t: f64| resistance_factor(celsius(t), Ratio::from_si(COLD_FACTOR)).unwrap().si();
        assert!((factor(-20.0) - 2.5).abs() < 1e-12 && factor(25.0) == 1.0 && factor(40.0) == 1.0);
        assert!((1.4..1.8).contains(&factor(2.5)));
        let from_20 = |t: f64| resistance_from_20(celsius(t), Ratio::from_si(COLD_FACTOR)).unwrap().si();
        assert!((from_20(-20.0) - 2.5).abs() < 1e-12 && from_20(20.0) == 1.0 && from_20(30.0) < 1.0);
        assert!(resistance_factor(celsius(-60.0), Ratio::from_si(2.5)).is_err());
    }

    #[test]
    fn cold_keeps_charge_back() {
        let left = |t: f64, share: f64| charge_left_by_cold(celsius(t), Ratio::from_si(share)).unwrap().si();
        assert_eq!((left(20.0, 0.6), left(35.0, 0.6)), (1.0, 1.0));
        assert!((left(-20.0, 0.6) - 0.6).abs() < 1e-12 && (left(0.0, 0.6) - 0.8).abs() < 1e-12);
        assert_eq!(left(-40.0, 0.0), 0.0);
        assert!(charge_left_by_cold(celsius(-41.0), Ratio::from_si(0.6)).is_err());
    }

    #[test]
    fn a_way_up_and_down() {
        let work = |height: f64| {
            work_of_a_way(Ratio::from_si(0.12), Mass::from_si(60.0), Length::from_si(1000.0), Length::from_si(height))
                .si()
        };
        assert!((work(0.0) - 60.0 * 9.80665 * 120.0).abs() < 1e-6);
        assert!((work(50.0) - work(0.0) - 60.0 * 9.80665 * 50.0).abs() < 1e-6);
        assert!((work(-50.0) + work(50.0) - 2.0 * work(0.0)).abs() < 1e-6 && work(-200.0) == 0.0);
    }
}
