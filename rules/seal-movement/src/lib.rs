#![no_std]
//! Sealed joints of unlike bodies: sliding, clamping and squeeze over the temperatures of the machine. It never knows: how
//! a coolant loop is worked out, the strength of screws and bodies, other rules.

use physics::expansion;
use rule::prelude::*;

mod clamping;
mod joint;
mod says;
mod squeezing;
#[cfg(test)]
mod tests;

use joint::Sealed;

static CARD: Card = Card {
    name: "seal-movement",
    area: Area::Cooling,
    question: "Does each sealed joint stay tight while its two bodies grow, shrink and creep differently?",
    explains: "A lid of plastic on a plate of aluminium grows and shrinks four times as much as the plate. The seal between them is \
               rubbed to and fro, the screws lose their pull in the cold because the plastic under their heads shrinks, and \
               what is left the plastic creeps away. Such a joint is tight on the bench and leaks in its first winter.",
    formula: "sliding |α₁ − α₂|·L/2·ΔT since it last rested against µ·C·2·(1 + ν)·h (rubber) or t·√((1 + s)² − 1) (bead); clamping preload·kept + \
              (α − α_screw)·t·ΔT/(1/k_screw + 1/k_body) against seal force + pressure·area; squeeze left 1 − (h + bow)/(d after \
              set and shrinking) against 5 %; stiffness of the rubber in the cold against ten times that at 23 °C",
    source: "Cord force: Lindley 1967; compression set ISO 815; movement capability ISO 11600; screws ISO 898-1 and Shigley, eq. 8-16 \
             to 8-27; bow between screws: Roark, table 8.1; published. Sliding before a seal rubs: Coulomb and Hooke; 5 % of squeeze, \
             kept preload and the reserves: common practice, no source. T10 as the end of a rubber: ISO 1432, as a limit common practice.",
    checked: "the trade knows, without a source, that a plastic half-shell on an aluminium plate leaks sooner or later over a wide \
              range while a closed aluminium body does not: a joint of 120 mm over −30 to +60 °C comes out so. Members by \
              three formulas, areas against the table of ISO 898-1, cord force against makers' charts. Left out on the safe \
              side: rubber that follows by rolling, pressure that helps a cord. On the other: warping of prints, threads that \
              creep in a plastic body, screws that were never tightened evenly.",
    required: "sliding 1.5, or 1 where it was cycled through the cold; clamping 1.5; squeeze 1.5; stiffness 1.5 (common practice)",
    caution: "Leaking glycol is poisonous, makes floors and ice slippery and conducts: keep it off cells and boards.",
};

#[derive(Debug)]
pub struct SealMovement;

impl Rule for SealMovement {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for joint in &machine.structure.joints {
            let Some(seal) = joint.seal.there() else { continue };
            let sealed = Sealed { joint, seal };
            let mut on = checks.on(&joint.key);
            on.check("sliding under the seal", |at| sliding(at, &sealed));
            on.check("clamping", |at| clamping::judge(at, &sealed));
            on.check("squeeze left", |at| squeezing::judge(at, &sealed));
            on.check("rubber in the cold", |at| squeezing::judge_stiffness(at, &sealed));
        }
    }
}

/// So many times through cold and heat count as a trial.
const TRIED: f64 = 10.0;

/// How far one end of the joint slides while it gets so much warmer or colder.
fn slides(at: &At, sealed: &Sealed<'_>, by: TemperatureInterval) -> Found<Length> {
    let [over, under] = sealed.bodies(at)?;
    let apart = at.need(&over.expansion)? - at.need(&under.expansion)?;
    let grown = expansion::growth(apart, at.need(&sealed.joint.span)? / 2.0, by);
    Ok(if grown < Length::ZERO { -grown } else { grown })
}

/// How far the seal lets the faces slide: as tried, else by what it is.
fn lets_slide(at: &At, sealed: &Sealed<'_>) -> Found<(Length, Required)> {
    if let Some(cycled) = at.try_part(&sealed.seal.cycled)
        && at.need(&cycled.times)?.si() >= TRIED
    {
        let tried = difference(at.need(&cycled.hottest)?, at.need(&cycled.coldest)?);
        return Ok((slides(at, sealed, tried)?, Required { value: 1.0, why: "it was cycled so far and held" }));
    }
    let required = Required { value: 1.5, why: "friction and squeeze scatter" };
    Ok((sealed.lets_slide(at)?, required))
}

fn sliding(at: &At, sealed: &Sealed<'_>) -> Found<Outcome> {
    let (now, rested) = (sealed.temperature(at)?, sealed.rested(at)?);
    let swing = difference(now, rested);
    let (capacity, required) = lets_slide(at, sealed)?;
    let demand = slides(at, sealed, swing)?;
    let margin = Margin::ratio::<m::Length>(demand, capacity, required, Consequence::RunOver);
    Ok(Outcome::Held(says::sliding(at, sealed, margin, [rested, now])))
}

fn refused(outside: physics::range::OutsideRange) -> NotJudged {
    let physics::range::OutsideRange { of, unit, from, to, was } = outside;
    NotJudged::OutsideRange { of: of.into(), unit, from, to, was }
}

fn soft(material: &Material) -> bool {
    matches!(material.family, Family::PrintedPolymer | Family::Polymer | Family::Elastomer | Family::Wood)
}
