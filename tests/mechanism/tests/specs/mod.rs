//! The specs that the laws are tried on: one with every section, and all examples.

#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing, dead_code)]

pub mod mutants;
mod probe;

use document::{Document, FileTrouble, Files, Limits};
use machine::{Machine, Swaps, complaints};
use rule::Rule;
use rulebook::RULES;
use std::fs;
use std::path::{Path, PathBuf};

struct Disk(PathBuf);

impl Files for Disk {
    fn read(&self, from: &str, name: &str) -> Result<(String, Vec<u8>), FileTrouble> {
        let folder = Path::new(from).parent().map_or(self.0.clone(), Path::to_path_buf);
        let path = folder.join(name);
        let bytes = fs::read(&path).map_err(|error| FileTrouble::Unreadable { reason: error.to_string() })?;
        Ok((path.display().to_string(), bytes))
    }
}

pub fn load(path: &Path) -> Document {
    let bytes = fs::read(path).expect("the spec is there");
    let folder = path.parent().expect("it lies in a folder").to_path_buf();
    Document::load(&path.display().to_string(), bytes, &Disk(folder), &catalogue::Catalogue, &Limits::default())
}

/// A document that is fine.
pub fn sound(path: &Path) -> (Document, Machine) {
    let document = load(path);
    let wrong = complaints(&document);
    assert!(wrong.is_empty(), "{}: {wrong:#?}", path.display());
    let machine = Machine::read(&document, &Swaps::new()).expect("it has no complaints");
    (document, machine)
}

/// The rulebook and the probe.
pub fn rules() -> Vec<&'static dyn Rule> {
    RULES.iter().copied().chain([&probe::Probe as &dyn Rule]).collect()
}

pub fn everything() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/specs/everything.machine.yaml")
}

/// All example specs, smallest first.
pub fn examples() -> Vec<PathBuf> {
    fn search(folder: &Path, found: &mut Vec<PathBuf>) {
        for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
            let path = entry.path();
            if path.is_dir() {
                search(&path, found);
            } else if path.to_string_lossy().ends_with(".machine.yaml") {
                found.push(path);
            }
        }
    }
    let mut found = Vec::new();
    search(&root().join("examples"), &mut found);
    found.sort_by_key(|path| (fs::metadata(path).map_or(0, |data| data.len()), path.clone()));
    found
}

/// Of what a law may be tried on, one in so many; with `DRYFIT_LAWS=all` everything.
pub fn one_in(sample: usize) -> usize {
    if std::env::var_os("DRYFIT_LAWS").is_some_and(|laws| laws == "all") { 1 } else { sample.max(1) }
}

/// The repository's root.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}
