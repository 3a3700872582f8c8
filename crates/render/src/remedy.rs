//! What would clear a finding and what it costs elsewhere: for reading, and as JSON.

use crate::clean::{clean, short};
use crate::fold::fold;
use crate::json;
use crate::terminal::Look;
use crate::words;
use decide::remedy::{Change, Effect, Foretold, Heard, Name, NoTarget, Remedy, Target};
use document::nearest;
use engine::{Finding, Review};
use machine::{Document, Machine, Node, NodeId};
use quantity::{Kind, show, unit_of};
use rule::Verdict;
use schemars::JsonSchema;
use serde::Serialize;
use std::fmt::Write;

/// Everything that one asks of `dryfit remedy`.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Page {
    /// Format number.
    pub dryfit: u32,
    pub file: String,
    pub machine: String,
    pub revision: Option<String>,
    pub findings: Vec<Cured>,
}

/// One finding and what would clear it, best first.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Cured {
    #[serde(flatten)]
    pub check: Check,
    pub verdict: String,
    /// Share of what is required that is left over; none for a breach.
    pub headroom: Option<f64>,
    pub conceded: Option<String>,
    pub remedies: Vec<Cure>,
    /// Further remedies that were left out.
    pub left_out: usize,
    pub not_enough: Vec<Short>,
    /// Inputs of which neither more nor less is always better.
    pub turning: Vec<String>,
}

#[derive(Debug, Serialize, JsonSchema)]
pub struct Check {
    pub rule: String,
    pub subject: String,
    pub check: String,
}

/// One change, or two together, reviewed on the whole machine.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Cure {
    /// For `--apply` and `--dry`, with the same further options.
    pub number: usize,
    pub changes: Vec<Changed>,
    /// It changes what the machine is used for, not the machine.
    pub limit_of_use: bool,
    pub clears: Vec<Check>,
    pub eases: Vec<Check>,
    pub breaks: Vec<Check>,
    pub thins: Vec<Check>,
    pub no_longer_judged: Vec<Check>,
    pub gravest_before: Option<Gravest>,
    pub gravest_after: Option<Gravest>,
}

#[derive(Debug, Serialize, JsonSchema)]
pub struct Changed {
    /// `number`, `name` or `order`.
    pub kind: String,
    pub input: String,
    pub from: String,
    pub to: String,
    /// Of a number: where the requirement is just met, in SI units.
    pub met_at: Option<f64>,
    pub file: String,
}

#[derive(Debug, Serialize, JsonSchema)]
pub struct Gravest {
    #[serde(flatten)]
    pub check: Check,
    pub verdict: String,
    pub headroom: Option<f64>,
}

/// An input that cannot clear the finding by itself.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Short {
    pub input: String,
    pub from: String,
    /// The best that was tried, and the headroom there.
    pub to: String,
    pub headroom: Option<f64>,
}

/// The JSON Schema of the page.
#[must_use]
pub fn schema() -> serde_json::Value {
    json::titled(schemars::schema_for!(Page), "remedy")
}

/// All of it as data.
#[must_use]
pub fn page(document: &Document, machine: &Machine, review: &Review, targets: &[Target]) -> Page {
    let check = |name: &Name| Check { rule: name.rule.into(), subject: clean(&name.subject), check: name.check.into() };
    let checks = |names: &[Name]| names.iter().map(check).collect();
    let gravest = |told: &Option<Foretold>| {
        told.as_ref().map(|told| Gravest {
            check: check(&told.name),
            verdict: told.verdict.word().into(),
            headroom: json::finite(told.headroom),
        })
    };
    let mut number = 0;
    let mut cure = |remedy: &Remedy| {
        number += 1;
        let effect = &remedy.effect;
        Cure {
            number,
            changes: remedy.changes.iter().map(|change| changed(document, change)).collect(),
            limit_of_use: remedy.limit_of_use,
            clears: checks(&effect.cleared),
            eases: checks(&effect.eased),
            breaks: checks(&effect.broken),
            thins: checks(&effect.thinned),
            no_longer_judged: checks(&effect.unjudged),
            gravest_before: gravest(&effect.gravest.0),
            gravest_after: gravest(&effect.gravest.1),
        }
    };
    let cured = |target: &Target| {
        let finding = review.findings.get(target.finding)?;
        let name = Check {
            rule: finding.card.name.into(),
            subject: clean(&finding.subject.name),
            check: finding.check.into(),
        };
        Some(Cured {
            check: name,
            verdict: finding.verdict.word().into(),
            headroom: json::finite(finding.headroom()),
            conceded: json::conceded(finding),
            remedies: target.remedies.iter().map(&mut cure).collect(),
            left_out: target.left_out,
            not_enough: target
                .unreached
                .iter()
                .map(|short| Short {
                    input: words::input(document, short.node),
                    from: own(document, short.node, short.kind, short.from),
                    to: own(document, short.node, short.kind, short.to),
                    headroom: json::finite(short.headroom),
                })
                .collect(),
            turning: target.turning.iter().map(|node| words::input(document, *node)).collect(),
        })
    };
    Page {
        dryfit: 1,
        file: document.files.first().map_or_else(String::new, |file| clean(&file.name)),
        machine: clean(&machine.machine.name),
        revision: machine.machine.revision.as_deref().map(clean),
        findings: targets.iter().filter_map(cured).collect(),
    }
}

/// The text that stands there, without its quotes.
fn written(document: &Document, node: NodeId) -> String {
    clean(document.text(node.node()).trim_matches(['"', '\'']))
}

/// A number in the unit in which the author wrote it.
fn own(document: &Document, node: NodeId, kind: &'static Kind, si: f64) -> String {
    show(si, kind, unit_of(&written(document, node), kind))
}

fn changed(document: &Document, change: &Change) -> Changed {
    let node = change.node();
    let (kind, from, to, met_at) = match change {
        Change::Number { node, met, text, .. } => {
            ("number", written(document, *node), clean(text), Some(json::rounded(*met)))
        }
        Change::Name { from, to, .. } => ("name", clean(from), clean(to), None),
        Change::Order { from, to, .. } => ("order", (from + 1).to_string(), (to + 1).to_string(), None),
    };
    let file = document.file(document.place(node).file);
    Changed {
        kind: kind.into(),
        input: words::input(document, node),
        from,
        to,
        met_at,
        file: file.map_or_else(String::new, |file| clean(&file.name)),
    }
}

/// One change in words.
#[must_use]
pub fn says(document: &Document, change: &Change, limit_of_use: bool) -> String {
    let input = words::input(document, change.node());
    match change {
        Change::Number { node, kind, from, met, to, text } => {
            let shown = |si: f64| own(document, *node, kind, si);
            let (exactly, size) = (shown(*met), shown(*to));
            let met = if exactly == size { String::new() } else { format!(" (just enough at {exactly})") };
            let was = written(document, *node);
            if limit_of_use {
                let bound = if to > from { "no lower than" } else { "no higher than" };
                return format!("limit of use: {input} {bound} {size}{met}; written {was}, then {}", clean(text));
            }
            format!("{input}: {was} → {}{met}", clean(text))
        }
        Change::Name { from, to, .. } => format!("{input}: {} → {}", clean(from), clean(to)),
        Change::Order { list, from, to } => {
            let items = find(&document.root, *list).map(Node::items).unwrap_or_default();
            let name = |at: usize| items.get(at).map_or_else(String::new, item);
            let beside = if to < from { "before" } else { "behind" };
            format!("{input}: move {} {beside} {}", name(*from), name(*to))
        }
    }
}

/// An item of a list by its name, or by what it is.
fn item(node: &Node) -> String {
    let word = ["name", "hose", "kind"].iter().find_map(|key| node.get(key).and_then(Node::text));
    short(word.unwrap_or("it"))
}

fn find(root: &Node, id: NodeId) -> Option<&Node> {
    let mut found = None;
    root.walk(&mut |node| {
        if node.id == id && found.is_none() {
            found = Some(node);
        }
    });
    found
}

/// All of it for a terminal.
#[must_use]
pub fn terminal(
    document: &Document,
    machine: &Machine,
    review: &Review,
    targets: &[Target],
    only: Option<&str>,
    look: Look,
) -> String {
    let width = look.width.clamp(40, 140);
    let mut out = fold(&words::title(machine), 0, width);
    let mut number = 0;
    for target in targets {
        let Some(finding) = review.findings.get(target.finding) else { continue };
        let _ = write!(out, "\n{}", fold(&heading(document, finding), 0, width));
        if let Some(conceded) = finding.concession.as_ref().filter(|conceded| conceded.holds) {
            let says = format!(
                "It is conceded by `{}` ({}): nothing has to be done about it.",
                short(&conceded.key.name),
                clean(&conceded.reason)
            );
            out.push_str(&fold(&says, 2, width));
        }
        if let Some(says) = only.zip(target.asked).and_then(|(only, heard)| heard_says(only, heard)) {
            out.push_str(&fold(&says, 2, width));
        }
        for remedy in &target.remedies {
            number += 1;
            let changes: Vec<String> =
                remedy.changes.iter().map(|change| says(document, change, remedy.limit_of_use)).collect();
            let first = format!("{number:>3}  ");
            let folded = fold(&changes.join(", and "), 5, width);
            let _ = write!(out, "{first}{}", folded.get(5..).unwrap_or(""));
            for line in costs(finding, &remedy.effect) {
                out.push_str(&fold(&line, 7, width));
            }
        }
        for line in leftovers(document, target) {
            out.push_str(&fold(&line, 2, width));
        }
    }
    let end = "Each was tried on the whole machine, with the rules that exist: what none of them asks (`dryfit rule` lists \
               them), such as freezing coolant, a wall that no drill reaches, or the price, is yours to judge. `--dry K` \
               shows the lines that number K changes, `--apply K` writes it.";
    let _ = write!(out, "\n{}", fold(end, 0, width));
    out
}

fn heading(document: &Document, finding: &Finding) -> String {
    let what = format!("{} · {} ({})", short(&finding.subject.name), finding.check, finding.card.name);
    let numbers = words::numbers(document, finding);
    let numbers = if finding.governing.is_some() { numbers.get(..2).unwrap_or(&numbers) } else { &[] };
    let numbers: Vec<&str> = numbers
        .iter()
        .map(|line| line.strip_prefix(finding.check).map_or(line.as_str(), |rest| rest.trim_start_matches(": ")))
        .collect();
    let verdict = finding.verdict.word();
    if numbers.is_empty() { format!("{what} {verdict}") } else { format!("{what} {verdict}: {}", numbers.join("; ")) }
}

/// What a remedy does elsewhere, in short lines.
fn costs(finding: &Finding, effect: &Effect) -> Vec<String> {
    let own = |name: &&Name| {
        name.rule != finding.card.name || name.subject != finding.subject.name || name.check != finding.check
    };
    let list = |names: &[Name]| {
        const MOST: usize = 4;
        let mut words: Vec<String> =
            names.iter().filter(own).map(|name| format!("{} · {}", short(&name.subject), name.check)).collect();
        let more = words.len().saturating_sub(MOST);
        words.truncate(MOST);
        if more > 0 {
            words.push(format!("{more} more"));
        }
        words.join(", ")
    };
    let mut lines = Vec::new();
    for (says, names) in [
        ("clears", &effect.cleared),
        ("eases to thin", &effect.eased),
        ("breaks", &effect.broken),
        ("makes thin", &effect.thinned),
        ("can then not be judged:", &effect.unjudged),
    ] {
        let names = list(names);
        if !names.is_empty() {
            let also = if says == "clears" { "clears also" } else { says };
            lines.push(format!("{also} {names}"));
        }
    }
    if effect.broken.is_empty() && effect.thinned.is_empty() && effect.unjudged.is_empty() {
        lines.push("breaks nothing and makes nothing thin".into());
    }
    if let (Some(before), Some(after)) = &effect.gravest {
        let margin = |told: &Foretold| {
            let left = match told.headroom {
                headroom if headroom.is_finite() => format!(", headroom {}", words::percent(headroom)),
                _ => String::new(),
            };
            format!("{} · {} {}{left}", short(&told.name.subject), told.name.check, told.verdict.word())
        };
        let (before, after) = (margin(before), margin(after));
        lines.push(if before == after {
            format!("gravest margin stays: {after}")
        } else {
            format!("gravest margin: {before} → {after}")
        });
    }
    lines
}

fn leftovers(document: &Document, target: &Target) -> Vec<String> {
    const MOST: usize = 3;
    let mut lines = Vec::new();
    if target.left_out > 0 {
        lines.push(format!(
            "and {} more that change more, cost more elsewhere, or are much like these",
            target.left_out
        ));
    }
    if target.remedies.is_empty() && target.asked.is_none_or(|heard| heard == Heard::Tried) {
        let none = "Nothing that was tried clears it: no number between a quarter and four times what is written (of \
                    temperatures, 40 K either way), no other material, coolant or oil, no other order.";
        lines.push(none.into());
    }
    let only_limits = target.remedies.iter().all(|remedy| remedy.limit_of_use);
    if only_limits && !target.unreached.is_empty() {
        let short: Vec<String> = target
            .unreached
            .iter()
            .take(MOST)
            .map(|short| {
                let left = if short.headroom > -1e9 { words::percent(short.headroom) } else { "still a breach".into() };
                let to = own(document, short.node, short.kind, short.to);
                format!("{} at {to} (headroom {left})", words::input(document, short.node))
            })
            .collect();
        lines.push(format!("not enough by itself: {}", short.join(", ")));
    }
    if !target.turning.is_empty() {
        let names: Vec<String> = target.turning.iter().take(MOST).map(|node| words::input(document, *node)).collect();
        lines.push(format!(
            "of {} neither more nor less is always better: the value nearest to what is written was taken",
            names.join(", ")
        ));
    }
    lines
}

fn heard_says(only: &str, heard: Heard) -> Option<String> {
    let only = clean(only);
    match heard {
        Heard::Tried => None,
        Heard::Nowhere => {
            Some(format!("`{only}` stands neither in the spec nor in its libraries as a value to change."))
        }
        Heard::NotRead => Some(format!("This check reads nothing from `{only}`: changing it changes nothing here.")),
        Heard::Fact => Some(format!(
            "`{only}` tells what a thing is like; it changes only with another thing, or by measuring it better."
        )),
    }
}

/// Why there is nothing to look for.
#[must_use]
pub fn no_target(none: &NoTarget) -> String {
    let near = |wanted: &str, known: &[String]| {
        nearest(wanted, known.iter().map(String::as_str)).map_or_else(
            || format!("there are {}", known.iter().map(|name| short(name)).collect::<Vec<_>>().join(", ")),
            |near| format!("did you mean `{}`?", clean(near)),
        )
    };
    let count = |checks: usize| if checks == 1 { "one check".to_owned() } else { format!("{checks} checks") };
    match none {
        NoTarget::Subject { wanted, known } if known.is_empty() => {
            format!("no rule judges `{}`, nor anything else in this spec", clean(wanted))
        }
        NoTarget::Subject { wanted, known } => {
            format!("no rule judges anything called `{}`; {}", clean(wanted), near(wanted, known))
        }
        NoTarget::Rule { wanted, known } if known.is_empty() => format!("`{}` has judged nothing here", clean(wanted)),
        NoTarget::Rule { wanted, known } => {
            format!("no rule called `{}` judges this; {}", clean(wanted), near(wanted, known))
        }
        NoTarget::Sound { checks } => format!("nothing to clear: {} looked at, and all is sound", count(*checks)),
        NoTarget::NotJudged { checks } => format!(
            "nothing to clear, but {} could not be judged for want of an input: `dryfit review` says which",
            count(*checks)
        ),
        NoTarget::Conceded { by } => format!(
            "nothing to clear: all that fails or is thin is conceded ({}); name it with --on to see remedies nevertheless",
            by.iter().map(|name| short(name)).collect::<Vec<_>>().join(", ")
        ),
    }
}

/// The lines that differ between two texts: the old ones after `-`, the new ones after `+`, each with its number.
#[must_use]
pub fn lines_changed(name: &str, old: &str, new: &str) -> String {
    let (before, after): (Vec<&str>, Vec<&str>) = (old.lines().collect(), new.lines().collect());
    let mut out = format!("{}\n", clean(name));
    let alike = |count: &dyn Fn(usize) -> bool| (0..before.len().min(after.len())).take_while(|at| count(*at)).count();
    if before.len() == after.len() {
        for (at, (was, is)) in before.iter().zip(&after).enumerate().filter(|(_, (was, is))| was != is) {
            let _ = write!(out, "{:>5} - {}\n{:>5} + {}\n", at + 1, clean(was), at + 1, clean(is));
        }
        return out;
    }
    let head = alike(&|at| before.get(at) == after.get(at));
    let tail = alike(&|at| before.iter().rev().nth(at) == after.iter().rev().nth(at));
    let tail = tail.min(before.len().min(after.len()) - head);
    for (sign, lines) in [('-', &before), ('+', &after)] {
        for (at, line) in lines.iter().enumerate().take(lines.len() - tail).skip(head) {
            let _ = writeln!(out, "{:>5} {sign} {}", at + 1, clean(line));
        }
    }
    out
}

/// What applying a remedy came to, in one line.
#[must_use]
pub fn applied(effect: &Effect) -> String {
    let fails = effect.after.iter().filter(|told| told.verdict == Verdict::Fails).count();
    let thin = effect.after.iter().filter(|told| told.verdict == Verdict::Thin).count();
    format!("written; reviewed again: {fails} fails · {thin} thin")
}
