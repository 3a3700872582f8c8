//! A few lines for the comments of a change that is to be merged: counts, and the margins that matter most. Whatever
//! comes from a spec stands in code spans, where no markup, mention or link has a meaning.

use crate::clean::{clean, short};
use crate::fold::cut;
use crate::place::{cause, start};
use crate::source::Sources;
use crate::{Layout, Reviewed, Tally, compare, words};
use decide::compare::{Change, Comparison, Pair, Side};
use engine::Finding;
use rule::{Consequence, Verdict};
use std::fmt::Write;

/// So many rows are told; the rest is counted.
const MOST: usize = 10;

/// Counts and the gravest margins of all specs together.
#[derive(Debug, Default)]
pub struct Markdown {
    tally: Tally,
    rows: Vec<Row>,
    /// Findings that fail or are thin, and are not accepted.
    unsound: usize,
    complaints: Vec<String>,
    complained: usize,
}

#[derive(Debug)]
struct Row {
    sound: bool,
    class: Consequence,
    headroom: f64,
    text: String,
}

impl Layout for Markdown {
    fn spec(&mut self, reviewed: &Reviewed) -> String {
        self.tally.add(reviewed);
        let sources = Sources::of(&reviewed.document);
        for complaint in &reviewed.complaints {
            self.complained += 1;
            if self.complaints.len() < MOST {
                let at = sources.at(usize::from(complaint.file.0), complaint.span.start as usize);
                self.complaints.push(format!("- {}: {}\n", code(&at), code(&cut(&words::complaint(complaint), 300))));
            }
        }
        let Some((_, review)) = &reviewed.outcome else { return String::new() };
        for finding in review.by_weight() {
            let sound = finding.verdict.holds();
            let judged = sound || matches!(finding.verdict, Verdict::Fails | Verdict::Thin | Verdict::Broken);
            if judged && finding.stands() && (finding.headroom().is_finite() || !sound) {
                self.unsound += usize::from(!sound);
                self.keep(row(reviewed, finding, &sources));
            }
        }
        String::new()
    }

    fn shows_carriers(&self) -> bool {
        false
    }

    fn end(&mut self, _code: u8) -> String {
        let mut out = format!("**dryfit:** {}\n", self.tally.told());
        if !self.complaints.is_empty() {
            out.push_str("\nThese keep a spec from being reviewed:\n\n");
            out.extend(self.complaints.iter().map(String::as_str));
            out.push_str(&more(self.complained, self.complaints.len()));
        }
        let shown = if self.unsound > 0 { self.unsound.min(MOST) } else { self.rows.len().min(3) };
        if shown > 0 {
            out.push_str(if self.unsound > 0 { "\nGravest first:\n" } else { "\nThe thinnest margins:\n" });
            out.push_str("\n| verdict | where | what | reserve | required | worst in |\n|---|---|---|---|---|---|\n");
            out.extend(self.rows.iter().take(shown).map(|row| row.text.as_str()));
        }
        if self.unsound > 0 {
            out.push_str(&more(self.unsound, shown));
        }
        out
    }
}

impl Markdown {
    /// Only what may be told is kept, however many specs there are.
    fn keep(&mut self, row: Row) {
        let weight = |row: &Row| (row.sound, row.class);
        let heavier =
            |other: &Row| weight(other).cmp(&weight(&row)).then(other.headroom.total_cmp(&row.headroom)).is_le();
        let at = self.rows.partition_point(heavier);
        self.rows.insert(at, row);
        self.rows.truncate(MOST);
    }
}

fn row(reviewed: &Reviewed, finding: &Finding, sources: &Sources) -> Row {
    let document = &reviewed.document;
    let at = reviewed.outcome.as_ref().map_or_else(String::new, |(machine, _)| {
        let (file, offset) = start(document, cause(document, machine, &finding.words, finding.subject.node));
        sources.at(file, offset)
    });
    let numbers = finding.governing.as_ref().map_or_else(
        || format!("– | – | {}", cell(&cut(&finding.words.happens, 120))),
        |governing| {
            let amount = |value| words::amount(value, &governing.margin);
            let (reserve, required) = (amount(governing.reserve), amount(governing.margin.required.value));
            format!("{reserve} | {required} | {}", cell(&words::place(governing)))
        },
    );
    let what = format!("{} · {} ({})", cell(&short(&finding.subject.name)), finding.check, finding.card.name);
    Row {
        sound: finding.verdict.holds(),
        class: finding.consequence.unwrap_or(Consequence::CheapPart),
        // Last digits of a calculation do not decide what comes first.
        headroom: (finding.headroom() * 1e8).round() / 1e8,
        text: format!("| {} | {} | {what} | {numbers} |\n", finding.verdict.word(), cell(&at)),
    }
}

fn more(all: usize, shown: usize) -> String {
    if all > shown { format!("\nand {} more\n", all - shown) } else { String::new() }
}

/// What a revision changed, without what it left as it was.
#[must_use]
pub fn comparison(old: Side<'_>, new: Side<'_>, comparison: &Comparison<'_>) -> String {
    let mut out = format!("**dryfit:** {} → {}", code(&words::title(old.machine)), code(&words::title(new.machine)));
    for change in Change::ALL {
        let _ = write!(out, " · {} {}", comparison.count(change), change.word());
    }
    let worse = comparison.pairs.iter().filter(|pair| pair.worse).count();
    let _ = writeln!(out, "\n\n{}", compare::worse(worse));
    let changed: Vec<&Pair<'_>> = comparison.pairs.iter().filter(|pair| pair.change != Change::Unchanged).collect();
    if !changed.is_empty() {
        out.push_str("\n| | verdict | what | numbers |\n|---|---|---|---|\n");
    }
    for pair in changed.iter().take(2 * MOST) {
        let Some(latest) = pair.latest() else { continue };
        let what = format!("{} · {} ({})", cell(&short(&latest.subject.name)), latest.check, latest.card.name);
        let numbers = cell(&cut(&compare::numbers(pair.old, pair.new), 160));
        let mark = if pair.worse { "**!** " } else { "" };
        let _ = writeln!(out, "| {mark}{} | {} | {what} | {numbers} |", pair.change.word(), compare::verdicts(pair));
    }
    out + &more(changed.len(), 2 * MOST)
}

/// Text as a code span (CommonMark 0.31, 6.1): fenced by more backticks than it holds.
fn code(text: &str) -> String {
    let text = clean(text).replace(['\n', '\r', '\t'], " ");
    if text.trim().is_empty() {
        return "–".into();
    }
    let longest = text.split(|letter| letter != '`').map(str::len).max().unwrap_or(0);
    let fence = "`".repeat(longest + 1);
    let space = if longest > 0 { " " } else { "" };
    format!("{fence}{space}{text}{space}{fence}")
}

/// The same in a table, where a bar would end the cell.
fn cell(text: &str) -> String {
    code(text).replace('|', "\\|")
}

#[cfg(test)]
mod tests {
    use super::{cell, code};

    #[test]
    fn nothing_in_a_code_span_has_a_meaning() {
        assert_eq!(code("<script>@all #1 [x](y)"), "`<script>@all #1 [x](y)`");
        assert_eq!(code("a``b"), "``` a``b ```");
        assert_eq!(code("`"), "`` ` ``");
        assert_eq!(code(" \n"), "–");
        assert_eq!(cell("a|b\nc"), "`a\\|b c`");
    }
}
