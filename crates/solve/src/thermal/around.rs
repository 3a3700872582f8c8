//! The way of the coolant as the bodies see it: faces that cool one of them, and all that lies between two faces as one
//! place. The same in every case of a machine, so that one case can begin where another ended.

use crate::at::At;
use crate::coolant::path::{Stretch, path};
use machine::{Cooled, Element, Found};

/// One place of the coolant: it stands for what leaves it.
#[derive(Debug, PartialEq)]
pub(super) struct Reach {
    pub(super) holds: Holds,
    /// Where its coolant comes from; several where branches meet.
    pub(super) from: Vec<usize>,
    /// Elements of its branch; empty where all of the coolant goes through.
    pub(super) branch: Vec<usize>,
}

#[derive(Debug, PartialEq)]
pub(super) enum Holds {
    /// The element that cools motor or controller.
    Face(usize, Cooled),
    /// What lies between faces, in flow order.
    Between(Vec<Stretch>),
}

/// All places in flow order.
///
/// # Errors
/// As the loop: branches that are cut in two.
pub(super) fn reaches(at: &At) -> Found<Vec<Reach>> {
    let circuit = &at.machine().cooling.circuit;
    let face = |place: usize| match circuit.get(place) {
        Some(Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate)) => match plate.cools {
            Some(cools @ (Cooled::Motor | Cooled::Controller)) => Some(cools),
            _ => None,
        },
        _ => None,
    };
    let (mut all, mut ends) = (Vec::new(), Vec::new());
    let mut between = Vec::new();
    for stretch in path(circuit)? {
        match stretch {
            Stretch::Branches(ways) if ways.iter().flatten().any(|place| face(*place).is_some()) => {
                close(&mut all, &mut ends, &mut between, &[]);
                let mut after = Vec::new();
                for way in ways {
                    let mut here = ends.clone();
                    for place in &way {
                        one(&mut all, &mut here, &mut between, (*place, face(*place)), &way);
                    }
                    close(&mut all, &mut here, &mut between, &way);
                    after.extend(here);
                }
                ends = after;
            }
            Stretch::Single(place) => one(&mut all, &mut ends, &mut between, (place, face(place)), &[]),
            beside => between.push(beside),
        }
    }
    close(&mut all, &mut ends, &mut between, &[]);
    // The last lead back to the first.
    for reach in all.iter_mut().filter(|reach| reach.from.is_empty()) {
        reach.from.clone_from(&ends);
    }
    Ok(all)
}

fn one(
    all: &mut Vec<Reach>,
    ends: &mut Vec<usize>,
    between: &mut Vec<Stretch>,
    (place, face): (usize, Option<Cooled>),
    branch: &[usize],
) {
    let Some(cools) = face else { return between.push(Stretch::Single(place)) };
    close(all, ends, between, branch);
    push(all, ends, Holds::Face(place, cools), branch);
}

/// Ends what was gathered between two faces.
fn close(all: &mut Vec<Reach>, ends: &mut Vec<usize>, between: &mut Vec<Stretch>, branch: &[usize]) {
    if !between.is_empty() {
        push(all, ends, Holds::Between(std::mem::take(between)), branch);
    }
}

fn push(all: &mut Vec<Reach>, ends: &mut Vec<usize>, holds: Holds, branch: &[usize]) {
    all.push(Reach { holds, from: std::mem::take(ends), branch: branch.to_vec() });
    ends.push(all.len() - 1);
}
