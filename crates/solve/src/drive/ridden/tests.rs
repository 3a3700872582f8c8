use super::*;
use crate::drive::tests::{asked, carrier_beside};
use document::{FileTrouble, Files};
use machine::Machine;

/// A log that lies beside the spec.
struct Beside(String);

impl Files for Beside {
    fn read(&self, _: &str, name: &str) -> Result<(String, Vec<u8>), FileTrouble> {
        Ok((name.to_owned(), self.0.clone().into_bytes()))
    }
}

const SOAK: &str = "  soak: {kind: soak, duration: 10 h}\n";
const COLUMNS: &str =
    "time: {heading: t, unit: s}, speed: {heading: v, unit: m/s}, motor_current: {heading: i, unit: A}";

/// The carrier with a run of these columns and rows.
fn run(rows: &str, columns: &str, more: &str, changes: &[(&str, &str)]) -> Machine {
    let case = format!("{SOAK}  sunday: {{kind: log, log: sunday.csv, columns: {{{columns}}}{more}}}\n");
    let mut all = vec![(SOAK, case.as_str())];
    all.extend_from_slice(changes);
    carrier_beside(&all, &Beside(rows.to_owned()))
}

fn drive(machine: &Machine) -> Found<Drive> {
    asked(machine, "sunday", &[], |at| at.drive().cloned())
}

/// 60 s at 80 A and 2 m/s, 40 s at 30 A and 4 m/s.
const TWO: &str = "t,v,i\n0,2,80\n60,4,30\n100,0,0\n";
const KV: f64 = 118.0 * std::f64::consts::PI / 30.0;
const RATIO: f64 = 40.0 / 17.0 * 23.0 / 12.0;

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * b.abs().max(1e-9)
}

#[test]
fn two_loads_by_hand() {
    let drive = drive(&run(TWO, COLUMNS, "", &[])).unwrap();
    let ridden = drive.ridden.clone().unwrap();
    let squares = (60.0 * 80.0 * 80.0 + 40.0 * 30.0 * 30.0) / 100.0;
    assert!(near(drive.motor_current.si(), f64::sqrt(squares)), "{drive:?}");
    // Copper, and iron with friction as the no-load current shows it at each speed.
    let radius = 0.040 / (2.0 * (std::f64::consts::PI / 9.0).sin());
    let iron = |speed: f64| 2.6 * speed / radius * RATIO / KV;
    let heat = 0.031 * squares + 0.6 * iron(2.0) + 0.4 * iron(4.0);
    assert!(near(drive.motor_heat.si(), heat), "{} {heat}", drive.motor_heat.si());
    assert!(near(drive.track_speed.si(), 2.8) && near(ridden.way.si(), 280.0) && near(ridden.time.si(), 100.0));
    assert!(near(ridden.motor_speed.si(), 4.0 / radius * RATIO));
    assert!(near(ridden.motor_torque.si(), 80.0 / KV) && near(ridden.motor_current.si(), 80.0));
    assert!((ridden.motor_ten_seconds.unwrap().si() - 80.0).abs() < 1e-6);
    let turns: f64 = ridden.spectrum.iter().map(|turned| turned.turns.si()).sum();
    assert!(near(turns, 280.0 / radius * RATIO / std::f64::consts::TAU));
    // The battery gives what goes into the motor, and what the controller takes for itself.
    let into = |current: f64, speed: f64| (current * (speed / radius * RATIO / KV) + current * current * 0.031) / 0.95;
    let most = into(80.0, 2.0);
    assert!(near(drive.wanted_power.si(), most));
    let open = 14.0 * 3.6;
    let resistance = (open - drive.battery_voltage.si()) / drive.battery_current.si();
    let amps = |power: f64| (open - f64::sqrt(open * open - 4.0 * resistance * power)) / (2.0 * resistance);
    assert!((drive.peak_current.si() / amps(most) - 1.0).abs() < 1e-9);
    let charge = 60.0 * amps(most) + 40.0 * amps(into(30.0, 4.0));
    assert!((ridden.charge.si() / charge - 1.0).abs() < 1e-9);
}

#[test]
fn an_even_run_is_the_case_that_was_driven() {
    let climb = asked(&run(TWO, COLUMNS, "", &[]), "climb", &[], |at| at.drive().cloned()).unwrap();
    let (speed, current) = (climb.track_speed.si(), climb.motor_current.si());
    let rows = format!("t,v,i\n0,{speed},{current}\n900,{speed},{current}\n");
    let even = drive(&run(&rows, COLUMNS, "", &[])).unwrap();
    for (a, b) in [
        (even.motor_heat.si(), climb.motor_heat.si()),
        (even.controller_heat.si(), climb.controller_heat.si()),
        (even.battery_heat.si(), climb.battery_heat.si()),
        (even.battery_current.si(), climb.battery_current.si()),
        (even.pull.si(), climb.pull.si()),
        (even.sprocket_torque.si(), climb.sprocket_torque.si()),
        (even.motor_speed.si(), climb.motor_speed.si()),
        (even.ridden.as_ref().unwrap().energy.si(), climb.pull.si() * speed * 900.0),
    ] {
        assert!((a / b - 1.0).abs() < 1e-9, "{a} {b}");
    }
    // The same from the battery's side.
    let power = climb.battery_current.si() * climb.battery_voltage.si();
    let rows = format!("t,v,p\n0,{speed},{power}\n900,{speed},{power}\n");
    let columns = COLUMNS.replace("motor_current: {heading: i, unit: A}", "battery_power: {heading: p, unit: W}");
    let by_power = drive(&run(&rows, &columns, "", &[])).unwrap();
    assert!((by_power.motor_current.si() / current - 1.0).abs() < 1e-6, "{}", by_power.motor_current.si());
    assert!((by_power.pull.si() / climb.pull.si() - 1.0).abs() < 1e-6);
}

#[test]
fn other_teeth_keep_the_current_or_the_pull() {
    let teeth = [("driven_teeth: 23", "driven_teeth: 30")];
    let (then, now) = (drive(&run(TWO, COLUMNS, "", &[])).unwrap(), drive(&run(TWO, COLUMNS, "", &teeth)).unwrap());
    assert!(near(now.motor_current.si(), then.motor_current.si()));
    assert!((now.sprocket_torque.si() / then.sprocket_torque.si() - 30.0 / 23.0).abs() < 1e-9);
    let more = format!(", recorded_ratio: {RATIO}");
    let kept = drive(&run(TWO, COLUMNS, &more, &teeth)).unwrap();
    assert!((kept.pull.si() / then.pull.si() - 1.0).abs() < 1e-9 && kept.motor_current < then.motor_current);
    // The current of the day, less what only turns the motor, over the ratio of the ratios.
    let highest = 2.6 + (80.0 - 2.6) * 23.0 / 30.0;
    assert!(near(kept.ridden.as_ref().unwrap().motor_current.si(), highest));
    assert!(kept.motor_speed > then.motor_speed && kept.motor_heat < then.motor_heat);
    assert_eq!(
        drive(&run(TWO, COLUMNS, &more, &[])).unwrap().motor_heat.si().to_bits(),
        then.motor_heat.si().to_bits()
    );
}

#[test]
fn gaps_are_named() {
    let gap = |columns: &str| {
        let machine = run(TWO, columns, "", &[]);
        match drive(&machine) {
            Err(NotJudged::NotGiven { absent, .. }) => machine.absent(absent).unwrap().field,
            other => panic!("{columns}: {other:?}"),
        }
    };
    assert_eq!(gap(&COLUMNS.replace(", unit: s", "")), "unit");
    assert_eq!(gap(&COLUMNS.replace(", unit: A", "")), "unit");
    assert_eq!(gap(&COLUMNS.replace(", unit: m/s", "")), "unit");
    for column in
        ["time: {heading: t, unit: s}, ", "speed: {heading: v, unit: m/s}, ", ", motor_current: {heading: i, unit: A}"]
    {
        assert_eq!(gap(&COLUMNS.replace(column, "")), "heading");
    }
    let bare = carrier_beside(&[(SOAK, &format!("{SOAK}  sunday: {{kind: log}}\n"))], &Beside(String::new()));
    let Err(NotJudged::NotGiven { absent, .. }) = drive(&bare) else { panic!() };
    assert_eq!(bare.absent(absent).unwrap().field, "log");
}

#[test]
fn what_a_battery_cannot_have_given_is_said() {
    let rows = "t,v,i\n0,30,2000\n60,30,2000\n";
    assert!(matches!(drive(&run(rows, COLUMNS, "", &[])), Err(NotJudged::OutsideRange { .. })));
    let still = "t,v,i\n0,0,0\n60,0,0\n";
    let still = drive(&run(still, COLUMNS, "", &[])).unwrap();
    assert!(still.motor_heat.si() == 0.0 && still.peak_current.si() == 0.0 && still.pull.si() == 0.0);
}

#[test]
fn hostile_figures_give_outcomes() {
    let machine = run(TWO, COLUMNS, &format!(", recorded_ratio: {RATIO}"), &[]);
    let case = machine.cases.named("sunday").unwrap();
    let train = &machine.powertrain;
    let machine::Stage::Spur(gears) = &train.stages[0] else { panic!() };
    let ids = [
        case.recorded_ratio.id(),
        gears.pinion.teeth.id(),
        gears.wheel.teeth.id(),
        train.motor.speed_constant.id(),
        train.motor.resistance.id(),
        train.battery.resistance.id(),
        train.battery.cells.series.id(),
        train.track.pitch.id(),
    ];
    for id in ids {
        for si in [0.0, 1e-300, 1e300, -1.0, f64::INFINITY] {
            if let Ok(drive) = asked(&machine, "sunday", &[(id, si)], |at| at.drive().cloned()) {
                assert!(drive.motor_heat.si().is_finite() && drive.pull.si().is_finite(), "{si}");
            }
        }
    }
}
