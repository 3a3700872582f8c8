//! What a written value is asked for: the types themselves tell, by what they refuse.

use crate::given::{MEASURE, RANGE};
use crate::machine::Machine;
use document::{Document, Entry, Kind as NodeKind, Node, NodeId, REF, Swap, Swaps, What};
use quantity::{Kind, m};

/// What the place of a scalar takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Asked {
    Number(&'static Kind),
    /// One number, or two with `to` between them.
    Range(&'static Kind),
    /// The key of an entry of one of these sections, `|` between them.
    Name(&'static str),
    /// One of these words.
    Word(&'static [&'static str]),
    /// Any text, or nothing at all: nobody reads it.
    Other,
}

/// What the types take at a node of a document that they accept as it is.
#[must_use]
pub fn asked(document: &Document, node: NodeId) -> Asked {
    refused(document, node, nonsense(node))
}

/// What the types take for a field that a map does not have.
#[must_use]
pub fn asked_absent(document: &Document, map: NodeId, field: &str) -> Asked {
    let Some(there) = document.node(map) else { return Asked::Other };
    let mut entries = there.entries().to_vec();
    entries.push(Entry { key: field.into(), key_id: NodeId::NOWHERE, value: nonsense(NodeId::NOWHERE) });
    refused(document, map, Node { id: map, kind: NodeKind::Map(entries) })
}

fn nonsense(id: NodeId) -> Node {
    Node { id, kind: NodeKind::Scalar { text: "\u{1}".into(), plain: false } }
}

fn refused(document: &Document, node: NodeId, with: Node) -> Asked {
    let swaps = Swaps::from([(node, Swap::With(with))]);
    let Err(refused) = Machine::read(document, &swaps) else { return Asked::Other };
    let called = |key: &str| m::ALL.iter().find(|kind| kind.key == key).copied();
    match &refused.what {
        What::Dangling { sections, .. } => Asked::Name(sections.strip_prefix(REF).unwrap_or(sections)),
        What::UnknownWord { known, .. } => Asked::Word(known),
        What::Refused(reason) => {
            let number = reason.strip_prefix(MEASURE).and_then(called).map(Asked::Number);
            let range = || reason.strip_prefix(RANGE).and_then(called).map(Asked::Range);
            number.or_else(range).unwrap_or(Asked::Other)
        }
        _ => Asked::Other,
    }
}
