//! Two rings pressed into one another: pressure, stress, strain and what they hold, warm and cold.

use quantity::*;
use std::f64::consts::PI;

/// One of the two bodies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Body {
    pub modulus: Pressure,
    pub poisson: Ratio,
    pub expansion: TemperatureCoefficient,
}

/// A hub on a shaft, or a seat round a ring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PressFit {
    /// Where they touch.
    pub diameter: Length,
    /// Bore of the inner body; zero for a full one.
    pub bore: Length,
    /// Outside of the outer body.
    pub outside: Length,
    pub inner: Body,
    pub outer: Body,
    /// On the diameter, at assembly; what the roughness loses is taken off already.
    pub interference: Length,
}

impl PressFit {
    /// Interference on the diameter left when both have become warmer: δ − (αo − αi)·ΔT·d.
    ///
    /// Inputs: temperature change (K) since assembly.
    /// Returns: length (m); negative where the fit has opened.
    /// Valid for: both at one temperature.
    /// Source: textbook.
    #[must_use]
    pub fn left(&self, warmer_by: TemperatureInterval) -> Length {
        let grows = (self.outer.expansion.si() - self.inner.expansion.si()) * warmer_by.si();
        self.interference - self.diameter * grows
    }

    /// Pressure between the two, p = δ / (d·((Qo + νo)/Eo + (Qi − νi)/Ei)), Q = (1 + q²)/(1 − q²).
    ///
    /// Inputs: temperature change (K) since assembly.
    /// Returns: pressure (Pa); zero where the fit has opened.
    /// Valid for: elastic, long compared with its wall, plane stress. Plastics also creep: after weeks half of it is left.
    /// Source: Lamé; DIN 7190-1; Shigley, ch. 3, eq. 3-56; published.
    #[must_use]
    pub fn pressure(&self, warmer_by: TemperatureInterval) -> Pressure {
        let (d, left) = (self.diameter.si(), self.left(warmer_by).si().max(0.0));
        let (qo, qi) = (spread(d / self.outside.si()), spread(self.bore.si() / d));
        let gives = (qo + self.outer.poisson.si()) / self.outer.modulus.si()
            + (qi - self.inner.poisson.si()) / self.inner.modulus.si();
        Pressure::from_si(left / (d * gives))
    }

    /// Pull round the outer body at its bore, p·Qo.
    ///
    /// Inputs: pressure (Pa).
    /// Returns: stress (Pa).
    /// Source: Lamé; published.
    #[must_use]
    pub fn hub_hoop(&self, pressure: Pressure) -> Pressure {
        pressure * spread(self.diameter.si() / self.outside.si())
    }

    /// By which share the outer body is stretched round at its bore, p·(Qo + νo)/Eo.
    ///
    /// Inputs: pressure (Pa).
    /// Returns: strain.
    /// Source: Lamé; published.
    #[must_use]
    pub fn hub_strain(&self, pressure: Pressure) -> Ratio {
        let q = spread(self.diameter.si() / self.outside.si());
        Ratio::from_si(pressure.si() * (q + self.outer.poisson.si()) / self.outer.modulus.si())
    }

    /// By which the inner body becomes smaller at its bore: 2·p·d/(Ei·(1 − q²)) of the bore's size, q = bore/d.
    ///
    /// Inputs: pressure (Pa).
    /// Returns: length (m) on the bore's diameter; zero for a full body.
    /// Valid for: elastic; what a bearing's clearance loses is this at its raceway.
    /// Source: Lamé; published.
    #[must_use]
    pub fn bore_closes(&self, pressure: Pressure) -> Length {
        let q = self.bore.si() / self.diameter.si();
        Length::from_si(2.0 * pressure.si() / (self.inner.modulus.si() * (1.0 - q * q)) * self.bore.si())
    }

    /// Torque at which it slips, π/2·µ·p·d²·l.
    ///
    /// Inputs: pressure (Pa); friction µ; length l (m).
    /// Returns: torque (N·m).
    /// Source: textbook.
    #[must_use]
    pub fn slips_at(&self, pressure: Pressure, friction: Ratio, length: Length) -> Torque {
        let d = self.diameter.si();
        Torque::from_si(PI / 2.0 * friction.si() * pressure.si() * d * d * length.si())
    }
}

fn spread(q: f64) -> f64 {
    (1.0 + q * q) / (1.0 - q * q)
}

/// Interference lost as rough peaks are pressed flat, 0.8·(Rzi + Rza).
///
/// Inputs: roughness Rz of both faces (m).
/// Returns: length (m) on the diameter.
/// Valid for: joints pressed in along; shrunk ones lose less.
/// Source: DIN 7190-1; published, from memory.
#[must_use]
pub fn smoothed(inner_roughness: Length, outer_roughness: Length) -> Length {
    (inner_roughness + outer_roughness) * 0.8
}

#[cfg(test)]
mod tests {
    use super::*;

    fn steel() -> Body {
        Body {
            modulus: Pressure::from_si(206e9),
            poisson: Ratio::from_si(0.3),
            expansion: TemperatureCoefficient::from_si(11.5e-6),
        }
    }

    fn fit(bore: f64) -> PressFit {
        PressFit {
            diameter: Length::from_si(0.02),
            bore: Length::from_si(bore),
            outside: Length::from_si(0.04),
            inner: steel(),
            outer: steel(),
            interference: Length::from_si(20e-6),
        }
    }

    #[test]
    fn the_same_material_with_a_full_shaft_by_the_short_form() {
        // p = E·δ/(2·d)·(1 − (d/D)²) on the diameter.
        let by_hand = 206e9 * 20e-6 / (2.0 * 0.02) * (1.0 - 0.25);
        let p = fit(0.0).pressure(TemperatureInterval::ZERO);
        assert!((p.si() / by_hand - 1.0).abs() < 1e-12);
        // Warmth changes nothing between two bodies that grow alike.
        assert_eq!(fit(0.0).pressure(TemperatureInterval::from_si(80.0)), p);
    }

    #[test]
    fn both_bodies_together_take_up_the_interference() {
        let fit = fit(0.012);
        let p = fit.pressure(TemperatureInterval::ZERO);
        let q = spread(0.6);
        let inner = p.si() * (q - 0.3) / 206e9 * 0.02;
        assert!((fit.hub_strain(p).si() * 0.02 + inner - 20e-6).abs() < 1e-15);
        // A thin inner ring closes at its bore as much as at its outside.
        let thin = PressFit { bore: Length::from_si(0.0199), ..fit };
        let p = thin.pressure(TemperatureInterval::ZERO);
        let outside = p.si() * (spread(0.995) - 0.3) / 206e9 * 0.02;
        assert!((thin.bore_closes(p).si() / outside - 1.0).abs() < 0.01);
    }

    #[test]
    fn a_light_seat_opens_in_the_heat() {
        let mut fit = fit(0.0);
        fit.outer.expansion = TemperatureCoefficient::from_si(23.5e-6);
        assert!(fit.left(TemperatureInterval::from_si(90.0)).si() < 0.0);
        assert_eq!(fit.pressure(TemperatureInterval::from_si(90.0)).si(), 0.0);
        let cold = fit.pressure(TemperatureInterval::from_si(-50.0));
        assert!(cold > fit.pressure(TemperatureInterval::ZERO));
    }
}
