//! What the workshop requires in place of the rules, and what its profile makes of a consequence. It is put into every run,
//! so that whatever looks at margins later (a verdict, a sample, a remedy) finds it there.

use crate::finding::Finding;
use crate::run::Run;
use machine::{AreaName, Key, Machine, Named, NodeId, Profile, RequiredReserve, Reserve, Workshop, nearest};
use quantity::show;
use rule::{Area, Card, Checked, Consequence, Held, Margin, Outcome, Required, Subject, Verdict};

/// What the workshop requires of a margin.
#[derive(Debug, Clone, PartialEq)]
pub struct Demanded {
    /// The reserve's name, and where it is written.
    pub key: Key,
    pub at: NodeId,
    pub reason: String,
    /// What the rule itself wants.
    pub rule: Required,
    /// What it would come to with that.
    pub without: Verdict,
}

/// Puts what the workshop says into checks that have just run.
pub(crate) fn settle(machine: &Machine, card: &Card, done: &mut [(usize, Checked)]) {
    let workshop = machine.workshop();
    if workshop.reserves.is_empty() && workshop.profile.is_none() {
        return;
    }
    for (_, checked) in done {
        match &mut checked.outcome {
            Outcome::Held(margin) => {
                let required = strongest(workshop, card, &checked.subject, &margin.held);
                margin.consequence = consequence(workshop, margin.consequence);
                if let Some((_, value)) = required {
                    let why = "required by the workshop";
                    margin.replaced = Some(std::mem::replace(&mut margin.required, Required { value, why }));
                    if margin.held.headroom(value).is_nan() {
                        checked.outcome = Outcome::Broken("the calculation gave no number".into());
                    }
                }
            }
            Outcome::Breach { consequence: costs, .. } => *costs = consequence(workshop, *costs),
            _ => {}
        }
    }
}

/// Nobody is there to take an unattended machine home.
fn consequence(workshop: &Workshop, consequence: Consequence) -> Consequence {
    match (workshop.profile, consequence) {
        (Some(Profile::Carrier), Consequence::RunOver) => Consequence::Stranded,
        _ => consequence,
    }
}

/// Whether a finding is told and refuses nothing.
pub(crate) fn is_advice(workshop: &Workshop, finding: &Finding) -> bool {
    workshop.profile == Some(Profile::Sport)
        && finding.consequence == Some(Consequence::CheapPart)
        && matches!(finding.verdict, Verdict::Fails | Verdict::Thin)
}

/// The reserve that counts for a margin: for the thing before for the rule, for the rule before for the area.
fn strongest<'a>(
    workshop: &'a Workshop,
    card: &Card,
    subject: &Subject,
    held: &Held,
) -> Option<(&'a Named<RequiredReserve>, f64)> {
    let fitting = workshop.reserves.iter().filter(|reserve| is_for(reserve, card, subject));
    let of_kind = fitting.filter_map(|reserve| Some((reserve, amount(&reserve.reserve, held)?)));
    of_kind.max_by_key(|(reserve, _)| (reserve.on.is_some(), reserve.rule.is_some(), reserve.area.is_some()))
}

fn amount(reserve: &Reserve, held: &Held) -> Option<f64> {
    match held {
        Held::Ratio { .. } => reserve.ratio(),
        Held::Gap { kind, .. } => reserve.gap(kind),
    }
}

fn is_for(reserve: &RequiredReserve, card: &Card, subject: &Subject) -> bool {
    reserve.rule.as_ref().is_none_or(|rule| rule == card.name)
        && reserve.area.is_none_or(|area| area == area_name(card.area))
        && reserve.on.as_ref().is_none_or(|on| *on == subject.name)
}

fn area_name(area: Area) -> AreaName {
    match area {
        Area::Powertrain => AreaName::Powertrain,
        Area::Cooling => AreaName::Cooling,
        Area::Structure => AreaName::Structure,
        Area::Suspension => AreaName::Suspension,
        Area::WholeMachine => AreaName::WholeMachine,
    }
}

/// Where the requirement of a margin comes from; none where it is the rule's own.
pub(crate) fn demanded(workshop: &Workshop, card: &Card, subject: &Subject, margin: &Margin) -> Option<Demanded> {
    let rule = margin.replaced.clone()?;
    let (reserve, _) = strongest(workshop, card, subject, &margin.held)?;
    let without = margin.held.verdict(rule.value);
    let (key, reason) = (reserve.key.clone(), reserve.reason.clone());
    Some(Demanded { key, at: reserve.reserve.id, reason, rule, without })
}

/// Shows the line of the workshop's file where that decides.
pub(crate) fn label(finding: &mut Finding) {
    let Some(governing) = &finding.governing else { return };
    let Some(demanded) = governing.demanded.as_ref().filter(|demanded| demanded.without != finding.verdict) else {
        return;
    };
    let wants = match governing.margin.held {
        Held::Ratio { .. } => format!("{:.2}", demanded.rule.value),
        Held::Gap { kind, .. } => {
            let kelvin = kind.key == "temperature_difference";
            show(demanded.rule.value, kind, kind.units.first().filter(|_| kelvin))
        }
    };
    let says = format!("without this it would be {}: the rule itself wants {wants}", demanded.without.word());
    let at = demanded.at;
    // Otherwise this would be its only place.
    if finding.words.labels.is_empty() {
        finding.words.label(finding.subject.node, "here");
    }
    finding.words.label(at, says);
}

/// A reserve that no margin answers to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unused {
    pub key: Key,
    pub why: Unfitting,
}

#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Unfitting {
    /// Nothing that it could be for is judged on this machine.
    Nothing,
    /// Nothing that is judged has this name.
    Subject { wanted: String, nearest: Option<String> },
    /// What it is for is a ratio and it requires a difference, or the other way round, or a difference of another kind.
    Measure,
}

/// Reserves that no margin of the machine answers to. One that waits for what is not judged yet is none of them.
pub(crate) fn unused(machine: &Machine, cards: &[&'static Card], run: &Run) -> Vec<Unused> {
    let rows = || run.rows().filter_map(|(place, _, checked)| Some((*cards.get(place.rule)?, checked)));
    let why = |reserve: &Named<RequiredReserve>| {
        let mut other_measure = false;
        for (_, checked) in rows().filter(|(card, checked)| is_for(reserve, card, &checked.subject)) {
            match &checked.outcome {
                Outcome::Held(margin) if amount(&reserve.reserve, &margin.held).is_none() => other_measure = true,
                Outcome::Held(_) | Outcome::NotJudged(_) => return None,
                Outcome::Breach { .. } | Outcome::Clear(_) | Outcome::Aside(_) | Outcome::Broken(_) => {}
            }
        }
        let unknown = reserve.on.as_ref().filter(|on| rows().all(|(_, checked)| checked.subject.name != **on));
        Some(match unknown {
            Some(wanted) => {
                let near = nearest(wanted, rows().map(|(_, checked)| checked.subject.name.as_str()));
                Unfitting::Subject { wanted: wanted.clone(), nearest: near.map(str::to_owned) }
            }
            None if other_measure => Unfitting::Measure,
            None => Unfitting::Nothing,
        })
    };
    let reserves = machine.workshop().reserves.iter();
    reserves.filter_map(|reserve| Some(Unused { key: reserve.key.clone(), why: why(reserve)? })).collect()
}

#[cfg(test)]
mod tests;
