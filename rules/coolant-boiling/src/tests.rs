use crate::CoolantBoiling;
use rule::prelude::*;
use trial::Row;

/// Water, vented at sea level; 1.2 L/min past 600 W with a large deck that gives them off. The motor's jacket is known by a
/// test alone, so its wall is 500 W / (1000 W/(m²·K) · 200 cm²) = 25 K above the coolant.
const LOOP: &str = "
environment: {air: 20 °C to 40 °C, relative_humidity: 40 %, altitude: 0 m, assembled_at: 20 °C}
cases:
  drive: {kind: cruise, air: 15 °C, snow_on_plate: no}
coolants:
  plain: {kind: water}
  mix: {kind: glycol_water, glycol: ethylene}
  thin:
    kind: tabulated
    density: {0 °C: 1000 kg/m³, 150 °C: 950 kg/m³}
    heat_capacity: {0 °C: 4180 J/(kg·K), 150 °C: 4180 J/(kg·K)}
    conductivity: {0 °C: 0.6 W/(m·K), 150 °C: 0.6 W/(m·K)}
    viscosity: {0 °C: 1 mPa·s, 150 °C: 0.3 mPa·s}
    vapour_pressure: {60 °C: 30 kPa, 80 °C: 60 kPa}
    boils_at: 95 °C
cooling:
  coolant: {fluid: plain, glycol: 50 %, share_by: mass, volume: 300 mL, filled_at: 20 °C}
  reservoir: {gas_space: 200 mL, lid: {closes: vented}}
  pump: {works_by: positive_displacement, free_flow: 1.2 L/min, stall_pressure: 400 kPa, power: 0 W, runs: always}
  hoses: {wide: {bore: 14 mm, wall: 2 mm, length: 100 mm}}
  circuit:
    - {kind: reservoir}
    - {kind: pump}
    - {kind: exchanger, name: deck, channel: {width: 8 mm, depth: 4 mm, length: 4 m}, outside: {area: 0.4 m², heat_transfer: 60 W/(m²·K), swept_by: ground}}
    - {kind: plate, name: switches, heat: 100 W, channel: {width: 6 mm, depth: 4 mm, length: 0.8 m}, contact_resistance: 0.05 K/W}
    - {kind: jacket, name: windings, heat: 500 W, area: 200 cm², film: 1000 W/(m²·K), tested: {pressure_drop: 1 kPa, flow: 1.2 L/min, fluid: plain, temperature: 20 °C}}
    - {kind: hose, hose: wide}
";
const WALL: &str = "wall below boiling";
const BULK: &str = "coolant below boiling";

fn changed(changes: &[(&str, &str)]) -> String {
    trial::changed(LOOP, changes)
}

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&CoolantBoiling, &changed(changes))
}

fn row(subject: &str, changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| row.subject == subject).unwrap()
}

/// Less of the deck: everything gets hotter.
fn deck(area: f64) -> (&'static str, String) {
    ("outside: {area: 0.4 m²", format!("outside: {{area: {area:.12} m²"))
}

fn with_deck(subject: &str, area: f64, more: &[(&str, &str)]) -> Row {
    let (from, to) = deck(area);
    let mut all = vec![(from, to.as_str())];
    all.extend_from_slice(more);
    row(subject, &all)
}

#[test]
fn fails() {
    let wall = with_deck("windings", 0.16, &[]);
    assert_eq!((wall.verdict, wall.check, wall.case.as_str()), (Verdict::Fails, WALL, "drive"));
    assert!(wall.says.contains("windings"), "{wall:?}");
    let bulk = with_deck("coolant", 0.12, &[]);
    assert!(bulk.verdict == Verdict::Fails && bulk.check == BULK && bulk.says.contains("driven out"), "{bulk:?}");
}

#[test]
fn thin() {
    let thin = with_deck("windings", 0.2, &[]);
    assert_eq!(thin.verdict, Verdict::Thin, "{thin:?}");
    assert_eq!(with_deck("coolant", 0.14, &[]).verdict, Verdict::Thin);
    assert_eq!(with_deck("coolant", 0.16, &[]).verdict, Verdict::Sound);
}

#[test]
fn sound_and_by_hand() {
    let all = rows(&[]);
    assert_eq!(
        all.iter().map(|row| row.subject.as_str()).collect::<Vec<_>>(),
        ["coolant", "deck", "switches", "windings"]
    );
    assert!(all.iter().all(|row| row.verdict == Verdict::Sound), "{all:#?}");
    // At sea level water boils at 99.97 °C; the wall of the windings is 25 K above the coolant that leaves them.
    let (wall, bulk) = (row("windings", &[]).reserve, row("coolant", &[]).reserve);
    assert!((bulk - wall - 25.0).abs() < 0.05, "{wall} {bulk}");
    // Twice the pressure of the air at 2 bar absolute would be 120 °C; an open lid on a mountain of 3000 m 89.9 °C.
    let mountain = row("coolant", &[("altitude: 0 m", "altitude: 3000 m")]).reserve;
    assert!((bulk - mountain - 10.1).abs() < 0.3, "{bulk} {mountain}");
}

#[test]
fn a_short_case_is_judged_at_its_end_and_says_both_figures() {
    let burst = [("drive: {kind: cruise,", "drive: {kind: cruise, duration: 10 s,"), ("area: 0.4 m²", "area: 0.14 m²")];
    let (ends, settles) = (row("windings", &burst), row("windings", &burst[1..]));
    assert!(settles.verdict == Verdict::Fails && ends.verdict == Verdict::Sound, "{ends:?} {settles:?}");
    // Longer it fails, and tells where it would end.
    let long = [("drive: {kind: cruise,", "drive: {kind: cruise, duration: 6 min,"), ("area: 0.4 m²", "area: 0.14 m²")];
    assert_eq!(row("windings", &long).verdict, Verdict::Fails);
    let told = trial::numbers(&CoolantBoiling, &changed(&long)).join(" ");
    assert!(told.contains("after the 6 min") && told.contains("would settle at"), "{told}");
}

#[test]
fn each_gap_hides_what_needs_it() {
    let verdicts = |changes: &[(&str, &str)]| rows(changes).iter().map(|row| row.verdict).collect::<Vec<_>>();
    use Verdict::{NotJudged, Sound};
    assert_eq!(verdicts(&[("fluid: plain, glycol", "glycol")]), [NotJudged; 4]);
    assert_eq!(verdicts(&[("stall_pressure: 400 kPa, ", "")]), [NotJudged; 4]);
    let no_area = row("windings", &[(", area: 200 cm²", "")]);
    // 500 W through the assumed 100 cm²: 50 K in place of 25 K.
    assert!((row("windings", &[]).reserve - no_area.reserve - 25.0).abs() < 0.05, "{no_area:?}");
    assert!(no_area.assumed.contains(&"area".to_string()), "{no_area:?}");
    let assumed = row("windings", &[(", film: 1000 W/(m²·K)", "")]).assumed;
    assert!(assumed.contains(&"film".to_string()), "{assumed:?}");
    // A closed lid, and nobody knows how much air is under it: no absolute pressure is known.
    let closed = ("lid: {closes: vented}", "lid: {closes: closed, pressure_max: 20 kPa}");
    assert_eq!(verdicts(&[closed]), [Sound; 4]);
    assert_eq!(verdicts(&[closed, ("gas_space: 200 mL, ", "")]), [NotJudged; 4]);
    assert_eq!(verdicts(&[(", lid: {closes: vented}", "")]), [NotJudged; 4]);
}

#[test]
fn the_exact_boundary() {
    let (mut sound, mut thin) = (0.4, 0.2);
    for _ in 0..60 {
        let middle = (sound + thin) / 2.0;
        if with_deck("windings", middle, &[]).verdict == Verdict::Sound { sound = middle } else { thin = middle }
    }
    let (above, below) = (with_deck("windings", sound, &[]), with_deck("windings", thin, &[]));
    assert_eq!((above.verdict, below.verdict), (Verdict::Sound, Verdict::Thin));
    assert!((above.reserve - 10.0).abs() < 1e-6 && (below.reserve - 10.0).abs() < 1e-6, "{above:?} {below:?}");
}

#[test]
fn more_deck_and_more_pressure_never_lower_the_reserve() {
    let reserves: Vec<f64> = (20..40).map(|step| with_deck("windings", f64::from(step) / 100.0, &[]).reserve).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] > pair[0]), "{reserves:?}");
    let closed = |kilopascals: u32| {
        let lid = format!("gas_space: 20 mL, lid: {{closes: closed, pressure_max: {kilopascals} kPa}}");
        row("coolant", &[("gas_space: 200 mL, lid: {closes: vented}", &lid)]).reserve
    };
    let reserves: Vec<f64> = (0..20).map(|step| closed(step * 5)).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] >= pair[0]) && reserves[19] > reserves[0] + 5.0, "{reserves:?}");
}

#[test]
fn other_coolants() {
    // Equal masses of ethylene glycol and water boil some 7 K later than water (handbooks: 107 to 108 °C).
    let boils = |changes: &[(&str, &str)]| {
        let outcomes = trial::outcomes(&CoolantBoiling, &changed(changes));
        let found = outcomes.into_iter().find_map(|(subject, _, outcome)| match outcome {
            Outcome::Held(Margin { held: Held::Gap { capacity, .. }, .. }) if subject == "deck" => Some(capacity.si),
            _ => None,
        });
        found.unwrap() - celsius(0.0).si()
    };
    let (water, mix) = (boils(&[]), boils(&[("fluid: plain, glycol", "fluid: mix, glycol")]));
    assert!((water - 100.0).abs() < 1.0 && mix - water > 6.5 && mix - water < 8.0, "{water} {mix}");
    let pure = boils(&[
        ("fluid: plain, glycol: 50 %", "fluid: mix, glycol: 100 %"),
        ("stall_pressure: 400 kPa", "stall_pressure: 4 MPa"),
    ]);
    assert!(pure > 197.0, "{pure}");
    // A table: below its printed boiling point between its last two points, above sea level's pressure that point.
    let thin = ("fluid: plain, glycol", "fluid: thin, glycol");
    let (sea, mountain) = (row("coolant", &[thin]), row("coolant", &[thin, ("altitude: 0 m", "altitude: 3000 m")]));
    // 70.1 kPa at 3000 m: ln(70.1/60)/ln(101.3/60) = 0.297 of the way from 80 to 95 °C in 1/T, 84.3 °C.
    assert!((sea.reserve - mountain.reserve - 10.7).abs() < 0.1, "{sea:?} {mountain:?}");
    let without = [thin, ("    boils_at: 95 °C\n", "")];
    let unknown = row("coolant", &without);
    assert!(unknown.verdict == Verdict::NotJudged && unknown.says.contains("vapour pressure"), "{unknown:?}");
    let neither = [thin, ("    boils_at: 95 °C\n", ""), ("    vapour_pressure: {60 °C: 30 kPa, 80 °C: 60 kPa}\n", "")];
    assert_eq!(row("coolant", &neither).says, "vapour_pressure");
}

#[test]
fn standing_coolant_is_not_passed() {
    let outcomes = |case: &str, pump: &str| {
        let text = changed(&[("kind: cruise, ", case), ("runs: always", pump)]);
        trial::outcomes(&CoolantBoiling, &text).into_iter().map(|(_, _, outcome)| outcome).collect::<Vec<_>>()
    };
    let aside = |found: Vec<Outcome>| found.iter().all(|outcome| matches!(outcome, Outcome::Aside(_)));
    for short in ["soak", "lift_off", "landing, drop: 0.3 m", "brought_indoors"] {
        assert!(aside(outcomes(&format!("kind: {short}, "), "runs: always")), "{short}");
    }
    assert!(aside(outcomes("kind: cruise, pump: stopped, heat: no, ", "runs: always")));
    let stands = outcomes("kind: cruise, pump: stopped, ", "runs: always");
    assert!(
        stands.iter().all(|outcome| matches!(outcome, Outcome::NotJudged(NotJudged::NoSolution(_)))),
        "{stands:#?}"
    );
    // Waiting for warm coolant: as a whole it gets as hot as the pump lets it.
    let waits = |degrees: u32| {
        let runs = format!("runs: above_temperature, starts_above: {degrees} °C");
        rows(&[("runs: always", &runs)])
    };
    let (late, never) = (waits(85), waits(95));
    assert_eq!((late.len(), late[0].subject.as_str(), late[0].verdict), (1, "coolant", Verdict::Sound));
    assert!((late[0].reserve - never[0].reserve - 10.0).abs() < 1e-9 && never[0].verdict == Verdict::Thin, "{never:?}");
}

#[test]
fn a_loop_that_does_not_get_rid_of_its_heat_fails_as_a_whole() {
    // Water at 140 °C and more: its properties end at 110 °C.
    let (from, to) = deck(0.06);
    let hot = [(from, to.as_str())];
    let bulk = row("coolant", &hot);
    assert!(bulk.verdict == Verdict::Fails && bulk.says.contains("get rid of its heat"), "{bulk:?}");
    assert_eq!(row("windings", &hot).verdict, Verdict::NotJudged);
    // Nobody knows how much pressure holds the lid.
    let closed = ("lid: {closes: vented}", "lid: {closes: closed}");
    assert_eq!(row("coolant", &[hot[0], closed]).says, "pressure_max");
    let held = ("lid: {closes: vented}", "lid: {closes: closed, pressure_max: 50 kPa}");
    let later = row("coolant", &[hot[0], held]).reserve - bulk.reserve;
    // Water boils at 111.6 °C under 151.3 kPa (steam tables).
    assert!((later - 11.6).abs() < 0.1, "{later}");
}

#[test]
fn one_wall_with_the_motor_behind_it_as_far_as_a_short_case_gets() {
    let motor = "powertrain: {motor: {mass: 1 kg, winding_to_case: 0.5 K/W, to_air: 1e5 K/W}}\ncooling:\n  coolant";
    let behind = [("cooling:\n  coolant", motor), ("name: windings", "name: windings, cools: motor")];
    // Settled it is the wall that the loop has by itself.
    let (alone, lasting) = (row("windings", &[]), row("windings", &behind));
    assert!((alone.reserve - lasting.reserve).abs() < 0.3, "{alone:?} {lasting:?}");
    // Ten seconds of the same: 500 W have hardly begun to warm a kilogram.
    let burst = [behind.as_slice(), &[("air: 15 °C, snow", "air: 15 °C, duration: 10 s, snow")]].concat();
    let short = row("windings", &burst);
    assert!(short.reserve > lasting.reserve + 30.0, "{short:?}");
}
