//! The same findings in the same order, whatever the layout.

use crate::tool::root;
use crate::{EXAMPLES, Laid};
use quick_junit::TestCaseStatus;
use serde_json::Value;

/// A finding as every layout tells it.
#[derive(Debug, PartialEq, Eq, Clone)]
struct Told {
    file: String,
    rule: String,
    /// The consequence, or why it is not judged.
    says: String,
}

fn text(value: &Value) -> String {
    value.as_str().unwrap().to_owned()
}

/// A finding stands where its first label in the spec itself stands, else where its first in a library does; else where
/// its subject stands.
fn told(spec: &Value, finding: &Value) -> Told {
    let labels: Vec<&Value> = finding["labels"].as_array().unwrap().iter().map(|label| &label["at"]["file"]).collect();
    let written = labels.iter().find(|file| root().join(file.as_str().unwrap()).exists());
    let file = labels.iter().find(|file| **file == spec).or(written).copied().unwrap_or(&finding["at"]["file"]);
    Told { file: text(file), rule: text(&finding["rule"]), says: text(&finding["happens"]) }
}

/// Findings with one of these verdicts, and whether each is accepted.
fn data(laid: &Laid, verdicts: &[&str]) -> Vec<(Told, bool)> {
    let mut all = Vec::new();
    for report in &laid.json {
        for finding in report["findings"].as_array().unwrap() {
            if verdicts.contains(&finding["verdict"].as_str().unwrap()) {
                all.push((told(&report["file"], finding), !finding["conceded"].is_null()));
            }
        }
    }
    all
}

#[test]
fn lines_tell_what_the_data_tells() {
    let laid = &*EXAMPLES;
    let mut lines = laid.line.lines().filter(|line| !line.contains(": remark: "));
    let all = data(laid, &["broken", "fails", "thin", "not judged", "sound where judged"]);
    assert!(all.len() > 20, "{}", all.len());
    for (told, accepted) in all {
        let line = lines.next().unwrap();
        assert!(line.starts_with(&format!("{}:", told.file)), "{line}\n{told:?}");
        assert!(line.contains(&told.says) && line.ends_with(&format!("({})", told.rule)), "{line}\n{told:?}");
        assert_eq!(line.contains(": conceded: "), accepted, "{line}");
    }
    assert_eq!(lines.next(), None);
}

#[test]
fn results_of_the_exchange_format_tell_what_the_data_tells() {
    let laid = &*EXAMPLES;
    let run = &laid.sarif["runs"][0];
    let of = |entry: &Value, rule: &Value| Told {
        file: text(&entry["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]),
        rule: text(rule),
        says: text(&entry["message"]["text"]).lines().next().unwrap().replace("{{", "{").replace("}}", "}"),
    };
    let results = run["results"].as_array().unwrap().iter().filter(|result| result["level"] != "note");
    let results: Vec<(Told, bool)> = results
        .map(|result| {
            let accepted = result["suppressions"].as_array().unwrap().iter().any(|one| one["status"] == "accepted");
            (of(result, &result["ruleId"]), accepted)
        })
        .collect();
    assert_eq!(results, data(laid, &["fails", "thin"]));
    let notes = run["invocations"][0]["toolExecutionNotifications"].as_array().unwrap().iter();
    let notes: Vec<Told> = notes.map(|note| of(note, &note["associatedRule"]["id"])).collect();
    let wanted: Vec<Told> =
        data(laid, &["not judged", "broken", "sound where judged"]).into_iter().map(|(told, _)| told).collect();
    assert_eq!(notes, wanted);
}

/// The place of a line is the place of the result.
#[test]
fn results_stand_where_the_lines_stand() {
    let laid = &*EXAMPLES;
    let results = laid.sarif["runs"][0]["results"].as_array().unwrap();
    assert!(results.len() > 10);
    for result in results {
        let place = &result["locations"][0]["physicalLocation"];
        let (file, region) = (place["artifactLocation"]["uri"].as_str().unwrap(), &place["region"]);
        let start = format!("{file}:{}:{}: ", region["startLine"], region["startColumn"]);
        let says = result["message"]["text"].as_str().unwrap().lines().next().unwrap();
        assert!(laid.line.lines().any(|line| line.starts_with(&start) && line.contains(says)), "{start} {says}");
    }
}

#[test]
fn test_cases_tell_what_the_data_tells() {
    let laid = &*EXAMPLES;
    for (suite, report) in laid.junit.test_suites.iter().zip(&laid.json) {
        assert_eq!(suite.name.as_str(), report["file"].as_str().unwrap());
        let findings = report["findings"].as_array().unwrap();
        assert_eq!(suite.tests, findings.len() + report["remarks"].as_array().unwrap().len());
        assert_eq!(suite.tests, suite.test_cases.len());
        for (case, finding) in suite.test_cases.iter().zip(findings) {
            let name = format!("{}: {}", finding["subject"].as_str().unwrap(), finding["check"].as_str().unwrap());
            assert_eq!(case.name.as_str(), name);
            assert_eq!(case.classname.as_ref().unwrap().as_str(), finding["rule"].as_str().unwrap());
            let (status, message) = match &case.status {
                TestCaseStatus::Success { .. } => ("passed", None),
                TestCaseStatus::NonSuccess { message, .. } => ("failed", message.clone()),
                TestCaseStatus::Skipped { message, .. } => ("skipped", message.clone()),
            };
            let wanted = match (finding["verdict"].as_str().unwrap(), finding["conceded"].is_null()) {
                ("fails" | "broken", true) => "failed",
                ("sound" | "sound where judged", _) | ("thin", true) => "passed",
                _ => "skipped",
            };
            assert_eq!(status, wanted, "{name}");
            if let Some(message) = message {
                assert!(message.as_str().ends_with(finding["happens"].as_str().unwrap()), "{}", message.as_str());
            }
        }
    }
    assert_eq!(laid.junit.test_suites.len(), laid.json.len());
}

/// The drawing folds its text; without spaces and lines the headlines are there, one after the other.
#[test]
fn the_terminal_shows_what_the_data_tells() {
    let bare = |text: &str| text.chars().filter(|letter| !letter.is_whitespace() && *letter != '│').collect::<String>();
    let drawn = bare(&EXAMPLES.terminal);
    let mut from = 0;
    for (told, _) in data(&EXAMPLES, &["broken", "fails", "thin"]) {
        let headline = bare(&format!("[{}]: {}", told.rule, told.says));
        let at = drawn[from..].find(&headline).unwrap_or_else(|| panic!("{told:?} is not shown, or too early"));
        from += at + headline.len();
    }
}

#[test]
fn the_short_table_is_made_of_the_gravest() {
    let laid = &*EXAMPLES;
    let rows: Vec<&str> =
        laid.markdown.lines().filter(|line| line.starts_with("| ") && !line.contains("verdict")).collect();
    assert!(!rows.is_empty() && rows.len() <= 10, "{}", laid.markdown);
    let class =
        |consequence: &str| ["harm", "stranded", "run_over", "cheap_part"].iter().position(|one| *one == consequence);
    let mut all: Vec<(usize, f64, String)> = Vec::new();
    for report in &laid.json {
        for finding in report["findings"].as_array().unwrap() {
            if matches!(finding["verdict"].as_str().unwrap(), "fails" | "thin") && finding["conceded"].is_null() {
                let headroom = finding["margin"]["headroom"].as_f64().unwrap_or(f64::NEG_INFINITY);
                let what =
                    format!("`{}` · {} (", finding["subject"].as_str().unwrap(), finding["check"].as_str().unwrap());
                all.push((class(finding["consequence"].as_str().unwrap()).unwrap(), headroom, what));
            }
        }
    }
    all.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
    for (row, (_, _, what)) in rows.iter().zip(&all) {
        assert!(row.contains(what), "{row}\n{what}");
    }
    let more = all.len() - rows.len();
    assert!(more == 0 || laid.markdown.ends_with(&format!("and {more} more\n")), "{}", laid.markdown);
    assert!(laid.markdown.len() < 8000, "{}", laid.markdown.len());
}
