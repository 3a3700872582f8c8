//! The second route to the collapse of a thick hose: when a squeezed tube of incompressible rubber may go oval, by exact
//! incremental elasticity in the plane, integrated over the wall. No formula of the crate is used.

use super::*;

/// Undeformed radii, with a mean diameter of 1 and a shear modulus of 1.
struct Tube {
    inner: f64,
    outer: f64,
}

const STEPS: u32 = 100;
/// Folding flat: two waves round the ring.
const WAVES: f64 = 2.0;

impl Tube {
    /// Stretch round the ring at a radius, where the bore has shrunk to `bore`: rubber keeps its volume.
    fn stretch(&self, bore: f64, r: f64) -> f64 {
        r / (r * r - bore * bore + self.inner * self.inner).sqrt()
    }

    fn slope(&self, bore: f64, r: f64) -> f64 {
        let square = self.stretch(bore, r).powi(2);
        (square - 1.0 / square) / r
    }

    /// What is left over at the outer surface when the tube is made oval, and the pressure there. Zero: it may be oval.
    fn left_over(&self, bore: f64) -> (f64, f64) {
        let outside = (bore * bore + self.outer * self.outer - self.inner * self.inner).sqrt();
        let h = (outside - bore) / f64::from(STEPS);
        let (mut one, mut other, mut radial) = ([1.0, 0.0, 0.0, 0.0], [0.0, 1.0, 0.0, 0.0], 0.0);
        for step in 0..STEPS {
            let r = bore + f64::from(step) * h;
            let f = [r, r + h / 2.0, r + h].map(|r| self.slope(bore, r));
            let middle = radial + h / 24.0 * (5.0 * f[0] + 8.0 * f[1] - f[2]);
            let end = radial + h / 6.0 * (f[0] + 4.0 * f[1] + f[2]);
            for state in [&mut one, &mut other] {
                let add = |by: f64, k: [f64; 4]| std::array::from_fn(|i| state[i] + by * k[i]);
                let a = self.change(bore, r, radial, *state);
                let b = self.change(bore, r + h / 2.0, middle, add(h / 2.0, a));
                let c = self.change(bore, r + h / 2.0, middle, add(h / 2.0, b));
                let d = self.change(bore, r + h, end, add(h, c));
                *state = std::array::from_fn(|i| state[i] + h / 6.0 * (a[i] + 2.0 * b[i] + 2.0 * c[i] + d[i]));
            }
            radial = end;
        }
        let pressure = -radial;
        let ends = [one, other].map(|[u, v, normal, shear]| {
            let stretched = -(u + WAVES * v) / outside;
            (normal - pressure * stretched, shear - pressure * (-WAVES * u - v) / outside)
        });
        (ends[0].0 * ends[1].1 - ends[0].1 * ends[1].0, pressure)
    }

    /// Displacements u·cos 2θ, v·sin 2θ and the nominal tractions that belong to them, along the radius.
    fn change(&self, bore: f64, r: f64, radial: f64, [u, v, normal, shear]: [f64; 4]) -> [f64; 4] {
        let round = self.stretch(bore, r).powi(2);
        let across = 1.0 / round;
        let p = across - radial;
        let (du, turned) = (-(u + WAVES * v) / r, (-WAVES * u - v) / r);
        let dv = (shear - p * turned) / across;
        let q = (across + p) * du - normal;
        let hoop = (round + p) * (u + WAVES * v) / r - q;
        let cross = round * turned + p * dv;
        [du, dv, -(WAVES * cross + normal - hoop) / r, -(-WAVES * hoop + shear + cross) / r]
    }

    /// Collapse pressure over the shear modulus.
    fn collapse(&self) -> f64 {
        let at = |share: f64| self.left_over(self.inner * share);
        let (mut whole, mut folded) = (1.0 - 1e-6, 1.0 - 1e-6);
        let start = at(whole).0;
        while at(folded).0 * start > 0.0 {
            whole = folded;
            folded -= 2e-3;
        }
        for _ in 0..40 {
            let middle = 0.5 * (whole + folded);
            if at(middle).0 * start > 0.0 { whole = middle } else { folded = middle }
        }
        at(whole).1
    }
}

#[test]
fn the_ring_formula_lies_on_the_safe_side_of_exact_theory() {
    // Incompressible: E = 3·G, Poisson ratio 1/2.
    let (e, nu) = (Pressure::from_si(3.0), Ratio::from_si(0.5));
    for (slim, above) in [(0.01, 1.010), (0.05, 1.055), (0.1, 1.122), (0.14, 1.184), (0.2, 1.291), (0.3, 1.485)] {
        let exact = Tube { inner: 0.5 * (1.0 - slim), outer: 0.5 * (1.0 + slim) }.collapse();
        let ours = ring_collapse(Length::from_si(1.0 - slim), Length::from_si(slim), e, nu).unwrap().si();
        assert!((exact / ours / above - 1.0).abs() < 2e-3, "t/D {slim}: {}", exact / ours);
    }
}
