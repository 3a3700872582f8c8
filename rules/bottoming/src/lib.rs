#![no_std]
//! What a landing does to the mounts of a strut, stop and locked damper included. It never knows: how a landing is worked
//! out, whether the coils touch, other rules.

use rule::prelude::*;

#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "bottoming",
    area: Area::Suspension,
    question: "Do the mounts of each strut take the landing, its stop reached or not?",
    explains: "To reach the stop is no failure: a bump stop is there for it. What breaks is the mount that gets what spring and \
               stop have not taken. A hard end passes on several times what the spring ever did, a damper that is locked \
               by the cold all of it.",
    formula: "highest force at the strut's mounts, from spring, stop, coils and damper, ≤ strength of the weaker mount; the drop \
              at which both are equal",
    source: "Motion of a stiff body on its springs, from memory of a textbook. Strength: as tested by the builder.",
    checked: "the landing against an independent integrator, force within a thousandth; by energy on rigid ground. Left out: \
              what ground and frame swallow, which spares the mount, and a load beside the mount's axis, which does not.",
    required: "1.2, more where a guessed ground or mount may add more (common practice)",
    caution: "A mount that breaks in a landing lets the strut through the deck: keep fuel lines and cells away from it.",
};

const REQUIRED: f64 = 1.2;

#[derive(Debug)]
pub struct Bottoming;

impl Rule for Bottoming {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for (index, corner) in machine.suspension.iter().enumerate() {
            checks.on(&corner.key).check("mount when landing", |at| judge(at, index, corner));
        }
    }
}

const NOT_LANDED: Outcome = Outcome::Aside("nothing lands on this corner");

fn judge(at: &At, index: usize, corner: &Corner) -> Found<Outcome> {
    if !at.case()?.kind.lands() {
        return Ok(NOT_LANDED);
    }
    let landed = match at.landing()?.corners.get(index) {
        Some(Ok(corner)) if corner.force == Force::ZERO => return Ok(NOT_LANDED),
        Some(Ok(corner)) => corner,
        Some(Err(gap)) => return Err(gap.clone()),
        None => return Ok(NOT_LANDED),
    };
    let limit = at.need(&corner.mount_strength)?;
    let adds = (landed.force_band.1 / landed.force).si();
    let required = if adds > REQUIRED {
        Required { value: adds, why: "a guessed ground or mount may add so much" }
    } else {
        Required { value: REQUIRED, why: "tested mounts" }
    };
    let margin = Margin::ratio::<m::Force>(landed.force, limit, required, Consequence::RunOver);
    let (fails, required) = (margin.held.fails(), margin.required.value);
    Ok(Outcome::Held(margin.tell(at, |w| {
        w.happens = match (fails, landed.damper_gelled, landed.bottomed) {
            (true, true, _) => "the frozen damper hands the whole landing to its mounts, and the weaker one breaks",
            (true, _, true) => "the strut bottoms, and what is left of the blow breaks its mount",
            (true, ..) => "the landing breaks a mount of the strut before it has used its stroke",
            (false, ..) if adds > REQUIRED => "on harder ground or with a stiffer mount than assumed, the landing breaks a mount",
            (false, ..) => "the landing takes the mount close to its strength",
        }
        .into();
        let (least, most) = landed.force_band;
        let newton = shown::<m::Force>;
        w.numbers.push(format!(
            "The mounts get {}, {} to {} on ground, and with a mount where nobody has pushed on it, between half and twice as stiff.",
            newton(landed.force),
            newton(least),
            newton(most)
        ));
        let felt = shown::<m::Acceleration>(landed.deceleration);
        w.numbers.push(format!("The body over this corner is stopped with {felt}."));
        if let Ok(Some(drop)) = landing::drop_for(at, index, limit) {
            w.numbers.push(format!("Its strength is reached from a drop of {}.", shown::<m::Distance>(drop)));
        }
        w.label(corner.mount_strength.id(), "all that the weaker mount takes");
        if landed.bottomed {
            w.label(corner.bump_stop.id(), "reached in this landing");
        }
        if landed.damper_gelled {
            w.label(corner.damper.id(), "stands still in this cold");
            w.clears.push("an oil that still flows there, or another kind of damper".into());
        }
        let (enough, was) = (limit * (required / margin_reserve(landed.force, limit)), limit);
        if enough > was {
            w.at_least(&corner.mount_strength, enough, |enough| format!("mounts that hold {enough}, tested"));
        }
        w.clears.push("a taller or softer bump stop, or a longer stroke, so that more of the blow is taken before its end".into());
        w.clears.push("land lower or slower".into());
    })))
}

fn margin_reserve(load: Force, limit: Force) -> f64 {
    (limit / load).si()
}
