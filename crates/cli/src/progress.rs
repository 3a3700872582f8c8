//! A bar on standard error for what takes over a second.

use indicatif::{ProgressBar, ProgressStyle};
use std::sync::OnceLock;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Duration, Instant};

/// Steps may be counted from several threads. It is gone when it is dropped.
pub struct Progress {
    began: Instant,
    bar: OnceLock<ProgressBar>,
    done: AtomicU64,
    all: u64,
    of: &'static str,
}

impl Progress {
    /// `of` what there are `all`, such as `specs`.
    pub fn new(all: usize, of: &'static str) -> Self {
        Self { began: Instant::now(), bar: OnceLock::new(), done: AtomicU64::new(0), all: all as u64, of }
    }

    /// One of them is done.
    pub fn step(&self) {
        let done = self.done.fetch_add(1, Ordering::Relaxed) + 1;
        if self.all > 1 && self.began.elapsed() > Duration::from_secs(1) {
            self.bar.get_or_init(|| self.draw()).set_position(done);
        }
    }

    fn draw(&self) -> ProgressBar {
        let style = ProgressStyle::with_template(&format!("{{bar:30}} {{pos}} of {{len}} {}", self.of));
        ProgressBar::new(self.all).with_style(style.unwrap_or_else(|_| ProgressStyle::default_bar()))
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if let Some(bar) = self.bar.get() {
            bar.finish_and_clear();
        }
    }
}
