//! Two-corner landings with pitch against an independent integrator, and what the body feels.

use super::*;

/// See the head of the file: made once with another solver, restarted at each event.
const TABLE: &str = include_str!("../data/landing_pitch.csv");

struct Row<'a>(Vec<(&'a str, &'a str)>);

impl Row<'_> {
    fn text(&self, column: &str) -> &str {
        self.0.iter().find(|(name, _)| *name == column).unwrap().1
    }
    fn number(&self, column: &str) -> f64 {
        self.text(column).parse().unwrap()
    }
    fn leg(&self, end: &str, x: f64) -> Leg {
        let of = |what: &str| self.number(&format!("{end}_{what}"));
        let law = |rate: f64| Law::steady(DampingRate::from_si(rate));
        let damping = if of("damper_in_Ns_per_m") > 0.0 {
            Damping::Flows { bump: law(of("damper_in_Ns_per_m")), rebound: law(of("damper_out_Ns_per_m")) }
        } else {
            Damping::None
        };
        Leg {
            count: 1.0,
            x,
            y: 0.0,
            unsprung: 1.0,
            carries: self.number("mass_kg") / 2.0,
            ratio: 1.0,
            rate: of("spring_N_per_m"),
            preload: of("preload_N"),
            damping,
            stops: [Some(Stop { at: of("travel_m"), mount: of("stop_N_per_m"), elastomer: None }), None],
            support: Support::Rigid,
            guessed: true,
            grip: 0.0,
        }
    }
    fn body(&self) -> Body {
        let (a, b) = (self.number("cg_to_front_m"), self.number("cg_to_rear_m"));
        Body {
            mass: self.number("mass_kg"),
            pitch_inertia: Some(self.number("pitch_inertia_kgm2")),
            roll_inertia: None,
            speed: self.number("impact_speed_m_per_s"),
            pitch: self.number("pitch_deg").to_radians(),
            roll: 0.0,
            legs: vec![self.leg("front", a), self.leg("rear", -b)],
            watched: 0.0,
        }
    }
}

fn rows() -> Vec<Row<'static>> {
    let mut lines = TABLE.lines().filter(|line| !line.starts_with('#'));
    let heads: Vec<&str> = lines.next().unwrap().split(',').collect();
    lines.map(|line| Row(heads.iter().copied().zip(line.split(',')).collect())).collect()
}

#[test]
fn as_an_independent_integrator_travel_within_a_per_cent_and_force_within_a_thousandth() {
    let rows = rows();
    assert!(rows.len() > 70, "{}", rows.len());
    let (mut travels, mut forces) = (Vec::new(), Vec::new());
    for row in &rows {
        let name = row.text("case");
        let landed = row.body().come_down(row.number("window_s")).unwrap();
        for (peak, end) in landed.legs.iter().zip(["front", "rear"]) {
            let of = |what: &str| {
                row.number(&format!(
                    "{what}_{end}{}",
                    if what.starts_with("peak") {
                        "_N"
                    } else if what == "travel" {
                        "_m"
                    } else {
                        ""
                    }
                ))
            };
            let (travel, force) = (of("travel"), of("peak_force"));
            travels.push((peak.travel / travel - 1.0).abs());
            forces.push(((peak.force / force - 1.0).abs(), name, end, peak.force, force));
            assert!((peak.travel / travel - 1.0).abs() < 0.01, "{name} {end}: {} {travel}", peak.travel);
            assert_eq!(peak.stop_force > 0.0, of("bottomed") == 1.0, "{name} {end}");
            let first = row.text("first");
            let touches =
                if first == end || first == "both" { Some(0.0) } else { row.text("second_contact_s").parse().ok() };
            match (touches, peak.touches) {
                (Some(told), Some(ours)) => assert!((told - ours).abs() < 5e-3, "{name} {end}: {told} {ours}"),
                (told, ours) => assert_eq!(told, ours, "{name} {end}"),
            }
        }
    }
    forces.sort_by(|a, b| a.0.total_cmp(&b.0));
    let worst = forces.last().unwrap();
    assert!(worst.0 < 1e-3, "{:?}", &forces[forces.len() - 6..]);
}

/// Two bare legs on rigid ground 0.4 m ahead and 0.25 m behind, with so many times the inertia at which a blow at one end does
/// not move the other.
fn bare(inertia: f64, pitch: f64) -> Body {
    let (a, b, mass) = (0.4, 0.25, 40.0);
    let leg = |x: f64, carries: f64| Leg {
        count: 1.0,
        x,
        y: 0.0,
        unsprung: 1.0,
        carries,
        ratio: 1.0,
        rate: 8000.0,
        preload: 50.0,
        damping: Damping::None,
        stops: [None, None],
        support: Support::Rigid,
        guessed: true,
        grip: 0.0,
    };
    Body {
        mass,
        pitch_inertia: Some(inertia * mass * a * b),
        roll_inertia: None,
        speed: 2.0,
        pitch,
        roll: 0.0,
        legs: vec![leg(a, mass * b / (a + b)), leg(-b, mass * a / (a + b))],
        watched: 0.0,
    }
}

#[test]
fn where_the_mass_sits_over_both_axles_each_end_lands_for_itself() {
    let body = bare(1.0, 0.0);
    let landed = body.come_down(0.3).unwrap();
    for (peak, leg) in landed.legs.iter().zip(&body.legs) {
        let cushion = physics::landing::Cushion { rate: SpringRate::from_si(8000.0), preload: Force::from_si(50.0) };
        let depth = cushion.peak_depth(Mass::from_si(leg.carries), Velocity::from_si(2.0)).si();
        // Not to the last digit: as it sinks unevenly it pitches, and its levers shorten.
        assert!((peak.travel / depth - 1.0).abs() < 5e-3, "{} {depth}", peak.travel);
    }
    // Nothing damps it.
    let energy = 0.5 * body.mass * 4.0;
    assert!((landed.energy_left / energy - 1.0).abs() < 1e-4, "{} {energy}", landed.energy_left);
}

#[test]
fn a_nose_that_follows_the_tail_is_whipped_down_or_spared_by_where_the_mass_sits() {
    let nose = |inertia: f64| bare(inertia, 0.3).come_down(0.5).unwrap().legs[0];
    let (compact, even, long) = (nose(0.5), nose(1.0), nose(2.0));
    assert!(compact.travel > 1.1 * even.travel && even.travel > 1.05 * long.travel, "{compact:?} {even:?} {long:?}");
    let touches = |pitch: f64| bare(1.0, pitch).come_down(0.5).unwrap().legs[0].touches.unwrap();
    assert!(touches(0.3) > touches(0.1) && touches(0.1) > 0.02);
    let steep = ("airtime: 0.5 s, attitude: tail", "airtime: 0.5 s, attitude: tail, pitch: 25 °");
    let later =
        |changes: &[(&str, &str)]| land(changes, "tail").unwrap().corners[0].as_ref().unwrap().touches_at.unwrap();
    assert!(later(&[steep]) > later(&[]));
}

#[test]
fn under_power_the_tail_takes_more_and_empty_both_take_less() {
    let loaded = land(&[], "level").unwrap();
    let power = [
        ("centre_of_gravity: {x: 400 mm}", "centre_of_gravity: {x: 400 mm, z: 300 mm}"),
        ("drop: 0.3 m, attitude: level", "drop: 0.3 m, attitude: level, under_power: yes"),
    ];
    let powered = land(&power, "level").unwrap();
    let ground = |landing: &Landing, index: usize| landing.corners[index].as_ref().unwrap().ground_force.si();
    assert!(ground(&powered, 1) > ground(&loaded, 1) && ground(&powered, 0) < ground(&loaded, 0));
    let empty = land(
        &[
            ("payload: {mass: 18 kg}", "payload: {mass: 18 kg, at: {x: 300 mm}}"),
            ("drop: 0.3 m, attitude: level", "drop: 0.3 m, attitude: level, payload: no"),
        ],
        "level",
    )
    .unwrap();
    assert!((0..2).all(|index| ground(&empty, index) < ground(&loaded, index)));
    assert!((loaded.body.as_ref().unwrap().mass.si() - 48.0).abs() < 1e-9);
    assert!((empty.body.unwrap().mass.si() - 30.0).abs() < 1e-9);
}

#[test]
fn on_one_corner_a_machine_that_rolls_takes_less_there_than_one_that_cannot() {
    let one = ("airtime: 0.5 s, attitude: tail", "airtime: 0.5 s, attitude: one_corner");
    let stiff = land(&[one], "tail").unwrap();
    let gauges = [
        one,
        ("    position: 700 mm\n", "    position: 700 mm\n    gauge: 420 mm\n"),
        ("    position: 100 mm\n", "    position: 100 mm\n    gauge: 300 mm\n"),
    ];
    let rolls = land(&gauges, "tail").unwrap();
    for index in 0..2 {
        let force = |landing: &Landing| landing.corners[index].as_ref().unwrap().force.si();
        assert!(force(&rolls) < force(&stiff), "{index}: {} {}", force(&rolls), force(&stiff));
        assert!(rolls.corners[index].as_ref().unwrap().touches_at.unwrap().si() < 1e-4);
    }
}

#[test]
fn on_its_back_and_on_its_side_the_hull_takes_the_fall() {
    for attitude in ["inverted", "sideways"] {
        let to = format!("drop: 0.3 m, attitude: {attitude}");
        let landing = land(&[("drop: 0.3 m, attitude: inverted", &to)], "inverted").unwrap();
        let body = landing.body.unwrap();
        // Energy: ½·m·v² + m·g·x = ½·k·x², with 400 and 60 N/mm in series.
        let (rate, mass) = (1.0 / (1.0 / 400e3 + 1.0 / 60e3), 60.0);
        let depth = body.hull_force.unwrap().si() / rate;
        assert!((mass * 9.80665 * (0.3 + depth) / (0.5 * rate * depth * depth) - 1.0).abs() < 1e-9);
    }
}
