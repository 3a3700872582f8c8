//! Laws of the drive line on drawn machines and cases.

use super::tests::{CARRIER, carrier};
use super::*;
use crate::point::CasePoint;
use machine::{Machine, Stage, WhatIf};
use proptest::prelude::*;
use std::sync::LazyLock;

/// Two motors on one line, a planetary set, a pair of gears, a ring and a chain: all that a line can be made of.
static MACHINE: LazyLock<Machine> = LazyLock::new(|| {
    let stages = "
    - {name: set, kind: planetary, sun: {teeth: 18}, planet: {teeth: 18}, ring: {teeth: 54}, planets: 3}
    - {name: ring, kind: internal, pinion: {teeth: 17}, wheel: {teeth: 60}, efficiency: 97 %}
    - {name: primary, kind: helical, pinion: {teeth: 17}, wheel: {teeth: 40}, efficiency: 96 %}
    - {name: belt, kind: toothed_belt, driving_teeth: 30, driven_teeth: 24, efficiency: 95 %}";
    let at = CARRIER.find("    - {name: primary").unwrap();
    let end = CARRIER.find("    - {name: secondary").unwrap();
    carrier(&[
        (&CARRIER[at..end], &format!("{}\n", stages.trim_start_matches('\n'))),
        ("motor: {speed_constant", "motor: {count: 2, arranged: on_one_line, speed_constant"),
        ("assumed: {", "assumed: {gear_efficiency: 96 %, "),
    ])
});

fn solved(machine: &Machine, case: &str, what_if: &WhatIf) -> Found<Drive> {
    let case = machine.cases.iter().position(|each| each.name() == case).unwrap();
    let cells = crate::cache::Cells::default();
    At::new(machine, CasePoint { case, share: 0.0 }, what_if, &cells).drive().cloned()
}

/// What goes into each stage is what the one before it gives, and what the last gives is at the track.
fn handed_on(drive: &Drive, radius: f64) {
    let close = |a: f64, b: f64, of: f64| (a - b).abs() <= 1e-9 * of.abs().max(1e-6);
    let motors = drive.motors / drive.lines;
    let mut into = (drive.motor_speed.si(), drive.motor_torque.si() * motors);
    for stage in &drive.stages {
        assert!(close(stage.speed_in.si(), into.0, into.0) && close(stage.torque_in.si(), into.1, into.1));
        let (taken, given) = (into.0 * into.1, stage.speed_out.si() * stage.torque_out.si());
        assert!(close(taken, given + stage.loss.si(), taken) && stage.loss.si() >= -1e-9);
        into = (stage.speed_out.si(), stage.torque_out.si());
    }
    assert!(close(into.1, drive.sprocket_torque.si(), into.1));
    assert!(close(drive.sprocket_torque.si() * drive.lines, drive.pull.si() * radius, drive.sprocket_torque.si()));
    assert!(close(into.0 * radius, drive.track_speed.si(), drive.track_speed.si()));
}

proptest! {
    #[test]
    fn torque_and_power_balance_through_every_stage(
        speed in 0.1..12.0f64, grade in 1.0..35.0f64, mass in 20.0..200.0f64, resistance in 0.005..0.08f64,
    ) {
        let machine = &*MACHINE;
        let mut what_if = WhatIf::default();
        what_if.set(machine.machine.mass.id(), mass);
        what_if.set(machine.powertrain.motor.resistance.id(), resistance);
        for case in &machine.cases {
            what_if.set(case.value.speed.id(), speed);
            what_if.set(case.value.grade.id(), f64::to_radians(grade));
        }
        let radius = 0.040 / (2.0 * (std::f64::consts::PI / 9.0).sin());
        for case in ["climb", "descent", "top_speed", "lift_off", "launch", "powered"] {
            let Ok(drive) = solved(machine, case, &what_if) else { continue };
            handed_on(&drive, radius);
            let given = drive.battery_voltage.si() * drive.battery_current.si();
            let out = drive.pull.si() * drive.track_speed.si();
            let in_stages = drive.stages.iter().map(|stage| stage.loss.si()).sum::<f64>() * drive.lines;
            let heat = drive.motor_heat.si() + drive.controller_heat.si() + in_stages;
            prop_assert!((given - out - heat).abs() <= 1e-9 * given.abs().max(out.abs()).max(1.0), "{case}");
        }
    }

    #[test]
    fn more_voltage_never_lowers_the_top_speed(low in 2.0..4.0f64, more in 0.0..3.0f64, limit in 5.0..200.0f64) {
        let machine = &*MACHINE;
        let battery = &machine.powertrain.battery;
        let top = |volts: f64| {
            let mut what_if = WhatIf::default();
            what_if.set(battery.cells.full_voltage.id(), volts);
            what_if.set(machine.powertrain.controller.current_limit.battery.id(), limit);
            solved(machine, "top_speed", &what_if).map(|drive| drive.track_speed.si())
        };
        if let Ok(slower) = top(low) {
            prop_assert!(top(low + more).unwrap() >= slower * (1.0 - 1e-9));
        }
    }

    #[test]
    fn swapped_teeth_give_the_reciprocal_ratio(one in 9u32..80, other in 9u32..80) {
        let machine = &*MACHINE;
        let Stage::Helical(gears) = &machine.powertrain.stages[2] else { panic!() };
        let ratio = |pinion: u32, wheel: u32| {
            let mut what_if = WhatIf::default();
            what_if.set(gears.pinion.teeth.id(), f64::from(pinion));
            what_if.set(gears.wheel.teeth.id(), f64::from(wheel));
            let stage = solved(machine, "lift_off", &what_if).unwrap().stages[2].clone();
            stage.speed_in.si() / stage.speed_out.si()
        };
        prop_assert!((ratio(one, other) * ratio(other, one) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn the_energy_of_the_stopped_rotor_is_the_work_in_the_line(
        inertia in 1e-5..1e-1f64, stiffness in 1.0..1e4f64, volts in 2.0..5.0f64,
    ) {
        let machine = &*MACHINE;
        let powertrain = &machine.powertrain;
        let mut what_if = WhatIf::default();
        what_if.set(powertrain.motor.rotor_inertia.id(), inertia);
        // Of a track that does not slip; what slips takes some of it away.
        what_if.set(machine.assumed.traction.id(), 1e9);
        what_if.set(powertrain.line_stiffness.id(), stiffness);
        what_if.set(powertrain.battery.cells.full_voltage.id(), volts);
        let drive = solved(machine, "powered", &what_if).unwrap();
        let blow = drive.blow.unwrap();
        let motors = drive.motors / drive.lines;
        let turning = motors * 0.5 * inertia * drive.motor_speed.si().powi(2);
        let wound = 0.5 * (motors * blow.torque.si()).powi(2) / stiffness;
        prop_assert!((wound / turning - 1.0).abs() < 1e-9);
    }
}
