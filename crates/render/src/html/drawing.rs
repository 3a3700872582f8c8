//! Curves and bars as SVG text that stands in the page. Only numbers, units and names of axes are written into a drawing:
//! what a spec says stands beside it, under a letter or a number.

use super::labels::{Labels, Shape};
use engine::{Axis, Bars, Chart, Line};
use plotters::coord::Shift;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use std::error::Error;
use std::ops::Range;
use std::panic::{AssertUnwindSafe, catch_unwind};

pub(super) const INK: RGBColor = RGBColor(0x1a, 0x1d, 0x21);
pub(super) const PAPER: RGBColor = RGBColor(0xff, 0xff, 0xff);
const GRID: RGBColor = RGBColor(0xd5, 0xd8, 0xdd);
/// What lines are held against.
const LIMIT: RGBColor = RGBColor(0x1a, 0x1d, 0x22);
/// The style sheet gives each its dashes, and its colour on dark paper.
const LINES: [RGBColor; 6] = [
    RGBColor(0x0b, 0x4f, 0x9e),
    RGBColor(0xa3, 0x12, 0x1f),
    RGBColor(0x0a, 0x5c, 0x36),
    RGBColor(0x7a, 0x4b, 0x00),
    RGBColor(0x3f, 0x4a, 0x5a),
    RGBColor(0x6b, 0x2a, 0x8c),
];
/// Parts of a bar.
const PARTS: [RGBColor; 3] = [RGBColor(0xc9, 0xd3, 0xe0), RGBColor(0xf2, 0xf3, 0xf5), RGBColor(0xe6, 0xd3, 0xa8)];

const WIDTH: u32 = 1440;
const HEIGHT: u32 = 780;
/// The style sheet has the last word on it.
pub(super) const TEXT: u32 = 34;

type Drawn<T> = Result<T, Box<dyn Error>>;
type Area<'a> = DrawingArea<SVGBackend<'a>, Shift>;

/// The colour of a line, by which the style sheet knows it.
pub(super) fn colour(index: usize, line: &Line) -> RGBColor {
    if line.limit { LIMIT } else { LINES.get(index % LINES.len()).copied().unwrap_or(INK) }
}

pub(super) fn hex(colour: RGBColor) -> String {
    format!("#{:02X}{:02X}{:02X}", colour.0, colour.1, colour.2)
}

/// `A`, `B`, … and after `Z` numbers behind them.
pub(super) fn letter(index: usize) -> String {
    let letter = char::from(b'A' + u8::try_from(index % 26).unwrap_or(0));
    if index < 26 { letter.to_string() } else { format!("{letter}{}", index / 26) }
}

/// `a`, `b`, …
pub(super) fn small_letter(index: usize) -> String {
    letter(index).to_lowercase()
}

/// The lines and marks of a chart; nothing where it has no numbers.
pub(super) fn curves(chart: &Chart) -> Option<String> {
    let (x, y) = spans(chart)?;
    svg(HEIGHT, |area| lay_curves(area, chart, x, y))
}

/// What both axes show; nothing where there are no numbers.
fn spans(chart: &Chart) -> Option<(Range<f64>, Range<f64>)> {
    let all = chart.lines.iter().flat_map(|line| &line.points).copied().chain(chart.marks.iter().map(|mark| mark.at));
    let finite: Vec<(f64, f64)> = all
        .map(|(x, y)| (placed(&chart.x, x), placed(&chart.y, y)))
        .filter(|(x, y)| x.is_finite() && y.is_finite())
        .collect();
    let x = span(&chart.x, finite.iter().map(|point| point.0), Air::None)?;
    let y = span(&chart.y, finite.iter().map(|point| point.1), Air::Some)?;
    Some((x, y))
}

/// Whether a line keeps off the ends of an axis, which begins at zero where that is near.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Air {
    None,
    Some,
}

fn lay_curves(area: &Area<'_>, chart: &Chart, x: Range<f64>, y: Range<f64>) -> Drawn<()> {
    let mut plot = ChartBuilder::on(area)
        .margin_top(64)
        .margin_right(40)
        .x_label_area_size(104)
        .y_label_area_size(150)
        .build_cartesian_2d(x.clone(), y.clone())?;
    axes(&mut plot, &chart.x, &chart.y, &x, &y)?;
    // Upright and above its axis, where it is read without turning the head.
    let text = ("sans-serif", TEXT).into_font().color(&INK);
    area.draw_text(&titled(&chart.y), &text.pos(Pos::new(HPos::Left, VPos::Top)), (12, 10))?;
    let mut drawn: Vec<Vec<(i32, i32)>> = Vec::new();
    for (index, line) in chart.lines.iter().enumerate() {
        let points = line.points.iter().map(|point| (placed(&chart.x, point.0), placed(&chart.y, point.1)));
        let pieces = pieces(points, &x, &y);
        for piece in &pieces {
            let style = colour(index, line).stroke_width(if line.limit { 3 } else { 4 });
            plot.draw_series(std::iter::once(PathElement::new(piece.clone(), style)))?;
        }
        let dense = |piece: &Vec<(f64, f64)>| dense(&piece.iter().map(|at| plot.backend_coord(at)).collect::<Vec<_>>());
        drawn.push(pieces.iter().flat_map(dense).collect());
    }
    let mut labels = Labels::default();
    let marks = chart.marks.iter().map(|mark| (placed(&chart.x, mark.at.0), placed(&chart.y, mark.at.1))).enumerate();
    let marks: Vec<(usize, (i32, i32))> = marks
        .filter(|(_, at)| (x.start..=x.end).contains(&at.0) && (y.start..=y.end).contains(&at.1))
        .map(|(number, at)| (number, plot.backend_coord(&at)))
        .collect();
    for (_, at) in &marks {
        area.draw(&Circle::new(*at, 8, INK.filled()))?;
        labels.taken(*at);
    }
    for (number, at) in &marks {
        labels.put(area, *at, &(number + 1).to_string(), Shape::Round)?;
    }
    for (index, own) in drawn.iter().enumerate() {
        let others = drawn.iter().enumerate().filter(|(other, _)| *other != index).flat_map(|(_, line)| line);
        if let Some(at) = labels.roomiest(own, &others.copied().collect::<Vec<_>>()) {
            labels.put_at(area, at, &letter(index), Shape::Square)?;
        }
    }
    Ok(())
}

/// The points of a stretch and such between them that no gap is wide.
fn dense(stretch: &[(i32, i32)]) -> Vec<(i32, i32)> {
    let between = |pair: &[(i32, i32)]| match pair {
        [a, b] => {
            let steps = ((b.0 - a.0).abs().max((b.1 - a.1).abs()) / 24).max(1);
            (0..=steps).map(|step| (a.0 + (b.0 - a.0) * step / steps, a.1 + (b.1 - a.1) * step / steps)).collect()
        }
        _ => Vec::new(),
    };
    stretch.windows(2).flat_map(between).collect()
}

/// Whether anything of a line lies within the drawing, and each mark.
pub(super) fn within(chart: &Chart) -> Option<(Vec<bool>, Vec<bool>)> {
    let (x, y) = spans(chart)?;
    let on = |at: &(f64, f64)| (placed(&chart.x, at.0), placed(&chart.y, at.1));
    let line = |line: &Line| !pieces(line.points.iter().map(on), &x, &y).is_empty();
    let mark = |at: (f64, f64)| (x.start..=x.end).contains(&at.0) && (y.start..=y.end).contains(&at.1);
    Some((chart.lines.iter().map(line).collect(), chart.marks.iter().map(|one| mark(on(&one.at))).collect()))
}

type Plot<'a, 'b> = ChartContext<
    'a,
    SVGBackend<'b>,
    Cartesian2d<plotters::coord::types::RangedCoordf64, plotters::coord::types::RangedCoordf64>,
>;

fn axes(plot: &mut Plot<'_, '_>, x: &Axis, y: &Axis, xs: &Range<f64>, ys: &Range<f64>) -> Drawn<()> {
    let text = ("sans-serif", TEXT).into_font().color(&INK);
    let (across, up) = (|at: &f64| ticked(x, *at, xs), |at: &f64| ticked(y, *at, ys));
    plot.configure_mesh()
        .axis_style(INK.stroke_width(2))
        .bold_line_style(GRID.stroke_width(2))
        .light_line_style(TRANSPARENT)
        .label_style(text.clone())
        .x_labels(if x.unit.symbol.is_empty() { whole(xs) } else { 8 })
        .y_labels(if y.tenfold { whole(ys) } else { 7 })
        .x_label_formatter(&across)
        .y_label_formatter(&up)
        .x_desc(titled(x))
        .axis_desc_style(text.clone())
        .draw()?;
    Ok(())
}

/// One bar under the other, each with its parts and what limits it.
pub(super) fn bars(bars: &Bars, limits: &[&str]) -> Option<String> {
    let axis = &bars.axis;
    let ends = bars.bars.iter().flat_map(|bar| {
        let whole: f64 = bar.parts.iter().map(|part| part.1).sum();
        bar.limits.iter().map(|limit| limit.1).chain([whole, 0.0]).map(|si| axis.shown(si))
    });
    let ends: Vec<f64> = ends.collect();
    let most = ends.iter().copied().fold(0.0, f64::max);
    let count = u32::try_from(bars.bars.len()).ok()?;
    if ends.iter().any(|end| !end.is_finite()) || !(1e-12..1e12).contains(&most) {
        return None;
    }
    svg(150 + 170 * count, |area| lay_bars(area, bars, limits, most * 1.04, f64::from(count)))
}

fn lay_bars(area: &Area<'_>, bars: &Bars, limits: &[&str], most: f64, count: f64) -> Drawn<()> {
    let axis = &bars.axis;
    let mut plot = ChartBuilder::on(area)
        .margin_top(20)
        .margin_right(40)
        .x_label_area_size(104)
        .y_label_area_size(90)
        .build_cartesian_2d(0.0..most, 0.0..count)?;
    let text = ("sans-serif", TEXT).into_font().color(&INK);
    let across = |at: &f64| ticked(axis, *at, &(0.0..most));
    plot.configure_mesh()
        .axis_style(INK.stroke_width(2))
        .bold_line_style(GRID.stroke_width(2))
        .light_line_style(TRANSPARENT)
        .disable_y_mesh()
        .y_labels(0)
        .label_style(text.clone())
        .x_labels(10)
        .x_label_formatter(&across)
        .x_desc(titled(axis))
        .axis_desc_style(text)
        .draw()?;
    let mut labels = Labels::default();
    for (index, bar) in bars.bars.iter().enumerate() {
        let middle = count - 0.5 - index as f64;
        let (low, high) = (middle - 0.24, middle + 0.24);
        let mut from = 0.0;
        for (part, (_, length)) in bar.parts.iter().enumerate() {
            let to = from + axis.shown(*length);
            let corners = [(from, low), (to, high)];
            let fill = PARTS.get(part % PARTS.len()).copied().unwrap_or(PAPER);
            plot.draw_series([Rectangle::new(corners, fill.filled()), Rectangle::new(corners, INK.stroke_width(2))])?;
            let at = plot.backend_coord(&((from + to) / 2.0, middle));
            labels.put_at(area, at, &(part + 1).to_string(), Shape::Round)?;
            from = to;
        }
        for (limit, at) in &bar.limits {
            let at = axis.shown(*at);
            let line = vec![(at, low - 0.12), (at, high + 0.12)];
            plot.draw_series(std::iter::once(PathElement::new(line, LIMIT.stroke_width(4))))?;
            let name = small_letter(limits.iter().position(|other| other == limit).unwrap_or(0));
            labels.put_at(area, plot.backend_coord(&(at, high + 0.12)), &name, Shape::Square)?;
        }
        let beside = plot.backend_coord(&(0.0, middle));
        labels.put_at(area, (beside.0 - 50, beside.1), &letter(index), Shape::Square)?;
    }
    Ok(())
}

/// As it stands on the paper: in the axis's unit, by its power of ten where each step is tenfold.
fn placed(axis: &Axis, si: f64) -> f64 {
    let shown = axis.shown(si);
    if axis.tenfold { shown.log10() } else { shown }
}

/// From the least to the most, with air; nothing where there is no width.
fn span(axis: &Axis, figures: impl Iterator<Item = f64>, air: Air) -> Option<Range<f64>> {
    let (mut least, mut most) = figures.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), at| (a.min(at), b.max(at)));
    if let Some(end) = axis.most {
        most = most.min(placed(axis, end));
    }
    if axis.tenfold {
        return (least > -12.0 && most < 12.0 && least <= most)
            .then(|| least.floor()..most.ceil().max(least.floor() + 1.0));
    }
    if air == Air::Some && least > 0.0 && least < 0.5 * most {
        least = 0.0;
    }
    let width = most - least;
    let size = least.abs().max(most.abs());
    // Numbers beyond all reason have no ticks that anybody could read.
    if !width.is_finite() || size > 1e12 || (size > 0.0 && size < 1e-12) {
        return None;
    }
    if width <= 1e-6 * size {
        let half = if most == 0.0 { 1.0 } else { 0.05 * most.abs() };
        return Some(most - half..most + half);
    }
    let air = if air == Air::Some { 0.07 * width } else { 0.0 };
    Some(least - if least == 0.0 { 0.0 } else { air }..most + air)
}

/// Stretches of a line without holes that lie within the drawing, up to its edge.
fn pieces(points: impl Iterator<Item = (f64, f64)>, x: &Range<f64>, y: &Range<f64>) -> Vec<Vec<(f64, f64)>> {
    let (mut pieces, mut piece, mut before) = (Vec::new(), Vec::new(), None::<(f64, f64)>);
    for point in points {
        let here = Some(point).filter(|point| point.0.is_finite() && point.1.is_finite());
        let stretch = before.zip(here);
        before = here;
        let Some((from, to)) = stretch.and_then(|(last, here)| cut_off(last, here, x, y)) else {
            pieces.push(std::mem::take(&mut piece));
            continue;
        };
        if piece.last() != Some(&from) {
            pieces.push(std::mem::take(&mut piece));
            piece.push(from);
        }
        if from != to {
            piece.push(to);
        }
    }
    pieces.push(piece);
    pieces.into_iter().filter(|piece| piece.len() > 1).collect()
}

/// What of a stretch lies within the drawing (Liang and Barsky's way, published).
fn cut_off(a: (f64, f64), b: (f64, f64), x: &Range<f64>, y: &Range<f64>) -> Option<((f64, f64), (f64, f64))> {
    let (dx, dy) = (b.0 - a.0, b.1 - a.1);
    let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
    for (step, room) in [(-dx, a.0 - x.start), (dx, x.end - a.0), (-dy, a.1 - y.start), (dy, y.end - a.1)] {
        if step == 0.0 {
            if room < 0.0 {
                return None;
            }
        } else if step < 0.0 {
            enters = enters.max(room / step);
        } else {
            leaves = leaves.min(room / step);
        }
    }
    let at = |share: f64| match share {
        0.0 => a,
        1.0 => b,
        _ => (a.0 + dx * share, a.1 + dy * share),
    };
    (enters <= leaves).then(|| (at(enters), at(leaves)))
}

fn titled(axis: &Axis) -> String {
    if axis.unit.symbol.is_empty() { axis.name.to_owned() } else { format!("{}, {}", axis.name, axis.unit.symbol) }
}

/// Steps of one.
fn whole(range: &Range<f64>) -> usize {
    ((range.end - range.start).abs().ceil().clamp(1.0, 40.0)) as usize + 1
}

/// A number beside a tick, with the digits that the width asks for.
fn ticked(axis: &Axis, at: f64, range: &Range<f64>) -> String {
    if axis.tenfold {
        return if at.fract() == 0.0 { plain(10f64.powf(at), 0.0_f64.max(-at) as usize) } else { String::new() };
    }
    let step = (range.end - range.start) / 8.0;
    let digits = if step >= 1.0 { 1.0 } else { 1.0 - step.log10().floor() };
    plain(at, digits.clamp(0.0, 9.0) as usize)
}

fn plain(number: f64, digits: usize) -> String {
    let text = format!("{number:.digits$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".into() } else { text.into() }
}

/// What is between the tags of the drawing's own element, which the page writes itself.
fn svg(height: u32, lay: impl FnOnce(&Area<'_>) -> Drawn<()>) -> Option<String> {
    let mut text = String::new();
    {
        let area = SVGBackend::with_string(&mut text, (WIDTH, height)).into_drawing_area();
        // What the library cannot draw is told in words; it takes nothing else with it.
        let laid = catch_unwind(AssertUnwindSafe(|| lay(&area).and_then(|()| Ok(area.present()?))));
        laid.ok()?.ok()?;
    }
    let inside = text.split_once(">\n")?.1.rsplit_once("</svg>")?.0;
    let inside = inside.replace(" opacity=\"1\"", "").replace(" font-family=\"sans-serif\"", "");
    // The style sheet says how large it is; here it is given for the room that it takes.
    Some(inside.replace(&format!(" font-size=\"{}\"", f64::from(TEXT) / 1.24), ""))
}

/// Width and height of a drawing with so many bars, or of curves.
pub(super) fn size(bars: Option<usize>) -> String {
    let height = bars.map_or(HEIGHT, |count| 150 + 170 * u32::try_from(count).unwrap_or(1));
    format!("0 0 {WIDTH} {height}")
}

#[cfg(test)]
mod tests;
