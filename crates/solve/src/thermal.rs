//! Temperatures over time of motor, controller, cells and small devices: while the case lasts, and after it has stopped.
//!
//! A network of a few bodies, each of one temperature: winding, rotor, case, controller, and the coolant behind each face
//! that cools one of them; the pack of cells by itself. Between body and coolant stand the contact and the coolant's film,
//! so that no wetted wall is hotter than what heats it. Linear, with the
//! loop's flow as it settles, so it is solved exactly. Left out, and on which side: a loop that is still cold and slow
//! cools less in the first minutes (cool side); plates and jackets take no time to warm up (hot side); the
//! air of a zone is as warm from the start as after ten minutes, and stays so after stopping (hot side); no heat goes
//! through mounts and shafts (hot side for motor and controller, cool side for what they are mounted on); sun, and snow
//! on the things themselves. Where the pump stands, nothing passes through standing coolant (hot
//! side); one that waits for warm coolant turns now and then and keeps heated places that warm. Small devices
//! follow the air round them at once, but for the warm-up in a room.

mod around;
mod bodies;
mod course;
#[cfg(test)]
mod downhill;
mod feed;
pub mod hub;
mod loop_side;
mod machinery;
mod network;
pub(crate) mod pack;
mod readings;
#[cfg(test)]
mod tests;

use crate::at::{At, Solve};
use crate::drive;
use crate::point::CasePoint;
use bodies::{Bodies, body_of};
pub use course::{Course, Peak};
use loop_side::Face;
pub use loop_side::film;
use machine::{Case, CaseKind, Cooled, Device, Found, Neighbour, Part, Ref};
use network::of;
pub use pack::Pack;
use quantity::*;
use readings::Factors;

/// A case without an end is looked at as closely as one of this length, s.
const STEADY: f64 = 1800.0;
/// How closely the time after stopping is looked at, s.
const SOAK: f64 = 3600.0;

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
    /// In the order of the machine's devices.
    pub devices: Vec<Found<Course>>,
    /// In the order of the machine's parts: the hottest place of each, where it touches what it stands next to.
    pub parts: Vec<Found<Course>>,
    /// In the order of the machine's circuit: the hottest wetted wall of what cools motor or controller with coolant in flow;
    /// nothing for the others, whose walls the loop knows.
    pub walls: Vec<Option<Found<Course>>>,
    /// Where it settles: heat and temperatures at each of those walls, and of the whole network.
    pub settled: Option<Settled>,
}

/// All heat where it has settled.
#[derive(Debug, Clone, PartialEq)]
pub struct Settled {
    pub faces: Vec<Faced>,
    /// Heat put in minus heat given off, over what is put in.
    pub imbalance: f64,
}

/// One face that cools a body.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Faced {
    /// In the machine's circuit.
    pub element: usize,
    pub body: ThermodynamicTemperature,
    pub wall: ThermodynamicTemperature,
    /// As it leaves.
    pub coolant: ThermodynamicTemperature,
    /// Into the coolant, as it carries it away.
    pub heat: Power,
    /// From the body to the wall, and from the wall to the coolant.
    pub contact: ThermalConductance,
    pub film: ThermalConductance,
}

/// Whether things make heat in this case.
fn powered(at: &At) -> Found<bool> {
    let case = at.case()?;
    Ok(match at.try_part(&case.heat) {
        Some(heat) => *heat,
        None => !matches!(case.kind, CaseKind::Soak | CaseKind::BroughtIndoors),
    })
}

/// How long the case lasts: as it says, else until the pack is empty; nothing where neither is known.
fn lasts(at: &At) -> Found<Option<Time>> {
    let case = at.case()?;
    if case.kind == CaseKind::BroughtIndoors {
        return Ok(at.try_get(&case.wait));
    }
    if case.kind == CaseKind::ColdStart {
        return Ok(Some(at.or_take(&case.duration, Time::from_si(60.0), "1 min")));
    }
    if let Some(duration) = drive::seconds(at)? {
        return Ok(Some(duration));
    }
    if !powered(at)? {
        return Ok(None);
    }
    let Some(capacity) = at.try_get(&at.machine().powertrain.battery.capacity) else { return Ok(None) };
    let current = at.drive().map_or(0.0, |drive| drive.battery_current.si());
    Ok((current > 0.0).then(|| Time::from_si(capacity.si() / current)))
}

/// As cold as the air in which a machine stood before it was brought in: that of the case before, else the coldest; in all
/// other cases as cold as the air now.
fn soaked(at: &At) -> Found<ThermodynamicTemperature> {
    let case = at.case()?;
    if case.kind != CaseKind::BroughtIndoors {
        return Ok(at.surroundings()?.outside);
    }
    match at.try_part(&case.after) {
        Some(previous) => at.elsewhere(point_of(at, previous), |then| Ok(then.surroundings()?.outside)),
        None => at.need(&at.machine().environment.air.low),
    }
}

/// The same place between coldest and hottest in another case.
fn point_of(at: &At, case: &Ref<Case>) -> CasePoint {
    let name = at.machine().follow(case).name();
    let index = at.machine().cases.iter().position(|each| each.name() == name).unwrap_or(usize::MAX);
    CasePoint { case: index, share: at.point().share }
}

impl Solve for Thermal {
    fn solve(at: &At) -> Found<Self> {
        solve(at)
    }
}

impl<'a> At<'a> {
    /// Temperatures over time of motor, controller and devices.
    ///
    /// # Errors
    /// As worked out: a gap, a range, or its own reason.
    pub fn thermal(&self) -> Found<&'a Thermal> {
        self.ask()
    }
}

/// Works the courses out.
///
/// # Errors
/// The surroundings are not known, or the case before this one; what else is missing hides only what needs it.
fn solve(at: &At) -> Found<Thermal> {
    let factors = Factors::read(at);
    let bodies = Bodies::solve(at, &factors, at.machine().cases.len())?;
    let known = &bodies.known;
    let motor = |place| bodies.course(&known.motor, place, &factors.motor);
    let controller = match drive::read_off(at, Cooled::Controller)? {
        Some(ends) => Ok(Course::read_off(ends.lowest, ends.highest)),
        None => bodies.course(&known.controller, bodies::CONTROLLER, &factors.controller),
    };
    let controller_quoted = match (&controller, &known.controller) {
        (Ok(course), Ok(warmer)) => Ok(course.lifted(*warmer)),
        (Err(gap), _) | (_, Err(gap)) => Err(gap.clone()),
    };
    let motor_case = match drive::read_off(at, Cooled::Motor)? {
        Some(ends) => Ok(Course::read_off(ends.lowest, ends.highest)),
        None => motor(bodies::CASE),
    };
    let beside = Beside { bodies: &bodies, motor: &motor_case, controller: &controller };
    let machine = at.machine();
    let devices = machine.devices.iter().map(|device| beside.device(at, device)).collect();
    let parts = machine.structure.parts.iter().map(|part| beside.part(at, part, part.name())).collect();
    let walls = walls(at, &bodies, &motor_case, &controller);
    let settled = settled(&bodies);
    Ok(Thermal {
        walls,
        settled,
        winding: motor(bodies::WINDING),
        magnets: motor(bodies::ROTOR),
        controller_quoted,
        devices,
        parts,
        motor_case,
        controller,
    })
}

fn walls(at: &At, bodies: &Bodies, motor: &Found<Course>, controller: &Found<Course>) -> Vec<Option<Found<Course>>> {
    let mut walls = vec![None; at.machine().cooling.circuit.len()];
    for face in &bodies.faces {
        let body = if face.cools == Cooled::Motor { motor } else { controller };
        let share = face.contact / (face.contact + face.film);
        let wall = body.as_ref().map_err(Clone::clone).map(|body| {
            // Where the body itself was read off, it bounds what was worked out.
            let wall = bodies.runs.between(body_of(face.cools), face.place, share);
            if body.is_measured() { wall.capped(body) } else { wall }
        });
        if let Some(place) = walls.get_mut(face.element) {
            *place = Some(wall);
        }
    }
    walls
}

fn settled(bodies: &Bodies) -> Option<Settled> {
    let (balance, state) = (bodies.balance.as_ref()?, bodies.runs.driven.settled.as_ref()?);
    let kelvin = |above: f64| ThermodynamicTemperature::from_si(bodies.runs.outside + above);
    let known = |face: &&Face| match face.cools {
        Cooled::Motor => bodies.known.motor.is_ok(),
        _ => bodies.known.controller.is_ok(),
    };
    let faces = bodies.faces.iter().filter(known).map(|face| {
        let (body, coolant) = (of(state, body_of(face.cools)), of(state, face.place));
        let share = face.contact / (face.contact + face.film);
        Faced {
            element: face.element,
            body: kelvin(body),
            wall: kelvin(body + share * (coolant - body)),
            coolant: kelvin(coolant),
            heat: Power::from_si(balance.carried(face.place)),
            contact: ThermalConductance::from_si(1.0 / face.contact),
            film: ThermalConductance::from_si(1.0 / face.film),
        }
    });
    Some(Settled { faces: faces.collect(), imbalance: balance.imbalance() })
}

/// What other things stand next to.
struct Beside<'a> {
    bodies: &'a Bodies,
    motor: &'a Found<Course>,
    controller: &'a Found<Course>,
}

impl Beside<'_> {
    fn of(&self, at: &At, neighbour: Neighbour) -> Found<Course> {
        match neighbour {
            Neighbour::Motor => self.motor.clone(),
            Neighbour::Controller => self.controller.clone(),
            Neighbour::Battery => at.pack().map(|pack| pack.course.clone()),
        }
    }

    fn device(&self, at: &At, device: &Device) -> Found<Course> {
        let around = match at.try_part(&device.next_to) {
            Some(neighbour) => self.of(at, *neighbour)?,
            None if at.case()?.kind == CaseKind::BroughtIndoors => return self.warming(at, device),
            None => {
                let air = at.surroundings()?.air(at, at.part_or(&device.zone, "the outside air"))?;
                Course::level(air)
            }
        };
        if !powered(at)? {
            return Ok(around);
        }
        Ok(match at.try_get(&device.heat) {
            Some(heat) if heat.si() > 0.0 => around.lifted(heat.si() * at.need(&device.to_air)?.si()),
            Some(_) => around,
            // Nothing that works is cold: a figure stands in until somebody says that it makes none.
            None => {
                at.or_take(&device.heat, Power::ZERO, "what warms it by the assumed device_rise");
                around.lifted(at.need(&at.assumed().device_rise)?.si())
            }
        })
    }

    /// A cold device in a warm room.
    fn warming(&self, at: &At, device: &Device) -> Found<Course> {
        let capacity = at.need(&device.mass)?.si() * at.need(&at.assumed().controller_heat_capacity)?.si();
        let own = at.need(&device.to_air)?.si();
        let zone = at.part_or(&device.zone, "the outside air");
        self.bodies.alone(at, zone, capacity, own)
    }

    /// Where a part touches several things, the hottest counts.
    fn part(&self, at: &At, part: &Part, name: &str) -> Found<Course> {
        let machine = at.machine();
        let mount = at.try_part(&machine.powertrain.motor.mount).map(|mount| machine.follow(&mount.part).name());
        let on_motor = (mount == Some(name)).then_some(Neighbour::Motor);
        let mut hottest: Option<Course> = None;
        for neighbour in part.next_to.iter().copied().chain(on_motor) {
            let course = self.of(at, neighbour)?;
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
