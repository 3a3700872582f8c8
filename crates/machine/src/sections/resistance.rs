//! What liquids do to materials.

use crate::given::Given;
use crate::named::Maybe;
use crate::sections::materials::Basis;
use quantity::m;
use schemars::JsonSchema;
use serde::Deserialize;

words! {
    /// By what it does to rubber and plastic.
    pub enum Substance {
        Water = "water",
        EthyleneGlycolWater = "ethylene_glycol_water",
        PropyleneGlycolWater = "propylene_glycol_water",
        /// glycols with next to no water
        WaterFreeGlycol = "water_free_glycol",
        AlcoholWater = "alcohol_water",
        /// oils and greases, mineral or synthetic
        MineralOil = "mineral_oil",
        /// and grease made of it
        SiliconeOil = "silicone_oil",
        /// liquid that sets between threads
        ThreadLocker = "thread_locker",
    }
}

/// What is known of a material in each of these.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Resists {
    pub water: Maybe<Resistance>,
    pub ethylene_glycol_water: Maybe<Resistance>,
    pub propylene_glycol_water: Maybe<Resistance>,
    pub water_free_glycol: Maybe<Resistance>,
    pub alcohol_water: Maybe<Resistance>,
    pub mineral_oil: Maybe<Resistance>,
    pub silicone_oil: Maybe<Resistance>,
    pub thread_locker: Maybe<Resistance>,
}

impl Resists {
    #[must_use]
    pub fn to(&self, substance: Substance) -> &Maybe<Resistance> {
        match substance {
            Substance::Water => &self.water,
            Substance::EthyleneGlycolWater => &self.ethylene_glycol_water,
            Substance::PropyleneGlycolWater => &self.propylene_glycol_water,
            Substance::WaterFreeGlycol => &self.water_free_glycol,
            Substance::AlcoholWater => &self.alcohol_water,
            Substance::MineralOil => &self.mineral_oil,
            Substance::SiliconeOil => &self.silicone_oil,
            Substance::ThreadLocker => &self.thread_locker,
        }
    }
}

words! {
    /// What a liquid does to a material that does not stand it.
    pub enum Attack {
        Swells = "swells",
        /// where the part is under stress, without warning
        Cracks = "cracks",
        Hardens = "hardens",
        /// its chains are cut by hot water
        BreaksDown = "breaks_down",
        Dissolves = "dissolves",
    }
}

/// One material in one liquid.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Resistance {
    /// What the liquid does at any temperature; leave it out where the material stands it up to `holds_to`.
    pub attacked: Maybe<Attack>,
    /// Hottest liquid that it stands for years.
    pub holds_to: Given<m::Temperature>,
    /// A sample of your own in your own liquid; counts in place of the other two.
    pub soaked: Maybe<Soaked>,
    pub basis: Option<Basis>,
    pub source: Option<String>,
}

/// A weighed sample that lay in the liquid.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Soaked {
    pub temperature: Given<m::Temperature>,
    pub duration: Given<m::Duration>,
    /// By which share it became heavier.
    pub gained: Given<m::Growth>,
    /// Cracked, crazed, soft or sticky, bent round a rod of ten times its thickness while it lay there.
    pub damaged: Maybe<bool>,
}
