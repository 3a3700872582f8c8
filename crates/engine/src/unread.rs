//! Numbers that stand in the spec and change nothing: no check has asked for them.

use crate::run::Run;
use machine::{Asks, Document, Field, FileId, Machine, Marks, NodeId};

/// Sections whose numbers are read by something other than checks: things to choose from when a finding is cured, and what
/// the builder sees while driving.
const READ_ELSEWHERE: [&str; 2] = ["stock", "instruments"];
/// What cures are weighed by.
const WEIGHED_BY: [&str; 1] = ["price"];

/// Numbers of the spec's own file that no check of this run has read, in the order of the text.
pub(crate) fn unread(document: &Document, machine: &Machine, run: &Run) -> Vec<NodeId> {
    let mut read = Marks::default();
    run.rows().for_each(|(.., checked)| read.extend(&checked.reads.nodes));
    let read = read.nodes();
    let fields = machine.fields();
    let section = |field: &Field| {
        let mut top = *field;
        while let Some(above) = fields.of(top.parent) {
            top = *above;
        }
        top.field
    };
    let idle = |field: &&Field| {
        matches!(field.asks, Asks::Number(_) | Asks::Range(_))
            && machine.row().si(field.node).is_some()
            && document.place(field.node).file == FileId(0)
            && !read.contains(field.node)
            && !read.contains(field.node.upper())
            && !WEIGHED_BY.contains(&field.field)
            && !READ_ELSEWHERE.contains(&section(field))
    };
    let mut nodes: Vec<NodeId> = fields.all().iter().filter(idle).map(|field| field.node).collect();
    nodes.sort_by_key(|node| document.place(*node).span);
    nodes.dedup();
    nodes
}
