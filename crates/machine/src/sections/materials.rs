//! Materials: figures at 23 °C in the dry state, factors over temperature and for states, and where each comes from.

use crate::curve::Curve;
use crate::given::Given;
use crate::named::{Map, Maybe, Target};
use crate::sections::gears::GearLimits;
use crate::sections::resistance::Resists;
use quantity::m;
use schemars::JsonSchema;
use serde::Deserialize;

words! {
    pub enum Family {
        /// fused layer by layer
        PrintedPolymer = "printed_polymer",
        /// moulded, cast or machined from stock
        Polymer = "polymer",
        Elastomer = "elastomer",
        Metal = "metal",
        /// continuous fibres: pultruded, wrapped, laminated
        FibreComposite = "fibre_composite",
        Wood = "wood",
    }
}

/// A material. Strengths and stiffness are at 23 °C, dry, unless a table or a state says otherwise.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Material {
    pub family: Family,
    pub density: Given<m::Density>,
    /// Young's modulus, along the layers or fibres.
    pub modulus: Given<m::Modulus>,
    pub poisson: Given<m::Ratio>,
    /// Ultimate strength along the layers or fibres.
    pub tensile_strength: Given<m::Stress>,
    /// Ultimate strength straight across the layers of a print.
    pub between_layer_strength: Given<m::Stress>,
    /// Metals: 0.2 % proof stress.
    pub yield_strength: Given<m::Stress>,
    pub shear_strength: Given<m::Stress>,
    pub compressive_strength: Given<m::Stress>,
    pub elongation_at_break: Given<m::Growth>,
    /// Energy to break a notched bar, per area under the notch (Charpy, ISO 179).
    pub impact_strength: Given<m::ImpactEnergy>,
    /// Share of the strength that is left after many load cycles.
    pub fatigue_share: Given<m::Percentage>,
    pub expansion: Given<m::Expansion>,
    pub conductivity: Given<m::ThermalConductivity>,
    pub heat_capacity: Given<m::HeatCapacity>,
    pub glass_transition: Given<m::Temperature>,
    /// Temperature at which it bends under a modest load (ISO 75 method B).
    pub heat_deflection: Given<m::Temperature>,
    pub melts_at: Given<m::Temperature>,
    /// Elastomers and soft plastics: below it a blow or a sharp bend cracks them (ISO 812).
    pub brittle_at: Given<m::Temperature>,
    /// Elastomers: share of the squeeze that does not come back after long service (ISO 815).
    pub compression_set: Given<m::Percentage>,
    pub service_temperature_max: Given<m::Temperature>,
    /// Length change from dry to wet.
    pub moisture_swelling: Given<m::Growth>,
    /// What liquids do to it: plastics and rubbers.
    pub resists: Maybe<Resists>,
    /// Metals: place in the series of metals in salt water, in volts below gold; the higher of two that touch is eaten.
    pub anodic_index: Given<m::Voltage>,
    /// Dry sliding against steel.
    pub friction: Given<m::Ratio>,
    /// Strength at a temperature, as a multiple of that at 23 °C.
    pub strength_at: Maybe<Curve<m::Temperature, m::Factor>>,
    pub modulus_at: Maybe<Curve<m::Temperature, m::Factor>>,
    pub impact_at: Maybe<Curve<m::Temperature, m::Factor>>,
    /// Sliding limits, where the material is used as a bearing.
    pub sliding: Maybe<Sliding>,
    /// Limits as a gear, where they are known better than by the strength.
    pub gear: Maybe<GearLimits>,
    pub fibre: Maybe<Fibre>,
    pub when_conditioned: Maybe<StateFactors>,
    pub when_wet: Maybe<StateFactors>,
    pub when_annealed: Maybe<StateFactors>,
    /// State of the part as it is used.
    pub moisture: Maybe<MoistureState>,
    pub annealed: Option<bool>,
    pub dried: Option<bool>,
    pub layer_height: Given<m::Length>,
    /// Of one kilogram, in the money in which you count.
    pub price: Given<m::Price>,
    /// Tolerance of the figures above where none is written beside one.
    pub spread: Given<m::Percentage>,
    pub basis: Option<Basis>,
    pub source: Option<String>,
    /// Figures whose basis differs from the material's own, by field name.
    pub figures: Map<Figure>,
}

impl Target for Material {
    const SECTIONS: &'static str = "$ref:materials";
}

words! {
    pub enum MoistureState { Dry = "dry", Conditioned = "conditioned", Wet = "wet" }
}

words! {
    /// Where a figure comes from.
    pub enum Basis {
        /// in a named source
        Published = "published",
        /// ordinary in the trade, no source
        CommonPractice = "common_practice",
        /// recalled, not looked up
        FromMemory = "from_memory",
        Measured = "measured",
    }
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Figure {
    pub basis: Basis,
    pub source: Option<String>,
}

/// Multiples of the dry, unannealed figures.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct StateFactors {
    pub strength: Given<m::Factor>,
    pub modulus: Given<m::Factor>,
    pub impact: Given<m::Factor>,
    /// The new heat deflection temperature, not a multiple.
    pub heat_deflection: Given<m::Temperature>,
    /// The new highest temperature for long service, not a multiple.
    pub service_temperature_max: Given<m::Temperature>,
    /// Annealed: strength at a temperature over that at 23 °C, both in this state; as of the unannealed one if not given.
    pub strength_at: Maybe<Curve<m::Temperature, m::Factor>>,
    /// Annealed: stiffness at a temperature over that at 23 °C, both in this state.
    pub modulus_at: Maybe<Curve<m::Temperature, m::Factor>>,
}

/// Limits of a sliding surface.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Sliding {
    /// Highest pressure on the projected area (load over bore × length).
    pub p_limit: Given<m::Stress>,
    pub v_limit: Given<m::SurfaceSpeed>,
    /// Highest pressure times speed, running dry on steel at 23 °C.
    pub pv_limit: Given<m::PressureSpeed>,
    pub pv_limit_greased: Given<m::PressureSpeed>,
    pub pv_limit_wet: Given<m::PressureSpeed>,
    pub friction: Given<m::Ratio>,
    /// Highest temperature of the sliding surface.
    pub temperature_max: Given<m::Temperature>,
}

words! {
    pub enum FibreForm {
        /// all fibres along the rod
        PultrudedRod = "pultruded_rod", PultrudedTube = "pultruded_tube", WrappedTube = "wrapped_tube", Plate = "plate",
        /// chopped fibres in a print: sands what it rubs on, but is not cut like a rod
        ShortFilled = "short_filled",
        /// continuous fibre laid into a print
        LaidIn = "laid_in",
    }
}

words! {
    pub enum FibreKind { Carbon = "carbon", Glass = "glass", Aramid = "aramid", Basalt = "basalt" }
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Fibre {
    pub form: FibreForm,
    pub of: FibreKind,
    /// Across the fibres.
    pub transverse_strength: Given<m::Stress>,
    pub interlaminar_shear: Given<m::Stress>,
    pub bearing_strength: Given<m::Stress>,
}
