//! Falling on the suspension: travel and forces of each corner, and what the body feels.
//!
//! The machine is a stiff body on its springs: heave, pitch and, on one corner, roll. It is followed from first contact over
//! the second one and the rebound to the second descent. Left out: friction in bushes, the bending of the frame, and what the
//! ground swallows; each makes the blow softer than it is told here.

mod course;
mod fall;
mod falls;
mod leg;
mod oil;
mod strut;
#[cfg(test)]
mod tests;
mod weight;

pub use course::{Course, Moment, Room, course, room, viscosity};
pub use oil::{Resistance, resistance, resistance_at, with_holes};
pub use strut::{ends, mount_stiffness, solid_length, spring_rate};
pub use weight::standing;

use crate::at::{At, Solve};
use crate::drive::driven_mass;
use fall::{Body, Landed, NoEnd, Peak};
use falls::{Fall, Lock, falls};
use leg::Leg;
use machine::{Attitude, CaseKind, Corner, Found, Named, NotJudged};
use quantity::*;

#[derive(Debug, Clone, PartialEq)]
pub struct Landing {
    pub impact_speed: Velocity,
    /// In the order of the machine's corners; a corner that this attitude does not load has zeros.
    pub corners: Vec<Found<CornerLanding>>,
    /// What the body feels; a gap where the corners have one.
    pub body: Found<BodyLanding>,
}

/// The worst of one corner. Where its damper does not flow, the forces are those of a damper that is locked and the travel
/// that of one that is not there, whichever is more.
#[derive(Debug, Clone, PartialEq)]
pub struct CornerLanding {
    /// At the damper, from the fully extended position, static sag included; past the stop it counts what the structure gives.
    pub damper_travel: Length,
    /// Static sag at the damper.
    pub sag: Length,
    /// Highest force of one spring, stop and damper together, at the damper: what each of the strut's two mounts takes.
    pub force: Force,
    /// Force of the stop alone at the deepest point.
    pub stop_force: Force,
    pub bottomed: bool,
    /// Highest deceleration of the sprung mass over this corner.
    pub deceleration: Acceleration,
    /// The damper's oil is colder than its pour point: its forces are those of a rod, its travel that without a damper.
    pub damper_gelled: bool,
    /// Least and most of the travel, and of the mount's force, with mount and ground between half and twice as stiff, and
    /// an airtime read a frame of film too short.
    pub travel_band: (Length, Length),
    pub force_band: (Force, Force),
    /// When the force is highest, after first contact of the machine.
    pub peak_at: Time,
    /// When this corner's wheel first touches, and how long it then stays on the ground; nothing where it stays in the air.
    pub touches_at: Option<Time>,
    pub contact_lasts: Time,
    /// Highest push of the ground on one wheel.
    pub ground_force: Force,
    /// Highest speed at which the damper is pushed in.
    pub damper_speed: Velocity,
}

/// What the body feels of a landing.
#[derive(Debug, Clone, PartialEq)]
pub struct BodyLanding {
    /// Mass that comes down on the springs, or on the hull.
    pub mass: Mass,
    /// Highest deceleration of its centre of gravity.
    pub deceleration: Acceleration,
    /// Highest deceleration where the payload sits.
    pub payload_deceleration: Acceleration,
    /// Of the fall at first contact, wheels and all.
    pub energy: Energy,
    /// What of it is left in motion, height and springs while it comes up again, and its highest upward speed then.
    pub energy_left: Energy,
    pub rebound: Velocity,
    /// On its back or its side no spring helps: force with which the hull meets the ground.
    pub hull_force: Option<Force>,
}

/// How a case comes down.
#[derive(Debug, Clone, Copy)]
struct Blow {
    speed: Velocity,
    /// With an airtime that is a frame of film longer than it was read.
    fastest: Velocity,
    attitude: Attitude,
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
    /// The least and the deepest travel of a corner in a landing with mount and ground twice as stiff, and half; nothing where
    /// the landing spares the corner. Either may be the deeper one, for a wheel that rings on its ground can come up as the
    /// spring goes down.
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
    pub fn spring_rate(&self, spring: &machine::Spring) -> Found<SpringRate> {
        spring_rate(self, spring)
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
    let blow = blow(at)?;
    let falls = falls(at, &blow)?;
    let mut corners: Vec<Found<CornerLanding>> =
        falls.gaps.into_iter().map(|gap| gap.map_or_else(|| Ok(unloaded()), Err)).collect();
    let gap = corners.iter().find_map(|corner| corner.as_ref().err().cloned());
    let mut body: Option<Found<BodyLanding>> = gap.map(Err);
    for fall in &falls.falls {
        let landed = land(fall, &blow);
        for (corner, leg) in &fall.tells {
            let of = at.machine().suspension.get(*corner);
            let Some((of, place)) = of.zip(corners.get_mut(*corner)) else { continue };
            *place = match &landed {
                Ok(landed) => landed.corner(at, of, *leg, *corner),
                Err(NoEnd) => Err(no_end(of)),
            };
        }
        if let Ok(landed) = &landed {
            let felt = landed.body(fall);
            body = Some(match body {
                Some(Ok(other)) => Ok(other.or_worse(felt)),
                Some(Err(gap)) => Err(gap),
                None => Ok(felt),
            });
        }
    }
    let body = match body {
        Some(body) => body,
        None => hull(at, &blow),
    };
    Ok(Landing { impact_speed: blow.speed, corners, body })
}

/// A frame of film at 25 frames a second: as exactly as an airtime is read off. Common practice.
const FRAME: f64 = 0.04;

fn blow(at: &At) -> Found<Blow> {
    let case = at.case()?;
    let fallen = |drop| physics::landing::impact_speed(drop);
    let (speed, fastest) = match (at.try_get(&case.drop), at.try_get(&case.airtime)) {
        (Some(drop), _) => (fallen(drop), fallen(drop)),
        (None, Some(airtime)) => {
            let after = |airtime| fallen(physics::landing::drop_from_airtime(airtime));
            (after(airtime), after(airtime + Time::from_si(FRAME)))
        }
        (None, None) => {
            let drop = at.need(&case.drop)?;
            (fallen(drop), fallen(drop))
        }
    };
    Ok(Blow { speed, fastest, attitude: at.or_word(&case.attitude, Attitude::Level, "level") })
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
        travel_band: (Length::ZERO, Length::ZERO),
        force_band: (Force::ZERO, Force::ZERO),
        peak_at: Time::ZERO,
        touches_at: None,
        contact_lasts: Time::ZERO,
        ground_force: Force::ZERO,
        damper_speed: Velocity::ZERO,
    }
}

/// A blow on a rod is over long before, s.
const FIRST_BLOW: f64 = 0.15;

/// A fall once with dampers that flow or are not there, and once with rods, if any of them may be one.
#[derive(Debug, Clone)]
struct Both {
    free: Landed,
    rods: Option<Landed>,
}

impl Both {
    fn of(fall: &Fall, times: f64, speed: Velocity) -> Result<Self, NoEnd> {
        let with = |leg: &dyn Fn(usize, &Leg) -> Leg, window: f64| {
            let legs = fall.body.legs.iter().enumerate().map(|(index, own)| leg(index, own).stiffer(times)).collect();
            let body = Body { legs, speed: speed.si(), ..fall.body.clone() };
            body.come_down(window)
        };
        let window = fall.body.window();
        // A rod springs back with all that it took, which no real one does: only its first blows count.
        let first_blows = window.min(fall.body.until_all_touch() + FIRST_BLOW);
        let rod = |index: usize, own: &Leg| match fall.locks.get(index) {
            Some((Lock::Thick | Lock::Gelled, rod)) => rod.clone(),
            _ => own.clone(),
        };
        let locks = fall.locks.iter().any(|(lock, _)| *lock != Lock::No);
        Ok(Self {
            free: with(&|_, own| own.clone(), window)?,
            rods: if locks { Some(with(&rod, first_blows)?) } else { None },
        })
    }

    /// Of a leg: a gelled damper is the worse of a rod and of none, one that is hardly to be moved pushes no harder than a rod.
    fn peak(&self, leg: usize, fall: &Fall) -> Peak {
        let free = self.free.legs.get(leg).copied().unwrap_or_default();
        let Some(rod) = self.rods.as_ref().and_then(|rods| rods.legs.get(leg)).copied() else { return free };
        let gelled = fall.locks.iter().any(|(lock, _)| *lock == Lock::Gelled);
        let own = fall.locks.get(leg).map_or(Lock::No, |lock| lock.0);
        let harder = rod.force > free.force;
        let rules = match own {
            Lock::Gelled => harder,
            Lock::Thick => !harder,
            Lock::No => gelled && harder,
        };
        let by = if rules { rod } else { free };
        Peak { travel: free.travel, stop_force: free.stop_force, speed: free.speed, ..by }
    }
}

/// As the spec has it, and with mount and ground half and twice as stiff.
struct Landings<'a> {
    fall: &'a Fall,
    nominal: Both,
    soft: Both,
    stiff: Both,
}

fn land<'a>(fall: &'a Fall, blow: &Blow) -> Result<Landings<'a>, NoEnd> {
    Ok(Landings {
        fall,
        nominal: Both::of(fall, 1.0, blow.speed)?,
        soft: Both::of(fall, 0.5, blow.fastest)?,
        stiff: Both::of(fall, 2.0, blow.fastest)?,
    })
}

impl Landings<'_> {
    fn corner(&self, at: &At, corner: &Named<Corner>, leg: usize, index: usize) -> Found<CornerLanding> {
        let peak = self.nominal.peak(leg, self.fall);
        self.known(at, corner, &peak)?;
        let (sag, end) = (sag(at, corner)?.si(), at.need(&corner.damper_travel)?.si());
        // It may stop on its first bounce; in the end it stands no higher than its weight lets it.
        let stands = at_rest(at, corner, index)?.min(end);
        let travel = |peak: &Peak| peak.travel.max(stands);
        let all = [&self.nominal, &self.soft, &self.stiff].map(|both| both.peak(leg, self.fall));
        let least = |figure: &dyn Fn(&Peak) -> f64| all.iter().map(figure).fold(f64::INFINITY, f64::min);
        let most = |figure: &dyn Fn(&Peak) -> f64| all.iter().map(figure).fold(0.0, f64::max);
        let force = |peak: &Peak| peak.force;
        Ok(CornerLanding {
            damper_travel: Length::from_si(travel(&peak)),
            sag: Length::from_si(sag.min(end)),
            force: Force::from_si(peak.force),
            stop_force: Force::from_si(peak.stop_force),
            bottomed: peak.stop_force > 0.0,
            deceleration: Acceleration::from_si(peak.deceleration),
            damper_gelled: self.fall.locks.get(leg).is_some_and(|(lock, _)| *lock == Lock::Gelled),
            travel_band: (Length::from_si(least(&travel)), Length::from_si(most(&travel))),
            force_band: (Force::from_si(least(&force)), Force::from_si(most(&force))),
            peak_at: Time::from_si(peak.force_at),
            touches_at: peak.touches.map(Time::from_si),
            contact_lasts: Time::from_si(peak.stays),
            ground_force: Force::from_si(peak.ground),
            damper_speed: Velocity::from_si(peak.speed),
        })
    }

    /// A maker's curve is known up to some speed.
    fn known(&self, at: &At, corner: &Corner, peak: &Peak) -> Found<()> {
        let Some(damper) = at.try_part(&corner.damper) else { return Ok(()) };
        let Resistance::Flows { bump, .. } = resistance(at, damper)? else { return Ok(()) };
        if peak.speed <= bump.known_to() {
            return Ok(());
        }
        Err(NotJudged::OutsideRange {
            of: "speed of the damper, to twice the last point of its curve".into(),
            unit: "m/s",
            from: 0.0,
            to: bump.known_to(),
            was: peak.speed,
        })
    }

    fn body(&self, fall: &Fall) -> BodyLanding {
        let (free, rods) = (&self.nominal.free, self.nominal.rods.as_ref());
        let gelled = fall.locks.iter().any(|(lock, _)| *lock == Lock::Gelled);
        let worse = |figure: fn(&Landed) -> f64| match rods.map(figure) {
            Some(rods) if gelled => figure(free).max(rods),
            Some(rods) => figure(free).min(rods),
            None => figure(free),
        };
        BodyLanding {
            mass: Mass::from_si(fall.body.mass),
            deceleration: Acceleration::from_si(worse(|landed| landed.deceleration)),
            payload_deceleration: Acceleration::from_si(worse(|landed| landed.watched_deceleration)),
            energy: Energy::from_si(free.energy),
            energy_left: Energy::from_si(worse(|landed| landed.energy_left)),
            rebound: Velocity::from_si(worse(|landed| landed.rebound)),
            hull_force: None,
        }
    }
}

impl BodyLanding {
    /// Of landings on one corner or another.
    fn or_worse(self, other: Self) -> Self {
        if other.deceleration > self.deceleration { other } else { self }
    }
}

/// On back or side: the whole machine on a structure that gives as much as a mount, and on its ground.
fn hull(at: &At, blow: &Blow) -> Found<BodyLanding> {
    let mass = driven_mass(at)?;
    let (hull, ground) = (at.need(&at.assumed().mount_stiffness)?.si(), strut::ground_stiffness(at)?);
    let rate = SpringRate::from_si(1.0 / (1.0 / hull + 1.0 / ground));
    let cushion = physics::landing::Cushion { rate, preload: Force::ZERO };
    let force = cushion.force(cushion.peak_depth(mass, blow.speed));
    let felt = Acceleration::from_si(force.si() / mass.si() - physics::landing::GRAVITY);
    Ok(BodyLanding {
        mass,
        deceleration: felt,
        payload_deceleration: felt,
        energy: Energy::from_si(0.5 * mass.si() * blow.speed.si() * blow.speed.si()),
        energy_left: Energy::ZERO,
        rebound: Velocity::ZERO,
        hull_force: Some(force),
    })
}

/// The band of a guessed compliance, see [`At::travel_band`].
fn travel_band(at: &At, corner: &Named<Corner>) -> Found<Option<(Length, Length)>> {
    let index = at.machine().suspension.iter().position(|other| other.id() == corner.id());
    let Some(index) = index else { return Ok(None) };
    match at.landing()?.corners.get(index) {
        Some(Ok(landed)) if landed.force == Force::ZERO => Ok(None),
        Some(Ok(landed)) => Ok(Some(landed.travel_band)),
        Some(Err(gap)) => Err(gap.clone()),
        None => Ok(None),
    }
}

/// Deflection at which a spring that nothing guides bows out; nothing where it cannot.
///
/// # Errors
/// A gap, or a Poisson's ratio that no wire has.
pub fn buckles_at(at: &At, spring: &machine::Spring) -> Found<Option<Length>> {
    let material = at.machine().follow(at.part(&spring.material)?);
    let (free, mean) = (at.need(&spring.free_length)?, at.need(&spring.mean_diameter)?);
    let seats = physics::spring_limits::Seats::BothGuided;
    physics::spring_limits::buckles_at(free, mean, at.need(&material.poisson)?, seats).map_err(crate::drive::outside)
}

/// The highest drop of a case's attitude at which the mount of a corner gets no more than a force; nothing where even a step
/// is too much, or 10 m are not.
///
/// # Errors
/// A gap, or the attitude spares this corner.
pub fn drop_for(at: &At, index: usize, force: Force) -> Found<Option<Length>> {
    let blow = blow(at)?;
    let falls = falls(at, &blow)?;
    let told = falls.falls.iter().find_map(|fall| Some((fall, fall.tells.iter().find(|(of, _)| *of == index)?.1)));
    let Some((fall, leg)) = told else {
        return Err(NotJudged::NoSolution("this landing spares the corner".into()));
    };
    let holds = |drop: f64| {
        let landed = Both::of(fall, 1.0, physics::landing::impact_speed(Length::from_si(drop)));
        landed.is_ok_and(|both| both.peak(leg, fall).force <= force.si())
    };
    let (mut low, mut high) = (1e-3, 10.0);
    if !holds(low) || holds(high) {
        return Ok(None);
    }
    for _ in 0..12 {
        let middle = f64::sqrt(low * high);
        if holds(middle) { low = middle } else { high = middle }
    }
    Ok(Some(Length::from_si(low)))
}

fn no_end(corner: &Named<Corner>) -> NotJudged {
    let name = corner.name();
    NotJudged::NoSolution(format!(
        "the motion of corner {name} does not come to an end: one of its masses, rates or ratios is zero or far off"
    ))
}

/// Static, at the damper, as if its stroke had no end, loaded as it was weighed.
pub(crate) fn sag(at: &At, corner: &Corner) -> Found<Length> {
    sag_under(at, corner, at.need(&corner.sprung_mass_each)?)
}

/// As the case drives it, at the damper, m.
fn at_rest(at: &At, corner: &Corner, index: usize) -> Found<f64> {
    let each = match standing(at)?.get(index) {
        Some(each) => *each,
        None => at.need(&corner.sprung_mass_each)?,
    };
    Ok(sag_under(at, corner, each)?.si())
}

/// Static sag at the damper under a mass on one spring, as if the stroke had no end.
///
/// # Errors
/// A gap.
pub fn sag_under(at: &At, corner: &Corner, mass: Mass) -> Found<Length> {
    let (rate, ratio) = (spring_rate(at, at.part(&corner.spring)?)?, at.need(&corner.motion_ratio)?);
    let preload = Force::from_si(rate.si() * at.need(&corner.preload.collar)?.si());
    let rests_on = physics::landing::at_wheel(rate, preload, ratio);
    Ok(Length::from_si(physics::landing::sag(&rests_on, mass).si() * ratio.si()))
}
