#![no_std]
//! Air that gets into the loop: where from, whether the pump moves it, and whether it leaves again. It never knows: how a
//! coolant loop is worked out, other rules.

use physics::bubble::{carrying_speed, rise_speed, square_side, surface_load, tilted_level};
use physics::pipe::{bore_area, hydraulic_diameter};
use physics::pump::lift;
use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "pump-priming",
    area: Area::Cooling,
    question: "When air gets in, does the pump move it, and does it leave the loop again?",
    explains: "On a slope the level tilts, and in a jump the coolant floats: the outlet draws air. A pump that cannot lift \
               coolant with air in it stays dry. Bubbles that rise slower than the reservoir passes its coolant down go round \
               again: thick cold coolant turns to foam. A high place keeps a bubble that the flow does not carry off.",
    formula: "outlet depth − fall of the level − length/2·tan(tilt) ≥ 5 mm; suction on air / (ρ·g·height of the pump) ≥ 2; bubble's rise \
              √(4·g·d/(3·C)) / (flow/plan area) ≥ 1; speed in the high place / √(g·d) ≥ 1",
    source: "Rise: Schiller and Naumann 1933, in Clift, Grace and Weber 1978, ch. 5; flow over area: Hazen 1904, published. \
             Speed that carries air: common practice, from memory. Bubbles of 1 mm, 5 mm and ratios: common practice, no source.",
    checked: "rise by Stokes' law when slow and by weight against drag; tilt at 45°; flow over area is depth over residence \
              time. The loss of coolant that is shaken out and the inlet's jet, which stirs, are left out (the unsafe side).",
    required: "5 mm over the outlet; 2 on the lift; 1 on rise and carrying speed (common practice)",
    caution: "",
};

#[derive(Debug)]
pub struct PumpPriming;

impl Rule for PumpPriming {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        let cooling = &machine.cooling;
        let pumps = cooling.circuit.iter().any(|element| matches!(element, Element::Pump));
        let tanks = cooling.circuit.iter().any(|element| matches!(element, Element::Reservoir));
        if !pumps || !tanks {
            return;
        }
        let air = Air { reservoir: &cooling.reservoir };
        let mut on = checks.about("reservoir", cooling.reservoir.lid.id());
        on.check("outlet covered on a slope", |at| air.tilted(at));
        on.check("bubbles leave", |at| air.leaves(at));
        checks.about("pump", cooling.pump.works_by.id()).check("lifts coolant with air in it", |at| air.lifted(at));
        for (place, element) in cooling.circuit.iter().enumerate() {
            let (Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate)) = element else {
                continue;
            };
            checks
                .about(&plate.name, plate.height_above_level.id())
                .check("air in a high place", |at| air.high(at, place, plate));
        }
    }
}

struct Air<'a> {
    reservoir: &'a Reservoir,
}

const STANDS: Outcome = Outcome::Aside("the pump does not turn");

fn turns(circuit: &Circuit) -> bool {
    circuit.running || circuit.stalled
}

impl<'a> Air<'a> {
    /// How steeply the reservoir stands in this case.
    fn tilt(at: &At) -> Found<Angle> {
        let case = at.case()?;
        let along = at.try_get(&case.grade).unwrap_or(Angle::ZERO);
        let across = at.try_get(&case.side_slope).unwrap_or(Angle::ZERO);
        Ok(if along > across { along } else { across })
    }

    /// Longest inside measure, as if its plan were square where nobody has measured it.
    fn length(&self, at: &At) -> Found<Length> {
        match at.try_get(&self.reservoir.length) {
            Some(length) => Ok(length),
            None => {
                let side = square_side(at.need(&self.reservoir.plan_area)?);
                Ok(at.or_take(&self.reservoir.length, side, "as if it were square"))
            }
        }
    }

    fn falls(&self, at: &At) -> Found<Length> {
        tilted_level(self.length(at)?, Self::tilt(at)?).map_err(outside)
    }

    /// How much lower the level stands than when it was filled, by cold and by hoses that have swollen.
    fn lower(&self, at: &At) -> Found<Length> {
        let gas = at.coolant()?.at_end().gas.clone()?;
        let lower = (gas.space - at.need(&self.reservoir.gas_space)?) / at.need(&self.reservoir.plan_area)?;
        Ok(if lower > Length::ZERO { lower } else { Length::ZERO })
    }

    fn tilted(&self, at: &At<'a>) -> Found<Outcome> {
        if short(at)? {
            return Ok(SHORT);
        }
        if Self::tilt(at)? == Angle::ZERO {
            return Ok(Outcome::Aside("level ground"));
        }
        let margin = Margin::gap::<m::Distance, m::Distance>(
            self.falls(at)? + self.lower(at)?,
            at.need(&self.reservoir.outlet_depth)?,
            Length::from_si(10e-3),
            Required { value: 5e-3, why: "so that no whirl draws air" },
            Consequence::RunOver,
        );
        Ok(Outcome::Held(margin.tell(at, |w| says::tilted(self, at, w))))
    }

    /// Whether the machine ever throws its coolant about; foam or a baffle keeps it at the outlet.
    fn tossed(&self, at: &At) -> bool {
        let jumps = at.machine().cases.iter().any(|case| case.kind.tosses());
        jumps && !at.or_word(&self.reservoir.baffled, false, "no")
    }

    fn leaves(&self, at: &At<'a>) -> Found<Outcome> {
        if short(at)? {
            return Ok(SHORT);
        }
        let circuit = at.coolant()?.at_end();
        if !turns(circuit) {
            return Ok(STANDS);
        }
        if !self.tossed(at) {
            return Ok(Outcome::Aside("nothing tosses the coolant about"));
        }
        let tank = at.machine().cooling.circuit.iter().position(|element| matches!(element, Element::Reservoir));
        let Some(element) = tank.and_then(|tank| circuit.elements.get(tank)) else {
            return Err(NotJudged::NoSolution("the reservoir is not worked out".into()));
        };
        let liquid = at.coolant_at(element.outlet)?;
        let bubble = at.need(&at.assumed().bubble)?;
        let rises = rise_speed(bubble, liquid.density, liquid.viscosity).map_err(outside)?;
        let sinks = surface_load(circuit.flow, at.need(&self.reservoir.plan_area)?);
        let required = Required { value: 1.0, why: "bubbles of a millimetre, of which there are larger ones" };
        let margin = Margin::ratio::<m::SurfaceSpeed>(sinks, rises, required, Consequence::RunOver);
        Ok(Outcome::Held(margin.tell(at, |w| says::leaves(self, element.outlet, bubble, w))))
    }

    fn lifted(&self, at: &At<'a>) -> Found<Outcome> {
        if short(at)? {
            return Ok(SHORT);
        }
        let pump = &at.machine().cooling.pump;
        let circuit = at.coolant()?.at_end();
        if !turns(circuit) {
            return Ok(STANDS);
        }
        let height = at.or_take(&pump.height_above_level, Length::ZERO, "level with the coolant");
        if height <= Length::ZERO {
            let mut words = Words::default();
            if at.tells() {
                words.happens = "the pump lies no higher than the coolant, which runs into it by itself".into();
            }
            return Ok(Outcome::Clear(words));
        }
        let place = at.machine().cooling.circuit.iter().position(|element| matches!(element, Element::Pump));
        let Some(element) = place.and_then(|place| circuit.elements.get(place)) else {
            return Err(NotJudged::NoSolution("the pump is not worked out".into()));
        };
        let head = lift(at.coolant_at(element.inlet)?.density, height);
        let required = Required { value: 2.0, why: "bubbles in the hose hold it up" };
        let margin =
            Margin::ratio::<m::PressureLoss>(head, at.need(&pump.dry_suction)?, required, Consequence::RunOver);
        Ok(Outcome::Held(margin.tell(at, |w| says::lifted(pump, w))))
    }

    fn high(&self, at: &At<'a>, place: usize, plate: &Plate) -> Found<Outcome> {
        if short(at)? {
            return Ok(SHORT);
        }
        let height = at.or_take(&plate.height_above_level, Length::ZERO, "level with the coolant");
        if height <= Length::ZERO {
            return Ok(Outcome::Aside("no higher than the reservoir"));
        }
        if at.or_word(&plate.bleeds, false, "no") {
            return Ok(Outcome::Aside("it has a place to let air out"));
        }
        let circuit = at.coolant()?.at_end();
        if !turns(circuit) {
            return Ok(STANDS);
        }
        let channel = at.part(&plate.channel)?;
        let (area, across) = match at.try_get(&channel.bore) {
            Some(bore) => (bore_area(bore), bore),
            None => {
                let (width, depth) = (at.need(&channel.width)?, at.need(&channel.depth)?);
                (width * depth, hydraulic_diameter(width, depth))
            }
        };
        let count = at.or_take(&channel.count, Ratio::from_si(1.0), "1");
        let Some(element) = circuit.elements.get(place) else {
            return Err(NotJudged::NoSolution("this element of the circuit is not worked out".into()));
        };
        let speed = element.flow / (area * count);
        let needs = carrying_speed(across);
        let required = Required { value: 1.0, why: "the carrying speed is rough on the safe side" };
        let margin = Margin::ratio::<m::SurfaceSpeed>(needs, speed, required, Consequence::RunOver);
        Ok(Outcome::Held(margin.tell(at, |w| says::high(plate, at, circuit, w))))
    }
}

/// What lasts seconds finds the loop as it was; in a soak and indoors nothing is tossed about and nobody drives.
fn short(at: &At) -> Found<bool> {
    let kind = at.case()?.kind;
    Ok(!kind.lasts() || kind.stands_off())
}

const SHORT: Outcome = Outcome::Aside("too short for the loop to settle, or nobody drives");

fn outside(refused: physics::range::OutsideRange) -> NotJudged {
    let physics::range::OutsideRange { of, unit, from, to, was } = refused;
    NotJudged::OutsideRange { of: of.into(), unit, from, to, was }
}
