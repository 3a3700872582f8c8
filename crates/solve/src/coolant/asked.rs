//! What rules ask of the coolant and of hoses beside the solution itself.

use super::elements::{Loop, Strained};
use super::properties::Liquid;
use super::{Circuit, Warm, reservoir};
use crate::at::At;
use machine::{Found, Hose};
use physics::coolant::Properties;
use quantity::*;

/// How a hose's material gives at a temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rubber {
    pub modulus: Pressure,
    pub poisson: Ratio,
}

impl<'a> At<'a> {
    fn liquid(&self) -> Found<Liquid<'a>> {
        Liquid::read(self, self.machine().follow(self.part(&self.machine().cooling.coolant.fluid)?))
    }

    /// Density, heat capacity, conductivity and viscosity of the coolant in the loop.
    ///
    /// # Errors
    /// A gap, or a temperature outside the range in which they are known.
    pub fn coolant_at(&self, temperature: ThermodynamicTemperature) -> Found<Properties> {
        self.liquid()?.at(self, temperature)
    }

    /// Another steady state, in which the coolant loop as driven would stay if it had once been warm. Kept nowhere.
    ///
    /// # Errors
    /// As [`Self::coolant`].
    pub fn once_warm(&self) -> Found<Option<Warm>> {
        super::once_warm(self)
    }

    /// The loop idling, also where it has no answer as driven. Kept nowhere.
    ///
    /// # Errors
    /// As [`Self::coolant`], without the case's heat.
    pub fn idle_coolant(&self) -> Found<Circuit> {
        match self.coolant() {
            Ok(coolant) => Ok(coolant.idle.clone()),
            Err(_) => super::idle(self, &Loop::read(self, Strained::Clean)?),
        }
    }

    /// Absolute pressure of the vapour over the coolant.
    ///
    /// # Errors
    /// As [`Self::coolant_at`].
    pub fn vapour_pressure(&self, temperature: ThermodynamicTemperature) -> Found<Pressure> {
        self.liquid()?.vapour_pressure(self, temperature)
    }

    /// Stiffness of a hose; that of soft rubber where its material is not given.
    ///
    /// # Errors
    /// A temperature outside the range in which it is known.
    pub fn rubber(&self, hose: &Hose, temperature: ThermodynamicTemperature) -> Found<Rubber> {
        reservoir::rubber(self, hose, temperature)
    }
}

impl Circuit {
    /// Itself, where its absolute pressures are worked out.
    ///
    /// # Errors
    /// Why they are not.
    pub fn known(&self) -> Found<&Self> {
        match &self.pressure_unknown {
            Some(gap) => Err(gap.clone()),
            None => Ok(self),
        }
    }

    /// Itself, where its temperatures are those that it has.
    ///
    /// # Errors
    /// It stands still while it is heated.
    pub fn warm(&self) -> Found<&Self> {
        match &self.heat_unknown {
            Some(gap) => Err(gap.clone()),
            None => Ok(self),
        }
    }

    /// How far an absolute pressure of this circuit lies below the outside air where that presses hardest.
    #[must_use]
    pub fn below_air(&self, pressure: Pressure) -> Pressure {
        self.gas_below + self.reservoir_pressure - pressure
    }
}
