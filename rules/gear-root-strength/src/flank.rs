//! Flanks of two metal gears: pits that grow until the teeth are rough and loud.

use crate::{STILL, factor, says, strength_of, tangential};
use gears::{Pair, Side};
use physics::gear::{self as law, Elastic, FlankLoad};
use rule::prelude::*;

pub(crate) fn judge(pair: &Pair<'_>, side: Side, at: &At<'_>) -> Found<Outcome> {
    let own: &Material = pair.material(at, side)?;
    let other: &Material = pair.material(at, side.other())?;
    if !(strength::hard(own) && strength::hard(other)) {
        return Ok(Outcome::Aside("flanks of plastic are judged by their heat"));
    }
    let Some(load) = pair.load(at)? else { return Ok(STILL) };
    let factor = factor(pair, at, &load)?;
    let cycles = strength_of::cycles(side, at, &load)?;
    let life = law::flank_life(cycles);
    // Pressure goes with the root of the load.
    let bears = |cycles: f64| {
        let life = law::flank_life(Ratio::from_si(cycles));
        life * life
    };
    let counts = match gears::spectrum(at)? {
        Some(spectrum) => strength_of::counts(&spectrum, cycles, life * life, |cycles| Some(bears(cycles))),
        None => Ratio::from_si(1.0),
    };
    let elastic = |material: &Material| -> Found<Elastic> {
        Ok(Elastic { modulus: at.need(&material.modulus)?, poisson: at.need(&material.poisson)? })
    };
    let force = tangential(pair, at, load.pinion)? * (factor * counts);
    let presses = FlankLoad { force, face_width: pair.common_width(at)? };
    let pressure = law::flank_pressure(&pair.mesh(at)?, presses, [elastic(own)?, elastic(other)?]);
    let stands = at.need(&at.part(&own.gear)?.flank_limit)? * life;
    let demand = load.motor * (factor * counts).si();
    let times = law::load_for_pressure(stands, pressure).si();
    let required = Required { value: 1.2, why: "pits come slowly" };
    let margin = Margin::ratio::<m::Torque>(demand, demand * times, required, Consequence::RunOver);
    Ok(Outcome::Held(says::flank(pair, side, at, (pressure, stands), margin)))
}
