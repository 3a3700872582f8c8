//! What is missing, what nobody has measured, what was accepted, cautions, and the place to sign.

use super::{Page, capital};
use crate::clean::{clean, short};
use crate::source::Sources;
use crate::{words, workshop};
use engine::{Finding, basis_of, source_of};
use machine::{Basis, NodeId};
use maud::{Markup, html};
use rule::{Card, Verdict};
use std::collections::BTreeSet;

pub(super) fn not_judged(page: &Page<'_>) -> Markup {
    let (document, machine) = (page.document, page.machine);
    let told = |verdict: Verdict| -> Vec<String> {
        let of_it = page.review.findings.iter().filter(|finding| finding.verdict == verdict);
        of_it
            .map(|finding| format!("{} ({})", words::headline(document, machine, finding), finding.card.name))
            .collect()
    };
    let (open, where_judged) = (told(Verdict::NotJudged), told(Verdict::Partly));
    let partly = words::partly(document, machine, page.review);
    html! {
        @if open.is_empty() && partly.is_empty() { p { "All that was asked could be judged." } }
        @if !open.is_empty() {
            ul { @for line in &open { li { (line) } } }
        }
        @if !where_judged.is_empty() {
            h3 { "Sound, but only where it could be judged" }
            ul { @for line in &where_judged { li { (line) } } }
        }
        @if !partly.is_empty() {
            h3 { "Judged, but without these cases" }
            ul { @for line in &partly { li { (line) } } }
        }
        @if !page.review.unlocks.waiting.is_empty() {
            h3 { "Worth finding out first" }
            ol {
                @for unlock in page.review.unlocks.waiting.iter().take(6) {
                    li {
                        code { (words::absent_name(document, machine, unlock.absent)) } " ("
                        @if unlock.checks == 1 { "one check waits for it" } @else { (unlock.checks) " checks wait for it" } ")"
                        @if let Some(how) = words::how(machine, unlock.absent) { ": " (how) }
                    }
                }
            }
        }
    }
}

/// Assumed figures, and figures from memory or common practice that a judged check has read.
pub(super) fn figures(page: &Page<'_>) -> Markup {
    let (document, machine) = (page.document, page.machine);
    let judged = || page.review.findings.iter().filter(|finding| finding.verdict != Verdict::NotJudged);
    let assumed: BTreeSet<String> =
        judged().flat_map(|finding| words::assumptions(document, machine, finding)).collect();
    let read: BTreeSet<NodeId> =
        judged().flat_map(|finding| finding.reads.nodes.iter().map(|node| node.node())).collect();
    // Under each source what comes from it, in the order in which the first of them is read.
    let mut doubtful: Vec<((Basis, Option<String>), Vec<String>)> = Vec::new();
    for node in read {
        let Some(basis) = basis_of(document, node) else { continue };
        if !matches!(basis, Basis::FromMemory | Basis::CommonPractice) {
            continue;
        }
        let from = (basis, source_of(document, node).map(|source| clean(&source)));
        let text = clean(&format!("{}: {}", document.path(node), document.text(node)));
        match doubtful.iter_mut().find(|(other, _)| *other == from) {
            Some((_, texts)) => texts.push(text),
            None => doubtful.push((from, vec![text])),
        }
    }
    html! {
        h3 { "Assumed, because not given" }
        @if assumed.is_empty() { p { "Nothing." } } @else { ul.columns { @for line in &assumed { li { (line) } } } }
        h3 { "From memory, or common practice" }
        @if doubtful.is_empty() { p { "Nothing." } } @else {
            dl.doubtful {
                @for ((basis, source), texts) in &doubtful {
                    dt { (capital(&basis.word().replace('_', " "))) @if let Some(source) = source { ": " (source) } }
                    dd { @for text in texts { span { (text) } " " } }
                }
            }
        }
    }
}

pub(super) fn concessions(page: &Page<'_>) -> Markup {
    let conceded: Vec<_> = page
        .review
        .findings
        .iter()
        .filter_map(|finding| finding.concession.as_ref().map(|concession| (finding, concession)))
        .collect();
    html! {
        @if conceded.is_empty() { p { "None." } }
        ul {
            @for (finding, concession) in &conceded {
                li {
                    (short(&finding.subject.name)) " · " (finding.check) ": " (clean(&concession.reason))
                    @if let Some(until) = &concession.until { " (until " (short(until)) ")" }
                    @if !concession.holds { " — this concession is over" }
                }
            }
            @for key in &page.review.unused_concessions {
                li { code { (short(&key.name)) } " answers to no finding: delete it" }
            }
            @for line in workshop::lines(page.document, page.machine, page.review, &Sources::of(page.document)) {
                li { (line) }
            }
        }
    }
}

pub(super) fn cautions(page: &Page<'_>) -> Markup {
    let mut cautions: Vec<&'static str> = Vec::new();
    for finding in &page.review.findings {
        if !finding.card.caution.is_empty() && !cautions.contains(&finding.card.caution) {
            cautions.push(finding.card.caution);
        }
    }
    html! {
        ul {
            li {
                "This is arithmetic on what the spec says, not a certificate. Local codes, and licensed engineers and \
                 electricians where they are required, come first."
            }
            @for caution in cautions { li { (caution) } }
        }
    }
}

/// Each rule that has something to tell, once.
pub(super) fn rules(page: &Page<'_>, told: &[&Finding]) -> Markup {
    let mut cards: Vec<&'static Card> = Vec::new();
    let told = told.iter().map(|finding| finding.card).chain(page.review.remarks.iter().map(|(card, _)| *card));
    for card in told {
        if !cards.iter().any(|other| other.name == card.name) {
            cards.push(card);
        }
    }
    cards.sort_by_key(|card| card.name);
    html! {
        @if cards.is_empty() { p { "No rule has found anything." } }
        dl.rules {
            @for card in cards {
                dt id=(page.anchor(card.name)) { (card.name) ": " (card.question) }
                dd { (card.formula) }
            }
        }
    }
}

pub(super) fn signatures(page: &Page<'_>) -> Markup {
    html! {
        p { "Reviewed: " (words::title(page.machine)) "." }
        table.sign {
            thead { tr { th scope="col" { "Who" } th scope="col" { "Name" } th scope="col" { "Date" } th scope="col" { "Signature" } } }
            tbody {
                @for who in ["Drawn by", "Reviewed by", "Released for building by"] {
                    tr { th scope="row" { (who) } td {} td {} td {} }
                }
            }
        }
    }
}
