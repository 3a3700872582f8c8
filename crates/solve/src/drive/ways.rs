//! Ways to ask for a working point: at a speed, as fast as it goes, or without turning.

use crate::at::At;
use crate::drive::braked::braked;
use crate::drive::line::{Charge, Line};
use crate::drive::{Drive, Short, ground};
use machine::{Found, NotJudged};
use quantity::*;

/// Where a rising function of a share of `most` passes zero; `most` if it does not get there, nothing if it starts above.
pub(super) fn rising_zero(most: f64, f: impl Fn(f64) -> f64) -> Option<f64> {
    if !most.is_finite() || f(0.0) > 0.0 {
        return None;
    }
    if f(most) <= 0.0 {
        return Some(most);
    }
    let mut fine = roots::SimpleConvergency { eps: 1e-13, max_iter: 200 };
    roots::find_root_brent(0.0, 1.0, |share: f64| f(share * most), &mut fine).ok().map(|share| share * most)
}

fn no_speed(what: &str) -> NotJudged {
    NotJudged::NoSolution(format!("the machine does not move at all: {what}"))
}

/// A hair below the most that comes out of the battery, where both roots of its quadratic meet.
pub(super) fn most(line: &Line) -> f64 {
    line.most_power() * (1.0 - 1e-9)
}

/// The same working point, with what was wanted before the battery had its say.
fn wanting(at: &At, drive: Drive, wanted: f64) -> Drive {
    let free_speed = Line::read(at, Charge::Full).map(|line| line.free_motor());
    Drive { wanted_power: Power::from_si(wanted), free_speed, ..drive }
}

/// At the case's speed, with the pull that the ground asks for, as far as traction and the limits allow.
pub(super) fn steady(at: &At) -> Found<Drive> {
    let mut speed = at.need(&at.case()?.speed)?.si();
    let ground = ground(at)?;
    let asked = (speed, ground.resistance.si());
    let line = Line::read(at, Charge::Nominal)?;
    let (mut pull, mut set_by) = (ground.resistance.si(), "the grade");
    let traction = ground.traction.si();
    if pull.abs() > traction {
        (pull, set_by) = (pull.clamp(-traction, traction), "traction");
    }
    if let Some(held_back) = line.held_back_at()
        && speed > held_back
        && pull > 0.0
    {
        (speed, set_by) = (held_back, "the speed limit");
    }
    if let Some(limit) = line.motor_limit {
        let (least, most) = (line.pull_at(speed, -limit.si()), line.pull_at(speed, limit.si()));
        if pull > most {
            (pull, set_by) = (most, "the motor current limit");
        } else if pull < least {
            (pull, set_by) = (least, "the motor current limit");
        }
    }
    if let Some(power) = line.power_at_limit()
        && pull > 0.0
        && line.working(speed, pull).battery_power > power
    {
        match rising_zero(pull, |pull| line.working(speed, pull).battery_power - power) {
            Some(less) => pull = less,
            // Not even the free line turns so fast: slower, with the pull that the ground asks for.
            None => {
                speed = rising_zero(speed, |speed| line.working(speed, pull).battery_power - power)
                    .ok_or_else(|| no_speed("the battery current limit does not give this pull even at a crawl"))?;
            }
        }
        set_by = "the battery current limit";
    }
    let wanted = line.working(speed, pull).battery_power;
    let most = most(&line);
    if wanted > most {
        speed = rising_zero(speed, |speed| line.working(speed, pull).battery_power - most)
            .ok_or_else(|| no_speed("the battery cannot give the power that this pull takes even at a crawl"))?;
        set_by = "the battery";
    }
    if line.volts_short(speed, pull) > 0.0 {
        speed = rising_zero(speed, |speed| line.volts_short(speed, pull)).ok_or_else(|| {
            no_speed("the battery's voltage does not drive the current that this pull takes through the motor")
        })?;
        set_by = "the voltage";
    }
    let gets = |got: f64, asked: f64| (got - asked).abs() <= 1e-6 * asked.abs();
    let short = (!gets(speed, asked.0) || !gets(pull, asked.1))
        .then(|| Short { speed: Velocity::from_si(asked.0), pull: Force::from_si(asked.1) });
    braked(at, wanting(at, Drive { short, ..line.drive(speed, pull, set_by)? }, wanted))
}

/// As fast as battery and motor go against a pull.
pub(super) fn fastest(line: &Line, pull: f64) -> Found<Drive> {
    let most_speed = line.free_speed();
    if let Some(limit) = line.motor_limit
        && pull > line.pull_at(most_speed, limit.si())
    {
        return Err(no_speed("the motor current limit is below what the level ground takes"));
    }
    let by_voltage = rising_zero(most_speed, |speed| line.volts_short(speed, pull))
        .ok_or_else(|| no_speed("the battery cannot give the voltage that the level ground takes"))?;
    let (mut speed, mut set_by) = (by_voltage, "the voltage");
    if let Some(held_back) = line.held_back_at()
        && speed > held_back
    {
        (speed, set_by) = (held_back, "the speed limit");
    }
    let (power, by_power) =
        line.power_at_limit().map_or((most(line), "the battery"), |power| (power, "the battery current limit"));
    if line.working(speed, pull).battery_power > power {
        speed = rising_zero(speed, |speed| line.working(speed, pull).battery_power - power)
            .ok_or_else(|| no_speed("the battery cannot give the power that the level ground takes"))?;
        set_by = by_power;
    }
    let wanted = Power::from_si(line.working(speed, pull).battery_power);
    Ok(Drive { wanted_power: wanted, free_speed: Ok(line.free_motor()), ..line.drive(speed, pull, set_by)? })
}

/// At full current without turning: held fast, or with what the ground lets through.
pub(super) fn launch(at: &At) -> Found<Drive> {
    let limit = at.need(&at.machine().powertrain.controller.current_limit.motor)?.si();
    let ground = ground(at)?;
    let line = Line::read(at, Charge::Nominal)?;
    let (mut pull, mut set_by) = (line.pull_at(0.0, limit), "the motor current limit");
    let held = at.case()?.track_held == Some(true);
    if !held && pull > ground.traction.si() {
        (pull, set_by) = (ground.traction.si(), "traction");
    }
    let wanted = |pull: f64| line.working(0.0, pull).battery_power;
    let motor_current = line.working(0.0, pull).motor.current;
    if let Some(power) = line.power_at_limit()
        && wanted(pull) > power
    {
        pull = rising_zero(pull, |pull| wanted(pull) - power)
            .ok_or_else(|| no_speed("the battery current limit gives no pull"))?;
        set_by = "the battery current limit";
    }
    let (asked, most) = (wanted(pull), most(&line));
    if asked > most {
        pull = rising_zero(pull, |pull| wanted(pull) - most).ok_or_else(|| no_speed("the battery gives no pull"))?;
        set_by = "the battery";
    }
    let drive = line.drive(0.0, pull, set_by)?;
    let peak_current = if held { drive.peak_current } else { line.launch_current(motor_current) };
    Ok(wanting(at, Drive { peak_current, ..drive }, asked))
}
