//! What moves past an outer face: wind of driving, a fan, air that rises by itself, wet ground.

use crate::at::At;
use machine::{CaseKind, Found, Outside, Swept as By};
use quantity::*;

/// The far side of an outer face in one case.
pub(super) struct Swept {
    /// W/(m²·K).
    pub(super) transfer: f64,
    /// As it arrives, K.
    pub(super) air: f64,
    /// What it takes up for each kelvin that it warms, W/K; without end where it does not warm.
    pub(super) rate: f64,
}

/// How the air moves.
enum Moves {
    /// At this speed in the opening, unless it was measured there.
    With(Velocity, &'static str),
    /// A fan's, by a built-in figure.
    Blown,
    /// At a stop, or where nothing but its own warmth moves it.
    ByItself,
}

pub(super) fn swept(at: &At, face: &Outside) -> Found<Swept> {
    let assumed = at.assumed();
    let around = at.surroundings()?;
    let air = around.air(at, at.part_or(&face.to, "the outside air"))?;
    let fresh = |transfer: HeatTransfer| Swept { transfer: transfer.si(), air: air.si(), rate: f64::INFINITY };
    if at.or_word(&at.case()?.snow_on_plate, false, "no") {
        return Ok(fresh(at.or(&face.heat_transfer_snow, &assumed.plate_to_snow)?));
    }
    let by = at.or_word(&face.swept_by, By::Driving, "the wind of driving");
    let moves = match by {
        By::Ground => return Ok(fresh(at.or(&face.heat_transfer, &assumed.plate_to_air)?)),
        By::Fan if on(at)? => Moves::Blown,
        By::Driving => wind(at)?,
        By::Fan | By::OwnDraught => Moves::ByItself,
    };
    let rising = at.need(&assumed.own_draught)?;
    let (transfer, flow) = match moves {
        Moves::ByItself => {
            // What is stated is meant for moving air, unless none ever moves.
            let still = match (by, at.try_get(&face.heat_transfer)) {
                (By::OwnDraught, Some(stated)) => stated,
                (_, stated) => {
                    let still = at.need(&assumed.still_air)?;
                    stated.filter(|stated| *stated < still).unwrap_or(still)
                }
            };
            (still, rising * opening(at, face)?)
        }
        Moves::With(..) | Moves::Blown => {
            let flow = match (at.try_get(&face.air_flow), &moves) {
                (Some(flow), _) => flow,
                (None, Moves::With(wind, called)) => {
                    let speed = at.or_take(&face.air_speed, *wind, called);
                    (if speed > rising { speed } else { rising }) * opening(at, face)?
                }
                (None, _) => at.or(&face.air_speed, &assumed.fan_air)? * opening(at, face)?,
            };
            (at.or(&face.heat_transfer, &assumed.plate_to_air)?, flow)
        }
    };
    let density = physics::air::density(air, around.pressure);
    let rate = flow.si() * density.si() * physics::air::heat_capacity().si();
    Ok(Swept { transfer: transfer.si(), air: air.si(), rate })
}

fn opening(at: &At, face: &Outside) -> Found<Area> {
    Ok(match at.try_get(&face.opening) {
        Some(opening) => opening,
        None => {
            let share = at.need(&at.assumed().exchanger_opening)?;
            at.or_take(&face.opening, at.need(&face.area)? * share, "a share of its outer face")
        }
    })
}

/// Whether the electronics, and a fan with them, are on.
fn on(at: &At) -> Found<bool> {
    let case = at.case()?;
    Ok(match at.try_part(&case.heat) {
        Some(heat) => *heat,
        None => !matches!(case.kind, CaseKind::Soak | CaseKind::BroughtIndoors),
    })
}

/// The wind of driving in this case.
fn wind(at: &At) -> Found<Moves> {
    let case = at.case()?;
    let driving = at.assumed();
    Ok(match case.kind {
        CaseKind::Soak
        | CaseKind::ColdStart
        | CaseKind::Idle
        | CaseKind::Launch
        | CaseKind::TipOver
        | CaseKind::SignalLost
        | CaseKind::BroughtIndoors
        | CaseKind::Stopped
        | CaseKind::Jam => Moves::ByItself,
        CaseKind::TopSpeed | CaseKind::Log => {
            let speed = at.drive().map_or(Velocity::ZERO, |drive| drive.track_speed);
            match speed > Velocity::ZERO {
                true => Moves::With(speed, "the speed of driving"),
                false => Moves::With(at.or(&case.speed, &driving.driving_air)?, "the speed of driving"),
            }
        }
        CaseKind::Climb
        | CaseKind::Cruise
        | CaseKind::Descent
        | CaseKind::SideSlope
        | CaseKind::LiftOff
        | CaseKind::Landing => Moves::With(at.or(&case.speed, &driving.driving_air)?, "the speed of driving"),
    })
}
