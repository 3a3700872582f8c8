//! From findings to a decision, as the user meets it: ranking, comparing, chances.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing)]

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

fn command(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_dryfit"));
    command.args(arguments).current_dir(root());
    command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    command
}

fn dryfit_in(columns: &str, arguments: &[&str], input: &str) -> Output {
    answer(command(arguments).env("COLUMNS", columns), input)
}

fn answer(command: &mut Command, input: &str) -> Output {
    let mut child = command.spawn().unwrap();
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
    assert!(margins.iter().all(|one| one["margin"].is_null() || !one["moved_by"].as_array().unwrap().is_empty()));
}

#[test]
fn a_ranking_is_filtered_and_an_unknown_subject_is_told_the_nearest() {
    let (code, text, _) = dryfit(&["rank", "--area", "cooling", "--verdict", "thin", "--as", "json", DRAWN]);
    let page: Value = serde_json::from_str(&text).unwrap();
    let margins = page["margins"].as_array().unwrap();
    assert!(code == 0 && !margins.is_empty() && page["left_out"].as_u64() > Some(0));
    assert!(margins.iter().all(|one| one["area"] == "cooling" && one["verdict"] == "thin"), "{margins:?}");
    let (code, text, _) = dryfit(&["rank", "--area", "whole-machine", DRAWN]);
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

/// A roller whose load is guessed, and carries it or not.
const ROLLER: &str = "
dryfit: 1
machine: {name: Reed sledge, mass: 46 kg ± 1 kg (weighed)}
environment: {air: -8 °C to 24 °C}
cases: {haul: {kind: cruise, speed: 5 km/h}}
powertrain:
  bearings:
    roller:
      {kind: plain, material: pom, bore: 10 mm, length: 14 mm, lubrication: grease, dirt: clean, load: LOAD, speed: 400 rpm}
";

fn sampled(load: &str, threads: &str, arguments: &[&str]) -> (i32, String, String) {
    let arguments = [&["uncertainty", "-"], arguments].concat();
    let output = answer(
        command(&arguments).env("RAYON_NUM_THREADS", threads).env("COLUMNS", "80"),
        &ROLLER.replace("LOAD", load),
    );
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    (output.status.code().unwrap(), text(output.stdout), text(output.stderr))
}

#[test]
fn chances_name_the_figure_worth_measuring_and_how() {
    let (code, text, says) = sampled("200 N (guess)", "2", &["--samples", "600"]);
    assert_eq!((code, says.as_str()), (0, ""), "{text}");
    assert!(text.lines().all(|line| line.chars().count() <= 80), "{text}");
    let end = &text[text.find("which measurement is worth making").unwrap()..];
    assert!(end.contains("powertrain.bearings.roller.load: 200 N (guess), drawn ± 40 N"), "{text}");
    assert!(end.contains("how: lift the wheel off the ground"), "{text}");
    assert!(text.contains("1 guessed, drawn ± 20 %") && text.contains("The first 200 samples ran in full"), "{text}");
}

#[test]
fn chances_are_the_same_bytes_for_any_number_of_threads_and_obey_their_schema() {
    let arguments = ["--as", "json", "--samples", "450", "--seed", "9"];
    let alone = sampled("200 N (guess)", "1", &arguments);
    assert!(alone == sampled("200 N (guess)", "4", &arguments) && alone.0 == 0, "{}{}", alone.1, alone.2);
    let other = sampled("200 N (guess)", "4", &["--as", "json", "--samples", "450", "--seed", "10"]);
    assert_ne!(alone.1, other.1);
    let page: Value = serde_json::from_str(&alone.1).unwrap();
    obeys("uncertainty", &page);
    let worth = &page["worth_measuring"];
    assert_eq!((&page["samples"], &page["seed"], &worth["about"]), (&450.into(), &9.into(), &"fails".into()));
    let first = &worth["inputs"][0];
    assert_eq!(first["input"], "powertrain.bearings.roller.load");
    for margin in page["margins"].as_array().unwrap() {
        for chance in [&margin["fails"], &margin["thin"]] {
            let [low, share, high] = ["low", "share", "high"].map(|key| chance[key].as_f64().unwrap());
            assert!(0.0 <= low && low <= share && share <= high && high <= 1.0, "{margin}");
        }
    }
}

#[test]
fn exact_figures_leave_nothing_to_draw_and_are_told_how_to_write_a_doubt() {
    let (_, text, _) = sampled("200 N", "2", &["--samples", "20", "--as", "json"]);
    let page: Value = serde_json::from_str(&text).unwrap();
    let exact = page["taken_as_exact"].as_array().unwrap();
    assert!(exact.contains(&"powertrain.bearings.roller.load".into()), "{exact:?}");
    let nothing = "dryfit: 1\nmachine: {name: sled, mass: 4 kg}\n";
    let output = dryfit_in("80", &["uncertainty", "-"], nothing);
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(output.status.code() == Some(0) && text.contains("Nothing could be drawn"), "{text}");
}

#[test]
fn numbers_that_make_no_sense_get_a_sentence() {
    for (arguments, sentence) in [
        (["--samples", "0"], "how many samples is a whole number from 1 to 100000"),
        (["--samples", "1000000000"], "how many samples is a whole number from 1 to 100000"),
        (["--samples", "-3"], "how many samples is a whole number from 1 to 100000"),
        (["--seed", "first"], "a seed is a whole number from 0 to 18446744073709551615"),
        (["--seed", "-1"], "a seed is a whole number from 0 to 18446744073709551615"),
    ] {
        let (code, text, says) = sampled("200 N", "2", &arguments);
        assert_eq!((code, text.as_str()), (2, ""), "{arguments:?}");
        assert!(says.contains(sentence) && says.contains(arguments[1]), "{says}");
    }
    let (code, _, says) = sampled("20 N ± 30 N", "2", &[]);
    assert!(code == 2 && says.contains("'± 30 N' is larger than the value itself"), "{says}");
}

/// What stood in the file stays, and nothing is left beside it.
#[cfg(unix)]
#[test]
fn an_interrupted_run_leaves_no_half_written_file() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("chances.txt");
    fs::write(&file, "former").unwrap();
    let arguments = ["uncertainty", DRAWN, "--samples", "100000", "--out", file.to_str().unwrap()];
    let child = command(&arguments).spawn().unwrap();
    std::thread::sleep(std::time::Duration::from_millis(1_500));
    let sent = Command::new("kill").args(["-INT", &child.id().to_string()]).status().unwrap();
    let output = child.wait_with_output().unwrap();
    assert!(sent.success() && output.status.code().is_none(), "it was done before it could be interrupted");
    assert_eq!(fs::read_to_string(&file).unwrap(), "former");
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
}
