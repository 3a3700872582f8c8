//! The words of each check: one line that answers, then the numbers.

use drive::{Hold, Stop, Uphill};
use rule::prelude::*;

fn speed_of(speed: Velocity) -> String {
    shown::<m::Speed>(speed)
}

fn on(grade: Angle) -> String {
    if grade == Angle::ZERO { "the level".into() } else { shown::<m::Grade>(grade) }
}

fn forces(up: &Uphill, w: &mut Telling<'_>) {
    w.numbers.push(format!(
        "It needs {} at the tracks; the drive line pulls {}, the tracks grip up to {}.",
        shown::<m::Force>(up.needs),
        shown::<m::Force>(up.pulls),
        shown::<m::Force>(up.grip)
    ));
}

/// Up to which grade, and what ends it there.
fn up_to(up: &Uphill) -> String {
    match up.steepest {
        Some(steepest) => format!("pulls to {}, then {}", shown::<m::Grade>(steepest), up.first),
        None => format!("not even on the level: {}", up.first),
    }
}

fn mend(at: &At, up: &Uphill, w: &mut Telling<'_>) {
    let track = &at.machine().powertrain.track;
    if up.grip < up.pulls {
        w.label(track.adhesion.id(), "how well the tracks grip");
        w.clears.push("more weight on the tracks, higher lugs, a gentler way".into());
        if !at.is_given(&track.adhesion) {
            w.clears.push("measure the pull at which the tracks spin, with a scale (adhesion)".into());
        }
    } else {
        w.clears.push("more reduction, higher current limits, a gentler way".into());
    }
    w.clears.push("less payload".into());
}

pub(crate) fn pull(at: &At, up: &Uphill, fails: bool, w: &mut Telling<'_>) {
    let Ok(case) = at.case() else { return };
    let (speed, answer) = (speed_of(up.speed.unwrap_or(Velocity::ZERO)), if fails { "no" } else { "yes" });
    w.happens = match at.try_get(&case.side_slope) {
        Some(across) => format!("{speed} across {}: {answer}, and more until {}", shown::<m::Angle>(across), up.first),
        None => format!("{speed} on {}: {answer}, {}", on(up.grade), up_to(up)),
    };
    forces(up, w);
    if fails && up.fastest > Velocity::ZERO {
        w.numbers.push(format!("On this grade it goes {} at most.", speed_of(up.fastest)));
    }
    w.label(case.grade.id(), "what it has to climb");
    w.label(case.speed.id(), "how fast");
    mend(at, up, w);
}

pub(crate) fn start(at: &At, up: &Uphill, fails: bool, w: &mut Telling<'_>) {
    w.happens = format!("gets going on {}: {}, {}", on(up.grade), if fails { "no" } else { "yes" }, up_to(up));
    forces(up, w);
    if let Ok(case) = at.case() {
        w.label(case.grade.id(), "where it starts");
    }
    mend(at, up, w);
}

pub(crate) fn speed(at: &At, asked: Velocity, found: (Velocity, &str), fails: bool, w: &mut Telling<'_>) {
    let answer = if fails { "no" } else { "yes" };
    w.happens = format!("{} on the level: {answer}, {} at most, then {}", speed_of(asked), speed_of(found.0), found.1);
    if let Ok(case) = at.case() {
        w.label(case.speed.id(), "how fast it has to go");
    }
    w.clears.push("less reduction, or more voltage where the voltage ends it".into());
}

pub(crate) fn as_fast_as_it_goes(at: &At, fastest: Velocity, first: &str) -> Words {
    let mut words = Words::default();
    if at.tells() {
        words.happens = if fastest > Velocity::ZERO {
            format!("goes {} on the level, then {first}", speed_of(fastest))
        } else {
            format!("does not move on the level: {first}")
        };
        if let Ok(case) = at.case() {
            words.label(case.key.id, "as fast as it goes");
        }
    }
    words
}

pub(crate) fn stop(at: &At, stop: &Stop, w: &mut Telling<'_>) {
    let from = format!("stops from {} on {} downhill", speed_of(stop.speed), on(stop.grade));
    w.happens = match stop.distance {
        Some(distance) => format!("{from}: yes, in {}", shown::<m::Length>(distance)),
        None => format!("{from}: no, it runs on downhill"),
    };
    w.numbers.push(format!(
        "The slope pulls with {}; {} brakes with {}{}, the ground with {}.",
        shown::<m::Force>(stop.slope),
        stop.by,
        shown::<m::Force>(stop.brake),
        if stop.slides { ", all that the tracks grip" } else { "" },
        shown::<m::Force>(stop.rolling)
    ));
    blame(at, w);
    w.label(at.machine().powertrain.controller.braking.id(), "what brakes");
    if stop.slides {
        w.clears.push("more weight on the tracks, higher lugs: a stronger brake only locks them".into());
    } else {
        w.clears.push("a mechanical brake on the drive axle (braking: {by: mechanical, force: …})".into());
    }
    w.clears.push("a gentler way down".into());
}

pub(crate) fn distance(at: &At, stopped: &Stop, w: &mut Telling<'_>) {
    stop(at, stopped, w);
    if let Ok(case) = at.case() {
        w.label(case.stop_within.id(), "in what distance it has to stop");
    }
    w.clears.push("go slower".into());
}

fn blame(at: &At, w: &mut Telling<'_>) {
    if let Ok(case) = at.case() {
        w.label(case.grade.id(), "on this slope");
    }
}

pub(crate) fn stay(at: &At, hold: &Hold, fails: bool, w: &mut Telling<'_>) {
    let answer = if fails { "no, it rolls off as soon as nobody drives it" } else { "yes" };
    w.happens = format!("stays where it is on {}: {answer}", on(hold.grade));
    w.numbers.push(format!(
        "The slope pulls with {}; {} holds {}.",
        shown::<m::Force>(hold.slope),
        hold.by,
        shown::<m::Force>(hold.holds)
    ));
    blame(at, w);
    w.label(at.machine().powertrain.track.parking_force.id(), "what holds it");
    w.clears.push("a parking brake, or a worm that holds itself (track: {parking_force: …})".into());
    w.clears.push("never leave it on a slope without a block below the track".into());
}

pub(crate) fn last(at: &At, (asked, lasts): (Time, Time), fails: bool, w: &mut Telling<'_>) {
    let answer = if fails { "no" } else { "yes" };
    w.happens = format!(
        "{} of it: {answer}, a full battery lasts for {}",
        shown::<m::Duration>(asked),
        shown::<m::Duration>(lasts)
    );
    if let Ok(case) = at.case() {
        w.label(case.duration.id(), "how long it goes on");
    }
    w.label(at.machine().powertrain.battery.capacity.id(), "how much it holds");
    w.clears.push("a larger battery, or change packs on the way".into());
}
