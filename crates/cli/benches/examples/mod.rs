//! The examples of the repository, read, and clocks.

use catalogue::Catalogue;
use document::{Document, FileTrouble, Files, Limits};
use machine::{Machine, Swaps};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

pub struct Example {
    bytes: Vec<u8>,
    files: Beside,
}

struct Beside(PathBuf);

impl Files for Beside {
    fn read(&self, _: &str, name: &str) -> Result<(String, Vec<u8>), FileTrouble> {
        let bytes = std::fs::read(self.0.join(name)).map_err(|_| FileTrouble::Missing { nearest: None })?;
        Ok((name.to_owned(), bytes))
    }
}

impl Example {
    /// Such as `reed-cutter`, `revised`.
    pub fn of(name: &str, revision: &str) -> Self {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples").join(name);
        let bytes = std::fs::read(folder.join(format!("{revision}.machine.yaml"))).expect("the example is there");
        Self { bytes, files: Beside(folder) }
    }

    pub fn read(&self) -> (Document, Machine) {
        let document = Document::load("spec", self.bytes.clone(), &self.files, &Catalogue, &Limits::default());
        let machine = Machine::read(&document, &Swaps::new()).expect("the example reads");
        (document, machine)
    }
}

pub fn time(work: impl FnOnce()) -> Duration {
    let began = Instant::now();
    work();
    began.elapsed()
}

/// In seconds.
pub fn median(mut times: Vec<Duration>) -> f64 {
    times.sort();
    times.get(times.len() / 2).map_or(0.0, Duration::as_secs_f64)
}
