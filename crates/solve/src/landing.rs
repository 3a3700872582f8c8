//! Falling on the suspension: travel and forces of each corner.

mod course;
mod fall;
#[cfg(test)]
mod tests;

pub use course::{Course, Moment, Room, course, room, viscosity};

use crate::at::{At, Solve};
use crate::drive::{driven_mass, outside};
use fall::{Elastomer, NoEnd, Oil, Stop, Support};
use machine::{
    Attitude, BumpStop, CaseKind, Corner, Damper, Found, Named, NotJudged, OilDamper, OilKind, Scale, Spring,
    SpringEnds, Surface,
};
use quantity::*;
use std::f64::consts::PI;

#[derive(Debug, Clone, PartialEq)]
pub struct Landing {
    pub impact_speed: Velocity,
    /// In the order of the machine's corners; a corner that this attitude does not load has zeros.
    pub corners: Vec<Found<CornerLanding>>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct CornerLanding {
    /// At the damper, from the fully extended position, static sag included; past the stop it counts what the structure gives.
    pub damper_travel: Length,
    /// Static sag at the damper.
    pub sag: Length,
    /// Highest force of one spring, stop and damper together, at the damper.
    pub force: Force,
    /// Force of the stop alone at the deepest point.
    pub stop_force: Force,
    pub bottomed: bool,
    /// Highest deceleration of the sprung mass.
    pub deceleration: Acceleration,
    /// The damper's oil is colder than its pour point: it was left out here, and may as well hold the corner rigid.
    pub damper_gelled: bool,
}

impl Solve for Landing {
    fn solve(at: &At) -> Found<Self> {
        solve(at)
    }
}

impl<'a> At<'a> {
    /// Travel and forces of each corner in a landing.
    ///
    /// # Errors
    /// As worked out: a gap, a range, or its own reason.
    pub fn landing(&self) -> Found<&'a Landing> {
        self.ask()
    }
}

/// Works the landing out.
///
/// # Errors
/// The case is no landing, or a gap.
fn solve(at: &At) -> Found<Landing> {
    let case = at.case()?;
    if case.kind != CaseKind::Landing {
        return Err(NotJudged::NoSolution("this case is no landing".into()));
    }
    let (impact_speed, attitude) = impact(at)?;
    let corners = at.machine().suspension.iter().map(|corner| land(at, corner, attitude, impact_speed)).collect();
    Ok(Landing { impact_speed, corners })
}

fn impact(at: &At) -> Found<(Velocity, Attitude)> {
    let case = at.case()?;
    let drop = match (at.try_get(&case.drop), at.try_get(&case.airtime)) {
        (Some(drop), _) => drop,
        (None, Some(airtime)) => physics::landing::drop_from_airtime(airtime),
        (None, None) => at.need(&case.drop)?,
    };
    let attitude = at.or_word(&case.attitude, Attitude::Level, "level");
    Ok((physics::landing::impact_speed(drop), attitude))
}

fn unloaded() -> CornerLanding {
    CornerLanding {
        damper_travel: Length::ZERO,
        sag: Length::ZERO,
        force: Force::ZERO,
        stop_force: Force::ZERO,
        bottomed: false,
        deceleration: Acceleration::ZERO,
        damper_gelled: false,
    }
}

/// Lowest and highest position of all corners.
fn ends(at: &At) -> Found<(f64, f64)> {
    let mut ends = (f64::INFINITY, f64::NEG_INFINITY);
    for corner in &at.machine().suspension {
        let x = at.need(&corner.position)?.si();
        ends = (ends.0.min(x), ends.1.max(x));
    }
    Ok(ends)
}

/// Mass that comes down on one spring of a corner, its unsprung share taken off; nothing where the attitude spares it.
fn mass_on(at: &At, corner: &Corner, attitude: Attitude) -> Found<Option<Mass>> {
    let each = at.need(&corner.sprung_mass_each)?;
    if attitude == Attitude::Level {
        return Ok(Some(each));
    }
    let ((rear, front), x) = (ends(at)?, at.need(&corner.position)?.si());
    let spared = match attitude {
        Attitude::Inverted => true,
        Attitude::Tail => x > rear,
        Attitude::Nose => x < front,
        Attitude::Level | Attitude::OneCorner => false,
    };
    if spared {
        return Ok(None);
    }
    let about = &at.machine().machine;
    let gyration = match at.try_get(&about.pitch_gyration) {
        Some(gyration) => gyration,
        // One corner alone has no length that a share could be taken of.
        None if front <= rear => at.need(&about.pitch_gyration)?,
        None => Length::from_si(at.need(&at.assumed().gyration_share)?.si() * (front - rear)),
    };
    let beside = Length::from_si(x - at.need(&about.centre_of_gravity.x)?.si());
    let whole = physics::landing::effective_mass(driven_mass(at)?, gyration, beside);
    let share = if attitude == Attitude::OneCorner { whole } else { whole / at.need(&corner.count)? };
    let sprung = share - at.need(&corner.unsprung_mass_each)?;
    if sprung.si() > 0.0 {
        return Ok(Some(sprung));
    }
    Err(NotJudged::NoSolution("less mass comes down on this corner than its unsprung parts weigh".into()))
}

fn land(at: &At, corner: &Named<Corner>, attitude: Attitude, speed: Velocity) -> Found<CornerLanding> {
    let Some(one) = falling(at, corner, attitude, speed)? else { return Ok(unloaded()) };
    let peak = one.stiffer(1.0).come_down().map_err(|_: NoEnd| no_end(corner))?;
    let end = at.need(&corner.damper_travel)?.si();
    Ok(CornerLanding {
        damper_travel: Length::from_si(peak.travel),
        sag: Length::from_si(sag(at, corner)?.si().min(end)),
        force: Force::from_si(peak.force),
        stop_force: Force::from_si(peak.stop_force),
        bottomed: peak.stop_force > 0.0,
        deceleration: Acceleration::from_si(peak.deceleration),
        damper_gelled: one.gelled,
    })
}

impl At<'_> {
    /// The least and the deepest travel of a corner in a landing with mount and ground twice as stiff, and half; nothing where
    /// the landing spares the corner. Either may be the deeper one, for a wheel that rings on its ground can come up as the
    /// spring goes down. Kept nowhere.
    ///
    /// # Errors
    /// As [`Self::landing`].
    pub fn travel_band(&self, corner: &Named<Corner>) -> Found<Option<(Length, Length)>> {
        travel_band(self, corner)
    }
    /// Rate of a spring, as measured or from wire, coil and material.
    ///
    /// # Errors
    /// A gap.
    pub fn spring_rate(&self, spring: &Spring) -> Found<SpringRate> {
        spring_rate(self, spring)
    }
}

/// The band of a guessed compliance, see [`At::travel_band`].
fn travel_band(at: &At, corner: &Named<Corner>) -> Found<Option<(Length, Length)>> {
    let (speed, attitude) = impact(at)?;
    let Some(one) = falling(at, corner, attitude, speed)? else { return Ok(None) };
    let travel = |stiffer: f64| match one.stiffer(stiffer).come_down() {
        Ok(peak) => Ok(peak.travel),
        Err(NoEnd) => Err(no_end(corner)),
    };
    let (stiff, soft) = (travel(2.0)?, travel(0.5)?);
    Ok(Some((Length::from_si(stiff.min(soft)), Length::from_si(stiff.max(soft)))))
}

/// A corner that comes down, and what carries it.
#[derive(Debug)]
struct Falling {
    one: fall::Corner,
    ground: f64,
    /// The oil no longer flows: the damper is left out.
    gelled: bool,
}

impl Falling {
    /// With mount and ground so many times as stiff.
    fn stiffer(&self, times: f64) -> fall::Corner {
        let one = self.one;
        let stops = one.stops.map(|stop| stop.map(|stop| Stop { mount: stop.mount * times, ..stop }));
        fall::Corner { stops, support: Support::of(self.ground * times, one.rate * one.ratio * one.ratio), ..one }
    }
}

fn no_end(corner: &Named<Corner>) -> NotJudged {
    let name = corner.name();
    NotJudged::NoSolution(format!(
        "the motion of corner {name} does not come to an end: one of its masses, rates or ratios is zero or far off"
    ))
}

/// Nothing where the attitude spares the corner.
fn falling(at: &At, corner: &Corner, attitude: Attitude, speed: Velocity) -> Found<Option<Falling>> {
    let Some(sprung) = mass_on(at, corner, attitude)? else { return Ok(None) };
    let unsprung = at.need(&corner.unsprung_mass_each)?;
    let ratio = at.need(&corner.motion_ratio)?;
    let spring = at.part(&corner.spring)?;
    let rate = spring_rate(at, spring)?;
    let collar = at.need(&corner.preload.collar)?;
    let mount = match at.try_part(&corner.push_test) {
        Some(test) => SpringRate::from_si(at.need(&test.force)?.si() / at.need(&test.movement)?.si()),
        None => at.need(&at.assumed().mount_stiffness)?,
    };
    let (oil, gelled) = oil(at, corner)?;
    let ground = ground_stiffness(at)?;
    let one = fall::Corner {
        sprung: sprung.si(),
        // A wheel without mass changes nothing that anybody asks for, and its swing would never end.
        unsprung: if unsprung.si() > 0.0 { unsprung.si().max(sprung.si() / 200.0) } else { unsprung.si() },
        speed: speed.si(),
        ratio: ratio.si(),
        rate: rate.si(),
        preload: rate.si() * collar.si(),
        oil,
        stops: stops(at, corner, spring, collar, mount.si())?,
        support: Support::of(ground, rate.si() * ratio.si() * ratio.si()),
    };
    Ok(Some(Falling { one, ground, gelled }))
}

/// Static, at the damper, as if its stroke had no end.
fn sag(at: &At, corner: &Corner) -> Found<Length> {
    let (rate, ratio) = (spring_rate(at, at.part(&corner.spring)?)?, at.need(&corner.motion_ratio)?);
    let preload = Force::from_si(rate.si() * at.need(&corner.preload.collar)?.si());
    let rests_on = physics::landing::at_wheel(rate, preload, ratio);
    let sag = physics::landing::sag(&rests_on, at.need(&corner.sprung_mass_each)?).si();
    Ok(Length::from_si(sag * ratio.si()))
}

/// As measured, or from wire, coil and material.
fn spring_rate(at: &At, spring: &Spring) -> Found<SpringRate> {
    if let Some(rate) = at.try_get(&spring.rate) {
        return Ok(rate);
    }
    let (wire, mean) = (at.need(&spring.wire)?, at.need(&spring.mean_diameter)?);
    let coils = at.need(&spring.active_coils)?;
    let material = at.machine().follow(at.part(&spring.material)?);
    let shear = physics::spring::shear_modulus(at.need(&material.modulus)?, at.need(&material.poisson)?);
    Ok(physics::spring::rate(wire, mean, coils, shear))
}

/// Damper travel until the coils touch, where the spring's lengths are known. That they are not is the spring rule's gap.
fn to_coil_bind(at: &At, spring: &Spring, collar: Length) -> Option<f64> {
    let free = at.try_get(&spring.free_length)?;
    let solid = match at.try_get(&spring.solid_length) {
        Some(solid) => solid,
        None => {
            let ends = match at.try_part(&spring.ends)? {
                SpringEnds::Open => physics::spring::Ends::Plain,
                SpringEnds::OpenGround => physics::spring::Ends::PlainGround,
                SpringEnds::Closed => physics::spring::Ends::Closed,
                SpringEnds::ClosedGround => physics::spring::Ends::ClosedGround,
            };
            physics::spring::solid_length(at.try_get(&spring.wire)?, at.try_get(&spring.active_coils)?, ends)
        }
    };
    Some((free.si() - collar.si() - solid.si()).max(0.0))
}

/// The bump stop on the last of the stroke or else the hard end of it, and the coils that touch. All are held by the mount, whose
/// give before that is next to nothing beside the spring's and is left out.
fn stops(at: &At, corner: &Corner, spring: &Spring, collar: Length, mount: f64) -> Found<[Option<Stop>; 2]> {
    let stroke = at.need(&corner.damper_travel)?.si();
    let end = match at.part(&corner.bump_stop)? {
        BumpStop::None => Stop { at: stroke, mount, elastomer: None },
        BumpStop::Elastomer(stop) => {
            let (height, diameter) = (at.need(&stop.height)?.si(), at.need(&stop.diameter)?.si());
            let assumed = &at.assumed().stop_modulus;
            let modulus = match at.try_part(&stop.material).map(|material| at.machine().follow(material)) {
                Some(material) => at.or(&material.modulus, assumed)?.si() * stiffened(at, material)?,
                None => at.need(assumed)?.si(),
            };
            let stiffness = modulus * PI / 4.0 * diameter * diameter;
            Stop { at: (stroke - height).max(0.0), mount, elastomer: Some(Elastomer { stiffness, height }) }
        }
    };
    let bind = to_coil_bind(at, spring, collar).filter(|bind| *bind < stroke);
    Ok([Some(end), bind.map(|bind| Stop { at: bind, mount, elastomer: None })])
}

/// By how much a material is stiffer in the case's air than at 23 °C; as stiff where no table says it.
fn stiffened(at: &At, material: &machine::Material) -> Found<f64> {
    let Some(curve) = at.try_part(&material.modulus_at) else { return Ok(1.0) };
    let air = at.surroundings()?.outside;
    Ok(at.at(curve, air, Scale::Linear, "stiffness of the bump stop's material")?.si())
}

/// What the ground gives way by under one wheel, N/m. The classes against packed snow are common practice, no source.
fn ground_stiffness(at: &At) -> Found<f64> {
    let surface = match at.try_part(&at.case()?.surface) {
        Some(surface) => *surface,
        None => at.or_word(&at.machine().environment.surface, Surface::PackedSnow, "packed_snow"),
    };
    let class = match surface {
        Surface::Ice | Surface::Asphalt | Surface::Rock => 5.0,
        Surface::Gravel => 2.0,
        Surface::PackedSnow | Surface::Crust => 1.0,
        Surface::Grass => 0.5,
        Surface::Mud | Surface::Peat => 0.3,
        Surface::Powder => 0.2,
    };
    Ok(at.need(&at.assumed().ground_stiffness)?.si() * class)
}

/// The damper's resistance with its oil as cold as the air; nothing without a damper, or with oil that no longer flows.
fn oil(at: &At, corner: &Corner) -> Found<(Option<Oil>, bool)> {
    let Damper::Oil(damper) = at.part(&corner.damper)? else { return Ok((None, false)) };
    let air = at.surroundings()?.outside;
    let oil = at.machine().follow(at.part(&damper.oil)?);
    let pour_point = at.need(&oil.pour_point)?;
    if air.si() < pour_point.si() {
        return Ok((None, true));
    }
    let kinematic = kinematic(at, oil, air, pour_point)?;
    let stated = at.need(&oil.density)?;
    // Densities of oils are stated at 15 °C.
    let density = match at.try_get(&oil.expansion) {
        Some(expansion) => physics::oil::density(stated, celsius(15.0), expansion, air),
        None => stated,
    };
    let viscosity = physics::oil::dynamic_viscosity(kinematic, density);
    Ok((Some(Oil { valving: valving(at, damper)?, viscosity, density }), false))
}

/// By the law of the oil's kind, from its pour point up.
fn kinematic(
    at: &At,
    oil: &machine::Oil,
    temperature: ThermodynamicTemperature,
    pour_point: ThermodynamicTemperature,
) -> Found<KinematicViscosity> {
    let reading = |degrees: f64, viscosity: &machine::Given<m::KinematicViscosity>| -> Found<physics::oil::Reading> {
        Ok(physics::oil::Reading { temperature: celsius(degrees), viscosity: at.need(viscosity)? })
    };
    let found = match oil.kind {
        OilKind::Silicone => {
            let law = match at.try_get(&oil.viscosity_25) {
                Some(label) => {
                    physics::oil::Silicone::from_label(label, Ratio::from_si(physics::oil::SILICONE_COEFFICIENT))
                }
                None => physics::oil::Silicone::through(
                    reading(40.0, &oil.viscosity_40)?,
                    reading(100.0, &oil.viscosity_100)?,
                ),
            };
            law.and_then(|law| law.viscosity(temperature, pour_point))
        }
        OilKind::Mineral | OilKind::Ester => {
            physics::oil::Mineral::through(reading(40.0, &oil.viscosity_40)?, reading(100.0, &oil.viscosity_100)?)
                .and_then(|law| law.viscosity(temperature, pour_point))
        }
    };
    found.map_err(outside)
}

fn valving(at: &At, damper: &OilDamper) -> Found<physics::damper::Valving> {
    let valving = physics::damper::Valving {
        bore: at.need(&damper.bore)?,
        rod: at.need(&damper.rod)?,
        holes: at.need(&damper.holes)?,
        hole_diameter: at.need(&damper.hole_diameter)?,
        hole_length: at.need(&damper.piston_thickness)?,
    };
    if valving.holes.si() > 0.0 && valving.hole_diameter.si() > 0.0 && valving.bore.si() > valving.rod.si() {
        return Ok(valving);
    }
    Err(NotJudged::NoSolution(
        "no oil can pass this damper's piston: it has no holes, or a rod as thick as its bore".into(),
    ))
}
