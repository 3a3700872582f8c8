//! Guesses which subject of an old revision goes by another name in the new one. A guess stays a guess.

use crate::compare::{Side, same};
use engine::Finding;
use std::collections::{BTreeMap, BTreeSet};

/// A subject that seems to go by another name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Renamed {
    pub old: String,
    pub new: String,
    pub because: Because,
}

/// What the guess rests on, best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Because {
    /// All its margins are the same.
    Margins,
    /// The names are alike.
    Name,
}

impl Because {
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Margins => "its margins are the same",
            Self::Name => "the names are alike",
        }
    }
}

/// A subject by what was asked about it.
struct Asked<'a> {
    name: &'a str,
    /// The keys that lead to it, without its own name.
    section: String,
    /// Its headroom by rule and check.
    checks: BTreeMap<(&'static str, &'static str), f64>,
}

/// Subjects that only one side knows, paired when they stand in the same section, have the same rules and checks, and the
/// same margins or a name that is alike. The best pair first; each name is used once.
pub(crate) fn renamed(old: Side<'_>, new: Side<'_>) -> Vec<Renamed> {
    let names = |side: Side<'_>| -> BTreeSet<String> {
        side.review.findings.iter().map(|finding| finding.subject.name.clone()).collect()
    };
    let (before, after) = (asked(old, &names(new)), asked(new, &names(old)));
    let mut guesses = Vec::new();
    for (gone, past) in before.iter().enumerate() {
        for (come, present) in after.iter().enumerate() {
            if let Some((because, distance)) = alike(past, present) {
                guesses.push((because, distance, gone, come));
            }
        }
    }
    guesses.sort_unstable();
    let (mut used, mut taken) = (BTreeSet::new(), BTreeSet::new());
    let mut found = Vec::new();
    for (because, _, gone, come) in guesses {
        let (Some(past), Some(present)) = (before.get(gone), after.get(come)) else { continue };
        if !used.contains(&gone) && !taken.contains(&come) {
            used.insert(gone);
            taken.insert(come);
            found.push(Renamed { old: past.name.to_owned(), new: present.name.to_owned(), because });
        }
    }
    found.sort_by(|a, b| a.old.cmp(&b.old));
    found
}

/// The subjects that the other side does not know, in the order of the text.
fn asked<'a>(side: Side<'a>, others: &BTreeSet<String>) -> Vec<Asked<'a>> {
    let mut subjects: Vec<Asked<'a>> = Vec::new();
    for finding in side.review.findings.iter().filter(|finding| !others.contains(&finding.subject.name)) {
        let key = (finding.card.name, finding.check);
        match subjects.iter_mut().find(|subject| subject.name == finding.subject.name) {
            Some(subject) => drop(subject.checks.insert(key, finding.headroom())),
            None => subjects.push(Asked {
                name: &finding.subject.name,
                section: section(side, finding),
                checks: BTreeMap::from([(key, finding.headroom())]),
            }),
        }
    }
    subjects
}

fn section(side: Side<'_>, finding: &Finding) -> String {
    let path = side.document.path(side.machine.written(finding.subject.node));
    format!(".{path}.").replacen(&format!(".{}.", finding.subject.name), ".*.", 1)
}

fn alike(past: &Asked<'_>, present: &Asked<'_>) -> Option<(Because, usize)> {
    if past.section != present.section || !past.checks.keys().eq(present.checks.keys()) {
        return None;
    }
    let judged = past.checks.values().any(|headroom| headroom.is_finite());
    if judged && past.checks.values().zip(present.checks.values()).all(|(a, b)| same(*a, *b)) {
        return Some((Because::Margins, 0));
    }
    let (a, b): (Vec<char>, Vec<char>) = (past.name.chars().collect(), present.name.chars().collect());
    // Past this length nobody names anything; comparing would only cost time.
    let longest = a.len().max(b.len());
    if longest > 80 {
        return None;
    }
    let distance = distance(&a, &b);
    (distance * 2 <= longest).then_some((Because::Name, distance))
}

/// How many letters must be put in, taken out or replaced (Levenshtein 1966, published).
fn distance(a: &[char], b: &[char]) -> usize {
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (line, one) in a.iter().enumerate() {
        let mut corner = line;
        let mut left = line + 1;
        let mut next = vec![left];
        for (other, above) in b.iter().zip(row.iter().skip(1)) {
            left = (corner + usize::from(one != other)).min(left + 1).min(above + 1);
            corner = *above;
            next.push(left);
        }
        row = next;
    }
    row.last().copied().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::distance;

    #[test]
    fn letters_put_in_taken_out_and_replaced_count_one_each() {
        let of = |a: &str, b: &str| distance(&a.chars().collect::<Vec<_>>(), &b.chars().collect::<Vec<_>>());
        assert_eq!(of("", ""), 0);
        assert_eq!(of("idler", ""), 5);
        assert_eq!(of("", "axle"), 4);
        assert_eq!(of("rear_idler", "rear_idlers"), 1);
        assert_eq!(of("front", "fronts_"), 2);
        assert_eq!(of("kitten", "sitting"), 3);
        assert_eq!(of("left", "right"), of("right", "left"));
    }
}
