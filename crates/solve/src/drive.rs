//! Battery → controller → motor → stages → sprocket → track.
//!
//! Straight on: a turn puts more on one side. Losses are a share of what goes through each stage, so that a free line turns
//! without any but the motor's own: its current in the air is the least that there can be. Windings are as warm as their
//! resistance is stated for; hot ones take up to 40 % more voltage and heat for the same current.

mod blow;
mod braked;
mod ground;
#[cfg(test)]
mod laws;
mod line;
mod overrun;
mod reach;
mod ridden;
mod stages;
mod task;
#[cfg(test)]
pub(crate) mod tests;
mod ways;

pub use blow::Blow;
pub use overrun::Overrun;
pub use reach::{Asked, Filled, asked, reach};
pub use ridden::{Ridden, Turned};
pub(crate) use ridden::{read_off, seconds};
pub use task::{Hold, Stop, Uphill, fastest_on_the_level, standstill, stop, uphill};

use crate::at::{At, Solve};
pub(crate) use ground::{adhesion, driven_mass, ground};
use line::{Charge, Line};
use machine::{CaseKind, Found, NotJudged};
use quantity::*;
use ways::{fastest, launch, steady};

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
    /// The most that the battery gives: in a launch once the track has begun to turn and the motor has all of the voltage.
    pub peak_current: ElectricCurrent,
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
    /// Of a recorded run. All else then stands for the run as a whole: currents, torques and pull as effective values (root of
    /// the mean square), speeds and heats on average.
    pub ridden: Option<Ridden>,
    /// Of a motor with nothing to drive, such as one whose track has left the ground, with a full battery; zero where nothing
    /// is switched on.
    pub free_speed: Found<AngularVelocity>,
    /// At the battery's terminals, to do what the case asks as far as traction and currents let it, whether the battery
    /// can give it or not.
    pub wanted_power: Power,
    /// What the case asks where the drive line cannot do it; all else then stands for what it can.
    pub short: Option<Short>,
    /// What sets it: `the grade`, `the motor current limit`, `the battery current limit`, `traction`, `the voltage`,
    /// `the battery`, which gives no more, `the speed limit`, `the slope`, `the log`, `standing still`.
    pub set_by: &'static str,
    /// Of all motors: what shorted windings make of the power that they brake, all of it in the copper; zero where nothing is
    /// braked so.
    pub braking_heat: Power,
}

/// What a case asks and does not get.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Short {
    pub speed: Velocity,
    pub pull: Force,
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

impl Solve for Drive {
    fn solve(at: &At) -> Found<Self> {
        solve(at)
    }
}

impl<'a> At<'a> {
    /// Speeds, torques, currents, heat of the drive line, and the pull and speed of the track.
    ///
    /// # Errors
    /// As worked out: a gap, a range, or its own reason.
    pub fn drive(&self) -> Found<&'a Drive> {
        self.ask()
    }
    /// What the case asks and does not get, where this reading rests on the drive line.
    #[must_use]
    pub fn short_of(&self) -> Option<(Short, &'a Drive)> {
        let drive = self.rests_on::<Drive>()?;
        Some((drive.short?, drive))
    }
}

/// Radius of the track's sprocket (m), motor speed over sprocket speed, motors on one line.
pub(crate) fn sprocket_and_ratio(at: &At) -> Found<(f64, f64, f64)> {
    let machine = at.machine();
    let track = &machine.powertrain.track;
    let layout = stages::layout(at)?;
    let ratio: f64 = stages::read(at, machine, layout)?.iter().map(|each| each.stage.ratio.si()).product();
    let teeth = stages::whole(at, &track.sprocket_teeth, 3.0, "the track's sprocket")?;
    let radius = at.need(&track.pitch)?.si() / (2.0 * (std::f64::consts::PI / teeth).sin());
    Ok((radius, ratio, layout.motors_on_a_line))
}

/// Works the drive line out.
///
/// # Errors
/// A gap, or a battery or motor that cannot do what the case asks.
fn solve(at: &At) -> Found<Drive> {
    let case = at.case()?;
    match case.kind {
        CaseKind::Descent => Ok(Drive { overrun: overrun::run_away(at).transpose(), ..steady(at)? }),
        CaseKind::SignalLost => Ok(Drive { overrun: overrun::run_away(at).transpose(), ..standing(at) }),
        CaseKind::Climb | CaseKind::Cruise | CaseKind::SideSlope => steady(at),
        CaseKind::TopSpeed => {
            let ground = ground(at)?;
            fastest(&Line::read(at, Charge::Full)?, ground.resistance.si().min(ground.traction.si()))
        }
        CaseKind::Log => ridden::ridden(at),
        CaseKind::LiftOff => fastest(&Line::read(at, Charge::Full)?, 0.0),
        CaseKind::Launch => launch(at),
        CaseKind::Landing if case.under_power == Some(true) => {
            let line = Line::read(at, Charge::Full)?;
            // In the air a track under full power runs free, unless the builder knows its speed.
            let drive = match at.try_get(&case.speed) {
                Some(_) => steady(at)?,
                None => fastest(&line, 0.0)?,
            };
            // A track that stands has nothing in it that the ground could stop.
            if drive.motor_speed == AngularVelocity::ZERO {
                return Ok(standing(at));
            }
            Ok(Drive { blow: Some(blow::landed(at, &line, drive.motor_speed)?), ..drive })
        }
        _ => Ok(standing(at)),
    }
}

/// Nothing is driven.
fn standing(at: &At) -> Drive {
    let open = at.battery().and_then(|battery| battery.nominal.clone());
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
        peak_current: ElectricCurrent::ZERO,
        battery_voltage: open.unwrap_or(ElectricPotential::from_si(f64::NAN)),
        track_speed: Velocity::ZERO,
        pull: Force::ZERO,
        stages: at.machine().powertrain.stages.iter().map(|_| still.clone()).collect(),
        sprocket_torque: torque,
        motor_heat: power,
        controller_heat: power,
        battery_heat: power,
        blow: None,
        overrun: None,
        ridden: None,
        free_speed: Ok(speed),
        wanted_power: power,
        short: None,
        set_by: "standing still",
        braking_heat: Power::ZERO,
    }
}

/// How long wires and connectors carry the current of this case, as stated; a launch, a hop and a blow are short by their
/// nature. Nothing where nobody says that it ends.
///
/// # Errors
/// The point belongs to no case.
pub fn carries_for(at: &At) -> Found<Option<Time>> {
    let case = at.case()?;
    match case.kind {
        CaseKind::Launch | CaseKind::LiftOff | CaseKind::Landing => {
            Ok(at.or(&case.duration, &at.assumed().burst_time).ok())
        }
        _ => seconds(at),
    }
}

impl Drive {
    /// The fastest that a motor turns.
    #[must_use]
    pub fn fastest_motor(&self) -> AngularVelocity {
        self.ridden.as_ref().map_or(self.motor_speed, |ridden| ridden.motor_speed)
    }
    /// The fastest that the track goes, and the hardest that all tracks together pull.
    #[must_use]
    pub fn hardest_track(&self) -> (Velocity, Force) {
        self.ridden.as_ref().map_or((self.track_speed, self.pull), |ridden| (ridden.track_speed, ridden.pull))
    }
}
