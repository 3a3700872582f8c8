//! Which findings a remedy is wanted for.

use engine::{Finding, Review};
use rule::Verdict;

/// Why there is nothing to find a remedy for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoTarget {
    /// No check is about a thing of this name; all that checks are about.
    Subject { wanted: String, known: Vec<String> },
    /// No check of this rule is on it; the rules that have one.
    Rule { wanted: String, known: Vec<String> },
    /// All of these checks hold what is required.
    Sound { checks: usize },
    /// Nothing fails or is thin, but some checks lack an input.
    NotJudged { checks: usize },
    /// All that fails or is thin is conceded, by these.
    Conceded { by: Vec<String> },
}

/// Places of the findings that fail or are thin, of one subject or rule if asked; gravest first. Without a subject or a
/// rule those that stand, otherwise conceded ones too.
///
/// # Errors
/// Why there is none.
pub fn select(review: &Review, on: Option<&str>, rule: Option<&str>) -> Result<Vec<usize>, NoTarget> {
    let about: Vec<&Finding> =
        review.by_weight().into_iter().filter(|finding| on.is_none_or(|on| finding.subject.name == on)).collect();
    if let (Some(wanted), true) = (on, about.is_empty()) {
        let known = distinct(review.findings.iter().map(|finding| finding.subject.name.clone()));
        return Err(NoTarget::Subject { wanted: wanted.to_owned(), known });
    }
    let of: Vec<&Finding> =
        about.iter().copied().filter(|finding| rule.is_none_or(|rule| finding.card.name == rule)).collect();
    if let (Some(wanted), true) = (rule, of.is_empty()) {
        let known = distinct(about.iter().map(|finding| finding.card.name.to_owned()));
        return Err(NoTarget::Rule { wanted: wanted.to_owned(), known });
    }
    let unsound: Vec<&Finding> =
        of.iter().copied().filter(|finding| matches!(finding.verdict, Verdict::Fails | Verdict::Thin)).collect();
    if unsound.is_empty() {
        let gaps = of.iter().filter(|finding| finding.verdict == Verdict::NotJudged).count();
        return Err(if gaps > 0 { NoTarget::NotJudged { checks: gaps } } else { NoTarget::Sound { checks: of.len() } });
    }
    let named = on.is_some() || rule.is_some();
    let wanted: Vec<&Finding> = unsound.iter().copied().filter(|finding| named || finding.stands()).collect();
    if wanted.is_empty() {
        let by = unsound.iter().map(|finding| match &finding.concession {
            Some(conceded) => conceded.key.name.clone(),
            None => "workshop.yaml's profile".to_owned(),
        });
        return Err(NoTarget::Conceded { by: distinct(by) });
    }
    let place = |wanted: &Finding| review.findings.iter().position(|finding| std::ptr::eq(finding, wanted));
    let mut places: Vec<usize> = wanted.into_iter().filter_map(place).collect();
    // Failures first, as in the summary.
    places.sort_by_key(|place| review.findings.get(*place).is_none_or(|finding| finding.verdict != Verdict::Fails));
    Ok(places)
}

fn distinct(names: impl Iterator<Item = String>) -> Vec<String> {
    let mut names: Vec<String> = names.collect();
    names.sort();
    names.dedup();
    names
}
