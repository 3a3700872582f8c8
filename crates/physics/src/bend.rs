//! Bent hoses: how they flatten, and when they kink. Radii are those of the centre line.

use crate::range::{OutsideRange, within};
use quantity::*;

/// Square of the mean radius over the wall, m.
fn breadth(bore: Length, wall: Length) -> f64 {
    let mean = (bore.si() + wall.si()) / 2.0;
    mean * mean / wall.si()
}

/// Share of its mean radius by which a bent tube flattens on either side, ζ = (r²/(t·R))²·(1 − ν²).
///
/// Inputs: bore (m), a diameter; wall t (m), r being the mean radius; bend radius R (m); Poisson ratio ν.
/// Returns: a share; 2/9 at the kink.
/// Valid for: long bends of thin elastic tubes, up to the kink. The sharp ends of a short bend hold it open.
/// Source: Brazier, Proc. Royal Society A 116 (1927) 104; Calladine, Theory of Shell Structures, ch. 16; published.
#[must_use]
pub fn flattening(bore: Length, wall: Length, bend: Length, poisson: Ratio) -> Ratio {
    let curved = breadth(bore, wall) / bend.si();
    Ratio::from_si(curved * curved * (1.0 - poisson.si() * poisson.si()))
}

/// Tightest bend radius of a hose without insert: where it has flattened so far that it bends on by itself,
/// R = 3/√2 · r²/t · √(1 − ν²).
///
/// Inputs: bore (m), a diameter; wall t (m), r being the mean radius; Poisson ratio ν.
/// Returns: radius (m).
/// Valid for: elastic hoses (rubber, soft plastic) with r/t from 1.5 to 20, else refused: thicker ones hardly flatten,
/// thinner ones wrinkle sooner. A wall as thick as a fifth of the bore and more flattens less than a thin one: safe side.
/// Vacuum inside and a bend that was set elsewhere kink it sooner. A stiff plastic yields instead: not for PTFE and PA.
/// Source: as [`flattening`].
///
/// ```
/// use quantity::{Length, Quantity, Ratio};
/// let (bore, wall) = (Length::from_si(6e-3), Length::from_si(1.5e-3));
/// let kinks = physics::bend::kink_radius(bore, wall, Ratio::from_si(0.5)).unwrap();
/// assert!((kinks.si() - 17.223e-3).abs() < 1e-6); // 2.1213 · 3.75²/1.5 · 0.8660
/// ```
pub fn kink_radius(bore: Length, wall: Length, poisson: Ratio) -> Result<Length, OutsideRange> {
    within("mean radius over wall", "", 1.5, 20.0, (bore.si() + wall.si()) / (2.0 * wall.si()))?;
    let nu = poisson.si();
    Ok(Length::from_si(3.0 / std::f64::consts::SQRT_2 * breadth(bore, wall) * (1.0 - nu * nu).sqrt()))
}

/// Stretch of the outermost fibre of a bend, half the outer diameter over the radius.
///
/// Inputs: bore (m), a diameter; wall (m); bend radius (m).
/// Returns: a share of the length.
/// Valid for: before it flattens, which lowers it.
/// Source: plane sections stay plane; Euler and Bernoulli.
#[must_use]
pub fn outer_stretch(bore: Length, wall: Length, bend: Length) -> Ratio {
    (bore / 2.0 + wall) / bend
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(value: f64) -> Length {
        Length::from_si(value * 1e-3)
    }

    #[test]
    fn the_kink_is_where_the_moment_is_highest() {
        // Second route: for each curvature the flattening with the least energy, by trying; the moment is its slope.
        let nu: f64 = 0.48;
        let (bore, wall) = (mm(20.0), mm(1.0));
        let (r, t) = (10.5e-3, 1.0e-3);
        // A ring pushed in by ζ·r·cos 2θ without stretching, over E: I falls by 1 − 3ζ/2, its wall takes
        // 3·π·t³·ζ²/(8·(1 − ν²)·r) a length.
        let energy = |curvature: f64, zeta: f64| {
            let along = 0.5 * std::f64::consts::PI * r * r * r * t * curvature * curvature * (1.0 - 1.5 * zeta);
            let round = 3.0 * std::f64::consts::PI * t * t * t * zeta * zeta / (8.0 * (1.0 - nu * nu) * r);
            along + round
        };
        let least = |curvature: f64| {
            (0..6600).map(|step| energy(curvature, f64::from(step) * 1e-4)).fold(f64::INFINITY, f64::min)
        };
        let curvatures: Vec<f64> = (1..260).map(|step| f64::from(step) * 0.03).collect();
        let moments: Vec<(f64, f64)> = curvatures
            .windows(2)
            .map(|pair| (0.5 * (pair[0] + pair[1]), (least(pair[1]) - least(pair[0])) / (pair[1] - pair[0])))
            .collect();
        let highest = moments.iter().max_by(|a, b| a.1.total_cmp(&b.1)).unwrap();
        let kink = kink_radius(bore, wall, Ratio::from_si(nu)).unwrap().si();
        assert!((1.0 / highest.0 / kink - 1.0).abs() < 0.03, "{} {kink}", 1.0 / highest.0);
        let flat = flattening(bore, wall, Length::from_si(kink), Ratio::from_si(nu)).si();
        assert!((flat - 2.0 / 9.0).abs() < 1e-12);
    }

    #[test]
    fn more_wall_and_less_bore_bend_tighter() {
        let at = |bore, wall| kink_radius(mm(bore), mm(wall), Ratio::from_si(0.49)).unwrap().si();
        assert!(at(6.0, 1.5) < at(6.0, 1.0) && at(6.0, 1.5) < at(8.0, 1.5));
        // The same shape twice as large: twice the radius.
        assert!((at(12.0, 3.0) / at(6.0, 1.5) - 2.0).abs() < 1e-12);
    }

    #[test]
    fn neither_rods_nor_foil() {
        let refused = |bore, wall| kink_radius(mm(bore), mm(wall), Ratio::from_si(0.49)).is_err();
        assert!(refused(3.0, 2.0) && refused(100.0, 1.0) && !refused(6.0, 1.0));
        assert!((outer_stretch(mm(6.0), mm(1.5), mm(22.5)).si() - 0.2).abs() < 1e-12);
    }
}
