//! One spring and damper unit: its rate, the lengths of its spring, its stops and its mount. Whoever asks about a spring
//! or a damper asks here, so that no two answers assume differently.

use super::leg::{Damping, Elastomer, Leg, Stop, Support};
use super::oil::{Resistance, resistance};
use crate::at::At;
use machine::{BumpStop, Corner, Found, Scale, Spring, SpringEnds, Surface};
use quantity::*;
use std::f64::consts::PI;

/// How a spring's ends are made; closed and ground, the usual good spring, where nobody says.
#[must_use]
pub fn ends(at: &At, spring: &Spring) -> physics::spring::Ends {
    match at.or_word(&spring.ends, SpringEnds::ClosedGround, "closed_ground") {
        SpringEnds::Open => physics::spring::Ends::Plain,
        SpringEnds::OpenGround => physics::spring::Ends::PlainGround,
        SpringEnds::Closed => physics::spring::Ends::Closed,
        SpringEnds::ClosedGround => physics::spring::Ends::ClosedGround,
    }
}

/// Length with the coils pressed together, as measured or from wire, coils and ends.
///
/// # Errors
/// A gap.
pub fn solid_length(at: &At, spring: &Spring) -> Found<Length> {
    if let Some(measured) = at.try_get(&spring.solid_length) {
        return Ok(measured);
    }
    let (wire, coils) = (at.need(&spring.wire)?, at.need(&spring.active_coils)?);
    Ok(physics::spring::solid_length(wire, coils, ends(at, spring)))
}

/// Damper travel until the coils touch, where the spring's lengths are known. That they are not is the spring rule's gap.
pub(super) fn to_coil_bind(at: &At, spring: &Spring, collar: Length) -> Option<f64> {
    let free = at.try_get(&spring.free_length)?;
    if at.try_get(&spring.solid_length).is_none() {
        at.try_get(&spring.wire)?;
        at.try_get(&spring.active_coils)?;
    }
    let solid = solid_length(at, spring).ok()?;
    Some((free.si() - collar.si() - solid.si()).max(0.0))
}

/// As measured, or from wire, coil and material.
///
/// # Errors
/// A gap.
pub fn spring_rate(at: &At, spring: &Spring) -> Found<SpringRate> {
    if let Some(rate) = at.try_get(&spring.rate) {
        return Ok(rate);
    }
    let (wire, mean) = (at.need(&spring.wire)?, at.need(&spring.mean_diameter)?);
    let coils = at.need(&spring.active_coils)?;
    let material = at.machine().follow(at.part(&spring.material)?);
    let shear = physics::spring::shear_modulus(at.need(&material.modulus)?, at.need(&material.poisson)?);
    Ok(physics::spring::rate(wire, mean, coils, shear))
}

/// The bump stop on the last of the stroke or else the hard end of it, and the coils that touch. All are held by the mount, whose
/// give before that is next to nothing beside the spring's and is left out.
pub(super) fn stops(at: &At, corner: &Corner, spring: &Spring, collar: Length, mount: f64) -> Found<[Option<Stop>; 2]> {
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
pub(super) fn ground_stiffness(at: &At) -> Found<f64> {
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

/// What holds the strut: as pushed, or assumed.
///
/// # Errors
/// A gap.
pub fn mount_stiffness(at: &At, corner: &Corner) -> Found<SpringRate> {
    match at.try_part(&corner.push_test) {
        Some(test) => Ok(SpringRate::from_si(at.need(&test.force)?.si() / at.need(&test.movement)?.si())),
        None => at.need(&at.assumed().mount_stiffness),
    }
}

/// A corner's strut, ready to be put under a body.
#[derive(Debug, Clone)]
pub(super) struct Strut {
    /// Without a place yet.
    pub leg: Leg,
    pub resistance: Resistance,
    pub mount: f64,
}

pub(super) fn strut(at: &At, corner: &Corner, carries: Mass) -> Found<Strut> {
    let unsprung = at.need(&corner.unsprung_mass_each)?.si();
    let ratio = at.need(&corner.motion_ratio)?.si();
    let spring = at.part(&corner.spring)?;
    let rate = spring_rate(at, spring)?.si();
    let collar = at.need(&corner.preload.collar)?;
    let mount = mount_stiffness(at, corner)?.si();
    let resistance = resistance(at, at.part(&corner.damper)?)?;
    let leg = Leg {
        count: 1.0,
        x: 0.0,
        y: 0.0,
        // A wheel without mass changes nothing that anybody asks for, and its swing would never end.
        unsprung: if unsprung > 0.0 { unsprung.max(carries.si() / 200.0) } else { unsprung },
        carries: carries.si(),
        ratio,
        rate,
        preload: rate * collar.si(),
        damping: resistance.damping(),
        stops: stops(at, corner, spring, collar, mount)?,
        guessed: at.try_part(&corner.push_test).is_none(),
        support: Support::of(ground_stiffness(at)?, rate * ratio * ratio),
        grip: 0.0,
    };
    Ok(Strut { leg, resistance, mount })
}

impl Strut {
    /// Its damper as a rod where it does not flow, or flows so thickly that at this speed of the wheel it would push harder
    /// than its mount lets it.
    pub fn locks(&self, speed: f64) -> bool {
        match &self.resistance {
            Resistance::None => false,
            Resistance::Gelled => true,
            Resistance::Flows { bump, .. } => {
                let (ratio, at_damper) = (self.leg.ratio, self.leg.ratio * speed.max(0.1));
                bump.force(at_damper) * ratio > 0.5 * speed.max(0.1) * ratio * (self.mount * self.leg.carries).sqrt()
            }
        }
    }

    pub fn rod(&self) -> Leg {
        Leg { damping: Damping::Rod(self.mount), ..self.leg.clone() }
    }
}
