//! The same tree as JSON, for the schema check. Numbers and truth values by YAML's core schema, decimal forms only.

use crate::node::{Kind, Node};
use crate::parse::is_decimal;
use serde_json::{Map, Number, Value};

/// The number that a plain scalar is, if it is one.
#[must_use]
pub fn as_number(text: &str, plain: bool) -> Option<f64> {
    if plain && is_decimal(text) { text.parse().ok().filter(|number: &f64| number.is_finite()) } else { None }
}

pub(crate) fn as_bool(text: &str, plain: bool) -> Option<bool> {
    match text {
        "true" | "True" | "TRUE" if plain => Some(true),
        "false" | "False" | "FALSE" if plain => Some(false),
        _ => None,
    }
}

/// `unknown`, without quotes: somebody has looked and does not know.
pub(crate) fn unknown(node: &Node) -> bool {
    matches!(&node.kind, Kind::Scalar { text, plain: true } if &**text == "unknown")
}

#[must_use]
pub fn to_json(node: &Node) -> Value {
    match &node.kind {
        Kind::Null => Value::Null,
        Kind::Scalar { text, plain } => {
            if let Some(truth) = as_bool(text, *plain) {
                return Value::Bool(truth);
            }
            if let Some(number) = as_number(text, *plain) {
                let whole = text.parse::<i64>().ok().map(Number::from);
                return whole.or_else(|| Number::from_f64(number)).map_or(Value::Null, Value::Number);
            }
            Value::String(text.to_string())
        }
        Kind::Seq(items) => Value::Array(items.iter().map(to_json).collect()),
        Kind::Map(entries) => {
            let pairs = entries.iter().map(|entry| (entry.key.to_string(), to_json(&entry.value)));
            Value::Object(pairs.collect::<Map<_, _>>())
        }
    }
}
