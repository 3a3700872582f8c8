//! What a landing weighs: the mass on each spring, loaded or empty, and the body that they make together.

use crate::at::At;
use crate::drive::driven_mass;
use machine::{Corner, Found, Map, NotJudged};
use quantity::*;

/// Mass on one spring of each corner while the machine stands as this case drives it: as weighed, and without the payload
/// where it is driven empty.
///
/// # Errors
/// A gap, or a payload that weighs more than what stands on an axle.
pub fn standing(at: &At) -> Found<Vec<Mass>> {
    let corners = &at.machine().suspension;
    let mut each = Vec::with_capacity(corners.len());
    for corner in corners {
        each.push(at.need(&corner.sprung_mass_each)?);
    }
    if at.case()?.payload != Some(false) {
        return Ok(each);
    }
    let payload = &at.machine().machine.payload;
    let (mass, x) = (at.need(&payload.mass)?.si(), at.need(&payload.at.x)?.si());
    let shares = shares(at, corners, x)?;
    for ((each, corner), share) in each.iter_mut().zip(corners).zip(shares) {
        *each -= Mass::from_si(share * mass / at.need(&corner.count)?.si());
        if each.si() <= 0.0 {
            return Err(NotJudged::NoSolution("the payload weighs more than what stands on one axle".into()));
        }
    }
    Ok(each)
}

/// Share of a weight at x that each axle carries: by the lever between the two axles beside it.
fn shares(at: &At, corners: &Map<Corner>, x: f64) -> Found<Vec<f64>> {
    let mut places = Vec::with_capacity(corners.len());
    for corner in corners {
        places.push(at.need(&corner.position)?.si());
    }
    let all_behind = places.iter().all(|place| *place <= x);
    let all_ahead = places.iter().all(|place| *place >= x);
    let mut sorted = places.clone();
    sorted.sort_by(f64::total_cmp);
    sorted.dedup();
    let pair = match sorted.as_slice() {
        [.., last, end] if all_behind => Some((*last, *end)),
        [first, next, ..] if all_ahead => Some((*first, *next)),
        _ => sorted.windows(2).find_map(|pair| match pair {
            [rear, front] if *rear <= x && x <= *front => Some((*rear, *front)),
            _ => None,
        }),
    };
    let alike = |place: f64| places.iter().filter(|other| **other == place).count() as f64;
    Ok(places
        .iter()
        .map(|place| match pair {
            None => 1.0 / places.len() as f64,
            Some((rear, front)) if *place == front => (x - rear) / (front - rear) / alike(front),
            Some((rear, front)) if *place == rear => (front - x) / (front - rear) / alike(rear),
            Some(_) => 0.0,
        })
        .collect())
}

/// The sprung body: its mass, its centre of gravity forward of the rear idler's axle, and its springs' outermost places.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sprung {
    pub mass: f64,
    pub centre: f64,
    pub rear: f64,
    pub front: f64,
}

pub(super) fn sprung(at: &At, standing: &[Mass]) -> Found<Sprung> {
    let (mut mass, mut moment, mut ends) = (0.0, 0.0, (f64::INFINITY, f64::NEG_INFINITY));
    for (corner, each) in at.machine().suspension.iter().zip(standing) {
        let (on, x) = (at.need(&corner.count)?.si() * each.si(), at.need(&corner.position)?.si());
        mass += on;
        moment += on * x;
        ends = (ends.0.min(x), ends.1.max(x));
    }
    if !(mass > 0.0 && mass.is_finite()) {
        return Err(NotJudged::NoSolution("no mass stands on the springs".into()));
    }
    Ok(Sprung { mass, centre: moment / mass, rear: ends.0, front: ends.1 })
}

/// Pitch radius of gyration: as given, or a share of the machine's length on the ground, or of that between its outermost springs.
pub(super) fn pitch_gyration(at: &At, rear: f64, front: f64) -> Found<Length> {
    let about = &at.machine().machine;
    match at.try_get(&about.pitch_gyration) {
        Some(gyration) => Ok(gyration),
        // One axle alone has no length that a share could be taken of.
        None if front <= rear => at.need(&about.pitch_gyration),
        None => {
            let ground = &about.footprint;
            let behind = at.or_take(&ground.rear, Length::from_si(rear), "at the rearmost spring");
            let ahead = at.or_take(&ground.front, Length::from_si(front), "at the foremost spring");
            let length = (ahead - behind).si().max(front - rear);
            Ok(Length::from_si(at.need(&at.assumed().gyration_share)?.si() * length))
        }
    }
}

/// Roll radius of gyration: as given, or the same share of the gauge.
pub(super) fn roll_gyration(at: &At, gauge: f64) -> Found<Length> {
    match at.try_get(&at.machine().machine.roll_gyration) {
        Some(gyration) => Ok(gyration),
        None => Ok(Length::from_si(at.need(&at.assumed().gyration_share)?.si() * gauge)),
    }
}

/// Mass that one spring feels which meets the ground alone, its unsprung share taken off; `springs` share it.
pub(super) fn alone(at: &At, corner: &Corner, ends: (f64, f64), springs: f64) -> Found<Mass> {
    let beside =
        Length::from_si(at.need(&corner.position)?.si() - at.need(&at.machine().machine.centre_of_gravity.x)?.si());
    let whole = physics::landing::effective_mass(driven_mass(at)?, pitch_gyration(at, ends.0, ends.1)?, beside);
    let sprung = whole / springs - at.need(&corner.unsprung_mass_each)?;
    if sprung.si() > 0.0 {
        return Ok(sprung);
    }
    Err(NotJudged::NoSolution("less mass comes down on this corner than its unsprung parts weigh".into()))
}
