//! Named things, references to them, and things that may be absent.

use document::{KEY, MAYBE, NodeId, REF};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{Error, MapAccess, SeqAccess, Visitor};
use serde::{Deserialize, Deserializer};
use std::borrow::Cow;
use std::fmt;
use std::marker::PhantomData;
use std::ops::Deref;

/// The key that holds a thing: its name and the key's node.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Key {
    pub id: NodeId,
    pub name: String,
}

impl<'de> Deserialize<'de> for Key {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Parts;
        impl<'de> Visitor<'de> for Parts {
            type Value = Key;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a name")
            }
            fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<Key, A::Error> {
                let lost = || A::Error::custom("a private sequence was cut short");
                let id = NodeId(seq.next_element()?.ok_or_else(lost)?);
                let name: &str = seq.next_element()?.ok_or_else(lost)?;
                Ok(Key { id, name: name.to_owned() })
            }
        }
        deserializer.deserialize_tuple_struct(KEY, 2, Parts)
    }
}

impl JsonSchema for Key {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> Cow<'static, str> {
        "name".into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "string" })
    }
}

/// A thing and the key that holds it.
#[derive(Debug, Clone)]
pub struct Named<T> {
    pub key: Key,
    pub value: T,
}

impl<T> Named<T> {
    #[must_use]
    pub fn name(&self) -> &str {
        &self.key.name
    }
    #[must_use]
    pub fn id(&self) -> NodeId {
        self.key.id
    }
}

impl<T> Deref for Named<T> {
    type Target = T;
    fn deref(&self) -> &T {
        &self.value
    }
}

/// Named things in the order of the text.
#[derive(Debug, Clone)]
pub struct Map<T>(Vec<Named<T>>);

impl<T> Default for Map<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<T> Map<T> {
    pub fn iter(&self) -> std::slice::Iter<'_, Named<T>> {
        self.0.iter()
    }
    #[must_use]
    pub fn get(&self, index: usize) -> Option<&Named<T>> {
        self.0.get(index)
    }
    #[must_use]
    pub fn named(&self, name: &str) -> Option<&Named<T>> {
        self.0.iter().find(|thing| thing.key.name == name)
    }
    #[must_use]
    pub fn len(&self) -> usize {
        self.0.len()
    }
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl<'a, T> IntoIterator for &'a Map<T> {
    type Item = &'a Named<T>;
    type IntoIter = std::slice::Iter<'a, Named<T>>;
    fn into_iter(self) -> Self::IntoIter {
        self.0.iter()
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Map<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Pairs<T>(PhantomData<T>);
        impl<'de, T: Deserialize<'de>> Visitor<'de> for Pairs<T> {
            type Value = Map<T>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a map of named things")
            }
            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Map<T>, A::Error> {
                let mut things = Vec::new();
                while let Some(key) = map.next_key()? {
                    things.push(Named { key, value: map.next_value()? });
                }
                Ok(Map(things))
            }
        }
        deserializer.deserialize_map(Pairs(PhantomData))
    }
}

impl<T: JsonSchema> JsonSchema for Map<T> {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> Cow<'static, str> {
        format!("map_of_{}", T::schema_name()).into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let inner = generator.subschema_for::<T>();
        json_schema!({ "type": "object", "additionalProperties": inner })
    }
}

/// A thing that may be absent; the gap has a node of its own.
#[derive(Debug, Clone)]
pub struct Maybe<T> {
    pub(crate) id: NodeId,
    pub(crate) value: Option<T>,
}

impl<T> Maybe<T> {
    #[must_use]
    pub fn id(&self) -> NodeId {
        self.id
    }
    /// Structure: only swaps change whether it is there. A check that concludes something from its absence asks the
    /// reader instead, so that the gap is noted.
    #[must_use]
    pub fn there(&self) -> Option<&T> {
        self.value.as_ref()
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Maybe<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Parts<T>(PhantomData<T>);
        impl<'de, T: Deserialize<'de>> Visitor<'de> for Parts<T> {
            type Value = Maybe<T>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a thing or nothing")
            }
            fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<Maybe<T>, A::Error> {
                let lost = || A::Error::custom("a private sequence was cut short");
                let id = NodeId(seq.next_element()?.ok_or_else(lost)?);
                let value = seq.next_element()?.ok_or_else(lost)?;
                Ok(Maybe { id, value })
            }
        }
        deserializer.deserialize_tuple_struct(MAYBE, 2, Parts(PhantomData))
    }
}

impl<T: JsonSchema> JsonSchema for Maybe<T> {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> Cow<'static, str> {
        format!("maybe_{}", T::schema_name()).into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let mut inner = generator.subschema_for::<T>();
        inner.insert("optional".into(), true.into());
        inner
    }
}

/// What a reference may name: the sections, `|` between them, in the spelling of the private serde name.
pub trait Target: 'static {
    const SECTIONS: &'static str;
}

/// A reference, resolved when it was read.
#[derive(Debug)]
pub struct Ref<T> {
    pub id: NodeId,
    pub name: String,
    /// Which of the target's sections, and which entry of it.
    pub(crate) section: usize,
    pub(crate) index: usize,
    target: PhantomData<fn() -> T>,
}

impl<T> Clone for Ref<T> {
    fn clone(&self) -> Self {
        Self { id: self.id, name: self.name.clone(), section: self.section, index: self.index, target: PhantomData }
    }
}

impl<'de, T: Target> Deserialize<'de> for Ref<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Parts<T>(PhantomData<T>);
        impl<'de, T: Target> Visitor<'de> for Parts<T> {
            type Value = Ref<T>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a name")
            }
            fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<Ref<T>, A::Error> {
                let lost = || A::Error::custom("a private sequence was cut short");
                let id = NodeId(seq.next_element()?.ok_or_else(lost)?);
                let section: u32 = seq.next_element()?.ok_or_else(lost)?;
                let index: u32 = seq.next_element()?.ok_or_else(lost)?;
                let name: &str = seq.next_element()?.ok_or_else(lost)?;
                let name = name.to_owned();
                Ok(Ref { id, name, section: section as usize, index: index as usize, target: PhantomData })
            }
        }
        deserializer.deserialize_tuple_struct(T::SECTIONS, 4, Parts(PhantomData))
    }
}

impl<T: Target> JsonSchema for Ref<T> {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> Cow<'static, str> {
        "reference".into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let sections = T::SECTIONS.strip_prefix(REF).unwrap_or(T::SECTIONS).replace('|', " or ");
        json_schema!({ "type": "string", "description": format!("the key of an entry of {sections}"), "refers_to": sections })
    }
}
