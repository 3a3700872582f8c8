//! Where flow and temperatures settle.

use super::elements::{Loop, Role, Station};
use super::flow::{self, Flows};
use super::passed::Passed;
use super::path::Stretch;
use super::{Circuit, ElementState, Warm};
use crate::at::At;
use machine::{Found, NotJudged};
use physics::coolant::Properties;
use physics::heat::inside::wall_viscosity;
use quantity::*;

/// Below this share of its free flow a pump counts as stalled.
const STALLED: f64 = 0.01;
/// How flow and temperatures are led to where they settle: how many rounds, and how far they follow each.
const WAYS: [Lead; 3] = [
    Lead { rounds: 80, step: None },
    // Where film or friction turns with the flow, full steps chase each other. Short ones do not: what a round takes too far,
    // the next takes back.
    Lead { rounds: 600, step: Some(0.2) },
    Lead { rounds: 4000, step: Some(0.03) },
];
/// Settled, K.
const SETTLED: f64 = 1e-8;
/// The same for walls, which move a film by a hundredth of a per cent for each kelvin.
const WALL_SETTLED: f64 = 1e-6;
/// From here on the way to it is straight enough for a secant, K.
const NEAR: f64 = 1.0;
/// No temperature moves further in one round, K: thick coolant that starts to move would overshoot far beyond its tables.
const STEP: f64 = 15.0;
/// Loss of the first temperature on one way round below which nothing takes heat out.
const NOTHING: f64 = 1e-9;
/// Two steady states are told apart from this difference of a flow on.
const APART: f64 = 0.01;
/// Once warm the coolant was at least so much warmer than the air, K.
const WARM: f64 = 20.0;

/// How a solution is led.
struct Lead {
    rounds: usize,
    /// Always this share of the way; where there is none, as much as seems well, with the secant near the end.
    step: Option<f64>,
}

fn none<T>(words: &str) -> Found<T> {
    Err(NotJudged::NoSolution(words.to_owned()))
}

/// Flow and temperatures, in K above the outside air, on their way to where they settle.
pub(super) struct Settling {
    pub(super) flows: Flows,
    pub(super) liquids: Vec<Properties>,
    means: Vec<f64>,
    /// How much hotter than the mean coolant its wall is, on average over an element, K.
    walls: Vec<f64>,
    /// What the coolant carries for each kelvin, W/K.
    rate: f64,
}

impl Loop<'_> {
    /// With the pump running: the thermostat open, closed, or holding its temperature.
    pub(super) fn running(&self, at: &At, heats: &[f64]) -> Found<Circuit> {
        let open = self.settle(at, heats, 1.0, 0.0)?;
        let Some((place, opens_at)) = self.thermostat else { return Ok(open) };
        let warm = |circuit: &Circuit| circuit.elements.get(place).is_some_and(|valve| valve.inlet.si() >= opens_at);
        if !open.running || open.stalled || warm(&open) {
            return Ok(open);
        }
        // Without its exchanger the loop may find no end, which is warm enough.
        match self.settle(at, heats, 0.0, 0.0) {
            Ok(closed) if !warm(&closed) => return Ok(closed),
            _ => {}
        }
        let (mut hot, mut cold, mut held) = (0.0, 1.0, open);
        for _ in 0..30 {
            let middle = 0.5 * (hot + cold);
            match self.settle(at, heats, middle, 0.0) {
                Ok(circuit) if !warm(&circuit) => (cold, held) = (middle, circuit),
                _ => hot = middle,
            }
        }
        Ok(held)
    }

    /// Another steady state, in which the loop stays once it has been warm. Only thick coolants have one: what flows little
    /// through an exchanger is cooled through there, and so stays thick, above all beside a branch that takes the flow.
    pub(super) fn once_warm(&self, at: &At, cold: &Circuit) -> Option<Warm> {
        let heats = self.heats();
        let hottest = |circuit: &Circuit| circuit.elements.iter().map(|each| each.outlet.si()).fold(0.0, f64::max);
        let start = (hottest(cold) - self.outside).max(WARM);
        let viscosity =
            |above: f64| self.liquid.at(at, self.kelvin(above)).map_or(f64::NAN, |liquid| liquid.viscosity.si());
        let single = self.path.iter().all(|(stretch, _)| matches!(stretch, Stretch::Single(_)));
        let unmoved = single && cold.flow.si() > (1.0 - APART) * self.pump.free;
        let thin = viscosity(0.0) < 2.0 * viscosity(start) || heats.iter().all(|heat| *heat <= 0.0);
        if unmoved || thin || self.thermostat.is_some() {
            return None;
        }
        let warm = self.settle(at, &heats, 1.0, start).ok().filter(|warm| warm.running)?;
        let pairs = warm.elements.iter().zip(&cold.elements);
        let apart = pairs.into_iter().any(|(warm, cold)| (warm.flow - cold.flow).si().abs() > APART * warm.flow.si());
        apart.then(|| Warm { flow: warm.flow, hottest: ThermodynamicTemperature::from_si(hottest(&warm)) })
    }

    /// What the case puts into each element, W.
    pub(super) fn heats(&self) -> Vec<f64> {
        self.stations.iter().map(|station| station.heat).collect()
    }

    fn kelvin(&self, above: f64) -> ThermodynamicTemperature {
        ThermodynamicTemperature::from_si(self.outside + above)
    }

    /// Rounds of flow, properties and temperatures until nothing moves, from coolant that is everywhere as warm as `from`: a
    /// loop stuck in the cold stays stuck. Whether it is stuck is known in the end, not when heat has thinned nothing yet.
    fn settle(&self, at: &At, heats: &[f64], open: f64, from: f64) -> Found<Circuit> {
        for lead in &WAYS {
            if let Some(found) = self.led(at, heats, open, from, lead)? {
                return Ok(found);
            }
        }
        none("flow and temperature of the coolant loop chase each other and do not settle")
    }

    /// Hotter than its properties are known: refused with the temperature at which it settles, or is still rising. Not so a
    /// loop that is stuck: that is a state, of which only the temperatures are not known.
    fn within_known(&self, at: &At, now: &Settling, passed: &[Passed], inlets: &[f64]) -> Found<()> {
        if now.flows.total < STALLED * self.pump.free {
            return Ok(());
        }
        let leaves = passed.iter().zip(inlets).map(|(each, inlet)| each.outlet(*inlet));
        let hottest = leaves.fold(f64::NEG_INFINITY, f64::max);
        let all = now.means.iter().copied().chain((!passed.is_empty()).then_some(hottest));
        all.into_iter().try_for_each(|there| self.liquid.at(at, self.kelvin(there)).map(drop))
    }

    /// Nothing where the rounds did not do.
    fn led(&self, at: &At, heats: &[f64], open: f64, from: f64, lead: &Lead) -> Found<Option<Circuit>> {
        let count = self.stations.len();
        let mut now = Settling {
            flows: self.first_flows(),
            liquids: Vec::with_capacity(count),
            means: vec![from; count],
            walls: vec![0.0; count],
            rate: 0.0,
        };
        let (mut step, mut before) = (lead.step.unwrap_or(1.0), f64::INFINITY);
        let mut inlets = vec![0.0; count];
        let mut passed: Vec<Passed> = Vec::with_capacity(count);
        let mut moves = Vec::with_capacity(count);
        // Means of the last round, and how they were to move.
        let mut last = (now.means.clone(), vec![0.0; count]);
        for _ in 0..lead.rounds {
            now.liquids.clear();
            for mean in &now.means {
                now.liquids.push(self.liquid.held(at, self.kelvin(*mean))?);
            }
            // As near as the temperatures are.
            self.flow(&mut now.flows, &now.liquids, open, (1e-3 * f64::abs(before)).clamp(flow::SETTLED, 1e-2))?;
            let whole = self.liquid.held(at, self.kelvin(whole(&passed, &inlets, &now.means)))?;
            now.rate = now.flows.total * whole.density.si() * whole.heat_capacity.si();
            self.pass(at, &now, heats, open, &mut passed)?;
            self.sweep(&passed, &now.flows, &mut inlets)?;
            let (mut worst, mut worst_wall) = (0.0f64, 0.0f64);
            moves.clear();
            let walls = now.walls.iter_mut();
            for (((mean, wall), each), inlet) in now.means.iter().zip(walls).zip(&passed).zip(&inlets) {
                let (goes, excess) = (each.mean(*inlet), each.wall_excess(*inlet));
                let moved = goes - *mean;
                if moved.is_nan() || moved.abs() > worst.abs() {
                    worst = moved;
                }
                moves.push(moved);
                worst_wall = worst_wall.max((excess - *wall).abs());
                *wall += lead.step.map_or(1.0, |step| step.max(0.2)) * (excess - *wall);
            }
            // Near the end by the secant through this round and the last (Anderson, J. ACM 12 (1965) 547, published).
            let back = if lead.step.is_none() && worst.abs() < NEAR { secant(&moves, &last.1) } else { 0.0 };
            for (((mean, moved), was), had) in now.means.iter_mut().zip(&moves).zip(&mut last.0).zip(&mut last.1) {
                let secant = back * ((*mean - *was) + (moved - *had));
                (*was, *had) = (*mean, *moved);
                *mean += (step * moved - secant).clamp(-STEP, STEP);
            }
            if !worst.is_finite() {
                return none("the coolant loop has no finite answer: a size in it is zero or far from possible");
            }
            if worst.abs() < SETTLED && worst_wall < WALL_SETTLED {
                self.within_known(at, &now, &passed, &inlets)?;
                return Ok(Some(self.as_far_as_known(at, self.circuit(&now, &passed, &inlets, open))));
            }
            if lead.step.is_none() {
                // Swinging to and fro, the steps are too long; creeping along, too short.
                let swings = worst * before < 0.0 && worst.abs() > 0.3 * f64::abs(before);
                step = if swings { (0.6 * step).max(0.1) } else { (1.1 * step).min(1.0) };
            }
            before = worst;
        }
        self.within_known(at, &now, &passed, &inlets)?;
        // Heated without end and hardly moving: how hot is not known anyway.
        let found = self.as_far_as_known(at, self.circuit(&now, &passed, &inlets, open));
        Ok(found.heat_unknown.is_some().then_some(found))
    }

    /// What each element does to the coolant at these flows and temperatures.
    fn pass(&self, at: &At, now: &Settling, heats: &[f64], open: f64, passed: &mut Vec<Passed>) -> Found<()> {
        passed.clear();
        let states = now.liquids.iter().zip(now.means.iter().zip(&now.walls));
        let stations = self.stations.iter().zip(states).zip(heats).zip(&now.flows.shares);
        for (((station, (liquid, (mean, wall))), heat), share) in stations {
            let opened = Self::through(station, 1.0, open);
            let mut film = match opened > 0.0 {
                true => station.passage.film(now.flows.total * share * opened, liquid)?,
                false => None,
            };
            if let Some(film) = &mut film
                && *wall != 0.0
                && station.passage.minds_its_wall()
            {
                let there = self.liquid.thickness(at, self.kelvin(mean + wall))?;
                *film *= wall_viscosity(liquid.viscosity.si() / there);
            }
            passed.push(Passed::new(station, *heat, opened, now.rate * share * opened, film, self.outside));
        }
        Ok(())
    }

    /// Temperature at each inlet, once round: the first so that the loop comes back to itself.
    fn sweep(&self, passed: &[Passed], flows: &Flows, inlets: &mut [f64]) -> Found<()> {
        // T ← T + e·(a − T) + b each: what is lost of the first temperature, and what is added.
        let way = |places: &[usize], into: f64| {
            let each = places.iter().filter_map(|place| passed.get(*place));
            each.fold((0.0, into), |(lost, added), each| {
                let effect = each.opened * each.effect;
                (lost + effect - lost * effect, each.outlet(added))
            })
        };
        let share = |way: &[usize]| way.first().and_then(|place| flows.shares.get(*place)).copied().unwrap_or(0.0);
        let stretch = |stretch: &Stretch, into: f64| match stretch {
            Stretch::Single(place) => way(&[*place], into),
            Stretch::Branches(ways) => ways.iter().fold((0.0, 0.0), |(lost, added), places| {
                let (here, out) = way(places, into);
                (lost + share(places) * here, added + share(places) * out)
            }),
        };
        let (lost, added) = self.path.iter().fold((0.0, 0.0), |(lost, added), (each, _)| {
            let (here, out) = stretch(each, added);
            (lost + here - lost * here, out)
        });
        let mut inlet = match lost > NOTHING {
            true => added / lost,
            false if passed.iter().all(|each| each.heat == 0.0) => 0.0,
            false => {
                return none(
                    "nothing takes the heat out of the coolant: no element that it flows through has an `outside`",
                );
            }
        };
        for (each, _) in &self.path {
            match each {
                Stretch::Single(place) => follow(&[*place], inlet, passed, inlets),
                Stretch::Branches(ways) => ways.iter().for_each(|places| follow(places, inlet, passed, inlets)),
            }
            inlet = stretch(each, inlet).1;
        }
        Ok(())
    }

    fn circuit(&self, now: &Settling, passed: &[Passed], inlets: &[f64], open: f64) -> Circuit {
        let (mut put_in, mut given_off, mut passing) = (0.0, 0.0, 0.0);
        let (drops, rise) = self.drops(now, open);
        let mut circuit = self.bare(now, rise);
        let stations = self.stations.iter().zip(&now.liquids).zip(passed).zip(inlets).zip(&now.flows.shares);
        for (((((station, liquid), each), inlet), share), drop) in stations.zip(drops) {
            let through = Self::through(station, now.flows.total * share, open);
            // Each end's wall: against the coolant there, less what flows out through the film, plus what flows in.
            let ends = [*inlet, each.through(*inlet)].map(|coolant| {
                let wetted = match each.film {
                    Some(film) if film > 0.0 => coolant + (each.heat - each.conductance * (coolant - each.air)) / film,
                    _ => coolant,
                };
                (wetted, wetted + each.heat * station.contact)
            });
            let [(a, face_a), (b, face_b)] = ends;
            let heat = each.rate * (each.through(*inlet) - inlet);
            put_in += each.heat;
            given_off += each.conductance * (each.mean(*inlet) - each.air);
            passing += heat.abs() / 2.0;
            circuit.elements.push(ElementState {
                inlet: self.kelvin(*inlet),
                outlet: self.kelvin(each.outlet(*inlet)),
                wall: self.kelvin(face_a.min(face_b)),
                wetted: (self.kelvin(a.min(b)), self.kelvin(a.max(b))),
                flow: VolumeRate::from_si(through),
                entry: Pressure::ZERO,
                pressure: Pressure::ZERO,
                drop: Pressure::from_si(drop),
                reynolds: station.passage.reynolds(through, liquid),
                heat: Power::from_si(heat),
                film: each.film.map(ThermalConductance::from_si),
                given_off: each.opened * each.effect,
            });
        }
        circuit.imbalance = if passing > 0.0 { (put_in - given_off) / passing } else { 0.0 };
        circuit
    }

    /// Pressure lost in each element, what the pumps add as a loss below zero; and all that they add, Pa.
    pub(super) fn drops(&self, now: &Settling, open: f64) -> (Vec<f64>, f64) {
        let stations = self.stations.iter().zip(&now.liquids).zip(&now.flows.shares);
        let lost = |((station, liquid), share): ((&Station, &Properties), &f64)| {
            self.measured * station.passage.loss(Self::through(station, now.flows.total * share, open), liquid).0
        };
        let mut drops: Vec<f64> = stations.map(lost).collect();
        let sum = |places: &[usize]| places.iter().filter_map(|place| drops.get(*place)).sum::<f64>();
        let stretch = |(stretch, _): &(Stretch, bool)| match stretch {
            Stretch::Single(place) => sum(&[*place]),
            Stretch::Branches(ways) => ways.first().map_or(0.0, |way| sum(way)),
        };
        let lost: f64 = self.path.iter().map(stretch).sum();
        let pumping = self.stations.iter().zip(&now.liquids).find(|(station, _)| station.role == Role::Pump);
        let rise = match pumping {
            // A starved pump makes what the little that it gets loses.
            Some((_, liquid)) if !now.flows.starved => self.pump.rise(now.flows.total, liquid.viscosity.si()).0,
            _ => lost,
        };
        // Next to no flow is not looked for to its last digit: what the pump makes shares out like the losses.
        let scale = if lost > 0.0 { rise / lost } else { 1.0 };
        let pumps = self.pump.count;
        for (drop, station) in drops.iter_mut().zip(&self.stations) {
            *drop = if station.role == Role::Pump { -rise / pumps } else { *drop * scale };
        }
        (drops, rise)
    }

    /// A circuit with its flow, without elements yet.
    pub(super) fn bare(&self, now: &Settling, rise: f64) -> Circuit {
        let stalled = now.flows.total < STALLED * self.pump.free;
        Circuit {
            flow: VolumeRate::from_si(now.flows.total),
            running: !stalled,
            stalled,
            starved: now.flows.starved,
            relieved: self.pump.relieved(rise),
            elements: Vec::with_capacity(self.stations.len()),
            ..Circuit::at_rest(self.pump.most())
        }
    }

    /// Everything at one temperature, nothing warmed yet, the pump running: the first moments after a soak.
    pub(super) fn isothermal(&self, at: &At, everywhere: ThermodynamicTemperature) -> Found<Circuit> {
        let liquids = vec![self.liquid.at(at, everywhere)?; self.stations.len()];
        let means = vec![everywhere.si() - self.outside; self.stations.len()];
        let walls = vec![0.0; self.stations.len()];
        let mut now = Settling { flows: self.first_flows(), liquids, means, walls, rate: 0.0 };
        self.flow(&mut now.flows, &now.liquids, 1.0, flow::SETTLED)?;
        let (drops, rise) = self.drops(&now, 1.0);
        let mut circuit = self.bare(&now, rise);
        let stations = self.stations.iter().zip(&now.liquids).zip(&now.flows.shares).zip(drops);
        for (((station, liquid), share), drop) in stations {
            let flow = now.flows.total * share;
            circuit.elements.push(ElementState {
                drop: Pressure::from_si(drop),
                flow: VolumeRate::from_si(flow),
                reynolds: station.passage.reynolds(flow, liquid),
                film: station.passage.film(flow, liquid)?.map(ThermalConductance::from_si),
                ..ElementState::resting(everywhere)
            });
        }
        Ok(circuit)
    }
}

/// Temperature at which the whole loop's heat capacity is taken: the mean of the elements' by the heat that each puts in or
/// takes out, so that one which does neither counts nothing, however often it stands in the list.
fn whole(passed: &[Passed], inlets: &[f64], means: &[f64]) -> f64 {
    let weighed = passed.iter().zip(inlets).zip(means).fold((0.0, 0.0), |(sum, all), ((each, inlet), mean)| {
        let heat = (each.rate * (each.through(*inlet) - inlet)).abs();
        (sum + heat * mean, all + heat)
    });
    #[expect(clippy::cast_precision_loss, reason = "a handful of elements")]
    let count = means.len() as f64;
    if weighed.1 > 0.0 { weighed.0 / weighed.1 } else { means.iter().sum::<f64>() / count }
}

/// By which share of the last step to go back, so that what is left to move is least.
fn secant(moves: &[f64], before: &[f64]) -> f64 {
    let (mut along, mut square) = (0.0, 0.0);
    for (now, before) in moves.iter().zip(before) {
        along += (now - before) * now;
        square += (now - before) * (now - before);
    }
    if square > 0.0 { (along / square).clamp(-1.0, 1.0) } else { 0.0 }
}

/// Inlets of elements that follow one another.
fn follow(places: &[usize], mut inlet: f64, passed: &[Passed], inlets: &mut [f64]) {
    for place in places {
        if let (Some(slot), Some(each)) = (inlets.get_mut(*place), passed.get(*place)) {
            *slot = inlet;
            inlet = each.outlet(inlet);
        }
    }
}
