//! The examples of the repository, read, and a clock.

#![allow(dead_code)]

use catalogue::Catalogue;
use document::{Document, FileTrouble, Files, Limits};
use machine::{Machine, Swaps};
use std::fs::{self, DirEntry};
use std::path::{Path, PathBuf};
use std::sync::OnceLock;
use std::time::Instant;

pub const EXAMPLES: [(&str, &str); 4] =
    [("hut-hauler", "as-drawn"), ("hut-hauler", "revised"), ("reed-cutter", "as-drawn"), ("reed-cutter", "revised")];

pub struct Example {
    bytes: Vec<u8>,
    files: Beside,
}

struct Beside(PathBuf);

impl Files for Beside {
    fn read(&self, _: &str, name: &str) -> Result<(String, Vec<u8>), FileTrouble> {
        let bytes = fs::read(self.0.join(name)).map_err(|_| FileTrouble::Missing { nearest: None })?;
        Ok((name.to_owned(), bytes))
    }
}

impl Example {
    /// Such as `reed-cutter`, `revised`.
    pub fn of(name: &str, revision: &str) -> Self {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples").join(name);
        let bytes = fs::read(folder.join(format!("{revision}.machine.yaml"))).expect("the example is there");
        Self { bytes, files: Beside(folder) }
    }

    pub fn read(&self) -> (Document, Machine) {
        let document = Document::load("spec", self.bytes.clone(), &self.files, &Catalogue, &Limits::default());
        let machine = Machine::read(&document, &Swaps::new()).expect("the example reads");
        (document, machine)
    }
}

/// Seconds of processor time of one go, over so many goes that the kernel's tick does not show.
pub fn cost(work: impl Fn()) -> f64 {
    const LONG: f64 = 0.04;
    let mut goes = 1;
    loop {
        let began = processor_time();
        (0..goes).for_each(|_| work());
        let spent = processor_time() - began;
        if spent > LONG {
            return spent / f64::from(goes);
        }
        goes *= 2;
    }
}

/// Seconds that all threads have run, so that what else the machine does leaves it alone; where the kernel does not tell,
/// seconds on the clock.
pub fn processor_time() -> f64 {
    static BEGAN: OnceLock<Instant> = OnceLock::new();
    let of_thread = |thread: DirEntry| -> Option<f64> {
        let text = fs::read_to_string(thread.path().join("schedstat")).ok()?;
        text.split(' ').next()?.parse().ok()
    };
    let threads = fs::read_dir("/proc/self/task").into_iter().flatten().flatten();
    let nanoseconds: f64 = threads.filter_map(of_thread).sum();
    if nanoseconds > 0.0 { nanoseconds * 1e-9 } else { BEGAN.get_or_init(Instant::now).elapsed().as_secs_f64() }
}

pub fn median(mut of: Vec<f64>) -> f64 {
    of.sort_by(f64::total_cmp);
    of.get(of.len() / 2).copied().unwrap_or(0.0)
}

pub fn mean(of: &[f64]) -> f64 {
    of.iter().sum::<f64>() / of.len() as f64
}

/// On one thread: waiting for work is no work.
pub fn alone(work: impl FnOnce() + Send) {
    rayon::ThreadPoolBuilder::new().num_threads(1).build().expect("a thread").install(work);
}
