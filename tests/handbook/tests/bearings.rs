//! Plain bearings, turning and swinging (Shigley, ch. 12; swinging by kinematics), own evaluation, ten digits.

use handbook::table;
use physics::bearing;
use quantity::*;
use std::f64::consts::PI;

#[test]
fn pressure_speed_and_their_product() {
    let rows = table(include_str!("../data/plain_bearings.csv"));
    assert_eq!(rows.len(), 24);
    for row in &rows {
        let (bore, length) = (Length::from_si(row.f("d_m")), Length::from_si(row.f("L_m")));
        let pressure = bearing::projected_pressure(Force::from_si(row.f("F_N")), bore, length);
        let turning = bearing::rubbing_speed(AngularVelocity::from_si(row.f("speed_rpm") * PI / 30.0), bore);
        let swinging = bearing::swinging_speed(
            Angle::from_si(row.f("osc_half_angle_deg").to_radians()),
            bore,
            Frequency::from_si(row.f("osc_frequency_Hz")),
        );
        row.prints("p_Pa", pressure.si(), 10);
        row.prints("v_m_per_s", turning.si(), 10);
        row.prints("pv_Pa_m_per_s", bearing::pressure_speed(pressure, turning).si(), 10);
        row.prints("v_mean_osc_m_per_s", swinging.si(), 10);
        row.prints("pv_osc_Pa_m_per_s", bearing::pressure_speed(pressure, swinging).si(), 10);
    }
}

#[test]
fn friction_of_rolling_bearings() {
    use physics::rolling::{heat, load_moment};
    use quantity::{AngularVelocity, Force, Length, Quantity, Ratio};
    let rows = table(include_str!("../data/bearing_friction.csv"));
    assert_eq!(rows.len(), 1);
    for row in &rows {
        let moment = load_moment(
            Ratio::from_si(row.f("friction")),
            Force::from_si(row.f("load_N")),
            Length::from_si(row.f("bore_mm") * 1e-3),
        );
        let speed = AngularVelocity::from_si(row.f("rpm") * PI / 30.0);
        row.prints("power_W", heat(moment, speed).si(), 4);
    }
}
