//! The table and the folder say the same, and every entry joins a spec without trouble.

use catalogue::{Catalogue, keys};
use document::{Document, Limits, NoFiles, Node, Shelf};
use std::path::Path;

fn load(spec: &str) -> Document {
    Document::load("spec.yaml", spec.as_bytes().to_vec(), &NoFiles, &Catalogue, &Limits::default())
}

fn text<'a>(node: &'a Node, path: &[&str]) -> Option<&'a str> {
    path.iter().try_fold(node, |node, key| node.get(key)).and_then(Node::text)
}

#[test]
fn the_table_lists_the_folder() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("entries");
    let mut found = vec![(String::new(), "assumed".to_owned())];
    for section in ["materials", "coolants", "oils", "cells", "insulations", "connectors"] {
        for file in std::fs::read_dir(root.join(section)).unwrap() {
            let path = file.unwrap().path();
            assert_eq!(path.extension().unwrap(), "yaml", "{}", path.display());
            found.push((section.to_owned(), path.file_stem().unwrap().to_str().unwrap().to_owned()));
        }
    }
    found.sort_by(|a, b| a.1.cmp(&b.1));
    let listed: Vec<(String, String)> = keys().map(|(section, key)| (section.to_owned(), key.to_owned())).collect();
    assert_eq!(listed, found);
}

#[test]
fn keys_rise_and_each_is_found() {
    let all: Vec<&str> = keys().map(|(_, key)| key).collect();
    assert!(all.is_sorted_by(|a, b| a < b), "sorted, each once: {all:?}");
    for (section, key) in keys() {
        let (in_section, file, body) = Catalogue.entry(key).unwrap();
        assert_eq!(in_section, section);
        assert!(file.ends_with(&format!("{key}.yaml")));
        assert!(!body.is_empty());
    }
    assert!(Catalogue.entry("unobtainium").is_none());
}

#[test]
fn every_entry_joins_without_trouble_and_says_where_it_comes_from() {
    for (section, key) in keys().filter(|(section, _)| !section.is_empty()) {
        let document = load(&format!("dryfit: 1\nmention: {key}\n"));
        assert!(document.troubles.is_empty(), "{key}: {:?}", document.troubles);
        let basis = text(&document.root, &[section, key, "basis"]);
        assert!(matches!(basis, Some("published" | "common_practice" | "from_memory")), "{key}: {basis:?}");
        assert!(text(&document.root, &[section, key, "source"]).is_some_and(|source| source.len() > 10), "{key}");
    }
}

#[test]
fn the_assumed_figures_join_unasked_and_yield_to_the_spec() {
    let document = load("dryfit: 1\nassumed: {traction: 0.7}\n");
    assert!(document.troubles.is_empty(), "{:?}", document.troubles);
    assert_eq!(text(&document.root, &["assumed", "traction"]), Some("0.7"));
    assert_eq!(text(&document.root, &["assumed", "altitude"]), Some("200 m"));
    assert!(document.root.get("materials").is_none(), "nothing joins unmentioned");
}

#[test]
fn a_spec_builds_on_an_entry() {
    let document =
        load("dryfit: 1\nmaterials: {mine: {like: pla, tensile_strength: 41 MPa}, rod: {like: carbon_rod}}\n");
    assert!(document.troubles.is_empty(), "{:?}", document.troubles);
    assert_eq!(text(&document.root, &["materials", "mine", "tensile_strength"]), Some("41 MPa"));
    assert_eq!(text(&document.root, &["materials", "mine", "density"]), Some("1240 kg/m³"));
    assert_eq!(text(&document.root, &["materials", "rod", "fibre", "form"]), Some("pultruded_rod"));
}
