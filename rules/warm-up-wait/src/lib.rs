#![no_std]
//! How long a cold machine has to stand in a room before it is opened and charged. It never knows: how anything warms up,
//! other rules.

use physics::moisture;
use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "warm-up-wait",
    area: Area::Cooling,
    question: "Is the planned wait in a warm room long enough before the machine is opened and its cells are charged?",
    explains: "A machine that comes out of the frost is colder than the room's dew point for a long time: open its box too soon \
               and water settles on boards and plugs. A pack in foam stays frozen for hours after its surface feels warm; \
               charged while its middle is below the limit of its cells, it takes damage that nobody sees, for good. A pack \
               that comes in hot has to cool down first.",
    formula: "waited / time until the surface has the room's dew point ≥ required; waited / time until the middle of the pack \
              may be charged ≥ required. Surfaces: m·cp·dT/dt = (T_room − T)/(R + R_box); middle of the pack: three crossed \
              slabs, exact series, with the coefficient 1/(1/h + δ/k) of its wrap",
    source: "Lumped bodies, slabs and their product: Bergman and others, Introduction to Heat Transfer, 6th edition, ch. 5, \
             published. Dew point: Hyland and Wexler 1983, published. Heat capacities, conductivities and 5 °C as the least for \
             charging: from memory and common practice; the label of the cell comes first.",
    checked: "slabs against the printed one-term coefficients, a box against m·cp/(h·A) and against a flat slab, lumped bodies \
              against two worked examples. A machine with no case before it comes out of the coldest air of its range. The \
              wall of a closed box counts as one more resistance, its own mass does not (short side); foam counts by its \
              thickness alone, seams and cables do not (long side).",
    required: "1.25, or 1.1 where its resistance to the air was measured (common practice)",
    caution: "A lithium cell that was charged below freezing has metal plated inside and may burn weeks later, without a sign \
              on its outside. The cell maker's limits and local rules come first; never leave a charging pack alone.",
};

#[derive(Debug)]
pub struct WarmUpWait;

impl Rule for WarmUpWait {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        let train = &machine.powertrain;
        let (battery, controller) = (train.battery.mass.id(), train.controller.mass.id());
        if machine.has_section_of(controller) {
            checks.about("controller", controller).check("dry before it is opened", controller_dry);
        }
        if machine.has_section_of(battery) {
            let mut on = checks.about("battery", battery);
            on.check("dry before it is opened", battery_dry);
            on.check("warm before it is charged", |at| charged(at, Side::Cold));
            on.check("cool before it is charged", |at| charged(at, Side::Hot));
        }
        for (index, device) in machine.devices.iter().enumerate() {
            let mut on = checks.on(&device.key);
            on.check("dry before it is opened", |at| device_dry(at, index, device));
        }
    }
}

const ELSEWHERE: Outcome = Outcome::Aside("it is not brought into a room");

fn indoors(at: &At) -> Found<bool> {
    Ok(at.case()?.kind.indoors())
}

fn measured(at: &At, resistance: &Given<m::ThermalResistance>) -> bool {
    at.stated(resistance) == Some(quantity::Stated::Measured)
}

fn required(measured: bool) -> Required {
    if measured {
        Required { value: 1.1, why: "its resistance to the air was measured" }
    } else {
        Required { value: 1.25, why: "how fast it warms up is an estimate" }
    }
}

/// A surface that has to be above the room's dew point.
struct Surface<'m> {
    name: &'m str,
    course: &'m thermal::Course,
    zone: Option<&'m Named<Zone>>,
    measured: bool,
}

fn controller_dry(at: &At) -> Found<Outcome> {
    if !indoors(at)? {
        return Ok(ELSEWHERE);
    }
    let (machine, controller) = (at.machine(), &at.machine().powertrain.controller);
    let plate = machine.cooling.circuit.iter().find_map(|element| match element {
        Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate) => {
            (plate.cools == Some(Cooled::Controller)).then_some(plate)
        }
        _ => None,
    });
    let zone = at.try_part(&controller.zone).or_else(|| plate.and_then(|plate| at.try_part(&plate.zone)));
    let course = at.thermal()?.controller.as_ref().map_err(Clone::clone)?;
    let measured = measured(at, &controller.to_air);
    let zone = zone.map(|zone| machine.follow(zone));
    dry(at, &Surface { name: "the controller", course, zone, measured })
}

fn battery_dry(at: &At) -> Found<Outcome> {
    if !indoors(at)? {
        return Ok(ELSEWHERE);
    }
    let battery = &at.machine().powertrain.battery;
    let zone = at.try_part(&battery.zone).map(|zone| at.machine().follow(zone));
    let course = &at.pack()?.course;
    let measured = measured(at, &battery.to_air);
    dry(at, &Surface { name: "the pack", course, zone, measured })
}

fn device_dry(at: &At, index: usize, device: &Named<Device>) -> Found<Outcome> {
    if !indoors(at)? {
        return Ok(ELSEWHERE);
    }
    if matches!(at.try_part(&device.next_to), Some(Neighbour::Controller | Neighbour::Battery)) {
        return Ok(Outcome::Aside("as wet as what it sits on, which is judged"));
    }
    let zone = at.try_part(&device.zone).map(|zone| at.machine().follow(zone));
    let courses = &at.thermal()?.devices;
    let Some(course) = courses.get(index) else {
        return Err(NotJudged::NoSolution("this device is not worked out".into()));
    };
    let course = course.as_ref().map_err(Clone::clone)?;
    let measured = measured(at, &device.to_air);
    dry(at, &Surface { name: device.name(), course, zone, measured })
}

fn dew_point(at: &At) -> Found<ThermodynamicTemperature> {
    moisture::dew_or_frost_point(at.surroundings()?.vapour).map_err(|refused| {
        let physics::range::OutsideRange { of, unit, from, to, was } = refused;
        NotJudged::OutsideRange { of: of.into(), unit, from, to, was }
    })
}

fn dry(at: &At, surface: &Surface<'_>) -> Found<Outcome> {
    if let Some(zone) = surface.zone
        && at.try_part(&zone.moisture) == Some(&Moisture::SealedAtAssembly)
    {
        return Ok(Outcome::Clear(says::shut(at, surface, zone)));
    }
    let (dew, room) = (dew_point(at)?, at.surroundings()?.outside);
    let waits = at.need(&at.case()?.wait)?;
    let Some(takes) = surface.course.rises_to(dew) else {
        return Err(NotJudged::NoSolution(format!(
            "{} does not get above the room's dew point within two days",
            surface.name
        )));
    };
    let margin = Margin::ratio::<m::Duration>(takes, waits, required(surface.measured), Consequence::Stranded);
    let wanted = says::wanted(&margin.required);
    Ok(Outcome::Held(margin.tell(at, |w| says::wet(at, surface, &says::Room { dew, room, waits, takes }, wanted, w))))
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    Cold,
    Hot,
}

fn charged(at: &At, side: Side) -> Found<Outcome> {
    if !indoors(at)? {
        return Ok(ELSEWHERE);
    }
    if at.case()?.then_charge != Some(true) {
        return Ok(Outcome::Aside("nothing is charged then"));
    }
    let (cells, assumed) = (&at.machine().powertrain.battery.cells, at.assumed());
    let limit = match side {
        Side::Cold => at.or(&cells.charge_temperature_min, &assumed.cell_charge_temperature_min)?,
        Side::Hot => at.or(&cells.charge_temperature_max, &assumed.cell_charge_temperature_max)?,
    };
    let pack = at.pack()?;
    let fine = match side {
        Side::Cold => pack.first >= limit && pack.air >= limit,
        Side::Hot => pack.first <= limit && pack.air <= limit,
    };
    let waits = at.need(&at.case()?.wait)?;
    let takes = if fine { Some(Time::from_si(0.0)) } else { pack.middle_reaches(pack.body.coefficient, limit) };
    let asked = says::Charge { side, limit, pack, waits };
    let Some(takes) = takes else {
        let consequence = Consequence::Harm;
        return Ok(Outcome::Breach { consequence, words: says::never(at, &asked) });
    };
    let measured = measured(at, &at.machine().powertrain.battery.to_air);
    let margin = Margin::ratio::<m::Duration>(takes, waits, required(measured), Consequence::Harm);
    let wanted = says::wanted(&margin.required);
    Ok(Outcome::Held(margin.tell(at, |w| says::charge(at, &asked, takes, wanted, w))))
}
