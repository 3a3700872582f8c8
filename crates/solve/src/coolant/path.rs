//! In which order the coolant meets the elements: one after another, or side by side.

use machine::{Element, Found, NotJudged};

/// A part of the way round; the numbers are places in the circuit.
#[derive(Debug, PartialEq)]
pub(crate) enum Stretch {
    Single(usize),
    /// Branches that begin and end together, each with its elements in flow order.
    Branches(Vec<Vec<usize>>),
}

impl Stretch {
    pub(crate) fn holds(&self, place: usize) -> bool {
        match self {
            Self::Single(only) => *only == place,
            Self::Branches(ways) => ways.iter().flatten().any(|each| *each == place),
        }
    }
}

/// The whole way round.
///
/// # Errors
/// Branches that are cut in two by the ends of the list.
pub(crate) fn path(circuit: &[Element]) -> Found<Vec<Stretch>> {
    let cut = |element: Option<&Element>| element.is_some_and(|element| element.branch().is_some());
    if circuit.iter().any(|element| element.branch().is_none()) && cut(circuit.first()) && cut(circuit.last()) {
        return Err(NotJudged::NoSolution(
            "the list of the circuit begins in the middle of its branches: begin it with another element".into(),
        ));
    }
    let mut path = Vec::with_capacity(circuit.len());
    let mut side_by_side: Vec<(&str, Vec<usize>)> = Vec::new();
    for (place, element) in circuit.iter().enumerate() {
        match element.branch() {
            Some(name) => match side_by_side.iter_mut().find(|(other, _)| *other == name) {
                Some((_, way)) => way.push(place),
                None => side_by_side.push((name, vec![place])),
            },
            None => {
                close(&mut side_by_side, &mut path);
                path.push(Stretch::Single(place));
            }
        }
    }
    close(&mut side_by_side, &mut path);
    Ok(path)
}

/// A branch alone is no branch.
fn close(side_by_side: &mut Vec<(&str, Vec<usize>)>, path: &mut Vec<Stretch>) {
    let ways: Vec<Vec<usize>> = side_by_side.drain(..).map(|(_, way)| way).collect();
    if ways.len() > 1 {
        path.push(Stretch::Branches(ways));
    } else {
        path.extend(ways.into_iter().flatten().map(Stretch::Single));
    }
}
