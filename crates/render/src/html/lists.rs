//! What is missing, what nobody has measured, what was accepted, cautions, and the place to sign.

use super::Page;
use crate::clean::{clean, short};
use crate::source::Sources;
use crate::{words, workshop};
use engine::{basis_of, source_of};
use machine::{Basis, NodeId};
use maud::{Markup, html};
use rule::Verdict;
use std::collections::BTreeSet;

pub(super) fn not_judged(page: &Page<'_>) -> Markup {
    let (document, machine) = (page.document, page.machine);
    let open = page.review.findings.iter().filter(|finding| finding.verdict == Verdict::NotJudged);
    let open: Vec<String> = open
        .map(|finding| format!("{} ({})", words::headline(document, machine, finding), finding.card.name))
        .collect();
    let partly = words::partly(document, machine, page.review);
    html! {
        @if open.is_empty() { p { "All that was asked could be judged." } } @else {
            ul { @for line in &open { li { (line) } } }
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
    let doubtful: Vec<(String, &'static str, Option<String>)> = read
        .into_iter()
        .filter_map(|node| {
            let basis =
                basis_of(document, node).filter(|basis| matches!(basis, Basis::FromMemory | Basis::CommonPractice))?;
            let text = format!("{}: {}", document.path(node), document.text(node));
            Some((clean(&text), basis.word(), source_of(document, node).map(|source| clean(&source))))
        })
        .collect();
    html! {
        h3 { "Assumed, because not given" }
        @if assumed.is_empty() { p { "Nothing." } } @else { ul.columns { @for line in &assumed { li { (line) } } } }
        h3 { "From memory, or common practice" }
        @if doubtful.is_empty() { p { "Nothing." } } @else {
            ul.columns {
                @for (line, basis, source) in &doubtful {
                    li { (line) " (" (basis.replace('_', " ")) @if let Some(source) = source { "; " (source) } ")" }
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
