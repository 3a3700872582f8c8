//! Outside air and pressure, and the air and water vapour of each zone.

#[cfg(test)]
mod tests;

use crate::at::{At, Solve};
use crate::drive::outside as refused;
use machine::{Case, CaseKind, Found, Moisture, Ref, Zone};
use physics::moisture;
use quantity::*;

/// The surroundings in one case point.
#[derive(Debug, Clone, PartialEq)]
pub struct Surroundings {
    /// The room's, where the machine is brought indoors.
    pub outside: ThermodynamicTemperature,
    /// Absolute, at the altitude where it is lowest.
    pub pressure: Pressure,
    /// Water vapour in the outside air.
    pub vapour: Pressure,
    /// In the order of the machine's zones.
    pub zones: Vec<Found<ZoneAir>>,
    /// Temperature alone of each zone's air, in the same order: known without its moisture.
    pub zone_airs: Vec<Found<ThermodynamicTemperature>>,
}

impl Surroundings {
    /// Air of the zone that is named, the outside air where none is.
    ///
    /// # Errors
    /// How warm the zone gets is not given.
    pub fn air(&self, at: &At, zone: Option<&Ref<Zone>>) -> Found<ThermodynamicTemperature> {
        let Some(zone) = zone else { return Ok(self.outside) };
        let machine = at.machine();
        let named = machine.follow(zone).name();
        let found = machine.zones.iter().zip(&self.zone_airs).find(|(each, _)| each.name() == named);
        found.map_or(Ok(self.outside), |(_, air)| air.clone())
    }
}

impl Surroundings {
    /// Dew or frost point of the zone that is named, of the outside air where none is.
    ///
    /// # Errors
    /// The water in that air is not known.
    pub fn dew(&self, at: &At, zone: Option<&Ref<Zone>>) -> Found<ThermodynamicTemperature> {
        let Some(zone) = zone else { return moisture::dew_or_frost_point(self.vapour).map_err(refused) };
        let named = at.machine().follow(zone).name();
        let place = at.machine().zones.iter().position(|each| each.name() == named);
        match place.and_then(|place| self.zones.get(place)) {
            Some(air) => air.clone().map(|air| air.dew),
            None => Err(machine::NotJudged::NoSolution("the air of this zone is not worked out".into())),
        }
    }
}

/// The air of one zone.
#[derive(Debug, Clone, PartialEq)]
pub struct ZoneAir {
    pub air: ThermodynamicTemperature,
    pub vapour: Pressure,
    /// Below it water (or frost) settles.
    pub dew: ThermodynamicTemperature,
    pub moisture: Moisture,
    /// Whether the humidity behind it was measured rather than guessed.
    pub measured: bool,
}

/// The outside air and the water in it.
struct Outside {
    air: ThermodynamicTemperature,
    vapour: Pressure,
    measured: bool,
}

impl Solve for Surroundings {
    fn solve(at: &At) -> Found<Self> {
        solve(at)
    }
}

impl<'a> At<'a> {
    /// Outside air, pressure, the air and the water in it of each zone.
    ///
    /// # Errors
    /// As worked out: a gap, a range, or its own reason.
    pub fn surroundings(&self) -> Found<&'a Surroundings> {
        self.ask()
    }
}

/// Works the surroundings out.
///
/// # Errors
/// No range of outside air is given.
fn solve(at: &At) -> Found<Surroundings> {
    let (case, machine, assumed) = (at.case()?, at.machine(), at.assumed());
    let environment = &machine.environment;
    let indoors = case.kind == CaseKind::BroughtIndoors;
    let air = match at.try_get(&case.air) {
        Some(air) => air,
        // How warm the room is, the range of the outside does not say.
        None if indoors => at.need(&case.air)?,
        None => {
            let (low, high) = (at.need(&environment.air.low)?.si(), at.need(&environment.air.high)?.si());
            ThermodynamicTemperature::from_si(low + at.point().share * (high - low))
        }
    };
    let altitude = at.or(&environment.altitude.high, &assumed.altitude)?;
    let pressure = physics::air::pressure(altitude).map_err(refused)?;
    let (humidity, stated) = match at.try_get(&case.relative_humidity) {
        Some(humidity) => (humidity, at.stated(&case.relative_humidity)),
        None if indoors => (at.or(&case.relative_humidity, &assumed.relative_humidity)?, None),
        None => {
            let of = &environment.relative_humidity;
            (at.or(of, &assumed.relative_humidity)?, at.stated(of))
        }
    };
    // Full is full: over liquid water, as stations count it.
    let humidity = Ratio::from_si(humidity.si().clamp(0.0, 1.0));
    let vapour = moisture::vapour_pressure(air, humidity).map_err(refused)?;
    let outside = Outside { air, vapour, measured: stated == Some(Stated::Measured) };
    let warm = warm(at, case);
    let zone_airs: Vec<_> = machine.zones.iter().map(|zone| zone_air(at, zone, air, warm)).collect();
    let zones =
        machine.zones.iter().zip(&zone_airs).map(|(zone, air)| damp(at, zone, air.clone()?, &outside)).collect();
    Ok(Surroundings { outside: air, pressure, vapour, zones, zone_airs })
}

/// Whether the machine has driven itself warm, in this case or in those directly before it.
fn warm(at: &At, case: &Case) -> bool {
    let mut case = case;
    // Cases that follow one another in a ring end here.
    for _ in 0..=at.machine().cases.len() {
        match case.kind {
            CaseKind::Climb
            | CaseKind::Cruise
            | CaseKind::Descent
            | CaseKind::TopSpeed
            | CaseKind::SideSlope
            | CaseKind::Log => return true,
            CaseKind::Soak | CaseKind::ColdStart | CaseKind::BroughtIndoors => return false,
            _ => match at.try_part(&case.after) {
                Some(before) => case = at.machine().follow(before),
                None => return false,
            },
        }
    }
    false
}

fn zone_air(at: &At, zone: &Zone, outside: ThermodynamicTemperature, warm: bool) -> Found<ThermodynamicTemperature> {
    if !warm {
        return Ok(outside);
    }
    // Open to the outside nothing warms up, unless it is said.
    if at.try_get(&zone.volume).is_none() {
        return Ok(outside + at.or_take(&zone.air_rise, TemperatureInterval::from_si(0.0), "0 K"));
    }
    Ok(outside + at.need(&zone.air_rise)?)
}

/// The water vapour of a zone, by where it comes from.
fn damp(at: &At, zone: &Zone, air: ThermodynamicTemperature, outside: &Outside) -> Found<ZoneAir> {
    let kind = *at.part(&zone.moisture)?;
    let full = |at: ThermodynamicTemperature| moisture::saturation_pressure(at).map_err(refused);
    let more = |one: Pressure, other: Pressure| if one.si() > other.si() { one } else { other };
    let less = |one: Pressure, other: Pressure| if one.si() < other.si() { one } else { other };
    let (vapour, measured) = match kind {
        // Out of doors no room's air is left in it: it holds what the outside air holds.
        Moisture::OutsideAir | Moisture::Breathes | Moisture::Room => (outside.vapour, outside.measured),
        Moisture::HoldsMeltwater => {
            let melt = at.need(&at.assumed().meltwater)?;
            // Frozen, it gives off no more than ice does: the formula turns to ice by itself.
            let wet = if air.si() > 273.15 && melt.si() < air.si() { melt } else { air };
            (more(full(wet)?, outside.vapour), false)
        }
        Moisture::SnowSpray => (more(full(outside.air)?, outside.vapour), false),
        Moisture::SealedAtAssembly => {
            let humidity = at.need(&zone.humidity_at_assembly)?;
            let closed = at.or(&at.machine().environment.assembled_at, &at.assumed().assembled_at)?;
            let vapour = moisture::vapour_pressure(closed, humidity).map_err(refused)?;
            // The water stays; its pressure follows the temperature until some of it settles.
            let now = vapour * (air / closed);
            (less(now, full(air)?), at.stated(&zone.humidity_at_assembly) == Some(Stated::Measured))
        }
    };
    let dew = moisture::dew_or_frost_point(vapour).map_err(refused)?;
    Ok(ZoneAir { air, vapour, dew, moisture: kind, measured })
}
