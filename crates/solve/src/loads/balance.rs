//! All forces on the machine in one case, which have to be in balance: weight, ground, and what slows or turns it.

use crate::at::At;
use crate::drive::driven_mass;
use machine::{CaseKind, Found, NotJudged};
use physics::landing::{GRAVITY, force_at_wheel};
use quantity::*;

/// A force on the machine at a place: forward of the rear idler's axle and above the ground, in the machine's own directions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Acts {
    pub what: &'static str,
    pub x: f64,
    pub z: f64,
    pub forward: f64,
    pub up: f64,
}

/// Everything that acts on the machine.
#[derive(Debug, Clone, PartialEq)]
pub struct Balance {
    pub acts: Vec<Acts>,
    /// Moments that are no force at a distance: what resists being pitched.
    pub turns: f64,
}

impl Balance {
    /// What is left over: forward, up, and about the origin, each as a share of the largest that acts.
    #[must_use]
    pub fn left_over(&self) -> [f64; 3] {
        let sum = |of: &dyn Fn(&Acts) -> f64| {
            let most = self.acts.iter().map(|a| of(a).abs()).fold(0.0, f64::max);
            (self.acts.iter().map(of).sum::<f64>(), most)
        };
        let largest = self.acts.iter().map(|a| a.forward.hypot(a.up)).fold(f64::MIN_POSITIVE, f64::max);
        let (forward, _) = sum(&|a| a.forward);
        let (up, _) = sum(&|a| a.up);
        let (about, most) = sum(&|a| a.x * a.up - a.z * a.forward);
        let most = most.max(self.turns.abs()).max(f64::MIN_POSITIVE);
        [forward / largest, up / largest, (about + self.turns) / most]
    }

    /// Force of the ground on each end, upward, in order from the rear.
    #[must_use]
    pub fn ground(&self) -> Vec<(Length, Force)> {
        let ground = self.acts.iter().filter(|act| act.what == "ground");
        ground.map(|act| (Length::from_si(act.x), Force::from_si(act.up))).collect()
    }
}

/// The balance of a drive or of a landing.
///
/// Driving: the ground carries the machine on its rearmost and its foremost corner; the track's pull (less what it takes to roll)
/// acts at the ground. Landing: the highest force of each corner, at one moment; payload and the rest of the machine each resist with
/// their mass, and turn about their common centre of gravity.
///
/// # Errors
/// A gap, or a case in which the machine neither drives nor lands.
pub fn balance(at: &At) -> Found<Balance> {
    match at.case()?.kind {
        CaseKind::Landing => landing(at),
        CaseKind::Climb | CaseKind::Descent | CaseKind::Cruise => driving(at),
        _ => Err(NotJudged::NoSolution("the machine neither drives nor lands in this case".into())),
    }
}

fn corners(at: &At) -> Found<Vec<f64>> {
    at.machine().suspension.iter().map(|corner| Ok(at.need(&corner.value.position)?.si())).collect()
}

fn driving(at: &At) -> Found<Balance> {
    let about = &at.machine().machine;
    let (mass, case) = (driven_mass(at)?.si(), at.case()?);
    let (x, z) = (at.need(&about.centre_of_gravity.x)?.si(), at.need(&about.centre_of_gravity.z)?.si());
    let grade = match case.kind {
        CaseKind::Climb => at.need(&case.grade)?.si(),
        CaseKind::Descent => -at.need(&case.grade)?.si(),
        _ => at.or_take(&case.grade, Angle::ZERO, "level").si(),
    };
    let places = corners(at)?;
    let rear = places.iter().copied().fold(f64::INFINITY, f64::min);
    let front = places.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if front.partial_cmp(&rear) != Some(std::cmp::Ordering::Greater) {
        return Err(NotJudged::NoSolution(
            "two sprung corners at two positions are needed to carry the machine".into(),
        ));
    }
    let (down, back) = (mass * GRAVITY * grade.cos(), mass * GRAVITY * grade.sin());
    // About the rear contact: weight and its slope against the front contact.
    let on_front = (down * (x - rear) - back * z) / (front - rear);
    let on_rear = down - on_front;
    let acts = vec![
        Acts { what: "weight", x, z, forward: -back, up: -down },
        Acts { what: "ground", x: rear, z: 0.0, forward: 0.0, up: on_rear },
        Acts { what: "ground", x: front, z: 0.0, forward: 0.0, up: on_front },
        Acts { what: "track", x: rear, z: 0.0, forward: back, up: 0.0 },
    ];
    Ok(Balance { acts, turns: 0.0 })
}

fn landing(at: &At) -> Found<Balance> {
    let (machine, about) = (at.machine(), &at.machine().machine);
    let landing = at.landing()?;
    let mass = driven_mass(at)?.si();
    let (x, z) = (at.need(&about.centre_of_gravity.x)?.si(), at.need(&about.centre_of_gravity.z)?.si());
    let mut acts = Vec::new();
    for (corner, landed) in machine.suspension.iter().zip(&landing.corners) {
        let each = force_at_wheel(landed.clone()?.force, at.need(&corner.value.motion_ratio)?).si();
        let up = each * at.need(&corner.value.count)?.si();
        acts.push(Acts { what: "ground", x: at.need(&corner.value.position)?.si(), z: 0.0, forward: 0.0, up });
    }
    let places = corners(at)?;
    let span =
        places.iter().copied().fold(f64::NEG_INFINITY, f64::max) - places.iter().copied().fold(f64::INFINITY, f64::min);
    let gyration = match at.try_get(&about.pitch_gyration) {
        Some(gyration) => gyration.si(),
        None => at.need(&at.assumed().gyration_share)?.si() * span,
    };
    let up: f64 = acts.iter().map(|act| act.up).sum();
    let about_middle: f64 = acts.iter().map(|act| act.up * (act.x - x)).sum();
    let inertia = mass * gyration * gyration;
    let (lifts, pitches) = (up / mass, about_middle / inertia);
    // Payload and rest, each with the mass that it has and the place that makes the whole what it is.
    let payload = match at.case()?.payload {
        Some(false) => 0.0,
        _ => at.try_get(&about.payload.mass).map_or(0.0, |mass| mass.si()),
    };
    let payload_x = at.try_get(&about.payload.at.x).map_or(x, |x| x.si());
    let payload_z = at.try_get(&about.payload.at.z).map_or(z, |z| z.si());
    let rest = mass - payload;
    let (rest_x, rest_z) = ((mass * x - payload * payload_x) / rest, (mass * z - payload * payload_z) / rest);
    let mut own = inertia;
    for (m, px, pz) in [(payload, payload_x, payload_z), (rest, rest_x, rest_z)] {
        // What a lump resists with: weight and deceleration, and its share of the pitching.
        let slows = lifts + pitches * (px - x);
        let swings = -pitches * (pz - z);
        acts.push(Acts { what: "mass", x: px, z: pz, forward: -m * swings, up: -m * slows });
        own -= m * ((px - x).powi(2) + (pz - z).powi(2));
    }
    Ok(Balance { acts, turns: -own * pitches })
}
