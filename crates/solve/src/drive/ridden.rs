//! A run that was recorded: what its log says of currents and speed, as loads of this drive line.
//!
//! The log is kept as a spectrum, how long it went at which motor current and which track speed, so that another ratio, another
//! motor or another efficiency is still worked out from it. Without `recorded_ratio` the motor's current is what stays; with
//! it the pull at the track is. Heat flows evenly over the run, which errs on the cool side for what warms up in seconds.
//! Where only the battery was recorded its power is followed down the line; what braking gives back is then no load at all.

#[cfg(test)]
mod tests;

use crate::at::At;
use crate::drive::Drive;
use crate::drive::StageLoad;
use crate::drive::line::{Charge, Line};
use machine::run_log::{Digest, Ends, Flow, Step};
use machine::{CaseKind, Column, Cooled, Found, NotJudged};
use quantity::*;

/// The highest of a recorded run, and its loads.
#[derive(Debug, Clone, PartialEq)]
pub struct Ridden {
    /// Of one motor, highest.
    pub motor_speed: AngularVelocity,
    pub motor_torque: Torque,
    pub motor_current: ElectricCurrent,
    /// Effective over the hardest ten seconds; nothing where that is not known.
    pub motor_ten_seconds: Option<ElectricCurrent>,
    pub battery_ten_seconds: Option<ElectricCurrent>,
    pub track_speed: Velocity,
    /// All tracks together.
    pub pull: Force,
    /// Of one line, at the highest torque and the highest speed.
    pub stages: Vec<StageLoad>,
    pub sprocket_torque: Torque,
    /// Mechanical, of one motor, on average whichever way it goes.
    pub motor_power: Power,
    /// What left the cells, and what of it the track did as work; what came back is not taken off.
    pub charge: ElectricCharge,
    pub energy: Energy,
    pub way: Length,
    pub time: Time,
    /// Torques of one motor with the turns that it made at each.
    pub spectrum: Vec<Turned>,
}

/// Some turns of a motor's shaft at one torque.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Turned {
    pub torque: Torque,
    pub turns: Ratio,
}

/// A column that the case cannot do without.
fn need<U>(at: &At, column: &Column<U>) -> Found<()> {
    at.part(&column.heading)?;
    at.part(&column.unit)?;
    Ok(())
}

/// A column that something else can stand in for.
fn try_column<U>(at: &At, column: &Column<U>, else_from: &'static str) -> Found<bool> {
    if at.part_or(&column.heading, else_from).is_none() {
        return Ok(false);
    }
    at.part(&column.unit)?;
    Ok(true)
}

/// What the log of this case holds.
fn digest<'a>(at: &At<'a>) -> Found<&'a Digest> {
    let case = at.case()?;
    at.part(&case.log)?;
    need(at, &case.columns.time)?;
    at.machine().log(case).ok_or_else(|| NotJudged::NoSolution("the log of this case has not been read".into()))
}

/// How long a case lasts: as its log does, else as it says; nothing where nobody says that it ends.
pub(crate) fn seconds(at: &At) -> Found<Option<Time>> {
    let case = at.case()?;
    if case.kind == CaseKind::Log {
        return Ok(Some(Time::from_si(digest(at)?.seconds)));
    }
    Ok(at.try_get(&case.duration))
}

/// Lowest and highest of a thermometer that was recorded beside; nothing in other cases.
pub(crate) fn read_off(at: &At, of: Cooled) -> Found<Option<Ends>> {
    let case = at.case()?;
    if case.kind != CaseKind::Log {
        return Ok(None);
    }
    let (columns, digest) = (&case.columns, digest(at)?);
    let (column, ends) = match of {
        Cooled::Motor => (&columns.motor_temperature, digest.motor_temperature),
        Cooled::Controller => (&columns.controller_temperature, digest.controller_temperature),
        Cooled::Battery => (&columns.battery_temperature, digest.battery_temperature),
        Cooled::Pump => return Ok(None),
    };
    if at.try_part(&column.heading).is_none() {
        return Ok(None);
    }
    at.part(&column.unit)?;
    Ok(ends)
}

/// One step of the spectrum on this drive line.
struct Moment {
    seconds: f64,
    speed: f64,
    pull: f64,
    motor_current: f64,
    motor_torque: f64,
    motor_speed: f64,
    motor_heat: f64,
    controller_heat: f64,
    battery_power: f64,
}

/// What was recorded of the load: the motor's current, or the power out of the battery.
struct Recorded<'a> {
    steps: &'a [Step],
    of_motor: Option<&'a Flow>,
    /// Ratio of the day over ratio now.
    geared: f64,
}

impl<'a> Recorded<'a> {
    fn of(at: &At<'a>, digest: &'a Digest, line: &Line) -> Found<Self> {
        let case = at.case()?;
        need(at, &case.columns.speed)?;
        let now = Ratio::from_si(line.ratio());
        let then = at.or_take(&case.recorded_ratio, now, "as this spec has it");
        let geared = then.si() / now.si();
        if try_column(at, &case.columns.motor_current, "worked out from the battery's power")? {
            return Ok(Self { steps: &digest.by_current, of_motor: digest.motor_current.as_ref(), geared });
        }
        if at.try_part(&case.columns.battery_power.heading).is_some() {
            at.part(&case.columns.battery_power.unit)?;
        } else if at.try_part(&case.columns.battery_current.heading).is_some() {
            at.part(&case.columns.battery_current.unit)?;
            need(at, &case.columns.battery_voltage)?;
        } else {
            // The motor's current is what to ask for first.
            need(at, &case.columns.motor_current)?;
        }
        Ok(Self { steps: &digest.by_power, of_motor: None, geared: 1.0 })
    }

    /// The current that gives the pull of the day with the stages of now.
    fn current_now(&self, line: &Line, current: f64, turns: bool) -> f64 {
        let drag = if turns { line.drag() } else { 0.0 };
        drag + (current - drag) * self.geared
    }

    fn pull(&self, line: &Line, step: &Step) -> f64 {
        match self.of_motor {
            Some(_) => line.pull_at(step.speed, self.current_now(line, step.load, step.speed > 0.0)),
            None => line.pull_for_power(step.speed, step.load),
        }
    }

    fn moments(&self, line: &Line) -> Vec<Moment> {
        let of = |step: &Step| {
            let pull = self.pull(line, step);
            let working = line.working(step.speed, pull);
            Moment {
                seconds: step.seconds,
                speed: step.speed,
                pull,
                motor_current: working.motor.current.si(),
                motor_torque: working.motor.torque.si(),
                motor_speed: working.motor.speed.si(),
                motor_heat: working.motor.loss().si() * line.motors(),
                controller_heat: working.controller_heat,
                battery_power: working.battery_power,
            }
        };
        self.steps.iter().map(of).collect()
    }

    /// The hardest pull, at whatever speed it came.
    fn hardest_pull(&self, line: &Line, moments: &[Moment]) -> f64 {
        match self.of_motor {
            Some(flow) => {
                let pull = |current: f64| line.pull_at(0.0, self.current_now(line, current, false));
                let (drives, brakes) = (pull(flow.ends.highest), pull(flow.ends.lowest));
                if brakes.abs() > drives.abs() { brakes } else { drives }
            }
            None => moments.iter().map(|moment| moment.pull).fold(0.0, f64::max),
        }
    }
}

/// Of the battery, as recorded or worked out from the moments.
struct OfBattery {
    effective: f64,
    highest: f64,
    ten_seconds: Option<f64>,
    charge: f64,
}

fn of_battery(at: &At, digest: &Digest, line: &Line, moments: &[Moment]) -> Found<OfBattery> {
    let recorded = try_column(at, &at.case()?.columns.battery_current, "worked out from the drive line")?;
    if let (true, Some(flow)) = (recorded, &digest.battery_current) {
        let (highest, charge) = (flow.ends.highest.max(0.0), flow.out);
        return Ok(OfBattery { effective: flow.effective, highest, ten_seconds: flow.ten_seconds, charge });
    }
    let (mut squares, mut highest, mut charge) = (0.0, 0.0f64, 0.0);
    for moment in moments {
        let current = line.battery_current(moment.battery_power)?.si();
        squares += current * current * moment.seconds;
        charge += current.max(0.0) * moment.seconds;
        highest = highest.max(current);
    }
    Ok(OfBattery { effective: (squares / digest.seconds).sqrt(), highest, ten_seconds: None, charge })
}

/// The drive line over a recorded run.
///
/// # Errors
/// A gap, a log that was not read, or a battery that could not have given it.
pub(super) fn ridden(at: &At) -> Found<Drive> {
    let digest = digest(at)?;
    let line = Line::read(at, Charge::Nominal)?;
    let recorded = Recorded::of(at, digest, &line)?;
    let Some(speed) = &digest.speed else { return need(at, &at.case()?.columns.speed).and(Err(not_read())) };
    if recorded.steps.is_empty() {
        return Err(not_read());
    }
    let moments = recorded.moments(&line);
    let all = digest.seconds;
    let mean =
        |of: &dyn Fn(&Moment) -> f64| moments.iter().map(|moment| of(moment) * moment.seconds).sum::<f64>() / all;
    let battery = of_battery(at, digest, &line, &moments)?;
    let effective = |of: &dyn Fn(&Moment) -> f64| mean(&|moment| of(moment).powi(2)).sqrt();
    let (pull, slow) = (effective(&|moment| moment.pull), mean(&|moment| moment.speed));
    let top = speed.ends.highest.abs().max(speed.ends.lowest.abs());
    let hardest = recorded.hardest_pull(&line, &moments);
    let stages = line.through(top, hardest);
    let highest_torque = stages.first().map_or(0.0, |stage| stage.torque_in.si() / line.layout.motors_on_a_line);
    let turned = |moment: &Moment| Turned {
        torque: Torque::from_si(moment.motor_torque),
        turns: Ratio::from_si(moment.motor_speed.abs() / std::f64::consts::TAU * moment.seconds),
    };
    let amps = ElectricCurrent::from_si;
    let highest_current = match recorded.of_motor {
        Some(flow) => {
            let now = |current| recorded.current_now(&line, current, true).abs();
            now(flow.ends.highest).max(now(flow.ends.lowest))
        }
        None => moments.iter().map(|moment| moment.motor_current.abs()).fold(0.0, f64::max),
    };
    let ten_seconds = recorded.of_motor.and_then(|flow| flow.ten_seconds);
    let ridden = Ridden {
        motor_speed: line.motor_speed(top),
        motor_torque: Torque::from_si(highest_torque),
        motor_current: amps(highest_current),
        motor_ten_seconds: ten_seconds.map(|current| amps(recorded.current_now(&line, current, true))),
        battery_ten_seconds: battery.ten_seconds.map(amps),
        track_speed: Velocity::from_si(top),
        pull: Force::from_si(hardest),
        sprocket_torque: line.sprocket(top, hardest).torque,
        stages,
        motor_power: Power::from_si(mean(&|moment| (moment.motor_torque * moment.motor_speed).abs())),
        charge: ElectricCharge::from_si(battery.charge),
        energy: Energy::from_si(moments.iter().map(|m| (m.pull * m.speed).max(0.0) * m.seconds).sum()),
        way: Length::from_si(speed.out + speed.back),
        time: Time::from_si(all),
        spectrum: moments.iter().map(turned).collect(),
    };
    let flows = amps(battery.effective);
    let drive = Drive {
        motors: line.motors(),
        lines: line.layout.lines,
        motor_speed: AngularVelocity::from_si(mean(&|moment| moment.motor_speed.abs())),
        motor_torque: Torque::from_si(effective(&|moment| moment.motor_torque)),
        motor_current: amps(effective(&|moment| moment.motor_current)),
        battery_current: flows,
        peak_current: amps(battery.highest),
        battery_voltage: line.sagged(flows),
        track_speed: Velocity::from_si(slow),
        pull: Force::from_si(pull),
        stages: line.through(slow, pull),
        sprocket_torque: line.sprocket(slow, pull).torque,
        motor_heat: Power::from_si(mean(&|moment| moment.motor_heat)),
        controller_heat: Power::from_si(mean(&|moment| moment.controller_heat)),
        battery_heat: line.battery_heat(battery.effective),
        blow: None,
        overrun: None,
        free_speed: Ok(ridden.motor_speed),
        wanted_power: Power::from_si(moments.iter().map(|moment| moment.battery_power).fold(0.0, f64::max)),
        short: None,
        set_by: "the log",
        braking_heat: Power::ZERO,
        ridden: Some(ridden),
    };
    let numbers =
        [drive.motor_heat.si(), drive.battery_heat.si(), drive.pull.si(), hardest, highest_torque, battery.effective];
    if numbers.iter().all(|number| number.is_finite()) {
        return Ok(drive);
    }
    Err(NotJudged::NoSolution(
        "the log comes to no finite loads on this drive line: one of its figures is zero or far off".into(),
    ))
}

fn not_read() -> NotJudged {
    NotJudged::NoSolution("the log of this case holds no speed and no load in a unit that is known".into())
}
