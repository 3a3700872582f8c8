//! Where the length of each spring goes: preload, sag, landing, against the stop and the coils that touch.

use super::{ask, first_gap, named, points, shown};
use crate::chart::{Axis, Bar, Bars, Drawing, Picture};
use machine::{CaseKind, Corner, Found, Machine, Named, NotJudged};
use quantity::{Quantity, m};
use solve::CasePoint;
use solve::landing::room;

const SHOWS: &str = "How far each spring is pressed together, counted from its free length: by the collar, by standing still, \
                     and by the deepest landing. The lines are where the stop is touched, where the damper's stroke ends, and \
                     where the coils touch.";

pub(super) fn drawing(machine: &Machine) -> Option<Drawing> {
    if machine.suspension.is_empty() {
        return None;
    }
    let landings = points(machine, |case| case.kind == CaseKind::Landing);
    let anywhere = crate::points::case_points(machine).into_iter().next()?;
    let (mut bars, mut missing) = (Vec::new(), Vec::new());
    for (index, corner) in machine.suspension.iter().enumerate() {
        let deepest = deepest(machine, &landings, index);
        match bar(machine, anywhere, corner, deepest.as_ref().ok().and_then(Option::as_ref)) {
            Ok(bar) => bars.push(bar),
            Err(gap) => missing.push((corner.name().to_owned(), gap)),
        }
        if let Err(gap) = deepest {
            missing.push((format!("the landing of {}", corner.name()), gap));
        }
    }
    let axis = Axis::of::<m::Length>("pressed together", "mm");
    let found = if bars.is_empty() {
        Err(first_gap(missing))
    } else {
        Ok(Picture::Bars(Bars { shows: SHOWS.into(), axis, bars, missing }))
    };
    Some(Drawing { title: "What the travel of each spring is spent on".into(), found })
}

/// Travel of the deepest landing, and where; nothing where none touches the corner.
fn deepest(machine: &Machine, landings: &[CasePoint], index: usize) -> Result<Option<(f64, String)>, NotJudged> {
    let mut deepest: Option<(f64, CasePoint)> = None;
    for point in landings {
        let travel = ask(machine, *point, |at| match at.landing()?.corners.get(index) {
            Some(Ok(corner)) => Ok(corner.damper_travel.si()),
            Some(Err(gap)) => Err(gap.clone()),
            None => Ok(0.0),
        })?;
        if travel > deepest.map_or(0.0, |deepest| deepest.0) {
            deepest = Some((travel, *point));
        }
    }
    Ok(deepest.map(|(travel, point)| (travel, named(machine, point))))
}

fn bar(machine: &Machine, anywhere: CasePoint, corner: &Named<Corner>, deepest: Option<&(f64, String)>) -> Found<Bar> {
    let room = ask(machine, anywhere, |at| room(at, corner))?;
    let (preload, stroke) = (room.preload.si(), room.stroke.si());
    let sag = room.sag.si().clamp(0.0, stroke);
    let travel = deepest.map_or(sag, |(travel, _)| travel.max(sag));
    let mut limits = vec![("stop touched", preload + room.stop.si()), ("end of the stroke", preload + stroke)];
    if room.stop == room.stroke {
        limits.remove(0);
    }
    limits.extend(room.coil_bind.map(|bind| ("coils touch", preload + bind.si())));
    let parts = vec![("preload", preload), ("sag", sag), ("landing", travel - sag)];
    let length = shown::<m::Distance>;
    let told = |(what, length_si): &(&str, f64)| format!("{what} {}", length(*length_si));
    let mut says: Vec<String> = parts.iter().map(told).collect();
    if let Some((_, case)) = deepest {
        says.push(format!("deepest in {case}"));
    }
    says.extend(limits.iter().map(|(what, at)| format!("{what} at {}", length(*at))));
    Ok(Bar { name: corner.name().to_owned(), parts, limits, says: says.join(", ") })
}
