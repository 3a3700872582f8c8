//! Findings that the builder accepts, each with a reason and perhaps an end.

use crate::finding::Finding;
use machine::{Concession, Key, Machine};
use rule::Verdict;

/// The day of the review; concessions end by it. There is no clock in here.
pub type Today = quantity::Date;

/// A concession that speaks of a finding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Conceded {
    pub key: Key,
    pub reason: String,
    /// False when its date has passed, its revision is over, or its end cannot be read.
    pub holds: bool,
    pub until: Option<String>,
}

/// Attaches concessions to findings; returns those that fit none.
pub(crate) fn concede(machine: &Machine, findings: &mut [Finding], today: Option<Today>) -> Vec<Key> {
    let mut unused = Vec::new();
    for concession in &machine.concessions {
        let mut used = false;
        for finding in findings.iter_mut().filter(|finding| speaks_of(concession, finding)) {
            used = true;
            let holds = holds(machine, concession, today);
            let (key, reason) = (concession.key.clone(), concession.reason.clone());
            finding.concession = Some(Conceded { key, reason, holds, until: concession.until.clone() });
        }
        if !used {
            unused.push(concession.key.clone());
        }
    }
    unused
}

fn speaks_of(concession: &Concession, finding: &Finding) -> bool {
    finding.card.name == concession.rule
        && finding.subject.name == concession.on
        && matches!(finding.verdict, Verdict::Fails | Verdict::Thin)
}

fn holds(machine: &Machine, concession: &Concession, today: Option<Today>) -> bool {
    let Some(until) = &concession.until else { return true };
    if let Some(revision) = until.strip_prefix("revision ") {
        return machine.machine.revision.as_deref() != Some(revision.trim());
    }
    match (quantity::read_date(until), today) {
        (Ok(end), Some(today)) => today <= end,
        // Without a date of the day nothing is said to have ended.
        (Ok(_), None) => true,
        (Err(_), _) => false,
    }
}
