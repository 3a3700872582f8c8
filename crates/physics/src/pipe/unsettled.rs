//! Friction where a flow may be smooth or swirl: the safe side of what is published.

use super::friction_and_exponent;
use std::f64::consts::LN_10;

/// Where the first of the published tables lets a smooth pipe's flow swirl.
pub const FIRST_SWIRL: f64 = 2040.0;
/// From here up to [`FIRST_SWIRL`] we let friction rise from the one to the other, so that no flow is left out.
const STILL_SMOOTH: f64 = 1900.0;
/// Where all of them do; from here on they part by 3 % at most.
pub const ALL_SWIRL: f64 = 4000.0;

/// Highest Darcy friction factor that is published for a pipe, and by which power of the Reynolds number it changes.
///
/// Inputs: Reynolds number; roughness over diameter.
/// Returns: two plain numbers, as [`friction_and_exponent`]. Between 2040 and 4000, where tables part by up
/// to 70 %, the greater of Colebrook's and Churchill's, so that a loop gets rather less flow than more; elsewhere Churchill's.
/// Just below 2040 it rises in a straight line of both logarithms to what it is there: a real flow jumps to and fro.
/// Valid for: all Re above 0.
/// Source: Colebrook, J. Institution of Civil Engineers 11 (1939) 133, from Re 2040 on as in the open-source library fluids
/// 1.3.1; Churchill, Chem. Eng. 84 (1977) 91; published. The rise from 1900 to 2040: ours.
#[must_use]
pub fn highest_friction(reynolds: f64, roughness: f64) -> (f64, f64) {
    if !(STILL_SMOOTH..ALL_SWIRL).contains(&reynolds) {
        return friction_and_exponent(reynolds, roughness);
    }
    if reynolds < FIRST_SWIRL {
        let (low, high) = (friction_and_exponent(STILL_SMOOTH, roughness).0, colebrook(FIRST_SWIRL, roughness).0);
        let power = (high / low).ln() / (FIRST_SWIRL / STILL_SMOOTH).ln();
        return (low * (reynolds / STILL_SMOOTH).powf(power), power);
    }
    let (one, other) = (colebrook(reynolds, roughness), friction_and_exponent(reynolds, roughness));
    if one.0 > other.0 { one } else { other }
}

/// Colebrook's factor, 1/√f = −2·log(ε/3.7 + 2.51/(Re·√f)), and its power of Re.
fn colebrook(reynolds: f64, roughness: f64) -> (f64, f64) {
    let (a, rough, k) = (2.0 / LN_10, roughness / 3.7, 2.51 / reynolds);
    // Haaland's explicit form is near enough for Newton's steps to end in the last digits.
    let mut x = -1.8 * (rough.powf(1.11) + 6.9 / reynolds).log10();
    for _ in 0..3 {
        x -= (x + a * (rough + k * x).ln()) / (1.0 + a * k / (rough + k * x));
    }
    let share = a * k / (rough + k * x);
    (1.0 / (x * x), -2.0 * share / (1.0 + share))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_has_no_jump_but_the_known_one_and_more_flow_never_loses_less() {
        let mut before = 0.0;
        for step in 0..6000 {
            let re = 800.0 + f64::from(step);
            let (f, power) = highest_friction(re, 0.0);
            assert!(f * re * re > before, "Re {re}");
            before = f * re * re;
            let slope = (highest_friction(re * 1.000_001, 0.0).0 / highest_friction(re / 1.000_001, 0.0).0).ln();
            let off = power - slope / (2.0 * 1.000_001f64.ln());
            // At the corners the slope itself jumps.
            let corner = [STILL_SMOOTH, FIRST_SWIRL, ALL_SWIRL].iter().any(|at| (re - at).abs() < 2.0);
            assert!(corner || off.abs() < 0.02 || (3100.0..3300.0).contains(&re), "Re {re}: {off}");
        }
        for at in [STILL_SMOOTH, FIRST_SWIRL, ALL_SWIRL] {
            assert!(
                (highest_friction(at - 1e-7, 0.0).0 / highest_friction(at + 1e-7, 0.0).0 - 1.0).abs() < 1e-6,
                "{at}"
            );
        }
    }
}
