//! The words of each check.

use crate::REQUIRED;
use rule::prelude::*;

/// So much less voltage of the full pack is enough.
fn fewer_cells(at: &At, less: f64, w: &mut Telling<'_>) {
    let cells = &at.machine().powertrain.battery.cells;
    w.label(cells.series.id(), "so many cells, one behind the other");
    if let Some(series) = at.try_get(&cells.series) {
        let fewer = series * less;
        w.at_most(&cells.series, fewer, |count| format!("no more than {count} cells in series"));
    }
}

fn higher(at: &At, reserve: f64, w: &mut Telling<'_>) {
    let limit = &at.machine().powertrain.controller.voltage_max;
    w.label(limit.id(), "what it stands");
    if let Some(volts) = at.try_get(limit) {
        let wanted = volts * (REQUIRED.value / reserve);
        w.at_least(limit, wanted, |volts| format!("a controller for {volts} or more"));
    }
}

pub(crate) fn full(at: &At, reserve: f64, w: &mut Telling<'_>) {
    w.happens = "the controller breaks down when a full pack is plugged in: its switches short, and the machine stays where it is".into();
    fewer_cells(at, reserve / REQUIRED.value, w);
    higher(at, reserve, w);
}

pub(crate) fn braking(at: &At, pushed: bool, volts: ElectricPotential, reserve: f64, w: &mut Telling<'_>) {
    let why =
        if pushed { "the slope pushes the machine and nobody brakes" } else { "the motor brakes into a full pack" };
    w.happens = format!("the controller breaks down when {why}: nothing brakes any more after that");
    w.label(at.machine().powertrain.battery.resistance.id(), "lifts the volts when current flows in");
    if let Ok(battery) = at.battery()
        && let (Ok(full), Ok(resistance)) = (&battery.full, &battery.resistance)
    {
        w.numbers.push(format!(
            "Full it has {} without current; its {} lift that while current flows in.",
            shown::<m::Voltage>(*full),
            shown::<m::Resistance>(*resistance)
        ));
        // What flows in lifts the volts by as much whatever the number of cells.
        fewer_cells(at, 1.0 - (volts * (1.0 - reserve / REQUIRED.value) / *full).si(), w);
    }
    higher(at, reserve, w);
    w.clears.push("start downhill with a pack that is not quite full".into());
    w.clears.push("brake by shorted windings, a resistor or a disc in place of the battery".into());
}

pub(crate) fn switching(at: &At, fastest: AngularVelocity, reserve: f64, w: &mut Telling<'_>) {
    let train = &at.machine().powertrain;
    w.happens = "the controller loses the motor's angle at speed: it stutters, cuts out or burns its switches".into();
    w.numbers.push(format!("The motor turns at up to {}.", shown::<m::RotationalSpeed>(fastest)));
    w.label(train.motor.pole_pairs.id(), "so many electrical turns in one of the shaft");
    w.label(train.motor.speed_constant.id(), "so fast for each volt");
    w.label(train.controller.electrical_speed_max.id(), "what it can follow");
    let slower = shown::<m::RotationalSpeed>(fastest * (reserve / REQUIRED.value));
    w.clears.push(format!("keep the motor below {slower} (motor_speed_limit, fewer cells, or a lower speed constant)"));
    if let Some(pairs) = at.try_get(&train.motor.pole_pairs) {
        let fewer = pairs * (reserve / REQUIRED.value);
        w.at_most(&train.motor.pole_pairs, fewer, |count| format!("a motor of no more than {count} pole pairs"));
    }
    w.clears.push("a controller that follows faster".into());
}

pub(crate) fn current(at: &At, burst: bool, reserve: f64, w: &mut Telling<'_>) {
    let controller = &at.machine().powertrain.controller;
    let long = if burst { "for some seconds" } else { "for as long as this case lasts" };
    w.happens = format!("the controller's switches burn out: they do not bear the motor's current {long}");
    if let Ok(drive) = at.drive() {
        w.numbers.push(format!("The current is set by {}.", drive.set_by));
    }
    let label = if burst && at.is_given(&controller.burst_current_max) {
        &controller.burst_current_max
    } else {
        &controller.current_max
    };
    w.label(label.id(), "what it bears");
    w.label(controller.current_limit.motor.id(), "what it lets through");
    if burst && !at.is_given(&controller.burst_current_max) {
        w.clears.push("say what it bears for ten seconds (burst_current_max), if its label does".into());
    }
    if let Some(limit) = at.try_get(label) {
        w.at_most(&controller.current_limit.motor, limit / REQUIRED.value, |amps| {
            format!("turn the motor current limit down to {amps}")
        });
        w.at_least(label, limit * (REQUIRED.value / reserve), |amps| format!("a controller for {amps} or more"));
    }
    w.clears.push("gear it shorter: less current for the same pull".into());
}
