//! The longest ten seconds: the highest effective value over any ten seconds of a run.

/// Seconds of one bucket; a window may begin at each.
const BUCKET: f64 = 0.1;
const BUCKETS: usize = 100;

#[derive(Debug)]
pub(crate) struct Window {
    /// Square times time of each.
    buckets: [f64; BUCKETS],
    at: usize,
    /// Seconds that the current one has.
    filled: f64,
    full: usize,
    highest: f64,
}

impl Window {
    pub fn new() -> Self {
        Self { buckets: [0.0; BUCKETS], at: 0, filled: 0.0, full: 0, highest: 0.0 }
    }

    /// A value that holds for some seconds.
    pub fn add(&mut self, value: f64, seconds: f64) {
        // Twice the window is as good as for ever.
        let mut left = seconds.min(2.0 * BUCKET * BUCKETS as f64);
        while left > 0.0 {
            let step = left.min(BUCKET - self.filled);
            if let Some(bucket) = self.buckets.get_mut(self.at) {
                *bucket += value * value * step;
            }
            left -= step;
            self.filled += step;
            if self.filled < BUCKET * (1.0 - 1e-9) {
                continue;
            }
            self.full += 1;
            if self.full >= BUCKETS {
                self.highest = self.highest.max(self.buckets.iter().sum());
            }
            self.at = (self.at + 1) % BUCKETS;
            self.filled = 0.0;
            if let Some(bucket) = self.buckets.get_mut(self.at) {
                *bucket = 0.0;
            }
        }
    }

    /// Nothing from a run of less than ten seconds.
    pub fn effective(&self) -> Option<f64> {
        (self.full >= BUCKETS).then(|| (self.highest / (BUCKET * BUCKETS as f64)).sqrt())
    }
}
