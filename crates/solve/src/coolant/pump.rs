//! What the pumps make of a flow.

use crate::at::At;
use crate::drive::outside;
use machine::{Found, Jug, NotJudged, PumpKind};
use quantity::*;

/// Litres in so many seconds.
pub(super) fn jugged(at: &At, jug: &Jug) -> Found<f64> {
    Ok((at.need(&jug.volume)? / at.need(&jug.time)?).si())
}

/// Rise over flow of all pumps of the circuit, one behind the other.
pub(super) struct PumpCurve {
    kind: PumpKind,
    pub(super) free: f64,
    stall: f64,
    /// Each has a valve that opens here.
    relief: f64,
    /// Of the test behind the two ends of its curve: water at 20 °C, unless anybody says otherwise.
    viscosity: f64,
    pub(super) count: f64,
}

impl PumpCurve {
    pub(super) fn read(at: &At, count: f64) -> Found<Self> {
        let pump = &at.machine().cooling.pump;
        let kind = *at.part(&pump.works_by)?;
        let free = match (at.try_get(&pump.free_flow), kind) {
            (Some(free), _) => free.si(),
            (None, _) if pump.jug.there().is_some() => jugged(at, at.part(&pump.jug)?)?,
            (None, PumpKind::PositiveDisplacement) => {
                let (turn, speed) = (at.try_get(&pump.displacement), at.try_get(&pump.speed));
                match (turn, speed) {
                    (Some(turn), Some(speed)) => turn.si() * speed.si() / std::f64::consts::TAU,
                    _ => at.need(&pump.free_flow)?.si(),
                }
            }
            (None, PumpKind::Centrifugal) => at.need(&pump.free_flow)?.si(),
        };
        let stall = at.need(&pump.stall_pressure)?.si();
        if !(free > 0.0 && stall > 0.0) {
            return Err(NotJudged::NoSolution(
                "the pump moves nothing: its free flow or stall pressure is zero".into(),
            ));
        }
        let relief = at.try_get(&pump.relief).map_or(f64::INFINITY, Quantity::si);
        let viscosity = physics::coolant::water(celsius(20.0)).map_err(outside)?.viscosity.si();
        Ok(Self { kind, free, stall, relief, viscosity, count })
    }

    /// The most that all of them make together, Pa: against a closed way, or until the relief valves open.
    pub(super) fn most(&self) -> f64 {
        self.count * self.stall.min(self.relief)
    }

    /// Pressure that they make together at a flow, Pa, and how much less for each m³/s more.
    pub(super) fn rise(&self, flow: f64, viscosity: f64) -> (f64, f64) {
        let (rate, free, stall) =
            (VolumeRate::from_si(flow), VolumeRate::from_si(self.free), Pressure::from_si(self.stall));
        let (rise, falls) = match self.kind {
            PumpKind::Centrifugal => {
                let rise = physics::pump::centrifugal_rise(stall, free, rate, Ratio::from_si(1.0)).si();
                (rise, 2.0 * self.stall * flow / (self.free * self.free))
            }
            PumpKind::PositiveDisplacement => {
                // One turn a second, that moves a second's free flow. Thick coolant leaks back less, but what the motor
                // can push against stays: without that, pressures in the cold would be absurd.
                let (turn, speed) = (Volume::from_si(self.free), AngularVelocity::from_si(std::f64::consts::TAU));
                let thicker = viscosity / self.viscosity;
                let rise =
                    physics::pump::displacement_rise(turn, speed, free, stall, rate, Ratio::from_si(thicker)).si();
                (rise, self.stall * thicker / self.free)
            }
        };
        let most = self.stall.min(self.relief);
        if rise >= most { (self.count * most, 0.0) } else { (self.count * rise, self.count * falls) }
    }

    /// Whether the relief valves are open at this rise of all pumps.
    pub(super) fn relieved(&self, rise: f64) -> bool {
        self.relief < self.stall && rise >= self.count * self.relief * (1.0 - 1e-12)
    }
}
