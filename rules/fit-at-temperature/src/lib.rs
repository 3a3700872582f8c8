#![no_std]
//! Seats of rolling bearings from the coldest to the hottest: stretched in the cold, loose in the heat. It never knows: what the
//! bearing carries, how long it lasts, other rules.

use physics::press_fit::{Body, PressFit};
use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "fit-at-temperature",
    area: Area::Powertrain,
    question: "Does each pressed bearing seat neither split in the cold nor let go in the heat?",
    explains: "A seat of plastic or light metal shrinks more than the bearing's ring. In the cold it is stretched round it until it \
               splits; in the heat, and once a plastic has relaxed, the ring turns in it and grinds it out.",
    formula: "interference left δ − (αseat − αring)·ΔT·d; plastic: strain left/d against 0.5 % printed, 1 % moulded; metal: Lamé's \
              pull at the bore against yield; hot: what is left, of a plastic half, above zero",
    source: "Lamé; DIN 7190-1; Shigley, ch. 3, published; strain limits, half after weeks: common practice, no source",
    checked: "press fits by a table of ten digits; both bodies take up the interference together. The seat is taken as thick and the \
              ring as stiff, which errs to the safe side for a split; roughness that is pressed flat is left out, and moisture \
              counts as growth of the seat.",
    required: "1 against splitting; hot 0: it must not come loose (common practice)",
    caution: "",
};

#[derive(Debug)]
pub struct FitAtTemperature;

impl Rule for FitAtTemperature {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for bearing in machine.powertrain.bearings.iter() {
            let Bearing::Rolling(rolling) = &bearing.value else { continue };
            let Some(seat) = rolling.seat.there().filter(|seat| pressed(machine, seat)) else { continue };
            let mut on = checks.on(&bearing.key);
            on.check("seat splits", |at| splits(bearing, rolling, seat, at));
            on.check("seat lets go", |at| lets_go(bearing, rolling, seat, at));
        }
    }
}

/// Pressed in, by its fit or by its interference.
fn pressed(machine: &Machine, seat: &Seat) -> bool {
    machine.is_given(&seat.interference) || seat.fit.as_deref().is_some_and(|fit| fit.contains("press"))
}

/// The seat in this case.
struct Fit<'a> {
    material: &'a Named<Material>,
    /// On the diameter, as cold and wet as the seat is.
    left: Length,
    diameter: Length,
    here: ThermodynamicTemperature,
    fit: PressFit,
    warmer: TemperatureInterval,
}

fn soft(material: &Material) -> bool {
    matches!(material.family, Family::PrintedPolymer | Family::Polymer | Family::Wood)
}

fn body(material: &Material, at: &At<'_>) -> Found<Body> {
    Ok(Body {
        modulus: at.need(&material.modulus)?,
        poisson: at.need(&material.poisson)?,
        expansion: at.need(&material.expansion)?,
    })
}

/// A seat is taken as so many times as large outside as its bore: thick.
const THICK: f64 = 10.0;

fn fit<'a>(bearing: &Named<Bearing>, rolling: &RollingBearing, seat: &Seat, at: &At<'a>) -> Found<Fit<'a>> {
    let size = quantity::read_bearing(&rolling.size).map_err(|_| {
        NotJudged::NoSolution(format!(
            "the size `{}` is not a deep-groove ball bearing that is known here",
            rolling.size
        ))
    })?;
    let material = at.machine().follow(at.part(&at.machine().follow(&seat.part).value.material)?);
    let index = at.machine().powertrain.bearings.iter().position(|other| other.id() == bearing.id());
    let here = match index.and_then(|index| at.temperatures().map(|all| all.bearings.get(index)).transpose()) {
        Some(here) => here?.clone()?,
        None => return Err(NotJudged::NoSolution("no air is known round this bearing".into())),
    };
    let assembled = at.or(&at.machine().environment.assembled_at, &at.assumed().assembled_at)?;
    let ring = Body {
        modulus: at.need(&at.assumed().screw_modulus)?,
        poisson: Ratio::from_si(RING_POISSON),
        expansion: at.need(&at.assumed().screw_expansion)?,
    };
    let outer = body(material, at)?;
    let swollen = size.outer * strength::swelling(at, material)?.si();
    let interference = at.need(&seat.interference)? - swollen;
    let fit = PressFit {
        diameter: size.outer,
        bore: size.outer * RING_SHARE,
        outside: size.outer * THICK,
        inner: ring,
        outer,
        interference,
    };
    let warmer = difference(here, assembled);
    Ok(Fit { material, left: fit.left(warmer), diameter: size.outer, here, fit, warmer })
}

/// Of steel.
const RING_POISSON: f64 = 0.3;
/// Raceway of an outer ring over its outside.
const RING_SHARE: f64 = 0.87;

fn splits(bearing: &Named<Bearing>, rolling: &RollingBearing, seat: &Seat, at: &At<'_>) -> Found<Outcome> {
    let fit = fit(bearing, rolling, seat, at)?;
    let left = if fit.left > Length::ZERO { fit.left } else { Length::ZERO };
    let margin = if soft(fit.material) {
        let printed = fit.material.family == Family::PrintedPolymer;
        let required = Required { value: 1.0, why: "a strain that plastic takes for years" };
        let limit = Ratio::from_si(if printed { 0.005 } else { 0.01 });
        Margin::ratio::<m::Growth>(left / fit.diameter, limit, required, Consequence::RunOver)
    } else {
        let pressure = fit.fit.pressure(fit.warmer);
        let required = Required { value: 1.0, why: "it may not stretch for good" };
        let limit = at.need(&fit.material.yield_strength)? * strength::warmth(at, fit.material, fit.here)?;
        Margin::ratio::<m::Stress>(fit.fit.hub_hoop(pressure), limit, required, Consequence::RunOver)
    };
    Ok(Outcome::Held(says::splits(bearing, seat, at, left, fit.here, margin)))
}

/// What a plastic seat has left of its grip after some weeks.
const RELAXED: f64 = 0.5;

fn lets_go(bearing: &Named<Bearing>, rolling: &RollingBearing, seat: &Seat, at: &At<'_>) -> Found<Outcome> {
    let fit = fit(bearing, rolling, seat, at)?;
    // It relaxes at rest, and grows with warmth all the same.
    let kept = if soft(fit.material) { RELAXED } else { 1.0 };
    let lost = fit.fit.interference - fit.left;
    let lost = if lost > Length::ZERO { lost } else { Length::ZERO };
    let required = Required { value: 0.0, why: "it holds as long as anything is left" };
    let margin = Margin::gap::<m::Distance, m::Distance>(
        lost,
        fit.fit.interference * kept,
        Length::from_si(HUNDREDTH),
        required,
        Consequence::RunOver,
    );
    Ok(Outcome::Held(says::lets_go(bearing, seat, at, kept, fit.here, margin)))
}

/// A hundredth of a millimetre counts as all of what one wants to have left.
const HUNDREDTH: f64 = 1e-5;
