//! All bodies in one case point, over time: where they start, what they do while the case lasts, and after it.

use super::around::{Reach, reaches};
use super::course::{Course, Runs};
use super::feed::Feed;
use super::loop_side::{Face, LoopSide, wall_of};
use super::network::{Balance, HELD, Network, State, even, of, put};
use super::readings::{Factor, Factors};
use super::{SOAK, STEADY, feed, lasts, machinery, point_of, soaked};
use crate::at::At;
use machine::{Cooled, Found, Ref, Zone};
use quantity::*;

pub(super) const WINDING: usize = 1;
pub(super) const ROTOR: usize = 2;
pub(super) const CASE: usize = 3;
pub(super) const CONTROLLER: usize = 4;
/// From here on the coolant, in the order of its reaches.
pub(super) const FIRST_COOLANT: usize = 5;
/// Of a body that nothing is tied to.
const ALONE: usize = 1;

/// What is known of each body, and what stands in the way.
#[derive(Debug, Clone)]
pub(super) struct Known {
    pub(super) motor: Found<()>,
    /// How much warmer than its sensor that is what the maker's limit is meant for, K.
    pub(super) controller: Found<f64>,
}

#[derive(Debug)]
pub(super) struct Bodies {
    pub(super) known: Known,
    pub(super) runs: Runs,
    /// The faces that cool a body while the case lasts.
    pub(super) faces: Vec<Face>,
    /// All heat where it settles, if it does.
    pub(super) balance: Option<Balance>,
}

impl Known {
    fn build(at: &At, feed: &Feed<'_>, gaps: &Gaps, places: usize) -> (Network, Self) {
        let mut network = Network::new(places);
        if let Some(flows) = feed.loop_side {
            flows.flows(&mut network);
        }
        let mut known = Self {
            motor: gaps.motor.clone().and_then(|()| machinery::motor(at, &mut network, feed)),
            controller: gaps.controller.clone().and_then(|()| machinery::controller(at, &mut network, feed)),
        };
        // Coolant that the one heats, nobody knows how much, cools the other nobody knows how well.
        if feed.loop_side.is_some() && [Cooled::Motor, Cooled::Controller].iter().all(|one| wall_of(at, *one).is_some())
        {
            if let Err(gap) = &known.controller {
                known.motor = known.motor.and(Err(gap.clone()));
            } else if let Err(gap) = &known.motor {
                known.controller = Err(gap.clone());
            }
        }
        (network, known)
    }

    fn gaps(&self) -> Gaps {
        let controller = self.controller.as_ref().map(|_| ()).map_err(Clone::clone);
        Gaps { motor: self.motor.clone(), controller }
    }
}

/// What cannot be worked out before any body is looked at.
#[derive(Debug, Clone)]
struct Gaps {
    motor: Found<()>,
    controller: Found<()>,
}

impl Bodies {
    /// `before` is how many cases may stand before this one: a ring of them ends there.
    pub(super) fn solve(at: &At, factors: &Factors, before: usize) -> Found<Self> {
        let outside = at.surroundings()?.outside.si();
        let reaches = reaches(at);
        let places = places(&reaches);
        let (first, mut gaps) = start(at, factors, outside, before, places)?;
        let loop_side = LoopSide::read(at, &reaches);
        if let Err(gap) = &loop_side {
            // What the loop does not cool is known all the same.
            let hidden = |cooled, known: &mut Found<()>| {
                if wall_of(at, cooled).is_some() {
                    *known = Err(gap.clone());
                }
            };
            hidden(Cooled::Motor, &mut gaps.motor);
            hidden(Cooled::Controller, &mut gaps.controller);
        }
        let mut loop_side = loop_side.ok().flatten();
        let lasts = lasts(at)?;
        let live = super::powered(at)?;
        if let Some(waits) = loop_side.as_mut().filter(|flows| flows.waits_for.is_some()) {
            let feed = Feed { live, loop_side: None, factors, outside };
            let (alone, _) = Known::build(at, &feed, &gaps, places);
            let end = alone.run(first.clone(), lasts.map_or(STEADY, Quantity::si)).end(lasts.is_some());
            waits.only_for(|cools| of(&end, body_of(cools)));
        }
        let flows = loop_side.as_ref();
        let feed = Feed { live, loop_side: flows, factors, outside };
        let (network, known) = Known::build(at, &feed, &gaps, places);
        let driven = network.run(first, lasts.map_or(STEADY, Quantity::si));
        let end = driven.end(lasts.is_some());
        let balance = driven.settled.as_ref().map(|settled| network.balance(settled));
        let faces = flows.map_or_else(Vec::new, |flows| flows.faces.clone());
        let feed = Feed { live: false, loop_side: None, factors, outside };
        let (network, _) = Known::build(at, &feed, &known.gaps(), places);
        let stopped = network.run(end, SOAK);
        Ok(Self { known, runs: Runs { outside, driven, stopped, lasts: lasts.is_some() }, faces, balance })
    }

    /// A body by itself, without heat: J/K, and K/W to the air of its zone.
    pub(super) fn alone(&self, at: &At, zone: Option<&Ref<Zone>>, capacity: f64, resistance: f64) -> Found<Course> {
        let mut network = Network::new(2);
        let outside = self.runs.outside;
        let (above, behind) = feed::air(at, outside, zone)?;
        network.body(ALONE, capacity);
        network.held(ALONE, 1.0 / (resistance + behind), above);
        let first = even(2, soaked(at)?.si() - outside);
        let run = network.run(first, STEADY);
        let runs = Runs { outside, stopped: run.clone(), driven: run, lasts: false };
        Ok(runs.course(ALONE))
    }

    /// The course of one place, if nothing stands in the way of knowing it.
    pub(super) fn course<T>(&self, known: &Found<T>, place: usize, factor: &Found<Factor>) -> Found<Course> {
        known.as_ref().map_err(Clone::clone)?;
        let factor = factor.clone()?;
        Ok(factor.told(self.runs.course(place), self.runs.outside))
    }
}

/// The body that a face cools.
pub(super) fn body_of(cools: Cooled) -> usize {
    if cools == Cooled::Motor { CASE } else { CONTROLLER }
}

/// Bodies and places of coolant.
fn places(reaches: &Found<Vec<Reach>>) -> usize {
    FIRST_COOLANT + reaches.as_ref().map_or(0, Vec::len)
}

/// Where everything stands when the case begins: where the case before it ended, else as cold as the air.
fn start(at: &At, factors: &Factors, outside: f64, before: usize, places: usize) -> Found<(State, Gaps)> {
    let previous = if before > 0 { at.try_part(&at.case()?.after) } else { None };
    let (mut first, gaps) = match previous {
        Some(previous) => {
            let then = at.elsewhere(point_of(at, previous), |then| Bodies::solve(then, factors, before - 1))?;
            let end = then.runs.resting() + State::repeat(places, then.runs.outside - outside);
            (end, then.known.gaps())
        }
        None => (even(places, soaked(at)?.si() - outside), Gaps { motor: Ok(()), controller: Ok(()) }),
    };
    put(&mut first, HELD, 1.0);
    Ok((first, gaps))
}
