//! Where the machine runs, and the air in its enclosures.

use crate::given::{Given, Range};
use crate::named::Maybe;
use quantity::m;
use schemars::JsonSchema;
use serde::Deserialize;

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Environment {
    /// Coldest and hottest outside air in which the machine is to work.
    pub air: Range<m::Temperature>,
    /// Of the outside air at its own temperature, as a weather station reports it (over liquid water, below 0 °C too).
    pub relative_humidity: Given<m::Percentage>,
    pub altitude: Range<m::Altitude>,
    /// Strongest sun on the deck.
    pub sun: Given<m::HeatFlux>,
    pub exposure: Vec<Exposure>,
    pub surface: Maybe<Surface>,
    /// Temperature of the room in which bolts, fits, the track and the reservoir's lid were closed.
    pub assembled_at: Given<m::Temperature>,
}

words! {
    /// What gets on and into the machine.
    pub enum Exposure {
        BlownSnow = "blown_snow", Slush = "slush", RoadSalt = "road_salt", SeaSpray = "sea_spray", Rain = "rain",
        Mud = "mud", Grit = "grit", Dust = "dust", Immersion = "immersion", PlantFibre = "plant_fibre",
    }
}

words! {
    /// What the track runs on.
    pub enum Surface {
        PackedSnow = "packed_snow", Powder = "powder", Crust = "crust", Ice = "ice", Mud = "mud", Peat = "peat",
        Grass = "grass", Gravel = "gravel", Asphalt = "asphalt", Rock = "rock",
    }
}

/// An enclosed space with an air of its own.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Zone {
    /// Leave it out for a space that is open to the outside.
    pub volume: Given<m::Volume>,
    /// How much warmer than the outside its air gets after ten minutes' run; zero while the machine is cold.
    pub air_rise: Given<m::TemperatureDifference>,
    pub moisture: Maybe<Moisture>,
    /// Of the air that was closed in, at the assembly temperature; only for `sealed_at_assembly`.
    pub humidity_at_assembly: Given<m::Percentage>,
    /// Snow or water that gets in and stays, in one day out.
    pub trapped_water: Given<m::Mass>,
    pub cover: Maybe<Cover>,
}

words! {
    /// Where the water vapour of a zone comes from.
    pub enum Moisture {
        /// the outside air, warmed
        OutsideAir = "outside_air",
        /// melting snow or puddles keep it damp: its dew point is the meltwater's temperature
        HoldsMeltwater = "holds_meltwater",
        /// closed at assembly and tight since
        SealedAtAssembly = "sealed_at_assembly",
        /// the air of a heated room
        Room = "room",
        /// exchanges air with the outside through vents or leaks
        Breathes = "breathes",
        /// snow or spray flies in all the time
        SnowSpray = "snow_spray",
    }
}

/// How an enclosure is closed.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Cover {
    pub gasket: Option<String>,
    pub cable_glands: Given<m::Count>,
    pub drain: Option<String>,
    pub vent: Option<String>,
}
