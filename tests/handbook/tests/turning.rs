//! Shafts on two bearings with gears, chain wheels and hubs: reactions, moments, combined stress, fatigue, critical speed.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use handbook::{Row, table};
use physics::beam::stations::{Bending, Held, Hold, Push, bend};
use physics::beam::von_mises;
use physics::shaft::critical::{Bar, Disc, bar, dunkerley, of_discs, of_shaft, together};
use physics::shaft::{Place, Surface, endurance, goodman};
use quantity::*;
use std::f64::consts::PI;

fn m(x: f64) -> Length {
    Length::from_si(x)
}

fn parts<'a>(row: &'a Row, name: &str) -> Vec<Vec<&'a str>> {
    row.s(name).split(';').filter(|item| !item.is_empty()).map(|item| item.split(':').collect()).collect()
}

fn list(row: &Row, name: &str) -> Vec<Option<f64>> {
    row.s(name).split(';').map(|item| item.parse().ok()).collect()
}

/// Forces in y and z, torque and mass of an element, as the head of the table defines them.
struct Element {
    x: f64,
    torque: f64,
    mass: f64,
    y: f64,
    z: f64,
}

fn element(item: &[&str]) -> Element {
    let n = |i: usize| item[i].parse::<f64>().unwrap();
    let (torque, angle) = (n(2), item[item.len() - 1].parse::<f64>().unwrap().to_radians());
    let (sin, cos) = angle.sin_cos();
    let (y, z) = match item[1] {
        "gear" => {
            let ft = 2.0 * torque / n(4);
            let fr = ft.abs() * n(5).to_radians().tan();
            (-ft * sin - fr * cos, ft * cos - fr * sin)
        }
        "chain" => {
            let pull = n(5) * 2.0 * torque.abs() / n(4);
            (pull * cos, pull * sin)
        }
        "hub" => (n(4) * cos, n(4) * sin),
        other => panic!("element {other}"),
    };
    Element { x: n(0), torque, mass: n(3), y, z }
}

struct Shaft {
    length: Length,
    bars: Vec<Bar>,
    holds: [Held; 2],
    elements: Vec<Element>,
}

impl Shaft {
    fn of(row: &Row) -> Self {
        let (modulus, density) =
            (Pressure::from_si(row.f("modulus_Pa")), MassDensity::from_si(row.f("density_kg_per_m3")));
        let pieces = parts(row, "pieces");
        let n = |text: &str| m(text.parse().unwrap());
        let bars = pieces.iter().map(|p| bar(n(p[0]), n(p[1]), n(p[2]), m(0.0), modulus, density)).collect();
        let held = |name: &str| Held { at: m(row.f(name)), by: Hold::Pivoted };
        let elements = parts(row, "elements").iter().map(|item| element(item)).collect();
        Self { length: m(row.f("length_m")), bars, holds: [held("bearing_a_x_m"), held("bearing_b_x_m")], elements }
    }

    fn plane(&self, of: impl Fn(&Element) -> f64) -> Bending {
        let pieces: Vec<_> = self.bars.iter().map(|bar| bar.piece).collect();
        let push = |e: &Element| Push::Force { at: m(e.x), force: Force::from_si(of(e)) };
        let pushes: Vec<_> = self.elements.iter().map(push).collect();
        bend(self.length, &pieces, &self.holds, &pushes).unwrap()
    }

    /// The larger torque of both sides of a place.
    fn torque(&self, x: f64) -> f64 {
        let left: f64 = self.elements.iter().filter(|e| e.x < x - 1e-9).map(|e| e.torque).sum();
        let with: f64 = self.elements.iter().filter(|e| e.x < x + 1e-9).map(|e| e.torque).sum();
        left.abs().max(with.abs())
    }
}

#[test]
fn forces_stresses_and_fatigue() {
    let rows = table(include_str!("../data/shafts_stations.csv"));
    assert!(rows.len() >= 60, "{}", rows.len());
    for row in &rows {
        let (shaft, case) = (Shaft::of(row), row.s("case"));
        let (in_y, in_z) = (shaft.plane(|e| e.y), shaft.plane(|e| e.z));
        let close = |name: &str, ours: f64, theirs: f64, of: f64| {
            assert!((ours - theirs).abs() <= 1e-6 * of.abs(), "{case} {name}: {ours} is printed {theirs}");
        };
        for (index, name) in ["bearing_a_N", "bearing_b_N"].iter().enumerate() {
            let ours = in_y.reactions[index].force.si().hypot(in_z.reactions[index].force.si());
            close(name, ours, row.f(name), row.f("bearing_a_N").max(row.f("bearing_b_N")));
        }
        let most = list(row, "station_moment_Nm").into_iter().flatten().fold(0.0, f64::max);
        let (sut, sy) = (Pressure::from_si(row.f("Sut_Pa")), row.f("Sy_Pa"));
        let share = match row.f("modulus_Pa") {
            e if e > 200e9 => 0.5,
            e if e > 100e9 => 0.45,
            _ => 0.4,
        };
        let mut worst: f64 = 0.0;
        let stations = list(row, "station_x_m").into_iter().flatten();
        for (i, x) in stations.enumerate() {
            let moment = in_y.at(m(x)).moment.si().hypot(in_z.at(m(x)).moment.si());
            close("moment", moment, list(row, "station_moment_Nm")[i].unwrap(), most);
            let torque = shaft.torque(x);
            close("torque", torque, list(row, "station_torque_Nm")[i].unwrap(), torque.max(1.0));
            let d = m(list(row, "station_diameter_m")[i].unwrap());
            let bending = physics::beam::shaft_bending(Torque::from_si(moment), d, m(0.0));
            let shear = physics::beam::shaft_shear(Torque::from_si(torque), d, m(0.0));
            let combined = von_mises(bending, shear).si();
            let scale = row.f("von_mises_max_Pa");
            close("von Mises", combined, list(row, "station_von_mises_Pa")[i].unwrap(), scale);
            worst = worst.max(combined);
            let one = |name: &str| Ratio::from_si(list(row, name)[i].unwrap());
            let place = Place {
                bending,
                shear,
                torque_ratio: Ratio::from_si(row.f("torque_ratio_min_over_max")),
                notch: (one("station_Kf"), one("station_Kfs")),
            };
            let se =
                endurance(sut, Surface::Machined, d, Ratio::from_si(row.f("k_reliability")), Ratio::from_si(share));
            close("Se", se.si(), list(row, "station_Se_Pa")[i].unwrap(), se.si());
            if let Some(theirs) = list(row, "station_goodman")[i].filter(|n| *n < 1e3) {
                close("Goodman", goodman(&place, se, sut).si(), theirs, theirs);
            }
        }
        close("yield", sy / worst, row.f("yield_factor"), row.f("yield_factor"));
        let most = list(row, "element_deflection_m").into_iter().flatten().fold(0.0, f64::max);
        for (e, theirs) in shaft.elements.iter().zip(list(row, "element_deflection_m")) {
            let ours = in_y.at(m(e.x)).deflection.si().hypot(in_z.at(m(e.x)).deflection.si());
            close("deflection", ours, theirs.unwrap(), most);
        }
    }
}

#[test]
fn critical_speeds_of_stepped_shafts() {
    for row in &table(include_str!("../data/shafts_stations.csv")) {
        let (shaft, case) = (Shaft::of(row), row.s("case"));
        let disc = |e: &Element| Disc { at: m(e.x), mass: Mass::from_si(e.mass) };
        let discs: Vec<_> = shaft.elements.iter().map(disc).collect();
        let rpm = |speed: AngularVelocity| speed.si() * 30.0 / PI;
        let (l, bars, holds) = (shaft.length, &shaft.bars, &shaft.holds);
        let close = |name: &str, ours: f64| {
            let theirs = row.f(name);
            assert!((ours / theirs - 1.0).abs() < 1e-6, "{case} {name}: {ours} is printed {theirs}");
        };
        let bare = of_shaft(l, bars, holds, &[], 40).unwrap();
        let masses = dunkerley(l, bars, holds, &discs).unwrap();
        close("n_dunkerley_masses_rpm", rpm(masses));
        close("n_eigen_masses_rpm", rpm(of_discs(l, bars, holds, &discs).unwrap()));
        close("n_eigen_bare_shaft_rpm", rpm(bare));
        close("n_dunkerley_with_shaft_rpm", rpm(together(&[masses, bare])));
        close("n_eigen_with_shaft_rpm", rpm(of_shaft(l, bars, holds, &discs, 40).unwrap()));
    }
}

#[test]
fn critical_speeds_of_even_shafts() {
    let rows = table(include_str!("../data/critical_speeds.csv"));
    assert!(rows.len() > 20);
    for row in &rows {
        let (l, d) = (m(row.f("L_m")), m(row.f("d_m")));
        let bars = [bar(m(0.0), l, d, m(0.0), Pressure::from_si(row.f("E_Pa")), MassDensity::from_si(7850.0))];
        let holds = [Held { at: m(0.0), by: Hold::Pivoted }, Held { at: l, by: Hold::Pivoted }];
        let discs: Vec<Disc> = (1..=3)
            .filter_map(|i| {
                let mass = Mass::from_si(row.opt(&format!("m{i}_kg"))?);
                Some(Disc { at: m(row.f(&format!("x{i}_m"))), mass })
            })
            .collect();
        let rpm = |speed: AngularVelocity| speed.si() * 30.0 / PI;
        let close = |name: &str, ours: f64| {
            let theirs = row.f(name);
            assert!((ours / theirs - 1.0).abs() < 1e-7, "{name}: {ours} is printed {theirs}");
        };
        let lumped = of_discs(l, &bars, &holds, &discs).unwrap();
        let bare = of_shaft(l, &bars, &holds, &[], 40).unwrap();
        close("n_crit_exact_lumped_rpm", rpm(lumped));
        close("n_crit_dunkerley_rpm", rpm(dunkerley(l, &bars, &holds, &discs).unwrap()));
        close("n_crit_bare_shaft_rpm", rpm(bare));
        close("n_crit_combined_rpm", rpm(together(&[lumped, bare])));
    }
}
