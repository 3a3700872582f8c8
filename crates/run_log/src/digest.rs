//! What is kept of a log: plain numbers in SI units.

use crate::columns::{Column, Role};
use crate::rows::{Row, Rows};
use crate::spectrum::{Spectrum, Step};
use crate::trouble::{Place, Trouble, Why};
use crate::window::Window;
use std::io::Read;

/// Lowest and highest value of a column.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ends {
    pub lowest: f64,
    pub highest: f64,
}

/// A column over the whole run.
#[derive(Debug, Clone, PartialEq)]
pub struct Flow {
    pub ends: Ends,
    /// On average over time.
    pub mean: f64,
    /// Effective value (root of the mean square): what heats as much when it flows evenly.
    pub effective: f64,
    /// The highest effective value over ten seconds; nothing from a shorter run.
    pub ten_seconds: Option<f64>,
    /// Value times time of what is above nothing, and of what is below, both positive: charge or energy out and back.
    pub out: f64,
    pub back: f64,
}

/// What is kept of a log. A column that the spec does not name, or whose unit it does not say, is not there.
#[derive(Debug, Clone, PartialEq)]
pub struct Digest {
    pub rows: u64,
    /// From the first row to the last.
    pub seconds: f64,
    pub speed: Option<Flow>,
    pub motor_current: Option<Flow>,
    pub battery_current: Option<Flow>,
    pub battery_voltage: Option<Flow>,
    /// As recorded, or current times voltage.
    pub battery_power: Option<Flow>,
    pub motor_temperature: Option<Ends>,
    pub controller_temperature: Option<Ends>,
    pub battery_temperature: Option<Ends>,
    /// Motor current over speed.
    pub by_current: Vec<Step>,
    /// Battery power over speed.
    pub by_power: Vec<Step>,
}

/// A column while it is read.
struct Tally {
    ends: Ends,
    sum: f64,
    squares: f64,
    out: f64,
    back: f64,
    window: Window,
    seconds: f64,
}

impl Tally {
    fn new() -> Self {
        let ends = Ends { lowest: f64::INFINITY, highest: f64::NEG_INFINITY };
        Self { ends, sum: 0.0, squares: 0.0, out: 0.0, back: 0.0, window: Window::new(), seconds: 0.0 }
    }
    fn see(&mut self, value: f64) {
        self.ends = Ends { lowest: self.ends.lowest.min(value), highest: self.ends.highest.max(value) };
    }
    fn hold(&mut self, value: f64, seconds: f64) {
        self.sum += value * seconds;
        self.squares += value * value * seconds;
        self.out += value.max(0.0) * seconds;
        self.back += (-value).max(0.0) * seconds;
        self.seconds += seconds;
        self.window.add(value, seconds);
    }
    fn flow(&self) -> Flow {
        Flow {
            ends: self.ends,
            mean: self.sum / self.seconds,
            effective: (self.squares / self.seconds).sqrt(),
            ten_seconds: self.window.effective(),
            out: self.out,
            back: self.back,
        }
    }
}

/// A pause this long, and so many times the usual step, is a gap and no slow logger.
const GAP_SECONDS: f64 = 5.0;
const GAP_STEPS: f64 = 20.0;

struct Digesting {
    tallies: Vec<Option<Tally>>,
    by_current: Spectrum,
    by_power: Spectrum,
    rows: u64,
    first: f64,
    before: Option<(f64, Row)>,
}

fn of(row: &Row, role: Role) -> Option<f64> {
    row.get(role.index()).copied().flatten()
}

impl Digesting {
    fn tally(&mut self, role: Role) -> Option<&mut Tally> {
        self.tallies.get_mut(role.index())?.as_mut()
    }

    /// The row before holds until this one comes.
    fn hold(&mut self, row: &Row, seconds: f64) {
        for role in Role::ALL {
            if let (Some(value), Some(tally)) = (of(row, role), self.tally(role)) {
                tally.hold(value, seconds);
            }
        }
        let Some(speed) = of(row, Role::Speed) else { return };
        if let Some(current) = of(row, Role::MotorCurrent) {
            self.by_current.add(current, speed, seconds);
        }
        if let Some(power) = of(row, Role::BatteryPower) {
            self.by_power.add(power, speed, seconds);
        }
    }

    fn take(&mut self, place: impl Fn() -> Place, mut row: Row) -> Result<(), Trouble> {
        let Some(now) = of(&row, Role::Time) else { return Ok(()) };
        if of(&row, Role::BatteryPower).is_none()
            && let (Some(current), Some(voltage)) = (of(&row, Role::BatteryCurrent), of(&row, Role::BatteryVoltage))
            && let Some(slot) = row.get_mut(Role::BatteryPower.index())
        {
            *slot = Some(current * voltage);
        }
        match self.before.take() {
            None => self.first = now,
            Some((before, _)) if now < before => {
                return Err(Trouble { place: place(), why: Why::Backwards { before, now } });
            }
            Some((before, held)) => {
                let (seconds, steps) = (now - before, (self.rows - 1) as f64);
                let usual = (before - self.first) / steps;
                if steps >= 3.0 && seconds > GAP_SECONDS && seconds > GAP_STEPS * usual {
                    return Err(Trouble { place: place(), why: Why::Gap { seconds, usual } });
                }
                self.hold(&held, seconds);
            }
        }
        for role in Role::ALL {
            if let (Some(value), Some(tally)) = (of(&row, role), self.tally(role)) {
                tally.see(value);
            }
        }
        self.rows += 1;
        self.before = Some((now, row));
        Ok(())
    }
}

/// Reads a log to its end. Nothing where the spec does not say which column is the time, or in which unit.
///
/// # Errors
/// The first thing in the file that is wrong.
pub fn read(input: impl Read, columns: &[Column]) -> Result<Option<Digest>, Trouble> {
    let mut rows = Rows::new(input, columns)?;
    if !rows.has(Role::Time) {
        return Ok(None);
    }
    let worked_out = rows.has(Role::BatteryCurrent) && rows.has(Role::BatteryVoltage);
    let kept = |role| rows.has(role) || role == Role::BatteryPower && worked_out;
    let tallies = Role::ALL.into_iter().map(|role| kept(role).then(Tally::new)).collect();
    let (by_current, by_power) = (Spectrum::new(), Spectrum::new());
    let mut digesting = Digesting { tallies, by_current, by_power, rows: 0, first: 0.0, before: None };
    while let Some(row) = rows.next()? {
        digesting.take(|| rows.here(Role::Time), row)?;
    }
    let trouble = |why| Err(Trouble { place: rows.here(Role::Time), why });
    let seconds = digesting.before.as_ref().map_or(0.0, |(last, _)| last - digesting.first);
    match digesting.rows {
        0 => return trouble(Why::NoRows),
        1 => return trouble(Why::OneRow),
        _ if seconds <= 0.0 => return trouble(Why::NoTimePasses),
        _ => {}
    }
    let tally = |role: Role| digesting.tallies.get(role.index()).and_then(Option::as_ref);
    let flow = |role| tally(role).map(Tally::flow);
    let ends = |role| tally(role).map(|tally| tally.ends);
    Ok(Some(Digest {
        rows: digesting.rows,
        seconds,
        speed: flow(Role::Speed),
        motor_current: flow(Role::MotorCurrent),
        battery_current: flow(Role::BatteryCurrent),
        battery_voltage: flow(Role::BatteryVoltage),
        battery_power: flow(Role::BatteryPower),
        motor_temperature: ends(Role::MotorTemperature),
        controller_temperature: ends(Role::ControllerTemperature),
        battery_temperature: ends(Role::BatteryTemperature),
        by_current: digesting.by_current.steps(),
        by_power: digesting.by_power.steps(),
    }))
}
