//! The file at the root of a repository: broken, hostile, or asking for what nobody can require.

use crate::inputs::spec;
use crate::{Case, case};
use document::Document;
use jsonschema::validator_for;
use machine::{Machine, Swaps};

fn shop(name: &'static str, text: &str) -> Case {
    case(name, spec("")).workshop(text)
}

fn reserve(name: &'static str, fields: &str) -> Case {
    shop(name, &format!("reserves:\n  dirt: {{{fields}}}\n"))
}

pub fn cases() -> Vec<Case> {
    let fine = "rule: bearing-pv, reserve: 2, reason: mud";
    let mut unreadable = case("workshop cannot be read", spec(""));
    unreadable.workshop = Some(Err("it may not be read or written".into()));
    vec![
        reserve("workshop that is fine", fine),
        shop("workshop that only marks the root", ""),
        shop("workshop of comments", "# ours\n"),
        shop("workshop is a list", "- reserves\n"),
        shop("workshop is text", "ours\n"),
        shop("workshop with a tab", "reserves:\n\tdirt: {}\n"),
        shop("workshop in two documents", "profile: sport\n---\nprofile: carrier\n"),
        case("workshop of other bytes than UTF-8", spec("")).workshop(b"profile: \xff\n".as_slice()),
        shop("workshop too large", &format!("# {}\n", "x".repeat(100))).limits(|limits| limits.bytes = 80),
        unreadable,
        shop("workshop with an unknown key", "reserve: {}\n"),
        shop("workshop with house rules", "house_rules: [ours]\n"),
        shop("workshop with libraries", "libraries: [parts.yaml]\n"),
        shop("workshop of no known profile", "profile: sports\n"),
        shop("workshop that refuses what is no verdict", "refuse: thn\n"),
        shop("workshop with a list of reserves", "reserves: [{rule: bearing-pv, reserve: 2, reason: mud}]\n"),
        shop("workshop with the same reserve twice", "reserves:\n  a: {}\n  a: {}\n"),
        reserve("reserve without a reason", "rule: bearing-pv, reserve: 2"),
        reserve("reserve with nothing as its reason", "rule: bearing-pv, reserve: 2, reason: "),
        reserve("reserve that requires nothing", "rule: bearing-pv, reason: mud"),
        reserve("reserve of an unknown area", "area: coolin, reserve: 2, reason: mud"),
        reserve("reserve with an unknown field", "rules: bearing-pv, reserve: 2, reason: mud"),
        reserve("reserve of zero", "rule: bearing-pv, reserve: 0, reason: mud"),
        reserve("reserve below zero", "rule: bearing-pv, reserve: -2, reason: mud"),
        reserve("reserve below one", "rule: bearing-pv, reserve: 0.8, reason: mud"),
        reserve("reserve without an end", "rule: bearing-pv, reserve: 1e999, reason: mud"),
        reserve("reserve of no kelvins", "area: cooling, reserve: 0 K, reason: mud"),
        reserve("reserve as a temperature", "area: cooling, reserve: 8 °C, reason: mud"),
        reserve("reserve in per cent", "area: cooling, reserve: 15 %, reason: mud"),
        reserve("reserve with a tolerance", "area: cooling, reserve: 8 K ± 1 K, reason: mud"),
        reserve("reserve with an unknown unit", "area: cooling, reserve: 8 Kelvins, reason: mud"),
        reserve("reserve as a list", "area: cooling, reserve: [8 K], reason: mud"),
        reserve("reserve as a truth", "area: cooling, reserve: yes, reason: mud"),
        shop("reserve like another", &format!("reserves:\n  a: {{{fine}}}\n  b: {{like: a, on: idler}}\n")),
        shop("reserve like nothing", &format!("reserves:\n  dirt: {{{fine}}}\n  b: {{like: drt}}\n")),
        shop("reserve like itself", "reserves: {a: {like: a}}\n"),
        case("errors in spec and workshop", spec("structure: {parts: {arm: {mass: 5 mm}}}"))
            .workshop("profile: none\n"),
        case("spec unreadable and workshop wrong", "dryfit: [1\n").workshop("profile: none\n"),
    ]
}

/// An editor with the schema takes what the program takes. The reverse fails for some reserves: a schema reads no units.
#[test]
fn what_is_read_obeys_the_schema() {
    let validator = validator_for(&machine::workshop_schema()).unwrap();
    let mut read = 0;
    for case in cases() {
        let document: Document = case.load();
        let Some(root) = document.workshop.as_ref().and_then(|workshop| workshop.root.as_ref()) else { continue };
        if document.troubles.is_empty() && Machine::read(&document, &Swaps::new()).is_ok() {
            read += 1;
            assert!(validator.is_valid(&document::to_json(root)), "{}", case.name);
        }
    }
    assert!(read >= 2, "{read}");
}
