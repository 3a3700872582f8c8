//! A number of the spec: the id of its node. What stands there is in the machine's [`crate::Row`], and only the
//! [`crate::Reader`] hands it out.

use document::{GIVEN, NodeId, RANGE};
use quantity::{Kind, Measure, m};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{Error, Visitor};
use serde::{Deserialize, Deserializer};
use std::borrow::Cow;
use std::fmt;
use std::marker::PhantomData;

/// One written (or absent) number. An absent one has a node id too, so that it can be noted and filled in a what-if.
pub struct Given<M> {
    pub(crate) id: NodeId,
    measure: PhantomData<M>,
}

impl<M> Clone for Given<M> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<M> Copy for Given<M> {}

impl<M: Measure> fmt::Debug for Given<M> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Given<{}>({})", M::KIND.key, self.id.0)
    }
}

impl<M: Measure> Given<M> {
    /// As the private name tells it to the deserializer.
    const MEASURE: &'static [&'static str] = &[M::KIND.key];

    #[must_use]
    pub fn id(&self) -> NodeId {
        self.id
    }
    #[must_use]
    pub fn kind(&self) -> &'static Kind {
        M::KIND
    }

    fn at(id: NodeId) -> Self {
        Self { id, measure: PhantomData }
    }
}

/// A thing that a machine may do without: it can be said that there is none.
pub(crate) fn may_be_none(kind: &Kind) -> bool {
    kind == m::FuseRating::KIND
}

/// The id of a node.
struct Id(&'static Kind);

impl Visitor<'_> for Id {
    type Value = NodeId;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.0.name)
    }
    fn visit_u32<E: Error>(self, id: u32) -> Result<NodeId, E> {
        Ok(NodeId(id))
    }
}

impl<'de, M: Measure> Deserialize<'de> for Given<M> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_struct(GIVEN, Self::MEASURE, Id(M::KIND)).map(Self::at)
    }
}

impl<M: Measure> JsonSchema for Given<M> {
    fn schema_name() -> Cow<'static, str> {
        M::KIND.key.into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let kind = M::KIND;
        let mut description = kind.name.to_owned();
        if !kind.note.is_empty() {
            description.push_str(": ");
            description.push_str(kind.note);
        }
        let words = if may_be_none(kind) { "^none$|^unknown$|" } else { "^unknown$|" };
        let mut schema = json_schema!({
            "type": "string",
            "description": description,
            "pattern": format!("{words}{}", quantity::pattern(kind)),
            "examples": [kind.example],
            "measure": kind.key,
        });
        if kind.bare {
            let least = if kind.bounds.above_least { "exclusiveMinimum" } else { "minimum" };
            schema.insert("type".into(), serde_json::json!([if kind.whole { "integer" } else { "number" }, "string"]));
            schema.insert(least.into(), kind.bounds.least.into());
            if kind.bounds.most.is_finite() {
                schema.insert("maximum".into(), kind.bounds.most.into());
            }
        }
        schema
    }
}

/// Two numbers from one text: `-30 °C to 8 °C`. One value alone is both ends.
#[derive(Debug, Clone, Copy)]
pub struct Range<M: Measure> {
    pub low: Given<M>,
    pub high: Given<M>,
}

impl<'de, M: Measure> Deserialize<'de> for Range<M> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let low = deserializer.deserialize_struct(RANGE, Given::<M>::MEASURE, Id(M::KIND))?;
        Ok(Self { low: Given::at(low), high: Given::at(low.upper()) })
    }
}

impl<M: Measure> JsonSchema for Range<M> {
    fn schema_name() -> Cow<'static, str> {
        format!("{}_range", M::KIND.key).into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "type": "string",
            "description": format!("{}, or a range of it with ` to ` between the ends", M::KIND.name),
            "pattern": format!("^unknown$|{}", quantity::range_pattern(M::KIND)),
            "examples": [format!("{0} to {0}", M::KIND.example)],
            "measure": M::KIND.key,
            "range": true,
        })
    }
}
