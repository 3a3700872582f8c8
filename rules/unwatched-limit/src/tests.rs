use crate::UnwatchedLimit;
use rule::prelude::*;

/// Makes one margin of the demanded size on a subject of the spec; the capacity is one and a half.
#[derive(Debug)]
struct Made {
    subject: &'static str,
    measure: Measured,
    demand: f64,
    consequence: Consequence,
}

#[derive(Debug, Clone, Copy)]
enum Measured {
    Temperature,
    Speed,
    RotationalSpeed,
    Stress,
}

static MADE: Card = Card::silent("made", Area::WholeMachine);

impl Rule for Made {
    fn card(&self) -> &'static Card {
        &MADE
    }
    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        let bearing = machine.powertrain.bearings.named(self.subject).map(|bearing| bearing.key.id);
        let node = bearing.unwrap_or(machine.powertrain.track.pitch.id());
        let mut on = checks.about(self.subject, node);
        for check in ["one", "other"] {
            on.check(check, |_| {
                let required = Required { value: 1.0, why: "a test" };
                let demand = if check == "one" { self.demand } else { self.demand * 0.99 };
                Ok(Outcome::Held(match self.measure {
                    Measured::Temperature => Margin::gap::<m::Temperature, m::TemperatureDifference>(
                        ThermodynamicTemperature::from_si(demand),
                        ThermodynamicTemperature::from_si(1.5),
                        TemperatureInterval::from_si(1.0),
                        Required { value: 0.0, ..required },
                        self.consequence,
                    ),
                    Measured::Speed => ratio::<m::Speed>(demand, required, self.consequence),
                    Measured::RotationalSpeed => ratio::<m::RotationalSpeed>(demand, required, self.consequence),
                    Measured::Stress => ratio::<m::Stress>(demand, required, self.consequence),
                }))
            });
        }
    }
}

fn ratio<M: quantity::Measure>(demand: f64, required: Required, consequence: Consequence) -> Margin {
    Margin::ratio::<M>(M::Q::from_si(demand), M::Q::from_si(1.5), required, consequence)
}

fn made(subject: &'static str, measure: Measured, demand: f64) -> Made {
    Made { subject, measure, demand, consequence: Consequence::RunOver }
}

fn looked(made: &Made, instruments: &str) -> Vec<Remark> {
    looked_in("idle", made, instruments)
}

fn looked_in(kind: &str, made: &Made, instruments: &str) -> Vec<Remark> {
    let yaml = format!(
        "cases: {{run: {{kind: {kind}}}}}
powertrain:
  bearings:
    idler: {{kind: plain, wheel: {{radius: 40 mm}}}}
    pivot: {{kind: plain, swing: {{angle: 10 °}}}}
cooling:
  circuit:
    - {{kind: plate, name: switches, cools: controller}}
    - {{kind: exchanger, name: deck}}
instruments: {{{instruments}}}
"
    );
    trial::look(&UnwatchedLimit, &[made], &yaml)
}

fn checks(made: &Made, instruments: &str) -> Vec<&'static str> {
    looked(made, instruments).iter().map(|remark| remark.check).collect()
}

const SENSOR: &str = "sensor: {kind: temperature, watches: controller, alarm: 85 °C}";

#[test]
fn a_thin_margin_that_nothing_watches_is_remarked_once_for_its_thing() {
    let thin = Made { consequence: Consequence::Stranded, ..made("switches", Measured::Temperature, 1.4) };
    let remarks = looked(&thin, "");
    assert_eq!(remarks.len(), 1);
    let remark = &remarks[0];
    assert_eq!(
        (remark.verdict, remark.consequence, remark.check),
        (Verdict::Thin, Consequence::Stranded, "not watched")
    );
    assert!(remark.subject.name == "switches" && remark.words.numbers[0].contains("'one'"), "{remark:?}");
}

#[test]
fn nobody_watches_what_stands_out_all_night_or_indoors() {
    let thin = made("switches", Measured::Temperature, 1.4);
    assert!(looked_in("soak", &thin, "").is_empty() && looked_in("brought_indoors", &thin, "").is_empty());
    assert_eq!(looked_in("climb", &thin, "").len(), 1);
}

#[test]
fn an_instrument_without_an_alarm_warns_nobody() {
    let thin = made("switches", Measured::Temperature, 1.4);
    assert_eq!(checks(&thin, "sensor: {kind: temperature, watches: controller}"), ["no alarm"]);
    assert!(checks(&thin, SENSOR).is_empty());
    let both = format!("{SENSOR}, bare: {{kind: temperature, watches: coolant}}");
    assert!(checks(&thin, &both).is_empty());
}

#[test]
fn the_right_kind_on_the_right_thing() {
    let thin = made("switches", Measured::Temperature, 1.4);
    let other = |instrument: &str| checks(&thin, &format!("other: {{{instrument}}}"));
    assert_eq!(other("kind: temperature, watches: motor, alarm: 90 °C"), ["not watched"]);
    assert_eq!(other("kind: current, watches: controller, alarm: 90 A"), ["not watched"]);
    assert!(other("kind: temperature, watches: electronics_box, alarm: 40 °C").is_empty());
    assert_eq!(checks(&made("deck", Measured::Temperature, 1.4), SENSOR), ["not watched"]);
    assert!(checks(&made("controller", Measured::Temperature, 1.4), SENSOR).is_empty());
}

#[test]
fn what_turns_with_the_track_is_watched_by_any_speed_of_the_drive() {
    let motor = "motor_speed: {kind: rotational_speed, watches: motor, alarm: 8800 rpm}";
    for (subject, measure) in
        [("idler", Measured::Speed), ("track", Measured::Speed), ("motor", Measured::RotationalSpeed)]
    {
        assert!(checks(&made(subject, measure, 1.4), motor).is_empty(), "{subject}");
        assert_eq!(checks(&made(subject, measure, 1.4), ""), ["not watched"], "{subject}");
    }
    // Nobody fits a speedometer to a pivot.
    assert!(checks(&made("pivot", Measured::Speed, 1.4), motor).is_empty());
}

#[test]
fn what_no_instrument_can_read_is_left_alone() {
    assert!(checks(&made("idler", Measured::Stress, 1.4), "").is_empty());
    // No load: the headroom has no end.
    assert!(checks(&made("track", Measured::Speed, 0.0), "").is_empty());
}

#[test]
fn the_exact_boundary() {
    // 1.5 / 1.2 − 1 = 0.25.
    assert_eq!(checks(&made("track", Measured::Speed, 1.2 + 1e-7), ""), ["not watched"]);
    assert!(checks(&made("track", Measured::Speed, 1.2 - 1e-7), "").is_empty());
}

#[test]
fn less_headroom_is_never_noted_less() {
    let noted: Vec<usize> =
        (90..=200).map(|demand| checks(&made("track", Measured::Speed, f64::from(demand) / 100.0), "").len()).collect();
    assert!(noted.windows(2).all(|pair| pair[1] >= pair[0]) && noted.first() == Some(&0) && noted.last() == Some(&1));
}

#[test]
fn one_remark_for_an_instrument_that_would_watch_many() {
    let all = ["switches", "deck", "long", "reservoir", "shell", "lid", "hauler"]
        .map(|name| made(name, Measured::Temperature, 1.4));
    let rules: Vec<&dyn Rule> = all.iter().map(|made| made as &dyn Rule).collect();
    let yaml = |instruments: &str| {
        format!(
            "cases: {{run: {{kind: climb}}}}
cooling:
  reservoir: {{part: shell}}
  hoses: {{long: {{bore: 6 mm}}}}
  circuit:
    - {{kind: plate, name: switches, cools: controller}}
    - {{kind: exchanger, name: deck}}
structure:
  parts: {{shell: {{zone: box}}, cover: {{zone: box}}}}
  joints: {{lid: {{of: [cover, shell]}}}}
zones: {{box: {{}}}}
instruments: {{{instruments}}}
"
        )
    };
    let remarks = trial::look(&UnwatchedLimit, &rules, &yaml(""));
    // The controller's plate could have a probe of its own; a probe in the coolant does for it as well.
    assert!(remarks.len() <= 2, "{remarks:?}");
    let told: Vec<&str> = remarks.iter().map(|remark| remark.words.happens.as_str()).collect();
    let coolant = told.iter().find(|told| told.contains("temperature of the coolant")).unwrap();
    assert!(["deck", "long", "reservoir", "lid"].iter().all(|name| coolant.contains(name)), "{told:?}");
    assert!(told.iter().all(|told| !told.contains("hauler")), "{told:?}");
    let sensor = yaml("probe: {kind: temperature, watches: coolant, alarm: 85 °C}");
    assert!(trial::look(&UnwatchedLimit, &rules, &sensor).is_empty());
}
