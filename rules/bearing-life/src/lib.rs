#![no_std]
//! Rolling bearings on shafts: blows, cold grease, and how long they last. It never knows: how their rings sit, what the shaft
//! carries, other rules.

use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "bearing-life",
    area: Area::Powertrain,
    question: "Does each rolling bearing take the blows, turn in the cold, and last the season?",
    explains: "A blow presses the balls into their tracks: the bearing runs rough from then on, and a ceramic one cracks. Grease that \
               is too stiff for the cold leaves it dry. Life by load comes last: grit, rust and dents end most of them first.",
    formula: "s0 = C0/P0, P0 = radial force; grease: coldest air against its lower limit; L10h = (C/P)³·10⁶/(60·n); C and C0 off the \
              maker's page, else from the size",
    source: "ISO 76:2006, ISO 281:2007, published; size and number of balls, required reserves: common practice, no source",
    checked: "lives by a table of ten digits; ratings from the size within a sixth of printed ones. The shaft's forces by \
              equilibrium and beam elements. Thrust of slanting teeth, cornering, tilt, grit and rust are not counted, which errs to \
              the unsafe side.",
    required: "static 1.5, in a blow 2, ceramic rings or balls 3; life 1 season (common practice)",
    caution: "",
};

#[derive(Debug)]
pub struct BearingLife;

impl Rule for BearingLife {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for bearing in machine.powertrain.bearings.iter() {
            let Bearing::Rolling(rolling) = &bearing.value else { continue };
            let mut on = checks.on(&bearing.key);
            on.check("blow", |at| blow(bearing, rolling, at));
            on.check("grease", |at| grease(bearing, rolling, at));
            on.check("life", |at| life(bearing, rolling, at));
        }
    }
}

const STILL: Outcome = Outcome::Aside("nothing loads its shaft in this case");

/// Radial force and speed; nothing where nothing is driven.
fn loaded<'a>(bearing: &Named<Bearing>, at: &At<'a>) -> Found<Option<(Force, &'a loads::ShaftLoads)>> {
    let Some((shaft, station)) = loads::seat_of(at, bearing) else {
        return Err(NotJudged::NoSolution("no shaft carries it: write it at a station of one, with `bearing:`".into()));
    };
    let Some(load) = loads::shaft(at, shaft)? else { return Ok(None) };
    let force = load.bearings.iter().find(|found| found.0 == station).map(|found| found.1);
    Ok(force.map(|force| (force, load)))
}

/// C and C0, and whether they come from the size alone.
fn ratings(rolling: &RollingBearing, at: &At<'_>) -> Found<(Force, Force, bool)> {
    let size = quantity::read_bearing(&rolling.size).map_err(|_| {
        NotJudged::NoSolution(format!(
            "the size `{}` is not a deep-groove ball bearing that is known here",
            rolling.size
        ))
    });
    let given = (at.try_get(&rolling.rating), at.try_get(&rolling.static_rating));
    if let (Some(c), Some(c0)) = given {
        return Ok((c, c0, false));
    }
    let size = size?;
    let (c, c0) = physics::bearing_life::ratings_from_size(size.bore, size.outer);
    Ok((at.or_take(&rolling.rating, c, "from its size"), at.or_take(&rolling.static_rating, c0, "from its size"), true))
}

fn brittle(rolling: &RollingBearing) -> bool {
    rolling.rings.as_deref().is_some_and(|rings| rings.contains("ceramic") || rings.contains("nitride"))
}

fn blow(bearing: &Named<Bearing>, rolling: &RollingBearing, at: &At<'_>) -> Found<Outcome> {
    let Some((force, load)) = loaded(bearing, at)? else { return Ok(STILL) };
    let (_, rating, guessed) = ratings(rolling, at)?;
    let required = if brittle(rolling) {
        Required { value: 3.0, why: "ceramic cracks where steel only dents" }
    } else if load.seldom {
        Required { value: 2.0, why: "a blow dents its tracks" }
    } else {
        Required { value: 1.5, why: "uneven driving" }
    };
    let equivalent = physics::bearing_life::static_load(force, Force::ZERO);
    let margin = Margin::ratio::<m::Force>(equivalent, rating, required, Consequence::RunOver);
    Ok(Outcome::Held(says::blow(bearing, rolling, at, guessed, margin)))
}

fn grease(bearing: &Named<Bearing>, rolling: &RollingBearing, at: &At<'_>) -> Found<Outcome> {
    let kind = at.case()?.kind;
    if !(kind.starts_cold() || kind.travels() || kind.launches()) {
        return Ok(Outcome::Aside("it does not begin to turn in this case"));
    }
    let index = at.machine().powertrain.bearings.iter().position(|other| other.id() == bearing.id());
    let here = match index.and_then(|index| at.temperatures().map(|all| all.bearings.get(index)).transpose()) {
        Some(here) => here?.clone()?,
        None => return Err(NotJudged::NoSolution("no air is known round this bearing".into())),
    };
    let lowest = at.need(&rolling.grease_from)?;
    let required = Required { value: 0.0, why: "the label's own limit" };
    let margin = Margin::gap::<m::Temperature, m::TemperatureDifference>(
        lowest,
        here,
        TemperatureInterval::from_si(10.0),
        required,
        Consequence::RunOver,
    );
    Ok(Outcome::Held(says::grease(bearing, rolling, at, margin)))
}

fn life(bearing: &Named<Bearing>, rolling: &RollingBearing, at: &At<'_>) -> Found<Outcome> {
    if loads::seat_of(at, bearing).is_none() {
        return Ok(Outcome::Aside("no shaft carries it: its load is not known"));
    }
    let Some((force, load)) = loaded(bearing, at)? else { return Ok(STILL) };
    if at.case()?.kind.recorded() {
        return Ok(Outcome::Aside("the hardest pull of a recorded run came seldom; the steady cases are judged"));
    }
    if load.seldom || load.speed == AngularVelocity::ZERO {
        return Ok(Outcome::Aside("it hardly turns in this case"));
    }
    let (rating, _, guessed) = ratings(rolling, at)?;
    let turns = physics::bearing_life::rating_life(physics::bearing_life::Rolling::Ball, rating, force);
    let lasts = physics::bearing_life::in_time(turns, load.speed, Ratio::from_si(1.0));
    let season = at.need(&at.part(&at.machine().service.season)?.hours)?;
    let wanted = Time::from_si(season.si() * SECONDS_PER_HOUR);
    let required = Required { value: 1.0, why: "a season" };
    let margin = Margin::ratio::<m::Duration>(wanted, lasts, required, Consequence::CheapPart);
    Ok(Outcome::Held(says::life(bearing, rolling, at, guessed, force, margin)))
}

const SECONDS_PER_HOUR: f64 = 3600.0;
