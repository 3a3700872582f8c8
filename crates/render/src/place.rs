//! Where a finding points to.

use machine::{Document, Machine, NodeId};
use rule::Words;

/// The first cause that stands in the spec itself, else in a library; else the thing that it is about.
pub(crate) fn cause(document: &Document, machine: &Machine, words: &Words, subject: NodeId) -> NodeId {
    let mut causes: Vec<NodeId> = words.labels.iter().map(|label| machine.written(label.node)).collect();
    causes.sort_by_key(|node| rank(document, *node));
    causes.push(machine.written(subject));
    let shown = causes.iter().find(|node| rank(document, **node) < BUILT_IN);
    shown.copied().unwrap_or_else(|| machine.written(subject))
}

const BUILT_IN: u8 = 2;

fn rank(document: &Document, node: NodeId) -> u8 {
    let file = document.place(node).file;
    match document.file(file) {
        _ if file.0 == 0 => 0,
        Some(file) if !file.built_in => 1,
        _ => BUILT_IN,
    }
}

/// File and first byte.
pub(crate) fn start(document: &Document, node: NodeId) -> (usize, usize) {
    let place = document.place(node);
    (usize::from(place.file.0), place.label.start as usize)
}
