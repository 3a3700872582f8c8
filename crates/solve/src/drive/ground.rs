//! The ground under a case, and the mass that is moved over it.

use crate::at::At;
use machine::{CaseKind, Found, NotJudged};
use quantity::*;

/// What the ground asks of the track and what it lets through.
pub(crate) struct Ground {
    /// Needed to go steadily, all tracks together.
    pub resistance: Force,
    /// Beyond it the track spins.
    pub traction: Force,
    /// Pull to move the machine on the level, over its weight.
    pub rolling: Ratio,
}

/// The machine's mass in this case, without its payload where it is driven empty.
pub(crate) fn driven_mass(at: &At) -> Found<Mass> {
    let about = &at.machine().machine;
    let loaded = at.need(&about.mass)?;
    let mass = if at.case()?.payload == Some(false) { loaded - at.need(&about.payload.mass)? } else { loaded };
    if mass.si() > 0.0 {
        return Ok(mass);
    }
    Err(NotJudged::NoSolution("the machine has no mass left: its payload weighs as much as all of it".into()))
}

/// Pull to move the machine on the level, over its weight: as towed, as stated, or assumed.
fn rolling(at: &At) -> Found<Ratio> {
    let track = &at.machine().powertrain.track;
    if let Some(pull) = at.try_get(&track.tow_pull) {
        return Ok(physics::drive::rolling_coefficient(pull, at.need(&at.machine().machine.mass)?));
    }
    at.or(&track.rolling_resistance, &at.assumed().rolling_resistance)
}

/// The ground under a case. Only a climb and a descent must say their grade: the other kinds are level by their definition.
pub(crate) fn ground(at: &At) -> Found<Ground> {
    let case = at.case()?;
    let grade = match case.kind {
        CaseKind::Climb => at.need(&case.grade)?.si(),
        CaseKind::Descent => -at.need(&case.grade)?.si().abs(),
        CaseKind::SignalLost => -at.or_take(&case.grade, Angle::from_si(0.0), "level").si().abs(),
        CaseKind::TopSpeed => 0.0,
        _ => at.or_take(&case.grade, Angle::from_si(0.0), "level").si(),
    };
    let grade = Angle::from_si(grade);
    let across = match case.kind {
        CaseKind::SideSlope => at.need(&case.side_slope)?.si().cos(),
        _ => 1.0,
    };
    let (mass, rolling) = (driven_mass(at)?, rolling(at)?);
    let rolls = physics::drive::rolling_resistance(rolling, mass, grade) * across;
    let traction = physics::drive::traction_limit(at.need(&at.assumed().traction)?, mass, grade) * across;
    Ok(Ground { resistance: physics::drive::grade_resistance(mass, grade) + rolls, traction, rolling })
}
