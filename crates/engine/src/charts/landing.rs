//! Travel and force of each corner over time, landing by landing.

use super::{ask, ends, first_gap, named, points, shown};
use crate::chart::{Axis, Chart, Drawing, Line, Picture};
use machine::{CaseKind, Corner, Machine, Named, NotJudged};
use quantity::{Quantity, m};
use solve::CasePoint;
use solve::landing::{Course, course, room};

/// Instants of one line: more of them no eye tells apart.
const INSTANTS: usize = 90;

/// One corner in one case point.
struct Landed<'a> {
    corner: &'a Named<Corner>,
    case: String,
    course: Course,
}

/// Two drawings for each case that lands.
pub(super) fn drawings(machine: &Machine) -> Vec<Drawing> {
    if machine.suspension.is_empty() {
        return Vec::new();
    }
    let mut cases: Vec<Vec<CasePoint>> = Vec::new();
    for point in points(machine, |case| case.kind == CaseKind::Landing) {
        match cases.last_mut() {
            Some(case) if case.first().is_some_and(|first| first.case == point.case) => case.push(point),
            _ => cases.push(vec![point]),
        }
    }
    cases.iter().flat_map(|case| of_case(machine, case)).collect()
}

fn of_case(machine: &Machine, points: &[CasePoint]) -> Vec<Drawing> {
    let name = points.first().and_then(|point| machine.cases.get(point.case)).map_or("", |case| case.name());
    let (mut landed, mut missing) = (Vec::new(), Vec::new());
    for point in ends(machine, points) {
        for corner in &machine.suspension {
            let case = named(machine, point);
            match ask(machine, point, |at| course(at, corner)) {
                Ok(Some(course)) => landed.push(Landed { corner, case, course }),
                Ok(None) => {}
                Err(gap) => missing.push((corner.name().to_owned(), gap)),
            }
        }
    }
    let titles = [format!("Travel over time in case {name}"), format!("Force over time in case {name}")];
    if landed.is_empty() {
        // The gap of one drawing is that of the other.
        let [title, _] = titles;
        return vec![Drawing { title, found: Err(first_gap(missing)) }];
    }
    missing.dedup_by(|a, b| a.0 == b.0);
    let charts = [travel(machine, points, &landed, &missing), force(&landed, &missing)];
    let drawn = |(title, chart)| Drawing { title, found: Ok(Picture::Chart(chart)) };
    titles.into_iter().zip(charts).map(drawn).collect()
}

fn travel(machine: &Machine, points: &[CasePoint], landed: &[Landed<'_>], missing: &[(String, NotJudged)]) -> Chart {
    let mut lines: Vec<Line> = landed.iter().map(|one| line(one, |moment| moment.1, shown::<m::Length>)).collect();
    let end = lines.iter().flat_map(|line| &line.points).map(|point| point.0).fold(0.0, f64::max);
    for corner in &machine.suspension {
        let here = landed.iter().any(|one| one.corner.key == corner.key);
        let room = points.first().map(|point| ask(machine, *point, |at| room(at, corner)));
        if let (true, Some(Ok(room))) = (here, room) {
            let stop = room.stop.si();
            let (name, says) =
                (format!("stop of {}", corner.name()), format!("touched at {}", shown::<m::Length>(stop)));
            lines.push(Line { name, says, limit: true, points: vec![(0.0, stop), (end, stop)] });
        }
    }
    Chart {
        shows: "Travel of the damper from full extension, from first contact until the corner rebounds; beyond the stop it is \
                the stop and the structure that give."
            .into(),
        x: time(),
        y: Axis::of::<m::Length>("travel of the damper", "mm"),
        lines,
        marks: Vec::new(),
        missing: missing.to_vec(),
    }
}

fn force(landed: &[Landed<'_>], missing: &[(String, NotJudged)]) -> Chart {
    Chart {
        shows: "Force of one spring, stop and damper together on their mount, over the same time. A sharp first peak is the \
                damper, a late steep one the stop."
            .into(),
        x: time(),
        y: Axis::of::<m::Force>("force on the mount", "N"),
        lines: landed.iter().map(|one| line(one, |moment| moment.2, shown::<m::Force>)).collect(),
        marks: Vec::new(),
        missing: missing.to_vec(),
    }
}

fn time() -> Axis {
    Axis::of::<m::Duration>("time from first contact", "ms")
}

fn line(one: &Landed<'_>, figure: fn((f64, f64, f64)) -> f64, show: fn(f64) -> String) -> Line {
    let moments = one.course.moments.iter().map(|moment| (moment.time.si(), moment.travel.si(), moment.force.si()));
    let all: Vec<(f64, f64)> = moments.map(|moment| (moment.0, figure(moment))).collect();
    let peak = all.iter().copied().max_by(|a, b| a.1.total_cmp(&b.1)).unwrap_or((f64::NAN, f64::NAN));
    let gelled = if one.course.damper_gelled { "; its oil no longer flows, the damper is left out" } else { "" };
    Line {
        name: format!("{} in {}", one.corner.name(), one.case),
        says: format!("at most {} after {}{gelled}", show(peak.1), shown::<m::Duration>(peak.0)),
        limit: false,
        points: thinned(&all, peak),
    }
}

/// Evenly over time, with the peak and the end.
fn thinned(all: &[(f64, f64)], peak: (f64, f64)) -> Vec<(f64, f64)> {
    let end = all.last().map_or(0.0, |last| last.0);
    let step = end / INSTANTS as f64;
    let mut next = 0.0;
    let mut kept = Vec::new();
    for (index, point) in all.iter().enumerate() {
        if point.0 >= next || *point == peak || index + 1 == all.len() {
            kept.push(*point);
            next = point.0 + step;
        }
    }
    kept
}
