//! What a wire bears, for ever or for a time.

use crate::{Flow, Lead, says, worst};
use physics::wire::{Wire as Copper, bunched};
use rule::prelude::*;

/// A wire where it lies, and what its insulation stands.
#[derive(Clone, Copy)]
pub(crate) struct Laid {
    copper: Copper,
    highest: ThermodynamicTemperature,
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

pub(crate) fn laid(at: &At, wire: &Wire) -> Found<Laid> {
    let insulation = at.machine().follow(at.part(&wire.insulation)?);
    let around = at.surroundings()?;
    let circuits = at.or_take(&wire.bunched, Ratio::from_si(1.0), "1");
    Ok(Laid {
        copper: Copper {
            metal: at.need(&wire.size)?,
            wall: at.or(&wire.wall, &at.assumed().wire_wall)?,
            conductivity: at.need(&insulation.conductivity)?,
        },
        highest: at.need(&insulation.temperature_max)?,
        air: around.air(at, at.part_or(&wire.zone, "the outside air"))?,
        pressure: around.pressure,
        share: bunched(circuits),
    })
}

impl Laid {
    pub(crate) fn for_ever(&self) -> ElectricCurrent {
        self.copper.lasting_current(self.highest, self.air, self.pressure) * self.share
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
                let alone = self.copper.current_for(self.highest, self.air, self.pressure, lasts);
                if flow.is_burst() { alone } else { alone * self.share }
            }
            None => self.for_ever(),
        }
    }

    pub(crate) fn air(&self) -> ThermodynamicTemperature {
        self.air
    }
}

pub(crate) fn judge(at: &At, lead: Lead) -> Found<Outcome> {
    worst(at, lead, |flow| {
        let wire = wire(at, lead)?;
        let laid = laid(at, wire)?;
        let margin = Margin::ratio::<m::Current>(flow.current, laid.bears(flow), REQUIRED, Consequence::Harm);
        Ok(margin.tell(at, |w| says::wire(at, lead, wire, &laid, flow, w)))
    })
}
