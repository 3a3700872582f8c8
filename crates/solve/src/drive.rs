//! Battery → controller → motor → stages → sprocket → track.
//!
//! Straight on: a turn puts more on one side. Losses are a share of what goes through each stage, so that a free line turns
//! without any but the motor's own: its current in the air is the least that there can be. Windings are as warm as their
//! resistance is stated for; hot ones take up to 40 % more voltage and heat for the same current.

mod blow;
#[cfg(test)]
mod laws;
mod line;
mod overrun;
mod stages;
#[cfg(test)]
pub(crate) mod tests;

pub use blow::Blow;
pub use overrun::Overrun;

use crate::at::At;
use line::{Charge, Line};
use machine::{CaseKind, Found, NotJudged};
use quantity::*;

/// The drive line in one case point. A case without drive (soak, idle) has zeros throughout.
#[derive(Debug, Clone, PartialEq)]
pub struct Drive {
    /// All alike.
    pub motors: f64,
    /// Of stages, beside one another: one with its motors, or one a side.
    pub lines: f64,
    pub motor_speed: AngularVelocity,
    /// Of one motor.
    pub motor_torque: Torque,
    /// Of one motor.
    pub motor_current: ElectricCurrent,
    pub battery_current: ElectricCurrent,
    /// Under load. Not a number where nothing is driven and the spec does not say the cells.
    pub battery_voltage: ElectricPotential,
    pub track_speed: Velocity,
    /// All tracks together; negative where the motor holds the machine back.
    pub pull: Force,
    /// Of one line, in the order of the machine's stages.
    pub stages: Vec<StageLoad>,
    /// Out of the last stage of one line.
    pub sprocket_torque: Torque,
    /// Of all motors.
    pub motor_heat: Power,
    /// Of all controllers.
    pub controller_heat: Power,
    pub battery_heat: Power,
    /// Of a landing under power.
    pub blow: Option<Blow>,
    /// Downhill, should nobody brake; nothing where the slope does not drive the machine.
    pub overrun: Option<Found<Overrun>>,
    /// What sets it: `the grade`, `the motor current limit`, `the battery current limit`, `traction`, `the voltage`,
    /// `the slope`, `standing still`.
    pub set_by: &'static str,
}

/// One reduction stage under load.
#[derive(Debug, Clone, PartialEq)]
pub struct StageLoad {
    pub speed_in: AngularVelocity,
    /// Of all its driving wheels together.
    pub torque_in: Torque,
    pub speed_out: AngularVelocity,
    pub torque_out: Torque,
    pub loss: Power,
    /// How many meshes share the torque: pinions of several motors on one wheel, or planets; shared evenly, 1 otherwise.
    pub meshes: f64,
}

/// A formula's refusal, as a check hands it on.
pub(crate) fn outside(range: physics::range::OutsideRange) -> NotJudged {
    let physics::range::OutsideRange { of, unit, from, to, was } = range;
    NotJudged::OutsideRange { of: of.to_owned(), unit, from, to, was }
}

/// What the ground asks of the track and what it lets through.
pub(crate) struct Ground {
    /// Needed to go steadily, all tracks together.
    pub resistance: Force,
    /// Beyond it the track spins.
    pub traction: Force,
}

/// The machine's mass in this case, without its payload where it is driven empty.
pub(crate) fn driven_mass(at: &At) -> Found<Mass> {
    let about = &at.machine().machine;
    let loaded = at.need(&about.mass)?;
    let mass = if at.case()?.payload == Some(false) { loaded - at.need(&about.payload.mass)? } else { loaded };
    if mass.si() > 0.0 {
        return Ok(mass);
    }
    Err(NotJudged::NoSolution("the machine has no mass left: its payload weighs as much as all of it".into()))
}

/// The ground under a case. Only a climb and a descent must say their grade: the other kinds are level by their definition.
pub(crate) fn ground(at: &At) -> Found<Ground> {
    let case = at.case()?;
    let grade = match case.kind {
        CaseKind::Climb => at.need(&case.grade)?.si(),
        CaseKind::Descent => -at.need(&case.grade)?.si().abs(),
        CaseKind::SignalLost => -at.or_take(&case.grade, Angle::from_si(0.0), "level").si().abs(),
        CaseKind::TopSpeed => 0.0,
        _ => at.or_take(&case.grade, Angle::from_si(0.0), "level").si(),
    };
    let grade = Angle::from_si(grade);
    let across = match case.kind {
        CaseKind::SideSlope => at.need(&case.side_slope)?.si().cos(),
        _ => 1.0,
    };
    let (mass, assumed) = (driven_mass(at)?, at.assumed());
    let rolling = physics::drive::rolling_resistance(at.need(&assumed.rolling_resistance)?, mass, grade) * across;
    let traction = physics::drive::traction_limit(at.need(&assumed.traction)?, mass, grade) * across;
    Ok(Ground { resistance: physics::drive::grade_resistance(mass, grade) + rolling, traction })
}

/// Works the drive line out.
///
/// # Errors
/// A gap, or a battery or motor that cannot do what the case asks.
pub(crate) fn solve(at: &At) -> Found<Drive> {
    let case = at.case()?;
    match case.kind {
        CaseKind::Descent => Ok(Drive { overrun: overrun::run_away(at).transpose(), ..steady(at)? }),
        CaseKind::SignalLost => Ok(Drive { overrun: overrun::run_away(at).transpose(), ..standing(at) }),
        CaseKind::Climb | CaseKind::Cruise | CaseKind::SideSlope => steady(at),
        CaseKind::TopSpeed => {
            let ground = ground(at)?;
            fastest(&Line::read(at, Charge::Full)?, ground.resistance.si().min(ground.traction.si()))
        }
        CaseKind::LiftOff => fastest(&Line::read(at, Charge::Full)?, 0.0),
        CaseKind::Launch => launch(at),
        CaseKind::Landing if case.under_power == Some(true) => {
            let line = Line::read(at, Charge::Full)?;
            // In the air a track under full power runs free, unless the builder knows its speed.
            let drive = match at.try_get(&case.speed) {
                Some(_) => steady(at)?,
                None => fastest(&line, 0.0)?,
            };
            Ok(Drive { blow: Some(blow::landed(at, &line, drive.motor_speed)?), ..drive })
        }
        _ => Ok(standing(at)),
    }
}

/// Nothing is driven.
fn standing(at: &At) -> Drive {
    let (power, torque, speed) = (Power::ZERO, Torque::ZERO, AngularVelocity::ZERO);
    let still = StageLoad {
        speed_in: speed,
        torque_in: torque,
        speed_out: speed,
        torque_out: torque,
        loss: power,
        meshes: 1.0,
    };
    Drive {
        motors: 1.0,
        lines: 1.0,
        motor_speed: speed,
        motor_torque: torque,
        motor_current: ElectricCurrent::ZERO,
        battery_current: ElectricCurrent::ZERO,
        battery_voltage: line::open_voltage(at, Charge::Nominal).unwrap_or(ElectricPotential::from_si(f64::NAN)),
        track_speed: Velocity::ZERO,
        pull: Force::ZERO,
        stages: at.machine().powertrain.stages.iter().map(|_| still.clone()).collect(),
        sprocket_torque: torque,
        motor_heat: power,
        controller_heat: power,
        battery_heat: power,
        blow: None,
        overrun: None,
        set_by: "standing still",
    }
}

/// Where a rising function of a share of `most` passes zero; `most` if it does not get there, nothing if it starts above.
fn rising_zero(most: f64, f: impl Fn(f64) -> f64) -> Option<f64> {
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

/// At the case's speed, with the pull that the ground asks for, as far as traction and the limits allow.
fn steady(at: &At) -> Found<Drive> {
    let wanted = at.need(&at.case()?.speed)?.si();
    let ground = ground(at)?;
    let line = Line::read(at, Charge::Nominal)?;
    let (mut pull, mut speed, mut set_by) = (ground.resistance.si(), wanted, "the grade");
    let traction = ground.traction.si();
    if pull.abs() > traction {
        (pull, set_by) = (pull.clamp(-traction, traction), "traction");
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
        pull = rising_zero(pull, |pull| line.working(speed, pull).battery_power - power)
            .ok_or_else(|| no_speed("the battery current limit does not even turn the free line at this speed"))?;
        set_by = "the battery current limit";
    }
    // The power is there, or it is said that it is not, before anybody asks whether the voltage is.
    let drive = line.drive(speed, pull, set_by)?;
    if line.volts_short(speed, pull) <= 0.0 {
        return Ok(drive);
    }
    speed = rising_zero(speed, |speed| line.volts_short(speed, pull)).ok_or_else(|| {
        no_speed("the battery's voltage does not drive the current that this pull takes through the motor")
    })?;
    line.drive(speed, pull, "the voltage")
}

/// As fast as battery and motor go against a pull.
fn fastest(line: &Line, pull: f64) -> Found<Drive> {
    let most = line.free_speed();
    if let Some(limit) = line.motor_limit
        && pull > line.pull_at(most, limit.si())
    {
        return Err(no_speed("the motor current limit is below what the level ground takes"));
    }
    let by_voltage = rising_zero(most, |speed| line.volts_short(speed, pull))
        .ok_or_else(|| no_speed("the battery cannot give the voltage that the level ground takes"))?;
    let at_limit = line.power_at_limit();
    // A hair below the most that there is, where both roots of the battery's quadratic meet.
    let power = at_limit.unwrap_or(line.most_power() * (1.0 - 1e-9));
    if line.working(by_voltage, pull).battery_power <= power {
        return line.drive(by_voltage, pull, "the voltage");
    }
    let by_power = rising_zero(by_voltage, |speed| line.working(speed, pull).battery_power - power)
        .ok_or_else(|| no_speed("the battery cannot give the power that the level ground takes"))?;
    line.drive(by_power, pull, if at_limit.is_some() { "the battery current limit" } else { "the voltage" })
}

/// At full current without turning: held fast, or with what the ground lets through.
fn launch(at: &At) -> Found<Drive> {
    let limit = at.need(&at.machine().powertrain.controller.current_limit.motor)?.si();
    let ground = ground(at)?;
    let line = Line::read(at, Charge::Nominal)?;
    let (mut pull, mut set_by) = (line.pull_at(0.0, limit), "the motor current limit");
    let held = at.case()?.track_held == Some(true);
    if !held && pull > ground.traction.si() {
        (pull, set_by) = (ground.traction.si(), "traction");
    }
    if let Some(power) = line.power_at_limit()
        && line.working(0.0, pull).battery_power > power
    {
        pull = rising_zero(pull, |pull| line.working(0.0, pull).battery_power - power)
            .ok_or_else(|| no_speed("the battery current limit gives no pull"))?;
        set_by = "the battery current limit";
    }
    line.drive(0.0, pull, set_by)
}
