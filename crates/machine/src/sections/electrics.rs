//! Battery, cells, wires, connectors, fuse and auxiliary supply.

use crate::curve::Curve;
use crate::given::Given;
use crate::named::{Map, Maybe, Ref, Target};
use crate::sections::environment::Zone;
use crate::sections::materials::{Basis, Figure};
use crate::sections::powertrain::AfterRun;
use crate::sections::structure::Size;
use quantity::m;
use schemars::JsonSchema;
use serde::Deserialize;

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Battery {
    pub cells: Cells,
    pub capacity: Given<m::Charge>,
    /// Whole pack with leads at 20 °C: volts dropped over amps drawn.
    pub resistance: Given<m::Resistance>,
    pub mass: Given<m::Mass>,
    /// Of the block of cells, without its wrap.
    pub size: Maybe<Size>,
    pub insulation: Option<String>,
    /// Thickness of foam all round; `0 mm` for a bare pack.
    pub foam: Given<m::Distance>,
    /// From the cells to the air round the pack, wrap included, where it was measured.
    pub to_air: Given<m::ThermalResistance>,
    /// The enclosure that it lies in.
    pub zone: Maybe<Ref<Zone>>,
    /// Temperature of the cells when the pack is put in, where it is kept warm until then; leave it out for a pack that
    /// soaks with the machine.
    pub put_in_at: Given<m::Temperature>,
    /// A thermometer between the cells.
    pub after_run: Maybe<AfterRun>,
    pub wire: Maybe<Wire>,
    pub connector: Maybe<Connector>,
    /// What it is rated at; `none` where there is no fuse.
    pub fuse: Given<m::FuseRating>,
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Cells {
    pub series: Given<m::Several>,
    pub parallel: Given<m::Several>,
    pub kind: Maybe<Ref<Cell>>,
    /// In place of that of its kind.
    pub full_voltage: Given<m::CellVoltage>,
    /// In place of that of its kind.
    pub nominal_voltage: Given<m::CellVoltage>,
    /// What one cell gives for as long as you like, off its label.
    pub current_max: Given<m::Current>,
    /// What one cell gives for ten seconds, off its label.
    pub burst_current_max: Given<m::Current>,
    /// Coldest at which they may give current.
    pub temperature_min: Given<m::Temperature>,
    /// Hottest at which they may give current.
    pub temperature_max: Given<m::Temperature>,
    /// Coldest at which they may be charged.
    pub charge_temperature_min: Given<m::Temperature>,
    /// Hottest at which they may be charged.
    pub charge_temperature_max: Given<m::Temperature>,
}

/// A kind of cell: its chemistry, and what cold does to it.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Cell {
    /// At the end of charging.
    pub full_voltage: Given<m::CellVoltage>,
    /// Mean over a slow discharge.
    pub nominal_voltage: Given<m::CellVoltage>,
    /// Inner resistance at a temperature, as a multiple of that at 20 °C.
    pub resistance_at: Maybe<Curve<m::Temperature, m::Factor>>,
    /// Charge that it gives at a temperature, as a multiple of that at 20 °C.
    pub capacity_at: Maybe<Curve<m::Temperature, m::Factor>>,
    pub basis: Option<Basis>,
    pub source: Option<String>,
    /// Figures whose basis differs from the cell's own, by field name.
    pub figures: Map<Figure>,
}

impl Target for Cell {
    const SECTIONS: &'static str = "$ref:cells";
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Wire {
    /// Cross-section of the conductor: `10 AWG`, `6 mm²`.
    pub size: Given<m::WireSize>,
    pub length: Given<m::Length>,
    pub insulation: Maybe<Ref<Insulation>>,
    /// Thickness of the insulation.
    pub wall: Given<m::Length>,
    /// Loaded circuits in one bundle, this one counted; there and back are one. 1 if not given.
    pub bunched: Given<m::Several>,
    /// Where most of it lies; the outside if not given.
    pub zone: Maybe<Ref<Zone>>,
    /// Hottest that what lies against it all the time may get: foam, a printed wall, tape. Leave it out where it lies free.
    pub neighbours_temperature_max: Given<m::Temperature>,
}

/// A class of wire insulation.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Insulation {
    /// Highest of the conductor, for as long as you like.
    pub temperature_max: Given<m::Temperature>,
    /// Coldest at which it may be bent or shaken.
    pub temperature_min: Given<m::Temperature>,
    pub conductivity: Given<m::ThermalConductivity>,
    pub basis: Option<Basis>,
    pub source: Option<String>,
    /// Figures whose basis differs from the insulation's own, by field name.
    pub figures: Map<Figure>,
}

impl Target for Insulation {
    const SECTIONS: &'static str = "$ref:insulations";
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct Connector {
    pub class: Maybe<Ref<ConnectorClass>>,
    pub form: Option<String>,
    /// For as long as you like, in place of that of its class.
    pub rated_current: Given<m::Current>,
    /// For ten seconds, in place of that of its class.
    pub burst_current: Given<m::Current>,
    /// Hottest that its contacts and its housing may get, and so the wire where it ends in them; in place of that of its class.
    pub temperature_max: Given<m::Temperature>,
}

/// A class of connector, one contact of it.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct ConnectorClass {
    pub rated_current: Given<m::Current>,
    pub burst_current: Given<m::Current>,
    pub basis: Option<Basis>,
    pub source: Option<String>,
    /// Hottest that its contacts and its housing may get, for as long as you like.
    pub temperature_max: Given<m::Temperature>,
}

impl Target for ConnectorClass {
    const SECTIONS: &'static str = "$ref:connectors";
}

#[derive(Debug, Deserialize, JsonSchema)]
pub struct AuxiliarySupply {
    pub rated_current: Given<m::Current>,
    /// Peak current of each consumer.
    pub loads: Map<Given<m::Current>>,
    /// Mean of all its consumers together while driving, the coolant pump left out.
    pub mean_power: Given<m::Power>,
}
