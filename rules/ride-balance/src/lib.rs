#![no_std]
//! Do the two ends of a machine swing and sag alike? It never knows: landings, springs' strength, other rules.

use physics::landing::at_wheel;
use physics::spring_limits::ride_frequency;
use rule::prelude::*;

#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "ride-balance",
    area: Area::Suspension,
    question: "Do front and rear swing alike, loaded and empty?",
    explains: "Springs that are right for one end and twice too hard for the other make a machine that nods: each bump lifts the \
               hard end off the ground and lets the soft one bottom. It matters from a jog on; at a crawl it does not.",
    formula: "f = √(R·r²/m)/(2·π) at each end; the higher over the lower ≤ 1.8",
    source: "Swing of a mass on a spring, textbook. That ends within a fifth of one another ride flat, and that twice is \
             too far apart: common practice, no source.",
    checked: "by hand; a machine with four like corners has the ratio 1. Tyres, track and ground are left out: they soften the \
              hard end more than the soft one, so the true ratio is smaller.",
    required: "no reserve: 1.8 is the limit itself (common practice); advice",
    caution: "",
};

const APART: f64 = 1.8;

#[derive(Debug)]
pub struct RideBalance;

impl Rule for RideBalance {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        if machine.suspension.len() > 1 {
            checks.about("suspension", machine.machine.mass.id()).check("front against rear", judge);
        }
    }
}

fn judge(at: &At) -> Found<Outcome> {
    let standing = landing::standing(at)?;
    let (mut soft, mut hard): (Option<(Frequency, &Named<Corner>)>, Option<(Frequency, &Named<Corner>)>) = (None, None);
    for (corner, mass) in at.machine().suspension.iter().zip(standing) {
        let rate = at.spring_rate(at.part(&corner.spring)?)?;
        let wheel = at_wheel(rate, Force::ZERO, at.need(&corner.motion_ratio)?).rate;
        let swings = ride_frequency(wheel, mass);
        if soft.is_none_or(|(least, _)| swings < least) {
            soft = Some((swings, corner));
        }
        if hard.is_none_or(|(most, _)| swings > most) {
            hard = Some((swings, corner));
        }
    }
    let (Some((low, soft)), Some((high, hard))) = (soft, hard) else {
        return Ok(Outcome::Aside("this machine has no sprung corner"));
    };
    let required = Required { value: 1.0, why: "1.8 times is itself the limit" };
    let (apart, limit) = (high / low, Ratio::from_si(APART));
    let margin = Margin::ratio::<m::Factor>(apart, limit, required, Consequence::CheapPart);
    Ok(Outcome::Held(margin.tell(at, |w| {
        let (hard_name, soft_name) = (hard.name(), soft.name());
        w.happens = format!("{hard_name} is much harder sprung than {soft_name}: the machine nods over bumps");
        let hertz = shown::<m::Frequency>;
        w.numbers.push(format!("{hard_name} swings with {}, {soft_name} with {}.", hertz(high), hertz(low)));
        w.label(hard.spring.id(), "too hard for what it carries here");
        w.label(soft.spring.id(), "too soft beside it");
        w.clears.push(format!(
            "a softer spring in {hard_name} or a harder one in {soft_name}, if landings leave them the length"
        ));
    })))
}
