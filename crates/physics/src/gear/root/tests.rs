use super::*;

const M: f64 = 2e-3;

fn gear(teeth: f64, shift: f64, helix: f64) -> Gear {
    let angle = |degrees: f64| Angle::from_si(degrees.to_radians());
    let (z, x) = (Ratio::from_si(teeth), Ratio::from_si(shift));
    Gear::new(z, Length::from_si(M), angle(20.0), angle(helix), x, None).unwrap()
}

fn rack() -> Rack {
    Rack::standard(Ratio::from_si(0.38))
}

/// Points of the gap that a rack leaves when it rolls off: the envelope of its rounded tip, found by brute force in the
/// gear's own frame. (x across the tooth, y out along its middle), in modules.
fn rolled_off(teeth: f64, shift: f64) -> Vec<(f64, f64)> {
    let (alpha, radius, dedendum) = (20f64.to_radians(), 0.38, 1.25);
    let lateral = PI / 4.0 - dedendum * alpha.tan() - (1.0 - alpha.sin()) * radius / alpha.cos();
    // Centre of the tip circle of the rack, from the pitch point; the middle of a gap of the gear lies at x = 0.
    let (cx, cy) = (lateral, shift - (dedendum - radius));
    let mut points = Vec::new();
    for step in 0..40_000 {
        let turn = -0.6 + 1.2 * f64::from(step) / 40_000.0;
        // Rack shifted by r·turn, gear turned by turn: the normal of the envelope goes through the pitch point.
        let (x, y) = (cx + teeth / 2.0 * turn, cy);
        let far = x.hypot(y);
        let (px, py) = (x + radius * x / far, y + radius * y / far + teeth / 2.0);
        // Turned back into the gear, and by half a pitch from the gap to the tooth.
        let back = -turn - PI / teeth;
        points.push((px * back.cos() + py * back.sin(), -px * back.sin() + py * back.cos()));
    }
    points
}

#[test]
fn the_fillet_is_that_of_a_rolled_off_rack() {
    for (teeth, shift) in [(17.0, 0.0), (12.0, 0.4), (40.0, -0.1)] {
        let points = rolled_off(teeth, shift);
        for slope in [30f64, 45.0, 60.0] {
            let (thick, out, _) = Fillet::new(&gear(teeth, shift, 0.0), &rack()).at(slope.to_radians());
            let nearest = points.iter().map(|(x, y)| (x.abs() - thick / 2.0).hypot(y - out)).fold(f64::MAX, f64::min);
            assert!(nearest < 1e-4, "{teeth} {shift} {slope}: {nearest}");
        }
    }
}

/// Chart of YFa for the rack of ISO 53 in ISO 6336-3 and DIN 3990-3, read from memory to the second digit: 2.06 for a rack.
#[test]
fn a_rack_has_the_form_factor_of_the_chart() {
    let root = root_form(&gear(1000.0, 0.0, 0.0), &rack(), LoadAt::Tip).unwrap();
    assert!((root.form.si() - 2.07).abs() < 0.02, "{root:?}");
    let many = root_form(&gear(40.0, 0.0, 0.0), &rack(), LoadAt::Tip).unwrap();
    let few = root_form(&gear(17.0, 0.0, 0.0), &rack(), LoadAt::Tip).unwrap();
    assert!(few.form > many.form && few.notch < many.notch, "{few:?} {many:?}");
}

#[test]
fn a_load_at_a_contact_ratio_of_one_is_a_load_at_the_tip() {
    for helix in [0.0, 15.0] {
        let gear = gear(23.0, 0.2, helix);
        // In the normal section the contact ratio counts over cos²βb.
        let one = Ratio::from_si(gear.base_helix().cos().powi(2));
        let (tip, outer) = (
            root_form(&gear, &rack(), LoadAt::Tip).unwrap(),
            root_form(&gear, &rack(), LoadAt::OuterSingle(one)).unwrap(),
        );
        assert!((tip.form.si() / outer.form.si() - 1.0).abs() < 1e-12);
        let shared = root_form(&gear, &rack(), LoadAt::OuterSingle(Ratio::from_si(1.6))).unwrap();
        assert!(shared.form < tip.form && shared.arm < tip.arm && shared.chord == tip.chord);
    }
}

/// Two ways round the same tooth: at its outer point of single contact, and at its tip with the second pair's share.
#[test]
fn both_methods_come_to_nearly_the_same_stress() {
    let (pinion, wheel) = (gear(17.0, 0.0, 0.0), gear(40.0, 0.0, 0.0));
    let mesh = Mesh::new(pinion, wheel, Length::from_si(0.057)).unwrap();
    for gear in [pinion, wheel] {
        let stress = |at, factors| {
            let root = root_form(&gear, &rack(), at).unwrap();
            root_stress(Force::from_si(1000.0), Length::from_si(0.02), Length::from_si(M), &root, factors).si()
        };
        let iso = stress(LoadAt::OuterSingle(mesh.contact_ratio()), Ratio::from_si(1.0));
        let vdi = stress(LoadAt::Tip, sharing_factor(&mesh));
        assert!((iso / vdi - 1.0).abs() < 0.1, "{iso} {vdi}");
    }
}

#[test]
fn shift_and_a_round_fillet_strengthen() {
    let stress = |shift: f64, radius: f64| {
        let root = root_form(&gear(17.0, shift, 0.0), &Rack::standard(Ratio::from_si(radius)), LoadAt::Tip).unwrap();
        root.form.si() * root.notch.si()
    };
    assert!(stress(0.4, 0.38) < stress(0.0, 0.38) && stress(0.0, 0.38) < stress(0.0, 0.2));
    assert!(root_form(&gear(5.0, -1.0, 0.0), &rack(), LoadAt::Tip).is_err());
}

#[test]
fn a_helix_and_a_thick_rim_help_and_a_thin_rim_is_refused() {
    let (pinion, wheel) = (gear(20.0, 0.0, 15.0), gear(40.0, 0.0, 15.0));
    let mesh = Mesh::new(pinion, wheel, Mesh::tight_centre(&pinion, &wheel)).unwrap();
    // b·sin 15° over π·m is more than one: 1 − 15/120.
    assert!((overlap_factor(&mesh, Length::from_si(0.03)).si() - 0.875).abs() < 1e-12);
    assert_eq!(overlap_factor(&mesh, Length::from_si(0.0)).si(), 1.0);
    let rim = |of: f64| rim_factor(Length::from_si(of), Length::from_si(1.0)).map(Quantity::si);
    assert_eq!(rim(1.2), Ok(1.0));
    assert!((rim(1.199_999).unwrap() - 1.0).abs() < 1e-3, "the curve joins the line");
    assert!(rim(0.8).unwrap() > 1.5 && rim(0.49).is_err());
}

#[test]
fn a_tooth_all_walls_is_solid_and_without_walls_only_as_full_as_its_infill() {
    let left = |wall: f64, infill: f64| {
        hollow_tooth(Length::from_si(3e-3), Length::from_si(wall), Ratio::from_si(infill)).si()
    };
    assert_eq!(left(1.5e-3, 0.2), 1.0);
    assert_eq!(left(9e-3, 0.2), 1.0);
    assert!((left(0.0, 0.2) - 0.2).abs() < 1e-12);
    // Hollow, walls of a sixth each: 1 − (2/3)³.
    assert!((left(0.5e-3, 0.0) - (1.0 - 8.0 / 27.0)).abs() < 1e-12);
}

#[test]
fn vents_take_their_width_out_of_the_web() {
    let mm = |of: f64| Length::from_si(of * 1e-3);
    let shear = |vents: f64| web_shear(Torque::from_si(20.0), mm(20.0), Ratio::from_si(vents), mm(8.0), mm(5.0)).si();
    // 20 N·m at 20 mm is 1000 N on 125.7 mm × 5 mm; six vents take 48 mm.
    assert!((shear(0.0) / 1.5915e6 - 1.0).abs() < 1e-4 && (shear(6.0) / shear(0.0) - 125.66 / 77.66).abs() < 1e-3);
    assert!(shear(20.0).is_infinite());
}
