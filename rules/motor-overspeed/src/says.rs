//! The words of a rotor that is too fast.

use crate::{Held, Limit, REQUIRED};
use rule::prelude::*;

pub(crate) fn fast(at: &At, held: Held, limit: &Limit, reserve: f64, w: &mut Telling<'_>) {
    let when = match held {
        Held::Load => "at the speed of this case",
        Held::Nothing => "as soon as nothing holds it: the track leaves the ground, or a chain comes off",
        Held::Battery => "when the slope pushes the machine and nobody brakes",
    };
    w.happens = format!("the magnets come off the rotor {when}: the motor locks, and pieces fly");
    let train = &at.machine().powertrain;
    let by = if limit.labelled { "its label" } else { "the speed of its rim, no label being given" };
    w.numbers.push(format!("It stands {} by {by}.", shown::<m::RotationalSpeed>(limit.speed)));
    w.label(
        if limit.labelled { train.motor.speed_max.id() } else { train.motor.rotor_diameter.id() },
        "what it stands",
    );
    let slower = reserve / REQUIRED.value;
    match held {
        Held::Load => loaded(at, slower, w),
        Held::Nothing | Held::Battery => unloaded(at, held, limit, slower, w),
    }
}

fn loaded(at: &At, slower: f64, w: &mut Telling<'_>) {
    let train = &at.machine().powertrain;
    if let Ok(drive) = at.drive() {
        w.numbers.push(format!(
            "The track runs at {} (set by {}).",
            shown::<m::Speed>(drive.track_speed),
            drive.set_by
        ));
    }
    if let (Ok(drive), Ok(case)) = (at.drive(), at.case()) {
        w.clears.push(format!("drive no faster than {}", at.show(&case.value.speed, drive.track_speed * slower)));
        w.label(case.value.speed.id(), "how fast it goes");
    }
    if !train.stages.is_empty() {
        let share = 100.0 * slower;
        w.clears.push(format!(
            "gear it taller: the whole ratio down to {share:.0} % of what it is, which takes more current"
        ));
    }
}

fn unloaded(at: &At, held: Held, limit: &Limit, slower: f64, w: &mut Telling<'_>) {
    let train = &at.machine().powertrain;
    if let Ok(full) = at.battery().and_then(|battery| battery.full.clone()) {
        w.numbers.push(format!("Charged full the battery has {}.", shown::<m::Voltage>(full)));
    }
    w.label(train.motor.speed_constant.id(), "so fast for each volt");
    let cells = &train.battery.cells;
    w.label(cells.series.id(), "so many volts");
    if let Some(constant) = at.try_get(&train.motor.speed_constant) {
        w.at_most(&train.motor.speed_constant, constant * slower, |fast| format!("a motor of no more than {fast}"));
    }
    if held == Held::Battery {
        // What flows back lifts the volts by as much whatever the number of cells.
        w.clears.push("fewer cells in series".into());
    } else if let Some(series) = at.try_get(&cells.series) {
        w.at_most(&cells.series, series * slower, |count| format!("no more than {count} cells in series"));
    }
    if at.try_get(&train.controller.timing_advance).is_some_and(|advance| advance > Angle::ZERO) {
        w.label(train.controller.timing_advance.id(), "switches early, which makes it faster");
        w.clears.push("less timing advance".into());
    }
    match held {
        Held::Battery => w.clears.push("a brake that holds without the controller, used before the slope".into()),
        Held::Nothing | Held::Load => {
            w.at_most(&train.controller.motor_speed_limit, limit.speed / REQUIRED.value, |speed| {
                format!("let the controller hold back at {speed} (motor_speed_limit)")
            });
        }
    }
}
