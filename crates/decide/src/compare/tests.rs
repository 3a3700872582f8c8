use super::*;
use crate::examples::{changed, reviewed};
use crate::renamed::Because;
use engine::verdicts;
use rulebook::RULES;

fn of(change: Change, comparison: &Comparison<'_>) -> Vec<String> {
    let pairs = comparison.pairs.iter().filter(|pair| pair.change == change);
    let mut names: Vec<String> =
        pairs.filter_map(|pair| pair.latest()).map(|one| format!("{} {}", one.subject.name, one.check)).collect();
    names.sort();
    names
}

#[test]
fn a_machine_compared_with_itself_is_unchanged_and_every_margin_is_there() {
    for name in ["first/forty-lines", "reed-cutter/revised"] {
        let (old, new) = (changed(name, &[]), changed(name, &[]));
        let comparison = compare(old.side(), new.side());
        assert_eq!(comparison.count(Change::Unchanged), verdicts(&old.machine, RULES).len());
        assert_eq!(comparison.pairs.len(), comparison.count(Change::Unchanged));
        assert!(!comparison.worse() && comparison.renamed.is_empty());
    }
}

#[test]
fn the_revision_of_each_example_worsens_no_verdict_and_going_back_does() {
    for name in ["hut-hauler", "reed-cutter"] {
        let drawn = changed(&format!("{name}/as-drawn"), &[]);
        let revised = changed(&format!("{name}/revised"), &[]);
        let forth = compare(drawn.side(), revised.side());
        let back = compare(revised.side(), drawn.side());
        assert!(!forth.worse(), "{name}: {:?}", of(Change::Worsened, &forth));
        assert!(back.worse(), "{name}");
        // What appears on one way vanishes on the other, what improves worsens.
        assert_eq!(of(Change::Appeared, &forth), of(Change::Vanished, &back), "{name}");
        assert_eq!(of(Change::Vanished, &forth), of(Change::Appeared, &back), "{name}");
        assert_eq!(of(Change::Improved, &forth), of(Change::Worsened, &back), "{name}");
        assert_eq!(of(Change::Unchanged, &forth), of(Change::Unchanged, &back), "{name}");
    }
}

#[test]
fn a_renamed_thing_is_guessed_and_said_to_be_a_guess() {
    let old = bush(&[]);
    for name in ["bushes", "roller"] {
        let new = bush(&[("bush:", &format!("{name}:"))]);
        let comparison = compare(old.side(), new.side());
        let guess = Renamed { old: "bush".into(), new: name.into(), because: Because::Margins };
        assert_eq!(comparison.renamed, [guess]);
        assert_eq!(comparison.count(Change::Unchanged), comparison.pairs.len());
        let of_it = |pair: &&Pair<'_>| pair.old.is_some_and(|old| old.subject.name == "bush");
        assert!(comparison.pairs.iter().filter(of_it).all(|pair| pair.guessed));
        assert!(comparison.pairs.iter().any(|pair| of_it(&pair)));
    }
    // With other numbers only the likeness of the names is left.
    let shorter = ("length: 18 mm", "length: 17 mm");
    let alike = bush(&[("bush:", "bushes:"), shorter]);
    let comparison = compare(old.side(), alike.side());
    assert_eq!(comparison.renamed.first().map(|guess| guess.because), Some(Because::Name));
    assert!(of(Change::Worsened, &comparison).contains(&"bushes pressure".to_owned()));
    let other = bush(&[("bush:", "roller:"), shorter]);
    let comparison = compare(old.side(), other.side());
    assert!(comparison.renamed.is_empty());
    assert_eq!(of(Change::Appeared, &comparison).len(), of(Change::Vanished, &comparison).len());
    assert!(!comparison.worse(), "what is new and sound takes nothing away");
}

#[test]
fn a_thing_with_other_checks_or_in_another_section_is_no_other_name() {
    let plain = "bush: {kind: plain, material: pom, bore: 12 mm, length: 18 mm, lubrication: none, dirt: clean, load: 150 N, speed: 40 rpm}";
    let old = bush(&[]);
    let rolling = bush(&[(plain, "bushes: {kind: rolling, size: 6001-2RS}")]);
    assert!(compare(old.side(), rolling.side()).renamed.is_empty());
}

#[test]
fn a_thing_in_a_list_is_guessed_by_its_margins() {
    let old = changed("hut-hauler/as-drawn", &[]);
    let new = changed("hut-hauler/as-drawn", &[("name: controller_plate", "name: cold_slab")]);
    let comparison = compare(old.side(), new.side());
    let guess = comparison.renamed.first().expect("a guess");
    assert_eq!((guess.old.as_str(), guess.new.as_str()), ("controller_plate", "cold_slab"));
    assert_eq!(guess.because, Because::Margins);
    assert!(!comparison.worse());
}

const BUSH: &str = "
dryfit: 1
machine: {name: trial, revision: A}
environment: {air: 0 °C to 20 °C}
cases: {haul: {kind: cruise, speed: 5 km/h}}
powertrain:
  bearings:
    bush: {kind: plain, material: pom, bore: 12 mm, length: 18 mm, lubrication: none, dirt: clean, load: 150 N, speed: 40 rpm}
";

/// Slow, so that it stays cool.
const HEAVY: (&str, &str) = ("load: 150 N, speed: 40 rpm", "load: 2500 N, speed: 1 rpm");

fn bush(change: &[(&str, &str)]) -> crate::examples::Reviewed {
    let text = change.iter().fold(BUSH.to_owned(), |text, (old, new)| {
        assert!(text.contains(old), "{old}");
        text.replace(old, new)
    });
    reviewed("bush.machine.yaml", text)
}

#[test]
fn what_can_no_longer_be_judged_got_worse_even_if_it_failed() {
    let sound = bush(&[]);
    let failing = bush(&[HEAVY]);
    let without = bush(&[(", load: 150 N", "")]);
    for old in [&sound, &failing] {
        let comparison = compare(old.side(), without.side());
        assert!(comparison.worse());
        assert!(of(Change::Worsened, &comparison).contains(&"bush pressure".to_owned()));
    }
    assert!(!compare(without.side(), sound.side()).worse());
    assert!(compare(without.side(), failing.side()).worse(), "now it is known to fail");
}

#[test]
fn a_new_weakness_counts_and_a_conceded_one_does_not() {
    let old = bush(&[("bush: {kind: plain", "bush: {kind: rolling, size: 6001-2RS}\n    none: {kind: plain")]);
    let failing = bush(&[HEAVY]);
    assert!(compare(old.side(), failing.side()).worse());
    let conceded = "dryfit: 1\nconcessions: {known: {rule: bearing-pv, on: bush, reason: it is only pushed by hand}}";
    let conceded = bush(&[HEAVY, ("dryfit: 1", conceded)]);
    let sound = bush(&[]);
    assert!(compare(sound.side(), failing.side()).worse());
    let comparison = compare(sound.side(), conceded.side());
    assert!(!comparison.worse());
    assert!(comparison.count(Change::Worsened) > 0, "it is told all the same");
}

#[test]
fn a_thinner_margin_with_the_same_verdict_is_worsened_and_no_reason_to_refuse() {
    let (old, new) = (bush(&[]), bush(&[("length: 18 mm", "length: 17 mm")]));
    let comparison = compare(old.side(), new.side());
    assert!(of(Change::Worsened, &comparison).contains(&"bush pressure".to_owned()));
    assert!(!comparison.worse());
}
