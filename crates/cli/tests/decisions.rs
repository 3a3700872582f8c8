//! From findings to a decision, as the user meets it: ranking and comparing.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing)]

#[path = "decisions/bad_input.rs"]
mod bad_input;

use serde_json::Value;
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

const DRAWN: &str = "examples/hut-hauler/as-drawn.machine.yaml";
const REVISED: &str = "examples/hut-hauler/revised.machine.yaml";

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").canonicalize().unwrap()
}

fn dryfit_in(columns: &str, arguments: &[&str], input: &str) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_dryfit"))
        .args(arguments)
        .current_dir(root())
        .env("COLUMNS", columns)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // A command that does not read its input may be gone already.
    let _ = child.stdin.take().unwrap().write_all(input.as_bytes());
    child.wait_with_output().unwrap()
}

fn dryfit(arguments: &[&str]) -> (i32, String, String) {
    let output = dryfit_in("100", arguments, "");
    let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).unwrap();
    (output.status.code().unwrap(), text(&output.stdout), text(&output.stderr))
}

fn obeys(schema: &str, page: &Value) {
    let (_, schema, _) = dryfit(&["schema", schema]);
    let schema: Value = serde_json::from_str(&schema).unwrap();
    assert!(jsonschema::is_valid(&schema, page));
}

#[test]
fn a_ranking_is_as_wide_as_the_terminal_and_its_data_obeys_the_schema() {
    for columns in ["60", "100"] {
        let output = dryfit_in(columns, &["rank", "--sensitivity", DRAWN], "");
        let text = String::from_utf8(output.stdout).unwrap();
        assert_eq!(output.status.code(), Some(0));
        let width: usize = columns.parse().unwrap();
        // A path of the spec is never broken.
        let wide = text.lines().filter(|line| line.chars().count() > width && line.trim().contains(' '));
        let wide: Vec<&str> = wide.collect();
        assert!(wide.is_empty(), "{columns}: {wide:?}");
        assert!(text.contains("harm: somebody is hurt") && text.contains("moved by") && !text.contains('\u{1b}'));
    }
    let (code, text, _) = dryfit(&["rank", "--as", "json", DRAWN]);
    let page: Value = serde_json::from_str(&text).unwrap();
    obeys("rank", &page);
    assert_eq!(code, 0);
    let margins = page["margins"].as_array().unwrap();
    assert_eq!(margins[0]["consequence"], "harm");
    // Nothing moves what has no load at all.
    // Nor what has nothing left to take it with.
    let fixed = |one: &Value| one["margin"]["headroom"].is_null() || one["margin"]["reserve"] == 0.0;
    let moved = |one: &Value| fixed(one) || !one["moved_by"].as_array().unwrap().is_empty();
    assert!(margins.iter().all(moved));
}

#[test]
fn a_ranking_is_filtered_and_an_unknown_subject_is_told_the_nearest() {
    let (code, text, _) = dryfit(&["rank", "--area", "cooling", "--verdict", "thin", "--as", "json", DRAWN]);
    let page: Value = serde_json::from_str(&text).unwrap();
    let margins = page["margins"].as_array().unwrap();
    assert!(code == 0 && !margins.is_empty() && page["left_out"].as_u64() > Some(0));
    assert!(margins.iter().all(|one| one["area"] == "cooling" && one["verdict"] == "thin"), "{margins:?}");
    let (code, text, _) = dryfit(&["rank", "--subject", "steering_pivot", "--verdict", "fails", DRAWN]);
    assert!(code == 0 && text.contains("no margin is like that"), "{text}");
    let (code, _, says) = dryfit(&["rank", "--subject", "steering_pivt", DRAWN]);
    assert!(code == 2 && says.contains("did you mean `steering_pivot`?"), "{says}");
}

#[test]
fn the_revision_worsens_nothing_and_going_back_is_refused() {
    let (code, text, _) = dryfit(&["compare", "--refuse", "worse", DRAWN, REVISED]);
    assert_eq!(code, 0, "{text}");
    assert!(text.contains("no verdict got worse") && text.contains("fails → sound"), "{text}");
    let (code, text, _) = dryfit(&["compare", REVISED, DRAWN]);
    assert_eq!(code, 1);
    assert!(text.contains("! sound → fails") && text.contains("verdicts got worse"), "{text}");
    assert_eq!(dryfit(&["compare", "--refuse", "nothing", REVISED, DRAWN]).0, 0);
}

#[test]
fn a_comparison_as_data_is_written_whole_and_obeys_its_schema() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("comparison.json");
    let (code, text, _) = dryfit(&["compare", "--as", "json", "--out", file.to_str().unwrap(), REVISED, DRAWN]);
    assert_eq!((code, text.as_str()), (1, ""));
    let page: Value = serde_json::from_str(&fs::read_to_string(&file).unwrap()).unwrap();
    obeys("comparison", &page);
    assert_eq!((&page["worse"], &page["old"]["revision"]), (&Value::Bool(true), &Value::from("D")));
    let vanished = |row: &Value| row["change"] == "vanished" && row["new"].is_null();
    let margins = page["margins"].as_array().unwrap();
    assert!(margins.iter().all(|row| row["change"] != "vanished" || vanished(row)));
}

/// As a hook does it: the former text comes through a pipe, and its libraries lie where the file lies.
#[test]
fn the_former_text_may_come_through_standard_input() {
    let former = fs::read_to_string(root().join(DRAWN)).unwrap();
    let output = dryfit_in("100", &["compare", "--named", DRAWN, "-", REVISED], &former);
    let text = String::from_utf8(output.stdout).unwrap();
    assert_eq!(output.status.code(), Some(0), "{text}{}", String::from_utf8_lossy(&output.stderr));
    assert!(text.contains("old: Hut hauler, revision C") && text.contains("no verdict got worse"), "{text}");
    let (code, _, says) = dryfit(&["compare", "-", "-"]);
    assert!(code == 2 && says.contains("not both"), "{says}");
}

#[test]
fn specs_that_cannot_be_used_are_all_named() {
    let folder = tempfile::tempdir().unwrap();
    let wrong = folder.path().join("wrong.machine.yaml");
    fs::write(&wrong, "dryfit: 1\nmachine: {name: sled, mas: 4 kg}\n").unwrap();
    let (code, text, says) = dryfit(&["compare", wrong.to_str().unwrap(), "none.machine.yaml"]);
    assert_eq!((code, text.as_str()), (2, ""));
    assert!(says.contains("did you mean `mass`?") && says.contains("none.machine.yaml: it does not exist"), "{says}");
    assert_eq!(dryfit(&["rank", wrong.to_str().unwrap()]).0, 2);
}
