//! How long it went at which load and speed: bins that widen as larger values come, so that one pass and little memory are
//! enough for any run.

use std::collections::BTreeMap;

/// Some seconds at one load and one speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// Effective value in its bin, with its sign; negative where it brakes.
    pub load: f64,
    /// On average in its bin, never negative.
    pub speed: f64,
    pub seconds: f64,
}

/// Bins from nothing to the highest value: at least half as many, at most these.
const LOADS: f64 = 64.0;
const SPEEDS: f64 = 16.0;

/// One axis: its bins are a power of two wide, so that two join to one when it widens.
#[derive(Debug)]
struct Axis {
    bins: f64,
    width: f64,
}

impl Axis {
    fn new(bins: f64) -> Self {
        Self { bins, width: 0.0 }
    }

    /// How many times its bins double to take a value in.
    fn doubles_for(&mut self, value: f64) -> u32 {
        if self.width == 0.0 {
            if value != 0.0 {
                self.width = 2f64.powi((value.abs() / self.bins).log2().ceil().clamp(-300.0, 300.0) as i32);
            }
            return 0;
        }
        let mut doubles = 0;
        while value.abs() > self.bins * self.width {
            self.width *= 2.0;
            doubles += 1;
        }
        doubles
    }

    fn bin(&self, value: f64) -> i32 {
        if self.width == 0.0 { 0 } else { (value / self.width).floor() as i32 }
    }
}

#[derive(Debug, Default, Clone, Copy)]
struct Bin {
    seconds: f64,
    load: f64,
    square: f64,
    speed: f64,
}

#[derive(Debug)]
pub(crate) struct Spectrum {
    loads: Axis,
    speeds: Axis,
    bins: BTreeMap<(i32, i32), Bin>,
}

impl Spectrum {
    pub fn new() -> Self {
        Self { loads: Axis::new(LOADS), speeds: Axis::new(SPEEDS), bins: BTreeMap::new() }
    }

    pub fn add(&mut self, load: f64, speed: f64, seconds: f64) {
        let speed = speed.abs();
        let (by_load, by_speed) = (self.loads.doubles_for(load), self.speeds.doubles_for(speed));
        if by_load + by_speed > 0 {
            self.join(by_load, by_speed);
        }
        let bin = self.bins.entry((self.loads.bin(load), self.speeds.bin(speed))).or_default();
        bin.seconds += seconds;
        bin.load += load * seconds;
        bin.square += load * load * seconds;
        bin.speed += speed * seconds;
    }

    fn join(&mut self, by_load: u32, by_speed: u32) {
        // Shifting a negative number rounds it down, as the bins are counted; after 31 doublings all is in two bins.
        let (by_load, by_speed) = (by_load.min(31), by_speed.min(31));
        for ((load, speed), bin) in std::mem::take(&mut self.bins) {
            let into = self.bins.entry((load >> by_load, speed >> by_speed)).or_default();
            into.seconds += bin.seconds;
            into.load += bin.load;
            into.square += bin.square;
            into.speed += bin.speed;
        }
    }

    /// In rising order of load, then of speed.
    pub fn steps(&self) -> Vec<Step> {
        let lasting = self.bins.values().filter(|bin| bin.seconds > 0.0);
        lasting
            .map(|bin| Step {
                load: (bin.square / bin.seconds).sqrt().copysign(bin.load),
                speed: bin.speed / bin.seconds,
                seconds: bin.seconds,
            })
            .collect()
    }
}
