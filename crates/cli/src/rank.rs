//! `dryfit rank`: every margin of one spec on one scale.

use crate::args::{self, Page, Rank};
use crate::{FAILED, NOTHING, UNUSABLE, load, load::Book, output, sink};
use decide::rank::{Wanted, rank as rank_all};
use engine::Review;
use rule::{Area, Consequence, Verdict};

pub fn rank(args: &Rank, book: Book<'_>) -> u8 {
    let (way, rules) = (&args.way, book.rules);
    let Ok(today) = load::today(way.today.as_deref()) else { return UNUSABLE };
    let Some(reviewed) = load::judged(&args.spec, &way.named, book, today) else { return UNUSABLE };
    let Some((machine, review)) = &reviewed.outcome else { return UNUSABLE };
    if let Some(unknown) = args.subject.iter().find(|name| !judges(review, name)) {
        output::complain(&nothing_on(review, unknown));
        return UNUSABLE;
    }
    let ranking = rank_all(&reviewed.document, machine, rules, review, &wanted(args));
    let text = match args.layout {
        Page::Json => {
            output::json(serde_json::to_string_pretty(&render::rank::page(&reviewed.document, machine, &ranking)))
        }
        Page::Terminal => {
            let look = output::look(way.out.as_deref());
            render::rank::terminal(&reviewed.document, machine, &ranking, args.sensitivity, look)
        }
    };
    let code = if review.count(Verdict::Broken) > 0 { FAILED } else { NOTHING };
    code.max(sink::deliver(way.out.as_deref(), &text))
}

fn judges(review: &Review, name: &str) -> bool {
    review.findings.iter().any(|finding| finding.subject.name == name)
}

fn nothing_on(review: &Review, name: &str) -> String {
    let names = review.findings.iter().map(|finding| finding.subject.name.as_str());
    let hint = document::nearest(name, names).map_or_else(
        || "`dryfit rank` without `--subject` shows all of them".to_owned(),
        |near| format!("did you mean `{}`?", render::clean(near)),
    );
    format!("no rule judges anything called `{}`; {hint}", render::clean(name))
}

fn wanted(args: &Rank) -> Wanted {
    Wanted {
        areas: args.area.iter().map(|area| (*area).into()).collect(),
        verdicts: args.verdict.iter().map(|verdict| (*verdict).into()).collect(),
        subjects: args.subject.clone(),
        consequences: args.consequence.iter().map(|consequence| (*consequence).into()).collect(),
    }
}

impl From<args::Area> for Area {
    fn from(area: args::Area) -> Self {
        match area {
            args::Area::Powertrain => Self::Powertrain,
            args::Area::Cooling => Self::Cooling,
            args::Area::Structure => Self::Structure,
            args::Area::Suspension => Self::Suspension,
            args::Area::WholeMachine => Self::WholeMachine,
        }
    }
}

impl From<args::Verdict> for Verdict {
    fn from(verdict: args::Verdict) -> Self {
        match verdict {
            args::Verdict::Broken => Self::Broken,
            args::Verdict::Fails => Self::Fails,
            args::Verdict::Thin => Self::Thin,
            args::Verdict::Partly => Self::Partly,
            args::Verdict::Sound => Self::Sound,
        }
    }
}

impl From<args::Consequence> for Consequence {
    fn from(consequence: args::Consequence) -> Self {
        match consequence {
            args::Consequence::Harm => Self::Harm,
            args::Consequence::Stranded => Self::Stranded,
            args::Consequence::RunOver => Self::RunOver,
            args::Consequence::CheapPart => Self::CheapPart,
        }
    }
}
