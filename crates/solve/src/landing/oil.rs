//! What a damper resists with in the air of a case: its oil by the law of its kind, and what is known of its valves.

use super::leg::Damping;
use crate::at::At;
use crate::drive::outside;
use machine::{CurveDamper, Damper, Found, NotJudged, OilDamper, OilKind, SinkTest, SinkTestDamper};
use physics::damping::{Law, rate_between, rate_from_sinking};
use quantity::*;

/// A damper in the air of a case.
#[derive(Debug, Clone, PartialEq)]
pub enum Resistance {
    /// No damper.
    None,
    Flows {
        /// Pushed in.
        bump: Law,
        /// On the way out.
        rebound: Law,
    },
    /// Its oil is below its pour point, or it did not move in a test at least as warm.
    Gelled,
}

impl Resistance {
    /// Force (N) with which it resists being pushed in at a speed; infinite where it does not flow.
    #[must_use]
    pub fn force_at(&self, speed: Velocity) -> Force {
        Force::from_si(match self {
            Self::None => 0.0,
            Self::Flows { bump, .. } => bump.force(speed.si().abs()),
            Self::Gelled => f64::INFINITY,
        })
    }

    /// Time in which it lets a spring come back, c/k; infinite where it does not flow.
    #[must_use]
    pub fn return_time(&self, rate: SpringRate) -> Time {
        match self {
            Self::None => Time::ZERO,
            Self::Flows { rebound, .. } => physics::damper::return_time(rebound.at_rest(), rate),
            Self::Gelled => Time::from_si(f64::INFINITY),
        }
    }

    /// For the motion; a gelled one is left out there, and solved as a rod beside it.
    pub(super) fn damping(&self) -> Damping {
        match self {
            Self::None | Self::Gelled => Damping::None,
            Self::Flows { bump, rebound } => Damping::Flows { bump: bump.clone(), rebound: rebound.clone() },
        }
    }
}

/// What a damper resists with when it is as cold as the air of the case.
///
/// # Errors
/// A gap, an oil or a curve outside its range.
pub fn resistance(at: &At, damper: &Damper) -> Found<Resistance> {
    match damper {
        // What is not there does not ask how cold it is.
        Damper::None => Ok(Resistance::None),
        _ => resistance_at(at, damper, at.surroundings()?.outside),
    }
}

/// What a damper with holes would resist with, were its holes so wide.
///
/// # Errors
/// As [`resistance`].
pub fn with_holes(
    at: &At,
    damper: &OilDamper,
    hole_diameter: Length,
    temperature: ThermodynamicTemperature,
) -> Found<Resistance> {
    of_holes(at, damper, Some(hole_diameter), temperature)
}

/// The same at any temperature.
///
/// # Errors
/// As [`resistance`].
pub fn resistance_at(at: &At, damper: &Damper, temperature: ThermodynamicTemperature) -> Found<Resistance> {
    match damper {
        Damper::None => Ok(Resistance::None),
        Damper::Oil(damper) => of_holes(at, damper, None, temperature),
        Damper::Curve(damper) => of_curve(at, damper, temperature),
        Damper::SinkTest(damper) => of_tests(at, damper, temperature),
    }
}

fn of_holes(
    at: &At,
    damper: &OilDamper,
    drilled: Option<Length>,
    temperature: ThermodynamicTemperature,
) -> Found<Resistance> {
    let oil = at.machine().follow(at.part(&damper.oil)?);
    let Some((viscosity, density)) = dynamic(at, oil, temperature)? else { return Ok(Resistance::Gelled) };
    let drawn = valving(at, damper)?;
    let valving = physics::damper::Valving { hole_diameter: drilled.unwrap_or(drawn.hole_diameter), ..drawn };
    let rebound = physics::damper::Valving {
        holes: at.try_get(&damper.rebound_holes).filter(|holes| holes.si() > 0.0).unwrap_or(valving.holes),
        ..valving
    };
    let law = |valving| Law::holes(valving, viscosity, density);
    Ok(Resistance::Flows { bump: law(&valving), rebound: law(&rebound) })
}

/// How far from the curve's own temperature it counts as taken.
const AS_TAKEN: f64 = 10.0;

fn of_curve(at: &At, damper: &CurveDamper, temperature: ThermodynamicTemperature) -> Found<Resistance> {
    let taken = at.need(&damper.measured_at)?;
    let apart = difference(temperature, taken).si();
    // Without an oil the curve counts near its own temperature and nowhere else.
    let factor = if at.try_part(&damper.oil).is_none() && apart.abs() <= AS_TAKEN {
        1.0
    } else {
        let oil = at.machine().follow(at.part(&damper.oil)?);
        let Some((here, _)) = dynamic(at, oil, temperature)? else { return Ok(Resistance::Gelled) };
        let Some((then, _)) = dynamic(at, oil, taken)? else {
            return Err(NotJudged::NoSolution("the damper's oil did not flow when its curve was taken".into()));
        };
        here.si() / then.si()
    };
    let law = |curve: machine::Points<'_, m::Speed, m::Force>| -> Found<Law> {
        let mut points = Vec::with_capacity(curve.len());
        for (speed, force) in curve {
            points.push((at.need(speed)?, at.need(force)?));
        }
        Law::points(&points, Ratio::from_si(factor)).map_err(outside)
    };
    let bump = law(at.part(&damper.bump)?.points())?;
    let rebound = match at.try_part(&damper.rebound) {
        Some(curve) => law(curve.points())?,
        None => bump.clone(),
    };
    Ok(Resistance::Flows { bump, rebound })
}

fn of_tests(at: &At, damper: &SinkTestDamper, temperature: ThermodynamicTemperature) -> Found<Resistance> {
    let test = |test: &SinkTest| -> Found<(ThermodynamicTemperature, DampingRate)> {
        let (weight, sank) = (at.need(&test.weight)?, at.need(&test.sinks)?);
        Ok((at.need(&test.at)?, rate_from_sinking(weight, sank, at.need(&test.within)?)))
    };
    let (cold, warm) = (test(&damper.cold)?, test(&damper.warm)?);
    if !warm.1.si().is_finite() {
        return Err(NotJudged::NoSolution("a damper that does not move even warm tells nothing".into()));
    }
    let rate = if cold.1.si().is_finite() {
        rate_between(cold, warm, temperature).map_err(outside)?
    } else if temperature.si() <= cold.0.si() {
        return Ok(Resistance::Gelled);
    } else if difference(warm.0, temperature).si().abs() <= AS_TAKEN {
        warm.1
    } else {
        return Err(NotJudged::NoSolution(
            "the damper stood still in its cold test: where between that and the warm one it begins to move is open"
                .into(),
        ));
    };
    let law = Law::steady(rate);
    Ok(Resistance::Flows { bump: law.clone(), rebound: law })
}

/// Dynamic viscosity and density of an oil; nothing below its pour point.
fn dynamic(
    at: &At,
    oil: &machine::Oil,
    temperature: ThermodynamicTemperature,
) -> Found<Option<(DynamicViscosity, MassDensity)>> {
    let pour_point = at.need(&oil.pour_point)?;
    if temperature.si() < pour_point.si() {
        return Ok(None);
    }
    let kinematic = kinematic(at, oil, temperature, pour_point)?;
    let stated = at.need(&oil.density)?;
    // Densities of oils are stated at 15 °C.
    let density = match at.try_get(&oil.expansion) {
        Some(expansion) => physics::oil::density(stated, celsius(15.0), expansion, temperature),
        None => stated,
    };
    Ok(Some((physics::oil::dynamic_viscosity(kinematic, density), density)))
}

/// By the law of the oil's kind, from its pour point up.
pub(super) fn kinematic(
    at: &At,
    oil: &machine::Oil,
    temperature: ThermodynamicTemperature,
    pour_point: ThermodynamicTemperature,
) -> Found<KinematicViscosity> {
    let reading = |degrees: f64, viscosity: &machine::Given<m::KinematicViscosity>| -> Found<physics::oil::Reading> {
        Ok(physics::oil::Reading { temperature: celsius(degrees), viscosity: at.need(viscosity)? })
    };
    let found = match oil.kind {
        OilKind::Silicone => {
            let law = match at.try_get(&oil.viscosity_25) {
                Some(label) => {
                    physics::oil::Silicone::from_label(label, Ratio::from_si(physics::oil::SILICONE_COEFFICIENT))
                }
                None => physics::oil::Silicone::through(
                    reading(40.0, &oil.viscosity_40)?,
                    reading(100.0, &oil.viscosity_100)?,
                ),
            };
            law.and_then(|law| law.viscosity(temperature, pour_point))
        }
        OilKind::Mineral | OilKind::Ester => {
            physics::oil::Mineral::through(reading(40.0, &oil.viscosity_40)?, reading(100.0, &oil.viscosity_100)?)
                .and_then(|law| law.viscosity(temperature, pour_point))
        }
    };
    found.map_err(outside)
}

fn valving(at: &At, damper: &OilDamper) -> Found<physics::damper::Valving> {
    let valving = physics::damper::Valving {
        bore: at.need(&damper.bore)?,
        rod: at.need(&damper.rod)?,
        holes: at.need(&damper.holes)?,
        hole_diameter: at.need(&damper.hole_diameter)?,
        hole_length: at.need(&damper.piston_thickness)?,
    };
    if valving.holes.si() > 0.0 && valving.hole_diameter.si() > 0.0 && valving.bore.si() > valving.rod.si() {
        return Ok(valving);
    }
    Err(NotJudged::NoSolution(
        "no oil can pass this damper's piston: it has no holes, or a rod as thick as its bore".into(),
    ))
}
