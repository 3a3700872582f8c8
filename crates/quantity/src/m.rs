//! The measures of a machine spec: one marker type each, one table for parser, errors and schema.

use crate::measure::{Bounds, Kind, Measure, Unit};
use crate::types;
use std::collections::HashMap;
use std::sync::LazyLock;

const fn unit(symbol: &'static str, factor: f64, also: &'static [&'static str]) -> Unit {
    Unit { symbol, also, factor, offset: 0.0 }
}

const fn degrees(symbol: &'static str, factor: f64, offset: f64, also: &'static [&'static str]) -> Unit {
    Unit { symbol, also, factor, offset }
}

macro_rules! measure {
    ($(#[$doc:meta])* $mark:ident => $q:ident, $name:literal, $key:literal, $least:expr, $most:expr, above: $above:literal,
     bare: $bare:literal, whole: $whole:literal, $example:literal, $typical:expr, $note:literal, [$($unit:expr),* $(,)?]) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub struct $mark;
        impl Measure for $mark {
            type Q = types::$q;
            const KIND: &'static Kind = &Kind {
                name: $name,
                key: $key,
                units: &[$($unit),*],
                bounds: Bounds { least: $least, most: $most, above_least: $above },
                bare: $bare,
                whole: $whole,
                example: $example,
                typical: $typical,
                note: $note,
            };
        }
    };
}

measure!(
    /// A length.
    Length => Length, "a length", "length", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "12 mm", 1e-2, "",
    [unit("mm", 1e-3, &[]), unit("cm", 1e-2, &[]), unit("m", 1.0, &[]), unit("km", 1e3, &[]), unit("µm", 1e-6, &["um", "μm"]), unit("in", 0.0254, &["\""]), unit("ft", 0.3048, &[]), unit("thou", 2.54e-5, &[])]
);
measure!(
    /// A distance, zero or more.
    Distance => Length, "a distance, zero or more", "distance", 0.0, f64::INFINITY, above: false, bare: false, whole: false,
    "3 mm", 1e-2, "",
    [unit("mm", 1e-3, &[]), unit("cm", 1e-2, &[]), unit("m", 1.0, &[]), unit("km", 1e3, &[]), unit("µm", 1e-6, &["um", "μm"]), unit("in", 0.0254, &["\""]), unit("ft", 0.3048, &[]), unit("thou", 2.54e-5, &[])]
);
measure!(
    /// A position, negative allowed.
    Position => Length, "a position, negative allowed", "position", f64::NEG_INFINITY, f64::INFINITY, above: false, bare: false, whole: false,
    "-15 mm", 1e-2, "",
    [unit("mm", 1e-3, &[]), unit("cm", 1e-2, &[]), unit("m", 1.0, &[]), unit("km", 1e3, &[]), unit("µm", 1e-6, &["um", "μm"]), unit("in", 0.0254, &["\""]), unit("ft", 0.3048, &[]), unit("thou", 2.54e-5, &[])]
);
measure!(
    /// An altitude.
    Altitude => Length, "an altitude", "altitude", -500.0, 11000.0, above: false, bare: false, whole: false,
    "600 m", 500.0, "",
    [unit("mm", 1e-3, &[]), unit("cm", 1e-2, &[]), unit("m", 1.0, &[]), unit("km", 1e3, &[]), unit("µm", 1e-6, &["um", "μm"]), unit("in", 0.0254, &["\""]), unit("ft", 0.3048, &[]), unit("thou", 2.54e-5, &[])]
);
measure!(
    /// An area.
    Area => Area, "an area", "area", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "22 cm²", 1e-3, "",
    [unit("mm²", 1e-6, &["mm2", "mm^2"]), unit("cm²", 1e-4, &["cm2", "cm^2"]), unit("m²", 1.0, &["m2", "m^2"]), unit("in²", 6.4516e-4, &["in2", "in^2"])]
);
measure!(
    /// A wire size, a gauge such as 10 AWG, or the cross-section of its metal.
    WireSize => Area, "a wire size", "wire_size", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "10 AWG", 5e-6, "a gauge such as 10 AWG, or the cross-section of its metal",
    [unit("mm²", 1e-6, &["mm2", "mm^2"]), unit("cm²", 1e-4, &["cm2", "cm^2"]), unit("m²", 1.0, &["m2", "m^2"]), unit("in²", 6.4516e-4, &["in2", "in^2"])]
);
measure!(
    /// A volume.
    Volume => Volume, "a volume", "volume", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "35 mL", 1e-4, "",
    [unit("mL", 1e-6, &["ml", "cm³", "cm3", "cc"]), unit("L", 1e-3, &["l", "dm³", "dm3"]), unit("mm³", 1e-9, &["mm3"]), unit("m³", 1.0, &["m3"])]
);
measure!(
    /// A mass, write kgf or N where a force is wanted.
    Mass => Mass, "a mass", "mass", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "41 kg", 1.0, "write kgf or N where a force is wanted",
    [unit("g", 1e-3, &[]), unit("kg", 1.0, &[]), unit("t", 1e3, &[]), unit("lb", 0.45359237, &[]), unit("oz", 0.028349523125, &[])]
);
measure!(
    /// A mass per length.
    MassPerLength => LinearMassDensity, "a mass per length", "mass_per_length", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "1.3 kg/m", 1.0, "",
    [unit("kg/m", 1.0, &[]), unit("g/m", 1e-3, &[]), unit("g/mm", 1.0, &[])]
);
measure!(
    /// A time.
    Duration => Time, "a time", "duration", 0.0, f64::INFINITY, above: false, bare: false, whole: false,
    "35 min", 60.0, "",
    [unit("s", 1.0, &[]), unit("ms", 1e-3, &[]), unit("min", 60.0, &[]), unit("h", 3600.0, &[]), unit("d", 86400.0, &["days", "day"])]
);
measure!(
    /// A speed.
    Speed => Velocity, "a speed", "speed", 0.0, f64::INFINITY, above: false, bare: false, whole: false,
    "6 km/h", 2.0, "",
    [unit("km/h", 1.0/3.6, &["kph"]), unit("m/s", 1.0, &[]), unit("mm/s", 1e-3, &[]), unit("mph", 0.44704, &[]), unit("ft/s", 0.3048, &[])]
);
measure!(
    /// A speed of one surface, or of a stream, past another.
    SurfaceSpeed => Velocity, "a rubbing speed", "surface_speed", 0.0, f64::INFINITY, above: false, bare: false, whole: false,
    "0.5 m/s", 0.5, "",
    [unit("m/s", 1.0, &[]), unit("mm/s", 1e-3, &[]), unit("km/h", 1.0/3.6, &["kph"]), unit("ft/s", 0.3048, &[])]
);
measure!(
    /// An acceleration.
    Acceleration => Acceleration, "an acceleration", "acceleration", 0.0, f64::INFINITY, above: false, bare: false, whole: false,
    "3 m/s²", 3.0, "",
    [unit("m/s²", 1.0, &["m/s2", "m/s^2"])]
);
measure!(
    /// A force, a scale that shows kg shows kgf.
    Force => Force, "a force", "force", 0.0, f64::INFINITY, above: false, bare: false, whole: false,
    "90 N", 100.0, "a scale that shows kg shows kgf",
    [unit("N", 1.0, &[]), unit("kN", 1e3, &[]), unit("MN", 1e6, &[]), unit("kgf", 9.80665, &[]), unit("lbf", 4.4482216152605, &[])]
);
measure!(
    /// A torque.
    Torque => Torque, "a torque", "torque", 0.0, f64::INFINITY, above: false, bare: false, whole: false,
    "4.5 N·m", 1.0, "",
    [unit("N·m", 1.0, &["Nm", "N*m", "N m"]), unit("N·mm", 1e-3, &["Nmm", "N*mm"]), unit("N·cm", 1e-2, &["Ncm", "N*cm"]), unit("kN·m", 1e3, &["kNm"]), unit("kgf·cm", 0.0980665, &["kgf*cm"]), unit("lbf·ft", 1.3558179483314004, &["lbf*ft"]), unit("lbf·in", 0.1129848290276167, &["lbf*in"])]
);
measure!(
    /// A torsional stiffness, torque for each angle of twist.
    TorsionalStiffness => Torque, "a torsional stiffness", "torsional_stiffness", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "12 N·m/°", 500.0, "torque for each angle of twist",
    [unit("N·m/rad", 1.0, &["Nm/rad", "N*m/rad"]), unit("N·m/°", 180.0 / std::f64::consts::PI, &["Nm/°", "N·m/deg", "Nm/deg"])]
);
measure!(
    /// An absolute pressure, absolute: counted from vacuum, the air itself is about 100 kPa.
    Pressure => Pressure, "an absolute pressure", "pressure", 0.0, f64::INFINITY, above: false, bare: false, whole: false,
    "101 kPa", 1e5, "absolute: counted from vacuum, the air itself is about 100 kPa",
    [unit("kPa", 1e3, &[]), unit("Pa", 1.0, &[]), unit("MPa", 1e6, &["N/mm²", "N/mm2"]), unit("hPa", 1e2, &[]), unit("mbar", 1e2, &[]), unit("bar", 1e5, &[]), unit("psi", 6894.757293168361, &[])]
);
measure!(
    /// A pressure above the surrounding air, gauge: counted from the surrounding air.
    GaugePressure => Pressure, "a pressure above the surrounding air", "gauge_pressure", -110e3, f64::INFINITY, above: false, bare: false, whole: false,
    "180 kPa", 5e4, "gauge: counted from the surrounding air",
    [unit("kPa", 1e3, &[]), unit("Pa", 1.0, &[]), unit("MPa", 1e6, &["N/mm²", "N/mm2"]), unit("hPa", 1e2, &[]), unit("mbar", 1e2, &[]), unit("bar", 1e5, &[]), unit("psi", 6894.757293168361, &[])]
);
measure!(
    /// A pressure difference.
    PressureLoss => Pressure, "a pressure difference", "pressure_loss", 0.0, f64::INFINITY, above: false, bare: false, whole: false,
    "9 kPa", 1e4, "",
    [unit("kPa", 1e3, &[]), unit("Pa", 1.0, &[]), unit("MPa", 1e6, &["N/mm²", "N/mm2"]), unit("hPa", 1e2, &[]), unit("mbar", 1e2, &[]), unit("bar", 1e5, &[]), unit("psi", 6894.757293168361, &[])]
);
measure!(
    /// A stress or strength.
    Stress => Pressure, "a stress or strength", "stress", 0.0, f64::INFINITY, above: false, bare: false, whole: false,
    "48 MPa", 2e7, "",
    [unit("MPa", 1e6, &["N/mm²", "N/mm2"]), unit("GPa", 1e9, &["kN/mm²", "kN/mm2"]), unit("kPa", 1e3, &[]), unit("Pa", 1.0, &[]), unit("psi", 6894.757293168361, &[]), unit("ksi", 6894757.293168361, &[])]
);
measure!(
    /// A modulus of elasticity.
    Modulus => Pressure, "a modulus of elasticity", "modulus", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "2.1 GPa", 2e9, "",
    [unit("MPa", 1e6, &["N/mm²", "N/mm2"]), unit("GPa", 1e9, &["kN/mm²", "kN/mm2"]), unit("kPa", 1e3, &[]), unit("Pa", 1.0, &[]), unit("psi", 6894.757293168361, &[]), unit("ksi", 6894757.293168361, &[])]
);
measure!(
    /// A temperature, a reading of a thermometer, not a difference.
    Temperature => ThermodynamicTemperature, "a temperature", "temperature", 0.0, 1e5, above: true, bare: false, whole: false,
    "-30 °C", 293.15, "a reading of a thermometer, not a difference",
    [degrees("°C", 1.0, 273.15, &["C", "degC", "℃"]), degrees("°F", 5.0 / 9.0, 459.67 * 5.0 / 9.0, &["F", "degF", "℉"]), degrees("K", 1.0, 0.0, &[])]
);
measure!(
    /// A temperature difference, a difference, in K: 12 K is 12 degrees Celsius warmer.
    TemperatureDifference => TemperatureInterval, "a temperature difference", "temperature_difference", f64::NEG_INFINITY, f64::INFINITY, above: false, bare: false, whole: false,
    "12 K", 10.0, "a difference, in K: 12 K is 12 degrees Celsius warmer",
    [unit("K", 1.0, &[]), unit("Δ°C", 1.0, &["ΔC"]), unit("Δ°F", 5.0 / 9.0, &["ΔF"])]
);
measure!(
    /// A rotational speed.
    RotationalSpeed => AngularVelocity, "a rotational speed", "rotational_speed", 0.0, f64::INFINITY, above: false, bare: false, whole: false,
    "8800 rpm", 100.0, "",
    [unit("rpm", std::f64::consts::PI / 30.0, &["1/min", "/min", "r/min"]), unit("rad/s", 1.0, &[]), unit("Hz", 2.0 * std::f64::consts::PI, &["1/s", "rev/s"])]
);
measure!(
    /// A speed constant, no-load rpm for each volt between two lines of the motor.
    SpeedConstant => SpeedConstant, "a speed constant", "speed_constant", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "118 rpm/V", 12.0, "no-load rpm for each volt between two lines of the motor",
    [unit("rpm/V", std::f64::consts::PI / 30.0, &[]), unit("rad/(V·s)", 1.0, &["rad/s/V", "rad/(s·V)"])]
);
measure!(
    /// A voltage.
    Voltage => ElectricPotential, "a voltage", "voltage", 0.0, f64::INFINITY, above: false, bare: false, whole: false,
    "58.8 V", 48.0, "",
    [unit("V", 1.0, &[]), unit("mV", 1e-3, &[]), unit("kV", 1e3, &[])]
);
measure!(
    /// A voltage of one cell.
    CellVoltage => ElectricPotential, "a voltage of one cell", "cell_voltage", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "3.1 V/cell", 3.6, "",
    [unit("V/cell", 1.0, &[]), unit("V", 1.0, &[]), unit("mV", 1e-3, &[])]
);
measure!(
    /// A current.
    Current => ElectricCurrent, "a current", "current", 0.0, f64::INFINITY, above: false, bare: false, whole: false,
    "90 A", 20.0, "",
    [unit("A", 1.0, &[]), unit("mA", 1e-3, &[])]
);
measure!(
    /// An electrical resistance.
    Resistance => ElectricalResistance, "an electrical resistance", "resistance", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "31 mΩ", 5e-2, "",
    [unit("mΩ", 1e-3, &["mohm", "mOhm"]), unit("Ω", 1.0, &["ohm", "Ohm"]), unit("µΩ", 1e-6, &["uohm", "μΩ"]), unit("kΩ", 1e3, &["kohm"])]
);
measure!(
    /// A battery capacity.
    Charge => ElectricCharge, "a battery capacity", "charge", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "22 Ah", 36000.0, "",
    [unit("Ah", 3600.0, &["A·h"]), unit("mAh", 3.6, &["mA·h"]), unit("C", 1.0, &["A·s"])]
);
measure!(
    /// An energy.
    Energy => Energy, "an energy", "energy", 0.0, f64::INFINITY, above: false, bare: false, whole: false,
    "1200 Wh", 1e3, "",
    [unit("J", 1.0, &[]), unit("kJ", 1e3, &[]), unit("Wh", 3600.0, &["W·h"]), unit("kWh", 3.6e6, &["kW·h"]), unit("mJ", 1e-3, &[])]
);
measure!(
    /// A power.
    Power => Power, "a power", "power", 0.0, f64::INFINITY, above: false, bare: false, whole: false,
    "350 W", 100.0, "",
    [unit("W", 1.0, &[]), unit("kW", 1e3, &[]), unit("mW", 1e-3, &[]), unit("hp", 745.6998715822702, &[])]
);
measure!(
    /// An angle.
    Angle => Angle, "an angle", "angle", -2.0 * std::f64::consts::PI, 2.0 * std::f64::consts::PI, above: false, bare: false, whole: false,
    "24 °", 0.3, "",
    [unit("°", std::f64::consts::PI / 180.0, &["deg"]), unit("rad", 1.0, &[]), unit("mrad", 1e-3, &[])]
);
measure!(
    /// A density.
    Density => MassDensity, "a density", "density", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "1240 kg/m³", 1000.0, "",
    [unit("kg/m³", 1.0, &["kg/m3"]), unit("g/cm³", 1e3, &["g/cm3", "g/cc"]), unit("kg/L", 1e3, &["kg/l"]), unit("g/L", 1.0, &[])]
);
measure!(
    /// A moment of inertia.
    Inertia => MomentOfInertia, "a moment of inertia", "inertia", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "1.9e-3 kg·m²", 1e-3, "",
    [unit("kg·m²", 1.0, &["kg*m2", "kg*m^2", "kgm2", "kg·m2", "kgm²"]), unit("g·cm²", 1e-7, &["g*cm2", "gcm2", "gcm²"]), unit("kg·cm²", 1e-4, &["kg*cm2", "kgcm2", "kgcm²"])]
);
measure!(
    /// A spring rate.
    SpringRate => SpringRate, "a spring rate", "spring_rate", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "7.2 N/mm", 1e4, "",
    [unit("N/mm", 1e3, &[]), unit("N/m", 1.0, &[]), unit("kN/m", 1e3, &[]), unit("kgf/mm", 9806.65, &[]), unit("lbf/in", 175.12683524647636, &[])]
);
measure!(
    /// A damping rate.
    DampingRate => DampingRate, "a damping rate", "damping_rate", 0.0, f64::INFINITY, above: false, bare: false, whole: false,
    "180 N·s/m", 200.0, "",
    [unit("N·s/m", 1.0, &["Ns/m", "N*s/m"]), unit("N·s/mm", 1e3, &["Ns/mm"]), unit("kN·s/m", 1e3, &["kNs/m"])]
);
measure!(
    /// A dynamic viscosity.
    DynamicViscosity => DynamicViscosity, "a dynamic viscosity", "dynamic_viscosity", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "4.2 mPa·s", 5e-3, "",
    [unit("mPa·s", 1e-3, &["mPas", "mPa*s", "cP"]), unit("Pa·s", 1.0, &["Pas", "Pa*s"])]
);
measure!(
    /// A kinematic viscosity.
    KinematicViscosity => KinematicViscosity, "a kinematic viscosity", "kinematic_viscosity", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "350 mm²/s", 1e-4, "",
    [unit("mm²/s", 1e-6, &["mm2/s", "cSt"]), unit("m²/s", 1.0, &["m2/s"])]
);
measure!(
    /// A thermal conductivity.
    ThermalConductivity => ThermalConductivity, "a thermal conductivity", "thermal_conductivity", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "0.2 W/(m·K)", 0.3, "",
    [unit("W/(m·K)", 1.0, &["W/mK", "W/m/K", "W/(mK)", "W/(m*K)"])]
);
measure!(
    /// A specific heat capacity.
    HeatCapacity => SpecificHeatCapacity, "a specific heat capacity", "heat_capacity", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "1800 J/(kg·K)", 1500.0, "",
    [unit("J/(kg·K)", 1.0, &["J/kgK", "J/kg/K", "J/(kgK)", "J/(kg*K)"]), unit("kJ/(kg·K)", 1e3, &["kJ/kgK", "kJ/kg/K"])]
);
measure!(
    /// A heat transfer coefficient.
    HeatTransfer => HeatTransfer, "a heat transfer coefficient", "heat_transfer", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "12 W/(m²·K)", 10.0, "",
    [unit("W/(m²·K)", 1.0, &["W/m2K", "W/m²K", "W/(m2K)", "W/(m²K)", "W/(m2*K)", "W/(m2·K)"])]
);
measure!(
    /// A thermal resistance.
    ThermalResistance => ThermalResistance, "a thermal resistance", "thermal_resistance", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "0.4 K/W", 0.5, "",
    [unit("K/W", 1.0, &[])]
);
measure!(
    /// A heat flow per area.
    HeatFlux => HeatFlux, "a heat flow per area", "heat_flux", 0.0, f64::INFINITY, above: false, bare: false, whole: false,
    "600 W/m²", 500.0, "",
    [unit("W/m²", 1.0, &["W/m2"]), unit("kW/m²", 1e3, &["kW/m2"])]
);
measure!(
    /// A thermal expansion, length change per length and degree.
    Expansion => TemperatureCoefficient, "a thermal expansion", "expansion", -1e-3, 1e-2, above: false, bare: false, whole: false,
    "70 µm/(m·K)", 7e-5, "length change per length and degree",
    [unit("µm/(m·K)", 1e-6, &["um/(m·K)", "um/mK", "µm/mK", "ppm/K"]), unit("1/K", 1.0, &[]), unit("mm/(m·K)", 1e-3, &["mm/mK"])]
);
measure!(
    /// A flow rate.
    FlowRate => VolumeRate, "a flow rate", "flow_rate", 0.0, f64::INFINITY, above: false, bare: false, whole: false,
    "1.3 L/min", 1.7e-5, "",
    [unit("L/min", 1e-3 / 60.0, &["l/min"]), unit("mL/min", 1e-6 / 60.0, &["ml/min"]), unit("mL/s", 1e-6, &["ml/s"]), unit("L/h", 1e-3 / 3600.0, &["l/h"]), unit("m³/s", 1.0, &["m3/s"])]
);
measure!(
    /// A pump displacement, volume moved in one revolution.
    Displacement => Volume, "a pump displacement", "displacement", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "0.55 mL/rev", 1e-6, "volume moved in one revolution",
    [unit("mL/rev", 1e-6, &["ml/rev", "cc/rev", "cm³/rev", "cm3/rev"])]
);
measure!(
    /// An impact strength.
    ImpactEnergy => ImpactEnergy, "an impact strength", "impact_energy", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "12 kJ/m²", 1e4, "",
    [unit("kJ/m²", 1e3, &["kJ/m2"]), unit("J/m²", 1.0, &["J/m2"]), unit("mJ/mm²", 1e3, &["mJ/mm2"])]
);
measure!(
    /// A p·v limit, bearing pressure times rubbing speed.
    PressureSpeed => PressureSpeed, "a p·v limit", "pressure_speed", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "0.1 MPa·m/s", 1e5, "bearing pressure times rubbing speed",
    [unit("MPa·m/s", 1e6, &["MPa*m/s", "MPam/s", "N/mm²·m/s"]), unit("kPa·m/s", 1e3, &["kPa*m/s"]), unit("W/mm²", 1e6, &["W/mm2"]), unit("psi·ft/min", 6894.757293168361 * 0.3048 / 60.0, &["psi*ft/min"])]
);
measure!(
    /// A share in per cent.
    Percentage => Ratio, "a share in per cent", "percentage", 0.0, 1.0, above: false, bare: false, whole: false,
    "40 %", 0.5, "",
    [unit("%", 1e-2, &[])]
);
measure!(
    /// A relative change in per cent.
    Growth => Ratio, "a relative change in per cent", "growth", -1.0, 10.0, above: false, bare: false, whole: false,
    "0.4 %", 0.01, "",
    [unit("%", 1e-2, &[]), unit("‰", 1e-3, &[])]
);
measure!(
    /// A grade, an angle in degrees, not per cent.
    Grade => Angle, "a grade", "grade", -std::f64::consts::FRAC_PI_2, std::f64::consts::FRAC_PI_2, above: false, bare: false, whole: false,
    "24 °", 0.2, "an angle in degrees, not per cent",
    [unit("°", std::f64::consts::PI / 180.0, &["deg"])]
);
measure!(
    /// A frequency, how often in a second.
    Frequency => Frequency, "a frequency", "frequency", 0.0, f64::INFINITY, above: false, bare: false, whole: false,
    "1.5 Hz", 1.0, "how often in a second",
    [unit("Hz", 1.0, &["1/s"]), unit("1/min", 1.0 / 60.0, &["/min"]), unit("kHz", 1e3, &[])]
);
measure!(
    /// A plain number, zero or more.
    Ratio => Ratio, "a plain number, zero or more", "ratio", 0.0, f64::INFINITY, above: false, bare: true, whole: false,
    "0.62", 1.0, "",
    []
);
measure!(
    /// A plain number, negative allowed.
    Signed => Ratio, "a plain number, negative allowed", "signed", -1e6, 1e6, above: false, bare: true, whole: false,
    "0.3", 0.1, "",
    []
);
measure!(
    /// A plain number above zero.
    Factor => Ratio, "a plain number above zero", "factor", 0.0, f64::INFINITY, above: true, bare: true, whole: false,
    "1.5", 1.0, "",
    []
);
measure!(
    /// A price.
    Price => Ratio, "a price", "price", 0.0, f64::INFINITY, above: false, bare: true, whole: false,
    "24", 10.0, "a plain number, in the same money wherever a price stands",
    []
);
measure!(
    /// A whole number.
    Count => Ratio, "a whole number", "count", 0.0, 1e9, above: false, bare: true, whole: true,
    "4", 2.0, "",
    []
);
measure!(
    /// A whole number, 1 or more.
    Several => Ratio, "a whole number, 1 or more", "several", 1.0, 1e9, above: false, bare: true, whole: true,
    "4", 2.0, "",
    []
);
measure!(
    /// The rated current of a fuse.
    FuseRating => ElectricCurrent, "the rated current of a fuse", "fuse_rating", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "80 A", 50.0, "`none` where there is no fuse",
    [unit("A", 1.0, &[]), unit("mA", 1e-3, &[])]
);
measure!(
    /// A pressure difference above zero.
    PressureRise => Pressure, "a pressure difference above zero", "pressure_rise", 0.0, f64::INFINITY, above: true, bare: false, whole: false,
    "180 kPa", 1e5, "",
    [unit("kPa", 1e3, &[]), unit("Pa", 1.0, &[]), unit("MPa", 1e6, &["N/mm²", "N/mm2"]), unit("hPa", 1e2, &[]), unit("mbar", 1e2, &[]), unit("bar", 1e5, &[]), unit("psi", 6894.757293168361, &[])]
);

/// Every measure, for guessing what a stranger's unit may have meant and for the schema.
pub const ALL: &[&Kind] = &[
    Length::KIND,
    Distance::KIND,
    Position::KIND,
    Altitude::KIND,
    Area::KIND,
    WireSize::KIND,
    Volume::KIND,
    Mass::KIND,
    MassPerLength::KIND,
    Duration::KIND,
    Speed::KIND,
    SurfaceSpeed::KIND,
    Acceleration::KIND,
    Force::KIND,
    Torque::KIND,
    TorsionalStiffness::KIND,
    Pressure::KIND,
    GaugePressure::KIND,
    PressureLoss::KIND,
    Stress::KIND,
    Modulus::KIND,
    Temperature::KIND,
    TemperatureDifference::KIND,
    RotationalSpeed::KIND,
    SpeedConstant::KIND,
    Voltage::KIND,
    CellVoltage::KIND,
    Current::KIND,
    Resistance::KIND,
    Charge::KIND,
    Energy::KIND,
    Power::KIND,
    Angle::KIND,
    Density::KIND,
    Inertia::KIND,
    SpringRate::KIND,
    DampingRate::KIND,
    DynamicViscosity::KIND,
    KinematicViscosity::KIND,
    ThermalConductivity::KIND,
    HeatCapacity::KIND,
    HeatTransfer::KIND,
    ThermalResistance::KIND,
    HeatFlux::KIND,
    Expansion::KIND,
    FlowRate::KIND,
    Displacement::KIND,
    ImpactEnergy::KIND,
    PressureSpeed::KIND,
    Percentage::KIND,
    Growth::KIND,
    Grade::KIND,
    Frequency::KIND,
    Ratio::KIND,
    Signed::KIND,
    Factor::KIND,
    Price::KIND,
    Count::KIND,
    Several::KIND,
    FuseRating::KIND,
    PressureRise::KIND,
];

static BY_KEY: LazyLock<HashMap<&'static str, &'static Kind>> =
    LazyLock::new(|| ALL.iter().map(|kind| (kind.key, *kind)).collect());

/// The measure with that key.
#[must_use]
pub fn named(key: &str) -> Option<&'static Kind> {
    BY_KEY.get(key).copied()
}
