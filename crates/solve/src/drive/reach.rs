//! What the drive line could pull at each speed, and what a case asks of it.

use crate::at::At;
use crate::drive::ground;
use crate::drive::line::{Charge, Line};
use crate::drive::ways::{fastest, most, rising_zero};
use machine::Found;
use quantity::*;

/// Speeds at which the pull is worked out.
const SPEEDS: u32 = 60;

/// How much is in the battery.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Filled {
    /// As in the cases that last.
    Nominal,
    /// As at the start.
    Full,
}

/// What the ground of a case asks of all tracks together.
#[derive(Debug, Clone, PartialEq)]
pub struct Asked {
    /// As the case states it.
    pub speed: Option<Velocity>,
    pub pull: Force,
    /// Beyond it the track spins.
    pub grip: Force,
}

/// What the case asks.
///
/// # Errors
/// A gap.
pub fn asked(at: &At) -> Found<Asked> {
    let ground = ground(at)?;
    Ok(Asked { speed: at.try_get(&at.case()?.speed), pull: ground.resistance, grip: ground.traction })
}

/// The most that the drive line pulls at each speed from a standstill to its fastest: as far as the limits of currents and
/// of speed, the battery and its voltage let it. Whether the track grips is another question.
///
/// # Errors
/// A gap, or a line that does not move at all.
pub fn reach(at: &At, filled: Filled) -> Found<Vec<(Velocity, Force)>> {
    let line = Line::read(at, if filled == Filled::Full { Charge::Full } else { Charge::Nominal })?;
    let top = fastest(&line, 0.0)?.track_speed.si();
    let mut reach: Vec<(Velocity, Force)> = (0..=SPEEDS)
        .map(|step| top * f64::from(step) / f64::from(SPEEDS))
        .map(|speed| (Velocity::from_si(speed), Force::from_si(pull(&line, speed))))
        .collect();
    // Held back by the controller it ends at once.
    reach.push((Velocity::from_si(top), Force::ZERO));
    Ok(reach)
}

fn pull(line: &Line, speed: f64) -> f64 {
    let by_current = line.pull_at(speed, line.motor_limit.map_or_else(|| line.stall_current(), |limit| limit.si()));
    let power = line.power_at_limit().unwrap_or_else(|| most(line));
    rising_zero(by_current.max(0.0), |pull| line.working(speed, pull).battery_power - power)
        .and_then(|pull| rising_zero(pull, |pull| line.volts_short(speed, pull)))
        .unwrap_or(0.0)
}
