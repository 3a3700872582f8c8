//! The words of each check, and the search for what would clear it.

use crate::{Locking, REQUIRED, Strut};
use landing::{Resistance, resistance_at, viscosity, with_holes};
use rule::prelude::*;

const ROOM: f64 = 293.15;

fn newton(force: Force) -> String {
    shown::<m::Force>(force)
}

fn degrees(temperature: ThermodynamicTemperature) -> String {
    shown::<m::Temperature>(temperature)
}

pub(crate) fn locking(strut: &Strut<'_>, at: &At, locking: &Locking, margin: Margin) -> Margin {
    let fails = margin.held.fails();
    margin.tell(at, |w| {
        let damper = strut.corner.damper.there();
        let room = damper.map(|damper| resistance_at(at, damper, ThermodynamicTemperature::from_si(ROOM)));
        let warm = room.and_then(Result::ok).map(|resistance| resistance.force_at(locking.speed));
        // Then it is its holes, and no lighter oil helps.
        let always = !locking.gelled && warm.is_some_and(|warm| warm * REQUIRED > locking.limit);
        w.happens = happens(locking.gelled, always, fails).into();
        let limit =
            if locking.by_mount { "its weaker mount takes" } else { "twice its spring at the end of the stroke is" };
        let (force, most) = (newton(locking.force), newton(locking.limit));
        w.numbers.push(format!("It pushes its mounts with {force}; {limit} {most}."));
        let air = at.surroundings().map(|surroundings| surroundings.outside).ok();
        let holds = |temperature: f64| {
            let resistance =
                damper.map(|damper| resistance_at(at, damper, ThermodynamicTemperature::from_si(temperature)));
            matches!(resistance, Some(Ok(known)) if known.force_at(locking.speed) * REQUIRED <= locking.limit)
        };
        if let Some(air) = air {
            begins(air, holds, "It locks", w);
        }
        if let Some(warm) = warm {
            let seems = if always { "" } else { ": on the bench it seems right" };
            w.numbers.push(format!("At 20 °C it resists with {} at the same speed{seems}.", newton(warm)));
        }
        if let Some(Damper::Oil(damper)) = damper {
            let says = match (locking.gelled, always) {
                (true, _) => "below its pour point here",
                (false, true) => "too thick for these holes even warm",
                (false, false) => "too thick in this cold",
            };
            w.label(damper.oil.id(), says);
            w.label(damper.hole_diameter.id(), "all of the oil has to go through here");
            if !always {
                thinner(at, damper, locking, w);
            }
            drilled(at, damper, locking, air, w);
        } else {
            let says = if locking.gelled { "does not move here" } else { "too stiff in this cold" };
            w.label(strut.corner.damper.id(), says);
            w.clears.push("a lighter oil in it, if it can be opened".into());
        }
        w.clears
            .push("another kind of damper for the cold: friction or rubber, or none with a taller bump stop".into());
    })
}

fn happens(gelled: bool, always: bool, fails: bool) -> &'static str {
    match (gelled, always, fails) {
        (true, _, true) => "the damper's oil has gelled: it stands still like a rod, and the landing breaks its mount",
        (true, _, false) => {
            "the damper's oil has gelled: it stands still like a rod, and its mount just takes the landing"
        }
        (false, true, _) => "the damper lets so little oil through that it pushes its mount like a rod, warm or cold",
        (false, false, true) => {
            "the oil is so thick that the damper hardly moves: its mount takes the landing as from a rod"
        }
        (false, false, false) => "the oil is so thick that the damper pushes nearly as hard as a strut that bottoms",
    }
}

/// From where on, warmer than the air, it does not do it any more.
fn begins(air: ThermodynamicTemperature, holds: impl Fn(f64) -> bool, what: &str, w: &mut Telling<'_>) {
    let (mut cold, mut warm) = (air.si(), ROOM + 20.0);
    if holds(cold) || !holds(warm) {
        return;
    }
    for _ in 0..16 {
        let middle = 0.5 * (cold + warm);
        if holds(middle) { warm = middle } else { cold = middle }
    }
    w.numbers.push(format!("{what} from {} down.", degrees(ThermodynamicTemperature::from_si(warm))));
}

fn thinner(at: &At, damper: &OilDamper, locking: &Locking, w: &mut Telling<'_>) {
    let Ok(air) = at.surroundings().map(|surroundings| surroundings.outside) else { return };
    let Some(oil) = damper.oil.there().map(|oil| at.machine().follow(oil)) else { return };
    match viscosity(at, oil, air) {
        Ok(now) if locking.force > Force::ZERO => {
            let share = locking.limit.si() / REQUIRED / locking.force.si();
            if share < 1.0 {
                let (wants, has) = (shown::<m::KinematicViscosity>(now * share), shown::<m::KinematicViscosity>(now));
                let air = degrees(air);
                w.clears.push(format!(
                    "a lighter oil: at most {wants} at {air}, where this one has {has}; try it warm too"
                ));
            }
        }
        _ => w.clears.push(format!("a lighter oil that still pours below {}, such as a thin silicone", degrees(air))),
    }
}

/// The smallest holes that clear it in this cold, and what they leave of the damping at room temperature.
fn drilled(at: &At, damper: &OilDamper, locking: &Locking, air: Option<ThermodynamicTemperature>, w: &mut Telling<'_>) {
    let (Some(air), Some(now)) = (air, at.try_get(&damper.hole_diameter)) else { return };
    let force = |wide: Length, temperature| match with_holes(at, damper, wide, temperature) {
        Ok(resistance @ Resistance::Flows { .. }) => Some(resistance.force_at(locking.speed)),
        _ => None,
    };
    let clears = |wide: Length| force(wide, air).is_some_and(|force| force * REQUIRED <= locking.limit);
    let (mut narrow, mut wide) = (now, now * 4.0);
    // Holes of all the piston's area are no piston.
    let most = at.try_get(&damper.bore).map_or(wide, |bore| bore * 0.4);
    if wide > most {
        wide = most;
    }
    if clears(narrow) || !clears(wide) {
        return;
    }
    for _ in 0..20 {
        let middle = (narrow + wide) * 0.5;
        if clears(middle) { wide = middle } else { narrow = middle }
    }
    let room = ThermodynamicTemperature::from_si(ROOM);
    let (cold, warm, was) = (force(wide, air), force(wide, room), force(now, room));
    if let (Some(cold), Some(warm), Some(was)) = (cold, warm, was) {
        let (cold, warm, was, air) = (newton(cold), newton(warm), newton(was), degrees(air));
        w.at_least(&damper.hole_diameter, wide, |wide| {
            format!("holes of {wide}: then {cold} at {air}, and {warm} at 20 °C where it was {was}")
        });
    }
}

pub(crate) fn packing(strut: &Strut<'_>, at: &At, time: Time, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        w.happens =
            "the damper lets the spring out so slowly that each bump leaves it lower, until it rides on its stop"
                .into();
        let back = shown::<m::Duration>(time);
        w.numbers.push(format!("It takes {back} to come back; rough ground sends the next bump after 0.3 s."));
        let limit = Time::from_si(crate::BETWEEN_BUMPS);
        let rate = strut.corner.spring.there().and_then(|spring| at.spring_rate(spring).ok());
        let damper = strut.corner.damper.there();
        if let (Some(rate), Some(damper), Ok(air)) = (rate, damper, at.surroundings().map(|around| around.outside)) {
            let holds = |temperature: f64| {
                let resistance = resistance_at(at, damper, ThermodynamicTemperature::from_si(temperature));
                resistance.is_ok_and(|known| known.return_time(rate) * REQUIRED <= limit)
            };
            begins(air, holds, "It packs down", w);
        }
        blame(strut, "lets the spring out too slowly here", w);
        w.clears.push("a lighter oil, larger holes, or a valve that opens on the way out".into());
        w.clears.push("a stiffer spring with less preload, if the landing leaves it the length".into());
    })
}

pub(crate) fn stuck(strut: &Strut<'_>, at: &At, w: &mut Telling<'_>) {
    w.happens =
        "the damper's oil has gelled: a spring that was pushed in stays in, and the machine rides on rods".into();
    if let Ok(air) = at.surroundings().map(|around| around.outside) {
        w.numbers.push(format!("The air is at {}.", degrees(air)));
        if let Some(Damper::Oil(damper)) = strut.corner.damper.there()
            && let Some(oil) = damper.oil.there().map(|oil| at.machine().follow(oil))
            && let Some(pours) = at.try_get(&oil.pour_point)
        {
            w.numbers.push(format!("{} pours down to {}.", oil.name(), degrees(pours)));
        }
    }
    blame(strut, "does not flow here", w);
    w.clears.push("an oil that pours well below the coldest night, such as a thin silicone; try it warm too".into());
    w.clears.push("another kind of damper for the cold: friction or rubber, or none".into());
}

fn blame(strut: &Strut<'_>, says: &str, w: &mut Telling<'_>) {
    match strut.corner.damper.there() {
        Some(Damper::Oil(damper)) => w.label(damper.oil.id(), says),
        Some(_) => w.label(strut.corner.damper.id(), says),
        None => {}
    }
}
