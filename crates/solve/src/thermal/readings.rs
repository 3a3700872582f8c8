//! What thermometers have shown after a drive: it sets the estimate right.

use super::bodies::{Bodies, CASE, CONTROLLER};
use super::course::Course;
use crate::at::At;
use crate::point::CasePoint;
use machine::{AfterRun, Cooled, Found, Maybe, NotJudged};
use quantity::*;

/// How the estimate of one thing is set right.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Factor {
    /// Measured rise over worked-out rise, by which its heat is multiplied.
    pub(super) heat: f64,
    /// How much warmer it got after stopping, over its rise at the stop; and how long after, s.
    soaked: Option<(f64, f64)>,
    measured: bool,
}

const ESTIMATE: Factor = Factor { heat: 1.0, soaked: None, measured: false };
/// A rise too small to say anything, K.
const TOO_SMALL: f64 = 3.0;

#[derive(Debug, Clone)]
pub(super) struct Factors {
    pub(super) motor: Found<Factor>,
    pub(super) controller: Found<Factor>,
}

impl Factors {
    /// One thing with so much of its heat, the other as estimated.
    fn only(cooled: Cooled, heat: f64) -> Self {
        let of = |each| Ok(if each == cooled { Factor { heat, ..ESTIMATE } } else { ESTIMATE });
        Self { motor: of(Cooled::Motor), controller: of(Cooled::Controller) }
    }

    pub(super) fn read(at: &At) -> Self {
        let train = &at.machine().powertrain;
        let motor = factor(at, &train.motor.after_run, |then, heat| {
            let bodies = Bodies::solve(then, &Self::only(Cooled::Motor, heat), then.machine().cases.len())?;
            bodies.known.motor.clone()?;
            Ok(bodies.runs.course(CASE).end().si() - bodies.runs.outside)
        });
        let controller = factor(at, &train.controller.after_run, |then, heat| {
            let bodies = Bodies::solve(then, &Self::only(Cooled::Controller, heat), then.machine().cases.len())?;
            bodies.known.controller.clone()?;
            Ok(bodies.runs.course(CONTROLLER).end().si() - bodies.runs.outside)
        });
        Self { motor, controller }
    }

    pub(super) fn heat(&self, cooled: Cooled) -> Found<f64> {
        let factor = match cooled {
            Cooled::Motor => &self.motor,
            Cooled::Controller => &self.controller,
            Cooled::Battery | Cooled::Pump => return Ok(1.0),
        };
        factor.as_ref().map(|factor| factor.heat).map_err(Clone::clone)
    }
}

impl Factor {
    /// The course with what the thermometer adds to it.
    pub(super) fn told(&self, course: Course, outside: f64) -> Course {
        if !self.measured {
            return course;
        }
        let end = course.end().si();
        course.measured(self.soaked.map(|(share, after)| (after, end + share * (end - outside))))
    }
}

/// Out of the readings and of how warm the thing was worked out to end, K above the air, with so much of its heat.
pub(super) fn factor(at: &At, run: &Maybe<AfterRun>, ends: impl Fn(&At, f64) -> Found<f64>) -> Found<Factor> {
    let Some(run) = at.try_part(run) else { return Ok(ESTIMATE) };
    let (air, readings) = (at.need(&run.air)?, at.part(&run.readings)?);
    let case = at.machine().follow(at.part(&run.case)?).name();
    let mut points = Vec::with_capacity(readings.points().len());
    for (time, temperature) in readings.points() {
        points.push((at.need(time)?.si(), at.need(temperature)?.si() - air.si()));
    }
    let Some(first) = points.first().copied() else { return Ok(ESTIMATE) };
    let index = at.machine().cases.iter().position(|each| each.name() == case).unwrap_or(usize::MAX);
    let point = CasePoint { case: index, share: share(at, air)? };
    // Linear in its own heat: with all of it, and with none.
    let rise = |heat: f64| at.elsewhere(point, |then| ends(then, heat));
    let (all, none) = (rise(1.0)?, rise(0.0)?);
    let heat = (first.1 - none) / (all - none);
    if !(first.1 > TOO_SMALL && heat > 0.0 && heat.is_finite()) {
        return Err(NotJudged::NoSolution(format!(
            "what was read after {case} cannot set the estimate right: it is no warmer than the air and the other things make it"
        )));
    }
    let peak = points.iter().copied().fold(first, |most, point| if point.1 > most.1 { point } else { most });
    let soaked = (points.len() > 1).then(|| ((peak.1 - first.1) / first.1, peak.0 - first.0));
    Ok(Factor { heat, soaked, measured: true })
}

/// Where the air of that day lies between the coldest and the hottest.
fn share(at: &At, air: ThermodynamicTemperature) -> Found<f64> {
    let range = &at.machine().environment.air;
    let (low, high) = (at.need(&range.low)?.si(), at.need(&range.high)?.si());
    Ok(if high > low { ((air.si() - low) / (high - low)).clamp(0.0, 1.0) } else { 0.0 })
}
