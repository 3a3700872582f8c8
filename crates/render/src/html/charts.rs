//! The drawings of a machine, each with what it shows in words: a letter or a number stands for each line and mark.

use super::Page;
use super::drawing::{self, hex, letter};
use crate::clean::{clean, short};
use crate::words;
use engine::{Bars, Chart, Drawing, Line, Picture};
use machine::NotJudged;
use maud::{Markup, PreEscaped, html};

/// What nothing could be drawn from says so.
const NO_NUMBERS: &str = "There is nothing to draw: the figures of this machine come to no numbers here.";

pub(super) fn list(page: &Page<'_>) -> Markup {
    html! {
        @if page.drawings.is_empty() {
            p { "This spec has neither a drive line nor springs to draw." }
        }
        @for (index, drawing) in page.drawings.iter().enumerate() { (figure(page, index, drawing)) }
    }
}

fn figure(page: &Page<'_>, index: usize, drawing: &Drawing) -> Markup {
    let id = page.anchor(&format!("chart-{}", index + 1));
    html! {
        section.chart aria-labelledby=(id) {
            h3 id=(id) { (clean(&drawing.title)) }
            @match &drawing.found {
                Ok(Picture::Chart(chart)) => (curves(page, &id, &drawing.title, chart)),
                Ok(Picture::Bars(bars)) => (stacked(page, &id, &drawing.title, bars)),
                Err(gap) => p { "Not drawn: " (words::gap_says(page.document, page.machine, gap)) "." },
            }
        }
    }
}

/// The chart and what it says.
pub(super) fn curves(page: &Page<'_>, id: &str, title: &str, chart: &Chart) -> Markup {
    let (lines, marks) = drawing::within(chart).unwrap_or_default();
    let outside =
        |within: &[bool], index: usize| if within.get(index) == Some(&false) { " (outside the drawing)" } else { "" };
    html! {
        p { (clean(&chart.shows)) }
        @match drawing::curves(chart) {
            Some(inside) => (picture(id, title, &chart.shows, &drawing::size(None), inside)),
            None => p { (NO_NUMBERS) },
        }
        @if !(chart.lines.is_empty() && chart.marks.is_empty()) {
            table.key {
                thead { tr { th scope="col" { "Mark" } th scope="col" { "Stands for" } th scope="col" { "Figures" } } }
                tbody {
                    @for (index, line) in chart.lines.iter().enumerate() {
                        tr {
                            td { (sample(index, line)) b { (letter(index)) } }
                            th scope="row" { (clean(&line.name)) (outside(&lines, index)) }
                            td { (clean(&line.says)) }
                        }
                    }
                    @for (index, mark) in chart.marks.iter().enumerate() {
                        tr {
                            td.mark-number { b { (index + 1) } }
                            th scope="row" { (clean(&mark.name)) (outside(&marks, index)) }
                            td { (clean(&mark.says)) }
                        }
                    }
                }
            }
        }
        (missing(page, &chart.missing))
    }
}

fn stacked(page: &Page<'_>, id: &str, title: &str, bars: &Bars) -> Markup {
    let parts = bars.bars.first().map_or(&[][..], |bar| &bar.parts);
    let mut limits: Vec<&str> = Vec::new();
    for (name, _) in bars.bars.iter().flat_map(|bar| &bar.limits) {
        if !limits.contains(name) {
            limits.push(name);
        }
    }
    html! {
        p { (clean(&bars.shows)) }
        @match drawing::bars(bars, &limits) {
            Some(inside) => (picture(id, title, &bars.shows, &drawing::size(Some(bars.bars.len())), inside)),
            None => p { (NO_NUMBERS) },
        }
        p.small {
            @for (index, (name, _)) in parts.iter().enumerate() { b { (index + 1) } " " (name) "; " }
            @for (index, name) in limits.iter().enumerate() {
                b { (drawing::small_letter(index)) } " " (name) @if index + 1 < limits.len() { "; " }
            }
            "."
        }
        table.key {
            thead { tr { th scope="col" { "Bar" } th scope="col" { "Corner" } th scope="col" { "Figures" } } }
            tbody {
                @for (index, bar) in bars.bars.iter().enumerate() {
                    tr { td { b { (letter(index)) } } th scope="row" { (short(&bar.name)) } td { (clean(&bar.says)) } }
                }
            }
        }
        (missing(page, &bars.missing))
    }
}

/// The drawing itself, with its name and what it is for those who cannot see it.
fn picture(id: &str, title: &str, shows: &str, size: &str, inside: String) -> Markup {
    let (title_id, shows_id) = (format!("{id}-title"), format!("{id}-shows"));
    html! {
        svg.drawing viewBox=(size) role="img" aria-labelledby=(title_id) aria-describedby=(shows_id) {
            title id=(title_id) { (clean(title)) }
            desc id=(shows_id) { (clean(shows)) " The table below has the figures." }
            (PreEscaped(inside))
        }
    }
}

/// A bit of the line, as it is drawn.
fn sample(index: usize, line: &Line) -> Markup {
    let colour = hex(drawing::colour(index, line));
    html! {
        svg.sample viewBox="0 0 80 24" aria-hidden="true" {
            polyline fill="none" stroke=(colour) stroke-width="5" points="0,12 80,12" {}
        }
    }
}

fn missing(page: &Page<'_>, missing: &[(String, NotJudged)]) -> Markup {
    html! {
        @for (what, gap) in missing {
            p.small { "Not drawn: " (clean(what)) ", because " (words::gap_says(page.document, page.machine, gap)) "." }
        }
    }
}
