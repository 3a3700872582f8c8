//! Servos, displays, radios and other small things with temperature limits of their own.

use crate::given::Given;
use crate::named::{Maybe, Ref};
use crate::sections::environment::Zone;
use crate::sections::structure::Neighbour;
use quantity::m;
use schemars::JsonSchema;
use serde::Deserialize;

/// A bought thing that has to work over the whole range.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Device {
    pub kind: DeviceKind,
    /// The enclosure that it lies in.
    pub zone: Maybe<Ref<Zone>>,
    /// What it sits on and is as warm as.
    pub next_to: Maybe<Neighbour>,
    pub mass: Given<m::Mass>,
    /// That it makes itself while it works.
    pub heat: Given<m::Power>,
    /// From it to the air round it.
    pub to_air: Given<m::ThermalResistance>,
    /// Coldest at which it works: below, a servo's grease sets, a display stands still.
    pub temperature_min: Given<m::Temperature>,
    pub temperature_max: Given<m::Temperature>,
}

words! {
    pub enum DeviceKind {
        Servo = "servo", Display = "display", Radio = "radio", Camera = "camera", Sensor = "sensor", Lamp = "lamp",
        /// electrolytic, such as those at the controller's supply
        Capacitor = "capacitor",
        Converter = "converter",
    }
}
