//! Letters and numbers in a drawing, none on top of another.

use super::drawing::{INK, PAPER, TEXT};
use plotters::coord::Shift;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use std::error::Error;

type Area<'a> = DrawingArea<SVGBackend<'a>, Shift>;

/// Numbers are round, letters square: two series are told apart without colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Shape {
    Round,
    Square,
}

/// Half the width of a label.
const HALF: i32 = 25;
/// Where a label may go, seen from what it names: the nearest first, above rather than below.
fn beside() -> Vec<(i32, i32)> {
    const STEP: i32 = 2 * HALF + 2;
    let row = |down: i32| (-4..=4).map(move |right: i32| (right * STEP, down * STEP));
    let mut places: Vec<(i32, i32)> = (-4..=4).flat_map(row).filter(|place| *place != (0, 0)).collect();
    places.sort_by_key(|(right, down)| (right * right + down * down, *down, -right));
    places
}

/// What is taken.
#[derive(Debug, Default)]
pub(super) struct Labels {
    at: Vec<(i32, i32)>,
}

impl Labels {
    /// Nothing is to stand there.
    pub fn taken(&mut self, at: (i32, i32)) {
        self.at.push(at);
    }

    /// Beside a place.
    pub fn put(&mut self, area: &Area<'_>, at: (i32, i32), text: &str, shape: Shape) -> Result<(), Box<dyn Error>> {
        self.lay(area, at, &beside(), text, shape)
    }

    /// On a place, or beside it if that is taken.
    pub fn put_at(&mut self, area: &Area<'_>, at: (i32, i32), text: &str, shape: Shape) -> Result<(), Box<dyn Error>> {
        let places: Vec<(i32, i32)> = std::iter::once((0, 0)).chain(beside()).collect();
        self.lay(area, at, &places, text, shape)
    }

    /// The place on a line that is farthest from all other lines and labels, as far as that helps.
    pub fn roomiest(&self, line: &[(i32, i32)], others: &[(i32, i32)]) -> Option<(i32, i32)> {
        const ENOUGH: i32 = 3 * HALF;
        let apart = |a: (i32, i32), b: &(i32, i32)| (a.0 - b.0).abs().max((a.1 - b.1).abs());
        let room = |at: &(i32, i32)| {
            let others = others.iter().map(|other| apart(*at, other));
            // A label is half as wide again.
            let labels = self.at.iter().map(|label| apart(*at, label) - HALF);
            others.chain(labels).min().unwrap_or(ENOUGH).min(ENOUGH)
        };
        // Not at its very ends, where axes and marks are.
        let margin = line.len() / 12;
        let inner = line.get(margin..line.len() - margin).unwrap_or(line);
        let mut best: Option<(i32, (i32, i32))> = None;
        for at in inner {
            let room = room(at);
            if best.is_none_or(|(most, _)| room > most) {
                best = Some((room, *at));
            }
        }
        best.map(|(_, at)| at)
    }

    fn lay(
        &mut self,
        area: &Area<'_>,
        at: (i32, i32),
        places: &[(i32, i32)],
        text: &str,
        shape: Shape,
    ) -> Result<(), Box<dyn Error>> {
        let (width, height) = area.dim_in_pixel();
        let (width, height) = (i32::try_from(width)?, i32::try_from(height)?);
        let free = |place: &(i32, i32)| {
            let inside = (HALF..width - HALF).contains(&place.0) && (HALF..height - HALF).contains(&place.1);
            let apart =
                |other: &(i32, i32)| (place.0 - other.0).abs() > 2 * HALF || (place.1 - other.1).abs() > 2 * HALF;
            inside && self.at.iter().all(apart)
        };
        let there = |offset: &(i32, i32)| (at.0 + offset.0, at.1 + offset.1);
        let first = places.first().map_or(at, there);
        let place = places.iter().map(there).find(free).unwrap_or(first);
        if place != at {
            area.draw(&PathElement::new(vec![at, place], INK.stroke_width(2)))?;
        }
        match shape {
            Shape::Round => {
                area.draw(&Circle::new(place, HALF - 2, PAPER.filled()))?;
                area.draw(&Circle::new(place, HALF - 2, INK.stroke_width(2)))?;
            }
            Shape::Square => {
                let corners = [(place.0 - HALF + 3, place.1 - HALF + 3), (place.0 + HALF - 3, place.1 + HALF - 3)];
                area.draw(&Rectangle::new(corners, PAPER.filled()))?;
                area.draw(&Rectangle::new(corners, INK.stroke_width(2)))?;
            }
        }
        let style = ("sans-serif", TEXT).into_font().color(&INK).pos(Pos::new(HPos::Center, VPos::Center));
        area.draw_text(text, &style, place)?;
        self.at.push(place);
        Ok(())
    }
}
