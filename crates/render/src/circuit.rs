//! The coolant circuit element by element: a table, and the same as JSON.

use crate::clean::{clean, short};
use crate::fold::{cut, fold};
use crate::json::{rounded, titled};
use crate::terminal::Look;
use crate::words;
use engine::{CircuitPlace, Profile, Round};
use machine::{Document, Machine};
use quantity::{Measure, Quantity, ThermodynamicTemperature, m, show};
use schemars::JsonSchema;
use serde::Serialize;
use std::fmt::Write;

mod table;

pub(crate) use table::wets;

/// The way round in one or two cases.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Page {
    /// Format number.
    pub dryfit: u32,
    pub file: String,
    pub machine: String,
    pub revision: Option<String>,
    pub cases: Vec<Case>,
}

#[derive(Debug, Serialize, JsonSchema)]
pub struct Case {
    pub case: Option<String>,
    /// Outside air in °C.
    pub air: Option<f64>,
    /// Why this case is shown.
    pub shows: String,
    /// Why it is not worked out.
    pub not_worked_out: Option<String>,
    pub circuit: Option<Circuit>,
}

/// Pressures are absolute, in Pa; temperatures in °C; flows in m³/s.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Circuit {
    pub flow: f64,
    pub running: bool,
    /// The pump pushes in vain.
    pub stalled: bool,
    /// The pump gets less than it could move.
    pub starved: bool,
    /// The relief valve is open.
    pub relieved: bool,
    /// Flow of another steady state, in which it would stay once it has been warm.
    pub once_warm: Option<f64>,
    /// Of the surrounding air, where it presses least.
    pub air_pressure: f64,
    pub reservoir_pressure: f64,
    /// Why the reservoir's pressure is taken as that of the air.
    pub pressure_unknown: Option<String>,
    pub elements: Vec<Element>,
}

#[derive(Debug, Serialize, JsonSchema)]
pub struct Element {
    pub name: String,
    pub kind: String,
    pub branch: Option<String>,
    pub flow: f64,
    pub inlet: f64,
    pub outlet: f64,
    /// Coldest point of the face or fitting that the air touches.
    pub wall: f64,
    /// Dew or frost point of that air.
    pub dew: Option<f64>,
    /// At the outlet.
    pub pressure: f64,
    /// Lost on the way through; negative where the pump adds it.
    pub drop: f64,
    /// None where the way through is not known.
    pub reynolds: Option<f64>,
    /// Into the coolant, W.
    pub heat: f64,
}

/// The JSON Schema of a circuit.
#[must_use]
pub fn schema() -> serde_json::Value {
    titled(schemars::schema_for!(Page), "circuit")
}

/// The circuit as data.
#[must_use]
pub fn page(document: &Document, machine: &Machine, profiles: &[Profile]) -> Page {
    Page {
        dryfit: 1,
        file: document.files.first().map_or_else(String::new, |file| clean(&file.name)),
        machine: clean(&machine.machine.name),
        revision: machine.machine.revision.as_deref().map(clean),
        cases: profiles.iter().map(|profile| case(document, machine, profile)).collect(),
    }
}

fn degrees(temperature: ThermodynamicTemperature) -> f64 {
    rounded(temperature.si() - 273.15)
}

fn case(document: &Document, machine: &Machine, profile: &Profile) -> Case {
    let gap = profile.found.as_ref().err();
    Case {
        case: Some(clean(&profile.case.name)).filter(|name| !name.is_empty()),
        air: profile.case.air.map(|kelvin| degrees(ThermodynamicTemperature::from_si(kelvin))),
        shows: profile.shows.into(),
        not_worked_out: gap.map(|gap| words::gap_says(document, machine, gap)),
        circuit: profile.found.as_ref().ok().map(|round| circuit(document, machine, round)),
    }
}

fn circuit(document: &Document, machine: &Machine, round: &Round) -> Circuit {
    let found = &round.circuit;
    let element = |(place, state): (&CircuitPlace, _)| {
        let state: &engine::ElementState = state;
        Element {
            name: clean(&place.name),
            kind: place.kind.into(),
            branch: place.branch.as_deref().map(clean),
            flow: rounded(state.flow.si()),
            inlet: degrees(state.inlet),
            outlet: degrees(state.outlet),
            wall: degrees(state.wall),
            dew: place.dew.map(degrees),
            pressure: rounded(state.pressure.si()),
            drop: rounded(state.drop.si()),
            reynolds: Some(rounded(state.reynolds)).filter(|reynolds| *reynolds > 0.0),
            heat: rounded(state.heat.si()),
        }
    };
    Circuit {
        flow: rounded(found.flow.si()),
        running: found.running,
        stalled: found.stalled,
        starved: found.starved,
        relieved: found.relieved,
        once_warm: round.once_warm.map(|warm| rounded(warm.flow.si())),
        air_pressure: rounded(round.air.si()),
        reservoir_pressure: rounded(found.reservoir_pressure.si()),
        pressure_unknown: found.pressure_unknown.as_ref().map(|gap| words::gap_says(document, machine, gap)),
        elements: round.places.iter().zip(&found.elements).map(element).collect(),
    }
}

/// The circuit for a terminal.
#[must_use]
pub fn terminal(document: &Document, machine: &Machine, profiles: &[Profile], look: Look) -> String {
    let width = look.width.clamp(40, 140);
    let mut out = fold(&words::title(machine), 0, width);
    for profile in profiles {
        let heading = format!("{}: {}", words::case(&profile.case), profile.shows);
        let _ = write!(out, "\n{}", fold(&heading, 0, width));
        match &profile.found {
            Err(gap) => {
                out.push_str(&fold(&format!("not worked out: {}", words::gap_says(document, machine, gap)), 2, width))
            }
            Ok(round) => {
                for sentence in state(document, machine, round) {
                    out.push_str(&fold(&sentence, 2, width));
                }
                out.push_str(&table::of(round, width));
            }
        }
    }
    out
}

/// What is true of the whole loop, one sentence each.
pub(crate) fn state(document: &Document, machine: &Machine, round: &Round) -> Vec<String> {
    let circuit = &round.circuit;
    let flow = shown::<m::FlowRate>(circuit.flow);
    let mut out = vec![match (circuit.running, circuit.stalled) {
        (_, true) => format!("The pump pushes in vain against thick coolant: {flow} flows."),
        (true, _) => format!("{flow} flows."),
        (false, false) => "The pump does not turn.".into(),
    }];
    if circuit.starved {
        out.push("The suction side gives the pump less than it could move.".into());
    }
    if circuit.relieved {
        out.push("The relief valve is open.".into());
    }
    if let Some(warm) = round.once_warm {
        out.push(format!(
            "Once it has been warm it would stay in another state: {}, the coolant up to {}.",
            shown::<m::FlowRate>(warm.flow),
            shown::<m::Temperature>(warm.hottest)
        ));
    }
    out.push(match &circuit.pressure_unknown {
        Some(gap) => format!(
            "The pressures are counted from the surrounding air, {}, for want of the reservoir\'s: {}",
            shown::<m::Pressure>(round.air),
            words::gap_says(document, machine, gap)
        ),
        None => format!(
            "{} in the reservoir, {} outside where the air is thinnest.",
            shown::<m::Pressure>(circuit.reservoir_pressure),
            shown::<m::Pressure>(round.air)
        ),
    });
    out
}

fn shown<M: Measure>(quantity: M::Q) -> String {
    show(quantity.si(), M::KIND, None)
}

#[cfg(test)]
mod tests;
