use crate::CondensationMargin;
use rule::prelude::*;
use trial::Row;

/// A damp box, a deck in the open that cools, a plate in the box with little heat, and the motor's jacket behind it.
const BOX: &str = "
environment: {air: -15 °C to 15 °C, relative_humidity: 50 %, altitude: 0 m, assembled_at: 20 °C}
zones: {box: {volume: 9 L, air_rise: 10 K, moisture: breathes, trapped_water: 6 g, humidity_at_assembly: 40 %}}
cases:
  climb: {kind: cruise, air: 10 °C, snow_on_plate: no}
coolants: {mix: {kind: glycol_water, glycol: ethylene}}
cooling:
  coolant: {fluid: mix, glycol: 50 %, share_by: mass, volume: 300 mL, filled_at: 20 °C}
  reservoir: {gas_space: 60 mL, lid: {closes: closed}}
  pump: {works_by: positive_displacement, free_flow: 1.4 L/min, stall_pressure: 150 kPa, power: 9 W, runs: always}
  hoses: {long: {bore: 6 mm, wall: 1.5 mm, length: 1.8 m}}
  circuit:
    - {kind: reservoir}
    - {kind: pump}
    - {kind: exchanger, name: deck, channel: {width: 6 mm, depth: 4 mm, length: 2.6 m, turns: 11}, outside: {area: 0.09 m², heat_transfer: 60 W/(m²·K)}}
    - {kind: plate, name: switches, cools: controller, heat: 40 W, zone: box, channel: {width: 4 mm, depth: 4 mm, length: 0.5 m, turns: 4}, contact_resistance: 0.05 K/W}
    - {kind: jacket, name: windings, heat: 90 W, channel: {width: 8 mm, depth: 3 mm, length: 1.2 m}, contact_resistance: 0.05 K/W}
    - {kind: hose, hose: long}
";
const DRIVEN: &str = "face above the dew point";
const IDLING: &str = "idling with the pump on";

fn changed(changes: &[(&str, &str)]) -> String {
    trial::changed(BOX, changes)
}

fn all_rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&CondensationMargin, &changed(changes))
}

/// Of the plate that cools the controller.
fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    all_rows(changes).into_iter().filter(|row| row.subject == "switches").collect()
}

#[test]
fn a_face_whose_air_nobody_named_is_not_judged() {
    let open: Vec<Row> = all_rows(&[]).into_iter().filter(|row| row.subject != "switches").collect();
    assert_eq!(open.len(), 4);
    assert!(open.iter().all(|row| row.verdict == Verdict::NotJudged && row.says == "zone"), "{open:?}");
}

fn row(check: &str, changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| row.check == check).unwrap()
}

const MELTING: (&str, &str) = ("moisture: breathes", "moisture: holds_meltwater");
const COLD: (&str, &str) = ("air: 10 °C", "air: -8 °C");

#[test]
fn fails_in_a_box_with_meltwater_when_the_coolant_is_colder() {
    // The box stands at 2 °C over melting snow, 0.5 °C; idling, the coolant is hardly above −8 °C.
    let idle = row(IDLING, &[MELTING, COLD]);
    assert_eq!((idle.verdict, idle.case.as_str(), idle.subject.as_str()), (Verdict::Fails, "climb", "switches"));
    assert!(idle.reserve > -8.5 && idle.reserve < -3.0 && idle.says.contains("electronics"), "{idle:?}");
    assert!(row(DRIVEN, &[MELTING, COLD]).reserve > idle.reserve);
}

#[test]
fn a_stalled_loop_is_as_cold_as_what_surrounds_it() {
    // Syrup in a long thin hose: the pump turns against it, and what creeps through the plate comes from the deck at −18 °C,
    // while the box stands 10 K above that over snow.
    let thick = [
        ("glycol: 50 %", "glycol: 100 %"),
        ("ethylene", "propylene"),
        ("bore: 6 mm, wall: 1.5 mm, length: 1.8 m", "bore: 3 mm, wall: 1.5 mm, length: 90 m"),
        ("power: 9 W", "power: 0 W"),
        ("air: 10 °C", "air: -18 °C"),
        MELTING,
    ];
    let idle = row(IDLING, &thick);
    assert!(idle.verdict == Verdict::Fails && idle.reserve < -8.0, "{idle:?}");
    // Heated and stuck, nobody knows how warm it gets: it is not sound for that.
    assert_eq!(row(DRIVEN, &thick).verdict, Verdict::NotJudged);
}

#[test]
fn thin_below_five_kelvin_and_three_when_measured() {
    let guessed = ("relative_humidity: 50 %", "relative_humidity: 85 %");
    let measured = ("relative_humidity: 50 %", "relative_humidity: 85 % (measured)");
    // 10 °C at 85 %: dew at 7.6 °C (handbook). The pump's heat keeps the coolant a little above 10 °C.
    let thin = row(IDLING, &[guessed]);
    assert!(thin.verdict == Verdict::Thin && thin.reserve > 3.0 && thin.reserve < 5.0, "{thin:?}");
    assert_eq!(row(IDLING, &[measured]).verdict, Verdict::Sound);
}

#[test]
fn sound_in_dry_air() {
    assert!(rows(&[]).iter().all(|row| row.verdict == Verdict::Sound));
    assert_eq!(rows(&[]).len(), 2);
}

#[test]
fn each_gap_hides_what_needs_it() {
    let verdicts = |changes: &[(&str, &str)]| rows(changes).iter().map(|row| row.verdict).collect::<Vec<_>>();
    let neither = [Verdict::NotJudged, Verdict::NotJudged];
    assert_eq!(verdicts(&[("zone: box, ", "")]), neither);
    assert_eq!(verdicts(&[("moisture: breathes, ", "")]), neither);
    assert_eq!(row(DRIVEN, &[("moisture: breathes, ", "")]).says, "moisture");
    assert_eq!(verdicts(&[("stall_pressure: 150 kPa, ", "")]), neither);
    assert!(rows(&[]).iter().all(|row| !row.assumed.contains(&"relative_humidity".to_string())));
    let no_humidity = rows(&[("relative_humidity: 50 %, ", "")]);
    assert!(no_humidity.iter().all(|row| row.assumed.contains(&"relative_humidity".to_string())));
    let sealed = ("moisture: breathes", "moisture: sealed_at_assembly");
    assert_eq!(verdicts(&[sealed, ("volume: 9 L, ", "")]), neither);
    assert_eq!(verdicts(&[sealed, (", humidity_at_assembly: 40 %", "")]), neither);
    // What got in is only told, so without it nothing changes.
    let reserves = |changes: &[(&str, &str)]| rows(changes).iter().map(|row| row.reserve).collect::<Vec<_>>();
    assert_eq!(reserves(&[(", trapped_water: 6 g", "")]), reserves(&[]));
}

#[test]
fn the_exact_boundary() {
    let at = |percent: f64| row(IDLING, &[("humidity: 50 %", &format!("humidity: {percent:.12} %"))]);
    let (mut sound, mut thin) = (50.0, 100.0);
    for _ in 0..40 {
        let middle = (sound + thin) / 2.0;
        if at(middle).verdict == Verdict::Sound { sound = middle } else { thin = middle }
    }
    let (below, above) = (at(sound), at(thin));
    assert_eq!((below.verdict, above.verdict), (Verdict::Sound, Verdict::Thin));
    assert!((below.reserve - 5.0).abs() < 1e-6 && (above.reserve - 5.0).abs() < 1e-6, "{below:?} {above:?}");
}

#[test]
fn damper_air_never_raises_the_reserve() {
    let reserve = |percent: u32| row(DRIVEN, &[("humidity: 50 %", &format!("humidity: {percent} %"))]).reserve;
    let reserves: Vec<f64> = (5..=20).map(|step| reserve(step * 5)).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] < pair[0]));
}

#[test]
fn a_tight_dry_box_is_harmless_and_a_wet_one_is_not() {
    // 9 L at 20 °C and 40 %: 9 × 17.3 mg × 0.4 = 62 mg.
    let sealed = ("moisture: breathes", "moisture: sealed_at_assembly");
    let dry = rows(&[sealed, COLD, (", trapped_water: 6 g", "")]);
    assert!(dry.iter().all(|row| row.verdict == Verdict::Sound && row.says.contains("62")), "{dry:?}");
    // The same air with a spoon of snow, or twice as much room: judged again.
    for changes in [vec![sealed, COLD], vec![sealed, COLD, (", trapped_water: 6 g", ""), ("9 L", "18 L")]] {
        assert_eq!(row(IDLING, &changes).verdict, Verdict::Fails);
    }
}

#[test]
fn a_pump_that_waits_for_warmth_is_not_asked_about_idling() {
    let waits = rows(&[MELTING, COLD, ("runs: always", "runs: above_temperature, starts_above: 15 °C")]);
    assert_eq!(waits.iter().map(|row| row.check).collect::<Vec<_>>(), [DRIVEN]);
    // In warm air it does run.
    let warm = rows(&[("air: 10 °C", "air: 20 °C"), ("runs: always", "runs: above_temperature, starts_above: 15 °C")]);
    assert_eq!(warm.len(), 2);
}

#[test]
fn waiting_for_warm_coolant_clears_the_face_that_little_heat_leaves_cold() {
    let colder = ("air: 10 °C", "air: -12 °C");
    let cool = [MELTING, colder, ("heat: 40 W", "heat: 2 W"), ("heat: 90 W", "heat: 30 W")];
    assert_eq!(row(DRIVEN, &cool).verdict, Verdict::Fails);
    let waits = ("runs: always", "runs: above_temperature, starts_above: 10 °C");
    let waited = rows(&[cool.as_slice(), &[waits]].concat());
    assert!(waited.len() == 1 && waited[0].verdict != Verdict::Fails, "{waited:?}");
    // One that does not wait long enough is told how long; whatever is told is tried.
    let early = ("runs: always", "runs: above_temperature, starts_above: 2 °C");
    let told = row(DRIVEN, &[cool.as_slice(), &[early]].concat());
    assert_eq!(told.verdict, Verdict::Thin, "{told:?}");
}

#[test]
fn cases_that_are_off_or_short_are_set_aside() {
    for kind in ["soak", "landing, drop: 0.3 m", "lift_off", "brought_indoors"] {
        assert!(rows(&[("kind: cruise", &format!("kind: {kind}"))]).is_empty(), "{kind}");
    }
}

#[test]
fn only_a_heated_element_behind_the_face_could_stand_before_it() {
    let (_, machine) = trial::machine_of(BOX);
    let later = |index: usize, warmed: &[(f64, f64)]| {
        let plate = crate::walled(&machine.cooling.circuit[index]).unwrap();
        let rises = warmed.iter().map(|(outlet, rise)| (celsius(*outlet), TemperatureInterval::from_si(*rise)));
        let found = crate::Face { index, plate }.warmer_order(&machine, &rises.collect::<Vec<_>>());
        found.map(|(name, gain)| (name.to_string(), gain.si()))
    };
    // Coldest behind the deck: the windings come after the switches, and the deck itself never warms.
    let loop_of = [(9.0, 0.0), (9.2, 0.2), (6.0, -3.2), (7.0, 1.0), (9.0, 2.0), (9.0, 0.0)];
    assert_eq!(later(3, &loop_of), Some(("windings".to_string(), 2.0)));
    assert_eq!(later(4, &loop_of), None);
    // Too little to be worth a new hose.
    assert_eq!(later(3, &[(9.0, 0.0), (9.2, 0.2), (6.0, -3.2), (7.0, 1.0), (7.4, 0.4), (7.4, 0.0)]), None);
}

#[test]
fn rime_of_a_few_milligrams_is_no_finding() {
    // Cold all through: 9 L at −30 °C hold 9 × 0.34 mg at half of it, and ten fillings are 15 mg; by hand.
    let cold =
        [("air: 10 °C", "air: -30 °C"), ("air: -15 °C to", "air: -40 °C to"), ("air_rise: 10 K", "air_rise: 0 K")];
    let full = [("humidity: 50 %", "humidity: 98 %"), (", trapped_water: 6 g", "")];
    let little = [cold.as_slice(), &full].concat();
    let rows = rows(&little);
    assert!(rows.iter().all(|row| row.verdict == Verdict::Sound && row.says.contains("in a day")), "{rows:?}");
    assert!(rows.iter().all(|row| row.assumed.contains(&"trapped_water".to_string())), "{rows:?}");
    // A spoon of snow in the same box, or spray all the time, and it is one.
    let spoon = [cold.as_slice(), &[("humidity: 50 %", "humidity: 98 %")]].concat();
    assert_ne!(row(IDLING, &spoon).verdict, Verdict::Sound);
    let spray = [little.as_slice(), &[("moisture: breathes", "moisture: snow_spray")]].concat();
    assert_ne!(row(IDLING, &spray).verdict, Verdict::Sound);
}
