//! For a person at a terminal: each finding with its source, then what it all comes to.

use crate::Reviewed;
use crate::clean::{clean, short};
use crate::digest::{asked_for, numbered};
use crate::source::{Sources, Text};
use crate::tally::counts;
use crate::words;
use crate::workshop;
use engine::{Finding, Review, Unlock, Unlocks};
use machine::{Basis, Complaint, Document, Machine, NodeId};
use miette::{Diagnostic, GraphicalReportHandler, GraphicalTheme, LabeledSpan, Severity, SourceCode};
use rule::{Area, Card, Verdict};
use std::fmt;
use std::fmt::Write;

/// How it is to look: colour and line drawing only where a terminal shows them.
#[derive(Debug, Clone, Copy)]
pub struct Look {
    pub width: usize,
    pub colour: bool,
    pub drawing: bool,
}

impl Look {
    fn handler(self) -> GraphicalReportHandler {
        let theme = match (self.colour, self.drawing) {
            (true, _) => GraphicalTheme::unicode(),
            (false, true) => GraphicalTheme::unicode_nocolor(),
            (false, false) => GraphicalTheme::none(),
        };
        GraphicalReportHandler::new_themed(theme).with_width(self.width.clamp(40, 140)).with_context_lines(1)
    }
}

/// One thing to show, as data for the drawing.
struct Shown<'a> {
    headline: String,
    numbers: Option<Chain>,
    help: String,
    severity: Severity,
    source: Option<&'a Text>,
    labels: Vec<(usize, usize, String)>,
    related: Vec<Shown<'a>>,
}

/// The numbers, one beneath the other, under the headline.
#[derive(Debug)]
struct Chain(String, Option<Box<Chain>>);

impl Chain {
    fn of(sentences: Vec<String>) -> Option<Self> {
        sentences.into_iter().rev().fold(None, |rest, sentence| Some(Self(sentence, rest.map(Box::new))))
    }
}
impl fmt::Display for Chain {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}
impl std::error::Error for Chain {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        self.1.as_deref().map(|rest| rest as &(dyn std::error::Error + 'static))
    }
}

impl fmt::Debug for Shown<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.headline)
    }
}
impl fmt::Display for Shown<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.headline)
    }
}
impl std::error::Error for Shown<'_> {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        self.numbers.as_ref().map(|chain| chain as &(dyn std::error::Error + 'static))
    }
}
impl Diagnostic for Shown<'_> {
    fn severity(&self) -> Option<Severity> {
        Some(self.severity)
    }
    fn help<'b>(&'b self) -> Option<Box<dyn fmt::Display + 'b>> {
        if self.help.is_empty() { None } else { Some(Box::new(&self.help)) }
    }
    fn source_code(&self) -> Option<&dyn SourceCode> {
        self.source.map(|text| text as &dyn SourceCode)
    }
    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let labels =
            self.labels.iter().map(|(from, length, says)| LabeledSpan::new(Some(says.clone()), *from, *length));
        Some(Box::new(labels))
    }
    fn related<'b>(&'b self) -> Option<Box<dyn Iterator<Item = &'b dyn Diagnostic> + 'b>> {
        if self.related.is_empty() {
            return None;
        }
        Some(Box::new(self.related.iter().map(|shown| shown as &dyn Diagnostic)))
    }
}

/// Labels of one file each: the first file's stand with the finding, the others follow.
fn with_labels<'a>(
    mut shown: Shown<'a>,
    sources: &'a Sources,
    document: &Document,
    labels: &[(NodeId, String)],
) -> Shown<'a> {
    let mut files: Vec<usize> = Vec::new();
    for (node, _) in labels {
        let file = usize::from(document.place(*node).file.0);
        if !files.contains(&file) {
            files.push(file);
        }
    }
    for (order, file) in files.into_iter().enumerate() {
        let here: Vec<(usize, usize, String)> = labels
            .iter()
            .map(|(node, says)| (document.place(*node), says))
            .filter(|(place, _)| usize::from(place.file.0) == file && !place.label.is_empty())
            .map(|(place, says)| (place.label.start as usize, place.label.len(), clean(says)))
            .collect();
        if here.is_empty() {
            continue;
        }
        if order == 0 {
            shown.source = sources.get(file);
            shown.labels = here;
        } else {
            shown.related.push(Shown {
                headline: "from another file".into(),
                numbers: None,
                help: String::new(),
                severity: Severity::Advice,
                source: sources.get(file),
                labels: here,
                related: Vec::new(),
            });
        }
    }
    shown
}

/// Everything about one file; or only the findings that are asked for, by number, thing, rule or area.
#[must_use]
pub fn terminal(reviewed: &Reviewed, look: Look, only: Option<&str>) -> String {
    let document = &reviewed.document;
    let sources = Sources::of(document);
    let handler = look.handler();
    let mut out = String::new();
    for complaint in &reviewed.complaints {
        draw(&mut out, &handler, &complained(complaint, &sources));
    }
    let Some((machine, review)) = &reviewed.outcome else {
        let count = reviewed.complaints.len();
        let things = if count == 1 { "one thing keeps" } else { "these things keep" };
        let _ = writeln!(out, "{things} the spec from being reviewed; nothing was judged ({count}).");
        return out;
    };
    if let Some(only) = only {
        for (_, finding) in
            numbered(review).into_iter().filter(|(number, finding)| asked_for(only, Some(*number), finding))
        {
            draw(&mut out, &handler, &found(document, machine, finding, &sources));
        }
        out.push_str(&besides(document, machine, review, only));
        return out;
    }
    for finding in review
        .findings
        .iter()
        .filter(|finding| matches!(finding.verdict, Verdict::Broken | Verdict::Fails | Verdict::Thin))
    {
        draw(&mut out, &handler, &found(document, machine, finding, &sources));
    }
    for (card, remark) in &review.remarks {
        let mut help: Vec<String> = remark.words.clears.iter().map(|change| format!("- {}", clean(change))).collect();
        help.push(format!("rule: {}", card.name));
        let shown = Shown {
            headline: format!("remark: {}: {}", short(&remark.subject.name), clean(&remark.words.happens)),
            numbers: Chain::of(remark.words.numbers.iter().map(|sentence| clean(sentence)).collect()),
            help: help.join("\n"),
            severity: Severity::Advice,
            source: None,
            labels: Vec::new(),
            related: Vec::new(),
        };
        let labels: Vec<_> =
            remark.words.labels.iter().map(|label| (machine.written(label.node), label.says.clone())).collect();
        draw(&mut out, &handler, &with_labels(shown, &sources, document, &labels));
    }
    out.push_str(&summary(document, machine, review));
    out
}

/// What is asked for and neither fails nor is thin: what is open is told, what is sound is counted.
fn besides(document: &Document, machine: &Machine, review: &Review, only: &str) -> String {
    let mut out = String::new();
    let asked = || review.findings.iter().filter(|finding| asked_for(only, None, finding));
    for finding in asked().filter(|finding| matches!(finding.verdict, Verdict::NotJudged | Verdict::Partly)) {
        let headline = words::headline(document, machine, finding);
        let _ = writeln!(out, "{}: {headline} ({})", finding.verdict.word(), finding.card.name);
    }
    let sound = asked().filter(|finding| finding.verdict == Verdict::Sound).count();
    if sound > 0 {
        let _ = writeln!(out, "{} sound", counted(sound, "one check is", "{} checks are"));
    }
    let numbers = numbered(review);
    if asked().next().is_none() && !numbers.iter().any(|(number, finding)| asked_for(only, Some(*number), finding)) {
        let _ = writeln!(
            out,
            "`{}` names no finding: those that fail or are thin are numbered 1 to {}, and each can be named by its thing, its rule or its area",
            clean(only),
            numbers.len()
        );
    }
    out
}

fn draw(out: &mut String, handler: &GraphicalReportHandler, shown: &Shown<'_>) {
    // Writing to a String cannot fail; a label outside the text would, and then the headline still stands.
    if handler.render_report(out, shown).is_err() {
        let _ = writeln!(out, "{shown}");
    }
    out.push('\n');
}

fn complained<'a>(complaint: &Complaint, sources: &'a Sources) -> Shown<'a> {
    let at = |span: machine::Span| (span.start as usize, span.len());
    let (start, length) = at(complaint.span);
    let mut shown = Shown {
        headline: clean(&complaint.says),
        numbers: None,
        help: clean(&complaint.help),
        severity: Severity::Error,
        source: sources.get(usize::from(complaint.file.0)),
        labels: vec![(start, length, "here".into())],
        related: Vec::new(),
    };
    if let Some(also) = &complaint.also {
        let (start, length) = at(also.span);
        if also.file == complaint.file {
            shown.labels.push((start, length, clean(&also.says)));
        }
    }
    shown
}

fn found<'a>(document: &Document, machine: &Machine, finding: &Finding, sources: &'a Sources) -> Shown<'a> {
    let mut help = Vec::new();
    if !finding.words.clears.is_empty() {
        help.push(format!("{}:", words::would_clear(finding)));
        help.extend(finding.words.clears.iter().map(|change| format!("- {}", clean(change))));
    }
    let carriers = words::carriers(document, &finding.carriers);
    if !carriers.is_empty() {
        help.push(format!("rests on {} figures; carried by {}", finding.reads.nodes.len(), first_few(&carriers, 4)));
    }
    let assumed = words::assumptions(document, machine, finding);
    if !assumed.is_empty() {
        help.push(format!("assumed, because not given: {}", first_few(&assumed, 6)));
    }
    if let Some(basis) = finding.weakest.filter(|basis| *basis != Basis::Measured) {
        help.push(format!("weakest figure behind it: {}", basis.word().replace('_', " ")));
    }
    if let Some(conceded) = &finding.concession {
        let state = if conceded.holds { "accepted" } else { "the concession is over" };
        help.push(format!("{state}: {}", clean(&conceded.reason)));
    } else if let Some(advice) = words::accepted(finding) {
        help.push(advice);
    }
    help.push(format!("worked out as {}; sources: `dryfit rule {}`", finding.card.formula, finding.card.name));
    let severity =
        if finding.verdict == Verdict::Thin || !finding.stands() { Severity::Warning } else { Severity::Error };
    let shown = Shown {
        headline: format!(
            "{} [{}]: {}",
            finding.verdict.word(),
            finding.card.name,
            words::headline(document, machine, finding)
        ),
        numbers: Chain::of(words::numbers(document, finding)),
        help: help.join("\n"),
        severity,
        source: None,
        labels: Vec::new(),
        related: Vec::new(),
    };
    let mut labels: Vec<(NodeId, String)> =
        finding.words.labels.iter().map(|label| (machine.written(label.node), label.says.clone())).collect();
    if labels.is_empty() {
        labels.push((machine.written(finding.subject.node), "here".into()));
    }
    with_labels(shown, sources, document, &labels)
}

pub(crate) fn first_few(all: &[String], count: usize) -> String {
    let mut text = all.iter().take(count).cloned().collect::<Vec<_>>().join(", ");
    if all.len() > count {
        let _ = write!(text, " and {} more", all.len() - count);
    }
    text
}

/// Counts, the gravest and the thinnest margin, what was not judged and what would unlock most.
#[must_use]
pub fn summary(document: &Document, machine: &Machine, review: &Review) -> String {
    let mut out = String::new();
    out.push_str(&tasks(machine, review));
    let _ = writeln!(out, "{}: {}", words::title(machine), counts(review));
    let unsound = |finding: &&&Finding| finding.verdict != Verdict::NotJudged && finding.headroom().is_finite();
    let ranked = review.by_weight();
    let describe = |finding: &Finding| {
        let reserve = finding.governing.as_ref().map_or_else(String::new, |governing| {
            let amount = words::amount(governing.reserve, &governing.margin);
            let shown = match governing.margin.held {
                rule::Held::Ratio { .. } => format!("reserve {amount}"),
                rule::Held::Gap { .. } => format!("{amount} left"),
            };
            format!(", {shown} in {}", words::place(governing))
        });
        format!("{} · {} ({}{reserve})", short(&finding.subject.name), finding.check, finding.card.name)
    };
    let first = |verdict: Verdict| ranked.iter().find(|finding| finding.verdict == verdict && finding.stands());
    if let Some(gravest) = first(Verdict::Fails).or_else(|| first(Verdict::Thin)) {
        let _ = writeln!(out, "gravest:  {}", describe(gravest));
    }
    if let Some(thinnest) = ranked.iter().filter(unsound).min_by(|a, b| a.headroom().total_cmp(&b.headroom())) {
        let _ = writeln!(out, "thinnest: {}", describe(thinnest));
    }
    let gaps: Vec<&Finding> = review.findings.iter().filter(|finding| finding.verdict == Verdict::NotJudged).collect();
    if !gaps.is_empty() {
        let _ = writeln!(out, "not judged:");
        for finding in gaps.iter().take(12) {
            let _ = writeln!(out, "  {} ({})", words::headline(document, machine, finding), finding.card.name);
        }
        if gaps.len() > 12 {
            let _ = writeln!(out, "  and {} more", gaps.len() - 12);
        }
    }
    let partly = words::partly(document, machine, review);
    if !partly.is_empty() {
        let _ = writeln!(out, "judged, but without these cases:");
        partly.iter().for_each(|line| {
            let _ = writeln!(out, "  {line}");
        });
    }
    let guessed = review.findings.iter().filter(|finding| finding.on_guesses.is_some()).count();
    if guessed > 0 {
        let of_them = counted(guessed, "one finding misses", "{} findings miss");
        let _ = writeln!(out, "on guesses: {of_them} by less than the guesses behind it scatter: measure those first");
    }
    let unread = words::unread(document, &review.unread);
    if !unread.is_empty() {
        let _ = writeln!(out, "written, and read by no check: {}", first_few(&unread, 8));
    }
    out.push_str(&worth_finding_out(document, machine, &review.unlocks));
    for key in &review.unused_concessions {
        let _ = writeln!(out, "the concession `{}` answers to no finding: delete it", short(&key.name));
    }
    for line in workshop::lines(document, machine, review, &Sources::of(document)) {
        let _ = writeln!(out, "{line}");
    }
    out
}

/// What each case asks of the whole machine, and whether it can, with the findings that say so: in the order of the cases.
pub(crate) fn asked_of<'a>(machine: &'a Machine, review: &'a Review) -> Vec<(&'a str, Vec<&'a Finding>)> {
    let of = |case: NodeId| {
        let findings = review.findings.iter().filter(move |finding| {
            finding.card.area == Area::WholeMachine && finding.subject.node == case && !finding.words.happens.is_empty()
        });
        findings.collect::<Vec<_>>()
    };
    let cases = machine.cases.iter().map(|case| (case.name(), of(case.id())));
    cases.filter(|(_, findings)| !findings.is_empty()).collect()
}

fn tasks(machine: &Machine, review: &Review) -> String {
    let mut out = String::new();
    for (case, findings) in asked_of(machine, review) {
        let told: Vec<String> = findings.iter().map(|finding| clean(&finding.words.happens)).collect();
        let _ = writeln!(out, "  {}: {}", short(case), told.join("; "));
    }
    if out.is_empty() { out } else { format!("Tasks:\n{out}") }
}

/// A figure that checks wait for, and how to find it out.
pub(crate) fn told_unlock(document: &Document, machine: &Machine, unlock: &Unlock) -> String {
    let checks = if unlock.checks == 1 { "one check waits".into() } else { format!("{} checks wait", unlock.checks) };
    let how = words::how(machine, unlock.absent).map_or_else(String::new, |how| format!(": {how}"));
    format!("`{}` ({checks} for it){how}\n", words::absent_name(document, machine, unlock.absent))
}

/// The few figures that let the most checks be judged, and the one that most wait for.
fn worth_finding_out(document: &Document, machine: &Machine, unlocks: &Unlocks) -> String {
    let told = |unlock: &Unlock| told_unlock(document, machine, unlock);
    let waiting = &unlocks.waiting;
    let Some(together) = &unlocks.together else {
        let lines: String = waiting.iter().take(3).map(|unlock| format!("  {}", told(unlock))).collect();
        return if lines.is_empty() { lines } else { format!("worth finding out first:\n{lines}") };
    };
    let figures = counted(together.absent.len(), "this figure", "these {} figures");
    let judged = counted(together.checks, "one more check is judged", "{} more checks are judged");
    let mut out = format!("worth finding out first: {figures}, and {judged}\n");
    let of_few = |unlock: &&Unlock| together.absent.contains(&unlock.absent);
    waiting.iter().filter(of_few).for_each(|unlock| out.push_str(&format!("  {}", told(unlock))));
    // What nothing can stand in for may hold up more.
    if let Some(most) = waiting.first().filter(|most| !of_few(most)) {
        out.push_str(&format!("most is held up by {}", told(most)));
    }
    out
}

pub(crate) fn counted(count: usize, one: &str, more: &str) -> String {
    if count == 1 { one.to_owned() } else { more.replace("{}", &count.to_string()) }
}

/// One rule's card as text.
#[must_use]
pub fn card(card: &Card) -> String {
    let mut out = format!("{} · {}\n\n{}\n\n{}\n", card.name, card.area.word(), card.question, card.explains);
    for (title, text) in [
        ("worked out as", card.formula),
        ("source", card.source),
        ("checked by", card.checked),
        ("required reserve", card.required),
        ("caution", card.caution),
    ] {
        if !text.is_empty() {
            let _ = write!(out, "\n{title}: {text}\n");
        }
    }
    out
}
