#![no_std]
//! Fibre composite in a moving contact. It never knows: loads, wear rates, other rules.

use rule::prelude::*;

#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "carbon-friction-contact",
    area: Area::Structure,
    question: "Does anything turn, slide or shake straight on a carbon or glass fibre part?",
    explains: "Hard fibres that are rubbed break out of the resin and grind both sides. The fibres that carried the load are cut \
               through one after the other, and the part breaks without having bent first. Held still, the same contact is harmless.",
    formula: "continuous fibres + motion + nothing but grease or tape between = fails",
    source: "common practice, no source",
    checked: "a yes-or-no question: there is no formula to check",
    required: "a bearing or a sleeve between, or no motion",
    caution: "Dust of rubbed fibres harms lungs, skin and electronics: wear a mask and gloves, clean up wet.",
};

#[derive(Debug)]
pub struct CarbonFrictionContact;

impl Rule for CarbonFrictionContact {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for contact in machine.structure.contacts.iter() {
            let sides: Vec<_> = contact.of.iter().map(|side| (side.id, side_of(machine, side))).collect();
            if sides.iter().any(|(_, side)| concerns(machine, side)) {
                let turns = bushes(machine).any(|(_, _, of)| of.is_some_and(|of| of.id() == contact.id()));
                checks.on(&contact.key).check("rubbing on fibres", |at| touching(at, machine, contact, turns, &sides));
            }
        }
        // What a contact speaks of is one finding, not two.
        for (key, sides, _) in bushes(machine).filter(|(_, _, contact)| contact.is_none()) {
            if sides.iter().any(|(_, side)| concerns(machine, side)) {
                checks.on(key).check("running on fibres", |at| running(at, machine, &sides));
            }
        }
    }
}

type Sides<'a> = [(NodeId, Side<'a>); 2];

/// Plain bearings that say what they run on, with the contact that speaks of the same two, where there is one.
fn bushes<'a>(machine: &'a Machine) -> impl Iterator<Item = (&'a Key, Sides<'a>, Option<&'a Named<Contact>>)> {
    machine.powertrain.bearings.iter().filter_map(|bearing| {
        let Bearing::Plain(plain) = &bearing.value else { return None };
        let on = plain.runs_on.there()?;
        let sides = [(plain.material.id(), Side::Of(&plain.material)), (on.id, side_of(machine, on))];
        Some((&bearing.key, sides, contact_of(machine, bearing.id(), id_of(machine.thing(on)))))
    })
}

/// The contact that speaks of the same two things, where there is one.
fn contact_of(machine: &Machine, one: NodeId, other: NodeId) -> Option<&Named<Contact>> {
    let names = |contact: &Contact, id| contact.of.iter().any(|side| id_of(machine.thing(side)) == id);
    machine.structure.contacts.iter().find(|contact| names(contact, one) && names(contact, other))
}

fn id_of(thing: ThingRef<'_>) -> NodeId {
    match thing {
        ThingRef::Part(part) => part.id(),
        ThingRef::Shaft(shaft) => shaft.id(),
        ThingRef::Bearing(bearing) => bearing.id(),
    }
}

/// What one side is made of.
enum Side<'a> {
    Of(&'a Maybe<Ref<Material>>),
    Rolling,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Fibres {
    Short,
    Continuous,
}

const PARTED: &str = "something that may wear runs between: the fibres are not rubbed";
const SHORT: &str = "short fibres in a print leave rub marks and sand the other side, but nothing is cut through: look at it after the first hour";

fn side_of<'a>(machine: &'a Machine, side: &Ref<Thing>) -> Side<'a> {
    match machine.thing(side) {
        ThingRef::Part(part) => Side::Of(&part.value.material),
        ThingRef::Shaft(shaft) => Side::Of(&shaft.value.material),
        ThingRef::Bearing(bearing) => match &bearing.value {
            Bearing::Plain(plain) => Side::Of(&plain.material),
            Bearing::Rolling(_) => Side::Rolling,
        },
    }
}

/// Fibres, or a material that nobody has named: then the check is asked, and is not judged.
fn concerns(machine: &Machine, side: &Side<'_>) -> bool {
    match side {
        Side::Rolling => false,
        Side::Of(material) => material.there().is_none_or(|of| fibres(machine.follow(of)).is_some()),
    }
}

fn fibres(material: &Material) -> Option<Fibres> {
    match material.fibre.there().map(|fibre| fibre.form) {
        Some(FibreForm::ShortFilled) => Some(Fibres::Short),
        Some(_) => Some(Fibres::Continuous),
        None => (material.family == Family::FibreComposite).then_some(Fibres::Continuous),
    }
}

/// The side with continuous fibres, else one with short ones.
fn worst(at: &At, machine: &Machine, sides: &[(NodeId, Side<'_>)]) -> Found<Option<(NodeId, Fibres)>> {
    let mut found = None;
    let mut gap = None;
    for (node, side) in sides {
        let Side::Of(material) = side else { continue };
        match at.part(material) {
            Ok(of) => match fibres(machine.follow(of)) {
                Some(Fibres::Continuous) => return Ok(Some((*node, Fibres::Continuous))),
                Some(Fibres::Short) => found = Some((*node, Fibres::Short)),
                None => {}
            },
            Err(missing) => gap = Some(missing),
        }
    }
    gap.map_or(Ok(found), Err)
}

/// A plain bearing `turns` by what it is, and bears on the other thing itself where nothing is said to stand between.
fn touching(
    at: &At,
    machine: &Machine,
    contact: &Contact,
    turns: bool,
    sides: &[(NodeId, Side<'_>)],
) -> Found<Outcome> {
    if at.try_part(&contact.motion).is_some_and(|motion| !moves(*motion)) && !turns {
        return Ok(clear(at, "held still: fibre composite may be clamped or glued"));
    }
    if at.try_part(&contact.between).is_some_and(|between| parts(*between)) {
        return Ok(clear(at, PARTED));
    }
    match worst(at, machine, sides)? {
        None => Ok(Outcome::Aside("no fibre composite")),
        Some((_, Fibres::Short)) => Ok(clear(at, SHORT)),
        Some((node, Fibres::Continuous)) => {
            if !turns {
                at.part(&contact.motion)?;
                at.part(&contact.between)?;
            }
            Ok(breach(at, node))
        }
    }
}

/// A plain bearing turns by what it is.
fn running(at: &At, machine: &Machine, sides: &[(NodeId, Side<'_>)]) -> Found<Outcome> {
    Ok(match worst(at, machine, sides)? {
        Some((node, Fibres::Continuous)) => breach(at, node),
        Some((_, Fibres::Short)) => clear(at, SHORT),
        None => Outcome::Aside("no fibre composite"),
    })
}

fn moves(motion: Motion) -> bool {
    match motion {
        Motion::Clamped | Motion::Glued => false,
        Motion::Rotating | Motion::Sliding | Motion::MicroMotion => true,
    }
}

/// Keeps the two apart by something that may wear.
fn parts(between: Between) -> bool {
    match between {
        Between::None | Between::Tape | Between::Grease => false,
        Between::RollingBearing | Between::MetalSleeve | Between::PolymerSleeve | Between::PlainBush => true,
    }
}

fn clear(at: &At, says: &str) -> Outcome {
    let mut words = Words::default();
    if at.tells() {
        words.happens = says.into();
    }
    Outcome::Clear(words)
}

fn breach(at: &At, node: NodeId) -> Outcome {
    let rides = at.machine().machine.rides == Some(true);
    let mut words = Words::default();
    if at.tells() {
        words.happens = "what moves on it saws through the fibres, and the part breaks without warning".into();
        words.label(node, "continuous fibres, rubbed");
        words
            .clears
            .push("put a bearing between, or glue on a metal or polymer sleeve that runs with clearance".into());
        words.clears.push("clamp or glue the two so that nothing moves".into());
    }
    Outcome::Breach { consequence: if rides { Consequence::Harm } else { Consequence::Stranded }, words }
}
