//! How a body cools: all at once, or from its faces inward.

use quantity::*;
use std::f64::consts::{FRAC_PI_2, PI};

/// Time in which a body covers 63 % of the way, heat capacity over conductance.
///
/// Inputs: heat capacity (J/K), mass times specific heat; conductance (W/K) to what is around it.
/// Returns: time (s).
/// Valid for: a body of one temperature, see [`biot`].
/// Source: Bergman and others, Introduction to Heat Transfer, 6th edition, ch. 5; published.
#[must_use]
pub fn time_constant(capacity: HeatCapacity, conductance: ThermalConductance) -> Time {
    Time::from_si(capacity.si() / conductance.si())
}

/// Temperature of a body that cools or warms as one, Tₒ + (T − Tₒ)·e^(−t/τ).
///
/// Inputs: temperature T (K) at first; that around it, Tₒ (K); time t (s); time constant τ (s).
/// Returns: temperature (K).
/// Valid for: [`biot`] under 0.1; else the core lags, see [`slab_centre`].
/// Source: Bergman, ch. 5; published.
#[must_use]
pub fn lumped(
    first: ThermodynamicTemperature,
    around: ThermodynamicTemperature,
    time: Time,
    time_constant: Time,
) -> ThermodynamicTemperature {
    let left = (-(time / time_constant).si()).exp();
    ThermodynamicTemperature::from_si(around.si() + (first.si() - around.si()) * left)
}

/// Time until a body that cools or warms as one has reached a temperature: [`lumped`] turned round.
///
/// Inputs: as there, with the temperature reached (K) in place of the time.
/// Returns: time (s), or nothing if it never gets there.
/// Valid for: as there.
/// Source: as there.
#[must_use]
pub fn lumped_time(
    first: ThermodynamicTemperature,
    around: ThermodynamicTemperature,
    reached: ThermodynamicTemperature,
    time_constant: Time,
) -> Option<Time> {
    let ratio = (first.si() - around.si()) / (reached.si() - around.si());
    (ratio >= 1.0 && ratio.is_finite()).then(|| time_constant * ratio.ln())
}

/// Biot number h·L / k: resistance inside over resistance at the surface.
///
/// Inputs: heat transfer coefficient h (W/(m²·K)); L (m), half the thickness of a slab cooled on both faces or all of
/// one cooled on one face; thermal conductivity k of the body (W/(m·K)).
/// Returns: a plain number; below 0.1 the body has one temperature within 5 %.
/// Valid for: any.
/// Source: definition; Bergman, ch. 5.
#[must_use]
pub fn biot(coefficient: HeatTransfer, half_thickness: Length, conductivity: ThermalConductivity) -> f64 {
    coefficient.si() * half_thickness.si() / conductivity.si()
}

/// Fourier number k·t / (ρ·cp·L²): time, counted in the time that heat needs to cross.
///
/// Inputs: time t (s); L (m) as in [`biot`]; thermal conductivity k (W/(m·K)), density ρ (kg/m³) and specific heat
/// capacity cp (J/(kg·K)) of the body.
/// Returns: a plain number.
/// Valid for: any.
/// Source: definition; Bergman, ch. 5.
#[must_use]
pub fn fourier(
    time: Time,
    half_thickness: Length,
    conductivity: ThermalConductivity,
    density: MassDensity,
    heat_capacity: SpecificHeatCapacity,
) -> f64 {
    conductivity.si() * time.si() / (density.si() * heat_capacity.si() * half_thickness.si().powi(2))
}

/// Difference left in the middle of a slab suddenly put into other surroundings, over the first difference.
///
/// Inputs: Biot and Fourier number, both on half the thickness.
/// Returns: a share, 1 at first to 0 in the end.
/// Valid for: slabs wide against their thickness; Fo from 0.001, below which it is 1. Bi up to 10⁶ (a wall held at its
/// temperature).
/// Source: the exact series, Bergman, ch. 5; published.
#[must_use]
pub fn slab_centre(biot: f64, fourier: f64) -> f64 {
    Slab::new(biot).centre(fourier)
}

/// Difference left in the mean over a slab: the share of its heat that is still to go.
///
/// Inputs: as [`slab_centre`].
/// Returns: a share, 1 at first to 0 in the end.
/// Valid for: as there, at any Fo within half a per cent of the first difference.
/// Source: as there, averaged over the thickness.
#[must_use]
pub fn slab_mean(biot: f64, fourier: f64) -> f64 {
    Slab::new(biot).mean(fourier)
}

/// A slab's series, worked out once for all times.
#[derive(Debug, Clone)]
pub(super) struct Slab {
    /// Roots of ζ·tan ζ = Bi, and the weight of each.
    terms: [(f64, f64); TERMS],
}

const TERMS: usize = 40;

impl Slab {
    pub(super) fn new(biot: f64) -> Self {
        let mut terms = [(0.0, 0.0); TERMS];
        let mut from = 0.0;
        for term in &mut terms {
            let zeta = root(biot, from);
            *term = (zeta, 4.0 * zeta.sin() / (2.0 * zeta + (2.0 * zeta).sin()));
            from += PI;
        }
        Self { terms }
    }

    pub(super) fn centre(&self, fourier: f64) -> f64 {
        // So early nothing has reached the middle, and the series would need ever more terms.
        if fourier < 1e-3 { 1.0 } else { self.sum(fourier, |_| 1.0) }
    }

    fn mean(&self, fourier: f64) -> f64 {
        self.sum(fourier, |zeta| zeta.sin() / zeta)
    }

    fn sum(&self, fourier: f64, place: impl Fn(f64) -> f64) -> f64 {
        let term = |(zeta, weight): &(f64, f64)| weight * (-zeta * zeta * fourier).exp() * place(*zeta);
        self.terms.iter().map(term).sum::<f64>().clamp(0.0, 1.0)
    }
}

/// The root between a multiple of π and a quarter turn on: Newton's steps, halved where they would leave the bracket.
fn root(biot: f64, from: f64) -> f64 {
    let (mut low, mut high) = (from, from + FRAC_PI_2);
    let mut zeta = 0.5 * (low + high);
    // ζ·sin ζ − Bi·cos ζ has no poles; it rises through the bracket, or falls through each second one.
    let sign = from.cos();
    for _ in 0..60 {
        let (sin, cos) = zeta.sin_cos();
        let value = sign * (zeta * sin - biot * cos);
        if value < 0.0 {
            low = zeta
        } else {
            high = zeta
        }
        let step = value / (sign * (sin + zeta * cos + biot * sin));
        let next = zeta - step;
        let next = if next > low && next < high { next } else { 0.5 * (low + high) };
        if (next - zeta).abs() <= 1e-15 * (1.0 + zeta) {
            return next;
        }
        zeta = next;
    }
    zeta
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lumped_there_and_back() {
        let tau = time_constant(HeatCapacity::from_si(900.0), ThermalConductance::from_si(1.5));
        assert_eq!(tau.si(), 600.0);
        let (first, around) = (celsius(60.0), celsius(-20.0));
        let later = lumped(first, around, Time::from_si(450.0), tau);
        assert!((lumped_time(first, around, later, tau).unwrap().si() - 450.0).abs() < 1e-9);
        assert!(lumped_time(first, around, celsius(-30.0), tau).is_none());
        assert!(lumped_time(first, around, celsius(70.0), tau).is_none());
        assert!(lumped_time(first, around, around, tau).is_none());
    }

    #[test]
    fn slab_by_the_tables() {
        // Bergman, table 5.1: Bi 1: ζ 0.8603, C 1.1191; from Fo 0.2 the first term alone is enough.
        let first = 1.1191 * (-0.8603f64.powi(2)).exp();
        assert!((slab_centre(1.0, 1.0) / first - 1.0).abs() < 2e-3);
        // Faces held: 4/π·Σ(−1)ⁿ/(2n+1)·e^(−((2n+1)π/2)²·Fo), Carslaw and Jaeger, art. 3.3.
        let held = |fo: f64| -> f64 {
            (0..60)
                .map(|n| {
                    let odd = f64::from(2 * n + 1);
                    let sign = if n % 2 == 0 { 1.0 } else { -1.0 };
                    let lambda = odd * FRAC_PI_2;
                    4.0 / PI * sign / odd * (-lambda * lambda * fo).exp()
                })
                .sum()
        };
        for fo in [0.02, 0.1, 0.5, 1.5] {
            assert!((slab_centre(1e6, fo) - held(fo)).abs() < 1e-5, "{fo}");
        }
    }

    #[test]
    fn thin_slab_is_lumped() {
        for fo in [1.0, 30.0, 200.0] {
            let bi = 0.005;
            assert!((slab_mean(bi, fo) - (-bi * fo).exp()).abs() < 2e-3);
            assert!(slab_centre(bi, fo) >= slab_mean(bi, fo));
        }
        // At first a held face draws heat as from endless depth: 2·√(Fo/π), Carslaw and Jaeger, art. 2.4.
        for fo in [0.0f64, 5e-4, 5e-3] {
            let endless = 2.0 * (fo / PI).sqrt();
            assert!((slab_mean(1e6, fo) - (1.0 - endless)).abs() < 0.006);
        }
        let b = biot(HeatTransfer::from_si(20.0), Length::from_si(5e-3), ThermalConductivity::from_si(0.2));
        assert!((b - 0.5).abs() < 1e-12);
        let fo = fourier(
            Time::from_si(100.0),
            Length::from_si(5e-3),
            ThermalConductivity::from_si(0.2),
            MassDensity::from_si(1000.0),
            SpecificHeatCapacity::from_si(2000.0),
        );
        assert!((fo - 0.4).abs() < 1e-12);
    }
}
