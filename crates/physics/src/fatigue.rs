//! Loads that come back against loads that hardly ever come, and many loads as one.

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

/// Slope exponent of a strength over cycles, p in σᵖ·N = constant, from two of its points.
///
/// Inputs: strength (Pa or N or N·m) after few cycles and after many; how many, both times.
/// Returns: a plain number above zero, infinite where the strength does not fall.
/// Valid for: many above few; a curve that is straight in both logarithms between them. Of one that flattens, a point further
/// out gives a higher exponent, which counts the highest loads more and is on the safe side.
/// Source: Basquin's law, textbook.
#[must_use]
pub fn slope_exponent<Q: Quantity>(few: (Ratio, Q), many: (Ratio, Q)) -> Ratio {
    let fallen = (few.1.si() / many.1.si()).ln();
    let exponent = (many.0.si() / few.0.si()).ln() / fallen;
    Ratio::from_si(if fallen > 0.0 && exponent.is_finite() { exponent } else { f64::INFINITY })
}

/// The one load that does as much harm in all cycles together as a spectrum does: (Σ nᵢ·Lᵢᵖ / Σ nᵢ)^(1/p).
///
/// Inputs: loads (Pa, N or N·m) with the number of their cycles; slope exponent p of the strength over cycles.
/// Returns: load, to be held against the strength after all cycles together; the highest load where p is infinite, zero for
/// nothing.
/// Valid for: loads that each use up their share of a life in whatever order (Miner's rule); the real sum at failure lies
/// between 0.3 and 3.
/// Source: Palmgren and Miner; equivalent torque of ISO 6336-6:2006, clause on it, published; from memory.
#[must_use]
pub fn equivalent_load<Q: Quantity>(spectrum: &[(Q, Ratio)], exponent: Ratio) -> Q {
    let loads =
        || spectrum.iter().filter(|(_, cycles)| cycles.si() > 0.0).map(|(load, cycles)| (load.si().abs(), cycles.si()));
    let highest = loads().map(|(load, _)| load).fold(0.0, f64::max);
    if highest == 0.0 || exponent.si().is_infinite() {
        return Q::from_si(highest);
    }
    // As shares of the highest, so that no power of a torque grows out of what a number holds.
    let all: f64 = loads().map(|(_, cycles)| cycles).sum();
    let harm: f64 = loads().map(|(load, cycles)| cycles * (load / highest).powf(exponent.si())).sum();
    Q::from_si(highest * (harm / all).powf(1.0 / exponent.si()))
}

/// Miner's sum: how much of its life a part has used up, Σ nᵢ/Nᵢ.
///
/// Inputs: cycles of each load, and how many of them the part stands.
/// Returns: a plain number; the part fails at about 1.
/// Valid for: as [`equivalent_load`].
/// Source: Palmgren 1924, Miner 1945, published.
#[must_use]
pub fn used_life(spectrum: &[(Ratio, Ratio)]) -> Ratio {
    Ratio::from_si(spectrum.iter().map(|(cycles, life)| cycles.si() / life.si()).sum())
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

    #[test]
    fn many_loads_do_the_harm_of_one() {
        let (p, strength) = (6.0, |n: f64| 1000.0 * n.powf(-1.0 / 6.0));
        let ratio = Ratio::from_si;
        let exponent =
            slope_exponent((ratio(1e4), Force::from_si(strength(1e4))), (ratio(1e6), Force::from_si(strength(1e6))));
        assert!((exponent.si() - p).abs() < 1e-9);
        let spectrum = [
            (Force::from_si(150.0), ratio(2e4)),
            (Force::from_si(-110.0), ratio(3e5)),
            (Force::from_si(70.0), ratio(1e6)),
        ];
        let one = equivalent_load(&spectrum, exponent).si();
        let lasts = |load: f64| (load / 1000.0).powf(-p);
        let sum: Vec<_> = spectrum.iter().map(|(load, n)| (*n, ratio(lasts(load.si().abs())))).collect();
        // By a second route: the same share of a life.
        assert!((used_life(&sum).si() / (1.32e6 / lasts(one)) - 1.0).abs() < 1e-9);
        assert_eq!(equivalent_load(&spectrum, ratio(f64::INFINITY)).si(), 150.0);
        assert_eq!(equivalent_load::<Force>(&[], exponent).si(), 0.0);
        assert_eq!(equivalent_load(&[(Force::from_si(9.0), ratio(5.0))], exponent).si(), 9.0);
        let level = slope_exponent((ratio(1e4), Force::from_si(5.0)), (ratio(1e6), Force::from_si(5.0)));
        assert!(level.si().is_infinite());
    }
}
