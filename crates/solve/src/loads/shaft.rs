//! Turning shafts: forces of gears, chains and track at their stations, bearing forces, moment, torque and slope everywhere.
//!
//! Where a station does not say in which direction its force acts, all are taken in one plane and the same way. Bearings are rigid
//! and let the shaft tilt. Weight is left out of the forces. Chains and belts pull with their tight side alone, a belt with
//! half as much on top for its tension.

use crate::at::{At, Solve};
use crate::gears::{Load, Pair, Side, load, pairs};
use machine::{Bearing, Found, Named, NotJudged, Shaft, ShaftJointKind, ShaftNotch, Stage, Station};
use physics::beam::stations::{Bending, Held, Hold, Push, bend};
use physics::shaft::critical::{Bar, Disc, bar, of_shaft};
use quantity::*;
use std::f64::consts::PI;

/// What stands at a station, and the force with which it pushes on the shaft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Carried {
    pub station: usize,
    pub force: Force,
}

/// One station of a loaded shaft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    pub station: usize,
    pub at: Length,
    /// Both planes together.
    pub moment: Torque,
    /// The larger one of both sides.
    pub torque: Torque,
    pub slope: Angle,
    pub deflection: Length,
    pub notch: ShaftNotch,
}

/// A shaft in one case.
#[derive(Debug, Clone, PartialEq)]
pub struct ShaftLoads {
    pub carried: Vec<Carried>,
    pub spots: Vec<Spot>,
    /// Station and force of each bearing.
    pub bearings: Vec<(usize, Force)>,
    pub torque: Torque,
    pub speed: AngularVelocity,
    /// Comes seldom: a landing, a start.
    pub seldom: bool,
}

/// A force at a place of the shaft, forward and up, and the torque that goes in (or out, negative) there.
struct Acting {
    station: usize,
    x: Length,
    torque: f64,
    forward: f64,
    up: f64,
}

/// All shafts of a machine, in its order.
#[derive(Debug)]
pub struct Shafts(Vec<Found<Option<ShaftLoads>>>);

/// Each with its own gap.
impl Solve for Shafts {
    fn solve(at: &At) -> Found<Self> {
        Ok(Self(at.machine().powertrain.shafts.iter().map(|shaft| solve(at, shaft)).collect()))
    }
}

/// What loads a shaft in a case; nothing where nothing is driven.
///
/// # Errors
/// A gap, a stage that is not there, or a shaft that lies in fewer than two bearings.
pub fn shaft<'a>(at: &At<'a>, shaft: &Named<Shaft>) -> Found<Option<&'a ShaftLoads>> {
    let index = at.machine().powertrain.shafts.iter().position(|other| other.id() == shaft.id());
    match index.and_then(|index| at.ask::<Shafts>().map(|all| all.0.get(index)).transpose()) {
        Some(found) => found?.as_ref().map(Option::as_ref).map_err(Clone::clone),
        None => Err(NotJudged::NoSolution("what loads this shaft is not worked out".into())),
    }
}

fn solve(at: &At, shaft: &Named<Shaft>) -> Found<Option<ShaftLoads>> {
    let stages = &at.machine().powertrain.stages;
    let by = at.part(&shaft.value.turned_by)?;
    let index = stages.iter().position(|stage| stage.name() == by).ok_or_else(|| {
        NotJudged::NoSolution(format!("{} is turned by `{by}`, and no stage has that name", shaft.name()))
    })?;
    let Some(load) = load(at, index)? else { return Ok(None) };
    let torque = load.wheel.si() * load.shock(at)?.si();
    let (length, holds) = (length(at, shaft)?, holds(at, shaft)?);
    let mut worst: Option<ShaftLoads> = None;
    // Which way it turns sets to which side the teeth push; both are tried where the sides are known.
    let ways: &[f64] = if angles(at, shaft) { &[1.0, -1.0] } else { &[1.0] };
    for turns in ways.iter().copied() {
        let acting = acting(at, shaft, by, &load, torque, turns)?;
        let piece = piece(at, shaft, length, false)?;
        let solved = |of: fn(&Acting) -> f64| {
            let pushes: Vec<Push> =
                acting.iter().map(|a| Push::Force { at: a.x, force: Force::from_si(of(a)) }).collect();
            bend(length, &[piece.piece], &holds.iter().map(|h| h.1).collect::<Vec<_>>(), &pushes)
        };
        let loose = |_| NotJudged::NoSolution("its bearings do not hold it, or a station lies beyond its ends".into());
        let planes = [solved(|a| a.forward).map_err(loose)?, solved(|a| a.up).map_err(loose)?];
        let found = gather(at, shaft, &acting, &holds, &planes, &load, torque);
        let harder = |a: &ShaftLoads, b: &ShaftLoads| {
            let most = |s: &ShaftLoads| s.spots.iter().map(|spot| spot.moment.si()).fold(0.0, f64::max);
            most(a) > most(b)
        };
        worst = Some(match worst {
            Some(other) if !harder(&found, &other) => other,
            _ => found,
        });
    }
    Ok(worst)
}

fn length(at: &At, shaft: &Named<Shaft>) -> Found<Length> {
    if let Some(length) = at.try_get(&shaft.value.length) {
        return Ok(length);
    }
    let mut last = Length::ZERO;
    for station in &shaft.value.stations {
        let x = at.need(&station.x)?;
        last = if x > last { x } else { last };
    }
    Ok(last)
}

/// Its mass is wanted only where it whirls.
fn piece(at: &At, shaft: &Named<Shaft>, length: Length, whirls: bool) -> Found<Bar> {
    let material = at.machine().follow(at.part(&shaft.value.material)?);
    let bore = at.or_take(&shaft.value.bore, Length::ZERO, "none");
    let (outer, modulus) = (at.need(&shaft.value.diameter)?, at.need(&material.modulus)?);
    let density = if whirls { at.need(&material.density)? } else { MassDensity::ZERO };
    Ok(bar(Length::ZERO, length, outer, bore, modulus, density))
}

fn holds(at: &At, shaft: &Named<Shaft>) -> Found<Vec<(usize, Held)>> {
    let mut holds = Vec::new();
    for (index, station) in shaft.value.stations.iter().enumerate() {
        if station.bearing.is_some() {
            holds.push((index, Held { at: at.need(&station.x)?, by: Hold::Pivoted }));
        }
    }
    if holds.len() < 2 {
        return Err(NotJudged::NoSolution(format!(
            "{} lies in {} of the spec's bearings: write a station with `bearing:` for each",
            shaft.name(),
            if holds.is_empty() { "none" } else { "only one" }
        )));
    }
    Ok(holds)
}

/// Where its force acts: none where an angle is missing at any loaded station.
fn angles(at: &At, shaft: &Named<Shaft>) -> bool {
    let mut known = true;
    for station in shaft.value.stations.iter().filter(|station| station.bearing.is_none()) {
        if at.try_get(&station.angle).is_none() {
            at.or_take(&station.angle, Angle::ZERO, "all forces the same way");
            known = false;
        }
    }
    known
}

fn acting(at: &At, shaft: &Named<Shaft>, by: &str, load: &Load, torque: f64, turns: f64) -> Found<Vec<Acting>> {
    let known = angles(at, shaft);
    let wheels = shaft.value.stations.iter().filter(|s| s.stage.there().is_some_and(|stage| stage == "track")).count();
    let mut acting = Vec::new();
    for (index, station) in shaft.value.stations.iter().enumerate() {
        if station.bearing.is_some() {
            continue;
        }
        let name = turned_with(at, station)?;
        let share = station.held_by.there().and_then(|held| at.try_get(&held.share)).map(|share| share.si());
        let (tangential, radial, in_out) = if name == "track" {
            let share = share.unwrap_or(1.0 / wheels.max(1) as f64);
            (0.0, track_pull(at)? * share, -torque * share)
        } else {
            let share = share.unwrap_or(1.0);
            let driven = name == by;
            let through = torque * share;
            let (across, away) = of_stage(at, name, driven, load, through)?;
            (across, away, if driven { through } else { -through })
        };
        let angle = if known { at.need(&station.angle)?.si() } else { 0.0 };
        let (sin, cos) = angle.sin_cos();
        let (forward, up) = if !known {
            (0.0, tangential.hypot(radial))
        } else if tangential > 0.0 {
            // Away from the partner, and across to it by the torque.
            let across = tangential * turns * in_out.signum();
            (-radial * cos - across * sin, -radial * sin + across * cos)
        } else {
            (radial * cos, radial * sin)
        };
        acting.push(Acting { station: index, x: at.need(&station.x)?, torque: in_out, forward, up });
    }
    Ok(acting)
}

/// The stage whose gear or chain wheel stands there, or `track`.
fn turned_with<'m>(at: &At, station: &'m Station) -> Found<&'m String> {
    let gear = [&station.wheel_of, &station.pinion_of].into_iter().find_map(|named| at.try_part(named));
    gear.map_or_else(|| at.part(&station.stage), Ok)
}

/// Both sides of all tracks that this line drives.
fn track_pull(at: &At) -> Found<f64> {
    let track = at.track()?;
    let count = at.or_take(&at.machine().powertrain.track.count, Ratio::from_si(1.0), "1").si();
    let both = track.tight.si() + track.slack.si() - 2.0 * track.centrifugal.si();
    Ok(both * count / at.drive()?.lines)
}

/// Force across and away from the partner; of a chain or belt the pull towards it (the first is then zero).
fn of_stage(at: &At, name: &str, driven: bool, load: &Load, torque: f64) -> Found<(f64, f64)> {
    let machine = at.machine();
    let Some(stage) = machine.powertrain.stages.iter().find(|stage| stage.name() == name) else {
        return Err(NotJudged::NoSolution(format!("no stage has the name `{name}`")));
    };
    if let Stage::Chain(chain) | Stage::ToothedBelt(chain) = stage {
        let teeth = at.need(if driven { &chain.driven_teeth } else { &chain.driving_teeth })?.si();
        let diameter = at.need(&chain.pitch)?.si() / (PI / teeth).sin();
        let tension = if matches!(stage, Stage::Chain(_)) { 1.0 } else { 1.5 };
        return Ok((0.0, tension * 2.0 * torque / diameter));
    }
    let pair: Option<Pair<'_>> = pairs(machine).find(|pair| pair.stage.name == name);
    let Some(pair) = pair else {
        return Err(NotJudged::NoSolution(format!(
            "forces of stage {name} on its shaft are not worked out for this kind of stage"
        )));
    };
    let mesh = pair.mesh(at)?;
    let side = if driven { Side::Wheel } else { Side::Pinion };
    let radius = pair.body(at, side)?.reference_diameter().si() / 2.0;
    let meshes = if driven { load.meshes } else { 1.0 };
    let across = torque / radius / meshes;
    let along_action = torque / base_radius(&mesh, side) / meshes;
    Ok((across, (along_action * along_action - across * across).max(0.0).sqrt()))
}

fn base_radius(mesh: &physics::gear::Mesh, side: Side) -> f64 {
    let pinion = 1.0 / mesh.separating_force(Torque::from_si(1.0)).si();
    match side {
        Side::Pinion => pinion,
        Side::Wheel => pinion * mesh.wheel.reference_diameter().si() / mesh.pinion.reference_diameter().si(),
    }
}

fn gather(
    at: &At,
    shaft: &Named<Shaft>,
    acting: &[Acting],
    holds: &[(usize, Held)],
    planes: &[Bending; 2],
    load: &Load,
    torque: f64,
) -> ShaftLoads {
    let [forward, up] = planes;
    let spots = shaft.value.stations.iter().enumerate().filter_map(|(index, station)| {
        let x = at.try_get(&station.x)?;
        let (a, b) = (forward.at(x), up.at(x));
        let before: f64 = acting.iter().filter(|other| other.x < x).map(|other| other.torque).sum();
        let with: f64 = acting.iter().filter(|other| other.x <= x).map(|other| other.torque).sum();
        Some(Spot {
            station: index,
            at: x,
            moment: Torque::from_si(a.moment.si().hypot(b.moment.si())),
            torque: Torque::from_si(before.abs().max(with.abs())),
            slope: Angle::from_si(a.slope.si().hypot(b.slope.si())),
            deflection: Length::from_si(a.deflection.si().hypot(b.deflection.si())),
            notch: notch(at, station),
        })
    });
    let bearings = holds
        .iter()
        .zip(forward.reactions.iter().zip(&up.reactions))
        .map(|((station, _), (a, b))| (*station, Force::from_si(a.force.si().hypot(b.force.si()))));
    let carried =
        acting.iter().map(|a| Carried { station: a.station, force: Force::from_si(a.forward.hypot(a.up)) }).collect();
    ShaftLoads {
        carried,
        spots: spots.collect(),
        bearings: bearings.collect(),
        torque: Torque::from_si(torque),
        speed: load.wheel_speed,
        seldom: load.seldom,
    }
}

/// As written, else by what holds there.
fn notch(at: &At, station: &Station) -> ShaftNotch {
    if let Some(notch) = at.try_part(&station.notch) {
        return *notch;
    }
    if station.bearing.is_some() {
        return at.or_word(&station.notch, ShaftNotch::PressedOn, "pressed_on");
    }
    let by = match at.try_part(&station.held_by).map(|held| held.by) {
        Some(ShaftJointKind::Key) => ShaftNotch::Keyway,
        Some(ShaftJointKind::Pin) => ShaftNotch::CrossHole,
        Some(ShaftJointKind::SetScrew | ShaftJointKind::Clamp) => ShaftNotch::PressedOn,
        Some(ShaftJointKind::Glue) => ShaftNotch::None,
        Some(ShaftJointKind::Spline | ShaftJointKind::Hex | ShaftJointKind::DShape) | None => ShaftNotch::SharpShoulder,
    };
    at.or_word(&station.notch, by, by.word())
}

/// Along a shaft: eight miss its speed by less than a part in ten thousand.
const ELEMENTS: u32 = 8;

/// First critical speed of a shaft with what it carries.
///
/// # Errors
/// A gap, such as the mass of what it carries.
pub fn critical_speed(at: &At, shaft: &Named<Shaft>) -> Found<AngularVelocity> {
    let (length, holds) = (length(at, shaft)?, holds(at, shaft)?);
    let bar = piece(at, shaft, length, true)?;
    let mut discs = Vec::new();
    for station in shaft.value.stations.iter().filter(|station| station.bearing.is_none()) {
        discs.push(Disc { at: at.need(&station.x)?, mass: at.need(&station.mass)? });
    }
    let holds: Vec<Held> = holds.into_iter().map(|hold| hold.1).collect();
    of_shaft(length, &[bar], &holds, &discs, ELEMENTS)
        .map_err(|_| NotJudged::NoSolution("its bearings do not hold it, or a station lies beyond its ends".into()))
}

/// Shaft and station on which a bearing of the spec sits, if any.
#[must_use]
pub fn seat_of<'a>(at: &At<'a>, bearing: &Named<Bearing>) -> Option<(&'a Named<Shaft>, usize)> {
    at.machine().powertrain.shafts.iter().find_map(|shaft| {
        let on =
            |station: &Station| station.bearing.as_ref().is_some_and(|on| at.machine().follow(on).id() == bearing.id());
        shaft.value.stations.iter().position(on).map(|station| (shaft, station))
    })
}
