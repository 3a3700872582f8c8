//! The circuit as the spec gives it, read once: from here on there are only plain numbers in SI units.

use super::passage::Passage;
use super::path::{Stretch, path};
use super::properties::Liquid;
use super::pump::PumpCurve;
use crate::at::At;
use machine::{CaseKind, Cooled, Element, Found, Hose, HoseRun, NotJudged, Plate, Strainer};
use quantity::*;
use std::cell::Cell;

/// One element of the circuit.
pub(super) struct Station<'a> {
    pub(super) passage: Passage,
    pub(super) role: Role,
    /// Heat put in by the case, W, the pump's included.
    pub(super) heat: f64,
    /// Heat put in with nothing but the pump running, W.
    pub(super) idle_heat: f64,
    /// Between its wall and what it cools, K/W.
    pub(super) contact: f64,
    /// The outer face: conductance in W/K, and the air before it in K.
    pub(super) outer: Option<(f64, f64)>,
    /// What the air past that face takes up for each kelvin that it warms, W/K; without end where it does not warm.
    pub(super) air_rate: f64,
    /// The air that touches its inner face, K.
    pub(super) air: Found<f64>,
    /// The thermostat lets it go by while cold.
    pub(super) valved: bool,
    /// Above the coolant level in the reservoir, m.
    pub(super) height: f64,
    pub(super) hose: Option<&'a Hose>,
    /// Wall that it wets and that warms with it, m².
    pub(super) wetted: f64,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Role {
    Reservoir,
    Pump,
    Other,
}

/// What state of the loop is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Strained {
    Clean,
    /// Strainers due for cleaning.
    Clogged,
}

/// The whole loop.
pub(super) struct Loop<'a> {
    pub(super) stations: Vec<Station<'a>>,
    /// The way round, and of each stretch whether it feeds the first pump from the reservoir.
    pub(super) path: Vec<(Stretch, bool)>,
    pub(super) liquid: Liquid<'a>,
    pub(super) pump: PumpCurve,
    pub(super) outside: f64,
    /// Place of the thermostat, and where it opens, K.
    pub(super) thermostat: Option<(usize, f64)>,
    /// Whether the electronics are on.
    pub(super) powered: bool,
    /// What there is to push coolant into the pump before its inlet stands at the coolant's own vapour pressure, Pa: at first
    /// as if all stood at rest in the outside air, then as it settles.
    pub(super) feeds: Cell<f64>,
    /// Losses as measured over losses as worked out.
    pub(super) measured: f64,
}

impl<'a> Loop<'a> {
    pub(super) fn read(at: &At<'a>, strained: Strained) -> Found<Self> {
        let (case, cooling) = (at.case()?, &at.machine().cooling);
        let none = |words: &str| Err(NotJudged::NoSolution(words.to_owned()));
        if cooling.circuit.is_empty() {
            return none("no coolant circuit is given");
        }
        let count = cooling.circuit.iter().filter(|element| matches!(element, Element::Pump)).count();
        if count == 0 {
            return none("the coolant circuit has no pump");
        }
        let mut valves = cooling.circuit.iter().enumerate().filter_map(|(place, element)| match element {
            Element::Thermostat(valve) => Some((place, valve)),
            _ => None,
        });
        let valve = valves.next();
        if valves.next().is_some() {
            return none("two thermostats in one circuit are not worked out");
        }
        let powered = match at.try_part(&case.heat) {
            Some(heat) => *heat,
            None => !matches!(case.kind, CaseKind::Soak | CaseKind::BroughtIndoors),
        };
        let liquid = Liquid::read(at, at.machine().follow(at.part(&cooling.coolant.fluid)?))?;
        let around = at.surroundings()?;
        #[expect(clippy::cast_precision_loss, reason = "a handful of pumps")]
        let pumps = count as f64;
        // Just switched on after the soak nothing has warmed up yet.
        let heated = powered && case.kind != CaseKind::ColdStart;
        let mut stations: Vec<Station> = Vec::with_capacity(cooling.circuit.len());
        for element in &cooling.circuit {
            let mut station = station(at, element, heated, pumps, strained)?;
            // What has no height of its own lies as high as what it comes from.
            if let (true, Some(before)) = (follows(element), stations.last()) {
                station.height = before.height;
            }
            stations.push(station);
        }
        let thermostat = match valve {
            None => None,
            Some((place, valve)) => {
                let bypassed = cooling.circuit.iter().position(|element| name(element) == Some(&valve.bypasses));
                match bypassed.and_then(|bypassed| stations.get_mut(bypassed)) {
                    Some(station) => station.valved = true,
                    None => return none("the thermostat bypasses an element that is not in the circuit"),
                }
                Some((place, at.need(&valve.opens_at)?.si()))
            }
        };
        let suction = suction(&stations);
        let feeds = |stretch: &Stretch| suction.iter().any(|place| stretch.holds(*place));
        let path = path(&cooling.circuit)?;
        joined(&mut stations, &path);
        let path = path.into_iter().map(|stretch| (feeds(&stretch), stretch));
        let path = path.map(|(feeds, stretch)| (stretch, feeds)).collect();
        let pump = PumpCurve::read(at, pumps)?;
        let outside = around.outside.si();
        let mut read = Self {
            stations,
            path,
            liquid,
            pump,
            outside,
            thermostat,
            powered,
            feeds: Cell::new(f64::INFINITY),
            measured: 1.0,
        };
        if let Some(jug) = at.try_part(&cooling.jug) {
            read.measured = read.measured(at, jug)?;
        }
        let feeds = super::reservoir::feeds(at, &read);
        read.feeds.set(feeds);
        Ok(read)
    }
}

/// Tells each hose what it meets at its ends.
fn joined(stations: &mut [Station], path: &[Stretch]) {
    let single = |stretch: Option<&Stretch>| match stretch {
        Some(Stretch::Single(place)) => Some(*place),
        _ => None,
    };
    let count = path.len();
    let mut meets = Vec::new();
    for (number, stretch) in path.iter().enumerate() {
        match stretch {
            Stretch::Single(place) => {
                let (before, behind) = (path.get((number + count - 1) % count), path.get((number + 1) % count));
                meets.push((*place, single(before), single(behind)));
            }
            Stretch::Branches(ways) => {
                for way in ways {
                    let along = way.iter().enumerate().map(|(step, place)| {
                        let before = step.checked_sub(1).and_then(|step| way.get(step));
                        (*place, before.copied(), way.get(step + 1).copied())
                    });
                    meets.extend(along);
                }
            }
        }
    }
    let passages: Vec<Passage> = stations.iter().map(|station| station.passage.clone()).collect();
    for (place, before, behind) in meets {
        let other = |place: Option<usize>| place.and_then(|place| passages.get(place));
        if let Some(station) = stations.get_mut(place) {
            station.passage.meets(other(before), other(behind));
        }
    }
}

/// Places behind the reservoir and before the first pump, in flow order; none where one of the two is missing.
fn suction(stations: &[Station]) -> Vec<usize> {
    let Some(tank) = stations.iter().position(|station| station.role == Role::Reservoir) else { return Vec::new() };
    let round = (0..stations.len()).map(|step| (tank + step) % stations.len());
    round.take_while(|place| stations.get(*place).is_some_and(|station| station.role != Role::Pump)).collect()
}

fn follows(element: &Element) -> bool {
    matches!(element, Element::Hose(_) | Element::Strainer(_) | Element::Thermostat(_))
}

pub(super) fn name(element: &Element) -> Option<&String> {
    match element {
        Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate) => Some(&plate.name),
        Element::Strainer(strainer) => Some(&strainer.name),
        Element::Thermostat(valve) => Some(&valve.name),
        Element::Reservoir | Element::Pump | Element::Hose(_) => None,
    }
}

/// Plates and jackets of the circuit that cool the same thing share its heat evenly.
fn cooling_it(at: &At, cooled: Cooled) -> f64 {
    at.machine().cooling.circuit.iter().fold(0.0, |count, element| match element {
        Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate) if plate.cools == Some(cooled) => {
            count + 1.0
        }
        _ => count,
    })
}

/// An element without anything of its own, in the outside air, level with the coolant.
fn bare<'a>(at: &At, passage: Passage, role: Role) -> Found<Station<'a>> {
    Ok(Station {
        passage,
        role,
        heat: 0.0,
        idle_heat: 0.0,
        contact: 0.0,
        outer: None,
        air_rate: f64::INFINITY,
        air: Ok(at.surroundings()?.outside.si()),
        valved: false,
        height: 0.0,
        hose: None,
        wetted: 0.0,
    })
}

fn station<'a>(at: &At<'a>, element: &Element, heated: bool, pumps: f64, strained: Strained) -> Found<Station<'a>> {
    match element {
        Element::Reservoir => bare(at, Passage::Open, Role::Reservoir),
        Element::Thermostat(_) => bare(at, Passage::Open, Role::Other),
        Element::Pump => {
            // Where a plate takes the pump's heat, it goes in there.
            let heat = if cooling_it(at, Cooled::Pump) > 0.0 { 0.0 } else { pump_power(at) / pumps };
            let height = at.or_take(&at.machine().cooling.pump.height_above_level, Length::ZERO, LEVEL).si();
            Ok(Station { heat, idle_heat: heat, height, ..bare(at, Passage::Open, Role::Pump)? })
        }
        Element::Hose(run) => hose(at, run),
        Element::Strainer(strainer) => strains(at, strainer, strained),
        Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate) => walled(at, plate, heated),
    }
}

const LEVEL: &str = "level with the coolant";

fn strains<'a>(at: &At, strainer: &Strainer, strained: Strained) -> Found<Station<'a>> {
    let left = match strained {
        Strained::Clean => 1.0,
        Strained::Clogged => 1.0 - at.or(&strainer.clogged, &at.assumed().strainer_clogged)?.si(),
    };
    bare(at, Passage::strainer(at, strainer, left)?, Role::Other)
}

/// A hose loses heat to the air round it; its wall counts as no resistance.
fn hose<'a>(at: &At<'a>, run: &HoseRun) -> Found<Station<'a>> {
    let hose = at.machine().follow(&run.hose);
    let (bore, length) = (at.need(&hose.bore)?, at.need(&hose.length)?);
    let outer_diameter = bore + 2.0 * wall(at, hose, bore);
    let surface = std::f64::consts::PI * outer_diameter.si() * length.si();
    let air = at.surroundings()?.air(at, at.part_or(&run.zone, "the outside air"))?.si();
    let outer = Some((at.need(&at.assumed().hose_to_air)?.si() * surface, air));
    Ok(Station { outer, hose: Some(hose), ..bare(at, Passage::hose(at, hose)?, Role::Other)? })
}

/// Wall of a hose, as most are made where nobody has measured it.
pub(super) fn wall(at: &At, hose: &Hose, bore: Length) -> Length {
    at.or_take(&hose.wall, 0.25 * bore, "a quarter of the bore")
}

/// A pump whose power nobody gave is taken to warm nothing: the cold side for wet faces, and little where it is hot.
fn pump_power(at: &At) -> f64 {
    at.or_take(&at.machine().cooling.pump.power, Power::from_si(0.0), "0 W").si()
}

fn walled<'a>(at: &At, plate: &Plate, heated: bool) -> Found<Station<'a>> {
    let assumed = at.assumed();
    let around = at.surroundings()?;
    let passage = match at.try_part(&plate.tested) {
        Some(test) if plate.channel.there().is_none() => Passage::tested(at, test)?,
        _ => Passage::channel(at, at.part(&plate.channel)?)?,
    };
    let stated = at.try_get(&plate.heat).map(Quantity::si);
    let shared = |cooled: Cooled, heat: f64| heat / cooling_it(at, cooled).max(1.0);
    let (heat, idle_heat) = match (stated, plate.cools) {
        (None, Some(Cooled::Pump)) => (shared(Cooled::Pump, pump_power(at)), shared(Cooled::Pump, pump_power(at))),
        _ if !heated => (0.0, 0.0),
        (Some(heat), _) => (heat, 0.0),
        (None, None) => (0.0, 0.0),
        (None, Some(cooled)) => {
            let drive = at.drive()?;
            let heat = match cooled {
                Cooled::Motor => drive.motor_heat,
                Cooled::Controller => drive.controller_heat,
                Cooled::Battery => drive.battery_heat,
                Cooled::Pump => Power::ZERO,
            };
            (shared(cooled, heat.si()), 0.0)
        }
    };
    let contact = if stated.is_some() || plate.cools.is_some() {
        at.or(&plate.contact_resistance, &assumed.contact_resistance)?.si()
    } else {
        0.0
    };
    let (outer, air_rate) = match at.try_part(&plate.outside) {
        None => (None, f64::INFINITY),
        Some(face) => {
            let swept = super::swept::swept(at, face)?;
            (Some((swept.transfer * at.need(&face.area)?.si(), swept.air)), swept.rate)
        }
    };
    let air = around.air(at, at.part_or(&plate.zone, "the outside air")).map(Quantity::si);
    let height = at.or_take(&plate.height_above_level, Length::ZERO, LEVEL).si();
    let wetted = passage.wetted().or_else(|| at.try_get(&plate.area).map(Quantity::si)).unwrap_or(0.0);
    Ok(Station { wetted, heat, idle_heat, contact, outer, air_rate, air, height, ..bare(at, passage, Role::Other)? })
}
