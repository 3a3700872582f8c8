//! Nodes served to serde, with what plain serde cannot say: a value's node, an absent field's name, a reference's target.
//!
//! Private names of tuple structs are the agreement with the types of `machine`:
//! [`GIVEN`] and [`NEEDED`] → (id, number?, text?) · [`KEY`] → (id, text) · [`MAYBE`] → (id, value?) ·
//! [`REF`] + sections → (id, which section, which entry, name).

mod parts;

use self::parts::{KeyDe, Parts, PartsAccess};
use crate::json::{as_bool, as_number, unknown};
use crate::nearest::nearest;
use crate::node::{Entry, Kind, Node, NodeId, Swap, Swaps};
use serde::de::value::{StrDeserializer, U32Deserializer};
use serde::de::{self, DeserializeSeed, EnumAccess, IntoDeserializer, MapAccess, SeqAccess, VariantAccess, Visitor};
use std::cell::RefCell;
use std::fmt;

pub const GIVEN: &str = "$given";
/// The same where it must be there.
pub const NEEDED: &str = "$needed";
pub const KEY: &str = "$key";
pub const MAYBE: &str = "$maybe";
/// Followed by section paths, `|` between them: `$ref:materials|structure.parts`.
pub const REF: &str = "$ref:";

/// A field that a map does not have. It has an id like any node, so that it can be noted as read and filled in a what-if.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Absent {
    /// The map that lacks it; may itself be absent.
    pub parent: NodeId,
    /// The type whose field it is, and the field.
    pub owner: &'static str,
    pub field: &'static str,
}

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
    first_free: NodeId,
    absent: RefCell<Vec<Absent>>,
}

impl<'a> Reading<'a> {
    #[must_use]
    pub fn new(root: &'a Node, first_free: NodeId, swaps: &'a Swaps) -> Self {
        Self { root, swaps, first_free, absent: RefCell::default() }
    }

    /// # Errors
    /// The first thing that the types refuse.
    pub fn read<T: de::DeserializeOwned>(&self) -> Result<T, DeError> {
        T::deserialize(De { reading: self, source: Source::Node(self.root), tagged: false })
    }

    /// The absent fields in the order of their ids, which begin at the document's end.
    #[must_use]
    pub fn absent(self) -> Vec<Absent> {
        self.absent.into_inner()
    }

    fn lack(&self, parent: NodeId, owner: &'static str, field: &'static str) -> NodeId {
        let mut absent = self.absent.borrow_mut();
        let id = NodeId(self.first_free.0 + u32::try_from(absent.len() * 2).unwrap_or(0));
        absent.push(Absent { parent, owner, field });
        id
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
    Absent(NodeId),
    /// `unknown` stands there: a number takes it as absent, under an id of its own.
    Unknown(&'a Node, NodeId),
}

#[derive(Clone, Copy)]
struct De<'r, 'a> {
    reading: &'r Reading<'a>,
    source: Source<'a>,
    /// `kind` has been taken out as the variant's name.
    tagged: bool,
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

impl<'a> De<'_, 'a> {
    fn id(&self) -> NodeId {
        match self.source {
            Source::Node(node) | Source::Unknown(node, _) => node.id,
            Source::Absent(id) => id,
        }
    }

    fn node(&self) -> Result<&'a Node, DeError> {
        match self.source {
            Source::Node(node) | Source::Unknown(node, _) => Ok(node),
            Source::Absent(id) => Err(self.missing(id)),
        }
    }

    /// A thing is needed and is not there: named by the field, placed at the nearest map that is.
    fn missing(&self, id: NodeId) -> DeError {
        let absent = self.reading.absent.borrow();
        let entry = |id: NodeId| absent.get((id.0.saturating_sub(self.reading.first_free.0) / 2) as usize).copied();
        let mut at = id;
        let mut key = "";
        // Of a thing inside things that are not there either, the outermost is named.
        while at >= self.reading.first_free {
            match entry(at) {
                Some(absent) => (at, key) = (absent.parent, absent.field),
                None => break,
            }
        }
        DeError::new(at, What::MissingKey { key })
    }

    fn wrong<T>(&self, wanted: &'static str) -> Result<T, DeError> {
        let node = self.node()?;
        let what = if matches!(node.kind, Kind::Null) {
            What::Nothing
        } else {
            What::WrongType { wanted, got: type_name(node) }
        };
        Err(DeError::new(node.id, what))
    }

    /// A scalar that is text, not a number or a truth value.
    fn word(&self, wanted: &'static str) -> Result<&'a str, DeError> {
        let node = self.node()?;
        match &node.kind {
            Kind::Scalar { text, plain } if as_number(text, *plain).is_none() && as_bool(text, *plain).is_none() => {
                Ok(text)
            }
            _ => self.wrong(wanted),
        }
    }

    fn whole<T: TryFrom<i64>>(&self) -> Result<T, DeError> {
        let node = self.node()?;
        let whole = number(node).filter(|number| number.fract() == 0.0 && number.abs() < 9e15);
        #[expect(clippy::cast_possible_truncation, reason = "checked in the line above")]
        let whole = whole.and_then(|number| T::try_from(number as i64).ok());
        whole.map_or_else(|| self.wrong("a whole number"), Ok)
    }
}

macro_rules! whole {
    ($($method:ident $visit:ident $t:ty),*) => {$(
        fn $method<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DeError> {
            visitor.$visit(self.whole::<$t>()?).map_err(|error: DeError| error.or_at(self.id()))
        }
    )*};
}

impl<'de, 'a: 'de> de::Deserializer<'de> for De<'_, 'a> {
    type Error = DeError;

    fn deserialize_any<V: Visitor<'de>>(self, _: V) -> Result<V::Value, DeError> {
        Err(DeError::new(self.id(), What::Refused("this type asks for anything at all; give it a shape".into())))
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DeError> {
        let node = self.node()?;
        let truth = match &node.kind {
            Kind::Scalar { text, plain } => as_bool(text, *plain).or(match &**text {
                "yes" => Some(true),
                "no" => Some(false),
                _ => None,
            }),
            _ => None,
        };
        truth.map_or_else(|| self.wrong("yes or no"), |truth| visitor.visit_bool(truth))
    }

    whole!(deserialize_u8 visit_u8 u8, deserialize_u16 visit_u16 u16, deserialize_u32 visit_u32 u32, deserialize_i64 visit_i64 i64);

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DeError> {
        let text = self.word("text")?;
        visitor.visit_borrowed_str(text).map_err(|error: DeError| error.or_at(self.id()))
    }
    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DeError> {
        self.deserialize_str(visitor)
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DeError> {
        match self.source {
            Source::Absent(_) => visitor.visit_none(),
            Source::Node(_) | Source::Unknown(..) => visitor.visit_some(self),
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
        let mut id = self.id();
        let parts = match name {
            MAYBE => {
                return visitor.visit_seq(MaybeAccess { de: self, step: 0 }).map_err(|error: DeError| error.or_at(id));
            }
            GIVEN | NEEDED => match self.source {
                Source::Absent(id) if name == NEEDED => return Err(self.missing(id)),
                Source::Absent(_) => Parts::Given { number: None, text: None },
                Source::Unknown(_, absent) if name == GIVEN => {
                    id = absent;
                    Parts::Given { number: None, text: None }
                }
                Source::Node(node) | Source::Unknown(node, _) => match &node.kind {
                    Kind::Scalar { text, .. } => Parts::Given { number: number(node), text: Some(text) },
                    _ => return self.wrong("a value"),
                },
            },
            KEY => Parts::Key(self.word("a name")?),
            _ => match name.strip_prefix(REF) {
                None => return Err(DeError::new(id, What::Refused("an unknown private name".into()))),
                Some(sections) => {
                    let wanted = self.word("a name")?;
                    let Some((section, index)) = self.reading.find(sections, wanted) else {
                        let near = nearest(wanted, self.reading.names(sections)).map(str::to_owned);
                        return Err(DeError::new(
                            id,
                            What::Dangling { name: wanted.to_owned(), sections, nearest: near },
                        ));
                    };
                    Parts::Ref { section, index, name: wanted }
                }
            },
        };
        visitor.visit_seq(PartsAccess { id, parts, step: 0 }).map_err(|error: DeError| error.or_at(id))
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DeError> {
        match self.source {
            Source::Absent(_) => visitor.visit_seq(SeqItems { de: self, items: [].iter() }),
            Source::Node(Node { kind: Kind::Seq(items), .. }) => {
                visitor.visit_seq(SeqItems { de: self, items: items.iter() })
            }
            Source::Node(_) | Source::Unknown(..) => return self.wrong("a list"),
        }
        .map_err(|error| error.or_at(self.id()))
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DeError> {
        let entries = match self.source {
            Source::Absent(_) => [].iter(),
            Source::Node(Node { kind: Kind::Map(entries), .. }) => entries.iter(),
            Source::Node(_) | Source::Unknown(..) => return self.wrong("a map"),
        };
        visitor.visit_map(Pairs { de: self, entries, value: None }).map_err(|error| error.or_at(self.id()))
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, DeError> {
        let (entries, parent) = match self.source {
            Source::Absent(id) => ([].as_slice(), id),
            Source::Node(node) | Source::Unknown(node, _) => match &node.kind {
                Kind::Map(entries) => (entries.as_slice(), node.id),
                _ => return self.wrong("a map"),
            },
        };
        let fields = Fields { de: self, owner: name, known: fields, parent, entries, next: 0, lacking: 0, value: None };
        visitor.visit_map(fields).map_err(|error| error.or_at(self.id()))
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, DeError> {
        let node = self.node()?;
        let (word, at) = match &node.kind {
            Kind::Map(_) => match node.get("kind").and_then(|kind| self.reading.swapped(kind)) {
                None => return Err(DeError::new(node.id, What::MissingKey { key: "kind" })),
                Some(kind) => {
                    let inner = De { source: Source::Node(kind), ..self };
                    (inner.word("a word")?, kind.id)
                }
            },
            Kind::Scalar { .. } => (self.word("a map with `kind`")?, node.id),
            _ => return self.wrong("a map with `kind`"),
        };
        let Some(variant) = variants.iter().find(|variant| **variant == word) else {
            return Err(DeError::new(at, What::UnknownWord { got: word.to_owned(), known: variants }));
        };
        visitor.visit_enum(Variant { de: self, word: variant }).map_err(|error| error.or_at(node.id))
    }

    fn deserialize_identifier<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DeError> {
        self.deserialize_str(visitor)
    }

    serde::forward_to_deserialize_any! {
        i8 i16 i32 u64 f32 f64 char bytes byte_buf unit unit_struct tuple ignored_any
    }
}

/// The fields of a struct: those that stand there, then those that the map lacks.
struct Fields<'r, 'a> {
    de: De<'r, 'a>,
    owner: &'static str,
    known: &'static [&'static str],
    parent: NodeId,
    entries: &'a [Entry],
    next: usize,
    lacking: usize,
    value: Option<Source<'a>>,
}

impl<'de, 'a: 'de> MapAccess<'de> for Fields<'_, 'a> {
    type Error = DeError;
    fn next_key_seed<K: DeserializeSeed<'de>>(&mut self, seed: K) -> Result<Option<K::Value>, DeError> {
        while let Some(entry) = self.entries.get(self.next) {
            self.next += 1;
            if self.de.tagged && &*entry.key == "kind" {
                continue;
            }
            let Some(value) = self.de.reading.swapped(&entry.value) else { continue };
            let Some(field) = self.known.iter().find(|field| **field == &*entry.key) else {
                let what = What::UnknownKey { key: entry.key.to_string(), known: self.known };
                return Err(DeError::new(entry.key_id, what));
            };
            let lack = || self.de.reading.lack(self.parent, self.owner, field);
            self.value = Some(if unknown(value) { Source::Unknown(value, lack()) } else { Source::Node(value) });
            let key: StrDeserializer<'_, DeError> = (&*entry.key).into_deserializer();
            return seed.deserialize(key).map(Some);
        }
        while let Some(field) = self.known.get(self.lacking) {
            self.lacking += 1;
            let there = self
                .entries
                .iter()
                .any(|entry| *entry.key == **field && self.de.reading.swapped(&entry.value).is_some());
            if there {
                continue;
            }
            self.value = Some(Source::Absent(self.de.reading.lack(self.parent, self.owner, field)));
            let key: StrDeserializer<'_, DeError> = (*field).into_deserializer();
            return seed.deserialize(key).map(Some);
        }
        Ok(None)
    }
    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, DeError> {
        let source = self.value.take().unwrap_or(Source::Absent(self.parent));
        seed.deserialize(De { reading: self.de.reading, source, tagged: false })
    }
}

/// Named things: key node and value.
struct Pairs<'r, 'a> {
    de: De<'r, 'a>,
    entries: std::slice::Iter<'a, Entry>,
    value: Option<&'a Node>,
}

impl<'de, 'a: 'de> MapAccess<'de> for Pairs<'_, 'a> {
    type Error = DeError;
    fn next_key_seed<K: DeserializeSeed<'de>>(&mut self, seed: K) -> Result<Option<K::Value>, DeError> {
        for entry in self.entries.by_ref() {
            let Some(value) = self.de.reading.swapped(&entry.value) else { continue };
            self.value = Some(value);
            return seed.deserialize(KeyDe { id: entry.key_id, text: &entry.key }).map(Some);
        }
        Ok(None)
    }
    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, DeError> {
        match self.value.take() {
            Some(node) => seed.deserialize(De { reading: self.de.reading, source: Source::Node(node), tagged: false }),
            None => Err(DeError::new(self.de.id(), What::Nothing)),
        }
    }
}

struct SeqItems<'r, 'a> {
    de: De<'r, 'a>,
    items: std::slice::Iter<'a, Node>,
}

impl<'de, 'a: 'de> SeqAccess<'de> for SeqItems<'_, 'a> {
    type Error = DeError;
    fn next_element_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<Option<T::Value>, DeError> {
        for item in self.items.by_ref() {
            let Some(node) = self.de.reading.swapped(item) else { continue };
            return seed
                .deserialize(De { reading: self.de.reading, source: Source::Node(node), tagged: false })
                .map(Some);
        }
        Ok(None)
    }
}

struct MaybeAccess<'r, 'a> {
    de: De<'r, 'a>,
    step: u8,
}

impl<'de, 'a: 'de> SeqAccess<'de> for MaybeAccess<'_, 'a> {
    type Error = DeError;
    fn next_element_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<Option<T::Value>, DeError> {
        self.step += 1;
        match self.step {
            1 => {
                let id: U32Deserializer<DeError> = self.de.id().0.into_deserializer();
                seed.deserialize(id).map(Some)
            }
            2 => seed.deserialize(self.de).map(Some),
            _ => Ok(None),
        }
    }
}

struct Variant<'r, 'a> {
    de: De<'r, 'a>,
    word: &'static str,
}

impl<'de, 'a: 'de> EnumAccess<'de> for Variant<'_, 'a> {
    type Error = DeError;
    type Variant = Self;
    fn variant_seed<V: DeserializeSeed<'de>>(self, seed: V) -> Result<(V::Value, Self), DeError> {
        let word: StrDeserializer<'_, DeError> = self.word.into_deserializer();
        Ok((seed.deserialize(word)?, self))
    }
}

impl<'de, 'a: 'de> VariantAccess<'de> for Variant<'_, 'a> {
    type Error = DeError;
    fn unit_variant(self) -> Result<(), DeError> {
        let extra = self
            .de
            .node()?
            .entries()
            .iter()
            .find(|entry| &*entry.key != "kind" && self.de.reading.swapped(&entry.value).is_some());
        extra.map_or(Ok(()), |entry| {
            Err(DeError::new(entry.key_id, What::UnknownKey { key: entry.key.to_string(), known: &["kind"] }))
        })
    }
    fn newtype_variant_seed<T: DeserializeSeed<'de>>(self, seed: T) -> Result<T::Value, DeError> {
        let node = self.de.node()?;
        if !matches!(node.kind, Kind::Map(_)) {
            return self.de.wrong("a map with `kind`");
        }
        seed.deserialize(De { tagged: true, ..self.de })
    }
    fn tuple_variant<V: Visitor<'de>>(self, _: usize, _: V) -> Result<V::Value, DeError> {
        self.de.wrong("a map with `kind`")
    }
    fn struct_variant<V: Visitor<'de>>(self, fields: &'static [&'static str], visitor: V) -> Result<V::Value, DeError> {
        let node = self.de.node()?;
        if !matches!(node.kind, Kind::Map(_)) {
            return self.de.wrong("a map with `kind`");
        }
        de::Deserializer::deserialize_struct(De { tagged: true, ..self.de }, self.word, fields, visitor)
    }
}
