//! Rows drawn by hand, so that it is known which of them matter.

use super::*;

/// A margin in these case points, its rows from `first` on.
fn group(first: usize, points: &[usize]) -> Group {
    let count = points.len();
    Group {
        finding: 0,
        inputs: Vec::new(),
        rows: first..first + count,
        points: points.to_vec(),
        kept: vec![true; count],
        widened: false,
    }
}

/// Two hundred samples of all rows; each rank from two numbers that wander between 0 and 1, in no step with each other.
fn samples(ranks: &dyn Fn(f64, f64) -> Vec<f64>) -> Vec<Vec<Worst>> {
    let row = |rank: f64| Worst { state: State::Sound, rank, reserve: rank };
    let sample = |at: u32| ranks(f64::from(at * 37 % 101) / 100.0, f64::from(at * 59 % 103) / 102.0);
    (0..200).map(|at| sample(at).into_iter().map(row).collect()).collect()
}

fn kept(group: &Group) -> Vec<usize> {
    group.rows.clone().filter(|row| group.keeps(*row)).map(|row| row - group.rows.start).collect()
}

#[test]
fn a_point_that_stays_behind_by_the_same_is_left_out_and_one_that_comes_near_is_not() {
    // Both second rows lie within a twentieth of the way to the third; only the first margin's never gets nearer.
    let full = samples(&|a, b| vec![a, a + 0.3 + 0.01 * b, a + 100.0, a, a + 0.3 + b, a + 100.0]);
    let mut groups = [group(0, &[0, 1, 2]), group(3, &[0, 1, 2])];
    choose(&mut groups, &full);
    assert_eq!(groups.each_ref().map(kept), [vec![0], vec![0, 1]]);
}

/// A clear check has no distance: no average speaks for leaving its point out.
#[test]
fn a_point_that_is_near_and_sometimes_clear_is_kept() {
    let clear = |a: f64, b: f64| if b > 0.9 { f64::INFINITY } else { a + 0.3 };
    let full = samples(&|a, b| vec![a, clear(a, b), a + 100.0]);
    let mut groups = [group(0, &[0, 1, 2])];
    choose(&mut groups, &full);
    assert_eq!(kept(&groups[0]), [0, 1]);
}

#[test]
fn of_points_that_agree_the_one_runs_that_most_margins_can_use() {
    let full = samples(&|a, b| vec![a, a * (1.0 + 1e-12), b]);
    let mut groups = [group(0, &[1, 2]), group(2, &[2])];
    choose(&mut groups, &full);
    assert_eq!(groups.each_ref().map(kept), [vec![1], vec![0]]);
}

#[test]
fn a_choice_that_fails_on_other_samples_takes_all_points() {
    let mut full = samples(&|a, _| vec![a, a + 5.0, a + 100.0]);
    let mut groups = [group(0, &[0, 1, 2])];
    choose(&mut groups, &full);
    assert_eq!(kept(&groups[0]), [0]);
    full[LEARNED + 7][1].rank = -1.0;
    full[LEARNED + 7][1].reserve = -1.0;
    choose(&mut groups, &full);
    assert_eq!(kept(&groups[0]), [0, 1, 2]);
}
