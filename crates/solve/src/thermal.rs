//! Temperatures over time of motor, controller, cells and small devices: while the case lasts, and after it has stopped.
//!
//! A network of a few bodies, each of one temperature: winding, rotor, case, controller, cells, coolant. Linear, with the
//! loop's flow as it settles, so it is solved exactly. Left out, and on which side: a loop that is still cold and slow
//! cools less in the first minutes (cool side); plates, jackets and their films take no time to warm up (hot side); the
//! air of a zone is as warm from the start as after ten minutes, and stays so after stopping (hot side); no heat goes
//! through mounts and shafts (hot side for motor and controller, cool side for what they are mounted on); sun, and snow
//! on the things themselves. Where the pump stands, nothing passes through standing coolant (hot side). Small devices
//! follow the air round them at once.

mod bodies;
mod cells;
mod course;
mod feed;
mod loop_side;
mod machinery;
mod network;
mod readings;
#[cfg(test)]
mod tests;

use crate::at::At;
use bodies::Bodies;
pub use cells::Pack;
pub use course::{Course, Peak};
use machine::{CaseKind, Device, Found, Neighbour, Part};
use quantity::*;
use readings::Factors;

/// Courses of temperature in one case point.
#[derive(Debug, Clone)]
pub struct Thermal {
    pub winding: Found<Course>,
    /// The rotor, on which the magnets sit.
    pub magnets: Found<Course>,
    pub motor_case: Found<Course>,
    /// At its sensor.
    pub controller: Found<Course>,
    /// Where the maker means its limit.
    pub controller_quoted: Found<Course>,
    pub cells: Found<Course>,
    /// The pack as a body, for how its middle lags.
    pub pack: Found<Pack>,
    /// In the order of the machine's devices.
    pub devices: Vec<Found<Course>>,
    /// In the order of the machine's parts: the hottest place of each, where it touches what it stands next to.
    pub parts: Vec<Found<Course>>,
}

/// Whether things make heat in this case.
fn powered(at: &At) -> Found<bool> {
    let case = at.case()?;
    Ok(match at.try_part(&case.heat) {
        Some(heat) => *heat,
        None => !matches!(case.kind, CaseKind::Soak | CaseKind::BroughtIndoors),
    })
}

/// Works the courses out.
///
/// # Errors
/// The surroundings are not known, or the case before this one; what else is missing hides only what needs it.
pub(crate) fn solve(at: &At) -> Found<Thermal> {
    let factors = Factors::read(at);
    let bodies = Bodies::solve(at, &factors, at.machine().cases.len())?;
    let known = &bodies.known;
    let motor = |place| bodies.course(&known.motor, place, &factors.motor);
    let controller = bodies.course(&known.controller, bodies::CONTROLLER, &factors.controller);
    let controller_quoted = match (&controller, &known.controller) {
        (Ok(course), Ok(warmer)) => Ok(course.lifted(*warmer)),
        (Err(gap), _) | (_, Err(gap)) => Err(gap.clone()),
    };
    let cells = bodies.course(&known.cells, bodies::CELLS, &factors.cells);
    let motor_case = motor(bodies::CASE);
    let beside = Beside { motor: &motor_case, controller: &controller, cells: &cells };
    let machine = at.machine();
    let devices = machine.devices.iter().map(|device| beside.device(at, device)).collect();
    let parts = machine.structure.parts.iter().map(|part| beside.part(at, part, part.name())).collect();
    Ok(Thermal {
        winding: motor(bodies::WINDING),
        magnets: motor(bodies::ROTOR),
        controller_quoted,
        pack: known.cells.clone(),
        devices,
        parts,
        motor_case,
        controller,
        cells,
    })
}

/// What other things stand next to.
struct Beside<'a> {
    motor: &'a Found<Course>,
    controller: &'a Found<Course>,
    cells: &'a Found<Course>,
}

impl Beside<'_> {
    fn of(&self, neighbour: Neighbour) -> Found<Course> {
        match neighbour {
            Neighbour::Motor => self.motor,
            Neighbour::Controller => self.controller,
            Neighbour::Battery => self.cells,
        }
        .clone()
    }

    fn device(&self, at: &At, device: &Device) -> Found<Course> {
        let around = match at.try_part(&device.next_to) {
            Some(neighbour) => self.of(*neighbour)?,
            None => {
                let air = at.surroundings()?.air(at, at.part_or(&device.zone, "the outside air"))?;
                Course::level(air)
            }
        };
        match at.try_get(&device.heat) {
            Some(heat) if heat.si() > 0.0 && powered(at)? => {
                Ok(around.lifted(heat.si() * at.need(&device.to_air)?.si()))
            }
            _ => Ok(around),
        }
    }

    /// Where a part touches several things, the hottest counts.
    fn part(&self, at: &At, part: &Part, name: &str) -> Found<Course> {
        let machine = at.machine();
        let mount = at.try_part(&machine.powertrain.motor.mount).map(|mount| machine.follow(&mount.part).name());
        let on_motor = (mount == Some(name)).then_some(Neighbour::Motor);
        let mut hottest: Option<Course> = None;
        for neighbour in part.next_to.iter().copied().chain(on_motor) {
            let course = self.of(neighbour)?;
            if hottest.as_ref().is_none_or(|hottest| course.hottest() > hottest.hottest()) {
                hottest = Some(course);
            }
        }
        if let Some(course) = hottest {
            return Ok(course);
        }
        let zone = match (at.try_part(&part.zone), &part.mounted_on) {
            (None, Some(carrier)) => {
                let carrier = machine.follow(carrier);
                at.try_part(&carrier.zone)
            }
            (zone, _) => zone,
        };
        at.surroundings()?.air(at, zone).map(Course::level)
    }
}
