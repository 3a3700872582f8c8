//! The coolant loop: flow, pressures, temperatures round the circuit.
//!
//! Simplified, and on which side:
//! - One heat capacity rate for the whole loop, that of the coolant at the mean of where heat goes in and out.
//! - Heat goes in and out in plates, jackets, exchangers and hoses and at the pump. The wall of a hose counts as no
//!   resistance, and wind round it as none: a tenth too cool, or rather too hot in the open.
//! - It warms as one, see `short`; a case that goes on for longer is judged where the loop settles. The first moments of a cold
//!   start are a state of their own: everything at the temperature of the soak, no heat yet.
//! - An element known only by a tested drop has no film of its own inside: its wall is as warm as the coolant.
//! - Films know the viscosity at their wall, friction does not: cold walls of thick coolant lose more than is counted. Mouths
//!   lose in smooth flow as in swirling.
//! - Where a flow may be smooth or swirl, friction is the highest that is published: less flow, the hot side.
//! - Air past an exchanger comes through one opening at one speed; what is behind it is not looked at.
//! - A relief valve holds its pressure however much goes through it; real ones rise by a tenth to a quarter more.
//! - A pump's curve is a straight line or a parabola between its two ends; one pump behind another gets the same flow.
//! - Bubbles are left out of the flow and of the gas law: with much air in it a loop flows less.
//! - Dissolved air comes out well above the vapour pressure; only the vapour pressure limits what a pump can draw.
//! - A stopped loop has no draught of its own: each element stands by itself.

mod asked;
mod elements;
mod flow;
pub mod liquid;
mod passage;
mod passed;
pub(crate) mod path;
mod properties;
mod pump;
mod reservoir;
mod short;
mod steady;
mod still;
mod swept;
#[cfg(test)]
mod tests;

pub use asked::Rubber;

use crate::at::{At, Solve};
use elements::{Loop, Strained};
use machine::{CaseKind, Found, NotJudged, PumpControl, PumpState};
use quantity::*;
use std::cell::Cell;

/// The loop in one case point, as the case drives it and idling.
#[derive(Debug, Clone, PartialEq)]
pub struct Coolant {
    /// With the case's heat, pump as its control says, where it settles; see [`Self::at_end`].
    pub driven: Circuit,
    /// Pump running, no heat from the drive line, at the same outside air: the coldest that the faces get. Where the pump
    /// waits for a temperature that this does not reach, it stands still here too.
    pub idle: Circuit,
    /// Where the case ends before the loop has settled.
    pub short: Option<Short>,
}

impl Coolant {
    /// The loop as driven, at the end of the case: what a case is judged by.
    #[must_use]
    pub fn at_end(&self) -> &Circuit {
        self.short.as_ref().map_or(&self.driven, |short| &short.ended)
    }
}

/// A case that ends before the loop has settled.
#[derive(Debug, Clone, PartialEq)]
pub struct Short {
    pub lasts: Time,
    /// What it would take to settle.
    pub settles_in: Time,
    /// How it then stands.
    pub ended: Circuit,
    /// Why it is not known where it would settle if the case went on; `driven` is then as it ends.
    pub beyond: Option<NotJudged>,
}

/// One state of the loop, reached from the cold.
#[derive(Debug, Clone, PartialEq)]
pub struct Circuit {
    pub flow: VolumeRate,
    pub running: bool,
    /// The pump's torque is used up by thick coolant: next to no flow, and its full pressure.
    pub stalled: bool,
    /// The suction side feeds the pump less than it could move: its inlet stands at the coolant's vapour pressure.
    pub starved: bool,
    /// The pump's relief valve is open.
    pub relieved: bool,
    /// The most that the pumps make against a closed way, relief valves considered.
    pub most: Pressure,
    /// Absolute, in the reservoir's gas space.
    pub reservoir_pressure: Pressure,
    /// Why the reservoir's pressure is that of the outside air and not worked out; every absolute pressure stands on it.
    pub pressure_unknown: Option<NotJudged>,
    /// How far the gas lies below the outside air where that presses hardest, at the lowest altitude, and above it where it
    /// presses least. Zero in a vented reservoir.
    pub gas_below: Pressure,
    pub gas_above: Pressure,
    /// What has become of the gas above the coolant.
    pub gas: Found<Gas>,
    /// In the order of the machine's circuit.
    pub elements: Vec<ElementState>,
    /// Heat put in minus heat given off, over the heat that passes through the coolant.
    pub imbalance: f64,
    /// Why no temperature of this state counts: the coolant stands still while it is heated, and gets hotter than anything is
    /// known of it. Its elements show the hottest that is known.
    pub heat_unknown: Option<NotJudged>,
}

impl Circuit {
    fn at_rest(most: f64) -> Self {
        Self {
            flow: VolumeRate::ZERO,
            running: false,
            stalled: false,
            starved: false,
            relieved: false,
            most: Pressure::from_si(most),
            reservoir_pressure: Pressure::ZERO,
            pressure_unknown: None,
            gas_below: Pressure::ZERO,
            gas_above: Pressure::ZERO,
            gas: Err(NotJudged::NoSolution("the reservoir is not worked out".into())),
            elements: Vec::new(),
            imbalance: 0.0,
            heat_unknown: None,
        }
    }
}

/// A second steady state of the loop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Warm {
    pub flow: VolumeRate,
    /// Of the coolant.
    pub hottest: ThermodynamicTemperature,
}

/// The gas above the coolant in the reservoir.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gas {
    /// Absolute, as if no valve let anything out or in; the outside air's in a vented reservoir.
    pub sealed: Pressure,
    /// Room that it has. Below zero there is more coolant than room.
    pub space: Volume,
    /// Room that it would have at the same temperatures with the pump standing.
    pub resting: Volume,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ElementState {
    pub inlet: ThermodynamicTemperature,
    /// Mixed with what a thermostat leads past it.
    pub outlet: ThermodynamicTemperature,
    /// Of the face or fitting that the zone's air touches; the coldest point of it. A heated plate's is that of the thing
    /// on it, its contact included; see `wetted` for the bare plate.
    pub wall: ThermodynamicTemperature,
    /// Coldest and hottest point of the wall that the coolant wets.
    pub wetted: (ThermodynamicTemperature, ThermodynamicTemperature),
    /// Through this element; less than the circuit's in a branch or beside a thermostat.
    pub flow: VolumeRate,
    /// Absolute, at the inlet, which counts as high as the element.
    pub entry: Pressure,
    /// Absolute, at the outlet.
    pub pressure: Pressure,
    /// Negative where the pump adds it.
    pub drop: Pressure,
    /// Zero where the way through is not known.
    pub reynolds: f64,
    /// Into the coolant; negative when given off.
    pub heat: Power,
    /// Between the coolant and the wall that it wets, as it flows here; nothing where the way through is not known.
    pub film: Option<ThermalConductance>,
    /// Share of what the coolant is warmer than the air before the outer face that it has lost when it leaves.
    pub given_off: f64,
}

impl ElementState {
    fn resting(everywhere: ThermodynamicTemperature) -> Self {
        Self {
            inlet: everywhere,
            outlet: everywhere,
            wall: everywhere,
            wetted: (everywhere, everywhere),
            flow: VolumeRate::ZERO,
            entry: Pressure::ZERO,
            pressure: Pressure::ZERO,
            drop: Pressure::ZERO,
            reynolds: 0.0,
            heat: Power::ZERO,
            film: None,
            given_off: 0.0,
        }
    }
}

impl Solve for Coolant {
    fn solve(at: &At) -> Found<Self> {
        solve(at)
    }
}

impl<'a> At<'a> {
    /// Flow, pressures and temperatures round the circuit.
    ///
    /// # Errors
    /// As worked out: a gap, a range, or its own reason.
    pub fn coolant(&self) -> Found<&'a Coolant> {
        self.ask()
    }
}

/// Works the loop out.
///
/// # Errors
/// A gap, a coolant outside the range of its properties, or no convergence.
fn solve(at: &At) -> Found<Coolant> {
    let circuit = Loop::read(at, Strained::Clean)?;
    let (driven, short) = driven(at, &circuit, at.machine().cases.len())?;
    Ok(Coolant { driven, idle: idle(at, &circuit)?, short })
}

/// The loop as the case drives it, with its strainers due for cleaning.
#[derive(Debug)]
struct Clogged(Circuit);

impl Solve for Clogged {
    fn solve(at: &At) -> Found<Self> {
        let (settles, short) = driven(at, &Loop::read(at, Strained::Clogged)?, at.machine().cases.len())?;
        Ok(Self(short.map_or(settles, |short| short.ended)))
    }
}

impl<'a> At<'a> {
    /// The loop as the case drives it, with its strainers due for cleaning.
    ///
    /// # Errors
    /// As [`At::coolant`].
    pub fn clogged(&self) -> Found<&'a Circuit> {
        self.ask::<Clogged>().map(|clogged| &clogged.0)
    }
}

/// Whether the pump turns, and what else it depends on.
enum Turns {
    Yes,
    No,
    /// Where the warmest coolant has this temperature.
    Above(ThermodynamicTemperature),
}

fn turns(at: &At, circuit: &Loop) -> Found<Turns> {
    let pump = &at.machine().cooling.pump;
    Ok(match at.try_part(&at.case()?.pump) {
        Some(PumpState::Running) => Turns::Yes,
        Some(PumpState::Stopped) => Turns::No,
        None => by_control(at, circuit, at.or_word(&pump.runs, PumpControl::Always, "always"))?,
    })
}

fn by_control(at: &At, circuit: &Loop, control: PumpControl) -> Found<Turns> {
    Ok(match control {
        PumpControl::Always => Turns::Yes,
        PumpControl::WithElectronics if circuit.powered => Turns::Yes,
        PumpControl::WithElectronics => Turns::No,
        PumpControl::AboveTemperature => Turns::Above(at.need(&at.machine().cooling.pump.starts_above)?),
    })
}

/// Another steady state, in which the driven loop would stay if it had once been warm.
///
/// # Errors
/// As [`solve`].
fn once_warm(at: &At) -> Found<Option<Warm>> {
    let cold = &at.coolant()?.driven;
    if soaked(at)?.is_some() || !(cold.running || cold.stalled) {
        return Ok(None);
    }
    let circuit = Loop::read(at, Strained::Clean)?;
    Ok(circuit.once_warm(at, cold))
}

/// Where it settles, and how it stands when a short case ends. `before` is how many cases may stand before this one: a ring of
/// them ends there.
fn driven(at: &At, circuit: &Loop, before: usize) -> Found<(Circuit, Option<Short>)> {
    let heats = circuit.heats();
    let turns = turns(at, circuit)?;
    let settles = pumped(at, circuit, &heats, &turns, &|| circuit.running(at, &heats));
    if matches!(turns, Turns::No) {
        return Ok((settles?, None));
    }
    let Some(course) = short::Course::read(at, circuit, before)? else { return Ok((settles?, None)) };
    // A pump that waits may never start; how the loop would flow tells how fast it warms.
    let flows = match &settles {
        Ok(still) if !still.running && !still.stalled => circuit.running(at, &heats),
        settles => settles.clone(),
    };
    let settles_in = Cell::new(None);
    let ended = pumped(at, circuit, &heats, &turns, &|| match course.end(at, circuit, &heats, &flows)? {
        Some((state, time)) => {
            settles_in.set(Some(time));
            Ok(state)
        }
        None => flows.clone(),
    });
    let Some(settles_in) = settles_in.get() else { return Ok((settles?, None)) };
    let ended = ended?;
    let (driven, beyond) = match settles {
        Ok(settles) => (settles, None),
        Err(gap) => (ended.clone(), Some(gap)),
    };
    Ok((driven, Some(Short { lasts: course.lasts(), settles_in, ended, beyond })))
}

/// The loop with its pump as its control and the case want it; `runs` is how it flows.
fn pumped(at: &At, circuit: &Loop, heats: &[f64], turns: &Turns, runs: &dyn Fn() -> Found<Circuit>) -> Found<Circuit> {
    finished(at, circuit, || {
        Ok(match (turns, soaked(at)?) {
            (Turns::No, _) => circuit.as_far_as_known(at, circuit.still(at, &without_pump(circuit, heats))?),
            (Turns::Yes, None) => runs()?,
            (Turns::Yes, Some(cold)) => circuit.isothermal(at, cold)?,
            (Turns::Above(starts), None) => waiting(at, circuit, heats, *starts, runs)?,
            (Turns::Above(starts), Some(cold)) if cold >= *starts => circuit.isothermal(at, cold)?,
            (Turns::Above(_), Some(_)) => circuit.still(at, &without_pump(circuit, heats))?,
        })
    })
}

/// What the case says of the pump is not asked: whether it idles is the question.
fn idle(at: &At, circuit: &Loop) -> Found<Circuit> {
    let heats: Vec<f64> = circuit.stations.iter().map(|station| station.idle_heat).collect();
    let pump = &at.machine().cooling.pump;
    finished(at, circuit, || match at.try_part(&at.case()?.pump) {
        Some(_) => circuit.running(at, &heats),
        None => match at.or_word(&pump.runs, PumpControl::Always, "always") {
            PumpControl::AboveTemperature => {
                waiting(at, circuit, &heats, at.need(&pump.starts_above)?, &|| circuit.running(at, &heats))
            }
            PumpControl::Always | PumpControl::WithElectronics => circuit.running(at, &heats),
        },
    })
}

/// A pump that waits for warm coolant starts where it would keep running. Where it would not, it turns now and then: no
/// place gets warmer than that for long.
fn waiting(
    at: &At,
    circuit: &Loop,
    heats: &[f64],
    starts: ThermodynamicTemperature,
    runs: &dyn Fn() -> Found<Circuit>,
) -> Found<Circuit> {
    let running = runs()?;
    let hottest = running.elements.iter().map(|element| element.outlet.si()).fold(f64::NEG_INFINITY, f64::max);
    if hottest >= starts.si() {
        return Ok(running);
    }
    let mut still = circuit.still(at, &without_pump(circuit, heats))?;
    for element in still.elements.iter_mut().filter(|element| element.outlet > starts) {
        let over = element.outlet.si() - starts.si();
        let cooler = |there: ThermodynamicTemperature| ThermodynamicTemperature::from_si(there.si() - over);
        element.inlet = if element.inlet > starts { starts } else { element.inlet };
        element.outlet = starts;
        (element.wall, element.wetted) = (cooler(element.wall), (cooler(element.wetted.0), cooler(element.wetted.1)));
    }
    Ok(circuit.as_far_as_known(at, still))
}

/// Temperature of everything in the first moments after the soak, in a case that is a cold start.
fn soaked(at: &At) -> Found<Option<ThermodynamicTemperature>> {
    let case = at.case()?;
    if case.kind != CaseKind::ColdStart {
        return Ok(None);
    }
    let before = at.try_part(&case.after).map(|before| at.machine().follow(before));
    let Some(soak) = before.filter(|before| before.kind == CaseKind::Soak) else {
        return Ok(Some(at.surroundings()?.outside));
    };
    let range = &at.machine().environment.air;
    Ok(Some(match (at.try_get(&soak.air), at.try_get(&case.air)) {
        (Some(soak), _) => soak,
        // The start fixes its own air, the soak before it does not: that was as cold as this point of the range.
        (None, Some(_)) => {
            let (low, high) = (at.need(&range.low)?.si(), at.need(&range.high)?.si());
            ThermodynamicTemperature::from_si(low + at.point().share * (high - low))
        }
        (None, None) => at.surroundings()?.outside,
    }))
}

/// How often what feeds the pump is worked out anew, and how near it then is, Pa.
const FEEDINGS: usize = 6;
const FED: f64 = 100.0;

/// A state with its pressures. Where the pump gets less than it could move, what feeds it is that state's own.
fn finished(at: &At, circuit: &Loop, settle: impl Fn() -> Found<Circuit>) -> Found<Circuit> {
    let cold = circuit.feeds.get();
    let mut state = reservoir::pressures(at, circuit, settle()?)?;
    for _ in 0..FEEDINGS {
        let Some(feeds) = reservoir::fed(at, circuit, &state) else { break };
        if (feeds - circuit.feeds.get()).abs() < FED {
            break;
        }
        circuit.feeds.set(feeds);
        state = reservoir::pressures(at, circuit, settle()?)?;
    }
    circuit.feeds.set(cold);
    finite(&state)?;
    Ok(state)
}

/// A pump that stands still makes no heat.
fn without_pump(circuit: &Loop, heats: &[f64]) -> Vec<f64> {
    let pairs = heats.iter().zip(&circuit.stations);
    pairs.map(|(heat, station)| if station.role == elements::Role::Pump { 0.0 } else { *heat }).collect()
}

/// Zeros in the spec (a hose of no bore) must not end as numbers that are none.
fn finite(circuit: &Circuit) -> Found<()> {
    let sound = circuit.elements.iter().all(|element| {
        let temperatures = [element.inlet, element.outlet, element.wall, element.wetted.0, element.wetted.1];
        temperatures.iter().all(|each| each.si().is_finite())
            && element.pressure.si().is_finite()
            && element.flow.si().is_finite()
            && element.heat.si().is_finite()
    });
    if sound && circuit.flow.si().is_finite() {
        return Ok(());
    }
    Err(NotJudged::NoSolution(
        "the coolant loop has no finite answer: a size in it is zero or far from possible".into(),
    ))
}

/// Heat capacity of the coolant for each volume, J/(m³·K).
pub(crate) fn heat_per_volume(at: &At, temperature: ThermodynamicTemperature) -> Found<f64> {
    let fluid = at.machine().follow(at.part(&at.machine().cooling.coolant.fluid)?);
    let liquid = properties::Liquid::read(at, fluid)?.at(at, temperature)?;
    Ok(liquid.density.si() * liquid.heat_capacity.si())
}
