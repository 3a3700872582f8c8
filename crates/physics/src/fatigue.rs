//! Loads that come back against loads that hardly ever come.

use quantity::*;

/// Repeated load that does as much harm as a repeated and a rare one together, L + f·L₀: Goodman's line
/// L₀/S + L/(f·S) ≤ 1, multiplied by f·S.
///
/// Inputs: load L (Pa or N) that comes back with every turn, from nothing to L; load L₀ (Pa or N) that comes so seldom that only the
/// strength of new material stands against it; share f (0…1) of the strength S that is left for what comes back.
/// Returns: load (Pa or N), to be held against f·S.
/// Valid for: tension on tension, brittle and tough material; Goodman takes the straight line between static and repeated strength,
/// on the safe side of most tests. With f = 1 nothing tires and the two simply add up.
/// Source: modified Goodman line, Shigley, ch. 6, published; there a steady load stands in the place of the rare one.
#[must_use]
pub fn goodman_repeated<Q: Quantity>(repeated: Q, rare: Q, share_left: Ratio) -> Q {
    Q::from_si(repeated.si() + share_left.si() * rare.si())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn goodmans_line_runs_from_static_to_repeated_strength() {
        let (strength, left) = (60e6, Ratio::from_si(0.4));
        let used = |repeated: f64, rare: f64| {
            goodman_repeated(Pressure::from_si(repeated), Pressure::from_si(rare), left).si() / (0.4 * strength)
        };
        assert!((used(0.0, strength) - 1.0).abs() < 1e-12);
        assert!((used(0.4 * strength, 0.0) - 1.0).abs() < 1e-12);
        // By hand: 12/24 + 30/60.
        assert!((used(12e6, 30e6) - 1.0).abs() < 1e-12);
        let nothing_tires = goodman_repeated(Force::from_si(3.0), Force::from_si(4.0), Ratio::from_si(1.0));
        assert!((nothing_tires.si() - 7.0).abs() < 1e-12);
    }
}
