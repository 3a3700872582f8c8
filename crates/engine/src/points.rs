//! The case points of a machine: every case at the coldest, the hottest and three temperatures between.

use crate::finding::CaseLabel;
use machine::{Case, Machine};
use solve::{At, CasePoint};

/// Structure only: a case that fixes its own air has one point, unless what it follows was in air that varies.
#[must_use]
pub fn case_points(machine: &Machine) -> Vec<CasePoint> {
    let mut points = Vec::new();
    for (index, case) in machine.cases.iter().enumerate() {
        let shares: &[f64] = if fixed(machine, case) || !machine.is_given(&machine.environment.air.low) {
            &[0.0]
        } else {
            &[0.0, 0.25, 0.5, 0.75, 1.0]
        };
        points.extend(shares.iter().map(|share| CasePoint { case: index, share: *share }));
    }
    if points.is_empty() {
        // Questions that need no case are still answered; all others say that there is none.
        points.push(CasePoint { case: usize::MAX, share: 0.0 });
    }
    points
}

/// Whether the case and all that come before it fix their air.
fn fixed(machine: &Machine, case: &Case) -> bool {
    let mut case = case;
    // Cases that follow one another in a ring end here.
    for _ in 0..=machine.cases.len() {
        if !machine.is_given(&case.air) {
            return false;
        }
        match case.after.there() {
            Some(before) => case = machine.follow(before),
            None => return true,
        }
    }
    true
}

/// What a report calls a case point.
pub(crate) fn label(at: &At) -> CaseLabel {
    let air = at.surroundings().ok().map(|found| quantity::Quantity::si(found.outside));
    CaseLabel {
        name: at.machine().cases.get(at.point().case).map_or_else(String::new, |case| case.key.name.clone()),
        air,
    }
}
