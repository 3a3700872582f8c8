#![no_std]
//! Whether the rotor stands its speeds. It never knows: how a drive line is worked out, what a controller can switch, other
//! rules.

use physics::motor::speed_at_rim;
use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "motor-overspeed",
    area: Area::Powertrain,
    question: "Does the motor's rotor stand its speed, under load, with the track in the air, and pushed downhill?",
    explains: "Magnets are held by glue and bands against a pull that grows with the square of the speed. A motor runs fastest \
               when nothing holds it: the track leaves the ground, a chain comes off, all cells are fresh and cold. Downhill the \
               machine can push it beyond even that. A magnet that comes off locks the motor, or flies out.",
    formula: "free speed Kv·(V − I₀·R) at full charge; Kv/cos γ with a timing advance γ; pushed downhill Kv·(V + I·R), at the current \
              that holds the machine; limit of the label, else 2·(100 m/s)/diameter over the magnets",
    source: "Direct-current equivalent, textbook. 100 m/s at the rim, and the reserve: common practice, no source. Timing \
             advance: mean of a sine over the sixth of a turn in which two windings carry current, worked out here.",
    checked: "the curve against the closed forms of the first-order motor model; free speed by hand; the advance by summing the \
              sine; pushed downhill, the motor's own voltage is the battery's and what its current needs in the windings. A \
              controller that weakens the field otherwise makes the motor faster than is said here.",
    required: "1.1 (common practice)",
    caution: "A rotor that bursts throws magnets through a thin can. Keep the motor covered, and nobody in its plane on a first \
              run in the air.",
};

#[derive(Debug)]
pub struct MotorOverspeed;

impl Rule for MotorOverspeed {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        let motor = machine.powertrain.motor.speed_max.id();
        if !machine.has_section_of(motor) {
            return;
        }
        let mut on = checks.about("motor", motor);
        on.check("speed under load", |at| judge(at, Held::Load));
        on.check("speed without load", |at| judge(at, Held::Nothing));
        on.check("speed when pushed downhill", |at| judge(at, Held::Battery));
    }
}

/// What keeps the motor from turning any faster.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Held {
    Load,
    Nothing,
    Battery,
}

/// The most that the rotor stands, and whether its label says so.
struct Limit {
    speed: AngularVelocity,
    labelled: bool,
}

const REQUIRED: Required = Required { value: 1.1, why: "a reading, a charge, a winding are never quite as stated" };

fn judge(at: &At, held: Held) -> Found<Outcome> {
    let case = at.case()?;
    // A recorded run has shown how fast it goes; nothing says that its track ever lost the ground.
    let free = (case.kind.drives() && !case.kind.recorded())
        || case.kind.lifts_off()
        || (case.kind.lands() && case.under_power == Some(true));
    let speed = match held {
        Held::Load if case.kind.drives() => at.drive()?.fastest_motor(),
        Held::Nothing if free => at.drive()?.free_speed.clone()?,
        Held::Battery if case.kind.runs_downhill() => match &at.drive()?.overrun {
            Some(overrun) => overrun.as_ref().map_err(Clone::clone)?.motor_speed,
            None => return Ok(Outcome::Aside("the slope does not push the machine")),
        },
        _ => return Ok(Outcome::Aside("the motor does not turn so in this case")),
    };
    let limit = limit(at)?;
    let consequence = if somebody_near(at.machine()) { Consequence::Harm } else { Consequence::RunOver };
    let margin = Margin::ratio::<m::RotationalSpeed>(speed, limit.speed, REQUIRED, consequence);
    let reserve = margin.held.reserve();
    Ok(Outcome::Held(margin.tell(at, |w| says::fast(at, held, &limit, reserve, w))))
}

/// Of the label; else by the rim.
fn limit(at: &At) -> Found<Limit> {
    let motor = &at.machine().powertrain.motor;
    if let Some(speed) = at.try_get(&motor.speed_max) {
        return Ok(Limit { speed, labelled: true });
    }
    match at.try_get(&motor.rotor_diameter) {
        Some(diameter) => {
            Ok(Limit { speed: speed_at_rim(at.need(&at.assumed().rotor_rim_speed)?, diameter), labelled: false })
        }
        // The label is what to look for first.
        None => at.need(&motor.speed_max).map(|speed| Limit { speed, labelled: true }),
    }
}

/// Unless the spec says that nobody is.
fn somebody_near(machine: &Machine) -> bool {
    machine.machine.rides != Some(false) || machine.machine.people_near != Some(false)
}
