//! Examples of the repository, reviewed, for tests.

use crate::compare::Side;
use document::{Document, FileTrouble, Files, Limits};
use engine::Review;
use machine::{Machine, Swaps};
use std::fs;
use std::path::{Path, PathBuf};

struct Disk;

impl Files for Disk {
    fn read(&self, from: &str, name: &str) -> Result<(String, Vec<u8>), FileTrouble> {
        let path = Path::new(from).with_file_name(name);
        let bytes = fs::read(&path).map_err(|error| FileTrouble::Unreadable { reason: error.to_string() })?;
        Ok((path.display().to_string(), bytes))
    }
}

pub struct Reviewed {
    pub document: Document,
    pub machine: Machine,
    pub review: Review,
}

impl Reviewed {
    pub fn side(&self) -> Side<'_> {
        Side { document: &self.document, machine: &self.machine, review: &self.review }
    }
}

fn path(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples").join(name).with_extension("machine.yaml")
}

/// An example such as `hut-hauler/revised`, with pieces of its text replaced wherever they stand.
pub fn changed(name: &str, changes: &[(&str, &str)]) -> Reviewed {
    let path = path(name);
    let mut text = fs::read_to_string(&path).expect("the example is there");
    for (old, new) in changes {
        assert!(text.contains(old), "{name} has no `{old}`");
        text = text.replace(old, new);
    }
    reviewed(&path.display().to_string(), text)
}

/// A text of its own.
pub fn reviewed(name: &str, text: String) -> Reviewed {
    let document = Document::load(name, text.into_bytes(), &Disk, &catalogue::Catalogue, &Limits::default());
    let machine = Machine::read(&document, &Swaps::new()).expect("it has no complaints");
    let review = engine::review(&document, &machine, rulebook::RULES, &[], None);
    Reviewed { document, machine, review }
}
