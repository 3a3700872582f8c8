//! The coolant circuit in one case point, element by element: what a table or a drawing of it is made from.

use crate::finding::CaseLabel;
use crate::points::{case_points, label};
use machine::{Element, Found, Machine, NotJudged, Ref, WhatIf, Zone};
use quantity::{Pressure, Quantity, ThermodynamicTemperature};
use solve::coolant::{Circuit, Warm};
use solve::{At, CasePoint, Cells};

/// One way round in one case.
#[derive(Debug, Clone)]
pub struct Profile {
    pub case: CaseLabel,
    /// Why this case is shown.
    pub shows: &'static str,
    pub found: Result<Round, NotJudged>,
}

/// The state of the loop, and what stands at each of its elements.
#[derive(Debug, Clone)]
pub struct Round {
    pub circuit: Circuit,
    /// Another steady state, in which it would stay if it had once been warm.
    pub once_warm: Option<Warm>,
    /// Of the surrounding air, where it presses least.
    pub air: Pressure,
    /// In the order of the circuit.
    pub places: Vec<Place>,
}

#[derive(Debug, Clone)]
pub struct Place {
    pub name: String,
    pub kind: &'static str,
    pub branch: Option<String>,
    /// Dew or frost point of the air that touches it, where that is known.
    pub dew: Option<ThermodynamicTemperature>,
    /// Stands in an enclosure, where what settles stays.
    pub enclosed: bool,
}

const ASKED: &str = "as asked";
const WARMEST: &str = "of the cases that last the one in which the coolant gets warmest";
const COLDEST: &str = "of the cases that last the coldest in which the pump turns";
const FIRST: &str = "the pump turns in no case that is worked out; this is the first";

/// The circuit in a named case, at its coldest and its hottest air; without a name in the cases that tell most. Nothing where
/// there is no such case.
#[must_use]
pub fn profiles(machine: &Machine, case: Option<&str>) -> Vec<Profile> {
    let points = case_points(machine);
    if let Some(name) = case {
        let named = |point: &&CasePoint| machine.cases.get(point.case).is_some_and(|case| case.key.name == name);
        let of_case: Vec<&CasePoint> = points.iter().filter(named).collect();
        let ends = [of_case.first(), of_case.last().filter(|_| of_case.len() > 1)];
        return ends.into_iter().flatten().map(|point| profile(machine, **point, ASKED)).collect();
    }
    let lasts = |point: &&CasePoint| machine.cases.get(point.case).is_some_and(|case| case.kind.lasts());
    let lasting: Vec<CasePoint> = points.iter().filter(lasts).copied().collect();
    let points = if lasting.is_empty() { points } else { lasting };
    let all: Vec<Profile> = points.iter().map(|point| profile(machine, *point, FIRST)).collect();
    let mut turning: Vec<(f64, Profile)> = all.iter().filter_map(|each| Some((warmest(each)?, each.clone()))).collect();
    turning.sort_by(|a, b| a.0.total_cmp(&b.0));
    let last = turning.pop().map(|(_, profile)| Profile { shows: WARMEST, ..profile });
    let first = turning.into_iter().next().map(|(_, profile)| Profile { shows: COLDEST, ..profile });
    let told: Vec<Profile> = first.into_iter().chain(last).collect();
    if told.is_empty() { all.into_iter().take(1).collect() } else { told }
}

/// Warmest coolant of a loop that flows, K.
fn warmest(profile: &Profile) -> Option<f64> {
    let circuit = &profile.found.as_ref().ok()?.circuit;
    let hottest = circuit.elements.iter().map(|element| element.outlet.si()).fold(f64::NEG_INFINITY, f64::max);
    (circuit.running || circuit.stalled).then_some(hottest)
}

fn profile(machine: &Machine, point: CasePoint, shows: &'static str) -> Profile {
    let what_if = WhatIf::default();
    let cells = Cells::default();
    let at = At::new(machine, point, &what_if, &cells);
    Profile { case: label(&at), shows, found: round(machine, &at) }
}

fn round(machine: &Machine, at: &At) -> Found<Round> {
    let circuit = at.coolant()?.at_end().warm()?.clone();
    let around = at.surroundings()?;
    let places = machine.cooling.circuit.iter().map(|element| {
        let (name, kind) = named(element);
        let dew = around.dew(at, zone(element)).ok();
        let enclosed = zone(element).is_some();
        Place { name: name.to_owned(), kind, branch: element.branch().map(str::to_owned), dew, enclosed }
    });
    Ok(Round { circuit, once_warm: at.once_warm()?, air: around.pressure, places: places.collect() })
}

fn named(element: &Element) -> (&str, &'static str) {
    match element {
        Element::Reservoir => ("reservoir", "reservoir"),
        Element::Pump => ("pump", "pump"),
        Element::Hose(run) => (&run.hose.name, "hose"),
        Element::Plate(plate) => (&plate.name, "plate"),
        Element::Jacket(plate) => (&plate.name, "jacket"),
        Element::Exchanger(plate) => (&plate.name, "exchanger"),
        Element::Strainer(strainer) => (&strainer.name, "strainer"),
        Element::Thermostat(valve) => (&valve.name, "thermostat"),
    }
}

fn zone(element: &Element) -> Option<&Ref<Zone>> {
    match element {
        Element::Hose(run) => run.zone.there(),
        Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate) => plate.zone.there(),
        Element::Reservoir | Element::Pump | Element::Strainer(_) | Element::Thermostat(_) => None,
    }
}
