//! What a part is made of, as it lay on the bed and as warm as it is.

use crate::at::At;
use crate::strength::{Direction, moisture};
use machine::{
    Build, Family, Found, Laid, Making, Material, Maybe, MoistureState, NotJudged, Part, Scale, StateFactors,
};
use quantity::*;

/// How a part's pull runs through what it is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Grain {
    pub printed: bool,
    pub laid: Option<Laid>,
    /// Of the pull along the part.
    pub way: Direction,
}

/// How the part lay on the bed; what is not printed has no layers.
///
/// # Errors
/// It is printed, and neither it nor `printing` says anything.
pub fn grain(at: &At, part: &Part, material: &Material) -> Found<Grain> {
    if crate::strength::making(at, &part.build, material) != Some(Making::Printed) {
        return Ok(Grain { printed: false, laid: None, way: Direction::Along });
    }
    let laid = crate::strength::laid(at, &part.build, Laid::Standing, "standing")?;
    let way = if laid == Laid::Standing { Direction::Across } else { Direction::Along };
    Ok(Grain { printed: true, laid: Some(laid), way })
}

/// Young's modulus as warm and as wet as the part is.
///
/// # Errors
/// A gap, or a temperature beyond the material's table.
pub fn modulus(at: &At, material: &Material, here: ThermodynamicTemperature) -> Found<Pressure> {
    let dry = at.need(&material.modulus)?;
    let warm = match at.try_part(&material.modulus_at) {
        Some(curve) => at.at(curve, here, Scale::Linear, "stiffness of the material")?.si(),
        None if difference(here, celsius(23.0)).si().abs() <= 0.5 => 1.0,
        None => return Err(at.part(&material.modulus_at).err().unwrap_or_else(unknown)),
    };
    let factor = |factors: &Maybe<StateFactors>| Found::Ok(at.need(&at.part(factors)?.modulus)?.si());
    let damp = match moisture(at, material) {
        MoistureState::Dry => 1.0,
        MoistureState::Conditioned => factor(&material.when_conditioned)?,
        MoistureState::Wet => factor(&material.when_wet)?,
    };
    Ok(dry * warm * damp)
}

fn unknown() -> NotJudged {
    NotJudged::NoSolution("the stiffness at that temperature is not known".into())
}

/// Thickness of the full shell of a print, and how much of the full modulus its core has; nothing for what is full.
pub(super) fn shell(at: &At, build: &Maybe<Build>) -> Found<Option<(Length, Ratio)>> {
    let own = at.try_part(build);
    let shared = at.try_part(&at.machine().structure.printing);
    let pick = |field: fn(&Build) -> &machine::Given<m::Count>| {
        own.and_then(|own| at.try_get(field(own))).or_else(|| shared.and_then(|shared| at.try_get(field(shared))))
    };
    let infill =
        own.and_then(|own| at.try_get(&own.infill)).or_else(|| shared.and_then(|shared| at.try_get(&shared.infill)));
    let infill = match infill {
        Some(infill) => infill,
        None => at.need(&at.part(build)?.infill)?,
    };
    if infill.si() >= 1.0 {
        return Ok(None);
    }
    let walls = match pick(|build| &build.walls) {
        Some(walls) => walls,
        None => at.need(&at.part(build)?.walls)?,
    };
    let width = own
        .and_then(|own| at.try_get(&own.line_width))
        .or_else(|| shared.and_then(|shared| at.try_get(&shared.line_width)));
    let width = match width {
        Some(width) => width,
        None => at.need(&at.part(build)?.line_width)?,
    };
    Ok(Some((width * walls.si(), infill)))
}

/// What the body of a part breaks or yields at, and whether that is yield.
///
/// # Errors
/// A gap.
pub(super) fn limit(
    at: &At,
    material: &Material,
    here: ThermodynamicTemperature,
    way: Direction,
) -> Found<(Pressure, &'static str)> {
    use crate::strength::{damp, ultimate, warmth};
    Ok(match material.family {
        Family::Metal => (at.need(&material.yield_strength)? * warmth(at, material, here)?, "yield"),
        Family::FibreComposite => {
            let pulled = ultimate(at, material, here, Direction::Along)?;
            let pressed = at.or(&material.compressive_strength, &material.tensile_strength)?
                * warmth(at, material, here)?
                * damp(at, material)?;
            (if pressed < pulled { pressed } else { pulled }, "ultimate strength")
        }
        _ => (ultimate(at, material, here, way)?, "ultimate strength"),
    })
}
