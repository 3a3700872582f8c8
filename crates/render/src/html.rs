//! The pre-build review: one page of HTML that needs nothing else, to be read on a screen or printed and signed.

mod charts;
mod drawing;
mod finding;
mod labels;
mod lists;
mod margins;
mod path;
mod plan;
#[cfg(test)]
mod tests;

use crate::clean::short;
use crate::layout::Layout;
use crate::source::Sources;
use crate::tally::{Tally, counts};
use crate::{Reviewed, words};
use engine::{Drawing, Finding, Profile, Review};
use machine::{Document, Machine};
use maud::{DOCTYPE, Markup, PreEscaped, html};
use rule::Verdict;

const STYLE: &str = include_str!("html/style.css");

/// The page; several specs stand in it one behind the other.
#[derive(Debug, Default)]
pub struct Html {
    tally: Tally,
    specs: usize,
}

/// What every part of a machine's section needs.
struct Page<'a> {
    document: &'a Document,
    machine: &'a Machine,
    review: &'a Review,
    sources: &'a Sources,
    drawings: &'a [Drawing],
    circuit: &'a [Profile],
    /// Keeps the anchors of several machines apart.
    number: usize,
}

impl Page<'_> {
    /// Findings as they are told: what fails, then what is thin, gravest first.
    fn told(&self) -> Vec<&Finding> {
        let mut told: Vec<&Finding> = self
            .review
            .by_weight()
            .into_iter()
            .filter(|finding| matches!(finding.verdict, Verdict::Broken | Verdict::Fails | Verdict::Thin))
            .collect();
        told.sort_by_key(|finding| (finding.verdict == Verdict::Thin, !finding.stands()));
        told
    }

    fn anchor(&self, part: &str) -> String {
        format!("{part}-{}", self.number)
    }
}

impl Layout for Html {
    fn begin(&mut self) -> String {
        let head = html! {
            meta charset="utf-8";
            meta name="viewport" content="width=device-width, initial-scale=1";
            meta name="color-scheme" content="light dark";
            title { "Pre-build review" }
            style { (PreEscaped(STYLE)) }
        };
        // The page is closed in `end`, when all specs have come.
        format!("{}<html lang=\"en\"><head>{}</head><body><main>\n", DOCTYPE.into_string(), head.into_string())
    }

    fn spec(&mut self, reviewed: &Reviewed) -> String {
        self.tally.add(reviewed);
        self.specs += 1;
        let text = match &reviewed.outcome {
            None => complaints(reviewed),
            Some((machine, review)) => {
                let (document, sources) = (&reviewed.document, &Sources::of(&reviewed.document));
                let (drawings, circuit) = (&reviewed.drawn.charts, &reviewed.drawn.circuit);
                machine_page(&Page { document, machine, review, sources, drawings, circuit, number: self.specs })
            }
        };
        text.into_string() + "\n"
    }

    fn draws(&self) -> bool {
        true
    }

    fn end(&mut self, code: u8) -> String {
        let foot = html! { footer { p { (self.tally.line(code)) } } };
        format!("</main>{}</body></html>\n", foot.into_string())
    }
}

fn complaints(reviewed: &Reviewed) -> Markup {
    let sources = Sources::of(&reviewed.document);
    html! {
        article.machine {
            h1 { (short(reviewed.name())) }
            p.sentence { "This spec cannot be reviewed yet: nothing of it was judged." }
            ul {
                @for complaint in &reviewed.complaints {
                    li {
                        (crate::clean(&complaint.says)) " "
                        @if !complaint.help.is_empty() { (crate::clean(&complaint.help)) }
                        (finding::excerpt(&sources, usize::from(complaint.file.0), &[(
                            complaint.span.start as usize, complaint.span.len(), "here".to_owned(),
                        )]))
                    }
                }
            }
        }
    }
}

fn machine_page(page: &Page<'_>) -> Markup {
    let told = page.told();
    html! {
        article.machine {
            header {
                h1 { (words::title(page.machine)) }
                p.file { (short(page.document.files.first().map_or("", |file| &file.name))) }
                p.sentence { (sentence(page.review)) }
                p { (counts(page.review)) }
            }
            nav aria-label="Contents" {
                ul {
                    @for (part, title) in PARTS {
                        li { a href={ "#" (page.anchor(part)) } { (title) } }
                    }
                }
            }
            (section(page, "findings", finding::list(page, &told)))
            (section(page, "margins", margins::chart(page)))
            (section(page, "curves", charts::list(page)))
            (section(page, "circuit", path::list(page)))
            (section(page, "plan", plan::plan(page)))
            (section(page, "gaps", lists::not_judged(page)))
            (section(page, "figures", lists::figures(page)))
            (section(page, "rules", lists::rules(page, &told)))
            (section(page, "concessions", lists::concessions(page)))
            (section(page, "cautions", lists::cautions(page)))
            (section(page, "signatures", lists::signatures(page)))
        }
    }
}

const PARTS: [(&str, &str); 11] = [
    ("findings", "What fails and what is thin"),
    ("margins", "All margins, weakest first"),
    ("curves", "Curves"),
    ("circuit", "The coolant on its way round"),
    ("plan", "First run: what to look at, and when"),
    ("gaps", "What could not be judged"),
    ("figures", "Figures that nobody has measured"),
    ("rules", "How each is worked out"),
    ("concessions", "Concessions"),
    ("cautions", "Cautions"),
    ("signatures", "Signed off"),
];

fn section(page: &Page<'_>, part: &str, content: Markup) -> Markup {
    let title = PARTS.iter().find(|(name, _)| *name == part).map_or(part, |(_, title)| title);
    html! {
        section.(part) id=(page.anchor(part)) aria-labelledby=(page.anchor(&format!("{part}-title"))) {
            h2 id=(page.anchor(&format!("{part}-title"))) { (title) }
            (content)
        }
    }
}

/// The verdict on the whole machine.
fn sentence(review: &Review) -> String {
    let standing = |verdict| review.findings.iter().filter(|one| one.verdict == verdict && one.stands()).count();
    let (broken, fails, thin) = (standing(Verdict::Broken), standing(Verdict::Fails), standing(Verdict::Thin));
    let gaps = review.count(Verdict::NotJudged);
    let checks = |count: usize| if count == 1 { "one check".to_owned() } else { format!("{count} checks") };
    let open = if gaps == 0 {
        String::new()
    } else {
        format!(" {} could not be judged for lack of data.", capital(&checks(gaps)))
    };
    let partly = review.count(Verdict::Partly);
    let open = match partly {
        0 => open,
        1 => format!("{open} One check is sound only in the cases that could be judged."),
        many => format!("{open} {many} checks are sound only in the cases that could be judged."),
    };
    if broken > 0 {
        return format!("Not settled: {} failed to run; please report the spec.{open}", checks(broken));
    }
    let gravest = review.by_weight().into_iter().find(|one| one.verdict == Verdict::Fails && one.stands());
    match (gravest, thin) {
        (Some(gravest), _) => {
            let cost = gravest.consequence.map_or("", |consequence| consequence.word());
            let (what, fails) = (
                short(&gravest.subject.name),
                if fails == 1 { "one check fails".to_owned() } else { format!("{fails} checks fail") },
            );
            format!("Do not build it like this: {fails}, the gravest at {what} ({}: {cost}).{open}", gravest.check)
        }
        (None, 0) if gaps == 0 && partly == 0 => {
            "Nothing fails, nothing is thin, and all that was asked could be judged.".into()
        }
        (None, 0) => format!("Nothing that was judged fails or is thin.{open}"),
        (None, 1) => format!("Nothing fails; one reserve is thinner than required.{open}"),
        (None, thin) => format!("Nothing fails; {thin} reserves are thinner than required.{open}"),
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A verdict as a mark that is told by its word, not by its colour alone.
fn mark(finding: &Finding) -> Markup {
    let word = match finding.stands() {
        true => finding.verdict.word(),
        false if finding.advice => "advice",
        false => "accepted",
    };
    let kind = match finding.verdict {
        Verdict::Broken | Verdict::Fails => "fails",
        Verdict::Thin => "thin",
        Verdict::Sound => "sound",
        Verdict::Partly | Verdict::NotJudged => "open",
    };
    html! { span.mark.(kind) { (word) } }
}
