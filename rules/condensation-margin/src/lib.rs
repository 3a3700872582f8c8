#![no_std]
//! Water or rime on what the coolant cools inside an enclosure. It never knows: how a coolant loop or an air is worked
//! out, other rules.

use physics::moisture;
use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "condensation-margin",
    area: Area::Cooling,
    question: "Does water or rime settle on a cooled plate inside an enclosure?",
    explains: "A face that is colder than the dew point of the air round it gets wet, or white below freezing. A box into which \
               snow has got stays damp while it warms up, and coolant straight from the snow is the coldest thing in it: the \
               water settles where the electronics are bolted on. The pump running before there is any heat is the worst of it.",
    formula: "coldest point of the element − dew or frost point of the zone's air ≥ required; once as driven, once idling with \
              the pump on; water in the air = volume × vapour pressure / (R·T); where ten fillings of it and what got in \
              are less than 0.1 g, nothing that settles matters",
    source: "Dew and frost point: Hyland and Wexler 1983 as in ASHRAE Handbook Fundamentals 2017, ch. 1; below freezing over \
             water Murphy and Koop 2005; published. Reserves, 0.1 g as harmless, and ten air changes in a day of a box that breathes: common practice, no source.",
    checked: "against Alduchov and Eskridge, J. Appl. Meteor. 35 (1996) 601, within 0.4 %, and saturated air at 20 °C, 17.3 g/m³. \
              Coldest point: the coolant's entry, the wetted wall and the face, whichever is coldest, also where a stalled \
              pump lets thick coolant creep; a stalled loop that is heated is not judged as driven. Hoses and fittings that are \
              no element of their own are not looked at, nor how long it takes to get wet.",
    required: "5 K where the humidity is a guess, 3 K where it was measured (common practice)",
    caution: "A wet battery or controller can short: take the pack off before you open and dry the box.",
};

#[derive(Debug)]
pub struct CondensationMargin;

impl Rule for CondensationMargin {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for (index, element) in machine.cooling.circuit.iter().enumerate() {
            let Some(plate) = walled(element) else { continue };
            // Asked even where nobody has said which air touches it.
            let face = Face { index, plate };
            let mut on = checks.about(&plate.name, plate.zone.id());
            on.check("face above the dew point", |at| face.judge(at, Pumped::AsDriven));
            on.check("idling with the pump on", |at| face.judge(at, Pumped::Idling));
        }
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Pumped {
    AsDriven,
    Idling,
}

/// One element of the circuit with a face to some air, and its place in the circuit.
struct Face<'a> {
    index: usize,
    plate: &'a Plate,
}

/// The air before the face, the face itself, and what is wanted of it.
struct Wetted<'m> {
    dew: ThermodynamicTemperature,
    vapour: Pressure,
    air: ThermodynamicTemperature,
    coldest: ThermodynamicTemperature,
    /// A pump that waits until the warmest coolant has this lets nothing too cold to the face.
    starts: ThermodynamicTemperature,
    /// Another element that would warm the coolant first, and by how much.
    warmer: Option<(&'m str, TemperatureInterval)>,
}

/// Less water than this in a tight box wets nothing that matters.
const HARMLESS: f64 = 0.1e-3;

fn walled(element: &Element) -> Option<&Plate> {
    match element {
        Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate) => Some(plate),
        Element::Reservoir | Element::Pump | Element::Hose(_) | Element::Strainer(_) | Element::Thermostat(_) => None,
    }
}

fn electronics(plate: &Plate) -> bool {
    matches!(plate.cools, Some(Cooled::Controller | Cooled::Battery))
}

impl<'a> Face<'a> {
    fn judge(&self, at: &At<'a>, pumped: Pumped) -> Found<Outcome> {
        if !at.case()?.kind.heats() {
            return Ok(Outcome::Aside("switched off, or too short to cool a face"));
        }
        let reference = at.part(&self.plate.zone)?;
        let zone = at.machine().follow(reference);
        let moist = *at.part(&zone.moisture)?;
        if moist == Moisture::SealedAtAssembly {
            let water = closed_in(at, zone)?;
            if water.si() < HARMLESS {
                return Ok(Outcome::Clear(says::harmless(at, zone.name(), water, Water::ClosedIn)));
            }
        }
        let machine = at.machine();
        let place = machine.zones.iter().position(|each| each.id() == zone.id());
        let around = place.and_then(|place| at.surroundings().map(|around| around.zones.get(place)).transpose());
        let air = match around {
            Some(air) => air?.clone()?,
            None => return Err(NotJudged::NoSolution("the air of this zone is not worked out".into())),
        };
        if let Some(water) = in_a_day(at, zone, moist, (air.vapour, air.air))
            && water.si() < HARMLESS
        {
            return Ok(Outcome::Clear(says::harmless(at, zone.name(), water, Water::InADay)));
        }
        let circuit = match pumped {
            Pumped::AsDriven => at.coolant()?.at_end().warm()?.clone(),
            Pumped::Idling => at.idle_coolant()?,
        };
        // A pump that turns against thick coolant lets it creep: what comes is as cold as what surrounds it.
        if pumped == Pumped::Idling && !circuit.running && !circuit.stalled {
            return Ok(Outcome::Aside("the pump does not turn while nothing warms the coolant"));
        }
        let Some(element) = circuit.elements.get(self.index) else {
            return Err(NotJudged::NoSolution("this element of the circuit is not worked out".into()));
        };
        let colder = |one: ThermodynamicTemperature, other| if other < one { other } else { one };
        let coldest = colder(colder(element.wall, element.wetted.0), element.inlet);
        let required = if air.measured {
            Required { value: 3.0, why: "the humidity was measured" }
        } else {
            Required { value: 5.0, why: "the humidity is a guess" }
        };
        let consequence = if electronics(self.plate) { Consequence::Stranded } else { Consequence::RunOver };
        let margin = Margin::gap::<m::Temperature, m::TemperatureDifference>(
            air.dew,
            coldest,
            TemperatureInterval::from_si(20.0),
            required,
            consequence,
        );
        let warmer = match pumped {
            Pumped::AsDriven => {
                let rises = circuit.elements.iter().map(|each| (each.outlet, difference(each.outlet, each.inlet)));
                self.warmer_order(machine, &rises.collect::<Vec<_>>())
            }
            Pumped::Idling => None,
        };
        let wanted = air.dew + TemperatureInterval::from_si(margin.required.value);
        let warmest = circuit.elements.iter().fold(
            coldest,
            |warmest, each| {
                if each.outlet > warmest { each.outlet } else { warmest }
            },
        );
        let starts = wanted + difference(warmest, coldest);
        let wetted = Wetted { dew: air.dew, vapour: air.vapour, air: air.air, coldest, starts, warmer };
        Ok(Outcome::Held(margin.tell(at, |w| says::wet(self, at, pumped, zone, &wetted, w))))
    }

    /// A heated element that the coolant meets only after this one, counted from where it is coldest, and how much it warms.
    fn warmer_order<'m>(
        &self,
        machine: &'m Machine,
        rises: &[(ThermodynamicTemperature, TemperatureInterval)],
    ) -> Option<(&'m str, TemperatureInterval)> {
        let count = rises.len();
        let coldest = (0..count).min_by(|a, b| {
            let outlet = |place: &usize| rises.get(*place).map_or(f64::INFINITY, |rise| rise.0.si());
            outlet(a).total_cmp(&outlet(b))
        })?;
        // Steps in flow order from the coldest point.
        let steps = |place: usize| (place + count - coldest) % count;
        let later = machine.cooling.circuit.iter().zip(rises).enumerate().filter_map(|(place, (element, rise))| {
            let plate = walled(element)?;
            (steps(place) > steps(self.index) && !electronics(plate)).then_some((plate.name.as_str(), rise.1))
        });
        later.filter(|(_, gain)| gain.si() >= 0.5).max_by(|a, b| a.1.si().total_cmp(&b.1.si()))
    }
}

/// Which water is meant: all that was closed in, or all that gets there in a day.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Water {
    ClosedIn,
    InADay,
}

/// A box that breathes through its gaps gets fresh air so often in a day outside. Common practice, no source: once an hour.
const AIR_CHANGES: f64 = 10.0;

/// All the water that could settle in a day, where it has an end: that of the air that comes in, and what got in as snow.
/// Nothing where spray or the open bring more, and where nobody knows how much melts.
fn in_a_day(
    at: &At,
    zone: &Zone,
    moist: Moisture,
    (vapour, air): (Pressure, ThermodynamicTemperature),
) -> Option<Mass> {
    let brought = || Some(moisture::water_in_box(at.try_get(&zone.volume)?, vapour, air) * AIR_CHANGES);
    match moist {
        Moisture::Breathes => Some(brought()? + at.or_take(&zone.trapped_water, Mass::ZERO, "0 g")),
        Moisture::HoldsMeltwater => Some(brought()? + at.try_get(&zone.trapped_water)?),
        Moisture::SealedAtAssembly | Moisture::OutsideAir | Moisture::Room | Moisture::SnowSpray => None,
    }
}

/// All the water in a tight box since it was closed.
fn closed_in(at: &At, zone: &Zone) -> Found<Mass> {
    let volume = at.need(&zone.volume)?;
    let humidity = at.need(&zone.humidity_at_assembly)?;
    let closed = at.or(&at.machine().environment.assembled_at, &at.assumed().assembled_at)?;
    let vapour = moisture::vapour_pressure(closed, humidity).map_err(|refused| {
        let physics::range::OutsideRange { of, unit, from, to, was } = refused;
        NotJudged::OutsideRange { of: of.into(), unit, from, to, was }
    })?;
    let in_air = moisture::water_in_box(volume, vapour, closed);
    Ok(in_air + at.try_get(&zone.trapped_water).unwrap_or(Mass::ZERO))
}
