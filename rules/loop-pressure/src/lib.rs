#![no_std]
//! The highest pressure in the loop against hoses, hose ends, housings and reservoir. It never knows: how a coolant loop is
//! worked out, other rules.

use physics::hose::{balloon_pressure, blow_off_pressure, bore_stress, stretch_pressure};
use physics::plate::clamped_strip_pressure;
use rule::prelude::*;

mod housing;
mod says;
#[cfg(test)]
mod tests;

use housing::Housing;

static CARD: Card = Card {
    name: "loop-pressure",
    area: Area::Cooling,
    question: "Does everything between the pump and the reservoir stand the highest pressure that can get there?",
    explains: "Cold thick coolant, a closed strainer or a pinched hose, and the pump pushes with all it has: up to its stall \
               pressure, unless a relief valve opens first. The hose bulges and bursts, its end slips off the barb, or the \
               lid of a plate cracks, and the loop empties itself, hot, over electronics and hands.",
    formula: "highest pressure = reservoir's gas over the air + what the pump makes against a closed way (in a case in which it \
              turns). Hose: least of strength·(ro² − ri²)/(ro² + ri²) and, for rubber, (E/3)·ln(ro/ri), at which it bulges \
              without end. Hose end: 4·µ·(p·l + q·w)/d. Plate: strength·2·t²/b², reservoir wall the same",
    source: "Bore stress: Lamé; clamped strip: Roark, 8th edition, table 11.4, published. Bulging: Rivlin 1949, rubber that \
             follows the simplest law, published. Friction on the barb: balance of forces. Ratios: common practice, no source.",
    checked: "bore stress against the thin wall, bulging by integration over the wall, blow-off by its forces, the strip by the \
              beam. Shock when a valve slams, ageing and kinks are left out (the unsafe side), ridges of a barb and fabric in a \
              hose too (the safe side): write its stated working pressure.",
    required: "hose and hose end 3, 2 where it was tried with pressure; printed 4, metal 2; 1 against a stated working pressure, \
               which has its reserve in it (common practice)",
    caution: "A loop that bursts sprays hot, in part poisonous coolant: try it first with water, cold, behind a shield, with eye \
              protection. Never try it with compressed air. Pressure equipment beyond a small open-loop pump falls under local \
              codes and licensed practice.",
};

#[derive(Debug)]
pub struct LoopPressure;

impl Rule for LoopPressure {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        let circuit = &machine.cooling.circuit;
        if !circuit.iter().any(|element| matches!(element, Element::Pump)) {
            return;
        }
        for hose in &machine.cooling.hoses {
            let runs = circuit.iter().enumerate().filter_map(|(place, element)| match element {
                Element::Hose(run) if run.hose.name == hose.name() => Some(place),
                _ => None,
            });
            let pressed = Pressed { hose, places: runs.collect() };
            if !pressed.places.is_empty() {
                let mut on = checks.on(&hose.key);
                on.check("burst", |at| pressed.burst(at));
                on.check("slips off", |at| pressed.slips(at));
            }
        }
        for (place, element) in circuit.iter().enumerate() {
            if let Some(housing) = Housing::of(machine, place, element) {
                checks.about(housing.name, housing.node).check("housing", |at| housing.judge(at));
            }
        }
    }
}

/// How hard an element can be pressed from inside, and what presses.
#[derive(Debug, Clone, Copy)]
struct Highest {
    pressure: Pressure,
    /// The pump's part of it.
    pump: Pressure,
    temperature: ThermodynamicTemperature,
}

/// Over the surrounding air, at one place, in one case: the pump against a way that is closed behind that place.
fn highest(at: &At, place: usize) -> Found<Highest> {
    let circuit = at.coolant()?.at_end().known()?;
    let Some(element) = circuit.elements.get(place) else {
        return Err(NotJudged::NoSolution("this place of the circuit is not worked out".into()));
    };
    let turns = circuit.running || circuit.stalled;
    let pump = if turns && behind_pump(at.machine(), place) { circuit.most } else { Pressure::ZERO };
    let gas = if circuit.gas_above > Pressure::ZERO { circuit.gas_above } else { Pressure::ZERO };
    let temperature = if element.wetted.1 > element.inlet { element.wetted.1 } else { element.inlet };
    Ok(Highest { pressure: gas + pump, pump, temperature })
}

/// In flow order from the pump, before the reservoir is reached.
fn behind_pump(machine: &Machine, place: usize) -> bool {
    let circuit = &machine.cooling.circuit;
    let count = circuit.len();
    let back = (0..count).map(|step| circuit.get((place + count - step) % count));
    for element in back {
        match element {
            Some(Element::Pump) => return true,
            Some(Element::Reservoir) | None => return false,
            Some(_) => {}
        }
    }
    false
}

/// One hose, wherever it runs.
struct Pressed<'a> {
    hose: &'a Named<Hose>,
    places: Vec<usize>,
}

impl<'a> Pressed<'a> {
    fn highest(&self, at: &At<'a>) -> Found<Highest> {
        let mut worst: Option<Highest> = None;
        for place in &self.places {
            let here = highest(at, *place)?;
            if worst.is_none_or(|before| here.pressure > before.pressure) {
                worst = Some(here);
            }
        }
        worst.ok_or_else(|| NotJudged::NoSolution("this hose is not worked out".into()))
    }

    fn burst(&self, at: &At<'a>) -> Found<Outcome> {
        if short(at)? {
            return Ok(SHORT);
        }
        let highest = self.highest(at)?;
        let (stands, required) = match at.try_get(&self.hose.working_pressure) {
            Some(stated) => (stated, STATED),
            None => (self.stands(at, highest.temperature)?, Required { value: 3.0, why: "a hose that was not tried" }),
        };
        let margin = Margin::ratio::<m::GaugePressure>(highest.pressure, stands, required, Consequence::Stranded);
        Ok(Outcome::Held(margin.tell(at, |w| says::burst(self, at, &highest, w))))
    }

    /// What its wall stands: rubber bulges before it tears.
    fn stands(&self, at: &At<'a>, temperature: ThermodynamicTemperature) -> Found<Pressure> {
        let (bore, wall) = (at.need(&self.hose.bore)?, at.need(&self.hose.wall)?);
        let material = at.machine().follow(at.part(&self.hose.material)?);
        let strength = strength::ultimate(at, material, temperature, strength::Direction::Along)?;
        let unit = Pressure::from_si(1.0);
        let tears = strength * (unit / bore_stress(unit, bore, wall));
        if material.family != Family::Elastomer {
            return Ok(tears);
        }
        let bulges = balloon_pressure(at.rubber(self.hose, temperature)?.modulus, bore, wall);
        Ok(if bulges < tears { bulges } else { tears })
    }

    fn slips(&self, at: &At<'a>) -> Found<Outcome> {
        if short(at)? {
            return Ok(SHORT);
        }
        let highest = self.highest(at)?;
        let (holds, required) = match at.try_get(&self.hose.held) {
            Some(held) => (held, Required { value: 2.0, why: "it was tried with pressure" }),
            None => (self.holds(at, highest.temperature)?, Required { value: 3.0, why: "a grip that was not tried" }),
        };
        let margin = Margin::ratio::<m::GaugePressure>(highest.pressure, holds, required, Consequence::Stranded);
        Ok(Outcome::Held(margin.tell(at, |w| says::slips(self, at, &highest, w))))
    }

    fn holds(&self, at: &At<'a>, temperature: ThermodynamicTemperature) -> Found<Pressure> {
        let barb = at.part(&self.hose.barb)?;
        let assumed = at.assumed();
        let (diameter, length) = (at.need(&barb.diameter)?, at.need(&barb.length)?);
        let (bore, wall) = (at.need(&self.hose.bore)?, at.need(&self.hose.wall)?);
        let grip = stretch_pressure(at.rubber(self.hose, temperature)?.modulus, bore, wall, diameter);
        let clamp = if self.hose.clamped == Some(true) {
            let width = at.or(&barb.clamp_width, &assumed.clamp_width)?;
            (at.or(&barb.clamp_pressure, &assumed.clamp_pressure)?, if width < length { width } else { length })
        } else {
            (Pressure::ZERO, length)
        };
        Ok(blow_off_pressure(at.need(&assumed.wet_rubber_friction)?, (grip, length), clamp, diameter))
    }
}

/// What lasts seconds finds the loop as it was; indoors nothing runs.
fn short(at: &At) -> Found<bool> {
    Ok(!at.case()?.kind.lasts())
}

const SHORT: Outcome = Outcome::Aside("too short for the loop to settle");

const STATED: Required = Required { value: 1.0, why: "a stated working pressure has its reserve in it" };
