#![no_std]
//! What the reservoir's level and gas do from the coldest start to the hottest climb. It never knows: how a coolant loop is
//! worked out, other rules.

use physics::gas::squeezed_volume;
use physics::plate::drawn_in_pressure;
use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "reservoir-level",
    area: Area::Cooling,
    question: "Does the reservoir keep its outlet covered, its lid shut and its walls in shape, cold and hot?",
    explains: "Coolant shrinks in the cold, and when the pump starts, swollen hoses and squeezed bubbles take more of it: the \
               level falls and the outlet may draw air. Hot, it grows and presses on the gas: the lid spits. Closed warm and \
               left in the cold, the gas draws the walls in, and meltwater past the lid.",
    formula: "level = filled − (coolant shrunk + hoses swollen + bubbles squeezed)/plan area, outlet covered by 5 mm; coolant \
              grown ≤ gas space/1.25; gas p·V/T with the coolant's vapour, against the lid's opening pressure/1.25, and below \
              the air: 10 kPa for a lid's seal, half of 17.6·E·t⁴/b⁴ for a flat wall",
    source: "Gas law; swelling of hoses: Lamé; flat wall: Roark, 8th edition, table 11.4, published. 5 mm, 1.25, 10 kPa and 2: \
             common practice, no source. Air left in the loop: assumed unless it was measured.",
    checked: "gas law there and back, and by hand; swelling by the thin tube; the wall by a beam held at both ends. Judged at \
              both ends of the altitude range. Tilt and tossing are another rule's question; walls that creep are left out.",
    required: "5 mm over the outlet; 1.25 on room and lid; the seal's 10 kPa has its reserve in it; walls 2 (common practice)",
    caution: "A hot closed reservoir spits: open it only when it is cold, and slowly.",
};

#[derive(Debug)]
pub struct ReservoirLevel;

impl Rule for ReservoirLevel {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        let cooling = &machine.cooling;
        if !cooling.circuit.iter().any(|element| matches!(element, Element::Reservoir)) {
            return;
        }
        let tank = Tank { reservoir: &cooling.reservoir };
        let mut on = checks.about("reservoir", cooling.reservoir.lid.id());
        on.check("outlet covered", |at| tank.covered(at));
        on.check("room for warm coolant", |at| tank.room(at));
        on.check("lid holds", |at| tank.lid(at));
        on.check("meltwater past the lid", |at| tank.seal(at));
        on.check("walls drawn in", |at| tank.walls(at));
    }
}

struct Tank<'a> {
    reservoir: &'a Reservoir,
}

/// What the level has lost since the lid was closed.
#[derive(Debug, Clone, Copy)]
struct Fallen {
    by: Length,
    /// Of it by the pump's start: hoses and bubbles.
    at_start: Length,
}

const OPEN: Outcome = Outcome::Aside("a vented reservoir has the air's pressure");

impl<'a> Tank<'a> {
    /// The state with the lowest level: running, if the pump turns.
    fn fallen(&self, at: &At<'a>) -> Found<Fallen> {
        let circuit = at.coolant()?.at_end();
        let gas = circuit.gas.clone()?;
        let (area, filled) = (at.need(&self.reservoir.plan_area)?, at.need(&self.reservoir.gas_space)?);
        let turns = circuit.running || circuit.stalled;
        let at_start = match at.try_get(&self.reservoir.level_drop) {
            _ if !turns => Length::ZERO,
            Some(measured) => measured,
            None => (gas.space - gas.resting + self.squeezed(at, circuit)?) / area,
        };
        Ok(Fallen { by: (gas.resting - filled) / area + at_start, at_start })
    }

    /// What bubbles lose under the mean pressure of the running loop.
    fn squeezed(&self, at: &At, circuit: &Circuit) -> Found<Volume> {
        let share = at.or(&at.machine().cooling.coolant.trapped_air, &at.assumed().trapped_air)?;
        let air = at.need(&at.machine().cooling.coolant.volume)? * share;
        let circuit = circuit.known()?;
        #[expect(clippy::cast_precision_loss, reason = "a handful of elements")]
        let count = circuit.elements.len() as f64;
        let sum = circuit.elements.iter().map(|element| element.pressure.si()).sum::<f64>();
        Ok(squeezed_volume(air, circuit.reservoir_pressure, Pressure::from_si(sum / count)))
    }

    fn covered(&self, at: &At<'a>) -> Found<Outcome> {
        if short(at)? {
            return Ok(SHORT);
        }
        let fallen = self.fallen(at)?;
        let required = Required { value: 5e-3, why: "so that no whirl draws air" };
        let by = if fallen.by > Length::ZERO { fallen.by } else { Length::ZERO };
        let margin = Margin::gap::<m::Distance, m::Distance>(
            by,
            at.need(&self.reservoir.outlet_depth)?,
            Length::from_si(10e-3),
            required,
            Consequence::RunOver,
        );
        Ok(Outcome::Held(margin.tell(at, |w| says::covered(self, at, &fallen, w))))
    }

    fn room(&self, at: &At<'a>) -> Found<Outcome> {
        if short(at)? {
            return Ok(SHORT);
        }
        let gas = at.coolant()?.at_end().gas.clone()?;
        let filled = at.need(&self.reservoir.gas_space)?;
        let grown = filled - gas.space;
        let grown = if grown > Volume::ZERO { grown } else { Volume::ZERO };
        let required = Required { value: 1.25, why: "the fill is not exact" };
        let margin = Margin::ratio::<m::Volume>(grown, filled, required, Consequence::RunOver);
        Ok(Outcome::Held(margin.tell(at, |w| says::room(self, at, grown, w))))
    }

    /// Nothing where the reservoir is vented.
    fn closed(&self, at: &At<'a>) -> Found<Option<(&'a Lid, Gas, &'a Circuit)>> {
        let lid = at.part(&self.reservoir.lid)?;
        if lid.closes == LidKind::Vented {
            return Ok(None);
        }
        let circuit = at.coolant()?.at_end().known()?;
        Ok(Some((lid, circuit.gas.clone()?, circuit)))
    }

    fn lid(&self, at: &At<'a>) -> Found<Outcome> {
        if short(at)? {
            return Ok(SHORT);
        }
        let Some((lid, gas, _)) = self.closed(at)? else { return Ok(OPEN) };
        let above = gas.sealed - at.surroundings()?.pressure;
        let above = if above > Pressure::ZERO { above } else { Pressure::ZERO };
        let opens = at.need(&lid.pressure_max)?;
        let required = Required { value: 1.25, why: "the fill is not exact" };
        let margin = Margin::ratio::<m::GaugePressure>(above, opens, required, Consequence::RunOver);
        Ok(Outcome::Held(margin.tell(at, |w| says::lid(self, lid, at, w))))
    }

    fn seal(&self, at: &At<'a>) -> Found<Outcome> {
        if short(at)? {
            return Ok(SHORT);
        }
        let Some((lid, _, circuit)) = self.closed(at)? else { return Ok(OPEN) };
        // Whether a valve lets air in has been read with the gas.
        let below = if circuit.gas_below > Pressure::ZERO { circuit.gas_below } else { Pressure::ZERO };
        let required = Required { value: 1.0, why: "the seal's 10 kPa has its reserve in it" };
        let margin = Margin::ratio::<m::PressureLoss>(below, Pressure::from_si(SEAL), required, Consequence::RunOver);
        Ok(Outcome::Held(margin.tell(at, |w| says::seal(self, lid, at, w))))
    }

    fn walls(&self, at: &At<'a>) -> Found<Outcome> {
        if short(at)? {
            return Ok(SHORT);
        }
        let Some((lid, _, circuit)) = self.closed(at)? else { return Ok(OPEN) };
        let below = if circuit.gas_below > Pressure::ZERO { circuit.gas_below } else { Pressure::ZERO };
        if below == Pressure::ZERO {
            return Ok(Outcome::Aside("the gas stands above the air"));
        }
        let walls = at.part(&self.reservoir.walls)?;
        let material = at.machine().follow(at.part(&walls.material)?);
        let stiffer = match at.try_part(&material.modulus_at) {
            Some(curve) => {
                at.at(curve, at.surroundings()?.outside, Scale::Linear, "the stiffness of the reservoir's wall")?
            }
            // Plastics stiffen in the cold, in which this is worst.
            None => Ratio::from_si(1.0),
        };
        let holds = drawn_in_pressure(
            at.need(&material.modulus)? * stiffer,
            at.need(&walls.width)?,
            at.need(&walls.thickness)?,
        );
        let required = Required { value: 2.0, why: "walls are never quite flat and even" };
        let margin = Margin::ratio::<m::PressureLoss>(below, holds, required, Consequence::CheapPart);
        Ok(Outcome::Held(margin.tell(at, |w| says::walls(lid, walls, w))))
    }
}

/// What lasts seconds finds the loop as it was; indoors nothing runs.
fn short(at: &At) -> Found<bool> {
    Ok(!at.case()?.kind.lasts())
}

const SHORT: Outcome = Outcome::Aside("too short for the loop to settle");

/// Below the air by more Pa than this a lid's seal, made to hold from inside, lets water in.
const SEAL: f64 = 10e3;
