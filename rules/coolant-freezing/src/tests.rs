use crate::CoolantFreezing;
use rule::prelude::*;
use trial::Row;

/// Equal masses of ethylene glycol and water: first crystals at −35.994 °C (Melinder).
const LOOP: &str = "
environment: {air: -25 °C to 5 °C, relative_humidity: 80 %, altitude: 0 m, assembled_at: 20 °C}
cases:
  night: {kind: soak, air: -25 °C}
  garage: {kind: brought_indoors, air: 18 °C, relative_humidity: 50 %}
coolants:
  mix: {kind: glycol_water, glycol: ethylene}
  plain: {kind: water}
  bought:
    kind: tabulated
    density: {-40 °C: 1100 kg/m³, 40 °C: 1060 kg/m³}
    heat_capacity: {-40 °C: 3000 J/(kg·K), 40 °C: 3300 J/(kg·K)}
    conductivity: {-40 °C: 0.36 W/(m·K), 40 °C: 0.4 W/(m·K)}
    viscosity: {-40 °C: 150 mPa·s, 40 °C: 2 mPa·s}
    freezes_at: -37 °C
    bursts_at: -55 °C
cooling:
  coolant: {fluid: mix, glycol: 50 %, share_by: mass, mixed_by_eye: no, volume: 300 mL, filled_at: 20 °C}
  pump: {works_by: positive_displacement, free_flow: 1.4 L/min, stall_pressure: 150 kPa, power: 9 W, runs: always, height_above_level: 0 mm}
  hoses: {long: {bore: 6 mm, wall: 1.5 mm, length: 2 m}}
  circuit:
    - {kind: pump}
    - {kind: hose, hose: long}
";
const SLUSH: &str = "slush";
const BURSTING: &str = "bursting";
const STARTING: &str = "starting the pump";
const WEAK: (&str, &str) = ("glycol: 50 %, share", "glycol: 30 %, share");
const COLDER: (&str, &str) = ("kind: soak, air: -25 °C", "kind: soak, air: -32 °C");

fn changed(changes: &[(&str, &str)]) -> String {
    trial::changed(LOOP, changes)
}

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&CoolantFreezing, &changed(changes))
}

/// Nothing is assumed but that the hose lies in the open, and how it is bent.
fn told(row: &Row) -> bool {
    row.assumed.iter().all(|assumed| ["zone", "bends", "tightest_bend", "fittings"].contains(&assumed.as_str()))
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| row.check == check).unwrap()
}

#[test]
fn fails() {
    // 30 % by mass: crystals at −14.576 °C by Melinder and −14.033 °C by ASHRAE; a quarter of ice at the freezing point of
    // 40 %, −23.813 °C and −22.151 °C: the warmer counts.
    let slush = row(SLUSH, &[WEAK]);
    assert_eq!((slush.verdict, slush.case.as_str(), slush.subject.as_str()), (Verdict::Fails, "night", "coolant"));
    assert!((slush.reserve - (14.033 - 25.0)).abs() < 1e-6 && slush.says.contains("slush"), "{slush:?}");
    let burst = row(BURSTING, &[WEAK]);
    assert!(burst.verdict == Verdict::Fails && (burst.reserve - (22.151 - 25.0)).abs() < 1e-6, "{burst:?}");
    // A pump that stalls against little pressure.
    let weak = row(STARTING, &[("stall_pressure: 150 kPa", "stall_pressure: 4 kPa")]);
    assert!(weak.verdict == Verdict::Fails && weak.says.contains("hardly moves"), "{weak:?}");
}

#[test]
fn thin() {
    // 1.439 K are left at −32 °C.
    let thin = row(SLUSH, &[COLDER]);
    assert!(thin.verdict == Verdict::Thin && (thin.reserve - 1.439).abs() < 1e-6, "{thin:?}");
    assert_eq!(row(BURSTING, &[COLDER]).verdict, Verdict::Sound);
    // At −26 °C 7.439 K are left: enough for a scale, not for the eye, nor when nobody says how it was mixed.
    let night = ("kind: soak, air: -25 °C", "kind: soak, air: -26 °C");
    assert_eq!(row(SLUSH, &[night]).verdict, Verdict::Sound);
    assert_eq!(row(SLUSH, &[night, ("mixed_by_eye: no", "mixed_by_eye: yes")]).verdict, Verdict::Thin);
    let unsaid = row(SLUSH, &[night, ("mixed_by_eye: no, ", "")]);
    assert_eq!((unsaid.verdict, unsaid.assumed), (Verdict::Thin, vec!["mixed_by_eye".to_string()]));
    let measured = [night, ("mixed_by_eye: no, ", ""), ("glycol: 50 %, share", "glycol: 50 % (measured), share")];
    assert_eq!((row(SLUSH, &measured).verdict, row(SLUSH, &measured).assumed), (Verdict::Sound, vec![]));
    let weak = row(STARTING, &[("stall_pressure: 150 kPa", "stall_pressure: 7 kPa")]);
    assert_eq!(weak.verdict, Verdict::Thin, "{weak:?}");
}

#[test]
fn sound_and_the_flow_by_hand() {
    assert!(rows(&[]).iter().all(|row| row.verdict == Verdict::Sound && told(row)), "{:#?}", rows(&[]));
    // Smooth flow through the hose, 128·µ·L·Q/(π·d⁴), takes all that a pump of 20 kPa has at the end; mouths and leak
    // of the pump take little more.
    let viscosity =
        physics::coolant::glycol_water(physics::coolant::Glycol::Ethylene, Ratio::from_si(0.5), celsius(-25.0));
    let bore = 6e-3_f64 * 6e-3;
    let flow = 20e3 * core::f64::consts::PI * bore * bore / (128.0 * viscosity.unwrap().viscosity.si() * 2.0);
    let straight = ("length: 2 m", "length: 2 m, bends: 0");
    let found = row(STARTING, &[("stall_pressure: 150 kPa", "stall_pressure: 20 kPa"), straight]).reserve;
    let by_hand = flow / (0.1 * 1.4e-3 / 60.0);
    assert!(found < by_hand && found > 0.9 * by_hand, "{found} {by_hand}");
}

#[test]
fn each_gap_hides_what_needs_it() {
    let verdicts = |changes: &[(&str, &str)]| rows(changes).iter().map(|row| row.verdict).collect::<Vec<_>>();
    use Verdict::{NotJudged, Sound};
    assert_eq!(verdicts(&[("fluid: mix, ", "")]), [NotJudged; 3]);
    assert_eq!(verdicts(&[("glycol: 50 %, ", "")]), [NotJudged; 3]);
    assert_eq!(verdicts(&[("stall_pressure: 150 kPa, ", "")]), [Sound, Sound, NotJudged]);
    assert_eq!(verdicts(&[(", length: 2 m", "")]), [Sound, Sound, NotJudged]);
    assert_eq!(
        verdicts(&[("environment: {air: -25 °C to 5 °C, ", "environment: {"), ("soak, air: -25 °C", "soak")]),
        [NotJudged; 3]
    );
    // By volume where nobody says by what, and said so.
    assert_eq!(row(SLUSH, &[("share_by: mass, ", "")]).assumed, ["share_by"]);
    // Between 60 and 99.5 % no freezing point is known.
    assert_eq!(verdicts(&[("glycol: 50 %, share", "glycol: 70 %, share")]), [NotJudged; 3]);
    // Slush has no viscosity.
    assert_eq!(row(STARTING, &[WEAK]).verdict, NotJudged);
}

#[test]
fn the_exact_boundary() {
    let at = |air: &str| row(SLUSH, &[("kind: soak, air: -25 °C", &format!("kind: soak, air: {air} °C"))]);
    let (sound, thin) = (at("-28.43899"), at("-28.43901"));
    assert_eq!((sound.verdict, thin.verdict), (Verdict::Sound, Verdict::Thin));
    let (holds, fails) = (at("-33.43899"), at("-33.43901"));
    assert_eq!((holds.verdict, fails.verdict), (Verdict::Thin, Verdict::Fails));
}

#[test]
fn more_glycol_never_lowers_the_reserve_against_ice_nor_raises_the_flow() {
    let at = |check: &str, percent: u32| {
        let weak = ("stall_pressure: 150 kPa", "stall_pressure: 10 kPa");
        row(check, &[weak, ("glycol: 50 %, share", &format!("glycol: {percent} %, share"))]).reserve
    };
    let rising = |check| (10..60).collect::<Vec<u32>>().windows(2).all(|pair| at(check, pair[1]) >= at(check, pair[0]));
    assert!(rising(SLUSH) && rising(BURSTING));
    assert!((44..59).all(|percent| at(STARTING, percent + 1) < at(STARTING, percent)));
}

#[test]
fn what_was_seen_counts_before_the_formula() {
    let jar = ("mixed_by_eye: no", "mixed_by_eye: yes, clear_to: -29 °C");
    let seen = row(SLUSH, &[jar]);
    assert!(seen.verdict == Verdict::Thin && (seen.reserve - 4.0).abs() < 1e-9, "{seen:?}");
    let started = |at: &str| {
        row(STARTING, &[("power: 9 W", &format!("power: 9 W, started_at: {at} °C")), ("stall_pressure: 150 kPa, ", "")])
    };
    assert_eq!(started("-31").verdict, Verdict::Sound);
    assert_eq!(started("-25.5").verdict, Verdict::Thin);
    let warmer = started("-20");
    assert!(warmer.verdict == Verdict::Fails && warmer.says.contains("last seen"), "{warmer:?}");
    assert!((started("-25").reserve - 1.0).abs() < 1e-12);
}

#[test]
fn water_and_bought_coolants() {
    let water = [("fluid: mix", "fluid: plain")];
    assert_eq!((row(SLUSH, &water).reserve, row(BURSTING, &water).reserve), (-25.0, -25.0));
    let bought = [("fluid: mix, glycol: 50 %, share_by: mass, mixed_by_eye: no", "fluid: bought")];
    let near = |check, reserve: f64| (row(check, &bought).reserve - reserve).abs() < 1e-9;
    assert!(near(SLUSH, 12.0) && near(BURSTING, 30.0), "{:#?}", rows(&bought));
    assert!(rows(&bought).iter().all(told));
    let unsaid = row(BURSTING, &[bought[0], ("    bursts_at: -55 °C\n", "")]);
    assert!((unsaid.reserve - 12.0).abs() < 1e-9 && unsaid.assumed == ["bursts_at"], "{unsaid:?}");
    let pure = ("glycol: 50 %, share", "glycol: 100 %, share");
    assert!((row(SLUSH, &[pure]).reserve - (12.7 - 25.0)).abs() < 1e-9);
    assert!((row(BURSTING, &[pure]).reserve - (12.7 - 25.0)).abs() < 1e-9);
}

#[test]
fn indoors_nothing_freezes_and_without_a_circuit_nobody_asks() {
    let outcomes = trial::outcomes(&CoolantFreezing, &changed(&[("night: {kind: soak, air: -25 °C}", "")]));
    assert!(outcomes.iter().all(|(_, _, outcome)| matches!(outcome, Outcome::Aside(_))), "{outcomes:#?}");
    let bare = LOOP.split("cooling:").next().unwrap().to_string();
    assert!(trial::review(&CoolantFreezing, &bare).is_empty());
}
