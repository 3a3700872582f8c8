//! Motor and controller, read from the spec: what they weigh, what heats them, what they give off.

use super::bodies::{CASE, CONTROLLER, ROTOR, WINDING};
use super::feed::{Feed, air, stated};
use super::loop_side::wall_of;
use super::network::Network;
use crate::at::At;
use machine::{AfterRun, CaseKind, Cooled, Found, Given, Maybe, Part, QuotedAt, Ref, Zone};
use physics::heat::winding::COPPER_GROWTH;
use quantity::*;

/// Adds winding, rotor and case; several motors, all alike, as one of their size together.
pub(super) fn motor(at: &At, network: &mut Network, feed: &Feed<'_>) -> Found<()> {
    let (motor, assumed) = (&at.machine().powertrain.motor, at.assumed());
    let count = at.or_take(&motor.count, Ratio::from_si(1.0), "1").si().max(1.0);
    let mass = at.or(&motor.mass, &assumed.motor_mass)?.si();
    let all = count * mass * at.need(&assumed.motor_heat_capacity)?.si();
    let share = at.need(&assumed.winding_share)?.si().min(0.45);
    network.body(WINDING, share * all);
    network.body(ROTOR, share * all);
    network.body(CASE, (1.0 - 2.0 * share) * all);
    network.link(WINDING, CASE, count / at.or(&motor.winding_to_case, &assumed.winding_to_case)?.si());
    network.link(ROTOR, CASE, count / at.need(&assumed.rotor_to_case)?.si());
    to_air(
        at,
        network,
        feed,
        Cooled::Motor,
        (CASE, count),
        (&motor.to_air, &assumed.motor_to_air, &motor.zone, &motor.after_run),
    )?;
    if feed.live {
        motor_heat(at, network, feed, count)?;
    }
    feed.cool(network, CASE, Cooled::Motor);
    Ok(())
}

/// Puts the motors' losses where they arise.
fn motor_heat(at: &At, network: &mut Network, feed: &Feed<'_>, count: f64) -> Found<()> {
    let factor = feed.factors.heat(Cooled::Motor)?;
    if let Some(stated) = stated(at, Cooled::Motor) {
        network.heat(WINDING, stated * factor);
        return Ok(());
    }
    let drive = at.drive()?;
    let turning =
        |rest: f64| if rest == 0.0 { Ok(0.0) } else { at.need(&at.assumed().rotor_loss_share).map(Quantity::si) };
    if drive.braking_heat > Power::ZERO {
        // The slope sets it, however warm the copper is.
        let rest = (drive.motor_heat - drive.braking_heat).si().max(0.0);
        let turning = turning(rest)?;
        network.heat(WINDING, factor * drive.braking_heat.si());
        network.heat(ROTOR, factor * rest * turning);
        network.heat(CASE, factor * rest * (1.0 - turning));
        return Ok(());
    }
    let current = drive.motor_current.si();
    let resistance = if current == 0.0 { 0.0 } else { at.need(&at.machine().powertrain.motor.resistance)?.si() };
    let copper = count * current * current * resistance;
    // Stated at 20 °C, it grows with the winding.
    network.heat(WINDING, factor * copper * (1.0 + COPPER_GROWTH * (feed.outside - 293.15)));
    network.grows(WINDING, factor * copper * COPPER_GROWTH);
    let rest = (drive.motor_heat.si() - copper).max(0.0);
    let turning = turning(rest)?;
    network.heat(ROTOR, factor * rest * turning);
    network.heat(CASE, factor * rest * (1.0 - turning));
    Ok(())
}

/// Adds the controller; returns how much warmer than its sensor that is what the maker's limit is meant for, K.
pub(super) fn controller(at: &At, network: &mut Network, feed: &Feed<'_>) -> Found<f64> {
    let (controller, assumed) = (&at.machine().powertrain.controller, at.assumed());
    let mass = at.or(&controller.mass, &assumed.controller_mass)?.si();
    let mut capacity = mass * at.need(&assumed.controller_heat_capacity)?.si();
    let plate = wall_of(at, Cooled::Controller);
    // Indoors the plate that it is bolted to has to warm up too.
    if at.case()?.kind == CaseKind::BroughtIndoors
        && let Some(part) = plate.and_then(|plate| plate.part.there())
    {
        capacity += part_capacity(at, part).unwrap_or(0.0);
    }
    network.body(CONTROLLER, capacity);
    let to = (&controller.to_air, &assumed.controller_to_air, &controller.zone, &controller.after_run);
    to_air(at, network, feed, Cooled::Controller, (CONTROLLER, 1.0), to)?;
    let heat = feed.watts(at, Cooled::Controller, |drive| drive.controller_heat)?;
    network.heat(CONTROLLER, heat);
    feed.cool(network, CONTROLLER, Cooled::Controller);
    if heat == 0.0 {
        return Ok(0.0);
    }
    Ok(match at.or_word(&controller.quoted_at, QuotedAt::Sensor, "sensor") {
        QuotedAt::Sensor => 0.0,
        QuotedAt::Junction => heat * at.need(&controller.junction_to_board)?.si(),
        QuotedAt::Case => match plate {
            Some(plate) => -heat * at.or(&plate.contact_resistance, &assumed.contact_resistance)?.si(),
            None => 0.0,
        },
    })
}

type Air<'a> =
    (&'a Given<m::ThermalResistance>, &'a Given<m::ThermalResistance>, &'a Maybe<Ref<Zone>>, &'a Maybe<AfterRun>);

/// Ties so many bodies to the air round them. What nothing but air cools has to say how well, or a thermometer says it: what
/// it has read sets the rise right, whatever figure that began with.
fn to_air(
    at: &At,
    network: &mut Network,
    feed: &Feed<'_>,
    cooled: Cooled,
    (place, count): (usize, f64),
    to: Air<'_>,
) -> Found<()> {
    let (given, assumed, zone, read) = to;
    let wall = wall_of(at, cooled);
    let known = wall.is_some() || at.try_part(read).is_some();
    let own = if known { at.or(given, assumed)? } else { at.need(given)? }.si();
    let zone = match (at.try_part(zone), wall) {
        (Some(zone), _) => Some(zone),
        (None, Some(wall)) => at.part_or(&wall.zone, "the outside air"),
        (None, None) => at.part_or(zone, "the outside air"),
    };
    let (above, behind) = air(at, feed.outside, zone)?;
    network.held(place, 1.0 / (own / count + behind), above);
    Ok(())
}

/// J/K of a part, where its mass or its size is known.
fn part_capacity(at: &At, part: &Ref<Part>) -> Found<f64> {
    let part = at.machine().follow(part);
    let material = at.machine().follow(at.part(&part.material)?);
    let mass = match at.try_get(&part.mass) {
        Some(mass) => mass.si(),
        None => {
            let size = at.part(&part.size)?;
            let volume = at.need(&size.length)?.si() * at.need(&size.width)?.si() * at.need(&size.thickness)?.si();
            volume * at.need(&material.density)?.si()
        }
    };
    Ok(mass * at.need(&material.heat_capacity)?.si())
}
