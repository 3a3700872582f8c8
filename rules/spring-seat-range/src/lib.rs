#![no_std]
//! Is a preload collar near its end? It never knows: coil bind, landings, other rules.

use rule::prelude::*;

#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "spring-seat-range",
    area: Area::Suspension,
    question: "Is a preload collar screwed in nearly as far as it goes?",
    explains: "A collar near its end means that the spring is too soft for the machine: somebody wound it up until it stopped \
               sagging. Nothing is left for more load, the spring loses the length that a landing needs, and preload does not \
               make it any stiffer. Another spring does.",
    formula: "what is left of the collar's range ≥ a fifth of it; the spring that carries the same with a third left: \
              R' = R·(collar + sag)/(⅔·range + sag)",
    source: "Equilibrium, textbook. The fifth and the third: common practice, no source.",
    checked: "by hand. Judged loaded as weighed; the collar's own thread is not.",
    required: "20 % of the range left (common practice)",
    caution: "A preloaded spring stores energy: slacken the collar before you take the damper apart.",
};

/// Share of the range that is to be left. Common practice.
const LEFT: f64 = 0.20;
/// Share of the range that the proposed spring uses. Common practice.
const USED: f64 = 2.0 / 3.0;

#[derive(Debug)]
pub struct SpringSeatRange;

impl Rule for SpringSeatRange {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for corner in &machine.suspension {
            let mut on = checks.on(&corner.key);
            on.check("collar near its end", |at| judge(at, corner));
        }
    }
}

fn judge(at: &At, corner: &Corner) -> Found<Outcome> {
    let collar = at.need(&corner.preload.collar)?;
    let Some(range) = at.try_get(&corner.preload.of) else {
        // Whoever does not say how far it goes may well have a spring seat that does not turn.
        return if collar == Length::ZERO { Ok(Outcome::Aside("its seat does not turn")) } else { gap(at, corner) };
    };
    let required = Required { value: LEFT * range.si(), why: "20 % of the collar's range" };
    let margin = Margin::gap::<m::Distance, m::Distance>(collar, range, range, required, Consequence::CheapPart);
    let past = margin.held.fails();
    Ok(Outcome::Held(margin.tell(at, |w| {
        w.happens = if past {
            "the collar stands further in than it can go: one of the two figures is wrong"
        } else {
            "the collar is nearly at its end: the spring is too soft for what it carries, and nothing is left to adjust"
        }
        .into();
        let (turned, whole) = (shown::<m::Distance>(collar), shown::<m::Distance>(range));
        w.numbers.push(format!("It is screwed in {turned} of {whole}."));
        w.label(corner.preload.collar.id(), if past { "further than it goes" } else { "nearly all of its range" });
        w.label(corner.spring.id(), "too soft for this corner");
        another(at, corner, collar, range, w);
    })))
}

fn gap(at: &At, corner: &Corner) -> Found<Outcome> {
    at.need(&corner.preload.of).map(|_| Outcome::Aside("it has no range"))
}

/// Rate and free length of the spring that carries the same in the same place with a third of the range left.
fn another(at: &At, corner: &Corner, collar: Length, range: Length, w: &mut Telling<'_>) {
    let Some(spring) = corner.spring.there() else { return };
    let mass = at.need(&corner.sprung_mass_each);
    let (Ok(rate), Ok(sag)) = (at.spring_rate(spring), mass.and_then(|mass| landing::sag_under(at, corner, mass)))
    else {
        return;
    };
    let (stiffer, shorter) = carries_the_same(rate, sag, collar, range);
    let (was, is) = (shown::<m::SpringRate>(rate), shown::<m::SpringRate>(stiffer));
    let length = match at.try_get(&spring.free_length) {
        Some(free) => format!(", {} long", shown::<m::Distance>(free - shorter)),
        None => String::new(),
    };
    w.clears.push(format!(
        "a spring of {is} (now {was}){length}: it stands as high with a third of the range left; check that its coils leave it the length"
    ));
    if sag == Length::ZERO {
        w.clears.push("less preload: standing still it does not move this spring at all".into());
    }
}

/// Rate of the spring that pushes as hard in the same place with a third of the range left, and by how much it is shorter: what
/// the collar gives up, for both of its ends stay where they are.
fn carries_the_same(rate: SpringRate, sag: Length, collar: Length, range: Length) -> (SpringRate, Length) {
    let used = range * USED;
    (rate * ((collar + sag) / (used + sag)).si(), collar - used)
}
