//! Every margin on one scale: a bar a row, and the same as JSON.

use crate::clean::{clean, short};
use crate::fold::{cut, fold};
use crate::json::{self, Carrier, Numbers, Spot};
use crate::source::Sources;
use crate::terminal::{Look, first_few};
use crate::words;
use decide::rank::{Ranked, Ranking};
use engine::Finding;
use machine::{Document, Machine};
use rule::{Held, Verdict};
use schemars::JsonSchema;
use serde::Serialize;
use std::fmt::Write;

/// All margins of a machine, gravest consequence first, then the thinnest.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Page {
    /// Format number.
    pub dryfit: u32,
    pub file: String,
    pub machine: String,
    pub revision: Option<String>,
    pub margins: Vec<Row>,
    /// Margins that the filters left out.
    pub left_out: usize,
    /// Checks that have no margin, because an input is missing.
    pub not_judged: usize,
}

#[derive(Debug, Serialize, JsonSchema)]
pub struct Row {
    pub rule: String,
    pub area: String,
    pub subject: String,
    pub check: String,
    pub verdict: String,
    pub consequence: Option<String>,
    /// In SI units, where it is worst; none for what no number can change.
    pub margin: Option<Numbers>,
    /// Where it is worst; none where it is the same in every case.
    pub case: Option<String>,
    /// Outside air there in °C.
    pub air: Option<f64>,
    /// The inputs that move it where it is worst, strongest first.
    pub moved_by: Vec<Carrier>,
    /// Of the inputs that move it.
    pub weakest_basis: Option<String>,
    pub conceded: Option<String>,
    pub at: Spot,
}

/// So many inputs are named to a reader; the data has all of them.
const MOST: usize = 6;

/// The JSON Schema of a ranking.
#[must_use]
pub fn schema() -> serde_json::Value {
    json::titled(schemars::schema_for!(Page), "rank")
}

/// The ranking as data.
#[must_use]
pub fn page(document: &Document, machine: &Machine, ranking: &Ranking<'_>) -> Page {
    let sources = Sources::of(document);
    let row = |ranked: &Ranked<'_>| {
        let finding = ranked.finding;
        Row {
            rule: finding.card.name.into(),
            area: finding.card.area.word().into(),
            subject: clean(&finding.subject.name),
            check: finding.check.into(),
            verdict: finding.verdict.word().into(),
            consequence: finding.consequence.map(|consequence| consequence.word().into()),
            margin: json::numbers(finding),
            case: json::case(finding),
            air: json::air(finding),
            moved_by: json::carried(document, &ranked.carriers),
            weakest_basis: ranked.weakest.map(|basis| basis.word().into()),
            conceded: json::conceded(finding),
            at: json::at(document, machine, &sources, finding.subject.node),
        }
    };
    Page {
        dryfit: 1,
        file: document.files.first().map_or_else(String::new, |file| clean(&file.name)),
        machine: clean(&machine.machine.name),
        revision: machine.machine.revision.as_deref().map(clean),
        margins: ranking.margins.iter().map(row).collect(),
        left_out: ranking.left_out,
        not_judged: ranking.not_judged,
    }
}

/// The ranking for a terminal; with `sensitivity` each margin names the inputs that move it.
#[must_use]
pub fn terminal(
    document: &Document,
    machine: &Machine,
    ranking: &Ranking<'_>,
    sensitivity: bool,
    look: Look,
) -> String {
    let width = look.width.clamp(40, 140);
    // Numbers stand under the words beside the bar, where there is room.
    let (half, indent) = if width < 80 { (5, 4) } else { (10, 32) };
    let mut out = fold(&words::title(machine), 0, width);
    let legend = "Headroom: what is left over of the reserve that is required. The bars go from -100 % to +100 %, in the middle \
                  it is just enough.";
    out.push_str(&fold(legend, 0, width));
    if sensitivity {
        let legend = "Moved by: how many per cent of the reserve (of a distance: of what counts as 100 % there) one per cent or \
                      one kelvin more of the input is worth, where the margin is worst.";
        out.push_str(&fold(legend, 0, width));
    }
    let mut above = None;
    for ranked in &ranking.margins {
        let finding = ranked.finding;
        let heading = words::heading(finding);
        if above.replace(heading) != Some(heading) {
            let _ = writeln!(out, "\n{heading}");
        }
        let what = format!("{} · {}", short(&finding.subject.name), finding.check);
        let row = format!(
            "  {} {:>7}  {:<6} {what}",
            bar(on_scale(finding), finding.verdict, half, look.drawing),
            headroom(finding),
            finding.verdict.word()
        );
        let _ = writeln!(out, "{}", cut(&row, width));
        out.push_str(&fold(&numbers(ranked), indent, width));
        let moved = words::carriers(document, &ranked.carriers);
        if sensitivity && !moved.is_empty() {
            out.push_str(&fold(&format!("moved by {}", first_few(&moved, MOST)), indent, width));
        }
    }
    if ranking.margins.is_empty() {
        out.push_str("\nno margin is like that\n");
    }
    for (count, says) in [
        (ranking.left_out, "left out, as asked"),
        (ranking.not_judged, "not judged and so without a margin: `dryfit review` says what is missing"),
    ] {
        if count > 0 {
            let _ = write!(out, "\n{}", fold(&format!("{count} {says}"), 0, width));
        }
    }
    out
}

/// Shortfall to the left of the middle, what is left over to the right; how full it is drawn tells the verdict.
fn bar(headroom: f64, verdict: Verdict, half: usize, drawing: bool) -> String {
    let (fill, middle) = match (verdict, drawing) {
        (Verdict::Fails | Verdict::Broken, true) => ('█', '│'),
        (Verdict::Thin, true) => ('▓', '│'),
        (_, true) => ('░', '│'),
        (Verdict::Fails | Verdict::Broken, false) => ('#', '|'),
        (Verdict::Thin, false) => ('=', '|'),
        (_, false) => ('-', '|'),
    };
    let short = headroom < 0.0;
    // A bar of whole cells, in any case one for a shortfall: the scale ends at 100 %.
    let cells = (1..=half).filter(|cell| headroom.abs() * half as f64 >= *cell as f64 - 0.5).count();
    let cells = if short { cells.max(1) } else { cells };
    let mut row: Vec<char> = std::iter::repeat_n(fill, cells).collect();
    if headroom.abs() > 1.0
        && let Some(end) = row.last_mut()
    {
        *end = if short { '<' } else { '>' };
    }
    row.resize(half, ' ');
    let empty = " ".repeat(half);
    let row = if short { row.iter().rev().collect::<String>() } else { row.iter().collect() };
    if short { format!("{row}{middle}{empty}") } else { format!("{empty}{middle}{row}") }
}

/// What no number can change has no place on the scale.
fn on_scale(finding: &Finding) -> f64 {
    if finding.consequence.is_none() && finding.verdict.holds() { 0.0 } else { finding.headroom() }
}

fn headroom(finding: &Finding) -> String {
    match finding.headroom() {
        headroom if headroom.is_finite() => words::percent(headroom),
        headroom if headroom < 0.0 => "none".into(),
        _ if finding.governing.is_some() => "no load".into(),
        _ => String::new(),
    }
}

/// Rule, reserve, requirement, where it is worst, what it rests on.
fn numbers(ranked: &Ranked<'_>) -> String {
    let finding = ranked.finding;
    let mut parts = Vec::new();
    match &finding.governing {
        Some(governing) => {
            let margin = &governing.margin;
            let amount = words::amount(governing.reserve, margin);
            let (wanted, why) = (words::amount(margin.required.value, margin), words::why_required(governing));
            parts.push(match margin.held {
                Held::Ratio { .. } => format!("reserve {amount}, required {wanted} ({why})"),
                Held::Gap { .. } => format!("{amount} left, required {wanted} ({why})"),
            });
            parts.push(words::place(governing));
        }
        None if finding.verdict == Verdict::Fails => parts.push(clean(&finding.words.happens)),
        None => parts.extend(finding.broken.as_deref().map(clean)),
    }
    parts.extend(ranked.weakest.map(|basis| format!("weakest figure {}", basis.word().replace('_', " "))));
    parts.extend(words::accepted(finding).map(|reason| format!("accepted: {reason}")));
    let told = parts.join(" · ");
    if told.is_empty() { finding.card.name.into() } else { format!("{}: {told}", finding.card.name) }
}

#[cfg(test)]
mod tests;
