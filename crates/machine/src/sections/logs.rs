//! The log of a test run: which column holds what, and in which unit. The rows themselves are read once with the document.

use crate::named::Maybe;
use schemars::JsonSchema;
use serde::Deserialize;

/// Which of the log's columns holds what. All that are named are read; others may stand beside them.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Columns {
    /// Counted from any moment; it never goes back.
    pub time: Column<TimeUnit>,
    /// Of the track; which way does not matter.
    pub speed: Column<SpeedUnit>,
    /// Of one motor, negative where it brakes.
    pub motor_current: Column<CurrentUnit>,
    /// Out of the battery, negative where it is charged.
    pub battery_current: Column<CurrentUnit>,
    /// At the battery's terminals.
    pub battery_voltage: Column<VoltageUnit>,
    /// Out of the battery; left out: current times voltage.
    pub battery_power: Column<PowerUnit>,
    /// Of the motor's case.
    pub motor_temperature: Column<TemperatureUnit>,
    /// At the controller's sensor.
    pub controller_temperature: Column<TemperatureUnit>,
    /// Of the cells.
    pub battery_temperature: Column<TemperatureUnit>,
}

/// One column of a log.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Column<U> {
    /// What stands above it in the file's first line.
    pub heading: Maybe<String>,
    pub unit: Maybe<U>,
}

words! {
    pub enum TimeUnit { Seconds = "s", Milliseconds = "ms", Minutes = "min", Hours = "h" }
}

words! {
    pub enum SpeedUnit { KilometresAnHour = "km/h", MetresASecond = "m/s", MilesAnHour = "mph" }
}

words! {
    pub enum CurrentUnit { Amperes = "A", Milliamperes = "mA" }
}

words! {
    pub enum VoltageUnit { Volts = "V", Millivolts = "mV" }
}

words! {
    pub enum PowerUnit { Watts = "W", Kilowatts = "kW" }
}

words! {
    pub enum TemperatureUnit { Celsius = "°C", Fahrenheit = "°F", Kelvin = "K" }
}
