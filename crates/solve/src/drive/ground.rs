//! The ground under a case, and the mass that is moved over it.

use crate::at::At;
use machine::{CaseKind, Found, NotJudged, Surface};
use quantity::*;

/// Lower than this a lug does not bite.
const LUG: f64 = 5e-3;

/// What the ground asks of the track and what it lets through.
pub(crate) struct Ground {
    /// Needed to go steadily, all tracks together.
    pub resistance: Force,
    /// Beyond it the track spins.
    pub traction: Force,
    /// Pull to move the machine on the level, over its weight.
    pub rolling: Ratio,
    pub mass: Mass,
    pub grade: Angle,
    pub footing: Footing,
}

/// How the tracks stand on the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Footing {
    /// Pull over the load on the tracks beyond which they spin.
    pub adhesion: Ratio,
    /// Share of the weight on them, on the level.
    pub share: Ratio,
    /// Height of the centre of gravity over the distance between the tracks' middle and the other support.
    pub lever: Ratio,
}

impl Footing {
    /// Pull beyond which the tracks spin on a grade.
    pub fn grip(&self, mass: Mass, grade: Angle) -> Force {
        let share = physics::task::share_on_grade(self.share, self.lever, grade);
        physics::drive::traction_limit(self.adhesion * share, mass, grade)
    }
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

/// As measured; else as written for whatever the tracks run on; else assumed by surface and lug.
pub(crate) fn adhesion(at: &At) -> Found<Ratio> {
    let (track, assumed) = (&at.machine().powertrain.track, at.assumed());
    if let Some(measured) = at.try_get(&track.adhesion) {
        return Ok(measured);
    }
    if let Some(own) = at.try_get(&assumed.traction) {
        return Ok(own);
    }
    let surface = at.try_part(&at.case()?.surface).or_else(|| at.try_part(&at.machine().environment.surface));
    let figure = match surface {
        None | Some(Surface::PackedSnow | Surface::Crust | Surface::Grass | Surface::Peat | Surface::Gravel) => {
            &assumed.traction_firm
        }
        Some(Surface::Powder | Surface::Mud) => &assumed.traction_soft,
        Some(Surface::Asphalt | Surface::Rock) => &assumed.traction_hard,
        Some(Surface::Ice) => &assumed.traction_ice,
    };
    let lugged = at.or(&track.adhesion, figure)?;
    let low = at.try_part(&track.lug).and_then(|lug| at.try_get(&lug.height)).is_some_and(|high| high.si() < LUG);
    Ok(if low { lugged * at.need(&assumed.traction_without_lugs)? } else { lugged })
}

/// Adhesion, and how much of the weight stands on the tracks. Where they carry all of it nothing moves on to them.
pub(crate) fn footing(at: &At) -> Found<Footing> {
    let machine = at.machine();
    let adhesion = adhesion(at)?;
    let (whole, said) = (Ratio::from_si(1.0), &machine.powertrain.track.share_of_weight);
    // Without a sprung corner there is nothing that could stand beside the tracks.
    let share = if machine.suspension.is_empty() {
        at.try_get(said).unwrap_or(whole)
    } else {
        at.or_take(said, whole, "all of it")
    };
    let alone = Footing { adhesion, share, lever: Ratio::from_si(0.0) };
    if share >= whole {
        return Ok(alone);
    }
    // The other support is taken to stand in front, as skis do.
    let ends = machine.suspension.iter().filter_map(|corner| at.try_get(&corner.position));
    let ends = ends.fold((f64::INFINITY, f64::NEG_INFINITY), |ends, x| (ends.0.min(x.si()), ends.1.max(x.si())));
    let Some(height) = at.try_get(&machine.machine.centre_of_gravity.z).filter(|_| ends.1 > ends.0) else {
        return Ok(alone);
    };
    Ok(Footing { lever: Ratio::from_si(height.si() / (ends.1 - ends.0)), ..alone })
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
    let footing = footing(at)?;
    let traction = footing.grip(mass, grade) * across;
    let resistance = physics::drive::grade_resistance(mass, grade) + rolls;
    Ok(Ground { resistance, traction, rolling, mass, grade, footing })
}
