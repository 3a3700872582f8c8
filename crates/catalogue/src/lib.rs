//! Built-in materials, coolants, oils, cells, classes of insulation and connector, and assumed figures as YAML text by key, one file each, parsed only when referred to.
//! It never knows: types, units.

mod table;

use std::sync::LazyLock;
use table::ENTRIES;

/// All built-in entries.
#[derive(Debug, Clone, Copy)]
pub struct Catalogue;

impl document::Shelf for Catalogue {
    fn entry(&self, key: &str) -> Option<(&'static str, &'static str, &'static str)> {
        let at = ENTRIES.binary_search_by(|entry| entry.0.cmp(key)).ok()?;
        ENTRIES.get(at).map(|(_, section, file, text)| (*section, *file, *text))
    }
    fn keys(&self) -> &'static [(&'static str, &'static str)] {
        static KEYS: LazyLock<Vec<(&'static str, &'static str)>> = LazyLock::new(|| keys().collect());
        &KEYS
    }
    fn always(&self) -> &'static [&'static str] {
        &["assumed"]
    }
}

/// The same with every entry joined, mentioned or not: for looking what else there is to choose from.
#[derive(Debug, Clone, Copy)]
pub struct Everything;

impl document::Shelf for Everything {
    fn entry(&self, key: &str) -> Option<(&'static str, &'static str, &'static str)> {
        Catalogue.entry(key)
    }
    fn keys(&self) -> &'static [(&'static str, &'static str)] {
        Catalogue.keys()
    }
    fn always(&self) -> &'static [&'static str] {
        static KEYS: LazyLock<Vec<&'static str>> = LazyLock::new(|| {
            let always = Catalogue.always().iter().copied();
            always.chain(ENTRIES.iter().map(|entry| entry.0).filter(|key| !Catalogue.always().contains(key))).collect()
        });
        &KEYS
    }
}

/// (section, key) of every entry.
pub fn keys() -> impl Iterator<Item = (&'static str, &'static str)> {
    ENTRIES.iter().map(|(key, section, _, _)| (*section, *key))
}

#[cfg(test)]
mod tests {
    use super::*;
    use document::{Document, Limits, NoFiles};
    use std::path::Path;

    #[test]
    fn the_table_is_sorted_and_is_the_folder() {
        assert!(ENTRIES.is_sorted_by(|a, b| a.0 < b.0));
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("entries");
        let mut there = Vec::new();
        for section in ["", "materials", "coolants", "oils", "cells", "insulations", "connectors"] {
            for entry in std::fs::read_dir(folder.join(section)).unwrap() {
                let path = entry.unwrap().path();
                if path.is_file() {
                    there.push((section.to_owned(), path.file_stem().unwrap().to_str().unwrap().to_owned()));
                }
            }
        }
        there.sort();
        let mut listed: Vec<(String, String)> = keys().map(|(section, key)| (section.into(), key.into())).collect();
        listed.sort();
        assert_eq!(there, listed);
    }

    #[test]
    fn every_entry_is_a_text_without_trouble_and_says_where_it_is_from() {
        for (key, section, _, text) in ENTRIES {
            let spec = format!("use: {key}");
            let document = Document::load("spec", spec.into_bytes(), &NoFiles, &Catalogue, &Limits::default());
            assert_eq!(document.troubles, [], "{key}");
            if !section.is_empty() {
                let entry = document.root.get(section).and_then(|all| all.get(key)).unwrap();
                for said in ["basis", "source"] {
                    assert!(entry.get(said).is_some(), "{key} lacks {said}: {text}");
                }
            }
        }
    }
}
