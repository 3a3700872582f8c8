use crate::BearingPv;
use rule::prelude::*;
use trial::Row;

/// Bore 10 mm, length 10 mm: 1000 N press with 10 MPa. 1000 rpm rub with 0.5236 m/s.
const BUSH: &str = "
environment: {air: 0 °C to 13 °C, relative_humidity: 80 %, altitude: 0 m, assembled_at: 20 °C}
cases:
  drive: {kind: cruise, speed: 6 km/h, air: 13 °C}
materials:
  lining:
    family: polymer
    strength_at: {-40 °C: 1.2, 23 °C: 1, 103 °C: 0.5}
    sliding: {p_limit: 40 MPa, v_limit: 2 m/s, pv_limit: 0.5 MPa·m/s, pv_limit_greased: 2 MPa·m/s, friction: 0.2, temperature_max: 103 °C}
  steel: {family: metal}
structure: {parts: {axle: {material: steel}}}
powertrain:
  bearings:
    bush: {kind: plain, material: lining, bore: 10 mm, length: 10 mm, runs_on: axle, lubrication: none, dirt: clean,
      load: 50 N, speed: 1000 rpm}
assumed: {dry_friction: 0.25, bush_conductance: 4 K/W}
";

fn changed(changes: &[(&str, &str)]) -> String {
    trial::changed(BUSH, changes)
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    let rows = trial::review(&BearingPv, &changed(changes));
    rows.into_iter().find(|row| row.check == check).unwrap()
}

fn verdict(check: &str, changes: &[(&str, &str)]) -> Verdict {
    row(check, changes).verdict
}

/// Checks that differ from the whole spec's in verdict, or in what was assumed.
fn touched(changes: &[(&str, &str)]) -> Vec<(&'static str, Verdict, Vec<String>)> {
    let (before, after) = (trial::review(&BearingPv, &changed(&[])), trial::review(&BearingPv, &changed(changes)));
    assert!(before.iter().all(|row| row.verdict == Verdict::Sound && row.assumed.is_empty()), "{before:#?}");
    let other = after.into_iter().filter(|row| {
        !before.iter().any(|old| old.check == row.check && row.verdict == old.verdict && row.assumed.is_empty())
    });
    other.map(|row| (row.check, row.verdict, row.assumed)).collect()
}

#[test]
fn fails() {
    let heavy = [("load: 50 N", "load: 4500 N"), ("speed: 1000 rpm", "speed: 1 rpm")];
    assert_eq!(verdict("pressure", &heavy), Verdict::Fails);
    assert_eq!(verdict("speed", &[("speed: 1000 rpm", "speed: 4000 rpm")]), Verdict::Fails);
    let loaded = row("pressure × speed", &[("load: 50 N", "load: 200 N")]);
    assert_eq!((loaded.verdict, loaded.case.as_str()), (Verdict::Fails, "drive"));
    assert!(loaded.says.contains("grips the axle"));
    assert_eq!(verdict("temperature", &[("load: 50 N", "load: 300 N")]), Verdict::Fails);
}

#[test]
fn thin() {
    // 2 / 1.571 m/s = 1.27.
    assert_eq!(verdict("speed", &[("speed: 1000 rpm", "speed: 3000 rpm")]), Verdict::Thin);
    let heavy = [("load: 50 N", "load: 3000 N"), ("speed: 1000 rpm", "speed: 1 rpm")];
    assert_eq!(verdict("pressure", &heavy), Verdict::Thin);
    assert_eq!(verdict("temperature", &[("load: 50 N", "load: 50 N, temperature: 95 °C")]), Verdict::Thin);
    // 0.5 / (0.5 MPa × 0.5236 m/s) = 1.9: enough for a clean bush, not for others.
    assert_eq!(verdict("pressure × speed", &[("dirt: clean", "dirt: dusty")]), Verdict::Thin);
    assert_eq!(verdict("pressure × speed", &[("dirt: clean", "dirt: snow_and_grit")]), Verdict::Thin);
}

#[test]
fn sound_and_by_hand() {
    // F = 50 N, v = 0.5236 m/s: 5.236 W, 20.94 K over 13 °C. The p·v limit counts the air: at 13 °C all of it.
    let (v, rise) = (core::f64::consts::PI / 6.0, 0.2 * 50.0 * core::f64::consts::PI / 6.0 * 4.0);
    let by_hand = 0.5 / (0.5 * v);
    let product = row("pressure × speed", &[]);
    assert_eq!(product.verdict, Verdict::Sound);
    assert!((product.reserve / by_hand - 1.0).abs() < 1e-9, "{product:?}");
    assert!((row("temperature", &[]).reserve - (90.0 - rise)).abs() < 1e-9);
    assert!((row("speed", &[]).reserve - 2.0 / v).abs() < 1e-9);
    let strength = 1.0 - 0.5 * (13.0 + rise - 23.0) / 80.0;
    assert!((row("pressure", &[]).reserve - 80.0 * strength).abs() < 1e-9);
}

#[test]
fn the_exact_boundary() {
    // 15 MPa over 10 MPa is 1.5, with no strength table in the way.
    let at = |load: &str| {
        let none = "    strength_at: {-40 °C: 1.2, 23 °C: 1, 103 °C: 0.5}\n";
        row("pressure", &[(none, ""), ("p_limit: 40 MPa", "p_limit: 15 MPa"), ("load: 50 N", load)])
    };
    let (below, above) = (at("load: 999.9995 N"), at("load: 1000.0005 N"));
    assert_eq!((below.verdict, above.verdict), (Verdict::Sound, Verdict::Thin));
    assert!(below.headroom.abs() < 1e-6 && above.headroom.abs() < 1e-6);
    let measured = |at: &str| row("temperature", &[("load: 50 N", &format!("load: 50 N, temperature: {at} °C"))]);
    assert_eq!((measured("92.99999").verdict, measured("93.00001").verdict), (Verdict::Sound, Verdict::Thin));
}

#[test]
fn more_length_never_lowers_the_pressure_reserve() {
    let reserve = |length: u32| row("pressure", &[("length: 10 mm", &format!("length: {length} mm"))]).reserve;
    let reserves: Vec<f64> = (5..25).map(reserve).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] > pair[0]));
}

#[test]
fn each_gap_hides_only_what_needs_it() {
    use Verdict::{NotJudged, Sound};
    let checks = |changes: &[(&str, &str)]| {
        touched(changes).into_iter().map(|(check, verdict, _)| (check, verdict)).collect::<Vec<_>>()
    };
    let all = ["pressure", "pressure × speed", "speed", "temperature"].map(|check| (check, NotJudged));
    let [pressure, product, speed, temperature] = all;
    assert_eq!(checks(&[("material: lining,", "")]), all);
    assert_eq!(checks(&[("bore: 10 mm, ", "")]), all);
    assert_eq!(checks(&[("length: 10 mm, ", "")]), [pressure, product]);
    assert_eq!(checks(&[("load: 50 N, ", "")]), [pressure, product, temperature]);
    assert_eq!(checks(&[(", speed: 1000 rpm", "")]), all);
    assert_eq!(checks(&[("p_limit: 40 MPa, ", "")]), [pressure]);
    assert_eq!(checks(&[("v_limit: 2 m/s, ", "")]), [speed]);
    assert_eq!(checks(&[("pv_limit: 0.5 MPa·m/s, ", "")]), [product]);
    assert_eq!(checks(&[(", temperature_max: 103 °C", "")]), [product, temperature]);
    let assumed = |changes: &[(&str, &str)]| touched(changes);
    let by = |check, field: &str| (check, Sound, vec![field.to_string()]);
    let frictions = ["pressure", "temperature"].map(|check| by(check, "friction"));
    assert_eq!(assumed(&[("friction: 0.2, ", "")]), frictions);
    let dirt: Vec<_> =
        touched(&[(", dirt: clean", "")]).into_iter().map(|(check, _, assumed)| (check, assumed)).collect();
    let named = ["pressure", "pressure × speed", "speed"].map(|check| (check, vec!["dirt".to_string()]));
    assert_eq!(dirt, named);
    assert_eq!(assumed(&[("lubrication: none, ", "")]), [by("pressure × speed", "lubrication")]);
}

#[test]
fn greased_without_a_greased_limit_takes_the_dry_one_and_says_so() {
    let greased = ("lubrication: none", "lubrication: grease");
    assert!(row("pressure × speed", &[greased]).reserve > 3.9 * row("pressure × speed", &[]).reserve);
    let told = row("pressure × speed", &[greased, ("pv_limit_greased: 2 MPa·m/s, ", "")]);
    assert_eq!(told.assumed, ["pv_limit_greased"]);
    assert!((told.reserve - row("pressure × speed", &[]).reserve).abs() < 1e-12);
}

#[test]
fn a_metal_wheel_on_a_plastic_axle_is_judged_by_the_axle() {
    let swapped =
        [("material: lining, bore", "material: steel, bore"), ("axle: {material: steel}", "axle: {material: lining}")];
    assert_eq!(row("speed", &swapped).reserve, row("speed", &[]).reserve);
    assert_eq!(verdict("speed", &[("material: lining, bore", "material: steel, bore")]), Verdict::NotJudged);
}

#[test]
fn swinging_rubs_by_angle_and_frequency() {
    // ±180° at 1 Hz is two turns a second.
    let swings = ("speed: 1000 rpm", "swing: {angle: 180 °, frequency: 1 Hz}");
    let turns = ("speed: 1000 rpm", "speed: 120 rpm");
    assert!((row("speed", &[swings]).reserve / row("speed", &[turns]).reserve - 1.0).abs() < 1e-9);
    assert_eq!(verdict("speed", &[("speed: 1000 rpm", "swing: {angle: 10 °}")]), Verdict::NotJudged);
}

fn on_wheel(wheel: &str, case: &str) -> Vec<(&'static str, f64)> {
    let bush = changed(&[("load: 50 N, speed: 1000 rpm", wheel), ("kind: cruise, speed: 6 km/h", case)]);
    let yaml = format!("machine: {{name: trial, mass: 50 kg, payload: {{mass: 20 kg}}}}{bush}");
    let yaml = yaml.replace(
        "powertrain:\n",
        "powertrain:\n  track:\n    form: {kind: corded_belt}\n    tensioner: {by: none}\n    pitch: 40 mm\n    links: 50\n    mass: 2 kg\n    slack_tension: 100 N\n",
    );
    let yaml = yaml.replace("assumed: {", "assumed: {rolling_resistance: 0.1, traction: 0.5, run_over: 0.5, ");
    trial::review(&BearingPv, &yaml).into_iter().map(|row| (row.check, row.reserve)).collect()
}

#[test]
fn a_wheel_takes_load_and_speed_from_the_machine() {
    // 10 % of 50 kg: 49.03 N; 18 km/h on 50 mm: 100 rad/s, 0.5 m/s.
    let straight = "wheel: {radius: 50 mm, share_of_weight: 10 %, track_wrap: 0 °}";
    let reserves = on_wheel(straight, "kind: cruise, speed: 18 km/h");
    let speed = reserves.iter().find(|row| row.0 == "speed").unwrap().1;
    assert!((speed - 4.0).abs() < 1e-9, "{reserves:?}");
    let product = |wheel: &str, case: &str| {
        // Held at 13 °C by a measurement, so that nothing is taken off the limit.
        let rows = on_wheel(&format!("temperature: 13 °C, {wheel}"), case);
        rows.iter().find(|row| row.0 == "pressure × speed").unwrap().1
    };
    let weight = 0.1 * 50.0 * 9.80665;
    assert!((product(straight, "kind: cruise, speed: 18 km/h") - 0.5e6 / (weight / 1e-4 * 0.5)).abs() < 1e-9);
    let empty = product(straight, "kind: cruise, speed: 18 km/h, payload: no");
    assert!((empty - 0.5e6 / (0.6 * weight / 1e-4 * 0.5)).abs() < 1e-9);
    // Half round, two bushes: each takes one strand of 100 N preload and 49.03 N of rolling resistance; what is run over
    // counts for the pressure only.
    let wrapped = "wheel: {radius: 50 mm, share_of_weight: 10 %, track_wrap: 180 °, bushes: 2}";
    let lasting = weight + 100.0 + 0.1 * 50.0 * 9.80665;
    assert!((product(wrapped, "kind: cruise, speed: 18 km/h") - 0.5e6 / (lasting / 1e-4 * 0.5)).abs() < 1e-9);
    let pressed = on_wheel(&format!("temperature: 23 °C, {wrapped}"), "kind: cruise, speed: 18 km/h");
    let highest = lasting + 0.5 * 50.0 * 9.80665;
    assert!((pressed[0].1 - 40e6 / (highest / 1e-4)).abs() < 1e-9, "{pressed:?}");
}

#[test]
fn landings_and_standing_are_set_aside() {
    let checks = |case: &str| {
        let rows = trial::review(&BearingPv, &changed(&[("kind: cruise, speed: 6 km/h", case)]));
        rows.into_iter().map(|row| row.check).collect::<Vec<_>>()
    };
    assert!(checks("kind: landing, drop: 0.3 m").is_empty());
    assert_eq!(checks("kind: soak"), ["pressure"]);
}

/// 12 kg on each of two springs, a motion ratio of 0.5; no track, so one is counted.
const CORNER: &str = "
suspension:
  rear:
    count: 2
    sprung_mass_each: 12 kg
    unsprung_mass_each: 100 g
    position: 0 mm
    motion_ratio: 0.5
    damper_travel: 90 mm
    spring: {rate: 20 N/mm}
    preload: {collar: 0 mm}
    damper: none
    bump_stop: none
";

fn landing(changes: &[(&str, &str)]) -> Option<Row> {
    let lands = [
        (
            "speed: 6 km/h, air: 13 °C}",
            "speed: 6 km/h, air: 13 °C}\n  drop: {kind: landing, drop: 0.2 m, attitude: level, surface: ice, air: 23 °C}",
        ),
        ("load: 50 N, speed: 1000 rpm", "load: 50 N, speed: 1000 rpm, wheel: {radius: 50 mm, bushes: 2, corner: rear}"),
        ("bush_conductance: 4 K/W", "bush_conductance: 4 K/W, mount_stiffness: 400 N/mm, ground_stiffness: 30 N/mm"),
    ];
    let mut text = format!("{}{CORNER}", changed(&lands));
    for (from, to) in changes {
        assert!(text.contains(from), "{from}");
        text = text.replace(from, to);
    }
    trial::review(&BearingPv, &text).into_iter().find(|row| row.check == "landing pressure")
}

/// At the damper, as the shared solution has it.
fn at_damper() -> f64 {
    // Sound as it is: 40 MPa over what two bushes share of two springs at half the force.
    40e6 * 1e-4 / landing(&[]).unwrap().reserve / 0.5
}

#[test]
fn a_landing_presses_by_the_corner_the_wheel_hangs_on() {
    let row = landing(&[]).unwrap();
    assert_eq!((row.verdict, row.case.as_str(), row.assumed), (Verdict::Sound, "drop", vec!["count".to_string()]));
    // By energy, without the ground's give: 12.1 kg from 0.2 m on 5 N/mm at the wheel, at most 2·m·g·(h + x) = k·x².
    let (rate, fallen) = (SpringRate::from_si(20e3), physics::landing::impact_speed(Length::from_si(0.2)));
    let spring = physics::landing::at_wheel(rate, Force::ZERO, Ratio::from_si(0.5));
    let most = spring.force(spring.peak_depth(Mass::from_si(12.1), fallen)).si();
    let at_wheel = at_damper() * 0.5;
    assert!(at_wheel <= most && at_wheel > 0.8 * most, "{at_wheel} {most}");
}

#[test]
fn a_landing_is_shared_by_the_bushes_of_one_spring_and_derated() {
    let sound = landing(&[]).unwrap().reserve;
    let times = |changes: &[(&str, &str)], times: f64| {
        let row = landing(changes).unwrap();
        assert!((row.reserve / sound / times - 1.0).abs() < 1e-9, "{changes:?} {row:?}");
        row.verdict
    };
    times(&[("bushes: 2", "bushes: 4")], 2.0);
    times(&[("count: 2", "count: 1")], 2.0);
    times(&[("length: 10 mm", "length: 20 mm")], 2.0);
    // 63 °C: three quarters of the strength.
    times(&[("air: 23 °C}", "air: 63 °C}")], 0.75);
    assert_eq!(times(&[("dirt: clean", "dirt: snow_and_grit")], 1.0), Verdict::Sound);
    let least = |share: f64| format!("p_limit: {:.9} MPa", 40.0 / sound * share);
    let verdict = |share: f64| times(&[("p_limit: 40 MPa", &least(share))], share / sound);
    assert_eq!([verdict(0.99), verdict(1.499), verdict(1.501)], [Verdict::Fails, Verdict::Thin, Verdict::Sound]);
}

#[test]
fn a_landing_without_wheel_or_corners_is_set_aside_and_without_its_corner_not_judged() {
    let gone = (", wheel: {radius: 50 mm, bushes: 2, corner: rear}", "");
    assert!(landing(&[gone]).is_none());
    let unknown = landing(&[(", corner: rear", "")]).unwrap();
    assert_eq!((unknown.verdict, unknown.says.as_str()), (Verdict::NotJudged, "corner"));
    assert!(landing(&[(", corner: rear", ""), (CORNER, "")]).is_none());
    assert!(landing(&[("attitude: level", "attitude: inverted")]).is_none());
    for gap in ["    count: 2\n", "    motion_ratio: 0.5\n", "bushes: 2, ", "length: 10 mm, ", "p_limit: 40 MPa, "] {
        assert_eq!(landing(&[(gap, "")]).unwrap().verdict, Verdict::NotJudged, "{gap}");
    }
}
