//! How much of the possible heat two flows exchange.

/// How the two flows pass each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Passing {
    Counterflow,
    Parallel,
    /// Crosswise, both between fins or in channels.
    CrossBothUnmixed,
    /// Crosswise, the flow that carries less heat per kelvin mixes across, the other is in channels.
    CrossLesserMixed,
    /// Crosswise, the flow that carries more heat per kelvin mixes across, the other is in channels.
    CrossGreaterMixed,
    /// One side keeps its temperature: it boils, condenses or is far greater.
    OneSideConstant,
}

/// Heat exchanged over the most that could be, from the size of the exchanger.
///
/// Inputs: NTU, the conductance U·A (W/K) over the lesser of the two heat capacity rates ṁ·cp (W/K); the lesser over the
/// greater of these rates (0…1, anything else is taken as the nearer end).
/// Returns: a share 0…1 of lesser rate times difference of the inlet temperatures.
/// Valid for: even flow, no loss to the outside. Both unmixed: NTU above 300 is taken as 300, which is low by under 2 %.
/// Source: Bergman and others, Introduction to Heat Transfer, 6th edition, table 11.3; both unmixed exactly, as the series
/// of Mason 1955 in Shah and Sekulic, Fundamentals of Heat Exchanger Design (2003), table 3.4; published.
#[must_use]
pub fn effectiveness(passing: Passing, ntu: f64, capacity_ratio: f64) -> f64 {
    let c = capacity_ratio.clamp(0.0, 1.0);
    let one_side = -(-ntu).exp_m1();
    // Below this the formulas divide nearly nothing by nearly nothing; the flows differ by 10⁻⁹ then.
    if c < 1e-9 {
        return one_side;
    }
    match passing {
        Passing::Counterflow if 1.0 - c < 1e-9 => ntu / (1.0 + ntu),
        Passing::Counterflow => {
            let left = (-ntu * (1.0 - c)).exp();
            (1.0 - left) / (1.0 - c * left)
        }
        Passing::Parallel => -(-ntu * (1.0 + c)).exp_m1() / (1.0 + c),
        Passing::CrossBothUnmixed => both_unmixed(ntu.min(300.0), c),
        Passing::CrossLesserMixed => -((-c * ntu).exp_m1() / c).exp_m1(),
        Passing::CrossGreaterMixed => -(-c * one_side).exp_m1() / c,
        Passing::OneSideConstant => one_side,
    }
}

/// Conductance to a stream of air as it arrives, where that warms while it passes, Γ = C·(1 − e^(−U·A/C)).
///
/// Inputs: conductance U·A (W/K); heat capacity rate C of the air (W/K), infinite where it does not warm.
/// Returns: conductance (W/K) between the liquid and the air that comes in, always less than either. With it the liquid cools as
/// if the air kept its temperature: that is crossflow past a liquid that is mixed across, the air in strips side by side.
/// Valid for: air that passes once, each strip of it over one place of the liquid's way.
/// Source: the formulas of one side mixed in [`effectiveness`], rearranged; published.
#[must_use]
pub fn to_passing_air(conductance: f64, air_rate: f64) -> f64 {
    if air_rate <= 0.0 {
        return 0.0;
    }
    let units = conductance / air_rate;
    // So little warms nothing, and the formula would lose its digits.
    if units < 1e-9 { conductance } else { -air_rate * (-units).exp_m1() }
}

/// ε = 1/(C·N) · Σ over n of (1 − e^−N·Σ N^m/m!)·(1 − e^−CN·Σ (CN)^m/m!), m = 0…n.
fn both_unmixed(n: f64, c: f64) -> f64 {
    if n <= 0.0 {
        return 0.0;
    }
    // Terms beyond have died out: a Poisson count rarely exceeds its mean by ten times its spread.
    let terms = (n + 10.0 * n.sqrt() + 30.0) as u32;
    let (mut hot, mut cold) = ((-n).exp(), (-c * n).exp());
    let (mut hot_left, mut cold_left) = (-(-n).exp_m1(), -(-c * n).exp_m1());
    let mut sum = hot_left * cold_left;
    for m in 1..=terms {
        hot *= n / f64::from(m);
        cold *= c * n / f64::from(m);
        hot_left = (hot_left - hot).max(0.0);
        cold_left = (cold_left - cold).max(0.0);
        sum += hot_left * cold_left;
    }
    sum / (c * n)
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALL: [Passing; 6] = [
        Passing::Counterflow,
        Passing::Parallel,
        Passing::CrossBothUnmixed,
        Passing::CrossLesserMixed,
        Passing::CrossGreaterMixed,
        Passing::OneSideConstant,
    ];

    #[test]
    fn between_parallel_and_counterflow_and_growing() {
        for passing in ALL {
            for c in [0.0, 1e-6, 0.3, 0.8, 1.0] {
                let mut before = 0.0;
                for step in 1..400 {
                    let ntu = f64::from(step) * 0.05;
                    let share = effectiveness(passing, ntu, c);
                    assert!(share >= before - 1e-12, "{passing:?} {ntu} {c}");
                    assert!(share <= effectiveness(Passing::OneSideConstant, ntu, c) + 1e-12);
                    assert!(share >= effectiveness(Passing::Parallel, ntu, c) - 1e-9);
                    before = share;
                }
                assert!(effectiveness(passing, 0.0, c).abs() < 1e-12);
            }
        }
    }

    #[test]
    fn air_that_warms_is_one_side_mixed() {
        for (conductance, liquid, air) in [(4.0, 76.0, 11.0), (4.0, 11.0, 76.0), (50.0, 20.0, 20.0), (0.1, 1e3, 1.0)] {
            let (less, more) = (f64::min(liquid, air), f64::max(liquid, air));
            let passing = if air < liquid { Passing::CrossGreaterMixed } else { Passing::CrossLesserMixed };
            let share = effectiveness(passing, conductance / less, less / more) * less;
            let ours = effectiveness(Passing::OneSideConstant, to_passing_air(conductance, air) / liquid, 0.0) * liquid;
            assert!((ours / share - 1.0).abs() < 1e-12, "{ours} {share}");
        }
        assert_eq!(to_passing_air(4.0, f64::INFINITY), 4.0);
        assert_eq!(to_passing_air(4.0, 0.0), 0.0);
    }

    #[test]
    fn a_small_exchanger_does_not_mind_how_flows_pass() {
        for passing in ALL {
            assert!((effectiveness(passing, 1e-4, 0.7) / 1e-4 - 1.0).abs() < 1e-3);
        }
    }

    #[test]
    fn very_large_stays_finite() {
        let most = effectiveness(Passing::CrossBothUnmixed, 1e9, 1.0);
        assert!(most > 0.95 && most < 1.0, "{most}");
    }
}
