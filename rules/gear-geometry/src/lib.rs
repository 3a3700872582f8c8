#![no_std]
//! The shape of each pair of gears and its play. It never knows: what loads the teeth, other rules.

use gears::{Pair, Side};
use rule::prelude::*;

mod says;
mod slots;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "gear-geometry",
    area: Area::Powertrain,
    question: "Can these gears be made, do enough of their teeth mesh, and do they keep their play when it is hot, cold and wet?",
    explains: "Too few teeth are cut away at the root, pointed ones break off at the tip, and where hardly more than one pair meshes \
               the drive jerks. Gears that swell or warm more than their housing jam; a motor that slips in its slots lets the \
               teeth jump.",
    formula: "teeth against undercut zn + 17·x; contact ratio from tip circles and centre distance; tip thickness by the involute; \
              play = pitch − both tooth thicknesses on the working circles, all lengths grown by α·ΔT + swelling; slots: F/cosα \
              against screws·clamping force·µ; rim beside vents against the tooth's height",
    source: "ISO 21771 and ISO 53, published; 14 teeth as the practical limit of undercut, DIN 3960, from memory; least play, tip \
             thickness, clamping under screw heads: common practice, no source",
    checked: "contact ratio and working angle by Norton, example 12-1, and Shigley, example 13-1; play a second time along the line \
              of contact; growth by similarity. Nominal sizes: what a ± allows is told beside the play. Teeth of polymer are as warm \
              as their estimate, metal and housing as the air in it. Vents may let snow in: that is not judged.",
    required: "17 teeth against undercut (14 at least); contact ratio 1.2; tips 0.2 modules thick, 0.4 hardened, two lines of a \
               print; play 0.03 modules in every case; slots 1.5; 0.8 tooth heights beside a vent (common practice)",
    caution: "Keep fingers out of gears: take the battery's plug out before you turn them by hand.",
};

#[derive(Debug)]
pub struct GearGeometry;

impl Rule for GearGeometry {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for pair in gears::pairs(machine) {
            let mut on = checks.about(&pair.stage.name, pair.stage.module.id());
            on.check("pinion undercut", |at| undercut(&pair, Side::Pinion, at));
            on.check("wheel undercut", |at| undercut(&pair, Side::Wheel, at));
            on.check("pinion tip", |at| tip(&pair, Side::Pinion, at));
            on.check("wheel tip", |at| tip(&pair, Side::Wheel, at));
            on.check("contact ratio", |at| contact(&pair, at));
            on.check("play", |at| play(&pair, at));
            on.check("pinion rim", |at| rim(&pair, Side::Pinion, at));
            on.check("wheel rim", |at| rim(&pair, Side::Wheel, at));
            if pair.index == 0 {
                on.check("motor in its slots", |at| slots::judge(&pair, at));
            }
        }
    }
}

fn undercut(pair: &Pair<'_>, side: Side, at: &At) -> Found<Outcome> {
    let teeth = pair.body(at, side)?.teeth_against_undercut();
    let (least, wanted) = (Ratio::from_si(14.0), Ratio::from_si(3.0));
    let required = Required { value: wanted.si(), why: "from 17 teeth on nothing is cut away" };
    let margin = Margin::gap::<m::Ratio, m::Ratio>(least, teeth, wanted, required, Consequence::RunOver);
    Ok(Outcome::Held(says::undercut(pair, side, at, margin)))
}

fn tip(pair: &Pair<'_>, side: Side, at: &At<'_>) -> Found<Outcome> {
    let (thick, module) = (pair.body(at, side)?.tip_thickness(), at.need(&pair.stage.module)?);
    let least = match pair.making(at, side)? {
        Making::Hardened => module * 0.4,
        Making::Printed => {
            let two = line_width(pair, side, at)? * 2.0;
            if two > module * 0.2 { two } else { module * 0.2 }
        }
        _ => module * 0.2,
    };
    let required = Required { value: 1.0, why: "the least that makes a tip" };
    let margin = Margin::ratio::<m::Position>(least, thick, required, Consequence::RunOver);
    Ok(Outcome::Held(says::tip(pair, side, at, margin)))
}

/// Of the gear's own print, or of all prints.
fn line_width(pair: &Pair<'_>, side: Side, at: &At) -> Found<Length> {
    let own = at.part(&pair.gear(side).build)?;
    let shared = || at.try_part(&at.machine().structure.printing).and_then(|all| at.try_get(&all.line_width));
    at.try_get(&own.line_width).or_else(shared).map_or_else(|| at.need(&own.line_width), Ok)
}

fn contact(pair: &Pair<'_>, at: &At<'_>) -> Found<Outcome> {
    let mesh = pair.mesh_in_case(at)?;
    let ratio = mesh.contact_ratio() + mesh.overlap_ratio(pair.common_width(at)?);
    let required = Required { value: 1.2, why: "the next pair takes over in time" };
    let margin = Margin::ratio::<m::Ratio>(Ratio::from_si(1.0), ratio, required, Consequence::RunOver);
    Ok(Outcome::Held(says::contact(pair, at, margin)))
}

/// Play as assembled, and how much of it is gone in this case.
fn play(pair: &Pair<'_>, at: &At<'_>) -> Found<Outcome> {
    let (drawn, now) = (pair.mesh(at)?.backlash(), pair.mesh_in_case(at)?.backlash());
    let assembled = at.try_get(&pair.stage.backlash).unwrap_or(drawn);
    let module = at.need(&pair.stage.module)?;
    let required = Required { value: 0.03 * module.si(), why: "0.03 modules for gears that do not run true" };
    let margin =
        Margin::gap::<m::Position, m::Position>(drawn - now, assembled, module * 0.1, required, Consequence::Stranded);
    Ok(Outcome::Held(says::play(pair, at, margin)))
}

fn rim(pair: &Pair<'_>, side: Side, at: &At) -> Found<Outcome> {
    let Some(web) = at.try_part(&pair.gear(side).web) else { return Ok(Outcome::Aside("it has no web with holes")) };
    if at.need(&web.vents)?.si() == 0.0 {
        return Ok(Outcome::Aside("its web has no holes"));
    }
    let body = pair.body(at, side)?;
    let hole = at.need(&web.vents_at)? + at.need(&web.vent_diameter)? / 2.0;
    let left = body.root_diameter() / 2.0 - hole;
    let required = Required { value: 1.6, why: "0.8 tooth heights carry the teeth" };
    let margin = Margin::ratio::<m::Position>(body.tooth_height() / 2.0, left, required, Consequence::RunOver);
    Ok(Outcome::Held(says::rim(pair, side, at, margin)))
}
