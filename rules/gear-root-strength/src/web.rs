//! The web between the vents of a gear.

use crate::{STILL, factor, made, says, strength_of};
use gears::{Pair, Side};
use physics::gear as law;
use rule::prelude::*;

pub(crate) fn judge(pair: &Pair<'_>, side: Side, at: &At<'_>) -> Found<Outcome> {
    let Some(web) = at.try_part(&pair.gear(side).web) else { return Ok(Outcome::Aside("it has no web")) };
    let Some(load) = pair.load(at)? else { return Ok(STILL) };
    let factor = factor(pair, at, &load)?;
    let torque = if side == Side::Pinion { load.pinion } else { load.wheel };
    let (radius, thickness) = (at.need(&web.vents_at)?, at.need(&web.thickness)?);
    let (vents, wide) = (at.need(&web.vents)?, at.need(&web.vent_diameter)?);
    let stress = law::web_shear(torque * factor.si(), radius, vents, wide, thickness);
    let material: &Material = pair.material(at, side)?;
    let here = pair.teeth(at, side)?.root;
    let direction = pair.direction(at, side)?;
    let shear = at.need(&material.shear_strength)? / at.need(&material.tensile_strength)?;
    let cycles = strength_of::cycles(side, at, &load)?;
    let left = law::polymer_share(cycles, at.need(&material.fatigue_share)?);
    let share = strength_of::made_share(pair.making(at, side)?, at)?;
    let stands = strength::ultimate(at, material, here, direction)? * shear * left * share;
    let required = made::required(pair.making(at, side)?, strength::hard(material), false, load.seldom);
    let demand = load.motor * factor.si();
    let times = (stands / stress).si();
    let margin = Margin::ratio::<m::Torque>(demand, demand * times, required, Consequence::Stranded);
    Ok(Outcome::Held(says::web(web, side, at, margin)))
}
