//! What the drive line pulls at each speed, and what the cases ask of it.

use super::{ask, ends, named, points, shown};
use crate::chart::{Axis, Chart, Drawing, Line, Mark, Picture};
use machine::{Case, CaseKind, Found, Machine, NotJudged};
use quantity::{Quantity, m};
use solve::CasePoint;
use solve::drive::{Asked, Drive, Filled, asked, reach};

const TITLE: &str = "Pull of the track against its speed";
const SHOWS: &str = "At full throttle the machine can be anywhere below the lines for the drive line; a numbered mark is what \
                     a case asks. A mark above them is not reached. Downhill nothing is asked, so such cases have no mark.";

pub(super) fn drawing(machine: &Machine) -> Option<Drawing> {
    let powertrain = &machine.powertrain;
    if !machine.is_given(&powertrain.motor.speed_constant) && !machine.is_given(&powertrain.track.pitch) {
        return None;
    }
    let found = chart(machine).map(Picture::Chart);
    Some(Drawing { title: TITLE.into(), found })
}

/// The machine is driven on the ground.
fn driven(case: &Case) -> bool {
    use CaseKind::{Climb, Cruise, Descent, Launch, SideSlope, TopSpeed};
    matches!(case.kind, Climb | Cruise | SideSlope | Descent | TopSpeed | Launch)
}

fn chart(machine: &Machine) -> Found<Chart> {
    let driven = points(machine, driven);
    let ends = ends(machine, &driven);
    let Some(warmest) = ends.last() else {
        return Err(NotJudged::NoSolution("no case drives the machine over the ground".into()));
    };
    let mut lines = Vec::new();
    for point in &ends {
        lines.push(line(machine, *point, Filled::Nominal)?);
    }
    lines.push(line(machine, *warmest, Filled::Full)?);
    let (mut marks, mut missing, mut grips) = (Vec::new(), Vec::new(), Vec::new());
    for point in first_of_each(&driven) {
        match ask(machine, point, |at| Ok((asked(at)?, at.drive()?.clone()))) {
            Ok((asked, drive)) => {
                if let Some(mark) = mark(machine, point, &asked, &drive) {
                    grips.push((named(machine, point), asked.grip.si()));
                    marks.push(mark);
                }
            }
            Err(gap) => missing.push((named(machine, point), gap)),
        }
    }
    let fastest = lines.iter().flat_map(|line| &line.points).map(|point| point.0).fold(0.0, f64::max);
    grips.sort_by(|a, b| a.1.total_cmp(&b.1));
    lines.extend(grips.first().map(|(case, grip)| grip_line(case, *grip, fastest)));
    let (x, y) = (Axis::of::<m::Speed>("speed of the track", "km/h"), Axis::of::<m::Force>("pull of all tracks", "N"));
    Ok(Chart { shows: SHOWS.into(), x, y, lines, marks, missing })
}

/// The coldest point of each case.
fn first_of_each(points: &[CasePoint]) -> Vec<CasePoint> {
    let mut first: Vec<CasePoint> = points.to_vec();
    first.dedup_by_key(|point| point.case);
    first
}

fn line(machine: &Machine, point: CasePoint, filled: Filled) -> Found<Line> {
    let (points, air) = ask(machine, point, |at| Ok((reach(at, filled)?, at.surroundings()?.outside)))?;
    let points: Vec<(f64, f64)> = points.into_iter().map(|(speed, pull)| (speed.si(), pull.si())).collect();
    let standing = points.first().map_or(f64::NAN, |point| point.1);
    let fastest = points.last().map_or(f64::NAN, |point| point.0);
    let air = shown::<m::Temperature>(air.si());
    let battery = match filled {
        Filled::Nominal => "battery at its nominal voltage",
        Filled::Full => "full battery",
    };
    Ok(Line {
        name: format!("drive line at full throttle, {battery}, {air} outside"),
        says: format!("{} at a standstill, up to {}", shown::<m::Force>(standing), shown::<m::Speed>(fastest)),
        limit: false,
        points,
    })
}

fn grip_line(case: &str, grip: f64, fastest: f64) -> Line {
    Line {
        name: format!("grip of the track in {case}"),
        says: format!("beyond {} the track spins", shown::<m::Force>(grip)),
        limit: true,
        points: vec![(0.0, grip), (fastest, grip)],
    }
}

/// What is asked; of a launch and of the fastest drive what comes of it. Nothing where the slope drives the machine.
fn mark(machine: &Machine, point: CasePoint, asked: &Asked, drive: &Drive) -> Option<Mark> {
    let kind = machine.cases.get(point.case)?.kind;
    let gets = (drive.track_speed.si(), drive.pull.si());
    let told = |at: (f64, f64)| format!("{} at {}", shown::<m::Force>(at.1), shown::<m::Speed>(at.0));
    let (at, says) = match kind {
        CaseKind::Launch | CaseKind::TopSpeed => (gets, format!("gives {}, set by {}", told(gets), drive.set_by)),
        _ => {
            let at = (asked.speed?.si(), asked.pull.si());
            let short = gets.0 < 0.99 * at.0 || gets.1 < 0.99 * at.1;
            let comes = if short { format!("; gets {}, set by {}", told(gets), drive.set_by) } else { String::new() };
            (at, format!("asks {}{comes}", told(at)))
        }
    };
    (at.1 > 0.0).then(|| Mark { name: named(machine, point), says, at })
}
