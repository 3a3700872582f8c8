//! The quantities that arithmetic works with: uom's, plus the few that it lacks. All are f64 in SI base units.

use std::marker::PhantomData;
use uom::si::{ISQ, SI};
use uom::typenum::{N1, N2, N3, P1, P2, P3, P4, Z0};

pub use uom::ConstZero;
pub use uom::si::f64::{
    Acceleration, Angle, AngularAcceleration, AngularVelocity, Area, DynamicViscosity, ElectricCharge, ElectricCurrent,
    ElectricPotential, ElectricalResistance, Energy, Force, Frequency, HeatCapacity, HeatTransfer, Length,
    LinearMassDensity, Mass, MassDensity, MassRate, MolarMass, MomentOfInertia, Power, Pressure, Ratio,
    SpecificHeatCapacity, TemperatureCoefficient, TemperatureInterval, ThermalConductance, ThermalConductivity,
    ThermalResistance, ThermodynamicTemperature, Time, Torque, Velocity, Volume, VolumeRate,
};

/// mm²/s and its like: the same dimension as a diffusion coefficient.
pub type KinematicViscosity = uom::si::f64::KinematicViscosity;
/// Heat flow per area, W/m².
pub type HeatFlux = uom::si::f64::HeatFluxDensity;
/// Second moment of area, m⁴. The section modulus is a [`Volume`].
pub type SecondMomentOfArea = uom::si::Quantity<ISQ<P4, Z0, Z0, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Force per length, N/m.
pub type SpringRate = uom::si::Quantity<ISQ<Z0, P1, N2, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Force per velocity, N·s/m.
pub type DampingRate = uom::si::Quantity<ISQ<Z0, P1, N1, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Bending stiffness E·I, N·m².
pub type BendingStiffness = uom::si::Quantity<ISQ<P3, P1, N2, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Fracture energy per area, J/m².
pub type ImpactEnergy = uom::si::Quantity<ISQ<Z0, P1, N2, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Bearing pressure times rubbing speed, Pa·m/s.
pub type PressureSpeed = uom::si::Quantity<ISQ<Z0, P1, N3, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Speed constant of a motor, rad/(V·s): the reciprocal of its torque constant in N·m/A.
pub type SpeedConstant = uom::si::Quantity<ISQ<N2, N1, P2, P1, Z0, Z0, Z0>, SI<f64>, f64>;

/// Every uom quantity of ours: f64 in SI base units.
pub trait Quantity: Copy + Send + Sync + 'static {
    /// From the number in SI base units (K for an absolute temperature, rad for an angle).
    fn from_si(si: f64) -> Self;
    /// The number in SI base units.
    fn si(self) -> f64;
}

impl<D: uom::si::Dimension + Send + Sync + ?Sized + 'static> Quantity for uom::si::Quantity<D, SI<f64>, f64> {
    fn from_si(si: f64) -> Self {
        Self { dimension: PhantomData, units: PhantomData, value: si }
    }
    fn si(self) -> f64 {
        self.value
    }
}

impl Quantity for f64 {
    fn from_si(si: f64) -> Self {
        si
    }
    fn si(self) -> f64 {
        self
    }
}

/// `hotter − colder` in K. uom has no difference of two absolute temperatures; every gap needs it.
#[must_use]
pub fn difference(hotter: ThermodynamicTemperature, colder: ThermodynamicTemperature) -> TemperatureInterval {
    TemperatureInterval::from_si(hotter.si() - colder.si())
}

/// An absolute temperature from °C.
#[must_use]
pub fn celsius(degrees: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::from_si(degrees + 273.15)
}
