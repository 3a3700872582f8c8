//! The drive line as numbers: what flows where at one track speed and one pull.

use crate::at::At;
use crate::drive::stages::{self, Layout, Reduction, whole};
use crate::drive::ways::rising_zero;
use crate::drive::{Drive, StageLoad, outside};
use machine::{Found, NotJudged};
use physics::drive::Turning;
use physics::motor::{Motor, Point};
use quantity::*;
use std::f64::consts::PI;

/// Which open voltage the case starts from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Charge {
    Full,
    Nominal,
}

/// How the controller loses.
#[derive(Debug, Clone, Copy)]
enum Controller {
    /// Share of the power that goes through, either way.
    Share(f64),
    /// Heat at a motor current; it grows with the square of the current.
    Heat { heat: f64, at_current: f64 },
}

/// Everything that a working point needs.
#[derive(Debug)]
pub(super) struct Line {
    open: f64,
    resistance: f64,
    motor: Motor,
    controller: Controller,
    /// At which the controller holds back by itself.
    speed_limit: Option<AngularVelocity>,
    pub motor_limit: Option<ElectricCurrent>,
    pub battery_limit: Option<ElectricCurrent>,
    /// Of one line.
    pub reductions: Vec<Reduction>,
    /// The same without their meshes.
    stages: Vec<physics::drive::Stage>,
    pub layout: Layout,
    /// Of the sprocket.
    pitch_radius: f64,
}

/// One working point: what one motor does, and what all of them ask of the battery.
#[derive(Debug)]
pub(super) struct Working {
    pub motor: Point,
    /// Of all controllers.
    pub controller_heat: f64,
    /// At the battery's terminals, positive when it gives.
    pub battery_power: f64,
}

impl Line {
    pub fn read(at: &At, charge: Charge) -> Found<Self> {
        let powertrain = &at.machine().powertrain;
        let (controller, track) = (&powertrain.controller, &powertrain.track);
        let motor_limit = at.try_get(&controller.current_limit.motor);
        let motor = Motor {
            speed_constant: at.need(&powertrain.motor.speed_constant)?,
            resistance: at.need(&powertrain.motor.resistance)?,
            no_load_current: at.need(&powertrain.motor.no_load_current)?,
        };
        let advance = at.or_take(&controller.timing_advance, Angle::from_si(0.0), "0 °");
        let motor = motor.advanced(advance).map_err(outside)?;
        let layout = stages::layout(at)?;
        let reductions = stages::read(at, at.machine(), layout)?;
        let battery = at.battery()?;
        let open = match charge {
            Charge::Full => battery.full.clone()?,
            Charge::Nominal => battery.nominal.clone()?,
        };
        let losses = match at.try_get(&controller.heat) {
            Some(heat) => {
                Controller::Heat { heat: heat.si(), at_current: at.need(&controller.current_limit.motor)?.si() }
            }
            None => Controller::Share(at.or(&controller.efficiency, &at.assumed().controller_efficiency)?.si()),
        };
        let teeth = whole(at, &track.sprocket_teeth, 3.0, "the track's sprocket")?;
        let pitch = at.need(&track.pitch)?;
        Ok(Self {
            open: open.si(),
            resistance: battery.resistance.clone()?.si(),
            speed_limit: at.try_get(&controller.motor_speed_limit),
            motor,
            controller: losses,
            motor_limit,
            battery_limit: at.try_get(&controller.current_limit.battery),
            stages: reductions.iter().map(|each| each.stage).collect(),
            reductions,
            layout,
            pitch_radius: pitch.si() / (2.0 * (PI / teeth).sin()),
        })
    }

    pub fn motors(&self) -> f64 {
        self.layout.lines * self.layout.motors_on_a_line
    }

    /// Of the sprocket.
    pub fn pitch_radius(&self) -> f64 {
        self.pitch_radius
    }

    /// Out of the last stage of one line.
    pub fn sprocket(&self, speed: f64, pull: f64) -> Turning {
        Turning {
            speed: AngularVelocity::from_si(speed / self.pitch_radius),
            torque: Torque::from_si(pull * self.pitch_radius / self.layout.lines),
        }
    }

    /// Pull that a current in each motor gives at a track speed; negative currents brake.
    pub fn pull_at(&self, speed: f64, current: f64) -> f64 {
        let turning = self.motor_shaft(speed, 0.0).speed;
        // A standing shaft has no drag to speak of.
        let drag = if speed == 0.0 { 0.0 } else { self.motor.no_load_current.si() };
        let torque = Torque::from_si((current - drag) * physics::motor::torque_constant(self.motor.speed_constant));
        let into = Turning { speed: turning, torque: torque * self.layout.motors_on_a_line };
        let out = physics::drive::chain(&self.stages, into).last().map_or(into, |passed| passed.out);
        out.torque.si() * self.layout.lines / self.pitch_radius
    }

    fn motor_shaft(&self, speed: f64, pull: f64) -> Turning {
        let into = physics::drive::motor_for(&self.stages, self.sprocket(speed, pull));
        Turning { speed: into.speed, torque: into.torque / self.layout.motors_on_a_line }
    }

    /// Speed of each motor at a track speed.
    pub fn motor_speed(&self, speed: f64) -> AngularVelocity {
        self.motor_shaft(speed, 0.0).speed
    }

    /// A motor's point and the power that all take from the battery, at part throttle as far as there is need for it.
    pub fn working(&self, speed: f64, pull: f64) -> Working {
        let shaft = self.motor_shaft(speed, pull);
        let motor = if speed == 0.0 {
            let current = shaft.torque.si() * self.motor.speed_constant.si();
            let voltage = ElectricPotential::from_si(current * self.motor.resistance.si());
            self.motor.at_current(voltage, ElectricCurrent::from_si(current))
        } else {
            self.motor.at_torque(self.motor.voltage_for(shaft.speed, shaft.torque), shaft.torque)
        };
        let taken = motor.electrical_power().si() * self.motors();
        let controller_heat = match self.controller {
            Controller::Share(share) if taken >= 0.0 => taken * (1.0 / share - 1.0),
            Controller::Share(share) => -taken * (1.0 - share),
            Controller::Heat { heat, at_current } => self.motors() * heat * (motor.current.si() / at_current).powi(2),
        };
        Working { motor, controller_heat, battery_power: taken + controller_heat }
    }

    /// Heat of all controllers that lead so much power of the motors at a current.
    pub fn switching_heat(&self, current: ElectricCurrent, power: f64) -> f64 {
        match self.controller {
            Controller::Share(share) => power * (1.0 - share),
            Controller::Heat { heat, at_current } => self.motors() * heat * (current.si() / at_current).powi(2),
        }
    }

    /// What a standing motor would draw at the open voltage if nothing held it back.
    pub fn stall_current(&self) -> f64 {
        self.open / self.motor.resistance.si()
    }

    /// Ratio of all stages together.
    pub fn ratio(&self) -> f64 {
        physics::drive::total_ratio(&self.stages).si()
    }

    /// Current that only turns a running motor.
    pub fn drag(&self) -> f64 {
        self.motor.no_load_current.si()
    }

    /// Pull at a speed that takes so much from the battery; none where even the free line takes as much.
    pub fn pull_for_power(&self, speed: f64, power: f64) -> f64 {
        let over = |pull: f64| self.working(speed, pull).battery_power - power;
        // Pull times speed is below the power; at a crawl the windings set the pull.
        let stalled = self.pull_at(0.0, (power.max(0.0) / self.motor.resistance.si()).sqrt());
        rising_zero(stalled + power.max(0.0) / speed.max(0.1), over).unwrap_or(0.0)
    }

    /// Current at the battery's terminals for a power there.
    pub fn battery_current(&self, power: f64) -> Found<ElectricCurrent> {
        let (open, resistance) =
            (ElectricPotential::from_si(self.open), ElectricalResistance::from_si(self.resistance));
        physics::battery::current_for_power(open, resistance, Power::from_si(power)).map_err(outside)
    }

    /// Under load at a current.
    pub fn sagged(&self, current: ElectricCurrent) -> ElectricPotential {
        let (open, resistance) =
            (ElectricPotential::from_si(self.open), ElectricalResistance::from_si(self.resistance));
        physics::battery::sagged_voltage(open, current, resistance)
    }

    /// Heat in the battery at an effective current.
    pub fn battery_heat(&self, current: f64) -> Power {
        Power::from_si(current * current * self.resistance)
    }

    /// What goes through each stage of one line at a track speed and a pull.
    pub fn through(&self, speed: f64, pull: f64) -> Vec<StageLoad> {
        let motor = self.motor_shaft(speed, pull);
        let mut into = Turning { speed: motor.speed, torque: motor.torque * self.layout.motors_on_a_line };
        physics::drive::chain(&self.stages, into)
            .into_iter()
            .zip(&self.reductions)
            .map(|(passed, reduction)| {
                let load = StageLoad {
                    speed_in: into.speed,
                    torque_in: into.torque,
                    speed_out: passed.out.speed,
                    torque_out: passed.out.torque,
                    loss: passed.loss,
                    meshes: reduction.meshes,
                };
                into = passed.out;
                load
            })
            .collect()
    }

    /// The most that comes out of the battery at all.
    pub fn most_power(&self) -> f64 {
        self.open * self.open / (4.0 * self.resistance)
    }

    /// Power at the battery's terminals where each controller is at its limit, if there is one that matters.
    pub fn power_at_limit(&self) -> Option<f64> {
        let limit = self.battery_limit?.si() * self.motors();
        (limit < self.open / (2.0 * self.resistance)).then_some((self.open - limit * self.resistance) * limit)
    }

    /// Volts that the motor asks for above what the sagging battery has; it rises with speed and with pull.
    pub fn volts_short(&self, speed: f64, pull: f64) -> f64 {
        let working = self.working(speed, pull);
        let under = (self.open * self.open - 4.0 * self.resistance * working.battery_power).max(0.0).sqrt();
        working.motor.voltage.si() - 0.5 * (self.open + under)
    }

    /// Track speed at which the free motor at the open voltage would run.
    pub fn free_speed(&self) -> f64 {
        let ratio = physics::drive::total_ratio(&self.stages).si();
        self.motor.speed_constant.si() * self.open * self.pitch_radius / ratio
    }

    /// The most that the battery gives while a launch speeds up: with all of the voltage on the motor its current is the
    /// battery's, as far as the controllers let it.
    pub fn launch_current(&self, motor: ElectricCurrent) -> ElectricCurrent {
        let through = match self.controller {
            Controller::Share(share) => motor / share,
            Controller::Heat { .. } => motor,
        };
        self.battery_limit.filter(|limit| *limit < through).unwrap_or(through) * self.motors()
    }

    /// Track speed at which the controller holds the motor back, if it does.
    pub fn held_back_at(&self) -> Option<f64> {
        let ratio = physics::drive::total_ratio(&self.stages).si();
        self.speed_limit.map(|speed| speed.si() * self.pitch_radius / ratio)
    }

    /// Speed of a motor with nothing to drive, at the open voltage: what sags by its no-load current is too little to count.
    pub fn free_motor(&self) -> AngularVelocity {
        let free = self.motor.free_speed(ElectricPotential::from_si(self.open));
        self.speed_limit.filter(|limit| *limit < free).unwrap_or(free)
    }

    /// All of it, as the rules see it.
    ///
    /// # Errors
    /// The battery cannot give that much, or something is not a number.
    pub fn drive(&self, speed: f64, pull: f64, set_by: &'static str) -> Found<Drive> {
        let working = self.working(speed, pull);
        let power = Power::from_si(working.battery_power);
        let current = self.battery_current(working.battery_power)?;
        let motor = Turning { speed: working.motor.speed, torque: working.motor.torque };
        let drive = Drive {
            motors: self.motors(),
            lines: self.layout.lines,
            motor_speed: motor.speed,
            motor_torque: motor.torque,
            motor_current: working.motor.current,
            battery_current: current,
            peak_current: current.abs(),
            battery_voltage: self.sagged(current),
            track_speed: Velocity::from_si(speed),
            pull: Force::from_si(pull),
            stages: self.through(speed, pull),
            sprocket_torque: self.sprocket(speed, pull).torque,
            motor_heat: working.motor.loss() * self.motors(),
            controller_heat: Power::from_si(working.controller_heat),
            battery_heat: self.battery_heat(current.si()),
            blow: None,
            overrun: None,
            ridden: None,
            free_speed: Ok(self.free_motor()),
            wanted_power: power,
            short: None,
            set_by,
            braking_heat: Power::ZERO,
        };
        let numbers = [
            drive.motor_speed.si(),
            drive.motor_torque.si(),
            drive.battery_current.si(),
            drive.battery_voltage.si(),
            drive.track_speed.si(),
            drive.pull.si(),
            drive.motor_heat.si(),
            drive.controller_heat.si(),
            drive.battery_heat.si(),
        ];
        if numbers.iter().all(|number| number.is_finite()) {
            return Ok(drive);
        }
        Err(NotJudged::NoSolution(
            "the drive line comes to no finite numbers: one of its figures is zero or far off".into(),
        ))
    }
}
