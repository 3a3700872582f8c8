//! Coolant pumps by the few numbers that makers print. Rise is the pressure difference that the pump makes.

use quantity::*;

/// Flow of a gear, vane, piston or tube pump: what it displaces less what leaks back, D·n − slip·Δp.
///
/// Inputs: displacement D (m³ a revolution); rotational speed (rad/s); free flow (m³/s) at no pressure and stall pressure
/// (Pa) at no flow, both of one test, their ratio being the leak; rise Δp (Pa); viscosity over that of the test.
/// Returns: flow (m³/s), negative above the stall pressure: it leaks backwards faster than it pumps.
/// Valid for: laminar gaps, so leak in proportion to pressure and inversely to viscosity; filling without bubbles.
/// Source: slip in proportion to pressure is common practice (Wilson's pump model of 1950, from memory).
#[must_use]
pub fn displacement_flow(
    displacement: Volume,
    speed: AngularVelocity,
    free_flow: VolumeRate,
    stall_pressure: Pressure,
    rise: Pressure,
    viscosity_ratio: Ratio,
) -> VolumeRate {
    let pumped = displacement.si() * speed.si() / std::f64::consts::TAU;
    VolumeRate::from_si(pumped - free_flow.si() * (rise / stall_pressure).si() / viscosity_ratio.si())
}

/// Rise against which such a pump still moves a flow: [`displacement_flow`] turned round.
///
/// Inputs: as there, with the flow (m³/s) in place of the rise.
/// Returns: pressure (Pa). In cold thick coolant it can burst a hose long before the pump stalls: fit a relief valve.
/// Valid for: as there.
/// Source: as there.
#[must_use]
pub fn displacement_rise(
    displacement: Volume,
    speed: AngularVelocity,
    free_flow: VolumeRate,
    stall_pressure: Pressure,
    flow: VolumeRate,
    viscosity_ratio: Ratio,
) -> Pressure {
    let pumped = displacement.si() * speed.si() / std::f64::consts::TAU;
    stall_pressure * ((pumped - flow.si()) / free_flow.si() * viscosity_ratio.si())
}

/// Rise of a centrifugal pump, Δp = p₀·(s² − (Q/Q₀)²).
///
/// Inputs: shut-off pressure p₀ (Pa) at no flow; free flow Q₀ (m³/s) at no pressure; flow Q (m³/s); s, the speed over
/// that of the test.
/// Returns: pressure (Pa), negative beyond what it can deliver.
/// Valid for: liquids about as thin as water. Thick coolant lowers it; how much, only a test says.
/// Source: a parabola through the two ends of the curve is common practice; the affinity laws for s are published.
#[must_use]
pub fn centrifugal_rise(shut_off: Pressure, free_flow: VolumeRate, flow: VolumeRate, speed_ratio: Ratio) -> Pressure {
    shut_off * (speed_ratio * speed_ratio - (flow / free_flow) * (flow / free_flow))
}

/// Flow of a centrifugal pump against a rise: [`centrifugal_rise`] turned round.
///
/// Inputs: as there, with the rise (Pa) in place of the flow.
/// Returns: flow (m³/s); none above the shut-off pressure.
/// Valid for: as there.
/// Source: as there.
#[must_use]
pub fn centrifugal_flow(shut_off: Pressure, free_flow: VolumeRate, rise: Pressure, speed_ratio: Ratio) -> VolumeRate {
    let left = (speed_ratio * speed_ratio - rise / shut_off).si();
    free_flow * left.max(0.0).sqrt()
}

/// Pressure that lifting a liquid takes, ρ·g·h.
///
/// Inputs: density ρ (kg/m³); height h (m).
/// Returns: pressure (Pa).
/// Valid for: any.
/// Source: definition.
#[must_use]
pub fn lift(density: MassDensity, height: Length) -> Pressure {
    Pressure::from_si(density.si() * crate::air::GRAVITY * height.si())
}

#[cfg(test)]
mod tests {
    use super::*;

    const FREE: f64 = 20e-6;
    const STALL: f64 = 80e3;

    fn gear(rise: f64, speed: f64, thick: f64) -> f64 {
        displacement_flow(
            Volume::from_si(FREE * std::f64::consts::TAU / 100.0),
            AngularVelocity::from_si(speed),
            VolumeRate::from_si(FREE),
            Pressure::from_si(STALL),
            Pressure::from_si(rise),
            Ratio::from_si(thick),
        )
        .si()
    }

    #[test]
    fn displacement_pump_at_both_ends() {
        assert!((gear(0.0, 100.0, 1.0) - FREE).abs() < 1e-18);
        assert!(gear(STALL, 100.0, 1.0).abs() < 1e-18);
        assert!((gear(STALL, 100.0, 4.0) - 0.75 * FREE).abs() < 1e-18, "thicker leaks less");
        assert!(gear(STALL, 80.0, 1.0) < 0.0);
        let rise = displacement_rise(
            Volume::from_si(FREE * std::f64::consts::TAU / 100.0),
            AngularVelocity::from_si(70.0),
            VolumeRate::from_si(FREE),
            Pressure::from_si(STALL),
            VolumeRate::from_si(gear(12e3, 70.0, 2.0)),
            Ratio::from_si(2.0),
        );
        assert!((rise.si() - 12e3).abs() < 1e-6);
    }

    #[test]
    fn centrifugal_pump_at_both_ends_and_by_affinity() {
        let (p0, q0) = (Pressure::from_si(15e3), VolumeRate::from_si(1e-4));
        let one = Ratio::from_si(1.0);
        assert!((centrifugal_rise(p0, q0, VolumeRate::from_si(0.0), one) - p0).si().abs() < 1e-9);
        assert!(centrifugal_rise(p0, q0, q0, one).si().abs() < 1e-9);
        assert!(centrifugal_flow(p0, q0, Pressure::from_si(16e3), one).si() == 0.0);
        // Half the speed: half the flow against a quarter of the pressure.
        let full = centrifugal_rise(p0, q0, q0 * 0.6, one);
        let half = centrifugal_rise(p0, q0, q0 * 0.3, Ratio::from_si(0.5));
        assert!(((half / full).si() - 0.25).abs() < 1e-12);
        let back = centrifugal_flow(p0, q0, half, Ratio::from_si(0.5));
        assert!(((back / q0).si() - 0.3).abs() < 1e-12);
    }
}
