//! The number at which a headroom comes to nothing, sought outwards from what is written.

use quantity::{Kind, Unit};

/// Of a temperature, or of a difference of two.
const KELVINS: [f64; 4] = [2.5, 7.5, 18.0, 40.0];
const STEPS: usize = 4;
/// Halvings between two steps: down to a thousandth of the step.
const HALVINGS: usize = 10;

/// One side of a written number: the steps at which it is tried, nearest first.
#[derive(Debug, Clone)]
pub(super) struct Side {
    pub up: bool,
    pub from: f64,
    pub steps: Vec<f64>,
    whole: bool,
}

impl Side {
    /// From nothing to the whole of a way.
    pub(super) fn way() -> Self {
        Self { up: true, from: 0.0, steps: vec![0.25, 0.5, 0.75, 1.0], whole: false }
    }
}

/// Both sides of a number up to `reach` times more or less, inside the bounds of its kind and not below what makes sense;
/// empty where it cannot be scaled.
pub(super) fn sides(from: f64, kind: &Kind, reach: f64, least: f64) -> [Side; 2] {
    [true, false].map(|up| {
        let mut steps = steps(from, kind, reach, up);
        steps.retain(|step| up || *step >= least);
        Side { up, from, steps, whole: kind.whole }
    })
}

/// A side as far as it fits: the first step that does not becomes the last number that does.
pub(super) fn cut(mut side: Side, fits: &dyn Fn(f64) -> bool) -> Side {
    let Some(first) = side.steps.iter().position(|step| !fits(*step)) else { return side };
    let (mut inside, mut outside) = match (first.checked_sub(1), side.steps.get(first)) {
        (before, Some(outside)) => (before.and_then(|at| side.steps.get(at)).copied().unwrap_or(side.from), *outside),
        (_, None) => return side,
    };
    let last = inside;
    for _ in 0..HALVINGS {
        let middle = between(inside, outside, side.whole);
        if middle == inside || middle == outside {
            break;
        }
        if fits(middle) {
            inside = middle;
        } else {
            outside = middle;
        }
    }
    side.steps.truncate(first);
    if inside != last {
        side.steps.push(inside);
    }
    side
}

fn between(a: f64, b: f64, whole: bool) -> f64 {
    if whole { ((a + b) / 2.0).round() } else { (a + b) / 2.0 }
}

fn steps(from: f64, kind: &Kind, reach: f64, up: bool) -> Vec<f64> {
    let absolute = matches!(kind.key, "temperature" | "temperature_difference");
    let sign = if up { 1.0 } else { -1.0 };
    let (least, most) = (kind.bounds.least, kind.bounds.most);
    let mut out: Vec<f64> = Vec::new();
    for step in 1..=STEPS {
        let power = step as f64 / STEPS as f64;
        let to = if absolute {
            from + sign * KELVINS.get(step - 1).copied().unwrap_or(0.0)
        } else if (from > 0.0) == up {
            from * reach.powf(power)
        } else {
            from / reach.powf(power)
        };
        let to = if kind.whole { if up { to.ceil() } else { to.floor() } } else { to };
        let inside = to.clamp(least, most);
        let allowed = inside > least || !kind.bounds.above_least;
        let last = out.last().copied().unwrap_or(from);
        if allowed && (inside - last) * sign > 0.0 {
            out.push(inside);
        }
    }
    out
}

/// What one side came to.
#[derive(Debug, Clone)]
pub(super) struct Walked {
    /// Where the headroom is just there.
    pub met: Option<f64>,
    /// All that was tried on the grid, with its headroom, nearest first.
    pub tried: Vec<(f64, f64)>,
}

/// Goes outwards until the headroom is there, then halves the last step. `at` is None where nothing can be judged.
/// `whole`: takes all steps in any case, to see which way the headroom goes.
pub(super) fn walk(side: &Side, whole: bool, at: &dyn Fn(f64) -> Option<f64>) -> Walked {
    let mut walked = Walked { met: None, tried: Vec::new() };
    let mut short = side.from;
    for step in &side.steps {
        let Some(headroom) = at(*step) else { break };
        walked.tried.push((*step, headroom));
        if walked.met.is_none() && headroom >= 0.0 {
            walked.met = Some(halve(side, short, *step, at));
            if !whole {
                break;
            }
        }
        short = *step;
    }
    walked
}

fn halve(side: &Side, short: f64, enough: f64, at: &dyn Fn(f64) -> Option<f64>) -> f64 {
    let (mut short, mut enough) = (short, enough);
    for _ in 0..HALVINGS {
        let middle = between(short, enough, side.whole);
        if middle == short || middle == enough {
            break;
        }
        if at(middle).is_some_and(|headroom| headroom >= 0.0) {
            enough = middle;
        } else {
            short = middle;
        }
    }
    enough
}

/// Neither more nor less is always better, along all that was tried on both sides.
pub(super) fn turns(from: f64, now: f64, walked: &[Walked]) -> bool {
    let mut points: Vec<(f64, f64)> = walked.iter().flat_map(|side| side.tried.iter().copied()).collect();
    points.push((from, now));
    points.sort_by(|a, b| a.0.total_cmp(&b.0));
    let moves = || points.windows(2).filter_map(|pair| Some(pair.get(1)?.1 - pair.first()?.1));
    // What the iterations of a solution leave is no turn.
    let size = 1e-6 * (1.0 + now.abs().min(1e9));
    moves().any(|step| step > size) && moves().any(|step| step < -size)
}

/// The number in the author's unit.
pub(super) fn in_unit(si: f64, unit: Option<&Unit>) -> f64 {
    unit.map_or(si, |unit| (si - unit.offset) / unit.factor)
}

pub(super) fn to_si(number: f64, unit: Option<&Unit>) -> f64 {
    unit.map_or(number, |unit| number * unit.factor + unit.offset)
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::{Measure, m};

    fn one(from: f64, kind: &Kind, up: bool, at: &dyn Fn(f64) -> Option<f64>) -> Option<f64> {
        let [above, below] = sides(from, kind, 4.0, f64::NEG_INFINITY);
        walk(if up { &above } else { &below }, false, at).met
    }

    #[test]
    fn the_crossing_nearest_to_what_is_written() {
        let up = one(10.0, m::Length::KIND, true, &|x| Some(x - 17.3)).unwrap();
        assert!((17.3..17.32).contains(&up), "{up}");
        let down = one(10.0, m::Length::KIND, false, &|x| Some(3.3 - x)).unwrap();
        assert!((3.29..=3.3).contains(&down), "{down}");
        assert_eq!(one(10.0, m::Length::KIND, true, &|x| Some(x - 41.0)), None, "beyond four times");
        assert_eq!(one(4.0, m::Count::KIND, true, &|x| Some(x - 6.2)), Some(7.0));
        let cold = one(243.15, m::Temperature::KIND, true, &|x| Some(x - 255.0)).unwrap();
        assert!((255.0..255.02).contains(&cold), "{cold}");
        // It is good only between 13 and 18: the outer edge is not taken.
        let hill = one(10.0, m::Length::KIND, true, &|x| Some(2.5 - (x - 15.5).abs())).unwrap();
        assert!((13.0..13.01).contains(&hill), "{hill}");
    }

    #[test]
    fn steps_stay_inside_the_bounds() {
        assert_eq!(sides(0.9, m::Percentage::KIND, 4.0, f64::NEG_INFINITY)[0].steps, [1.0]);
        assert!(sides(0.0, m::Length::KIND, 4.0, f64::NEG_INFINITY).iter().all(|side| side.steps.is_empty()));
        assert!(sides(1.0, m::Count::KIND, 4.0, f64::NEG_INFINITY)[1].steps.iter().all(|step| *step >= 0.0));
        let [above, below] = sides(-0.015, m::Position::KIND, 4.0, f64::NEG_INFINITY);
        assert!(above.steps.iter().all(|step| *step > -0.015) && below.steps.iter().all(|step| *step < -0.015));
    }

    #[test]
    fn a_side_ends_where_it_no_longer_fits() {
        let up = |from: f64, kind| sides(from, kind, 4.0, f64::NEG_INFINITY)[0].clone();
        let ends = |side: Side, fits: &dyn Fn(f64) -> bool| cut(side, fits).steps.last().copied();
        let last = ends(up(10.0, m::Length::KIND), &|x| x < 18.0).unwrap();
        assert!((17.9..18.0).contains(&last), "{last}");
        assert_eq!(ends(up(9.0, m::Count::KIND), &|x| x < 10.5), Some(10.0));
        assert_eq!(ends(up(9.0, m::Count::KIND), &|x| x < 9.5), None);
        assert_eq!(ends(up(10.0, m::Length::KIND), &|_| true), Some(40.0));
    }

    #[test]
    fn a_hill_turns_and_a_slope_does_not() {
        let walked = |at: &dyn Fn(f64) -> f64| {
            sides(10.0, m::Length::KIND, 4.0, f64::NEG_INFINITY).map(|side| walk(&side, true, &|x| Some(at(x))))
        };
        assert!(turns(10.0, -1.0, &walked(&|x| -(x - 10.0).abs() - 1.0)));
        assert!(!turns(10.0, -1.0, &walked(&|x| x - 11.0)));
    }
}
