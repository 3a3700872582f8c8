//! Things that could be had.

use crate::named::Map;
use crate::sections::powertrain::Bearing;
use crate::sections::suspension::Spring;
use schemars::JsonSchema;
use serde::Deserialize;

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Stock {
    pub springs: Map<Spring>,
    /// Of a plain bush its material, bore and length; where it goes the machine says.
    pub bearings: Map<Bearing>,
}
