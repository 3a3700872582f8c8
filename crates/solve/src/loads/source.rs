//! How large a force is in a case, by what it comes from.

use crate::at::At;
use crate::drive::{driven_mass, sprocket_and_ratio};
use machine::{CaseKind, Corner, Found, Named, NotJudged, Push, PushSource};
use physics::landing::{GRAVITY, force_at_wheel};
use quantity::*;

/// What a source comes to in a case.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Supplied {
    Force(Force),
    /// This case has nothing to do with it, in words.
    Nothing(&'static str),
}

/// The force of a push, its share taken.
///
/// # Errors
/// A gap, or a source without a solution.
pub fn supplied(at: &At, push: &Push) -> Found<Supplied> {
    let whole = match push.from {
        PushSource::Corner => corner(at, at.machine().follow(at.part(&push.corner)?))?,
        PushSource::TrackTension => track(at, push)?,
        PushSource::Weight => weight(at)?,
        PushSource::Payload => payload(at)?,
        PushSource::Stopped => match at.case()?.kind {
            CaseKind::Stopped => Supplied::Force(stopped(at)?),
            _ => Supplied::Nothing("nothing stops the machine dead in this case"),
        },
        PushSource::Jam => match at.case()?.kind {
            CaseKind::Jam => Supplied::Force(jam_pull(at)?),
            _ => Supplied::Nothing("nothing jams the track in this case"),
        },
        PushSource::Force => match at.case()?.kind {
            CaseKind::BroughtIndoors | CaseKind::Soak => Supplied::Nothing("the machine is not used in this case"),
            _ => Supplied::Force(at.need(&push.force)?),
        },
    };
    Ok(match whole {
        Supplied::Force(force) => {
            Supplied::Force(force * at.or_take(&push.share, Ratio::from_si(1.0), "all of it").si())
        }
        nothing => nothing,
    })
}

/// Standing or driving, with its weight on its wheels.
fn on_the_ground(kind: CaseKind) -> bool {
    !matches!(kind, CaseKind::Landing | CaseKind::LiftOff | CaseKind::TipOver | CaseKind::BroughtIndoors)
}

/// At one wheel of a corner: what its spring, damper and stop pass on.
fn corner(at: &At, corner: &Named<Corner>) -> Found<Supplied> {
    let kind = at.case()?.kind;
    if kind == CaseKind::Landing {
        let index = at.machine().suspension.iter().position(|other| other.id() == corner.id());
        let landed = match index.and_then(|index| at.landing().map(|landing| landing.corners.get(index)).transpose()) {
            Some(landed) => landed?.clone()?,
            None => return Err(NotJudged::NoSolution("the landing of this corner is not worked out".into())),
        };
        if landed.force == Force::ZERO {
            return Ok(Supplied::Nothing("its corner is spared in this landing"));
        }
        if landed.damper_gelled {
            return Err(NotJudged::NoSolution(
                "the damper's oil no longer flows: how hard the corner hits is not known".into(),
            ));
        }
        return Ok(Supplied::Force(force_at_wheel(landed.force, at.need(&corner.value.motion_ratio)?)));
    }
    if !on_the_ground(kind) {
        return Ok(Supplied::Nothing("no weight is on its corner in this case"));
    }
    let mass = at.need(&corner.value.sprung_mass_each)?;
    Ok(Supplied::Force(Force::from_si(mass.si() * GRAVITY)))
}

/// Of the track on a wheel that it runs round.
fn track(at: &At, push: &Push) -> Found<Supplied> {
    if at.case()?.kind == CaseKind::Jam {
        return Ok(Supplied::Nothing("a jam has a source of its own"));
    }
    let track = at.track()?;
    let wrap = at.or_take(&push.wrap, Angle::from_si(std::f64::consts::PI), "180 °");
    Ok(Supplied::Force(physics::bearing::wrap_load(track.tight - track.centrifugal, wrap)))
}

fn weight(at: &At) -> Found<Supplied> {
    if !on_the_ground(at.case()?.kind) {
        return Ok(Supplied::Nothing("no weight is on it in this case"));
    }
    Ok(Supplied::Force(Force::from_si(driven_mass(at)?.si() * GRAVITY)))
}

/// Its weight, and in a landing what slows it down.
fn payload(at: &At) -> Found<Supplied> {
    let case = at.case()?;
    if case.payload == Some(false) {
        return Ok(Supplied::Nothing("the machine is driven empty in this case"));
    }
    let mass = at.need(&at.machine().machine.payload.mass)?.si();
    if case.kind != CaseKind::Landing {
        return Ok(Supplied::Force(Force::from_si(mass * GRAVITY)));
    }
    let mut hardest = 0.0_f64;
    for corner in &at.landing()?.corners {
        hardest = hardest.max(corner.clone()?.deceleration.si());
    }
    Ok(Supplied::Force(Force::from_si(mass * (GRAVITY + hardest))))
}

/// The highest force of a machine that stops dead: over a distance the force rises evenly, m·v²/s; against a stiffness v·√(k·m).
///
/// # Errors
/// A gap: its speed, or how far or how hard it stops.
pub fn stopped(at: &At) -> Found<Force> {
    let case = at.case()?;
    let (mass, speed) = (driven_mass(at)?, at.need(&case.speed)?);
    let force = match at.try_get(&case.stop_stiffness) {
        Some(stiffness) => physics::impact::against(stiffness, mass, speed),
        None => physics::impact::within(at.need(&case.stopping_distance)?, mass, speed),
    };
    if force.si().is_finite() {
        return Ok(force);
    }
    Err(NotJudged::NoSolution("a machine that stops within no distance at all meets no finite force".into()))
}

/// Pull of one track that jams at speed: the rotor's energy through the line's twist, the motor still pushing.
///
/// # Errors
/// A gap: the rotor's inertia, the line's stiffness, the speed.
pub fn jam_pull(at: &At) -> Found<Force> {
    let powertrain = &at.machine().powertrain;
    let (radius, ratio, motors) = sprocket_and_ratio(at)?;
    let speed = at.need(&at.case()?.speed)?.si() / radius;
    let inertia = at.need(&powertrain.motor.rotor_inertia)?.si() * motors * ratio * ratio;
    let stiffness = at.need(&powertrain.line_stiffness)?.si() * ratio * ratio;
    let constant = at.need(&powertrain.motor.speed_constant)?.si();
    let current = at.need(&powertrain.controller.current_limit.motor)?.si();
    let motor = current / constant * motors * ratio;
    let peak = physics::jam::energy_peak(
        Torque::from_si(motor),
        Torque::from_si(stiffness),
        MomentOfInertia::from_si(inertia),
        AngularVelocity::from_si(speed),
    );
    Ok(Force::from_si(peak.si() / radius))
}
