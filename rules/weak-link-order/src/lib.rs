#![no_std]
//! What fails first between motor and ground. It never knows: which rule a margin comes from, how it was worked out.

use rule::prelude::*;

#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "weak-link-order",
    area: Area::Powertrain,
    question: "When the track jams or lands hard, does the cheap guarded part go first?",
    explains: "Something is always the weakest. Out on the trail it should be a pin that is changed in five minutes, not a gear; and \
               whoever strengthens one part moves the failure to the next one.",
    formula: "all margins that are told in torque of the motor, in the order of their reserves; the first one should be one that \
              `guards`",
    source: "common practice, no source",
    checked: "an order of numbers: there is no formula to check. Each margin is taken where it is thinnest, so a guard is compared \
              in its hardest case with a gear in its own. The track, its pins and the motor itself are not in the order: what \
              they stand is not told in torque.",
    required: "a guard wherever the first to go has less than twice the reserve that it wants",
    caution: "",
};

#[derive(Debug)]
pub struct WeakLinkOrder;

/// Headroom under which the first to go is worth a guard.
const GUARD_BELOW: f64 = 1.0;

impl Overview for WeakLinkOrder {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn look(&self, _: &Machine, margins: &[Judged<'_>], notes: &mut Notes) {
        let mut links: Vec<Link<'_>> = margins.iter().filter_map(link).collect();
        links.sort_by(|a, b| a.reserve.total_cmp(&b.reserve).then(a.margin.subject.cmp(b.margin.subject)));
        let Some(first) = links.first() else { return };
        let guard = links.iter().find(|link| link.guards());
        if first.guards() || (guard.is_none() && first.margin.headroom >= GUARD_BELOW) {
            return;
        }
        notes.add(remark(first, guard, &links));
    }
}

/// A margin of the drive line.
struct Link<'a> {
    margin: &'a Judged<'a>,
    reserve: f64,
    /// Of the motor, at which it goes.
    goes_at: Torque,
    /// Of the motor, what its hardest case asks.
    asked: Torque,
}

impl Link<'_> {
    fn guards(&self) -> bool {
        self.margin.consequence == Consequence::CheapPart
    }
    fn called(&self) -> String {
        format!("{}, {}", self.margin.subject.name, self.margin.check)
    }
}

fn link<'a>(margin: &'a Judged<'a>) -> Option<Link<'a>> {
    let Held::Ratio { demand, capacity } = margin.held else { return None };
    let on_the_line = demand.kind.key == <m::Torque as quantity::Measure>::KIND.key;
    (on_the_line && margin.held.reserve().is_finite()).then(|| Link {
        margin,
        reserve: margin.held.reserve(),
        goes_at: Torque::from_si(capacity.si),
        asked: Torque::from_si(demand.si),
    })
}

fn remark(first: &Link<'_>, guard: Option<&Link<'_>>, links: &[Link<'_>]) -> Remark {
    let mut w = Words::default();
    let (check, goes) = (first.margin.check, torque(first.goes_at));
    w.happens = match guard {
        Some(guard) => format!(
            "it fails before the part that is meant to protect it ({check}, at {goes} of the motor; {} holds until {})",
            guard.called(),
            torque(guard.goes_at)
        ),
        None => format!(
            "it is the first to fail in the whole drive line ({check}, at {goes} of the motor), and nothing cheap before it"
        ),
    };
    let next: Vec<String> = links
        .iter()
        .skip(1)
        .take(3)
        .map(|link| format!("{} ({} times what is asked)", link.called(), ratio(link.reserve)))
        .collect();
    w.numbers.push(format!("It has {} times what its hardest case asks.", ratio(first.reserve)));
    if !next.is_empty() {
        w.numbers.push(format!("Once it is strengthened, the next to fail are: {}.", next.join("; ")));
    }
    w.label(first.margin.subject.node, "fails first");
    let (least, most) = (first.asked * GUARD_RESERVE, first.goes_at / BELOW_THE_FIRST);
    w.clears.push(if least < most {
        format!(
            "a shear pin or a slipping clutch that lets go between {} and {} of the motor (`guards: yes`), with spares at hand",
            torque(least),
            torque(most)
        )
    } else {
        "strengthen it first: there is no room for a guard between what is asked and what it holds".into()
    });
    let (check, consequence) =
        (if guard.is_some() { "guard too strong" } else { "no guard" }, first.margin.consequence);
    Remark { subject: first.margin.subject.clone(), check, verdict: Verdict::Thin, consequence, words: w }
}

/// How much earlier than the first to go it must let go.
const BELOW_THE_FIRST: f64 = 1.25;
/// What a guard wants itself over what is asked.
const GUARD_RESERVE: f64 = 1.5;

fn torque(of: Torque) -> String {
    show(of.si(), <m::Torque as quantity::Measure>::KIND, None)
}

fn ratio(of: f64) -> String {
    show(of, <m::Ratio as quantity::Measure>::KIND, None)
}
