//! What a wire carries, continuously or for a time.

use crate::{Flow, Lead, says, worst};
use physics::wire::{Wire as Copper, bunched};
use rule::prelude::*;

/// A wire where it lies, and how hot it may get.
#[derive(Clone, Copy)]
pub(crate) struct Laid {
    copper: Copper,
    /// For seconds: what its insulation takes. A plug at its end is slower to warm.
    highest: ThermodynamicTemperature,
    /// For longer: what the weakest of insulation, plug and neighbours takes.
    lasting: ThermodynamicTemperature,
    /// Which of them: `its insulation`, `the plug at its end`, `what lies against it`.
    weakest: &'static str,
    air: ThermodynamicTemperature,
    pressure: Pressure,
    share: Ratio,
}

pub(crate) const REQUIRED: Required =
    Required { value: 1.2, why: "it is worked out for a wire stretched out in still air" };

/// The wire of one heavy circuit.
pub(crate) fn wire<'a>(at: &At<'a>, lead: Lead) -> Found<&'a Wire> {
    let train = &at.machine().powertrain;
    match lead {
        Lead::OfBattery => at.part(&train.battery.wire),
        Lead::OfMotor => at.part(&train.motor.wire),
    }
}

/// Hottest that the plug at its end may get: its own limit, that of its class, or what plugs take.
fn terminal(at: &At, lead: Lead) -> Found<ThermodynamicTemperature> {
    let train = &at.machine().powertrain;
    let (connector, assumed) = match lead {
        Lead::OfBattery => (&train.battery.connector, &at.assumed().terminal_temperature_max),
        Lead::OfMotor => (&train.motor.connector, &at.assumed().terminal_temperature_max),
    };
    let Some(connector) = at.part_or(connector, "a plug as usual") else { return at.need(assumed) };
    if let Some(own) = at.try_get(&connector.temperature_max) {
        return Ok(own);
    }
    match at.try_part(&connector.class) {
        Some(class) => at.or(&at.machine().follow(class).value.temperature_max, assumed),
        None => at.or(&connector.temperature_max, assumed),
    }
}

pub(crate) fn laid(at: &At, lead: Lead, wire: &Wire) -> Found<Laid> {
    let insulation = at.machine().follow(at.part(&wire.insulation)?);
    let around = at.surroundings()?;
    let circuits = at.or_take(&wire.bunched, Ratio::from_si(1.0), "1");
    let highest = at.need(&insulation.temperature_max)?;
    let mut weakest = (highest, "its insulation");
    let neighbours = at.try_get(&wire.neighbours_temperature_max);
    for (limit, name) in [(Some(terminal(at, lead)?), "the plug at its end"), (neighbours, "what lies against it")] {
        if let Some(limit) = limit.filter(|limit| *limit < weakest.0) {
            weakest = (limit, name);
        }
    }
    Ok(Laid {
        copper: Copper {
            metal: at.need(&wire.size)?,
            wall: at.or(&wire.wall, &at.assumed().wire_wall)?,
            conductivity: at.need(&insulation.conductivity)?,
        },
        highest,
        lasting: weakest.0,
        weakest: weakest.1,
        air: around.air(at, at.part_or(&wire.zone, "the outside air"))?,
        pressure: around.pressure,
        share: bunched(circuits),
    })
}

impl Laid {
    pub(crate) fn for_ever(&self) -> ElectricCurrent {
        self.copper.lasting_current(self.lasting, self.air, self.pressure) * self.share
    }

    /// Enough copper for that current, however long the flow lasts; up to ten times what it has.
    pub(crate) fn enough(
        &self,
        current: ElectricCurrent,
        bears: impl Fn(&Self) -> ElectricCurrent,
    ) -> Option<quantity::Area> {
        let with = |times: f64| Self { copper: Copper { metal: self.copper.metal * times, ..self.copper }, ..*self };
        // Two per cent a step: sizes on sale are further apart.
        let mut sizes = core::iter::successors(Some(1.0), |times| Some(times * 1.02)).take(117).map(with);
        sizes.find(|thicker| bears(thicker) >= current).map(|thicker| thicker.copper.metal)
    }

    /// A burst is over before a bundle has warmed itself up.
    pub(crate) fn bears(&self, flow: Flow) -> ElectricCurrent {
        match flow.lasts {
            Some(lasts) => {
                let hottest = if flow.is_burst() { self.highest } else { self.lasting };
                let alone = self.copper.current_for(hottest, self.air, self.pressure, lasts);
                if flow.is_burst() { alone } else { alone * self.share }
            }
            None => self.for_ever(),
        }
    }

    /// How hot it may get under a flow, and what says so.
    pub(crate) fn limit(&self, flow: Option<Flow>) -> (ThermodynamicTemperature, &'static str) {
        if flow.is_some_and(|flow| flow.is_burst()) {
            (self.highest, "its insulation")
        } else {
            (self.lasting, self.weakest)
        }
    }

    pub(crate) fn air(&self) -> ThermodynamicTemperature {
        self.air
    }
}

pub(crate) fn judge(at: &At, lead: Lead) -> Found<Outcome> {
    worst(at, lead, |flow| {
        let wire = wire(at, lead)?;
        let laid = laid(at, lead, wire)?;
        let margin = Margin::ratio::<m::Current>(flow.current, laid.bears(flow), REQUIRED, Consequence::Harm);
        Ok(margin.tell(at, |w| says::wire(at, lead, wire, &laid, flow, w)))
    })
}
