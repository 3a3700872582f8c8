//! How much flows, and how it shares out between branches: what the pumps make is what the way round loses.

use super::elements::{Loop, Role, Station};
use super::path::Stretch;
use crate::at::At;
use machine::{Found, Jug, NotJudged};
use physics::coolant::Properties;
use quantity::Quantity;

/// The flow round the loop, and which share of it each element gets.
#[derive(Debug, Clone)]
pub(super) struct Flows {
    /// m³/s.
    pub(super) total: f64,
    /// Of the flow, by place; what a thermostat leads past its element counts as the element's.
    pub(super) shares: Vec<f64>,
    /// The pump gets less than it could move.
    pub(super) starved: bool,
}

/// A pressure lost, and how much more for each m³/s of the whole flow.
#[derive(Debug, Clone, Copy, Default)]
struct Lost {
    pressure: f64,
    slope: f64,
}

impl std::ops::AddAssign for Lost {
    fn add_assign(&mut self, more: Self) {
        self.pressure += more.pressure;
        self.slope += more.slope;
    }
}

/// Steps towards the flow for one set of temperatures.
const STEPS: usize = 240;
/// From so many steps on branches follow half as far, and again: where friction jumps they would pass each other for ever.
const PATIENCE: usize = 30;
/// A flow that moves by less than this share of itself has settled.
pub(super) const SETTLED: f64 = 1e-11;
/// In one step no branch gains or loses more than this factor.
const FURTHEST: f64 = 4.0;
/// Slope of a way that loses nothing, Pa·s/m³: a millionth of that of a finger's breadth of thin hose.
const FREE_WAY: f64 = 1e3;

impl Loop<'_> {
    /// A first guess: all that the pump moves with open hoses, shared evenly.
    pub(super) fn first_flows(&self) -> Flows {
        let mut shares = vec![1.0; self.stations.len()];
        for (stretch, _) in &self.path {
            if let Stretch::Branches(ways) = stretch {
                #[expect(clippy::cast_precision_loss, reason = "a handful of branches")]
                let even = 1.0 / ways.len() as f64;
                for place in ways.iter().flatten() {
                    if let Some(share) = shares.get_mut(*place) {
                        *share = even;
                    }
                }
            }
        }
        Flows { total: self.pump.free, shares, starved: false }
    }

    /// What goes through a station itself, where the thermostat is so far open.
    pub(super) fn through(station: &Station, flow: f64, open: f64) -> f64 {
        if station.valved { flow * open } else { flow }
    }

    fn lost_at(&self, place: usize, flows: &Flows, liquids: &[Properties], open: f64) -> Lost {
        let (Some(station), Some(liquid)) = (self.stations.get(place), liquids.get(place)) else {
            return Lost::default();
        };
        let share = Self::through(station, flows.shares.get(place).copied().unwrap_or(1.0), open);
        let (pressure, slope) = station.passage.loss(flows.total * share, liquid);
        Lost { pressure: self.measured * pressure, slope: self.measured * slope * share }
    }

    /// Loss of one stretch; branches are led towards equal losses on the way.
    fn stretch(
        &self,
        stretch: &Stretch,
        flows: &mut Flows,
        liquids: &[Properties],
        open: f64,
        follows: f64,
    ) -> (Lost, f64) {
        let ways = match stretch {
            Stretch::Single(place) => return (self.lost_at(*place, flows, liquids, open), 0.0),
            Stretch::Branches(ways) => ways,
        };
        // Newton's step for all branches at once: each loses the same, together they carry the flow.
        let (mut conductance, mut weighted) = (0.0, 0.0);
        let mut found = Vec::with_capacity(ways.len());
        for way in ways {
            let mut lost = Lost::default();
            way.iter().for_each(|place| lost += self.lost_at(*place, flows, liquids, open));
            let share = way.first().and_then(|place| flows.shares.get(*place)).copied().unwrap_or(1.0);
            let slope = (lost.slope / share).max(FREE_WAY);
            conductance += 1.0 / slope;
            weighted += lost.pressure / slope;
            found.push((share, lost.pressure, slope));
        }
        let pressure = weighted / conductance;
        let moved = |(share, lost, slope): &(f64, f64, f64)| {
            (share + follows * (pressure - lost) / (slope * flows.total)).clamp(share / FURTHEST, share * FURTHEST)
        };
        let next: Vec<f64> = found.iter().map(moved).collect();
        let sum: f64 = next.iter().sum();
        let mut furthest = 0.0f64;
        for (way, next) in ways.iter().zip(&next) {
            let next = next / sum;
            for place in way {
                if let Some(share) = flows.shares.get_mut(*place) {
                    furthest = furthest.max((next / *share - 1.0).abs());
                    *share = next;
                }
            }
        }
        (Lost { pressure, slope: 1.0 / conductance }, furthest)
    }

    /// Leads the flows to where the pumps make what the loop loses, for these temperatures, until they move by less than the
    /// share `settled` of themselves.
    ///
    /// # Errors
    /// A size that is zero or far from possible.
    pub(super) fn flow(&self, flows: &mut Flows, liquids: &[Properties], open: f64, settled: f64) -> Found<()> {
        let pairs = || self.stations.iter().zip(liquids);
        let pumping =
            pairs().find(|(station, _)| station.role == Role::Pump).map_or(0.0, |(_, liquid)| liquid.viscosity.si());
        // Where the flow is known to lie; a step beyond halves what is left instead.
        let (mut least, mut most) = (0.0, self.pump.free);
        for step in 0..STEPS {
            let follows = patience(step);
            let (mut all, mut fed, mut shifts) = (Lost::default(), Lost::default(), 0.0f64);
            for (stretch, feeding) in &self.path {
                let (lost, shift) = self.stretch(stretch, flows, liquids, open, follows);
                shifts = shifts.max(shift);
                all += lost;
                if *feeding {
                    fed += lost;
                }
            }
            let (rise, falls) = self.pump.rise(flows.total, pumping);
            let over = (all.pressure - rise) / (all.slope + falls);
            // What the suction side can feed may be less than what the pump could push.
            let unfed = if fed.slope > 0.0 { (fed.pressure - self.feeds.get()) / fed.slope } else { f64::NEG_INFINITY };
            let step = over.max(unfed);
            if !step.is_finite() {
                return impossible();
            }
            flows.starved = unfed > over;
            if step > 0.0 {
                most = flows.total
            } else {
                least = flows.total
            }
            // Branches that have shared out anew since may have moved the flow out of what was known of it.
            if most - least < SETTLED * most {
                (least, most) = (0.0, self.pump.free);
            }
            let newton = (flows.total - step).min(self.pump.free);
            let next = if (least..=most).contains(&newton) { newton } else { 0.5 * (least + most) };
            let moved = (next / flows.total - 1.0).abs();
            flows.total = next;
            if moved.max(shifts) < settled || next < 1e-6 * self.pump.free {
                return Ok(());
            }
        }
        impossible()
    }
}

/// A reading that is further from what the sizes give than this factor is a slip of the pen.
const BELIEVED: f64 = 10.0;

impl Loop<'_> {
    /// Losses as the jug shows them over losses as the sizes give them.
    ///
    /// # Errors
    /// More flow than the pump can make, or a slip of the pen.
    pub(super) fn measured(&self, at: &At, jug: &Jug) -> Found<f64> {
        let liquid = self.liquid.at(at, at.need(&jug.temperature)?)?;
        let liquids = vec![liquid; self.stations.len()];
        let mut flows = Flows { total: super::pump::jugged(at, jug)?, ..self.first_flows() };
        let mut lost = 0.0;
        for step in 0..STEPS {
            lost = 0.0;
            let mut shifts = 0.0f64;
            for (stretch, _) in &self.path {
                let (here, shift) = self.stretch(stretch, &mut flows, &liquids, 1.0, patience(step));
                shifts = shifts.max(shift);
                lost += here.pressure;
            }
            if shifts < SETTLED {
                break;
            }
        }
        let factor = self.pump.rise(flows.total, liquid.viscosity.si()).0 / lost;
        if factor > 1.0 / BELIEVED && factor < BELIEVED {
            return Ok(factor);
        }
        Err(NotJudged::NoSolution(
            "the jug at the return hose shows a flow that pump and sizes cannot give: one of them is off by far".into(),
        ))
    }
}

/// Share of its way that a branch goes in this step.
fn patience(step: usize) -> f64 {
    match step / PATIENCE {
        0 => 1.0,
        1 => 0.5,
        2 => 0.25,
        _ => 0.1,
    }
}

fn impossible<T>() -> Found<T> {
    Err(NotJudged::NoSolution("no flow was found at which the pump makes what the loop loses".into()))
}
