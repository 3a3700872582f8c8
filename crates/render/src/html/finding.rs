//! One finding: what happens, with which numbers, where it stands in the spec, what would clear it.

use super::{Page, mark};
use crate::clean::{clean, short};
use crate::source::Sources;
use crate::terminal::first_few;
use crate::words;
use engine::Finding;
use machine::NodeId;
use maud::{Markup, html};
use std::collections::BTreeMap;

pub(super) fn list(page: &Page<'_>, told: &[&Finding]) -> Markup {
    html! {
        @if told.is_empty() { p { "Nothing." } }
        @for finding in told { (article(page, finding)) }
        @for (card, remark) in &page.review.remarks {
            article.finding {
                h3 { span.mark.open { "remark" } " " (short(&remark.subject.name)) ": " (clean(&remark.words.happens)) }
                @for sentence in &remark.words.numbers { p { (clean(sentence)) } }
                (clears("what would clear it", &remark.words.clears))
                p.rule { "Rule: " a href={ "#" (page.anchor(card.name)) } { (card.name) } "." }
            }
        }
    }
}

fn article(page: &Page<'_>, finding: &Finding) -> Markup {
    let (document, machine) = (page.document, page.machine);
    let carriers = words::carriers(document, &finding.carriers);
    let assumed = words::assumptions(document, machine, finding);
    html! {
        article.finding {
            h3 { (mark(finding)) " " (words::headline(document, machine, finding)) }
            @for sentence in words::numbers(document, finding) { p { (sentence) } }
            (excerpts(page, finding))
            (clears(&words::would_clear(finding), &finding.words.clears))
            @if !carriers.is_empty() {
                p.small { "Rests on " (finding.reads.nodes.len()) " figures; carried by " (first_few(&carriers, 4)) "." }
            }
            @if !assumed.is_empty() {
                p.small { "Assumed, because not given: " (first_few(&assumed, 6)) "." }
            }
            @if let Some(conceded) = &finding.concession {
                p { @if conceded.holds { "Accepted: " } @else { "The concession is over: " } (clean(&conceded.reason)) }
            } @else if let Some(advice) = words::accepted(finding) {
                p { (super::capital(&advice)) }
            }
            p.rule { "Rule: " a href={ "#" (page.anchor(finding.card.name)) } { (finding.card.name) } "." }
        }
    }
}

fn clears(head: &str, clears: &[String]) -> Markup {
    html! {
        @if !clears.is_empty() {
            p.clears { (super::capital(head)) ":" }
            ul { @for change in clears { li { (clean(change)) } } }
        }
    }
}

/// The lines of the spec that cause it, file by file.
fn excerpts(page: &Page<'_>, finding: &Finding) -> Markup {
    let mut labels: Vec<(NodeId, String)> =
        finding.words.labels.iter().map(|label| (page.machine.written(label.node), label.says.clone())).collect();
    if labels.is_empty() {
        labels.push((page.machine.written(finding.subject.node), "here".into()));
    }
    let mut files: BTreeMap<usize, Vec<(usize, usize, String)>> = BTreeMap::new();
    for (node, says) in labels {
        let place = page.document.place(node);
        if !place.label.is_empty() {
            let label = (place.label.start as usize, place.label.len(), says);
            files.entry(usize::from(place.file.0)).or_default().push(label);
        }
    }
    html! { @for (file, labels) in &files { (excerpt(page.sources, *file, labels)) } }
}

/// Marked lines of one file, each with what is said of it.
pub(super) fn excerpt(sources: &Sources, file: usize, labels: &[(usize, usize, String)]) -> Markup {
    let Some(text) = sources.get(file) else { return html! {} };
    let mut lines: BTreeMap<usize, Vec<(usize, usize, &str)>> = BTreeMap::new();
    for (offset, length, says) in labels {
        let (line, from, length) = text.within_line(*offset, *length);
        lines.entry(line).or_default().push((from, length, says));
    }
    html! {
        figure.source {
            figcaption { (short(&text.name)) }
            table {
                @for (line, labels) in &mut lines {
                    tr {
                        th scope="row" { (*line + 1) }
                        td { code { (marked(text.line(*line), labels)) } }
                        td.says { (says(labels)) }
                    }
                }
            }
        }
    }
}

fn says(labels: &[(usize, usize, &str)]) -> String {
    labels.iter().map(|label| clean(label.2)).collect::<Vec<_>>().join("; ")
}

/// A line with its marked stretches; those that overlap an earlier one are not marked twice.
fn marked(line: &str, labels: &mut [(usize, usize, &str)]) -> Markup {
    labels.sort_unstable();
    let mut pieces = Vec::new();
    let mut at = 0;
    for (from, length, _) in labels.iter() {
        let (Some(before), Some(inside)) = (line.get(at..*from), line.get(*from..from + length)) else { continue };
        pieces.push((before, inside));
        at = from + length;
    }
    html! {
        @for (before, inside) in &pieces { (before) mark { (inside) } }
        (line.get(at..).unwrap_or(""))
    }
}
