//! At which speed a shaft begins to whirl.

#![expect(clippy::indexing_slicing, reason = "places in matrices that are made to size right here")]

use crate::beam::stations::{Held, Hold, Piece, Push, Unsolved, bend};
use nalgebra::{DMatrix, DVector};
use quantity::*;
use std::f64::consts::PI;

/// A disc on the shaft: its mass counts, that it resists tilting does not.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Disc {
    pub at: Length,
    pub mass: Mass,
}

/// A round piece of shaft, for its own mass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bar {
    pub piece: Piece,
    pub mass_per_length: LinearMassDensity,
}

/// A bar of full or hollow round section.
#[must_use]
pub fn bar(from: Length, to: Length, outer: Length, bore: Length, modulus: Pressure, density: MassDensity) -> Bar {
    let (o, i) = (outer.si(), bore.si());
    let stiffness = BendingStiffness::from_si(modulus.si() * PI / 64.0 * (o.powi(4) - i.powi(4)));
    let mass_per_length = LinearMassDensity::from_si(density.si() * PI / 4.0 * (o * o - i * i));
    Bar { piece: Piece { from, to, stiffness }, mass_per_length }
}

/// How far each disc's place gives way under one newton at each disc.
fn flexibility(length: Length, bars: &[Bar], holds: &[Held], discs: &[Disc]) -> Result<DMatrix<f64>, Unsolved> {
    let pieces: Vec<Piece> = bars.iter().map(|bar| bar.piece).collect();
    let mut flexibility = DMatrix::zeros(discs.len(), discs.len());
    for (j, loaded) in discs.iter().enumerate() {
        let push = Push::Force { at: loaded.at, force: Force::from_si(1.0) };
        let bent = bend(length, &pieces, holds, &[push])?;
        for (i, disc) in discs.iter().enumerate() {
            flexibility[(i, j)] = bent.at(disc.at).deflection.si();
        }
    }
    Ok(flexibility)
}

/// First critical speed of the discs alone on a shaft without mass, by Dunkerley's sum, 1/ω² = Σ mᵢ·δᵢᵢ.
///
/// Inputs: length (m); bars; what holds the shaft; discs.
/// Returns: speed; infinite without a disc.
/// Valid for: as a lower bound, so on the safe side; no play, no gyroscopic effect (which raises the speed of a disc that tilts).
/// Source: Dunkerley; Shigley, ch. 7, eq. 7-32; published.
///
/// # Errors
/// A shaft that nothing holds, or without shape.
pub fn dunkerley(length: Length, bars: &[Bar], holds: &[Held], discs: &[Disc]) -> Result<AngularVelocity, Unsolved> {
    let flexibility = flexibility(length, bars, holds, discs)?;
    let sum: f64 = discs.iter().enumerate().map(|(i, disc)| disc.mass.si() * flexibility[(i, i)]).sum();
    Ok(AngularVelocity::from_si(1.0 / sum.sqrt()))
}

/// First critical speed of the discs alone, exact: from the largest eigenvalue of flexibility times mass.
///
/// Inputs, validity: as [`dunkerley`], of which it is never less.
/// Returns: speed.
/// Source: Shigley, ch. 7, eq. 7-26; published.
///
/// # Errors
/// A shaft that nothing holds, or without shape.
pub fn of_discs(length: Length, bars: &[Bar], holds: &[Held], discs: &[Disc]) -> Result<AngularVelocity, Unsolved> {
    let flexibility = flexibility(length, bars, holds, discs)?;
    let roots = DVector::from_iterator(discs.len(), discs.iter().map(|disc| disc.mass.si().sqrt()));
    let even = DMatrix::from_fn(discs.len(), discs.len(), |i, j| {
        roots[i] * roots[j] * (flexibility[(i, j)] + flexibility[(j, i)]) / 2.0
    });
    let largest = even.symmetric_eigenvalues().iter().copied().fold(0.0, f64::max);
    Ok(AngularVelocity::from_si(1.0 / largest.sqrt()))
}

/// Critical speed of several things together from those of each alone, 1/ω² = Σ 1/ωᵢ².
///
/// Inputs: speeds.
/// Returns: speed, never more than the lowest of them.
/// Valid for: as a lower bound.
/// Source: Dunkerley; published.
#[must_use]
pub fn together(speeds: &[AngularVelocity]) -> AngularVelocity {
    AngularVelocity::from_si(speeds.iter().map(|speed| speed.si().powi(-2)).sum::<f64>().powf(-0.5))
}

/// First critical speed of discs and the shaft's own mass.
///
/// Inputs: length (m); bars with their mass; what holds the shaft (play in a seat is left out); discs; elements along the
/// shaft.
/// Returns: speed.
/// Valid for: slender shafts, no gyroscopic effect. Of the first speed cubic shapes miss (β·h)⁴/1440: with forty elements 3e-8 on simple
/// ends and 1.4e-7 clamped, with eight 2e-5 and 8e-5.
/// Source: beam elements with consistent mass; Przemieniecki, Theory of Matrix Structural Analysis; published.
///
/// # Errors
/// A shaft that nothing holds, or without shape.
pub fn of_shaft(
    length: Length,
    bars: &[Bar],
    holds: &[Held],
    discs: &[Disc],
    elements: u32,
) -> Result<AngularVelocity, Unsolved> {
    let total = length.si();
    if !(total > 0.0 && total.is_finite()) {
        return Err(Unsolved::Shapeless);
    }
    let mut nodes: Vec<f64> = (0..=elements).map(|i| f64::from(i) / f64::from(elements)).collect();
    nodes.extend(bars.iter().flat_map(|bar| [bar.piece.from.si() / total, bar.piece.to.si() / total]));
    nodes.extend(holds.iter().map(|held| held.at.si() / total));
    nodes.extend(discs.iter().map(|disc| disc.at.si() / total));
    if nodes.iter().any(|x| !(*x >= -1e-12 && *x <= 1.0 + 1e-12)) {
        return Err(Unsolved::Shapeless);
    }
    nodes.sort_by(f64::total_cmp);
    // A sliver between an even node and a station would cost digits.
    let kept: Vec<f64> = bars
        .iter()
        .flat_map(|bar| [bar.piece.from.si() / total, bar.piece.to.si() / total])
        .chain(holds.iter().map(|held| held.at.si() / total))
        .chain(discs.iter().map(|disc| disc.at.si() / total))
        .collect();
    let is_station = |x: f64| kept.iter().any(|station| (station - x).abs() < 1e-12);
    nodes.retain(|x| is_station(*x) || *x <= 0.0 || *x >= 1.0 || kept.iter().all(|s| (s - x).abs() > 2e-3));
    nodes.dedup_by(|a, b| (*a - *b).abs() < 1e-12);
    let system = System::of(total, &nodes, bars, holds, discs)?;
    system.first().map(AngularVelocity::from_si)
}

struct System {
    stiffness: DMatrix<f64>,
    mass: DMatrix<f64>,
    /// ω² in these numbers times this is ω² in 1/s².
    unit: f64,
}

impl System {
    fn of(total: f64, nodes: &[f64], bars: &[Bar], holds: &[Held], discs: &[Disc]) -> Result<Self, Unsolved> {
        let scale = bars.iter().map(|bar| bar.piece.stiffness.si()).fold(0.0, f64::max);
        let heaviest = bars.iter().map(|bar| bar.mass_per_length.si()).fold(0.0, f64::max) * total
            + discs.iter().map(|disc| disc.mass.si()).sum::<f64>();
        if !(scale > 0.0 && heaviest > 0.0) {
            return Err(Unsolved::Shapeless);
        }
        let size = 2 * nodes.len();
        let (mut stiffness, mut mass) = (DMatrix::zeros(size, size), DMatrix::zeros(size, size));
        for (node, (left, right)) in nodes.iter().zip(nodes.iter().skip(1)).enumerate() {
            let (h, middle) = (right - left, 0.5 * (left + right) * total);
            let here = bars.iter().find(|bar| bar.piece.from.si() <= middle && middle <= bar.piece.to.si());
            let bar = here.ok_or(Unsolved::Shapeless)?;
            let ei = bar.piece.stiffness.si() / scale;
            let (a, b, c, d) = (12.0 * ei / h.powi(3), 6.0 * ei / h.powi(2), 4.0 * ei / h, 2.0 * ei / h);
            let m = bar.mass_per_length.si() * total / heaviest * h / 420.0;
            let rows = [[a, b, -a, b], [b, c, -b, d], [-a, -b, a, -b], [b, d, -b, c]];
            let masses = [
                [156.0, 22.0 * h, 54.0, -13.0 * h],
                [22.0 * h, 4.0 * h * h, 13.0 * h, -3.0 * h * h],
                [54.0, 13.0 * h, 156.0, -22.0 * h],
                [-13.0 * h, -3.0 * h * h, -22.0 * h, 4.0 * h * h],
            ];
            for (i, (row, inertia)) in rows.iter().zip(&masses).enumerate() {
                for (j, (k, w)) in row.iter().zip(inertia).enumerate() {
                    stiffness[(2 * node + i, 2 * node + j)] += k;
                    mass[(2 * node + i, 2 * node + j)] += m * w;
                }
            }
        }
        let near = |x: Length| {
            let x = x.si() / total;
            let by = |a: &(usize, &f64), b: &(usize, &f64)| (a.1 - x).abs().total_cmp(&(b.1 - x).abs());
            nodes.iter().enumerate().min_by(by).map_or(0, |(node, _)| node)
        };
        for disc in discs {
            let node = near(disc.at);
            mass[(2 * node, 2 * node)] += disc.mass.si() / heaviest;
        }
        for held in holds {
            let node = near(held.at);
            let mut fix = |dof: usize| {
                stiffness.row_mut(dof).fill(0.0);
                stiffness.column_mut(dof).fill(0.0);
                stiffness[(dof, dof)] = 1.0;
                mass.row_mut(dof).fill(0.0);
                mass.column_mut(dof).fill(0.0);
            };
            match held.by {
                Hold::Pivoted => fix(2 * node),
                Hold::Guided => fix(2 * node + 1),
                Hold::Clamped => {
                    fix(2 * node);
                    fix(2 * node + 1);
                }
                Hold::Seat { rate, turning, .. } => {
                    stiffness[(2 * node, 2 * node)] += rate.si() * total.powi(3) / scale;
                    stiffness[(2 * node + 1, 2 * node + 1)] += turning.si() * total / scale;
                }
            }
        }
        Ok(Self { stiffness, mass, unit: scale / total.powi(3) / heaviest })
    }

    /// By inverse iteration; Rayleigh's quotient is right to the square of the shape's error.
    fn first(&self) -> Result<f64, Unsolved> {
        let measure = self.stiffness.diagonal().map(|d| 1.0 / d.sqrt());
        let even =
            DMatrix::from_fn(measure.len(), measure.len(), |i, j| self.stiffness[(i, j)] * measure[i] * measure[j]);
        let factors = even.cholesky().ok_or(Unsolved::Loose)?;
        if factors.l_dirty().diagonal().iter().any(|pivot| pivot * pivot < 1e-14) {
            return Err(Unsolved::Loose);
        }
        let mut shape = DVector::from_fn(measure.len(), |i, _| if i % 2 == 0 { 1.0 + 0.3 * i as f64 } else { 0.0 });
        let mut before = 0.0;
        for _ in 0..2000 {
            let moved = &self.mass * &shape;
            let next = factors.solve(&moved.component_mul(&measure)).component_mul(&measure);
            let inertia = next.dot(&(&self.mass * &next));
            let square = next.dot(&moved) / inertia;
            if !square.is_finite() {
                return Err(Unsolved::Shapeless);
            }
            shape = next / inertia.sqrt();
            if (square - before).abs() < 1e-13 * square {
                return Ok((square * self.unit).sqrt());
            }
            before = square;
        }
        Ok((before * self.unit).sqrt())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn m(x: f64) -> Length {
        Length::from_si(x)
    }

    fn shaft() -> [Bar; 1] {
        [bar(m(0.0), m(0.4), m(0.012), m(0.0), Pressure::from_si(206e9), MassDensity::from_si(7850.0))]
    }

    fn ends(by: Hold) -> [Held; 2] {
        [Held { at: m(0.0), by }, Held { at: m(0.4), by }]
    }

    #[test]
    fn a_bare_shaft_by_the_closed_form() {
        let [bar] = shaft();
        let per_length = (bar.piece.stiffness.si() / bar.mass_per_length.si()).sqrt();
        let simple = of_shaft(m(0.4), &[bar], &ends(Hold::Pivoted), &[], 40).unwrap().si();
        assert!((simple / ((PI / 0.4).powi(2) * per_length) - 1.0).abs() < 1e-7);
        // Clamped at both ends: 22.3733 in place of π².
        let fixed = of_shaft(m(0.4), &[bar], &ends(Hold::Clamped), &[], 40).unwrap().si();
        assert!((fixed / (22.373_285_5 / 0.16 * per_length) - 1.0).abs() < 2e-7);
        let coarse = of_shaft(m(0.4), &[bar], &ends(Hold::Clamped), &[], 8).unwrap().si();
        assert!(coarse > fixed && coarse / fixed - 1.0 < 1e-4);
    }

    #[test]
    fn one_disc_is_a_mass_on_a_spring_and_dunkerley_is_the_lower_bound() {
        let disc = |at, mass| Disc { at: m(at), mass: Mass::from_si(mass) };
        let one = [disc(0.2, 0.5)];
        let rate = 48.0 * shaft()[0].piece.stiffness.si() / 0.4f64.powi(3);
        let alone = of_discs(m(0.4), &shaft(), &ends(Hold::Pivoted), &one).unwrap().si();
        assert!((alone / (rate / 0.5).sqrt() - 1.0).abs() < 1e-9);
        let three = [disc(0.1, 0.5), disc(0.25, 0.3), disc(0.33, 1.1)];
        let exact = of_discs(m(0.4), &shaft(), &ends(Hold::Pivoted), &three).unwrap();
        let lower = dunkerley(m(0.4), &shaft(), &ends(Hold::Pivoted), &three).unwrap();
        assert!(lower < exact && lower.si() > 0.8 * exact.si());
        let whole = of_shaft(m(0.4), &shaft(), &ends(Hold::Pivoted), &three, 40).unwrap();
        let bare = of_shaft(m(0.4), &shaft(), &ends(Hold::Pivoted), &[], 40).unwrap();
        assert!(together(&[exact, bare]) <= whole && whole < exact);
    }

    #[test]
    fn soft_seats_lower_it() {
        let seat = |rate| Hold::Seat { rate: SpringRate::from_si(rate), play: Length::ZERO, turning: Torque::ZERO };
        let speed = |rate| of_shaft(m(0.4), &shaft(), &ends(seat(rate)), &[], 40).unwrap().si();
        assert!(speed(1e4) < speed(1e5) && speed(1e5) < speed(1e6));
        let rigid = of_shaft(m(0.4), &shaft(), &ends(Hold::Pivoted), &[], 40).unwrap().si();
        assert!((speed(1e12) / rigid - 1.0).abs() < 1e-5);
        let free = [Held { at: m(0.0), by: Hold::Pivoted }];
        assert_eq!(of_shaft(m(0.4), &shaft(), &free, &[], 40), Err(Unsolved::Loose));
    }
}
