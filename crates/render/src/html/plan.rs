//! What to look at on the first run, and when: whatever has little left over.

use super::Page;
use crate::clean::short;
use crate::words;
use engine::{Finding, Governing};
use machine::CaseKind;
use maud::{Markup, html};
use rule::Verdict;

/// Margins with less than this left over are looked at.
const LITTLE: f64 = 0.25;

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum When {
    BeforeStart,
    TenMinutes,
    Hour,
    Landing,
}

impl When {
    const ALL: [Self; 4] = [Self::BeforeStart, Self::TenMinutes, Self::Hour, Self::Landing];

    fn title(self) -> &'static str {
        match self {
            Self::BeforeStart => "Cold, before the first start",
            Self::TenMinutes => "After the first ten minutes",
            Self::Hour => "After the first hour",
            Self::Landing => "After the first landing",
        }
    }

    /// What comes of standing shows before the start, of a blow after it, of heat and speed soon, of the rest with time.
    fn of(page: &Page<'_>, governing: &Governing) -> Self {
        let kind = page.machine.cases.iter().find(|case| case.key.name == governing.case.name).map(|case| case.kind);
        match kind {
            Some(CaseKind::Soak | CaseKind::ColdStart | CaseKind::Idle | CaseKind::BroughtIndoors) => Self::BeforeStart,
            Some(CaseKind::Landing | CaseKind::TipOver) => Self::Landing,
            Some(CaseKind::Climb | CaseKind::TopSpeed | CaseKind::Launch | CaseKind::LiftOff) => Self::TenMinutes,
            _ => Self::Hour,
        }
    }
}

pub(super) fn plan(page: &Page<'_>) -> Markup {
    let little = |finding: &&Finding| finding.verdict != Verdict::NotJudged && finding.headroom() < LITTLE;
    let judged: Vec<(When, &Finding, &Governing)> = page
        .review
        .by_weight()
        .into_iter()
        .filter(little)
        .filter_map(|finding| {
            finding.governing.as_ref().map(|governing| (When::of(page, governing), finding, governing))
        })
        .collect();
    html! {
        p {
            "Margins with less than a quarter of the required reserve left over, by when they show. Stop and let it cool, \
             take the battery off, and keep out of the plane of the track before you touch anything."
        }
        @for when in When::ALL {
            @let now: Vec<_> = judged.iter().filter(|(other, ..)| *other == when).collect();
            @if !now.is_empty() {
                h3 { (when.title()) }
                ul.tick {
                    @for (_, finding, governing) in now {
                        li {
                            (short(&finding.subject.name)) ": " (finding.check) " ("
                            (finding.verdict.word()) ", " (words::percent(governing.headroom)) " headroom in "
                            (words::place(governing)) ")"
                        }
                    }
                }
            }
        }
        @if judged.is_empty() { p { "No margin is that small." } }
    }
}
