#![no_std]
//! What gets hotter after the machine has stopped, when flow and air stop too. It never knows: how warm anything gets,
//! other rules.

use rule::prelude::*;
use thermal::Course;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "stop-soak",
    area: Area::Cooling,
    question: "Does anything get too hot in the minutes after stopping, when nothing cools any more?",
    explains: "At the end of a climb the copper inside the motor is far hotter than its case. Switched off, pump and wind stand \
               still and that heat comes out: case, mount and pinion go on getting warmer for some minutes. A printed mount \
               that was fine all the way up softens at the top, and the motor leans in it.",
    formula: "limit − highest after the stop ≥ required, everything off at the end of the case; softening: heat deflection \
              temperature, of the annealed state where the part was annealed, else the glass transition where that is no \
              cold one, else the highest temperature of service",
    source: "Lumped bodies: Bergman and others, Introduction to Heat Transfer, 6th edition, ch. 5; heat deflection: ISO 75, method \
             B; published. Reserves, and resistances that nobody gave: common practice and from memory; readings after a \
             drive beat them.",
    checked: "by the heat balance of winding, rotor and case left alone, and against a Runge–Kutta integrator. A mount counts as \
              hot as what it touches (hot side: a thin face only), and takes no heat away (hot side). Zone air stays as warm as \
              it was. Where the pump runs on after the stop it is better than told here.",
    required: "magnets and controller 10 K, 5 K where a thermometer set it right; polymers 20 K under load, 10 K without \
               (common practice)",
    caution: "A motor that has just stopped is at its hottest outside some minutes later: do not touch, do not wrap it up.",
};

#[derive(Debug)]
pub struct StopSoak;

impl Rule for StopSoak {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        let train = &machine.powertrain;
        let (motor, controlled) = (train.motor.magnet_temperature_max.id(), train.controller.temperature_max.id());
        if machine.has_section_of(motor) {
            let mut on = checks.about("motor", motor);
            on.check("magnets after stopping", magnets);
            if let Some(pinion) = pinion(machine) {
                on.check("pinion after stopping", |at| pinion_soft(at, pinion));
            }
        }
        if machine.has_section_of(controlled) {
            checks.about("controller", controlled).check("controller after stopping", controller);
        }
        for (index, part) in machine.structure.parts.iter().enumerate().filter(|(_, part)| touches(machine, part)) {
            let mut on = checks.on(&part.key);
            on.check("soft after stopping", |at| part_soft(at, index, part));
        }
    }
}

const COLD: Outcome = Outcome::Aside("nothing has been heated that could soak");

/// Judged as hot as it gets while it drives.
const ONLY_COOLS: &str = "it only cools after the stop: what it gets to while it drives is judged there";

fn only_cools(at: &At) -> Outcome {
    let mut words = Words::default();
    if at.tells() {
        words.happens = ONLY_COOLS.into();
    }
    Outcome::Clear(words)
}

/// Driven for long enough to heat anything.
fn heats(at: &At) -> Found<bool> {
    let case = at.case()?;
    let on = at.try_part(&case.heat).copied().unwrap_or(true);
    let long = case.kind.heats() && !case.kind.starts_cold();
    Ok(on && (long || (case.kind.bursts() && at.try_get(&case.duration).is_some())))
}

/// The gear on the motor's shaft.
fn pinion(machine: &Machine) -> Option<&Gear> {
    match machine.powertrain.stages.first()? {
        Stage::Spur(stage) | Stage::Helical(stage) | Stage::Internal(stage) => Some(&stage.pinion),
        Stage::Planetary(stage) => Some(&stage.sun),
        Stage::Chain(_) | Stage::ToothedBelt(_) => None,
    }
}

fn mount(machine: &Machine) -> Option<&Named<Part>> {
    machine.powertrain.motor.mount.there().map(|mount| machine.follow(&mount.part))
}

fn touches(machine: &Machine, part: &Named<Part>) -> bool {
    !part.next_to.is_empty() || mount(machine).is_some_and(|mount| mount.id() == part.id())
}

fn known(course: &Found<Course>) -> Found<&Course> {
    course.as_ref().map_err(Clone::clone)
}

/// One limit and the course that comes near it.
pub(crate) struct Soaked<'m> {
    limit: ThermodynamicTemperature,
    node: NodeId,
    course: &'m Course,
}

impl Soaked<'_> {
    fn margin(&self, required: Required, consequence: Consequence) -> Margin {
        Margin::gap::<m::Temperature, m::TemperatureDifference>(
            self.course.peak().temperature,
            self.limit,
            TemperatureInterval::from_si(20.0),
            required,
            consequence,
        )
    }

    fn of_device(&self) -> Required {
        if self.course.is_measured() {
            Required { value: 5.0, why: "a thermometer set the estimate right" }
        } else {
            Required { value: 10.0, why: "how warm it gets is an estimate" }
        }
    }
}

fn magnets(at: &At) -> Found<Outcome> {
    if !heats(at)? {
        return Ok(COLD);
    }
    let limit = &at.machine().powertrain.motor.magnet_temperature_max;
    let course = known(&at.thermal()?.magnets)?;
    let soaked = Soaked { limit: at.need(limit)?, node: limit.id(), course };
    if course.peak().after == Time::ZERO {
        return Ok(only_cools(at));
    }
    let margin = soaked.margin(soaked.of_device(), Consequence::Stranded);
    Ok(Outcome::Held(margin.tell(at, |w| says::magnets(at, &soaked, w))))
}

fn controller(at: &At) -> Found<Outcome> {
    if !heats(at)? {
        return Ok(COLD);
    }
    let limit = &at.machine().powertrain.controller.temperature_max;
    let course = known(&at.thermal()?.controller)?;
    let soaked = Soaked { limit: at.need(limit)?, node: limit.id(), course };
    if course.peak().after == Time::ZERO {
        return Ok(only_cools(at));
    }
    let margin = soaked.margin(soaked.of_device(), Consequence::Stranded);
    Ok(Outcome::Held(margin.tell(at, |w| says::controller(at, &soaked, w))))
}

/// Where a material goes soft, and the figure that says so; nothing for what does not soften here.
fn softens(at: &At, material: &Material) -> Found<Option<(ThermodynamicTemperature, NodeId)>> {
    if matches!(material.family, Family::Metal | Family::Elastomer | Family::Wood) {
        return Ok(None);
    }
    match strength::softens(at, material) {
        Some(softens) => Ok(Some(softens)),
        None => Err(at.need(&material.heat_deflection).err().unwrap_or_else(unknown)),
    }
}

fn unknown() -> NotJudged {
    NotJudged::NoSolution("where its material goes soft is not known".into())
}

const STAYS_HARD: Outcome = Outcome::Aside("its material does not soften at such temperatures");

fn pinion_soft(at: &At, pinion: &Gear) -> Found<Outcome> {
    if !heats(at)? {
        return Ok(COLD);
    }
    let material = at.machine().follow(at.part(&pinion.material)?);
    let Some((limit, node)) = softens(at, material)? else { return Ok(STAYS_HARD) };
    let soaked = Soaked { limit, node, course: known(&at.thermal()?.magnets)? };
    let required = Required { value: 20.0, why: "it carries load" };
    let margin = soaked.margin(required, Consequence::RunOver);
    Ok(Outcome::Held(margin.tell(at, |w| says::pinion(at, pinion, &soaked, w))))
}

fn part_soft(at: &At, index: usize, part: &Named<Part>) -> Found<Outcome> {
    if !heats(at)? {
        return Ok(COLD);
    }
    let material = at.machine().follow(at.part(&part.material)?);
    let Some((limit, node)) = softens(at, material)? else { return Ok(STAYS_HARD) };
    let course = match at.thermal()?.parts.get(index) {
        Some(course) => known(course)?,
        None => return Err(NotJudged::NoSolution("this part is not worked out".into())),
    };
    let carries = mount(at.machine()).is_some_and(|mount| mount.id() == part.id());
    let required = if carries || !part.loads.is_empty() {
        Required { value: 20.0, why: "it carries load" }
    } else {
        Required { value: 10.0, why: "it carries no load" }
    };
    let consequence = if carries { Consequence::Stranded } else { Consequence::RunOver };
    let soaked = Soaked { limit, node, course };
    let margin = soaked.margin(required, consequence);
    Ok(Outcome::Held(margin.tell(at, |w| says::part(at, part, carries, &soaked, w))))
}
