//! What `workshop.yaml` has to do with a review: one line on what it decides, one for each reserve that fits nothing.

use crate::clean::{clean, short};
use crate::json::{Said, Spot, Workshop};
use crate::source::Sources;
use engine::{Finding, Review, Unfitting, Unused};
use machine::{Document, Machine, NodeId, Profile};
use std::collections::BTreeMap;

/// The file's name; none where it says nothing.
fn name(document: &Document) -> Option<String> {
    let file = document.workshop.as_ref()?.file;
    document.file(file).map(|file| clean(&file.name))
}

/// What a profile changes.
fn means(profile: Profile) -> &'static str {
    match profile {
        Profile::Sport => "what is cheap and meant to wear or give way is advice: it is told, and refuses nothing",
        Profile::Carrier => {
            "people are near unless the spec says `people_near: no`; a day that is over counts as a machine left outside"
        }
    }
}

/// How many verdicts it decides, and which.
fn decides(review: &Review) -> Option<String> {
    let demanded = |finding: &Finding| Some(finding.governing.as_ref()?.demanded.as_ref()?.without);
    let mut counts: BTreeMap<(rule::Verdict, rule::Verdict), usize> = BTreeMap::new();
    for finding in &review.findings {
        if let Some(without) = demanded(finding).filter(|without| *without != finding.verdict) {
            *counts.entry((finding.verdict, without)).or_default() += 1;
        }
    }
    let told = |((now, without), count): (&(rule::Verdict, rule::Verdict), &usize)| {
        format!("{count} {} that would be {} by the rule", now.word(), without.word())
    };
    let told: Vec<String> = counts.iter().map(told).collect();
    (!told.is_empty()).then(|| told.join(", "))
}

/// A reserve that fits nothing, in words; and the way out.
pub(crate) fn unfitting(unused: &Unused) -> (String, String) {
    let name = short(&unused.key.name);
    match &unused.why {
        Unfitting::Nothing => (
            format!("the reserve `{name}` answers to no margin of this machine"),
            "right if it is for another machine".into(),
        ),
        Unfitting::Measure => (
            format!("the reserve `{name}` is of another kind than the margins that it is for"),
            "a ratio wants a bare number such as `1.5`, a difference its unit, such as `8 K`".into(),
        ),
        Unfitting::Subject { wanted, nearest } => {
            let help = nearest.as_ref().map_or_else(
                || "right if it is for another machine".to_owned(),
                |near| format!("did you mean `{}`?", short(near)),
            );
            (
                format!(
                    "the reserve `{name}` is for `{}`, and nothing that is judged here has that name",
                    short(wanted)
                ),
                help,
            )
        }
    }
}

/// For a summary: a line each.
pub(crate) fn lines(document: &Document, machine: &Machine, review: &Review, sources: &Sources) -> Vec<String> {
    let Some(file) = name(document) else { return Vec::new() };
    let mut out = Vec::new();
    if let Some(profile) = machine.workshop().profile {
        out.push(format!("{file}: profile {profile}: {}", means(profile)));
    }
    out.extend(decides(review).map(|told| format!("{file} decides {told}")));
    for unused in &review.unused_reserves {
        let place = document.place(unused.key.id);
        let (says, help) = unfitting(unused);
        out.push(format!("{}: {says}; {help}", sources.at(usize::from(place.file.0), place.label.start as usize)));
    }
    out
}

/// As data.
pub(crate) fn page(
    document: &Document,
    machine: &Machine,
    review: &Review,
    at: &dyn Fn(NodeId) -> Spot,
) -> Option<Workshop> {
    let workshop = machine.workshop();
    let unused = review.unused_reserves.iter().map(|unused| {
        let (says, help) = unfitting(unused);
        Said { says, help, at: at(unused.key.id) }
    });
    Some(Workshop {
        file: name(document)?,
        profile: workshop.profile.map(|profile| profile.word().to_owned()),
        means: workshop.profile.map(|profile| means(profile).to_owned()),
        refuse: workshop.refuse.map(|level| level.word().to_owned()),
        unused_reserves: unused.collect(),
    })
}
