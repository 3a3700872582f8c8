//! Water, glycol-water and pure glycols as coolants: what they weigh, carry and resist.
//! Every formula is refused outside its range: below freezing there is slush, not a thicker liquid.

use crate::range::{OutsideRange, within};
use quantity::*;

/// What a flow and its heat need to know of a liquid, at one temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Properties {
    pub density: MassDensity,
    pub heat_capacity: SpecificHeatCapacity,
    pub conductivity: ThermalConductivity,
    pub viscosity: DynamicViscosity,
}

impl Properties {
    fn of(density: f64, heat_capacity: f64, conductivity: f64, viscosity: f64) -> Self {
        Self {
            density: MassDensity::from_si(density),
            heat_capacity: SpecificHeatCapacity::from_si(heat_capacity),
            conductivity: ThermalConductivity::from_si(conductivity),
            viscosity: DynamicViscosity::from_si(viscosity),
        }
    }

    /// Viscosity over density (m²/s).
    #[must_use]
    pub fn kinematic_viscosity(&self) -> KinematicViscosity {
        KinematicViscosity::from_si(self.viscosity.si() / self.density.si())
    }

    /// Prandtl number µ·cp / k: 7 for water at 20 °C, hundreds for cold glycol.
    #[must_use]
    pub fn prandtl(&self) -> f64 {
        self.viscosity.si() * self.heat_capacity.si() / self.conductivity.si()
    }
}

/// Which glycol. Ethylene glycol is poisonous and tastes sweet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Glycol {
    Ethylene,
    Propylene,
}

impl Glycol {
    /// g/mol.
    pub(crate) fn molar_mass(self) -> f64 {
        match self {
            Self::Ethylene => 62.067_84,
            Self::Propylene => 76.094_42,
        }
    }

    /// kg/m³ at 20 °C.
    fn density_at_20(self) -> f64 {
        match self {
            Self::Ethylene => 1113.2,
            Self::Propylene => 1036.1,
        }
    }
}

/// Melinder's polynomials Σ Cij·(x − xm)^i·(T − Tm)^j: rows by power of temperature, columns by power of mass fraction.
struct Melinder {
    fraction: f64,
    celsius: f64,
    freezing: [f64; 6],
    density: Grid,
    heat_capacity: Grid,
    conductivity: Grid,
    /// Of the natural logarithm of mPa·s.
    viscosity: Grid,
}

struct Grid([f64; 6], [f64; 5], [f64; 4], [f64; 3]);

fn polynomial(coefficients: &[f64], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

impl Grid {
    fn at(&self, x: f64, t: f64) -> f64 {
        let rows = [polynomial(&self.0, x), polynomial(&self.1, x), polynomial(&self.2, x), polynomial(&self.3, x)];
        polynomial(&rows, t)
    }
}

const ETHYLENE: Melinder = Melinder {
    fraction: 0.308_462,
    celsius: 31.728,
    freezing: [-15.25, -80.80, -133.4, -72.93, 100.6, 11.40],
    density: Grid(
        [1034.0, 131.1, 0.749, -106.2, -96.23, 489.1],
        [-0.4781, -0.6876, 0.7855, 1.229, -7.211],
        [-2.692e-3, 4.805e-3, -3.995e-3, -1.153e-2],
        [4.725e-6, 1.690e-6, 4.982e-5],
    ),
    heat_capacity: Grid(
        [3737.0, -1799.0, -993.3, 2610.0, 1537.0, -16_180.0],
        [2.930, 10.46, 3.516, -1.189, -42.72],
        [-4.675e-3, -4.147e-2, 5.109e-2, -0.1643],
        [-1.389e-5, 1.847e-5, -7.138e-4],
    ),
    conductivity: Grid(
        [0.4720, -0.4286, 0.1747, 0.030_17, -0.1322, 0.2678],
        [8.903e-4, -1.473e-3, 6.814e-4, -2.412e-3, 2.555e-3],
        [-1.058e-6, 1.059e-5, -3.612e-5, 4.004e-5],
        [-2.789e-9, -1.142e-8, 2.365e-8],
    ),
    viscosity: Grid(
        [0.4705, 2.471, 0.033_28, 1.659, 3.089, -18.65],
        [-2.550e-2, -1.171e-2, 1.086e-2, 3.157e-3, 1.831e-2],
        [1.782e-4, 1.052e-4, 1.051e-4, 4.063e-4],
        [-7.669e-7, -1.634e-6, -6.475e-6],
    ),
};

const PROPYLENE: Melinder = Melinder {
    fraction: 0.307_031,
    celsius: 32.7083,
    freezing: [-13.25, -66.31, -109.4, -228.3, -340.9, 146.5],
    density: Grid(
        [1018.0, 76.04, -24.98, -155.0, -113.1, 234.2],
        [-0.5406, -0.9450, 0.2700, 2.829, -2.221],
        [-2.666e-3, 5.541e-3, -4.018e-3, -7.175e-3],
        [1.347e-5, -1.343e-5, 3.376e-5],
    ),
    heat_capacity: Grid(
        [3882.0, -1304.0, -1598.0, 353.9, 5000.0, -4959.0],
        [2.699, 5.070, 0.9534, 31.02, -71.35],
        [-1.659e-3, -4.752e-3, 0.1167, -0.2950],
        [-1.032e-5, 1.522e-4, -4.870e-4],
    ),
    conductivity: Grid(
        [0.4513, -0.4795, 0.2076, -0.090_83, -0.059_52, 0.2104],
        [7.955e-4, -1.678e-3, 1.563e-3, -2.518e-3, -3.605e-3],
        [3.482e-8, 8.941e-6, -4.615e-5, 6.543e-5],
        [-5.966e-9, 1.493e-8, 9.897e-8],
    ),
    viscosity: Grid(
        [0.6837, 3.328, 0.5453, -3.900, -1.587, 35.64],
        [-3.045e-2, -3.984e-2, -8.600e-4, 0.1054, 4.475e-2],
        [2.525e-4, 4.332e-4, -1.593e-4, -1.589e-3],
        [-1.399e-6, -1.860e-6, -4.465e-7],
    ),
};

fn melinder(glycol: Glycol) -> &'static Melinder {
    match glycol {
        Glycol::Ethylene => &ETHYLENE,
        Glycol::Propylene => &PROPYLENE,
    }
}

/// Σ a·(T/300 K)^b.
fn powers(t: f64, terms: [(f64, f64); 4]) -> f64 {
    terms.iter().map(|(a, b)| a * (t / 300.0).powf(*b)).sum()
}

/// Water.
///
/// Inputs: temperature (K).
/// Returns: density, specific heat capacity, thermal conductivity, dynamic viscosity; within 0.1 % up to 3 bar.
/// Valid for: 0…110 °C, else refused: colder water is ice.
/// Source: density Kell, J. Chem. Eng. Data 20 (1975) 97; heat capacity Popiel and Wojtkowiak, Heat Transfer Eng. 19
/// (1998) 87; conductivity and viscosity IAPWS SR6-08(2011); published.
pub fn water(temperature: ThermodynamicTemperature) -> Result<Properties, OutsideRange> {
    let kelvin = within("water temperature", "K", 273.15, celsius(110.0).si(), temperature.si())?;
    let t = kelvin - 273.15;
    let kell =
        polynomial(&[999.839_52, 16.945_176, -7.987_040_1e-3, -46.170_461e-6, 105.563_02e-9, -280.542_53e-12], t)
            / (1.0 + 16.879_850e-3 * t);
    let popiel = 4.217_435_6 - 0.005_618_162_5 * t + 0.001_299_252_8 * t.powf(1.5) - 0.000_115_353_53 * t * t
        + 4.149_64e-6 * t.powf(2.5);
    let conducts = powers(kelvin, [(1.6630, -1.15), (-1.7781, -3.4), (1.1567, -6.0), (-0.432_115, -7.6)]);
    let micro = powers(kelvin, [(280.68, -1.9), (511.45, -7.7), (61.131, -19.6), (0.459_03, -40.0)]);
    Ok(Properties::of(kell, 1e3 * popiel, conducts, 1e-6 * micro))
}

/// Temperature at which the first ice crystals form in a mixture of glycol and water.
///
/// Inputs: which glycol; its mass fraction.
/// Returns: temperature (K). It turns to slush here and hardens some kelvins lower.
/// Valid for: mass fractions of 0…0.6, else refused: above, the freezing point climbs again.
/// Source: Melinder, Properties of Secondary Working Fluids, International Institute of Refrigeration 2010; published.
pub fn freezing_temperature(glycol: Glycol, mass_fraction: Ratio) -> Result<ThermodynamicTemperature, OutsideRange> {
    let x = within("glycol mass fraction", "", 0.0, 0.6, mass_fraction.si())?;
    let table = melinder(glycol);
    Ok(celsius(polynomial(&table.freezing, x - table.fraction)))
}

/// A mixture of glycol and water, without inhibitors.
///
/// Inputs: which glycol; its mass fraction (not volume fraction, see [`mass_fraction_from_volume_fraction`]);
/// temperature (K).
/// Returns: density, specific heat capacity, thermal conductivity, dynamic viscosity. Other handbooks differ by 1 %, in
/// viscosity by 5…30 % in the cold.
/// Valid for: mass fractions of 0…0.6; from freezing to 100 °C; else refused.
/// Source: Melinder, Properties of Secondary Working Fluids, International Institute of Refrigeration 2010; published.
pub fn glycol_water(
    glycol: Glycol,
    mass_fraction: Ratio,
    temperature: ThermodynamicTemperature,
) -> Result<Properties, OutsideRange> {
    let freezes = freezing_temperature(glycol, mass_fraction)?.si();
    let kelvin = within("coolant temperature", "K", freezes, celsius(100.0).si(), temperature.si())?;
    let table = melinder(glycol);
    let (x, t) = (mass_fraction.si() - table.fraction, kelvin - 273.15 - table.celsius);
    Ok(Properties::of(
        table.density.at(x, t),
        table.heat_capacity.at(x, t),
        table.conductivity.at(x, t),
        1e-3 * table.viscosity.at(x, t).exp(),
    ))
}

/// Viscosity alone of a mixture of glycol and water.
///
/// Inputs: as [`glycol_water`].
/// Returns: dynamic viscosity (Pa·s).
/// Valid for: as [`glycol_water`]; colder or hotter as at the nearer end, for a wall beside liquid that is in its range.
/// Source: as [`glycol_water`].
pub fn glycol_water_viscosity(
    glycol: Glycol,
    mass_fraction: Ratio,
    temperature: ThermodynamicTemperature,
) -> Result<DynamicViscosity, OutsideRange> {
    let freezes = freezing_temperature(glycol, mass_fraction)?.si();
    let table = melinder(glycol);
    let kelvin = temperature.si().max(freezes).min(celsius(100.0).si());
    let (x, t) = (mass_fraction.si() - table.fraction, kelvin - 273.15 - table.celsius);
    Ok(DynamicViscosity::from_si(1e-3 * table.viscosity.at(x, t).exp()))
}

/// A pure glycol.
///
/// Inputs: which; temperature (K).
/// Returns: density, specific heat capacity, thermal conductivity, dynamic viscosity.
/// Valid for: ethylene glycol −10…110 °C (it freezes at −13 °C; below 0 °C handbooks differ by a third in viscosity),
/// propylene glycol −20…110 °C (it does not freeze, it turns to glass); else refused.
/// Source: ethylene glycol: our fits, within 0.2 % and in viscosity 2 %, to reference equations as computed by the
/// open-source library thermo 0.6.1. Propylene glycol: density and viscosity Perry's Chemical Engineers' Handbook, 8th
/// edition, tables 2-32 and 2-313; heat capacity Zábranský and others, Heat Capacity of Liquids (1996);
/// conductivity a fit by thermo 0.6.1; published.
pub fn pure_glycol(glycol: Glycol, temperature: ThermodynamicTemperature) -> Result<Properties, OutsideRange> {
    let coldest = match glycol {
        Glycol::Ethylene => celsius(-10.0),
        Glycol::Propylene => celsius(-20.0),
    };
    let t = within("glycol temperature", "K", coldest.si(), celsius(110.0).si(), temperature.si())?;
    Ok(match glycol {
        Glycol::Ethylene => {
            let hundreds = (t - 273.15) / 100.0;
            let inverse = 1000.0 / t - 3.2;
            let log = polynomial(&[2.290_245, 3.358_706, 0.639_198, 0.201_502, 2.193_358, 3.018_874], inverse);
            Properties::of(
                polynomial(&[1127.372, -69.002, -2.785], hundreds),
                polynomial(&[2293.67, 483.885, -13.555], hundreds),
                polynomial(&[0.249_804, 0.008_052, -0.002_909], hundreds),
                1e-3 * log.exp(),
            )
        }
        Glycol::Propylene => {
            let molar = 1e-3 * glycol.molar_mass();
            let density = molar * 1092.3 / 0.261_06f64.powf(1.0 + (1.0 - t / 626.0).powf(0.204_59));
            let capacity = polynomial(&[27.0694, -14.4689, 6.417_52, -0.683_542], t / 100.0) * 8.314_462_618 / molar;
            let conducts = polynomial(&[0.179_794_5, 1.607_881e-4, -3.075_315e-7], t);
            Properties::of(density, capacity, conducts, (-804.54 + 30_487.0 / t + 130.79 * t.ln() - 0.154_49 * t).exp())
        }
    })
}

/// Density of water at 20 °C, kg/m³.
const WATER_AT_20: f64 = 998.2;

/// Mass fraction of a mixture measured out by volume at 20 °C.
///
/// Inputs: which glycol; its volume over the sum of both volumes before mixing.
/// Returns: its mass fraction.
/// Valid for: 0…1. Bottled antifreeze is not pure glycol: count what is in it.
/// Source: definition; densities at 20 °C 1113.2, 1036.1 and 998.2 kg/m³; published (CRC Handbook, from memory).
#[must_use]
pub fn mass_fraction_from_volume_fraction(glycol: Glycol, volume_fraction: Ratio) -> Ratio {
    let glycol_part = volume_fraction.si() * glycol.density_at_20();
    Ratio::from_si(glycol_part / (glycol_part + (1.0 - volume_fraction.si()) * WATER_AT_20))
}

/// Volume fraction at 20 °C, before mixing, of a mixture weighed out.
///
/// Inputs: which glycol; its mass fraction.
/// Returns: its volume over the sum of both volumes.
/// Valid for: 0…1.
/// Source: as [`mass_fraction_from_volume_fraction`].
#[must_use]
pub fn volume_fraction_from_mass_fraction(glycol: Glycol, mass_fraction: Ratio) -> Ratio {
    let glycol_part = mass_fraction.si() / glycol.density_at_20();
    Ratio::from_si(glycol_part / (glycol_part + (1.0 - mass_fraction.si()) / WATER_AT_20))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn without_glycol_it_is_water() {
        // Second route: two independent sources meet at mass fraction 0.
        for glycol in [Glycol::Ethylene, Glycol::Propylene] {
            for degrees in [5.0, 20.0, 50.0, 80.0, 95.0] {
                let (mixed, plain) = (
                    glycol_water(glycol, Ratio::from_si(0.0), celsius(degrees)).unwrap(),
                    water(celsius(degrees)).unwrap(),
                );
                assert!(((mixed.density / plain.density).si() - 1.0).abs() < 0.002);
                assert!(((mixed.heat_capacity / plain.heat_capacity).si() - 1.0).abs() < 0.01);
                assert!(((mixed.conductivity / plain.conductivity).si() - 1.0).abs() < 0.02);
                assert!(((mixed.viscosity / plain.viscosity).si() - 1.0).abs() < 0.04, "{glycol:?} {degrees}");
            }
        }
    }

    #[test]
    fn viscosity_alone_is_the_same_and_held_at_both_ends() {
        let x = Ratio::from_si(0.4);
        let alone = |degrees: f64| glycol_water_viscosity(Glycol::Ethylene, x, celsius(degrees)).unwrap();
        for degrees in [-20.0, 0.0, 35.0, 99.0] {
            assert_eq!(alone(degrees), glycol_water(Glycol::Ethylene, x, celsius(degrees)).unwrap().viscosity);
        }
        assert!(alone(-60.0) == alone(-40.0) && alone(150.0) == alone(100.0));
    }

    #[test]
    fn fractions_round_trip() {
        for glycol in [Glycol::Ethylene, Glycol::Propylene] {
            for percent in 0..=100 {
                let x = Ratio::from_si(f64::from(percent) / 100.0);
                let back = mass_fraction_from_volume_fraction(glycol, volume_fraction_from_mass_fraction(glycol, x));
                assert!((back - x).si().abs() < 1e-12);
            }
        }
    }

    #[test]
    fn refuses_ice_and_slush_and_more_glycol_than_was_measured() {
        assert!(water(celsius(-1.0)).is_err());
        let refused = glycol_water(Glycol::Ethylene, Ratio::from_si(0.3), celsius(-20.0)).unwrap_err();
        assert!((refused.from - 273.15 + 14.576).abs() < 0.01 && (refused.was - 253.15).abs() < 1e-9);
        assert!(glycol_water(Glycol::Propylene, Ratio::from_si(0.7), celsius(20.0)).is_err());
        assert!(glycol_water(Glycol::Propylene, Ratio::from_si(0.3), celsius(101.0)).is_err());
        assert!(pure_glycol(Glycol::Propylene, celsius(-35.0)).is_err());
    }

    #[test]
    fn more_glycol_freezes_later_and_flows_worse() {
        for glycol in [Glycol::Ethylene, Glycol::Propylene] {
            let at = |percent: i32| Ratio::from_si(f64::from(percent) / 100.0);
            for percent in 0..60 {
                let (less, more) = (at(percent), at(percent + 1));
                assert!(freezing_temperature(glycol, more).unwrap() < freezing_temperature(glycol, less).unwrap());
                let viscosity = |x| glycol_water(glycol, x, celsius(20.0)).unwrap().viscosity;
                assert!(viscosity(more) > viscosity(less));
            }
        }
    }

    #[test]
    fn water_at_20_degrees() {
        // Viscosity 1.0016 mPa·s (ISO/TR 3666), Prandtl about 7.0.
        let water = water(celsius(20.0)).unwrap();
        assert!((water.viscosity.si() * 1e3 - 1.0016).abs() < 5e-4);
        assert!((water.prandtl() - 7.0).abs() < 0.05);
        assert!((water.kinematic_viscosity().si() * 1e6 - 1.0034).abs() < 1e-3);
    }
}
