#![no_std]
//! Plain bushes, wheels straight on axles and sliders. It never knows: rolling bearings, a reserve that a workshop wants,
//! other rules.

use physics::bearing::{
    bush_warming, derating, frictional_heat, pressure_speed, projected_pressure, rubbing_speed, swinging_speed,
    weight_share, wheel_speed, wrap_load,
};
use physics::landing::force_at_wheel;
use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "bearing-pv",
    area: Area::Powertrain,
    question: "Does each plain bush, and each wheel that runs straight on its axle, stand its pressure, its speed and its heat?",
    explains: "A bush that is pressed too hard creeps out of shape. One that rubs too fast, or both at once, makes more heat than \
               it gets rid of: it softens, grips the axle and melts or wears away within a day. Grit makes all of it come sooner.",
    formula: "p = F/(d·L); v = ω·d/2, swinging 2·θ·d·f; p·v; F = share·m·g + 2·T·sin(wrap/2)/bushes, T without m′·v², and for \
              p·v and heat without what is run over; landing F = damper force·motion ratio/bushes of one spring; bush = air + µ·F·v·R; p·v limit falls in a straight line from air \
              of 23 °C to nothing at the highest temperature of the surface",
    source: "p, v and p·v: Shigley, Mechanical Engineering Design, ch. 12, published. The straight derating and the reserves: \
             common practice, no source. Thermal resistance of a bush: assumed unless its temperature is measured.",
    checked: "heat by torque × speed and by µ·p·v·area; wrap by two strands at 180° and an equilateral triangle at 60°; swinging \
              by a half turn each way. Weight and wrap are added as if they pulled one way, which is the safe side. The \
              blow of a landing by the energy of spring and wheel; the track's tension is left out of it.",
    required: "pressure, speed and p·v: 1.5 clean, 2 dirty, 3 dry in grit; landing 1.5, a blow too short for grit \
               to count; 10 K below the highest temperature (common practice)",
    caution: "A bush that has run hot stays hot and its wheel may come off: let it cool, and keep hands out of a turning track.",
};

#[derive(Debug)]
pub struct BearingPv;

impl Rule for BearingPv {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for (index, bearing) in machine.powertrain.bearings.iter().enumerate() {
            let Bearing::Plain(plain) = &bearing.value else { continue };
            let bush = Bush { index, plain };
            let mut on = checks.on(&bearing.key);
            on.check("pressure", |at| bush.judge_pressure(at));
            on.check("speed", |at| bush.judge_speed(at));
            on.check("pressure × speed", |at| bush.judge_product(at));
            on.check("temperature", |at| bush.judge_temperature(at));
            on.check("landing pressure", |at| bush.judge_landing(at));
        }
    }
}

const STANDS: Outcome = Outcome::Aside("nothing turns for long in this case");
const LANDS: Outcome = Outcome::Aside("the blow of a landing is judged by a check of its own");

/// One plain bearing, and its place among all bearings.
struct Bush<'a> {
    index: usize,
    plain: &'a PlainBearing,
}

/// The surface that gives way first, and its limits.
struct Lining<'a> {
    material: &'a Named<Material>,
    sliding: &'a Sliding,
}

#[derive(Clone, Copy)]
enum Load {
    /// With what the track runs over at that moment.
    Highest,
    /// What goes on long enough to heat the bush.
    Lasting,
}

fn turns(at: &At) -> Found<bool> {
    // A recorded run is left to the steady cases: its highest speed and its hardest pull did not come together for long.
    let kind = at.case()?.kind;
    Ok((kind.drives() && !kind.recorded()) || kind.lifts_off())
}

impl<'a> Bush<'a> {
    /// The bush's own limits; those of what it runs on where that is the softer: a metal wheel on a plastic axle.
    fn lining(&self, at: &At<'a>) -> Found<Lining<'a>> {
        let machine = at.machine();
        let own: &Named<Material> = machine.follow(at.part(&self.plain.material)?);
        let other = at.try_part(&self.plain.runs_on).and_then(|thing| match machine.thing(thing) {
            ThingRef::Part(part) => at.try_part(&part.value.material),
            ThingRef::Shaft(shaft) => at.try_part(&shaft.value.material),
            ThingRef::Bearing(_) => None,
        });
        let other = other.map(|other| machine.follow(other));
        let material = match other {
            Some(other) if soft(other) && !soft(own) => other,
            _ => own,
        };
        Ok(Lining { material, sliding: at.part(&material.sliding)? })
    }

    fn load(&self, at: &At, which: Load) -> Found<Force> {
        if let Some(load) = at.try_get(&self.plain.load) {
            return Ok(load);
        }
        let Some(wheel) = at.try_part(&self.plain.wheel) else { return at.need(&self.plain.load) };
        let case = at.case()?;
        let about = &at.machine().machine;
        let weight = if case.kind.lifts_off() {
            Force::ZERO
        } else {
            let loaded = at.need(&about.mass)?;
            let payload = if case.payload == Some(false) { at.need(&about.payload.mass)? } else { Mass::ZERO };
            if payload >= loaded {
                return Err(NotJudged::NoSolution("the payload weighs as much as the whole machine".into()));
            }
            weight_share(loaded - payload, at.need(&wheel.share_of_weight)?)
        };
        let wrap = at.need(&wheel.track_wrap)?;
        if wrap == Angle::ZERO {
            return Ok(weight);
        }
        let track = at.track()?;
        let tension = match which {
            Load::Highest => track.tight - track.centrifugal,
            Load::Lasting => track.tight - track.centrifugal - track.run_over,
        };
        Ok(weight + wrap_load(tension, wrap) / at.need(&wheel.bushes)?)
    }

    fn pressure(&self, at: &At, which: Load) -> Found<Pressure> {
        Ok(projected_pressure(self.load(at, which)?, at.need(&self.plain.bore)?, at.need(&self.plain.length)?))
    }

    fn speed(&self, at: &At) -> Found<Velocity> {
        let bore = at.need(&self.plain.bore)?;
        if let Some(swing) = at.try_part(&self.plain.swing) {
            return Ok(swinging_speed(at.need(&swing.angle)?, bore, at.need(&swing.frequency)?));
        }
        if let Some(speed) = at.try_get(&self.plain.speed) {
            return Ok(rubbing_speed(speed, bore));
        }
        let Some(wheel) = at.try_part(&self.plain.wheel) else {
            return at.need(&self.plain.speed).map(|speed| rubbing_speed(speed, bore));
        };
        Ok(rubbing_speed(wheel_speed(at.track()?.speed, at.need(&wheel.radius)?), bore))
    }

    fn surroundings(&self, at: &At) -> Found<ThermodynamicTemperature> {
        let known = at.temperatures()?.bearings.get(self.index).cloned();
        known.unwrap_or_else(|| Err(NotJudged::NoSolution("no air is known round this bearing".into())))
    }

    /// As measured; else the air round it and what its own rubbing adds.
    fn temperature(&self, at: &At, lining: &Lining<'_>) -> Found<ThermodynamicTemperature> {
        if !turns(at)? {
            return self.surroundings(at);
        }
        if let Some(measured) = at.try_get(&self.plain.temperature) {
            return Ok(measured);
        }
        let air = self.surroundings(at)?;
        let friction = match at.try_get(&lining.sliding.friction) {
            Some(friction) => friction,
            None => at.or(&lining.material.friction, &at.assumed().dry_friction)?,
        };
        let heat = frictional_heat(friction, self.load(at, Load::Lasting)?, self.speed(at)?);
        Ok(air + bush_warming(heat, at.need(&at.assumed().bush_conductance)?))
    }

    fn lubrication(&self, at: &At) -> Lubrication {
        at.or_word(&self.plain.lubrication, Lubrication::None, "none")
    }

    fn required(&self, at: &At) -> Required {
        match at.or_word(&self.plain.dirt, Dirt::Dusty, "dusty") {
            Dirt::Clean => Required { value: 1.5, why: "runs clean" },
            Dirt::SnowAndGrit if self.lubrication(at) == Lubrication::None => {
                Required { value: 3.0, why: "runs dry in grit" }
            }
            Dirt::Dusty | Dirt::SnowAndGrit | Dirt::Mud => Required { value: 2.0, why: "gets dirty" },
        }
    }

    fn judge_pressure(&self, at: &At<'a>) -> Found<Outcome> {
        if at.case()?.kind.lands() {
            return Ok(LANDS);
        }
        let lining = self.lining(at)?;
        let pressure = self.pressure(at, Load::Highest)?;
        let limit = self.pressure_limit(at, &lining)?;
        let margin = Margin::ratio::<m::Stress>(pressure, limit, self.required(at), Consequence::RunOver);
        Ok(Outcome::Held(says::pressure(self, at, margin)))
    }

    /// That the lining has gone soft, where it has.
    fn gone_soft(&self, at: &At<'a>) -> Option<String> {
        let lining = self.lining(at).ok()?;
        strength::gone_soft(at, lining.material, self.temperature(at, &lining).ok()?)
    }

    /// As strong as the material is at the bush's temperature.
    fn pressure_limit(&self, at: &At<'a>, lining: &Lining<'_>) -> Found<Pressure> {
        let limit = at.need(&lining.sliding.p_limit)?;
        if at.try_part(&lining.material.strength_at).is_none() {
            return Ok(limit);
        }
        Ok(limit * strength::warmth(at, lining.material, self.temperature(at, lining)?)?)
    }

    /// What one bush takes of a landing; nothing where this one spares its corner.
    fn landed(&self, at: &At<'a>, wheel: &Wheel) -> Found<Force> {
        let machine = at.machine();
        let corner = machine.follow(at.part(&wheel.corner)?);
        let index = machine.suspension.iter().position(|other| other.id() == corner.id());
        let landing = at.landing()?;
        let at_damper = match index.and_then(|index| landing.corners.get(index)) {
            Some(Ok(landed)) => landed.force,
            Some(Err(gap)) => return Err(gap.clone()),
            None => return Err(NotJudged::NoSolution("the landing of this corner is not worked out".into())),
        };
        if at_damper == Force::ZERO {
            return Ok(Force::ZERO);
        }
        // The bushes that share the force of one track stand at as many springs as the corner has for each track.
        let tracks = at.or_take(&machine.powertrain.track.count, Ratio::from_si(1.0), "1");
        let at_one_spring = at.need(&wheel.bushes)? * tracks / at.need(&corner.count)?;
        Ok(force_at_wheel(at_damper, at.need(&corner.motion_ratio)?) / at_one_spring)
    }

    fn judge_landing(&self, at: &At<'a>) -> Found<Outcome> {
        if !at.case()?.kind.lands() {
            return Ok(Outcome::Aside("nothing lands in this case"));
        }
        let Some(wheel) = at.try_part(&self.plain.wheel) else {
            return Ok(Outcome::Aside("it carries no wheel that could land"));
        };
        if at.machine().suspension.is_empty() {
            return Ok(Outcome::Aside("this machine has no sprung corner"));
        }
        let load = self.landed(at, wheel)?;
        if load == Force::ZERO {
            return Ok(Outcome::Aside("its corner is spared in this landing"));
        }
        let pressure = projected_pressure(load, at.need(&self.plain.bore)?, at.need(&self.plain.length)?);
        let limit = self.pressure_limit(at, &self.lining(at)?)?;
        let required = Required { value: 1.5, why: "a short blow" };
        let margin = Margin::ratio::<m::Stress>(pressure, limit, required, Consequence::RunOver);
        Ok(Outcome::Held(says::landing(self, wheel, at, margin, load)))
    }

    fn judge_speed(&self, at: &At<'a>) -> Found<Outcome> {
        if !turns(at)? {
            return Ok(STANDS);
        }
        let limit = at.need(&self.lining(at)?.sliding.v_limit)?;
        let margin = Margin::ratio::<m::SurfaceSpeed>(self.speed(at)?, limit, self.required(at), Consequence::RunOver);
        Ok(Outcome::Held(says::speed(self, at, margin)))
    }

    fn judge_product(&self, at: &At<'a>) -> Found<Outcome> {
        if !turns(at)? {
            return Ok(STANDS);
        }
        let lining = self.lining(at)?;
        let dry = &lining.sliding.pv_limit;
        let limit = match self.lubrication(at) {
            Lubrication::None => at.need(dry)?,
            Lubrication::Grease | Lubrication::Oil => at.or(&lining.sliding.pv_limit_greased, dry)?,
            Lubrication::Water => at.or(&lining.sliding.pv_limit_wet, dry)?,
        };
        let (speed, pressure) = (self.speed(at)?, self.pressure(at, Load::Lasting)?);
        // A p·v limit already contains the bush's own rubbing: only the air round it counts here.
        let here = self.surroundings(at)?;
        let left = derating(here, at.need(&lining.sliding.temperature_max)?);
        let (demand, capacity) = (pressure_speed(pressure, speed), limit * left);
        let margin = Margin::ratio::<m::PressureSpeed>(demand, capacity, self.required(at), Consequence::RunOver);
        Ok(Outcome::Held(says::product(self, at, margin, here)))
    }

    fn judge_temperature(&self, at: &At<'a>) -> Found<Outcome> {
        if !turns(at)? {
            return Ok(STANDS);
        }
        let lining = self.lining(at)?;
        let highest = at.need(&lining.sliding.temperature_max)?;
        let here = self.temperature(at, &lining)?;
        let required = Required { value: 10.0, why: "a surface is hotter in spots" };
        let yardstick = TemperatureInterval::from_si(20.0);
        let margin = Margin::gap::<m::Temperature, m::TemperatureDifference>(
            here,
            highest,
            yardstick,
            required,
            Consequence::RunOver,
        );
        Ok(Outcome::Held(says::temperature(self, at, margin)))
    }
}

fn soft(material: &Material) -> bool {
    matches!(material.family, Family::PrintedPolymer | Family::Polymer | Family::Elastomer | Family::Wood)
}
