//! Thousands of specs in one process: as they come, in one order, in little memory.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing)]

mod tool;

use std::fs;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::Stdio;
use tool::repository::{MISTAKE, repository};
use tool::{command, dryfit};

const MANY: usize = 5000;

/// The most memory that the process has had, in kB.
fn peak(process: u32) -> u64 {
    let status = fs::read_to_string(format!("/proc/{process}/status")).unwrap();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:")).unwrap();
    line.trim().trim_end_matches(" kB").parse().unwrap()
}

#[cfg(target_os = "linux")]
#[test]
fn five_thousand_specs_are_streamed_in_order_in_little_memory() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    repository(at, MANY);
    let arguments = [
        "review",
        ".",
        "--as",
        "json",
        "--as",
        "sarif",
        "--out",
        "all.sarif",
        "--as",
        "junit",
        "--out",
        "all.xml",
        "--as",
        "markdown",
        "--out",
        "all.md",
    ];
    let mut child = command(at, &arguments).stderr(Stdio::inherit()).spawn().unwrap();
    let lines = BufReader::new(child.stdout.take().unwrap()).lines().map(Result::unwrap);
    let (mut last, mut tenth, mut seen) = (String::new(), 0, 0);
    for line in lines {
        let file = line.split('"').nth(5).unwrap().to_owned();
        assert!(last < file, "{file} comes after {last}");
        last = file;
        seen += 1;
        if seen == MANY / 10 {
            assert!(child.try_wait().unwrap().is_none(), "nothing is held back to the end");
            tenth = peak(child.id());
        }
        if seen == MANY - 20 {
            // Nearly done, and waiting for this reader.
            let end = peak(child.id());
            println!("{tenth} kB after a tenth, {end} kB at the end");
            assert!(end < 150_000, "{end} kB");
            assert!(end < tenth + 40_000, "memory grows with the number of specs: {tenth} kB, then {end} kB");
        }
    }
    assert_eq!(seen, MANY);
    assert_eq!(child.wait().unwrap().code(), Some(2));
    let sarif: serde_json::Value = serde_json::from_str(&read(at, "all.sarif")).unwrap();
    let results = sarif["runs"][0]["results"].as_array().unwrap();
    let wrong = results.iter().filter(|result| result["ruleId"] == "specification").count();
    assert_eq!(wrong, MANY / MISTAKE);
    assert!(results.len() > MANY, "{}", results.len());
    let junit = quick_junit::Report::deserialize_from_str(&read(at, "all.xml")).unwrap();
    assert_eq!(junit.test_suites.len(), MANY);
    assert!(read(at, "all.md").len() < 10_000);
}

fn read(folder: &Path, name: &str) -> String {
    fs::read_to_string(folder.join(name)).unwrap()
}

#[test]
fn the_order_is_that_of_the_names_for_any_number_of_threads() {
    let folder = tempfile::tempdir().unwrap();
    repository(folder.path(), 150);
    let with = |threads: &str| {
        let mut command = command(folder.path(), &["review", ".", "--as", "line"]);
        let output = command.env("RAYON_NUM_THREADS", threads).output().unwrap();
        tool::out(&output)
    };
    let alone = with("1");
    assert!(alone.lines().count() > 150);
    assert_eq!(alone, with("4"));
    let named = dryfit(folder.path(), &["review", "01", "00", "--as", "line"], "");
    assert!(tool::out(&named).starts_with("01/m-00100"), "{}", tool::out(&named));
}
