use super::*;
use document::{Document, Limits, NoFiles, NoShelf};
use machine::{Machine, Swaps};

const MACHINE: &str = "\
dryfit: 1
machine: {name: sled}
materials: {mine: {family: printed_polymer}}
powertrain:
  stages:
    - {name: primary, kind: spur, module: 1.5 mm, centre_distance: 42.9 mm, pinion: {teeth: 17}, wheel: {teeth: 40}}
  shafts: {axle: {diameter: 12 mm}}
  bearings:
    idler: {kind: plain, bore: 12 mm, length: 18 mm, runs_on: axle, wheel: {radius: 38 mm}}
    other: {kind: plain, bore: 12 mm, length: 18 mm, runs_on: axle}
  track:
    form: {kind: pinned_links, pin_diameter: 3 mm, ears: 9, ear_width: 9 mm, wall_round_pin: 2.4 mm, ear_gap: 0.5 mm}
    width: 180 mm
    pitch: 40 mm
    lug: {width: 150 mm}
    smallest_wheel: {radius: 38 mm, place: idler}
cooling:
  circuit:
    - kind: exchanger
      name: floor
      part: floor
      channel: {width: 6 mm, depth: 4 mm, length: 1.3 m, turns: 9}
      outside: {area: 0.055 m²}
structure:
  parts:
    floor: {size: {length: 480 mm, width: 190 mm, thickness: 8 mm}}
    pipe: {section: {kind: tube, outer_diameter: 12 mm, wall: 2 mm}}
suspension:
  skid:
    damper_travel: 52 mm
    spring: {wire: 3 mm, mean_diameter: 24 mm, active_coils: 7, free_length: 96 mm}
    preload: {collar: 13 mm, of: 14 mm}
    damper: {kind: oil, bore: 16 mm, rod: 4 mm, hole_diameter: 1.2 mm}
    bump_stop: {kind: elastomer, height: 12 mm, diameter: 18 mm}
";

fn read(text: String) -> (Document, Machine) {
    let document = Document::load("spec", text.into_bytes(), &NoFiles, &NoShelf, &Limits::default());
    let machine = Machine::read(&document, &Swaps::new()).unwrap();
    (document, machine)
}

fn with(old: &str, new: &str) -> Vec<&'static str> {
    assert!(MACHINE.contains(old), "{old}");
    let (_, machine) = read(MACHINE.replacen(old, new, 1));
    misfits(&machine, &WhatIf::default()).into_iter().map(|misfit| misfit.says).collect()
}

#[test]
fn what_is_drawn_with_sense_fits() {
    assert_eq!(with("sled", "sled"), Vec::<&str>::new());
}

#[test]
fn each_size_has_its_limit_and_fits_right_at_it() {
    for (fits, does_not, says) in [
        // 19 ears of 9 mm with 18 gaps of 0.5 mm are exactly 180 mm.
        (("ears: 9,", "ears: 10,"), ("ears: 9,", "ears: 11,"), "side by side"),
        (
            ("wall_round_pin: 2.4 mm", "wall_round_pin: 8.5 mm"),
            ("wall_round_pin: 2.4 mm", "wall_round_pin: 8.6 mm"),
            "eye",
        ),
        (("lug: {width: 150 mm", "lug: {width: 180 mm"), ("lug: {width: 150 mm", "lug: {width: 181 mm"), "lug"),
        (("length: 18 mm", "length: 24 mm"), ("length: 18 mm", "length: 25 mm"), "twice its bore"),
        (("bore: 12 mm", "bore: 13 mm"), ("bore: 12 mm", "bore: 14 mm"), "loose"),
        (("bore: 12 mm", "bore: 12.1 mm"), ("bore: 12 mm", "bore: 11.9 mm"), "goes into"),
        (("teeth: 40", "teeth: 41"), ("teeth: 40", "teeth: 42"), "mesh"),
        (("collar: 13 mm", "collar: 14 mm"), ("collar: 13 mm", "collar: 14.1 mm"), "thread"),
        (("wire: 3 mm", "wire: 2.9 mm"), ("wire: 3 mm", "wire: 6.1 mm"), "four wires"),
        (("active_coils: 7", "active_coils: 30.5"), ("active_coils: 7", "active_coils: 31"), "pressed together"),
        (("bore: 16 mm", "bore: 19 mm"), ("bore: 16 mm", "bore: 20 mm"), "over the damper"),
        (("depth: 4 mm", "depth: 6 mm"), ("depth: 4 mm", "depth: 6.1 mm"), "floor"),
        (("width: 6 mm", "width: 17 mm"), ("width: 6 mm", "width: 18 mm"), "side by side"),
        (("length: 1.3 m", "length: 4.8 m"), ("length: 1.3 m", "length: 5 m"), "longer than the plate"),
        (("0.055 m²", "0.0912 m²"), ("0.055 m²", "0.092 m²"), "itself"),
        (("wall: 2 mm", "wall: 6 mm"), ("wall: 2 mm", "wall: 7 mm"), "half"),
        (("height: 12 mm", "height: 26 mm"), ("height: 12 mm", "height: 27 mm"), "stop"),
    ] {
        assert_eq!(with(fits.0, fits.1), Vec::<&str>::new(), "{fits:?}");
        let found = with(does_not.0, does_not.1);
        assert!(found.iter().any(|found| found.contains(says)), "{does_not:?}: {found:?}");
    }
}

#[test]
fn a_number_of_a_what_if_counts_and_what_is_not_given_does_not() {
    let (document, machine) = read(MACHINE.into());
    let ears = document.root.get("powertrain").and_then(|node| node.get("track")?.get("form")?.get("ears")).unwrap().id;
    let mut what_if = WhatIf::default();
    what_if.set(ears, 20.0);
    assert_eq!(misfits(&machine, &what_if).len(), 1);
    assert_eq!(with("ears: 9, ", ""), Vec::<&str>::new());
}

#[test]
fn a_wheel_is_one_wheel_and_an_axle_goes_with_all_its_bushes() {
    let (document, machine) = read(MACHINE.into());
    let paths: Vec<String> = twins(&machine).iter().flatten().map(|node| document.path(*node)).collect();
    assert_eq!(
        paths,
        [
            "powertrain.bearings.idler.wheel.radius",
            "powertrain.track.smallest_wheel.radius",
            "powertrain.bearings.idler.bore",
            "powertrain.shafts.axle.diameter",
            "powertrain.bearings.other.bore",
            "powertrain.shafts.axle.diameter",
        ]
    );
    let (_, machine) = read(MACHINE.replace("smallest_wheel: {radius: 38 mm", "smallest_wheel: {radius: 30 mm"));
    assert_eq!(twins(&machine).len(), 2, "two sizes are two wheels");
}
