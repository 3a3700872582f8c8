#![no_std]
//! Vapour in the coolant, on hot walls and in the whole of it. It never knows: how a coolant loop is worked out, other
//! rules.

use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "coolant-boiling",
    area: Area::Cooling,
    question: "Does the coolant stay below boiling, on each hot wall and as a whole, at the pressure it really has there?",
    explains: "Where a wall is hotter than the coolant boils, vapour covers it and the wall gets hotter still; a little more \
               heat, and the pump moves foam. A loop boils sooner than the table says: on a mountain, in front of the pump's \
               inlet, and in a closed reservoir that was shut hot.",
    formula: "boiling point at the local absolute pressure − hottest wetted wall ≥ required; the same with the coolant that leaves \
              each element; wall = coolant + heat/(film·area), of a body's heat as far as it gets while the case lasts",
    source: "Boiling of water: IAPWS-IF97, eq. 31; published. Mixtures: Raoult's law with vapour pressures of Perry, 8th \
             edition, table 2-8; published. Film of a jacket and the reserve: common practice, no source.",
    checked: "water against the steam tables of the standard from 50 to 250 kPa; glycols and an even mixture against their normal \
              boiling points within 1.5 K; pure liquids between two points of their vapour pressure within 0.5 K. Heat is taken \
              as even over a wall: spots behind a winding are hotter, which the reserve has to cover. The reservoir's own \
              vapour pressure is left out, which is the safe side; a case shorter than the loop takes to \
              settle is judged where its heat capacity lets it get, from where the case before ended, else from the outside air; how \
              hot a wall gets without flow, or where coolant is hotter than its properties are known, is not judged.",
    required: "10 K (common practice)",
    caution: "A hot loop is under pressure: opened, it boils over at once and scalds. Let it cool before the lid comes off, and \
              never close a lid beyond the rating of reservoir and hoses to keep it from boiling.",
};

#[derive(Debug)]
pub struct CoolantBoiling;

impl Rule for CoolantBoiling {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        let cooling = &machine.cooling;
        for (index, element) in cooling.circuit.iter().enumerate() {
            let (Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate)) = element else {
                continue;
            };
            let mut on = checks.about(&plate.name, plate.zone.id());
            on.check("wall below boiling", |at| wall(at, plate, index));
        }
        if !cooling.circuit.is_empty() {
            checks.about("coolant", cooling.coolant.fluid.id()).check("coolant below boiling", bulk);
        }
    }
}

const REQUIRED: Required = Required { value: 10.0, why: "heat is not spread evenly" };

/// What the loop does in this case, as far as boiling goes.
enum Runs<'a> {
    Moving(&'a Circuit),
    /// The pump rests until the coolant has this.
    Waiting(&'a Circuit, ThermodynamicTemperature),
    Cold,
}

fn runs<'a>(at: &At<'a>) -> Found<Runs<'a>> {
    let case = at.case()?;
    if !case.kind.heats() {
        return Ok(Runs::Cold);
    }
    let circuit = at.coolant()?.at_end();
    if let Some(gap) = &circuit.pressure_unknown {
        return Err(gap.clone());
    }
    if circuit.running {
        return Ok(Runs::Moving(circuit));
    }
    if at.try_part(&case.heat) == Some(&false) {
        return Ok(Runs::Cold);
    }
    let pump = &at.machine().cooling.pump;
    if !circuit.stalled
        && at.try_part(&case.pump).is_none()
        && at.try_part(&pump.runs) == Some(&PumpControl::AboveTemperature)
    {
        return Ok(Runs::Waiting(circuit, at.need(&pump.starts_above)?));
    }
    Err(NotJudged::NoSolution("the coolant stands still while it is heated: how hot it gets is to be measured".into()))
}

const COLD: Outcome = Outcome::Aside("nothing heats the coolant in this case, or not for long");
const WAITS: Outcome = Outcome::Aside("the pump waits for warm coolant, which is judged as a whole");

/// Hottest wall that the coolant wets.
#[derive(Clone, Copy)]
struct Wall {
    hot: ThermodynamicTemperature,
    /// Where it would settle, if that is hotter: the case is over before.
    settles: Option<ThermodynamicTemperature>,
    /// Through it where it has settled; what the body gives to the air does not come here.
    heat: Option<Power>,
}

/// The wall of the thermal network where it cools a body of that, so that none is hotter than what heats it; else the loop's.
fn hottest_wall(at: &At, plate: &Plate, index: usize, element: &ElementState) -> Found<Wall> {
    if matches!(plate.cools, Some(Cooled::Motor | Cooled::Controller))
        && let Ok(thermal) = at.thermal()
        && let Some(Some(Ok(course))) = thermal.walls.get(index)
    {
        let hot = course.hottest();
        let settles = course.settles().filter(|settles| difference(*settles, hot).si() > WORTH_TELLING);
        let face = thermal.settled.iter().flat_map(|settled| &settled.faces).find(|face| face.element == index);
        let heat = face.filter(|_| settles.is_none()).map(|face| face.heat);
        return Ok(Wall { hot, settles, heat });
    }
    let loop_has = Wall { hot: element.wetted.1, settles: None, heat: Some(element.heat) };
    if at.try_part(&plate.channel).is_some() || element.heat <= Power::ZERO {
        return Ok(loop_has);
    }
    let hotter = if element.outlet > element.inlet { element.outlet } else { element.inlet };
    let film = thermal::film(at, plate, Some(element))?;
    Ok(Wall { hot: hotter + element.heat / film, ..loop_has })
}

/// Less is not worth a second figure, K.
const WORTH_TELLING: f64 = 1.0;

fn margin(hot: ThermodynamicTemperature, boils: ThermodynamicTemperature) -> Margin {
    let yardstick = TemperatureInterval::from_si(20.0);
    Margin::gap::<m::Temperature, m::TemperatureDifference>(hot, boils, yardstick, REQUIRED, Consequence::RunOver)
}

fn wall(at: &At, plate: &Plate, index: usize) -> Found<Outcome> {
    let circuit = match runs(at)? {
        Runs::Moving(circuit) => circuit,
        Runs::Waiting(..) => return Ok(WAITS),
        Runs::Cold => return Ok(COLD),
    };
    let Some(element) = circuit.elements.get(index) else {
        return Err(NotJudged::NoSolution("this element of the circuit is not worked out".into()));
    };
    let wall = hottest_wall(at, plate, index, element)?;
    let boils = liquid::boils(at, element.pressure)?;
    let settled = |settles: &Circuit| settles.elements.get(index).map(|there| there.wetted.1);
    let later = later(at, settled)?;
    Ok(Outcome::Held(says::wall(at, plate, element, (&wall, later.as_ref()), margin(wall.hot, boils))))
}

/// What would come if a short case went on.
struct Later {
    lasts: Time,
    settles_in: Time,
    /// Nothing where it would get hotter than is known.
    hot: Option<ThermodynamicTemperature>,
}

fn later(at: &At, hot: impl Fn(&Circuit) -> Option<ThermodynamicTemperature>) -> Found<Option<Later>> {
    let coolant = at.coolant()?;
    Ok(coolant.short.as_ref().map(|short| {
        let hot = if short.beyond.is_some() { None } else { hot(&coolant.driven) };
        Later { lasts: short.lasts, settles_in: short.settles_in, hot }
    }))
}

/// Where the loop is nearest to boiling.
struct Nearest {
    index: usize,
    outlet: ThermodynamicTemperature,
    boils: ThermodynamicTemperature,
    pressure: Pressure,
}

fn nearest(at: &At, circuit: &Circuit) -> Found<Nearest> {
    let mut nearest: Option<Nearest> = None;
    for (index, element) in circuit.elements.iter().enumerate() {
        let boils = liquid::boils(at, element.pressure)?;
        let left = difference(boils, element.outlet);
        if nearest.as_ref().is_none_or(|other| left < difference(other.boils, other.outlet)) {
            nearest = Some(Nearest { index, outlet: element.outlet, boils, pressure: element.pressure });
        }
    }
    nearest.ok_or_else(|| NotJudged::NoSolution("the coolant circuit is empty".into()))
}

/// A loop that settles hotter than the properties of its coolant are known: against boiling under the lid's own pressure.
fn overheated(at: &At, gap: NotJudged) -> Found<Outcome> {
    let hot = match gap {
        NotJudged::OutsideRange { unit: "K", to, was, .. } if was > to => ThermodynamicTemperature::from_si(was),
        NotJudged::OutsideRange { unit: "°C", to, was, .. } if was > to => celsius(was),
        gap => return Err(gap),
    };
    let outside = at.surroundings()?.pressure;
    let lid = at.part(&at.machine().cooling.reservoir.lid)?;
    let pressure = match lid.closes {
        LidKind::Vented => outside,
        LidKind::Closed => outside + at.need(&lid.pressure_max)?,
    };
    let boils = liquid::boils(at, pressure)?;
    Ok(Outcome::Held(says::overheated(at, pressure, margin(hot, boils))))
}

fn bulk(at: &At) -> Found<Outcome> {
    let (circuit, starts) = match runs(at) {
        Ok(Runs::Moving(circuit)) => (circuit, None),
        Ok(Runs::Waiting(circuit, starts)) => (circuit, Some(starts)),
        Ok(Runs::Cold) => return Ok(COLD),
        Err(gap) => return overheated(at, gap),
    };
    let nearest = nearest(at, circuit)?;
    // At rest the coolant gets as warm as the pump lets it.
    let hot = starts.unwrap_or(nearest.outlet);
    let later = later(at, |settles| settles.elements.get(nearest.index).map(|there| there.outlet))?;
    Ok(Outcome::Held(says::bulk(at, &nearest, starts.is_some(), margin(hot, nearest.boils), later.as_ref())))
}
