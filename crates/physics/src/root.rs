//! Where a rising function takes a value.

/// The place between `low` and `high` where `f`, rising, reaches `target`; the nearer end if it never does.
///
/// Halving cannot miss and cannot run away; sixty halvings are below the last digit of any temperature.
pub(crate) fn rising(mut low: f64, mut high: f64, target: f64, f: impl Fn(f64) -> f64) -> f64 {
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if f(middle) < target {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_the_place_or_the_nearer_end() {
        assert!((rising(0.0, 5.0, 2.0, |x| x * x) - 2f64.sqrt()).abs() < 1e-12);
        assert!((rising(0.0, 5.0, 30.0, |x| x * x) - 5.0).abs() < 1e-12);
        assert!((rising(1.0, 5.0, 0.0, |x| x * x) - 1.0).abs() < 1e-12);
    }
}
