//! A table of one quantity over another, written as a map: `{-30 °C: 62 MPa, 20 °C: 48 MPa}`.

use crate::given::Given;
use document::TABLE;
use quantity::Measure;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{MapAccess, Visitor};
use serde::{Deserialize, Deserializer};
use std::borrow::Cow;
use std::fmt;
use std::marker::PhantomData;

/// Points in rising order of the first quantity; at least one.
#[derive(Debug, Clone)]
pub struct Curve<X: Measure, Y: Measure> {
    points: Vec<(Given<X>, Given<Y>)>,
}

/// The points, for the reader.
pub type Points<'a, X, Y> = &'a [(Given<X>, Given<Y>)];

impl<X: Measure, Y: Measure> Curve<X, Y> {
    #[must_use]
    pub fn points(&self) -> Points<'_, X, Y> {
        &self.points
    }
}

impl<'de, X: Measure, Y: Measure> Deserialize<'de> for Curve<X, Y> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Pairs<X, Y>(PhantomData<(X, Y)>);
        impl<'de, X: Measure, Y: Measure> Visitor<'de> for Pairs<X, Y> {
            type Value = Curve<X, Y>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a table")
            }
            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Curve<X, Y>, A::Error> {
                let mut points: Vec<(Given<X>, Given<Y>)> = Vec::new();
                while let Some(point) = map.next_entry()? {
                    points.push(point);
                }
                Ok(Curve { points })
            }
        }
        deserializer.deserialize_struct(TABLE, &[], Pairs(PhantomData))
    }
}

impl<X: Measure, Y: Measure> JsonSchema for Curve<X, Y> {
    fn schema_name() -> Cow<'static, str> {
        format!("{}_over_{}", Y::KIND.key, X::KIND.key).into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let value = generator.subschema_for::<Given<Y>>();
        json_schema!({
            "type": "object",
            "description": format!("{} over {}, rising; between the points it is interpolated, beyond them nothing is said", Y::KIND.name, X::KIND.name),
            "patternProperties": { (quantity::pattern(X::KIND)): value },
            "additionalProperties": false,
            "minProperties": 1,
        })
    }
}
