//! The circuit as the spec gives it, read once: from here on there are only plain numbers in SI units.

use super::passage::Passage;
use super::properties::Liquid;
use crate::at::At;
use machine::{CaseKind, Cooled, Element, Found, NotJudged, Plate, PumpKind};
use quantity::*;

/// One element of the circuit.
pub(super) struct Station {
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
    /// The air that touches its inner face, K.
    pub(super) air: Found<f64>,
    /// The thermostat lets it go by while cold.
    pub(super) valved: bool,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Role {
    Reservoir,
    Pump,
    Other,
}

/// Rise over flow of one pump.
pub(super) struct PumpCurve {
    kind: PumpKind,
    pub(super) free: f64,
    stall: f64,
    /// Of the test behind the two ends of its curve: water at 20 °C, unless anybody says otherwise.
    viscosity: f64,
}

impl PumpCurve {
    fn read(at: &At) -> Found<Self> {
        let pump = &at.machine().cooling.pump;
        let kind = *at.part(&pump.works_by)?;
        let free = match (at.try_get(&pump.free_flow), kind) {
            (Some(free), _) => free.si(),
            (None, PumpKind::PositiveDisplacement) => {
                let (turn, speed) = (at.try_get(&pump.displacement), at.try_get(&pump.speed));
                match (turn, speed) {
                    (Some(turn), Some(speed)) => turn.si() * speed.si() / std::f64::consts::TAU,
                    _ => at.need(&pump.free_flow)?.si(),
                }
            }
            (None, PumpKind::Centrifugal) => at.need(&pump.free_flow)?.si(),
        };
        let stall = at.need(&pump.stall_pressure)?.si();
        if !(free > 0.0 && stall > 0.0) {
            return Err(NotJudged::NoSolution(
                "the pump moves nothing: its free flow or stall pressure is zero".into(),
            ));
        }
        let viscosity = physics::coolant::water(celsius(20.0)).map_err(crate::drive::outside)?.viscosity.si();
        Ok(Self { kind, free, stall, viscosity })
    }

    /// Pressure that it makes at a flow, as a share of its stall pressure.
    pub(super) fn rise_share(&self, flow: f64, viscosity: f64) -> f64 {
        let (flow, free, stall) =
            (VolumeRate::from_si(flow), VolumeRate::from_si(self.free), Pressure::from_si(self.stall));
        let rise = match self.kind {
            PumpKind::Centrifugal => physics::pump::centrifugal_rise(stall, free, flow, Ratio::from_si(1.0)),
            PumpKind::PositiveDisplacement => {
                // One turn a second, that moves a second's free flow. Thick coolant leaks back less, but what the motor
                // can push against stays: without that, pressures in the cold would be absurd.
                let (turn, speed) = (Volume::from_si(self.free), AngularVelocity::from_si(std::f64::consts::TAU));
                let thicker = Ratio::from_si(viscosity / self.viscosity);
                physics::pump::displacement_rise(turn, speed, free, stall, flow, thicker)
            }
        };
        (rise / stall).si().min(1.0)
    }

    pub(super) fn stall(&self) -> f64 {
        self.stall
    }
}

/// The whole loop.
pub(super) struct Loop<'a> {
    pub(super) stations: Vec<Station>,
    pub(super) liquid: Liquid<'a>,
    pub(super) pump: PumpCurve,
    /// How many of it stand in the circuit, one behind the other.
    pub(super) pumps: f64,
    pub(super) outside: f64,
    /// Place of the thermostat, and where it opens, K.
    pub(super) thermostat: Option<(usize, f64)>,
    /// Whether the electronics are on.
    pub(super) powered: bool,
}

impl<'a> Loop<'a> {
    pub(super) fn read(at: &At<'a>) -> Found<Self> {
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
        let outside = at.surroundings()?.outside.si();
        #[expect(clippy::cast_precision_loss, reason = "a handful of pumps")]
        let pumps = count as f64;
        let mut stations = Vec::with_capacity(cooling.circuit.len());
        for element in &cooling.circuit {
            stations.push(station(at, element, powered, pumps)?);
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
        Ok(Self { stations, liquid, pump: PumpCurve::read(at)?, pumps, outside, thermostat, powered })
    }
}

fn name(element: &Element) -> Option<&String> {
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

fn station(at: &At, element: &Element, powered: bool, pumps: f64) -> Found<Station> {
    let bare = |passage, role| {
        let air = Ok(at.surroundings()?.outside.si());
        Ok(Station { passage, role, heat: 0.0, idle_heat: 0.0, contact: 0.0, outer: None, air, valved: false })
    };
    match element {
        Element::Reservoir => bare(Passage::Open, Role::Reservoir),
        Element::Thermostat(_) => bare(Passage::Open, Role::Other),
        Element::Pump => {
            // Where a plate takes the pump's heat, it goes in there.
            let heat = if cooling_it(at, Cooled::Pump) > 0.0 { 0.0 } else { pump_power(at) / pumps };
            Ok(Station { heat, idle_heat: heat, ..bare(Passage::Open, Role::Pump)? })
        }
        Element::Hose(run) => {
            let hose = at.machine().follow(&run.hose);
            bare(Passage::Hose { bore: at.need(&hose.bore)?, length: at.need(&hose.length)? }, Role::Other)
        }
        Element::Strainer(strainer) => bare(Passage::strainer(at, strainer)?, Role::Other),
        Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate) => walled(at, plate, powered),
    }
}

/// A pump whose power nobody gave is taken to warm nothing: the cold side for wet faces, and little where it is hot.
fn pump_power(at: &At) -> f64 {
    at.or_take(&at.machine().cooling.pump.power, Power::from_si(0.0), "0 W").si()
}

fn walled(at: &At, plate: &Plate, powered: bool) -> Found<Station> {
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
        _ if !powered => (0.0, 0.0),
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
    let outer = match at.try_part(&plate.outside) {
        None => None,
        Some(face) => {
            let snowed = at.or_word(&at.case()?.snow_on_plate, false, "no");
            let transfer = if snowed {
                at.or(&face.heat_transfer_snow, &assumed.plate_to_snow)?
            } else {
                at.or(&face.heat_transfer, &assumed.plate_to_air)?
            };
            let air = around.air(at, at.part_or(&face.to, "the outside air"))?.si();
            Some((transfer.si() * at.need(&face.area)?.si(), air))
        }
    };
    let air = around.air(at, at.part_or(&plate.zone, "the outside air")).map(Quantity::si);
    Ok(Station { passage, role: Role::Other, heat, idle_heat, contact, outer, air, valved: false })
}
