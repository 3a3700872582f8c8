//! Copper wires: resistance, how warm a current makes them, and for how long they bear it.
//! A wire that runs hot sets fire to what lies on it: fuse it at the battery; local rules for wiring come first.

use crate::air;
use crate::heat::{film_coefficient, outside, radiation_coefficient, rayleigh};
use crate::root::rising;

use quantity::*;
use std::f64::consts::PI;

/// Resistivity of annealed copper at 20 °C, 1/58 Ω·mm²/m (IEC 60028, published).
const RESISTIVITY: f64 = 1e-6 / 58.0;
/// Growth of it for each kelvin, of its value at 20 °C (IEC 60028, published).
const GROWTH: f64 = 0.003_93;
/// Heat that copper takes up, J/(m³·K) at 20 °C (IEC 60949, published).
const HEAT_CAPACITY: f64 = 3.45e6;
/// Of plastics and rubber (from memory; 0.9 to 0.95).
const EMISSIVITY: f64 = 0.9;
/// Strands laid in a round take up this much of its diameter more than solid metal (from memory; 1.12 to 1.16).
const STRANDED: f64 = 1.14;

/// One wire, alone in still air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wire {
    /// Cross-section of its copper.
    pub metal: Area,
    pub wall: Length,
    /// Of its insulation.
    pub conductivity: ThermalConductivity,
}

/// Resistance of a length of copper, ρ·L/A, at its temperature.
///
/// Inputs: cross-section A (m²) of the metal; length L (m); temperature of the metal.
/// Returns: Ω.
/// Valid for: annealed copper, −50 to 200 °C; a stranded one is some 2 % longer than it looks.
/// Source: IEC 60028, published.
#[must_use]
pub fn resistance(metal: Area, length: Length, at: ThermodynamicTemperature) -> ElectricalResistance {
    ElectricalResistance::from_si(per_metre(metal, at.si()) * length.si())
}

fn per_metre(metal: Area, kelvin: f64) -> f64 {
    RESISTIVITY / metal.si() * (1.0 + GROWTH * (kelvin - 293.15))
}

/// Current that warms copper from one temperature to another in a time too short for any heat to leave it.
///
/// Inputs: cross-section (m²); both temperatures; time (s).
/// Returns: A, effective; I = K·A/√t·√(ln((θ₂ + 234.5)/(θ₁ + 234.5))) with K = 226 A·√s/mm².
/// Valid for: up to some 5 s; longer it is on the safe side.
/// Source: IEC 60949, published.
#[must_use]
pub fn short_time_current(
    metal: Area,
    from: ThermodynamicTemperature,
    to: ThermodynamicTemperature,
    time: Time,
) -> ElectricCurrent {
    // Where copper's resistance, drawn as a straight line, would be nothing.
    let grown = |t: ThermodynamicTemperature| 1.0 / GROWTH + t.si() - 293.15;
    let warmth = HEAT_CAPACITY / (RESISTIVITY * GROWTH) * (grown(to) / grown(from)).ln();
    ElectricCurrent::from_si(metal.si() * (warmth / time.si()).sqrt())
}

/// Share of its current that a circuit keeps when it lies in one bundle with others.
///
/// Inputs: loaded circuits in the bundle, this one counted (a pair of there and back is one).
/// Returns: a plain number: 1, 0.80, 0.70, 0.65, 0.60, 0.57, 0.54, 0.52, 0.50 for 1 to 9, straight between, 0.38 for 20.
/// Valid for: 1 to 20 alike and equally loaded; beyond, the value for 20.
/// Source: IEC 60364-5-52, table B.52.17, bunched in air; published, its figures from memory.
#[must_use]
pub fn bunched(circuits: Ratio) -> Ratio {
    const SHARES: [(f64, f64); 12] = [
        (1.0, 1.0),
        (2.0, 0.80),
        (3.0, 0.70),
        (4.0, 0.65),
        (5.0, 0.60),
        (6.0, 0.57),
        (7.0, 0.54),
        (8.0, 0.52),
        (9.0, 0.50),
        (12.0, 0.45),
        (16.0, 0.41),
        (20.0, 0.38),
    ];
    let count = circuits.si();
    let below = SHARES.iter().rev().find(|row| row.0 <= count).copied().unwrap_or((1.0, 1.0));
    let above = SHARES.iter().find(|row| row.0 > count).copied().unwrap_or(below);
    let share = if above.0 > below.0 { (count - below.0) / (above.0 - below.0) } else { 0.0 };
    Ratio::from_si(below.1 + share.max(0.0) * (above.1 - below.1))
}

impl Wire {
    fn diameters(&self) -> (f64, f64) {
        let conductor = (self.metal.si() * 4.0 / PI).sqrt() * STRANDED;
        (conductor, conductor + 2.0 * self.wall.si())
    }

    /// Heat (W/m) that leaves a wire whose outside has a temperature: air that rises by itself, and radiation.
    fn given_off(&self, outside_at: f64, air_at: f64, pressure: Pressure) -> f64 {
        if outside_at <= air_at {
            return 0.0;
        }
        let (_, outer) = self.diameters();
        let kelvin = ThermodynamicTemperature::from_si;
        let film = kelvin(0.5 * (outside_at + air_at));
        let density = air::density(film, pressure);
        let viscosity = KinematicViscosity::from_si(air::viscosity(film).si() / density.si());
        let prandtl = air::prandtl(film);
        let gap = TemperatureInterval::from_si(outside_at - air_at);
        let rising = rayleigh(film, gap, Length::from_si(outer), viscosity, prandtl);
        let nusselt = outside::horizontal_cylinder(rising, prandtl);
        let film_h = film_coefficient(nusselt, air::conductivity(film), Length::from_si(outer)).si();
        let emissivity = Ratio::from_si(EMISSIVITY);
        let radiated = radiation_coefficient(emissivity, kelvin(outside_at), kelvin(air_at)).si();
        (film_h + radiated) * PI * outer * (outside_at - air_at)
    }

    /// Heat (W/m) that leaves it while its copper is held at a temperature.
    fn leaving(&self, metal_at: f64, air_at: f64, pressure: Pressure) -> f64 {
        if metal_at <= air_at {
            return 0.0;
        }
        let (inner, outer) = self.diameters();
        let through = (outer / inner).ln() / (2.0 * PI * self.conductivity.si());
        // What the air takes rises with the outside's temperature, what the wall lets through falls.
        let skin =
            rising(air_at, metal_at, 0.0, |skin| self.given_off(skin, air_at, pressure) - (metal_at - skin) / through);
        self.given_off(skin, air_at, pressure)
    }

    /// Current that holds the copper at a temperature for ever.
    ///
    /// Inputs: highest temperature of copper and insulation; the air round it; absolute pressure of that air (Pa).
    /// Returns: A, effective; nothing where the air is as hot already.
    /// Valid for: alone, stretched out level in still air, no sun; wind lets it bear more, a bundle or a box less.
    /// Source: heat balance; free convection Churchill and Chu 1975, radiation, copper IEC 60028, published.
    #[must_use]
    pub fn lasting_current(
        &self,
        highest: ThermodynamicTemperature,
        air: ThermodynamicTemperature,
        pressure: Pressure,
    ) -> ElectricCurrent {
        let heat = self.leaving(highest.si(), air.si(), pressure);
        ElectricCurrent::from_si((heat / per_metre(self.metal, highest.si())).sqrt())
    }

    /// Current that brings the copper from the air's temperature to its highest in a time.
    ///
    /// Inputs: as [`Wire::lasting_current`]; time (s).
    /// Returns: A, effective: [`short_time_current`] for short times, [`Wire::lasting_current`] for long ones. What the
    /// insulation takes up is left out, and heat leaves as readily as when hot: the two go against one another.
    /// Valid for: a wire that begins cold; one that has carried current before bears less.
    /// Source: one heat capacity that warms up, textbook; as [`Wire::lasting_current`].
    #[must_use]
    pub fn current_for(
        &self,
        highest: ThermodynamicTemperature,
        air: ThermodynamicTemperature,
        pressure: Pressure,
        time: Time,
    ) -> ElectricCurrent {
        let allowed = highest.si() - air.si();
        if allowed <= 0.0 {
            return ElectricCurrent::from_si(0.0);
        }
        let leaves = self.leaving(highest.si(), air.si(), pressure) / allowed;
        let stored = HEAT_CAPACITY * self.metal.si();
        let cold = per_metre(self.metal, air.si());
        let growing = RESISTIVITY * GROWTH / self.metal.si();
        let warmed = |current: f64| {
            let square = current * current;
            // By expm1 both signs and nothing at all are one case.
            let steps = (leaves - square * growing) * time.si() / stored;
            let shape = if steps.abs() < 1e-12 { 1.0 } else { -(-steps).exp_m1() / steps };
            square * cold * time.si() / stored * shape
        };
        let lasting = self.lasting_current(highest, air, pressure).si();
        let short = short_time_current(self.metal, air, highest, time).si();
        // Heat leaves besides what is stored: more than either alone, less than both together.
        ElectricCurrent::from_si(rising(0.0, lasting.hypot(short) * 1.001, allowed, warmed))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn wire(metal_mm2: f64) -> Wire {
        Wire {
            metal: Area::from_si(metal_mm2 * 1e-6),
            wall: Length::from_si(0.8e-3),
            conductivity: ThermalConductivity::from_si(0.2),
        }
    }
    fn sea() -> Pressure {
        Pressure::from_si(101_325.0)
    }
    fn s(seconds: f64) -> Time {
        Time::from_si(seconds)
    }

    #[test]
    fn from_a_blow_to_for_ever() {
        let (hot, cold) = (celsius(180.0), celsius(20.0));
        for size in [0.5, 5.26, 25.0] {
            let at = |time: f64| wire(size).current_for(hot, cold, sea(), s(time)).si();
            let lasting = wire(size).lasting_current(hot, cold, sea()).si();
            let short = short_time_current(wire(size).metal, cold, hot, s(1e-3)).si();
            assert!((at(1e-3) / short - 1.0).abs() < 2e-3, "{size} {} {short}", at(1e-3));
            assert!((at(1e6) / lasting - 1.0).abs() < 1e-6, "{size} {} {lasting}", at(1e6));
            let falling: Vec<f64> = (0..30).map(|step| at(0.1 * 1.5f64.powi(step))).collect();
            assert!(falling.windows(2).all(|pair| pair[1] <= pair[0] * (1.0 + 1e-12)), "{falling:?}");
            assert!(falling.iter().all(|current| *current >= lasting * (1.0 - 1e-9)));
        }
        assert_eq!(wire(5.0).current_for(cold, hot, sea(), s(5.0)).si(), 0.0);
        assert_eq!(wire(5.0).lasting_current(cold, cold, sea()).si(), 0.0);
    }

    #[test]
    fn the_warming_of_a_burst_by_small_steps() {
        let (hot, cold, five) = (celsius(180.0), celsius(-20.0), 5.0);
        let thin = wire(1.0);
        let current = thin.current_for(hot, cold, sea(), s(five)).si();
        let leaves = thin.leaving(hot.si(), cold.si(), sea()) / 200.0;
        let (steps, mut warm) = (200_000, 0.0);
        for _ in 0..steps {
            let heat = current * current * per_metre(thin.metal, cold.si() + warm) - leaves * warm;
            warm += heat / (HEAT_CAPACITY * thin.metal.si()) * five / f64::from(steps);
        }
        assert!((warm - 200.0).abs() < 0.01, "{warm}");
    }

    #[test]
    fn more_copper_bears_more_and_bundles_less() {
        let bears = |size: f64| wire(size).lasting_current(celsius(105.0), celsius(30.0), sea()).si();
        assert!([0.5, 1.0, 2.5, 6.0, 16.0, 35.0].windows(2).all(|pair| bears(pair[1]) > bears(pair[0])));
        let share = |count: f64| bunched(Ratio::from_si(count)).si();
        assert_eq!((share(0.5), share(1.0), share(3.0), share(9.0), share(40.0)), (1.0, 1.0, 0.70, 0.50, 0.38));
        assert!((share(1.5) - 0.9).abs() < 1e-12);
    }
}
