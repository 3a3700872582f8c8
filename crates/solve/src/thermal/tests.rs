use super::*;
use crate::drive::tests::asked;
use document::{Document, Limits, NoFiles, NoShelf};
use machine::{Machine, NotJudged, Swaps};

/// An invented machine on a loop whose heat is stated, so that no drive line is needed.
const STATED: &str = "
dryfit: 1
machine: {name: trial}
environment: {air: -20 °C to 30 °C, relative_humidity: 80 %, altitude: 200 m, assembled_at: 20 °C}
zones: {box: {volume: 9 L, air_rise: 10 K, moisture: breathes}}
cases:
  steady: {kind: cruise, air: 10 °C}
  short: {kind: cruise, air: 10 °C, duration: 4 min}
  rest: {kind: idle, after: short, air: 10 °C, duration: 10 min, heat: no}
  again: {kind: cruise, after: rest, air: 0 °C, duration: 1 s}
  ring: {kind: cruise, after: gnir, air: 10 °C, duration: 1 min}
  gnir: {kind: cruise, after: ring, air: 10 °C, duration: 1 min}
  soak: {kind: soak, duration: 10 h}
  cold: {kind: cold_start, after: soak, duration: 1 min}
  home: {kind: brought_indoors, air: 20 °C, relative_humidity: 50 %, wait: 2 h}
coolants: {mix: {kind: glycol_water, glycol: ethylene}}
cooling:
  coolant: {fluid: mix, glycol: 50 %, share_by: mass, volume: 300 mL, filled_at: 20 °C}
  reservoir: {gas_space: 60 mL, lid: {closes: closed}}
  pump: {works_by: positive_displacement, free_flow: 1.4 L/min, stall_pressure: 150 kPa, power: 9 W, runs: always}
  hoses: {long: {bore: 6 mm, wall: 1.5 mm, length: 1.8 m}}
  circuit:
    - reservoir
    - pump
    - {kind: exchanger, name: deck, channel: {width: 6 mm, depth: 4 mm, length: 2.6 m, turns: 11}, outside: {area: 0.09 m², heat_transfer: 60 W/(m²·K)}}
    - {kind: plate, name: switches, cools: controller, heat: 40 W, zone: box, channel: {width: 4 mm, depth: 4 mm, length: 0.5 m, turns: 4}, contact_resistance: 0.2 K/W}
    - {kind: jacket, name: windings, cools: motor, heat: 90 W, channel: {width: 8 mm, depth: 3 mm, length: 1.2 m}, contact_resistance: 0.05 K/W}
    - {kind: hose, hose: long}
powertrain:
  battery: {mass: 5.4 kg, size: {length: 300 mm, width: 120 mm, thickness: 75 mm}, foam: 10 mm, zone: box}
  motor: {mass: 1 kg, to_air: 100 K/W, winding_to_case: 0.5 K/W}
  controller: {mass: 300 g, to_air: 100 K/W}
devices:
  servo: {kind: servo}
  radio: {kind: radio, zone: box, heat: 2 W, mass: 100 g, to_air: 6 K/W}
  reserve: {kind: capacitor, next_to: controller}
structure:
  parts:
    plate: {next_to: [motor]}
    shelf: {zone: box}
    lid: {mounted_on: shelf}
assumed: {channel_bend_loss: 2.2, plate_to_air: 40 W/(m²·K), contact_resistance: 0.1 K/W, motor_mass: 1 kg,
  motor_heat_capacity: 500 J/(kg·K), winding_share: 20 %, winding_to_case: 0.4 K/W, rotor_to_case: 2 K/W, rotor_loss_share: 25 %,
  motor_to_air: 2 K/W, controller_mass: 0.3 kg, controller_heat_capacity: 800 J/(kg·K), controller_to_air: 5 K/W,
  cell_heat_capacity: 1000 J/(kg·K), pack_density: 2000 kg/m³, pack_conductivity: 0.8 W/(m·K), foam_conductivity: 0.04 W/(m·K),
  jacket_film: 400 W/(m²·K), wetted_area: 100 cm², device_rise: 5 K, still_air: 8 W/(m²·K), box_wall: 4 W/(m²·K), hose_to_air: 12 W/(m²·K), hose_bends: 2, fan_air: 2 m/s, driving_air: 1 m/s, own_draught: 0.2 m/s, exchanger_opening: 10 %, wetted_metal: 2 mm}
";

pub(super) fn machine(changes: &[(&str, &str)]) -> Machine {
    let mut text = STATED.to_owned();
    for (from, to) in changes {
        assert!(text.contains(from), "{from} does not stand in the text");
        text = text.replace(from, to);
    }
    let document = Document::load("trial.machine.yaml", text.into_bytes(), &NoFiles, &NoShelf, &Limits::default());
    assert!(document.troubles.is_empty(), "{:?}", document.troubles);
    Machine::read(&document, &Swaps::new()).unwrap()
}

pub(super) fn thermal(case: &str, changes: &[(&str, &str)]) -> Thermal {
    asked(&machine(changes), case, &[], |at| at.thermal().cloned()).unwrap()
}

fn pack(case: &str, changes: &[(&str, &str)]) -> Found<Pack> {
    asked(&machine(changes), case, &[], |at| at.pack().cloned())
}

fn degrees(temperature: ThermodynamicTemperature) -> f64 {
    temperature.si() - 273.15
}

pub(super) fn settled(course: &Found<Course>) -> f64 {
    degrees(course.as_ref().unwrap().settles().unwrap())
}

#[test]
fn it_settles_where_the_loop_does() {
    let machine = machine(&[]);
    let walls = asked(&machine, "steady", &[], |at| {
        let elements = &at.coolant()?.driven.elements;
        Found::Ok((degrees(elements[3].wetted.1), degrees(elements[4].wetted.1)))
    })
    .unwrap();
    let found = thermal("steady", &[]);
    // Wetted wall and contact by hand; hardly anything goes to the air.
    assert!((settled(&found.controller) - (walls.0 + 40.0 * 0.2)).abs() < 0.5, "{walls:?}");
    assert!((settled(&found.motor_case) - (walls.1 + 90.0 * 0.05)).abs() < 0.5);
    assert!((settled(&found.winding) - settled(&found.motor_case) - 90.0 * 0.5).abs() < 1e-6);
    // Nothing heats the rotor where the heat is stated: it is as warm as the case.
    assert!((settled(&found.magnets) - settled(&found.motor_case)).abs() < 1e-6);
    let winding = found.winding.unwrap();
    assert_eq!((winding.end(), winding.start()), (winding.settles().unwrap(), celsius(10.0)));
    // Creeping up to it, to the last digits of the exponential.
    let over = winding.hottest().si() - winding.end().si();
    assert!((0.0..1e-9).contains(&over) && winding.coldest() == celsius(10.0), "{over}");
}

#[test]
fn a_short_drive_ends_on_the_way_there() {
    let (short, steady) = (thermal("short", &[]).winding.unwrap(), thermal("steady", &[]).winding.unwrap());
    assert!(short.end() < steady.end() && degrees(short.end()) > 30.0, "{}", degrees(short.end()));
    assert!((short.settles().unwrap().si() - steady.end().si()).abs() < 1e-6);
    // Reached as late as the case ends, and what it settles at never.
    assert!((short.rises_to(short.end()).unwrap().si() - 240.0).abs() < 0.5);
    assert!(short.rises_to(celsius(200.0)).is_none() && short.rises_to(celsius(5.0)).unwrap() == Time::ZERO);
    let later = degrees(short.end()) + 5.0;
    assert!(short.rises_to(celsius(later)).unwrap().si() > 240.0);
}

#[test]
fn heat_soaks_from_the_winding_into_the_case_after_stopping() {
    let found = thermal("short", &[("contact_resistance: 0.05 K/W", "contact_resistance: 0.001 K/W")]);
    let (winding, case) = (found.winding.unwrap(), found.motor_case.unwrap());
    assert_eq!(winding.peak(), Peak { temperature: winding.end(), after: Time::ZERO });
    let peak = case.peak();
    assert!(peak.temperature > case.end() && peak.temperature < winding.end() && peak.after.si() > 10.0, "{peak:?}");
    // Without loss it would end at the mean by capacity: a fifth winding, a fifth rotor, three fifths case.
    let rotor = found.magnets.unwrap();
    let mean = 0.2 * winding.end().si() + 0.2 * rotor.end().si() + 0.6 * case.end().si();
    assert!((peak.temperature.si() - mean).abs() < 1.5, "{} {mean}", peak.temperature.si());
}

#[test]
fn a_pump_that_waits_keeps_heated_places_as_warm_as_it_starts_and_no_others() {
    let waits = ("runs: always", "runs: above_temperature, starts_above: 60 °C");
    let found = thermal("steady", &[waits]);
    // The loop in flow stays below 60 °C, so the pump turns now and then: 60 °C, and films and contacts by hand; the
    // air takes a little.
    let by_hand = [60.0 + 40.0 * (0.2 + 1.0 / (400.0 * 0.008)), 60.0 + 90.0 * (0.05 + 1.0 / (400.0 * 0.0264))];
    assert!((settled(&found.controller) - by_hand[0]).abs() < 0.4, "{}", settled(&found.controller));
    assert!((settled(&found.motor_case) - by_hand[1]).abs() < 0.2, "{}", settled(&found.motor_case));
    let cold = thermal("steady", &[waits, ("heat: 40 W, zone", "heat: 0 W, zone")]);
    assert!(settled(&cold.controller) < 21.0, "{}", settled(&cold.controller));
    // Where the case says that it stands, nothing but the air takes the heat.
    let stands = thermal("steady", &[waits, ("steady: {kind: cruise,", "steady: {kind: cruise, pump: stopped,")]);
    assert!(degrees(stands.controller.unwrap().end()) > 1000.0);
}

#[test]
fn several_motors_share_their_heat() {
    let two = thermal("steady", &[("{mass: 1 kg, to_air", "{count: 2, mass: 0.5 kg, to_air")]);
    let one = thermal("steady", &[]);
    // Half of the resistance inside, the same coolant.
    assert!((settled(&two.winding) - settled(&one.winding) + 22.5).abs() < 0.3);
}

#[test]
fn a_case_begins_where_the_one_before_ended() {
    let (short, rest, again) = (thermal("short", &[]), thermal("rest", &[]), thermal("again", &[]));
    let at = |found: &Found<Course>, end: bool| {
        let course = found.as_ref().unwrap();
        degrees(if end { course.end() } else { course.start() })
    };
    assert!((at(&rest.winding, false) - at(&short.winding, true)).abs() < 1e-6);
    assert!(at(&rest.winding, true) < at(&rest.winding, false));
    // Another air outside, the same thing.
    assert!((at(&again.winding, false) - at(&rest.winding, true)).abs() < 1e-6);
    assert!(thermal("ring", &[]).winding.is_ok());
}

#[test]
fn cells_soak_with_the_machine_unless_they_are_put_in_warm() {
    let cold = |changes: &[(&str, &str)]| pack("cold", changes).unwrap().course;
    assert!((degrees(cold(&[]).start()) + 20.0).abs() < 1e-6);
    let warm = cold(&[("foam: 10 mm", "foam: 10 mm, put_in_at: 15 °C")]);
    assert!((degrees(warm.start()) - 15.0).abs() < 1e-6 && warm.coldest() < warm.start());
    assert!(degrees(warm.coldest()) > 14.8);
}

#[test]
fn indoors_the_pack_lags_by_hours_and_its_box_by_more() {
    let home = |changes| thermal("home", changes);
    let found = home(&[]);
    let wrapped = pack("home", &[]).unwrap();
    let (cells, foam) = (&wrapped.course, wrapped.body.coefficient);
    assert!((degrees(cells.start()) + 20.0).abs() < 1e-6 && (degrees(wrapped.air) - 20.0).abs() < 1e-6);
    // By hand: 0.135 m² at 1/(1/8 + 0.25) W/(m²·K), and behind it 9 L in walls of 4 W/(m²·K).
    let walls = 1.0 / (4.0 * 6.0 * 0.009f64.powf(2.0 / 3.0));
    let tau = 5400.0 * (1.0 / (0.135 * 8.0 / 3.0) + walls);
    let by_hand = tau * (40f64 / 15.0).ln();
    assert!((cells.rises_to(celsius(5.0)).unwrap().si() / by_hand - 1.0).abs() < 5e-3);
    let middle = wrapped.middle_reaches(foam, celsius(5.0)).unwrap().si();
    assert!(middle > by_hand && middle < 1.2 * by_hand, "{middle} {by_hand}");
    let open = pack("home", &[("foam: 10 mm, zone: box", "foam: 0 mm")]).unwrap();
    assert!(open.middle_reaches(open.body.coefficient, celsius(5.0)).unwrap().si() < 0.4 * middle);
    // A small thing in the box, by hand: 80 J/K, 6 K/W and the walls.
    let radio = found.devices[1].as_ref().unwrap().rises_to(celsius(5.0)).unwrap().si();
    assert!((radio / (80.0 * (6.0 + walls) * (40f64 / 15.0).ln()) - 1.0).abs() < 5e-3);
    assert!(matches!(found.devices[0], Err(NotJudged::NotGiven { .. })));
    // The board warms sooner.
    let board = home(&[("{mass: 300 g, to_air: 100 K/W", "{mass: 300 g, to_air: 5 K/W")]).controller.unwrap();
    assert!(board.rises_to(celsius(5.0)).unwrap().si() < by_hand);
}

#[test]
fn devices_and_parts_are_as_warm_as_what_is_round_them() {
    let found = thermal("steady", &[]);
    let end = |course: &Found<Course>| degrees(course.as_ref().unwrap().end());
    let devices: Vec<f64> = found.devices.iter().map(end).collect();
    // Heat that nobody gives is not none: 5 K stand in for it.
    assert!((devices[0] - 15.0).abs() < 1e-9 && (devices[1] - 32.0).abs() < 1e-9);
    assert!((devices[2] - end(&found.controller) - 5.0).abs() < 1e-9);
    let cold = thermal("steady", &[("servo: {kind: servo}", "servo: {kind: servo, heat: 0 W}")]);
    assert!((end(&cold.devices[0]) - 10.0).abs() < 1e-9);
    let parts: Vec<f64> = found.parts.iter().map(end).collect();
    assert!((parts[0] - end(&found.motor_case)).abs() < 1e-9 && (parts[1] - 20.0).abs() < 1e-9);
    assert_eq!(parts[1], parts[2]);
}

#[test]
fn a_thermometer_sets_the_estimate_right() {
    let estimate = thermal("short", &[]).motor_case.unwrap();
    let read = |first: f64, peak: f64| {
        let run = format!(
            "{{mass: 1 kg, after_run: {{case: short, air: 10 °C, readings: {{0 s: {first} °C, 3 min: {peak} °C, 10 min: {first} °C}}}}"
        );
        thermal("short", &[("{mass: 1 kg", &run)])
    };
    let found = read(40.0, 52.0);
    let case = found.motor_case.unwrap();
    assert!((degrees(case.end()) - 40.0).abs() < 1e-6 && degrees(estimate.end()) < 35.0, "{}", degrees(case.end()));
    assert!(case.is_measured() && !estimate.is_measured());
    // 12 K over a rise of 30 K.
    let soaked = degrees(case.end()) + 0.4 * (degrees(case.end()) - 10.0);
    assert!((degrees(case.peak().temperature) - soaked).abs() < 1e-6 && case.peak().after.si() == 180.0);
    // Too little to say anything with.
    assert!(matches!(read(11.0, 12.0).winding, Err(NotJudged::NoSolution(_))));
    // What heats the same coolant is not known either.
    assert!(matches!(read(11.0, 12.0).controller, Err(NotJudged::NoSolution(_))));
}

#[test]
fn each_gap_hides_only_what_needs_it() {
    let gaps = |changes: &[(&str, &str)]| {
        let found = thermal("steady", changes);
        [found.winding.is_ok(), found.controller.is_ok(), pack("steady", changes).is_ok()]
    };
    // Heat that nobody states comes from the drive line, of which this machine says nothing.
    assert_eq!(gaps(&[]), [true, true, false]);
    let cooled = "    - {kind: plate, name: under, cools: battery, heat: 5 W, channel: {width: 4 mm, depth: 4 mm, length: 0.5 m}}\n    - {kind: hose";
    let cool = ("    - {kind: hose", cooled);
    assert_eq!(gaps(&[cool]), [true, true, true]);
    assert_eq!(gaps(&[cool, ("mass: 5.4 kg, ", "")]), [true, true, false]);
    assert_eq!(gaps(&[("stall_pressure: 150 kPa, ", "")]), [false, false, false]);
    // Without a loop, nothing but what they say gives off their heat.
    let alone = [("cools: controller, heat: 40 W, ", ""), ("to_air: 100 K/W}\ndevices", "efficiency: 95 %}\ndevices")];
    assert_eq!(gaps(&alone), [true, false, false]);
    assert_eq!(gaps(&[("cools: motor, heat: 90 W", "cools: motor")]), [false, false, false]);
}

/// What nothing but air cools needs to say how well; where a thermometer was read, that sets the estimate right.
#[test]
fn readings_stand_in_for_the_way_to_the_air() {
    let gap = |told: &str| {
        let machine = machine(&[("cools: controller, heat: 40 W, ", ""), ("to_air: 100 K/W}\ndevices", told)]);
        let found = asked(&machine, "steady", &[], |at| at.thermal()?.controller.clone().map(drop));
        let Err(NotJudged::NotGiven { absent, .. }) = found else { panic!("{found:?}") };
        machine.absent(absent).unwrap().field.to_string()
    };
    assert_eq!(gap("efficiency: 95 %}\ndevices"), "to_air");
    let read = gap("efficiency: 95 %, after_run: {case: steady, air: 10 °C, readings: {0 s: 60 °C}}}\ndevices");
    assert!(read != "to_air", "what is left to know is the drive line: {read}");
}

#[test]
fn more_heat_is_never_cooler_and_a_better_contact_never_hotter() {
    let winding = |watts: u32, contact: f64| {
        let (heat, joint) =
            (format!("heat: {watts} W, channel: {{width: 8"), format!("contact_resistance: {contact} K/W"));
        let changes =
            [("heat: 90 W, channel: {width: 8", heat.as_str()), ("contact_resistance: 0.05 K/W", joint.as_str())];
        settled(&thermal("steady", &changes).winding)
    };
    for step in 1..6 {
        assert!(winding(step * 30 + 30, 0.05) > winding(step * 30, 0.05));
        let contact = 0.03 * f64::from(step);
        assert!(winding(90, contact) < winding(90, contact + 0.03));
    }
}

#[test]
fn impossible_figures_are_no_panic() {
    let all = |changes: &[(&str, &str)]| {
        let machine = machine(changes);
        for case in ["steady", "short", "home", "cold"] {
            let _ = asked(&machine, case, &[], |at| at.thermal().cloned());
            let _ = asked(&machine, case, &[], |at| at.pack().cloned());
        }
    };
    all(&[("mass: 5.4 kg", "mass: 1e-300 kg"), ("{mass: 1 kg", "{mass: 1e-300 kg")]);
    all(&[("to_air: 100 K/W", "to_air: 1e300 K/W"), ("heat: 90 W", "heat: 1e9 W")]);
    all(&[("foam: 10 mm", "foam: 1e300 m"), ("duration: 4 min", "duration: 0 s"), ("wait: 2 h", "wait: 1e30 d")]);
    all(&[("length: 300 mm, width: 120 mm", "length: 1e-300 m, width: 1e-300 m")]);
}
