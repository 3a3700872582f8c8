//! Nothing passes for lack of data: an input that a check has read and that is deleted makes the check 'not judged' or shows
//! as assumed, or another input speaks in its place; it never turns a finding into a better one in silence.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod specs;

use document::{Entry, Node};
use machine::{Assumption, Machine, NodeId, NotJudged, Reads, Swap, Swaps};
use rayon::prelude::*;
use rule::Verdict;
use std::collections::BTreeMap;
use std::path::Path;

/// By rule, name of the subject and check: the node of a subject may be the very input that is deleted.
type Judged = BTreeMap<(&'static str, String, &'static str), (Verdict, f64, Reads, Vec<NodeId>)>;

fn judged(machine: &Machine) -> Judged {
    let row = |finding: engine::Finding| {
        let key = (finding.card.name, finding.subject.name.clone(), finding.check);
        let headroom = finding.headroom();
        let gap = |gap: &NotJudged| if let NotJudged::NotGiven { absent, .. } = gap { Some(*absent) } else { None };
        let told = finding.gaps.iter().filter_map(|(_, why)| gap(why)).collect();
        (key, (finding.verdict, headroom, finding.reads, told))
    };
    engine::verdicts(machine, rulebook::RULES).into_iter().map(row).collect()
}

/// Entries that hold one value, with the map that holds them.
fn leaves<'a>(node: &'a Node, found: &mut Vec<(NodeId, &'a Entry)>) {
    for entry in node.entries() {
        if entry.value.text().is_some() {
            found.push((node.id, entry));
        }
        leaves(&entry.value, found);
    }
    node.items().iter().for_each(|item| leaves(item, found));
}

/// A case asks for it: without the question there is no answer.
fn asks(field: &str, check: &str) -> bool {
    matches!((field, check), ("duration", "time") | ("stop_within", "stopping distance"))
}

/// What deleting one input did in silence, and whether it did anything at all.
fn deleted(document: &document::Document, base: &Judged, parent: NodeId, entry: &Entry) -> (Vec<String>, bool) {
    let swaps = Swaps::from([(entry.value.id, Swap::Removed)]);
    // A required field: the spec is refused, which is no pass.
    let Ok(machine) = Machine::read(document, &swaps) else { return (Vec::new(), false) };
    let after = judged(&machine);
    let mut silent = Vec::new();
    let mut moved = false;
    for (key, (verdict, headroom, reads, _)) in base {
        if !reads.has(entry.value.id) {
            continue;
        }
        let Some((new, new_headroom, new_reads, gaps)) = after.get(key) else {
            if !asks(&entry.key, key.2) {
                silent.push(format!("{} of {} vanished", key.2, key.1));
            }
            continue;
        };
        moved |= new != verdict || new_headroom != headroom;
        let is_it = |absent: &NodeId| {
            machine.absent(*absent).is_some_and(|absent| absent.parent == parent && *absent.field == *entry.key)
        };
        let assumed = new_reads.assumed.iter().any(|assumption| match assumption {
            Assumption::Figure { absent, .. } | Assumption::Word { absent, .. } => is_it(absent),
            Assumption::AtMost { .. } => false,
        });
        // It is told for which case the check was not judged.
        let told = gaps.iter().any(is_it);
        // Another input speaks instead when the check reads something that it did not read before.
        let instead = new_reads.nodes.iter().any(|node| machine.absent(node).is_none() && !reads.has(node));
        let better = new == &Verdict::Sound && matches!(verdict, Verdict::Fails | Verdict::Thin)
            || new == &Verdict::Thin && verdict == &Verdict::Fails;
        if better && !assumed && !told && !instead {
            silent.push(format!("{} of {}: {verdict:?} became {new:?}", key.2, key.1));
        }
    }
    (silent, moved)
}

fn try_all(path: &Path) -> (Vec<String>, usize) {
    let (document, machine) = specs::sound(path);
    let base = judged(&machine);
    let mut all = Vec::new();
    leaves(&document.root, &mut all);
    all.retain(|(_, entry)| base.values().any(|(_, _, reads, _)| reads.has(entry.value.id)));
    // One thing less is another machine, not one of which less is known.
    all.retain(|(_, entry)| !document.path(entry.value.id).contains(".loads."));
    let all: Vec<_> = all.into_iter().step_by(specs::one_in(3)).collect();
    let results: Vec<(Vec<String>, bool)> = all
        .par_iter()
        .map(|(parent, entry)| {
            let (silent, moved) = deleted(&document, &base, *parent, entry);
            let name = document.path(entry.value.id);
            (silent.into_iter().map(|what| format!("without {name}: {what}")).collect(), moved)
        })
        .collect();
    let moved = results.iter().filter(|(_, moved)| *moved).count();
    (results.into_iter().flat_map(|(silent, _)| silent).collect(), moved)
}

#[test]
fn nothing_passes_for_lack_of_data() {
    let mut moved = 0;
    for path in specs::examples().iter().filter(|path| !path.ends_with("revised.machine.yaml")) {
        let (silent, count) = try_all(path);
        assert!(silent.is_empty(), "{}:\n{}", path.display(), silent.join("\n"));
        moved += count;
    }
    assert!(moved > 40, "only {moved} deletions changed a verdict or a margin: the law is idle");
}
