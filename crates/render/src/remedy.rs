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
use quantity::{Kind, Measure, m, show, unit_of};
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
    /// How many kilograms heavier the machine gets; none where sizes and densities do not tell. `machine.mass` stays as
    /// written.
    pub mass: Option<f64>,
    /// How much dearer, where prices are given.
    pub price: Option<f64>,
}

#[derive(Debug, Serialize, JsonSchema)]
pub struct Changed {
    /// `number`, `name` (of a thing, or another word), `thing` (one in stock), `added` (where nothing is
    /// given) or `order`.
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
    /// In words.
    pub says: String,
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
            mass: effect.mass.map(json::rounded),
            price: effect.price.map(json::rounded),
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
            not_enough: not_enough(document, target),
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

/// Choices and numbers, those that help most first.
fn not_enough(document: &Document, target: &Target) -> Vec<Short> {
    let choices = target.not_enough.iter().map(|(change, headroom)| {
        let Changed { input, from, to, .. } = changed(document, change);
        (*headroom, Short { says: says(document, change, false), input, from, to, headroom: json::finite(*headroom) })
    });
    let numbers = target.unreached.iter().map(|short| {
        let input = words::input(document, short.node);
        let [from, to] = [short.from, short.to].map(|si| own(document, short.node, short.kind, si));
        let says = format!("{input} at {to}");
        (short.headroom, Short { says, input, from, to, headroom: json::finite(short.headroom) })
    });
    let mut all: Vec<(f64, Short)> = choices.chain(numbers).collect();
    all.sort_by(|a, b| b.0.total_cmp(&a.0));
    all.into_iter().map(|(_, short)| short).collect()
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
        Change::Added { text, .. } => ("added", String::new(), clean(text), None),
        Change::Thing { node, from, .. } => ("thing", written(document, *node), clean(from), None),
        Change::Order { from, to, .. } => ("order", (from + 1).to_string(), (to + 1).to_string(), None),
    };
    let file = document.file(document.place(node).file);
    Changed {
        kind: kind.into(),
        input: input_of(document, change),
        from,
        to,
        met_at,
        file: file.map_or_else(String::new, |file| clean(&file.name)),
    }
}

/// The path of what changes.
fn input_of(document: &Document, change: &Change) -> String {
    let there = words::input(document, change.node());
    if let Change::Added { field, .. } = change { format!("{there}.{field}") } else { there }
}

/// One change in words.
#[must_use]
pub fn says(document: &Document, change: &Change, limit_of_use: bool) -> String {
    let input = input_of(document, change);
    match change {
        Change::Added { text, .. } => format!("{input}: add {}", clean(text)),
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
        Change::Thing { from, with, whole, .. } => {
            let sizes = if *whole { "" } else { "sizes of " };
            format!("{input}: {sizes}{} {}", clean(from), facts(with))
        }
        Change::Order { list, from, to } => {
            let items = document.node(*list).map(Node::items).unwrap_or_default();
            let name = |at: usize| items.get(at).map_or_else(String::new, item);
            let beside = if to < from { "before" } else { "behind" };
            format!("{input}: move {} {beside} {}", name(*from), name(*to))
        }
    }
}

/// What a thing in stock is like, in brackets.
fn facts(thing: &Node) -> String {
    let fact = |entry: &document::Entry| Some(format!("{} {}", entry.key, short(entry.value.text()?)));
    let sizes = ["material", "bore", "length", "wire", "mean_diameter", "active_coils", "free_length", "rate", "price"];
    let facts: Vec<String> =
        thing.entries().iter().filter(|entry| sizes.contains(&&*entry.key)).filter_map(fact).collect();
    format!("({})", facts.join(", "))
}

/// An item of a list by its name, or by what it is.
fn item(node: &Node) -> String {
    let word = ["name", "hose", "kind"].iter().find_map(|key| node.get(key).and_then(Node::text));
    short(word.unwrap_or("it"))
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
        for line in leftovers(document, finding, target) {
            out.push_str(&fold(&line, 2, width));
        }
    }
    if targets.iter().any(|target| target.remedies.is_empty()) {
        let tried = "Tried are, one by one and two by two: numbers from a quarter to four times what is written, as far as \
                     everything still fits (what the machine is drawn round: half as much again; temperatures: 40 K); other \
                     materials, coolants, oils and words; what is in stock; other orders of the circuit.";
        let _ = write!(out, "\n{}", fold(tried, 0, width));
    }
    let end = "Each was tried on the whole machine: where nothing is said of it, it breaks nothing, makes nothing thin, and \
               leaves the gravest margin as it is. What no rule asks (`dryfit rule` lists them) is yours to judge. `--dry K` \
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
    lines.extend(weight(effect));
    if let (Some(before), Some(after)) = &effect.gravest
        && before != after
    {
        let margin = |told: &Foretold| {
            let left = match told.headroom {
                headroom if headroom.is_finite() => format!(", headroom {}", words::percent(headroom)),
                _ => String::new(),
            };
            format!("{} · {} {}{left}", short(&told.name.subject), told.name.check, told.verdict.word())
        };
        let same = before.name == after.name && before.verdict == after.verdict;
        let was = if same { format!(" (was {})", words::percent(before.headroom)) } else { String::new() };
        lines.push(format!("gravest margin then: {}{was}", margin(after)));
    }
    lines
}

/// `35 g heavier, 2.40 cheaper`.
fn weight(effect: &Effect) -> Option<String> {
    let mass = effect.mass.map(|by| {
        // Two digits: it is worked out from the sizes of a drawing.
        let digits: f64 = format!("{:.1e}", by.abs()).parse().unwrap_or_else(|_| by.abs());
        let shown = show(digits, <m::Mass as Measure>::KIND, None);
        format!("{shown} {}", if by > 0.0 { "heavier" } else { "lighter" })
    });
    let price = effect.price.map(|by| format!("{:.2} {}", by.abs(), if by > 0.0 { "dearer" } else { "cheaper" }));
    let told: Vec<String> = [mass, price].into_iter().flatten().collect();
    (!told.is_empty()).then(|| told.join(", "))
}

fn leftovers(document: &Document, finding: &Finding, target: &Target) -> Vec<String> {
    const MOST: usize = 3;
    let mut lines = Vec::new();
    if target.left_out > 0 {
        lines.push(format!(
            "and {} more that change more, cost more elsewhere, or are much like these",
            target.left_out
        ));
    }
    if target.remedies.is_empty() && target.asked.is_none_or(|heard| heard == Heard::Tried) {
        lines.push("Nothing that was tried clears it.".into());
        let says: Vec<String> = finding.words.clears.iter().map(|sentence| clean(sentence)).collect();
        if !says.is_empty() {
            lines.push(format!("The rule suggests, untried: {}.", says.join("; ")));
        }
    }
    if target.remedies.iter().all(|remedy| remedy.limit_of_use) {
        let limit = |short: &Short| {
            let limits = target.unreached.iter().filter(|number| number.limit_of_use);
            limits.into_iter().any(|number| words::input(document, number.node) == short.input)
        };
        let short: Vec<String> = not_enough(document, target)
            .iter()
            .filter(|short| !limit(short))
            .take(MOST)
            .map(|short| {
                let left = short.headroom.filter(|left| *left > -1e9);
                let left = left.map_or_else(|| "still a breach".into(), words::percent);
                format!("{} (headroom {left})", short.says)
            })
            .collect();
        if !short.is_empty() {
            lines.push(format!("not enough by itself: {}", short.join(", ")));
        }
    }
    let told = |node: &&NodeId| {
        let taken = |change: &Change| change.node() == node.node();
        target.asked.is_some() || target.remedies.iter().flat_map(|remedy| &remedy.changes).any(taken)
    };
    let names: Vec<String> = target.turning.iter().filter(told).map(|node| words::input(document, *node)).collect();
    if !names.is_empty() {
        lines.push(format!(
            "of {} neither more nor less is always better: tried is the nearest value that does",
            names.join(", ")
        ));
    }
    lines
}

fn heard_says(only: &str, heard: Heard) -> Option<String> {
    let only = clean(only);
    match heard {
        // Nothing is laid out then.
        Heard::Tried | Heard::Nowhere => None,
        Heard::NotRead => Some(format!("This check reads nothing from `{only}`: changing it changes nothing here.")),
        Heard::Bound => Some(format!(
            "`{only}` follows from other sizes of the drawing: pitch times links is the way round the wheels."
        )),
        Heard::Fact => Some(format!(
            "`{only}` tells what a thing is like; it changes only with another thing, or by measuring it better."
        )),
    }
}

/// The only input that may change is nowhere to be found.
#[must_use]
pub fn no_input(document: &Document, wanted: &str) -> String {
    let mut paths = Vec::new();
    document.root.walk(&mut |node| {
        let own = document.file(document.place(node.id).file).is_some_and(|file| !file.built_in);
        if own && node.text().is_some() {
            paths.push(document.path(node.id));
        }
    });
    let near = nearest(wanted, paths.iter().map(String::as_str));
    let hint = near.map_or_else(
        || "`dryfit rank --sensitivity` names the inputs that move a margin".to_owned(),
        |near| format!("did you mean `{}`?", clean(near)),
    );
    format!("`{}` stands neither in the spec nor in its libraries as a value to change; {hint}", clean(wanted))
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
