use crate::HubHeat;
use rule::prelude::*;
use trial::Row;

/// A printed wheel with an insert on a layshaft between a printed and a metal seat, at 1500 turns a minute.
const MACHINE: &str = "
machine: {name: trial, mass: 60 kg}
environment: {air: 0 °C to 20 °C, relative_humidity: 80 %, altitude: 0 m, assembled_at: 20 °C, surface: packed_snow}
zones: {case: {volume: 1 L, air_rise: 0 K}}
cases:
  drive: {kind: cruise, speed: 24 km/h, air: 20 °C, duration: 40 min}
materials:
  nylon: {family: printed_polymer, density: 1200 kg/m³, conductivity: 0.4 W/(m·K), heat_capacity: 1500 J/(kg·K), friction: 0.3, service_temperature_max: 120 °C}
  alloy: {family: metal, conductivity: 160 W/(m·K)}
  steel: {family: metal, conductivity: 16 W/(m·K)}
powertrain:
  battery: {cells: {series: 14, kind: li_ion_21700, full_voltage: 4.2 V, nominal_voltage: 3.6 V}, resistance: 62 mΩ, capacity: 22 Ah}
  controller: {current_limit: {battery: 100 A, motor: 130 A}, efficiency: 95 %}
  motor: {speed_constant: 118 rpm/V, resistance: 31 mΩ, no_load_current: 2.6 A, count: 1}
  stages:
    - name: first
      kind: spur
      module: 1.5 mm
      pressure_angle: 20 °
      face_width: 14 mm
      zone: case
      efficiency: 98 %
      pinion: {teeth: 17, material: steel}
      wheel: {teeth: 40, material: nylon, side_clearance: 0.5 mm, hub: {form: insert, outer_diameter: 22 mm}}
  shafts:
    layshaft:
      material: steel
      diameter: 12 mm
      bore: 0.001 mm
      turned_by: first
      stations: [{x: 0 mm, bearing: left}, {x: 22 mm, wheel_of: first}, {x: 74 mm, bearing: right}]
  bearings:
    left: {kind: rolling, size: 6001-2RS, grease_from: -25 °C, journal: press, seat: {part: printed}}
    right: {kind: rolling, size: 6001-2RS, grease_from: -25 °C, journal: press, seat: {part: plate}}
  track: {form: {kind: corded_belt}, pitch: 30 mm, links: 50, mass: 2 kg, sprocket_teeth: 9}
structure:
  parts: {printed: {material: nylon}, plate: {material: alloy}}
";
const ROOM: &str = "room beside the wheel";
const HEAT: &str = "wheel hub heat";
const RUBS: (&str, &str) = ("side_clearance: 0.5 mm", "side_clearance: 0.1 mm");

fn changed(changes: &[(&str, &str)]) -> String {
    trial::changed(MACHINE, changes)
}

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&HubHeat, &changed(changes))
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| row.check == check).unwrap()
}

/// Heat of rubbing face, bearing, journal and mesh, W.
fn heats(changes: &[(&str, &str)]) -> [f64; 4] {
    let text = changed(changes);
    let words = trial::outcomes(&HubHeat, &text);
    let (_, machine) = trial::machine_of(&text);
    assert!(!words.is_empty());
    let (what_if, cells) = Default::default();
    let at = At::new(&machine, CasePoint { case: 0, share: 0.0 }, &what_if, &cells);
    let pair = gears::pairs(&machine).next().unwrap();
    let heats = thermal::hub::hub(&at, &pair, gears::Side::Wheel).unwrap().unwrap().heats;
    [heats.rubbing.si(), heats.bearing.si(), heats.journal.si(), heats.mesh.si()]
}

/// Common practice, no source: a wheel face that rubs its bearing ring melts the hub, with a spacer it stays cool; the
/// rubbing face makes about 20 W at some three thousand turns, half of it at these, the bearing alone about 1 W.
#[test]
fn fails_when_the_face_rubs_and_is_sound_with_a_spacer() {
    let [rubbing, bearing, _, _] = heats(&[RUBS]);
    assert!((7.0..14.0).contains(&rubbing) && (0.5..4.0).contains(&bearing), "{rubbing} {bearing}");
    let rubs = row(HEAT, &[RUBS]);
    assert_eq!((rubs.verdict, rubs.case.as_str()), (Verdict::Fails, "drive"), "{rubs:?}");
    assert!(rubs.says.contains("softens"), "{}", rubs.says);
    let room = row(ROOM, &[RUBS]);
    assert!(room.verdict == Verdict::Fails && room.says.contains("rubs on what is beside it"));
    let spaced = rows(&[]);
    assert!(spaced.len() == 2 && spaced.iter().all(|row| row.verdict == Verdict::Sound), "{spaced:#?}");
    assert_eq!(heats(&[])[0], 0.0);
}

#[test]
fn thin_between_ten_and_twenty_five_kelvin_unless_measured() {
    let highest = 120.0 - row(HEAT, &[]).reserve;
    let limit = format!("service_temperature_max: {} °C", highest + 18.0);
    let change = ("service_temperature_max: 120 °C", limit.as_str());
    assert_eq!(row(HEAT, &[change]).verdict, Verdict::Thin);
    let read = format!(
        "outer_diameter: 22 mm, after_run: {{case: drive, air: 20 °C, readings: {{0 s: {highest} °C, 5 min: {highest} °C}}}}"
    );
    let measured = row(HEAT, &[change, ("outer_diameter: 22 mm", &read)]);
    assert!(measured.verdict == Verdict::Sound && (measured.reserve - 18.0).abs() < 0.5, "{measured:?}");
}

#[test]
fn by_hand() {
    // 24 km/h over nine links of 30 mm: 1481 turns a minute. Rubbing on the ring's mean diameter of 20 mm: 0.3·20 N·v.
    let speed = 24.0 / 3.6 / 0.27 * 2.0 * core::f64::consts::PI;
    let pitch_radius = 0.03 / 2.0 / 0.342_020_143_325_669;
    let speed = speed * 0.27 / (2.0 * core::f64::consts::PI * pitch_radius);
    assert!((heats(&[RUBS])[0] - 0.3 * 20.0 * speed * 0.01).abs() < 1e-6);
    // Its ways out, W/K: both bearings, the body, and hardly any of its own face.
    let section = 16.0 * core::f64::consts::FRAC_PI_4 * 0.012 * 0.012;
    let left = 1.0 / (0.022 / section + 44.0);
    let right = 1.0 / (0.052 / section + 6.0);
    let [_, bearing, _, mesh] = heats(&[]);
    let most = 20.0 + (bearing + mesh) / (left + right);
    let highest = 120.0 - row(HEAT, &[]).reserve;
    assert!(highest < most && highest > 20.0 + 0.1 * (most - 20.0), "{highest} {most}");
}

#[test]
fn each_gap_hides_only_what_needs_it() {
    let gone = |from: &str, to: &str| {
        let after = rows(&[(from, to)]);
        let not = after.iter().filter(|row| row.verdict == Verdict::NotJudged);
        not.map(|row| format!("{}: {}", row.check, row.says)).collect::<Vec<_>>().join("; ")
    };
    assert_eq!(
        gone("side_clearance: 0.5 mm, ", ""),
        "room beside the wheel: side_clearance; wheel hub heat: side_clearance"
    );
    assert_eq!(gone(", service_temperature_max: 120 °C", ""), "wheel hub heat: service_temperature_max");
    assert_eq!(gone("      turned_by: first\n", ""), "wheel hub heat: turned_by");
    assert_eq!(gone("      diameter: 12 mm\n", ""), "wheel hub heat: diameter");
    assert_eq!(gone(", outer_diameter: 22 mm", ""), "wheel hub heat: outer_diameter");
    assert_eq!(gone("journal: press, seat: {part: printed}", "journal: press"), "wheel hub heat: seat");
    assert_eq!(gone("printed: {material: nylon}", "printed: {thickness: 5 mm}"), "wheel hub heat: material");
    let assumed = |from: &str, to: &str| row(HEAT, &[(from, to)]).assumed;
    assert!(assumed("friction: 0.3, ", "").contains(&"friction".to_string()));
    assert!(assumed(", hub: {form: insert, outer_diameter: 22 mm}", "").contains(&"hub".to_string()));
    assert!(assumed("journal: press, seat: {part: printed}", "seat: {part: printed}").contains(&"journal".to_string()));
}

#[test]
fn the_exact_boundary() {
    let at = |clearance: &str| row(ROOM, &[("side_clearance: 0.5 mm", &format!("side_clearance: {clearance} mm"))]);
    assert_eq!([at("0.300001").verdict, at("0.299999").verdict], [Verdict::Sound, Verdict::Fails]);
    let reserve = row(HEAT, &[]).reserve;
    let limit = |over: f64| {
        let text = format!("service_temperature_max: {:.9} °C", 120.0 - reserve + over);
        row(HEAT, &[("service_temperature_max: 120 °C", &text)]).verdict
    };
    assert_eq!([limit(25.000_01), limit(24.999_99), limit(-0.000_01)], [Verdict::Sound, Verdict::Thin, Verdict::Fails]);
}

#[test]
fn a_faster_drive_never_raises_the_reserve() {
    let reserve = |speed: u32| row(HEAT, &[RUBS, ("speed: 24 km/h", &format!("speed: {speed} km/h"))]).reserve;
    let reserves: Vec<f64> = (1..8).map(|step| reserve(step * 4)).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] < pair[0]), "{reserves:?}");
}

#[test]
fn a_seat_of_metal_and_a_spacer_never_warm_it() {
    let metal = ("printed: {material: nylon}", "printed: {material: alloy}");
    assert!(row(HEAT, &[RUBS, metal]).reserve > row(HEAT, &[RUBS]).reserve);
    assert!(row(HEAT, &[metal]).reserve > row(HEAT, &[]).reserve);
}

#[test]
fn a_journal_that_slides_in_a_frozen_bearing_heats_the_hub() {
    let cold = [
        ("air: 20 °C, duration", "air: 0 °C, duration"),
        (
            "grease_from: -25 °C, journal: press, seat: {part: printed}",
            "grease_from: 5 °C, journal: slides, seat: {part: printed}",
        ),
    ];
    assert!(heats(&cold)[2] > 1.0);
    assert_eq!(heats(&[cold[0], (cold[1].0, "grease_from: -25 °C, journal: slides, seat: {part: printed}")])[2], 0.0);
    assert_eq!(heats(&[cold[0], (cold[1].0, "grease_from: 5 °C, journal: glued, seat: {part: printed}")])[2], 0.0);
}

#[test]
fn metal_gears_and_short_cases_are_set_aside() {
    assert!(rows(&[("wheel: {teeth: 40, material: nylon", "wheel: {teeth: 40, material: alloy")]).is_empty());
    assert!(rows(&[("kind: cruise, speed: 24 km/h", "kind: lift_off"), (", duration: 40 min", "")]).is_empty());
    assert!(rows(&[("kind: cruise, speed: 24 km/h", "kind: idle")]).is_empty());
}

#[test]
fn a_plastic_pinion_on_the_motor_takes_the_rotors_heat() {
    let pinion = [
        (
            "pinion: {teeth: 17, material: steel}",
            "pinion: {teeth: 17, material: nylon, bore: 8 mm, side_clearance: 0.5 mm}",
        ),
        ("motor: {speed_constant", "motor: {mass: 1.4 kg, to_air: 1 K/W, speed_constant"),
    ];
    let cool = row("pinion hub heat", &pinion);
    let hot = row(
        "pinion hub heat",
        &[pinion[0], ("motor: {speed_constant", "motor: {mass: 1.4 kg, to_air: 2 K/W, speed_constant")],
    );
    assert!(hot.reserve < cool.reserve - 5.0, "{} {}", hot.reserve, cool.reserve);
}

#[test]
fn a_gear_is_found_by_its_stage_and_by_no_words() {
    let hub = |station: &str| row(HEAT, &[("x: 22 mm, wheel_of: first", station)]);
    let named = hub("x: 22 mm, wheel_of: first");
    let told = |row: &Row| row.assumed.iter().any(|one| one == "wheel_of");
    assert!(!told(&named), "{named:?}");
    for words in ["the first large gear", "what was printed on Sunday"] {
        assert_eq!(hub(&format!("x: 22 mm, wheel_of: first, carries: {words}")).reserve, named.reserve);
    }
    // Nobody says where it sits: as far from its bearing as usual, and that is told.
    let unsaid = hub("x: 22 mm");
    assert!(told(&unsaid), "{unsaid:?}");
    assert_eq!(hub("x: 22 mm, carries: a large gear").reserve, unsaid.reserve);
}

#[test]
fn an_idler_between_two_stages_is_told_once() {
    let second = "\n    - {name: second, kind: spur, module: 1.5 mm, pressure_angle: 20 °, face_width: 14 mm, zone: case, efficiency: 98 %, pinion: *between, wheel: {teeth: 40, material: steel}}\n  shafts:";
    let changes = [("      wheel: {teeth: 40", "      wheel: &between {teeth: 40"), ("\n  shafts:", second), RUBS];
    let all = rows(&changes);
    let rooms: Vec<_> =
        all.iter().filter(|row| row.check.contains("room")).map(|row| (row.subject.as_str(), row.check)).collect();
    assert_eq!(rooms, [("first", ROOM)], "{all:?}");
    assert!(all.iter().all(|row| row.check != "pinion hub heat"), "{all:?}");
}
