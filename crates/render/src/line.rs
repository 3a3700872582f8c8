//! One line each, in the form of the GNU coding standards: `file:line:column: verdict: message (rule)`.

use crate::Reviewed;
use crate::place::{cause, start};
use crate::source::Sources;
use crate::words;
use rule::Verdict;
use std::fmt::Write;

/// Findings that are not sound, and complaints, one line each.
#[must_use]
pub fn lines(reviewed: &Reviewed) -> String {
    let document = &reviewed.document;
    let sources = Sources::of(document);
    let mut out = String::new();
    let mut line = |file: usize, offset: usize, verdict: &str, message: &str, rule: &str| {
        let message = message.replace(['\n', '\r'], " ");
        let _ = writeln!(out, "{}: {verdict}: {message}{rule}", sources.at(file, offset));
    };
    for complaint in &reviewed.complaints {
        let message = words::complaint(complaint);
        line(usize::from(complaint.file.0), complaint.span.start as usize, "error", &message, "");
    }
    let Some((machine, review)) = &reviewed.outcome else { return out };
    for finding in review.findings.iter().filter(|finding| finding.verdict != Verdict::Sound) {
        let (file, offset) = start(document, cause(document, machine, &finding.words, finding.subject.node));
        let mut message = words::headline(document, machine, finding);
        let numbers = words::numbers(document, finding);
        if !numbers.is_empty() {
            message = format!("{message}; {}", numbers.join("; "));
        }
        let verdict = match finding {
            one if one.stands() => one.verdict.word(),
            one if one.concession.as_ref().is_some_and(|conceded| conceded.holds) => "conceded",
            _ => "advice",
        };
        line(file, offset, verdict, &message, &format!(" ({})", finding.card.name));
    }
    for (card, remark) in &review.remarks {
        let (file, offset) = start(document, cause(document, machine, &remark.words, remark.subject.node));
        let message = format!("{}: {}", remark.subject.name, remark.words.happens);
        line(file, offset, "remark", &crate::clean(&message), &format!(" ({})", card.name));
    }
    out
}
