//! Press fits (Lamé), Hertzian contact (Johnson) and bearing life (ISO 281) by tables of ten digits.

use handbook::table;
use physics::bearing_life::{Rolling, in_time, rating_life};
use physics::hertz::{Face, line, point};
use physics::press_fit::{Body, PressFit};
use quantity::*;

#[test]
fn press_fits_cold_and_hot() {
    let rows = table(include_str!("../data/press_fits.csv"));
    assert!(rows.len() > 20);
    for row in &rows {
        let body = |of: &str| Body {
            modulus: Pressure::from_si(row.f(&format!("E_{of}_Pa"))),
            poisson: Ratio::from_si(row.f(&format!("nu_{of}"))),
            expansion: TemperatureCoefficient::from_si(row.f(&format!("alpha_{of}_per_K"))),
        };
        let twice = |name: &str| Length::from_si(2.0 * row.f(name));
        let fit = PressFit {
            diameter: twice("r_interface_m"),
            bore: twice("r_shaft_bore_m"),
            outside: twice("r_hub_outer_m"),
            inner: body("shaft"),
            outer: body("hub"),
            interference: twice("delta_radial_m"),
        };
        let (friction, length) = (Ratio::from_si(row.f("mu_friction")), Length::from_si(row.f("length_m")));
        let p = fit.pressure(TemperatureInterval::ZERO);
        row.prints("p_interface_Pa", p.si(), 10);
        row.prints("sigma_hoop_hub_bore_Pa", fit.hub_hoop(p).si(), 10);
        row.prints("T_slip_Nm", fit.slips_at(p, friction, length).si(), 10);
        let warmer = TemperatureInterval::from_si(row.f("dT_K"));
        row.prints("delta_radial_hot_m", fit.left(warmer).si() / 2.0, 9);
        let hot = fit.pressure(warmer);
        row.prints("p_hot_Pa", hot.si(), 9);
        row.prints("T_slip_hot_Nm", fit.slips_at(hot, friction, length).si(), 9);
    }
}

#[test]
fn rollers_and_balls_on_one_another() {
    let rows = table(include_str!("../data/hertz.csv"));
    assert!(rows.len() > 20);
    for row in &rows {
        let face = |i: i32| Face {
            radius: Length::from_si(row.opt(&format!("R{i}_m")).unwrap_or(f64::INFINITY)),
            modulus: Pressure::from_si(row.f(&format!("E{i}_Pa"))),
            poisson: Ratio::from_si(row.f(&format!("nu{i}"))),
        };
        let force = Force::from_si(row.f("F_N"));
        let strip = line(force, Length::from_si(row.f("L_m")), &face(1), &face(2));
        row.prints("b_half_width_m", strip.reach.si(), 10);
        row.prints("p_max_line_Pa", strip.pressure.si(), 10);
        // The table counts 0.300 to more digits.
        assert!((strip.shear.si() / row.f("tau_max_line_Pa") - 1.0).abs() < 2e-3);
        let spot = point(force, &face(1), &face(2));
        row.prints("a_sphere_m", spot.reach.si(), 10);
        row.prints("p0_sphere_Pa", spot.pressure.si(), 10);
    }
}

#[test]
fn bearing_lives() {
    let rows = table(include_str!("../data/bearing_life.csv"));
    assert!(rows.len() > 20);
    for row in &rows {
        let kind = if row.s("type") == "ball" { Rolling::Ball } else { Rolling::Roller };
        let life = rating_life(kind, Force::from_si(row.f("C_N")), Force::from_si(row.f("P_N")));
        let close = |name: &str, ours: f64| {
            // The roller's exponent is printed with ten digits.
            assert!((ours / row.f(name) - 1.0).abs() < 1e-8, "{name}: {ours}");
        };
        close("L10_Mrev", life / 1e6);
        let speed = AngularVelocity::from_si(row.f("n_rpm") * std::f64::consts::PI / 30.0);
        let hours = |a1: f64| in_time(life, speed, Ratio::from_si(a1)).si() / 3600.0;
        close("L10h_h", hours(1.0));
        close("L5ah_h", hours(0.64));
        close("L1ah_h", hours(0.25));
    }
}
