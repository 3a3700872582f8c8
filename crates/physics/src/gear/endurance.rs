//! What root and flank stand after many turns.

use quantity::*;
use std::f64::consts::PI;

/// How a metal tooth was treated, for its life factors.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Life {
    /// Case or induction hardened.
    Hardened,
    /// Through-hardened, normalised, cast, sintered.
    Plain,
}

/// A line that is straight in both logarithms between two points, level outside.
fn between(cycles: f64, (from, high): (f64, f64), (to, low): (f64, f64)) -> f64 {
    if cycles <= from {
        high
    } else if cycles >= to {
        low
    } else {
        high * (low / high).powf((cycles / from).ln() / (to / from).ln())
    }
}

/// Life factor of metal roots, YNT.
///
/// Inputs: load cycles; how the tooth was treated.
/// Returns: a factor on the strength that lasts: 2.5 up to 1,000 cycles hardened (10,000 plain), 1 from 3 million on.
/// Valid for: any number of cycles; 0.85 at 10¹⁰ is left out, no machine of this kind turns so often.
/// Source: ISO 6336-3:2006, table of YNT, published; from memory.
#[must_use]
pub fn root_life(cycles: Ratio, life: Life) -> Ratio {
    let few = match life {
        Life::Hardened => 1e3,
        Life::Plain => 1e4,
    };
    Ratio::from_si(between(cycles.si(), (few, 2.5), (3e6, 1.0)))
}

/// Life factor of metal flanks, ZNT.
///
/// Inputs: load cycles.
/// Returns: a factor on the lasting pressure: 1.6 up to 100,000 cycles, 1 from 50 million on.
/// Valid for: flanks that may not pit at all.
/// Source: ISO 6336-2:2006, table of ZNT without pitting, published; from memory.
#[must_use]
pub fn flank_life(cycles: Ratio) -> Ratio {
    Ratio::from_si(between(cycles.si(), (1e5, 1.6), (5e7, 1.0)))
}

/// Nominal root strength that lasts, σFlim, of a metal that no table of gears lists: f/(1 + f)·Rm.
///
/// Inputs: tensile strength Rm (Pa); share f of it that alternating bending leaves.
/// Returns: stress (Pa), to be doubled (Y_ST = 2) before it is held against a local stress.
/// Valid for: steels, bronzes and light metals without a hard case.
/// Source: Goodman's line for a load that swells from nothing, halved by the stress correction of the test gear. It gives 310 MPa for
/// 42CrMo4 of 1,000 MPa, where ISO 6336-5 (from memory) has 0.425·HV + 187 = 320 MPa.
#[must_use]
pub fn metal_root_limit(tensile: Pressure, fatigue_share: Ratio) -> Pressure {
    Pressure::from_si(tensile.si() * fatigue_share.si() / (1.0 + fatigue_share.si()))
}

/// Local stress that a root stands, Y_ST·σFlim·YNT.
///
/// Inputs: nominal root strength σFlim (Pa) that lasts; life factor (for polymers: 1, with σFlim for the number of cycles).
/// Returns: stress (Pa), to be held against a stress with its notch counted in.
/// Valid for: fillets about as sharp as the test gear's; Y_ST = 2 is its stress correction.
/// Source: ISO 6336-3:2006 and VDI 2736-2:2014, published.
#[must_use]
pub fn root_strength(nominal: Pressure, life: Ratio) -> Pressure {
    Pressure::from_si(2.0 * nominal.si() * life.si())
}

/// How often a tooth is loaded, n·t.
///
/// Inputs: rotational speed (rad/s); time (s).
/// Returns: a plain number, one load a turn.
/// Valid for: gears with one mate; with k mates k times as often.
/// Source: kinematics.
#[must_use]
pub fn load_cycles(speed: AngularVelocity, time: Time) -> Ratio {
    Ratio::from_si(speed.si().abs() / (2.0 * PI) * time.si())
}

/// Share of its strength that a polymer has left after a number of cycles.
///
/// Inputs: cycles; share that is left after a million.
/// Returns: a share: all of it up to 1,000 cycles, from there straight in both logarithms, beyond a million half as steep.
/// Valid for: any number of cycles. Polymers have no strength that lasts for ever.
/// Source: common practice, no source; the slope beyond a million is that of the root strengths of acetal and polyamide 66 in
/// VDI 2736-2 within a tenth (see the tests).
#[must_use]
pub fn polymer_share(cycles: Ratio, after_a_million: Ratio) -> Ratio {
    let (cycles, share) = (cycles.si(), after_a_million.si());
    if cycles <= 1e6 {
        return Ratio::from_si(between(cycles, (1e3, 1.0), (1e6, share)));
    }
    Ratio::from_si(share * share.powf((cycles / 1e6).log10() / 6.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ratio(of: f64) -> Ratio {
        Ratio::from_si(of)
    }

    #[test]
    fn life_factors_join_their_ends() {
        assert_eq!(root_life(ratio(10.0), Life::Hardened).si(), 2.5);
        assert_eq!(root_life(ratio(1e4), Life::Plain).si(), 2.5);
        assert_eq!(root_life(ratio(1e9), Life::Hardened).si(), 1.0);
        assert!(root_life(ratio(1e5), Life::Hardened) < root_life(ratio(1e5), Life::Plain));
        // Half way in the logarithms: the root of both ends.
        let middle = (1e3f64 * 3e6).sqrt();
        assert!((root_life(ratio(middle), Life::Hardened).si() - 2.5f64.sqrt()).abs() < 1e-12);
        assert_eq!((flank_life(ratio(1.0)).si(), flank_life(ratio(1e8)).si()), (1.6, 1.0));
    }

    #[test]
    fn a_turn_is_a_cycle_and_the_test_gear_doubles() {
        let (turns, hour) = (AngularVelocity::from_si(2.0 * PI * 5.0), Time::from_si(3600.0));
        assert!((load_cycles(turns, hour).si() - 18_000.0).abs() < 1e-6);
        assert_eq!(root_strength(Pressure::from_si(300e6), ratio(1.5)).si(), 900e6);
    }

    #[test]
    fn a_metal_without_a_table_comes_near_to_its_table() {
        // 42CrMo4: HV about Rm/3.2 (ISO 18265) = 312; 0.425·312 + 187 (ISO 6336-5, through-hardened alloy, MQ; from memory).
        let listed = 0.425 * 1000.0 / 3.2 + 187.0;
        let ours = metal_root_limit(Pressure::from_si(1000e6), ratio(0.45)).si() / 1e6;
        assert!((ours / listed - 1.0).abs() < 0.05, "{ours} {listed}");
    }

    #[test]
    fn polymers_tire_as_the_guideline_has_it() {
        let share = |cycles: f64| polymer_share(ratio(cycles), ratio(0.25)).si();
        assert_eq!((share(1.0), share(1e6)), (1.0, 0.25));
        assert!((share(1e6 * 1.000_001) - 0.25).abs() < 1e-5 && share(1e9) < share(1e8));
        // VDI 2736-2, root, from memory. Acetal at 20 °C: 26 − 0.0025·ϑ² + 400·N^−0.2.
        // Polyamide 66: 30 − 0.22·ϑ + (4600 − 900·ϑ^0.3)·N^(−1/3).
        let acetal = |n: f64| 25.0 + 400.0 * n.powf(-0.2);
        let nylon = |n: f64| 25.6 + (4600.0 - 900.0 * 20f64.powf(0.3)) * n.powf(-1.0 / 3.0);
        for published in [acetal(1e8) / acetal(1e6), nylon(1e8) / nylon(1e6)] {
            let ours = share(1e8) / share(1e6);
            assert!((ours / published - 1.0).abs() < 0.12, "{ours} {published}");
        }
    }
}
