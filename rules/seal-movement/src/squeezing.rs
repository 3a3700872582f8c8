//! What is left of the squeeze of a rubber seal, and whether it is still rubber.

use crate::clamping::screws;
use crate::joint::{Rubber, Sealed, thickness};
use crate::{refused, says, soft};
use physics::beam::{Load, Support, bend};
use physics::seal::squeeze_left;
use physics::section;
use rule::prelude::*;

const BEAD: Outcome = Outcome::Aside("a bead of sealant sticks, and is not squeezed");

/// A seal with less squeeze weeps.
const WEEPS: f64 = 0.05;
/// Stiffer than at 23 °C by this much, rubber no longer follows the faces.
const STIFF: f64 = 10.0;

pub(crate) fn judge(at: &At, sealed: &Sealed<'_>) -> Found<Outcome> {
    let Some(rubber) = sealed.rubber(at)? else { return Ok(BEAD) };
    let since = difference(sealed.temperature(at)?, sealed.assembled(at)?);
    let bow = bow(at, sealed, &rubber)?;
    let set = at.need(&rubber.material.compression_set)?;
    let left = squeeze_left(rubber.free, rubber.closed, set, at.need(&rubber.material.expansion)?, since, bow);
    let left = if left > Ratio::ZERO { left } else { Ratio::ZERO };
    let required = Required { value: 1.5, why: "cords and grooves have tolerances" };
    let margin = Margin::ratio::<m::Percentage>(Ratio::from_si(WEEPS), left, required, Consequence::RunOver);
    Ok(Outcome::Held(says::squeeze(sealed, at, &rubber, bow, margin)))
}

/// How far the two bodies bow apart between two screws, crept.
fn bow(at: &At, sealed: &Sealed<'_>, rubber: &Rubber<'_>) -> Found<Length> {
    let (bodies, parts) = (sealed.bodies(at)?, sealed.parts(at)?);
    let count = f64::from(screws(at, sealed.joint)?.count);
    let apart = at.need(&sealed.seal.length)? / count;
    let width = at.need(&sealed.joint.flange_width)?;
    let load = Load::Spread { force: rubber.force * apart };
    let mut bow = Length::ZERO;
    for (body, part) in bodies.into_iter().zip(parts) {
        let modulus = at.need(&body.modulus)?;
        let lasting = if soft(body) { modulus * at.need(&at.assumed().crept_modulus)? } else { modulus };
        let inertia = section::rectangle(width, thickness(at, part)?).second_moment;
        bow += bend(Support::Fixed, load, apart, lasting * inertia).map_err(refused)?.deflection;
    }
    Ok(bow)
}

pub(crate) fn judge_stiffness(at: &At, sealed: &Sealed<'_>) -> Found<Outcome> {
    let Some(rubber) = sealed.rubber(at)? else { return Ok(BEAD) };
    let now = sealed.temperature(at)?;
    let stiffer = at.at(at.part(&rubber.material.modulus_at)?, now, Scale::Log, "stiffness of the seal")?;
    let required = Required { value: 1.5, why: "compounds differ" };
    let limit = Ratio::from_si(STIFF);
    let margin = Margin::ratio::<m::Factor>(stiffer, limit, required, Consequence::RunOver);
    Ok(Outcome::Held(says::stiffness(sealed, at, margin, now)))
}
