#![no_std]
//! Strainers: what they cost, clean and clogged, what they let through, and ice on them. It never knows: how a coolant loop is
//! worked out, other rules.

use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "strainer-loss",
    area: Area::Cooling,
    question: "Does each strainer hold back what would block a channel, without choking the loop itself?",
    explains: "A strainer that is too small or too fine takes the pressure that the channels need, first in the cold and then, \
               as it fills with swarf and fluff, in the warm too. One that is too coarse lets through what bridges over in a \
               narrow channel. Ice crystals and slush from the first start in the cold close it at once.",
    formula: "loss, clean ≤ a tenth, clogged ≤ a quarter of what the pump makes against a closed way; narrowest channel / mesh \
              ≥ 3; coolant at the coldest start − its freezing point ≥ 3 K",
    source: "Freezing points: Melinder 2010, published. Loss of a mesh: each opening as a pipe as long as it is wide, common \
             practice, no source; a tenth, a quarter, 3 and 3 K: common practice, no source.",
    checked: "smooth flow through one opening: 32·µ·v/d, between a hole in a thin wall (Sampson 1891, 18.8) and a hole half as \
              deep as wide (Dagan, Weinbaum and Pfeffer 1982, 34.8; both from memory). Gaps inside the pump are not looked at. \
              A closed strainer's pressure is another rule's question.",
    required: "the tenth and the quarter have their reserve in them; 3 meshes in the narrowest channel; 3 K, 6 K where the \
               coolant was mixed by eye (common practice)",
    caution: "",
};

#[derive(Debug)]
pub struct StrainerLoss;

impl Rule for StrainerLoss {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for (index, element) in machine.cooling.circuit.iter().enumerate() {
            let Element::Strainer(strainer) = element else { continue };
            let sieve = Sieve { index, strainer };
            let mut on = checks.about(&strainer.name, strainer.mesh.id());
            on.check("loss when clean", |at| sieve.loss(at, State::Clean));
            on.check("loss when clogged", |at| sieve.loss(at, State::Clogged));
            on.check("narrowest channel", |at| sieve.passes(at));
            on.check("ice at the first start", |at| sieve.ice(at));
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum State {
    Clean,
    Clogged,
}

impl State {
    /// Of what the pump makes against a closed way.
    fn share(self) -> f64 {
        match self {
            Self::Clean => 0.1,
            Self::Clogged => 0.25,
        }
    }
}

/// One strainer, and its place in the circuit.
struct Sieve<'a> {
    index: usize,
    strainer: &'a Strainer,
}

impl<'a> Sieve<'a> {
    fn loss(&self, at: &At<'a>, state: State) -> Found<Outcome> {
        if !at.case()?.kind.lasts() {
            return Ok(Outcome::Aside("too short for the loop to settle"));
        }
        let circuit = match state {
            State::Clean => at.coolant()?.at_end(),
            State::Clogged => at.clogged()?,
        };
        if !circuit.running && !circuit.stalled {
            return Ok(Outcome::Aside("the pump does not turn"));
        }
        let Some(element) = circuit.elements.get(self.index) else {
            return Err(NotJudged::NoSolution("this strainer is not worked out".into()));
        };
        let required = Required { value: 1.0, why: "the share has its reserve in it" };
        let may = circuit.most * state.share();
        let margin = Margin::ratio::<m::PressureLoss>(element.drop, may, required, Consequence::RunOver);
        Ok(Outcome::Held(margin.tell(at, |w| says::loss(self, at, state, circuit, w))))
    }

    /// The narrowest channel of the circuit, wherever it stands: what is in the loop comes round.
    fn narrowest(at: &At<'a>) -> Found<(&'a str, Length)> {
        let mut narrowest: Option<(&'a str, Length)> = None;
        let mut unknown = None;
        for element in &at.machine().cooling.circuit {
            let (Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate)) = element else {
                continue;
            };
            let channel = match at.part(&plate.channel) {
                Ok(channel) => channel,
                Err(gap) => {
                    unknown = Some(gap);
                    continue;
                }
            };
            let sides = match at.try_get(&channel.bore) {
                Some(bore) => [bore, bore],
                None => [at.need(&channel.width)?, at.need(&channel.depth)?],
            };
            for side in sides {
                if narrowest.is_none_or(|(_, least)| side < least) {
                    narrowest = Some((&plate.name, side));
                }
            }
        }
        match (narrowest, unknown) {
            (Some(found), _) => Ok(found),
            (None, Some(gap)) => Err(gap),
            (None, None) => Err(NotJudged::NoSolution("nothing in the circuit has a channel".into())),
        }
    }

    fn passes(&self, at: &At<'a>) -> Found<Outcome> {
        let (name, width) = Self::narrowest(at)?;
        let required = Required { value: 3.0, why: "two grains side by side bridge over" };
        let mesh = at.need(&self.strainer.mesh)?;
        let margin = Margin::ratio::<m::Length>(mesh, width, required, Consequence::RunOver);
        Ok(Outcome::Held(margin.tell(at, |w| says::passes(self, name, width, w))))
    }

    fn ice(&self, at: &At<'a>) -> Found<Outcome> {
        if at.case()?.kind.indoors() {
            return Ok(Outcome::Aside("a warm room"));
        }
        let (cold, freezes) = (at.surroundings()?.outside, liquid::slush(at)?);
        let required = if at.or_word(&at.machine().cooling.coolant.mixed_by_eye, true, "yes") {
            Required { value: 6.0, why: "mixed by eye" }
        } else {
            Required { value: 3.0, why: "crystals before slush" }
        };
        let margin = Margin::gap::<m::Temperature, m::TemperatureDifference>(
            freezes,
            cold,
            TemperatureInterval::from_si(20.0),
            required,
            Consequence::Stranded,
        );
        Ok(Outcome::Held(margin.tell(at, |w| says::ice(self, at, w))))
    }
}
