use super::*;
use crate::cache::Cells;
use crate::point::CasePoint;
use document::{Document, Limits, NoFiles, NoShelf};
use machine::{Swaps, WhatIf};

/// A pinion of steel and a wheel of plastic in a plastic plate, all of whose figures are written.
const SPEC: &str = "
dryfit: 1
machine: {name: trial, mass: 60 kg}
environment: {air: 0 °C, relative_humidity: 60 %, assembled_at: 20 °C, altitude: 0 m}
zones: {case: {volume: 1 L, air_rise: 15 K, moisture: breathes}}
cases:
  climb: {kind: climb, grade: 15 °, speed: 5 km/h, duration: 10 min}
  hop: {kind: landing, drop: 0.2 m, under_power: yes, speed: 12 km/h}
  soak: {kind: soak, duration: 9 h}
materials:
  steel: {family: metal, expansion: 12 µm/(m·K)}
  plastic: {family: polymer, expansion: 80 µm/(m·K), friction: 0.2, moisture: wet, moisture_swelling: 1 %}
structure: {parts: {plate: {material: plastic, zone: case}}}
powertrain:
  battery: {cells: {series: 14, full_voltage: 4.2 V, nominal_voltage: 3.6 V}, resistance: 62 mΩ}
  controller: {current_limit: {battery: 100 A, motor: 130 A}, timing_advance: 0 °, efficiency: 95 %}
  motor: {count: 1, speed_constant: 118 rpm/V, resistance: 31 mΩ, no_load_current: 2.6 A, rotor_inertia: 1.9e-3 kg·m², stop_time: 40 ms}
  stages:
    - name: primary
      kind: spur
      module: 1.5 mm
      pressure_angle: 20 °
      face_width: 14 mm
      centre_distance: 42.9 mm
      pinion: {teeth: 17, material: steel, profile_shift: 0}
      wheel: {teeth: 40, material: plastic, profile_shift: 0, build: {by: printed, laid: on_edge}}
      lubrication: grease
      housing: plate
      efficiency: 96 %
    - {name: secondary, kind: chain, driving_teeth: 12, driven_teeth: 23, efficiency: 94 %}
  track: {pitch: 40 mm, links: 46, mass: 2.35 kg, sprocket_teeth: 9, slack_tension: 90 N, tensioner: {by: none}}
assumed: {rolling_resistance: 0.1, traction: 0.9, cold_battery_resistance: 2.5, greased_friction: 0.09, drive_shock: 1.25, conditioned_swelling: 35 %}
";

fn with<T>(changes: &[(&str, &str)], case: &str, ask: impl FnOnce(&At) -> T) -> T {
    let mut text = SPEC.to_owned();
    for (from, to) in changes {
        assert!(text.contains(from), "{from}");
        text = text.replace(from, to);
    }
    let document = Document::load("trial.machine.yaml", text.into_bytes(), &NoFiles, &NoShelf, &Limits::default());
    let machine = Machine::read(&document, &Swaps::new()).unwrap();
    let index = machine.cases.iter().position(|each| each.name() == case).unwrap();
    let (what_if, cells) = (WhatIf::default(), Cells::default());
    ask(&At::new(&machine, CasePoint { case: index, share: 0.0 }, &what_if, &cells))
}

fn pair<'a>(at: &At<'a>) -> Pair<'a> {
    pairs(at.machine()).next().unwrap()
}

#[test]
fn torques_are_those_of_the_drive_line_and_balance_by_its_teeth() {
    let load = with(&[], "climb", |at| load(at, 0)).unwrap().unwrap();
    assert!((load.wheel.si() / (load.pinion.si() * 40.0 / 17.0 * 0.96) - 1.0).abs() < 1e-9);
    assert!((load.pinion_speed.si() / load.wheel_speed.si() - 40.0 / 17.0).abs() < 1e-9);
    assert!((load.power.si() / (load.pinion.si() * load.pinion_speed.si()) - 1.0).abs() < 1e-12);
    assert!(!load.seldom && !load.blow);
    assert_eq!(with(&[], "soak", |at| super::load(at, 0)).unwrap(), None);
}

#[test]
fn a_blow_takes_no_losses_off_and_no_shock_on() {
    let (first, second) = with(&[], "hop", |at| (load(at, 0).unwrap().unwrap(), load(at, 1).unwrap().unwrap()));
    assert!(first.blow && first.seldom && first.motor == first.pinion);
    assert!((first.wheel.si() / (first.pinion.si() * 40.0 / 17.0) - 1.0).abs() < 1e-9);
    assert_eq!(first.wheel, second.pinion);
    assert!((second.wheel.si() / (second.pinion.si() * 23.0 / 12.0) - 1.0).abs() < 1e-9);
    let shocks = with(&[], "hop", |at| first.shock(at).unwrap().si());
    let uneven = with(&[], "climb", |at| load(at, 0).unwrap().unwrap().shock(at).unwrap().si());
    assert_eq!((shocks, uneven), (1.0, 1.25));
    // Twice the rotor, twice the blow.
    let heavy = with(&[("1.9e-3", "3.8e-3")], "hop", |at| load(at, 0)).unwrap().unwrap();
    assert!((heavy.pinion.si() / first.pinion.si() - 2.0).abs() < 1e-9);
}

#[test]
fn two_motors_on_one_wheel_share_its_torque() {
    let two = [("motor: {count: 1,", "motor: {count: 2, arranged: on_one_line,")];
    let (one, both) = (with(&[], "climb", |at| load(at, 0)), with(&two, "climb", |at| load(at, 0)));
    let (one, both) = (one.unwrap().unwrap(), both.unwrap().unwrap());
    assert_eq!((one.meshes, both.meshes), (1.0, 2.0));
    assert!((both.pinion.si() * 2.0 / one.pinion.si() - 1.0).abs() < 1e-6);
    assert!((both.wheel.si() / one.wheel.si() - 1.0).abs() < 1e-6);
}

#[test]
fn teeth_of_plastic_warm_while_they_run_metal_and_blows_do_not() {
    let flank = |case: &str, side| {
        with(&[], case, |at| {
            let heat = pair(at).teeth(at, side).unwrap();
            (heat.flank.si() - 273.15, heat.root.si() - 273.15)
        })
    };
    let (running, root) = flank("climb", Side::Wheel);
    assert!(running > root && root > 15.0, "{running} {root}");
    assert!((flank("climb", Side::Pinion).0 - 15.0).abs() < 1e-9, "the air of the case, ten minutes on");
    assert!(flank("hop", Side::Wheel).0.abs() < 1e-9 && flank("soak", Side::Wheel).0.abs() < 1e-9);
    let probed = [("laid: on_edge}}", "laid: on_edge}, temperature: 61 °C}")];
    let heat = with(&probed, "climb", |at| pair(at).teeth(at, Side::Wheel).unwrap());
    assert!(heat.measured && (heat.root.si() - 334.15).abs() < 1e-9);
}

#[test]
fn warmth_and_water_make_gears_grow() {
    let growth =
        |changes: &[(&str, &str)], case: &str| with(changes, case, |at| pair(at).growth(at, Side::Wheel).unwrap().si());
    // 20 K colder than assembled, wet: −20·80e-6 + 1 %.
    assert!((growth(&[], "soak") - (0.01 - 1.6e-3)).abs() < 1e-12);
    assert!((growth(&[("moisture: wet", "moisture: dry")], "soak") + 1.6e-3).abs() < 1e-12);
    assert!((growth(&[("moisture: wet", "moisture: conditioned")], "soak") - (0.0035 - 1.6e-3)).abs() < 1e-12);
    // The plate drinks as the wheel does, so the play grows with them where everything is of one plastic.
    let play =
        |changes: &[(&str, &str)]| with(changes, "soak", |at| pair(at).mesh_in_case(at).unwrap().backlash().si());
    let (steel, plastic) = (play(&[]), play(&[("teeth: 17, material: steel", "teeth: 17, material: plastic")]));
    assert!(plastic < steel && plastic > 0.0, "{plastic} {steel}");
}

#[test]
fn how_a_print_lay_says_which_way_it_is_loaded() {
    let way = |changes: &[(&str, &str)]| with(changes, "soak", |at| pair(at).direction(at, Side::Wheel).unwrap());
    assert_eq!(way(&[]), Direction::Across);
    assert_eq!(way(&[("laid: on_edge", "laid: flat_on_bed")]), Direction::Along);
    assert_eq!(way(&[("by: printed, laid: on_edge", "by: machined")]), Direction::Along);
}

#[test]
fn a_pair_without_air_round_it_says_so() {
    let air = with(&[(", zone: case", "")], "climb", |at| pair(at).air(at));
    assert!(matches!(air, Err(NotJudged::NotGiven { .. })), "{air:?}");
}
