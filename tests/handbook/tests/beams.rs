//! Straight beams (formulas of Shigley, table A-9; Roark, ch. 8) and shafts (Shigley, ch. 3): own evaluation, ten digits.

use handbook::table;
use physics::beam::{self, Load, Support};
use quantity::*;

#[test]
fn moment_and_deflection_of_six_cases() {
    let rows = table(include_str!("../data/beams.csv"));
    assert_eq!(rows.len(), 36);
    for row in &rows {
        let length = Length::from_si(row.f("L_m"));
        let force = || Force::from_si(row.f("F_N"));
        let spread = || Load::Spread { force: Force::from_si(row.f("w_N_per_m") * length.si()) };
        let at_a = || Load::At { force: force(), from_support: Length::from_si(row.f("a_m")) };
        let (support, load) = match row.s("kind") {
            "ss_centre" => (Support::Simple, Load::middle(force(), length)),
            "ss_offcentre" => (Support::Simple, at_a()),
            "ss_udl" => (Support::Simple, spread()),
            "cant_tip" => (Support::Cantilever, Load::At { force: force(), from_support: length }),
            "cant_at_a" => (Support::Cantilever, at_a()),
            "cant_udl" => (Support::Cantilever, spread()),
            other => panic!("kind {other}"),
        };
        let stiffness = BendingStiffness::from_si(row.f("E_Pa") * row.f("I_m4"));
        let bent = beam::bend(support, load, length, stiffness).unwrap();
        row.prints("moment_max_Nm", bent.moment.si(), 10);
        row.prints("deflection_max_m", bent.deflection.si(), 10);
        if row.opt("deflection_at_load_m").is_some() {
            row.prints("deflection_at_load_m", bent.deflection_at_load.si(), 10);
        }
    }
}

#[test]
fn shafts() {
    let rows = table(include_str!("../data/shafts.csv"));
    assert_eq!(rows.len(), 30);
    for row in &rows {
        let (outer, bore) = (Length::from_si(row.f("do_m")), Length::from_si(row.f("di_m")));
        let (torque, moment) = (Torque::from_si(row.f("T_Nm")), Torque::from_si(row.f("M_Nm")));
        let (bending, shear) = (beam::shaft_bending(moment, outer, bore), beam::shaft_shear(torque, outer, bore));
        let modulus = Pressure::from_si(row.f("G_Pa"));
        row.prints("I_m4", physics::section::tube(outer, bore).second_moment.si(), 10);
        row.prints("J_m4", beam::polar_moment(outer, bore).si(), 10);
        row.prints("sigma_bending_Pa", bending.si(), 10);
        row.prints("tau_torsion_Pa", shear.si(), 10);
        row.prints("sigma_vonmises_Pa", beam::von_mises(bending, shear).si(), 10);
        let twist = beam::twist(torque, Length::from_si(row.f("L_m")), modulus, outer, bore);
        row.prints("twist_rad", twist.si(), 10);
    }
}
