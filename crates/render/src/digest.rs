//! The first screen: the verdict, what each case asks, the gravest things one after the other, and how to see more.

use crate::clean::{clean, short};
use crate::fold::{cut, fold};
use crate::source::Sources;
use crate::tally::counts;
use crate::terminal::{Look, asked_of, counted, first_few, told_unlock};
use crate::{Reviewed, words};
use document::Document;
use engine::{Finding, Governing, Review};
use machine::Machine;
use quantity::show;
use rule::{Consequence, Held, Verdict};
use std::fmt::Write;

/// So many things are told, and so many cases.
const MOST: usize = 10;
const TASKS: usize = 7;
/// Columns in which load and limit have room beside the reserve and the change.
const ROOM: usize = 100;

/// One screen about one spec, in lines of at most `width` columns.
#[must_use]
pub fn digest(reviewed: &Reviewed, look: Look) -> String {
    let width = look.width.clamp(40, 100);
    let mut out = String::new();
    let Some((machine, review)) = &reviewed.outcome else { return unreadable(reviewed, width) };
    let document = &reviewed.document;
    out.push_str(&fold(&verdict(machine, review), 0, width));
    out.push_str(&fold(&counts(review), 2, width));
    let classes = by_consequence(review);
    if !classes.is_empty() {
        out.push_str(&fold(&classes, 2, width));
    }
    out.push_str(&tasks(machine, review, width));
    out.push_str(&gravest(document, machine, review, width));
    out.push_str(&unjudged(document, review, width));
    out.push_str(&worth_measuring(document, machine, review, width));
    let more = "more: `--only 1`, or a thing, rule or area, shows it whole; `--as terminal` all";
    out.push_str(&fold(more, 0, width));
    out
}

fn unreadable(reviewed: &Reviewed, width: usize) -> String {
    let mut out = String::new();
    let sources = Sources::of(&reviewed.document);
    for complaint in reviewed.complaints.iter().take(MOST) {
        let place = sources.at(usize::from(complaint.file.0), complaint.span.start as usize);
        out.push_str(&fold(&format!("{place}: {}", words::complaint(complaint)), 0, width));
    }
    let count = counted(reviewed.complaints.len(), "one thing keeps", "{} things keep");
    let _ = writeln!(out, "{count} the spec from being reviewed; nothing was judged");
    let _ = writeln!(out, "more: `--as terminal` shows each where it stands in the text");
    out
}

/// `Hut hauler, revision C: 87 checks fail`
fn verdict(machine: &Machine, review: &Review) -> String {
    let failing = standing(review).filter(|finding| finding.verdict == Verdict::Fails).count();
    let thin = standing(review).filter(|finding| finding.verdict == Verdict::Thin).count();
    let broken = review.count(Verdict::Broken);
    let says = match (broken, failing, thin) {
        _ if review.judged_nothing() => "nothing could be judged".to_owned(),
        (0, 0, 0) => "nothing that was judged fails".to_owned(),
        (0, 0, thin) => counted(thin, "nothing fails, one reserve is thin", "nothing fails, {} reserves are thin"),
        (0, failing, _) => counted(failing, "one check fails", "{} checks fail"),
        (broken, _, _) => counted(broken, "one check broke down; report it", "{} checks broke down; report them"),
    };
    format!("{}: {says}", words::title(machine))
}

/// A line a case, those first that cannot do all that is asked, and in each first what it cannot: lines are cut, and so are
/// lists.
fn tasks(machine: &Machine, review: &Review, width: usize) -> String {
    let mut lines: Vec<(bool, String)> = Vec::new();
    for (case, mut findings) in asked_of(machine, review) {
        findings.sort_by_key(|finding| finding.verdict.holds());
        let able = findings.iter().all(|finding| finding.verdict.holds());
        let told: Vec<String> = findings.iter().map(|finding| clean(&finding.words.happens)).collect();
        lines.push((able, cut(&format!("  {}: {}", short(case), told.join("; ")), width)));
    }
    if lines.is_empty() {
        return String::new();
    }
    lines.sort_by_key(|(able, _)| *able);
    let mut out = String::from("Tasks:\n");
    lines.iter().take(TASKS).for_each(|(_, line)| {
        let _ = writeln!(out, "{line}");
    });
    if lines.len() > TASKS {
        let _ = writeln!(out, "  and {}", counted(lines.len() - TASKS, "one more case", "{} more cases"));
    }
    out
}

/// Findings that refuse something, or would.
fn standing(review: &Review) -> impl Iterator<Item = &Finding> {
    review.findings.iter().filter(|finding| finding.stands())
}

/// What fails, counted by what it costs.
fn by_consequence(review: &Review) -> String {
    let count = |class: Consequence| {
        standing(review)
            .filter(|finding| matches!(finding.verdict, Verdict::Fails | Verdict::Broken))
            .filter(|finding| finding.consequence.unwrap_or(Consequence::CheapPart) == class)
            .count()
    };
    let classes = [Consequence::Harm, Consequence::Stranded, Consequence::RunOver, Consequence::CheapPart];
    let told = classes.into_iter().filter(|class| count(*class) > 0);
    let told: Vec<String> = told.map(|class| format!("{} ({})", costs(class), count(class))).collect();
    if told.is_empty() { String::new() } else { format!("it can cost {}", told.join(", ")) }
}

fn costs(class: Consequence) -> &'static str {
    match class {
        Consequence::Harm => "an injury",
        Consequence::Stranded => "the way home",
        Consequence::RunOver => "the day",
        Consequence::CheapPart => "a cheap part",
    }
}

/// The number of each finding that is not sound: its place among them, gravest first.
pub(crate) fn numbered(review: &Review) -> Vec<(usize, &Finding)> {
    let unsound = |finding: &&Finding| matches!(finding.verdict, Verdict::Broken | Verdict::Fails | Verdict::Thin);
    // What is accepted comes after what is not.
    let (standing, accepted): (Vec<&Finding>, Vec<&Finding>) =
        review.by_weight().into_iter().filter(unsound).partition(|finding| finding.stands());
    let (failing, thin): (Vec<&Finding>, Vec<&Finding>) =
        standing.into_iter().partition(|finding| finding.verdict != Verdict::Thin);
    failing.into_iter().chain(thin).chain(accepted).enumerate().map(|(place, finding)| (place + 1, finding)).collect()
}

/// Whether a finding is asked for: by its number, its thing, its rule or its area.
pub(crate) fn asked_for(only: &str, number: Option<usize>, finding: &Finding) -> bool {
    number.is_some_and(|number| only.parse() == Ok(number))
        || only == finding.subject.name
        || only == finding.card.name
        || only == finding.card.area.word()
        || only == finding.card.area.word().replace(' ', "_")
}

/// Each thing once, under the gravest that is found of it.
fn gravest(document: &Document, machine: &Machine, review: &Review, width: usize) -> String {
    let numbered = numbered(review);
    let mut things: Vec<(usize, &Finding, usize)> = Vec::new();
    for (number, finding) in numbered {
        if !finding.stands() {
            continue;
        }
        match things.iter_mut().find(|(_, first, _)| first.subject == finding.subject) {
            Some((_, _, others)) => *others += 1,
            None => things.push((number, finding, 0)),
        }
    }
    if things.is_empty() {
        return String::new();
    }
    let mut out = String::from("Gravest first:\n");
    for (number, finding, others) in things.iter().take(MOST) {
        let headline = format!("{number:>3} {}", words::headline(document, machine, finding));
        let _ = writeln!(out, "{}", cut(&headline, width));
        let mut about: Vec<String> =
            finding.governing.iter().map(|governing| has(document, finding, governing, width)).collect();
        if let Some(change) = finding.words.clears.first() {
            about.push(format!("clears: {}", clean(change)));
        }
        if *others > 0 {
            about.push(format!("and {others} more on it"));
        }
        if !about.is_empty() {
            let _ = writeln!(out, "    {}", cut(&about.join("; "), width - 4));
        }
    }
    if things.len() > MOST {
        let _ = writeln!(out, "    and {}", counted(things.len() - MOST, "one more thing", "{} more things"));
    }
    out
}

/// `has 0.66, needs 1.40, climb at -30 °C`; where there is room with load and limit before it.
fn has(document: &Document, finding: &Finding, governing: &Governing, width: usize) -> String {
    let (Held::Ratio { demand, capacity } | Held::Gap { demand, capacity, .. }) = governing.margin.held;
    let unit = words::own_unit(document, finding, if capacity.si == 0.0 { demand } else { capacity });
    let (load, limit) = (show(demand.si, demand.kind, unit), show(capacity.si, capacity.kind, unit));
    let amount = |value| words::amount(value, &governing.margin);
    let (reserve, required) = (amount(governing.reserve), amount(governing.margin.required.value));
    let guesses = if finding.on_guesses.is_some() { " (on guesses)" } else { "" };
    let place = words::place(governing);
    let place = place.strip_prefix("case ").unwrap_or(&place);
    let both = if width < ROOM { String::new() } else { format!("load {load}, limit {limit}: ") };
    format!("{both}has {reserve}, needs {required}{guesses}, {place}")
}

/// How much nobody could judge, and how much nobody looked at.
fn unjudged(document: &Document, review: &Review, width: usize) -> String {
    let mut out = String::new();
    let gaps = review.findings.iter().filter(|finding| finding.verdict == Verdict::NotJudged);
    let mut rules: Vec<String> = gaps.map(|finding| finding.card.name.to_owned()).collect();
    let count = rules.len();
    rules.dedup();
    rules.sort();
    rules.dedup();
    if count > 0 {
        let checks = counted(count, "one check", "{} checks");
        out.push_str(&fold(&format!("could not be judged: {checks} ({})", first_few(&rules, 4)), 0, width));
    }
    let mut beside = Vec::new();
    let partly = review.count(Verdict::Partly);
    if partly > 0 {
        beside.push(format!("judged, but not in every case: {}", counted(partly, "one check", "{} checks")));
    }
    if !review.remarks.is_empty() {
        beside.push(counted(review.remarks.len(), "one remark", "{} remarks"));
    }
    out.push_str(&fold(&beside.join("; "), 0, width));
    let unread = words::unread(document, &review.unread);
    if !unread.is_empty() {
        out.push_str(&fold(&format!("written, and read by no check: {}", first_few(&unread, 2)), 0, width));
    }
    out
}

/// The one figure that tells most.
fn worth_measuring(document: &Document, machine: &Machine, review: &Review, width: usize) -> String {
    let Some(first) = review.unlocks.waiting.first() else { return String::new() };
    let says = format!("worth finding out first: {}", told_unlock(document, machine, first).trim_end());
    fold(&cut(&says, 2 * width - 10), 0, width)
}

/// One line about one spec of many: how grave it is, and what is gravest in it.
pub(crate) fn one_line(reviewed: &Reviewed, width: usize) -> String {
    let name = short(reviewed.name());
    let Some((machine, review)) = &reviewed.outcome else {
        return cut(&format!("{name}: not reviewed, its text cannot be read"), width) + "\n";
    };
    let gravest = numbered(review).into_iter().find(|(_, finding)| finding.stands());
    let gravest = gravest.map_or_else(String::new, |(_, finding)| {
        format!("; {}", words::headline(&reviewed.document, machine, finding))
    });
    cut(&format!("{name}: {}{gravest}", counts(review)), width) + "\n"
}
