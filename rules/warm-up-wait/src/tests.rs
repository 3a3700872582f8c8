use crate::WarmUpWait;
use rule::prelude::*;
use trial::Row;

/// A pack in foam and a drive, out of frost into a room whose dew point is 9.3 °C.
const HOME: &str = "
environment: {air: -20 °C to 10 °C, relative_humidity: 80 %, altitude: 0 m, assembled_at: 20 °C}
zones: {box: {volume: 9 L, moisture: breathes}}
cases:
  home: {kind: brought_indoors, air: 20 °C, relative_humidity: 50 %, wait: 12 h, then_charge: yes}
powertrain:
  battery: {mass: 5.4 kg, size: {length: 300 mm, width: 120 mm, thickness: 75 mm}, foam: 10 mm, zone: box, cells: {charge_temperature_min: 5 °C, charge_temperature_max: 45 °C}}
  controller: {mass: 300 g, to_air: 5 K/W, zone: box}
devices:
  radio: {kind: radio, zone: box, mass: 100 g, to_air: 6 K/W}
";
const DRY: &str = "dry before it is opened";
const WARM: &str = "warm before it is charged";
const COOL: &str = "cool before it is charged";

fn changed(changes: &[(&str, &str)]) -> String {
    trial::changed(HOME, changes)
}

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&WarmUpWait, &changed(changes))
}

fn row(subject: &str, check: &str, changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| row.subject == subject && row.check == check).unwrap()
}

fn wait(time: &str) -> (&'static str, String) {
    ("wait: 12 h", format!("wait: {time}"))
}

#[test]
fn fails_when_the_foam_is_stronger_than_the_patience() {
    let (from, to) = wait("45 min");
    let warm = row("battery", WARM, &[(from, &to)]);
    assert_eq!((warm.verdict, warm.case.as_str()), (Verdict::Fails, "home"));
    assert!(warm.says.contains("too cold"), "{}", warm.says);
    let dry = row("battery", DRY, &[(from, &to)]);
    assert!(dry.verdict == Verdict::Fails && dry.says.contains("water settles on the pack"), "{dry:?}");
    let (from, to) = wait("5 min");
    assert_eq!(row("controller", DRY, &[(from, &to)]).verdict, Verdict::Fails);
    assert_eq!(row("radio", DRY, &[(from, &to)]).verdict, Verdict::Fails);
}

#[test]
fn thin_between_enough_and_a_quarter_more() {
    let reserve = row("battery", WARM, &[]).reserve;
    let (from, to) = wait(&format!("{} h", 12.0 / reserve * 1.15));
    let thin = row("battery", WARM, &[(from, &to)]);
    assert!(thin.verdict == Verdict::Thin && (thin.reserve - 1.15).abs() < 1e-3, "{thin:?}");
    // A measured resistance needs less over it.
    let measured = row("battery", WARM, &[(from, &to), ("foam: 10 mm", "to_air: 2.777778 K/W (measured)")]);
    assert!(measured.verdict == Verdict::Sound && (measured.reserve - 1.15).abs() < 1e-2, "{measured:?}");
}

#[test]
fn sound_overnight() {
    let all = rows(&[]);
    assert_eq!(all.len(), 5);
    assert!(all.iter().all(|row| row.verdict == Verdict::Sound), "{all:#?}");
}

#[test]
fn by_hand_within_the_lag_of_the_middle() {
    // 0.135 m² through 1/8 + 0.01/0.04, and 9 L in walls of 4 W/(m²·K) behind: 5400 J/K, from −20 to 5 in 20 °C.
    let walls = 1.0 / (4.0 * 0.2596);
    let hand = 5400.0 * (0.375 / 0.135 + walls) * 0.980_829;
    let takes = 12.0 * 3600.0 / row("battery", WARM, &[]).reserve;
    assert!(takes > hand && takes < 1.15 * hand, "{takes} {hand}");
}

#[test]
fn each_gap_hides_only_what_needs_it() {
    let gone = |from: &str| {
        let after = rows(&[(from, "")]);
        let not: Vec<String> = after
            .iter()
            .filter(|row| row.verdict == Verdict::NotJudged)
            .map(|row| format!("{} {} {}", row.subject, row.check, row.says))
            .collect();
        not.join("; ")
    };
    let battery = "battery cool before it is charged mass; battery dry before it is opened mass; battery warm before it is charged mass";
    assert_eq!(gone("mass: 5.4 kg, "), battery);
    assert_eq!(gone(", to_air: 5 K/W"), "controller dry before it is opened to_air");
    assert_eq!(gone(", mass: 100 g"), "radio dry before it is opened mass");
    assert_eq!(gone(", wait: 12 h").matches("wait").count(), 5);
    let assumed = |from: &str, check: &str| row("battery", check, &[(from, "")]).assumed;
    assert_eq!(assumed("charge_temperature_min: 5 °C, ", WARM), ["charge_temperature_min"]);
    assert_eq!(assumed(", charge_temperature_max: 45 °C", COOL), ["charge_temperature_max"]);
    assert!(assumed("foam: 10 mm, ", WARM).contains(&"foam".to_string()));
    // Nobody says that it is charged.
    assert_eq!(rows(&[(", then_charge: yes", "")]).len(), 3);
}

#[test]
fn the_exact_boundary() {
    let takes = 12.0 * 3600.0 / row("battery", WARM, &[]).reserve;
    let at = |share: f64| {
        let (from, to) = wait(&format!("{:.6} s", takes * share));
        row("battery", WARM, &[(from, &to)]).verdict
    };
    assert_eq!([at(1.249_999), at(1.250_001)], [Verdict::Thin, Verdict::Sound]);
    assert_eq!([at(0.999_999), at(1.000_001)], [Verdict::Fails, Verdict::Thin]);
}

#[test]
fn more_foam_never_shortens_the_wait() {
    let reserve = |mm: u32| row("battery", WARM, &[("foam: 10 mm", &format!("foam: {mm} mm"))]).reserve;
    let reserves: Vec<f64> = (0..12).map(|step| reserve(step * 3)).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] < pair[0]), "{reserves:?}");
}

#[test]
fn a_room_that_is_too_cold_never_does() {
    let cold = row("battery", WARM, &[("air: 20 °C", "air: 4 °C")]);
    assert!(cold.verdict == Verdict::Fails && cold.says.contains("never gets to 5 °C"), "{cold:?}");
    assert_eq!(row("battery", WARM, &[("air: -20 °C to 10 °C", "air: 8 °C to 10 °C")]).verdict, Verdict::Sound);
}

#[test]
fn a_hot_pack_has_to_cool_first() {
    let hot = [(
        "home: {kind: brought_indoors,",
        "noon: {kind: soak, air: 52 °C}\n  home: {kind: brought_indoors, after: noon,",
    )];
    let short = ("wait: 12 h", "wait: 15 min");
    let cool = row("battery", COOL, &[hot[0], short]);
    assert!(cool.verdict == Verdict::Fails && cool.says.contains("too hot"), "{cool:?}");
    assert_eq!(row("battery", COOL, &hot).verdict, Verdict::Sound);
    assert_eq!(row("battery", WARM, &[hot[0], short]).verdict, Verdict::Sound);
}

#[test]
fn a_tight_box_is_dry_as_long_as_it_stays_shut() {
    let tight = [("moisture: breathes", "moisture: sealed_at_assembly"), ("wait: 12 h", "wait: 10 min")];
    let dry = row("controller", DRY, &tight);
    assert!(dry.verdict == Verdict::Sound && dry.says.contains("lid stays shut"), "{dry:?}");
    // Its middle is as cold as before.
    assert_eq!(row("battery", WARM, &tight).verdict, Verdict::Fails);
}

#[test]
fn what_sits_on_the_controller_is_as_wet_as_that() {
    assert_eq!(rows(&[("radio: {kind: radio,", "radio: {kind: radio, next_to: controller,")]).len(), 4);
}

#[test]
fn other_cases_are_set_aside() {
    assert!(rows(&[("kind: brought_indoors", "kind: soak")]).is_empty());
}
