//! The words of each check.

use crate::clamping::Clamped;
use crate::joint::{Rubber, Sealed};
use crate::soft;
use rule::prelude::*;

pub(crate) fn sliding(at: &At, sealed: &Sealed<'_>, margin: Margin, ends: [ThermodynamicTemperature; 2]) -> Margin {
    let (held, required) = (margin.held, margin.required.value);
    margin.tell(at, |w| {
        w.happens = match sealed.seal.form {
            SealForm::Sealant(_) => "the two bodies slide further than the sealant stretches: it tears loose along one side, \
                                     and the joint leaks",
            _ => "the two bodies slide under the seal and rub it with each warming and cooling: it wears, and the joint leaks \
                  sooner or later",
        }
        .into();
        let [rested, now] = ends.map(shown::<m::Temperature>);
        w.numbers.push(format!("The joint is at {now}, and may have rested at {rested} for weeks before."));
        bodies(sealed, w);
        w.label(sealed.joint.span.id(), "the longer, the further its ends slide");
        match &sealed.seal.form {
            SealForm::Sealant(bead) => {
                w.label(bead.thickness.id(), "a thin bead has little to give");
                w.clears.push("spacers that keep the bead thicker, and a softer sealant".into());
            }
            SealForm::Cord(_) | SealForm::Sheet(_) => {
                w.clears.push("a thicker cord in a deeper groove: it gives further before it rubs".into());
            }
        }
        if let Some(span) = at.try_get(&sealed.joint.span) {
            w.at_most(&sealed.joint.span, span * (held.reserve() / required), |span| {
                format!("a joint no longer than {span}, or several small ones")
            });
        }
        alike(w);
        w.clears.push("cycle it ten times between freezer and oven with dye in it, and note the range (cycled)".into());
    })
}

pub(crate) fn clamping(at: &At, sealed: &Sealed<'_>, margin: Margin, clamped: &Clamped) -> Margin {
    margin.tell(at, |w| {
        w.happens = "the screws no longer press the joint together: it gapes, and the coolant comes out".into();
        let set = shown::<m::Force>(clamped.set);
        let shrunk = if clamped.shrunk < Force::ZERO { -clamped.shrunk } else { clamped.shrunk };
        let way = if clamped.shrunk < Force::ZERO { "is lost" } else { "comes on top" };
        w.numbers.push(format!(
            "Of {set} from tightening, {} creeps away and {} {way} by warmth or cold.",
            shown::<m::Force>(clamped.crept),
            shown::<m::Force>(shrunk)
        ));
        bodies(sealed, w);
        let tight =
            if at.is_given(&sealed.joint.preload) { sealed.joint.preload.id() } else { sealed.joint.torque.id() };
        w.label(tight, "what the screws were tightened with");
        w.clears.push("spring washers of a known rate under the heads (spring_washers): they follow".into());
        w.clears.push("more or thicker screws; tightened again after the first warm day".into());
        if sealed.bodies(at).is_ok_and(|[over, _]| soft(over)) {
            w.clears.push("a metal frame under the heads that spreads and keeps their pull".into());
        }
        alike(w);
    })
}

pub(crate) fn squeeze(sealed: &Sealed<'_>, at: &At, rubber: &Rubber<'_>, bow: Length, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        w.happens =
            "the seal is no longer squeezed: it has set and shrunk, the flange has bowed, and coolant weeps past it"
                .into();
        let bow = shown::<m::Length>(bow);
        w.numbers.push(format!(
            "It was squeezed by {}; between the screws the flanges bow {bow} apart.",
            shown::<m::Percentage>(rubber.squeeze)
        ));
        let closed = match &sealed.seal.form {
            SealForm::Cord(cord) => cord.closed_to.id(),
            SealForm::Sheet(sheet) => sheet.closed_to.id(),
            SealForm::Sealant(bead) => bead.thickness.id(),
        };
        w.label(closed, "the gap in which it lies");
        w.label(sealed.joint.screws.id(), "few screws let the flange bow");
        w.clears.push("a shallower groove or a thicker cord: 20 to 30 % of squeeze".into());
        w.clears.push("more screws, or a thicker and wider flange".into());
        w.clears.push("a rubber that sets less".into());
    })
}

pub(crate) fn stiffness(sealed: &Sealed<'_>, at: &At, margin: Margin, now: ThermodynamicTemperature) -> Margin {
    margin.tell(at, |w| {
        w.happens =
            "the seal is as stiff as plastic in the cold: it does not follow the faces when they move, and weeps"
                .into();
        warmth(at, sealed, now, w);
        let material = match &sealed.seal.form {
            SealForm::Cord(cord) => cord.material.id(),
            SealForm::Sheet(sheet) => sheet.material.id(),
            SealForm::Sealant(bead) => bead.thickness.id(),
        };
        w.label(material, "its rubber in the cold");
        w.clears.push("EPDM made for cold, or silicone".into());
    })
}

fn warmth(at: &At, sealed: &Sealed<'_>, now: ThermodynamicTemperature, w: &mut Words) {
    if let Ok(assembled) = sealed.assembled(at) {
        let (now, then) = (shown::<m::Temperature>(now), shown::<m::Temperature>(assembled));
        w.numbers.push(format!("The joint is at {now}; it was closed at {then}."));
    }
}

fn bodies(sealed: &Sealed<'_>, w: &mut Words) {
    for part in &sealed.joint.of {
        w.label(part.id, "one of the two bodies");
    }
}

fn alike(w: &mut Words) {
    w.clears.push("both bodies of the same metal, or one closed body without a joint".into());
}
