//! `dryfit compare`: two revisions of a spec.

use crate::args::{Compare, ComparisonPage, RefuseChange};
use crate::{FAILED, NOTHING, REFUSED, UNUSABLE, load, load::Book, output, sink};
use decide::compare::{Side, compare as compare_both};
use render::Reviewed;
use rule::Verdict;
use std::path::Path;

pub fn compare(args: &Compare, book: Book<'_>) -> u8 {
    let way = &args.way;
    let Ok(today) = load::today(way.today.as_deref()) else { return UNUSABLE };
    if [&args.old, &args.new].into_iter().all(|path| path == Path::new("-")) {
        output::complain("standard input can be one of the two specs, not both");
        return UNUSABLE;
    }
    // Both are read before either is given up, so that all that is wrong is said at once.
    let old = load::judged(&args.old, &way.named, book, today);
    let new = load::judged(&args.new, &way.named, book, today);
    let (Some(old), Some(new)) = (old, new) else { return UNUSABLE };
    let (Some(old), Some(new)) = (side(&old), side(&new)) else { return UNUSABLE };
    let comparison = compare_both(old, new);
    let text = match args.layout {
        ComparisonPage::Json => {
            output::json(serde_json::to_string_pretty(&render::compare::page(old, new, &comparison)))
        }
        ComparisonPage::Markdown => render::markdown::comparison(old, new, &comparison),
        ComparisonPage::Terminal => render::compare::terminal(old, new, &comparison, output::look(way.out.as_deref())),
    };
    let code = if old.review.count(Verdict::Broken) + new.review.count(Verdict::Broken) > 0 {
        FAILED
    } else if args.refuse == RefuseChange::Worse && comparison.worse() {
        REFUSED
    } else {
        NOTHING
    };
    code.max(sink::deliver(way.out.as_deref(), &text))
}

fn side(reviewed: &Reviewed) -> Option<Side<'_>> {
    let (machine, review) = reviewed.outcome.as_ref()?;
    Some(Side { document: &reviewed.document, machine, review })
}
