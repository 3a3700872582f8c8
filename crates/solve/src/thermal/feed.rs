//! What feeds and cools the bodies in one stage: while the case lasts, or after it.

use super::loop_side::{LoopSide, walls};
use super::network::Network;
use super::readings::Factors;
use crate::at::At;
use crate::drive::Drive;
use machine::{CaseKind, Cooled, Found, Ref, Zone};
use quantity::*;

pub(super) struct Feed<'a> {
    /// Whether anything makes heat.
    pub(super) live: bool,
    pub(super) loop_side: Option<&'a LoopSide>,
    pub(super) factors: &'a Factors,
    /// Air outside, K; everything else counts from it.
    pub(super) outside: f64,
}

impl Feed<'_> {
    /// Heat of a thing, W: stated at what cools it, else out of the drive line.
    pub(super) fn watts(&self, at: &At, cooled: Cooled, of: fn(&Drive) -> Power) -> Found<f64> {
        if !self.live {
            return Ok(0.0);
        }
        let watts = match stated(at, cooled) {
            Some(stated) => stated,
            None => of(at.drive()?).si(),
        };
        Ok(watts * self.factors.heat(cooled)?)
    }

    /// Ties a body to the faces of the loop that cool it.
    pub(super) fn cool(&self, network: &mut Network, place: usize, cooled: Cooled) {
        let flows = self.loop_side.iter();
        for face in flows.flat_map(|flows| &flows.faces).filter(|face| face.cools == cooled) {
            network.link(place, face.place, face.conductance());
        }
    }
}

/// Heat that the spec states at what cools a thing, W.
pub(super) fn stated(at: &At, cooled: Cooled) -> Option<f64> {
    let all = walls(at).filter(|(_, plate)| plate.cools == Some(cooled));
    let stated = all.filter_map(|(_, plate)| at.try_get(&plate.heat)).map(Quantity::si);
    stated.reduce(|sum, each| sum + each)
}

/// Air before a thing above that outside, and what stands between that air and the one held, K/W: the walls of a closed
/// box, where its air has not been measured.
pub(super) fn air(at: &At, outside: f64, zone: Option<&Ref<Zone>>) -> Found<(f64, f64)> {
    let above = at.surroundings()?.air(at, zone)?.si() - outside;
    let Some(zone) = zone.map(|zone| at.machine().follow(zone)) else { return Ok((above, 0.0)) };
    if at.case()?.kind != CaseKind::BroughtIndoors {
        return Ok((above, 0.0));
    }
    let walls = physics::heat::body::surface([Length::from_si(at.need(&zone.volume)?.si().cbrt()); 3]);
    Ok((above, 1.0 / (at.need(&at.assumed().box_wall)?.si() * walls.si())))
}
