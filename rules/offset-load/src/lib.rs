#![no_std]
//! Parts that carry a load beside their own axis: what takes the moment, and whether a guide binds. It never knows: how the part
//! itself bends, other rules.

use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "offset-load",
    area: Area::Structure,
    question: "Where a load pulls beside its axis, does something take the moment, and does the guide still slide?",
    explains: "A tensioner whose axle pulls beside its screw bends the screw, wears its guide crooked and sticks. A wing that rests \
               on the frame takes the moment out of it. A short guide binds like a drawer pulled at one corner.",
    formula: "binds at e = l/(2·µ); each end of the guide takes F·e/(⅔·l) on its area; a screw without a guide F/A + 32·F·e/(π·d³) \
              on its core; to either side alike",
    source: "equilibrium; Shigley, ch. 3, textbook; triangles of pressure in the guide: common practice, no source",
    checked: "at the binding offset friction equals the push; the triangles carry the moment. The force is the track's on its wheel \
              or what `pushed` says; play of the guide, which tilts it further, is left out: that errs to the unsafe side.",
    required: "1.5 (common practice)",
    caution: "A track under tension snaps back when its tensioner lets go: keep fingers out of it.",
};

#[derive(Debug)]
pub struct OffsetLoad;

impl Rule for OffsetLoad {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for part in machine.structure.parts.iter().filter(|part| beside(part)) {
            let mut on = checks.on(&part.key);
            on.check("guide binds", |at| binds(part, at));
            on.check("sliding face", |at| presses(part, at));
            on.check("screw", |at| screw(part, at));
        }
    }
}

/// A part that slides, rests on another or is pulled by a screw: where its load acts has to be said.
fn beside(part: &Part) -> bool {
    part.guide.there().is_some() || part.bears_on.there().is_some() || part.screw.is_some()
}

/// What pulls along it, in words where the case does not.
fn pull(part: &Named<Part>, at: &At<'_>) -> Found<Result<Force, &'static str>> {
    let (mut most, mut why) = (Force::ZERO, "nothing pulls on it in this case");
    if part.value.pushed.is_empty() {
        let tensioner = at.try_part(&at.machine().powertrain.track.tensioner);
        let thing = tensioner.and_then(|tensioner| at.try_part(&tensioner.part));
        if thing.is_none_or(|thing| at.machine().thing(thing).id() != part.id()) {
            return Err(NotJudged::NoSolution(
                "what pulls on it is not said: name it under `pushed`, or under the track's `tensioner`".into(),
            ));
        }
        let track = at.track()?;
        // It turns round its idler by half a turn: both sides pull.
        let pull = (track.tight - track.centrifugal) * 2.0;
        return Ok(if pull == Force::ZERO { Err(why) } else { Ok(pull) });
    }
    for push in part.value.pushed.iter() {
        match loads::supplied(at, &push.value)? {
            loads::Supplied::Force(force) if force > most => most = force,
            loads::Supplied::Force(_) => {}
            loads::Supplied::Nothing(reason) => why = reason,
        }
    }
    Ok(if most == Force::ZERO { Err(why) } else { Ok(most) })
}

fn offset(part: &Part, at: &At<'_>) -> Found<Length> {
    Ok(at.need(&part.axis_offset)?.abs())
}

fn binds(part: &Named<Part>, at: &At<'_>) -> Found<Outcome> {
    let Some(guide) = at.try_part(&part.value.guide) else { return Ok(Outcome::Aside("it slides in no guide")) };
    if let Err(why) = pull(part, at)? {
        return Ok(Outcome::Aside(why));
    }
    let material = at.machine().follow(at.part(&guide.material)?);
    let friction = at.or(&material.friction, &at.assumed().dry_friction)?;
    let limit = physics::guide::binds_at(at.need(&guide.length)?, friction);
    let required = Required { value: 1.5, why: "grit and wear raise its friction" };
    let margin = Margin::ratio::<m::Distance>(offset(&part.value, at)?, limit, required, Consequence::RunOver);
    Ok(Outcome::Held(says::binds(part, guide, at, friction, margin)))
}

fn presses(part: &Named<Part>, at: &At<'_>) -> Found<Outcome> {
    let Some(rests) = at.try_part(&part.value.bears_on) else {
        return Ok(Outcome::Aside("it rests on nothing that takes the moment"));
    };
    let force = match pull(part, at)? {
        Ok(force) => force,
        Err(why) => return Ok(Outcome::Aside(why)),
    };
    let offset = offset(&part.value, at)?;
    let length = match at.try_part(&part.value.guide) {
        Some(guide) => at.need(&guide.length)?,
        None => at.need(&at.part(&part.value.guide)?.length)?,
    };
    let pressure = physics::guide::reacts_with(force, offset, length) / at.need(&rests.area)?;
    let own = at.machine().follow(at.part(&part.value.material)?);
    let other = at.machine().follow(at.part(&at.machine().follow(&rests.part).value.material)?);
    let softer = if soft(own) || !soft(other) { own } else { other };
    let limit = match at.try_part(&softer.value.sliding) {
        Some(sliding) => at.need(&sliding.p_limit)?,
        None => {
            let air = at.surroundings()?.outside;
            at.or(&softer.value.compressive_strength, &softer.value.tensile_strength)?
                * strength::warmth(at, softer, air)?
                * strength::damp(at, softer)?
        }
    };
    let required = Required { value: 1.5, why: "it slides under this load" };
    let margin = Margin::ratio::<m::Stress>(pressure, limit, required, Consequence::RunOver);
    Ok(Outcome::Held(says::presses(part, rests, at, force, margin)))
}

fn soft(material: &Material) -> bool {
    matches!(material.family, Family::PrintedPolymer | Family::Polymer | Family::Elastomer | Family::Wood)
}

fn screw(part: &Named<Part>, at: &At<'_>) -> Found<Outcome> {
    if at.try_part(&part.value.guide).is_some() || at.try_part(&part.value.bears_on).is_some() {
        return Ok(Outcome::Aside("its guide takes the moment, not its screw"));
    }
    let Some(size) = part.value.screw.as_deref() else { return Ok(Outcome::Aside("no screw pulls it")) };
    let force = match pull(part, at)? {
        Ok(force) => force,
        Err(why) => return Ok(Outcome::Aside(why)),
    };
    let thread = quantity::read_thread(size)
        .map_err(|_| NotJudged::NoSolution(format!("`{size}` is not the size of a screw")))?;
    let core = thread.diameter - thread.pitch * physics::bolted::CORE_DEPTH;
    let stress = physics::guide::screw_beside(force, offset(&part.value, at)?, core);
    let limit = at.need(&at.assumed().key_yield)?;
    let required = Required { value: 1.5, why: "an ordinary screw, bent" };
    let margin = Margin::ratio::<m::Stress>(stress, limit, required, Consequence::RunOver);
    Ok(Outcome::Held(says::screw(part, at, force, margin)))
}
