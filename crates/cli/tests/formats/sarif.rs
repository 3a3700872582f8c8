//! Results against the schema and the clauses of SARIF 2.1.0 (OASIS, published). The schema is the one that the package
//! `serde-sarif` carries, found where cargo keeps it.

use crate::tool::{FIBRES, root, write};
use crate::{EXAMPLES, Laid, lay_out};
use serde_json::Value;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::Command;

fn schema() -> Value {
    // What other platforms need was never fetched.
    let rustc = Command::new("rustc").arg("-vV").output().unwrap();
    let rustc = String::from_utf8(rustc.stdout).unwrap();
    let host = rustc.lines().find_map(|line| line.strip_prefix("host: ")).unwrap().to_owned();
    let out = Command::new(env!("CARGO"))
        .args(["metadata", "--format-version", "1", "--offline", "--filter-platform", &host])
        .current_dir(root())
        .output()
        .unwrap();
    let all: Value = serde_json::from_slice(&out.stdout).unwrap();
    let package = all["packages"].as_array().unwrap().iter().find(|package| package["name"] == "serde-sarif").unwrap();
    let folder = Path::new(package["manifest_path"].as_str().unwrap()).parent().unwrap();
    let text = fs::read_to_string(folder.join("src/schema.json")).unwrap();
    // The patterns for a language have a bracket too many and too few, which a strict reader of patterns refuses.
    let mended = text.replace("|^[a-zA-Z]{2}-[a-zA-Z]{2}]?$", "(-[a-zA-Z]{2})?$");
    serde_json::from_str(&mended).unwrap()
}

fn obeys(sarif: &Value) {
    let validator = jsonschema::options().should_validate_formats(true).build(&schema()).unwrap();
    let errors: Vec<String> =
        validator.iter_errors(sarif).map(|error| format!("{}: {error}", error.instance_path())).collect();
    assert!(errors.is_empty(), "{errors:#?}");
}

#[test]
fn the_examples_obey_the_schema_and_it_refuses_what_is_wrong() {
    obeys(&EXAMPLES.sarif);
    let _: serde_sarif::sarif::Sarif = serde_json::from_str(&EXAMPLES.sarif_text).unwrap();
    let mut wrong = EXAMPLES.sarif.clone();
    wrong["runs"][0]["results"][0]["levl"] = "error".into();
    let refused = std::panic::catch_unwind(|| obeys(&wrong));
    assert!(refused.is_err_and(|says| says.downcast_ref::<String>().is_some_and(|says| says.contains("levl"))));
}

#[test]
fn every_rule_has_its_card_and_every_result_its_rule() {
    let run = &EXAMPLES.sarif["runs"][0];
    let rules = run["tool"]["driver"]["rules"].as_array().unwrap();
    for card in rulebook::RULES.iter().map(|rule| rule.card()) {
        let rule = rules.iter().find(|rule| rule["id"] == card.name).unwrap();
        let help = rule["help"]["text"].as_str().unwrap();
        assert!(help.contains(&card.source.replace('{', "{{").replace('}', "}}")), "{help}");
        assert_eq!(help.contains("Caution"), !card.caution.is_empty());
    }
    for result in run["results"].as_array().unwrap() {
        let index = usize::try_from(result["ruleIndex"].as_u64().unwrap()).unwrap();
        assert_eq!(rules[index]["id"], result["ruleId"]);
    }
}

/// 3.30: a region in bytes and one in lines and columns, which must say the same.
#[test]
fn both_ways_of_counting_lead_to_the_same_text() {
    let mut seen = 0;
    for result in EXAMPLES.sarif["runs"][0]["results"].as_array().unwrap() {
        let places =
            result["locations"].as_array().unwrap().iter().chain(result["relatedLocations"].as_array().unwrap());
        for place in places.filter_map(|place| place.get("physicalLocation")) {
            let text = fs::read_to_string(root().join(place["artifactLocation"]["uri"].as_str().unwrap())).unwrap();
            let number = |key: &str| usize::try_from(place["region"][key].as_u64().unwrap()).unwrap();
            let bytes = &text[number("byteOffset")..number("byteOffset") + number("byteLength")];
            assert_eq!(number("startLine"), number("endLine"));
            let line = text.lines().nth(number("startLine") - 1).unwrap();
            let (from, to) = (number("startColumn") - 1, number("endColumn") - 1);
            let letters: String = line.chars().skip(from).take(to - from).collect();
            assert_eq!(letters, bytes);
            seen += 1;
        }
    }
    assert!(seen > 30, "{seen}");
}

fn trial(spec: &str) -> Laid {
    let folder = tempfile::tempdir().unwrap();
    write(folder.path(), "parts/mine.yaml", "materials: {shaft_tube: {like: carbon_tube}}\n");
    write(folder.path(), "workshop.yaml", "");
    write(folder.path(), "a.machine.yaml", spec);
    lay_out(folder.path(), &["a.machine.yaml", "--today", "2026-01-15"])
}

fn result(laid: &Laid, rule: &str) -> Value {
    let results = laid.sarif["runs"][0]["results"].as_array().unwrap();
    results.iter().find(|result| result["ruleId"] == rule).unwrap().clone()
}

#[test]
fn a_fingerprint_outlives_moved_lines_and_other_figures_and_tells_things_apart() {
    let before = trial(FIBRES);
    let after = trial(&FIBRES.replace("structure:", "\n\n# later\nenvironment: {air: -3 °C to 2 °C}\nstructure:"));
    let print = |laid: &Laid| result(laid, "carbon-friction-contact")["partialFingerprints"].clone();
    assert!(print(&before).is_object());
    assert_eq!(print(&before), print(&after));
    assert_ne!(result(&before, "carbon-friction-contact"), result(&after, "carbon-friction-contact"));
    for report in &EXAMPLES.json {
        let address = report["file"].as_str().unwrap();
        let results = EXAMPLES.sarif["runs"][0]["results"].as_array().unwrap().iter();
        let here: Vec<&Value> = results
            .filter(|one| one["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] == address)
            .collect();
        let prints: BTreeSet<String> = here.iter().map(|one| one["partialFingerprints"].to_string()).collect();
        assert_eq!(prints.len(), here.len(), "{address}");
    }
}

/// 3.35: a concession is a suppression in the source; one that is over was rejected. 3.27.23: all results have the list.
#[test]
fn concessions_are_suppressions() {
    let with = |until: &str| {
        let concession =
            "concessions:\n  show: {rule: carbon-friction-contact, on: wheel_on_axle, reason: for a show, until: ";
        result(&trial(&format!("{FIBRES}{concession}{until}}}\n")), "carbon-friction-contact")["suppressions"].clone()
    };
    let holds = with("2026-02-01");
    assert_eq!((&holds[0]["kind"], &holds[0]["status"]), (&"inSource".into(), &"accepted".into()));
    assert_eq!(holds[0]["justification"], "for a show");
    assert_eq!(holds[0]["location"]["physicalLocation"]["region"]["startLine"], 8);
    assert_eq!(with("2025-12-31")[0]["status"], "rejected");
    assert_eq!(result(&trial(FIBRES), "carbon-friction-contact")["suppressions"], serde_json::json!([]));
}

#[test]
fn a_spec_that_cannot_be_used_is_a_result_too_and_the_run_says_so() {
    let laid = trial(&FIBRES.replace("rotating", "rotatng"));
    obeys(&laid.sarif);
    let wrong = result(&laid, "specification");
    assert!(wrong["message"]["text"].as_str().unwrap().contains("did you mean `rotating`?"), "{wrong}");
    assert_eq!(wrong["locations"][0]["physicalLocation"]["region"]["startLine"], 6);
    let invocation = &laid.sarif["runs"][0]["invocations"][0];
    assert_eq!((&invocation["executionSuccessful"], &invocation["exitCode"]), (&false.into(), &2.into()));
    let sound = &trial(FIBRES).sarif["runs"][0]["invocations"][0];
    assert_eq!((&sound["executionSuccessful"], &sound["exitCode"]), (&true.into(), &1.into()));
    assert_eq!(sound["arguments"][0], "review");
}
