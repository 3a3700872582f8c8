//! What a column of a log may hold.

use quantity::{Kind, Measure, Unit, m};

/// What stands in a column; its word is the key under `columns:`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    Time,
    Speed,
    MotorCurrent,
    BatteryCurrent,
    BatteryVoltage,
    BatteryPower,
    MotorTemperature,
    ControllerTemperature,
    BatteryTemperature,
}

impl Role {
    pub const ALL: [Self; 9] = [
        Self::Time,
        Self::Speed,
        Self::MotorCurrent,
        Self::BatteryCurrent,
        Self::BatteryVoltage,
        Self::BatteryPower,
        Self::MotorTemperature,
        Self::ControllerTemperature,
        Self::BatteryTemperature,
    ];

    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Time => "time",
            Self::Speed => "speed",
            Self::MotorCurrent => "motor_current",
            Self::BatteryCurrent => "battery_current",
            Self::BatteryVoltage => "battery_voltage",
            Self::BatteryPower => "battery_power",
            Self::MotorTemperature => "motor_temperature",
            Self::ControllerTemperature => "controller_temperature",
            Self::BatteryTemperature => "battery_temperature",
        }
    }

    #[must_use]
    pub fn of(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|role| role.word() == word)
    }

    pub(crate) fn index(self) -> usize {
        self as usize
    }

    fn kind(self) -> &'static Kind {
        match self {
            Self::Time => m::Duration::KIND,
            Self::Speed => m::Speed::KIND,
            Self::MotorCurrent | Self::BatteryCurrent => m::Current::KIND,
            Self::BatteryVoltage => m::Voltage::KIND,
            Self::BatteryPower => m::Power::KIND,
            Self::MotorTemperature | Self::ControllerTemperature | Self::BatteryTemperature => m::Temperature::KIND,
        }
    }

    /// The unit of that spelling.
    pub(crate) fn unit(self, spelling: &str) -> Option<&'static Unit> {
        let known = |unit: &&Unit| unit.symbol == spelling || unit.also.contains(&spelling);
        self.kind().units.iter().find(known)
    }
}

/// A column that the spec names: what it holds, what stands above it in the file, and in which unit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    pub role: Role,
    pub heading: String,
    pub unit: String,
}
