#![no_std]
//! Whether the controller stands its volts, its switching speed and its current. It never knows: how a drive line is worked
//! out, how warm the controller gets, other rules.

use physics::battery::sagged_voltage;
use physics::motor::electrical_speed;
use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "controller-limits",
    area: Area::Powertrain,
    question: "Do the battery's volts, the motor's electrical speed and its current stay within what the controller stands?",
    explains: "Its switches break down at once above their voltage: with a pack fresh off the charger, and when the motor brakes \
               into a full one. It has to switch several times in each turn for each pole pair, and loses the motor's angle when \
               that gets too fast. Current that it does not bear burns it more slowly.",
    formula: "series × cell voltage when full; braking V₀ + I·R, or V₀ + I·R of a machine pushed downhill, whichever is more; \
              rpm × pole pairs of the fastest of: under load, without load, pushed downhill; current of one motor",
    source: "Ohm's law; electrical speed of synchronous machines, textbook. Reserves, and ten seconds as a burst: common \
             practice, no source.",
    checked: "by hand on a battery of one resistance; pole pairs against the count of poles. The kick of long battery leads at \
              each switching, a volt or more at its supply, is left out: it is what the reserve is for. A pack whose protection \
              opens while the motor brakes lets the volts run up beyond all of this.",
    required: "1.05 (common practice)",
    caution: "A controller that breaks down may short the battery or drive at full: fuse the pack, and lift the track for a first \
              run.",
};

#[derive(Debug)]
pub struct ControllerLimits;

impl Rule for ControllerLimits {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        let controller = machine.powertrain.controller.voltage_max.id();
        if !machine.has_section_of(controller) {
            return;
        }
        let mut on = checks.about("controller", controller);
        on.check("volts at full charge", full);
        on.check("volts when braking", braking);
        on.check("electrical speed", switching);
        on.check("motor current", current);
    }
}

const REQUIRED: Required = Required { value: 1.05, why: "labels are not exceeded even for a moment" };

fn full(at: &At) -> Found<Outcome> {
    let volts = at.battery()?.full.clone()?;
    let limit = at.need(&at.machine().powertrain.controller.voltage_max)?;
    let margin = Margin::ratio::<m::Voltage>(volts, limit, REQUIRED, Consequence::Stranded);
    let reserve = margin.held.reserve();
    Ok(Outcome::Held(margin.tell(at, |w| says::full(at, reserve, w))))
}

/// Whether the motor brakes into the battery when the controller has its way.
fn into_the_battery(at: &At) -> bool {
    let braking = at.part_or(&at.machine().powertrain.controller.braking, "regenerative");
    matches!(braking.and_then(|braking| braking.by), None | Some(BrakingKind::Regenerative))
}

fn braking(at: &At) -> Found<Outcome> {
    if !at.case()?.kind.runs_downhill() {
        return Ok(Outcome::Aside("nothing brakes in this case"));
    }
    let drive = at.drive()?;
    let battery = at.battery()?;
    let mut highest: Option<ElectricPotential> = None;
    if drive.battery_current < ElectricCurrent::ZERO && into_the_battery(at) {
        highest = Some(sagged_voltage(battery.full.clone()?, drive.battery_current, battery.resistance.clone()?));
    }
    let away = match &drive.overrun {
        Some(overrun) => Some(overrun.as_ref().map_err(Clone::clone)?.battery_voltage),
        None => None,
    };
    let pushed = away.is_some_and(|away| highest.is_none_or(|highest| away > highest));
    let Some(volts) = (if pushed { away } else { highest }) else {
        return Ok(Outcome::Aside("nothing flows back into the battery"));
    };
    let limit = at.need(&at.machine().powertrain.controller.voltage_max)?;
    let margin = Margin::ratio::<m::Voltage>(volts, limit, REQUIRED, Consequence::Stranded);
    let reserve = margin.held.reserve();
    Ok(Outcome::Held(margin.tell(at, |w| says::braking(at, pushed, volts, reserve, w))))
}

fn switching(at: &At) -> Found<Outcome> {
    let kind = at.case()?.kind;
    if !(kind.drives() || kind.lifts_off() || kind.lost()) {
        return Ok(Outcome::Aside("the motor stands"));
    }
    let drive = at.drive()?;
    let mut fastest = drive.fastest_motor();
    if !kind.lost() {
        let free = drive.free_speed.clone()?;
        fastest = if free > fastest { free } else { fastest };
    }
    if let Some(overrun) = &drive.overrun {
        let pushed = overrun.as_ref().map_err(Clone::clone)?.motor_speed;
        fastest = if pushed > fastest { pushed } else { fastest };
    }
    if fastest == AngularVelocity::ZERO {
        return Ok(Outcome::Aside("the motor stands"));
    }
    let train = &at.machine().powertrain;
    let electrical = electrical_speed(fastest, at.need(&train.motor.pole_pairs)?);
    let limit = at.need(&train.controller.electrical_speed_max)?;
    let margin = Margin::ratio::<m::RotationalSpeed>(electrical, limit, REQUIRED, Consequence::RunOver);
    let reserve = margin.held.reserve();
    Ok(Outcome::Held(margin.tell(at, |w| says::switching(at, fastest, reserve, w))))
}

fn current(at: &At) -> Found<Outcome> {
    let drive = at.drive()?;
    let current = drive.motor_current.abs();
    if current == ElectricCurrent::ZERO {
        return Ok(Outcome::Aside("no current flows in the motor"));
    }
    let burst = drive::carries_for(at)?.is_some_and(|lasts| lasts <= Time::from_si(BURST));
    let (mut worst, mut short) = (against(at, current, burst)?, burst);
    // Of a recorded run also the hardest ten seconds, or the highest where those are not known.
    if let Some(ridden) = &drive.ridden {
        let seconds = against(at, ridden.motor_ten_seconds.unwrap_or(ridden.motor_current), true)?;
        if seconds.held.reserve() < worst.held.reserve() {
            (worst, short) = (seconds, true);
        }
    }
    let reserve = worst.held.reserve();
    Ok(Outcome::Held(worst.tell(at, |w| says::current(at, short, reserve, w))))
}

fn against(at: &At, current: ElectricCurrent, burst: bool) -> Found<Margin> {
    let controller = &at.machine().powertrain.controller;
    let limit = match at.try_get(&controller.burst_current_max).filter(|_| burst) {
        Some(limit) => limit,
        None => at.need(&controller.current_max)?,
    };
    Ok(Margin::ratio::<m::Current>(current, limit, REQUIRED, Consequence::Stranded))
}

/// Up to so many seconds labels call it a burst.
const BURST: f64 = 10.0;
