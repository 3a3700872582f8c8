//! Absolute pressures: from the reservoir's gas space along the loop.

use super::Circuit;
use super::elements::{Loop, Role};
use crate::at::At;
use crate::drive::outside;
use machine::{Found, LidKind, NotJudged};
use quantity::*;

/// Fills in the absolute pressures of a circuit whose drops are known.
pub(super) fn pressures(at: &At, circuit: &Loop, mut state: Circuit) -> Found<Circuit> {
    let open = at.surroundings()?.pressure;
    let tank = circuit.stations.iter().position(|station| station.role == Role::Reservoir);
    let (pressure, unknown) = match gas_space(at, circuit, &state, tank) {
        Ok(pressure) => (pressure, None),
        // Temperatures and flow do not hang on it: it is said beside them.
        Err(gap) => (open, Some(gap)),
    };
    (state.reservoir_pressure, state.pressure_unknown) = (pressure, unknown);
    let first = tank.unwrap_or(0);
    let mut here = pressure;
    let (before, after) = state.elements.split_at_mut(first.min(circuit.stations.len()));
    for element in after.iter_mut().chain(before) {
        here -= element.drop;
        element.pressure = here;
    }
    Ok(state)
}

fn gas_space(at: &At, circuit: &Loop, state: &Circuit, tank: Option<usize>) -> Found<Pressure> {
    let cooling = &at.machine().cooling;
    let open = at.surroundings()?.pressure;
    let lid = at.part(&cooling.reservoir.lid)?;
    if lid.closes == LidKind::Vented {
        return Ok(open);
    }
    let environment = &at.machine().environment;
    let closed_at = match at.try_get(&cooling.coolant.filled_at) {
        Some(temperature) => temperature,
        None => at.or(&environment.assembled_at, &at.assumed().assembled_at)?,
    };
    // Closed in the valley, driven on the mountain.
    let valley = at.or(&environment.altitude.low, &at.assumed().altitude)?;
    let closed = physics::air::pressure(valley).map_err(outside)?;
    let (gas, volume) = (at.need(&cooling.reservoir.gas_space)?, at.need(&cooling.coolant.volume)?);
    #[expect(clippy::cast_precision_loss, reason = "a handful of elements")]
    let count = state.elements.len() as f64;
    let mean = state.elements.iter().map(|each| each.inlet.si() + each.outlet.si()).sum::<f64>() / (2.0 * count);
    let mean = ThermodynamicTemperature::from_si(mean);
    let gas_now_at = tank.and_then(|tank| state.elements.get(tank)).map_or(mean, |element| element.outlet);
    let density = |temperature| Ok(circuit.liquid.at(at, temperature)?.density);
    let liquid_now = physics::gas::expanded_volume(volume, density(closed_at)?, density(mean)?);
    let gas_now = gas + volume - liquid_now;
    let relief = at.try_get(&lid.pressure_max).map(|above| open + above);
    let valve = at.try_get(&lid.vacuum_valve).map(|below| open - below);
    let pressure = match (gas_now.si() > 0.0, relief) {
        (true, _) => physics::gas::pressure_after(closed, gas, closed_at, gas_now, gas_now_at),
        (false, Some(relief)) => relief,
        (false, None) => {
            let words = "the warm coolant needs more room than the reservoir has: its lid, a hose or a wall gives way";
            return Err(NotJudged::NoSolution(words.into()));
        }
    };
    // What lets gas out and in.
    let pressure = match relief {
        Some(relief) if pressure.si() > relief.si() => relief,
        _ => pressure,
    };
    Ok(match valve {
        Some(valve) if pressure.si() < valve.si() => valve,
        _ => pressure,
    })
}
