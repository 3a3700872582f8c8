//! Round walls under pressure: stress, swelling and collapse of hoses, tubes and printed shells.
//! Pressures are differences between inside and outside. A burst hose sprays hot liquid: shield it, stay clear, and keep
//! to the maker's working pressure.

use crate::range::{OutsideRange, within};
use quantity::*;

/// Hoop stress of a thin wall, σ = p·d / (2·t).
///
/// Inputs: pressure p inside less outside (Pa); bore d (m), a diameter; wall t (m).
/// Returns: tension (Pa).
/// Valid for: walls under a tenth of the bore; thicker: [`bore_stress`].
/// Source: Roark's Formulas for Stress and Strain, 8th edition, table 13.1; published.
#[must_use]
pub fn thin_wall_stress(pressure: Pressure, bore: Length, wall: Length) -> Pressure {
    pressure * (bore / (2.0 * wall))
}

/// Highest hoop stress of a wall of any thickness, at the bore: σ = p·(ro² + ri²) / (ro² − ri²).
///
/// Inputs: pressure p inside less outside (Pa); bore (m), a diameter; wall (m).
/// Returns: tension (Pa), never below p however thick the wall.
/// Valid for: an elastic, even wall. Across the layers of a print compare it with the strength between layers.
/// Source: Lamé; Roark, 8th edition, table 13.5; published.
#[must_use]
pub fn bore_stress(pressure: Pressure, bore: Length, wall: Length) -> Pressure {
    let (inner, outer) = squares(bore, wall);
    Pressure::from_si(pressure.si() * (outer + inner) / (outer - inner))
}

/// Squares of inner and outer radius, m².
fn squares(bore: Length, wall: Length) -> (f64, f64) {
    let (ri, ro) = (bore.si() / 2.0, bore.si() / 2.0 + wall.si());
    (ri * ri, ro * ro)
}

/// Share by which the bore of an elastic hose gains volume under pressure inside:
/// ΔV/V = p/E · (3·(1 − 2ν)·ri² + 2·(1 + ν)·ro²) / (ro² − ri²).
///
/// Inputs: pressure p inside less outside (Pa); bore (m), a diameter; wall (m); modulus E (Pa); Poisson ratio ν.
/// Returns: a share of the volume.
/// Valid for: free length with closed ends, gains of a few per cent; soft hose runs away beyond, a braided one gains less.
/// Source: Lamé; Roark, 8th edition, table 13.5 (2·Δri/ri + Δl/l); published.
#[must_use]
pub fn swelling(pressure: Pressure, bore: Length, wall: Length, modulus: Pressure, poisson: Ratio) -> Ratio {
    let ((inner, outer), nu) = (squares(bore, wall), poisson.si());
    let shape = (3.0 * (1.0 - 2.0 * nu) * inner + 2.0 * (1.0 + nu) * outer) / (outer - inner);
    Ratio::from_si((pressure / modulus).si() * shape)
}

/// Pressure difference from outside at which a long tube folds flat, 2·E/(1 − ν²) · (t/D)³.
///
/// Inputs: bore (m), a diameter; wall t (m), D being the mean diameter; modulus E (Pa); Poisson ratio ν.
/// Returns: pressure (Pa), outside less inside. An oval or bent tube folds at half of it or less (common practice).
/// Valid for: t/D up to 0.1, else refused: a thicker wall yields before it folds. Stiff ends nearby help.
/// Source: Bresse and Bryan; Timoshenko and Gere, Theory of Elastic Stability, ch. 7; published.
pub fn collapse_pressure(
    bore: Length,
    wall: Length,
    modulus: Pressure,
    poisson: Ratio,
) -> Result<Pressure, OutsideRange> {
    let slim = within("wall over mean diameter", "", 0.0, 0.1, (wall / (bore + wall)).si())?;
    Ok(modulus * (2.0 / (1.0 - poisson.si() * poisson.si()) * slim.powi(3)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(value: f64) -> Length {
        Length::from_si(value * 1e-3)
    }

    #[test]
    fn thick_becomes_thin() {
        let p = Pressure::from_si(2e5);
        let ratio = (bore_stress(p, mm(100.0), mm(0.1)) / thin_wall_stress(p, mm(100.0), mm(0.1))).si();
        assert!((ratio - 1.0).abs() < 2e-3);
        // By hand: bore 8, wall 2: (36 + 16)/(36 − 16) = 2.6.
        assert!((bore_stress(p, mm(8.0), mm(2.0)).si() - 5.2e5).abs() < 1e-6);
    }

    #[test]
    fn swelling_of_a_thin_hose_by_hand() {
        // Thin tube with closed ends: hoop strain (1 − ν/2)·pr/(Et), length strain (½ − ν)·pr/(Et).
        let (p, e, nu) = (1e5, 5e6, 0.48);
        let thin = (5.0 - 4.0 * nu) / 2.0 * p / e * 50.0 / 0.05;
        let found = swelling(Pressure::from_si(p), mm(100.0), mm(0.05), Pressure::from_si(e), Ratio::from_si(nu)).si();
        assert!((found / thin - 1.0).abs() < 2e-3);
    }

    #[test]
    fn collapse_by_the_ring_and_refused_when_thick() {
        // Second route: a long tube is a ring of 3·E·I/((1 − ν²)·r³) a length, I = t³/12 a length.
        let (e, nu, t, mean) = (8e6, 0.48, 1.0e-3, 20.0e-3);
        let ring = 3.0 * e / (1.0 - nu * nu) * t * t * t / 12.0 / (mean / 2.0f64).powi(3);
        let found = collapse_pressure(mm(19.0), mm(1.0), Pressure::from_si(e), Ratio::from_si(nu)).unwrap();
        assert!((found.si() / ring - 1.0).abs() < 1e-9);
        assert!(collapse_pressure(mm(6.0), mm(2.0), Pressure::from_si(e), Ratio::from_si(nu)).is_err());
    }
}
