#![no_std]
//! Does an oil damper lock in the cold, or hold the spring down? It never knows: the laws of oils, how a landing is worked
//! out, other rules.

use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "damper-cold",
    area: Area::Suspension,
    question: "Does a damper still move in the cold, or has it become a rod?",
    explains: "Oil thickens in the cold and gels below its pour point. A damper that hardly moves hands the whole landing to its \
               mounts, as a rod would; one that comes out too slowly lets the spring sink further with each bump until it \
               rides on its stop. A damper that works on the bench may do both at −25 °C. No damper at all is a normal choice.",
    formula: "locks: force of the damper at the speed of touch-down ≤ the mount's strength, or ≤ twice the spring at the end of \
              its stroke where no mount was tested; below the pour point the force of a rod as stiff as its mount. Packs \
              down: c/k ≤ 0.3 s",
    source: "Hagen–Poiseuille with Sampson's ends, published; mineral oil by ASTM D341, published, from memory; silicone by \
             its own law, common practice. The two limits and 0.3 s between bumps: common practice, no source.",
    checked: "a stroke by hand; a table of 288 points of sixteen mineral oils; a curve, and two sinking tests, that give the \
              same damper. Left out, and on the unsafe side: oil thicker near its pour point than D341 says, a stiff seal. On \
              the safe side: leak past the piston, warming by work.",
    required: "1.2: oils of one name differ by a fifth (common practice)",
    caution: "",
};

/// Time from one bump to the next on rough ground at a walk. Common practice.
const BETWEEN_BUMPS: f64 = 0.3;
const REQUIRED: f64 = 1.2;
const WHY: &str = "oils of one name differ by a fifth";

#[derive(Debug)]
pub struct DamperCold;

impl Rule for DamperCold {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for (index, corner) in machine.suspension.iter().enumerate() {
            let strut = Strut { index, corner };
            let mut on = checks.on(&corner.key);
            on.check("locks when landing", |at| strut.judge_locking(at));
            on.check("packs down", |at| strut.judge_packing(at));
        }
    }
}

/// A corner, and its place among all corners.
struct Strut<'a> {
    index: usize,
    corner: &'a Named<Corner>,
}

const UNDAMPED: Outcome = Outcome::Aside("this corner has no damper");
const NOT_LANDED: Outcome = Outcome::Aside("nothing lands on this corner");

/// What the damper does in one landing.
struct Locking {
    /// With which it pushes its mounts.
    force: Force,
    /// Beyond it the damper is no damper any more: what the mount takes, or twice the spring at the end of its stroke.
    limit: Force,
    /// The mount was tested.
    by_mount: bool,
    /// At touch-down, at the damper.
    speed: Velocity,
    gelled: bool,
}

impl Strut<'_> {
    fn locking(&self, at: &At) -> Found<Option<Locking>> {
        let landed = match at.landing()?.corners.get(self.index) {
            Some(Ok(corner)) if corner.force == Force::ZERO => return Ok(None),
            Some(Ok(corner)) => corner,
            Some(Err(gap)) => return Err(gap.clone()),
            None => return Ok(None),
        };
        let resistance = landing::resistance(at, at.part(&self.corner.damper)?)?;
        let speed = at.landing()?.impact_speed * at.need(&self.corner.motion_ratio)?;
        let pushes = resistance.force_at(speed);
        // What reaches the mount is never more than the whole strut.
        let force = if landed.damper_gelled || pushes > landed.force { landed.force } else { pushes };
        let travel = at.need(&self.corner.preload.collar)? + at.need(&self.corner.damper_travel)?;
        let spring = at.spring_rate(at.part(&self.corner.spring)?)? * travel;
        let strength = &self.corner.mount_strength;
        Ok(Some(Locking {
            force,
            limit: at.or_take(strength, spring * BOTTOMED, "twice the spring at the end of its stroke"),
            by_mount: at.try_get(strength).is_some(),
            speed,
            gelled: landed.damper_gelled,
        }))
    }

    fn judge_locking(&self, at: &At) -> Found<Outcome> {
        if !at.case()?.kind.lands() {
            return Ok(NOT_LANDED);
        }
        if matches!(at.part(&self.corner.damper)?, Damper::None) {
            return Ok(UNDAMPED);
        }
        let Some(locking) = self.locking(at)? else { return Ok(NOT_LANDED) };
        let required = Required { value: REQUIRED, why: WHY };
        let margin = Margin::ratio::<m::Force>(locking.force, locking.limit, required, Consequence::RunOver);
        Ok(Outcome::Held(says::locking(self, at, &locking, margin)))
    }

    fn judge_packing(&self, at: &At) -> Found<Outcome> {
        let damper = at.part(&self.corner.damper)?;
        if matches!(damper, Damper::None) {
            return Ok(UNDAMPED);
        }
        let rate = at.spring_rate(at.part(&self.corner.spring)?)?;
        let resistance = landing::resistance(at, damper)?;
        if matches!(resistance, landing::Resistance::Gelled) {
            let words = Words::told(at, |w| says::stuck(self, at, w));
            return Ok(Outcome::Breach { consequence: Consequence::RunOver, words });
        }
        let time = resistance.return_time(rate);
        let required = Required { value: REQUIRED, why: WHY };
        let limit = Time::from_si(BETWEEN_BUMPS);
        let margin = Margin::ratio::<m::Duration>(time, limit, required, Consequence::RunOver);
        Ok(Outcome::Held(says::packing(self, at, time, margin)))
    }
}

/// Times the spring at the end of its stroke with which a strut bottoms softly. Common practice.
const BOTTOMED: f64 = 2.0;
