//! A closed gas space above a liquid: what cold, heat and rising liquid do to its pressure.

use quantity::*;

/// Pressure of a closed gas space after its temperature or volume changed, p₂ = p₁ · V₁/V₂ · T₂/T₁.
///
/// Inputs: absolute pressure p₁ (Pa), not gauge; volume V₁ (m³) and temperature T₁ (K) when it was closed; V₂, T₂ now.
/// Returns: absolute pressure (Pa). Vapour of the liquid adds its own, see `boiling`.
/// Valid for: air up to a few MPa, nothing leaking or dissolving; at V₂ = 0 it is infinite: full of liquid.
/// Source: ideal gas law; published.
#[must_use]
pub fn pressure_after(
    pressure: Pressure,
    volume: Volume,
    temperature: ThermodynamicTemperature,
    volume_now: Volume,
    temperature_now: ThermodynamicTemperature,
) -> Pressure {
    pressure * (volume / volume_now) * (temperature_now / temperature)
}

/// Volume that a liquid takes after warming, V·ρ₁/ρ₂.
///
/// Inputs: volume V (m³) at density ρ₁ (kg/m³); density ρ₂ now.
/// Returns: volume (m³).
/// Valid for: no liquid lost.
/// Source: conservation of mass.
#[must_use]
pub fn expanded_volume(volume: Volume, density: MassDensity, density_now: MassDensity) -> Volume {
    volume * (density / density_now)
}

/// What a gas loses in volume when it is pressed harder at its temperature, V·(1 − p₁/p₂).
///
/// Inputs: volume V (m³) at the absolute pressure p₁ (Pa); absolute pressure p₂ now.
/// Returns: volume (m³), negative where it is pressed less.
/// Valid for: as [`pressure_after`]; nothing dissolves.
/// Source: ideal gas law (Boyle); published.
#[must_use]
pub fn squeezed_volume(volume: Volume, pressure: Pressure, pressure_now: Pressure) -> Volume {
    volume * (1.0 - (pressure / pressure_now).si())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn there_and_back() {
        // Property: whatever is done and undone leaves the pressure as it was.
        for degrees in [-40.0, -10.0, 35.0, 95.0] {
            for share in [0.2, 0.7, 1.3] {
                let (p, v, t) = (Pressure::from_si(101e3), Volume::from_si(2e-4), celsius(20.0));
                let (v2, t2) = (v * share, celsius(degrees));
                let there = pressure_after(p, v, t, v2, t2);
                let back = pressure_after(there, v2, t2, v, t);
                assert!(((back / p).si() - 1.0).abs() < 1e-12);
            }
        }
    }

    #[test]
    fn a_bubble_at_twice_the_pressure_is_half_as_large() {
        let v = Volume::from_si(3e-6);
        let lost = squeezed_volume(v, Pressure::from_si(100e3), Pressure::from_si(200e3));
        assert!((lost.si() - 1.5e-6).abs() < 1e-18);
        // Second route: the volume at which the gas law gives that pressure.
        let t = celsius(20.0);
        let back = pressure_after(Pressure::from_si(100e3), v, t, v - lost, t);
        assert!((back.si() - 200e3).abs() < 1e-6);
    }

    #[test]
    fn a_bottle_closed_warm_sucks_in_the_cold() {
        // By hand: 101 kPa · 253.15 / 313.15 = 81.648 kPa.
        let v = Volume::from_si(1e-3);
        let p = pressure_after(Pressure::from_si(101e3), v, celsius(40.0), v, celsius(-20.0));
        assert!((p.si() - 81_648.4).abs() < 0.5);
        // Water from 20 to 80 °C: 998.2/971.8 = 2.7 % more.
        let warm = expanded_volume(v, MassDensity::from_si(998.2), MassDensity::from_si(971.8));
        assert!(((warm / v).si() - 1.0272).abs() < 1e-4);
    }
}
