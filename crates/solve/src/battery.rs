//! The battery: how cold its cells are, and what that leaves of voltage, resistance and charge.
//!
//! Cells are as cold as the air, or as warm as the pack was put in; how they warm up by their own current or cool down on a
//! long cold day is left out, which errs on the cold side for the first and on the warm side for the second.

#[cfg(test)]
mod tests;

use crate::at::{At, Solve};
use crate::drive::outside as refused;
use machine::{CaseKind, Cell, Found, NotJudged, Scale};
use quantity::*;

#[derive(Debug, Clone, PartialEq)]
pub struct Battery {
    /// Of the cells.
    pub cells: ThermodynamicTemperature,
    /// Without load, charged full; whole pack.
    pub full: Found<ElectricPotential>,
    /// Without load, on average; whole pack.
    pub nominal: Found<ElectricPotential>,
    /// With leads, as cold as the cells are.
    pub resistance: Found<ElectricalResistance>,
    /// What the cells give as cold as they are.
    pub charge: Found<ElectricCharge>,
}

impl Solve for Battery {
    fn solve(at: &At) -> Found<Self> {
        solve(at)
    }
}

impl<'a> At<'a> {
    /// How cold the cells are, and what that leaves of voltage, resistance and charge.
    ///
    /// # Errors
    /// As worked out: a gap, a range, or its own reason.
    pub fn battery(&self) -> Found<&'a Battery> {
        self.ask()
    }
}

/// Works the battery out.
///
/// # Errors
/// The outside air is not known.
fn solve(at: &At) -> Found<Battery> {
    let cells = cells_at(at)?;
    Ok(Battery {
        cells,
        full: open(at, Charged::Full),
        nominal: open(at, Charged::OnAverage),
        resistance: resistance(at, cells),
        charge: charge(at, cells),
    })
}

/// The kind of its cells, where the spec says it.
fn kind<'a>(at: &At<'a>) -> Option<&'a Cell> {
    let machine = at.machine();
    at.try_part(&machine.powertrain.battery.cells.kind).map(|kind| &machine.follow(kind).value)
}

fn cells_at(at: &At) -> Found<ThermodynamicTemperature> {
    let outside = at.surroundings()?.outside;
    if matches!(at.case()?.kind, CaseKind::Soak | CaseKind::BroughtIndoors) {
        return Ok(outside);
    }
    Ok(at.try_get(&at.machine().powertrain.battery.put_in_at).unwrap_or(outside))
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Charged {
    Full,
    OnAverage,
}

fn open(at: &At, charged: Charged) -> Found<ElectricPotential> {
    let (cells, assumed, kind) = (&at.machine().powertrain.battery.cells, at.assumed(), kind(at));
    let (own, of_kind, usual) = match charged {
        Charged::Full => (&cells.full_voltage, kind.map(|kind| &kind.full_voltage), &assumed.cell_full_voltage),
        Charged::OnAverage => {
            (&cells.nominal_voltage, kind.map(|kind| &kind.nominal_voltage), &assumed.cell_nominal_voltage)
        }
    };
    let each = match (at.try_get(own), of_kind) {
        (Some(own), _) => own,
        // What stands in for the voltage is that of the usual cells: a kind that is named has one of its own.
        (None, Some(of_kind)) => at.need(of_kind)?,
        (None, None) => at.or(own, usual)?,
    };
    Ok(each * at.need(&cells.series)?)
}

fn resistance(at: &At, cells: ThermodynamicTemperature) -> Found<ElectricalResistance> {
    let stated = at.need(&at.machine().powertrain.battery.resistance)?;
    let table = kind(at).and_then(|kind| at.try_part(&kind.resistance_at));
    let grown = match table {
        Some(table) => at.at(table, cells, Scale::Log, "resistance of this kind of cell")?,
        None => {
            let factor = at.need(&at.assumed().cold_battery_resistance)?;
            Ratio::from_si(physics::battery::resistance_from_20(cells, factor).map_err(refused)?.si())
        }
    };
    Ok(stated * grown)
}

fn charge(at: &At, cells: ThermodynamicTemperature) -> Found<ElectricCharge> {
    let stated = at.need(&at.machine().powertrain.battery.capacity)?;
    let table = kind(at).and_then(|kind| at.try_part(&kind.capacity_at));
    let left = match table {
        Some(table) => at.at(table, cells, Scale::Linear, "charge that this kind of cell gives")?,
        None => {
            let share = at.need(&at.assumed().cold_battery_capacity)?;
            physics::battery::charge_left_by_cold(cells, share).map_err(refused)?
        }
    };
    if left.si() < 0.0 {
        return Err(NotJudged::NoSolution("a battery cannot give less than nothing".into()));
    }
    Ok(stated * left)
}
