//! The first screen, and how to see more of it.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing)]

mod tool;

use tool::{FIBRES, answer, code, command, dryfit, err, mended, out, root, write};

const SPECS: [&str; 5] = [
    "examples/hut-hauler/as-drawn.machine.yaml",
    "examples/hut-hauler/revised.machine.yaml",
    "examples/reed-cutter/as-drawn.machine.yaml",
    "examples/reed-cutter/revised.machine.yaml",
    "examples/first/forty-lines.machine.yaml",
];

fn review(spec: &str, more: &[&str], width: &str) -> String {
    let arguments: Vec<&str> = ["review", spec].into_iter().chain(more.iter().copied()).collect();
    let mut command = command(&root(), &arguments);
    command.env("COLUMNS", width);
    out(&answer(&mut command, ""))
}

#[test]
fn it_is_one_screen_of_forty_lines_at_eighty_columns() {
    for spec in SPECS {
        let text = review(spec, &["--as", "digest"], "80");
        assert!(text.lines().count() <= 40, "{spec}: {} lines\n{text}", text.lines().count());
        let wide = text.lines().find(|line| line.chars().count() > 80);
        assert_eq!(wide, None, "{spec}");
        assert!(text.contains("--as terminal"), "it does not say how to see more: {text}");
    }
}

#[test]
fn each_number_of_it_shows_that_finding_whole() {
    let spec = SPECS[0];
    let text = review(spec, &["--as", "digest"], "100");
    let listed = text.lines().skip_while(|line| *line != "Gravest first:").skip(1);
    let numbers: Vec<(String, String)> = listed
        .filter_map(|line| {
            let (number, headline) = line.trim_start().split_once(' ')?;
            number.parse::<usize>().ok()?;
            Some((number.to_owned(), headline.split(':').next()?.to_owned()))
        })
        .collect();
    assert_eq!(numbers.len(), 10, "{text}");
    assert_eq!(numbers[0].0, "1");
    for (number, thing) in numbers.iter().take(3) {
        let whole = review(spec, &["--only", number], "200");
        assert_eq!(whole.matches("sources: `dryfit rule").count(), 1, "{number}: {whole}");
        assert!(whole.contains(&format!("]: {thing}")), "{number} {thing}: {whole}");
    }
    let of_thing = review(spec, &["--only", &numbers[0].1], "200");
    assert!(of_thing.matches("sources: `dryfit rule").count() >= 1, "{of_thing}");
    let of_area = review(spec, &["--only", "whole_machine"], "200");
    assert!(of_area.matches("[task]").count() > 0 && !of_area.contains("[hub-torque]"), "{of_area}");
    assert!(review(spec, &["--only", "no_such_thing"], "200").contains("names no finding"));
    // What is not judged is told as such, and what is sound is counted: neither reads as nothing.
    let open = review(spec, &["--only", "coolant-compatibility"], "200");
    assert!(open.contains("not judged: ") && !open.contains("names no finding"), "{open}");
    assert!(review(SPECS[3], &["--only", "gear-root-strength"], "200").contains("checks are sound"));
}

#[test]
fn a_choice_of_findings_is_refused_where_all_are_always_told() {
    let output = dryfit(&root(), &["review", SPECS[3], "--only", "1", "--as", "json"], "");
    assert_eq!((code(&output), out(&output).as_str()), (2, ""));
    assert!(err(&output).contains("always tell everything"));
}

#[test]
fn what_a_case_cannot_do_stands_before_what_it_can() {
    let text = review(SPECS[0], &["--as", "digest"], "80");
    let tasks: Vec<&str> =
        text.lines().skip_while(|line| *line != "Tasks:").skip(1).take_while(|line| line.starts_with("  ")).collect();
    let climb = tasks.iter().find(|line| line.starts_with("  climb:")).unwrap();
    assert!(climb.contains(": no, it rolls off"), "{climb}");
    let (no, yes) =
        (tasks.iter().rposition(|line| line.contains(": no,")), tasks.iter().position(|line| !line.contains(": no,")));
    assert!(no < yes, "{tasks:#?}");
}

#[test]
fn several_specs_have_a_line_each() {
    let folder = tempfile::tempdir().unwrap();
    write(folder.path(), "a.machine.yaml", FIBRES);
    write(folder.path(), "b.machine.yaml", &mended());
    write(folder.path(), "c.machine.yaml", "machine: [");
    let output = dryfit(folder.path(), &["review", ".", "--as", "digest"], "");
    let text = out(&output);
    assert_eq!(text.lines().count(), 3, "{text}");
    assert!(text.contains("a.machine.yaml: 1 fails") && text.contains("c.machine.yaml: not reviewed"), "{text}");
    assert_eq!(code(&output), 2);
}

#[test]
fn a_spec_that_cannot_be_read_is_answered_in_words() {
    let folder = tempfile::tempdir().unwrap();
    write(folder.path(), "a.machine.yaml", &FIBRES.replace("rotating", "rotatng"));
    let text = out(&dryfit(folder.path(), &["review", "a.machine.yaml", "--as", "digest"], ""));
    assert!(text.starts_with("a.machine.yaml:6:") && text.contains("rotatng"), "{text}");
    assert!(text.contains("one thing keeps"), "{text}");
}
