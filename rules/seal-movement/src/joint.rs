//! A joint with its seal, and what both are made of.

use physics::seal;
use rule::prelude::*;

pub(crate) struct Sealed<'a> {
    pub(crate) joint: &'a Joint,
    pub(crate) seal: &'a Seal,
}

/// A seal of rubber: a cord or a cut sheet.
pub(crate) struct Rubber<'a> {
    pub(crate) material: &'a Material,
    pub(crate) free: Length,
    pub(crate) closed: Length,
    pub(crate) squeeze: Ratio,
    /// What a length of it presses with.
    pub(crate) force: SpringRate,
}

impl<'a> Sealed<'a> {
    /// The one under the heads of the screws first.
    pub(crate) fn parts(&self, at: &At<'a>) -> Found<[&'a Named<Part>; 2]> {
        match &self.joint.of[..] {
            [over, under] => Ok([at.machine().follow(over), at.machine().follow(under)]),
            _ => {
                Err(NotJudged::NoSolution("a sealed joint is of two parts, that under the screws' heads first".into()))
            }
        }
    }

    pub(crate) fn bodies(&self, at: &At<'a>) -> Found<[&'a Material; 2]> {
        let [over, under] = self.parts(at)?;
        let material = |part: &'a Named<Part>| Ok(&at.machine().follow(at.part(&part.material)?).value);
        Ok([material(over)?, material(under)?])
    }

    pub(crate) fn assembled(&self, at: &At) -> Found<ThermodynamicTemperature> {
        at.or(&at.machine().environment.assembled_at, &at.assumed().assembled_at)
    }

    /// Furthest from the temperature of assembly: as cold as the air before anything runs, or as warm as the coolant's wall
    /// where it is a joint of the coolant's path, or as the air round its first part.
    pub(crate) fn temperature(&self, at: &At<'a>) -> Found<ThermodynamicTemperature> {
        let parts = self.parts(at)?;
        let air = at.surroundings()?.outside;
        let ends = match self.element(at, parts) {
            Some(index) => match at.coolant()?.at_end().warm()?.elements.get(index) {
                Some(element) => [air, element.wetted.0, element.wetted.1],
                None => return unknown(),
            },
            None => {
                let place = at.machine().structure.parts.iter().position(|part| part.id() == parts[0].id());
                match place.map(|place| at.temperatures().map(|known| known.parts.get(place))).transpose()? {
                    Some(Some(known)) => [air, known.clone()?, air],
                    _ => return unknown(),
                }
            }
        };
        let assembled = self.assembled(at)?;
        let far = |end: &ThermodynamicTemperature| difference(*end, assembled).si().abs();
        Ok(ends.into_iter().max_by(|a, b| far(a).total_cmp(&far(b))).unwrap_or(air))
    }

    /// Where it may have rested for weeks, far from where it is now: a seal gives in to where it rests, so from there on it
    /// is rubbed. That of assembly, or an end of the range in which the machine stands.
    pub(crate) fn rested(&self, at: &At<'a>) -> Found<ThermodynamicTemperature> {
        let now = self.temperature(at)?;
        let air = &at.machine().environment.air;
        let rests = [Some(self.assembled(at)?), at.try_get(&air.low), at.try_get(&air.high)];
        let far = |rest: &ThermodynamicTemperature| difference(now, *rest).si().abs();
        let furthest = rests.into_iter().flatten().max_by(|a, b| far(a).total_cmp(&far(b)));
        Ok(furthest.unwrap_or(now))
    }

    /// Its place in the coolant's path, if it has one.
    pub(crate) fn element(&self, at: &At<'a>, parts: [&Named<Part>; 2]) -> Option<usize> {
        at.machine().cooling.circuit.iter().position(|element| match element {
            Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate) => {
                at.try_part(&plate.part).is_some_and(|part| parts.iter().any(|each| each.name() == part.name))
            }
            _ => false,
        })
    }

    /// Nothing where it is a bead of sealant.
    pub(crate) fn rubber(&self, at: &At<'a>) -> Found<Option<Rubber<'a>>> {
        let (material, free, closed, width) = match &self.seal.form {
            SealForm::Sealant(_) => return Ok(None),
            SealForm::Cord(cord) => (&cord.material, at.need(&cord.diameter)?, at.need(&cord.closed_to)?, None),
            SealForm::Sheet(sheet) => {
                (&sheet.material, at.need(&sheet.thickness)?, at.need(&sheet.closed_to)?, Some(at.need(&sheet.width)?))
            }
        };
        let material = &at.machine().follow(at.part(material)?).value;
        let squeeze = seal::squeeze(free, closed);
        let modulus = at.need(&material.modulus)?;
        let force = match width {
            None => seal::cord_force(modulus, free, squeeze),
            Some(width) => SpringRate::from_si(modulus.si() * width.si() * squeeze.si()),
        };
        Ok(Some(Rubber { material, free, closed, squeeze, force }))
    }

    /// How far the faces may slide before the seal suffers.
    pub(crate) fn lets_slide(&self, at: &At<'a>) -> Found<Length> {
        if let SealForm::Sealant(bead) = &self.seal.form {
            return Ok(seal::bead_slides(at.need(&bead.thickness)?, at.need(&bead.capability)?));
        }
        match self.rubber(at)? {
            Some(rubber) => {
                let friction = at.or(&self.seal.friction, &at.assumed().seal_friction)?;
                Ok(seal::sticks(friction, rubber.squeeze, rubber.closed, at.need(&rubber.material.poisson)?))
            }
            None => Ok(Length::ZERO),
        }
    }
}

fn unknown<T>() -> Found<T> {
    Err(NotJudged::NoSolution("the temperature of this joint is not worked out".into()))
}

/// Of a plate, or of a part with a size.
pub(crate) fn thickness(at: &At, part: &Part) -> Found<Length> {
    match (at.try_get(&part.thickness), at.try_part(&part.size)) {
        (Some(thickness), _) => Ok(thickness),
        (None, Some(size)) => at.need(&size.thickness),
        (None, None) => at.need(&part.thickness),
    }
}
