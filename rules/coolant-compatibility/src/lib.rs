#![no_std]
//! Coolant, grease and thread locker on the materials that they wet. It never knows: which material stands which liquid
//! (that is the catalogue's), how a coolant loop is worked out, other rules.

use rule::prelude::*;

mod metals;
mod says;
#[cfg(test)]
mod tests;
mod touch;

use touch::Touch;

static CARD: Card = Card {
    name: "coolant-compatibility",
    area: Area::Cooling,
    question: "Does each material stand the coolant, the grease and the thread locker that wet it?",
    explains: "A seal that swells no longer fits its groove, a lid of clear plastic crazes round its screws in glycol, a drop of \
               thread locker splits a printed boss within days, and a copper tube in one loop with an aluminium plate eats \
               the plate. None of it shows on the bench: it takes weeks, heat and stress.",
    formula: "no pair that the catalogue calls attacked; hottest coolant + required ≤ what the material stands for years, or \
              the temperature at which your own sample lay in it for a week, 10 % heavier at most; anodic indices of the metals \
              apart × required ≤ 0.15 V where the coolant holds water and no inhibitor; time between changes × required ≤ life \
              of the inhibitor",
    source: "Each pair says in the catalogue where it comes from: mostly from memory of makers' charts, thread locker on amorphous \
             plastics and glycol without water on ABS and PC common practice, no source. Anodic indices and 0.15 V: from memory of \
             design guides. A week's soak, weighed: after ISO 1817 and ISO 175; published. Limits and reserves: common practice, no source.",
    checked: "the order of the metals against a series of potentials in sea water (open data, no source for each value). Charts give unstressed samples: stress, mixed \
              plastics and additives are left out on the other side, and so are the insides of pump and strainer, barbs, \
              sealants from a tube, grease inside bearings, and metals alone in hard or salty water. That thin walls give way sooner is left out too.",
    required: "10 K, 3 K soaked by yourself; metals 1.2; inhibitor 1.2 (common practice)",
    caution: "Leaking glycol is poisonous to people and animals and makes floors slippery; many thread lockers irritate the skin.",
};

#[derive(Debug)]
pub struct CoolantCompatibility;

impl Rule for CoolantCompatibility {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for touch in touch::all(machine) {
            checks.on(touch.key).check(touch.check, |at| stands(at, &touch));
        }
        for (name, part) in touch::unnamed(machine) {
            let nothing = |at: &At| at.part(part).map(|_| Outcome::Aside("named"));
            checks.about(name, part.id()).check(touch::COOLANT, nothing);
        }
        if !machine.cooling.circuit.is_empty() {
            let mut on = checks.about("coolant", machine.cooling.coolant.fluid.id());
            on.check("metals in one loop", metals::judge);
            on.check("inhibitor", metals::judge_inhibitor);
        }
    }
}

/// Shorter soaks show little: a week, less the hours until somebody looks.
const LONG_ENOUGH: f64 = 6.5 * 86_400.0;

/// What is known of a material in a liquid.
enum Known<'a> {
    Attacked(Attack, NodeId),
    HoldsTo(ThermodynamicTemperature, &'a Resistance, Required),
}

/// A sample of one's own speaks first.
fn known<'a>(at: &At, resistance: &'a Resistance) -> Found<Known<'a>> {
    if let Some(soaked) = at.try_part(&resistance.soaked)
        && at.need(&soaked.duration)?.si() >= LONG_ENOUGH
    {
        if *at.part(&soaked.damaged)? {
            return Ok(Known::Attacked(Attack::Cracks, soaked.damaged.id()));
        }
        if at.need(&soaked.gained)? > at.need(&at.assumed().soak_gain)? {
            return Ok(Known::Attacked(Attack::Swells, soaked.gained.id()));
        }
        let required = Required { value: 3.0, why: "your own sample lay in it" };
        return Ok(Known::HoldsTo(at.need(&soaked.temperature)?, resistance, required));
    }
    if let Some(attack) = at.try_part(&resistance.attacked) {
        return Ok(Known::Attacked(*attack, resistance.attacked.id()));
    }
    let required = Required { value: 10.0, why: "charts are for samples without stress" };
    Ok(Known::HoldsTo(at.need(&resistance.holds_to)?, resistance, required))
}

fn stands(at: &At, touch: &Touch<'_>) -> Found<Outcome> {
    let material = at.machine().follow(at.part(touch.material)?);
    if material.family == Family::Metal {
        return Ok(Outcome::Aside("a metal, judged together with the others of the loop"));
    }
    let liquid = touch.liquid(at)?;
    let resistance = at.part(at.part(&material.resists)?.to(liquid))?;
    match known(at, resistance)? {
        Known::Attacked(attack, node) => {
            let words = says::attacked(at, touch, &material.key.name, liquid, (attack, node));
            Ok(Outcome::Breach { consequence: Consequence::RunOver, words })
        }
        Known::HoldsTo(holds, resistance, required) => {
            let Some(hot) = touch.hottest(at)? else {
                return Ok(Outcome::Aside("nothing heats the coolant in this case, or not for long"));
            };
            let yardstick = TemperatureInterval::from_si(20.0);
            let margin = Margin::gap::<m::Temperature, m::TemperatureDifference>(
                hot,
                holds,
                yardstick,
                required,
                Consequence::RunOver,
            );
            Ok(Outcome::Held(says::holds(at, touch, (&material.key.name, liquid), resistance, margin)))
        }
    }
}
