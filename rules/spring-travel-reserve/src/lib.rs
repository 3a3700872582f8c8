#![no_std]
//! Coil bind, the end of the damper's stroke, sag. It never knows: how a landing is worked out, how hard a stop hits,
//! other rules.

use physics::landing::{at_wheel, sag};
use physics::spring::{Coiling, Duty, smallest_gap_sum};
use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "spring-travel-reserve",
    area: Area::Suspension,
    question: "Do the coils touch, or is the stroke used up, before the spring has taken the blow?",
    explains: "A spring pressed solid is a rod: the whole blow goes into mounts and frame. Preload uses up part of the length, \
               and some gap must stay between the coils. A machine that sags too deep has no stroke left for a landing.",
    formula: "free length ≥ solid length + smallest gaps (dynamic) + preload + travel, the travel once the damper's whole \
              stroke and once that of each landing; travel of a landing ≤ stroke; sag at the damper = m·g/(r·R) − preload",
    source: "EN 13906-1, sum of the smallest gaps: from memory. The solid length by ends: Shigley, table 10-1, published. \
             Rate from the wire: EN 13906-1, published. Sag: equilibrium.",
    checked: "the gaps by hand on one spring, they agree with what a spring maker prints; sag by hand; a landing without \
              damper on rigid ground by its energy. Sag is that of the sprung mass as it was weighed, without friction.",
    required: "15 % of the damper's stroke above coil bind, above the stop as much as a guessed ground may add, sag at most 40 % of \
               the stroke (common practice)",
    caution: "A preloaded spring stores energy: slacken the collar before you take the damper apart.",
};

/// Share of the stroke that stays free above coil bind. The gaps of the standard are for the spring alone; this is for a
/// collar turned in further on the day and a spring that has set: each is a few per cent of the stroke. Common practice.
const ABOVE_BIND: f64 = 0.15;
/// Share of the stroke that standing still may use up. Builders of off-road machines set a quarter to a third, soft ones
/// 40 %. Common practice.
const SAG_AT_MOST: f64 = 0.40;

#[derive(Debug)]
pub struct SpringTravelReserve;

impl Rule for SpringTravelReserve {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for (index, corner) in machine.suspension.iter().enumerate() {
            let strut = Strut { index, corner };
            let mut on = checks.on(&corner.key);
            on.check("solid length against stroke", |at| strut.judge_stroke(at));
            on.check("coil bind when landing", |at| strut.judge_landing(at));
            on.check("stop reached when landing", |at| strut.judge_stop(at));
            on.check("sag leaves travel", |at| strut.judge_sag(at));
        }
    }
}

/// A corner, and its place among all corners.
struct Strut<'a> {
    index: usize,
    corner: &'a Named<Corner>,
}

/// Where the length of the spring goes before it travels.
#[derive(Debug, Clone, Copy)]
struct Budget {
    free: Length,
    solid: Length,
    gaps: Length,
    collar: Length,
}

/// What a landing makes of one corner, at the damper.
#[derive(Debug, Clone, Copy)]
struct Landed {
    travel: Length,
    /// With mount and ground between half and twice as stiff.
    band: (Length, Length),
    /// The oil no longer flows: this is the travel without a damper.
    gelled: bool,
}

impl Budget {
    /// As long as the spring must be for a travel.
    fn wanted(&self, travel: Length) -> Length {
        self.solid + self.gaps + self.collar + travel
    }
}

impl Strut<'_> {
    fn budget(&self, at: &At) -> Found<Budget> {
        let spring = at.part(&self.corner.spring)?;
        let (wire, mean) = (at.need(&spring.wire)?, at.need(&spring.mean_diameter)?);
        let coils = at.need(&spring.active_coils)?;
        let free = at.need(&spring.free_length)?;
        let collar = at.need(&self.corner.preload.collar)?;
        let solid = landing::solid_length(at, spring)?;
        let gaps = smallest_gap_sum(wire, mean, coils, Coiling::Cold, Duty::Dynamic);
        Ok(Budget { free, solid, gaps, collar })
    }

    fn rate(&self, at: &At) -> Found<SpringRate> {
        at.spring_rate(at.part(&self.corner.spring)?)
    }

    /// Standing still, at the damper.
    fn sag(&self, at: &At) -> Found<Length> {
        let rate = self.rate(at)?;
        let preload = Force::from_si(rate.si() * at.need(&self.corner.preload.collar)?.si());
        let ratio = at.need(&self.corner.motion_ratio)?;
        let mass = at.need(&self.corner.sprung_mass_each)?;
        Ok(sag(&at_wheel(rate, preload, ratio), mass) * ratio)
    }

    /// What the case's landing does to this corner; nothing where it is no landing or spares the corner.
    fn landed(&self, at: &At) -> Found<Option<Landed>> {
        if !at.case()?.kind.lands() {
            return Ok(None);
        }
        match at.landing()?.corners.get(self.index) {
            Some(Ok(corner)) if corner.force == Force::ZERO => Ok(None),
            Some(Ok(corner)) => Ok(Some(Landed {
                travel: corner.damper_travel,
                band: corner.travel_band,
                gelled: corner.damper_gelled,
            })),
            Some(Err(gap)) => Err(gap.clone()),
            None => Err(NotJudged::NoSolution("the landing of this corner is not worked out".into())),
        }
    }

    /// Demand is as long as the spring would have to be, capacity as long as it is: neither is ever below zero.
    fn above_bind(&self, at: &At, budget: &Budget, travel: Length) -> Found<Margin> {
        let stroke = at.need(&self.corner.damper_travel)?;
        let required = Required { value: ABOVE_BIND * stroke.si(), why: "15 % of the damper's travel" };
        let wanted = budget.wanted(travel);
        Ok(Margin::gap::<m::Distance, m::Distance>(wanted, budget.free, stroke, required, Consequence::Stranded))
    }

    fn judge_stroke(&self, at: &At) -> Found<Outcome> {
        let budget = self.budget(at)?;
        let stroke = at.need(&self.corner.damper_travel)?;
        let margin = self.above_bind(at, &budget, stroke)?;
        Ok(Outcome::Held(says::stroke(self, at, &budget, stroke, margin)))
    }

    fn judge_landing(&self, at: &At) -> Found<Outcome> {
        let Some(landed) = self.landed(at)? else { return Ok(NOT_LANDED) };
        let budget = self.budget(at)?;
        let margin = self.above_bind(at, &budget, landed.travel)?;
        Ok(Outcome::Held(says::landing(self, at, &budget, &landed, margin)))
    }

    fn judge_stop(&self, at: &At) -> Found<Outcome> {
        let Some(landed) = self.landed(at)? else { return Ok(NOT_LANDED) };
        let stroke = at.need(&self.corner.damper_travel)?;
        let consequence = match at.part(&self.corner.bump_stop)? {
            BumpStop::Elastomer(_) => Consequence::CheapPart,
            BumpStop::None => Consequence::RunOver,
        };
        // What mount and ground give is a guess: as far as it may go deeper than told, so much must be left.
        let deeper = (landed.band.1 - landed.travel).si().max(0.0);
        let required = Required {
            value: deeper,
            why: "so much deeper it may go with mount and ground half or twice as stiff as assumed",
        };
        let margin = Margin::gap::<m::Distance, m::Distance>(landed.travel, stroke, stroke, required, consequence);
        Ok(Outcome::Held(says::stop(self, at, &landed, margin)))
    }

    fn judge_sag(&self, at: &At) -> Found<Outcome> {
        let (sag, stroke) = (self.sag(at)?, at.need(&self.corner.damper_travel)?);
        let required =
            Required { value: (1.0 - SAG_AT_MOST) * stroke.si(), why: "standing still may use up 40 % of the stroke" };
        let margin = Margin::gap::<m::Distance, m::Distance>(sag, stroke, stroke, required, Consequence::RunOver);
        Ok(Outcome::Held(says::sag(self, at, sag, margin)))
    }
}

const NOT_LANDED: Outcome = Outcome::Aside("nothing lands on this corner");
