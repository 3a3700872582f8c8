//! What is no hose: plates, strainers, the pump, the reservoir.

use crate::{SHORT, STATED, clamped_strip_pressure, highest, says, short};
use rule::prelude::*;

/// One housing, and its place in the circuit.
pub(crate) struct Housing<'a> {
    place: usize,
    pub(crate) name: &'a str,
    pub(crate) node: NodeId,
    /// What its papers say that it stands.
    pub(crate) stated: &'a Given<m::GaugePressure>,
    pub(crate) wall: Wall<'a>,
}

/// Where its weakest flat wall is described.
pub(crate) enum Wall<'a> {
    Lid(&'a Plate),
    Reservoir(&'a Reservoir),
    Unknown,
}

/// A flat wall held all along both sides.
struct Strip<'a> {
    material: &'a Named<Material>,
    /// Along its layers, where it is printed.
    along: bool,
    width: Length,
    thickness: Length,
}

impl<'a> Housing<'a> {
    /// A thermostat has no housing of its own that anybody describes.
    pub(crate) fn of(machine: &'a Machine, place: usize, element: &'a Element) -> Option<Self> {
        let cooling = &machine.cooling;
        let (name, stated, wall): (&str, _, _) = match element {
            Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate) => {
                (&plate.name, &plate.pressure_max, Wall::Lid(plate))
            }
            Element::Strainer(strainer) => (&strainer.name, &strainer.pressure_max, Wall::Unknown),
            Element::Pump => ("pump", &cooling.pump.pressure_max, Wall::Unknown),
            Element::Reservoir => ("reservoir", &cooling.reservoir.pressure_max, Wall::Reservoir(&cooling.reservoir)),
            Element::Hose(_) | Element::Thermostat(_) => return None,
        };
        Some(Self { place, name, node: stated.id(), stated, wall })
    }

    pub(crate) fn judge(&self, at: &At<'a>) -> Found<Outcome> {
        if short(at)? {
            return Ok(SHORT);
        }
        let highest = highest(at, self.place)?;
        if highest.pressure == Pressure::ZERO {
            return Ok(Outcome::Aside("nothing presses on it from inside"));
        }
        let (stands, required) = match at.try_get(self.stated) {
            Some(stated) => (stated, STATED),
            None => self.stands(at, highest.temperature)?,
        };
        let margin = Margin::ratio::<m::GaugePressure>(highest.pressure, stands, required, Consequence::Stranded);
        Ok(Outcome::Held(margin.tell(at, |w| says::housing(self, at, &highest, w))))
    }

    fn strip(&self, at: &At<'a>) -> Found<Strip<'a>> {
        match self.wall {
            Wall::Unknown => Err(at.need(self.stated).err().unwrap_or_else(unknown)),
            Wall::Lid(plate) => {
                let (Some(channel), Some(part)) = (at.try_part(&plate.channel), at.try_part(&plate.part)) else {
                    return Err(at.need(self.stated).err().unwrap_or_else(unknown));
                };
                let part = at.machine().follow(part);
                let width = match at.try_get(&channel.bore) {
                    Some(bore) => bore,
                    None => at.need(&channel.width)?,
                };
                let thickness = at.need(&channel.cover)?;
                let material = at.machine().follow(at.part(&part.material)?);
                let printed = material.family == Family::PrintedPolymer;
                // Standing, the wall over a channel opens between its layers: the safe side.
                let along = !printed || strength::laid(at, &part.build, Laid::Standing, "standing")? != Laid::Standing;
                Ok(Strip { material, along, width, thickness })
            }
            Wall::Reservoir(reservoir) => {
                let walls = at.part(&reservoir.walls)?;
                let material = at.machine().follow(at.part(&walls.material)?);
                // Its walls stand on the bed: bent, they open between their layers.
                Ok(Strip {
                    material,
                    along: false,
                    width: at.need(&walls.width)?,
                    thickness: at.need(&walls.thickness)?,
                })
            }
        }
    }

    /// That its wall has gone soft, where it has and nobody states what it holds.
    pub(crate) fn gone_soft(&self, at: &At<'a>, here: ThermodynamicTemperature) -> Option<String> {
        let strip = self.strip(at).ok().filter(|_| !at.is_given(self.stated))?;
        strength::gone_soft(at, strip.material, here)
    }

    fn stands(&self, at: &At<'a>, temperature: ThermodynamicTemperature) -> Found<(Pressure, Required)> {
        let strip = self.strip(at)?;
        let material = strip.material;
        let way = if strip.along { strength::Direction::Along } else { strength::Direction::Across };
        let (strength, required) = match material.family {
            // Metals keep their strength as far as a coolant stays liquid.
            Family::Metal => (at.need(&material.yield_strength)?, Required { value: 2.0, why: "metal" }),
            Family::PrintedPolymer => {
                let why = if strip.along { "printed" } else { "printed, pulled between its layers" };
                (strength::ultimate(at, material, temperature, way)?, Required { value: 4.0, why })
            }
            Family::Polymer | Family::Elastomer | Family::FibreComposite | Family::Wood => {
                let figure = strength::ultimate(at, material, temperature, strength::Direction::Along)?;
                (figure, Required { value: 4.0, why: "as of a print, for want of better" })
            }
        };
        Ok((clamped_strip_pressure(strength, strip.width, strip.thickness), required))
    }
}

fn unknown() -> NotJudged {
    NotJudged::NoSolution("what this housing stands is not known".into())
}
