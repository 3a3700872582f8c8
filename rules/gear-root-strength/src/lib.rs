#![no_std]
//! Whether the teeth of each pair of gears hold. It never knows: hubs and shafts, other rules.

use gears::{Load, Pair, Side};
use physics::gear::{self as law, LoadAt, Rack};
use rule::prelude::*;

mod flank;
mod made;
mod says;
mod strength_of;
#[cfg(test)]
mod tests;
mod web;

static CARD: Card = Card {
    name: "gear-root-strength",
    area: Area::Powertrain,
    question: "Do the teeth of both gears hold, in the hardest landing and over the life asked for, and which gear fails first?",
    explains: "A tooth is a short beam that is bent at its root once a turn. Plastic loses half of its strength by the time it is \
               warm and again by the time it is tired; cast and sintered teeth snap at the first hard blow. Strengthen the one that \
               fails first, and the other one is next.",
    formula: "σ = F/(b·m)·YF·YS·Yβ·YB·K; metals with the load at the outer point of single contact (ISO 6336-3, method B), polymers \
              with it at the tip × Yε (VDI 2736-2); strength = 2·σFlim·life, of what stretches less than \
              5 % or is cast metal no more than its tensile strength; cast × 0.5; all told in torque of the motor. Flanks of two metals: \
              ISO 6336-2. Web: T/(r·(2π·r − n·d)·t). A recorded run: (Σ nᵢ·Tᵢᵖ / Σ nᵢ)^(1/p), p out of the strength's own fall \
              over the last tenfold of cycles, and never less than its highest torque against the strength of a few",
    source: "ISO 6336-2 and -3:2006, ISO 6336-5, VDI 2736-2:2014, many loads by Miner as in ISO 6336-6, published, equations and strengths from memory; strength of \
             printed teeth out of the filament's own, hollow teeth, reserves by making, no doubled strength of what hardly stretches: \
             common practice, no source; half of the strength of a casting: 14 CFR 25.621 (casting factor 2.0), published, from \
             memory",
    checked: "fillet by rolling off a rack; Lewis table and Shigley, example 14-1; both methods agree within a tenth; zone and \
              elastic factors of ISO 6336-2; two rollers by Hertz. Dynamic load by tooth errors is taken to be within the shock \
              factor, surface and size factors as 1. What cold does to brittle teeth is not judged here, nor are pairs of steel \
              and plastic by their flanks: those are judged by their heat. Rings and planets are not judged, and say so.",
    required: "metal, machined or hardened 1.3, in a blow 1.6; sintered 1.5 and 2; polymer, machined or moulded 2; printed or cast \
               3, 2 once a tooth was tested; metal flanks 1.2; web as its teeth (common practice)",
    caution: "Teeth that break let the machine roll back: stand beside it, never below it, and block the track before you reach in.",
};

#[derive(Debug)]
pub struct GearRootStrength;

impl Rule for GearRootStrength {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for pair in gears::pairs(machine) {
            let mut on = checks.about(&pair.stage.name, pair.stage.module.id());
            on.check("pinion tooth", |at| judge_tooth(&pair, Side::Pinion, at));
            on.check("wheel tooth", |at| judge_tooth(&pair, Side::Wheel, at));
            on.check("pinion flank", |at| flank::judge(&pair, Side::Pinion, at));
            on.check("wheel flank", |at| flank::judge(&pair, Side::Wheel, at));
            on.check("pinion web", |at| web::judge(&pair, Side::Pinion, at));
            on.check("wheel web", |at| web::judge(&pair, Side::Wheel, at));
        }
        for stage in &machine.powertrain.stages {
            let node = match stage {
                Stage::Internal(inner) => inner.module.id(),
                Stage::Planetary(set) => set.module.id(),
                _ => continue,
            };
            checks.about(stage.name(), node).check("teeth", |_| Err(NotJudged::NoSolution(INNER.into())));
        }
    }
}

const INNER: &str = "teeth of rings and planets are not worked out: go by the figures of who made them";
const STILL: Outcome = Outcome::Aside("nothing is driven in this case");

/// What one tooth stands and bears in one case.
#[derive(Debug, Clone)]
struct Tooth {
    load: Load,
    /// Of uneven driving and of an uneven bearing along the face, together.
    factor: Ratio,
    /// Of a recorded run the share of its highest load that counts, by how often each of its loads comes; 1 otherwise.
    counts: Ratio,
    /// With all factors.
    stress: Pressure,
    allowed: strength_of::Allowed,
}

impl Tooth {
    fn reserve(&self) -> f64 {
        self.allowed.stress.si() / self.stress.si()
    }
    /// In torque of the motor, so that everything on the drive line can be compared.
    fn margin(&self) -> Margin {
        let demand = self.load.motor * (self.factor * self.counts).si();
        let required = self.allowed.required.clone();
        Margin::ratio::<m::Torque>(demand, demand * self.reserve(), required, Consequence::Stranded)
    }
}

fn judge_tooth(pair: &Pair<'_>, side: Side, at: &At<'_>) -> Found<Outcome> {
    let Some(tooth) = tooth(pair, side, at)? else { return Ok(STILL) };
    let margin = tooth.margin();
    Ok(Outcome::Held(says::tooth(pair, side, at, &tooth, margin)))
}

fn tooth(pair: &Pair<'_>, side: Side, at: &At<'_>) -> Found<Option<Tooth>> {
    let Some(load) = pair.load(at)? else { return Ok(None) };
    let factor = factor(pair, at, &load)?;
    let per_newton = stress_of(pair, side, at, Force::from_si(1.0), Carries::Shared)?;
    let allowed = strength_of::allowed(pair, side, at, &load)?;
    let counts = strength_of::share_that_counts(pair, side, at, &allowed)?;
    let stress = per_newton * (tangential(pair, at, load.pinion)?.si() * (factor * counts).si());
    Ok(Some(Tooth { load, factor, counts, stress, allowed }))
}

/// Force along the pinion's reference circle.
fn tangential(pair: &Pair<'_>, at: &At<'_>, torque: Torque) -> Found<Force> {
    let radius = pair.body(at, Side::Pinion)?.reference_diameter() / 2.0;
    Ok(Force::from_si(torque.si() / radius.si()))
}

fn factor(pair: &Pair<'_>, at: &At<'_>, load: &Load) -> Found<Ratio> {
    Ok(load.shock(at)? * at.or(&pair.stage.face_load, &at.assumed().face_load)?)
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Carries {
    /// As in running gears.
    Shared,
    /// One tooth, pressed at its tip on a bench.
    Alone,
}

fn stress_of(pair: &Pair<'_>, side: Side, at: &At<'_>, force: Force, carries: Carries) -> Found<Pressure> {
    let mesh = pair.mesh(at)?;
    let (gear, module) = (pair.gear(side), at.need(&pair.stage.module)?);
    let body = if side == Side::Pinion { mesh.pinion } else { mesh.wheel };
    let material = pair.material(at, side)?;
    let fillet = at.or_take(&gear.root_fillet, module * 0.38, "0.38 modules (ISO 53)") / module;
    let load_at = match carries {
        Carries::Shared if strength::hard(material) => LoadAt::OuterSingle(mesh.contact_ratio()),
        _ => LoadAt::Tip,
    };
    let root = law::root_form(&body, &Rack::standard(fillet), load_at).map_err(refused)?;
    let common = pair.common_width(at)?;
    let mut factors = law::overlap_factor(&mesh, common) * rim(pair, side, at, &body)?;
    if carries == Carries::Shared && load_at == LoadAt::Tip {
        factors = factors * law::sharing_factor(&mesh);
    }
    // A wider gear helps by one module at either end.
    let own = pair.face_width(at, side)?;
    let bears = if own < common + module * 2.0 { own } else { common + module * 2.0 };
    let stress = law::root_stress(force, bears, module, &root, factors);
    Ok(stress / made::solid_share(pair, side, at, &root)?)
}

/// How a thin rim weakens the root; a gear of which nothing is said is solid down to its bore.
fn rim(pair: &Pair<'_>, side: Side, at: &At<'_>, body: &law::Gear) -> Found<Ratio> {
    let gear = pair.gear(side);
    let root = body.root_diameter() / 2.0;
    let insert = at.try_part(&gear.hub).filter(|hub| hub.form != HubForm::Solid);
    let hole = match insert.and_then(|insert| at.try_get(&insert.outer_diameter)) {
        Some(insert) => Some(insert),
        None => at.try_get(&gear.bore),
    };
    let web = at.try_part(&gear.web);
    let vents = web.map_or(Ok(Ratio::from_si(0.0)), |web| at.need(&web.vents))?;
    let rim = match (at.try_get(&gear.rim), web.filter(|_| vents.si() > 0.0), hole) {
        (Some(rim), _, _) => rim,
        (None, Some(web), _) => root - at.need(&web.vents_at)? - at.need(&web.vent_diameter)? / 2.0,
        (None, None, Some(hole)) => root - hole / 2.0,
        (None, None, None) => at.or_take(&gear.rim, root, "solid"),
    };
    law::rim_factor(rim, body.tooth_height()).map_err(refused)
}

fn refused(range: physics::range::OutsideRange) -> NotJudged {
    let physics::range::OutsideRange { of, unit, from, to, was } = range;
    NotJudged::OutsideRange { of: of.to_string(), unit, from, to, was }
}
