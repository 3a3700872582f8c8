use super::*;
use crate::examples::{Reviewed, changed, reviewed};
use rulebook::RULES;

fn ranked<'a>(of: &'a Reviewed, wanted: &Wanted) -> Ranking<'a> {
    rank(&of.document, &of.machine, RULES, &of.review, wanted)
}

const BUSH: &str = "
dryfit: 1
machine: {name: trial}
environment: {air: 0 °C to 20 °C}
cases: {haul: {kind: cruise, speed: 5 km/h}}
powertrain:
  bearings:
    bush: {kind: plain, material: pom, bore: 12 mm, length: 18 mm, lubrication: none, dirt: clean, load: 150 N, speed: 40 rpm}
";

#[test]
fn classes_come_by_gravity_and_within_one_the_thinnest_is_first() {
    for name in ["first/forty-lines", "hut-hauler/as-drawn"] {
        let machine = changed(name, &[]);
        let ranking = ranked(&machine, &Wanted::default());
        assert_eq!(ranking.margins.len() + ranking.not_judged, machine.review.findings.len());
        assert_eq!(ranking.left_out, 0);
        for pair in ranking.margins.windows(2) {
            let [a, b] = pair else { panic!("two") };
            let (graver, other) = (class(a.finding), class(b.finding));
            assert!(graver < other || (graver == other && a.finding.headroom() <= b.finding.headroom()), "{name}");
        }
    }
}

#[test]
fn filters_take_what_they_name_and_count_the_rest() {
    let machine = changed("hut-hauler/as-drawn", &[]);
    let all = ranked(&machine, &Wanted::default()).margins.len();
    let tried: [(Wanted, fn(&Finding) -> bool); 4] = [
        (Wanted { areas: vec![Area::Cooling], ..Wanted::default() }, |one| one.card.area == Area::Cooling),
        (Wanted { verdicts: vec![Verdict::Fails, Verdict::Thin], ..Wanted::default() }, |one| {
            matches!(one.verdict, Verdict::Fails | Verdict::Thin)
        }),
        (Wanted { subjects: vec!["skid".into()], ..Wanted::default() }, |one| one.subject.name == "skid"),
        (Wanted { consequences: vec![Consequence::Harm], ..Wanted::default() }, |one| {
            one.consequence == Some(Consequence::Harm)
        }),
    ];
    for (wanted, fits) in tried {
        let ranking = ranked(&machine, &wanted);
        let there = machine.review.findings.iter().filter(|one| one.verdict != Verdict::NotJudged && fits(one)).count();
        assert!(there > 0 && there < all, "{wanted:?}");
        assert_eq!((ranking.margins.len(), ranking.left_out), (there, all - there), "{wanted:?}");
        assert!(ranking.margins.iter().all(|one| fits(one.finding)));
    }
}

/// v = ω·d/2 against a limit: one per cent more of what is divided by takes 1 − 1/1.01.
#[test]
fn a_margin_that_is_sound_is_moved_by_what_its_formula_holds() {
    let bush = reviewed("bush.machine.yaml", BUSH.into());
    let ranking = ranked(&bush, &Wanted::default());
    let speed = ranking.margins.iter().find(|one| one.finding.check == "speed").expect("it is judged");
    assert_eq!(speed.finding.verdict, Verdict::Sound);
    assert!(speed.finding.carriers.is_empty(), "the review itself has no need of them");
    let mut moved: Vec<(String, f64)> =
        speed.carriers.iter().map(|one| (bush.document.path(one.node), one.influence)).collect();
    moved.sort_by(|a, b| a.0.cmp(&b.0));
    let less = (1.0 / 1.01 - 1.0) * 100.0;
    let expected = [
        ("materials.pom.sliding.v_limit", 1.0),
        ("powertrain.bearings.bush.bore", less),
        ("powertrain.bearings.bush.speed", less),
    ];
    assert_eq!(moved.len(), expected.len(), "{moved:?}");
    for ((path, influence), (wanted, by)) in moved.iter().zip(expected) {
        assert!(path == wanted && (influence - by).abs() < 1e-9, "{path} {influence}: {wanted} {by}");
    }
    assert_eq!(speed.weakest, Some(Basis::FromMemory));
}

#[test]
fn what_fails_is_moved_by_what_the_review_says_carries_it() {
    let machine = changed("first/forty-lines", &[]);
    let ranking = ranked(&machine, &Wanted { verdicts: vec![Verdict::Fails], ..Wanted::default() });
    assert!(ranking.margins.iter().any(|one| !one.carriers.is_empty()));
    for one in &ranking.margins {
        assert_eq!((&one.carriers, one.weakest), (&one.finding.carriers, one.finding.weakest), "{}", one.finding.check);
    }
}

#[test]
fn what_lacks_an_input_has_no_margin_and_is_counted() {
    let bush = reviewed("bush.machine.yaml", BUSH.replace(", load: 150 N", ""));
    let ranking = ranked(&bush, &Wanted::default());
    assert!(ranking.not_judged > 0);
    assert!(ranking.margins.iter().all(|one| one.finding.check != "pressure"));
}
