use super::*;

const L: f64 = 0.8;
const EI: f64 = 120.0;

fn m(x: f64) -> Length {
    Length::from_si(x)
}

fn held(at: f64, by: Hold) -> Held {
    Held { at: m(at), by }
}

fn one_piece(holds: &[Held], pushes: &[Push]) -> Result<Bending, Unsolved> {
    let piece = Piece { from: m(0.0), to: m(L), stiffness: BendingStiffness::from_si(EI) };
    bend(m(L), &[piece], holds, pushes)
}

fn down(at: f64, newton: f64) -> Push {
    Push::Force { at: m(at), force: Force::from_si(-newton) }
}

fn seat(rate: f64, play: f64) -> Hold {
    Hold::Seat { rate: SpringRate::from_si(rate), play: m(play), turning: Torque::ZERO }
}

#[test]
fn it_is_the_handbooks_beam_in_the_cases_that_the_handbook_has() {
    use crate::beam::{Load, Support, bend as closed};
    for (support, holds) in [
        (Support::Simple, vec![held(0.0, Hold::Pivoted), held(L, Hold::Pivoted)]),
        (Support::Cantilever, vec![held(0.0, Hold::Clamped)]),
        (Support::Fixed, vec![held(0.0, Hold::Clamped), held(L, Hold::Clamped)]),
    ] {
        for a in [0.13, 0.4, 0.61] {
            let load = Load::At { force: Force::from_si(50.0), from_support: m(a) };
            let book = closed(support, load, m(L), BendingStiffness::from_si(EI)).unwrap();
            let ours = one_piece(&holds, &[down(a, 50.0)]).unwrap();
            let close =
                |ours: f64, book: f64| assert!((ours.abs() / book - 1.0).abs() < 1e-10, "{support:?} {ours} {book}");
            close(ours.hardest_bent().moment.si(), book.moment.si());
            close(ours.hardest_sheared().shear.si(), book.shear.si());
            close(ours.farthest().deflection.si(), book.deflection.si());
            close(ours.at(m(a)).deflection.si(), book.deflection_at_load.si());
        }
    }
}

#[test]
fn a_guided_end_is_half_of_a_beam_clamped_at_both() {
    let half = one_piece(&[held(0.0, Hold::Clamped), held(L, Hold::Guided)], &[down(L, 25.0)]).unwrap();
    // Of length 2·L with 50 N in its middle: F·(2L)³/(192·EI).
    let expected = 50.0 * (2.0 * L).powi(3) / (192.0 * EI);
    assert!((half.farthest().deflection.si() / -expected - 1.0).abs() < 1e-10);
    assert!((half.reactions[1].moment.si().abs() - 50.0 * 2.0 * L / 8.0).abs() < 1e-9);
}

#[test]
fn a_soft_seat_lies_between_none_and_a_rigid_one() {
    let push = [down(0.5 * L, 50.0)];
    let middle = |rate: f64| {
        let holds = [held(0.0, Hold::Pivoted), held(0.5 * L, seat(rate, 0.0)), held(L, Hold::Pivoted)];
        one_piece(&holds, &push).unwrap()
    };
    let alone = 48.0 * EI / L.powi(3);
    for rate in [1e-6, 100.0, 1e9] {
        let solved = middle(rate);
        let expected = 50.0 / (alone + rate);
        assert!((solved.at(m(0.5 * L)).deflection.si() / -expected - 1.0).abs() < 1e-6, "{rate}");
    }
}

#[test]
fn play_is_used_up_before_a_seat_pushes_back() {
    let push = |newton: f64| [down(0.5 * L, newton)];
    let holds = [held(0.0, Hold::Pivoted), held(0.5 * L, seat(1e9, 1e-3)), held(L, Hold::Pivoted)];
    let alone = 48.0 * EI / L.powi(3);
    let touches = alone * 1e-3;
    let light = one_piece(&holds, &push(0.9 * touches)).unwrap();
    assert_eq!(light.reactions[1].force.si(), 0.0);
    assert!((light.at(m(0.5 * L)).deflection.si() + 0.9e-3).abs() < 1e-12);
    let heavy = one_piece(&holds, &push(3.0 * touches)).unwrap();
    assert!((heavy.at(m(0.5 * L)).deflection.si() + 1e-3).abs() < 1e-7);
    assert!((heavy.reactions[1].force.si() / (2.0 * touches) - 1.0).abs() < 1e-4);
    // Upward it meets the other side.
    let up = one_piece(&holds, &push(-3.0 * touches)).unwrap();
    assert!((up.at(m(0.5 * L)).deflection.si() - 1e-3).abs() < 1e-7);
}

#[test]
fn a_shaft_with_play_in_both_bearings_lies_on_the_side_to_which_it_is_pushed() {
    let holds = [held(0.1, seat(1e8, 1e-4)), held(0.6, seat(1e8, 1e-4))];
    let overhung = one_piece(&holds, &[down(L, 100.0)]).unwrap();
    let [left, right] = [overhung.reactions[0].force.si(), overhung.reactions[1].force.si()];
    assert!((left + 40.0).abs() < 1e-6 && (right - 140.0).abs() < 1e-6, "{left} {right}");
    assert!(overhung.at(m(0.1)).deflection.si() > 1e-4 && overhung.at(m(0.6)).deflection.si() < -1e-4);
}

#[test]
fn what_nothing_holds_and_what_has_no_shape_has_no_answer() {
    assert_eq!(one_piece(&[held(0.1, Hold::Pivoted)], &[down(0.4, 1.0)]), Err(Unsolved::Loose));
    assert_eq!(one_piece(&[held(0.1, Hold::Guided)], &[down(0.4, 1.0)]), Err(Unsolved::Loose));
    assert_eq!(one_piece(&[], &[]), Err(Unsolved::Loose));
    assert_eq!(one_piece(&[held(0.0, Hold::Clamped)], &[down(1.4, 1.0)]), Err(Unsolved::Shapeless));
    let gap = [Piece { from: m(0.0), to: m(0.3), stiffness: BendingStiffness::from_si(EI) }];
    assert_eq!(bend(m(L), &gap, &[held(0.0, Hold::Clamped)], &[]), Err(Unsolved::Shapeless));
    let limp = [Piece { from: m(0.0), to: m(L), stiffness: BendingStiffness::ZERO }];
    assert_eq!(bend(m(L), &limp, &[held(0.0, Hold::Clamped)], &[]), Err(Unsolved::Shapeless));
}

#[test]
fn reactions_balance_the_loads() {
    let holds = [held(0.0, Hold::Clamped), held(0.3, seat(5e4, 0.0)), held(0.7, Hold::Pivoted)];
    let pushes = [
        down(0.15, 90.0),
        Push::Moment { at: m(0.5), moment: Torque::from_si(7.0) },
        Push::Spread { from: m(0.2), to: m(0.8), per_length: SpringRate::from_si(-300.0) },
    ];
    let solved = one_piece(&holds, &pushes).unwrap();
    let up: f64 = solved.reactions.iter().map(|r| r.force.si()).sum();
    assert!((up - 90.0 - 180.0).abs() < 1e-9);
    let about: f64 = solved.reactions.iter().zip([0.0, 0.3, 0.7]).map(|(r, x)| r.force.si() * x + r.moment.si()).sum();
    assert!((about + 7.0 - 90.0 * 0.15 - 180.0 * 0.5).abs() < 1e-9);
}
