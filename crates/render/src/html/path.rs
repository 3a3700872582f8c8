//! The coolant circuit along its path: what each element does to the coolant, and both over the way round.

use super::{Page, charts};
use crate::circuit::{state, wets};
use crate::clean::{clean, short};
use crate::words;
use engine::{Axis, Chart, CircuitPlace, ElementState, Line, Profile, Round};
use maud::{Markup, html};
use quantity::{Measure, Quantity, m, show};

pub(super) fn list(page: &Page<'_>) -> Markup {
    html! {
        @if page.circuit.is_empty() { p { "This spec has no coolant circuit." } }
        @for (index, profile) in page.circuit.iter().enumerate() { (case(page, index, profile)) }
    }
}

fn case(page: &Page<'_>, index: usize, profile: &Profile) -> Markup {
    let id = page.anchor(&format!("circuit-{}", index + 1));
    html! {
        section.chart aria-labelledby=(id) {
            h3 id=(id) { "Circuit in " (words::case(&profile.case)) }
            p { "Shown here: " (profile.shows) "." }
            @match &profile.found {
                Err(gap) => p { "Not drawn: " (words::gap_says(page.document, page.machine, gap)) "." },
                Ok(round) => {
                    @for sentence in state(page.document, page.machine, round) { p { (sentence) } }
                    (path(round))
                    (charts::curves(page, &format!("{id}-warmth"), "Temperatures along the path", &temperatures(round)))
                    (charts::curves(page, &format!("{id}-pressure"), "Pressure along the path", &pressures(round)))
                }
            }
        }
    }
}

/// One box an element, in the order of the flow.
fn path(round: &Round) -> Markup {
    html! {
        ol.path {
            @for (place, state) in pairs(round) {
                li.wet[wets(place, state)] {
                    b.what {
                        @if let Some(branch) = &place.branch { (short(branch)) "/" }
                        (short(&place.name))
                    }
                    @if place.name != place.kind { span.kind { (place.kind) } }
                    span { (shown::<m::Temperature>(state.inlet.si())) " → " (shown::<m::Temperature>(state.outlet.si())) }
                    span { (shown::<m::Pressure>(state.pressure.si())) " after it" }
                    span { "face " (shown::<m::Temperature>(state.wall.si())) }
                    @if let Some(dew) = place.dew { span { "dew point " (shown::<m::Temperature>(dew.si())) } }
                    @if wets(place, state) { strong { "gets wet or white" } }
                }
            }
        }
    }
}

fn pairs(round: &Round) -> impl Iterator<Item = (&CircuitPlace, &ElementState)> {
    round.places.iter().zip(&round.circuit.elements)
}

fn shown<M: Measure>(si: f64) -> String {
    show(si, M::KIND, None)
}

/// Where the element with that place in the order begins and ends on the drawing.
fn ends(index: usize) -> (f64, f64) {
    let middle = index as f64 + 1.0;
    (middle - 0.5, middle + 0.5)
}

/// A figure of each element, level over its width.
fn steps(round: &Round, figure: impl Fn(&CircuitPlace, &ElementState) -> f64) -> Vec<(f64, f64)> {
    let step = |(index, (place, state)): (usize, (&CircuitPlace, &ElementState))| {
        let ((from, to), figure) = (ends(index), figure(place, state));
        // With a gap behind it: the next element has a face of its own.
        [(from + 0.1, figure), (to - 0.1, figure), (to, f64::NAN)]
    };
    pairs(round).enumerate().flat_map(step).collect()
}

fn temperatures(round: &Round) -> Chart {
    let through = |(index, (place, state)): (usize, (&CircuitPlace, &ElementState))| {
        let (from, to) = ends(index);
        // Branches run beside one another: what leaves one does not enter the next.
        let gap = if place.branch.is_some() { f64::NAN } else { state.outlet.si() };
        [(from, state.inlet.si()), (to, state.outlet.si()), (to, gap)]
    };
    let coolant: Vec<(f64, f64)> = pairs(round).enumerate().flat_map(through).collect();
    let face = steps(round, |_, state| state.wall.si());
    let dew = steps(round, |place, _| place.dew.map_or(f64::NAN, |dew| dew.si()));
    let mut lines = vec![
        line("the coolant", range::<m::Temperature>(&coolant), coolant),
        line("the coldest point of the face or fitting that the air touches", range::<m::Temperature>(&face), face),
    ];
    if dew.iter().any(|point| point.1.is_finite()) {
        let says = format!("{}; a face below it gets wet or white", range::<m::Temperature>(&dew));
        lines.push(Line { limit: true, ..line("dew or frost point of that air", says, dew) });
    }
    chart(
        "Temperatures over the way round, in the order of the boxes above.",
        Axis::of::<m::Temperature>("temperature", "°C"),
        lines,
    )
}

fn pressures(round: &Round) -> Chart {
    let through = |(index, (place, state)): (usize, (&CircuitPlace, &ElementState))| {
        let (from, to) = ends(index);
        let gap = if place.branch.is_some() { f64::NAN } else { state.pressure.si() };
        [(from, state.entry.si()), (to, state.pressure.si()), (to, gap)]
    };
    let along: Vec<(f64, f64)> = pairs(round).enumerate().flat_map(through).collect();
    let (air, end) = (round.air.si(), ends(round.places.len()).0);
    let lines = vec![
        line("the coolant, absolute", range::<m::Pressure>(&along), along),
        Line {
            limit: true,
            ..line("the surrounding air where it is thinnest", shown::<m::Pressure>(air), vec![(0.5, air), (end, air)])
        },
    ];
    let shows =
        "Pressure over the way round. Below the line of the surrounding air a leak sucks air in; above it, it drips.";
    chart(shows, Axis::of::<m::Pressure>("absolute pressure", "kPa"), lines)
}

fn line(name: &str, says: String, points: Vec<(f64, f64)>) -> Line {
    Line { name: name.into(), says, limit: false, points }
}

fn range<M: Measure>(points: &[(f64, f64)]) -> String {
    let finite = points.iter().map(|point| point.1).filter(|figure| figure.is_finite());
    let (least, most) = finite.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), at| (a.min(at), b.max(at)));
    clean(&format!("{} to {}", shown::<M>(least), shown::<M>(most)))
}

fn chart(shows: &str, y: Axis, lines: Vec<Line>) -> Chart {
    let x = Axis::plain("number of the element along the path");
    Chart { shows: shows.into(), x, y, lines, marks: Vec::new(), missing: Vec::new() }
}
