//! Stiffness, neutral axis and stress of sections with rods, ten digits, against strip integration and a mesh (head of the table).

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use handbook::{Row, table};
use physics::section::composite::{Axis, Composite, Rod, Shape, Stress};
use quantity::*;

fn m(x: f64) -> Length {
    Length::from_si(x)
}

fn shape(row: &Row) -> Shape {
    let (width, height) = (m(row.f("width_m")), m(row.f("height_m")));
    let wall = || m(row.f("wall_m"));
    match row.s("kind") {
        "rectangle" => Shape::Rectangle { width, height },
        "round" => Shape::Round { diameter: height },
        "tube" => Shape::Tube { outer: height, wall: wall() },
        "box" => Shape::Hollow { width, height, wall: wall() },
        "channel" => Shape::Channel { width, height, flange: wall(), web: m(row.f("web_m")) },
        "shell_core" => Shape::ShellAndCore {
            width,
            height,
            shell: wall(),
            core_modulus: Pressure::from_si(row.f("core_modulus_Pa")),
        },
        other => panic!("kind {other}"),
    }
}

fn rods(row: &Row) -> Vec<Rod> {
    let one = |item: &str| {
        let parts: Vec<&str> = item.split(':').collect();
        let n = |i: usize| parts[i].parse::<f64>().unwrap();
        Rod {
            x: m(n(0)),
            y: m(n(1)),
            diameter: m(n(2)),
            modulus: Pressure::from_si(n(3)),
            bonded: parts[4] == "bonded",
        }
    };
    row.s("rods").split(';').filter(|item| !item.is_empty()).map(one).collect()
}

#[test]
fn shells_cores_and_rods_bonded_or_slid_in() {
    let rows = table(include_str!("../data/sections.csv"));
    assert_eq!(rows.len(), 104);
    for row in &rows {
        let case = row.s("case");
        let ours = Composite::of(shape(row), Pressure::from_si(row.f("modulus_Pa")), &rods(row)).unwrap();
        let close = |name: &str, ours: f64, theirs: f64, of: f64| {
            assert!((ours - theirs).abs() <= 1e-6 * of.abs(), "{case} {name}: {ours} is printed {theirs}");
        };
        let size = row.f("height_m");
        close("EA", ours.stretching.si(), row.f("EA_N"), row.f("EA_N"));
        close("x", ours.middle.0.si(), row.f("neutral_x_m"), size);
        close("y", ours.middle.1.si(), row.f("neutral_y_m"), size);
        let strong = row.f("EI_strong_Nm2");
        close("EI_x", ours.about_x.si(), row.f("EI_x_Nm2"), row.f("EI_x_Nm2"));
        close("EI_y", ours.about_y.si(), row.f("EI_y_Nm2"), row.f("EI_y_Nm2"));
        close("EI_xy", ours.skew.si(), row.f("EI_xy_Nm2"), strong);
        close("strong", ours.strong().si(), strong, strong);
        close("weak", ours.weak().si(), row.f("EI_weak_Nm2"), row.f("EI_weak_Nm2"));
        for (name, axis, guided) in [
            ("guided_x", Axis::X, true),
            ("guided_y", Axis::Y, true),
            ("free_x", Axis::X, false),
            ("free_y", Axis::Y, false),
        ] {
            let Stress { outer, core, rods } = ours.stress(axis, guided);
            let column = |of: &str| format!("sigma_{name}_{of}_per_m3");
            close(name, outer, row.f(&column("outer")), outer);
            match (core, row.opt(&column("core"))) {
                (Some(ours), Some(theirs)) => close(name, ours, theirs, theirs),
                (None, None) => {}
                other => panic!("{case} {name}: core {other:?}"),
            }
            let theirs: Vec<f64> = row.s(&column("rods")).split(';').filter_map(|rod| rod.parse().ok()).collect();
            assert_eq!(rods.len(), theirs.len(), "{case}");
            for (ours, theirs) in rods.iter().zip(theirs) {
                close(name, *ours, theirs, theirs);
            }
        }
    }
}
