//! Solved tasks of tracked machines: climbing, top speed, stopping, holding. The table is an evaluation of its own, by closed
//! forms that its head tells, in another language and checked there against bisection and integration.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use handbook::{Row, table};
use physics::drive::{grade_resistance, rolling_resistance, traction_limit};
use physics::motor::Motor;
use physics::task::{Limit, Puller, deceleration, share_on_grade, steepest_by_grip, steepest_for, stopping_distance};
use quantity::*;
use std::f64::consts::PI;

struct Task<'a> {
    row: &'a Row,
    puller: Puller,
    mass: Mass,
    grade: Angle,
    rolling: Ratio,
    adhesion: Ratio,
    share: Ratio,
    speed: Velocity,
    brake: Force,
}

fn ratio(x: f64) -> Ratio {
    Ratio::from_si(x)
}

impl<'a> Task<'a> {
    fn read(row: &'a Row) -> Self {
        Self {
            puller: Puller {
                motors: ratio(row.f("motors")),
                motor: Motor {
                    speed_constant: SpeedConstant::from_si(row.f("kv_rpm_per_V") * PI / 30.0),
                    resistance: ElectricalResistance::from_si(row.f("motor_resistance_ohm")),
                    no_load_current: ElectricCurrent::from_si(row.f("no_load_current_A")),
                },
                motor_current_limit: ElectricCurrent::from_si(row.f("motor_current_limit_A")),
                battery_voltage: ElectricPotential::from_si(row.f("battery_voltage_V")),
                battery_resistance: ElectricalResistance::from_si(row.f("battery_resistance_ohm")),
                battery_current_limit: ElectricCurrent::from_si(row.f("battery_current_limit_A")),
                ratio: ratio(row.f("gear_ratio")),
                sprocket_radius: Length::from_si(row.f("sprocket_radius_m")),
                efficiency: ratio(row.f("efficiency")),
            },
            mass: Mass::from_si(row.f("mass_kg")),
            grade: Angle::from_si((row.f("slope_percent") / 100.0).atan()),
            rolling: ratio(row.f("rolling_resistance")),
            adhesion: ratio(row.f("adhesion")),
            share: ratio(row.f("weight_share_on_track")),
            speed: Velocity::from_si(row.f("asked_speed_m_per_s")),
            brake: Force::from_si(row.f("brake_force_N")),
            row,
        }
    }

    fn is(&self, name: &str, ours: f64) {
        let printed = self.row.f(name);
        let close = (ours - printed).abs() <= 1e-6 * printed.abs().max(1e-3);
        assert!(close, "{}: {name} is printed {printed}, worked out {ours}", self.row.s("case"));
    }

    fn grip(&self, grade: Angle) -> Force {
        traction_limit(self.adhesion * share_on_grade(self.share, ratio(0.0), grade), self.mass, grade)
    }

    fn stop(&self, name: &str, grade: Angle) {
        let rolling = rolling_resistance(self.rolling, self.mass, grade);
        let grip = self.grip(grade);
        let brake = if self.brake < grip { self.brake } else { grip };
        let slope = grade_resistance(self.mass, grade);
        let slows = deceleration(brake, rolling, slope, self.mass, ratio(self.row.f("rotating_mass_factor")));
        let found = stopping_distance(self.speed, Time::from_si(self.row.f("reaction_time_s")), slows);
        match self.row.opt(name) {
            Some(_) => self.is(name, found.unwrap().si()),
            None => assert_eq!(found, None, "{}", self.row.s("case")),
        }
    }
}

fn word(limit: Limit) -> &'static str {
    match limit {
        Limit::Traction => "traction",
        Limit::MotorCurrent => "motor_current",
        Limit::BatteryCurrent => "battery_current",
        Limit::Voltage => "voltage",
    }
}

#[test]
fn a_hundred_and_twenty_tasks() {
    let rows = table(include_str!("../data/tasks.csv"));
    assert_eq!(rows.len(), 120);
    for row in &rows {
        let task = Task::read(row);
        let needed = grade_resistance(task.mass, task.grade) + rolling_resistance(task.rolling, task.mass, task.grade);
        let (pull, grip) = (task.puller.pull(task.speed), task.grip(task.grade));
        task.is("force_needed_N", needed.si());
        task.is("force_motor_at_speed_N", pull.force.si());
        task.is("force_traction_N", grip.si());
        task.is("motor_current_at_speed_A", pull.current.si());
        let (least, limit) = if grip < pull.force { (grip, Limit::Traction) } else { (pull.force, pull.limit) };
        assert_eq!(row.s("limit_at_speed"), word(limit), "{}", row.s("case"));
        task.is("climb_reserve", least.si() / needed.si());
        assert_eq!(row.s("climbs"), if least >= needed { "1" } else { "0" });

        let crawl = task.puller.pull(Velocity::ZERO);
        task.is("force_motor_at_crawl_N", crawl.force.si());
        task.is("motor_current_at_crawl_A", crawl.current.si());
        let by_motor = steepest_for(crawl.force, task.rolling, task.mass);
        let by_grip = steepest_by_grip(task.adhesion, task.share, task.rolling, ratio(0.0));
        let tangent = |grade: Option<Angle>| grade.map_or(0.0, |grade| grade.si().tan() * 100.0);
        task.is("crawl_slope_percent", tangent(by_motor).min(tangent(by_grip)));
        let level = rolling_resistance(task.rolling, task.mass, Angle::from_si(0.0));
        let spins = task.grip(Angle::from_si(0.0)) < level;
        let (top, limit) = if spins { (Velocity::ZERO, Limit::Traction) } else { task.puller.fastest(level) };
        task.is("top_speed_level_m_per_s", top.si());
        assert_eq!(row.s("limit_at_top_speed"), word(limit), "{}", row.s("case"));

        task.stop("stop_level_m", Angle::from_si(0.0));
        task.stop("stop_downhill_m", task.grade);
        let holds = if task.brake < grip { task.brake } else { grip };
        task.is("hold_reserve", holds.si() / grade_resistance(task.mass, task.grade).si());
    }
}
