//! Nodes served to serde, with what plain serde cannot say: a value's node, what a field is asked for, an absent field's
//! name, a reference's target. A reading never stops at what it refuses: it notes it, serves something in its place, and
//! goes on, so that one reading finds everything.
//!
//! Private names are the agreement with the types of `machine`:
//! [`GIVEN`] and [`RANGE`] of a measure → id · [`TABLE`] → pairs · [`RESERVE`] → (id, number?, text?) ·
//! [`WORD`] → one of the listed words · [`KEY`] → (id, text) · [`MAYBE`] → (id, value?) ·
//! [`REF`] + sections → (id, which section, which entry, name).

mod access;
mod fields;
mod parts;

use self::access::{Fields, MaybeAccess, Pairs, SeqItems, Variant};
use self::fields::Notes;
pub use self::fields::{Asks, Field, Noted};
use self::parts::{Parts, PartsAccess};
use crate::json::{as_bool, as_number, unknown};
use crate::nearest::nearest;
use crate::node::{Entry, Kind, Node, NodeId, Swap, Swaps};
use serde::de::{self, Visitor};
use std::cell::RefCell;
use std::fmt;

/// With the key of a measure as its only field.
pub const GIVEN: &str = "$given";
/// The same for two numbers from one text.
pub const RANGE: &str = "$range";
/// A map from numbers to numbers.
pub const TABLE: &str = "$table";
pub const RESERVE: &str = "$reserve";
/// One of the words that are listed beside it.
pub const WORD: &str = "$word";
pub const KEY: &str = "$key";
pub const MAYBE: &str = "$maybe";
/// Followed by section paths, `|` between them: `$ref:materials|structure.parts`.
pub const REF: &str = "$ref:";

#[derive(Debug, Clone, PartialEq)]
pub struct DeError {
    pub at: Option<NodeId>,
    pub what: What,
}

#[derive(Debug, Clone, PartialEq)]
pub enum What {
    UnknownKey {
        key: String,
        known: &'static [&'static str],
    },
    MissingKey {
        key: &'static str,
    },
    WrongType {
        wanted: &'static str,
        got: &'static str,
    },
    UnknownWord {
        got: String,
        known: &'static [&'static str],
    },
    Nothing,
    /// A table without a point.
    NoPoints,
    /// A name that no entry of the sections has.
    Dangling {
        name: String,
        sections: &'static str,
        nearest: Option<String>,
    },
    /// Said by a type of `machine`.
    Refused(String),
}

impl fmt::Display for DeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?}", self.what)
    }
}
impl std::error::Error for DeError {}

impl de::Error for DeError {
    fn custom<T: fmt::Display>(message: T) -> Self {
        Self { at: None, what: What::Refused(message.to_string()) }
    }
    fn unknown_variant(variant: &str, expected: &'static [&'static str]) -> Self {
        Self { at: None, what: What::UnknownWord { got: variant.to_owned(), known: expected } }
    }
    fn missing_field(field: &'static str) -> Self {
        Self { at: None, what: What::MissingKey { key: field } }
    }
}

impl DeError {
    fn new(at: NodeId, what: What) -> Self {
        Self { at: Some(at), what }
    }
    fn or_at(mut self, at: NodeId) -> Self {
        self.at.get_or_insert(at);
        self
    }
}

/// One reading of a tree into types.
#[derive(Debug)]
pub struct Reading<'a> {
    root: &'a Node,
    swaps: &'a Swaps,
    notes: RefCell<Notes<'a>>,
    refused: RefCell<Vec<DeError>>,
}

/// More than this nobody reads; the rest comes after these are mended.
const MOST: usize = 200;

impl<'a> Reading<'a> {
    #[must_use]
    pub fn new(root: &'a Node, first_free: NodeId, swaps: &'a Swaps) -> Self {
        Self { root, swaps, notes: RefCell::new(Notes::new(first_free)), refused: RefCell::default() }
    }

    /// # Errors
    /// Everything that the types refuse, in the order in which it was met.
    pub fn read<T: de::DeserializeOwned>(&self) -> Result<T, Vec<DeError>> {
        let top = De {
            reading: self,
            source: Source::Node(self.root),
            id: self.root.id,
            tagged: false,
            note: Notes::TOP,
            muted: false,
        };
        let read = T::deserialize(top);
        let mut refused = self.refused.take();
        match read {
            Ok(read) if refused.is_empty() => Ok(read),
            Ok(_) => Err(refused),
            Err(error) => {
                refused.push(error);
                Err(refused)
            }
        }
    }

    /// Every field that the types asked for, in the order of reading; absent ones have the ids from the first free one on.
    #[must_use]
    pub fn fields(self) -> Vec<Noted<'a>> {
        self.notes.into_inner().all
    }

    fn refuse(&self, error: DeError) {
        let mut refused = self.refused.borrow_mut();
        if refused.len() < MOST && !refused.contains(&error) {
            refused.push(error);
        }
    }

    fn swapped(&self, node: &'a Node) -> Option<&'a Node> {
        if self.swaps.is_empty() {
            return Some(node);
        }
        match self.swaps.get(&node.id) {
            None => Some(node),
            Some(Swap::With(other)) => Some(other),
            Some(Swap::Removed) => None,
        }
    }

    /// (section, index) of the entry called `name`, counted as a reading of that section counts.
    fn find(&self, sections: &'static str, name: &str) -> Option<(u32, u32)> {
        for (which, path) in (0_u32..).zip(sections.split('|')) {
            let Some(section) = self.section(path) else { continue };
            let position = match &section.kind {
                Kind::Map(entries) => {
                    let kept = entries.iter().filter(|entry| self.swapped(&entry.value).is_some());
                    kept.into_iter().position(|entry| &*entry.key == name)
                }
                Kind::Seq(items) => {
                    let kept = items.iter().filter_map(|item| self.swapped(item));
                    kept.into_iter().position(|item| item.get("name").and_then(Node::text) == Some(name))
                }
                Kind::Null | Kind::Scalar { .. } => None,
            };
            if let Some(index) = position {
                return Some((which, u32::try_from(index).unwrap_or(u32::MAX)));
            }
        }
        None
    }

    fn section(&self, path: &str) -> Option<&'a Node> {
        path.split('.').try_fold(self.root, |node, step| node.get(step).and_then(|inner| self.swapped(inner)))
    }

    fn names(&self, sections: &'static str) -> Vec<&'a str> {
        let sections = sections.split('|').filter_map(|path| self.section(path));
        sections
            .flat_map(|section| {
                let keys = section.entries().iter().map(|entry| &*entry.key);
                keys.chain(section.items().iter().filter_map(|item| item.get("name").and_then(Node::text)))
            })
            .collect()
    }
}

#[derive(Clone, Copy)]
enum Source<'a> {
    Node(&'a Node),
    Absent,
}

#[derive(Clone, Copy)]
struct De<'r, 'a> {
    reading: &'r Reading<'a>,
    source: Source<'a>,
    /// Of the node; of what is absent, or stands in no text, one of the free ones.
    id: NodeId,
    /// `kind` has been taken out as the variant's name.
    tagged: bool,
    /// Where its field is noted.
    note: usize,
    /// Stands in for what was refused: nothing about it is worth saying.
    muted: bool,
}

/// The number that a node is, in decimal form without quotes.
#[must_use]
pub fn number(node: &Node) -> Option<f64> {
    match &node.kind {
        Kind::Scalar { text, plain } => as_number(text, *plain),
        _ => None,
    }
}

fn type_name(node: &Node) -> &'static str {
    match &node.kind {
        Kind::Null => "nothing",
        Kind::Seq(_) => "a list",
        Kind::Map(_) => "a map",
        Kind::Scalar { text, plain } if as_number(text, *plain).is_some() => "a number",
        Kind::Scalar { text, plain } if as_bool(text, *plain).is_some() => "yes or no",
        Kind::Scalar { .. } => "text",
    }
}

impl<'r, 'a> De<'r, 'a> {
    fn asks(&self, asks: Asks) {
        self.reading.notes.borrow_mut().asks(self.note, asks);
    }

    fn refuse(&self, at: NodeId, what: What) {
        if !self.muted {
            self.reading.refuse(DeError::new(at, what));
        }
    }

    /// The written node; a gap is refused, for whoever asks this cannot do without.
    fn node(&self) -> Option<&'a Node> {
        match self.source {
            Source::Node(node) => Some(node),
            Source::Absent => {
                // Of a thing inside things that are not there either, the outermost is named.
                let (at, key) = self.reading.notes.borrow().outermost(self.id);
                self.refuse(at, What::MissingKey { key });
                None
            }
        }
    }

    fn wrong(&self, node: &Node, wanted: &'static str) {
        let what = if matches!(node.kind, Kind::Null) {
            What::Nothing
        } else {
            What::WrongType { wanted, got: type_name(node) }
        };
        self.refuse(node.id, what);
    }

    /// A scalar that is text, not a number or a truth value.
    fn word(&self, wanted: &'static str) -> Option<&'a str> {
        let node = self.node()?;
        match &node.kind {
            Kind::Scalar { text, plain } if as_number(text, *plain).is_none() && as_bool(text, *plain).is_none() => {
                Some(text)
            }
            _ => {
                self.wrong(node, wanted);
                None
            }
        }
    }

    fn whole<T: TryFrom<i64> + Default>(&self) -> T {
        let Some(node) = self.node() else { return T::default() };
        let whole = number(node).filter(|number| number.fract() == 0.0 && number.abs() < 9e15);
        #[expect(clippy::cast_possible_truncation, reason = "checked in the line above")]
        let whole = whole.and_then(|number| T::try_from(number as i64).ok());
        whole.unwrap_or_else(|| {
            self.wrong(node, "a whole number");
            T::default()
        })
    }

    /// The entries of a map; of anything else none, and then nothing inside it is worth saying.
    fn entries(&self) -> (&'a [Entry], NodeId, bool) {
        match self.source {
            Source::Absent => (&[], self.id, self.muted),
            Source::Node(node) => match &node.kind {
                Kind::Map(entries) => (entries, node.id, self.muted),
                _ => {
                    self.wrong(node, "a map");
                    (&[], node.id, true)
                }
            },
        }
    }

    /// The word of a tagged block, or of a list of words; the first of the list in place of what is refused.
    fn variant(self, variants: &'static [&'static str]) -> Variant<'r, 'a> {
        let (word, at) = match self.source {
            Source::Node(node) => match &node.kind {
                Kind::Map(_) => match node.get("kind").and_then(|kind| self.reading.swapped(kind)) {
                    None => {
                        self.refuse(node.id, What::MissingKey { key: "kind" });
                        (None, node.id)
                    }
                    Some(kind) => {
                        let note = self.reading.notes.borrow_mut().inside(self.note, kind.id, "kind");
                        let inner = De { source: Source::Node(kind), id: kind.id, note, ..self };
                        inner.asks(Asks::Word(variants));
                        (inner.word("a word"), kind.id)
                    }
                },
                Kind::Scalar { .. } => (self.word("a map with `kind`"), node.id),
                _ => {
                    self.wrong(node, "a map with `kind`");
                    (None, node.id)
                }
            },
            Source::Absent => {
                let _ = self.node();
                (None, self.id)
            }
        };
        let known = word.and_then(|word| variants.iter().find(|variant| **variant == word));
        if let (Some(word), None) = (word, known) {
            self.refuse(at, What::UnknownWord { got: word.to_owned(), known: variants });
        }
        let first = variants.first().copied().unwrap_or_default();
        match known {
            Some(known) => Variant { de: self, word: known },
            None => Variant { de: De { source: Source::Absent, muted: true, ..self }, word: first },
        }
    }
}

macro_rules! whole {
    ($($method:ident $visit:ident $t:ty),*) => {$(
        fn $method<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DeError> {
            self.asks(Asks::Whole);
            visitor.$visit(self.whole::<$t>()).map_err(|error: DeError| error.or_at(self.id))
        }
    )*};
}

impl<'de, 'a: 'de> de::Deserializer<'de> for De<'_, 'a> {
    type Error = DeError;

    fn deserialize_any<V: Visitor<'de>>(self, _: V) -> Result<V::Value, DeError> {
        Err(DeError::new(self.id, What::Refused("this type asks for anything at all; give it a shape".into())))
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DeError> {
        self.asks(Asks::Truth);
        let truth = self.node().and_then(|node| {
            let truth = match &node.kind {
                Kind::Scalar { text, plain } => as_bool(text, *plain).or(match &**text {
                    "yes" => Some(true),
                    "no" => Some(false),
                    _ => None,
                }),
                _ => None,
            };
            if truth.is_none() {
                self.wrong(node, "yes or no");
            }
            truth
        });
        visitor.visit_bool(truth.unwrap_or(false))
    }

    whole!(deserialize_u8 visit_u8 u8, deserialize_u16 visit_u16 u16, deserialize_u32 visit_u32 u32, deserialize_i64 visit_i64 i64);

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DeError> {
        self.asks(Asks::Text);
        visitor.visit_borrowed_str(self.word("text").unwrap_or("")).map_err(|error: DeError| error.or_at(self.id))
    }
    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DeError> {
        self.deserialize_str(visitor)
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DeError> {
        match self.source {
            Source::Absent => visitor.visit_none(),
            Source::Node(_) => visitor.visit_some(self),
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(self, _: &'static str, visitor: V) -> Result<V::Value, DeError> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_tuple_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        _: usize,
        visitor: V,
    ) -> Result<V::Value, DeError> {
        let id = self.id;
        if name == MAYBE {
            return visitor.visit_seq(MaybeAccess { de: self, step: 0 }).map_err(|error: DeError| error.or_at(id));
        }
        let parts = if name == RESERVE {
            let node = self.node();
            self.scalar(Asks::Reserve);
            Parts::Given { number: node.and_then(number), text: node.and_then(Node::text) }
        } else if name == KEY {
            Parts::Key(self.word("a name").unwrap_or(""))
        } else if let Some(sections) = name.strip_prefix(REF) {
            self.asks(Asks::Name(sections));
            let wanted = self.word("a name");
            let (section, index) = wanted.map_or((0, 0), |wanted| self.target(sections, wanted));
            Parts::Ref { section, index, name: wanted.unwrap_or("") }
        } else {
            return Err(DeError::new(id, What::Refused("an unknown private name".into())));
        };
        visitor.visit_seq(PartsAccess { id, parts, step: 0 }).map_err(|error: DeError| error.or_at(id))
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DeError> {
        self.asks(Asks::List);
        let items = match self.source {
            Source::Absent => [].iter(),
            Source::Node(Node { kind: Kind::Seq(items), .. }) => items.iter(),
            Source::Node(node) => {
                self.wrong(node, "a list");
                [].iter()
            }
        };
        visitor.visit_seq(SeqItems { de: self, items }).map_err(|error| error.or_at(self.id))
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DeError> {
        self.asks(Asks::Things);
        let (entries, _, muted) = self.entries();
        let de = De { muted, ..self };
        visitor.visit_map(Pairs { de, entries: entries.iter(), value: None }).map_err(|error| error.or_at(self.id))
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, DeError> {
        match (name, fields) {
            (GIVEN, [measure]) => {
                if matches!(self.source, Source::Node(node) if unknown(node)) {
                    self.asks(Asks::Number(measure));
                    return visitor.visit_u32(self.reading.notes.borrow_mut().unknown(self.note).0);
                }
                self.scalar(Asks::Number(measure));
                return visitor.visit_u32(self.id.0);
            }
            (RANGE, [measure]) => {
                self.scalar(Asks::Range(measure));
                return visitor.visit_u32(self.id.0);
            }
            _ => {}
        }
        let (entries, parent, muted) = self.entries();
        let de = De { muted, ..self };
        if name == TABLE {
            self.asks(Asks::Table);
            if entries.is_empty() && !muted {
                // Absent, or with nothing in it.
                if let Some(node) = self.node() {
                    self.refuse(node.id, What::NoPoints);
                }
            }
            let pairs = Pairs { de, entries: entries.iter(), value: None };
            return visitor.visit_map(pairs).map_err(|error| error.or_at(self.id));
        }
        self.asks(Asks::Block(name));
        let fields = Fields { de, owner: name, known: fields, parent, entries, next: 0, lacking: 0, value: None };
        visitor.visit_map(fields).map_err(|error| error.or_at(self.id))
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        name: &'static str,
        variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, DeError> {
        if name == WORD {
            self.asks(Asks::Word(variants));
            let word = self.word("a word");
            let known = word.and_then(|word| variants.iter().find(|variant| **variant == word));
            if let (Some(word), None) = (word, known) {
                self.refuse(self.id, What::UnknownWord { got: word.to_owned(), known: variants });
            }
            let first = variants.first().copied().unwrap_or_default();
            return visitor.visit_borrowed_str(known.copied().unwrap_or(first));
        }
        self.asks(Asks::Kinds(variants));
        let id = self.id;
        visitor.visit_enum(self.variant(variants)).map_err(|error| error.or_at(id))
    }

    fn deserialize_identifier<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DeError> {
        self.deserialize_str(visitor)
    }

    serde::forward_to_deserialize_any! {
        i8 i16 i32 u64 f32 f64 char bytes byte_buf unit unit_struct tuple ignored_any
    }
}

impl De<'_, '_> {
    /// Notes what a value is asked for, and refuses a list or a block in its place.
    fn scalar(&self, asks: Asks) {
        self.asks(asks);
        match self.source {
            Source::Node(node) => {
                if let Kind::Scalar { text, plain } = &node.kind {
                    self.reading.notes.borrow_mut().says(self.note, text, *plain);
                } else {
                    self.wrong(node, "a value");
                }
            }
            Source::Absent => {}
        }
    }

    /// Where a name leads; to the first of all where it leads nowhere, which is refused.
    fn target(&self, sections: &'static str, wanted: &str) -> (u32, u32) {
        self.reading.find(sections, wanted).unwrap_or_else(|| {
            let nearest = nearest(wanted, self.reading.names(sections)).map(str::to_owned);
            self.refuse(self.id, What::Dangling { name: wanted.to_owned(), sections, nearest });
            (0, 0)
        })
    }
}
