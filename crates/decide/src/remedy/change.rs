//! One change of the spec: as a replaced node for the review, as a replaced stretch of text for the file.

use super::Remedy;
use machine::{Document, Edit, Node, NodeId, NodeKind, Swap};
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
    /// Another material, coolant or oil.
    Name { node: NodeId, from: String, to: String },
    /// An item of a list at another place.
    Order { list: NodeId, from: usize, to: usize },
}

impl Change {
    /// What is replaced.
    #[must_use]
    pub fn node(&self) -> NodeId {
        match self {
            Self::Number { node, .. } | Self::Name { node, .. } => node.node(),
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
            Self::Order { from, to, .. } => {
                let mut items = find(&document.root, id)?.items().to_vec();
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

    fn edit(&self, document: &Document) -> Option<Edit> {
        match self {
            Self::Number { node, text, .. } => Some(document.rewrite(node.node(), text)),
            Self::Name { node, to, .. } => Some(document.rewrite(*node, to)),
            Self::Order { list, from, to } => document.moved(find(&document.root, *list)?, *from, *to),
        }
    }
}

/// The exact replacements in the files; none where a list is not written so that its items can move.
#[must_use]
pub fn edits(document: &Document, remedy: &Remedy) -> Option<Vec<Edit>> {
    remedy.changes.iter().map(|change| change.edit(document)).collect()
}

pub(super) fn find(root: &Node, id: NodeId) -> Option<&Node> {
    let mut found = None;
    root.walk(&mut |node| {
        if node.id == id && found.is_none() {
            found = Some(node);
        }
    });
    found
}
