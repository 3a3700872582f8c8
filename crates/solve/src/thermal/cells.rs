//! The pack of cells: a block in foam or bare, in the air of its enclosure.

use super::bodies::CELLS;
use super::feed::Feed;
use super::network::{Network, of};
use crate::at::At;
use machine::{Cooled, Found};
use physics::heat::body::{Stuff, box_time, cube, surface, wrapped};
use quantity::*;

/// The pack as a body.
#[derive(Debug, Clone, PartialEq)]
pub struct Pack {
    pub edges: [Length; 3],
    /// From its surface to the air round it, wrap included.
    pub coefficient: HeatTransfer,
    pub stuff: Stuff,
    /// When the case begins.
    pub first: ThermodynamicTemperature,
    /// Air round it.
    pub air: ThermodynamicTemperature,
}

impl Pack {
    /// Time until its middle is as warm, or as cool, as that, with nothing switched on; nothing if it never is.
    #[must_use]
    pub fn middle_reaches(&self, temperature: ThermodynamicTemperature) -> Option<Time> {
        box_time(self.edges, self.coefficient, &self.stuff, self.first, self.air, temperature)
    }
}

/// Adds the pack to the network.
pub(super) fn pack(at: &At, network: &mut Network, feed: &Feed<'_>) -> Found<Pack> {
    let (battery, assumed) = (&at.machine().powertrain.battery, at.assumed());
    let mass = at.need(&battery.mass)?;
    let heat_capacity = at.need(&assumed.cell_heat_capacity)?;
    let edges = match at.try_part(&battery.size) {
        Some(size) => [at.need(&size.length)?, at.need(&size.width)?, at.need(&size.thickness)?],
        None => cube(mass, at.need(&assumed.pack_density)?),
    };
    let area = surface(edges);
    let own = match at.try_get(&battery.to_air) {
        Some(resistance) => 1.0 / (resistance.si() * area.si()),
        None => {
            let foam = at.or_take(&battery.foam, Length::from_si(0.0), "bare");
            wrapped(at.need(&assumed.still_air)?, foam, at.need(&assumed.foam_conductivity)?).si()
        }
    };
    let (air, behind) = feed.air(at, at.part_or(&battery.zone, "the outside air"))?;
    let coefficient = 1.0 / (1.0 / own + behind * area.si());
    network.body(CELLS, mass.si() * heat_capacity.si());
    network.held(CELLS, coefficient * area.si(), air);
    feed.cool(network, CELLS, Cooled::Battery);
    let heat = feed.watts(at, Cooled::Battery, |drive| drive.battery_heat)?;
    network.heat(CELLS, heat);
    let volume: f64 = edges.iter().map(|edge| edge.si()).product();
    let stuff = Stuff {
        conductivity: at.need(&assumed.pack_conductivity)?,
        density: MassDensity::from_si(mass.si() / volume),
        heat_capacity,
    };
    let kelvin = |above: f64| ThermodynamicTemperature::from_si(feed.outside + above);
    Ok(Pack {
        edges,
        coefficient: HeatTransfer::from_si(coefficient),
        stuff,
        first: kelvin(of(&feed.first, CELLS)),
        air: kelvin(air),
    })
}
