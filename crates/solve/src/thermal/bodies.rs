//! All bodies in one case point, over time: where they start, what they do while the case lasts, and after it.

use super::cells::Pack;
use super::course::{Course, Runs};
use super::feed::Feed;
use super::loop_side::{LoopSide, wall_of};
use super::network::{HELD, Network, State, put};
use super::readings::{Factor, Factors};
use super::{cells, machinery};
use crate::at::At;
use crate::point::CasePoint;
use machine::{CaseKind, Cooled, Found};
use quantity::*;

pub(super) const WINDING: usize = 1;
pub(super) const ROTOR: usize = 2;
pub(super) const CASE: usize = 3;
pub(super) const CONTROLLER: usize = 4;
pub(super) const CELLS: usize = 5;
pub(super) const COOLANT: usize = 6;

/// A case without an end is looked at as closely as one of this length, s.
const STEADY: f64 = 1800.0;
/// How closely the time after stopping is looked at, s.
const SOAK: f64 = 3600.0;

/// What is known of each body, and what stands in the way.
#[derive(Debug, Clone)]
pub(super) struct Known {
    pub(super) motor: Found<()>,
    /// How much warmer than its sensor that is what the maker's limit is meant for, K.
    pub(super) controller: Found<f64>,
    pub(super) cells: Found<Pack>,
}

#[derive(Debug)]
pub(super) struct Bodies {
    pub(super) known: Known,
    pub(super) runs: Runs,
}

impl Known {
    fn build(at: &At, feed: &Feed<'_>, gaps: &Gaps) -> (Network, Self) {
        let mut network = Network::new();
        if let Some(flows) = feed.loop_side {
            network.body(COOLANT, flows.capacity);
            network.held(COOLANT, flows.sink.0, flows.sink.1);
            network.heat(COOLANT, flows.direct);
        }
        let known = Self {
            motor: gaps.motor.clone().and_then(|()| machinery::motor(at, &mut network, feed)),
            controller: gaps.controller.clone().and_then(|()| machinery::controller(at, &mut network, feed)),
            cells: gaps.cells.clone().and_then(|()| cells::pack(at, &mut network, feed)),
        };
        (network, known)
    }

    /// Whether the body at a place is known.
    pub(super) fn of(&self, place: usize) -> Found<()> {
        match place {
            CONTROLLER => self.gaps().controller,
            CELLS => self.gaps().cells,
            _ => self.motor.clone(),
        }
    }

    fn gaps(&self) -> Gaps {
        let gap = |found: Result<(), &machine::NotJudged>| found.map_err(Clone::clone);
        Gaps {
            motor: self.motor.clone(),
            controller: gap(self.controller.as_ref().map(|_| ())),
            cells: gap(self.cells.as_ref().map(|_| ())),
        }
    }
}

/// What cannot be worked out before any body is looked at.
#[derive(Debug, Clone)]
struct Gaps {
    motor: Found<()>,
    controller: Found<()>,
    cells: Found<()>,
}

impl Bodies {
    /// `before` is how many cases may stand before this one: a ring of them ends there.
    pub(super) fn solve(at: &At, factors: &Factors, before: usize) -> Found<Self> {
        let (case, outside) = (at.case()?, at.surroundings()?.outside.si());
        let (first, mut gaps) = start(at, factors, outside, before)?;
        let loop_side = LoopSide::read(at);
        if let Err(gap) = &loop_side {
            // What the loop does not cool is known all the same.
            let hidden = |cooled, known: &mut Found<()>| {
                if wall_of(at, cooled).is_some() {
                    *known = Err(gap.clone());
                }
            };
            hidden(Cooled::Motor, &mut gaps.motor);
            hidden(Cooled::Controller, &mut gaps.controller);
            hidden(Cooled::Battery, &mut gaps.cells);
        }
        let flows = loop_side.as_ref().ok().and_then(Option::as_ref);
        let lasts = match case.kind {
            CaseKind::BroughtIndoors => at.try_get(&case.wait),
            _ => at.try_get(&case.duration),
        };
        let live = super::powered(at)?;
        let feed = Feed { live, loop_side: flows, factors, outside, first };
        let (network, known) = Known::build(at, &feed, &gaps);
        let driven = network.run(first, lasts.map_or(STEADY, Quantity::si));
        let end = match (driven.settled, lasts) {
            (Some(settled), None) => settled,
            _ => driven.at_end(),
        };
        let feed = Feed { live: false, loop_side: None, factors, outside, first: end };
        let (network, _) = Known::build(at, &feed, &known.gaps());
        let stopped = network.run(end, SOAK);
        Ok(Self { known, runs: Runs { outside, driven, stopped, lasts: lasts.is_some() } })
    }

    /// The course of one place, if nothing stands in the way of knowing it.
    pub(super) fn course<T>(&self, known: &Found<T>, place: usize, factor: &Found<Factor>) -> Found<Course> {
        known.as_ref().map_err(Clone::clone)?;
        let factor = factor.clone()?;
        Ok(factor.told(self.runs.course(place), self.runs.outside))
    }
}

/// Where everything stands when the case begins: where the case before it ended, else as cold as the air.
fn start(at: &At, factors: &Factors, outside: f64, before: usize) -> Found<(State, Gaps)> {
    let case = at.case()?;
    let previous = if before > 0 { at.try_part(&case.after) } else { None };
    let (mut first, mut gaps) = match previous {
        Some(previous) => {
            let name = at.machine().follow(previous).name();
            let index = at.machine().cases.iter().position(|each| each.name() == name).unwrap_or(usize::MAX);
            let point = CasePoint { case: index, share: at.point().share };
            let then = at.elsewhere(point, |then| Bodies::solve(then, factors, before - 1))?;
            let mut end = if then.runs.lasts { then.runs.driven.at_end() } else { then.runs.resting() };
            end += State::repeat(then.runs.outside - outside);
            (end, then.known.gaps())
        }
        None => {
            let soaked = match case.kind {
                // Out of the coldest night into the room.
                CaseKind::BroughtIndoors => at.need(&at.machine().environment.air.low)?.si(),
                _ => outside,
            };
            (State::repeat(soaked - outside), Gaps { motor: Ok(()), controller: Ok(()), cells: Ok(()) })
        }
    };
    let fresh = match case.kind {
        CaseKind::ColdStart => true,
        CaseKind::Soak | CaseKind::BroughtIndoors => false,
        _ => previous.is_none(),
    };
    if fresh && let Some(warm) = at.try_get(&at.machine().powertrain.battery.put_in_at) {
        put(&mut first, CELLS, warm.si() - outside);
        gaps.cells = Ok(());
    }
    put(&mut first, HELD, 1.0);
    Ok((first, gaps))
}
