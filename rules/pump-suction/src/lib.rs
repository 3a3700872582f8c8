#![no_std]
//! What the pump sucks: air, its own hose flat, or less than it could move. It never knows: how a coolant loop is worked out,
//! other rules.

use physics::hose::{ovality_factor, ring_collapse};
use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "pump-suction",
    area: Area::Cooling,
    question: "Does the pump get its coolant without drawing air in or sucking a hose flat?",
    explains: "Before the pump the loop stands below the surrounding air, the more so with thick cold coolant, a thin hose, and a \
               closed reservoir that has cooled down. Shaft seals and hose ends hold pressure from inside, not air from \
               outside: what gets in comes back as foam. A soft hose folds flat, and a pump that is not filled whirrs and moves \
               nothing.",
    formula: "inlet = reservoir's gas − losses − ρ·g·height; surrounding air − inlet ≤ 30 kPa; inlet ≥ what the pump needs to \
              fill; inlet − vapour pressure ≥ 10 kPa; hose folds at 2E/(1 − ν²)·(t/D)³/(1 + t/D)·((1 − q)/(1 + q)²)³, q ovality",
    source: "Collapse: ASTM F480 for plastic tubes of any common wall; ovality: ASTM F1216, appendix X1, from memory; published. 30 kPa, 10 kPa over the vapour pressure, what a pump needs to fill, and the \
             ratio: common practice, no source.",
    checked: "collapse against exact incremental elasticity of a thick rubber tube: 1 to 33 % on the safe side for t/D up to 0.3, \
              and against the thin ring for t/D below 0.1; ovality by the radius of the flat side. Stiff ends nearby and wire in \
              the wall are left out (safe side); bends count only by the ovality that they give. Dissolved air that comes out \
              below the surrounding pressure is left out (the unsafe side, small in glycol).",
    required: "30 kPa has its reserve in it; 10 kPa over the vapour pressure; collapse 3 (common practice)",
    caution: "Open a hot loop only when it is cold and without pressure.",
};

#[derive(Debug)]
pub struct PumpSuction;

impl Rule for PumpSuction {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        let circuit = &machine.cooling.circuit;
        let Some(pump) = circuit.iter().position(|element| matches!(element, Element::Pump)) else { return };
        let inlet = Inlet { pump };
        let mut on = checks.about("pump", machine.cooling.pump.works_by.id());
        on.check("air drawn in", |at| inlet.air(at));
        on.check("filling", |at| inlet.filling(at));
        on.check("boiling in the pump", |at| inlet.boiling(at));
        for hose in &machine.cooling.hoses {
            let runs = circuit.iter().enumerate().filter_map(|(place, element)| match element {
                Element::Hose(run) if run.hose.name == hose.name() => Some(place),
                _ => None,
            });
            let folded = Folded { hose, places: runs.collect() };
            if !folded.places.is_empty() {
                checks.on(&hose.key).check("sucked flat", |at| folded.judge(at));
            }
        }
    }
}

/// More below the surrounding air than this, and seals and hose ends let air in.
const DRAWS_AIR: f64 = 30e3;
const YARDSTICK: f64 = 50e3;

/// The state in which the inlet stands lowest: strainers count as due for cleaning.
fn lowest<'a>(at: &At<'a>, pump: usize) -> Found<&'a Circuit> {
    let clean = at.coolant()?.at_end().known()?;
    if !strained(at) {
        return Ok(clean);
    }
    let clogged = at.clogged()?.known()?;
    let entry = |state: &Circuit| state.elements.get(pump).map_or(f64::INFINITY, |element| element.entry.si());
    Ok(if entry(clogged) < entry(clean) { clogged } else { clean })
}

fn strained(at: &At) -> bool {
    at.machine().cooling.circuit.iter().any(|element| matches!(element, Element::Strainer(_)))
}

/// The pump's inlet.
struct Inlet {
    pump: usize,
}

/// The inlet in one case.
struct Sucked<'a> {
    circuit: &'a Circuit,
    element: &'a ElementState,
    /// Where the coolant is nearest to boiling: the pump, or what lies before it.
    place: usize,
}

impl Inlet {
    fn sucked<'a>(&self, at: &At<'a>) -> Found<Option<Sucked<'a>>> {
        let circuit = lowest(at, self.pump)?;
        let Some(element) = circuit.elements.get(self.pump) else {
            return Err(NotJudged::NoSolution("the pump's inlet is not worked out".into()));
        };
        Ok((circuit.running || circuit.stalled).then_some(Sucked { circuit, element, place: self.pump }))
    }

    /// Places between reservoir and pump, against the flow; none where the loop has no reservoir.
    fn before(&self, at: &At) -> impl Iterator<Item = usize> {
        let circuit = &at.machine().cooling.circuit;
        let count = circuit.len();
        let back: fn(&Element) -> bool = |element| !matches!(element, Element::Reservoir | Element::Pump);
        let held = circuit.iter().any(|element| matches!(element, Element::Reservoir));
        let pump = self.pump;
        let steps = (1..count).map(move |step| (pump + count - step) % count);
        steps.take_while(move |place| held && circuit.get(*place).is_some_and(back))
    }

    fn air(&self, at: &At) -> Found<Outcome> {
        if short(at)? {
            return Ok(SHORT);
        }
        let Some(sucked) = self.sucked(at)? else { return Ok(STANDS) };
        let deep = none_below_zero(sucked.circuit.below_air(sucked.element.entry));
        let required = Required { value: 0.0, why: "30 kPa has its reserve in it" };
        let margin = Margin::gap::<m::PressureLoss, m::PressureLoss>(
            deep,
            Pressure::from_si(DRAWS_AIR),
            Pressure::from_si(YARDSTICK),
            required,
            Consequence::RunOver,
        );
        Ok(Outcome::Held(margin.tell(at, |w| says::air(at, &sucked, deep, w))))
    }

    fn filling(&self, at: &At) -> Found<Outcome> {
        if short(at)? {
            return Ok(SHORT);
        }
        let Some(sucked) = self.sucked(at)? else { return Ok(STANDS) };
        if sucked.circuit.starved {
            let mut words = Words::default();
            if at.tells() {
                says::starved(at, &sucked, &mut words);
            }
            return Ok(Outcome::Breach { consequence: Consequence::RunOver, words });
        }
        let needs = at.or(&at.machine().cooling.pump.inlet_pressure_min, &at.assumed().pump_inlet_pressure)?;
        let required = Required { value: 0.0, why: "what the pump needs has its reserve in it" };
        let margin = Margin::gap::<m::Pressure, m::PressureLoss>(
            needs,
            sucked.element.entry,
            Pressure::from_si(YARDSTICK),
            required,
            Consequence::RunOver,
        );
        Ok(Outcome::Held(margin.tell(at, |w| says::filling(at, &sucked, w))))
    }

    fn boiling(&self, at: &At) -> Found<Outcome> {
        if short(at)? {
            return Ok(SHORT);
        }
        let Some(mut sucked) = self.sucked(at)? else { return Ok(STANDS) };
        let over = |element: &ElementState| {
            let (end, entry) = (at.vapour_pressure(element.outlet)?, at.vapour_pressure(element.inlet)?);
            let (behind, ahead) = (element.pressure - end, element.entry - entry);
            Ok(if behind < ahead { (end, element.pressure) } else { (entry, element.entry) })
        };
        // The pump's own rise lies behind its inlet.
        let mut worst = (at.vapour_pressure(sucked.element.inlet)?, sucked.element.entry);
        for place in self.before(at) {
            let Some(element) = sucked.circuit.elements.get(place) else { continue };
            let here = over(element)?;
            if here.1 - here.0 < worst.1 - worst.0 {
                (worst, sucked.place) = (here, place);
            }
        }
        let (vapour, pressure) = worst;
        let required = Required { value: 10e3, why: "a metre of head over the vapour pressure" };
        let margin = Margin::gap::<m::Pressure, m::PressureLoss>(
            vapour,
            pressure,
            Pressure::from_si(YARDSTICK),
            required,
            Consequence::RunOver,
        );
        Ok(Outcome::Held(margin.tell(at, |w| says::boiling(at, &sucked, w))))
    }
}

fn none_below_zero(pressure: Pressure) -> Pressure {
    if pressure > Pressure::ZERO { pressure } else { Pressure::ZERO }
}

/// What lasts seconds finds the loop as it was; indoors nothing runs.
fn short(at: &At) -> Found<bool> {
    Ok(!at.case()?.kind.lasts())
}

const SHORT: Outcome = Outcome::Aside("too short for the loop to settle");

const STANDS: Outcome = Outcome::Aside("the pump does not turn");

/// One hose, wherever it runs.
struct Folded<'a> {
    hose: &'a Named<Hose>,
    places: Vec<usize>,
}

impl Folded<'_> {
    fn judge(&self, at: &At) -> Found<Outcome> {
        if short(at)? {
            return Ok(SHORT);
        }
        let mut worst: Option<(Pressure, Pressure)> = None;
        let clean = at.coolant()?.at_end().known()?;
        let clogged = if strained(at) { Some(at.clogged()?.known()?) } else { None };
        for circuit in [Some(clean), clogged].into_iter().flatten() {
            for element in self.places.iter().filter_map(|place| circuit.elements.get(*place)) {
                let lower = if element.pressure < element.entry { element.pressure } else { element.entry };
                let (sucks, folds) = (circuit.below_air(lower), self.folds(at, element.outlet)?);
                let graver = worst.is_none_or(|(before, stands)| (sucks / folds).si() > (before / stands).si());
                if graver {
                    worst = Some((sucks, folds));
                }
            }
        }
        let Some((sucks, folds)) = worst else {
            return Err(NotJudged::NoSolution("this hose is not worked out".into()));
        };
        let sucks = none_below_zero(sucks);
        let required = Required { value: 3.0, why: "a soft wall, its stiffness and its roundness uncertain" };
        let margin = Margin::ratio::<m::PressureLoss>(sucks, folds, required, Consequence::RunOver);
        Ok(Outcome::Held(margin.tell(at, |w| says::folded(self, at, w))))
    }

    /// Pressure difference at which it folds at this temperature.
    fn folds(&self, at: &At, temperature: ThermodynamicTemperature) -> Found<Pressure> {
        let rubber = at.rubber(self.hose, temperature)?;
        let oval = ovality_factor(at.or(&self.hose.ovality, &at.assumed().hose_ovality)?).map_err(outside)?;
        let bore = at.need(&self.hose.bore)?;
        Ok(ring_collapse(bore, at.need(&self.hose.wall)?, rubber.modulus, rubber.poisson).map_err(outside)? * oval)
    }
}

fn outside(refused: physics::range::OutsideRange) -> NotJudged {
    let physics::range::OutsideRange { of, unit, from, to, was } = refused;
    NotJudged::OutsideRange { of: of.into(), unit, from, to, was }
}
