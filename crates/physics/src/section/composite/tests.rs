use super::*;

fn mm(x: f64) -> Length {
    Length::from_si(x * 1e-3)
}
fn gpa(x: f64) -> Pressure {
    Pressure::from_si(x * 1e9)
}
fn plain(width: f64, height: f64) -> Shape {
    Shape::Rectangle { width: mm(width), height: mm(height) }
}
fn rod(y: f64, bonded: bool) -> Rod {
    Rod { x: mm(0.0), y: mm(y), diameter: mm(5.0), modulus: gpa(120.0), bonded }
}

#[test]
fn it_is_the_plain_section_where_there_is_but_one_material() {
    let ours = Composite::of(plain(14.0, 24.0), gpa(2.0), &[]).unwrap();
    let old = crate::section::rectangle(mm(14.0), mm(24.0));
    assert!((ours.about_x.si() / (2e9 * old.second_moment.si()) - 1.0).abs() < 1e-12);
    assert!((ours.stress(Axis::X, true).outer * old.section_modulus.si() - 1.0).abs() < 1e-12);
    let printed = Shape::ShellAndCore { width: mm(14.0), height: mm(24.0), shell: mm(1.6), core_modulus: gpa(0.6) };
    let shelled = Composite::of(printed, gpa(2.0), &[]).unwrap();
    let old = crate::section::printed_rectangle(mm(14.0), mm(24.0), mm(1.6), Ratio::from_si(0.3));
    assert!((shelled.about_x.si() / (2e9 * old.second_moment.si()) - 1.0).abs() < 1e-12);
}

#[test]
fn rods_agree_with_the_sum_for_equal_rods() {
    let body = crate::section::rectangle(mm(14.0), mm(24.0));
    let round = crate::section::round(mm(5.0));
    for (bonded, bond) in [(true, crate::section::Bond::Glued), (false, crate::section::Bond::SlidIn)] {
        let ours = Composite::of(plain(14.0, 24.0), gpa(2.0), &[rod(8.0, bonded), rod(-8.0, bonded)]).unwrap();
        let heights = [mm(8.0), mm(-8.0)];
        let old = crate::section::with_rods(gpa(2.0), &body, gpa(120.0), &round, &heights, bond).unwrap();
        assert!((ours.about_x.si() / old.si() - 1.0).abs() < 1e-12, "{bond:?}");
    }
}

#[test]
fn glue_takes_the_stress_out_of_the_body_and_puts_it_into_the_rods() {
    let stress = |bonded| {
        let rail = Composite::of(plain(14.0, 24.0), gpa(2.0), &[rod(8.0, bonded), rod(-8.0, bonded)]).unwrap();
        rail.stress(Axis::X, false)
    };
    let (glued, slid) = (stress(true), stress(false));
    assert!(glued.outer < slid.outer / 3.0, "{glued:?} {slid:?}");
    assert!(glued.rods[0] < slid.rods[0] * 4.0);
}

#[test]
fn a_fibre_laid_level_is_strong_in_its_plane_and_weak_across_it() {
    // Six strands 1 mm thick, side by side across the width of a flat bar.
    let strands: Vec<Rod> = [-12.0, -7.2, -2.4, 2.4, 7.2, 12.0]
        .iter()
        .map(|x| Rod { x: mm(*x), y: mm(0.0), diameter: mm(1.0), modulus: gpa(60.0), bonded: true })
        .collect();
    let bar = Composite::of(plain(30.0, 6.0), gpa(3.0), &strands).unwrap();
    let plain = Composite::of(plain(30.0, 6.0), gpa(3.0), &[]).unwrap();
    let gain = |axis| bar.about(axis).si() / plain.about(axis).si();
    assert!(gain(Axis::Y) > 1.4 && gain(Axis::X) < 1.02, "{} {}", gain(Axis::Y), gain(Axis::X));
}

#[test]
fn what_is_not_there_has_no_stiffness() {
    assert_eq!(Composite::of(plain(0.0, 24.0), gpa(2.0), &[]), Err(Shapeless::Nothing));
    assert_eq!(Composite::of(plain(14.0, 24.0), gpa(0.0), &[]), Err(Shapeless::Nothing));
    assert_eq!(Composite::of(plain(14.0, 24.0), gpa(2.0), &[rod(11.0, true)]), Err(Shapeless::RodOutside));
    let tube = Shape::Tube { outer: mm(12.0), wall: mm(6.5) };
    let bar = Composite::of(tube, gpa(2.0), &[]).unwrap();
    assert!((bar.about_x.si() / (2e9 * PI / 64.0 * 12e-3f64.powi(4)) - 1.0).abs() < 1e-12);
}

#[test]
fn shear_flow_adds_up_to_the_pull_of_the_rod() {
    // Along a cantilever of 0.2 m under 100 N the flow has to hand over what the rod pulls with at the wall.
    let rail = Composite::of(plain(14.0, 24.0), gpa(2.0), &[rod(8.0, true), rod(-8.0, true)]).unwrap();
    let handed = rail.shear_flow(Axis::X, 0) * 100.0 * 0.2;
    let area = PI / 4.0 * 25e-6;
    let at_wall = 120e9 * area * 8e-3 / rail.about_x.si() * (100.0 * 0.2);
    assert!((handed / at_wall - 1.0).abs() < 1e-12);
    assert_eq!(rail.shear_flow(Axis::X, 2), 0.0);
}

#[test]
fn torsion_by_known_cases() {
    // A square: J = 0.1406·a⁴, W = 0.208·a³ (Roark, Timoshenko).
    let square = torsion(&plain(10.0, 10.0));
    assert!((square.constant.si() / (0.1406 * 1e-8) - 1.0).abs() < 5e-3);
    assert!((square.modulus.si() / (0.208 * 1e-6) - 1.0).abs() < 1e-2);
    // A thin strip: l·t³/3.
    let strip = torsion(&plain(100.0, 1.0));
    assert!((strip.constant.si() / (0.1 * 1e-9 / 3.0) - 1.0).abs() < 1e-2);
    // Thin tubes by Bredt and by the polar moment.
    let tube = torsion(&Shape::Tube { outer: mm(20.0), wall: mm(0.2) });
    assert!((tube.constant.si() / (2.0 * PI * 9.9e-3f64.powi(3) * 0.2e-3) - 1.0).abs() < 1e-3);
    let square_tube = torsion(&Shape::Hollow { width: mm(20.0), height: mm(20.0), wall: mm(0.2) });
    assert!((square_tube.constant.si() / (0.2e-3 * 19.8e-3f64.powi(3)) - 1.0).abs() < 1e-9);
}
