#![no_std]
//! Hottest and coldest of motor, controller, cells and small devices while they work. It never knows: how warm anything
//! gets, other rules.

use rule::prelude::*;
use thermal::Course;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "component-temperature",
    area: Area::Cooling,
    question: "Do motor, controller, cells and small devices stay within their temperature limits, hot and cold, in every case?",
    explains: "A winding that gets too hot loses its varnish and shorts; magnets lose strength for good; a controller throttles, \
               then fails; hot cells age, swell and may burn. In the cold a servo's grease sets, a display stands still, cells \
               cannot give their current. It is the long slow climb, the stop with everything on and the first start after a \
               night out that find the limit, not the test in the yard.",
    formula: "limit − hottest of the case ≥ required; coldest of the case − limit ≥ required. Bodies of one temperature each: \
              C·dT/dt = heat − Σ G·ΔT, solved exactly; copper loss I²·R·(1 + 0.00393·(T − 20 °C)); at the end of the case's \
              duration, else when the pack is empty, else where it settles",
    source: "Lumped bodies: Bergman and others, Introduction to Heat Transfer, 6th edition, ch. 5; growth of copper's resistance: \
             IEC 60028; both published. Heat capacities and resistances that nobody gave, and the reserve: common practice and \
             from memory; a thermometer's readings after a drive beat them.",
    checked: "network against the closed forms of one and two bodies and against a Runge–Kutta integrator; settled temperatures \
              against the loop's own balance. Judged where the maker means the limit: junction, sensor or case. Magnets count \
              as the whole rotor, cells as the whole pack (their hottest row is a few kelvin above). A held launch and a jump \
              are judged only if they say how long they last. No sun.",
    required: "10 K below an upper limit, 5 K where a thermometer set the estimate right; 5 K above a lower one (common practice)",
    caution: "Cells beyond their limit can vent and burn: stop, carry them outside, keep away. Hot windings and plates burn skin.",
};

#[derive(Debug)]
pub struct ComponentTemperature;

impl Rule for ComponentTemperature {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        let train = &machine.powertrain;
        let (motor, controller, battery) =
            (train.motor.winding_temperature_max.id(), train.controller.temperature_max.id(), train.battery.mass.id());
        if machine.has_section_of(motor) {
            let mut on = checks.about("motor", motor);
            on.check("winding not too hot", winding);
            on.check("magnets not too hot", magnets);
        }
        if machine.has_section_of(controller) {
            let mut on = checks.about("controller", controller);
            on.check("not too hot", controller_hot);
            on.check("not too cold", controller_cold);
        }
        if machine.has_section_of(battery) {
            let mut on = checks.about("battery", battery);
            on.check("cells not too hot", cells_hot);
            on.check("cells not too cold", cells_cold);
        }
        for (index, device) in machine.devices.iter().enumerate() {
            let mut on = checks.on(&device.key);
            on.check("not too hot", |at| device_hot(at, index, device));
            on.check("not too cold", |at| device_cold(at, index, device));
        }
    }
}

const OFF: Outcome = Outcome::Aside("switched off, or too short to heat anything");

/// Switched on, and for long enough; a launch or a jump counts if it says how long it lasts.
fn works(at: &At) -> Found<bool> {
    let case = at.case()?;
    let on = at.try_part(&case.heat).copied().unwrap_or(true);
    Ok(on && (case.kind.heats() || (case.kind.bursts() && at.try_get(&case.duration).is_some())))
}

/// What has a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Thing<'m> {
    Winding,
    Magnets,
    Controller,
    Cells,
    Device(DeviceKind, &'m str),
}

impl Thing<'_> {
    fn consequence(self, side: Side) -> Consequence {
        use DeviceKind::{Camera, Capacitor, Converter, Display, Lamp, Radio, Sensor, Servo};
        match self {
            Self::Cells if side == Side::Hot => Consequence::Harm,
            Self::Winding | Self::Magnets | Self::Controller | Self::Cells => Consequence::Stranded,
            Self::Device(Servo | Radio | Capacitor | Converter, _) => Consequence::Stranded,
            Self::Device(Display | Camera | Sensor | Lamp, _) => Consequence::RunOver,
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Side {
    Hot,
    Cold,
}

/// One limit and how near the thing comes to it.
pub(crate) struct Limited<'m> {
    thing: Thing<'m>,
    side: Side,
    limit: ThermodynamicTemperature,
    node: NodeId,
    course: &'m Course,
}

impl Limited<'_> {
    fn outcome(&self, at: &At) -> Outcome {
        let required = match self.side {
            Side::Hot if self.course.is_measured() => {
                Required { value: 5.0, why: "a thermometer set the estimate right" }
            }
            Side::Hot => Required { value: 10.0, why: "how warm it gets is an estimate" },
            Side::Cold => Required { value: 5.0, why: "it starts as cold as the air" },
        };
        let (demand, capacity) = match self.side {
            Side::Hot => (self.course.hottest(), self.limit),
            Side::Cold => (self.limit, self.course.coldest()),
        };
        let margin = Margin::gap::<m::Temperature, m::TemperatureDifference>(
            demand,
            capacity,
            TemperatureInterval::from_si(20.0),
            required,
            self.thing.consequence(self.side),
        );
        Outcome::Held(margin.tell(at, |w| match self.side {
            Side::Hot => says::hot(at, self, w),
            Side::Cold => says::cold(at, self, w),
        }))
    }
}

fn known(course: &Found<Course>) -> Found<&Course> {
    course.as_ref().map_err(Clone::clone)
}

fn winding(at: &At) -> Found<Outcome> {
    if !works(at)? {
        return Ok(OFF);
    }
    let limit = &at.machine().powertrain.motor.winding_temperature_max;
    let (node, course) = (limit.id(), known(&at.thermal()?.winding)?);
    Ok(Limited { thing: Thing::Winding, side: Side::Hot, limit: at.need(limit)?, node, course }.outcome(at))
}

fn magnets(at: &At) -> Found<Outcome> {
    if !works(at)? {
        return Ok(OFF);
    }
    let limit = &at.machine().powertrain.motor.magnet_temperature_max;
    let (node, course) = (limit.id(), known(&at.thermal()?.magnets)?);
    Ok(Limited { thing: Thing::Magnets, side: Side::Hot, limit: at.need(limit)?, node, course }.outcome(at))
}

fn controller_hot(at: &At) -> Found<Outcome> {
    if !works(at)? {
        return Ok(OFF);
    }
    let limit = &at.machine().powertrain.controller.temperature_max;
    let (node, course) = (limit.id(), known(&at.thermal()?.controller_quoted)?);
    Ok(Limited { thing: Thing::Controller, side: Side::Hot, limit: at.need(limit)?, node, course }.outcome(at))
}

fn controller_cold(at: &At) -> Found<Outcome> {
    if !works(at)? {
        return Ok(OFF);
    }
    let limit = &at.machine().powertrain.controller.temperature_min;
    let (node, course) = (limit.id(), known(&at.thermal()?.controller)?);
    Ok(Limited { thing: Thing::Controller, side: Side::Cold, limit: at.need(limit)?, node, course }.outcome(at))
}

fn cells_hot(at: &At) -> Found<Outcome> {
    if !works(at)? {
        return Ok(OFF);
    }
    let given = &at.machine().powertrain.battery.cells.temperature_max;
    let limit = at.or(given, &at.assumed().cell_temperature_max)?;
    let course = &at.pack()?.course;
    Ok(Limited { thing: Thing::Cells, side: Side::Hot, limit, node: given.id(), course }.outcome(at))
}

fn cells_cold(at: &At) -> Found<Outcome> {
    if !works(at)? {
        return Ok(OFF);
    }
    let given = &at.machine().powertrain.battery.cells.temperature_min;
    let limit = at.or(given, &at.assumed().cell_temperature_min)?;
    let course = &at.pack()?.course;
    Ok(Limited { thing: Thing::Cells, side: Side::Cold, limit, node: given.id(), course }.outcome(at))
}

fn device_course<'m>(at: &At<'m>, index: usize) -> Found<&'m Course> {
    match at.thermal()?.devices.get(index) {
        Some(course) => known(course),
        None => Err(NotJudged::NoSolution("this device is not worked out".into())),
    }
}

fn device_hot(at: &At, index: usize, device: &Named<Device>) -> Found<Outcome> {
    if !works(at)? {
        return Ok(OFF);
    }
    let (thing, limit) = (Thing::Device(device.kind, device.name()), at.need(&device.temperature_max)?);
    let (node, course) = (device.temperature_max.id(), device_course(at, index)?);
    Ok(Limited { thing, side: Side::Hot, limit, node, course }.outcome(at))
}

fn device_cold(at: &At, index: usize, device: &Named<Device>) -> Found<Outcome> {
    if !works(at)? {
        return Ok(OFF);
    }
    let (thing, limit) = (Thing::Device(device.kind, device.name()), at.need(&device.temperature_min)?);
    let (node, course) = (device.temperature_min.id(), device_course(at, index)?);
    Ok(Limited { thing, side: Side::Cold, limit, node, course }.outcome(at))
}
