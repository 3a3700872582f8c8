//! Coolants and damper oils.

use crate::curve::Curve;
use crate::given::Given;
use crate::named::{Maybe, Target};
use crate::sections::materials::Basis;
use crate::sections::resistance::Substance;
use quantity::m;
use schemars::JsonSchema;
use serde::Deserialize;

/// A coolant: by published formulas, or by tables of its own.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[schemars(tag = "kind")]
pub enum Coolant {
    Water(Plain),
    GlycolWater(GlycolWater),
    Tabulated(Tabulated),
}

impl Target for Coolant {
    const SECTIONS: &'static str = "$ref:coolants";
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Plain {
    pub basis: Option<Basis>,
    pub source: Option<String>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct GlycolWater {
    pub glycol: GlycolKind,
    pub basis: Option<Basis>,
    pub source: Option<String>,
}

words! {
    pub enum GlycolKind { Ethylene = "ethylene", Propylene = "propylene" }
}

/// Properties over temperature. Nothing is said beyond the first and last point.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Tabulated {
    /// What it does to rubber and plastic.
    pub acts_as: Maybe<Substance>,
    pub density: Curve<m::Temperature, m::Density>,
    pub heat_capacity: Curve<m::Temperature, m::HeatCapacity>,
    pub conductivity: Curve<m::Temperature, m::ThermalConductivity>,
    pub viscosity: Curve<m::Temperature, m::DynamicViscosity>,
    pub vapour_pressure: Maybe<Curve<m::Temperature, m::Pressure>>,
    /// Slush begins.
    pub freezes_at: Given<m::Temperature>,
    /// Sets so hard that it bursts what holds it; where slush begins, if nobody says.
    pub bursts_at: Given<m::Temperature>,
    /// At sea level.
    pub boils_at: Given<m::Temperature>,
    pub spread: Given<m::Percentage>,
    pub basis: Option<Basis>,
    pub source: Option<String>,
}

words! {
    pub enum OilKind { Mineral = "mineral", Silicone = "silicone", Ester = "ester" }
}

/// A damper oil.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Oil {
    pub kind: OilKind,
    /// Silicone oils are named by their viscosity at 25 °C.
    pub viscosity_25: Given<m::KinematicViscosity>,
    pub viscosity_40: Given<m::KinematicViscosity>,
    pub viscosity_100: Given<m::KinematicViscosity>,
    pub density: Given<m::Density>,
    pub pour_point: Given<m::Temperature>,
    pub expansion: Given<m::Expansion>,
    pub basis: Option<Basis>,
    pub source: Option<String>,
}

impl Target for Oil {
    const SECTIONS: &'static str = "$ref:oils";
}
