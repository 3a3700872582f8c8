//! Many specs and several layouts in one run.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing)]

mod tool;

use std::fs;
use std::path::Path;
use tool::{FIBRES, code, dryfit, err, mended, out, write};

/// Three specs in folders, the middle one wrong, and a library that the last one loads.
fn workshop() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    write(at, "workshop.yaml", "");
    write(at, "b/bad.machine.yaml", FIBRES);
    write(at, "c/wrong.machine.yaml", &FIBRES.replace("rotating", "rotatng"));
    write(at, "d/good.machine.yaml", &format!("libraries: [../parts/mine.yaml]\n{}", mended()));
    write(at, "parts/mine.yaml", "materials: {my_pom: {like: pom}}\n");
    write(at, "target/left-out.machine.yaml", FIBRES);
    write(at, ".hidden/left-out.machine.yaml", FIBRES);
    folder
}

fn read(folder: &Path, name: &str) -> String {
    fs::read_to_string(folder.join(name)).unwrap()
}

#[test]
fn several_layouts_come_of_one_run_and_the_last_line_sums_up() {
    let folder = workshop();
    let at = folder.path();
    let arguments =
        ["review", ".", "--as", "json", "--out", "all.json", "--as", "line", "--as", "terminal", "--out", "t"];
    let output = dryfit(at, &arguments, "");
    assert_eq!(code(&output), 2);
    let lines = out(&output);
    assert!(lines.starts_with("b/bad.machine.yaml:6:") && lines.contains("\nc/wrong.machine.yaml:6:"), "{lines}");
    let objects: Vec<serde_json::Value> =
        read(at, "all.json").lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    let files: Vec<&str> = objects.iter().map(|object| object["file"].as_str().unwrap()).collect();
    assert_eq!(files, ["b/bad.machine.yaml", "c/wrong.machine.yaml", "d/good.machine.yaml"]);
    assert!(read(at, "t").contains("── d/good.machine.yaml"));
    let summary = "dryfit: reviewed 2 of 3 specs: 1 fails · 0 thin · 1 sound · 0 not judged; exit code 2\n";
    assert_eq!(err(&output), summary);
}

/// A reader of lines need not know how many specs the folder holds today.
#[test]
fn a_folder_with_one_spec_is_laid_out_like_one_with_many() {
    let folder = tempfile::tempdir().unwrap();
    write(folder.path(), "bad.machine.yaml", FIBRES);
    let all = dryfit(folder.path(), &["review", "--as", "json"], "");
    assert_eq!(out(&all).lines().count(), 1);
    let one = dryfit(folder.path(), &["review", "--as", "json", "bad.machine.yaml"], "");
    assert!(out(&one).lines().count() > 10 && err(&one).is_empty(), "{}", err(&one));
}

#[test]
fn a_spec_that_cannot_be_read_shows_in_its_place_and_stops_nothing() {
    let folder = workshop();
    let at = folder.path();
    let arguments =
        ["review", "--as", "line", "b/bad.machine.yaml", "none.machine.yaml", "parts", "b", "b/bad.machine.yaml"];
    let output = dryfit(at, &arguments, "");
    assert_eq!(code(&output), 2);
    let lines: Vec<String> = out(&output).lines().map(str::to_owned).collect();
    assert_eq!(lines.len(), 4, "{lines:?}");
    assert_eq!(lines[1], "none.machine.yaml:1:1: error: the file cannot be read: it does not exist");
    assert!(lines[0] == lines[2] && lines[2] == lines[3]);
    let data = dryfit(at, &["review", "--as", "json", "none.machine.yaml"], "");
    let data: serde_json::Value = serde_json::from_str(&out(&data)).unwrap();
    assert_eq!(data["complaints"][0]["says"], "the file cannot be read: it does not exist");
}

#[test]
fn a_spec_is_reviewed_if_it_or_its_library_is_in_the_list() {
    let folder = workshop();
    let at = folder.path();
    let reviewed = |list: &str, from: &str| {
        let output = dryfit(
            &at.join(from),
            &["review", "--as", "json", "--changed-since", "-", &at.display().to_string()],
            list,
        );
        let files: Vec<String> = out(&output)
            .lines()
            .map(|line| serde_json::from_str::<serde_json::Value>(line).unwrap()["file"].as_str().unwrap().to_owned())
            .map(|file| Path::new(&file).file_stem().unwrap().to_str().unwrap().to_owned())
            .collect();
        (files.join(" "), code(&output), err(&output))
    };
    let is = |list: &str, from: &str| reviewed(list, from).0;
    assert_eq!(is("b/bad.machine.yaml\n", ""), "bad.machine");
    assert_eq!(is("parts/mine.yaml\n", ""), "good.machine");
    assert_eq!(is("parts/mine.yaml\0c/wrong.machine.yaml\0", ""), "wrong.machine good.machine");
    // The list counts from the root of the version control, the command runs in a folder below it.
    assert_eq!(is("parts/mine.yaml\n", "parts"), "good.machine");
    assert_eq!(is("mine.yaml\n", "parts"), "good.machine");
    assert_eq!(is(&format!("{}\n", at.join("b/bad.machine.yaml").display()), ""), "bad.machine");
    assert_eq!(is("workshop.yaml\n", ""), "bad.machine wrong.machine good.machine");
    let (none, code, says) = reviewed("README.md\n", "");
    assert_eq!((none.as_str(), code), ("", 0));
    assert!(says.contains("reviewed 0 specs") && says.contains("3 unchanged and left out"), "{says}");
    // A library that is gone is one that the spec would load.
    fs::remove_file(at.join("parts/mine.yaml")).unwrap();
    assert_eq!(is("parts/mine.yaml\n", ""), "good.machine");
    let none = dryfit(at, &["review", "--changed-since", "no-list"], "");
    assert_eq!(tool::code(&none), 2);
    assert!(err(&none).contains("--changed-since: no-list: it does not exist"), "{}", err(&none));
}

#[cfg(target_os = "linux")]
mod full_and_closed {
    use super::*;
    use std::io::{BufRead, BufReader, Read};
    use std::process::Stdio;
    use tool::command;

    #[test]
    fn a_full_disk_is_told() {
        let folder = workshop();
        let at = folder.path();
        let output = dryfit(at, &["review", "b", "--as", "json", "--out", "/dev/full", "--as", "line"], "");
        assert_eq!(code(&output), 3);
        assert!(err(&output).contains("/dev/full cannot be written: no space is left"), "{}", err(&output));
        assert!(out(&output).contains("wheel_on_axle"), "the other layout is whole");
        let full = fs::File::options().write(true).open("/dev/full").unwrap();
        let mut child = command(at, &["review", "b", "--as", "line"]).stdout(full).spawn().unwrap();
        let mut says = String::new();
        child.stderr.take().unwrap().read_to_string(&mut says).unwrap();
        assert_eq!(child.wait().unwrap().code(), Some(3));
        assert!(says.contains("standard output cannot be written: no space is left"), "{says}");
    }

    #[test]
    fn a_folder_that_takes_no_file_is_told_before_the_work() {
        let folder = workshop();
        let at = folder.path();
        let output = dryfit(at, &["review", "b", "--out", "/proc/nowhere"], "");
        assert_eq!(code(&output), 2);
        assert!(err(&output).contains("/proc/nowhere cannot be written: "), "{}", err(&output));
        let output = dryfit(at, &["review", "b", "--out", "parts"], "");
        assert_eq!(code(&output), 2);
        assert!(err(&output).contains("parts cannot be written: it is a folder"), "{}", err(&output));
    }

    /// As with `| head -n 1`: the reader goes, and the exit code is still that of the whole review.
    #[test]
    fn a_closed_pipe_is_no_failure() {
        let folder = tempfile::tempdir().unwrap();
        let at = folder.path();
        for number in 0..40 {
            write(at, &format!("{number:02}.machine.yaml"), &mended());
        }
        write(at, "99.machine.yaml", FIBRES);
        let mut child = command(at, &["review"]).stdout(Stdio::piped()).spawn().unwrap();
        let mut first = String::new();
        BufReader::with_capacity(16, child.stdout.take().unwrap()).read_line(&mut first).unwrap();
        let output = child.wait_with_output().unwrap();
        assert!(first.contains("00.machine.yaml"), "{first}");
        assert_eq!(code(&output), 1);
        assert!(err(&output).contains("reviewed 41 specs: 1 fails") && err(&output).lines().count() == 1);
    }
}
