//! `dryfit uncertainty`: how sure each verdict is, and which measurement is worth making.

use crate::args::{Page, Uncertainty as Args};
use crate::progress::Progress;
use crate::{FAILED, NOTHING, UNUSABLE, load, load::Book, output, sink};
use decide::uncertainty::{Plan, Uncertainty, uncertainty as sample};
use engine::Review;
use render::uncertainty as page;
use rule::Verdict;

pub fn uncertainty(args: &Args, book: Book<'_>) -> u8 {
    let (way, rules) = (&args.way, book.rules);
    let Ok(today) = load::today(way.today.as_deref()) else { return UNUSABLE };
    let Some(reviewed) = load::judged(&args.spec, &way.named, book, today) else { return UNUSABLE };
    let (document, Some((machine, review))) = (&reviewed.document, &reviewed.outcome) else { return UNUSABLE };
    let plan = Plan { samples: args.samples, seed: args.seed };
    let progress = Progress::new(plan.samples, "samples");
    let sampled = sample(document, machine, rules, review, plan, &|| progress.step());
    drop(progress);
    let text = match args.layout {
        Page::Json => output::json(serde_json::to_string_pretty(&page::page(document, machine, review, &sampled))),
        Page::Terminal => page::terminal(document, machine, review, &sampled, output::look(way.out.as_deref())),
    };
    let code = if is_broken(review, &sampled) { FAILED } else { NOTHING };
    code.max(sink::deliver(way.out.as_deref(), &text))
}

fn is_broken(review: &Review, sampled: &Uncertainty) -> bool {
    review.count(Verdict::Broken) > 0 || sampled.margins.iter().any(|margin| margin.broken > 0)
}

/// `--samples`.
pub fn samples(text: &str) -> Result<usize, String> {
    let wanted = format!("how many samples is a whole number from 1 to {}", Plan::MOST);
    text.parse().ok().filter(|samples| (1..=Plan::MOST).contains(samples)).ok_or(wanted)
}

/// `--seed`.
pub fn seed(text: &str) -> Result<u64, String> {
    text.parse().map_err(|_| format!("a seed is a whole number from 0 to {}", u64::MAX))
}
