//! What a reading has asked for: every field of every block, written or absent, and every item and key beneath it.

use crate::node::NodeId;

/// What a place of the text is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Asks {
    /// A number of the measure with this key.
    Number(&'static str),
    /// One number of it, or two with `to` between them.
    Range(&'static str),
    /// The key of an entry of one of these sections, `|` between them.
    Name(&'static str),
    /// One of these words.
    Word(&'static [&'static str]),
    Truth,
    Whole,
    Text,
    /// A required reserve.
    Reserve,
    /// The fields of this type.
    Block(&'static str),
    /// A block whose `kind` is one of these.
    Kinds(&'static [&'static str]),
    /// Numbers over numbers; the first number of a point.
    Table,
    Point(&'static str),
    List,
    /// Things under names.
    Things,
    /// Something optional that is absent.
    Unknown,
}

/// A field of a block, or an item beneath it. An absent one has an id like any node, so that it can be noted as read and
/// filled in a what-if.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Field {
    pub node: NodeId,
    /// The map or list that holds it, or lacks it; may itself be absent.
    pub parent: NodeId,
    /// The type whose field it is, and the field.
    pub owner: &'static str,
    pub field: &'static str,
    pub asks: Asks,
}

/// A field with the scalar that stands there, where a number is asked for.
#[derive(Debug, Clone, Copy)]
pub struct Noted<'a> {
    pub field: Field,
    pub absent: bool,
    /// The text, and whether it stands without quotes.
    pub says: Option<(&'a str, bool)>,
}

#[derive(Debug)]
pub(super) struct Notes<'a> {
    pub all: Vec<Noted<'a>>,
    first_free: NodeId,
    /// Where what has no node of its own is noted, in the order of the ids that it got.
    numbered: Vec<usize>,
}

impl<'a> Notes<'a> {
    /// Where the document itself is noted: nowhere.
    pub const TOP: usize = usize::MAX;

    pub fn new(first_free: NodeId) -> Self {
        Self { all: Vec::with_capacity(1024), first_free, numbered: Vec::with_capacity(1024) }
    }

    /// Notes a field; what is absent, or was put in without a node of its own, gets the next free id.
    pub fn add(&mut self, mut field: Field, absent: bool) -> (usize, NodeId) {
        if field.node == NodeId::NOWHERE {
            field.node = NodeId(self.first_free.0 + u32::try_from(self.numbered.len() * 2).unwrap_or(0));
            self.numbered.push(self.all.len());
        }
        self.all.push(Noted { field, absent, says: None });
        (self.all.len() - 1, field.node)
    }

    /// Makes a number of which the text says `unknown` an absent one, with the next free id.
    pub fn unknown(&mut self, of: usize) -> NodeId {
        let id = NodeId(self.first_free.0 + u32::try_from(self.numbered.len() * 2).unwrap_or(0));
        if let Some(noted) = self.all.get_mut(of) {
            self.numbered.push(of);
            (noted.field.node, noted.absent) = (id, true);
        }
        id
    }

    /// What stands in a list or under a key, of the field that holds all of them.
    pub fn item(&mut self, of: usize, parent: NodeId, node: NodeId) -> (usize, NodeId) {
        let (owner, field) = self.all.get(of).map_or(("", ""), |noted| (noted.field.owner, noted.field.field));
        self.add(Field { node, parent, owner, field, asks: Asks::Unknown }, false)
    }

    /// A word that says which kind of block it stands in.
    pub fn inside(&mut self, of: usize, node: NodeId, field: &'static str) -> usize {
        let (parent, owner) = self.all.get(of).map_or((node, ""), |noted| (noted.field.node, noted.field.owner));
        self.add(Field { node, parent, owner, field, asks: Asks::Unknown }, false).0
    }

    pub fn asks(&mut self, of: usize, asks: Asks) {
        if let Some(noted) = self.all.get_mut(of) {
            noted.field.asks = asks;
        }
    }

    pub fn says(&mut self, of: usize, text: &'a str, plain: bool) {
        if let Some(noted) = self.all.get_mut(of) {
            noted.says = Some((text, plain));
        }
    }

    /// The nearest map above an absent field that is written, and the key that it lacks.
    pub fn outermost(&self, id: NodeId) -> (NodeId, &'static str) {
        let (mut at, mut key) = (id, "");
        while let Some(offset) = at.0.checked_sub(self.first_free.0) {
            let noted = self.numbered.get((offset / 2) as usize).and_then(|place| self.all.get(*place));
            let Some(Noted { field, .. }) = noted else { break };
            (at, key) = (field.parent, field.field);
        }
        (at, key)
    }
}
