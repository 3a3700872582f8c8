//! What a revision improved and worsened, for a terminal and as JSON.

use crate::clean::{clean, short};
use crate::fold::fold;
use crate::json::{self, Numbers};
use crate::tally::counts;
use crate::terminal::Look;
use crate::words;
use decide::compare::{Change, Comparison, Pair, Side};
use engine::{Finding, Governing};
use rule::Held;
use schemars::JsonSchema;
use serde::Serialize;
use std::fmt::Write;

/// Two revisions, margin by margin.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Page {
    /// Format number.
    pub dryfit: u32,
    pub old: Revision,
    pub new: Revision,
    /// Some verdict got worse.
    pub worse: bool,
    /// What matters most first.
    pub margins: Vec<Row>,
    /// Guesses.
    pub renamed: Vec<Renamed>,
}

#[derive(Debug, Serialize, JsonSchema)]
pub struct Revision {
    pub file: String,
    pub machine: String,
    pub revision: Option<String>,
}

#[derive(Debug, Serialize, JsonSchema)]
pub struct Row {
    /// `worsened`, `appeared`, `improved`, `vanished` or `unchanged`.
    pub change: String,
    /// The verdict got worse, and no concession covers it.
    pub worse: bool,
    /// Old and new are one margin only if the guess under `renamed` is right.
    pub guessed: bool,
    pub rule: String,
    pub subject: String,
    pub check: String,
    pub old: Option<Was>,
    pub new: Option<Was>,
}

/// A margin in one of the revisions.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Was {
    pub subject: String,
    pub verdict: String,
    pub consequence: Option<String>,
    /// In SI units.
    pub margin: Option<Numbers>,
    /// Where it is worst; none where it is the same in every case.
    pub case: Option<String>,
    /// Outside air there in °C.
    pub air: Option<f64>,
    pub conceded: Option<String>,
}

#[derive(Debug, Serialize, JsonSchema)]
pub struct Renamed {
    pub old: String,
    pub new: String,
    pub because: String,
}

/// The JSON Schema of a comparison.
#[must_use]
pub fn schema() -> serde_json::Value {
    json::titled(schemars::schema_for!(Page), "comparison")
}

/// The comparison as data.
#[must_use]
pub fn page(old: Side<'_>, new: Side<'_>, comparison: &Comparison<'_>) -> Page {
    let revision = |side: Side<'_>| Revision {
        file: side.document.files.first().map_or_else(String::new, |file| clean(&file.name)),
        machine: clean(&side.machine.machine.name),
        revision: side.machine.machine.revision.as_deref().map(clean),
    };
    let was = |finding: &Finding| Was {
        subject: clean(&finding.subject.name),
        verdict: finding.verdict.word().into(),
        consequence: finding.consequence.map(|consequence| consequence.word().into()),
        margin: json::numbers(finding),
        case: json::case(finding),
        air: json::air(finding),
        conceded: json::conceded(finding),
    };
    let row = |pair: &Pair<'_>| {
        let latest = pair.latest()?;
        Some(Row {
            change: pair.change.word().into(),
            worse: pair.worse,
            guessed: pair.guessed,
            rule: latest.card.name.into(),
            subject: clean(&latest.subject.name),
            check: latest.check.into(),
            old: pair.old.map(was),
            new: pair.new.map(was),
        })
    };
    let renamed = comparison.renamed.iter().map(|guess| Renamed {
        old: clean(&guess.old),
        new: clean(&guess.new),
        because: guess.because.words().into(),
    });
    Page {
        dryfit: 1,
        old: revision(old),
        new: revision(new),
        worse: comparison.worse(),
        margins: comparison.pairs.iter().filter_map(row).collect(),
        renamed: renamed.collect(),
    }
}

/// The comparison for a terminal.
#[must_use]
pub fn terminal(old: Side<'_>, new: Side<'_>, comparison: &Comparison<'_>, look: Look) -> String {
    let width = look.width.clamp(40, 140);
    let mut out = String::new();
    for (when, side) in [("old", old), ("new", new)] {
        let told = format!("{when}: {}: {}", words::title(side.machine), counts(side.review));
        out.push_str(&fold(&told, 0, width));
    }
    for change in Change::ALL {
        let count = comparison.count(change);
        if count == 0 || change == Change::Unchanged {
            continue;
        }
        let _ = writeln!(out, "\n{} ({count})", change.word());
        for pair in comparison.pairs.iter().filter(|pair| pair.change == change) {
            out.push_str(&row(pair, width));
        }
    }
    if !comparison.renamed.is_empty() {
        out.push_str("\nguessed to be the same thing under a new name\n");
        for guess in &comparison.renamed {
            let told = format!("{} is now {}: {}", short(&guess.old), short(&guess.new), guess.because.words());
            out.push_str(&fold(&told, 2, width));
        }
    }
    let unchanged = comparison.count(Change::Unchanged);
    let worse = comparison.pairs.iter().filter(|pair| pair.worse).count();
    let _ = writeln!(out, "\n{unchanged} unchanged; {}", self::worse(worse));
    out
}

pub(crate) fn worse(count: usize) -> String {
    match count {
        0 => "no verdict got worse".to_owned(),
        1 => "one verdict got worse, marked with `!`".to_owned(),
        more => format!("{more} verdicts got worse, marked with `!`"),
    }
}

/// What it was and is.
pub(crate) fn verdicts(pair: &Pair<'_>) -> String {
    match (pair.old, pair.new) {
        (Some(old), Some(new)) if old.verdict != new.verdict => {
            format!("{} → {}", old.verdict.word(), new.verdict.word())
        }
        _ => pair.latest().map_or_else(String::new, |latest| latest.verdict.word().into()),
    }
}

/// `!` stands before a verdict that got worse.
fn row(pair: &Pair<'_>, width: usize) -> String {
    let Some(latest) = pair.latest() else { return String::new() };
    let verdicts = verdicts(pair);
    let guessed = match pair.old {
        Some(old) if pair.guessed => format!(", guessed to be the former {}", short(&old.subject.name)),
        _ => String::new(),
    };
    let mark = if pair.worse { "!" } else { " " };
    let what = format!("{} · {} ({}){guessed}", short(&latest.subject.name), latest.check, latest.card.name);
    let mut out = format!("{mark} {verdicts:<18} ");
    let indent = out.chars().count();
    let folded = fold(&what, indent, width);
    out.push_str(folded.trim_start());
    out.push_str(&fold(&numbers(pair.old, pair.new), indent, width));
    out
}

/// Reserve, requirement and governing case, both where they differ; the words of what now is so whatever the numbers are.
pub(crate) fn numbers(old: Option<&Finding>, new: Option<&Finding>) -> String {
    type Tell = fn(&Governing) -> String;
    let told = |finding: Option<&Finding>, tell: Tell| finding.and_then(|one| one.governing.as_ref()).map(tell);
    let change = |name: &str, tell: Tell| match (told(old, tell), told(new, tell)) {
        (Some(old), Some(new)) if old != new => Some(format!("{name}{old} → {new}")),
        (old, new) => new.or(old).map(|one| format!("{name}{one}")),
    };
    let amount: Tell = |governing| words::amount(governing.reserve, &governing.margin);
    let reserve = match new.or(old).and_then(|one| one.governing.as_ref()).map(|governing| governing.margin.held) {
        Some(Held::Gap { .. }) => change("", amount).map(|left| format!("{left} left")),
        _ => change("reserve ", amount),
    };
    let says = new.filter(|new| new.governing.is_none()).map(|new| clean(&new.words.happens));
    let accepted = new.and_then(json::conceded).map(|reason| format!("accepted: {reason}"));
    let parts = [
        reserve,
        change("required ", |governing| words::amount(governing.margin.required.value, &governing.margin)),
        change("headroom ", |governing| words::percent(governing.headroom)),
        change("", words::place),
        says.filter(|says| !says.is_empty()).map(|says| if old.is_some() { format!("now: {says}") } else { says }),
        accepted,
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(" · ")
}
