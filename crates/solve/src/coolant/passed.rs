//! What one element does to the coolant that passes it. Temperatures in K above the outside air.

use super::elements::Station;
use physics::heat::exchanger::{Passing, effectiveness, to_passing_air};

/// Conductance over heat capacity rate below which an element counts as exchanging nothing.
const NOTHING: f64 = 1e-9;

pub(super) struct Passed {
    /// Share of what arrives that goes through it; the rest goes past, by a thermostat.
    pub(super) opened: f64,
    pub(super) heat: f64,
    /// Conductance from the coolant to the outer air, and that air.
    pub(super) conductance: f64,
    pub(super) air: f64,
    /// Conductance from the coolant to the wall, where it is known.
    pub(super) film: Option<f64>,
    /// Heat capacity rate of what goes through it.
    pub(super) rate: f64,
    pub(super) effect: f64,
    /// Effect over number of transfer units: 1 in a small exchanger.
    mean_effect: f64,
}

impl Passed {
    pub(super) fn new(station: &Station, heat: f64, opened: f64, rate: f64, film: Option<f64>, outside: f64) -> Self {
        let (conductance, air) = match station.outer {
            Some((outer, air)) if opened > 0.0 => {
                let wall = film.map_or(outer, |film| outer * film / (outer + film));
                (to_passing_air(wall, station.air_rate), air - outside)
            }
            _ => (0.0, 0.0),
        };
        let units = if opened > 0.0 { conductance / rate } else { 0.0 };
        let effect = effectiveness(Passing::OneSideConstant, units, 0.0);
        let (conductance, effect, mean_effect) =
            if units > NOTHING { (conductance, effect, effect / units) } else { (0.0, 0.0, 1.0) };
        let heat = if opened > 0.0 { heat } else { 0.0 };
        Self { opened, heat, conductance, air, film, rate, effect, mean_effect }
    }

    /// What leaves it, mixed with what went past it, where `inlet` comes in.
    pub(super) fn outlet(&self, inlet: f64) -> f64 {
        if self.opened <= 0.0 {
            return inlet;
        }
        inlet + self.opened * (self.effect * (self.air - inlet) + self.heat / self.rate * self.mean_effect)
    }

    /// Mean of what goes through it.
    pub(super) fn mean(&self, inlet: f64) -> f64 {
        if self.conductance > 0.0 {
            let settles = self.air + self.heat / self.conductance;
            return settles + (inlet - settles) * self.mean_effect;
        }
        if self.opened > 0.0 { inlet + 0.5 * self.heat / self.rate } else { inlet }
    }

    /// How much hotter than the mean of the coolant its wetted wall is, on average.
    pub(super) fn wall_excess(&self, inlet: f64) -> f64 {
        match self.film {
            Some(film) if film > 0.0 => (self.heat - self.conductance * (self.mean(inlet) - self.air)) / film,
            _ => 0.0,
        }
    }

    /// What leaves it of the part that went through it.
    pub(super) fn through(&self, inlet: f64) -> f64 {
        inlet + if self.opened > 0.0 { (self.outlet(inlet) - inlet) / self.opened } else { 0.0 }
    }
}
