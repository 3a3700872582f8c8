//! Motor and controller, read from the spec: what they weigh, what heats them, what they give off.

use super::bodies::{CASE, CONTROLLER, ROTOR, WINDING};
use super::feed::Feed;
use super::loop_side::wall_of;
use super::network::Network;
use crate::at::At;
use machine::{CaseKind, Cooled, Found, Given, Maybe, Part, QuotedAt, Ref, Zone};
use physics::heat::winding::COPPER_GROWTH;
use quantity::*;

/// Adds winding, rotor and case.
pub(super) fn motor(at: &At, network: &mut Network, feed: &Feed<'_>) -> Found<()> {
    let (motor, assumed) = (&at.machine().powertrain.motor, at.assumed());
    let mass = at.or(&motor.mass, &assumed.motor_mass)?.si();
    let all = mass * at.need(&assumed.motor_heat_capacity)?.si();
    let share = at.need(&assumed.winding_share)?.si().min(0.45);
    network.body(WINDING, share * all);
    network.body(ROTOR, share * all);
    network.body(CASE, (1.0 - 2.0 * share) * all);
    network.link(WINDING, CASE, 1.0 / at.or(&motor.winding_to_case, &assumed.winding_to_case)?.si(), 0.0);
    network.link(ROTOR, CASE, 1.0 / at.need(&assumed.rotor_to_case)?.si(), 0.0);
    to_air(at, network, feed, Cooled::Motor, CASE, (&motor.to_air, &assumed.motor_to_air, &motor.zone))?;
    feed.cool(network, CASE, Cooled::Motor);
    if !feed.live {
        return Ok(());
    }
    let factor = feed.factors.heat(Cooled::Motor)?;
    if let Some(stated) = feed.stated(at, Cooled::Motor) {
        network.heat(WINDING, stated * factor);
        return Ok(());
    }
    let drive = at.drive()?;
    let current = drive.motor_current.si();
    let copper = if current == 0.0 { 0.0 } else { current * current * at.need(&motor.resistance)?.si() };
    // Stated at 20 °C, it grows with the winding.
    network.heat(WINDING, factor * copper * (1.0 + COPPER_GROWTH * (feed.outside - 293.15)));
    network.grows(WINDING, factor * copper * COPPER_GROWTH);
    let rest = (drive.motor_heat.si() - copper).max(0.0);
    let turning = if rest == 0.0 { 0.0 } else { at.need(&assumed.rotor_loss_share)?.si() };
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
    let air = (&controller.to_air, &assumed.controller_to_air, &controller.zone);
    to_air(at, network, feed, Cooled::Controller, CONTROLLER, air)?;
    feed.cool(network, CONTROLLER, Cooled::Controller);
    let heat = feed.watts(at, Cooled::Controller, |drive| drive.controller_heat)?;
    network.heat(CONTROLLER, heat);
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

type Air<'a> = (&'a Given<m::ThermalResistance>, &'a Given<m::ThermalResistance>, &'a Maybe<Ref<Zone>>);

/// Ties a body to the air round it. What nothing but air cools has to say how well.
fn to_air(at: &At, network: &mut Network, feed: &Feed<'_>, cooled: Cooled, place: usize, air: Air<'_>) -> Found<()> {
    let (given, assumed, zone) = air;
    let wall = wall_of(at, cooled);
    let own = if wall.is_some() { at.or(given, assumed)? } else { at.need(given)? }.si();
    let zone = match (at.try_part(zone), wall) {
        (Some(zone), _) => Some(zone),
        (None, Some(wall)) => at.part_or(&wall.zone, "the outside air"),
        (None, None) => at.part_or(zone, "the outside air"),
    };
    let (above, behind) = feed.air(at, zone)?;
    network.held(place, 1.0 / (own + behind), above);
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
