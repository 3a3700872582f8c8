//! How sure the verdicts are, as the user meets it.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing)]

mod tool;

use serde_json::Value;
use std::fs;
use std::process::Command;

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
    let mut command = tool::command(&tool::root(), &arguments);
    command.env("RAYON_NUM_THREADS", threads).env("COLUMNS", "80");
    let output = tool::answer(&mut command, &ROLLER.replace("LOAD", load));
    (tool::code(&output), tool::out(&output), tool::err(&output))
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
    let schema = tool::out(&tool::dryfit(&tool::root(), &["schema", "uncertainty"], ""));
    assert!(jsonschema::is_valid(&serde_json::from_str(&schema).unwrap(), &page));
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
    let output = tool::dryfit(&tool::root(), &["uncertainty", "-"], nothing);
    assert!(
        tool::code(&output) == 0 && tool::out(&output).contains("Nothing could be drawn"),
        "{}",
        tool::out(&output)
    );
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
    let spec = "examples/hut-hauler/as-drawn.machine.yaml";
    let arguments = ["uncertainty", spec, "--samples", "100000", "--out", file.to_str().unwrap()];
    let child = tool::command(&tool::root(), &arguments).spawn().unwrap();
    std::thread::sleep(std::time::Duration::from_millis(1_500));
    // Not SIGINT, which a shell lets its jobs in the background ignore.
    let sent = Command::new("kill").args(["-TERM", &child.id().to_string()]).status().unwrap();
    let output = child.wait_with_output().unwrap();
    assert!(sent.success() && output.status.code().is_none(), "it was done before it could be interrupted");
    assert_eq!(fs::read_to_string(&file).unwrap(), "former");
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
}
