//! One line for each element, or a few where the terminal is narrow.

use super::{Round, cut, fold, short};
use engine::{CircuitPlace, ElementState};
use quantity::Quantity;

/// Head and unit of each column behind the name.
const COLUMNS: [(&str, &str); 8] = [
    ("flow", "L/min"),
    ("in", "°C"),
    ("out", "°C"),
    ("wall", "°C"),
    ("dew", "°C"),
    ("pressure", "kPa"),
    ("loss", "kPa"),
    ("Reynolds", ""),
];
const CELL: usize = 9;
const NAME: usize = 18;

/// The table, and what its marks mean.
pub(super) fn of(round: &Round, width: usize) -> String {
    let pairs = || round.places.iter().zip(&round.circuit.elements);
    let mut out = if width < NAME + CELL * COLUMNS.len() {
        pairs().map(|(place, state)| fold(&sentence(place, state), 2, width)).collect()
    } else {
        let head = line("", &COLUMNS.map(|(name, _)| name.to_owned()));
        let units = line("", &COLUMNS.map(|(_, unit)| unit.to_owned()));
        let rows = pairs().map(|(place, state)| line(&name(place), &cells(place, state)));
        [head, units].into_iter().chain(rows).collect::<String>()
    };
    if pairs().any(|(place, state)| wets(place, state)) {
        out.push_str(&fold(
            "! colder than the dew or frost point of the air in its enclosure: it gets wet or white",
            2,
            width,
        ));
    }
    out
}

fn line(name: &str, cells: &[String]) -> String {
    let row: String = cells.iter().map(|cell| format!("{cell:>CELL$}")).collect();
    format!("{:<NAME$}{row}", cut(name, NAME - 1)).trim_end().to_owned() + "\n"
}

fn name(place: &CircuitPlace) -> String {
    match &place.branch {
        Some(branch) => format!("{}/{}", short(branch), short(&place.name)),
        None => short(&place.name),
    }
}

pub(crate) fn wets(place: &CircuitPlace, state: &ElementState) -> bool {
    place.enclosed && place.dew.is_some_and(|dew| state.wall < dew)
}

fn cells(place: &CircuitPlace, state: &ElementState) -> [String; 8] {
    let degrees = |kelvin: f64| plain(kelvin - 273.15, 1);
    let mark = if wets(place, state) { "!" } else { "" };
    [
        plain(state.flow.si() * 60e3, 3),
        degrees(state.inlet.si()),
        degrees(state.outlet.si()),
        format!("{mark}{}", degrees(state.wall.si())),
        place.dew.map_or_else(|| "-".into(), |dew| degrees(dew.si())),
        plain(state.pressure.si() / 1e3, 1),
        plain(state.drop.si() / 1e3, 2),
        if state.reynolds > 0.0 {
            plain(state.reynolds, if state.reynolds < 10.0 { 2 } else { 0 })
        } else {
            "-".into()
        },
    ]
}

/// Fixed digits, and no sign before a zero.
fn plain(number: f64, digits: usize) -> String {
    let text = format!("{number:.digits$}");
    if text.trim_start_matches('-').chars().all(|digit| matches!(digit, '0' | '.')) {
        text.trim_start_matches('-').to_owned()
    } else {
        text
    }
}

fn sentence(place: &CircuitPlace, state: &ElementState) -> String {
    let told: Vec<String> = COLUMNS
        .iter()
        .zip(cells(place, state))
        .map(|((head, unit), cell)| format!("{head} {cell} {unit}").trim_end().to_owned())
        .collect();
    format!("{}: {}", name(place), told.join(", "))
}
