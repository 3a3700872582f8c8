//! A rule of the tests' own: it reads numbers in every way that there is, so that the laws never run idle.

use machine::{Found, Scale};
use quantity::{Quantity, m};
use rule::prelude::*;

#[derive(Debug)]
pub struct Probe;

static CARD: Card = Card::silent("probe", Area::WholeMachine);

fn held(demand: f64, capacity: f64) -> Outcome {
    let [demand, capacity] = [demand, capacity].map(<m::Ratio as quantity::Measure>::Q::from_si);
    let required = Required { value: 1.5, why: "it is a test" };
    Outcome::Held(Margin::ratio::<m::Ratio>(demand, capacity, required, Consequence::CheapPart))
}

/// Outside air of the case point, in kelvin.
fn air(at: &At) -> Found<f64> {
    let range = &at.machine().environment.air;
    let (low, high) = (at.need(&range.low)?.si(), at.need(&range.high)?.si());
    Ok(low + at.point().share * (high - low))
}

impl Rule for Probe {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for corner in &machine.suspension {
            let mut on = checks.on(&corner.key);
            on.check("straight", |at| {
                Ok(held(at.need(&corner.sprung_mass_each)?.si(), at.need(&corner.motion_ratio)?.si()))
            });
            // Which numbers are read depends on a number.
            on.check("branching", |at| {
                let travel = at.need(&corner.damper_travel)?.si();
                let other = if travel > 0.0452 {
                    at.need(&corner.unsprung_mass_each)?.si()
                } else {
                    at.need(&corner.preload.collar)?.si()
                };
                Ok(held(travel, other))
            });
            on.check("perhaps", |at| {
                let rate = at
                    .try_part(&corner.spring)
                    .and_then(|spring| at.try_get(&spring.rate))
                    .map_or(1.0, |rate| rate.si());
                Ok(held(rate, at.or(&corner.motion_ratio, &at.assumed().track_notch)?.si()))
            });
        }
        for material in &machine.materials {
            checks.on(&material.key).check("table", |at| {
                let table = at.part(&material.strength_at)?;
                let x = <m::Temperature as quantity::Measure>::Q::from_si(air(at)?);
                Ok(held(at.at(table, x, Scale::Linear, "the strength of the material")?.si(), 1.0))
            });
        }
        let mut on = checks.about("solutions", machine.machine.mass.id());
        on.check("surroundings", |at| Ok(held(at.surroundings()?.outside.si(), air(at)?)));
        on.check("drive", |at| {
            at.drive().map(|_| held(1.0, at.need(&at.machine().machine.mass).map_or(0.0, |mass| mass.si())))
        });
        on.check("coolant", |at| at.coolant().map(|_| held(1.0, 1.0)));
        on.check("temperatures", |at| at.temperatures().map(|_| held(1.0, 1.0)));
        on.check("landing", |at| at.landing().map(|landing| held(format!("{landing:?}").len() as f64, 1.0)));
        on.check("track", |at| at.track().map(|_| held(1.0, 1.0)));
        on.check("case", |at| {
            let case = at.case()?;
            Ok(held(
                at.or(&case.relative_humidity, &at.machine().environment.relative_humidity)?.si(),
                at.need(&at.machine().environment.altitude.high)?.si(),
            ))
        });
    }
}
