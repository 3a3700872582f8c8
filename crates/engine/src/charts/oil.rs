//! How thick the oil of each damper is over temperature.

use super::{ask, first_gap, shown};
use crate::chart::{Axis, Chart, Drawing, Line, Mark, Picture};
use machine::{Damper, Found, Machine, Named, NotJudged, Oil};
use quantity::{Quantity, ThermodynamicTemperature, m};
use solve::CasePoint;
use solve::landing::viscosity;

/// As warm as a hard-worked damper gets; common practice, no source.
const WARM: f64 = 60.0;
const FREEZING: f64 = 273.15;
const STEPS: u32 = 60;

pub(super) fn drawing(machine: &Machine) -> Option<Drawing> {
    let point = crate::points::case_points(machine).into_iter().next()?;
    let (mut oils, mut missing): (Vec<&Named<Oil>>, Vec<(String, NotJudged)>) = (Vec::new(), Vec::new());
    for corner in &machine.suspension {
        let Some(Damper::Oil(damper)) = corner.damper.there() else { continue };
        match ask(machine, point, |at| at.part(&damper.oil)) {
            Ok(oil) => {
                let oil = machine.follow(oil);
                if !oils.iter().any(|other| other.key == oil.key) {
                    oils.push(oil);
                }
            }
            Err(gap) => missing.push((corner.name().to_owned(), gap)),
        }
    }
    if oils.is_empty() && missing.is_empty() {
        return None;
    }
    let (mut lines, mut marks) = (Vec::new(), Vec::new());
    let air = ask(machine, point, |at| {
        let air = &machine.environment.air;
        Ok((at.need(&air.low)?.si(), at.need(&air.high)?.si()))
    });
    let from = air.as_ref().map_or(-20.0 + FREEZING, |air| air.0) - 10.0;
    for oil in oils {
        match line(machine, point, oil, from) {
            Ok(line) => {
                let ends = air.as_ref().map_or_else(|_| Vec::new(), |air| vec![air.0, air.1]);
                marks.extend(ends.into_iter().filter_map(|air| mark(machine, point, oil, air)));
                lines.push(line);
            }
            Err(gap) => missing.push((oil.name().to_owned(), gap)),
        }
    }
    let found = if lines.is_empty() {
        Err(first_gap(missing))
    } else {
        Ok(Picture::Chart(Chart {
            shows: "By the law of its kind, through the figures of the data sheet. A line that begins in the middle begins at \
                    the pour point: colder than that the oil no longer flows. Marks are the coldest and the hottest air."
                .into(),
            x: Axis::of::<m::Temperature>("temperature of the oil", "°C"),
            y: Axis { tenfold: true, ..Axis::of::<m::KinematicViscosity>("viscosity", "mm²/s") },
            lines,
            marks,
            missing,
        }))
    };
    Some(Drawing { title: "Oil of the dampers against temperature".into(), found })
}

fn at(machine: &Machine, point: CasePoint, oil: &Oil, kelvin: f64) -> Found<f64> {
    ask(machine, point, |at| viscosity(at, oil, ThermodynamicTemperature::from_si(kelvin))).map(|found| found.si())
}

fn line(machine: &Machine, point: CasePoint, oil: &Named<Oil>, from: f64) -> Found<Line> {
    let pour = ask(machine, point, |at| at.need(&oil.pour_point))?.si();
    let (start, end) = (from.max(pour), WARM + FREEZING);
    if start >= end {
        return Err(NotJudged::NoSolution("it does not flow at any temperature that matters".into()));
    }
    let thin = at(machine, point, oil, end)?;
    let steps = (0..=STEPS).map(|step| start + (end - start) * f64::from(step) / f64::from(STEPS));
    let points: Vec<(f64, f64)> =
        steps.filter_map(|kelvin| Some((kelvin, at(machine, point, oil, kelvin).ok()?))).collect();
    let says = format!(
        "{} at {}; it flows down to {}",
        shown::<m::KinematicViscosity>(thin),
        shown::<m::Temperature>(end),
        shown::<m::Temperature>(pour)
    );
    Ok(Line { name: oil.name().to_owned(), says, limit: false, points })
}

fn mark(machine: &Machine, point: CasePoint, oil: &Named<Oil>, air: f64) -> Option<Mark> {
    let thick = at(machine, point, oil, air).ok()?;
    let name = format!("{} in air of {}", oil.name(), shown::<m::Temperature>(air));
    Some(Mark { name, says: shown::<m::KinematicViscosity>(thick), at: (air, thick) })
}
