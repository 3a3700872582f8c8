//! Worked examples and printed tables of structure: shafts, notches, columns, bearings, continuous beams, torsion, screws.

use handbook::{Row, table};
use physics::beam::stations::{Held, Hold, Piece, Push, bend};
use physics::section::composite::{Shape, torsion};
use physics::shaft::{Place, Surface, endurance, goodman, notch_factor};
use quantity::*;
use std::f64::consts::PI;

fn near(row: &Row, ours: f64) {
    let (printed, within) = (row.f("printed"), row.f("within"));
    let what = row.s("what");
    assert!((ours - printed).abs() <= within * 1.0001, "{what}: {ours} is printed {printed}");
}

const INCH: f64 = 0.0254;
const POUND: f64 = 4.448_222;
const KPSI: f64 = 6.894_757e6;

fn one(x: f64) -> Ratio {
    Ratio::from_si(x)
}

fn length(x: f64) -> Length {
    Length::from_si(x)
}

#[test]
fn shigley_on_shafts_columns_and_bearings() {
    let rows = table(include_str!("../data/shigley_shafts.csv"));
    assert_eq!(rows.len(), 11);
    for row in &rows {
        let (a, b) = (row.f("a"), row.opt("b").unwrap_or(0.0));
        // Of a bar of 7.62 mm the size counts nothing.
        let smooth =
            |d: f64| endurance(Pressure::from_si(520e6), Surface::Machined, length(d), one(1.0), one(1.0)).si();
        let ours = match row.s("what") {
            "surface" => {
                let se = endurance(Pressure::from_si(a), Surface::Machined, length(7.62e-3), one(1.0), one(1.0));
                let size = smooth(7.62e-3) / 520e6 / (4.51 * 520f64.powf(-0.265));
                se.si() / a / size
            }
            "size" => smooth(a) / 520e6 / (4.51 * 520f64.powf(-0.265)),
            "notch" => notch_factor(one(1.65), length(b), Pressure::from_si(a), false).si(),
            "endurance" => {
                let sut = Pressure::from_si(a * KPSI);
                endurance(sut, Surface::Machined, length(b * INCH), one(0.814), one(0.5)).si() / KPSI
            }
            "goodman" => {
                let d = 1.1 * INCH;
                let (m, t) = (1260.0 * POUND * INCH, 1100.0 * POUND * INCH);
                let place = Place {
                    bending: physics::beam::shaft_bending(Torque::from_si(m), length(d), Length::ZERO),
                    shear: physics::beam::shaft_shear(Torque::from_si(t), length(d), Length::ZERO),
                    torque_ratio: one(1.0),
                    notch: (one(1.58), one(1.37)),
                };
                1.0 / goodman(&place, Pressure::from_si(a * KPSI), Pressure::from_si(b * KPSI)).si()
            }
            "rating" => {
                // The rating with which the life comes out.
                let turns = 5000.0 * 60.0 * b;
                let load = Force::from_si(a * POUND);
                let rating = load * (turns / 1e6).cbrt();
                let life = physics::bearing_life::rating_life(physics::bearing_life::Rolling::Ball, rating, load);
                assert!((life / turns - 1.0).abs() < 1e-9);
                rating.si() / 1e3
            }
            "column" => {
                let carries = |d: f64| {
                    let round = physics::section::round(length(d));
                    physics::buckling::Strut {
                        area: round.area,
                        second_moment: round.second_moment,
                        length: length(b),
                        length_factor: one(1.0),
                        modulus: Pressure::from_si(207e9),
                        compressive_yield: Pressure::from_si(500e6),
                    }
                    .load()
                    .si()
                };
                let (mut low, mut high) = (0.001, 0.1);
                for _ in 0..60 {
                    let middle = 0.5 * (low + high);
                    if carries(middle) < a { low = middle } else { high = middle }
                }
                high * 1e3
            }
            "give" => {
                let stiffness = BendingStiffness::from_si(30e3 * KPSI * PI / 64.0 * INCH.powi(4));
                let span = length(31.0 * INCH);
                let ends = [Length::ZERO, span].map(|at| Held { at, by: Hold::Pivoted });
                let piece = Piece { from: Length::ZERO, to: span, stiffness };
                let push = Push::Force { at: length(b * INCH), force: Force::from_si(POUND) };
                bend(span, &[piece], &ends, &[push]).unwrap().at(length(a * INCH)).deflection.si() / INCH
            }
            other => panic!("{other}"),
        };
        near(row, ours);
    }
}

#[test]
fn continuous_beams_of_equal_spans() {
    let rows = table(include_str!("../data/continuous_beams.csv"));
    assert_eq!(rows.len(), 5);
    for row in &rows {
        let spans = row.f("spans");
        let piece = Piece { from: Length::ZERO, to: length(spans), stiffness: BendingStiffness::from_si(1.0) };
        let mut holds: Vec<Held> =
            (0..=spans as i32).map(|i| Held { at: length(f64::from(i)), by: Hold::Pivoted }).collect();
        if row.s("kind") != "pivoted" {
            holds[0].by = Hold::Clamped;
        }
        if row.s("kind") == "clamped_both" {
            holds[1].by = Hold::Clamped;
        }
        let even = Push::Spread { from: Length::ZERO, to: length(spans), per_length: SpringRate::from_si(-1.0) };
        let bent = bend(length(spans), &[piece], &holds, &[even]).unwrap();
        row.prints("reaction_first", bent.reactions[0].force.si(), 3);
        row.prints(
            "reaction_second",
            bent.reactions[1].force.si(),
            if row.f("reaction_second") >= 1.0 { 4 } else { 3 },
        );
        let moment = bent.hardest_bent().moment.si().abs();
        assert!((moment - row.f("moment_over_support")).abs() < 0.6e-4, "{moment}");
        let deflection = bent.farthest().deflection.si().abs();
        assert!((deflection - row.f("deflection")).abs() < 0.6e-4, "{deflection}");
    }
}

#[test]
fn rectangles_in_torsion() {
    let rows = table(include_str!("../data/rectangle_torsion.csv"));
    assert_eq!(rows.len(), 7);
    for row in &rows {
        let slim = row.f("long_over_short");
        let ours = torsion(&Shape::Rectangle { width: length(1.0), height: length(slim) });
        let (alpha, beta) = (ours.modulus.si() / slim, ours.constant.si() / slim);
        assert!((alpha / row.f("alpha") - 1.0).abs() < 0.006, "{slim}: {alpha}");
        assert!((beta / row.f("beta") - 1.0).abs() < 0.006, "{slim}: {beta}");
    }
}

#[test]
fn screws_tightened_to_nine_tenths() {
    for row in &table(include_str!("../data/screws_tightened.csv")) {
        let screw = physics::bolted::Screw {
            diameter: length(row.f("diameter_m")),
            pitch: length(row.f("pitch_m")),
            head_mean: length(1.4 * row.f("diameter_m")),
        };
        let pull = Force::from_si(row.f("pull_kN") * 1e3);
        let stress = physics::bolted::screw_stress(&screw, pull, one(row.f("friction")), true).si();
        assert!((stress / 576e6 - 1.0).abs() < 0.005, "{} kN: {stress}", row.f("pull_kN"));
    }
}
