//! Where flow and temperatures settle.

use super::elements::{Loop, Role, Station};
use super::{Circuit, ElementState};
use crate::at::At;
use machine::{Found, NotJudged};
use physics::coolant::Properties;
use physics::heat::exchanger::{Passing, effectiveness};
use quantity::*;

/// Below this share of its free flow a pump counts as stalled.
const STALLED: f64 = 0.01;
/// Rounds until flow and temperatures must have settled.
const ROUNDS: usize = 60;
/// Settled, K.
const SETTLED: f64 = 1e-8;
/// No temperature moves further in one round, K: thick coolant that starts to move would overshoot far beyond its tables.
const STEP: f64 = 15.0;
/// Conductance over heat capacity rate below which an element counts as exchanging nothing.
const NOTHING: f64 = 1e-9;

fn none<T>(words: &str) -> Found<T> {
    Err(NotJudged::NoSolution(words.to_owned()))
}

/// What one element does to the coolant that passes it. Temperatures in K above the outside air.
struct Passed {
    /// Share of the flow that goes through it.
    share: f64,
    heat: f64,
    /// Conductance from the coolant to the outer air, and that air.
    conductance: f64,
    air: f64,
    /// Conductance from the coolant to the wall, where it is known.
    film: Option<f64>,
    /// Heat capacity rate of what goes through it.
    rate: f64,
    effect: f64,
    /// Effect over number of transfer units: 1 in a small exchanger.
    mean_effect: f64,
}

impl Passed {
    fn new(station: &Station, heat: f64, share: f64, rate: f64, film: Option<f64>, outside: f64) -> Self {
        let rate = rate * share;
        let (conductance, air) = match station.outer {
            Some((outer, air)) if share > 0.0 => {
                (film.map_or(outer, |film| outer * film / (outer + film)), air - outside)
            }
            _ => (0.0, 0.0),
        };
        let units = if share > 0.0 { conductance / rate } else { 0.0 };
        let effect = effectiveness(Passing::OneSideConstant, units, 0.0);
        let (conductance, effect, mean_effect) =
            if units > NOTHING { (conductance, effect, effect / units) } else { (0.0, 0.0, 1.0) };
        let heat = if share > 0.0 { heat } else { 0.0 };
        Self { share, heat, conductance, air, film, rate, effect, mean_effect }
    }

    /// What leaves it, mixed with what went past it, where `inlet` comes in.
    fn outlet(&self, inlet: f64) -> f64 {
        if self.share <= 0.0 {
            return inlet;
        }
        inlet + self.share * (self.effect * (self.air - inlet) + self.heat / self.rate * self.mean_effect)
    }

    /// Mean of what goes through it.
    fn mean(&self, inlet: f64) -> f64 {
        if self.conductance > 0.0 {
            let settles = self.air + self.heat / self.conductance;
            return settles + (inlet - settles) * self.mean_effect;
        }
        if self.share > 0.0 { inlet + 0.5 * self.heat / self.rate } else { inlet }
    }

    fn through(&self, inlet: f64) -> f64 {
        inlet + if self.share > 0.0 { (self.outlet(inlet) - inlet) / self.share } else { 0.0 }
    }
}

impl Loop<'_> {
    /// With the pump running: the thermostat open, closed, or holding its temperature.
    pub(super) fn running(&self, at: &At, heats: &[f64]) -> Found<Circuit> {
        let open = self.settle(at, heats, 1.0)?;
        let Some((place, opens_at)) = self.thermostat else { return Ok(open) };
        let warm = |circuit: &Circuit| circuit.elements.get(place).is_some_and(|valve| valve.inlet.si() >= opens_at);
        if !open.running || open.stalled || warm(&open) {
            return Ok(open);
        }
        // Without its exchanger the loop may find no end, which is warm enough.
        match self.settle(at, heats, 0.0) {
            Ok(closed) if !warm(&closed) => return Ok(closed),
            _ => {}
        }
        let (mut hot, mut cold, mut held) = (0.0, 1.0, open);
        for _ in 0..30 {
            let middle = 0.5 * (hot + cold);
            match self.settle(at, heats, middle) {
                Ok(circuit) if !warm(&circuit) => (cold, held) = (middle, circuit),
                _ => hot = middle,
            }
        }
        Ok(held)
    }

    fn share(&self, station: &Station, open: f64) -> f64 {
        if station.valved { open } else { 1.0 }
    }

    /// Flow at which the pumps make what the loop loses.
    pub(super) fn flow(&self, liquids: &[Properties], open: f64) -> Found<f64> {
        let pairs = || self.stations.iter().zip(liquids);
        let pumping =
            pairs().find(|(station, _)| station.role == Role::Pump).map_or(0.0, |(_, liquid)| liquid.viscosity.si());
        let over = |share: f64| {
            let flow = share * self.pump.free;
            let lost: f64 =
                pairs().map(|(station, liquid)| station.passage.loss(flow * self.share(station, open), liquid)).sum();
            self.pumps * self.pump.rise_share(flow, pumping) - lost / self.pump.stall()
        };
        if over(1.0) >= 0.0 {
            return Ok(self.pump.free);
        }
        let mut fine = roots::SimpleConvergency { eps: 1e-13, max_iter: 200 };
        match roots::find_root_brent(0.0, 1.0, over, &mut fine) {
            Ok(share) if share.is_finite() => Ok(share.max(0.0) * self.pump.free),
            _ => none("no flow was found at which the pump makes what the loop loses"),
        }
    }

    /// Rounds of flow, properties and temperatures until nothing moves, from the cold: a loop stuck in the cold stays stuck.
    fn settle(&self, at: &At, heats: &[f64], open: f64) -> Found<Circuit> {
        #[expect(clippy::cast_precision_loss, reason = "a handful of elements")]
        let count = self.stations.len() as f64;
        let mut means = vec![0.0; self.stations.len()];
        let (mut step, mut before) = (0.8, 0.0);
        // Hotter than its properties are known: refused with the temperature at which it settles, or is still rising.
        let known = |means: &[f64]| -> Found<()> {
            let kelvin = |above: &f64| ThermodynamicTemperature::from_si(self.outside + above);
            means.iter().try_for_each(|mean| self.liquid.at(at, kelvin(mean)).map(drop))
        };
        for _ in 0..ROUNDS {
            let kelvin = |above: f64| ThermodynamicTemperature::from_si(self.outside + above);
            let liquids = means.iter().map(|mean| self.liquid.held(at, kelvin(*mean))).collect::<Found<Vec<_>>>()?;
            let flow = self.flow(&liquids, open)?;
            if flow < STALLED * self.pump.free {
                return self.still(at, heats, true);
            }
            let whole = self.liquid.held(at, kelvin(means.iter().sum::<f64>() / count))?;
            let rate = flow * whole.density.si() * whole.heat_capacity.si();
            let mut passed = Vec::with_capacity(self.stations.len());
            for ((station, liquid), heat) in self.stations.iter().zip(&liquids).zip(heats) {
                let share = self.share(station, open);
                let film = if share > 0.0 { station.passage.film(flow * share, liquid)? } else { None };
                passed.push(Passed::new(station, *heat, share, rate, film, self.outside));
            }
            let start = start(&passed)?;
            let mut inlet = start;
            let mut worst = 0.0f64;
            for (mean, each) in means.iter_mut().zip(&passed) {
                let moves = each.mean(inlet) - *mean;
                if moves.is_nan() || moves.abs() > worst.abs() {
                    worst = moves;
                }
                *mean += (step * moves).clamp(-STEP, STEP);
                inlet = each.outlet(inlet);
            }
            if !worst.is_finite() {
                return none("the coolant loop has no finite answer: a size in it is zero or far from possible");
            }
            if worst.abs() < SETTLED {
                known(&means)?;
                return Ok(self.circuit(flow, &liquids, &passed, start, open));
            }
            // Swinging to and fro, the steps are too long; creeping along, too short.
            let swings = worst * before < 0.0 && worst.abs() > 0.2 * before.abs();
            step = if swings { (0.6 * step).max(0.1) } else { (1.1 * step).min(0.8) };
            before = worst;
        }
        known(&means)?;
        none("flow and temperature of the coolant loop chase each other and do not settle")
    }

    fn circuit(&self, flow: f64, liquids: &[Properties], passed: &[Passed], start: f64, open: f64) -> Circuit {
        let kelvin = |above: f64| ThermodynamicTemperature::from_si(self.outside + above);
        let pumping = self.stations.iter().zip(liquids).find(|(station, _)| station.role == Role::Pump);
        let rise =
            pumping.map_or(0.0, |(_, liquid)| self.pump.rise_share(flow, liquid.viscosity.si()) * self.pump.stall());
        let (mut inlet, mut put_in, mut given_off, mut passing) = (start, 0.0, 0.0, 0.0);
        let mut elements = Vec::with_capacity(passed.len());
        for ((station, liquid), each) in self.stations.iter().zip(liquids).zip(passed) {
            let outlet = each.outlet(inlet);
            let through = flow * self.share(station, open);
            // Each end's wall: against the coolant there, less what flows out through the film, plus what flows in.
            let ends = [inlet, each.through(inlet)].map(|coolant| {
                let wetted = match each.film {
                    Some(film) if film > 0.0 => coolant + (each.heat - each.conductance * (coolant - each.air)) / film,
                    _ => coolant,
                };
                (wetted, wetted + each.heat * station.contact)
            });
            let [(a, face_a), (b, face_b)] = ends;
            let heat = each.rate * (each.through(inlet) - inlet);
            put_in += each.heat;
            given_off += each.conductance * (each.mean(inlet) - each.air);
            passing += heat.abs() / 2.0;
            let loss = station.passage.loss(through, liquid);
            let drop = if station.role == Role::Pump { -rise } else { loss };
            elements.push(ElementState {
                inlet: kelvin(inlet),
                outlet: kelvin(outlet),
                wall: kelvin(face_a.min(face_b)),
                wetted: (kelvin(a.min(b)), kelvin(a.max(b))),
                pressure: Pressure::ZERO,
                drop: Pressure::from_si(drop),
                reynolds: station.passage.reynolds(through, liquid),
                heat: Power::from_si(heat),
            });
            inlet = outlet;
        }
        let imbalance = if passing > 0.0 { (put_in - given_off) / passing } else { 0.0 };
        Circuit {
            flow: VolumeRate::from_si(flow),
            running: true,
            stalled: false,
            reservoir_pressure: Pressure::ZERO,
            pressure_unknown: None,
            elements,
            imbalance,
        }
    }

    /// Without flow: each element by itself, its heat to the air before it through its outer face or else through its own
    /// wetted wall, as if that stood in moving air; an element without either shows its contact alone. Rough, and on the
    /// cool side: how hot a thing gets without flow is to be measured.
    pub(super) fn still(&self, at: &At, heats: &[f64], stalled: bool) -> Found<Circuit> {
        let mut elements = Vec::with_capacity(self.stations.len());
        for (station, heat) in self.stations.iter().zip(heats) {
            // The housing of a stalled pump is wet by little; its heat stays out of it.
            let heat = if station.role == Role::Pump { 0.0 } else { *heat };
            let (air, conductance) = match station.outer {
                Some((outer, air)) => (air, Some(outer)),
                None => {
                    let wall = station.passage.wetted().filter(|_| heat != 0.0);
                    let transfer = wall.map(|wall| Ok(at.need(&at.assumed().plate_to_air)?.si() * wall)).transpose()?;
                    (station.air.clone()?, transfer)
                }
            };
            let above =
                conductance.filter(|conductance| *conductance > 0.0).map_or(0.0, |conductance| heat / conductance);
            let coolant = ThermodynamicTemperature::from_si(air + above);
            elements.push(ElementState {
                inlet: coolant,
                outlet: coolant,
                wall: ThermodynamicTemperature::from_si(coolant.si() + heat * station.contact),
                wetted: (coolant, coolant),
                pressure: Pressure::ZERO,
                drop: Pressure::ZERO,
                reynolds: 0.0,
                heat: Power::ZERO,
            });
        }
        let (flow, nothing) = (VolumeRate::ZERO, Pressure::ZERO);
        Ok(Circuit {
            flow,
            running: false,
            stalled,
            reservoir_pressure: nothing,
            pressure_unknown: None,
            elements,
            imbalance: 0.0,
        })
    }
}

/// Temperature at the first inlet at which the loop comes back to itself: one way round is a straight line in it.
fn start(passed: &[Passed]) -> Found<f64> {
    // T ← T + e·(a − T) + b each: what is lost of the first temperature, and what is added.
    let (mut lost, mut added, mut heat) = (0.0f64, 0.0, 0.0);
    for each in passed {
        let effect = each.share * each.effect;
        lost = lost + effect - lost * effect;
        added = each.outlet(added);
        heat += each.heat.abs();
    }
    if lost > NOTHING {
        return Ok(added / lost);
    }
    if heat == 0.0 {
        return Ok(0.0);
    }
    none("nothing takes the heat out of the coolant: no element that it flows through has an `outside`")
}
