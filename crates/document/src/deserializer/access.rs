//! What stands inside: the fields of a block, named things, items of a list, the kind of a block.

use super::fields::{Asks, Field};
use super::parts::KeyDe;
use super::{De, DeError, Source, What};
use crate::node::{Entry, Kind, Node, NodeId};
use serde::de::value::{StrDeserializer, U32Deserializer};
use serde::de::{self, DeserializeSeed, EnumAccess, IntoDeserializer, MapAccess, SeqAccess, VariantAccess, Visitor};

/// The fields of a struct: those that stand there, then those that the map lacks.
pub(super) struct Fields<'r, 'a> {
    pub de: De<'r, 'a>,
    pub owner: &'static str,
    pub known: &'static [&'static str],
    pub parent: NodeId,
    pub entries: &'a [Entry],
    pub next: usize,
    pub lacking: usize,
    pub value: Option<(Source<'a>, &'static str)>,
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
            let Some(field) = self.known.iter().find(|field| ***field == *entry.key) else {
                self.de.refuse(entry.key_id, What::UnknownKey { key: entry.key.to_string(), known: self.known });
                continue;
            };
            self.value = Some((Source::Node(value), field));
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
            self.value = Some((Source::Absent, field));
            let key: StrDeserializer<'_, DeError> = (*field).into_deserializer();
            return seed.deserialize(key).map(Some);
        }
        Ok(None)
    }
    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, DeError> {
        let (source, field) = self.value.take().unwrap_or((Source::Absent, ""));
        let node = match source {
            Source::Node(node) => node.id,
            Source::Absent => NodeId::NOWHERE,
        };
        let field = Field { node, parent: self.parent, owner: self.owner, field, asks: Asks::Unknown };
        let (note, id) = self.de.reading.notes.borrow_mut().add(field, matches!(source, Source::Absent));
        seed.deserialize(De { source, id, tagged: false, note, ..self.de })
    }
}

impl<'r, 'a> De<'r, 'a> {
    /// What stands in a list or under a name: it is asked for by the field that holds all of them.
    fn item(&self, node: &'a Node) -> De<'r, 'a> {
        let (note, id) = self.reading.notes.borrow_mut().item(self.note, self.id, node.id);
        De { source: Source::Node(node), id, tagged: false, note, ..*self }
    }
}

/// Named things: key node and value.
pub(super) struct Pairs<'r, 'a> {
    pub de: De<'r, 'a>,
    pub entries: std::slice::Iter<'a, Entry>,
    pub value: Option<&'a Node>,
}

impl<'de, 'a: 'de> MapAccess<'de> for Pairs<'_, 'a> {
    type Error = DeError;
    fn next_key_seed<K: DeserializeSeed<'de>>(&mut self, seed: K) -> Result<Option<K::Value>, DeError> {
        for entry in self.entries.by_ref() {
            let Some(value) = self.de.reading.swapped(&entry.value) else { continue };
            self.value = Some(value);
            let key = KeyDe { reading: self.de.reading, of: self.de.note, id: entry.key_id, text: &entry.key };
            return seed.deserialize(key).map(Some);
        }
        Ok(None)
    }
    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, DeError> {
        match self.value.take() {
            Some(node) => seed.deserialize(self.de.item(node)),
            None => Err(DeError::new(self.de.id, What::Nothing)),
        }
    }
}

pub(super) struct SeqItems<'r, 'a> {
    pub de: De<'r, 'a>,
    pub items: std::slice::Iter<'a, Node>,
}

impl<'de, 'a: 'de> SeqAccess<'de> for SeqItems<'_, 'a> {
    type Error = DeError;
    fn next_element_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<Option<T::Value>, DeError> {
        for item in self.items.by_ref() {
            let Some(node) = self.de.reading.swapped(item) else { continue };
            return seed.deserialize(self.de.item(node)).map(Some);
        }
        Ok(None)
    }
}

pub(super) struct MaybeAccess<'r, 'a> {
    pub de: De<'r, 'a>,
    pub step: u8,
}

impl<'de, 'a: 'de> SeqAccess<'de> for MaybeAccess<'_, 'a> {
    type Error = DeError;
    fn next_element_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<Option<T::Value>, DeError> {
        self.step += 1;
        match self.step {
            1 => {
                let id: U32Deserializer<DeError> = self.de.id.0.into_deserializer();
                seed.deserialize(id).map(Some)
            }
            2 => seed.deserialize(self.de).map(Some),
            _ => Ok(None),
        }
    }
}

pub(super) struct Variant<'r, 'a> {
    pub de: De<'r, 'a>,
    pub word: &'static str,
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
        let entries = match self.de.source {
            Source::Node(node) => node.entries(),
            Source::Absent => &[],
        };
        let extra = entries.iter().filter(|entry| &*entry.key != "kind");
        for entry in extra.filter(|entry| self.de.reading.swapped(&entry.value).is_some()) {
            let what = What::UnknownKey { key: entry.key.to_string(), known: &["kind"] };
            self.de.refuse(entry.key_id, what);
        }
        Ok(())
    }
    fn newtype_variant_seed<T: DeserializeSeed<'de>>(self, seed: T) -> Result<T::Value, DeError> {
        seed.deserialize(self.block())
    }
    fn tuple_variant<V: Visitor<'de>>(self, _: usize, _: V) -> Result<V::Value, DeError> {
        Err(DeError::new(self.de.id, What::Refused("no kind is a list".into())))
    }
    fn struct_variant<V: Visitor<'de>>(self, fields: &'static [&'static str], visitor: V) -> Result<V::Value, DeError> {
        let word = self.word;
        de::Deserializer::deserialize_struct(self.block(), word, fields, visitor)
    }
}

impl<'r, 'a> Variant<'r, 'a> {
    /// The block behind the word, which a word alone does not have.
    fn block(self) -> De<'r, 'a> {
        let de = De { tagged: true, ..self.de };
        match de.source {
            Source::Node(node) if !matches!(node.kind, Kind::Map(_)) => {
                de.wrong(node, "a map with `kind`");
                De { source: Source::Absent, muted: true, ..de }
            }
            _ => de,
        }
    }
}
