//! Scalars and keys handed to serde in parts: the node, then what stands there.

use super::{Asks, DeError, GIVEN, Reading, What};
use crate::node::NodeId;
use serde::de::value::U32Deserializer;
use serde::de::{self, DeserializeSeed, IntoDeserializer, SeqAccess, Visitor};

/// A key of a map, as a name or as a quantity (`-30 °C: 1.2`).
pub(super) struct KeyDe<'r, 'a> {
    pub reading: &'r Reading<'a>,
    /// Where the map is noted.
    pub of: usize,
    pub id: NodeId,
    pub text: &'a str,
}

impl<'de, 'a: 'de> de::Deserializer<'de> for KeyDe<'_, 'a> {
    type Error = DeError;
    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DeError> {
        visitor.visit_borrowed_str(self.text).map_err(|error: DeError| error.or_at(self.id))
    }
    fn deserialize_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, DeError> {
        let (GIVEN, [measure]) = (name, fields) else {
            return Err(DeError::new(self.id, What::Refused("a key is a name or a number".into())));
        };
        let mut notes = self.reading.notes.borrow_mut();
        let table = notes.all.get(self.of).map_or(self.id, |noted| noted.field.node);
        let (note, id) = notes.item(self.of, table, self.id);
        notes.asks(note, Asks::Point(measure));
        notes.says(note, self.text, true);
        drop(notes);
        visitor.visit_u32(id.0)
    }
    fn deserialize_tuple_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: usize,
        visitor: V,
    ) -> Result<V::Value, DeError> {
        let id = self.id;
        let parts = Parts::Key(self.text);
        visitor.visit_seq(PartsAccess { id, parts, step: 0 }).map_err(|error: DeError| error.or_at(id))
    }
    serde::forward_to_deserialize_any! {
        bool i8 i16 i32 i64 u8 u16 u32 u64 f32 f64 char str string bytes byte_buf option unit unit_struct
        newtype_struct seq tuple map enum identifier ignored_any
    }
}

#[derive(Clone, Copy)]
pub(super) enum Parts<'a> {
    Given { number: Option<f64>, text: Option<&'a str> },
    Key(&'a str),
    Ref { section: u32, index: u32, name: &'a str },
}

pub(super) struct PartsAccess<'a> {
    pub id: NodeId,
    pub parts: Parts<'a>,
    pub step: u8,
}

impl<'de, 'a: 'de> SeqAccess<'de> for PartsAccess<'a> {
    type Error = DeError;
    fn next_element_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<Option<T::Value>, DeError> {
        self.step += 1;
        let whole = |number: u32| -> U32Deserializer<DeError> { number.into_deserializer() };
        match (self.step, self.parts) {
            (1, _) => seed.deserialize(whole(self.id.0)).map(Some),
            (2, Parts::Given { number, .. }) => seed.deserialize(Perhaps(number.map(Part::Number))).map(Some),
            (3, Parts::Given { text, .. }) => seed.deserialize(Perhaps(text.map(Part::Text))).map(Some),
            (2, Parts::Key(text)) | (4, Parts::Ref { name: text, .. }) => {
                seed.deserialize(de::value::BorrowedStrDeserializer::new(text)).map(Some)
            }
            (2, Parts::Ref { section, .. }) => seed.deserialize(whole(section)).map(Some),
            (3, Parts::Ref { index, .. }) => seed.deserialize(whole(index)).map(Some),
            _ => Ok(None),
        }
    }
}

enum Part<'a> {
    Number(f64),
    Text(&'a str),
}

struct Perhaps<'a>(Option<Part<'a>>);

impl<'de, 'a: 'de> de::Deserializer<'de> for Perhaps<'a> {
    type Error = DeError;
    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, DeError> {
        match self.0 {
            None => visitor.visit_none(),
            Some(Part::Number(number)) => {
                visitor.visit_some::<de::value::F64Deserializer<DeError>>(number.into_deserializer())
            }
            Some(Part::Text(text)) => visitor.visit_some(de::value::BorrowedStrDeserializer::<DeError>::new(text)),
        }
    }
    serde::forward_to_deserialize_any! {
        bool i8 i16 i32 i64 u8 u16 u32 u64 f32 f64 char str string bytes byte_buf option unit unit_struct
        newtype_struct seq tuple tuple_struct map struct enum identifier ignored_any
    }
}
