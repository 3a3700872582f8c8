//! One change of the spec: as a replaced node for the review, as a replaced stretch of text for the file.

use super::Remedy;
use machine::{Document, Edit, Entry, Node, NodeId, NodeKind, Swap};
use quantity::Kind;

#[derive(Debug, Clone)]
pub enum Change {
    /// Another number; of a range, one of its ends.
    Number {
        /// The number's own slot.
        node: NodeId,
        kind: &'static Kind,
        from: f64,
        /// Where the required reserve is just met.
        met: f64,
        /// The next size beyond it.
        to: f64,
        /// What the file says in its place.
        text: String,
    },
    /// A number where none is given.
    Added { map: NodeId, field: &'static str, kind: &'static Kind, to: f64, text: String },
    /// Another material, coolant or oil, or another word.
    Name { node: NodeId, from: String, to: String },
    /// A thing in stock in place of one of the machine, or its sizes in place of those that stand there.
    Thing {
        node: NodeId,
        /// The path of the thing in stock.
        from: String,
        with: Node,
        whole: bool,
    },
    /// An item of a list at another place.
    Order { list: NodeId, from: usize, to: usize },
}

impl Change {
    /// What is replaced.
    #[must_use]
    pub fn node(&self) -> NodeId {
        match self {
            Self::Number { node, .. } | Self::Name { node, .. } | Self::Thing { node, .. } => node.node(),
            Self::Added { map, .. } => *map,
            Self::Order { list, .. } => *list,
        }
    }

    /// The node that stands in its place when the machine is read again.
    pub(super) fn swap(&self, document: &Document) -> Option<(NodeId, Swap)> {
        let id = self.node();
        let scalar = |text: &str, plain| Node { id, kind: NodeKind::Scalar { text: text.into(), plain } };
        let node = match self {
            Self::Number { kind, text, .. } => scalar(text, kind.bare),
            Self::Name { to, .. } => scalar(to, false),
            Self::Added { .. } => {
                let mut entries = document.node(id)?.entries().to_vec();
                entries.push(self.entry()?);
                Node { id, kind: NodeKind::Map(entries) }
            }
            Self::Thing { with, .. } => with.clone(),
            Self::Order { from, to, .. } => {
                let mut items = document.node(id)?.items().to_vec();
                if *from >= items.len() || *to >= items.len() {
                    return None;
                }
                let item = items.remove(*from);
                items.insert(*to, item);
                Node { id, kind: NodeKind::Seq(items) }
            }
        };
        Some((id, Swap::With(node)))
    }

    /// What is added.
    fn entry(&self) -> Option<Entry> {
        let Self::Added { field, text, .. } = self else { return None };
        let id = NodeId::NOWHERE;
        let value = Node { id, kind: NodeKind::Scalar { text: text.as_str().into(), plain: true } };
        Some(Entry { key: (*field).into(), key_id: id, value })
    }

    fn edits(&self, document: &Document) -> Option<Vec<Edit>> {
        Some(match self {
            Self::Number { node, text, .. } => vec![document.rewrite(node.node(), text)],
            Self::Name { node, to, .. } => vec![document.rewrite(*node, to)],
            Self::Added { map, .. } => vec![document.added(document.node(*map)?, &self.entry()?)?],
            Self::Thing { with, whole: true, .. } => vec![document.written_anew(with)],
            Self::Thing { node, with, .. } => {
                let there = document.node(*node)?;
                let mut edits = Vec::new();
                for new in with.entries() {
                    match (there.get(&new.key), new.value.text()) {
                        (Some(old), text) if old.text() == text => {}
                        (Some(old), Some(text)) => edits.push(document.rewrite(old.id, text)),
                        (None, _) => edits.push(document.added(there, new)?),
                        (Some(_), None) => return None,
                    }
                }
                edits
            }
            Self::Order { list, from, to } => vec![document.moved(document.node(*list)?, *from, *to)?],
        })
    }
}

/// The exact replacements in the files; none where what stands there is not written so that it can be replaced.
#[must_use]
pub fn edits(document: &Document, remedy: &Remedy) -> Option<Vec<Edit>> {
    let edits: Option<Vec<Vec<Edit>>> = remedy.changes.iter().map(|change| change.edits(document)).collect();
    Some(edits?.into_iter().flatten().collect())
}
