//! Bodies that hold coolant: where they stand in the loop, and how they were printed.

use rule::prelude::*;

/// Where a body meets the coolant.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Place {
    Reservoir,
    Element(usize),
}

pub(crate) struct Body<'a> {
    pub(crate) part: &'a Named<Part>,
    pub(crate) place: Place,
}

/// What is known to keep the coolant in.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Held {
    Tested,
    Coat,
    Bare,
}

/// Where coolant is held by something that nobody named: its name, and the gap.
pub(crate) fn unnamed(machine: &Machine) -> Vec<(&str, &Maybe<Ref<Part>>)> {
    let cooling = &machine.cooling;
    let held = cooling.circuit.iter().filter_map(|element| match element {
        Element::Reservoir => Some(("reservoir", &cooling.reservoir.part)),
        Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate) => Some((&*plate.name, &plate.part)),
        _ => None,
    });
    held.filter(|(_, part)| part.there().is_none()).collect()
}

/// Parts of plates, jackets and exchangers, what is sealed onto them, and the reservoir's.
pub(crate) fn bodies(machine: &Machine) -> Vec<Body<'_>> {
    let cooling = &machine.cooling;
    let mut bodies: Vec<Body<'_>> = Vec::new();
    let mut add = |part: &'_ Ref<Part>, place| {
        let part = machine.follow(part);
        if bodies.iter().all(|body| body.part.id() != part.id()) {
            bodies.push(Body { part, place });
        }
    };
    if let Some(part) = cooling.reservoir.part.there() {
        add(part, Place::Reservoir);
    }
    let elements = cooling.circuit.iter().enumerate().filter_map(|(index, element)| match element {
        Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate) => {
            Some((index, plate.part.there()?))
        }
        _ => None,
    });
    for (index, part) in elements {
        add(part, Place::Element(index));
        let sealed = machine.structure.joints.iter().filter(|joint| joint.seal.there().is_some());
        for joint in sealed.filter(|joint| joint.of.iter().any(|other| other.name == part.name)) {
            joint.of.iter().for_each(|other| add(other, Place::Element(index)));
        }
    }
    bodies
}

impl<'a> Body<'a> {
    fn build(&self, at: &At<'a>) -> [Option<&'a Build>; 2] {
        [at.try_part(&self.part.build), at.try_part(&at.machine().structure.printing)]
    }

    /// By what was said of it, else by its material.
    pub(crate) fn printed(&self, at: &At<'a>) -> Found<bool> {
        if let [Some(build), _] = self.build(at)
            && let Some(by) = at.try_part(&build.by)
        {
            return Ok(*by == Making::Printed);
        }
        let material = at.machine().follow(at.part(&self.part.material)?);
        Ok(material.family == Family::PrintedPolymer)
    }

    pub(crate) fn walls(&self, at: &At<'a>) -> Found<Ratio> {
        let [own, all] = self.build(at);
        let written = [own, all].into_iter().flatten().find_map(|build| at.try_get(&build.walls));
        match (written, own, all) {
            (Some(walls), _, _) => Ok(walls),
            (None, Some(build), _) | (None, None, Some(build)) => at.need(&build.walls),
            (None, None, None) => at.part(&self.part.build).map(|_| Ratio::ZERO),
        }
    }

    /// The part's own, else its spool's, else that of all prints.
    pub(crate) fn layer_height(&self, at: &At<'a>) -> Found<Length> {
        let [own, all] = self.build(at);
        let of = |build: Option<&Build>| build.and_then(|build| at.try_get(&build.layer_height));
        if let Some(height) = of(own) {
            return Ok(height);
        }
        let spool = at.machine().follow(at.part(&self.part.material)?);
        match (at.try_get(&spool.layer_height), all) {
            (Some(height), _) => Ok(height),
            (None, Some(all)) => at.need(&all.layer_height),
            (None, None) => at.need(&spool.layer_height),
        }
    }

    /// Between the coolant and the air outside, whichever way it pushes.
    pub(crate) fn pressure(&self, at: &At<'a>) -> Found<Pressure> {
        let outside = at.surroundings()?.pressure;
        let circuit = at.coolant()?.at_end();
        if let Some(gap) = &circuit.pressure_unknown {
            return Err(gap.clone());
        }
        let ends = match self.place {
            Place::Reservoir => [circuit.reservoir_pressure; 2],
            Place::Element(index) => match circuit.elements.get(index) {
                Some(element) => [element.pressure, element.pressure + element.drop],
                None => return Err(NotJudged::NoSolution("this element of the circuit is not worked out".into())),
            },
        };
        let apart = ends.map(|end| if end > outside { end - outside } else { outside - end });
        Ok(if apart[0] > apart[1] { apart[0] } else { apart[1] })
    }
}
