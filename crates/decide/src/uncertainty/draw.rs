//! Drawn numbers: Latin hypercubes of standard normal deviates, the same for the same seed on any number of threads.

use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng, seq::SliceRandom};

/// Samples of one Latin hypercube. Further ones are independent of it, so memory does not grow with their number.
pub(super) const BATCH: usize = 200;

/// Classes of equal probability into which each input's draws fall.
pub(super) const CLASSES: usize = 10;

/// One hypercube: for each sample the deviates of all inputs.
#[derive(Debug)]
pub(super) struct Batch {
    samples: usize,
    inputs: usize,
    deviates: Vec<f64>,
    classes: Vec<u8>,
}

impl Batch {
    /// Each input takes each of the `samples` strata of equal probability once, in an order of its own (McKay, Beckman and
    /// Conover, Technometrics 21 (1979) 239–245).
    pub fn draw(seed: u64, number: usize, samples: usize, inputs: usize) -> Self {
        let mut random = ChaCha8Rng::seed_from_u64(seed);
        random.set_stream(number as u64);
        let mut batch =
            Self { samples, inputs, deviates: vec![0.0; samples * inputs], classes: vec![0; samples * inputs] };
        #[expect(clippy::cast_possible_truncation, reason = "a batch is small")]
        let mut strata: Vec<u32> = (0..samples as u32).collect();
        for input in 0..inputs {
            strata.shuffle(&mut random);
            for (sample, stratum) in strata.iter().enumerate() {
                let share = (f64::from(*stratum) + random.random::<f64>()) / samples as f64;
                let share = share.clamp(1e-12, 1.0 - 1e-12);
                let at = sample * inputs + input;
                if let (Some(deviate), Some(class)) = (batch.deviates.get_mut(at), batch.classes.get_mut(at)) {
                    *deviate = deviate_of(share);
                    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "below ten")]
                    let tenth = (share * CLASSES as f64) as u8;
                    *class = tenth;
                }
            }
        }
        batch
    }

    pub fn samples(&self) -> usize {
        self.samples
    }
    pub fn deviates(&self, sample: usize) -> &[f64] {
        self.deviates.get(sample * self.inputs..(sample + 1) * self.inputs).unwrap_or(&[])
    }
    pub fn classes(&self, sample: usize) -> &[u8] {
        self.classes.get(sample * self.inputs..(sample + 1) * self.inputs).unwrap_or(&[])
    }
}

/// The standard normal deviate below which the share `p` lies; good to seven digits. Valid for 0 < p < 1.
/// Source: Wichura, algorithm AS 241 (routine PPND7), Applied Statistics 37 (1988) 477–484, published; coefficients from
/// memory, held by the tests.
fn deviate_of(p: f64) -> f64 {
    let ratio = |r: f64, above: &[f64], below: &[f64]| {
        let sum = |terms: &[f64]| terms.iter().rev().fold(0.0, |sum, term| sum * r + term);
        sum(above) / sum(below)
    };
    let q = p - 0.5;
    if q.abs() <= 0.425 {
        let above = [3.387_132_717_9, 50.434_271_938, 159.291_132_02, 59.109_374_720];
        let below = [1.0, 17.895_169_469, 78.757_757_664, 67.187_563_600];
        return q * ratio(0.180_625 - q * q, &above, &below);
    }
    let r = (-p.min(1.0 - p).ln()).sqrt();
    let far = if r <= 5.0 {
        let above = [1.423_437_277_7, 2.756_815_390_0, 1.306_728_481_6, 0.170_238_211_03];
        ratio(r - 1.6, &above, &[1.0, 0.737_001_642_50, 0.120_211_329_75])
    } else {
        let above = [6.657_905_115_0, 3.081_226_386_0, 0.428_682_943_37, 0.017_337_203_997];
        ratio(r - 5.0, &above, &[1.0, 0.241_978_942_25, 0.012_258_202_635])
    };
    far.copysign(q)
}

/// A share of samples with the interval that holds the true probability in 95 of 100 cases.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chance {
    pub share: f64,
    pub low: f64,
    pub high: f64,
}

impl Chance {
    /// Wilson's interval, Journal of the American Statistical Association 22 (1927) 209–212, published. It stays within 0
    /// and 1 and says something even when nothing was seen.
    pub(super) fn of(seen: u32, of: u32) -> Self {
        if of == 0 {
            return Self { share: 0.0, low: 0.0, high: 1.0 };
        }
        const Z: f64 = 1.959_963_985;
        let n = f64::from(of);
        let share = f64::from(seen) / n;
        let whole = 1.0 + Z * Z / n;
        let middle = (share + Z * Z / (2.0 * n)) / whole;
        let half = Z / whole * (share * (1.0 - share) / n + Z * Z / (4.0 * n * n)).sqrt();
        let low = if seen == 0 { 0.0 } else { (middle - half).max(0.0) };
        let high = if seen == of { 1.0 } else { (middle + half).min(1.0) };
        Self { share, low, high }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Percentage points of the normal distribution as printed in any table of it (Abramowitz and Stegun, table 26.5).
    #[test]
    fn deviates_are_those_of_the_tables() {
        for (p, z) in [
            (0.5, 0.0),
            (0.75, 0.674_490),
            (0.9, 1.281_552),
            (0.975, 1.959_964),
            (0.99, 2.326_348),
            (0.999, 3.090_232),
            (1e-6, -4.753_424),
            (0.025, -1.959_964),
        ] {
            assert!((deviate_of(p) - z).abs() < 1e-6, "{p}: {} against {z}", deviate_of(p));
        }
    }

    /// The second route: the density summed up to the deviate is the share again, far into the tail too.
    #[test]
    fn the_density_up_to_a_deviate_is_its_share() {
        for p in [1e-11, 1e-9, 1e-5, 0.01, 0.07, 0.08, 0.3] {
            let (z, steps) = (deviate_of(p), 200_000);
            let width = (z + 9.0) / f64::from(steps);
            let density = |x: f64| (-x * x / 2.0).exp() / (2.0 * std::f64::consts::PI).sqrt();
            let sum: f64 = (0..steps).map(|step| density(-9.0 + (f64::from(step) + 0.5) * width) * width).sum();
            assert!((sum / p - 1.0).abs() < 2e-5, "{p}: {sum}");
        }
    }

    /// Wilson's interval for 0 of 10 and 5 of 10 by hand: z²/(n + z²) = 3.8415/13.8415; 0.5 ∓ 0.5·z/√(n + z²).
    #[test]
    fn the_interval_is_the_one_worked_by_hand() {
        let none = Chance::of(0, 10);
        assert!(none.low == 0.0 && (none.high - 0.277_53).abs() < 1e-4, "{none:?}");
        let half = Chance::of(5, 10);
        assert!((half.low - 0.236_59).abs() < 1e-4 && (half.high - 0.763_41).abs() < 1e-4, "{half:?}");
    }

    #[test]
    fn each_input_visits_each_stratum_once() {
        let batch = Batch::draw(7, 3, BATCH, 5);
        for input in 0..5 {
            let mut counts = [0; CLASSES];
            (0..BATCH).for_each(|sample| counts[usize::from(batch.classes(sample)[input])] += 1);
            assert_eq!(counts, [BATCH / CLASSES; CLASSES]);
        }
    }
}
