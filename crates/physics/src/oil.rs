//! Viscosity and density of damper and gear oils against temperature. Mineral oil and silicone follow different laws.

use crate::range::{OutsideRange, within};
use quantity::*;

const FREEZING: f64 = 273.15;

/// A reading: viscosity at a temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    pub temperature: ThermodynamicTemperature,
    pub viscosity: KinematicViscosity,
}

/// Mineral oil through two readings, log log Z = A − B·log T.
///
/// Valid for: 0.21 mm²/s to 2·10⁷ mm²/s and −70 °C to 370 °C by the standard, and only for a clear oil: it knows
/// nothing of wax or of a pour point, which the caller gives. Near the pour point real oils are thicker than this.
/// Source: ASTM D341-20, eqs 1 to 4 and the inverse printed with them (Walther's equation); published, written down
/// from memory and checked against a table of 288 points of sixteen oils.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mineral {
    a: f64,
    b: f64,
}

/// log log Z of a viscosity in mm²/s.
fn log_log_z(nu: f64) -> f64 {
    (nu + 0.7 + (-1.47 - 1.84 * nu - 0.51 * nu * nu).exp()).log10().log10()
}

/// Two readings that a falling curve can be laid through, in K and mm²/s.
fn pair(first: Reading, second: Reading) -> Result<[(f64, f64); 2], OutsideRange> {
    let (cold, warm) =
        if first.temperature.si() <= second.temperature.si() { (first, second) } else { (second, first) };
    let gap = warm.temperature.si() - cold.temperature.si();
    within("the gap between the oil's two temperatures", "K", 1.0, 400.0, gap)?;
    let read = |reading: Reading| -> Result<(f64, f64), OutsideRange> {
        let nu = within("the oil's viscosity", "mm²/s", 0.21, 2e7, reading.viscosity.si() * 1e6)?;
        Ok((reading.temperature.si(), nu))
    };
    let (cold, warm) = (read(cold)?, read(warm)?);
    within("viscosity at the warmer of the oil's two temperatures", "mm²/s", 0.21, cold.1, warm.1)?;
    Ok([cold, warm])
}

/// `at` in K if it lies between the pour point and the law's upper end.
fn liquid(at: ThermodynamicTemperature, pour_point: ThermodynamicTemperature, upper: f64) -> Result<f64, OutsideRange> {
    let (at, pour) = (at.si() - FREEZING, pour_point.si() - FREEZING);
    Ok(within("temperature of the oil, from its pour point up", "°C", pour, upper, at)? + FREEZING)
}

impl Mineral {
    /// The law through two readings, usually 40 °C and 100 °C from the data sheet.
    ///
    /// # Errors
    /// The two temperatures nearly the same, a viscosity that no oil has, or one that rises with temperature.
    pub fn through(first: Reading, second: Reading) -> Result<Self, OutsideRange> {
        let [(t1, nu1), (t2, nu2)] = pair(first, second)?;
        let (l1, l2) = (log_log_z(nu1), log_log_z(nu2));
        let b = (l1 - l2) / (t2.log10() - t1.log10());
        Ok(Self { a: l1 + b * t1.log10(), b })
    }

    /// The constants A and B as ASTM D341 tabulates them (mm²/s, K).
    #[must_use]
    pub fn constants(&self) -> (f64, f64) {
        (self.a, self.b)
    }

    /// Kinematic viscosity at a temperature.
    ///
    /// # Errors
    /// Colder than the pour point (it no longer flows: gelled), hotter than 370 °C, or thinner or thicker than the standard covers.
    pub fn viscosity(
        &self,
        at: ThermodynamicTemperature,
        pour_point: ThermodynamicTemperature,
    ) -> Result<KinematicViscosity, OutsideRange> {
        let t = liquid(at, pour_point, 370.0)?;
        let z = 10f64.powf(10f64.powf(self.a - self.b * t.log10()));
        let w = z - 0.7;
        let nu = w - (-0.7487 - 3.295 * w + 0.6119 * w * w - 0.3193 * w * w * w).exp();
        Ok(KinematicViscosity::from_si(within("viscosity of the oil by D341", "mm²/s", 0.21, 2e7, nu)? * 1e-6))
    }
}

/// Viscosity-temperature coefficient of ordinary dimethyl silicone oil, 1 − ν(99 °C)/ν(38 °C); common practice, no source.
pub const SILICONE_COEFFICIENT: f64 = 0.60;

/// Silicone oil, log ν = A + B/T (Andrade): it thickens far less in the cold than mineral oil.
///
/// Valid for: dimethyl silicone of 50 mm²/s and more, −25 °C to 250 °C; colder, down to the pour point (about −50 °C), it is
/// extrapolated and reads up to about a quarter low.
/// Source: Andrade's law, published; for silicone common practice: makers print log ν(T) = log ν(25 °C) + 763.1/T − 2.559,
/// from memory, which is this law with a coefficient of 0.604.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Silicone {
    a: f64,
    b: f64,
}

impl Silicone {
    /// The law from the one figure on the bottle, the viscosity at 25 °C, and the oil's viscosity-temperature coefficient.
    ///
    /// # Errors
    /// A coefficient outside 0.3 to 0.95, or a viscosity that no oil has.
    pub fn from_label(at_25: KinematicViscosity, coefficient: Ratio) -> Result<Self, OutsideRange> {
        let nu = within("the oil's viscosity", "mm²/s", 0.21, 2e7, at_25.si() * 1e6)?;
        let coefficient = within("viscosity-temperature coefficient", "", 0.3, 0.95, coefficient.si())?;
        // 100 °F and 210 °F, rounded by custom.
        let b = -(1.0 - coefficient).log10() / (1.0 / (38.0 + FREEZING) - 1.0 / (99.0 + FREEZING));
        Ok(Self { a: nu.log10() - b / (25.0 + FREEZING), b })
    }

    /// The law through two readings: one of them cold is worth more than any coefficient.
    ///
    /// # Errors
    /// The two temperatures nearly the same, a viscosity that no oil has, or one that rises with temperature.
    pub fn through(first: Reading, second: Reading) -> Result<Self, OutsideRange> {
        let [(t1, nu1), (t2, nu2)] = pair(first, second)?;
        let b = (nu1.log10() - nu2.log10()) / (1.0 / t1 - 1.0 / t2);
        Ok(Self { a: nu1.log10() - b / t1, b })
    }

    /// Kinematic viscosity at a temperature.
    ///
    /// # Errors
    /// Colder than the pour point or hotter than 250 °C.
    pub fn viscosity(
        &self,
        at: ThermodynamicTemperature,
        pour_point: ThermodynamicTemperature,
    ) -> Result<KinematicViscosity, OutsideRange> {
        let t = liquid(at, pour_point, 250.0)?;
        Ok(KinematicViscosity::from_si(10f64.powf(self.a + self.b / t) * 1e-6))
    }
}

/// Density of an oil at a temperature, ρ = ρ₀ / (1 + α·(T − T₀)).
///
/// Inputs: density ρ₀ (kg/m³) at temperature T₀; volume expansion α (1/K), about 7·10⁻⁴ mineral, 9·10⁻⁴ to 10⁻³ silicone
/// (common practice); temperature T.
/// Returns: density (kg/m³).
/// Valid for: within about 100 K of T₀.
/// Source: definition of the volume expansion coefficient.
#[must_use]
pub fn density(
    known: MassDensity,
    known_at: ThermodynamicTemperature,
    expansion: TemperatureCoefficient,
    at: ThermodynamicTemperature,
) -> MassDensity {
    MassDensity::from_si(known.si() / (1.0 + expansion.si() * difference(at, known_at).si()))
}

/// Dynamic from kinematic viscosity, µ = ν·ρ.
///
/// Inputs: kinematic viscosity ν (m²/s); density ρ (kg/m³).
/// Returns: Pa·s.
/// Valid for: always.
/// Source: definition.
#[must_use]
pub fn dynamic_viscosity(kinematic: KinematicViscosity, density: MassDensity) -> DynamicViscosity {
    DynamicViscosity::from_si(kinematic.si() * density.si())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn reading(degrees: f64, mm2: f64) -> Reading {
        Reading { temperature: celsius(degrees), viscosity: KinematicViscosity::from_si(mm2 * 1e-6) }
    }
    fn mm2(nu: KinematicViscosity) -> f64 {
        nu.si() * 1e6
    }

    #[test]
    fn both_laws_return_their_own_readings() {
        let (cold, warm) = (reading(40.0, 32.0), reading(100.0, 5.4));
        let (mineral, silicone) = (Mineral::through(cold, warm).unwrap(), Silicone::through(warm, cold).unwrap());
        for known in [cold, warm] {
            let (t, nu) = (known.temperature, mm2(known.viscosity));
            assert!((mm2(mineral.viscosity(t, celsius(-30.0)).unwrap()) / nu - 1.0).abs() < 1e-5);
            assert!((mm2(silicone.viscosity(t, celsius(-30.0)).unwrap()) / nu - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn the_coefficient_is_returned_by_the_law_made_from_it() {
        let oil = Silicone::from_label(reading(25.0, 350.0).viscosity, Ratio::from_si(SILICONE_COEFFICIENT)).unwrap();
        let nu = |t: f64| mm2(oil.viscosity(celsius(t), celsius(-50.0)).unwrap());
        assert!((nu(25.0) - 350.0).abs() < 1e-9);
        assert!((1.0 - nu(99.0) / nu(38.0) - SILICONE_COEFFICIENT).abs() < 1e-12);
    }

    #[test]
    fn a_coefficient_of_0_604_is_the_law_that_makers_print() {
        let oil = Silicone::from_label(reading(25.0, 100.0).viscosity, Ratio::from_si(0.604)).unwrap();
        for t in [-25.0, 0.0, 60.0, 150.0] {
            let printed = 10f64.powf(2.0 + 763.1 / (t + FREEZING) - 2.559);
            let ours = mm2(oil.viscosity(celsius(t), celsius(-50.0)).unwrap());
            assert!((ours / printed - 1.0).abs() < 0.01, "{t}: {ours} against {printed}");
        }
    }

    #[test]
    fn mineral_oil_thickens_far_more_in_the_cold_than_silicone() {
        let (cold, warm) = (reading(40.0, 32.0), reading(100.0, 5.4));
        let mineral = Mineral::through(cold, warm).unwrap();
        let at_25 = mineral.viscosity(celsius(25.0), celsius(-40.0)).unwrap();
        let silicone = Silicone::from_label(at_25, Ratio::from_si(SILICONE_COEFFICIENT)).unwrap();
        let at = celsius(-30.0);
        let (m, s) = (mineral.viscosity(at, celsius(-40.0)).unwrap(), silicone.viscosity(at, celsius(-40.0)).unwrap());
        assert!(mm2(m) > 20.0 * mm2(s), "{} {}", mm2(m), mm2(s));
    }

    #[test]
    fn below_the_pour_point_it_says_so() {
        let oil = Mineral::through(reading(40.0, 32.0), reading(100.0, 5.4)).unwrap();
        let out = oil.viscosity(celsius(-30.0), celsius(-24.0)).unwrap_err();
        assert!((out.from + 24.0).abs() < 1e-9 && (out.was + 30.0).abs() < 1e-9 && out.unit == "°C");
        assert!(Mineral::through(reading(40.0, 32.0), reading(40.0, 5.4)).is_err());
        assert!(Mineral::through(reading(40.0, 5.4), reading(100.0, 32.0)).is_err());
        assert!(Mineral::through(reading(40.0, f64::NAN), reading(100.0, 5.4)).is_err());
    }

    #[test]
    fn oil_shrinks_in_the_cold() {
        let warm = MassDensity::from_si(870.0);
        let cold = density(warm, celsius(15.0), TemperatureCoefficient::from_si(7e-4), celsius(-35.0));
        assert!((cold.si() - 870.0 / 0.965).abs() < 1e-9);
        let same = density(warm, celsius(15.0), TemperatureCoefficient::from_si(7e-4), celsius(15.0));
        assert_eq!(dynamic_viscosity(KinematicViscosity::from_si(1e-4), same).si(), 1e-4 * 870.0);
    }
}
