//! The tree that every later stage points into.

use std::borrow::Cow;
use std::collections::BTreeMap;

/// Names a node for good. Ids are even; `upper()` names the second number of a range (`-30 °C to 8 °C`).
/// Copies by alias or `like` keep the id of what they copy, so one written number is one node however often it is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct NodeId(pub u32);

impl NodeId {
    /// Of what stands in no text.
    pub const NOWHERE: NodeId = NodeId(u32::MAX - 1);

    #[must_use]
    pub fn index(self) -> usize {
        self.0 as usize
    }
    /// The slot of a range's upper end.
    #[must_use]
    pub fn upper(self) -> NodeId {
        NodeId(self.0 | 1)
    }
    /// The node itself, whichever slot is asked.
    #[must_use]
    pub fn node(self) -> NodeId {
        NodeId(self.0 & !1)
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FileId(pub u16);

/// Byte offsets into one file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Span {
    pub start: u32,
    pub end: u32,
}

impl Span {
    #[must_use]
    pub fn len(self) -> usize {
        self.end.saturating_sub(self.start) as usize
    }
    #[must_use]
    pub fn is_empty(self) -> bool {
        self.len() == 0
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    pub file: FileId,
    /// All of the node's text.
    pub span: Span,
    /// What to underline: the scalar itself; for a map, a list or an empty value the key that holds it.
    pub label: Span,
}

#[derive(Debug, Clone)]
pub struct Node {
    pub id: NodeId,
    pub kind: Kind,
}

#[derive(Debug, Clone)]
pub enum Kind {
    Null,
    /// `plain`: written without quotes, so it may be a number or a truth value.
    Scalar {
        text: Box<str>,
        plain: bool,
    },
    Seq(Vec<Node>),
    Map(Vec<Entry>),
}

#[derive(Debug, Clone)]
pub struct Entry {
    pub key: Box<str>,
    pub key_id: NodeId,
    pub value: Node,
}

impl Node {
    #[must_use]
    pub fn get(&self, key: &str) -> Option<&Node> {
        self.entry(key).map(|entry| &entry.value)
    }
    #[must_use]
    pub fn entry(&self, key: &str) -> Option<&Entry> {
        self.entries().iter().find(|entry| &*entry.key == key)
    }
    #[must_use]
    pub fn entries(&self) -> &[Entry] {
        match &self.kind {
            Kind::Map(entries) => entries,
            _ => &[],
        }
    }
    #[must_use]
    pub fn items(&self) -> &[Node] {
        match &self.kind {
            Kind::Seq(items) => items,
            _ => &[],
        }
    }
    #[must_use]
    pub fn text(&self) -> Option<&str> {
        match &self.kind {
            Kind::Scalar { text, .. } => Some(text),
            _ => None,
        }
    }
    /// Calls `visit` for this node and everything beneath it, in the order of the text.
    pub fn walk<'a>(&'a self, visit: &mut dyn FnMut(&'a Node)) {
        visit(self);
        match &self.kind {
            Kind::Seq(items) => items.iter().for_each(|item| item.walk(visit)),
            Kind::Map(entries) => entries.iter().for_each(|entry| entry.value.walk(visit)),
            Kind::Null | Kind::Scalar { .. } => {}
        }
    }
}

/// One text as it was read: the spec, a library, or a built-in entry.
#[derive(Debug, Clone)]
pub struct SourceFile {
    pub name: String,
    pub text: Cow<'static, str>,
    /// Part of the program, not of the builder's repository.
    pub built_in: bool,
}

/// A discrete change for one reading: another node in its place, or none.
#[derive(Debug, Clone)]
pub enum Swap {
    With(Node),
    Removed,
}

pub type Swaps = BTreeMap<NodeId, Swap>;
