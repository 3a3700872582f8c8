use super::*;

fn mm(length: f64) -> Length {
    Length::from_si(length * 1e-3)
}

fn mpa(stress: f64) -> Pressure {
    Pressure::from_si(stress * 1e6)
}

#[test]
fn keys_of_the_standard() {
    let sizes = |shaft: f64| {
        parallel_key(mm(shaft))
            .map(|key| [key.width, key.height, key.depth_in_shaft].map(|size| (size.si() * 1e4).round() / 10.0))
    };
    assert_eq!(sizes(12.0), Ok([4.0, 4.0, 2.5]));
    assert_eq!(sizes(12.1), Ok([5.0, 5.0, 3.0]));
    assert_eq!(sizes(25.0), Ok([8.0, 7.0, 4.0]));
    assert!(sizes(5.0).is_err() && sizes(90.0).is_err() && sizes(f64::NAN).is_err());
}

#[test]
fn a_key_holds_by_its_side_and_its_width() {
    let key = parallel_key(mm(17.0)).unwrap();
    // 100 MPa on 2 mm × 20 mm at 8.5 mm; 100 MPa on 5 mm × 20 mm.
    assert!((key_crushing(mpa(100.0), mm(17.0), &key, mm(20.0)).si() - 34.0).abs() < 1e-9);
    assert!((key_shear(mpa(100.0), mm(17.0), &key, mm(20.0)).si() - 85.0).abs() < 1e-9);
    // Beyond 1.3 diameters nothing is gained.
    let (long, longer) = (mm(22.1), mm(60.0));
    assert_eq!(key_crushing(mpa(1.0), mm(17.0), &key, long), key_crushing(mpa(1.0), mm(17.0), &key, longer));
}

#[test]
fn a_pin_holds_in_two_sections() {
    // 4 mm in a 20 mm shaft, 300 MPa: 2 · 300·π·4 · 10 mm = 75.4 N·m.
    assert!((pin_shear(mpa(300.0), mm(4.0), mm(20.0)).si() - 75.398).abs() < 1e-3);
    // Both walls of the hub: each (D − d)/2 long at (D + d)/4 of radius: 2·p·dp·(D − d)/2·(D + d)/4.
    let (d, outer) = (20.0, 32.0);
    let walls = 2.0 * 50.0 * 4.0 * (outer - d) / 2.0 * (outer + d) / 4.0 / 1e3;
    assert!((pin_crushing_hub(mpa(50.0), mm(4.0), mm(d), mm(outer)).si() - walls).abs() < 1e-9);
}

/// Force by force: six halves of a flat, each pressed evenly, about the middle.
#[test]
fn a_hexagon_holds_by_six_half_flats() {
    let (across, length, pressure) = (15e-3f64, 20e-3, 40e6);
    let side = across / 3f64.sqrt();
    let steps = 10_000;
    let moment: f64 = (0..steps).map(|step| (f64::from(step) + 0.5) / f64::from(steps) * side / 2.0).sum::<f64>()
        * pressure
        * length
        * side
        / 2.0
        / f64::from(steps)
        * 6.0;
    let ours = hex_crushing(Pressure::from_si(pressure), Length::from_si(across), Length::from_si(length)).si();
    assert!((ours / moment - 1.0).abs() < 1e-6, "{ours} {moment}");
}

#[test]
fn a_flat_that_is_none_holds_nothing() {
    assert_eq!(flat_crushing(mpa(100.0), mm(8.0), mm(8.0), mm(12.0)).si(), 0.0);
    // 8 mm with 7 mm left: the flat is 2·√(16 − 9) = 5.29 mm wide: 100·28·12/8 = 4.2 N·m.
    assert!((flat_crushing(mpa(100.0), mm(8.0), mm(7.0), mm(12.0)).si() - 4.2).abs() < 1e-9);
}

#[test]
fn splines_by_designation() {
    let spline = parallel_spline("6 x 23 x 26").unwrap();
    // 0.75·6·100 MPa·1.5 mm·20 mm·12.25 mm.
    assert!((spline_crushing(mpa(100.0), &spline, mm(20.0)).si() - 165.375).abs() < 1e-9);
    assert!(parallel_spline("6×16×20").is_some());
    for wrong in ["7x23x26", "6x23", "", "6 x 23 x 26 x 1", "a x b x c"] {
        assert_eq!(parallel_spline(wrong), None, "{wrong}");
    }
}

#[test]
fn friction_glue_and_set_screws() {
    assert!(
        (clamp_slip(Ratio::from_si(2.0), Force::from_si(3000.0), Ratio::from_si(0.12), mm(12.0)).si() - 8.64).abs()
            < 1e-9
    );
    assert!((glue_shear(mpa(10.0), mm(12.0), mm(14.0)).si() - 10e6 * PI * 0.012 * 0.014 * 0.006).abs() < 1e-9);
    let quarter = set_screw_holding(Length::from_si(0.25 * 0.0254)).unwrap();
    assert!((quarter.si() - 4448.2).abs() < 0.1);
    // M4 lies between numbers 6 and 8: 0.157 in.
    let m4 = set_screw_holding(mm(4.0)).unwrap().si() / 4.448_221_615;
    assert!(m4 > 250.0 && m4 < 385.0, "{m4}");
    let slips = |screws: f64| set_screw_slip(quarter, Ratio::from_si(screws), mm(20.0)).si();
    assert!((slips(1.0) - 44.48).abs() < 0.01 && (slips(2.0) / slips(1.0) - 1.5).abs() < 1e-12);
    assert!(set_screw_holding(mm(2.0)).is_err() && set_screw_holding(mm(16.0)).is_err());
}

#[test]
fn a_load_beside_the_middle_presses_one_end_harder() {
    let peak = |offset: f64| tilted_pressure(Force::from_si(600.0), mm(10.0), mm(20.0), mm(offset)).si() / 1e6;
    assert!((peak(0.0) - 3.0).abs() < 1e-9);
    // At a sixth of the length the other end just lifts: twice the mean, by both expressions.
    assert!((peak(20.0 / 6.0) - 6.0).abs() < 1e-6 && (peak(20.0 / 6.0 + 1e-6) - 6.0).abs() < 1e-4);
    assert!(peak(9.0) > peak(5.0) && peak(30.0) > peak(9.0) && peak(-5.0) == peak(5.0));
}

#[test]
fn a_thin_hub_bursts_first() {
    let stress = |outside: f64| hub_wall_stress(Force::from_si(1000.0), mm(outside), mm(10.0), mm(20.0)).si();
    assert!(stress(14.0) > stress(20.0) && stress(20.0) > stress(40.0));
    assert!(stress(10.0).is_infinite());
    // Twice the bore: net section 200 mm², 5 MPa, Kt = 2.125.
    assert!((stress(20.0) - 10.625e6).abs() < 1.0);
}

#[test]
fn a_hexagon_spreads_a_thick_hub_as_a_half_filled_pipe() {
    let stress = |outside: f64| hex_spreading(Torque::from_si(45.0), mm(15.0), mm(20.0), mm(outside)).si() / 1e6;
    // p = 4·45/(225e-6·0.02) = 40 MPa, half of it inside: 20·(900 + 225)/(900 − 225).
    assert!((stress(30.0) - 20.0 * 1125.0 / 675.0).abs() < 1e-9);
    // Endless walls: just the pressure itself.
    assert!((stress(1e6) - 20.0).abs() < 1e-6 && stress(15.0).is_infinite());
}
