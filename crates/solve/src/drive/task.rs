//! What the machine can do of what a case asks: how hard it pulls and how steep it climbs, how fast it goes on the level, in
//! what distance it stops on a slope, and what holds it there.
//!
//! The drive line is the whole one, with its stages, controllers and battery; the air's drag is left out, and so is the motor's
//! warmth. A braking motor is taken at the controller's current limit, whether or not a full battery takes the current.

#[cfg(test)]
mod tests;

use crate::at::At;
use crate::drive::ground::{Footing, Ground};
use crate::drive::line::{Charge, Line};
use crate::drive::ways::{most, rising_zero};
use crate::drive::{driven_mass, ground};
use machine::{BrakingKind, Found};
use quantity::*;

/// As good as standing, and slow enough that the motor's own voltage is nothing; a motor that creeps has its drag, one that
/// stands has none.
const CRAWL: f64 = 1e-9;

/// What a case asks on its grade, and what there is.
#[derive(Debug, Clone, PartialEq)]
pub struct Uphill {
    /// As asked; nothing where the case asks only that it gets going.
    pub speed: Option<Velocity>,
    pub grade: Angle,
    /// To go steadily, all tracks together.
    pub needs: Force,
    /// The most that the drive line pulls at that speed.
    pub pulls: Force,
    /// Beyond it the tracks spin.
    pub grip: Force,
    /// What gives out first at that speed, enough or not: `the tracks slip`, `the motor current limit is reached` …
    pub first: &'static str,
    /// The steepest grade that it climbs at that speed; nothing where it does not even go on the level.
    pub steepest: Option<Angle>,
    /// The fastest that it goes on this grade; zero where it does not.
    pub fastest: Velocity,
}

/// How a machine comes to a standstill on a slope, and whether it does.
#[derive(Debug, Clone, PartialEq)]
pub struct Stop {
    pub speed: Velocity,
    pub grade: Angle,
    /// Pull of the slope, downhill.
    pub slope: Force,
    pub rolling: Force,
    /// What brakes beside the ground, as far as the tracks grip.
    pub brake: Force,
    /// `the motor`, `the mechanical brake`, `nothing but the ground`.
    pub by: &'static str,
    /// The tracks slide before the brake is at its end.
    pub slides: bool,
    /// The driver's reaction counted; nothing where it does not stop.
    pub distance: Option<Length>,
}

/// What keeps a machine on a slope with everything switched off, or as the controller holds it.
#[derive(Debug, Clone, PartialEq)]
pub struct Hold {
    pub grade: Angle,
    pub slope: Force,
    /// As far as the tracks grip, and what the other support rubs with.
    pub holds: Force,
    /// `the parking brake`, `the motor under current`, `nothing but the ground`.
    pub by: &'static str,
}

const SLIPS: &str = "the tracks slip";

/// The hardest that the line pulls at a speed, and what ends it.
fn hardest(line: &Line, speed: f64) -> (f64, &'static str) {
    if line.held_back_at().is_some_and(|held_back| speed > held_back) {
        return (0.0, "the controller's speed limit is reached");
    }
    let limit = line.motor_limit.map_or_else(|| line.stall_current(), |limit| limit.si());
    let by_motor = line.pull_at(speed, limit).max(0.0);
    let mut least = (by_motor, "the motor current limit is reached");
    let mut lower = |pull: f64, why| {
        if pull < least.0 {
            least = (pull, why);
        }
    };
    let (power, why) = match line.power_at_limit() {
        Some(power) => (power, "the battery current limit is reached"),
        None => (most(line), "the battery gives no more"),
    };
    let none = |found: Option<f64>| found.unwrap_or(0.0);
    lower(none(rising_zero(by_motor, |pull| line.working(speed, pull).battery_power - power)), why);
    lower(none(rising_zero(by_motor, |pull| line.volts_short(speed, pull))), "the voltage is used up");
    // A motor faster than the voltage drives it free has none left.
    if line.volts_short(speed, 0.0) >= 0.0 {
        return (0.0, "the voltage is used up");
    }
    least
}

/// The fastest at which the line still pulls a force, and what ends it.
fn fastest_for(line: &Line, force: f64) -> (f64, &'static str) {
    let (crawl, why) = hardest(line, CRAWL);
    if crawl < force {
        return (0.0, why);
    }
    let free = line.free_speed();
    let speed = rising_zero(free - CRAWL, |above| force - hardest(line, CRAWL + above).0).unwrap_or(0.0) + CRAWL;
    let held_back = line.held_back_at().filter(|held_back| *held_back < speed * (1.0 + 1e-9));
    match held_back {
        Some(held_back) => (held_back, "the controller's speed limit is reached"),
        None => (speed, hardest(line, speed * (1.0 - 1e-6)).1),
    }
}

/// What the case asks uphill or on the level, and what there is, as charged on average.
///
/// # Errors
/// A gap.
pub fn uphill(at: &At) -> Found<Uphill> {
    let Ground { resistance, traction, rolling, mass, grade, footing } = ground(at)?;
    let line = Line::read(at, Charge::Nominal)?;
    let asked = at.try_get(&at.case()?.speed);
    let (pulls, why) = hardest(&line, asked.map_or(CRAWL, |speed| speed.si().max(CRAWL)));
    let pulls = Force::from_si(pulls);
    let by_grip = steepest_by_grip(footing, rolling);
    let by_motor = physics::task::steepest_for(pulls, rolling, mass);
    let (steepest, slips) = match (by_grip, by_motor) {
        (Some(grip), Some(motor)) if grip < motor => (Some(grip), true),
        (None, Some(_)) => (None, true),
        (None, None) => (None, footing.grip(mass, Angle::ZERO) < pulls),
        (_, motor) => (motor, false),
    };
    let fastest = if resistance > traction { 0.0 } else { fastest_for(&line, resistance.si()).0 };
    Ok(Uphill {
        speed: asked,
        grade,
        needs: resistance,
        pulls,
        grip: traction,
        first: if slips { SLIPS } else { why },
        steepest,
        fastest: Velocity::from_si(fastest),
    })
}

fn steepest_by_grip(footing: Footing, rolling: Ratio) -> Option<Angle> {
    physics::task::steepest_by_grip(footing.adhesion, footing.share, rolling, footing.lever)
}

/// The fastest on the ground of the case with a full battery, and what ends it; zero where it does not move at all.
///
/// # Errors
/// A gap.
pub fn fastest_on_the_level(at: &At) -> Found<(Velocity, &'static str)> {
    let ground = ground(at)?;
    let line = Line::read(at, Charge::Full)?;
    if ground.resistance > ground.traction {
        return Ok((Velocity::ZERO, SLIPS));
    }
    let (speed, why) = fastest_for(&line, ground.resistance.si());
    Ok((Velocity::from_si(speed), why))
}

/// Pull of the slope, rolling resistance and grip, all of them forces that count.
struct Slope {
    grade: Angle,
    pull: Force,
    rolling: Force,
    grip: Force,
    /// Of what does not stand on the tracks, as part of `rolling`.
    dragging: Force,
    mass: Mass,
}

/// Facing downhill whatever the case does there.
fn slope(at: &At) -> Found<Slope> {
    let ground = ground(at)?;
    let grade = ground.grade.abs();
    let mass = driven_mass(at)?;
    let footing = ground.footing;
    let on_tracks = physics::task::share_on_grade(footing.share, footing.lever, ground.grade);
    let rolling = physics::drive::rolling_resistance(ground.rolling, mass, grade);
    Ok(Slope {
        grade,
        pull: physics::drive::grade_resistance(mass, grade),
        dragging: rolling * (Ratio::from_si(1.0) - on_tracks),
        rolling,
        grip: footing.grip(mass, ground.grade),
        mass,
    })
}

fn lower(one: Force, other: Force) -> Force {
    if other < one { other } else { one }
}

const GROUND: &str = "nothing but the ground";

/// How it stops from the case's speed on the case's slope.
///
/// # Errors
/// A gap.
pub fn stop(at: &At) -> Found<Stop> {
    let speed = at.need(&at.case()?.speed)?;
    let Slope { grade, pull, rolling, grip, mass, .. } = slope(at)?;
    let powertrain = &at.machine().powertrain;
    let braking = at.part(&powertrain.controller.braking)?;
    let kind = braking.by.unwrap_or(BrakingKind::Regenerative);
    let (wants, by) = match kind {
        BrakingKind::None => (Force::ZERO, GROUND),
        BrakingKind::Mechanical => (at.need(&braking.force)?, "the mechanical brake"),
        BrakingKind::Regenerative => {
            let limit = at.need(&powertrain.controller.current_limit.motor)?;
            let line = Line::read(at, Charge::Nominal)?;
            (Force::from_si(-line.pull_at(speed.si().max(CRAWL), -limit.si())), "the motor")
        }
        // Its pull fades with the speed: what holds the case's speed does not stop the machine.
        BrakingKind::ShortedWindings if pull > rolling => (Force::ZERO, "windings that are shorted only slow it down"),
        BrakingKind::ShortedWindings => (Force::ZERO, GROUND),
    };
    let brake = lower(wants, grip);
    let turning = turning(at, mass)?;
    let slows = physics::task::deceleration(brake, rolling, pull, mass, turning);
    let reaction = at.need(&at.assumed().reaction_time)?;
    Ok(Stop {
        speed,
        grade,
        slope: pull,
        rolling,
        brake,
        by,
        slides: wants > grip,
        distance: physics::task::stopping_distance(speed, reaction, slows),
    })
}

/// How much heavier the rotors make the machine; nothing where nobody says what turns.
fn turning(at: &At, mass: Mass) -> Found<Ratio> {
    let Some(inertia) = at.try_get(&at.machine().powertrain.motor.rotor_inertia) else {
        return Ok(Ratio::from_si(1.0));
    };
    let line = Line::read(at, Charge::Nominal)?;
    let (motors, ratio) = (Ratio::from_si(line.motors()), Ratio::from_si(line.ratio()));
    Ok(physics::task::rotating_mass_factor(motors, inertia, ratio, Length::from_si(line.pitch_radius()), mass))
}

/// What keeps it on the case's slope.
///
/// # Errors
/// A gap: nobody says what holds it.
pub fn standstill(at: &At) -> Found<Hold> {
    let Slope { grade, pull, rolling, grip, dragging, .. } = slope(at)?;
    let powertrain = &at.machine().powertrain;
    let hold = |holds, by| Hold { grade, slope: pull, holds, by };
    let parks = at.try_get(&powertrain.track.parking_force);
    if let Some(parks) = parks.filter(|parks| *parks > Force::ZERO) {
        return Ok(hold(lower(parks, grip) + dragging, "the parking brake"));
    }
    let motor_holds = at.try_part(&powertrain.controller.braking).and_then(|braking| braking.holds_at_standstill);
    if motor_holds == Some(true) {
        let limit = at.need(&powertrain.controller.current_limit.motor)?;
        let held = Force::from_si(Line::read(at, Charge::Nominal)?.pull_at(0.0, limit.si()));
        return Ok(hold(lower(held, grip) + dragging, "the motor under current"));
    }
    if motor_holds.is_none() && parks.is_none() {
        at.need(&powertrain.track.parking_force)?;
    }
    Ok(hold(rolling, GROUND))
}
