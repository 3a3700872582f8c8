//! The pack of cells: a block in foam or bare, in the air of its enclosure, or on a plate of the loop.
//!
//! By itself: a loop that cools it is as warm from the start as it settles (hot side). Its resistance is that of 20 °C:
//! cold cells lose more and warm up faster, hot ones a little less.

use super::course::{Course, Runs};
use super::feed::{air, stated};
use super::network::{Network, State, even, of};
use super::readings::factor;
use super::{SOAK, STEADY, lasts, loop_side, point_of, powered, soaked};
use crate::at::{At, Solve};
use crate::drive;
use machine::{CaseKind, Cooled, Found};
use physics::heat::body::{Stuff, box_time, cube, surface, wrapped};
use quantity::*;

const CELLS: usize = 1;

/// The pack in one case point.
#[derive(Debug, Clone)]
pub struct Pack {
    pub course: Course,
    pub body: Body,
    /// When the case begins.
    pub first: ThermodynamicTemperature,
    /// Air round it.
    pub air: ThermodynamicTemperature,
}

/// A block of cells.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Body {
    pub edges: [Length; 3],
    /// From its surface to the air round it, wrap included.
    pub coefficient: HeatTransfer,
    pub stuff: Stuff,
}

impl Pack {
    /// Time until its middle is as warm, or as cool, as that, with nothing switched on and its surface giving off or
    /// taking in so much; nothing if it never is.
    #[must_use]
    pub fn middle_reaches(&self, coefficient: HeatTransfer, temperature: ThermodynamicTemperature) -> Option<Time> {
        box_time(self.body.edges, coefficient, &self.body.stuff, self.first, self.air, temperature)
    }
}

impl Solve for Pack {
    fn solve(at: &At) -> Found<Self> {
        solve(at)
    }
}

impl<'a> At<'a> {
    /// The pack of cells: its temperature over time, and how its middle lags.
    ///
    /// # Errors
    /// As worked out: a gap, a range, or its own reason.
    pub fn pack(&self) -> Found<&'a Pack> {
        self.ask()
    }
}

/// Works the pack out.
///
/// # Errors
/// Its mass is not known, or what heats and cools it.
fn solve(at: &At) -> Found<Pack> {
    let factor = factor(at, &at.machine().powertrain.battery.after_run, |then, heat| {
        let found = follow(then, heat, then.machine().cases.len())?;
        Ok(found.runs.course(CELLS).end().si() - found.runs.outside)
    })?;
    let Followed { body, runs, air } = follow(at, factor.heat, at.machine().cases.len())?;
    let first = runs.course(CELLS).start();
    let course = match drive::read_off(at, Cooled::Battery)? {
        Some(ends) => Course::read_off(ends.lowest, ends.highest),
        None => factor.told(runs.course(CELLS), runs.outside),
    };
    Ok(Pack { course, body, first, air: ThermodynamicTemperature::from_si(runs.outside + air) })
}

struct Followed {
    body: Body,
    runs: Runs,
    /// Above the outside.
    air: f64,
}

/// Over time, with its heat times a factor; `before` is how many cases may stand before this one.
fn follow(at: &At, factor: f64, before: usize) -> Found<Followed> {
    let outside = at.surroundings()?.outside.si();
    let battery = &at.machine().powertrain.battery;
    let (air, behind) = air(at, outside, at.part_or(&battery.zone, "the outside air"))?;
    let (body, mass) = body(at, behind)?;
    let first = start(at, outside, factor, before)?;
    let mut network = Network::new(2);
    network.body(CELLS, mass.si() * body.stuff.heat_capacity.si());
    network.held(CELLS, body.coefficient.si() * surface(body.edges).si(), air);
    let stopped = network.clone();
    if powered(at)? {
        let heat = match stated(at, Cooled::Battery) {
            Some(heat) => heat,
            None => {
                let current = at.drive()?.battery_current.si();
                if current == 0.0 { 0.0 } else { current * current * at.need(&battery.resistance)?.si() }
            }
        };
        network.heat(CELLS, factor * heat);
        for (conductance, coolant) in loop_side::held_faces(at, Cooled::Battery)? {
            network.held(CELLS, conductance, coolant - outside);
        }
    }
    let lasts = lasts(at)?;
    let driven = network.run(first, lasts.map_or(STEADY, Quantity::si));
    let end = driven.end(lasts.is_some());
    let runs = Runs { outside, stopped: stopped.run(end, SOAK), driven, lasts: lasts.is_some() };
    Ok(Followed { body, runs, air })
}

/// Where it starts: as it was put in, as the case before left it, or as cold as the air.
fn start(at: &At, outside: f64, factor: f64, before: usize) -> Found<State> {
    let case = at.case()?;
    let previous = if before > 0 { at.try_part(&case.after) } else { None };
    let fresh = match case.kind {
        CaseKind::ColdStart => true,
        CaseKind::Soak | CaseKind::BroughtIndoors => false,
        // After a night outside it is put in for the day.
        _ => previous.is_none_or(|before| at.machine().follow(before).kind == CaseKind::Soak),
    };
    let warm = if fresh { at.try_get(&at.machine().powertrain.battery.put_in_at) } else { None };
    let kelvin = match (warm, previous) {
        (Some(warm), _) => warm.si(),
        (None, Some(previous)) => at.elsewhere(point_of(at, previous), |then| {
            let found = follow(then, factor, before - 1)?;
            Ok(found.runs.outside + of(&found.runs.resting(), CELLS))
        })?,
        (None, None) => soaked(at)?.si(),
    };
    Ok(even(2, kelvin - outside))
}

fn body(at: &At, behind: f64) -> Found<(Body, Mass)> {
    let (battery, assumed) = (&at.machine().powertrain.battery, at.assumed());
    let mass = at.need(&battery.mass)?;
    let edges = match at.try_part(&battery.size) {
        Some(size) => [at.need(&size.length)?, at.need(&size.width)?, at.need(&size.thickness)?],
        None => cube(mass, at.need(&assumed.pack_density)?),
    };
    let area = surface(edges).si();
    let own = match at.try_get(&battery.to_air) {
        Some(resistance) => 1.0 / (resistance.si() * area),
        None => {
            let foam = at.or_take(&battery.foam, Length::from_si(0.0), "bare");
            wrapped(at.need(&assumed.still_air)?, foam, at.need(&assumed.foam_conductivity)?).si()
        }
    };
    let volume: f64 = edges.iter().map(|edge| edge.si()).product();
    let stuff = Stuff {
        conductivity: at.need(&assumed.pack_conductivity)?,
        density: MassDensity::from_si(mass.si() / volume),
        heat_capacity: at.need(&assumed.cell_heat_capacity)?,
    };
    let coefficient = HeatTransfer::from_si(1.0 / (1.0 / own + behind * area));
    Ok((Body { edges, coefficient, stuff }, mass))
}
