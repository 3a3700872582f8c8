//! The places where a track can come apart: what loads each of them, and what it is made of there.

use crate::refused;
use physics::track as law;
use rule::prelude::*;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Spot {
    /// The two walls beside the pin's hole, or the ear's foot.
    EarWall,
    /// The end of the ear, out of which the pin would tear.
    Crown,
    Pin,
    Hinge,
    Band,
    Cords,
    LugRoot,
}

#[derive(Debug, Clone, Copy)]
pub(crate) enum Load {
    /// Stress, or force on the cords, for each newton of track tension.
    ByTension(f64),
    /// Stress by the lug's own mass at the case's speed.
    Thrown(f64),
}

/// A band or hinge laid round a wheel.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Bend {
    pub thickness: Length,
    pub bent_to: Length,
    pub made_at: Length,
}

#[derive(Debug)]
pub(crate) struct Place<'a> {
    pub spot: Spot,
    pub load: Load,
    pub bend: Option<Bend>,
    /// What it is made of; the cords of a belt have a breaking force instead.
    pub material: Option<&'a Material>,
    pub cords: Option<&'a Given<m::Force>>,
    pub consumable: bool,
}

impl<'a> Place<'a> {
    fn pulled(spot: Spot, per_newton: f64, material: &'a Material) -> Self {
        let load = Load::ByTension(per_newton);
        Self { spot, load, bend: None, material: Some(material), cords: None, consumable: false }
    }

    pub(crate) fn is_force(&self) -> bool {
        self.cords.is_some()
    }
}

/// Loads grow with the tension, so each is worked out for one newton of it.
fn newton() -> Force {
    Force::from_si(1.0)
}

fn material<'a>(at: &At<'a>) -> Found<&'a Material> {
    let machine = at.machine();
    Ok(machine.follow(at.part(&machine.powertrain.track.material)?))
}

fn sharing(at: &At) -> Found<f64> {
    Ok(at.need(&at.assumed().ear_sharing)?.si())
}

/// Of the fillet where there is one, else of the usual one. A step that is none has no notch.
fn notch(at: &At, fillet: &Given<m::Length>, wide: impl FnOnce() -> Found<Length>, narrow: Length) -> Found<f64> {
    let Some(radius) = at.try_get(fillet) else { return Ok(at.need(&at.assumed().track_notch)?.si()) };
    let wide = wide()?;
    if wide <= narrow {
        return Ok(1.0);
    }
    law::fillet_notch(wide, narrow, radius, law::Pulled::Lengthwise).map(Quantity::si).map_err(refused)
}

/// The worse of the section beside the hole and the foot, where the ear widens into the link.
pub(crate) fn ear_wall<'a>(at: &At<'a>, links: &PinnedLinks) -> Found<Place<'a>> {
    let (pin, wall) = (at.need(&links.pin_diameter)?, at.need(&links.wall_round_pin)?);
    let (ears, width) = (at.need(&links.ears)?, at.need(&links.ear_width)?);
    let (height, all_ears) = (wall * 2.0 + pin, width * ears);
    let section = |lost| law::net_section_stress(newton(), height, lost, all_ears).map_err(refused);
    let hole = law::eye_notch(pin, height).map_err(refused)?;
    let felt = law::felt_notch(hole, pin / 2.0, at.need(&at.assumed().notch_grain)?);
    let beside = section(pin)?.si() * felt.si();
    let neighbours = || Ok((width + at.need(&links.ear_gap)?) * 2.0);
    let foot = section(Length::ZERO)?.si() * notch(at, &links.fillet, neighbours, width)?;
    Ok(Place::pulled(Spot::EarWall, beside.max(foot) * sharing(at)?, material(at)?))
}

pub(crate) fn crown<'a>(at: &At<'a>, links: &PinnedLinks) -> Found<Place<'a>> {
    let all_ears = at.need(&links.ear_width)? * at.need(&links.ears)?;
    let stress = law::tear_out(newton(), at.need(&links.wall_round_pin)?, all_ears);
    Ok(Place::pulled(Spot::Crown, stress.si() * sharing(at)?, material(at)?))
}

pub(crate) fn pin<'a>(at: &At<'a>, links: &PinnedLinks) -> Found<Place<'a>> {
    let diameter = at.need(&links.pin_diameter)?;
    let (width, gap) = (at.need(&links.ear_width)?, at.need(&links.ear_gap)?);
    let of_one = newton() * sharing(at)? / at.need(&links.ears)?;
    let stress = law::pin_bending_in_row(of_one, diameter, width, gap);
    let of = at.part(&links.pin_material)?;
    Ok(Place::pulled(Spot::Pin, stress.si(), at.machine().follow(of)))
}

/// Radius of the smallest wheel at the middle of what lies on it.
fn wheel(at: &At, thickness: Length) -> Found<Length> {
    Ok(at.need(&at.machine().powertrain.track.smallest_wheel.radius)? + thickness / 2.0)
}

pub(crate) fn hinge<'a>(at: &At<'a>, hinge: &LivingHinge) -> Found<Place<'a>> {
    let (thickness, width) = (at.need(&hinge.thickness)?, at.need(&hinge.width)?);
    let pull = law::net_section_stress(newton(), width, Length::ZERO, thickness).map_err(refused)?;
    let notch = at.need(&at.assumed().track_notch)?;
    Ok(Place { load: Load::ByTension(pull.si() * notch.si()), ..bent_hinge(at, hinge)? })
}

/// The same without the pull.
pub(crate) fn bent_hinge<'a>(at: &At<'a>, hinge: &LivingHinge) -> Found<Place<'a>> {
    let thickness = at.need(&hinge.thickness)?;
    let pitch = at.need(&at.machine().powertrain.track.pitch)?;
    let bent_to = law::hinge_radius(wheel(at, thickness)?, pitch, at.need(&hinge.length)?);
    let bend = Some(Bend { thickness, bent_to, made_at: Length::from_si(f64::INFINITY) });
    Ok(Place { bend, ..Place::pulled(Spot::Hinge, 0.0, material(at)?) })
}

pub(crate) fn band<'a>(at: &At<'a>, band: &Band) -> Found<Place<'a>> {
    let (thickness, net) = (at.need(&band.thickness)?, at.need(&band.net_width)?);
    let pull = law::net_section_stress(newton(), net, Length::ZERO, thickness).map_err(refused)?;
    let notch = notch(at, &band.fillet, || at.need(&at.machine().powertrain.track.width), net)?;
    Ok(Place { load: Load::ByTension(pull.si() * notch), ..bent_band(at, band)? })
}

/// The same without the pull.
pub(crate) fn bent_band<'a>(at: &At<'a>, band: &Band) -> Found<Place<'a>> {
    let thickness = at.need(&band.thickness)?;
    let made_at = at.try_get(&band.made_at_radius).unwrap_or(Length::from_si(f64::INFINITY));
    let bend = Some(Bend { thickness, bent_to: wheel(at, thickness)?, made_at });
    Ok(Place { bend, ..Place::pulled(Spot::Band, 0.0, material(at)?) })
}

pub(crate) fn cords<'a>(_: &At<'a>, belt: &'a CordedBelt) -> Found<Place<'a>> {
    let cords = Some(&belt.cord_strength);
    let load = Load::ByTension(1.0);
    Ok(Place { spot: Spot::Cords, load, bend: None, material: None, cords, consumable: false })
}

/// Its wheel is taken at the track's inner face: turning on a smaller radius it is thrown out a little harder.
pub(crate) fn lug<'a>(at: &At<'a>, lug: &Lug) -> Found<Place<'a>> {
    let radius = wheel(at, Length::ZERO)?;
    let out = radius + at.need(&lug.height)? / 2.0;
    let pull = law::lug_pull(at.need(&lug.mass)?, at.track()?.speed, radius, out);
    let (width, root) = (at.need(&lug.width)?, at.need(&lug.root_thickness)?);
    let stress = law::lug_root_stress(pull, Torque::ZERO, width, root);
    let notch = notch(at, &lug.fillet, || at.need(&at.machine().powertrain.track.pitch), root)?;
    let load = Load::Thrown(stress.si() * notch);
    let consumable = lug.consumable == Some(true);
    Ok(Place { spot: Spot::LugRoot, load, bend: None, material: Some(material(at)?), cords: None, consumable })
}
