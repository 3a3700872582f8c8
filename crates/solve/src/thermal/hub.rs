//! The hub of a gear of polymer: shaft and insert, the body round them, and the bearing beside.
//!
//! Three bodies of one temperature each, from the air outside on. Left out, and on which side: what a case before has
//! left warm (cool side); heat that a bearing further off makes (cool side, about a watt); infill, which insulates a
//! little more than solid polymer (cool side); air that a narrow case keeps still beside the wheel (cool side).

use super::course::{Course, Runs};
use super::network::{Network, even};
use super::readings::factor;
use super::{SOAK, STEADY, lasts, powered};
use crate::at::At;
use crate::drive::outside;
use crate::gears::{Load, Pair, Side, pairs};
use crate::strength::hard;
use machine::{
    Bearing, Found, Gear, HubForm, JournalFit, Material, Named, NotJudged, RollingBearing, Shaft, Stage, Station,
};
use physics::bearing::{frictional_heat, rubbing_speed};
use physics::heat::{conduction, film_coefficient, outside as film};
use physics::rolling;
use quantity::{Bearing as Size, *};
use std::f64::consts::FRAC_PI_4;

const HUB: usize = 1;
const BODY: usize = 2;
const RING: usize = 3;
const PLACES: usize = 4;

/// Room beside a wheel's face that is enough for play, growth and a shaft that bends; common practice, no source.
pub const LEAST_CLEARANCE: f64 = 0.3e-3;
/// Of a motor's steel shaft, W/(m·K); from memory.
const STEEL: f64 = 45.0;
/// Of metals, J/(m³·K), steel and aluminium between 2.4 and 3.6 million; from memory.
const METAL: f64 = 3.0e6;

/// How warm the polymer at the insert gets, and by what.
#[derive(Debug, Clone)]
pub struct Hub {
    pub course: Course,
    pub heats: Heats,
}

/// Heat of each source while the case lasts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heats {
    /// A face that has no room beside it.
    pub rubbing: Power,
    pub bearing: Power,
    /// A shaft that turns in the ring of a bearing too stiff to turn.
    pub journal: Power,
    /// This gear's half of the mesh.
    pub mesh: Power,
}

/// A bearing on the gear's shaft, and how far from the hub.
struct Beside<'a> {
    bearing: &'a RollingBearing,
    size: Size,
    away: Length,
}

/// Everything that a run needs.
struct Drawn<'a> {
    load: Load,
    speed: AngularVelocity,
    material: &'a Named<Material>,
    /// Diameters where the polymer begins, and of the pitch circle.
    inner: Length,
    outer: Length,
    width: Length,
    shaft: Shafted<'a>,
    air: ThermodynamicTemperature,
}

/// What the gear sits on.
enum Shafted<'a> {
    /// The motor's own shaft, of a diameter.
    Motor(Length),
    On {
        shaft: &'a Named<Shaft>,
        diameter: Length,
        beside: Vec<Beside<'a>>,
    },
}

/// Works a hub out.
///
/// # Errors
/// A gap. A gear of metal has no hub that could soften: ask of polymers only.
pub fn hub<'a>(at: &At<'a>, pair: &Pair<'a>, side: Side) -> Found<Option<Hub>> {
    if pair.load(at)?.is_none() || !powered(at)? {
        return Ok(None);
    }
    let factor = match at.try_part(&pair.gear(side).hub) {
        Some(hub) => Some(factor(at, &hub.after_run, |then, heat| {
            let Some(pair) = pairs(then.machine()).find(|there| there.index == pair.index) else { return Ok(0.0) };
            let Some(drawn) = Drawn::read(then, &pair, side)? else { return Ok(0.0) };
            let (runs, _) = drawn.follow(then, &pair, side, heat)?;
            Ok(runs.course(HUB).end().si() - runs.outside)
        })?),
        None => None,
    };
    let Some(drawn) = Drawn::read(at, pair, side)? else { return Ok(None) };
    let (runs, heats) = drawn.follow(at, pair, side, factor.map_or(1.0, |factor| factor.heat))?;
    let course = runs.course(HUB);
    let course = factor.map_or(course.clone(), |factor| factor.told(course, runs.outside));
    Ok(Some(Hub { course, heats }))
}

impl<'a> Drawn<'a> {
    fn read(at: &At<'a>, pair: &Pair<'a>, side: Side) -> Found<Option<Self>> {
        let Some(load) = pair.load(at)? else { return Ok(None) };
        let gear = pair.gear(side);
        let speed = match side {
            Side::Pinion => load.pinion_speed,
            Side::Wheel => load.wheel_speed,
        };
        let shaft = Shafted::read(at, pair, side)?;
        let width = pair.face_width(at, side)?;
        let outer = pair.body(at, side)?.reference_diameter();
        let inner = inner(at, gear, &shaft)?;
        if !(inner < outer && inner.si() > 0.0) {
            return Err(NotJudged::NoSolution("the gear is no larger than its own hub".into()));
        }
        let material = pair.material(at, side)?;
        Ok(Some(Self { load, speed, material, inner, outer, width, shaft, air: pair.air(at)? }))
    }

    /// Over time, with its heat times a factor.
    fn follow(&self, at: &At, pair: &Pair<'_>, side: Side, factor: f64) -> Found<(Runs, Heats)> {
        let outside = at.surroundings()?.outside.si();
        let heats = self.heats(at, pair, side)?;
        let turning = self.network(at, self.film(at, self.speed)?)?;
        let stopped = self.network(at, at.need(&at.assumed().still_air)?.si())?;
        let mut driven = turning;
        // A rubbing face shares its heat with the ring.
        let half = 0.5 * heats.rubbing.si();
        let ring = if self.shaft.nearest().is_some() { RING } else { HUB };
        driven.heat(HUB, factor * half);
        driven.heat(ring, factor * (half + heats.bearing.si() + heats.journal.si()));
        driven.heat(BODY, factor * heats.mesh.si());
        let first = even(PLACES, 0.0);
        let lasts = lasts(at)?;
        let driven = driven.run(first, lasts.map_or(STEADY, Quantity::si));
        let end = driven.end(lasts.is_some());
        let runs = Runs { outside, stopped: stopped.run(end, SOAK), driven, lasts: lasts.is_some() };
        Ok((runs, heats))
    }

    /// Bodies and what passes between them, with a coefficient to the air.
    fn network(&self, at: &At, film: f64) -> Found<Network> {
        let (outside, material) = (at.surroundings()?.outside.si(), self.material);
        let air = self.air.si() - outside;
        let mut network = Network::new(PLACES);
        let (inner, outer, width) = (self.inner.si(), self.outer.si(), self.width.si());
        network.body(HUB, METAL * FRAC_PI_4 * inner * inner * width);
        let volume = FRAC_PI_4 * (outer * outer - inner * inner) * width;
        let stored = at.need(&material.density)?.si() * at.need(&material.heat_capacity)?.si();
        network.body(BODY, stored * volume);
        let middle = Length::from_si(0.5 * (inner + outer));
        let across = conduction::ring(at.need(&material.conductivity)?, self.inner, middle, self.width).si();
        network.link(HUB, BODY, across);
        network.held(BODY, film * 2.0 * FRAC_PI_4 * (outer * outer - inner * inner), air);
        let shaft = self.shaft.diameter().si();
        network.held(HUB, film * 2.0 * FRAC_PI_4 * (inner * inner - shaft * shaft).max(0.0), air);
        match &self.shaft {
            Shafted::Motor(diameter) => {
                let rotor = at.thermal()?.magnets.as_ref().map_err(Clone::clone)?.hottest().si() - outside;
                let section = Area::from_si(FRAC_PI_4 * diameter.si().powi(2));
                let length = at.need(&at.assumed().hub_to_bearing)?;
                network.held(HUB, conduction::rod(ThermalConductivity::from_si(STEEL), section, length).si(), rotor);
            }
            Shafted::On { shaft, diameter, beside } => {
                let bore = at.or_take(&shaft.bore, Length::from_si(0.0), "solid").si();
                let section = Area::from_si(FRAC_PI_4 * (diameter.si().powi(2) - bore * bore).max(0.0));
                let metal = at.machine().follow(at.part(&shaft.material)?);
                let conductivity = at.need(&metal.conductivity)?;
                for (place, bearing) in beside.iter().enumerate() {
                    let rod = conduction::rod(conductivity, section, bearing.away).si();
                    let out = bearing.way_out(at)?;
                    if place == 0 {
                        network.body(RING, bearing.stores());
                        network.link(HUB, RING, rod);
                        network.held(RING, 1.0 / out, air);
                    } else {
                        network.held(HUB, 1.0 / (1.0 / rod + out), air);
                    }
                }
            }
        }
        Ok(network)
    }

    /// From a turning wheel's faces to the air, W/(m²·K); never less than from one that stands still.
    fn film(&self, at: &At, speed: AngularVelocity) -> Found<f64> {
        use physics::air;
        let radius = self.outer.si() / 2.0;
        let density = air::density(self.air, at.surroundings()?.pressure).si();
        let reynolds = speed.si() * radius * radius * density / air::viscosity(self.air).si();
        // Beyond its range it is cooled at least as well as at its end.
        let nusselt = film::turning_disc(reynolds.min(2.4e5), air::prandtl(self.air)).map_err(outside)?;
        let turning = film_coefficient(nusselt, air::conductivity(self.air), Length::from_si(radius)).si();
        Ok(turning.max(at.need(&at.assumed().still_air)?.si()))
    }

    fn heats(&self, at: &At, pair: &Pair<'_>, side: Side) -> Found<Heats> {
        let (gear, assumed) = (pair.gear(side), at.assumed());
        let torque = match side {
            Side::Pinion => self.load.pinion,
            Side::Wheel => self.load.wheel,
        };
        let angle = at.or(&pair.stage.pressure_angle, &assumed.pressure_angle)?.si();
        // Two bearings share what the teeth push with.
        let force = Force::from_si(0.5 * torque.si() / (self.outer.si() / 2.0) / angle.cos());
        let loss = at.drive()?.stages.get(pair.index).map_or(0.0, |stage| stage.loss.si());
        let meshes = if side == Side::Pinion { self.load.meshes } else { 1.0 };
        let mut heats = Heats {
            rubbing: Power::ZERO,
            bearing: Power::ZERO,
            journal: Power::ZERO,
            mesh: Power::from_si(0.5 * loss / meshes),
        };
        let friction = at.or(&self.material.friction, &assumed.dry_friction)?;
        let nearest = self.shaft.nearest();
        if at.need(&gear.side_clearance)?.si() < LEAST_CLEARANCE {
            let at_diameter = nearest.map_or(self.inner, |beside| beside.mean());
            heats.rubbing =
                frictional_heat(friction, at.need(&assumed.rubbing_force)?, rubbing_speed(self.speed, at_diameter));
        }
        let Some(beside) = nearest else { return Ok(heats) };
        heats.bearing = rolling::heat(beside.moment(at, force, self.speed)?, self.speed);
        let journal = at.or_word(&beside.bearing.journal, JournalFit::Press, "press");
        if journal == JournalFit::Slides && at.surroundings()?.outside < at.need(&beside.bearing.grease_from)? {
            let slides = at.need(&assumed.dry_friction)?;
            heats.journal = frictional_heat(slides, force, rubbing_speed(self.speed, self.shaft.diameter()));
        }
        Ok(heats)
    }
}

/// Diameter where the polymer begins: round an insert, or on the shaft itself.
fn inner(at: &At, gear: &Gear, shaft: &Shafted<'_>) -> Found<Length> {
    match at.part_or(&gear.hub, "solid") {
        Some(hub) if hub.form != HubForm::Solid => at.need(&hub.outer_diameter),
        _ => Ok(at.try_get(&gear.bore).unwrap_or(shaft.diameter())),
    }
}

impl<'a> Shafted<'a> {
    fn read(at: &At<'a>, pair: &Pair<'a>, side: Side) -> Found<Self> {
        let train = &at.machine().powertrain;
        let turned_by = match side {
            Side::Wheel => Some(pair.stage.name.as_str()),
            Side::Pinion => pair.index.checked_sub(1).and_then(|before| train.stages.get(before)).map(Stage::name),
        };
        let Some(turned_by) = turned_by else { return Ok(Self::Motor(at.need(&pair.gear(side).bore)?)) };
        let shafts = || train.shafts.iter();
        let Some(shaft) = shafts().find(|shaft| at.try_part(&shaft.turned_by).is_some_and(|by| by == turned_by)) else {
            // One that does not say it may be the one.
            if let Some(silent) = shafts().find(|shaft| shaft.turned_by.there().is_none()) {
                at.part(&silent.turned_by)?;
            }
            return Err(NotJudged::NoSolution(format!("no shaft is turned by stage {turned_by}")));
        };
        let of = |station: &'a Station| match side {
            Side::Wheel => &station.wheel_of,
            Side::Pinion => &station.pinion_of,
        };
        let here = shaft.stations.iter().find(|station| at.try_part(of(station)) == Some(&pair.stage.name));
        // A station of nothing else may be the one.
        let silent = shaft.stations.iter().find(|station| station.bearing.is_none());
        if let Some(silent) = silent.filter(|_| here.is_none()) {
            at.part_or(of(silent), "not here, but beside a bearing");
        }
        let here = here.and_then(|station| at.try_get(&station.x));
        let mut beside = Vec::new();
        for station in &shaft.stations {
            let Some(bearing) = station.bearing.as_ref().map(|bearing| at.machine().follow(bearing)) else { continue };
            let Bearing::Rolling(rolling) = &bearing.value else { continue };
            let size = read_bearing(&rolling.size).map_err(|misread| NotJudged::NoSolution(misread.says))?;
            let away = match (here, at.try_get(&station.x)) {
                (Some(here), Some(there)) if here != there => (here - there).abs(),
                _ => at.need(&at.assumed().hub_to_bearing)?,
            };
            beside.push(Beside { bearing: rolling, size, away });
        }
        beside.sort_by(|a, b| a.away.si().total_cmp(&b.away.si()));
        Ok(Self::On { shaft, diameter: at.need(&shaft.diameter)?, beside })
    }

    fn diameter(&self) -> Length {
        match self {
            Self::Motor(diameter) | Self::On { diameter, .. } => *diameter,
        }
    }

    fn nearest(&self) -> Option<&Beside<'a>> {
        match self {
            Self::Motor(_) => None,
            Self::On { beside, .. } => beside.first(),
        }
    }
}

impl Beside<'_> {
    fn mean(&self) -> Length {
        Length::from_si(0.5 * (self.size.bore.si() + self.size.outer.si()))
    }

    /// J/K of its inner ring with half of the balls.
    fn stores(&self) -> f64 {
        let (bore, outer) = (self.size.bore.si(), self.size.outer.si());
        0.35 * METAL * FRAC_PI_4 * (outer * outer - bore * bore) * self.size.width.si()
    }

    /// Through balls and seat to the air, K/W.
    fn way_out(&self, at: &At) -> Found<f64> {
        let assumed = at.assumed();
        let seat = at.machine().follow(&at.part(&self.bearing.seat)?.part);
        let material = at.machine().follow(at.part(&seat.material)?);
        let seat = if hard(material) { &assumed.seat_of_metal } else { &assumed.seat_of_polymer };
        Ok(at.need(&assumed.bearing_across)?.si() + at.need(seat)?.si())
    }

    fn moment(&self, at: &At, load: Force, speed: AngularVelocity) -> Found<Torque> {
        let viscosity = at.need(&at.assumed().grease_viscosity)?;
        let moment = rolling::load_moment(Ratio::from_si(rolling::FRICTION), load, self.size.bore)
            + rolling::lubricant_moment(rolling::GREASED, viscosity, speed, self.mean());
        let lips = if self.size.seal == Seal::Lip { f64::from(self.size.closed_sides) / 2.0 } else { 0.0 };
        Ok(moment + rolling::lip_moment(self.size.bore, self.size.outer) * lips)
    }
}
