//! The bodies that come down in a case: the whole machine on all of its springs, or one spring alone.

use super::Blow;
use super::fall::{Body, LEGS};
use super::leg::Leg;
use super::oil::Resistance;
use super::strut::{Strut, strut};
use super::weight::{Sprung, alone, pitch_gyration, roll_gyration, sprung, standing};
use crate::at::At;
use crate::drive::adhesion;
use machine::{Attitude, Corner, Footing, Found, Map, NotJudged};
use quantity::*;

/// Whether and why a leg is solved as a rod too.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Lock {
    No,
    /// It flows, but so thickly that its mount gives before it does.
    Thick,
    Gelled,
}

/// One body that comes down.
#[derive(Debug, Clone)]
pub(super) struct Fall {
    pub body: Body,
    /// One a leg, with it as a rod.
    pub locks: Vec<(Lock, Leg)>,
    /// Corners whose peaks are told by this fall, and by which of its legs.
    pub tells: Vec<(usize, usize)>,
}

/// The falls of a case, each corner in at most one of them; a corner's gap stands in its place.
pub(super) struct Falls {
    pub falls: Vec<Fall>,
    pub gaps: Vec<Option<NotJudged>>,
}

pub(super) fn falls(at: &At, blow: &Blow) -> Found<Falls> {
    let corners = &at.machine().suspension;
    let mut gaps: Vec<Option<NotJudged>> = corners.iter().map(|_| None).collect();
    if matches!(blow.attitude, Attitude::Inverted | Attitude::Sideways) || corners.is_empty() {
        return Ok(Falls { falls: Vec::new(), gaps });
    }
    let gauges = if blow.attitude == Attitude::OneCorner { gauges(at, corners) } else { None };
    let axles = ends(at, corners).map_or(1, |(rear, front)| if front > rear { 2 } else { 1 });
    let apart = match blow.attitude {
        Attitude::Level => false,
        Attitude::OneCorner => gauges.is_none() || axles < 2,
        _ => axles < 2,
    };
    if apart {
        let mut falls = Vec::new();
        for (index, (corner, gap)) in corners.iter().zip(&mut gaps).enumerate() {
            match apart_from_all(at, corner, blow, index) {
                Ok(fall) => falls.push(fall),
                Err(why) => *gap = Some(why),
            }
        }
        return Ok(Falls { falls, gaps });
    }
    match together(at, corners, blow, gauges.as_deref()) {
        Ok(falls) => Ok(Falls { falls, gaps }),
        // One body: what one corner lacks, all lack.
        Err(why) => {
            gaps.fill(Some(why));
            Ok(Falls { falls: Vec::new(), gaps })
        }
    }
}

/// Lowest and highest position of all corners.
fn ends(at: &At, corners: &Map<Corner>) -> Found<(f64, f64)> {
    let mut ends = (f64::INFINITY, f64::NEG_INFINITY);
    for corner in corners {
        let x = at.need(&corner.position)?.si();
        ends = (ends.0.min(x), ends.1.max(x));
    }
    Ok(ends)
}

fn gauges(at: &At, corners: &Map<Corner>) -> Option<Vec<f64>> {
    corners.iter().map(|corner| at.try_get(&corner.gauge).map(Quantity::si)).collect()
}

/// One spring that meets the ground alone.
fn apart_from_all(at: &At, corner: &Corner, blow: &Blow, index: usize) -> Found<Fall> {
    let springs = if blow.attitude == Attitude::OneCorner { 1.0 } else { at.need(&corner.count)?.si() };
    let carries = alone(at, corner, ends(at, &at.machine().suspension)?, springs)?;
    let strut = strut(at, corner, carries)?;
    let body = Body {
        mass: carries.si(),
        pitch_inertia: None,
        roll_inertia: None,
        speed: blow.speed.si(),
        pitch: 0.0,
        roll: 0.0,
        legs: vec![strut.leg.clone()],
        watched: 0.0,
    };
    Ok(fall(body, &[strut], vec![(index, 0)], blow))
}

fn fall(body: Body, struts: &[Strut], tells: Vec<(usize, usize)>, blow: &Blow) -> Fall {
    let lock = |strut: &Strut| match strut.resistance {
        Resistance::Gelled => Lock::Gelled,
        _ if strut.locks(blow.speed.si()) => Lock::Thick,
        _ => Lock::No,
    };
    let locks = struts.iter().zip(&body.legs).map(|(strut, leg)| {
        let rod = Leg { x: leg.x, y: leg.y, count: leg.count, grip: leg.grip, ..strut.rod() };
        (lock(strut), rod)
    });
    Fall { locks: locks.collect(), body, tells }
}

/// The whole body on all springs, those of a pair side by side or, where it comes down on one corner, each for itself.
fn together(at: &At, corners: &Map<Corner>, blow: &Blow, gauges: Option<&[f64]>) -> Found<Vec<Fall>> {
    let standing = standing(at)?;
    let whole = sprung(at, &standing)?;
    let mut struts = Vec::new();
    for (index, (corner, each)) in corners.iter().zip(&standing).enumerate() {
        let mut strut = strut(at, corner, *each)?;
        strut.leg.x = at.need(&corner.position)?.si() - whole.centre;
        strut.leg.count = at.need(&corner.count)?.si();
        strut.leg.grip = grip(at, corner)?;
        match gauges.and_then(|gauges| gauges.get(index)) {
            None => struts.push(strut),
            Some(gauge) => {
                strut.leg.count /= 2.0;
                for side in [0.5, -0.5] {
                    let leg = Leg { y: side * gauge, ..strut.leg.clone() };
                    struts.push(Strut { leg, ..strut.clone() });
                }
            }
        }
    }
    if struts.len() > LEGS {
        return Err(NotJudged::NoSolution(format!("a landing is followed on up to {LEGS} springs or axles")));
    }
    let pitches = whole.front > whole.rear;
    let gyration = if pitches { Some(pitch_gyration(at, whole.rear, whole.front)?) } else { None };
    let rolls = match gauges {
        Some(gauges) => Some(roll_gyration(at, gauges.iter().copied().fold(0.0, f64::max))?),
        None => None,
    };
    let inertia = |gyration: Option<Length>| gyration.map(|gyration| whole.mass * gyration.si() * gyration.si());
    let body = |pitch: f64, roll: f64| -> Found<Body> {
        Ok(Body {
            mass: whole.mass,
            pitch_inertia: inertia(gyration),
            roll_inertia: inertia(rolls),
            speed: blow.speed.si(),
            pitch,
            roll,
            legs: struts.iter().map(|strut| strut.leg.clone()).collect(),
            watched: payload(at, &whole)?,
        })
    };
    let pitch =
        |sign: f64| -> Found<f64> { Ok(sign * at.or(&at.case()?.pitch, &at.assumed().landing_angle)?.si().abs()) };
    let plain = |pitch: f64| -> Found<Vec<Fall>> {
        let tells = (0..corners.len()).map(|corner| (corner, corner)).collect();
        Ok(vec![fall(body(pitch, 0.0)?, &struts, tells, blow)])
    };
    match blow.attitude {
        Attitude::Tail => plain(pitch(1.0)?),
        Attitude::Nose => plain(pitch(-1.0)?),
        Attitude::OneCorner => {
            let roll = at.or(&at.case()?.roll, &at.assumed().landing_angle)?.si().abs();
            let mut falls = Vec::new();
            for (index, strut) in struts.iter().enumerate().step_by(2) {
                // Left side down, with the end low that this corner stands at.
                let body = body(pitch(if strut.leg.x > 0.0 { -1.0 } else { 1.0 })?, -roll)?;
                falls.push(fall(body, &struts, vec![(index / 2, index)], blow));
            }
            Ok(falls)
        }
        _ => plain(0.0),
    }
}

/// Where the payload sits, forward of the centre of gravity; at the centre where nobody says.
fn payload(at: &At, whole: &Sprung) -> Found<f64> {
    let carried = at.case()?.payload != Some(false);
    let place = if carried { at.try_get(&at.machine().machine.payload.at.x) } else { None };
    Ok(place.map_or(0.0, |place| place.si() - whole.centre))
}

/// Under power the track pulls forward below the centre of gravity as hard as it grips, and lifts the nose.
fn grip(at: &At, corner: &Corner) -> Found<f64> {
    if at.case()?.under_power != Some(true) || at.or_word(&corner.stands_on, Footing::Track, "track") != Footing::Track
    {
        return Ok(0.0);
    }
    let height = at.need(&at.machine().machine.centre_of_gravity.z)?;
    Ok(adhesion(at)?.si() * height.si())
}
