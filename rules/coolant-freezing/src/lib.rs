#![no_std]
//! Slush, burst and syrup: what the coldest air makes of the coolant. It never knows: how a coolant loop is worked out,
//! other rules.

use physics::coolant::Glycol;
use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "coolant-freezing",
    area: Area::Cooling,
    question: "Does the coolant stay liquid, and thin enough for the pump, in the coldest air?",
    explains: "A mixture with water first turns to slush, which blocks strainer and channels, and some kelvins lower it sets and \
               splits plates, jackets and printed bodies. Glycol that stays clear can still be a syrup that the pump hardly \
               moves: then motor and controller get hot while the return line stays still.",
    formula: "outside air − temperature of the first ice crystals ≥ required; outside air − temperature at which a quarter of the \
              mass is ice ≥ required; flow at the outside air's viscosity ≥ required × a tenth of the free flow",
    source: "Freezing line: Melinder, Properties of Secondary Working Fluids, IIR 2010, and ASHRAE Handbook Fundamentals 2001, \
             the warmer of both; published. Ice by the lever rule: Melinder \
             and Granryd 2005; published. A quarter of ice as the point of bursting, a tenth of the free flow as \
             moving, and the reserves: common practice, no source.",
    checked: "freezing against both published sets, which part by up to 3.3 K; bursting against a textbook's chart of burst protection: 0 to \
              9 K on the safe side. Slush with room to flow into does not burst anything, inhibitors freeze later: both left \
              out on the safe side. Left out on the other side: wind and clear nights that cool below the air by a few kelvins, \
              and viscosities that are off by up to a third in deep cold, which the reserve of 2 has to cover.",
    required: "5 K; 8 K mixed by eye; flow 2, or 1.2 in viscosity where it was seen to start (common practice)",
    caution: "Ethylene glycol is poisonous and tastes sweet: keep it from children, animals and drinking water, and take what is \
              left to the collecting point. Do not run a frozen pump: thaw the loop and look for splits first.",
};

#[derive(Debug)]
pub struct CoolantFreezing;

impl Rule for CoolantFreezing {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        if machine.cooling.circuit.is_empty() {
            return;
        }
        let mut on = checks.about("coolant", machine.cooling.coolant.fluid.id());
        on.check("slush", slush);
        on.check("bursting", bursting);
        on.check("starting the pump", starting);
    }
}

const INDOORS: Outcome = Outcome::Aside("stands in a room in this case");

/// Less than this share of the free flow moves next to no heat.
const MOVES: f64 = 0.1;

fn indoors(at: &At) -> Found<bool> {
    Ok(at.case()?.kind.indoors())
}

/// The glycol of a mixture; nothing where nobody mixes.
fn mixed(at: &At) -> Found<Option<Glycol>> {
    let filling = &at.machine().cooling.coolant;
    Ok(match at.machine().follow(at.part(&filling.fluid)?).value {
        Coolant::GlycolWater(GlycolWater { glycol: GlycolKind::Ethylene, .. }) => Some(Glycol::Ethylene),
        Coolant::GlycolWater(GlycolWater { glycol: GlycolKind::Propylene, .. }) => Some(Glycol::Propylene),
        Coolant::Water(_) | Coolant::Tabulated(_) => None,
    })
}

fn required(at: &At) -> Found<Required> {
    let filling = &at.machine().cooling.coolant;
    if mixed(at)?.is_none() {
        return Ok(Required { value: 5.0, why: "a clear night is colder than its air" });
    }
    if at.try_get(&filling.clear_to).is_some() || at.stated(&filling.glycol) == Some(quantity::Stated::Measured) {
        return Ok(Required { value: 5.0, why: "the mixture was measured" });
    }
    if at.or_word(&filling.mixed_by_eye, true, "yes") {
        return Ok(Required { value: 8.0, why: "mixed by eye" });
    }
    Ok(Required { value: 5.0, why: "mixed by measure" })
}

fn colder(
    demand: ThermodynamicTemperature,
    air: ThermodynamicTemperature,
    at: &At,
    costs: Consequence,
) -> Found<Margin> {
    let yardstick = TemperatureInterval::from_si(20.0);
    Ok(Margin::gap::<m::Temperature, m::TemperatureDifference>(demand, air, yardstick, required(at)?, costs))
}

fn slush(at: &At) -> Found<Outcome> {
    if indoors(at)? {
        return Ok(INDOORS);
    }
    let (air, clear) = (at.surroundings()?.outside, liquid::slush(at)?);
    let margin = colder(clear, air, at, Consequence::RunOver)?;
    Ok(Outcome::Held(says::slush(at, margin, air)))
}

fn bursting(at: &At) -> Found<Outcome> {
    if indoors(at)? {
        return Ok(INDOORS);
    }
    let (air, bursts) = (at.surroundings()?.outside, liquid::bursts(at)?);
    let margin = colder(bursts, air, at, Consequence::Stranded)?;
    Ok(Outcome::Held(says::bursting(at, margin, air)))
}

fn starting(at: &At) -> Found<Outcome> {
    if indoors(at)? {
        return Ok(INDOORS);
    }
    let air = at.surroundings()?.outside;
    let thick = liquid::viscosity(at, air)?;
    if let Some(seen) = at.try_get(&at.machine().cooling.pump.started_at) {
        let required = Required { value: 1.2, why: "it was seen to start" };
        let moved = liquid::viscosity(at, seen)?;
        let margin = Margin::ratio::<m::DynamicViscosity>(thick, moved, required, Consequence::RunOver);
        return Ok(Outcome::Held(says::seen(at, margin, seen)));
    }
    let (flow, free) = liquid::cold_flow(at)?;
    let required = Required { value: 2.0, why: "viscosity in the cold is uncertain" };
    let margin = Margin::ratio::<m::FlowRate>(free * MOVES, flow, required, Consequence::RunOver);
    Ok(Outcome::Held(says::starting(at, margin, thick, air)))
}
