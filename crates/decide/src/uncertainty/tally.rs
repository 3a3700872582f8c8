//! What the samples of one margin add up to, in a memory that does not grow with their number.

use super::Sampled;
use super::draw::{CLASSES, Chance};
use std::collections::BTreeMap;

/// What one sample made of one margin, at the case point where it was worst.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Worst {
    pub state: State,
    /// The order among case points; lowest is worst.
    pub rank: f64,
    /// NaN where there is none.
    pub reserve: f64,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum State {
    /// No case point could be judged.
    NotJudged,
    Sound,
    Thin,
    Fails,
    Broken,
}

impl Worst {
    pub const NONE: Self = Self { state: State::NotJudged, rank: f64::INFINITY, reserve: f64::NAN };

    /// The worse of two; the first one of equals.
    pub fn or(self, other: Self) -> Self {
        let worse = other.state != State::NotJudged && (self.state == State::NotJudged || other.rank < self.rank);
        if worse { other } else { self }
    }

    /// Whether two ways of looking came to the same.
    pub fn agrees(&self, other: &Self) -> bool {
        let near = (self.reserve - other.reserve).abs() <= 1e-9 * self.reserve.abs();
        self.state == other.state && (self.reserve.to_bits() == other.reserve.to_bits() || near)
    }
}

/// Counts of numbers by size, each bin a two-thousandth of its number wide: the order of floating-point numbers is that of
/// their bits.
#[derive(Debug, Default)]
struct Bins(BTreeMap<i32, u32>);

const DROPPED: u32 = 12;

impl Bins {
    fn add(&mut self, number: f64) {
        #[expect(clippy::cast_possible_truncation, reason = "bins are coarser than single precision")]
        let bits = (number as f32).to_bits().cast_signed();
        let ordered = if bits < 0 { i32::MIN - bits } else { bits };
        *self.0.entry(ordered >> DROPPED).or_insert(0) += 1;
    }

    /// The number below which a share of all lies.
    fn quantile(&self, share: f64) -> Option<f64> {
        let all: u32 = self.0.values().sum();
        let wanted = share * f64::from(all);
        let mut below = 0;
        for (bin, count) in &self.0 {
            below += count;
            if f64::from(below) >= wanted {
                let middle = (bin << DROPPED) + (1 << (DROPPED - 1));
                let infinite = *bin == f32::INFINITY.to_bits().cast_signed() >> DROPPED;
                let bits = if middle < 0 { i32::MIN - middle } else { middle };
                let number = f64::from(f32::from_bits(bits.cast_unsigned()));
                return Some(if infinite { f64::INFINITY } else { number });
            }
        }
        None
    }
}

/// One margin.
#[derive(Debug, Default)]
pub(super) struct Tally {
    judged: u32,
    fails: u32,
    thin: u32,
    broken: u32,
    reserves: Bins,
    /// For each input of the margin, by class of the draw.
    classes: Vec<[Class; CLASSES]>,
}

/// Samples of one class.
#[derive(Debug, Clone, Copy, Default)]
struct Class {
    judged: u32,
    fails: u32,
    thin: u32,
}

/// What may or may not happen in a sample.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Event {
    Fails,
    /// Less than the required reserve: it fails or is thin.
    Short,
}

impl Event {
    fn of(self, fails: u32, thin: u32) -> f64 {
        match self {
            Self::Fails => f64::from(fails),
            Self::Short => f64::from(fails + thin),
        }
    }
}

impl Tally {
    pub fn new(inputs: usize) -> Self {
        Self { classes: vec![[Class::default(); CLASSES]; inputs], ..Self::default() }
    }

    /// `classes` are those of the margin's own inputs.
    pub fn add(&mut self, worst: &Worst, classes: impl Iterator<Item = u8>) {
        match worst.state {
            State::NotJudged => return,
            State::Broken => {
                self.broken += 1;
                return;
            }
            State::Sound => {}
            State::Thin => self.thin += 1,
            State::Fails => self.fails += 1,
        }
        self.judged += 1;
        if !worst.reserve.is_nan() {
            self.reserves.add(worst.reserve);
        }
        for (input, class) in self.classes.iter_mut().zip(classes) {
            if let Some(class) = input.get_mut(usize::from(class)) {
                class.judged += 1;
                class.fails += u32::from(worst.state == State::Fails);
                class.thin += u32::from(worst.state == State::Thin);
            }
        }
    }

    #[cfg(test)]
    pub fn places(&self) -> usize {
        self.reserves.0.len()
    }

    pub fn margin(&self, finding: usize) -> Sampled {
        let at = |share| self.reserves.quantile(share);
        let reserve = || Some([at(0.05)?, at(0.5)?, at(0.95)?]);
        Sampled {
            finding,
            judged: self.judged,
            broken: self.broken,
            fails: Chance::of(self.fails, self.judged),
            thin: Chance::of(self.thin, self.judged),
            reserve: reserve(),
        }
    }

    fn share(&self, event: Event) -> f64 {
        event.of(self.fails, self.thin) / f64::from(self.judged.max(1))
    }

    /// How open it is: the variance of happening or not.
    pub fn doubt(&self, event: Event) -> f64 {
        let share = self.share(event);
        share * (1.0 - share)
    }

    /// For each input the part of that doubt which knowing it alone would settle on average: the first-order index from
    /// class means (Plischke, Borgonovo and Smith, European Journal of Operational Research 226 (2013) 536–550,
    /// published), less what chance alone would show.
    pub fn settled(&self, event: Event) -> impl Iterator<Item = f64> {
        let (n, share) = (f64::from(self.judged.max(1)), self.share(event));
        self.classes.iter().map(move |classes| {
            let parts = classes.iter().filter(|class| class.judged > 0).map(|class| {
                let here = event.of(class.fails, class.thin) / f64::from(class.judged);
                let between = f64::from(class.judged) / n * (here - share).powi(2);
                (between, here * (1.0 - here) / n)
            });
            let (between, chance) = parts.fold((0.0, 0.0), |sum, part| (sum.0 + part.0, sum.1 + part.1));
            (between - chance + share * (1.0 - share) / n).max(0.0)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantiles_are_those_of_the_numbers_to_a_thousandth() {
        let mut bins = Bins::default();
        (0..1000).for_each(|step| bins.add(f64::from(step - 300) / 100.0));
        for (share, number) in [(0.05, -2.5), (0.5, 2.0), (0.95, 6.5)] {
            let found = bins.quantile(share).unwrap();
            assert!((found - number).abs() < 0.011, "{share}: {found} against {number}");
        }
        let mut none = Bins::default();
        assert_eq!(none.quantile(0.5), None);
        none.add(f64::INFINITY);
        assert_eq!(none.quantile(0.5), Some(f64::INFINITY));
    }

    #[test]
    fn the_worse_is_kept() {
        let one = |rank: f64| Worst { state: State::Sound, rank, reserve: rank };
        assert_eq!(Worst::NONE.or(one(f64::INFINITY)), one(f64::INFINITY));
        assert_eq!(one(2.0).or(one(3.0)).or(Worst::NONE), one(2.0));
        assert_eq!(one(2.0).or(one(1.0)), one(1.0));
    }
}
