//! Beams with many supports against two independent solvers (head of the table), and the track that jams.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use handbook::{Row, table};
use physics::beam::stations::{Bending, Held, Hold, Piece, Push, bend};
use physics::jam::{OneMass, TwoMasses, energy_peak};
use quantity::*;

fn items<'a>(row: &'a Row, name: &str) -> Vec<Vec<&'a str>> {
    row.s(name).split(';').filter(|item| !item.is_empty()).map(|item| item.split(':').collect()).collect()
}

fn numbers(row: &Row, name: &str) -> Vec<Option<f64>> {
    row.s(name).split(';').map(|item| item.parse().ok()).collect()
}

fn n(text: &str) -> f64 {
    text.parse().unwrap()
}

fn m(text: &str) -> Length {
    Length::from_si(n(text))
}

fn solved(row: &Row) -> Bending {
    let pieces: Vec<Piece> = items(row, "pieces_x0_x1_EI")
        .iter()
        .map(|p| Piece { from: m(p[0]), to: m(p[1]), stiffness: BendingStiffness::from_si(n(p[2])) })
        .collect();
    let holds: Vec<Held> = items(row, "supports_x_kind")
        .iter()
        .map(|s| Held { at: m(s[0]), by: if s[1] == "clamped" { Hold::Clamped } else { Hold::Pivoted } })
        .collect();
    let pushes: Vec<Push> = items(row, "loads")
        .iter()
        .map(|l| match l[0] {
            "F" => Push::Force { at: m(l[1]), force: Force::from_si(n(l[2])) },
            "M" => Push::Moment { at: m(l[1]), moment: Torque::from_si(n(l[2])) },
            "w" => Push::Spread { from: m(l[1]), to: m(l[2]), per_length: SpringRate::from_si(n(l[3])) },
            other => panic!("load {other}"),
        })
        .collect();
    bend(Length::from_si(row.f("length_m")), &pieces, &holds, &pushes).unwrap()
}

#[test]
fn beams_with_one_to_five_supports() {
    let rows = table(include_str!("../data/beams_stations.csv"));
    assert_eq!(rows.len(), 110);
    let mut worst: [f64; 4] = [0.0; 4];
    for row in &rows {
        let (ours, case) = (solved(row), row.s("case"));
        let (moment, shear) = (row.f("moment_max_abs_Nm"), row.f("shear_max_abs_N"));
        let mut note = |which: usize, ours: f64, theirs: f64, of: f64| {
            let off = (ours - theirs).abs() / of;
            worst[which] = worst[which].max(off);
            assert!(off < 1e-6, "{case} {which}: {ours} is printed {theirs}");
        };
        let forces = numbers(row, "reaction_forces_N");
        // A beam loaded by moments alone may have no force at all.
        let largest = forces.iter().flatten().fold(moment / row.f("length_m"), |a, f| a.max(f.abs()));
        let moments = numbers(row, "reaction_moments_Nm");
        for ((reaction, force), turn) in ours.reactions.iter().zip(&forces).zip(&moments) {
            note(0, reaction.force.si(), force.unwrap(), largest);
            note(0, reaction.moment.si(), turn.unwrap_or(0.0), moment.max(1e-9));
        }
        note(1, ours.hardest_bent().moment.si().abs(), moment, moment);
        let first = Length::from_si(row.f("x_moment_first_m"));
        note(1, ours.at(first).moment.si().abs(), moment, moment);
        if shear > 0.0 {
            note(1, ours.hardest_sheared().shear.si().abs(), shear, shear);
        }
        let (farthest, most) = (ours.farthest(), row.f("deflection_max_abs_m"));
        note(2, farthest.deflection.si().abs(), most, most);
        let at_most = ours.at(Length::from_si(row.f("x_deflection_m")));
        note(2, at_most.deflection.si().abs(), most, most);
        let slopes = numbers(row, "load_slope_rad");
        let supports = numbers(row, "support_slope_rad");
        let steepest = slopes.iter().chain(&supports).flatten().fold(1e-12f64, |a, s| a.max(s.abs()));
        let loads = numbers(row, "load_station_m").into_iter().zip(numbers(row, "load_deflection_m")).zip(slopes);
        for ((x, deflection), slope) in loads {
            let here = ours.at(Length::from_si(x.unwrap()));
            note(3, here.deflection.si(), deflection.unwrap(), most);
            note(3, here.slope.si(), slope.unwrap(), steepest);
        }
        for (support, slope) in items(row, "supports_x_kind").iter().zip(supports) {
            note(3, ours.at(m(support[0])).slope.si(), slope.unwrap(), steepest);
        }
    }
    eprintln!("reactions, forces, farthest, stations: {worst:?}");
}

#[test]
fn a_jam_of_one_mass() {
    let rows = table(include_str!("../data/jam.csv"));
    let one: Vec<_> = rows.iter().filter(|row| row.s("kind") == "one_mass").collect();
    assert_eq!((rows.len(), one.len()), (100, 65));
    for row in one {
        let case = row.s("case");
        let ratio = row.f("gear_ratio");
        let inertia = row.f("rotor_inertia_kgm2") * ratio * ratio + row.f("output_inertia_kgm2");
        let speed = row.f("rotor_speed_rpm") * std::f64::consts::PI / 30.0 / ratio;
        let mass = OneMass {
            inertia: MomentOfInertia::from_si(inertia),
            speed: AngularVelocity::from_si(speed),
            stiffness: Torque::from_si(row.f("line_stiffness_Nm_per_rad")),
            motor: Torque::from_si(row.f("motor_torque_Nm") * ratio),
            slips_at: row.opt("slip_torque_Nm").map(Torque::from_si),
        };
        let close = |name: &str, ours: f64| {
            let theirs = row.f(name);
            assert!((ours - theirs).abs() <= 1e-6 * theirs.abs(), "{case} {name}: {ours} is printed {theirs}");
        };
        close("peak_torque_energy_Nm", energy_peak(mass.motor, mass.stiffness, mass.inertia, mass.speed).si());
        let stopped = mass.stop();
        close("peak_torque_Nm", stopped.peak.si());
        assert_eq!(stopped.slips, row.f("slips") == 1.0, "{case}");
        assert_eq!(stopped.stops.is_some(), row.f("stops") == 1.0, "{case}");
        if let Some(stop) = stopped.stops {
            close("slip_angle_rad", stop.slipped.si());
            close("time_to_stop_s", stop.after.si());
            close("heat_in_clutch_J", stop.heat.si());
        }
    }
}

#[test]
fn a_jam_of_two_masses() {
    let rows = table(include_str!("../data/jam.csv"));
    let mut passed: f64 = 0.0;
    for row in rows.iter().filter(|row| row.s("kind") == "two_mass") {
        let case = row.s("case");
        let ratio = row.f("gear_ratio");
        let masses = TwoMasses {
            rotor: MomentOfInertia::from_si(row.f("rotor_inertia_kgm2") * ratio * ratio),
            output: MomentOfInertia::from_si(row.f("output_inertia_kgm2")),
            speed: AngularVelocity::from_si(row.f("rotor_speed_rpm") * std::f64::consts::PI / 30.0 / ratio),
            shaft: Torque::from_si(row.f("shaft_stiffness_Nm_per_rad")),
            line: Torque::from_si(row.f("line_stiffness_Nm_per_rad")),
            motor: Torque::from_si(row.f("motor_torque_Nm") * ratio),
            slips_at: row.opt("slip_torque_Nm").map(Torque::from_si),
        };
        let peaks = masses.peaks(Time::from_si(row.f("window_s")));
        let close = |name: &str, ours: f64| {
            let theirs = row.f(name);
            assert!((ours - theirs).abs() <= 1e-4 * theirs.abs(), "{case} {name}: {ours} is printed {theirs}");
        };
        close("peak_torque_Nm", peaks.line.si());
        close("peak_shaft_torque_Nm", peaks.shaft.si());
        assert_eq!(peaks.slips, row.f("slips") == 1.0, "{case}");
        passed = passed.max(row.f("peak_torque_Nm") / row.f("peak_torque_energy_Nm"));
    }
    assert!(passed > 2.5, "the lumped formula is no bound: {passed}");
}
