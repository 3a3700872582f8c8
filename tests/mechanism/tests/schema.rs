//! The schemas in the repository are those of the types. `DRYFIT_BLESS=1` writes them anew.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod specs;

use document::to_json;
use machine::{how_to_measure, machine_schema, workshop_schema};
use serde_json::Value;
use std::fs;

fn compare(name: &str, schema: &Value) {
    let path = specs::root().join("schemas").join(name);
    let text = serde_json::to_string_pretty(schema).unwrap() + "\n";
    if std::env::var_os("DRYFIT_BLESS").is_some() {
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(&path, &text).unwrap();
    }
    let there = fs::read_to_string(&path).unwrap_or_default();
    let line = there.lines().zip(text.lines()).position(|(there, here)| there != here).unwrap_or(0) + 1;
    assert!(
        there == text,
        "schemas/{name} has drifted from the types, from line {line} on; DRYFIT_BLESS=1 writes it anew"
    );
}

#[test]
fn the_machine_schema_is_that_of_the_types() {
    compare("machine.schema.json", &machine_schema());
}

#[test]
fn the_workshop_schema_is_that_of_the_types() {
    compare("workshop.schema.json", &workshop_schema());
}

#[test]
fn the_report_schema_is_that_of_the_types() {
    compare("report.schema.json", &render::report_schema());
}

#[test]
fn the_schemas_of_decisions_are_those_of_the_types() {
    compare("rank.schema.json", &render::rank::schema());
    compare("comparison.schema.json", &render::compare::schema());
    compare("uncertainty.schema.json", &render::uncertainty::schema());
    compare("circuit.schema.json", &render::circuit::schema());
}

#[test]
fn both_are_schemas_and_the_one_for_machines_takes_what_is_sound() {
    let machine = jsonschema::validator_for(&machine_schema()).unwrap();
    jsonschema::validator_for(&render::report_schema()).unwrap();
    for path in std::iter::once(specs::everything()).chain(specs::examples()) {
        let (document, _) = specs::sound(&path);
        let errors: Vec<String> =
            machine.iter_errors(&to_json(&document.root)).map(|error| error.to_string()).collect();
        assert!(errors.is_empty(), "{}: {errors:?}", path.display());
    }
}

/// An editor checks the text before `like` has been followed.
#[test]
fn like_stands_for_what_is_required() {
    let validator = jsonschema::validator_for(&machine_schema()).unwrap();
    let with = |bearing: Value, coupon: Value| {
        let plain = serde_json::json!({"kind": "plain", "bore": "12 mm"});
        validator.is_valid(&serde_json::json!({
            "dryfit": 1, "machine": {"name": "sled"}, "powertrain": {"bearings": {"a": plain, "b": bearing}},
            "concessions": {"x": {"rule": "bearing-pv", "on": "a", "reason": "cheap"}, "y": coupon},
        }))
    };
    let y = serde_json::json!({"like": "x", "on": "b"});
    assert!(with(serde_json::json!({"like": "a"}), y.clone()));
    assert!(with(serde_json::json!({"like": "a", "kind": "plain", "length": "18 mm"}), y.clone()));
    assert!(!with(serde_json::json!({"like": "a", "kind": "plain", "colour": "red"}), y.clone()), "an unknown key");
    assert!(!with(serde_json::json!({"bore": "12 mm"}), y.clone()), "no kind and no like");
    assert!(!with(serde_json::json!({"like": 7}), y), "like wants a key");
    assert!(!with(serde_json::json!({"like": "a"}), serde_json::json!({"on": "b"})), "incomplete without like");
}

fn sentences(value: &Value, out: &mut Vec<String>) {
    match value {
        Value::Object(map) => {
            out.extend(map.get("how_to_measure").and_then(Value::as_str).map(str::to_owned));
            map.values().for_each(|inner| sentences(inner, out));
        }
        Value::Array(items) => items.iter().for_each(|inner| sentences(inner, out)),
        _ => {}
    }
}

/// Each row of the table names a type and a field that exist: its sentence stands in the schema.
#[test]
fn every_way_to_measure_lands_in_the_schema() {
    let source = fs::read_to_string(specs::root().join("crates/machine/src/how_to_measure.rs")).unwrap();
    let rows: Vec<(&str, &str)> = source
        .lines()
        .filter_map(|line| line.trim().strip_prefix("(\"")?.strip_suffix("\"),"))
        .filter_map(|row| {
            let mut cells = row.splitn(3, "\", \"");
            Some((cells.next()?, cells.next()?))
        })
        .collect();
    assert!(rows.len() > 30, "{}", rows.len());
    let mut there = Vec::new();
    sentences(&machine_schema(), &mut there);
    let lost: Vec<&(&str, &str)> = rows
        .iter()
        .filter(|(owner, field)| {
            how_to_measure(owner, field).is_none_or(|says| !there.iter().any(|other| other == says))
        })
        .collect();
    assert!(lost.is_empty(), "these rows name no field of the types: {lost:?}");
}
