//! How a gear is made: what that wants of reserve, and how full a printed tooth is.

use gears::{Pair, Side};
use physics::gear::{self as law, Root};
use rule::prelude::*;

/// Share of a solid tooth's strength.
pub(crate) fn solid_share(pair: &Pair<'_>, side: Side, at: &At<'_>, root: &Root) -> Found<Ratio> {
    let whole = Ratio::from_si(1.0);
    if pair.making(at, side)? != Making::Printed {
        return Ok(whole);
    }
    let own = at.part(&pair.gear(side).build)?;
    let shared = at.try_part(&at.machine().structure.printing);
    let infill = said(at, &own.infill, shared.map(|all| &all.infill))?;
    if infill >= whole {
        return Ok(whole);
    }
    let walls = said(at, &own.walls, shared.map(|all| &all.walls))?;
    let line = said(at, &own.line_width, shared.map(|all| &all.line_width))?;
    Ok(law::hollow_tooth(root.chord, line * walls, infill))
}

fn said<M: quantity::Measure>(at: &At<'_>, own: &Given<M>, shared: Option<&Given<M>>) -> Found<M::Q> {
    match (at.try_get(own), shared) {
        (Some(own), _) => Ok(own),
        (None, Some(shared)) => at.try_get(shared).map_or_else(|| at.need(own), Ok),
        (None, None) => at.need(own),
    }
}

pub(crate) fn required(making: Making, metal: bool, tested: bool, seldom: bool) -> Required {
    let (value, why) = match (making, metal) {
        (Making::Printed | Making::Cast, _) if tested => (2.0, "printed or cast, a tooth was tested"),
        (Making::Printed, _) => (3.0, "printed, no tooth was tested"),
        (Making::Cast, _) => (3.0, "cast, no tooth was tested"),
        (_, false) => (2.0, "plastic teeth scatter"),
        (Making::Sintered, true) if seldom => (2.0, "sintered teeth snap in a blow"),
        (Making::Sintered, true) => (1.5, "sintered teeth scatter"),
        (_, true) if seldom => (1.6, "a blow"),
        (_, true) => (1.3, "cut in metal"),
    };
    Required { value, why }
}
