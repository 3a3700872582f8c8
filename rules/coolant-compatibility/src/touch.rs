//! Where a liquid wets a material.

use rule::prelude::*;

pub(crate) const COOLANT: &str = "coolant on it";
/// A seal has no key of its own: it stands under its joint's.
pub(crate) const ITS_SEAL: &str = "coolant on its seal";

/// Which liquid.
#[derive(Clone, Copy)]
pub(crate) enum By<'a> {
    Coolant,
    Grease(&'a Maybe<Substance>),
    Locker(NodeId),
}

/// How warm it gets there.
#[derive(Clone)]
pub(crate) enum Where {
    /// Places in the circuit.
    Loop(Vec<usize>),
    /// As the air round this part.
    Air(NodeId),
}

pub(crate) struct Touch<'a> {
    pub(crate) key: &'a Key,
    pub(crate) check: &'static str,
    pub(crate) material: &'a Maybe<Ref<Material>>,
    pub(crate) by: By<'a>,
    place: Where,
}

fn plate(element: &Element) -> Option<&Plate> {
    match element {
        Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate) => Some(plate),
        _ => None,
    }
}

/// Parts that coolant flows through, each with its places in the circuit, what is sealed onto them included.
pub(crate) fn wet(machine: &Machine) -> Vec<(&Named<Part>, Vec<usize>)> {
    let mut wet: Vec<(&Named<Part>, Vec<usize>)> = Vec::new();
    let mut add = |part: &'_ Ref<Part>, place: usize| {
        let part = machine.follow(part);
        match wet.iter_mut().find(|(there, _)| there.id() == part.id()) {
            Some((_, places)) if places.contains(&place) => {}
            Some((_, places)) => places.push(place),
            None => wet.push((part, vec![place])),
        }
    };
    for (place, element) in machine.cooling.circuit.iter().enumerate() {
        let part = match element {
            Element::Reservoir => machine.cooling.reservoir.part.there(),
            _ => plate(element).and_then(|plate| plate.part.there()),
        };
        let Some(part) = part else { continue };
        add(part, place);
        let sealed = machine.structure.joints.iter().filter(|joint| joint.seal.there().is_some());
        for joint in sealed.filter(|joint| joint.of.iter().any(|other| other.name == part.name)) {
            joint.of.iter().for_each(|other| add(other, place));
        }
    }
    wet
}

/// Where coolant is held by something that nobody named: its name, and the gap.
pub(crate) fn unnamed(machine: &Machine) -> Vec<(&str, &Maybe<Ref<Part>>)> {
    let held = machine.cooling.circuit.iter().filter_map(|element| match element {
        Element::Reservoir => Some(("reservoir", &machine.cooling.reservoir.part)),
        _ => plate(element).map(|plate| (&*plate.name, &plate.part)),
    });
    held.filter(|(_, part)| part.there().is_none()).collect()
}

fn hoses(machine: &Machine) -> impl Iterator<Item = Touch<'_>> {
    machine.cooling.hoses.iter().filter_map(|hose| {
        let runs = machine.cooling.circuit.iter().enumerate().filter_map(|(place, element)| match element {
            Element::Hose(run) if run.hose.name == hose.key.name => Some(place),
            _ => None,
        });
        let places: Vec<usize> = runs.collect();
        let touch = |place| Touch { key: &hose.key, check: COOLANT, material: &hose.material, by: By::Coolant, place };
        (!places.is_empty()).then(|| touch(Where::Loop(places)))
    })
}

fn rubber(seal: &Seal) -> Option<&Maybe<Ref<Material>>> {
    match &seal.form {
        SealForm::Cord(cord) => Some(&cord.material),
        SealForm::Sheet(sheet) => Some(&sheet.material),
        SealForm::Sealant(_) => None,
    }
}

/// Cords and sheets in the coolant, and what they were greased with.
fn seals<'a>(machine: &'a Machine, wet: &[(&'a Named<Part>, Vec<usize>)], all: &mut Vec<Touch<'a>>) {
    for joint in &machine.structure.joints {
        let Some((seal, material)) = joint.seal.there().and_then(|seal| Some((seal, rubber(seal)?))) else { continue };
        let places = wet.iter().find(|(part, _)| joint.of.iter().any(|other| other.name == part.key.name));
        let places = places.map(|(_, places)| Where::Loop(places.clone()));
        let touch = |check, by, place| Touch { key: &joint.key, check, material, by, place };
        if let Some(places) = &places {
            all.push(touch(ITS_SEAL, By::Coolant, places.clone()));
        }
        let air = || joint.of.first().map(|part| Where::Air(machine.follow(part).id()));
        if seal.greased.there().is_some()
            && let Some(place) = places.or_else(air)
        {
            all.push(touch("grease on its seal", By::Grease(&seal.greased), place));
        }
    }
}

pub(crate) fn all(machine: &Machine) -> Vec<Touch<'_>> {
    let wet = wet(machine);
    let mut all: Vec<Touch<'_>> = Vec::new();
    for (part, places) in &wet {
        let place = Where::Loop(places.clone());
        all.push(Touch { key: &part.key, check: COOLANT, material: &part.material, by: By::Coolant, place });
    }
    all.extend(hoses(machine));
    seals(machine, &wet, &mut all);
    let mut locked: Vec<NodeId> = Vec::new();
    for joint in &machine.structure.joints {
        if joint.locked.there() != Some(&Locking::ThreadLocker) {
            continue;
        }
        for part in joint.of.iter().map(|part| machine.follow(part)) {
            if !locked.contains(&part.id()) {
                locked.push(part.id());
                let (by, place) = (By::Locker(joint.locked.id()), Where::Air(part.id()));
                all.push(Touch { key: &part.key, check: "thread locker on it", material: &part.material, by, place });
            }
        }
    }
    greased(machine, &mut all);
    all
}

/// Surfaces that touch with grease between them: each of the two by itself.
fn greased<'a>(machine: &'a Machine, all: &mut Vec<Touch<'a>>) {
    let greasy = |contact: &&Named<Contact>| contact.between.there() == Some(&Between::Grease);
    for contact in machine.structure.contacts.iter().filter(greasy) {
        for (thing, check) in contact.of.iter().zip(["grease on the first", "grease on the second"]) {
            if let ThingRef::Part(part) = machine.thing(thing) {
                let (by, place) = (By::Grease(&contact.grease), Where::Air(part.id()));
                all.push(Touch { key: &contact.key, check, material: &part.material, by, place });
            }
        }
    }
}

/// What the coolant is to rubber and plastic.
pub(crate) fn coolant(at: &At) -> Found<Substance> {
    let fluid = at.machine().follow(at.part(&at.machine().cooling.coolant.fluid)?);
    Ok(match &fluid.value {
        Coolant::Water(_) => Substance::Water,
        Coolant::GlycolWater(mixture) => match mixture.glycol {
            GlycolKind::Ethylene => Substance::EthyleneGlycolWater,
            GlycolKind::Propylene => Substance::PropyleneGlycolWater,
        },
        Coolant::Tabulated(own) => *at.part(&own.acts_as)?,
    })
}

impl Touch<'_> {
    pub(crate) fn liquid(&self, at: &At) -> Found<Substance> {
        match self.by {
            By::Coolant => coolant(at),
            By::Grease(grease) => Ok(at.or_word(grease, Substance::MineralOil, "mineral_oil")),
            By::Locker(_) => Ok(Substance::ThreadLocker),
        }
    }

    /// Hottest that it gets there for longer than moments.
    pub(crate) fn hottest(&self, at: &At) -> Found<Option<ThermodynamicTemperature>> {
        let places = match &self.place {
            Where::Loop(places) => places,
            Where::Air(part) => {
                let place = at.machine().structure.parts.iter().position(|each| each.id() == *part);
                let parts = &at.temperatures()?.parts;
                return place.and_then(|place| parts.get(place)).cloned().transpose();
            }
        };
        if !at.case()?.kind.heats() {
            return Ok(None);
        }
        let circuit = at.coolant()?.at_end().warm()?;
        let all = places.iter().filter_map(|place| circuit.elements.get(*place));
        let warmest = all.flat_map(|element| [element.inlet, element.outlet, element.wetted.1]);
        Ok(warmest.reduce(|a, b| if b > a { b } else { a }))
    }
}
