//! One line each, in the form of the GNU coding standards: `file:line:column: verdict: message (rule)`.

use crate::Reviewed;
use crate::source::Sources;
use crate::words;
use machine::{Document, NodeId};
use rule::Verdict;
use std::fmt::Write;

/// Findings that are not sound, and complaints, one line each.
#[must_use]
pub fn lines(reviewed: &Reviewed) -> String {
    let document = &reviewed.document;
    let sources = Sources::of(document);
    let mut out = String::new();
    let mut line = |file: usize, offset: usize, verdict: &str, message: &str, rule: &str| {
        let Some(text) = sources.get(file) else { return };
        let (row, column) = text.position(offset);
        let message = message.replace(['\n', '\r'], " ");
        let _ = writeln!(out, "{}:{row}:{column}: {verdict}: {message}{rule}", text.name);
    };
    for complaint in &reviewed.complaints {
        let message = if complaint.help.is_empty() {
            crate::clean(&complaint.says)
        } else {
            crate::clean(&format!("{}; {}", complaint.says, complaint.help))
        };
        line(usize::from(complaint.file.0), complaint.span.start as usize, "error", &message, "");
    }
    let Some((machine, review)) = &reviewed.outcome else { return out };
    for finding in review.findings.iter().filter(|finding| finding.verdict != Verdict::Sound) {
        let at = finding.words.labels.first().map_or(finding.subject.node, |label| label.node);
        let (file, offset) = place(document, machine.written(at));
        let mut message = words::headline(document, machine, finding);
        let numbers = words::numbers(document, finding);
        if !numbers.is_empty() {
            message = format!("{message}; {}", numbers.join("; "));
        }
        let verdict = if finding.stands() { finding.verdict.word() } else { "conceded" };
        line(file, offset, verdict, &message, &format!(" ({})", finding.card.name));
    }
    for (card, remark) in &review.remarks {
        let at = remark.words.labels.first().map_or(remark.subject.node, |label| label.node);
        let (file, offset) = place(document, machine.written(at));
        let message = format!("{}: {}", remark.subject.name, remark.words.happens);
        line(file, offset, "remark", &crate::clean(&message), &format!(" ({})", card.name));
    }
    out
}

pub(crate) fn place(document: &Document, node: NodeId) -> (usize, usize) {
    let place = document.place(node);
    (usize::from(place.file.0), place.label.start as usize)
}
