//! The words of each check.

use physics::bend::{flattening, outer_stretch};
use rule::prelude::*;

pub(crate) fn kink(at: &At, hose: &Hose, margin: Margin) -> Margin {
    let (held, required) = (margin.held, margin.required.value);
    margin.tell(at, |w| {
        w.happens =
            "the hose folds shut in its tightest bend: nothing flows any more, and everything that it cools gets hot"
                .into();
        flattened(at, hose, w);
        w.label(hose.tightest_bend.id(), "bent too far");
        if let Held::Ratio { demand, .. } = held {
            let radius = Length::from_si(demand.si * required);
            w.at_least(&hose.tightest_bend, radius, |radius| format!("a bend radius of at least {radius}"));
        }
        if hose.bent.there().is_none() && !at.is_given(&hose.bend_radius_min) {
            w.label(hose.wall.id(), "a thin wall folds early");
            w.clears.push("a thicker wall of the same bore, or a hose with an insert of wire".into());
            w.clears
                .push("bend a piece from the freezer round a bottle, and note the radius that it stands (bent)".into());
        }
        w.clears.push("an elbow fitting in place of the bend".into());
    })
}

/// How flat it is, and how far its outside is stretched.
fn flattened(at: &At, hose: &Hose, w: &mut Words) {
    let sizes = (at.try_get(&hose.bore), at.try_get(&hose.wall), at.try_get(&hose.tightest_bend));
    let (Some(bore), Some(wall), Some(bend)) = sizes else { return };
    let stretch = shown::<m::Growth>(outer_stretch(bore, wall, bend));
    w.numbers.push(format!("Its outside is stretched by {stretch} there."));
    let poisson = hose.material.there().and_then(|material| at.try_get(&at.machine().follow(material).poisson));
    if let Some(flat) = poisson.map(|poisson| flattening(bore, wall, bend, poisson))
        && flat.si() < 2.0 / 9.0
    {
        w.numbers
            .push(format!("It is pressed flat by {} of its radius; at 22.2 % it folds.", shown::<m::Growth>(flat)));
    }
}

pub(crate) fn stiffness(hose: &Hose, at: &At, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        w.happens = "the hose gets as stiff as plastic in the cold: it no longer fills its barb under the clamp and weeps, and \
                     pulls at the fitting when anything moves"
            .into();
        another(hose, w);
        w.clears.push("clamps that follow (spring clamps), and barbs with a rounded lip".into());
    })
}

pub(crate) fn cracks(hose: &Hose, at: &At, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        w.happens = "the hose cracks when it is moved or knocked in the cold, and the coolant is gone".into();
        if hose.bent.there().is_some() {
            w.numbers.push("It was bent in the cold, but not in such cold.".into());
        }
        another(hose, w);
        if hose.moves.there() != Some(&false) {
            w.label(hose.moves.id(), "what moves needs more reserve");
            w.clears.push("tie it down so that nothing moves it".into());
        }
        w.clears.push("bend a piece from a colder freezer round a bottle, and note it (bent)".into());
    })
}

fn another(hose: &Hose, w: &mut Words) {
    w.label(hose.material.id(), "its material in the cold");
    w.clears.push("a hose of silicone, or of EPDM made for cold".into());
}
