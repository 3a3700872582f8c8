#![no_std]
//! Does the wire of a spring take its landing, and a season of bumps? It never knows: how a landing is worked out, whether
//! the coils touch, other rules.

use physics::landing::weight;
use physics::spring::{bergstrasser_factor, index, shear_stress};
use physics::spring_limits::{Surface, endurance_reserve, permissible_shear};
use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "spring-stress",
    area: Area::Suspension,
    question: "Does the wire of each spring take the deepest landing, and a season of bumps?",
    explains: "A spring stressed beyond its limit sets: it gets shorter for good, the machine sags and bottoms. Stressed less but \
               often, it cracks from the inside of a coil after some hundred thousand bumps. A small coil of thick wire is \
               stressed far more than a wide one of the same rate. A long spring that nothing guides bows out sideways.",
    formula: "τ = 8·F·D/(π·d³) at the landing's travel ≤ 0.56·R_m; with the factor of curvature, between preload and one and a half times the \
              standing load, by Goodman's line through Zimmerli's points; travel ≤ the deflection at which it buckles",
    source: "EN 13906-1 (stress, permissible stress, factor, buckling): formulas published, 0.56·R_m and buckling from memory. \
             Zimmerli's points: Shigley, ch. 10, published, from memory. One and a half times the standing load for ordinary bumps: common practice.",
    checked: "a textbook spring from memory (Shigley, example 10-1); buckling of a long spring against Euler; by hand. R_m is \
              the material's: that of the catalogue stands for 4 mm, thinner wire takes a little more and thicker a little \
              less. Rust halves the season's figure and is not counted.",
    required: "1.2 in a landing and against buckling, 1.2 over a season (common practice)",
    caution: "A spring that breaks under preload flies: cover it, and wear eye protection.",
};

const REQUIRED: f64 = 1.2;
/// What a wheel on ordinary bumps puts on its spring, over what it carries standing. Common practice.
const BUMPS: f64 = 1.5;

#[derive(Debug)]
pub struct SpringStress;

impl Rule for SpringStress {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for (index, corner) in machine.suspension.iter().enumerate() {
            let strut = Strut { index, corner };
            let mut on = checks.on(&corner.key);
            on.check("stress when landing", |at| strut.judge_landing(at));
            on.check("bumps of a season", |at| strut.judge_season(at));
            on.check("buckling when landing", |at| strut.judge_buckling(at));
        }
    }
}

struct Strut<'a> {
    index: usize,
    corner: &'a Named<Corner>,
}

const NOT_LANDED: Outcome = Outcome::Aside("nothing lands on this corner");

/// The wire, and how hard the spring is.
struct Wire {
    rate: SpringRate,
    diameter: Length,
    mean: Length,
    strength: Pressure,
}

impl Wire {
    /// Without the factor of curvature, which slow and rare loads do not feel.
    fn stress(&self, force: Force) -> Pressure {
        shear_stress(force, self.diameter, self.mean, Ratio::from_si(1.0))
    }
    fn at_the_inside(&self, force: Force) -> Pressure {
        shear_stress(force, self.diameter, self.mean, bergstrasser_factor(index(self.diameter, self.mean)))
    }
}

impl Strut<'_> {
    fn wire(&self, at: &At) -> Found<Wire> {
        let spring = at.part(&self.corner.spring)?;
        let material = at.machine().follow(at.part(&spring.material)?);
        Ok(Wire {
            rate: at.spring_rate(spring)?,
            diameter: at.need(&spring.wire)?,
            mean: at.need(&spring.mean_diameter)?,
            strength: at.need(&material.tensile_strength)?,
        })
    }

    /// By how much the deepest point of this landing presses the spring together, its collar counted in, but no further than
    /// its coils let it.
    fn pressed(&self, at: &At) -> Found<Option<Length>> {
        if !at.case()?.kind.lands() {
            return Ok(None);
        }
        let landed = match at.landing()?.corners.get(self.index) {
            Some(Ok(corner)) if corner.force == Force::ZERO => return Ok(None),
            Some(Ok(corner)) => corner,
            Some(Err(gap)) => return Err(gap.clone()),
            None => return Ok(None),
        };
        let spring = at.part(&self.corner.spring)?;
        let pressed = at.need(&self.corner.preload.collar)? + landed.damper_travel;
        let Some(free) = at.try_get(&spring.free_length) else { return Ok(Some(pressed)) };
        let room = free - landing::solid_length(at, spring)?;
        Ok(Some(if pressed > room { room } else { pressed }))
    }

    fn judge_landing(&self, at: &At) -> Found<Outcome> {
        let Some(pressed) = self.pressed(at)? else { return Ok(NOT_LANDED) };
        let wire = self.wire(at)?;
        let (stress, limit) = (wire.stress(wire.rate * pressed), permissible_shear(wire.strength));
        let required = Required { value: REQUIRED, why: "wire and coils as wound" };
        let margin = Margin::ratio::<m::Stress>(stress, limit, required, Consequence::RunOver);
        Ok(Outcome::Held(says::landing(self, at, &wire, pressed, margin)))
    }

    fn judge_season(&self, at: &At) -> Found<Outcome> {
        let wire = self.wire(at)?;
        let (standing, collar) = (landing::standing(at)?, at.need(&self.corner.preload.collar)?);
        let carries = standing.get(self.index).copied().unwrap_or(Mass::ZERO);
        let ratio = at.need(&self.corner.motion_ratio)?;
        let low = wire.rate * collar;
        let bump = weight(carries) * BUMPS / ratio.si();
        // Less than the preload moves nothing.
        let high = if bump > low { bump } else { low };
        let (lower, upper) = (wire.at_the_inside(low), wire.at_the_inside(high));
        let reserve = endurance_reserve(lower, upper, wire.strength, Surface::AsDrawn);
        let required = Required { value: REQUIRED, why: "wire as drawn, neither peened nor rusty" };
        let margin = Margin::ratio::<m::Stress>(upper, upper * reserve.si(), required, Consequence::CheapPart);
        Ok(Outcome::Held(says::season(self, at, (lower, upper), margin)))
    }

    fn judge_buckling(&self, at: &At) -> Found<Outcome> {
        let Some(pressed) = self.pressed(at)? else { return Ok(NOT_LANDED) };
        if !matches!(at.part(&self.corner.damper)?, Damper::None) {
            return Ok(Outcome::Aside("the damper inside guides this spring"));
        }
        let Some(limit) = landing::buckles_at(at, at.part(&self.corner.spring)?)? else {
            return Ok(Outcome::Aside("so short and wide a spring cannot buckle"));
        };
        let required = Required { value: REQUIRED, why: "seats are never quite flat" };
        let margin = Margin::ratio::<m::Distance>(pressed, limit, required, Consequence::RunOver);
        Ok(Outcome::Held(says::buckling(self, at, margin)))
    }
}
