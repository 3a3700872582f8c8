//! Direct stiffness, and which side of their play the seats are pressed to.

#![expect(clippy::indexing_slicing, reason = "places in matrices that are made to size right here")]

use super::solved::{Bending, Reaction, Span};
use super::{Held, Hold, Piece, Push, Unsolved};
use nalgebra::{DMatrix, DVector};
use quantity::*;

/// Stations nearer to one another than this share of the length are one.
const SAME: f64 = 1e-12;

/// A beam cut at its stations; lengths in its own length and stiffness in its highest, so that all numbers are near one.
struct Cut {
    length: f64,
    scale: f64,
    nodes: Vec<f64>,
    /// Stiffness and load per length of each span between two nodes.
    spans: Vec<(f64, f64)>,
    /// At the nodes alone, without what is spread.
    pushed: DVector<f64>,
    /// What is spread, as each span hands it to its two nodes.
    spread: DVector<f64>,
}

/// To which side of its play a seat is pressed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    Below,
    Above,
    Neither,
}

pub(super) fn bend(length: Length, pieces: &[Piece], holds: &[Held], pushes: &[Push]) -> Result<Bending, Unsolved> {
    let cut = Cut::of(length.si(), pieces, holds, pushes)?;
    let tight: Vec<Side> = holds.iter().map(|_| Side::Above).collect();
    if !holds.iter().any(|held| matches!(held.by, Hold::Seat { play, .. } if play.si() > 0.0)) {
        return Ok(cut.bending(holds, &tight, &cut.solve(holds, &tight)?));
    }
    // Pressed as a beam without play would press, then each seat that says otherwise changes sides, the worst first.
    let no_play: Vec<Held> = holds.iter().map(|held| Held { by: without_play(held.by), ..*held }).collect();
    let first = cut.solve(&no_play, &tight)?;
    let pressed = |held: &Held| if cut.sideways(&first, held) >= 0.0 { Side::Above } else { Side::Below };
    let mut sides: Vec<Side> = holds.iter().map(pressed).collect();
    for _ in 0..40 * holds.len() {
        let moved = cut.solve(holds, &sides)?;
        let wrong = holds.iter().zip(&sides).enumerate().filter_map(|(index, (held, side))| {
            let Hold::Seat { play, .. } = held.by else { return None };
            let (v, play) = (cut.sideways(&moved, held), play.si() / cut.length);
            let (by, to) = match side {
                _ if play <= 0.0 => return None,
                Side::Above => (play - v, Side::Neither),
                Side::Below => (play + v, Side::Neither),
                Side::Neither if v > 0.0 => (v - play, Side::Above),
                Side::Neither => (-v - play, Side::Below),
            };
            (by > 1e-12 * play).then_some((index, by, to))
        });
        match wrong.max_by(|a, b| a.1.total_cmp(&b.1)) {
            None => return Ok(cut.bending(holds, &sides, &moved)),
            Some((index, _, to)) => sides.iter_mut().skip(index).take(1).for_each(|side| *side = to),
        }
    }
    Err(Unsolved::Loose)
}

fn without_play(by: Hold) -> Hold {
    match by {
        Hold::Seat { rate, turning, .. } => Hold::Seat { rate, play: Length::ZERO, turning },
        other => other,
    }
}

impl Cut {
    fn of(length: f64, pieces: &[Piece], holds: &[Held], pushes: &[Push]) -> Result<Self, Unsolved> {
        let scale = pieces.iter().map(|piece| piece.stiffness.si()).fold(0.0, f64::max);
        if !(length > 0.0 && length.is_finite() && scale > 0.0 && scale.is_finite()) {
            return Err(Unsolved::Shapeless);
        }
        let mut nodes = vec![0.0, 1.0];
        let mut add = |x: Length| {
            let x = x.si() / length;
            nodes.push(x);
            (-SAME..=1.0 + SAME).contains(&x)
        };
        let mut inside = true;
        for piece in pieces {
            inside &= add(piece.from) & add(piece.to) & (piece.stiffness.si() > 0.0);
        }
        for held in holds {
            inside &= add(held.at);
        }
        for push in pushes {
            inside &= match push {
                Push::Force { at, .. } | Push::Moment { at, .. } => add(*at),
                Push::Spread { from, to, .. } => add(*from) & add(*to),
            };
        }
        if !inside {
            return Err(Unsolved::Shapeless);
        }
        nodes.sort_by(f64::total_cmp);
        nodes.dedup_by(|a, b| (*a - *b).abs() < SAME);
        let mut spans = Vec::new();
        for (left, right) in nodes.iter().zip(nodes.iter().skip(1)) {
            let middle = 0.5 * (left + right) * length;
            let covers = |from: Length, to: Length| from.si() <= middle && middle <= to.si();
            let piece = pieces.iter().find(|piece| covers(piece.from, piece.to)).ok_or(Unsolved::Shapeless)?;
            let spread = pushes.iter().map(|push| match push {
                Push::Spread { from, to, per_length } if covers(*from, *to) => per_length.si(),
                _ => 0.0,
            });
            spans.push((piece.stiffness.si() / scale, spread.sum::<f64>() * length.powi(3) / scale));
        }
        let nothing = DVector::zeros(2 * nodes.len());
        let mut cut = Self { length, scale, pushed: nothing.clone(), spread: nothing, nodes, spans };
        cut.load(pushes);
        Ok(cut)
    }

    /// Forces in units of scale/length², moments of scale/length.
    fn load(&mut self, pushes: &[Push]) {
        for push in pushes {
            match push {
                Push::Force { at, force } => {
                    let node = self.node(*at);
                    self.pushed[2 * node] += force.si() * self.length.powi(2) / self.scale;
                }
                Push::Moment { at, moment } => {
                    let node = self.node(*at);
                    self.pushed[2 * node + 1] += moment.si() * self.length / self.scale;
                }
                Push::Spread { .. } => {}
            }
        }
        let spans: Vec<_> = self.each_span().collect();
        for (node, h, _, w) in spans {
            self.spread[2 * node] += w * h / 2.0;
            self.spread[2 * node + 1] += w * h * h / 12.0;
            self.spread[2 * node + 2] += w * h / 2.0;
            self.spread[2 * node + 3] -= w * h * h / 12.0;
        }
    }

    /// Left node, length, stiffness and load per length of each span.
    fn each_span(&self) -> impl Iterator<Item = (usize, f64, f64, f64)> + '_ {
        let ends = self.nodes.iter().zip(self.nodes.iter().skip(1));
        ends.zip(&self.spans).enumerate().map(|(node, ((left, right), (ei, w)))| (node, right - left, *ei, *w))
    }

    fn node(&self, at: Length) -> usize {
        let x = at.si() / self.length;
        let near = |a: &(usize, &f64), b: &(usize, &f64)| (a.1 - x).abs().total_cmp(&(b.1 - x).abs());
        self.nodes.iter().enumerate().min_by(near).map_or(0, |(node, _)| node)
    }

    fn sideways(&self, moved: &DVector<f64>, held: &Held) -> f64 {
        moved[2 * self.node(held.at)]
    }

    fn stiffness(&self) -> DMatrix<f64> {
        let mut k = DMatrix::zeros(2 * self.nodes.len(), 2 * self.nodes.len());
        for (node, h, ei, _) in self.each_span() {
            let (a, b, c, d) = (12.0 * ei / h.powi(3), 6.0 * ei / h.powi(2), 4.0 * ei / h, 2.0 * ei / h);
            let rows = [[a, b, -a, b], [b, c, -b, d], [-a, -b, a, -b], [b, d, -b, c]];
            for (i, row) in rows.iter().enumerate() {
                for (j, value) in row.iter().enumerate() {
                    k[(2 * node + i, 2 * node + j)] += value;
                }
            }
        }
        k
    }

    /// Sideways movement (in lengths) and slope of each node.
    fn solve(&self, holds: &[Held], sides: &[Side]) -> Result<DVector<f64>, Unsolved> {
        let (mut k, mut f) = (self.stiffness(), &self.pushed + &self.spread);
        let mut fixed = vec![false; f.len()];
        let mut fix = |dof: usize| fixed.iter_mut().skip(dof).take(1).for_each(|fixed| *fixed = true);
        for (held, side) in holds.iter().zip(sides) {
            let node = self.node(held.at);
            match held.by {
                Hold::Pivoted => fix(2 * node),
                Hold::Guided => fix(2 * node + 1),
                Hold::Clamped => {
                    fix(2 * node);
                    fix(2 * node + 1);
                }
                Hold::Seat { rate, play, turning } => {
                    let rate = rate.si() * self.length.powi(3) / self.scale;
                    if *side != Side::Neither {
                        let play = if *side == Side::Above { play.si() } else { -play.si() };
                        k[(2 * node, 2 * node)] += rate;
                        f[2 * node] += rate * play / self.length;
                    }
                    k[(2 * node + 1, 2 * node + 1)] += turning.si() * self.length / self.scale;
                }
            }
        }
        for (dof, _) in fixed.iter().enumerate().filter(|(_, fixed)| **fixed) {
            k.row_mut(dof).fill(0.0);
            k.column_mut(dof).fill(0.0);
            k[(dof, dof)] = 1.0;
            f[dof] = 0.0;
        }
        // Each unknown in a measure of its own, so that short spans beside long ones cost no digits.
        let measure = k.diagonal().map(|d| 1.0 / d.sqrt());
        let even = DMatrix::from_fn(k.nrows(), k.ncols(), |i, j| k[(i, j)] * measure[i] * measure[j]);
        let factors = even.cholesky().ok_or(Unsolved::Loose)?;
        // A beam that nothing holds factorises by the last digits alone.
        if factors.l_dirty().diagonal().iter().any(|pivot| pivot * pivot < 1e-14) {
            return Err(Unsolved::Loose);
        }
        let invert = |f: &DVector<f64>| factors.solve(&f.component_mul(&measure)).component_mul(&measure);
        let mut moved = invert(&f);
        for _ in 0..2 {
            moved += invert(&(&f - &k * &moved));
        }
        if moved.iter().all(|x| x.is_finite()) { Ok(moved) } else { Err(Unsolved::Loose) }
    }

    fn bending(&self, holds: &[Held], sides: &[Side], moved: &DVector<f64>) -> Bending {
        let (force_unit, moment_unit) = (self.scale / self.length.powi(2), self.scale / self.length);
        // What the supports do to each node.
        let held = self.stiffness() * moved - &self.pushed - &self.spread;
        let reaction = |(hold, side): (&Held, &Side)| {
            let node = self.node(hold.at);
            let (force, moment) = (held[2 * node], held[2 * node + 1]);
            let (force, moment) = match hold.by {
                Hold::Pivoted => (force, 0.0),
                Hold::Guided => (0.0, moment),
                Hold::Clamped => (force, moment),
                Hold::Seat { .. } if *side == Side::Neither => (0.0, moment),
                Hold::Seat { .. } => (force, moment),
            };
            Reaction { force: Force::from_si(force * force_unit), moment: Torque::from_si(moment * moment_unit) }
        };
        let reactions: Vec<Reaction> = holds.iter().zip(sides).map(reaction).collect();
        // Shear and moment by statics from the left end, so that they close with the reactions.
        let acting = &self.pushed + &held;
        let (mut shear, mut moment) = (0.0, 0.0);
        let mut spans = Vec::new();
        for ((node, h, ei, w), x) in self.each_span().zip(&self.nodes) {
            shear += acting[2 * node];
            moment -= acting[2 * node + 1];
            spans.push(Span {
                from: x * self.length,
                length: h * self.length,
                stiffness: ei * self.scale,
                spread: w * self.scale / self.length.powi(3),
                deflection: moved[2 * node] * self.length,
                slope: moved[2 * node + 1],
                moment: moment * moment_unit,
                shear: shear * force_unit,
            });
            moment += h * (shear + w * h / 2.0);
            shear += w * h;
        }
        Bending { spans, reactions }
    }
}
