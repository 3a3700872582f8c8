//! The words of each check.

use crate::metals::Body;
use crate::touch::{By, ITS_SEAL, Touch};
use rule::prelude::*;

fn named(liquid: Substance) -> &'static str {
    match liquid {
        Substance::Water => "water",
        Substance::EthyleneGlycolWater => "ethylene glycol and water",
        Substance::PropyleneGlycolWater => "propylene glycol and water",
        Substance::WaterFreeGlycol => "glycol without water",
        Substance::AlcoholWater => "alcohol and water",
        Substance::MineralOil => "oil or the grease made of it",
        Substance::SiliconeOil => "silicone oil or grease",
        Substance::ThreadLocker => "thread locker",
    }
}

fn does(attack: Attack) -> &'static str {
    match attack {
        Attack::Swells => "swells it: it grows soft, is squeezed out of its groove or slips off its barb, and leaks",
        Attack::Cracks => "cracks it where it is under stress, mostly round screws and in corners, without warning",
        Attack::Hardens => "makes it hard and small: it slips off, or cracks where it is bent",
        Attack::BreaksDown => "breaks it down: it gets brittle, and one day it is in pieces",
        Attack::Dissolves => "dissolves it",
    }
}

pub(crate) fn clear(at: &At, because: &str) -> Words {
    let mut w = Words::default();
    if at.tells() {
        w.happens = because.into();
    }
    w
}

pub(crate) fn attacked(
    at: &At,
    touch: &Touch<'_>,
    material: &str,
    liquid: Substance,
    (attack, node): (Attack, NodeId),
) -> Words {
    let mut w = Words::default();
    if at.tells() {
        w.happens = format!("{} on {material} {}", named(liquid), does(attack));
        w.label(node, "what is known of the two");
        wets(at, touch, &mut w);
        clears(touch, &mut w);
    }
    w
}

pub(crate) fn holds(
    at: &At,
    touch: &Touch<'_>,
    (material, liquid): (&str, Substance),
    resistance: &Resistance,
    margin: Margin,
) -> Margin {
    margin.tell(at, |w| {
        w.happens = format!(
            "{} is too hot for {material}: within weeks or months it grows soft or brittle, and leaks or breaks",
            named(liquid)
        );
        match resistance.soaked.there() {
            Some(soaked) if at.is_given(&resistance.holds_to) => {
                w.label(soaked.duration.id(), "a week counts, less shows little");
                w.label(resistance.holds_to.id(), "stands this for years");
            }
            Some(soaked) => w.label(soaked.temperature.id(), "your sample lay in it as warm as this"),
            None => w.label(resistance.holds_to.id(), "stands this for years"),
        }
        wets(at, touch, w);
        clears(touch, w);
        w.clears.push(
            "soak a sample of your own at the highest temperature for a week, and weigh it (soaked: {…}): that counts \
             before any chart"
                .into(),
        );
    })
}

fn wets(at: &At, touch: &Touch<'_>, w: &mut Words) {
    w.label(touch.material.id(), "gets wet");
    match touch.by {
        By::Coolant => w.label(at.machine().cooling.coolant.fluid.id(), "with this"),
        By::Grease(grease) => w.label(grease.id(), "with this"),
        By::Locker(locked) => w.label(locked, "with this"),
    }
}

fn clears(touch: &Touch<'_>, w: &mut Words) {
    let clears = match (touch.by, touch.check == ITS_SEAL) {
        (By::Coolant, true) => "a seal of another rubber: EPDM stands water and glycols",
        (By::Coolant, false) => {
            "another material there: aluminium, nylon or PPS for bodies, EPDM or silicone rubber for hoses"
        }
        (By::Grease(_), _) => "the other kind of grease: silicone on EPDM, mineral on NBR and on silicone rubber",
        (By::Locker(_), _) => "a lock nut or a lock washer in place of thread locker, or metal under the screw",
    };
    w.clears.push(clears.into());
}

fn pair(eaten: Body<'_>, noble: Body<'_>, w: &mut Words) {
    w.label(eaten.part.value.material.id(), "is eaten");
    w.label(noble.part.value.material.id(), "eats it");
}

pub(crate) fn metals(at: &At, eaten: Body<'_>, noble: Body<'_>, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        let [loses, wins] = [eaten, noble].map(|body| (&body.part.key.name, &body.material.key.name));
        w.happens = format!(
            "{} of {} is eaten into holes because {} of {} hangs in the same coolant: it leaks, and the crumbs clog pump \
             and strainer",
            loses.0, loses.1, wins.0, wins.1
        );
        let [low, high] = [noble, eaten].map(|body| shown::<m::Voltage>(body.index));
        w.numbers.push(format!("Their places in the series of metals in salt water are {high} and {low} below gold."));
        pair(eaten, noble, w);
        w.label(at.machine().cooling.coolant.inhibited.id(), "nothing keeps them from each other");
        w.clears.push("a ready-mixed coolant with inhibitor (inhibited: yes)".into());
        w.clears.push(format!("{} of the same metal as {}", wins.0, loses.0));
    })
}

pub(crate) fn inhibitor(at: &At, eaten: Body<'_>, noble: Body<'_>, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        w.happens = format!(
            "the inhibitor is used up before the coolant is changed: from then on {} is eaten because {} hangs in the same \
             coolant",
            eaten.part.key.name, noble.part.key.name
        );
        w.label(at.machine().cooling.coolant.changed_after.id(), "stays in so long");
        pair(eaten, noble, w);
        w.clears.push("change the coolant sooner, all of it: topping up does not bring the inhibitor back".into());
    })
}
