//! A case that ends before the loop has settled: how far coolant, walls and exchanger get in that time.
//!
//! The loop warms as one: all of it by the same kelvins in a second, its heat capacity that of the coolant and of a little metal
//! behind each wetted wall. What that takes up is taken out of the heat where it is stored, and what is left settles at once, as
//! coolant comes round within seconds. Each wall gets ahead of its coolant in its own time. The heat itself counts as if it were
//! there from the start, which is the hot side: the body of a motor or a controller warms before its jacket does.

use super::elements::{Loop, Role, Strained};
use super::{Circuit, ElementState, driven};
use crate::at::At;
use crate::point::CasePoint;
use machine::{Case, CaseKind, Found, Ref};
use quantity::*;

/// From so many time constants on a loop counts as settled: 99.3 % of the way.
const SETTLED: f64 = 5.0;
/// Where it gets is found to so many kelvins.
const FOUND: f64 = 0.02;
/// Rounds until then.
const ROUNDS: usize = 8;

/// A case of which it is known how long it lasts, where the loop then starts, and what takes up heat.
pub(super) struct Course {
    stores: Stores,
    begins: f64,
}

impl Course {
    /// Nothing where the case has no end, or it is not known where it starts.
    ///
    /// # Errors
    /// A gap, or coolant that is slush when it starts.
    pub(super) fn read(at: &At, circuit: &Loop, before: usize) -> Found<Option<Self>> {
        let Some(stores) = Stores::read(at, circuit)? else { return Ok(None) };
        Ok(begins(at, circuit, before)?.map(|begins| Self { stores, begins }))
    }

    pub(super) fn lasts(&self) -> Time {
        Time::from_si(self.stores.lasts)
    }

    /// Where the running loop stands at the end of the case, and when it would have settled; nothing where it has.
    ///
    /// # Errors
    /// As any state of the loop.
    pub(super) fn end(
        &self,
        at: &At,
        circuit: &Loop,
        heats: &[f64],
        settled: &Found<Circuit>,
    ) -> Found<Option<(Circuit, Time)>> {
        let found = self.stores.end(at, circuit, heats, self.begins, settled)?;
        Ok(found.map(|(state, settles_in)| (state, Time::from_si(settles_in))))
    }
}

/// How much warmer than the outside air the loop is when the case begins: as the case before it ended, else not at all. Nothing
/// where that is not known.
fn begins(at: &At, circuit: &Loop, before: usize) -> Found<Option<f64>> {
    let case = at.case()?;
    let Some(previous) = at.part_or(&case.after, "a loop as cold as the air") else { return Ok(Some(0.0)) };
    if before == 0 {
        return Ok(None);
    }
    let ended = at.elsewhere(point_of(at, previous), |then| {
        let there = Loop::read(then, Strained::Clean)?;
        let (settles, short) = driven(then, &there, before - 1)?;
        let state = short.map_or(settles, |short| short.ended);
        let stores = Stores::of(then, &there, f64::INFINITY)?;
        Ok(stores.map(|stores| stores.mean(&state)))
    });
    Ok(ended.ok().flatten().map(|kelvin| kelvin - circuit.outside))
}

/// The same place between coldest and hottest in another case.
fn point_of(at: &At, case: &Ref<Case>) -> CasePoint {
    let name = at.machine().follow(case).name();
    let index = at.machine().cases.iter().position(|each| each.name() == name).unwrap_or(usize::MAX);
    CasePoint { case: index, share: at.point().share }
}

/// What takes up heat, and for how long.
struct Stores {
    lasts: f64,
    /// Of each element, J/K; all of the coolant at the reservoir, or else at the pump.
    each: Vec<f64>,
    all: f64,
}

impl Stores {
    /// Nothing where the case has no end, or nobody knows how much coolant there is.
    fn read(at: &At, circuit: &Loop) -> Found<Option<Self>> {
        if matches!(at.case()?.kind, CaseKind::ColdStart | CaseKind::BroughtIndoors) {
            return Ok(None);
        }
        match crate::drive::carries_for(at)? {
            Some(lasts) => Self::of(at, circuit, lasts.si()),
            None => Ok(None),
        }
    }

    fn of(at: &At, circuit: &Loop, lasts: f64) -> Found<Option<Self>> {
        let Some(volume) = at.try_get(&at.machine().cooling.coolant.volume) else { return Ok(None) };
        let liquid = circuit.liquid.at(at, ThermodynamicTemperature::from_si(circuit.outside))?;
        let coolant = volume.si() * liquid.density.si() * liquid.heat_capacity.si();
        let metal = at.need(&at.assumed().wetted_metal)?.si() * METAL;
        let mut each: Vec<f64> = circuit.stations.iter().map(|station| station.wetted * metal).collect();
        let holds = |role: Role| circuit.stations.iter().position(|station| station.role == role);
        let place = holds(Role::Reservoir).or_else(|| holds(Role::Pump));
        if let Some(slot) = place.and_then(|place| each.get_mut(place)) {
            *slot += coolant;
        }
        let all = each.iter().sum();
        Ok(Some(Self { lasts, each, all }))
    }

    /// Of all that stores heat, K: what it holds is this times all heat capacity.
    fn mean(&self, state: &Circuit) -> f64 {
        let pairs = self.each.iter().zip(&state.elements);
        let sum: f64 = pairs.map(|(capacity, each)| capacity * 0.5 * (each.wetted.0.si() + each.wetted.1.si())).sum();
        sum / self.all
    }

    /// Time constants in which the walls get ahead of their coolant, s, from a state and the heat that each then passed on.
    fn lags(&self, state: &Circuit, heats: &[f64]) -> Vec<f64> {
        let each = self.each.iter().zip(&state.elements).zip(heats);
        let lag = |((capacity, each), heat): ((&f64, &ElementState), &f64)| {
            let ahead = 0.5 * (each.wetted.0.si() + each.wetted.1.si() - each.inlet.si() - each.outlet.si());
            if *heat > 0.0 && ahead > 0.0 { capacity * ahead / heat } else { 0.0 }
        };
        each.map(lag).collect()
    }

    /// The state at the end, and when it would have settled; nothing where it has.
    fn end(
        &self,
        at: &At,
        circuit: &Loop,
        heats: &[f64],
        begins: f64,
        settled: &Found<Circuit>,
    ) -> Found<Option<(Circuit, f64)>> {
        let heat: f64 = heats.iter().sum();
        let above = |state: &Circuit| self.mean(state) - circuit.outside;
        let settles = settled.as_ref().ok().map(above);
        // What a kelvin more drives out, W/K: at first the most that the outer faces could.
        let faces: f64 = circuit.stations.iter().filter_map(|station| station.outer).map(|(outer, _)| outer).sum();
        let mut out = match settles {
            Some(settles) if heat > 0.0 && settles > FOUND => heat / settles,
            _ => faces,
        };
        let mut lags = settled.as_ref().map_or_else(|_| vec![0.0; heats.len()], |state| self.lags(state, heats));
        let mut ended = None;
        for _ in 0..ROUNDS {
            // What the walls let through by now.
            let through = |lag: f64| if lag > 0.0 { -(-self.lasts / lag).exp_m1() } else { 1.0 };
            let passed: Vec<f64> = heats.iter().zip(&lags).map(|(heat, lag)| heat * through(*lag)).collect();
            let (constant, goal) = (self.all / out, settles.unwrap_or(heat / out));
            if !(constant > 0.0 && constant.is_finite()) || self.lasts > SETTLED * constant {
                return Ok(None);
            }
            let then = goal - (goal - begins) * (-self.lasts / constant).exp();
            let given_off = heat - out * (goal - then);
            let stored = passed.iter().sum::<f64>() - given_off;
            let pairs = passed.iter().zip(&self.each);
            let rest: Vec<f64> = pairs.map(|(heat, capacity)| heat - stored * capacity / self.all).collect();
            let state = circuit.running(at, &rest)?;
            let found = above(&state);
            let off = (found - then).abs();
            // What it then really drives out.
            let next = match settles {
                Some(settles) => (heat - given_off) / (settles - found),
                None => given_off / found,
            };
            if settled.is_err() {
                lags = self.lags(&state, &rest);
            }
            ended = Some((state, SETTLED * constant));
            if off < FOUND || !(next > 0.0 && next.is_finite()) {
                break;
            }
            out = next;
        }
        Ok(ended)
    }
}

/// Heat capacity of metals by volume, J/(m³·K): aluminium 2.4, copper 3.4, steel 3.8 million (from memory).
const METAL: f64 = 2.4e6;
