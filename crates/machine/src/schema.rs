//! The JSON Schema, made from the same types as the reading and reshaped so that its errors are precise:
//! a `kind` picks its variant by if/then, absent fields are allowed where the types allow them, `like` may stand anywhere.

use crate::how_to_measure;
use crate::sections::{Spec, Workshop};
use schemars::JsonSchema;
use schemars::generate::SchemaSettings;
use serde_json::{Map, Value, json};

/// The schema of `*.machine.yaml`.
#[must_use]
pub fn machine_schema() -> Value {
    let mut schema = schema_of::<Spec>("dryfit machine specification");
    // A library is the same language without a machine of its own.
    if let Some(root) = schema.as_object_mut() {
        root.insert("$id".into(), json!("urn:dryfit:schema:machine:1"));
    }
    schema
}

/// The schema of `workshop.yaml`.
#[must_use]
pub fn workshop_schema() -> Value {
    let mut schema = schema_of::<Workshop>("dryfit workshop");
    if let Some(root) = schema.as_object_mut() {
        root.insert("$id".into(), json!("urn:dryfit:schema:workshop:1"));
    }
    schema
}

/// The reshaped schema of any type of ours.
#[must_use]
pub fn schema_of<T: JsonSchema>(title: &str) -> Value {
    let generator = SchemaSettings::draft2020_12().into_generator();
    let mut schema = generator.into_root_schema_for::<T>().to_value();
    if let Some(root) = schema.as_object_mut() {
        root.insert("title".into(), json!(title));
    }
    // Before the bodies of variants are copied out of their definitions.
    plain(&mut schema);
    let definitions = schema.get("$defs").cloned().unwrap_or(Value::Null);
    tags(&mut schema, &definitions);
    // What is optional may depend on what is optional further in.
    while loosen(&mut schema) {}
    close(&mut schema);
    measure(&mut schema);
    schema
}

fn each(value: &mut Value, change: &mut dyn FnMut(&mut Map<String, Value>)) {
    match value {
        Value::Object(map) => {
            map.values_mut().for_each(|inner| each(inner, change));
            change(map);
        }
        Value::Array(items) => items.iter_mut().for_each(|inner| each(inner, change)),
        _ => {}
    }
}

/// Nothing may be null, and truth is also written `yes` and `no`.
fn plain(schema: &mut Value) {
    each(schema, &mut |map| {
        // Options are never null here: an empty value is an error.
        for word in ["anyOf", "oneOf"] {
            let Some(Value::Array(choices)) = map.get(word) else { continue };
            let real: Vec<Value> =
                choices.iter().filter(|choice| choice.get("type") != Some(&json!("null"))).cloned().collect();
            if let [Value::Object(only)] = real.as_slice() {
                let only = only.clone();
                map.remove(word);
                map.extend(only);
                map.insert("optional".into(), json!(true));
            }
        }
        if let Some(Value::Array(types)) = map.get_mut("type")
            && types.contains(&json!("null"))
        {
            types.retain(|name| name != "null");
            if let [only] = types.as_slice() {
                let only = only.clone();
                map.insert("type".into(), only);
            }
            map.insert("optional".into(), json!(true));
        }
        if map.get("type") == Some(&json!("boolean")) {
            map.remove("type");
            map.insert("enum".into(), json!([true, false, "yes", "no"]));
        }
    });
}

/// `oneOf` over a tag becomes a closed list of kinds and one if/then a kind.
fn tags(schema: &mut Value, definitions: &Value) {
    each(schema, &mut |map| {
        let Some(Value::Array(choices)) = map.get("oneOf").cloned() else { return };
        let kind_of =
            |choice: &Value| choice.pointer("/properties/kind/const").and_then(Value::as_str).map(str::to_owned);
        let kinds: Vec<String> = choices.iter().filter_map(kind_of).collect();
        if kinds.len() != choices.len() {
            return;
        }
        let mut units = Vec::new();
        let mut branches = Vec::new();
        for (choice, kind) in choices.iter().zip(&kinds) {
            let inner = choice.get("$ref").and_then(Value::as_str).and_then(|name| name.strip_prefix("#/$defs/"));
            let mut then = match inner.and_then(|name| definitions.get(name)) {
                Some(Value::Object(definition)) => definition.clone(),
                _ => {
                    units.push(kind.clone());
                    let mut alone = Map::new();
                    alone.insert("type".into(), json!("object"));
                    alone.insert("properties".into(), json!({}));
                    alone
                }
            };
            // The variant's own fields, for `how_to_measure`.
            if let Some(name) = inner {
                then.insert("owner".into(), json!(name));
            }
            if let Some(Value::Object(properties)) = then.get_mut("properties") {
                properties.insert("kind".into(), json!({ "const": kind, "optional": true }));
            }
            branches.push(json!({
                "if": { "type": "object", "properties": { "kind": { "const": kind } }, "required": ["kind"] },
                "then": then,
            }));
        }
        map.remove("oneOf");
        let tagged = json!({
            "type": "object",
            "properties": { "kind": { "type": "string", "enum": kinds } },
            "required": ["kind"],
            "allOf": branches,
        });
        let tagged = if units.is_empty() {
            tagged
        } else {
            json!({ "if": { "type": "string" }, "then": { "enum": units }, "else": tagged })
        };
        if let Value::Object(tagged) = tagged {
            map.extend(tagged);
        }
    });
    // Bodies of variants were copied from definitions as they came; give them the same treatment once more.
    if has(schema, "oneOf") {
        let definitions = schema.get("$defs").cloned().unwrap_or(Value::Null);
        tags(schema, &definitions);
    }
}

fn has(value: &Value, word: &str) -> bool {
    match value {
        Value::Object(map) => map.contains_key(word) || map.values().any(|inner| has(inner, word)),
        Value::Array(items) => items.iter().any(|inner| has(inner, word)),
        _ => false,
    }
}

/// Drops from `required` what the types take as absent. True if something changed.
fn loosen(schema: &mut Value) -> bool {
    let definitions = schema.get("$defs").cloned().unwrap_or(Value::Null);
    let may_lack = |property: &Value| -> bool {
        let by_itself = |value: &Value| {
            value.get("optional") == Some(&json!(true))
                || value.get("measure").is_some()
                || value.get("type") == Some(&json!("array"))
                || (value.get("type") == Some(&json!("object"))
                    && value.get("required").is_none_or(|required| required == &json!([]))
                    && value.get("minProperties").is_none()
                    && value.get("allOf").is_none())
        };
        let target = property.get("$ref").and_then(Value::as_str).and_then(|name| name.strip_prefix("#/$defs/"));
        by_itself(property) || target.and_then(|name| definitions.get(name)).is_some_and(by_itself)
    };
    let mut changed = false;
    each(schema, &mut |map| {
        let Some(Value::Object(properties)) = map.get("properties").cloned() else { return };
        let Some(Value::Array(required)) = map.get_mut("required") else { return };
        let before = required.len();
        required.retain(|name| {
            let property = name.as_str().and_then(|name| properties.get(name));
            !property.is_some_and(may_lack)
        });
        changed |= required.len() != before;
        if required.is_empty() {
            map.remove("required");
        }
    });
    changed
}

/// Unknown keys are refused everywhere; `like` is a key of its own and fills what is required.
fn close(schema: &mut Value) {
    let like = json!({ "type": "string", "description": "copies the thing of that key; fields written beside it replace the copied ones" });
    each(schema, &mut |map| {
        map.remove("optional");
        // Something of several kinds is closed by its variants.
        if map.contains_key("allOf")
            && let Some(Value::Object(properties)) = map.get_mut("properties")
        {
            properties.insert("like".into(), like.clone());
        }
        if !map.contains_key("allOf")
            && !map.contains_key("const")
            && map.get("type") == Some(&json!("object"))
            && let Some(Value::Object(properties)) = map.get_mut("properties")
            // The `if` of a tagged variant only looks.
            && !(properties.len() == 1 && properties.get("kind").is_some_and(|kind| kind.get("const").is_some()) && map.get("required") == Some(&json!(["kind"])))
        {
            if let Some(Value::Object(properties)) = map.get_mut("properties") {
                properties.insert("like".into(), like.clone());
            }
            map.insert("additionalProperties".into(), json!(false));
        }
        let tagged = map.contains_key("allOf");
        let looks = map.len() == 3 && map.get("properties").and_then(|p| p.pointer("/kind/const")).is_some();
        if let Some(required) = map.get("required").cloned()
            && !looks
        {
            let needs = json!({ "if": { "required": ["like"] }, "else": { "required": required } });
            if tagged {
                if let Some(Value::Array(all)) = map.get_mut("allOf") {
                    all.push(needs);
                    map.remove("required");
                }
            } else {
                map.remove("required");
                map.insert("allOf".into(), json!([needs]));
            }
        }
    });
}

fn measure(schema: &mut Value) {
    for (owner, field, sentence) in how_to_measure::rows() {
        each(schema, &mut |map| {
            let here = map.get("owner").and_then(Value::as_str) == Some(owner);
            if here && let Some(Value::Object(property)) = map.get_mut("properties").and_then(|all| all.get_mut(*field))
            {
                property.insert("how_to_measure".into(), json!(sentence));
            }
        });
        let pointer = format!("/$defs/{owner}/properties/{field}");
        if let Some(Value::Object(property)) = schema.pointer_mut(&pointer) {
            property.insert("how_to_measure".into(), json!(sentence));
        }
    }
    each(schema, &mut |map| {
        map.remove("owner");
    });
}
