//! The words of each check.

use rule::prelude::*;

const LARGER: &str = "the next larger bearing on a thicker shaft, or two side by side";

pub(crate) fn blow(
    bearing: &Named<Bearing>,
    rolling: &RollingBearing,
    at: &At<'_>,
    guessed: bool,
    margin: Margin,
) -> Margin {
    let enough = rated(&margin);
    margin.tell(at, |w| {
        w.happens =
            format!("the balls of {} dent their tracks: it runs rough and is worn out within days", bearing.name());
        from_size(guessed, w);
        w.label(rolling.static_rating.id(), "what it takes at rest");
        if !guessed {
            w.at_least(&rolling.static_rating, enough, |c0| format!("a bearing with a static rating of {c0}"));
        }
        w.clears.push(LARGER.into());
        w.clears.push("bearings farther from the hardest-loaded wheel, so that they share its force".into());
    })
}

pub(crate) fn grease(bearing: &Named<Bearing>, rolling: &RollingBearing, at: &At<'_>, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        w.happens = format!(
            "the grease of {} is stiff: it drags, and its balls slide dry until it has warmed up",
            bearing.name()
        );
        w.label(rolling.grease_from.id(), "its grease is made for no colder");
        w.clears.push("washed out and filled with grease for the cold (ester or silicone oil, thin)".into());
        w.clears.push("a bearing with such grease from its maker".into());
    })
}

pub(crate) fn life(
    bearing: &Named<Bearing>,
    rolling: &RollingBearing,
    at: &At<'_>,
    guessed: bool,
    force: Force,
    margin: Margin,
) -> Margin {
    margin.tell(at, |w| {
        w.happens = format!("{} is worn out before the season is", bearing.name());
        w.numbers.push(format!("It carries {}.", shown::<m::Force>(force)));
        from_size(guessed, w);
        w.label(rolling.rating.id(), "what it takes for a million turns");
        w.clears.push(LARGER.into());
        w.clears.push("a new one at each service: write it under `service.every`".into());
    })
}

/// The rating with which its reserve is what is required.
fn rated(margin: &Margin) -> Force {
    match margin.held {
        Held::Ratio { demand, .. } | Held::Gap { demand, .. } => Force::from_si(demand.si * margin.required.value),
    }
}

fn from_size(guessed: bool, w: &mut Telling<'_>) {
    if guessed {
        w.numbers.push("Its ratings are worked out from its size; its maker's page gives better ones.".into());
    }
}
