//! What things weigh and cost, as far as their sizes, densities and prices are given. Never a margin: it is there to
//! compare a machine before and after a change.

#[cfg(test)]
mod tests;

use machine::{Build, Corner, Family, Machine, Making, Material, Maybe, NodeId, Part, Reader, Ref, Section, WhatIf};
use physics::section::{round, tube};
use quantity::{Length, Measure, Quantity};

type Given<M> = machine::Given<M>;

/// One thing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Item {
    /// The key that holds it.
    pub of: NodeId,
    /// In kg; none where it does not follow from sizes.
    pub mass: Option<f64>,
    /// In the money of the spec.
    pub price: Option<f64>,
}

/// Parts, shafts, springs and bearings, each once, with some numbers replaced.
#[must_use]
pub fn bill(machine: &Machine, what_if: &WhatIf) -> Vec<Item> {
    let scale = Scale { machine, reader: Reader::new(machine.row(), what_if).quiet(true) };
    let mut items = Vec::new();
    for part in &machine.structure.parts {
        items.push(scale.of(part.id(), scale.part(part), &part.material));
    }
    for shaft in &machine.powertrain.shafts {
        let bore = scale.si(&shaft.bore).unwrap_or(0.0);
        let area = scale.si(&shaft.diameter).map(|across| disc(across) - disc(bore));
        let volume = area.zip(scale.si(&shaft.length)).map(|(area, length)| area * length);
        items.push(scale.of(
            shaft.id(),
            volume.and_then(|volume| scale.weigh(volume, &shaft.material)),
            &shaft.material,
        ));
    }
    for corner in &machine.suspension {
        items.push(Item { of: corner.id(), mass: scale.springs(corner), price: scale.spring_price(corner) });
    }
    for bearing in &machine.powertrain.bearings {
        let price = match &bearing.value {
            machine::Bearing::Rolling(rolling) => scale.si(&rolling.price),
            machine::Bearing::Plain(plain) => scale.si(&plain.price),
        };
        items.push(Item { of: bearing.id(), mass: None, price });
    }
    items
}

fn disc(across: f64) -> f64 {
    round(Length::from_si(across)).area.si()
}

struct Scale<'a> {
    machine: &'a Machine,
    reader: Reader<'a>,
}

impl Scale<'_> {
    fn si<M: Measure>(&self, given: &Given<M>) -> Option<f64> {
        self.reader.try_get(given).map(Quantity::si)
    }

    /// A thing of one material that is bought by weight.
    fn of(&self, of: NodeId, mass: Option<f64>, material: &Maybe<Ref<Material>>) -> Item {
        let price = material.there().and_then(|material| self.si(&self.machine.follow(material).price));
        Item { of, mass, price: mass.zip(price).map(|(mass, price)| mass * price) }
    }

    fn weigh(&self, volume: f64, material: &Maybe<Ref<Material>>) -> Option<f64> {
        Some(volume * self.si(&self.machine.follow(material.there()?).density)?)
    }

    /// Of a print that is not solid nobody knows how much air is in it.
    fn part(&self, part: &Part) -> Option<f64> {
        let material = self.machine.follow(part.material.there()?);
        let printing = self.machine.structure.printing.there();
        let build = part.build.there();
        let by = |build: Option<&Build>| build.and_then(|build| build.by.there()).copied();
        let printed =
            by(build) == Some(Making::Printed) || material.family == Family::PrintedPolymer && by(build).is_none();
        let infill = |build: Option<&Build>| build.and_then(|build| self.si(&build.infill));
        if printed && infill(build).or(infill(printing)).is_none_or(|infill| infill < 1.0) {
            return None;
        }
        let volume = match (part.size.there(), part.section.there()) {
            (Some(size), _) => self.si(&size.length)? * self.si(&size.width)? * self.si(&size.thickness)?,
            (None, Some(section)) => self.area(section)? * self.si(&part.span)?,
            (None, None) => return None,
        };
        self.weigh(volume, &part.material)
    }

    fn area(&self, section: &Section) -> Option<f64> {
        Some(match section {
            Section::Rectangle(bar) => self.si(&bar.height)? * self.si(&bar.width)?,
            Section::Box(bar) => {
                let (height, width) = (self.si(&bar.height)?, self.si(&bar.width)?);
                let wall = self.si(&bar.wall)?;
                height * width - (height - 2.0 * wall).max(0.0) * (width - 2.0 * wall).max(0.0)
            }
            Section::Channel(bar) => {
                let (height, width) = (self.si(&bar.height)?, self.si(&bar.width)?);
                let (web, flange) = (self.si(&bar.web)?, self.si(&bar.flange)?);
                2.0 * width * flange + (height - 2.0 * flange).max(0.0) * web
            }
            Section::Round(bar) => disc(self.si(&bar.diameter)?),
            Section::Tube(bar) => {
                let (outer, wall) = (self.si(&bar.outer_diameter)?, self.si(&bar.wall)?);
                tube(Length::from_si(outer), Length::from_si(outer - 2.0 * wall)).area.si()
            }
        })
    }

    /// Their wire, with one coil at either end that does not spring.
    fn springs(&self, corner: &Corner) -> Option<f64> {
        let spring = corner.spring.there()?;
        let coils = self.si(&spring.active_coils)? + 2.0;
        let length = std::f64::consts::PI * self.si(&spring.mean_diameter)? * coils;
        let one = self.weigh(disc(self.si(&spring.wire)?) * length, &spring.material)?;
        Some(one * self.si(&corner.count)?)
    }

    fn spring_price(&self, corner: &Corner) -> Option<f64> {
        Some(self.si(&corner.spring.there()?.price)? * self.si(&corner.count)?)
    }
}
