//! Every built-in entry is read by the very types that read a user's library, and the schema takes it too.

#![allow(clippy::unwrap_used)]

use document::{Document, Limits, NoFiles};
use machine::complaints;
use std::fmt::Write;

#[test]
fn every_entry_reads_alone_and_as_the_base_of_ones_own() {
    let mut spec = String::from("dryfit: 1\nmachine: {name: all}\n");
    for section in ["materials", "coolants", "oils", "cells", "insulations", "connectors"] {
        writeln!(spec, "{section}:").unwrap();
        for (_, key) in catalogue::keys().filter(|entry| entry.0 == section) {
            writeln!(spec, "  my_{key}: {{like: {key}}}").unwrap();
        }
    }
    let document =
        Document::load("all.machine.yaml", spec.into_bytes(), &NoFiles, &catalogue::Catalogue, &Limits::default());
    assert_eq!(complaints(&document), []);
    let json = document::to_json(&document.root);
    assert!(jsonschema::is_valid(&machine::machine_schema(), &json));
    let count = |section: &str| document.root.get(section).unwrap().entries().len() / 2;
    assert!(count("materials") >= 45 && count("coolants") >= 4 && count("oils") >= 6);
}
