//! Absolute pressures: from the reservoir's gas space along the loop.

use super::elements::{Loop, Role, wall};
use super::path::Stretch;
use super::{Circuit, ElementState, Gas, Rubber};
use crate::at::At;
use crate::drive::outside;
use machine::{Found, Hose, LidKind, NotJudged, Scale};
use quantity::*;

/// Poisson ratio of soft rubber: it changes its shape, hardly its volume.
const RUBBER: f64 = 0.49;
/// m/s² (ISO 80000-3).
const GRAVITY: f64 = 9.806_65;

/// Fills in the absolute pressures of a circuit whose drops are known.
pub(super) fn pressures(at: &At, circuit: &Loop, mut state: Circuit) -> Found<Circuit> {
    let open = at.surroundings()?.pressure;
    let weights = weights(at, circuit);
    match Filled::read(at, circuit, &state.elements) {
        Ok(filled) => {
            let (resting, _) = filled.settle(circuit, &mut state.elements, &weights, false);
            let (gas, pressure) = filled.settle(circuit, &mut state.elements, &weights, true);
            state.reservoir_pressure = pressure;
            state.pressure_unknown = filled.too_full(&gas);
            (state.gas_below, state.gas_above) = filled.against_the_air(&gas);
            state.gas = Ok(Gas { resting: resting.space, ..gas });
        }
        // Temperatures and flow do not hang on it: it is said beside them. An open reservoir has the outside air's pressure.
        Err(gap) => {
            let vented = at.part(&at.machine().cooling.reservoir.lid).map(|lid| lid.closes == LidKind::Vented);
            state.pressure_unknown = match vented {
                Ok(true) => None,
                Ok(false) => Some(gap.clone()),
                Err(lid) => Some(lid),
            };
            state.gas = Err(gap);
            state.reservoir_pressure = open;
        }
    }
    along(circuit, &mut state.elements, state.reservoir_pressure.si(), &weights, true);
    none_below_its_vapour(at, circuit, &mut state.elements);
    Ok(state)
}

/// Where suction or height would draw the pressure below that of the coolant's own vapour it boils, and the pressure stays
/// there. A coolant that is hot all round boils for another reason, and keeps its pressures.
fn none_below_its_vapour(at: &At, circuit: &Loop, elements: &mut [ElementState]) {
    let coldest = elements.iter().map(|each| each.inlet.si()).fold(f64::INFINITY, f64::min);
    let vapour = circuit.liquid.vapour_pressure(at, ThermodynamicTemperature::from_si(coldest));
    // Nothing presses less than nothing, whatever else is known of it.
    let least = vapour.unwrap_or(Pressure::ZERO);
    let held = |pressure: Pressure| if pressure < least { least } else { pressure };
    for element in elements {
        (element.entry, element.pressure) = (held(element.entry), held(element.pressure));
    }
}

/// What pushes coolant into the pump in the cold, Pa: as if the loop stood at rest in the outside air.
pub(super) fn feeds(at: &At, circuit: &Loop) -> f64 {
    let Ok(around) = at.surroundings() else { return f64::INFINITY };
    let still = vec![ElementState::resting(around.outside); circuit.stations.len()];
    let filled = Filled::read(at, circuit, &still);
    let gas =
        filled.map_or(around.pressure.si(), |filled| filled.valved(filled.pressure(filled.gas + filled.shrunk, 0.0)));
    let properties = (circuit.liquid.at(at, around.outside), circuit.liquid.vapour_pressure(at, around.outside));
    let inlet = circuit.stations.iter().find(|station| station.role == Role::Pump).map_or(0.0, |pump| pump.height);
    let density = properties.0.map_or(0.0, |liquid| liquid.density.si());
    gas - properties.1.map_or(0.0, Quantity::si) - density * GRAVITY * inlet
}

/// What pushes coolant into the pump in a state that is worked out, Pa: by its own gas and the coolant's own temperature.
/// Nothing where the pump gets what it could move.
pub(super) fn fed(at: &At, circuit: &Loop, state: &Circuit) -> Option<f64> {
    let place = circuit.stations.iter().position(|station| station.role == Role::Pump)?;
    let (pump, inlet) = (circuit.stations.get(place)?, state.elements.get(place)?);
    let vapour = circuit.liquid.vapour_pressure(at, inlet.inlet).ok()?;
    if !state.starved && inlet.entry >= vapour {
        return None;
    }
    let density = circuit.liquid.at(at, ThermodynamicTemperature::from_si(circuit.outside)).ok()?.density.si();
    Some(state.reservoir_pressure.si() - vapour.si() - density * GRAVITY * pump.height)
}

/// Pressure that each element's height takes off, Pa, by the coolant's density in the outside air.
fn weights(at: &At, circuit: &Loop) -> Vec<f64> {
    let density = circuit.liquid.at(at, ThermodynamicTemperature::from_si(circuit.outside));
    // Frozen, it weighs about as much as water.
    let density = density.map_or(1000.0, |liquid| liquid.density.si());
    circuit.stations.iter().map(|station| density * GRAVITY * station.height).collect()
}

/// Pressures in flow order from the reservoir on; with the pump standing nothing is lost on the way.
fn along(circuit: &Loop, elements: &mut [ElementState], tank: f64, weights: &[f64], flowing: bool) {
    let first = circuit.stations.iter().position(|station| station.role == Role::Reservoir).unwrap_or(0);
    let start = circuit.path.iter().position(|(stretch, _)| stretch.holds(first)).unwrap_or(0);
    let (before, after) = circuit.path.split_at(start.min(circuit.path.len()));
    let mut way = |places: &[usize], from: f64| {
        let mut left = from;
        for place in places {
            let (Some(element), Some(weight)) = (elements.get_mut(*place), weights.get(*place)) else { continue };
            element.entry = Pressure::from_si(left - weight);
            left -= if flowing { element.drop.si() } else { 0.0 };
            element.pressure = Pressure::from_si(left - weight);
        }
        left
    };
    let mut here = tank;
    for (stretch, _) in after.iter().chain(before) {
        here = match stretch {
            Stretch::Single(place) => way(&[*place], here),
            Stretch::Branches(ways) => ways.iter().fold(here, |_, places| way(places, here)),
        };
    }
}

/// The reservoir and its coolant since the lid was closed.
struct Filled {
    closed: bool,
    /// Absolute, at filling, Pa, without the coolant's vapour.
    air: f64,
    filled_at: f64,
    gas: f64,
    /// Change of the coolant's volume since, m³.
    shrunk: f64,
    /// Now: temperature of the gas, pressure of the vapour in it, of the outside air.
    gas_at: f64,
    vapour: f64,
    open: f64,
    /// Of the air at the lowest altitude, where the lid was closed.
    valley: f64,
    relief: Option<f64>,
    vacuum_valve: Option<f64>,
    /// Places of the hoses, and by how much each grows for each Pa in it, m³.
    hoses: Vec<(usize, f64)>,
}

impl Filled {
    fn read(at: &At, circuit: &Loop, elements: &[ElementState]) -> Found<Self> {
        let cooling = &at.machine().cooling;
        let (environment, assumed) = (&at.machine().environment, at.assumed());
        let lid = at.part(&cooling.reservoir.lid)?;
        let filled_at = match at.try_get(&cooling.coolant.filled_at) {
            Some(temperature) => temperature,
            None => at.or(&environment.assembled_at, &assumed.assembled_at)?,
        };
        // Closed in the valley, driven on the mountain.
        let valley = at.or(&environment.altitude.low, &assumed.altitude)?;
        let then = physics::air::pressure(valley).map_err(outside)?;
        let (gas, volume) = (at.need(&cooling.reservoir.gas_space)?, at.need(&cooling.coolant.volume)?);
        let open = at.surroundings()?.pressure.si();
        let tank = circuit.stations.iter().position(|station| station.role == Role::Reservoir);
        let gas_at = tank.and_then(|tank| elements.get(tank)).map_or_else(|| mean(elements), |tank| tank.outlet.si());
        let closed = lid.closes == LidKind::Closed;
        let (mut air, mut vapour) = (then.si(), 0.0);
        if closed {
            air -= circuit.liquid.vapour_pressure(at, filled_at)?.si();
            vapour = circuit.liquid.vapour_pressure(at, ThermodynamicTemperature::from_si(gas_at))?.si();
        }
        Ok(Self {
            closed,
            air,
            filled_at: filled_at.si(),
            gas: gas.si(),
            shrunk: shrunk(at, circuit, elements, volume, filled_at, gas_at)?,
            gas_at,
            vapour,
            open,
            valley: then.si(),
            relief: at.try_get(&lid.pressure_max).map(|above| open + above.si()),
            vacuum_valve: at.try_get(&lid.vacuum_valve).map(|below| open - below.si()),
            hoses: hoses(at, circuit, elements)?,
        })
    }

    /// Of the gas where its room is `free` at no pressure and grows by `yields` for each Pa, as if no valve let anything out
    /// or in: (p − vapour)·(free + yields·p) = air·V·T, whose greater root it is. Without any room it has no end.
    fn pressure(&self, free: f64, yields: f64) -> f64 {
        if !self.closed {
            return self.open;
        }
        let then = Volume::from_si(self.gas);
        let temperature = ThermodynamicTemperature::from_si;
        let (filled, gas) = (temperature(self.filled_at), temperature(self.gas_at));
        // What the gas would press in one cubic metre.
        let one = Volume::from_si(1.0);
        let presses = physics::gas::pressure_after(Pressure::from_si(self.air), then, filled, one, gas).si();
        let (linear, constant) = (free - self.vapour * yields, self.vapour * free + presses);
        let root = (linear * linear + 4.0 * yields * constant).sqrt();
        // Both forms are the same root; each loses its digits where the other keeps them.
        match linear > 0.0 {
            true => 2.0 * constant / (linear + root),
            false if yields > 0.0 => (root - linear) / (2.0 * yields),
            false => f64::INFINITY,
        }
    }

    /// What the valves of the lid leave of it.
    fn valved(&self, pressure: f64) -> f64 {
        if !self.closed {
            return self.open;
        }
        pressure.min(self.relief.unwrap_or(f64::INFINITY)).max(self.vacuum_valve.unwrap_or(0.0))
    }

    /// The gas and the hoses, each as the other leaves it; and the pressure in the reservoir.
    fn settle(&self, circuit: &Loop, elements: &mut [ElementState], weights: &[f64], flowing: bool) -> (Gas, Pressure) {
        // Hoses grow in proportion to what is in them: by this with nothing in the reservoir, and by so much for each Pa.
        along(circuit, elements, 0.0, weights, flowing);
        let empty: f64 = self.hoses.iter().map(|(place, yields)| yields * self.over_the_air(elements, *place)).sum();
        let yields: f64 = self.hoses.iter().map(|(_, yields)| yields).sum();
        let free = self.gas + self.shrunk + empty;
        let sealed = self.pressure(free, yields);
        let valved = self.valved(sealed);
        let pressure = if valved.is_finite() { valved } else { self.open };
        let space = Volume::from_si(free + yields * pressure);
        (Gas { sealed: Pressure::from_si(sealed), space, resting: space }, Pressure::from_si(pressure))
    }

    /// Mean pressure in one element over that of the air, Pa.
    fn over_the_air(&self, elements: &[ElementState], place: usize) -> f64 {
        let inside = elements.get(place).map_or(0.0, |element| 0.5 * (element.entry.si() + element.pressure.si()));
        inside - self.open
    }

    /// How far below the air in the valley, and above that on the mountain.
    fn against_the_air(&self, gas: &Gas) -> (Pressure, Pressure) {
        if !self.closed {
            return (Pressure::ZERO, Pressure::ZERO);
        }
        let limit = |depth: f64, valve: Option<f64>| Pressure::from_si(depth.min(valve.unwrap_or(f64::INFINITY)));
        let sealed = gas.sealed.si();
        let vacuum = self.vacuum_valve.map(|pressure| self.open - pressure);
        let relief = self.relief.map(|pressure| pressure - self.open);
        (limit(self.valley - sealed, vacuum), limit(sealed - self.open, relief))
    }

    fn too_full(&self, gas: &Gas) -> Option<NotJudged> {
        let says = "the warm coolant needs more room than the reservoir has: its lid, a hose or a wall gives way";
        (self.closed && gas.space.si() <= 0.0 && self.relief.is_none()).then(|| NotJudged::NoSolution(says.into()))
    }
}

fn mean(elements: &[ElementState]) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "a handful of elements")]
    let count = elements.len() as f64;
    elements.iter().map(|each| each.inlet.si() + each.outlet.si()).sum::<f64>() / (2.0 * count)
}

/// How much less room the coolant takes than when it was filled in, m³: each element's by its own temperature, what is in
/// none of them by the reservoir's.
fn shrunk(
    at: &At,
    circuit: &Loop,
    elements: &[ElementState],
    volume: Volume,
    filled_at: ThermodynamicTemperature,
    tank: f64,
) -> Found<f64> {
    let then = circuit.liquid.at(at, filled_at)?.density;
    let less = |volume: f64, kelvin: f64| {
        let now = circuit.liquid.at(at, ThermodynamicTemperature::from_si(kelvin))?.density;
        Ok(volume - physics::gas::expanded_volume(Volume::from_si(volume), then, now).si())
    };
    let known: f64 = circuit.stations.iter().map(|station| station.passage.volume()).sum();
    // Sizes and volume come from different hands: more in the elements than was filled in is as good as all.
    let scale = (volume.si() / known).min(1.0);
    let mut sum = less((volume.si() - known).max(0.0), tank)?;
    for (station, element) in circuit.stations.iter().zip(elements) {
        let held = station.passage.volume();
        if held > 0.0 {
            sum += less(held * scale, 0.5 * (element.inlet.si() + element.outlet.si()))?;
        }
    }
    Ok(sum)
}

/// Places of the hoses, and by how much each grows for each Pa in it, m³.
fn hoses(at: &At, circuit: &Loop, elements: &[ElementState]) -> Found<Vec<(usize, f64)>> {
    let mut hoses = Vec::new();
    for (place, (station, element)) in circuit.stations.iter().zip(elements).enumerate() {
        if let Some(hose) = station.hose {
            hoses.push((place, station.passage.volume() * yields(at, hose, element.outlet)?.si()));
        }
    }
    Ok(hoses)
}

/// Share by which a hose gains volume for each Pa in it.
fn yields(at: &At, hose: &Hose, temperature: ThermodynamicTemperature) -> Found<Ratio> {
    let (bore, rubber) = (at.need(&hose.bore)?, rubber(at, hose, temperature)?);
    let wall = wall(at, hose, bore);
    Ok(physics::hose::swelling(Pressure::from_si(1.0), bore, wall, rubber.modulus, rubber.poisson))
}

pub(super) fn rubber(at: &At, hose: &Hose, temperature: ThermodynamicTemperature) -> Found<Rubber> {
    let soft = Ratio::from_si(RUBBER);
    let Some(material) = at.part_or(&hose.material, "soft rubber").map(|material| at.machine().follow(material)) else {
        return Ok(Rubber { modulus: at.need(&at.assumed().hose_modulus)?, poisson: soft });
    };
    let stiffer = match at.try_part(&material.modulus_at) {
        Some(curve) => at.at(curve, temperature, Scale::Log, "the stiffness of the hose")?,
        None => Ratio::from_si(1.0),
    };
    Ok(Rubber {
        modulus: at.or(&material.modulus, &at.assumed().hose_modulus)? * stiffer,
        poisson: at.or_take(&material.poisson, soft, "0.49"),
    })
}
