use crate::WeakLinkOrder;
use rule::prelude::*;

/// A drive line out of a list: name, motor torque at which it goes when 10 N·m are asked, whether it guards.
struct Line(&'static [(&'static str, f64, bool)]);

static CARD: Card = Card {
    name: "line",
    area: Area::Powertrain,
    question: "?",
    explains: "for trials",
    formula: "none",
    source: "common practice",
    checked: "not at all",
    required: "1.5",
    caution: "",
};

impl Rule for Line {
    fn card(&self) -> &'static Card {
        &CARD
    }
    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for (name, goes, guards) in self.0 {
            checks.about(name, machine.machine.mass.id()).check("holds", |_| {
                let required = Required { value: 1.5, why: "a trial" };
                let consequence = if *guards { Consequence::CheapPart } else { Consequence::Stranded };
                let of = Torque::from_si;
                Ok(Outcome::Held(Margin::ratio::<m::Torque>(of(10.0), of(*goes), required, consequence)))
            });
        }
        checks.about("bush", machine.machine.mass.id()).check("heat", |_| {
            let required = Required { value: 1.5, why: "a trial" };
            let of = Pressure::from_si;
            Ok(Outcome::Held(Margin::ratio::<m::Stress>(of(10.0), of(1.0), required, Consequence::RunOver)))
        });
    }
}

const SPEC: &str = "environment: {air: 20 °C, altitude: 0 m, relative_humidity: 50 %}\ncases: {drive: {kind: cruise, speed: 5 km/h}}\n";

fn remarks(line: &'static [(&'static str, f64, bool)]) -> Vec<Remark> {
    trial::look(&WeakLinkOrder, &[&Line(line)], SPEC)
}

#[test]
fn a_gear_that_goes_first_wants_a_guard() {
    let found = remarks(&[("wheel", 40.0, false), ("pinion", 25.0, false), ("key", 60.0, false)]);
    let [only] = found.as_slice() else { panic!("{found:?}") };
    assert_eq!((only.subject.name.as_str(), only.check, only.verdict), ("pinion", "no guard", Verdict::Thin));
    assert!(only.words.happens.contains("25 N·m"), "{:?}", only.words);
    assert!(only.words.numbers.iter().any(|says| says.contains("wheel, holds (4 times")), "{:?}", only.words);
    // Above 1.5 times what is asked, and well before the pinion.
    assert!(only.words.clears[0].contains("between 15 N·m and 20 N·m"), "{:?}", only.words);
}

#[test]
fn a_guard_that_goes_first_is_silence() {
    assert_eq!(remarks(&[("wheel", 40.0, false), ("shear pin", 18.0, true)]), []);
}

#[test]
fn a_guard_that_holds_too_long_is_named() {
    let found = remarks(&[("wheel", 18.0, false), ("shear pin", 40.0, true)]);
    assert_eq!((found[0].subject.name.as_str(), found[0].check), ("wheel", "guard too strong"));
    assert!(found[0].words.happens.contains("shear pin") && found[0].words.clears[0].contains("strengthen it first"));
    // However much the wheel has left over.
    assert_eq!(remarks(&[("wheel", 90.0, false), ("shear pin", 95.0, true)]).len(), 1);
}

#[test]
fn the_exact_boundary() {
    // Twice the reserve of 1.5 that it wants is enough without a guard.
    assert_eq!(remarks(&[("wheel", 30.0, false)]).len(), 0);
    assert_eq!(remarks(&[("wheel", 29.999_999, false)]).len(), 1);
}

#[test]
fn without_a_drive_line_there_is_nothing_to_say() {
    assert_eq!(remarks(&[]), []);
}

#[test]
fn a_stronger_first_link_never_brings_the_remark_back() {
    let counts = [
        remarks(&[("wheel", 12.0, false)]).len(),
        remarks(&[("wheel", 20.0, false)]).len(),
        remarks(&[("wheel", 31.0, false)]).len(),
        remarks(&[("wheel", 99.0, false)]).len(),
    ];
    assert!(counts.windows(2).all(|pair| pair[1] <= pair[0]), "{counts:?}");
}
