use super::leg::{Damping, Elastomer, Stop, Support};
use super::*;
use crate::drive::tests::{asked, carrier};
use machine::{BumpStop, Damper};
use physics::damping::Law;

mod cold;
mod pitch;

/// One mass over one leg.
#[derive(Clone)]
struct Falling {
    sprung: f64,
    unsprung: f64,
    speed: f64,
    ratio: f64,
    rate: f64,
    preload: f64,
    oil: Option<Law>,
    stops: [Option<Stop>; 2],
    support: Support,
}

impl Falling {
    fn come_down(&self) -> Result<Peak, NoEnd> {
        let body = self.body();
        Ok(body.come_down(body.window())?.legs[0])
    }

    /// The first way down alone: a good half swing.
    fn first_descent(&self) -> Result<Peak, NoEnd> {
        let swing = (self.sprung / (self.rate * self.ratio * self.ratio)).sqrt();
        Ok(self.body().come_down(3.5 * swing)?.legs[0])
    }

    fn body(&self) -> Body {
        let damping = match &self.oil {
            None => Damping::None,
            Some(law) => Damping::Flows { bump: law.clone(), rebound: law.clone() },
        };
        let leg = Leg {
            count: 1.0,
            x: 0.0,
            y: 0.0,
            unsprung: self.unsprung,
            carries: self.sprung,
            ratio: self.ratio,
            rate: self.rate,
            preload: self.preload,
            damping,
            stops: self.stops,
            support: self.support,
            guessed: true,
            grip: 0.0,
        };
        Body {
            mass: self.sprung,
            pitch_inertia: None,
            roll_inertia: None,
            speed: self.speed,
            pitch: 0.0,
            roll: 0.0,
            legs: vec![leg],
            watched: 0.0,
        }
    }
}

fn falling() -> Falling {
    let (speed, support) = (2.4, Support::Rigid);
    Falling {
        sprung: 11.0,
        unsprung: 1.1,
        speed,
        ratio: 0.62,
        rate: 7000.0,
        preload: 60.0,
        oil: None,
        stops: [None, None],
        support,
    }
}

fn land(changes: &[(&str, &str)], case: &str) -> Found<Landing> {
    asked(&carrier(changes), case, &[], |at| at.landing().cloned())
}

#[test]
fn undamped_on_a_rigid_mount_it_is_the_energy_method() {
    for (speed, rate, preload, sprung) in
        [(2.4, 7000.0, 60.0, 11.0), (0.0, 3000.0, 0.0, 14.0), (4.0, 900.0, 10.0, 30.0), (1.0, 20_000.0, 500.0, 8.0)]
    {
        let one = Falling { speed, rate, preload, sprung, ..falling() };
        let cushion =
            physics::landing::at_wheel(SpringRate::from_si(rate), Force::from_si(preload), Ratio::from_si(one.ratio));
        let depth = cushion.peak_depth(Mass::from_si(sprung), Velocity::from_si(speed)).si();
        let peak = one.first_descent().unwrap();
        assert!((peak.travel / (depth * one.ratio) - 1.0).abs() < 1e-6, "{} {}", peak.travel, depth * one.ratio);
        assert!((peak.force / (preload + rate * peak.travel) - 1.0).abs() < 1e-6 && peak.stop_force == 0.0);
    }
}

#[test]
fn a_stiff_support_comes_near_to_a_rigid_one() {
    let rigid = falling().come_down().unwrap().travel;
    let stiff = Falling { support: Support::Giving(3e6), ..falling() }.come_down().unwrap().travel;
    assert!((stiff / rigid - 1.0).abs() < 0.05, "{stiff} {rigid}");
}

#[test]
fn a_giving_support_under_a_light_wheel_is_a_second_spring_in_series() {
    let wheel = 7000.0 * 0.62 * 0.62;
    for ground in [2e3, 10e3, 50e3] {
        let one = Falling { preload: 0.0, unsprung: 0.01, support: Support::Giving(ground), ..falling() };
        let series = SpringRate::from_si(1.0 / (1.0 / wheel + 1.0 / ground));
        let cushion = physics::landing::Cushion { rate: series, preload: Force::ZERO };
        let depth = cushion.peak_depth(Mass::from_si(one.sprung), Velocity::from_si(one.speed));
        let by_energy = cushion.force(depth).si() / wheel * one.ratio;
        let peak = one.come_down().unwrap();
        // The light wheel rings a little on top of it.
        assert!((peak.travel / by_energy - 1.0).abs() < 0.03, "{ground}: {} {by_energy}", peak.travel);
    }
}

#[test]
fn a_hard_stop_takes_the_energy_that_is_left() {
    let end = 0.02;
    let stop = Stop { at: end, mount: 4e5, elastomer: None };
    let one = Falling { stops: [None, Some(stop)], ..falling() };
    let peak = one.first_descent().unwrap();
    let cushion = physics::landing::at_wheel(
        SpringRate::from_si(one.rate),
        Force::from_si(one.preload),
        Ratio::from_si(one.ratio),
    );
    let left = cushion
        .energy_left(Mass::from_si(one.sprung), Velocity::from_si(one.speed), Length::from_si(end / one.ratio))
        .si();
    // What is left goes into the stop, and the little further that spring and weight do in it: by energy again.
    let further = peak.travel - end;
    let (weight, spring) = (one.sprung * 9.80665 / one.ratio, one.preload + one.rate * (end + further / 2.0));
    assert!((0.5 * 4e5 * further * further - left - (weight - spring) * further).abs() < 1e-5 * left, "{further}");
    assert!((peak.stop_force - 4e5 * further).abs() < 1e-6 * peak.stop_force);
}

#[test]
fn an_elastomer_stop_and_its_mount_share_what_is_pressed() {
    let (height, stiffness, mount) = (0.006, 2400.0, 3e5);
    let stop = Stop { at: 0.04, mount, elastomer: Some(Elastomer { stiffness, height }) };
    assert!(stop.force(0.039) == 0.0);
    for pressed in [1e-6, 1e-3, 5e-3, 7e-3, 0.05] {
        let force = stop.force(0.04 + pressed);
        let share = force / (stiffness + force);
        assert!((share * height + force / mount - pressed).abs() < 1e-9 * pressed + 1e-15, "{pressed}");
    }
    // At first touch the springs in series, in the end the mount alone.
    let slope = |u: f64| (stop.force(0.04 + u + 1e-7) - stop.force(0.04 + u)) / 1e-7;
    assert!(
        (slope(0.0) * (height / stiffness + 1.0 / mount) - 1.0).abs() < 1e-3 && (slope(1.0) / mount - 1.0).abs() < 1e-3
    );
}

#[test]
fn oil_takes_travel_and_thick_oil_takes_nearly_all() {
    let valving = physics::damper::Valving {
        bore: Length::from_si(0.014),
        rod: Length::from_si(0.0035),
        holes: Ratio::from_si(4.0),
        hole_diameter: Length::from_si(0.0013),
        hole_length: Length::from_si(0.0025),
    };
    let with = |viscosity: f64| {
        let oil = Law::holes(&valving, DynamicViscosity::from_si(viscosity), MassDensity::from_si(960.0));
        Falling { oil: Some(oil), support: Support::Giving(20e3), ..falling() }.come_down().unwrap()
    };
    let none = Falling { support: Support::Giving(20e3), ..falling() }.come_down().unwrap();
    let (thin, thick, locked) = (with(0.05), with(2.0), with(1e4));
    assert!(none.travel > thin.travel && thin.travel > thick.travel && thick.travel > locked.travel);
    assert!(locked.travel < 0.1 * none.travel && locked.deceleration > none.deceleration, "{locked:?} {none:?}");
}

#[test]
fn a_level_landing_loads_all_and_a_tail_landing_the_rear() {
    let level = land(&[], "level").unwrap();
    assert!((level.impact_speed.si() - (2.0 * 9.80665f64 * 0.3).sqrt()).abs() < 1e-12);
    let machine = carrier(&[]);
    for (corner, own) in level.corners.iter().map(|corner| corner.as_ref().unwrap()).zip(machine.suspension.iter()) {
        assert!(corner.damper_travel > corner.sag && corner.deceleration.si() > 9.8, "{corner:?}");
        let (least, deepest) = asked(&machine, "level", &[], |at| at.travel_band(own)).unwrap().unwrap();
        assert!(corner.sag < least && least < deepest, "{corner:?}");
        assert_eq!(asked(&machine, "inverted", &[], |at| at.travel_band(own)), Ok(None));
    }
    let gelled: Vec<bool> = level.corners.iter().map(|corner| corner.as_ref().unwrap().damper_gelled).collect();
    assert_eq!(gelled, [false, true]);
    let tail = land(&[], "tail").unwrap();
    assert!((tail.impact_speed.si() - 9.80665 * 0.25).abs() < 1e-12);
    let [front, rear] = [0, 1].map(|index| tail.corners[index].clone().unwrap());
    assert!(rear.touches_at.unwrap().si() < 1e-4 && front.touches_at.unwrap().si() > 0.02, "{rear:?} {front:?}");
    assert!(rear.peak_at < front.peak_at && rear.force.si() > 0.0 && front.force.si() > 0.0);
    assert!(land(&[], "inverted").unwrap().corners.iter().all(|corner| corner.as_ref().unwrap().force.si() == 0.0));
}

#[test]
fn gaps_stay_with_their_corner_and_other_cases_are_no_landings() {
    // One body: what one corner lacks, all lack; but where each meets the ground alone, it stays with its corner.
    let wire = [("rate: 12 N/mm", "wire: 3 mm")];
    let whole = land(&wire, "level").unwrap();
    assert!(
        whole.corners.iter().all(|corner| matches!(corner, Err(NotJudged::NotGiven { .. }))) && whole.body.is_err()
    );
    let alone = [wire[0], ("airtime: 0.5 s, attitude: tail", "airtime: 0.5 s, attitude: one_corner")];
    let half = land(&alone, "tail").unwrap();
    assert!(half.corners[0].is_ok() && matches!(half.corners[1], Err(NotJudged::NotGiven { .. })));
    let undamped = land(
        &[(
            "damper: {kind: oil, bore: 16 mm, rod: 4 mm, holes: 2, hole_diameter: 1.2 mm, piston_thickness: 3 mm, oil: waxy}\n",
            "\n",
        )],
        "level",
    );
    assert!(matches!(undamped.unwrap().corners[1], Err(NotJudged::NotGiven { .. })));
    assert!(matches!(land(&[], "nowhere"), Err(NotJudged::NotGiven { .. })));
    assert!(matches!(land(&[], "climb"), Err(NotJudged::NoSolution(_))));
}

#[test]
fn hostile_numbers_give_outcomes() {
    let machine = carrier(&[]);
    let front = machine.suspension.named("front").unwrap();
    let spring = front.spring.there().unwrap();
    let Some(Damper::Oil(damper)) = front.damper.there() else { panic!() };
    let Some(BumpStop::Elastomer(stop)) = front.bump_stop.there() else { panic!() };
    let ids = [
        front.count.id(),
        front.sprung_mass_each.id(),
        front.unsprung_mass_each.id(),
        front.position.id(),
        front.motion_ratio.id(),
        front.damper_travel.id(),
        spring.wire.id(),
        spring.mean_diameter.id(),
        spring.active_coils.id(),
        front.preload.collar.id(),
        damper.bore.id(),
        damper.rod.id(),
        damper.holes.id(),
        damper.hole_diameter.id(),
        damper.piston_thickness.id(),
        stop.height.id(),
        stop.diameter.id(),
        machine.assumed.ground_stiffness.id(),
        machine.assumed.mount_stiffness.id(),
        machine.machine.mass.id(),
        machine.machine.pitch_gyration.id(),
        machine.cases.named("level").unwrap().drop.id(),
    ];
    for id in ids {
        for si in [0.0, 1e-300, 1e-9, 1e9, 1e300, -1.0, f64::INFINITY] {
            for case in ["level", "tail"] {
                let Ok(landing) = asked(&machine, case, &[(id, si)], |at| at.landing().cloned()) else { continue };
                for corner in landing.corners.iter().flatten() {
                    let numbers =
                        [corner.damper_travel.si(), corner.force.si(), corner.deceleration.si(), corner.sag.si()];
                    assert!(numbers.iter().all(|number| number.is_finite()), "{case} {si} {corner:?}");
                }
            }
        }
    }
}

#[test]
fn a_course_has_the_peaks_of_its_landing_and_begins_at_first_contact() {
    let machine = carrier(&[]);
    for (case, index) in [("level", 0), ("level", 1), ("tail", 1)] {
        let landed = asked(&machine, case, &[], |at| at.landing().cloned()).unwrap().corners[index].clone().unwrap();
        let corner = machine.suspension.get(index).unwrap();
        let course = asked(&machine, case, &[], |at| course(at, corner)).unwrap().unwrap();
        let most = |figure: fn(&Moment) -> f64| course.moments.iter().map(figure).fold(0.0, f64::max);
        let first = course.moments[0];
        assert_eq!((first.time, first.travel), (Time::ZERO, Length::ZERO), "{case} {index}");
        // Its instants are those of the solver, the peak may lie between two of them.
        let (travel, force) = (most(|moment| moment.travel.si()), most(|moment| moment.force.si()));
        assert!((travel / landed.damper_travel.si() - 1.0).abs() < 2e-3, "{case} {index}: {travel} {landed:?}");
        assert!((force / landed.force.si() - 1.0).abs() < 2e-3, "{case} {index}: {force} {landed:?}");
        assert!(course.moments.windows(2).all(|pair| pair[1].time > pair[0].time));
    }
    let front = machine.suspension.get(0).unwrap();
    let second = asked(&machine, "tail", &[], |at| course(at, front)).unwrap().unwrap();
    let touches = second.moments.iter().find(|moment| moment.force.si() > 100.0).unwrap().time;
    assert!(touches.si() > 0.02, "the nose comes down after the tail");
    assert_eq!(asked(&machine, "inverted", &[], |at| course(at, front)).unwrap(), None, "no spring under a back");
    assert!(asked(&machine, "nowhere", &[], |at| course(at, front)).is_err());
}

#[test]
fn the_room_of_a_strut_and_its_oil_by_hand() {
    let machine = carrier(&[]);
    let [front, rear] = [0, 1].map(|index| machine.suspension.get(index).unwrap());
    let [front, rear] = [front, rear].map(|corner| asked(&machine, "soak", &[], |at| room(at, corner)).unwrap());
    let near = |length: Length, mm: f64| (length.si() * 1e3 - mm).abs() < 1e-9;
    assert!(near(front.preload, 9.0) && near(front.stroke, 46.0) && near(front.stop, 40.0), "{front:?}");
    // Closed and ground: two dead coils more than the active ones.
    assert!(near(front.coil_bind.unwrap(), 82.0 - 9.0 - 2.8 * 10.0), "{front:?}");
    assert!(near(rear.stop, 52.0) && rear.coil_bind.is_none(), "{rear:?}");
    let (weight, rate) = (14.0 * 9.80665 / 0.75, 12e3_f64);
    assert!((rear.sag.si() - f64::max(weight / rate - 0.013, 0.0)).abs() < 1e-9, "{rear:?}");
    let oil = machine.follow(match machine.suspension.get(1).unwrap().damper.there().unwrap() {
        Damper::Oil(damper) => damper.oil.there().unwrap(),
        _ => panic!("it has a damper with oil"),
    });
    let thick = |degrees: f64| asked(&machine, "soak", &[], |at| viscosity(at, oil, celsius(degrees)));
    assert!((thick(40.0).unwrap().si() * 1e6 - 15.0).abs() < 0.01 && thick(-16.0).is_err(), "below its pour point");
}
