//! What flows in the loop: the one place where a coolant's properties are worked out.

use crate::at::At;
use crate::drive::outside;
use machine::{Coolant, Found, GlycolKind, LookUp, NotJudged, Scale, ShareBy, Tabulated};
use physics::coolant::{Glycol, Properties};
use quantity::*;

/// A coolant, with its share of glycol settled.
pub(super) enum Liquid<'a> {
    Water,
    /// The glycol's share of the mass.
    Mixture(Glycol, Ratio),
    Pure(Glycol),
    Tabulated(Table<'a>),
}

/// A coolant by its own tables.
pub(super) struct Table<'a> {
    pub(super) entry: &'a Tabulated,
    density: LookUp<'a, m::Temperature, m::Density>,
    heat_capacity: LookUp<'a, m::Temperature, m::HeatCapacity>,
    conductivity: LookUp<'a, m::Temperature, m::ThermalConductivity>,
    viscosity: LookUp<'a, m::Temperature, m::DynamicViscosity>,
}

/// From this share of the mass on, nothing but glycol is in it.
const WATER_FREE: f64 = 0.995;

impl<'a> Liquid<'a> {
    /// Settles the share of a mixture by what the machine is filled with.
    pub(super) fn read(at: &At, coolant: &'a Coolant) -> Found<Self> {
        let filling = &at.machine().cooling.coolant;
        Ok(match coolant {
            Coolant::Water(_) => Self::Water,
            Coolant::Tabulated(entry) => Self::Tabulated(Table {
                entry,
                density: LookUp::of(&entry.density),
                heat_capacity: LookUp::of(&entry.heat_capacity),
                conductivity: LookUp::of(&entry.conductivity),
                viscosity: LookUp::of(&entry.viscosity),
            }),
            Coolant::GlycolWater(mixture) => {
                let glycol = match mixture.glycol {
                    GlycolKind::Ethylene => Glycol::Ethylene,
                    GlycolKind::Propylene => Glycol::Propylene,
                };
                let share = at.need(&filling.glycol)?;
                // A jug measures volume.
                let share = match at.or_word(&filling.share_by, ShareBy::Volume, "volume") {
                    ShareBy::Mass => share,
                    ShareBy::Volume => physics::coolant::mass_fraction_from_volume_fraction(glycol, share),
                };
                if share.si() >= WATER_FREE { Self::Pure(glycol) } else { Self::Mixture(glycol, share) }
            }
        })
    }

    /// As [`Self::at`], above the hottest known temperature as at that one: on the way to where a loop settles.
    pub(super) fn held(&self, at: &At, temperature: ThermodynamicTemperature) -> Found<Properties> {
        match self.at(at, temperature) {
            Err(NotJudged::OutsideRange { unit, to, was, .. }) if was > to => {
                self.at(at, if unit == "K" { ThermodynamicTemperature::from_si(to) } else { celsius(to) })
            }
            found => found,
        }
    }

    /// Viscosity alone, Pa·s, at a wall: beyond what is known as at the nearer end.
    pub(super) fn thickness(&self, at: &At, temperature: ThermodynamicTemperature) -> Found<f64> {
        if let Self::Mixture(glycol, share) = self {
            let found = physics::coolant::glycol_water_viscosity(*glycol, *share, temperature);
            return found.map(Quantity::si).map_err(outside);
        }
        let found = match self.at(at, temperature) {
            Err(NotJudged::OutsideRange { unit, from, to, was, .. }) => {
                let end = if was > to { to } else { from };
                self.at(at, if unit == "K" { ThermodynamicTemperature::from_si(end) } else { celsius(end) })
            }
            found => found,
        };
        found.map(|liquid| liquid.viscosity.si())
    }

    /// At one temperature.
    pub(super) fn at(&self, at: &At, temperature: ThermodynamicTemperature) -> Found<Properties> {
        match self {
            Self::Water => physics::coolant::water(temperature).map_err(outside),
            Self::Mixture(glycol, share) => {
                physics::coolant::glycol_water(*glycol, *share, temperature).map_err(outside)
            }
            Self::Pure(glycol) => physics::coolant::pure_glycol(*glycol, temperature).map_err(outside),
            Self::Tabulated(table) => Ok(Properties {
                density: at.look(&table.density, temperature, Scale::Linear, "the coolant's density")?,
                heat_capacity: at.look(
                    &table.heat_capacity,
                    temperature,
                    Scale::Linear,
                    "the coolant's heat capacity",
                )?,
                conductivity: at.look(&table.conductivity, temperature, Scale::Linear, "the coolant's conductivity")?,
                viscosity: at.look(&table.viscosity, temperature, Scale::Log, "the coolant's viscosity")?,
            }),
        }
    }

    /// Pressure of its vapour over it. Colder than the coldest temperature for which it is known it is no higher.
    pub(super) fn vapour_pressure(&self, at: &At, temperature: ThermodynamicTemperature) -> Found<Pressure> {
        let from = |coldest: f64| ThermodynamicTemperature::from_si(temperature.si().max(coldest));
        match self {
            Self::Water => physics::boiling::water_vapour_pressure(from(273.15)).map_err(outside),
            Self::Mixture(glycol, share) => {
                physics::boiling::mixture_vapour_pressure(*glycol, *share, from(273.15)).map_err(outside)
            }
            Self::Pure(glycol) => physics::boiling::glycol_vapour_pressure(*glycol, from(263.15)).map_err(outside),
            Self::Tabulated(table) => {
                let curve = at.part(&table.entry.vapour_pressure)?;
                let coldest = curve.points().first().and_then(|point| at.try_get(&point.0)).map_or(0.0, Quantity::si);
                at.at(curve, from(coldest), Scale::Log, "the coolant's vapour pressure")
            }
        }
    }
}
